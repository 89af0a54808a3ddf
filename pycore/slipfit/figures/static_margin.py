"""Static margin at top speed."""

from __future__ import annotations

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.figures.steps import pressure_steps
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.stability import body_diameter, stability
from slipfit.units import RATIO


def _value(p: Performance) -> Array:
    return stability(p).static_margin


def _cause(p: Performance) -> str:
    wanted = p.build.frame.static_margin
    return f"in body diameters; the frame asks for {wanted:g}, and less than 0 is unstable"


def _explain(p: Performance) -> tuple[Step, ...]:
    diameter = body_diameter(p.build.frame) or 0.0
    return (
        *pressure_steps(p),
        Step(
            words="How far it lies behind the balance point, in diameters of the body.",
            formula="(X − X balance) / d",
            numbers=f"{shown(stability(p).lever_m * 1e3)} mm / {shown(diameter * 1e3)} mm",
        ),
    )


def _missing(p: Performance) -> str:
    if body_diameter(p.build.frame) is None:
        return "the frame has no streamlined body whose diameters could be counted"
    return ""


KIND = FigureKind(
    id="static_margin",
    label="static margin, flat out",
    display=RATIO,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Side forces of bodies and rotors, see Stability",
    missing=_missing,
)
