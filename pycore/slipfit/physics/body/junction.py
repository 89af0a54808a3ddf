"""Drag where a strut or fin meets a wall."""

from __future__ import annotations

from typing import Final

import numpy as np

from slipfit.errors import require_range
from slipfit.numerics import Real, as_real

_JUNCTION: Final = (0.75, 0.0003)


def junction_drag_area(thickness_m: Real, chord_m: Real) -> Real:
    r"""Drag area that one junction of a streamlined section with a wall adds.

    $$ \frac{\Delta D}{q} = t^2 \left[0.75 \frac{t}{c} - \frac{0.0003}{(t/c)^2}\right] $$

    Parameters
    ----------
    thickness_m : float or array, shape (...)
        Thickness of the section, $t$. [m]
    chord_m : float or array, shape (...)
        Chord of the section, $c$. [m]

    Returns
    -------
    drag_area_m2 : float or array, broadcast shape
        Added drag over dynamic pressure; 0 below t/c = 0.074, where the formula turns negative
        because the wall's boundary layer shields the section. [m2]

    Validity
    --------
    0 <= t/c <= 0.6; ValidityError outside. Square to the wall, no fillet; a fillet of a tenth of
    the chord removes most of it.

    Source
    ------
    S. F. Hoerner, *Fluid-Dynamic Drag*, 1965, chapter 8; from memory, not at hand.

    Examples
    --------
    A fairing 10 mm thick on 30 mm of chord adds about 25 mm2:

    >>> 1e6 * junction_drag_area(0.010, 0.030)
    24.7
    """
    t, c = np.asarray(thickness_m, dtype=float), np.asarray(chord_m, dtype=float)
    r = t / c
    require_range("junction_drag_area", "thickness_m / chord_m", r, 0.0, 0.6, "streamlined")
    wall, shielded = _JUNCTION
    return as_real(np.maximum(wall * r * t**2 - shielded * c**2, 0.0))
