"""The run-up: speed, time and energy over the distance from rest, at full throttle."""

from __future__ import annotations

import numpy as np

from slipfit.charts.chart import Chart, Mark, Series, band, gaps
from slipfit.flight.dash import ENDS, NEARLY, Dash, dash
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import DISTANCE, ENERGY, SECONDS, SPEED, Display

POINTS = 41


def dash_chart(p: Performance, samples: Performance | None) -> Chart:
    """The chart of a build, with 10-90 % bands over the same distance where samples are given."""
    run = dash(p)
    known = bool(np.isfinite(run.distance_m[0, -1]))
    # closer together at the start, where the speed rises fastest
    end = float(run.distance_m[0, -1]) if known else 1.0
    x = end * np.linspace(0.0, 1.0, POINTS) ** 2

    def over(found: Dash, values: Array) -> Array:
        return np.array(
            [
                np.interp(x, along, row, right=np.nan)
                for along, row in zip(found.distance_m, values, strict=True)
                if np.isfinite(along[-1])
            ]
        ).reshape(-1, POINTS)

    def series(id: str, label: str, display: Display, pick: str) -> Series:
        values = over(run, getattr(run, pick)) if known else np.full((1, POINTS), np.nan)
        low: tuple[float | None, ...] = ()
        high: tuple[float | None, ...] = ()
        if samples is not None and known:
            drawn = over(dash(samples), getattr(dash(samples), pick))
            if len(drawn):
                low, high = band(drawn, np.isfinite(drawn))
        return Series(
            id=id,
            label=label,
            display=display,
            values=gaps(values[0], np.isfinite(values[0])),
            low=low,
            high=high,
        )

    return Chart(
        id="dash",
        title="Run-up at full throttle",
        caption=_caption(p, run, known),
        shape="curves",
        x_label="distance from rest",
        x_display=DISTANCE,
        x=tuple(float(v) for v in x),
        series=(
            series("speed", "speed", SPEED, "speed_m_s"),
            series("time", "time", SECONDS, "time_s"),
            series("energy", "energy from the pack", ENERGY, "energy_J"),
        ),
        marks=_marks(p, run) if known else (),
    )


def _marks(p: Performance, run: Dash) -> tuple[Mark, ...]:
    marks = []
    if p.build.chase > 0.0:
        at = float(run.at_speed(run.distance_m, p.build.chase)[0, 0])
        if np.isfinite(at):
            marks.append(Mark(label="chase speed", x=at))
    nearly = float(run.at(run.distance_m, NEARLY)[0, 0])
    marks.append(Mark(label=f"{NEARLY:.0%} of top speed", x=nearly))
    marks.append(Mark(label=f"{ENDS:.0%}", x=float(run.distance_m[0, -1])))
    return tuple(marks)


def _caption(p: Performance, run: Dash, known: bool) -> str:
    if not p.can_hover[0, 0]:
        return "This build cannot hold its weight, so there is no run-up to draw."
    if not known:
        return "Full throttle in flight passes the rotor model's range, so there is no run-up."
    s = float(run.at(run.distance_m, NEARLY)[0, 0])
    t = float(run.at(run.time_s, NEARLY)[0, 0])
    last = float(run.distance_m[0, -1])
    speed = SPEED.text(NEARLY * float(p.top_speed_m_s[0, 0]), "metric")
    return (
        f"From rest to {speed} in {SECONDS.text(t, 'metric')} and {DISTANCE.text(s, 'metric')}; "
        f"the last four hundredths take {DISTANCE.text(last - s, 'metric')} more."
    )
