"""Speed on a stated climb at full throttle."""

from __future__ import annotations

from slipfit.figures.figure import FigureKind, Step, shown
from slipfit.figures.steps import missing_flat_out
from slipfit.flight.climb import STATED, paths
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import CLIMB, SPEED


def _value(p: Performance) -> Array:
    return paths(p).speed_m_s[:, STATED : STATED + 1]


def _cause(p: Performance) -> str:
    rise = float(paths(p).rise_m_s[0, STATED])
    share = float(_value(p)[0, 0] / p.top_speed_m_s[0, 0])
    return f"rising {CLIMB.text(rise, 'metric')}; {share:.0%} of the level top speed"


def _explain(p: Performance) -> tuple[Step, ...]:
    found = paths(p)
    return (
        Step(
            words="The force balance on a path 30° above the horizon, throttle fully open.",
            formula="N + n H = W cos(α + γ), n T = W sin(α + γ) + A, duty = 1",
            numbers=f"{shown(found.speed_m_s[0, STATED])} m/s along the path, "
            f"{shown(found.power_W[0, STATED], 4)} W from the pack",
        ),
    )


KIND = FigureKind(
    id="climb_speed",
    label="speed on a climb of 30° at full throttle",
    display=SPEED,
    value=_value,
    cause=_cause,
    explain=_explain,
    source="Force balance on a sloping path, see Level flight",
    missing=missing_flat_out,
)
