"""How many rotor solves a second one core does, beside a compiled solver from the registry.

    python tests/bench/bench_rotor.py

One process, one thread; the best of several rounds, since the machine may be shared. The peer is
asked for the same blade (12 elements, tabulated polar) at the same cases, one call a case, which
is its interface; it knows no Reynolds or Mach number. Prints a table and writes JSON.
"""

from __future__ import annotations

import json
import sys
import time
from collections.abc import Callable
from pathlib import Path

import numpy as np

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT / "pycore")]

from slipfit.physics import rotor  # noqa: E402
from slipfit.physics.air import air_of_day  # noqa: E402
from slipfit.physics.blade import Blade, blade_from_style  # noqa: E402
from slipfit.physics.polar import section_coefficients  # noqa: E402
from slipfit.physics.rotor_map import RotorMap  # noqa: E402

RESULTS = Path(__file__).parent / "results"
ROUNDS = 7
BATCH = 2000
BARS = {"axial": 25_000.0, "oblique": 3_000.0}  # solves a second
BLADE = blade_from_style(0.13335, 0.2032, 2, "slim")
AIR = air_of_day()


def best_seconds(work: Callable[[], object], rounds: int = ROUNDS) -> float:
    """Wall time of the fastest round after one that warms caches."""
    work()
    times = []
    for _ in range(rounds):
        start = time.perf_counter()
        work()
        times.append(time.perf_counter() - start)
    return min(times)


def cases(inplane: float) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Rotation, axial and in-plane speeds from hover to top speed."""
    share = np.linspace(0.0, 1.0, BATCH)
    return 1200.0 + 2300.0 * share, 80.0 * share, np.full(BATCH, inplane)


def peer_solver(blade: Blade, azimuths: int) -> Callable[[float, float, float], float] | None:
    """The compiled solver's thrust at one case, or None where it is not installed."""
    try:
        import dynbem
    except ImportError:
        return None
    alpha = np.deg2rad(np.arange(-180.0, 181.0))
    cl, cd = section_coefficients(blade.section, alpha, 1e5, 0.07)
    r, c = blade.r_R * blade.radius_m, blade.chord_m
    geometry = dynbem.BladeGeometry(
        blade.blade_count, blade.radius_m, blade.hub_r_R * blade.radius_m, float(c.mean()),
        n_elements=rotor.ANNULI, r_stations_m=list(r), chord_stations_m=list(c),
        twist_stations_deg=list(np.rad2deg(blade.pitch_angle_rad)),
    )  # fmt: skip
    linear = dynbem.LinearPolarParameters(
        CL0=0.3, CL_alpha_per_rad=5.7, CD0=0.02, alpha_stall_deg=12.0, Re_design=1e5
    )
    model = dynbem.QuasiStaticBEM(
        dynbem.RotorDefinition(
            geometry,
            linear,
            control=dynbem.ControlProperties(
                swashplate_pitch_gain_rad=0.0, swashplate_phase_deg=0.0
            ),
        ),
        polar=dynbem.TabulatedPolar(alpha, cl, cd),
        n_psi_elements=azimuths,
    )
    state = model.initial_rotor_state()

    def thrust(omega: float, axial: float, inplane: float) -> float:
        inputs = dynbem.RotorInputs(
            0.0, 0.0, 0.0, np.eye(3), np.array([inplane, 0.0, -axial]), np.zeros(3), omega,
            AIR.density_kg_m3,
        )  # fmt: skip
        result = model.compute_forces(inputs, state)
        return float(np.linalg.norm(np.asarray(result[0].F_world)))

    return thrust


def main() -> None:
    rows: list[dict[str, object]] = []
    for kind, inplane, azimuths in (("axial", 0.0, 1), ("oblique", 15.0, rotor.AZIMUTHS)):
        omega, axial, side = cases(inplane)
        ours = BATCH / best_seconds(
            lambda o=omega, a=axial, s=side: rotor.rotor_loads(BLADE, o, a, s, AIR)
        )
        peer = peer_solver(BLADE, azimuths)
        theirs = None
        if peer is not None:
            some = range(0, BATCH, 20)
            seconds = best_seconds(
                lambda p=peer, o=omega, a=axial, s=side, some=some: [
                    p(float(o[k]), float(a[k]), float(s[k])) for k in some
                ],
                3,
            )
            theirs = len(some) / seconds
        rows.append({"what": f"{kind} solves /s", "ours": ours, "peer": theirs, "bar": BARS[kind]})

    omega, axial, side = cases(15.0)
    chart = RotorMap(BLADE, AIR)
    start = time.perf_counter()
    chart.loads(omega[::50], axial[::50], side[::50])
    first = time.perf_counter() - start
    again = best_seconds(lambda: chart.loads(omega, axial, side))
    one = best_seconds(lambda: chart.loads(omega[::50], axial[::50], side[::50]))
    for what, seconds in (
        ("map: first 40 cases, filling it [ms]", first),
        ("map: 40 cases [ms]", one),
        (f"map: {BATCH} cases [ms]", again),
    ):
        rows.append({"what": what, "ours": 1e3 * seconds, "peer": None, "bar": None})

    print(f"{'':42}{'ours':>10}{'peer':>10}{'ratio':>8}{'bar':>10}")
    for row in rows:
        ours, theirs, bar = row["ours"], row["peer"], row["bar"]
        assert isinstance(ours, float)
        peer_text = f"{theirs:10.0f}{ours / theirs:8.1f}" if isinstance(theirs, float) else " " * 18
        bar_text = f"{bar:10.0f}" if bar else ""
        print(f"{row['what']!s:42}{ours:10.1f}{peer_text}{bar_text}")
    RESULTS.mkdir(exist_ok=True)
    (RESULTS / "rotor.json").write_text(json.dumps(rows, indent=2) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
