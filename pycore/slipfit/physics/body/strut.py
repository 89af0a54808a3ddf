"""A faired arm or strut: a streamlined 2-D section, its span across the axis."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import Final

import numpy as np

from slipfit.errors import require_range
from slipfit.numerics import Array, Real, as_real
from slipfit.physics.air import Air
from slipfit.physics.body.junction import junction_drag_area
from slipfit.physics.body.loads import BodyLoads, flow_past, require, shape_key
from slipfit.physics.body.skin import body_friction
from slipfit.physics.fin import (
    attached_share,
    lift_slope_helmbold,
    plate_drag_broadside,
    plate_normal_force,
)

_WHO: Final = "Strut"


@dataclass(frozen=True, kw_only=True)
class Strut:
    """A streamlined strut whose chord lies along the rotor axis, without sweep."""

    span_m: float = shape_key("exposed length, root to tip", "length", shown="mm")
    chord_m: float = shape_key("along the rotor axis", "length", shown="mm")
    thickness_m: float = shape_key("largest thickness of the section", "length", shown="mm")
    roughness_m: float = shape_key("equivalent sand roughness", "length", 20e-6, shown="um")
    junctions: int = shape_key("ends that meet a body at a right angle: 0, 1 or 2", "count", 2)
    broad_share: float = shape_key(
        "share of its side that the in-plane flow meets: 0.5 for arms spread evenly around the"
        " axis, 1 square to the flow, 0 along it",
        "ratio",
        0.5,
    )

    def __post_init__(self) -> None:
        for name in ("span_m", "chord_m"):
            value = getattr(self, name)
            require(0.001 <= value <= 5.0, _WHO, name, "0.001 to 5 m", value)
        require(
            0.02 <= self.thickness_m / self.chord_m <= 0.6,
            _WHO,
            "thickness_m",
            "0.02 to 0.6 of chord_m (thicker is a cylinder, thinner a plate)",
            self.thickness_m,
        )
        require(
            0.0 <= self.roughness_m <= self.chord_m / 100.0,
            _WHO,
            "roughness_m",
            "0 to a hundredth of chord_m",
            self.roughness_m,
        )
        require(self.junctions in (0, 1, 2), _WHO, "junctions", "0, 1 or 2", self.junctions)
        require(0.0 <= self.broad_share <= 1.0, _WHO, "broad_share", "0 to 1", self.broad_share)

    @cached_property
    def skin_m2(self) -> float:
        """Both sides times the form factor: what multiplies a plate's friction."""
        form = float(section_form_factor_hoerner(self.thickness_m / self.chord_m))
        return 2.0 * self.span_m * self.chord_m * form

    @cached_property
    def junctions_m2(self) -> float:
        """Drag area where it meets other bodies."""
        return self.junctions * float(junction_drag_area(self.thickness_m, self.chord_m))

    @cached_property
    def slope_per_rad(self) -> float:
        """Lift slope of attached flow."""
        return float(lift_slope_helmbold(self.span_m / self.chord_m))

    @cached_property
    def broadside(self) -> float:
        """Drag coefficient square to the flow."""
        return float(plate_drag_broadside(self.span_m / self.chord_m))


def section_form_factor_hoerner(thickness_ratio: Real) -> Real:
    r"""Drag of a streamlined 2-D section over the friction of both its sides.

    $$ F = 1 + 2 \frac{t}{c} + 60 \left(\frac{t}{c}\right)^4 $$

    Parameters
    ----------
    thickness_ratio : float or array, shape (...)
        Thickness over chord, $t/c$. [-]

    Returns
    -------
    form_factor : float or array, same shape
        $F$. [-]

    Validity
    --------
    0 <= thickness_ratio <= 0.6; ValidityError outside. Turbulent boundary layer that stays
    attached; below a Reynolds number of the chord near 5e4 it separates and the drag of a thick
    section rises toward that of a cylinder.

    Source
    ------
    S. F. Hoerner, *Fluid-Dynamic Drag*, 1965, chapter 6; from memory, not at hand.

    Examples
    --------
    A section a quarter as thick as long:

    >>> section_form_factor_hoerner(0.25)
    1.734
    """
    require_range(
        "section_form_factor_hoerner", "thickness_ratio", thickness_ratio, 0.0, 0.6, "sections"
    )
    r = np.asarray(thickness_ratio, dtype=float)
    return as_real(1.0 + 2.0 * r + 60.0 * r**4)


def strut_loads(shape: Strut, axial_speed_m_s: Real, side_speed_m_s: Real, air: Air) -> BodyLoads:
    r"""Loads on one faired arm.

    $$ A = \tfrac12 \rho\, V u \left[2 C_f F\, c\, b + n \frac{\Delta D}{q}\right] $$

    Parameters
    ----------
    shape : Strut
        The strut. [-]
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
    Whole speed 0 to 200 m/s; ValidityError beyond. Turbulent flow from the leading edge, as
    rotor wash and printed surfaces make it; Reynolds number of the chord above 5e4 (30 mm at
    25 m/s), below which thick sections separate and the true drag is larger, up to four times:
    at such speeds it is small all the same. Air from behind gets the same coefficients. The
    normal force is that of a wing of its span and chord, times `broad_share`.

    Source
    ------
    S. F. Hoerner, *Fluid-Dynamic Drag*, 1965, chapters 6 and 8; normal force of
    `plate_normal_force`.

    Examples
    --------
    A 70 mm arm, 30 mm of chord and 9 mm thick, at 80 m/s:

    >>> from slipfit.physics.air import air_of_day
    >>> arm = Strut(span_m=0.07, chord_m=0.03, thickness_m=0.009)
    >>> float(strut_loads(arm, 80.0, 0.0, air_of_day()).axial_N)
    0.405
    """
    flow = flow_past(_WHO, axial_speed_m_s, side_speed_m_s, air)
    q = flow.pressure_Pa(flow.speed_m_s * flow.axial_m_s)
    friction = body_friction(flow.reynolds(shape.chord_m), shape.chord_m, shape.roughness_m)
    causes = {"arms": q * shape.skin_m2 * friction}
    if shape.junctions:
        causes["where arms meet bodies"] = q * shape.junctions_m2
    normal_N = shape.broad_share * np.asarray(
        plate_normal_force(
            flow.axial_m_s,
            flow.side_m_s,
            shape.span_m * shape.chord_m,
            shape.slope_per_rad,
            shape.broadside,
            air.density_kg_m3,
        )
    )
    return BodyLoads(causes=causes, normal_N=np.asarray(normal_N))


def strut_moment(shape: Strut, axial_speed_m_s: Real, side_speed_m_s: Real, air: Air) -> Array:
    r"""Moment of a strut's normal force about the middle of its chord.

    $$ M = -N\, a\, \frac{c}{4} $$

    Parameters
    ----------
    shape : Strut
        The strut. [-]
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
    As for `strut_loads`, with air from ahead. The force acts at a quarter of the chord in attached
    flow and at the middle square to it; between, by `attached_share`.

    Source
    ------
    Thin-airfoil theory and symmetry for the two ends; the blend is our own.

    Examples
    --------
    Square to the flow there is none:

    >>> from slipfit.physics.air import air_of_day
    >>> strut = Strut(span_m=0.07, chord_m=0.03, thickness_m=0.009)
    >>> float(strut_moment(strut, 0.0, 10.0, air_of_day()))
    0.0
    """
    loads = strut_loads(shape, axial_speed_m_s, side_speed_m_s, air)
    attached = np.asarray(attached_share(axial_speed_m_s, side_speed_m_s))
    return np.asarray(-0.25 * shape.chord_m * attached * loads.normal_N)
