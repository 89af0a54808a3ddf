"""What each cause of drag costs: its force flat out, and the top speed that it takes away."""

from __future__ import annotations

import numpy as np

from slipfit.charts.chart import Chart, Series
from slipfit.flight.drag_cost import largest_causes, speed_cost
from slipfit.flight.performance import Performance
from slipfit.units import FORCE, SPEED_FINE


def drag_cost(p: Performance, samples: Performance | None) -> Chart:
    """The chart of a build, the largest cause first."""
    names = largest_causes(p) if p.can_hover[0, 0] else ()
    costs = speed_cost(p, names)[0] if names else np.zeros(0)
    forces = [float(p.top.trim.drag_causes_N[name][0, 0]) for name in names]
    caption = "This build cannot hold its weight, so there is no drag in level flight to share out."
    if names:
        caption = (
            f"Without the drag of “{names[0]}”, {FORCE.text(forces[0], 'metric')} flat out, the "
            "same build would "
        )
        caption += (
            f"fly {SPEED_FINE.text(float(costs[0]), 'metric')} faster. Costs do not add up: the "
            "second saving is worth a little more once the first is made."
            if np.isfinite(costs[0])
            else "fly faster, to where the rotor model ends."
        )
    return Chart(
        id="drag_cost",
        title="What each cause of drag costs",
        caption=caption,
        shape="bars",
        names=names,
        series=(
            Series(id="force", label="drag flat out", display=FORCE, values=tuple(forces)),
            Series(
                id="speed",
                label="top speed it costs",
                display=SPEED_FINE,
                values=tuple(float(c) if np.isfinite(c) else None for c in costs),
            ),
        ),
    )
