"""Power on a stated climb at the speed of best range."""

from __future__ import annotations

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.figures.steps import slope_steps
from slipfit.flight.climb import CLIMB, paths
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import POWER, SPEED


def _value(p: Performance) -> Array:
    return paths(p).power_W[:, CLIMB : CLIMB + 1]


def _cause(p: Performance) -> str:
    ratio = float(_value(p)[0, 0] / p.cruise.drive.pack_power_W[0, 0])
    speed = SPEED.text(float(p.cruise_speed_m_s[0, 0]), "metric")
    return f"{shown(ratio, 2)} times level flight at the same {speed}"


def _explain(p: Performance) -> tuple[Step, ...]:
    return slope_steps(p, CLIMB, "30° above")


def _missing(p: Performance) -> str:
    return (
        "full throttle does not hold the speed of best range on that climb"
        if p.can_hover[0, 0]
        else ""
    )


KIND = FigureKind(
    id="climb_power",
    label="power on a climb of 30° at the speed of best range",
    display=POWER,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Force balance on a sloping path, see Level flight",
    missing=_missing,
)
