"""Where the camera looks over speed, and where in its picture the subject then is."""

from __future__ import annotations

import math

import numpy as np

from slipfit.charts.chart import Chart, Mark, Series, band, gaps
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.shot import axis_elevation, below_axis, shot_of
from slipfit.units import ANGLE, PERCENT, SPEED


def shot_chart(p: Performance, samples: Performance | None) -> Chart:
    """The chart of a build, with 10-90 % bands where samples are given."""
    elevation, place = _curves(p)
    flyable = p.curve.flyable
    seen = flyable & np.isfinite(place)
    bands: list[tuple[tuple[float | None, ...], tuple[float | None, ...]]] = [((), ()), ((), ())]
    if samples is not None:
        sampled, there = _curves(samples), samples.curve.flyable
        bands = [band(sampled[0], there), band(sampled[1], there & np.isfinite(sampled[1]))]
    return Chart(
        id="shot",
        title="Where the camera looks",
        caption=_caption(p),
        shape="curves",
        x_label="speed",
        x_display=SPEED,
        x=tuple(float(v) for v in p.speeds_m_s),
        series=(
            Series(
                id="axis",
                label="axis of the lens above the horizon",
                display=ANGLE,
                values=gaps(elevation[0], flyable[0]),
                low=bands[0][0],
                high=bands[0][1],
            ),
            Series(
                id="place",
                label="subject's height in the picture",
                display=PERCENT,
                values=gaps(place[0], seen[0]),
                low=bands[1][0],
                high=bands[1][1],
            ),
        ),
        marks=_marks(p),
    )


def _curves(p: Performance) -> tuple[Array, Array]:
    """Elevation of the axis and the subject's height in the picture, NaN out of it."""
    elevation = np.asarray(axis_elevation(p.build.uptilt_rad, p.curve.trim.tilt_rad))
    shot = shot_of(p)
    if shot is None:
        return elevation, np.full_like(elevation, np.nan)
    row = np.asarray(shot.view.row(below_axis(elevation, shot.wanted.depression_rad)))
    place = np.where(np.abs(row) <= 1.0, (1.0 - np.clip(row, -1.0, 1.0)) / 2.0, np.nan)
    return elevation, place


def _marks(p: Performance) -> tuple[Mark, ...]:
    shot = shot_of(p)
    if shot is None or not p.can_hover[0, 0]:
        return ()
    speed, top = float(shot.speed_m_s[0, 0]), float(p.top_speed_m_s[0, 0])
    marks = [Mark(label="subject", x=speed)] if speed <= top else []
    slowest, fastest = float(shot.slowest_m_s[0, 0]), float(shot.fastest_m_s[0, 0])
    if slowest > 0.01 * top:
        marks.append(Mark(label="comes into the picture", x=slowest))
    if fastest < 0.99 * top:
        marks.append(Mark(label="leaves it", x=fastest))
    return tuple(marks)


def _caption(p: Performance) -> str:
    shot = shot_of(p)
    if shot is None:
        return "There is no camera in this build, so there is no picture."
    if not p.can_hover[0, 0]:
        return "This build cannot hold its weight, so there is no level flight to film from."
    slowest, fastest = float(shot.slowest_m_s[0, 0]), float(shot.fastest_m_s[0, 0])
    lower = math.degrees(p.build.uptilt_rad) - math.degrees(float(p.top.trim.tilt_rad[0, 0]))
    sinks = (
        f"The axis sinks from {math.degrees(p.build.uptilt_rad):.0f}° in hover to "
        f"{lower:.0f}° flat out".replace("-", "−")
    )
    if not math.isfinite(slowest):
        return f"{sinks}; at this uptilt the subject is never in the picture."
    span = f"{SPEED.number(slowest, 'metric')} to {SPEED.text(fastest, 'metric')}"
    return f"{sinks}; the subject is in the picture from {span}."
