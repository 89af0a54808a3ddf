"""A flat camera window, or an open lens port, in a shell that is otherwise streamlined."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from slipfit.errors import require_range
from slipfit.numerics import Real, as_real
from slipfit.physics.air import Air
from slipfit.physics.body.loads import BodyLoads, flow_past, require, shape_key

_WHO: Final = "Camera window"
_FLAT: Final = 0.35  # memory: flat windscreens on a rounded nose, 0.2 to 0.5 of the facet
_OPEN: Final = 1.17  # hemisphere, open or flat side to the flow; Munson, figure 9.20


@dataclass(frozen=True, kw_only=True)
class Window:
    """A flat window facing the oncoming axial flow."""

    area_m2: float = shape_key("area of the flat pane or opening", "area", shown="cm2")
    facing: float = shape_key(
        "share of it that faces the axial flow: 1 square to it, sin of the slope where it leans",
        "ratio",
        1.0,
    )
    open_port: bool = shape_key("true where the lens sits in an open hole", "flag", False)

    def __post_init__(self) -> None:
        require(1e-7 <= self.area_m2 <= 0.1, _WHO, "area_m2", "1e-7 to 0.1 m2", self.area_m2)
        require(0.0 <= self.facing <= 1.0, _WHO, "facing", "0 to 1", self.facing)


def window_drag(facing: Real, open_port: bool = False) -> Real:
    r"""Drag coefficient that a flat facet or an open port adds to a streamlined nose.

    $$ \Delta C_D = C_0 \sin^2\theta $$

    Parameters
    ----------
    facing : float or array, shape (...)
        Sine of the angle between pane and flow, $\sin\theta$: 1 square to the flow. [-]
    open_port : bool
        True for an open hole instead of a pane. [-]

    Returns
    -------
    drag_coefficient : float or array, same shape
        $\Delta C_D$ on the area projected along the flow over $\sin\theta$. [-]

    Validity
    --------
    0 <= facing <= 1; ValidityError outside. A pane gets 0.35 (memory, 0.2 to 0.5), an open hole
    the 1.17 of a cup, which is an upper bound: half the truth at worst.

    Source
    ------
    Memory for the pane; Munson et al., *Fundamentals of Fluid Mechanics*, figure 9.20, for the
    cup.

    Examples
    --------
    A pane that leans back by 45 deg:

    >>> window_drag(0.7071)
    0.175
    """
    require_range("window_drag", "facing", facing, 0.0, 1.0, "a sine")
    return as_real((_OPEN if open_port else _FLAT) * np.asarray(facing, dtype=float) ** 2)


def window_loads(shape: Window, axial_speed_m_s: Real, side_speed_m_s: Real, air: Air) -> BodyLoads:
    r"""Loads that a camera window adds to the body it sits in.

    $$ A = \tfrac12 \rho\, u |u|\, \Delta C_D\, S, \quad N = 0 $$

    Parameters
    ----------
    shape : Window
        The window. [-]
    axial_speed_m_s : float or array, shape (...)
        Air along the rotor axis, onto the window, $u$. [m/s]
    side_speed_m_s : float or array, shape (...)
        Air in the disk plane, $w$. [m/s]
    air : Air
        State of the air. [-]

    Returns
    -------
    loads : BodyLoads
        Axial force by cause; no normal force. [N]

    Validity
    --------
    Whole speed 0 to 200 m/s; ValidityError beyond. Both directions alike (from behind it would
    be less).

    Source
    ------
    Coefficient of `window_drag`.

    Examples
    --------
    A pane of 20 x 20 mm square to 80 m/s:

    >>> from slipfit.physics.air import air_of_day
    >>> pane = Window(area_m2=4e-4)
    >>> float(window_loads(pane, 80.0, 0.0, air_of_day()).axial_N)
    0.549
    """
    flow = flow_past(_WHO, axial_speed_m_s, side_speed_m_s, air)
    u = flow.axial_m_s
    drag = float(window_drag(shape.facing, shape.open_port)) * shape.area_m2
    axial_N = flow.pressure_Pa(u * np.abs(u)) * drag
    return BodyLoads(causes={"camera window": axial_N}, normal_N=np.zeros_like(axial_N))
