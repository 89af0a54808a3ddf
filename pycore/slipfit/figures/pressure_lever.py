"""Centre of pressure behind the balance point at top speed."""

from __future__ import annotations

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.figures.steps import pressure_steps
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.stability import stability
from slipfit.units import LENGTH_MM


def _value(p: Performance) -> Array:
    return stability(p).lever_m


def _cause(p: Performance) -> str:
    lever = float(stability(p).lever_m[0, 0])
    if lever < 0.0:
        return "ahead of the balance point: the flight controller must hold the nose"
    return "behind the balance point: the air helps to hold the nose"


def _explain(p: Performance) -> tuple[Step, ...]:
    s = stability(p)
    return (
        *pressure_steps(p),
        Step(
            words="Less the balance point.",
            formula="X − X balance",
            numbers=f"{shown(s.pressure_station_m * 1e3)} mm − "
            f"{shown(s.balance_station_m * 1e3)} mm",
        ),
    )


KIND = FigureKind(
    id="pressure_lever",
    label="centre of pressure behind the balance point, flat out",
    display=LENGTH_MM,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Side forces of bodies and rotors, see Stability",
)
