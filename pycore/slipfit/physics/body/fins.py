"""A fin along the rotor axis, or one of a set of them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Final

import numpy as np

from slipfit.numerics import Array, Real
from slipfit.physics.air import Air
from slipfit.physics.body.junction import junction_drag_area
from slipfit.physics.body.loads import BodyLoads, flow_past, require, shape_key
from slipfit.physics.body.skin import body_friction
from slipfit.physics.body.strut import section_form_factor_hoerner
from slipfit.physics.centre_of_pressure import fin_body_interference
from slipfit.physics.fin import (
    attached_share,
    lift_slope_helmbold,
    plate_drag_broadside,
    plate_normal_force,
)

_WHO: Final = "Fin"
# Pressure drag of the edges on span times thickness. Square: a long square-edged rod, 1.3 at a
# length of three thicknesses and falling (Munson, figure 9.19). Rounded front with blunt rear:
# memory. Airfoil: none beyond the form factor.
EDGES: Final[Mapping[str, float]] = {"airfoil": 0.0, "rounded": 0.25, "square": 0.9}


@dataclass(frozen=True, kw_only=True)
class Fin:
    """A thin fin, its chord along the rotor axis."""

    area_m2: float = shape_key("exposed area, one side", "area", shown="cm2")
    span_m: float = shape_key("exposed span, root to tip", "length", shown="mm")
    thickness_m: float = shape_key("thickness", "length", shown="mm")
    edges: str = shape_key("airfoil, rounded or square edges", "text", "rounded")
    roughness_m: float = shape_key("equivalent sand roughness", "length", 20e-6, shown="um")
    broad_share: float = shape_key(
        "share of its side that the in-plane flow meets: 0.5 for fins spread evenly around the"
        " axis, 1 square to the flow, 0 along it",
        "ratio",
        0.5,
    )
    body_diameter_m: float = shape_key(
        "diameter of the body that it stands on, which adds to its lift; 0 for a fin by itself",
        "length",
        0.0,
        shown="mm",
    )

    def __post_init__(self) -> None:
        require(1e-6 <= self.area_m2 <= 1.0, _WHO, "area_m2", "1e-6 to 1 m2", self.area_m2)
        require(0.001 <= self.span_m <= 5.0, _WHO, "span_m", "0.001 to 5 m", self.span_m)
        require(
            0.0 < self.thickness_m <= 0.3 * self.chord_m,
            _WHO,
            "thickness_m",
            f"above 0 and at most 0.3 of the mean chord of {self.chord_m:.4g} m",
            self.thickness_m,
        )
        require(
            self.edges in EDGES,
            _WHO,
            "edges",
            "'airfoil', 'rounded' or 'square'",
            self.edges,
        )
        require(
            0.0 <= self.roughness_m <= self.chord_m / 100.0,
            _WHO,
            "roughness_m",
            "0 to a hundredth of the mean chord",
            self.roughness_m,
        )
        require(0.0 <= self.broad_share <= 1.0, _WHO, "broad_share", "0 to 1", self.broad_share)
        require(
            0.0 <= self.body_diameter_m <= 5.0,
            _WHO,
            "body_diameter_m",
            "0 to 5 m",
            self.body_diameter_m,
        )

    @property
    def chord_m(self) -> float:
        """Mean chord."""
        return self.area_m2 / self.span_m

    @cached_property
    def skin_m2(self) -> float:
        """Both sides times the form factor: what multiplies a plate's friction."""
        form = float(section_form_factor_hoerner(self.thickness_m / self.chord_m))
        return 2.0 * self.area_m2 * form

    @cached_property
    def junctions_m2(self) -> float:
        """Drag area where it meets other bodies."""
        return float(junction_drag_area(self.thickness_m, self.chord_m))

    @cached_property
    def slope_per_rad(self) -> float:
        """Lift slope of attached flow. A body at the root mirrors the fin, which doubles its
        aspect ratio, and carries lift of its own."""
        aspect_ratio = self.span_m**2 / self.area_m2
        if self.body_diameter_m == 0.0:
            return float(lift_slope_helmbold(aspect_ratio))
        body = float(fin_body_interference(self.span_m, self.body_diameter_m))
        return body * float(lift_slope_helmbold(2.0 * aspect_ratio))

    @cached_property
    def broadside(self) -> float:
        """Drag coefficient square to the flow."""
        return float(plate_drag_broadside(self.span_m**2 / self.area_m2))


