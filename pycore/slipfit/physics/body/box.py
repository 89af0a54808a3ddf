"""A bare box along the rotor axis: a pack on a plate, a camera, a stack without a shell."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

import numpy as np

from slipfit.errors import require_range
from slipfit.numerics import Real, as_real, pchip
from slipfit.physics.air import Air
from slipfit.physics.body.loads import BodyLoads, flow_past, require, shape_key

_WHO: Final = "Box"
# Depth along the flow over the side of a square face of the same area. 0: square plate, Matthews,
# figure 5.13b; 1: cube, Munson, figure 9.20; from 2 on: a round cylinder's (Munson, figure 9.20)
# times 1.13, the ratio of cube and cylinder at 1. Our reading across, no box data at hand.
_DEPTH: Final = np.array([0.0, 1.0, 2.0, 4.0])
_FACE: Final = np.array([1.17, 1.05, 0.95, 0.97])
# Edge radius over width of a square rod and its drag over that with sharp edges: Munson, fig. 9.19.
_ROUNDING: Final = np.array([0.0, 0.02, 0.17, 0.33])
_ROUNDED: Final = np.array([1.0, 2.0 / 2.2, 1.2 / 2.2, 1.0 / 2.2])


@dataclass(frozen=True, kw_only=True)
class Box:
    """A box whose sides lie along the axis, to the right and to the front."""

    length_m: float = shape_key("along the rotor axis", "length", shown="mm")
    width_m: float = shape_key("to the right", "length", shown="mm")
    height_m: float = shape_key("to the front", "length", shown="mm")
    edge_radius_m: float = shape_key("radius of its edges", "length", 0.0, shown="mm")

    def __post_init__(self) -> None:
        for name in ("length_m", "width_m", "height_m"):
            value = getattr(self, name)
            require(0.001 <= value <= 5.0, _WHO, name, "0.001 to 5 m", value)
        narrow = min(self.length_m, self.width_m, self.height_m)
        require(
            0.0 <= self.edge_radius_m <= 0.5 * narrow,
            _WHO,
            "edge_radius_m",
            f"0 to {0.5 * narrow:g} m (half of the narrowest side)",
            self.edge_radius_m,
        )


def box_drag(depth_ratio: Real, rounding: Real = 0.0) -> Real:
    r"""Drag coefficient of a box with a face square to the flow.

    $$ C_D = f\!\left(\frac{l}{\sqrt{S}}\right) g\!\left(\frac{R}{D}\right) $$

    Parameters
    ----------
    depth_ratio : float or array, shape (...)
        Depth along the flow over the root of the face's area, $l/\sqrt{S}$. [-]
    rounding : float or array, shape (...)
        Edge radius over the narrower side of the face, $R/D$. [-]

    Returns
    -------
    drag_coefficient : float or array, broadcast shape
        $C_D$ on the face's area. [-]

    Validity
    --------
    0 <= depth_ratio, 0 <= rounding <= 0.5; ValidityError outside. Beyond a depth of 4 and a
    rounding of 0.33 (where a square rod becomes nearly a round one) the last value holds.
    Reynolds number above 1e4; below 1e5 rounding helps less than this.

    Source
    ------
    Munson et al., *Fundamentals of Fluid Mechanics*, figures 9.19 and 9.20; Matthews,
    *Aeronautical Engineer's Data Book*, figure 5.13b; how they are joined is written beside the
    tables.

    Examples
    --------
    1.05 for a cube:

    >>> box_drag(1.0)
    1.05
    """
    require_range("box_drag", "depth_ratio", depth_ratio, 0.0, np.inf, "boxes")
    require_range("box_drag", "rounding", rounding, 0.0, 0.5, "an edge radius")
    depth = np.minimum(np.asarray(depth_ratio, dtype=float), _DEPTH[-1])
    radius = np.minimum(np.asarray(rounding, dtype=float), _ROUNDING[-1])
    return as_real(pchip(_DEPTH, _FACE, depth) * pchip(_ROUNDING, _ROUNDED, radius))


def box_loads(shape: Box, axial_speed_m_s: Real, side_speed_m_s: Real, air: Air) -> BodyLoads:
    r"""Loads on a bare box.

    $$ A = \tfrac12 \rho\, V u\, C_{D,end}\, b h, \quad
       N = \tfrac12 \rho\, V w\, C_{D,side}\, l b $$

    Parameters
    ----------
    shape : Box
        The box. [-]
    axial_speed_m_s : float or array, shape (...)
        Air along the rotor axis, $u$. [m/s]
    side_speed_m_s : float or array, shape (...)
        Air in the disk plane, from the front, $w$. [m/s]
    air : Air
        State of the air. [-]

    Returns
    -------
    loads : BodyLoads
        Axial force by cause and normal force. [N]

    Validity
    --------
    Whole speed 0 to 200 m/s; ValidityError beyond. A bluff body drags along the flow: each
    component of the force is that of its face times the whole speed, so a cube edge on has the
    force of one face square on; the source gives 0.76 of that. Both directions alike; alone in
    the flow, so a box on a plate has somewhat less.

    Source
    ------
    Coefficients of `box_drag`.

    Examples
    --------
    A cube of 20 mm at 20 m/s:

    >>> from slipfit.physics.air import air_of_day
    >>> cube = Box(length_m=0.02, width_m=0.02, height_m=0.02)
    >>> float(box_loads(cube, 20.0, 0.0, air_of_day()).axial_N)
    0.103
    """
    flow = flow_past(_WHO, axial_speed_m_s, side_speed_m_s, air)
    end_m2, side_m2 = shape.width_m * shape.height_m, shape.length_m * shape.width_m
    end = box_drag(
        shape.length_m / math.sqrt(end_m2),
        shape.edge_radius_m / min(shape.width_m, shape.height_m),
    )
    side = box_drag(
        shape.height_m / math.sqrt(side_m2),
        shape.edge_radius_m / min(shape.width_m, shape.length_m),
    )
    axial_N = flow.pressure_Pa(flow.speed_m_s * flow.axial_m_s) * (end * end_m2)
    normal_N = flow.pressure_Pa(flow.speed_m_s * flow.side_m_s) * (side * side_m2)
    return BodyLoads(causes={"bare boxes": axial_N}, normal_N=normal_N)
