"""Kinetic energy at top speed."""

from __future__ import annotations

from slipfit.constants import G0_M_S2
from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.figures.framing import first
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.rules import kinetic_energy
from slipfit.units import KINETIC


def _value(p: Performance) -> Array:
    return kinetic_energy(p, p.top_speed_m_s)


def _cause(p: Performance) -> str:
    drop = first(p.top_speed_m_s) ** 2 / (2 * G0_M_S2)
    return f"flat out, as after a fall of {shown(drop, 2)} m without air"


def _explain(p: Performance) -> tuple[Step, ...]:
    return (
        Step(
            words="Half the mass times the square of the speed.",
            formula="½ m V²",
            numbers=f"½ × {shown(p.inputs.mass_kg)} kg × ({shown(p.top_speed_m_s)} m/s)²",
        ),
    )


KIND = FigureKind(
    id="kinetic_energy",
    label="kinetic energy, flat out",
    display=KINETIC,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Definition",
)
