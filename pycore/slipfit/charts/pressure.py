"""Where the side force acts over incidence, against the balance point."""

from __future__ import annotations

import numpy as np

from slipfit.charts.chart import Chart, Mark, Series, gaps
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.stability import body_diameter, pressure_lever
from slipfit.units import ANGLE, LENGTH_MM

SLOWEST = 0.12  # of top speed; below it the side force is next to nothing


def pressure(p: Performance, samples: Performance | None) -> Chart:
    """The chart of a build, through the states of level flight from fast to slow."""
    speeds, flyable = p.speeds_m_s, p.curve.flyable[0]
    fast = flyable & (speeds >= SLOWEST * np.nanmax(speeds)) & (speeds > 0.0)
    alpha = p.curve.trim.incidence_rad[0]
    if not (p.can_hover[0, 0] and fast.sum() > 1):
        fast = np.zeros_like(fast)
    whole, frame = (lever[0] for lever in pressure_lever(p, slice(None)))
    order = np.argsort(alpha[fast])
    if len(order):
        x, whole, frame = (values[fast][order] for values in (alpha, whole, frame))
    else:  # nothing to draw, on an axis all the same
        x = np.array([0.0, np.pi / 2])
        whole = frame = np.full(2, np.nan)

    def series(id: str, label: str, values: Array) -> Series:
        shown = np.isfinite(values)
        return Series(
            id=id,
            label=label,
            display=LENGTH_MM,
            values=gaps(np.where(shown, values, 0.0), shown),
        )

    return Chart(
        id="pressure",
        title="Centre of pressure behind the balance point",
        caption=_caption(p, float(whole[0])),
        shape="curves",
        x_label="incidence between air and axis, level flight",
        x_display=ANGLE,
        x=tuple(float(a) for a in x),
        series=(
            series("whole", "with the rotors", whole),
            series("frame", "airframe alone", frame),
            series("balance", "balance point", 0.0 * whole),
        ),
        marks=_marks(p),
        one_panel=True,
    )


def _marks(p: Performance) -> tuple[Mark, ...]:
    if not p.can_hover[0, 0]:
        return ()
    return (
        Mark(label="flat out", x=float(p.top.trim.incidence_rad[0, 0])),
        Mark(label="cruise", x=float(p.cruise.trim.incidence_rad[0, 0])),
    )


def _caption(p: Performance, lever_m: float) -> str:
    if not p.can_hover[0, 0] or not np.isfinite(lever_m):
        return "This build cannot hold its weight, so there is no level flight to draw."
    where = "behind" if lever_m > 0.0 else "ahead of"
    helps = "the air helps to hold the nose" if lever_m > 0.0 else "the motors must hold the nose"
    text = (
        f"Flat out the side force acts {LENGTH_MM.text(abs(lever_m), 'metric')} {where} the "
        f"balance point: {helps}."
    )
    diameter = body_diameter(p.build.frame)
    if diameter:
        text += f" That is {lever_m / diameter:.2f} body diameters.".replace("-", "−")
    return text
