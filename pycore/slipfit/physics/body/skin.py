"""Skin friction of flat plates: laminar, turbulent, rough, and the blend that bodies use."""

from __future__ import annotations

from typing import Final

import numpy as np

from slipfit.errors import require_range
from slipfit.numerics import Array, Real, as_real

_RE_FLOOR_LAMINAR: Final = 10.0  # keeps friction finite in still air; 2.5e-7 of Cf at Re 1e4
_RE_FLOOR_TURBULENT: Final = 1000.0  # same, where log10(Re)^-2.58 would run away; 7e-6 at Re 1e4
_PRANDTL_SCHLICHTING: Final = (0.455, 2.58)
_ROUGH: Final = (1.89, 1.62, 2.5)  # fully rough plate; memory, see skin_friction_rough
_JOIN: Final = 12.0  # power of the smooth maximum of laminar, turbulent and rough friction
_LAYER_TO_SAND: Final = 0.3  # sand roughness over layer height; memory of profilometer values


def skin_friction_laminar_blasius(reynolds: Real) -> Real:
    r"""Mean friction coefficient of a plate with a laminar boundary layer.

    $$ C_f = \frac{1.328}{\sqrt{Re}} $$

    Parameters
    ----------
    reynolds : float or array, shape (...)
        Reynolds number of the length, $Re$. [-]

    Returns
    -------
    friction_coefficient : float or array, same shape
        $C_f$ on the wetted area. [-]

    Validity
    --------
    0 <= reynolds <= 1e9; ValidityError outside. Physical from about 1e3 to transition near 5e5;
    below, the Reynolds number is joined smoothly to a floor of 10, so that the coefficient stays
    finite (0.42) and the force goes to zero with the speed.

    Source
    ------
    H. Blasius, 1908, as tabulated in tests/data/body_skin_friction.csv (computed there).

    Examples
    --------
    The table gives 0.01328 at Re = 1e4:

    >>> skin_friction_laminar_blasius(1e4)
    0.01328
    """
    Re = _joined("skin_friction_laminar_blasius", reynolds, _RE_FLOOR_LAMINAR)
    return as_real(1.328 / np.sqrt(Re))


def skin_friction_turbulent_prandtl_schlichting(reynolds: Real) -> Real:
    r"""Mean friction coefficient of a smooth plate, turbulent from its leading edge.

    $$ C_f = \frac{0.455}{\left(\log_{10} Re\right)^{2.58}} $$

    Parameters
    ----------
    reynolds : float or array, shape (...)
        Reynolds number of the length, $Re$. [-]

    Returns
    -------
    friction_coefficient : float or array, same shape
        $C_f$ on the wetted area. [-]

    Validity
    --------
    0 <= reynolds <= 1e9; ValidityError outside. Physical from about 1e4 up; below, the Reynolds
    number is joined smoothly to a floor of 1000, so that the coefficient stays finite.

    Source
    ------
    L. Prandtl and H. Schlichting, 1932, as tabulated in tests/data/body_skin_friction.csv
    (computed there).

    Examples
    --------
    The table gives 0.004471 at Re = 1e6:

    >>> skin_friction_turbulent_prandtl_schlichting(1e6)
    0.004471
    """
    Re = _joined("skin_friction_turbulent_prandtl_schlichting", reynolds, _RE_FLOOR_TURBULENT)
    a, n = _PRANDTL_SCHLICHTING
    return as_real(a / np.log10(Re) ** n)


def skin_friction_rough(length_over_roughness: Real) -> Real:
    r"""Mean friction coefficient of a fully rough plate, whatever the Reynolds number.

    $$ C_f = \left(1.89 + 1.62 \log_{10} \frac{L}{k_s}\right)^{-2.5} $$

    Parameters
    ----------
    length_over_roughness : float or array, shape (...)
        Length over equivalent sand roughness, $L/k_s$. [-]

    Returns
    -------
    friction_coefficient : float or array, same shape
        $C_f$ on the wetted area. [-]

    Validity
    --------
    100 <= length_over_roughness <= 1e9; ValidityError outside. The source's range is 1e2 to 1e6;
    beyond, roughness no longer shows at the Reynolds numbers here.

    Source
    ------
    H. Schlichting, *Boundary-Layer Theory*, chapter on rough plates; coefficients from memory,
    the 0.0134 at L/k = 200 agrees with a published chart read to 3 %.

    Examples
    --------
    A 330 mm shell with 0.06 mm of sand roughness:

    >>> skin_friction_rough(5500.0)
    0.0057
    """
    require_range(
        "skin_friction_rough", "length_over_roughness", length_over_roughness, 1e2, 1e9, "plates"
    )
    a, b, n = _ROUGH
    return as_real((a + b * np.log10(np.asarray(length_over_roughness, dtype=float))) ** -n)


