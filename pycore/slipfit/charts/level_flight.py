"""Level flight: pack power, motor current and throttle over speed, with where limits bite."""

from __future__ import annotations

import numpy as np

from slipfit.charts.chart import Chart, Mark, Series, band, gaps
from slipfit.flight.inputs import esc_of
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import CURRENT, PERCENT, POWER, SPEED, Display


def level_flight(p: Performance, samples: Performance | None) -> Chart:
    """The chart of a build, with 10-90 % bands where samples are given."""

    def series(id: str, label: str, display: Display, pick: str) -> Series:
        flyable = p.curve.flyable[0]
        low, high = band(_pick(samples, pick), samples.curve.flyable) if samples else ((), ())
        return Series(
            id=id,
            label=label,
            display=display,
            values=gaps(_pick(p, pick)[0], flyable),
            low=low,
            high=high,
        )

    return Chart(
        id="level_flight",
        title="Level flight",
        caption=_caption(p),
        shape="curves",
        x_label="speed",
        x_display=SPEED,
        x=tuple(float(v) for v in p.speeds_m_s),
        series=(
            series("power", "power from the pack", POWER, "power"),
            series("current", "current per motor", CURRENT, "current"),
            series("throttle", "throttle", PERCENT, "throttle"),
        ),
        marks=_marks(p),
    )


def _pick(p: Performance, what: str) -> Array:
    drive = p.curve.drive
    return {
        "power": drive.pack_power_W,
        "current": drive.motor_current_A,
        "throttle": drive.duty,
    }[what]


def _marks(p: Performance) -> tuple[Mark, ...]:
    if not p.can_hover[0, 0]:
        return ()
    marks = [Mark(label="best range", x=float(p.cruise_speed_m_s[0, 0]))]
    rating = esc_of(p.build).continuous_A
    over = np.nonzero(p.curve.flyable[0] & (p.curve.drive.motor_current_A[0] > rating))[0]
    if len(over) and over[0] > 0:
        k = int(over[0])
        i = p.curve.drive.motor_current_A[0]
        share = (rating - i[k - 1]) / (i[k] - i[k - 1])
        x = p.speeds_m_s[k - 1] + share * (p.speeds_m_s[k] - p.speeds_m_s[k - 1])
        marks.append(Mark(label="ESC rating", x=float(x)))
    marks.append(Mark(label="full throttle", x=float(p.top_speed_m_s[0, 0])))
    return tuple(marks)


def _caption(p: Performance) -> str:
    if not p.can_hover[0, 0]:
        return "This build cannot hold its weight, so there is no level flight to draw."
    hover = float(p.hover.drive.pack_power_W[0, 0])
    power = np.where(p.curve.flyable[0], p.curve.drive.pack_power_W[0], np.inf)
    least, k = float(np.min(power)), int(np.argmin(power))
    top = float(p.top.drive.pack_power_W[0, 0])
    if k == 0:
        return (
            f"Hover asks for {hover:.0f} W, the least of all speeds; flat out the pack gives "
            f"{top / hover:.1f} times that."
        )
    speed = float(p.speeds_m_s[k])
    return (
        f"Power falls from {hover:.0f} W in hover to {least:.0f} W near "
        f"{SPEED.text(speed, 'metric')}, and reaches {top:.0f} W flat out."
    )
