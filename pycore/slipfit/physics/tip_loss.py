"""How much less the few sheets of a real wake hold than Prandtl's factor says: Goldstein's."""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from slipfit.data import table_from_npz
from slipfit.errors import InputError
from slipfit.numerics import Array

STEEPEST_SINE: Final = 0.95  # of the inflow angle, 72 degrees; the ratio is held from there on


def goldstein_over_prandtl(blade_count: int, r_R: ArrayLike) -> Array:
    r"""Ratio of Goldstein's tip-loss factor to Prandtl's, by the sine of the inflow angle.

    $$ \frac{F_G}{F_P} = \sum_{k=0}^{7} p_k\, |\sin\varphi|^k, \quad p_0 = 1 $$

    Prandtl puts flat sheets in place of the screw-shaped ones behind a propeller, which is exact
    for small inflow angles. Behind steep ones the air slips round the edges more easily:
    with two blades a tenth less is held at an advance ratio of 0.8, with four a fifth less at 2.6.

    Parameters
    ----------
    blade_count : int
        Number of blades. [-]
    r_R : float or array, shape (...)
        Radius over the tip's. [-]

    Returns
    -------
    powers : array, shape (..., 8)
        Coefficients $p_k$ of rising powers. [-]

    Validity
    --------
    One to eight blades; InputError outside. 0.1 <= r_R <= 1, held at the ends. Sines up to
    `STEEPEST_SINE`. The polynomial meets the computed ratio within 0.005, at 0.1 R within 0.011.
    The loading is that of least induced loss; it is used strip by strip at the local inflow angle,
    as Lock did (R. & M. 1377, 1930). Inside a fifth of the radius Goldstein's blades, which reach
    the axis, hold more than Prandtl's where the inflow is steep.

    Source
    ------
    S. Goldstein, On the vortex theory of screw propellers, Proc. R. Soc. A 123 (1929), pp. 440-465.
    Computed by tools/make_tip_loss.py.

    Examples
    --------
    Two blades at 0.8 R and an inflow angle of 17 degrees:

    >>> powers = goldstein_over_prandtl(2, 0.8)
    >>> float(np.polyval(powers[::-1], np.sin(np.deg2rad(17.0))).round(2))
    0.9
    """
    columns = table_from_npz("tip_loss").columns
    known = columns["blades"].tolist()
    if blade_count not in known:
        raise InputError(
            f"goldstein_over_prandtl: blade_count must be {known[0]} to {known[-1]}, "
            f"got {blade_count}",
            field="blade_count",
        )
    powers = columns["powers"][known.index(blade_count)].astype(float)
    x = np.asarray(r_R, dtype=float)
    return np.stack([np.interp(x, columns["r_R"], p) for p in powers.T], axis=-1)
