"""Arms against propellers: what shakes an arm at each turning speed, and where it would answer."""

from __future__ import annotations

import numpy as np

from slipfit.charts.chart import Chart, Mark, Series
from slipfit.flight.inputs import prop_of
from slipfit.flight.performance import Performance
from slipfit.numerics import Array
from slipfit.structure import ArmMode, arm_modes
from slipfit.units import FREQUENCY, ROTATION

POINTS = 25
BEYOND = 1.08  # of full throttle standing still, where the axis ends


def campbell(p: Performance, samples: Performance | None) -> Chart:
    """The chart of a build: lines of once a turn and once a blade, and the arms' frequencies."""
    fastest = p.standing.omega_rad_s[0, 0]
    if p.can_hover[0, 0]:
        fastest = max(fastest, p.top.trim.omega_rad_s[0, 0])
    x = np.linspace(0.0, BEYOND * float(fastest), POINTS)
    blades = prop_of(p.build).blade_count
    turn = x / (2.0 * np.pi)
    modes = arm_modes(p.build)

    def series(id: str, label: str, values: Array) -> Series:
        return Series(id=id, label=label, display=FREQUENCY, values=tuple(float(v) for v in values))

    return Chart(
        id="campbell",
        title="Arms against propellers",
        caption=_caption(p, modes),
        shape="curves",
        x_label="turning speed",
        x_display=ROTATION,
        x=tuple(float(v) for v in x),
        series=(
            series("turn", "once a turn", turn),
            series("blade", f"once a blade, {blades} a turn", blades * turn),
            *(
                series(f"arm{k}", f"arm {mode.direction}", np.full(POINTS, mode.frequency_Hz))
                for k, mode in enumerate(modes[:2])
            ),
        ),
        marks=_marks(p),
        one_panel=True,
    )


def _marks(p: Performance) -> tuple[Mark, ...]:
    if not p.can_hover[0, 0]:
        return ()
    states = (("hover", p.hover), ("cruise", p.cruise), ("flat out", p.top))
    return tuple(
        Mark(label=label, x=float(state.trim.omega_rad_s[0, 0])) for label, state in states
    )


def _caption(p: Performance, modes: tuple[ArmMode, ...]) -> str:
    if not modes:
        return "The frame file describes no arm as a beam, so there is nothing to meet the lines."
    mode = modes[0]
    text = f"The {mode.name}, bends at about {mode.frequency_Hz:.0f} Hz"
    meets = mode.frequency_Hz * 2.0 * np.pi
    met = f"one turn meets that at {ROTATION.text(meets, 'metric')}"
    if not p.can_hover[0, 0]:
        return f"{text}; {met}."
    hover, top = p.hover.trim.omega_rad_s[0, 0], p.top.trim.omega_rad_s[0, 0]
    if meets < hover:
        where = "below hover, passed once at each start"
    elif meets > top:
        where = "above everything that level flight asks for"
    else:
        where = "between hover and full throttle: do not stay there"
    return f"{text}; {met}, {where}."
