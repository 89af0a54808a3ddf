"""A bare round cylinder, along the rotor axis or across it: motor can, mast, antenna, round arm."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from typing import Final

import numpy as np

from slipfit.errors import require_range
from slipfit.numerics import Real, as_real, pchip
from slipfit.physics.air import Air
from slipfit.physics.body.loads import BodyLoads, flow_past, require, shape_key

_WHO: Final = "Cylinder"
# Axial flow: mean of two sources where both have a point (Matthews, figure 5.13b: 0.91 at 1, 0.85
# at 2, 0.87 at 4, 0.99 at 7; Munson, figure 9.20: 1.1 as a thin disk and at 0.5, 0.93, 0.83, 0.85).
_AXIAL_FINENESS: Final = np.array([0.0, 0.5, 1.0, 2.0, 4.0, 7.0])
_AXIAL: Final = np.array([1.1, 1.1, 0.92, 0.84, 0.86, 0.99])
_AXIAL_PER_DIAMETER: Final = 0.016  # beyond 7: skin friction, 4 l/d times a Cf of 0.004
# Flow across: Matthews, figure 5.13b, over d/l, from an endless cylinder to one diameter.
_ACROSS_SLENDERNESS: Final = np.array([0.0, 0.025, 0.1, 0.2, 0.5, 1.0])
_ACROSS: Final = np.array([1.2, 0.98, 0.82, 0.74, 0.68, 0.63])


@dataclass(frozen=True, kw_only=True)
class Cylinder:
    """A round cylinder with flat ends."""

    length_m: float = shape_key("length", "length", shown="mm")
    diameter_m: float = shape_key("diameter", "length", shown="mm")
    across: bool = shape_key(
        "false: along the rotor axis; true: across it, square to the in-plane flow too",
        "flag",
        False,
    )

    def __post_init__(self) -> None:
        require(0.0005 <= self.length_m <= 5.0, _WHO, "length_m", "0.0005 to 5 m", self.length_m)
        require(
            0.0002 <= self.diameter_m <= 5.0, _WHO, "diameter_m", "0.0002 to 5 m", self.diameter_m
        )
        require(
            self.length_m <= 500.0 * self.diameter_m,
            _WHO,
            "length_m",
            "at most 500 times diameter_m",
            self.length_m,
        )

    @cached_property
    def side_m2(self) -> float:
        """Drag area in flow across it."""
        drag = float(cylinder_drag_across(self.length_m / self.diameter_m))
        return drag * self.length_m * self.diameter_m

    @cached_property
    def end_m2(self) -> float:
        """Drag area in flow along it."""
        drag = float(cylinder_drag_axial(self.length_m / self.diameter_m))
        return drag * 0.25 * math.pi * self.diameter_m**2


def cylinder_drag_axial(fineness: Real) -> Real:
    r"""Drag coefficient of a flat-ended cylinder in flow along its axis.

    $$ C_D = f(l/d) $$

    Parameters
    ----------
    fineness : float or array, shape (...)
        Length over diameter, $l/d$. [-]

    Returns
    -------
    drag_coefficient : float or array, same shape
        $C_D$ on the end's area. [-]

    Validity
    --------
    0 <= fineness <= 500; ValidityError outside. Sharp front edge, Reynolds number of the diameter
    above 1e5; 0.5 to 7 diameters from the sources, which differ by 2 %; beyond 7 skin friction
    is added.

    Source
    ------
    Matthews, *Aeronautical Engineer's Data Book*, figure 5.13b, and Munson et al., *Fundamentals
    of Fluid Mechanics*, figure 9.20; points in tests/data/body_bluff_shapes.csv.

    Examples
    --------
    0.85 and 0.83 in the two sources for two diameters:

    >>> cylinder_drag_axial(2.0)
    0.84
    """
    require_range("cylinder_drag_axial", "fineness", fineness, 0.0, 500.0, "cylinders")
    f = np.asarray(fineness, dtype=float)
    last = float(_AXIAL_FINENESS[-1])
    beyond = _AXIAL_PER_DIAMETER * np.maximum(f - last, 0.0)
    return as_real(pchip(_AXIAL_FINENESS, _AXIAL, np.minimum(f, last)) + beyond)


def cylinder_drag_across(fineness: Real) -> Real:
    r"""Drag coefficient of a cylinder of finite length in flow across it.

    $$ C_D = f(d/l) $$

    Parameters
    ----------
    fineness : float or array, shape (...)
        Length over diameter, $l/d$. [-]

    Returns
    -------
    drag_coefficient : float or array, same shape
        $C_D$ on length times diameter. [-]

    Validity
    --------
    0 < fineness; ValidityError otherwise. Both ends free, Reynolds number of the diameter 1e3 to
    2e5 (below, as for wires at walking speed, up to a quarter more). Below one diameter the
    value at one is kept: the rim of a disk.

    Source
    ------
    Matthews, *Aeronautical Engineer's Data Book*, figure 5.13b; points in
    tests/data/body_bluff_shapes.csv.

    Examples
    --------
    0.82 for ten diameters:

    >>> cylinder_drag_across(10.0)
    0.82
    """
    require_range("cylinder_drag_across", "fineness", fineness, 1e-6, np.inf, "cylinders")
    slenderness = np.minimum(1.0 / np.asarray(fineness, dtype=float), 1.0)
    return as_real(pchip(_ACROSS_SLENDERNESS, _ACROSS, slenderness))


def cylinder_loads(
    shape: Cylinder, axial_speed_m_s: Real, side_speed_m_s: Real, air: Air
) -> BodyLoads:
    r"""Loads on a bare cylinder, along the rotor axis or across it.

    $$ A = \tfrac12 \rho\, u |u|\, C_{D,axial} \tfrac{\pi d^2}{4}, \quad
       N = \tfrac12 \rho\, w |w|\, C_{D,across}\, l d \quad \text{(along)} $$
    $$ A = \tfrac12 \rho\, V u\, C_{D,across}\, l d, \quad
       N = \tfrac12 \rho\, V w\, C_{D,across}\, l d \quad \text{(across)} $$

    Parameters
    ----------
    shape : Cylinder
        The cylinder. [-]
    axial_speed_m_s : float or array, shape (...)
        Air along the rotor axis, $u$. [m/s]
    side_speed_m_s : float or array, shape (...)
        Air in the disk plane, $w$. [m/s]
    air : Air
        State of the air. [-]

    Returns
    -------
    loads : BodyLoads
        Axial force by cause and normal force. [N]

    Validity
    --------
    Whole speed 0 to 200 m/s; ValidityError beyond. Along the axis the two components act each
    alone (independence of cross-flow); across, the drag follows the flow. Both directions
    alike. Reynolds number of the diameter below 2e5. A front end that a rotor hub or spinner
    covers is better a streamlined body.

    Source
    ------
    Coefficients of `cylinder_drag_axial` and `cylinder_drag_across`.

    Examples
    --------
    An antenna of 60 x 3 mm across 20 m/s:

    >>> from slipfit.physics.air import air_of_day
    >>> rod = Cylinder(length_m=0.06, diameter_m=0.003, across=True)
    >>> float(cylinder_loads(rod, 20.0, 0.0, air_of_day()).axial_N)
    0.0398
    """
    flow = flow_past(_WHO, axial_speed_m_s, side_speed_m_s, air)
    u, w, V = flow.axial_m_s, flow.side_m_s, flow.speed_m_s
    if shape.across:
        along, aside = V * u * shape.side_m2, V * w * shape.side_m2
    else:
        along, aside = u * np.abs(u) * shape.end_m2, w * np.abs(w) * shape.side_m2
    return BodyLoads(
        causes={"bare cylinders": flow.pressure_Pa(along)}, normal_N=flow.pressure_Pa(aside)
    )
