"""Climbing at full throttle: rate of climb, slope and power over the speed forwards."""

from __future__ import annotations

from typing import Final

import numpy as np

from slipfit.charts.chart import Chart, Mark, Series, band, gaps
from slipfit.flight.climb import ANGLES_RAD, FULL, Paths, paths
from slipfit.flight.envelope import envelope
from slipfit.flight.flat_out import along_nodes
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import ANGLE, CLIMB, POWER, SPEED, Display

POINTS: Final = 33
_FINE: Final = np.linspace(0.0, np.pi / 2, 61)


def climb_chart(p: Performance, samples: Performance | None) -> Chart:
    """The chart of a build, with 10-90 % bands where samples are given."""
    found = paths(p)
    known = bool(np.isfinite(found.speed_m_s[0, FULL]).all())
    x = np.linspace(0.0, float(found.speed_m_s[0, 0]) if known else 1.0, POINTS)

    def series(id: str, label: str, display: Display) -> Series:
        values = _over(found, id, x) if known else np.full((1, POINTS), np.nan)
        low: tuple[float | None, ...] = ()
        high: tuple[float | None, ...] = ()
        if samples is not None and known:
            drawn = _over(paths(samples), id, x)
            low, high = band(drawn, np.isfinite(drawn))
        return Series(
            id=id, label=label, display=display, low=low, high=high,
            values=gaps(values[0], np.isfinite(values[0])),
        )  # fmt: skip

    return Chart(
        id="climb",
        title="Climbing at full throttle",
        caption=_caption(p, found, known),
        shape="curves",
        x_label="speed over the ground, no wind",
        x_display=SPEED,
        x=tuple(float(v) for v in x),
        series=(
            series("rise", "rate of climb", CLIMB),
            series("slope", "path above the horizon", ANGLE),
            series("power", "power from the pack", POWER),
        ),
        marks=_marks(p, x[-1]) if known else (),
    )


def _over(found: Paths, what: str, x: Array) -> Array:
    """Values over the speed forwards, (samples, x); NaN beyond what a sample reaches."""
    speed, power = (
        along_nodes(ANGLES_RAD, v[:, FULL], _FINE) for v in (found.speed_m_s, found.power_W)
    )
    forward, rows = speed * np.cos(_FINE), {"rise": speed * np.sin(_FINE), "power": power}
    values = rows.get(what, np.broadcast_to(_FINE, speed.shape))
    return np.array(
        [
            np.interp(x, f[::-1], row[::-1], right=np.nan)
            if np.isfinite(f).all()
            else np.full(len(x), np.nan)
            for f, row in zip(forward, values, strict=True)
        ]
    )


def _marks(p: Performance, end: float) -> tuple[Mark, ...]:
    places = (("best range", float(p.cruise_speed_m_s[0, 0])), ("chase speed", p.build.chase))
    return tuple(Mark(label=label, x=x) for label, x in places if 0.0 < x < end)


def _caption(p: Performance, found: Paths, known: bool) -> str:
    if not p.can_hover[0, 0]:
        return "This build cannot hold its weight, so there is no climb to draw."
    if not known:
        return "Full throttle on a climb passes the rotor model's range, so there is no curve."
    up, top = float(envelope(p).climb_rate_m_s[0, 0]), float(p.top_speed_m_s[0, 0])
    said = f"Straight up {CLIMB.text(up, 'metric')}"
    chase = p.build.chase
    if 0.0 < chase < top:
        rise = float(_over(found, "rise", np.array([chase]))[0, 0])
        said += (
            f"; {CLIMB.text(rise, 'metric')} while still going forwards at "
            f"{SPEED.text(chase, 'metric')}, the chase speed"
        )
    return f"{said}; nothing is left for a climb at {SPEED.text(top, 'metric')}."
