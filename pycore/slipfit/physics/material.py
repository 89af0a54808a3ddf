"""What frames and propellers are made of, and the mass of a print from its volume and infill."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

import numpy as np

from slipfit.errors import require_range
from slipfit.numerics import Real, as_real
from slipfit.physics.beam import laminate_modulus


@dataclass(frozen=True, kw_only=True)
class Material:
    """Density, modulus and the tension that breaks it; of a cloth also its shear modulus.

    `modulus_Pa` is that along the fibres of a cloth, which has as many across.
    """

    density_kg_m3: float
    modulus_Pa: float
    strength_Pa: float
    shear_modulus_Pa: float = 0.0
    poisson_ratio: float = 0.0

    @property
    def is_cloth(self) -> bool:
        """True where the modulus depends on the direction."""
        return self.shear_modulus_Pa > 0.0

    def modulus_at(self, angle_rad: float) -> float:
        """Modulus at an angle to the fibres; any angle is the same where there are none. [Pa]"""
        if not self.is_cloth:
            return self.modulus_Pa
        E, G, nu = self.modulus_Pa, self.shear_modulus_Pa, self.poisson_ratio
        return float(laminate_modulus(angle_rad, E, E, G, nu))


# tests/data/material_figures.csv holds each number with its source and flag. Prints are weaker and
# softer than their material, by a fifth or more across their layers.
MATERIALS: Final[Mapping[str, Material]] = {
    "carbon cloth": Material(
        density_kg_m3=1550.0, modulus_Pa=60e9, strength_Pa=725e6, shear_modulus_Pa=2.7e9,
        poisson_ratio=0.05,
    ),
    "aluminium": Material(density_kg_m3=2700.0, modulus_Pa=69e9, strength_Pa=290e6),
    "PLA": Material(density_kg_m3=1250.0, modulus_Pa=3.5e9, strength_Pa=53e6),
    "ABS": Material(density_kg_m3=1040.0, modulus_Pa=2.1e9, strength_Pa=40e6),
    "PETG": Material(density_kg_m3=1270.0, modulus_Pa=2.0e9, strength_Pa=50e6),
    "PC": Material(density_kg_m3=1200.0, modulus_Pa=2.3e9, strength_Pa=60e6),
    "PA-GF30": Material(density_kg_m3=1360.0, modulus_Pa=9e9, strength_Pa=150e6),
    "POM": Material(density_kg_m3=1410.0, modulus_Pa=2.8e9, strength_Pa=60e6),
    "TPU": Material(density_kg_m3=1210.0, modulus_Pa=0.06e9, strength_Pa=35e6),
}  # fmt: skip


def material_names() -> tuple[str, ...]:
    """Names of the materials that files may use.

    Returns
    -------
    names : tuple of str
        The keys of `MATERIALS`. [-]

    Validity
    --------
    Always.

    Source
    ------
    `MATERIALS`.
    """
    return tuple(MATERIALS)


def printed_mass(
    volume_m3: Real, density_kg_m3: Real, infill: Real = 1.0, walls: Real = 0.3
) -> Real:
    r"""Mass of a printed part from the volume of its drawing.

    $$ m = \rho V \left[w + (1 - w)\, i\right] $$

    Parameters
    ----------
    volume_m3 : float or array, shape (...)
        Volume of the part as drawn, $V$. [m3]
    density_kg_m3 : float or array, shape (...)
        Density of the material, $\rho$. [kg/m3]
    infill : float or array, shape (...)
        How full it is between its walls, $i$. [-]
    walls : float or array, shape (...)
        Share of the volume that is wall, top or bottom and always full, $w$. [-]

    Returns
    -------
    mass_kg : float or array, broadcast shape
        $m$. [kg]

    Validity
    --------
    volume_m3 >= 0, infill and walls 0 to 1; ValidityError outside. A slicer knows better: prints
    differ from this by a tenth, by their extrusion and by how the walls are counted. With an
    infill of 1 the walls do not matter, which is right for shells of a few lines.

    Source
    ------
    Definition.

    Examples
    --------
    12 cm3 of PETG with a third of walls and 20 % between them, in grams:

    >>> 1e3 * printed_mass(12e-6, 1270.0, 0.2, 1 / 3)
    7.112
    """
    who = "printed_mass"
    require_range(who, "volume_m3", volume_m3, 0.0, np.inf, "a body")
    require_range(who, "infill", infill, 0.0, 1.0, "a share")
    require_range(who, "walls", walls, 0.0, 1.0, "a share")
    V, rho = np.asarray(volume_m3, dtype=float), np.asarray(density_kg_m3, dtype=float)
    i, w = np.asarray(infill, dtype=float), np.asarray(walls, dtype=float)
    return as_real(rho * V * (w + (1.0 - w) * i))