def fin_loads(shape: Fin, axial_speed_m_s: Real, side_speed_m_s: Real, air: Air) -> BodyLoads:
    r"""Loads on one fin.

    $$ A = \tfrac12 \rho\, V u \left[2 C_f F S + C_e\, b\, t + \frac{\Delta D}{q}\right] $$

    Parameters
    ----------
    shape : Fin
        The fin. [-]
    axial_speed_m_s : float or array, shape (...)
        Air along the axis, onto the leading edge, $u$. [m/s]
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
    Whole speed 0 to 200 m/s; ValidityError beyond. No Mach correction (7 % on the lift slope at
    120 m/s). Fins keep no suction on their leading edge, so lift tilts nothing forward: the
    axial force at incidence is friction and edges alone. Air from behind gets the same
    coefficients. On a body the normal force is Barrowman's: that of the fin and its mirror image,
    times `fin_body_interference`; three fins or more, `broad_share` 0.5.

    Source
    ------
    Friction as for struts; lift slope H. B. Helmbold, 1942; on a body J. S. and J. A. Barrowman,
    1966; edges as in `EDGES`.

    Examples
    --------
    A 25 cm2 fin, 50 mm in span and 2 mm thick, at 80 m/s:

    >>> from slipfit.physics.air import air_of_day
    >>> fin = Fin(area_m2=25e-4, span_m=0.05, thickness_m=0.002)
    >>> float(fin_loads(fin, 80.0, 0.0, air_of_day()).axial_N)
    0.3
    """
    flow = flow_past(_WHO, axial_speed_m_s, side_speed_m_s, air)
    q = flow.pressure_Pa(flow.speed_m_s * flow.axial_m_s)
    c = shape.chord_m
    friction = body_friction(flow.reynolds(c), c, shape.roughness_m)
    causes = {"fin friction": q * shape.skin_m2 * friction}
    if EDGES[shape.edges] > 0.0:
        causes["fin edges"] = q * EDGES[shape.edges] * shape.span_m * shape.thickness_m
    if shape.junctions_m2 > 0.0:
        causes["where fins meet bodies"] = q * shape.junctions_m2
    normal_N = shape.broad_share * np.asarray(
        plate_normal_force(
            flow.axial_m_s,
            flow.side_m_s,
            shape.area_m2,
            shape.slope_per_rad,
            shape.broadside,
            air.density_kg_m3,
        )
    )
    return BodyLoads(causes=causes, normal_N=np.asarray(normal_N))


def fin_moment(shape: Fin, axial_speed_m_s: Real, side_speed_m_s: Real, air: Air) -> Array:
    r"""Moment of a fin's normal force about the middle of its chord.

    $$ M = -N\, a\, \frac{c}{4} $$

    Parameters
    ----------
    shape : Fin
        The fin. [-]
    axial_speed_m_s : float or array, shape (...)
        Air along the axis, onto the leading edge, $u$. [m/s]
    side_speed_m_s : float or array, shape (...)
        Air in the disk plane, $w$. [m/s]
    air : Air
        State of the air. [-]

    Returns
    -------
    moment_Nm : array, broadcast shape
        Positive where the force acts aft of the middle, so here never. [N m]

    Validity
    --------
    As for `fin_loads`, with air from ahead. The force acts at a quarter of the chord in attached
    flow and at the middle square to it; between, by `attached_share`.

    Source
    ------
    Thin-airfoil theory and symmetry for the two ends; the blend is our own.

    Examples
    --------
    Square to the flow there is none:

    >>> from slipfit.physics.air import air_of_day
    >>> fin = Fin(area_m2=25e-4, span_m=0.05, thickness_m=0.002)
    >>> float(fin_moment(fin, 0.0, 10.0, air_of_day()))
    0.0
    """
    loads = fin_loads(shape, axial_speed_m_s, side_speed_m_s, air)
    attached = np.asarray(attached_share(axial_speed_m_s, side_speed_m_s))
    return np.asarray(-0.25 * shape.chord_m * attached * loads.normal_N)
