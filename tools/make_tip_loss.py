"""Make pycore/slipfit/data/tip_loss.npz: Goldstein's tip loss over Prandtl's, as polynomials.

Run it with the project's Python: `python tools/make_tip_loss.py`; it needs only numpy.

Behind a propeller of least induced loss the trailing sheets move back like rigid screws (Betz). The
circulation that makes them do so was found by Goldstein (1929) as a series. Here it is found from
the velocity that helical vortices induce at the blades (Lerbs 1952), in the closed form of Wrench
(DTMB report 1116, 1957; from memory, and held by the tests against the integral of Biot and
Savart), with the bound circulation in steps. Its ratio to Prandtl's factor is smooth; over the sine
of the inflow angle a polynomial holds it for each radius.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path

import numpy as np

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT / "pycore"))

from slipfit.physics.tip_loss import STEEPEST_SINE  # noqa: E402

OUT = ROOT / "pycore" / "slipfit" / "data" / "tip_loss.npz"

BLADES = np.arange(1, 9)
R_R = np.round(np.arange(0.10, 1.01, 0.05), 2)
DEGREE = 7
STEPS = 160  # of circulation from the axis to the tip, closer together at both ends
ADVANCE = np.geomspace(0.02, 20.0, 160)  # tangent of the inflow angle at the tip


def induced_by_helices(
    blades: int, at: np.ndarray, start: np.ndarray, advance: float
) -> tuple[np.ndarray, np.ndarray]:
    """Axial and tangential velocity at radius `at` on a blade, from helical vortices of circulation
    1, one from each blade at radius `start`, that go back for ever with the pitch of `advance`.

    Lengths are over the tip's radius. Axially positive with the stream, tangentially with the turn.
    """
    y, y0 = at / advance, start / advance
    s, s0 = np.sqrt(1 + y * y), np.sqrt(1 + y0 * y0)
    log_u = blades * (np.log(y0 * (s - 1) / (y * (s0 - 1))) + s - s0)
    inner = log_u < 0.0
    with np.errstate(over="ignore"):
        near = 1.0 / np.expm1(np.abs(log_u))
    series = ((9 * y0**2 + 2) / s0**3 + (3 * y**2 - 2) / s**3) / (24 * blades) * np.log1p(near)
    size = np.sqrt(s0 / s) / (2 * blades * y0)
    f = np.where(inner, -size * (near + series), size * (near - series))
    axial = np.where(inner, y - 2 * blades * y * y0 * f, -2 * blades * y * y0 * f)
    tangential = np.where(inner, 2 * blades * y0 * f, 1 + 2 * blades * y0 * f)
    return blades / (4 * np.pi * at) * axial, blades / (4 * np.pi * at) * tangential


def steps() -> tuple[np.ndarray, np.ndarray]:
    """Radii of the ends of the steps of circulation, and of their middles."""
    half = np.linspace(0.0, np.pi, 2 * STEPS + 1)
    place = 0.5 * (1 - np.cos(half))
    return np.maximum(place[::2], 1e-6), place[1::2]


def goldstein(blades: int, advance: float) -> tuple[np.ndarray, np.ndarray]:
    """Radii, and there the mean induced velocity of the ring over that at the blades."""
    ends, at = steps()
    axial, _ = induced_by_helices(blades, at[:, None], ends[None, :], advance)
    sine_2 = advance**2 / (advance**2 + at**2)
    # sheets that move back by 1 induce half of it at the blades, and only the part square to them
    circulation = np.linalg.solve(axial[:, 1:] - axial[:, :-1], 0.5 * (1 - sine_2))
    tangential = 0.5 * np.sqrt(sine_2 * (1 - sine_2))
    return at, blades * circulation / (4 * np.pi * at * tangential)


def prandtl(blades: int, r_R: np.ndarray, sine: np.ndarray) -> np.ndarray:
    return 2 / np.pi * np.arccos(np.exp(-0.5 * blades * (1 - r_R) / (r_R * sine)))


def ratios(blades: int) -> list[tuple[np.ndarray, np.ndarray]]:
    """For every radius of `R_R`, sines of the inflow angle, and the ratio of the factors there."""
    rows = []
    for advance in ADVANCE:
        at, factor = goldstein(blades, advance)
        over = factor / prandtl(blades, at, advance / np.hypot(advance, at))
        rows.append(np.interp(R_R, at, over))
    found = []
    for r_R, ratio in zip(R_R, np.array(rows).T, strict=True):
        sine = ADVANCE / np.hypot(ADVANCE, r_R)
        kept = sine <= STEEPEST_SINE
        found.append((sine[kept], ratio[kept]))
    return found


def fit(sine: np.ndarray, ratio: np.ndarray) -> np.ndarray:
    """Coefficients of rising powers of the sine, 1 without inflow, where Prandtl's is exact."""
    powers = sine[:, None] ** np.arange(1, DEGREE + 1)
    weight = np.gradient(sine)[:, None] ** 0.5  # by the width that a point stands for
    return np.append(1.0, np.linalg.lstsq(powers * weight, (ratio - 1) * weight[:, 0])[0])


def table() -> dict[str, np.ndarray]:
    """All entries of the shipped file."""
    header = {
        "source": "computed: S. Goldstein, Proc. R. Soc. A 123 (1929), by the velocities of "
        "helical vortices of H. W. Lerbs (1952) and J. W. Wrench (1957)",
        "licence": "made for this project, under its licence",
        "made": "python tools/make_tip_loss.py; computed, not measured",
    }
    powers = [[fit(*pair) for pair in ratios(int(blades))] for blades in BLADES]
    return {
        "header": np.array(json.dumps(header)),
        "blades": BLADES,
        "r_R": R_R,
        "powers": np.array(powers, dtype=np.float32),
    }


if __name__ == "__main__":
    np.savez_compressed(OUT, **table())
    print(f"{OUT.name}: {OUT.stat().st_size / 1000:.0f} kB")
