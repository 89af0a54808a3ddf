"""Where the drag comes from: the causes of axial drag over speed, laid on each other."""

from __future__ import annotations

import numpy as np

from slipfit.charts.chart import Chart, Series, gaps
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.units import FORCE, SPEED

SHOWN_CAUSES = 6


def drag_split(p: Performance, samples: Performance | None) -> Chart:
    """The chart of a build; the largest causes at top speed have a layer each."""
    causes = {name: force[0] for name, force in p.curve.trim.drag_causes_N.items()}
    at_top = {name: float(f[0, 0]) for name, f in p.top.trim.drag_causes_N.items()}
    ranked = sorted(causes, key=lambda name: -at_top[name])
    layers: list[tuple[str, Array]] = [(name, causes[name]) for name in ranked[:SHOWN_CAUSES]]
    if ranked[SHOWN_CAUSES:]:
        rest: Array = np.sum([causes[name] for name in ranked[SHOWN_CAUSES:]], axis=0)
        layers.append(("everything else", rest))
    flyable = p.curve.flyable[0]
    total = sum(at_top.values())
    caption = "This build cannot hold its weight, so there is no level flight to draw."
    if p.can_hover[0, 0]:
        largest = ", ".join(f"{at_top[name] / total:.0%} {name}" for name in ranked[:2])
        caption = f"Flat out the air holds the frame back with {total:.1f} N: {largest}."
        if not ranked:
            caption = "The frame has no bodies in the air stream, so there is no drag to draw."
    return Chart(
        id="drag_split",
        title="Drag by cause",
        caption=caption,
        shape="layers",
        x_label="speed",
        x_display=SPEED,
        x=tuple(float(v) for v in p.speeds_m_s),
        series=tuple(
            Series(id=f"cause{k}", label=name, display=FORCE, values=gaps(force, flyable))
            for k, (name, force) in enumerate(layers)
        ),
    )
