"""Area of all fins for the static margin that the frame asks for."""

from __future__ import annotations

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.figures.steps import pressure_steps
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.stability import body_diameter, fin_area, stability
from slipfit.units import AREA


def _value(p: Performance) -> Array:
    return stability(p).fin_area_m2


def _cause(p: Performance) -> str:
    area = fin_area(p.build.frame)
    return f"it has {shown(area * 1e4)} cm² now; scaled in their place and proportions"


def _explain(p: Performance) -> tuple[Step, ...]:
    f = stability(p).forces
    return (
        *pressure_steps(p),
        Step(
            words="The fins' force grows with their area; it is scaled until the centre of "
            "pressure lies where the margin wants it.",
            formula="k = (X N rest − M rest) / (M fins − X N fins)",
            numbers=f"fins {shown(f.fins_N)} N, the rest {shown(f.body_N + f.rotors_N)} N; "
            f"wanted {p.build.frame.static_margin:g} diameters",
        ),
    )


def _missing(p: Performance) -> str:
    if fin_area(p.build.frame) <= 0.0:
        return "the frame has no fins that could be larger or smaller"
    if body_diameter(p.build.frame) is None:
        return "the frame has no streamlined body whose diameters could be counted"
    return "no fin at this place gives the margin"


KIND = FigureKind(
    id="fin_area_needed",
    label="fin area for the wanted margin, all fins together",
    display=AREA,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Side forces of bodies and rotors, see Stability",
    missing=_missing,
)
