"""Make pycore/slipfit/data/sections.npz: lift and drag of blade sections at low Reynolds numbers.

Needs the extra `tables` (NeuralFoil, a learned stand-in for a viscous panel code). Run it from the
top of the repository: `python tools/make_sections.py`. Everything past the stall is added when the
table is loaded (`slipfit.physics.section`), so the file holds only what was computed here.

Transition: amplification exponent N_CRIT for every section and Reynolds number. The usual 9 stands
for a quiet wind tunnel; blades of small propellers run in their own wakes, vibrate and are made
with visible roughness, and with 9 the laminar bubbles below Re 40 000 burst and the measured
propellers of `tests/data/propeller_uiuc_*.csv` are missed widely (see docs/methods).
"""

from __future__ import annotations

import json
from pathlib import Path

import neuralfoil
import numpy as np

HERE = Path(__file__).resolve().parent
OUT = HERE.parent / "pycore" / "slipfit" / "data" / "sections.npz"

N_CRIT = 4.0
ALPHA_DEG = np.arange(-24.0, 25.0)  # attached flow and the first part of the stall
REYNOLDS = 10.0 ** np.arange(4.0, 6.01, 0.2)
GENERIC_THICKNESS = np.array([0.04, 0.06, 0.08, 0.10, 0.12, 0.14])
CLARK_Y_THICKNESS = np.array([0.06, 0.08, 0.10, 0.12, 0.15, 0.20, 0.28])


def four_digit(camber: float, position: float, thickness: float) -> np.ndarray:
    """Coordinates of a NACA four-digit section with a closed trailing edge; NACA TR 460 (1933)."""
    x = 0.5 * (1 - np.cos(np.linspace(0, np.pi, 81)))
    half = (thickness / 0.2) * (
        0.2969 * np.sqrt(x) - 0.1260 * x - 0.3516 * x**2 + 0.2843 * x**3 - 0.1036 * x**4
    )
    if camber > 0.0:
        fore = x < position
        p = position
        line = np.where(
            fore,
            camber / p**2 * (2 * p * x - x**2),
            camber / (1 - p) ** 2 * ((1 - 2 * p) + 2 * p * x - x**2),
        )
        slope = np.where(fore, 2 * camber / p**2 * (p - x), 2 * camber / (1 - p) ** 2 * (p - x))
    else:
        line = slope = np.zeros_like(x)
    angle = np.arctan(slope)
    upper = np.stack([x - half * np.sin(angle), line + half * np.cos(angle)], axis=1)
    lower = np.stack([x + half * np.sin(angle), line - half * np.cos(angle)], axis=1)
    return np.concatenate([upper[::-1], lower[1:]])


# Clark Y, thickness 11.7 %, ordinates in % of the chord above the flat lower face: station, upper,
# lower. NACA TR 502 (1934), Table I; written from memory, checked against the thickness 11.7 %.
CLARK_Y = np.array(
    [
        (0.0, 3.50, 3.50), (1.25, 5.45, 1.93), (2.5, 6.50, 1.47), (5.0, 7.90, 0.93),
        (7.5, 8.85, 0.63), (10.0, 9.60, 0.42), (15.0, 10.69, 0.15), (20.0, 11.36, 0.03),
        (30.0, 11.70, 0.0), (40.0, 11.40, 0.0), (50.0, 10.52, 0.0), (60.0, 9.15, 0.0),
        (70.0, 7.35, 0.0), (80.0, 5.22, 0.0), (90.0, 2.80, 0.0), (95.0, 1.49, 0.0),
        (100.0, 0.12, 0.0),
    ]
)  # fmt: skip


def clark_y(thickness: float) -> np.ndarray:
    """Clark Y with every ordinate above the flat face scaled, turned so that x is the chord line.

    That is how propeller sections of one family are made (NACA TR 640). The chord line joins the
    leading edge, 3.5/11.7 of the thickness above the face, with the trailing edge.
    """
    x = CLARK_Y[:, 0] / 100
    upper, lower = (CLARK_Y[:, k] / 100 * thickness / 0.117 for k in (1, 2))
    around = np.concatenate([np.stack([x, upper], axis=1)[::-1], np.stack([x, lower], axis=1)[1:]])
    rise = upper[0]
    tilt = np.arctan(rise)
    turn = np.array([[np.cos(tilt), -np.sin(tilt)], [np.sin(tilt), np.cos(tilt)]])
    return (around - [0.0, rise]) @ turn.T * np.cos(tilt)


def sda1075() -> np.ndarray:
    """Coordinates of the SDA1075, AIAA 2014-2151 Appendix A."""
    rows = np.genfromtxt(
        HERE.parent / "tests" / "data" / "airfoil_sda1075.csv", delimiter=",", comments="#"
    )
    return np.asarray(rows)


def polar(coordinates: np.ndarray, n_crit: float = N_CRIT) -> tuple[np.ndarray, np.ndarray]:
    """Lift and drag coefficients, shape (reynolds, alpha)."""
    alpha, reynolds = (a.ravel() for a in np.meshgrid(ALPHA_DEG, REYNOLDS))
    result = neuralfoil.get_aero_from_coordinates(
        coordinates, alpha=alpha, Re=reynolds, n_crit=n_crit, model_size="xxxlarge"
    )
    shape = (len(REYNOLDS), len(ALPHA_DEG))
    return result["CL"].reshape(shape), result["CD"].reshape(shape)


def families() -> dict[str, tuple[np.ndarray, list[np.ndarray]]]:
    """Family name -> thickness ratios and coordinates."""
    return {
        "cambered-3": (GENERIC_THICKNESS, [four_digit(0.03, 0.4, t) for t in GENERIC_THICKNESS]),
        "cambered-5": (GENERIC_THICKNESS, [four_digit(0.05, 0.4, t) for t in GENERIC_THICKNESS]),
        "clark-y": (CLARK_Y_THICKNESS, [clark_y(t) for t in CLARK_Y_THICKNESS]),
        "sda1075": (np.array([0.12]), [sda1075()]),
        "naca-0015": (np.array([0.15]), [four_digit(0.0, 0.4, 0.15)]),
        "naca-0012": (np.array([0.12]), [four_digit(0.0, 0.4, 0.12)]),
    }


def tables(n_crit: float = N_CRIT) -> dict[str, np.ndarray]:
    """All entries of the shipped file."""
    entries: dict[str, np.ndarray] = {
        "header": np.array(
            json.dumps(
                {
                    "source": "computed from the coordinates named in tools/make_sections.py "
                    "(NACA TR 460 four-digit formulas, Clark Y of TR 502, SDA1075 of "
                    "AIAA 2014-2151)",
                    "licence": "made for this project, under its licence",
                    "made": f"python tools/make_sections.py, NeuralFoil {neuralfoil.__version__} "
                    f"xxxlarge, n_crit {n_crit:g}, free transition; computed, not measured",
                }
            )
        ),
        "alpha_deg": ALPHA_DEG,
        "reynolds": REYNOLDS,
        "families": np.array(list(families())),
    }
    for name, (thickness, shapes) in families().items():
        both = [polar(shape, n_crit) for shape in shapes]
        entries[f"{name}/thickness_ratio"] = thickness
        entries[f"{name}/cl"] = np.array([cl for cl, _ in both], dtype=np.float32).round(4)
        entries[f"{name}/cd"] = np.array([cd for _, cd in both], dtype=np.float32).round(5)
    return entries


if __name__ == "__main__":
    np.savez_compressed(OUT, **tables())
    print(f"{OUT.name}: {OUT.stat().st_size / 1000:.0f} kB")