def skin_friction_transition(reynolds: Real, laminar_saving: Real) -> Real:
    r"""Mean friction coefficient of a plate that is laminar in front and turbulent behind.

    $$ C_f = \frac{0.455}{\left(\log_{10} Re\right)^{2.58}} - \frac{A}{Re} $$

    Parameters
    ----------
    reynolds : float or array, shape (...)
        Reynolds number of the length, $Re$. [-]
    laminar_saving : float or array, shape (...)
        $A$: 1700 where the boundary layer turns turbulent at Re = 5e5, 0 where it is turbulent
        from the leading edge. [-]

    Returns
    -------
    friction_coefficient : float or array, broadcast shape
        $C_f$ on the wetted area; never below the laminar plate's. [-]

    Validity
    --------
    0 <= reynolds <= 1e9, 0 <= laminar_saving <= 10 000; ValidityError outside. Joined by a smooth
    maximum to the laminar plate, which lifts it by 6 % where the two cross and by less than
    0.05 % where they differ by a factor 1.6.

    Source
    ------
    Schlichting's transition curves as tabulated in tests/data/body_skin_friction.csv (computed
    there).

    Examples
    --------
    The table gives 0.003103 at Re = 3e6 with A = 1700:

    >>> skin_friction_transition(3e6, 1700.0)
    0.003103
    """
    require_range(
        "skin_friction_transition", "laminar_saving", laminar_saving, 0.0, 1e4, "transition curves"
    )
    laminar = np.asarray(skin_friction_laminar_blasius(reynolds))
    Re = np.maximum(np.asarray(reynolds, dtype=float), 1.0)
    saving = np.asarray(laminar_saving, dtype=float) / Re
    turbulent = np.asarray(skin_friction_turbulent_prandtl_schlichting(reynolds)) - saving
    return as_real(_smooth_maximum(laminar, np.maximum(turbulent, 0.0)))


def sand_roughness_of_layers(layer_height_m: Real) -> Real:
    r"""Equivalent sand roughness of a shell printed in layers, unsanded.

    $$ k_s = 0.3\, h $$

    Parameters
    ----------
    layer_height_m : float or array, shape (...)
        Layer height $h$, with the layers stacked along the flow. [m]

    Returns
    -------
    roughness_m : float or array, same shape
        Equivalent sand roughness $k_s$. [m]

    Validity
    --------
    0 <= layer_height_m <= 0.001; ValidityError outside. An estimate, good to a factor two:
    ridges across the flow, rounded by the nozzle. A sanded and painted shell has 0.01 mm or
    less whatever its layers were.

    Source
    ------
    Memory of profilometer values (a tenth of the layer height in peak-to-valley mean) and of the
    usual factor from it to sand roughness; no document at hand.

    Examples
    --------
    Layers of 0.2 mm count as 0.06 mm of sand:

    >>> 1e3 * sand_roughness_of_layers(0.2e-3)
    0.06
    """
    require_range("sand_roughness_of_layers", "layer_height_m", layer_height_m, 0.0, 1e-3, "prints")
    return as_real(_LAYER_TO_SAND * np.asarray(layer_height_m, dtype=float))


def body_friction(
    reynolds: Array, length_m: float, roughness_m: float, laminar_saving: float = 0.0
) -> Array:
    r"""Friction coefficient of a body's skin: smooth or rough plate, whichever has more.

    $$ C_f = \max\left(C_{f,smooth}(Re, A),\; C_{f,rough}(L/k_s)\right) $$

    Parameters
    ----------
    reynolds : array, shape (...)
        Reynolds number of the length, $Re$. [-]
    length_m : float
        Length along the flow, $L$. [m]
    roughness_m : float
        Equivalent sand roughness, $k_s$; 0 for a smooth skin. [m]
    laminar_saving : float
        $A$ of `skin_friction_transition`. [-]

    Returns
    -------
    friction_coefficient : array, same shape
        $C_f$ on the wetted area. [-]

    Validity
    --------
    As `skin_friction_transition` and `skin_friction_rough`; joined by a smooth maximum that lies
    6 % above both where they are equal, as transitional roughness does.

    Source
    ------
    The two formulas it joins.

    Examples
    --------
    A 330 mm shell with 0.06 mm of sand roughness at 80 m/s:

    >>> float(body_friction(np.array(1.8e6), 0.33, 60e-6))
    0.00562
    """
    smooth = np.asarray(skin_friction_transition(reynolds, laminar_saving))
    if roughness_m <= 0.0:
        return smooth
    rough = np.asarray(skin_friction_rough(length_m / roughness_m))
    return _smooth_maximum(smooth, rough)


def _joined(who: str, reynolds: Real, floor: float) -> Array:
    require_range(who, "reynolds", reynolds, 0.0, 1e9, "plates at low speed")
    scaled = np.asarray(reynolds, dtype=float) / floor
    return np.asarray(floor * (1.0 + scaled**4) ** 0.25)


def _smooth_maximum(a: Array, b: Array) -> Array:
    """Of two friction coefficients, the larger; 6 % above both where they are equal."""
    return np.asarray((a**_JOIN + b**_JOIN) ** (1.0 / _JOIN))
