"""Station of the centre of pressure at top speed."""

from __future__ import annotations

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.figures.steps import pressure_steps
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.stability import stability
from slipfit.units import LENGTH_MM


def _value(p: Performance) -> Array:
    return stability(p).pressure_station_m


def _cause(p: Performance) -> str:
    f = stability(p).forces
    total = f.body_N + f.fins_N + f.rotors_N
    return f"{shown(100 * f.rotors_N / total, 2)} % of the side force is the rotors' own"


def _explain(p: Performance) -> tuple[Step, ...]:
    return pressure_steps(p)


KIND = FigureKind(
    id="pressure_station",
    label="centre of pressure flat out, behind the nose plane",
    display=LENGTH_MM,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Side forces of bodies and rotors, see Stability",
)
