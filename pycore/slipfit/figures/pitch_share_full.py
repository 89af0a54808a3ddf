"""Extra thrust of the harder working row of motors at top speed."""

from __future__ import annotations

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.stability import stability
from slipfit.units import PERCENT


def _value(p: Performance) -> Array:
    return stability(p).front_share - 1.0


def _cause(p: Performance) -> str:
    row = "front" if float(stability(p).lever_m[0, 0]) > 0.0 else "back"
    return f"what the {row} motors must give above the mean to hold the incidence"


def _explain(p: Performance) -> tuple[Step, ...]:
    s = stability(p)
    f = s.forces
    total = f.body_N + f.fins_N + f.rotors_N
    return (
        Step(
            words="The side force turns the frame about its balance point.",
            formula="M = N (X − X balance)",
            numbers=f"{shown(total)} N × {shown(s.lever_m * 1e3)} mm",
        ),
        Step(
            words="Front and back motors hold it by a difference of thrust.",
            formula="ΔT = M y / Σ y²",
            numbers=f"{shown(100 * (s.front_share - 1))} % of {shown(p.top.trim.thrust_N)} N",
        ),
    )


KIND = FigureKind(
    id="pitch_share_full",
    label="extra thrust that holds the nose, flat out",
    display=PERCENT,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Side forces of bodies and rotors, see Stability",
)
