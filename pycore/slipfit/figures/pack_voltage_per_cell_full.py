"""Voltage of one cell at top speed."""

from __future__ import annotations

import numpy as np

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.figures.steps import pack_age_steps
from slipfit.flight.inputs import pack_of
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import VOLTAGE


def _value(p: Performance) -> Array:
    cells = pack_of(p.build).cell_count
    return np.where(p.can_hover, p.top.drive.pack_voltage_V / cells, np.nan)


def _cause(p: Performance) -> str:
    return "at top speed, on the day's charge and pack temperature"


def _explain(p: Performance) -> tuple[Step, ...]:
    cells = pack_of(p.build).cell_count
    return (
        *pack_age_steps(p),
        Step(
            words="The pack's voltage under load over its cells in series.",
            formula="V pack / cells",
            numbers=f"{shown(p.top.drive.pack_voltage_V)} V / {cells}",
        ),
    )


KIND = FigureKind(
    id="pack_voltage_per_cell_full",
    label="voltage per cell under load, flat out",
    display=VOLTAGE,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Pack model, see Pack",
)
