"""Rotors of the published tests, and statistics of how far the model is from their measurements."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from types import SimpleNamespace

import numpy as np

from slipfit.physics.blade import Blade, blade_from_table
from slipfit.physics.rotor import RotorLoads
from tables import rows

INCH = 0.0254
NACA_640_DIAMETER_M = 3.048
# Air of the tests where the source states none: about 20 degC at some 200 m.
LAB_AIR = SimpleNamespace(density_kg_m3=1.19, viscosity_Pa_s=1.81e-5, sound_speed_m_s=343.0)
SEA_AIR = SimpleNamespace(density_kg_m3=1.225, viscosity_Pa_s=1.789e-5, sound_speed_m_s=340.3)
_FACE_RISE = 0.035 / 0.117  # leading edge of Clark Y above its flat face, over the thickness


def face_angle(thickness_ratio: np.ndarray) -> np.ndarray:
    """Angle between the chord line of a Clark Y section and the flat face that tables refer to."""
    return np.arctan(_FACE_RISE * thickness_ratio)


def numbers(table: Iterable[Mapping[str, str]], *columns: str) -> list[np.ndarray]:
    """Columns of a reference table as arrays."""
    kept = list(table)
    return [np.array([float(row[c]) for row in kept]) for c in columns]


def university_blade(prop: str, diameter: str, variant: str, blades: str) -> Blade:
    """A propeller of the university tests as scanned: its chord line's angles, by their files.

    The SDA1075 propellers are scanned each; of the NR640 those with 15 degrees at 0.75 R are, and
    the ones with 20 are the same blades turned. Thickness of the SDA1075 is that of the section.
    """
    if prop == "da4002":
        geometry, turn = f"da4002_{diameter}x{variant}_geom", 0.0
    else:
        geometry, turn = f"nr640_{diameter}_15deg_geom", float(variant.removesuffix("deg")) - 15.0
    scanned = [row for row in rows("propeller_uiuc_geometry.csv") if row["file"] == geometry]
    r, c, beta = numbers(scanned, "r_R", "c_R", "beta_deg")
    if prop == "da4002":
        thickness, section = np.full_like(r, 0.12), "sda1075"
    else:
        known = numbers(rows("propeller_nr640_thickness.csv"), "r_R", "t_c")
        thickness, section = np.interp(r, *known), "clark-y"
    return blade_from_table(
        r, c, np.deg2rad(beta + turn), float(diameter) * INCH, int(blades), thickness, section
    )


def naca_640_rotation(advance: np.ndarray) -> np.ndarray:
    """Revolutions per second: 800 a minute (the report has 500 to 1000, and the model hardly
    depends on it), or as many as the tunnel's 115 mph leave at an advance ratio."""
    fastest_m_s = 115 * 0.44704
    return np.minimum(800 / 60, fastest_m_s / (np.maximum(advance, 1e-9) * NACA_640_DIAMETER_M))


def naca_640_blade(angle_deg: float) -> Blade:
    """The four-blade propeller 5868-9 of NACA TR 640, 10 feet across, set at 0.75 R."""
    r, c, t, beta = numbers(
        rows("propeller_naca640_geometry.csv"), "r_R", "c_R", "t_c", "beta_deg(25 at .75R)"
    )
    pitch = np.deg2rad(beta + angle_deg - 25.0) + face_angle(t)
    return blade_from_table(r, c, pitch, NACA_640_DIAMETER_M, 4, t, "clark-y")


def untwisted_blade(
    section: str, radius_m: float, chord_m: float, blades: int, root_r_R: float, pitch_deg: float
) -> Blade:
    """A rectangular blade, as rotors of the hover tests have."""
    r = np.linspace(root_r_R, 1.0, 9)
    thickness = float(section.removeprefix("naca-00")) / 100
    return blade_from_table(
        r,
        np.full_like(r, chord_m / radius_m),
        np.full_like(r, np.deg2rad(pitch_deg)),
        2 * radius_m,
        blades,
        np.full_like(r, thickness),
        section,
    )


def prop_coefficients(
    loads: RotorLoads, n_rev_s: np.ndarray, diameter_m: float, density_kg_m3: float
) -> tuple[np.ndarray, np.ndarray]:
    """CT and CP of a propeller, on rho n^2 D^4 and rho n^3 D^5."""
    ct = loads.thrust_N / (density_kg_m3 * n_rev_s**2 * diameter_m**4)
    cp = 2 * np.pi * loads.torque_Nm / (density_kg_m3 * n_rev_s**2 * diameter_m**5)
    return ct, cp


def rotor_coefficients(
    loads: RotorLoads, omega_rad_s: float, radius_m: float, density_kg_m3: float
) -> tuple[float, float]:
    """CT and CQ of a rotor, on rho A (Omega R)^2 and rho A (Omega R)^2 R."""
    size = density_kg_m3 * np.pi * radius_m**2 * (omega_rad_s * radius_m) ** 2
    return float(loads.thrust_N / size), float(loads.torque_Nm / size / radius_m)
