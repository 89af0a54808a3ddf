"""Screws: ISO metric threads, engagement and stripping, tightening torque with its friction range.

Tables stand here as records: threads, property classes, friction, and what a screw goes into.
`tests/data/fastener_*.csv` holds the figures with their flags.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

import numpy as np

from slipfit.errors import InputError, nearest, require_range
from slipfit.numerics import Real, as_real


@dataclass(frozen=True, kw_only=True)
class Thread:
    """A coarse ISO metric thread (ISO 261) with its limits of size for 6g screws and 6H nuts
    (ISO 965) and its clearance holes (ISO 273)."""

    name: str
    diameter_m: float
    pitch_m: float
    screw_major_min_m: float
    screw_pitch_min_m: float
    nut_pitch_max_m: float
    nut_minor_max_m: float
    clearance_fine_m: float
    clearance_medium_m: float
    clearance_coarse_m: float


def _thread(name: str, d: float, P: float, *rest_mm: float) -> Thread:
    fields = [value * 1e-3 for value in rest_mm]
    return Thread(
        name=name, diameter_m=d * 1e-3, pitch_m=P * 1e-3,
        screw_major_min_m=fields[0], screw_pitch_min_m=fields[1],
        nut_pitch_max_m=fields[2], nut_minor_max_m=fields[3],
        clearance_fine_m=fields[4], clearance_medium_m=fields[5], clearance_coarse_m=fields[6],
    )  # fmt: skip


# Pitch; then of the screw the least major and pitch diameter, of the nut the largest pitch and
# minor diameter; then fine, medium and coarse clearance holes; all in mm. M1.6 and M5 are from
# memory, the others as in tests/data/fastener_threads_iso.csv.
THREADS: Final[Mapping[str, Thread]] = {
    thread.name: thread
    for thread in (
        _thread("M1.6", 1.6, 0.35, 1.496, 1.291, 1.458, 1.321, 1.7, 1.8, 2.0),
        _thread("M2", 2.0, 0.4, 1.886, 1.654, 1.830, 1.679, 2.2, 2.4, 2.6),
        _thread("M2.5", 2.5, 0.45, 2.380, 2.117, 2.303, 2.138, 2.7, 2.9, 3.1),
        _thread("M3", 3.0, 0.5, 2.874, 2.580, 2.775, 2.599, 3.2, 3.4, 3.6),
        _thread("M4", 4.0, 0.7, 3.838, 3.433, 3.663, 3.422, 4.3, 4.5, 4.8),
        _thread("M5", 5.0, 0.8, 4.826, 4.361, 4.605, 4.334, 5.3, 5.5, 5.8),
    )
}


@dataclass(frozen=True, kw_only=True)
class Strength:
    """What a screw's class promises: the tension at which it begins to stretch for good, and the
    one at which it breaks."""

    proof_Pa: float
    tensile_Pa: float


# ISO 898-1 property classes; A2-70 is ISO 3506-1, its proof stress the 0.2 % one.
STRENGTHS: Final[Mapping[str, Strength]] = {
    "4.8": Strength(proof_Pa=310e6, tensile_Pa=420e6),
    "8.8": Strength(proof_Pa=580e6, tensile_Pa=800e6),
    "10.9": Strength(proof_Pa=830e6, tensile_Pa=1040e6),
    "12.9": Strength(proof_Pa=970e6, tensile_Pa=1220e6),
    "A2-70": Strength(proof_Pa=450e6, tensile_Pa=700e6),
}


@dataclass(frozen=True, kw_only=True)
class Friction:
    """The nut factor K of a surface: usual, and over the range that a source reports."""

    usual: float
    low: float
    high: float


# Ranges: a fastener supplier's table, seen. Usual: 0.20 dry and 0.15 oiled, the rules that a
# service manual's table back-computes to; elsewhere the middle of the range. Liquid thread-lock
# counts as oil while it is wet: common practice, no source.
FRICTIONS: Final[Mapping[str, Friction]] = {
    "dry": Friction(usual=0.20, low=0.18, high=0.27),
    "oiled": Friction(usual=0.15, low=0.10, high=0.26),
    "zinc": Friction(usual=0.26, low=0.17, high=0.35),
    "stainless": Friction(usual=0.40, low=0.30, high=0.50),
}


@dataclass(frozen=True, kw_only=True)
class Hold:
    """What a screw turns into.

    `shear_Pa` is that of the threaded material; `body_Pa` that of the print around an insert, 0
    where there is none; `wanted` and `least` the engagement in screw diameters; `lock` how the
    thread is kept from turning loose: `fluid`, `itself` or `none`.
    """

    words: str
    shear_Pa: float
    wanted: float
    least: float
    lock: str
    body_Pa: float = 0.0
    note: str = ""


_ALUMINIUM_Pa = 207e6  # 6061-T6; memory
_HARD_ALUMINIUM_Pa = 331e6  # 7075-T6; memory
_STEEL_Pa = 240e6  # 0.6 of 400 MPa; memory
_BRASS_Pa = 216e6  # 0.6 of 360 MPa; memory
_PRINTED_PA = {"PETG": 25e6, "PLA": 28e6, "PA": 28e6, "POM": 60e6}  # shear, across layers; memory
_CARBON_Pa = 38e6  # interlaminar shear of a wet laminate of cloth; seen

# Engagement: in aluminium 1.2 diameters are where a class 8.8 screw breaks before the thread
# (computed); a full nut is 0.8 diameters high (ISO 4032); the rest is common practice, no source.
HOLDS: Final[Mapping[str, Hold]] = {
    "aluminium": Hold(
        words="aluminium", shear_Pa=_ALUMINIUM_Pa, wanted=1.2, least=0.8, lock="fluid"
    ),
    "hard aluminium": Hold(
        words="hard aluminium", shear_Pa=_HARD_ALUMINIUM_Pa, wanted=0.8, least=0.6, lock="fluid"
    ),
    "steel nut": Hold(words="a steel nut", shear_Pa=_STEEL_Pa, wanted=0.8, least=0.6, lock="fluid"),
    "locking nut": Hold(
        words="a locking nut", shear_Pa=_STEEL_Pa, wanted=0.8, least=0.8, lock="itself",
        note="The screw's end must show beyond the nut's ring, or the ring does not lock.",
    ),
    "press nut": Hold(
        words="a press nut", shear_Pa=_STEEL_Pa, wanted=0.8, least=0.6, lock="fluid",
        note="Pressed in from the far side, so that the screw pulls its flange onto the plate.",
    ),
    "carbon": Hold(
        words="a thread cut in carbon plate", shear_Pa=_CARBON_Pa, wanted=3.0, least=2.0,
        lock="none", note="Threads in carbon plate crumble; a press nut or a nut holds far more.",
    ),
    **{
        f"insert in {plastic}": Hold(
            words=f"a brass insert in printed {plastic}" if plastic != "POM"
            else "a brass insert in POM",
            shear_Pa=_BRASS_Pa, wanted=1.0, least=0.7, lock="none", body_Pa=shear,
            note="Thread-locking fluid cracks printed plastic; a drop of soft glue on the head "
            "does instead.",
        )
        for plastic, shear in _PRINTED_PA.items()
    },
    **{
        plastic if plastic == "POM" else f"printed {plastic}": Hold(
            words=plastic if plastic == "POM" else f"printed {plastic}",
            shear_Pa=shear, wanted=2.5, least=1.8, lock="none",
            note="A screw that cuts its own thread in plastic is turned in by hand and not often.",
        )
        for plastic, shear in _PRINTED_PA.items()
    },
}  # fmt: skip

# Outside diameter of the usual knurled insert of each thread, in mm; memory, measure yours.
INSERT_DIAMETERS_M: Final[Mapping[str, float]] = {
    "M1.6": 2.5e-3, "M2": 3.5e-3, "M2.5": 4.2e-3, "M3": 4.6e-3, "M4": 6.3e-3, "M5": 7.1e-3,
}  # fmt: skip
INSERT_SHARE: Final = 0.5  # of the shear strength, that the knurls' filled valleys reach; judgement

# Lengths that shops stock (the series of ISO 4762), in m; memory.
LENGTHS_M: Final = tuple(
    1e-3 * v for v in (3, 4, 5, 6, 8, 10, 12, 16, 20, 25, 30, 35, 40, 45, 50, 55, 60)
)
HEADS: Final = ("cap", "button", "countersunk")
# Hexagon keys in mm by head: ISO 4762, ISO 7380-1, ISO 10642; memory.
KEYS_MM: Final[Mapping[str, Mapping[str, float]]] = {
    "cap": {"M1.6": 1.5, "M2": 1.5, "M2.5": 2.0, "M3": 2.5, "M4": 3.0, "M5": 4.0},
    "button": {"M1.6": 0.9, "M2": 1.3, "M2.5": 1.5, "M3": 2.0, "M4": 2.5, "M5": 3.0},
    "countersunk": {"M1.6": 0.9, "M2": 1.3, "M2.5": 1.5, "M3": 2.0, "M4": 2.5, "M5": 3.0},
}
STEEL_KG_M3: Final = 7850.0  # carbon steel; memory. Stainless weighs 1 % more.
# Head diameter, head height and socket depth in mm: the largest and the least that ISO 4762 allows,
# as a supplier's table prints them (seen); ISO 7380-1 and ISO 10642 from memory, and so is what
# shops sell below M3 by these heads.
_HEADS_MM: Final[Mapping[str, Mapping[str, tuple[float, float, float]]]] = {
    "cap": {
        "M1.6": (3.0, 1.6, 0.7), "M2": (3.8, 2.0, 1.0), "M2.5": (4.5, 2.5, 1.1),
        "M3": (5.5, 3.0, 1.3), "M4": (7.0, 4.0, 2.0), "M5": (8.5, 5.0, 2.5),
    },
    "button": {
        "M1.6": (2.9, 0.8, 0.5), "M2": (3.5, 1.1, 0.6), "M2.5": (4.6, 1.4, 0.8),
        "M3": (5.7, 1.65, 1.04), "M4": (7.6, 2.2, 1.3), "M5": (9.5, 2.75, 1.56),
    },
    "countersunk": {
        "M1.6": (3.0, 1.0, 0.6), "M2": (3.8, 1.2, 0.7), "M2.5": (4.7, 1.5, 0.9),
        "M3": (5.5, 1.7, 1.1), "M4": (7.5, 2.3, 1.5), "M5": (9.4, 2.8, 1.9),
    },
}  # fmt: skip


def head_volume(head: str, size: str) -> float:
    """Volume of a screw's head without its socket: a cylinder, a cap of a sphere, or a cone that
    stands out of the shank. [m3]"""
    across, high, deep = (1e-3 * v for v in _HEADS_MM[head][size])
    key = 1e-3 * KEYS_MM[head][size]
    if head == "cap":
        full = np.pi / 4 * across**2 * high
    elif head == "button":
        full = np.pi / 6 * high * (0.75 * across**2 + high**2)
    else:
        d = THREADS[size].diameter_m
        full = np.pi / 12 * high * (across**2 + across * d + d**2)
    return float(full - np.sqrt(0.75) * key**2 * deep)


def thread_of(name: str) -> Thread:
    """The thread with a name such as `M3`; InputError names the nearest."""
    if name not in THREADS:
        raise InputError(f"no thread '{name[:20]}'{nearest(name[:20], THREADS)}", field="screw")
    return THREADS[name]


def thread_pitch_diameter(diameter_m: Real, pitch_m: Real) -> Real:
    r"""Basic pitch diameter of an ISO metric thread.

    $$ d_2 = d - \tfrac{3}{4} H, \quad H = \tfrac{\sqrt 3}{2} P $$

    Parameters
    ----------
    diameter_m : float or array, shape (...)
        Nominal diameter, $d$. [m]
    pitch_m : float or array, shape (...)
        Pitch, $P$. [m]

    Returns
    -------
    pitch_diameter_m : float or array, broadcast shape
        $d_2$. [m]

    Validity
    --------
    0 < pitch_m < diameter_m; the basic profile, without tolerance.

    Source
    ------
    ISO 68-1, basic profile, from memory.

    Examples
    --------
    M3, in mm:

    >>> 1e3 * thread_pitch_diameter(3e-3, 0.5e-3)
    2.675
    """
    d, P = _profile("thread_pitch_diameter", diameter_m, pitch_m)
    return as_real(d - 0.75 * (np.sqrt(3.0) / 2 * P))


def thread_minor_diameter(diameter_m: Real, pitch_m: Real) -> Real:
    r"""Basic minor diameter of an ISO metric nut thread, the bore before it is cut.

    $$ D_1 = d - \tfrac{5}{4} H, \quad H = \tfrac{\sqrt 3}{2} P $$

    Parameters
    ----------
    diameter_m : float or array, shape (...)
        Nominal diameter, $d$. [m]
    pitch_m : float or array, shape (...)
        Pitch, $P$. [m]

    Returns
    -------
    minor_diameter_m : float or array, broadcast shape
        $D_1$. [m]

    Validity
    --------
    0 < pitch_m < diameter_m; the basic profile, without tolerance.

    Source
    ------
    ISO 68-1, basic profile, from memory.

    Examples
    --------
    M3, in mm:

    >>> 1e3 * thread_minor_diameter(3e-3, 0.5e-3)
    2.459
    """
    d, P = _profile("thread_minor_diameter", diameter_m, pitch_m)
    return as_real(d - 1.25 * (np.sqrt(3.0) / 2 * P))


def thread_root_diameter(diameter_m: Real, pitch_m: Real) -> Real:
    r"""Diameter at the rounded root of an ISO metric screw.

    $$ d_3 = d - \tfrac{17}{12} H, \quad H = \tfrac{\sqrt 3}{2} P $$

    Parameters
    ----------
    diameter_m : float or array, shape (...)
        Nominal diameter, $d$. [m]
    pitch_m : float or array, shape (...)
        Pitch, $P$. [m]

    Returns
    -------
    root_diameter_m : float or array, broadcast shape
        $d_3$. [m]

    Validity
    --------
    0 < pitch_m < diameter_m; the design profile, without tolerance.

    Source
    ------
    ISO 68-1, design profile, from memory.

    Examples
    --------
    M3, in mm:

    >>> 1e3 * thread_root_diameter(3e-3, 0.5e-3)
    2.387
    """
    d, P = _profile("thread_root_diameter", diameter_m, pitch_m)
    return as_real(d - 17.0 / 12.0 * (np.sqrt(3.0) / 2 * P))


def thread_stress_area(diameter_m: Real, pitch_m: Real) -> Real:
    r"""Area of an ISO metric screw that counts for its tension.

    $$ A_s = \frac{\pi}{4} \left(\frac{d_2 + d_3}{2}\right)^2 $$

    Parameters
    ----------
    diameter_m : float or array, shape (...)
        Nominal diameter, $d$. [m]
    pitch_m : float or array, shape (...)
        Pitch, $P$. [m]

    Returns
    -------
    area_m2 : float or array, broadcast shape
        $A_s$. [m2]

    Validity
    --------
    0 < pitch_m < diameter_m; nominal sizes.

    Source
    ------
    ISO 898-1, formula from memory; its tabulated loads are those of this area.

    Examples
    --------
    M3 has 5.03 mm2:

    >>> 1e6 * thread_stress_area(3e-3, 0.5e-3)
    5.03
    """
    d2 = np.asarray(thread_pitch_diameter(diameter_m, pitch_m))
    d3 = np.asarray(thread_root_diameter(diameter_m, pitch_m))
    return as_real(np.pi / 4 * ((d2 + d3) / 2) ** 2)


def nut_shear_area(
    pitch_m: Real, screw_major_min_m: Real, nut_pitch_max_m: Real, engagement_m: Real
) -> Real:
    r"""Area over which a nut's thread shears off, at the worst sizes that its class allows.

    $$ A_{sn} = \pi \frac{L_e}{P} d_{min}
       \left[\frac{P}{2} + \frac{d_{min} - D_{2,max}}{\sqrt 3}\right] $$

    Parameters
    ----------
    pitch_m : float or array, shape (...)
        Pitch, $P$. [m]
    screw_major_min_m : float or array, shape (...)
        Least major diameter of the screw, $d_{min}$. [m]
    nut_pitch_max_m : float or array, shape (...)
        Largest pitch diameter of the nut, $D_{2,max}$. [m]
    engagement_m : float or array, shape (...)
        Length of thread that is engaged, $L_e$. [m]

    Returns
    -------
    area_m2 : float or array, broadcast shape
        $A_{sn}$. [m2]

    Validity
    --------
    engagement_m >= 0, of full threads: take off the chamfer at the start. Loads share the threads
    evenly, which short engagements of ductile materials come near to.

    Source
    ------
    FED-STD-H28/2B, appendix B, as machinery handbooks print it; from memory.

    Examples
    --------
    M3, 6g in 6H, in mm2 for each mm of engagement:

    >>> 1e3 * nut_shear_area(0.5e-3, 2.874e-3, 2.775e-3, 1.0)
    5.547
    """
    require_range("nut_shear_area", "engagement_m", engagement_m, 0.0, np.inf, "a length")
    P, d = np.asarray(pitch_m, dtype=float), np.asarray(screw_major_min_m, dtype=float)
    D2, Le = np.asarray(nut_pitch_max_m, dtype=float), np.asarray(engagement_m, dtype=float)
    return as_real(np.pi * Le / P * d * (P / 2 + (d - D2) / np.sqrt(3.0)))


def screw_shear_area(
    pitch_m: Real, nut_minor_max_m: Real, screw_pitch_min_m: Real, engagement_m: Real
) -> Real:
    r"""Area over which a screw's thread shears off, at the worst sizes that its class allows.

    $$ A_{ss} = \pi \frac{L_e}{P} D_{1,max}
       \left[\frac{P}{2} + \frac{d_{2,min} - D_{1,max}}{\sqrt 3}\right] $$

    Parameters
    ----------
    pitch_m : float or array, shape (...)
        Pitch, $P$. [m]
    nut_minor_max_m : float or array, shape (...)
        Largest minor diameter of the nut, $D_{1,max}$. [m]
    screw_pitch_min_m : float or array, shape (...)
        Least pitch diameter of the screw, $d_{2,min}$. [m]
    engagement_m : float or array, shape (...)
        Length of thread that is engaged, $L_e$. [m]

    Returns
    -------
    area_m2 : float or array, broadcast shape
        $A_{ss}$. [m2]

    Validity
    --------
    engagement_m >= 0, of full threads, as for `nut_shear_area`.

    Source
    ------
    FED-STD-H28/2B, appendix B, as machinery handbooks print it; from memory.

    Examples
    --------
    M3, 6g in 6H, in mm2 for each mm of engagement:

    >>> 1e3 * screw_shear_area(0.5e-3, 2.599e-3, 2.580e-3, 1.0)
    3.903
    """
    require_range("screw_shear_area", "engagement_m", engagement_m, 0.0, np.inf, "a length")
    P, D1 = np.asarray(pitch_m, dtype=float), np.asarray(nut_minor_max_m, dtype=float)
    d2, Le = np.asarray(screw_pitch_min_m, dtype=float), np.asarray(engagement_m, dtype=float)
    return as_real(np.pi * Le / P * D1 * (P / 2 + (d2 - D1) / np.sqrt(3.0)))


def engagement_same_strength(stress_area_m2: Real, screw_shear_area_per_m: Real) -> Real:
    r"""Engagement at which a screw's thread holds as much as its shank, nut of the same material.

    $$ L_e = \frac{2 A_s}{A_{ss} / L} $$

    Parameters
    ----------
    stress_area_m2 : float or array, shape (...)
        Stress area of the screw, $A_s$. [m2]
    screw_shear_area_per_m : float or array, shape (...)
        Shear area of the screw's thread per length of engagement, $A_{ss} / L$. [m]

    Returns
    -------
    engagement_m : float or array, broadcast shape
        $L_e$. [m]

    Validity
    --------
    Shear strength taken as half of the tensile strength, as the source does.

    Source
    ------
    FED-STD-H28/2B, appendix B, as machinery handbooks print it; from memory.

    Examples
    --------
    M3, in mm:

    >>> 1e3 * engagement_same_strength(5.031e-6, 3.903e-3)
    2.58
    """
    As = np.asarray(stress_area_m2, dtype=float)
    Ass = np.asarray(screw_shear_area_per_m, dtype=float)
    return as_real(2.0 * As / Ass)


def strip_force(shear_area_m2: Real, shear_strength_Pa: Real) -> Real:
    r"""Pull at which a thread shears off.

    $$ F = A \tau $$

    Parameters
    ----------
    shear_area_m2 : float or array, shape (...)
        Shear area of the thread, $A$. [m2]
    shear_strength_Pa : float or array, shape (...)
        Shear strength of its material, $\tau$. [Pa]

    Returns
    -------
    force_N : float or array, broadcast shape
        $F$. [N]

    Validity
    --------
    A ductile material. Prints vary by a fifth and more with direction and settings; the strengths
    in this module are from memory.

    Source
    ------
    Definition.

    Examples
    --------
    3 mm of M3 in 6061-T6, 16.64 mm2 at 207 MPa:

    >>> strip_force(16.64e-6, 207e6)
    3444.5
    """
    A, tau = np.asarray(shear_area_m2, dtype=float), np.asarray(shear_strength_Pa, dtype=float)
    return as_real(A * tau)


def insert_pull_out(
    diameter_m: Real, length_m: Real, shear_strength_Pa: Real, share: Real = INSERT_SHARE
) -> Real:
    r"""Pull at which a knurled insert tears out of the plastic around it.

    $$ F = k \pi D L \tau $$

    Parameters
    ----------
    diameter_m : float or array, shape (...)
        Outside diameter of the knurls, $D$. [m]
    length_m : float or array, shape (...)
        Length in the plastic, $L$. [m]
    shear_strength_Pa : float or array, shape (...)
        Shear strength of the plastic, $\tau$. [Pa]
    share : float or array, shape (...)
        Share of that strength that is reached, $k$. [-]

    Returns
    -------
    force_N : float or array, broadcast shape
        $F$. [N]

    Validity
    --------
    An insert set straight into a hole of its maker's size with a wall around it at least as thick
    as its knurls' radius. The share is judgement, not a measurement.

    Source
    ------
    Cylinder of shear around the knurls; common practice, no source.

    Examples
    --------
    An M3 insert 4.6 mm across and 5.7 mm long in printed PETG:

    >>> insert_pull_out(4.6e-3, 5.7e-3, 25e6)
    1029.7
    """
    require_range("insert_pull_out", "length_m", length_m, 0.0, np.inf, "a length")
    D, L = np.asarray(diameter_m, dtype=float), np.asarray(length_m, dtype=float)
    tau, k = np.asarray(shear_strength_Pa, dtype=float), np.asarray(share, dtype=float)
    return as_real(k * np.pi * D * L * tau)


def proof_load(stress_area_m2: Real, proof_stress_Pa: Real) -> Real:
    r"""Pull that a screw bears without stretching for good.

    $$ F_p = A_s S_p $$

    Parameters
    ----------
    stress_area_m2 : float or array, shape (...)
        Stress area of the screw, $A_s$. [m2]
    proof_stress_Pa : float or array, shape (...)
        Proof stress of its class, $S_p$. [Pa]

    Returns
    -------
    force_N : float or array, broadcast shape
        $F_p$. [N]

    Validity
    --------
    Steel screws of full shank; button and countersunk heads bear less than their class says.

    Source
    ------
    ISO 898-1, tables of proof loads.

    Examples
    --------
    M3 of class 8.8:

    >>> proof_load(5.031e-6, 580e6)
    2918.0
    """
    As, Sp = np.asarray(stress_area_m2, dtype=float), np.asarray(proof_stress_Pa, dtype=float)
    return as_real(As * Sp)


def screw_mass(diameter_m: Real, pitch_m: Real, length_m: Real, head_volume_m3: Real) -> Real:
    r"""Mass of a steel screw.

    $$ m = \rho \left(V_h + \frac{\pi}{4} d_2^2 \min(l, b)
       + \frac{\pi}{4} d^2 \max(l - b, 0)\right), \quad b = 2 d + 12\ \mathrm{mm} $$

    Parameters
    ----------
    diameter_m : float or array, shape (...)
        Nominal diameter, $d$. [m]
    pitch_m : float or array, shape (...)
        Pitch, $P$, of which the pitch diameter $d_2$ follows. [m]
    length_m : float or array, shape (...)
        Length under the head, $l$. [m]
    head_volume_m3 : float or array, shape (...)
        Volume of the head, $V_h$, see `head_volume`. [m3]

    Returns
    -------
    mass_kg : float or array, broadcast shape
        $m$, of one. [kg]

    Validity
    --------
    Steel of 7850 kg/m3. A thread weighs as a cylinder of its pitch diameter does, where ridge and
    groove are equally wide. What is longer than $b$ has a plain shank of the full diameter, as cap
    screws have; buttons and countersunk ones are often threaded all the way.

    Source
    ------
    Thread length of ISO 4762, memory; the rest is geometry. A supplier's table of cap screws agrees
    within 10 % for M3 and M4. Its M2, M2.5 and M5 are lighter, as if their heads were smaller than
    the standard's.

    Examples
    --------
    Of a thousand M3 x 20 cap screws that table says 1.4 kg:

    >>> 1e3 * screw_mass(3e-3, 0.5e-3, 20e-3, head_volume("cap", "M3"))
    1.4
    """
    require_range("screw_mass", "length_m", length_m, 0.0, np.inf, "a length")
    d, l = np.asarray(diameter_m, dtype=float), np.asarray(length_m, dtype=float)  # noqa: E741
    d2, b = np.asarray(thread_pitch_diameter(d, pitch_m)), 2 * d + 12e-3
    shank = np.pi / 4 * (d2**2 * np.minimum(l, b) + d**2 * np.maximum(l - b, 0.0))
    return as_real(STEEL_KG_M3 * (head_volume_m3 + shank))


def tightening_torque(nut_factor: Real, preload_N: Real, diameter_m: Real) -> Real:
    r"""Torque that gives a screw a preload.

    $$ T = K F d $$

    Parameters
    ----------
    nut_factor : float or array, shape (...)
        Nut factor, $K$: friction under the head and in the thread, together. [-]
    preload_N : float or array, shape (...)
        Preload, $F$. [N]
    diameter_m : float or array, shape (...)
        Nominal diameter, $d$. [m]

    Returns
    -------
    torque_Nm : float or array, broadcast shape
        $T$. [N m]

    Validity
    --------
    Preload set by torque alone scatters by 30 % and more: K is what is least known. `FRICTIONS`
    has usual values and ranges.

    Source
    ------
    The torque and preload rule of fastener handbooks; ranges of K from a supplier's table.

    Examples
    --------
    M3 of class 8.8 to three quarters of its proof load, dry:

    >>> tightening_torque(0.20, 2188.0, 3e-3)
    1.313
    """
    require_range("tightening_torque", "nut_factor", nut_factor, 0.0, np.inf, "friction")
    K, F = np.asarray(nut_factor, dtype=float), np.asarray(preload_N, dtype=float)
    return as_real(K * F * np.asarray(diameter_m, dtype=float))


def preload_of_torque(nut_factor: Real, torque_Nm: Real, diameter_m: Real) -> Real:
    r"""Preload that a torque gives a screw.

    $$ F = \frac{T}{K d} $$

    Parameters
    ----------
    nut_factor : float or array, shape (...)
        Nut factor, $K$. [-]
    torque_Nm : float or array, shape (...)
        Torque, $T$. [N m]
    diameter_m : float or array, shape (...)
        Nominal diameter, $d$. [m]

    Returns
    -------
    preload_N : float or array, broadcast shape
        $F$. [N]

    Validity
    --------
    As for `tightening_torque`; nut_factor > 0.

    Source
    ------
    As for `tightening_torque`.

    Examples
    --------
    >>> preload_of_torque(0.20, 1.3131, 3e-3)
    2188.5
    """
    require_range("preload_of_torque", "nut_factor", nut_factor, 1e-3, np.inf, "friction")
    K, T = np.asarray(nut_factor, dtype=float), np.asarray(torque_Nm, dtype=float)
    return as_real(T / (K * np.asarray(diameter_m, dtype=float)))


def _profile(who: str, diameter_m: Real, pitch_m: Real) -> tuple[np.ndarray, np.ndarray]:
    d, P = np.asarray(diameter_m, dtype=float), np.asarray(pitch_m, dtype=float)
    require_range(who, "pitch_m", P, 1e-6, np.inf, "a thread")
    require_range(who, "diameter_m", d / P, 1.0, np.inf, "larger than the pitch; given over it")
    return d, P
