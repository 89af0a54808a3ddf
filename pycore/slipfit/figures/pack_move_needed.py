"""How far the pack must move for the wanted margin."""

from __future__ import annotations

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.stability import body_diameter, stability
from slipfit.units import LENGTH_MM


def _value(p: Performance) -> Array:
    return stability(p).pack_move_m


def _cause(p: Performance) -> str:
    won = float(stability(p).margin_per_pack_m[0, 0])
    return f"each 10 mm that the pack moves forward wins {won * 0.01:.2f} diameters"


def _explain(p: Performance) -> tuple[Step, ...]:
    s = stability(p)
    return (
        Step(
            words="Moving the pack moves the balance point by its share of the mass.",
            formula="Δ = (margin wanted − margin) d m / m pack",
            numbers=f"{shown(s.margin_per_pack_m)} diameters per metre; the margin is "
            f"{shown(s.static_margin)}, wanted {p.build.frame.static_margin:g}",
        ),
    )


def _missing(p: Performance) -> str:
    if body_diameter(p.build.frame) is None:
        return "the frame has no streamlined body whose diameters could be counted"
    return ""


KIND = FigureKind(
    id="pack_move_needed",
    label="pack towards the nose for the wanted margin",
    display=LENGTH_MM,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Side forces of bodies and rotors, see Stability",
    missing=_missing,
)
