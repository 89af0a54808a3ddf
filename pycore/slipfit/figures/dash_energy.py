"""Energy of a run-up to nearly top speed."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.figures.steps import missing_flat_out, run_up_steps
from slipfit.flight.dash import NEARLY, dash
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import ENERGY


def _value(p: Performance) -> Array:
    d = dash(p)
    return d.at(d.energy_J, NEARLY)


def _cause(p: Performance) -> str:
    d = dash(p)
    held = np.asarray(p.inputs.capacity_C) * p.electric.open_circuit_V
    return f"{shown(100 * d.at(d.energy_J, NEARLY) / held, 2)} % of what the pack holds"


def _explain(p: Performance) -> tuple[Step, ...]:
    d = dash(p)
    return (
        *run_up_steps(p),
        Step(
            words="The pack's power over the time.",
            formula="E = ∫ P dt",
            numbers=f"{shown(d.at(d.energy_J, NEARLY) / 3600)} W·h to "
            f"{shown(d.at(d.speed_m_s, NEARLY))} m/s",
        ),
    )


def _missing(p: Performance) -> str:
    return missing_flat_out(p)


KIND = FigureKind(
    id="dash_energy",
    label="energy of a run-up to 95 % of top speed",
    display=ENERGY,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Level run-up at full throttle, see Run-up",
    missing=_missing,
)
