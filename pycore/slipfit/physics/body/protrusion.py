"""What stands out of a smooth skin: screw heads, seams, steps, cable exits."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

import numpy as np

from slipfit.numerics import Real
from slipfit.physics.air import Air
from slipfit.physics.body.loads import BodyLoads, flow_past, require, shape_key

_WHO: Final = "Protrusion"
# On width times height. Rounded: hemisphere, round side upstream, and square: cube face-on (both
# Munson, figure 9.20, as if the skin were a mirror). Step: a long ridge that faces the flow, memory
# of Hoerner's surface imperfections.
FORMS: Final[Mapping[str, float]] = {"rounded": 0.42, "square": 1.05, "step": 0.4}


@dataclass(frozen=True, kw_only=True)
class Protrusion:
    """A small thing on a skin along the rotor axis."""

    width_m: float = shape_key("across the flow", "length", shown="mm")
    height_m: float = shape_key("how far it stands out", "length", shown="mm")
    form: str = shape_key("rounded (button head), square (socket head) or step", "text", "square")

    def __post_init__(self) -> None:
        require(1e-5 <= self.width_m <= 2.0, _WHO, "width_m", "1e-5 to 2 m", self.width_m)
        require(1e-6 <= self.height_m <= 0.05, _WHO, "height_m", "1e-6 to 0.05 m", self.height_m)
        require(self.form in FORMS, _WHO, "form", "'rounded', 'square' or 'step'", self.form)


def protrusion_loads(
    shape: Protrusion, axial_speed_m_s: Real, side_speed_m_s: Real, air: Air
) -> BodyLoads:
    r"""Loads that a protrusion adds to the body it stands on.

    $$ A = \tfrac12 \rho\, u |u|\, C_D\, b h, \quad N = 0 $$

    Parameters
    ----------
    shape : Protrusion
        The protrusion. [-]
    axial_speed_m_s : float or array, shape (...)
        Air along the rotor axis, $u$. [m/s]
    side_speed_m_s : float or array, shape (...)
        Air in the disk plane, $w$. [m/s]
    air : Air
        State of the air. [-]

    Returns
    -------
    loads : BodyLoads
        Axial force by cause; no normal force (too small to matter). [N]

    Validity
    --------
    Whole speed 0 to 200 m/s; ValidityError beyond. The full speed is taken; inside the boundary
    layer, a few millimetres thick at the tail of a 300 mm shell, a low thing feels less, so this
    is an upper estimate there. Both directions alike.

    Source
    ------
    Coefficients of `FORMS`.

    Examples
    --------
    A 5.5 mm screw head that stands out by 3 mm, at 80 m/s:

    >>> from slipfit.physics.air import air_of_day
    >>> head = Protrusion(width_m=0.0055, height_m=0.003)
    >>> float(protrusion_loads(head, 80.0, 0.0, air_of_day()).axial_N)
    0.068
    """
    flow = flow_past(_WHO, axial_speed_m_s, side_speed_m_s, air)
    u = flow.axial_m_s
    drag = FORMS[shape.form] * shape.width_m * shape.height_m
    axial_N = flow.pressure_Pa(u * np.abs(u)) * drag
    return BodyLoads(causes={"screws, seams and steps": axial_N}, normal_N=np.zeros_like(axial_N))
