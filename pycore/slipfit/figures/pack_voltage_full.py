"""Pack voltage at top speed."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.figures.steps import pack_age_steps
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import VOLTAGE


def _value(p: Performance) -> Array:
    return np.where(p.can_hover, p.top.drive.pack_voltage_V, np.nan)


def _cause(p: Performance) -> str:
    open_circuit = shown(p.electric.open_circuit_V)
    return f"sags from {open_circuit} V at rest"


def _explain(p: Performance) -> tuple[Step, ...]:
    d = p.top.drive
    return (
        *pack_age_steps(p),
        Step(
            words="Voltage at rest for the day's charge, less current times resistance.",
            formula="V = E − I R",
            numbers=f"{shown(p.electric.open_circuit_V)} V − {shown(d.pack_current_A)} A × "
            f"{shown(np.asarray(p.electric.pack_resistance_ohm) * 1e3)} mΩ",
        ),
    )


KIND = FigureKind(
    id="pack_voltage_full",
    label="pack voltage under load, flat out",
    display=VOLTAGE,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Pack model, see Pack",
)
