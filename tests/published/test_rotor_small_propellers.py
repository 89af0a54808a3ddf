"""Published values: two- to four-blade propellers of 5 and 9 inches, at rest and in flight.

UIUC propeller data, volume 2 (Deters, Ananda and Selig, AIAA 2014-2151): SDA1075 and Clark Y
blades between 1500 and 10 500 rpm, chord Reynolds numbers 5 000 to 90 000. Errors are relative to
each propeller's greatest coefficient and averaged over all points of a size. The blades are taken
as scanned; nothing in the model knows which propeller it computes.
"""

from collections import defaultdict

import numpy as np
import pytest

from rotors import INCH, LAB_AIR, numbers, prop_coefficients, university_blade
from slipfit.physics.rotor import rotor_loads
from tables import rows

TABLES = {
    "static": ("propeller_uiuc_static.csv", "rpm"),
    "advance": ("propeller_uiuc_advance.csv", "nominal_rpm"),
}

# mean error that the model is asked to keep to: (thrust, power) by size and kind of test
ASKED = {
    ("9", "static"): (0.10, 0.12),
    ("9", "advance"): (0.10, 0.12),
    ("5", "static"): (0.12, 0.14),
    ("5", "advance"): (0.12, 0.14),
}


def errors(kind):
    """(size) -> list of (propeller, thrust errors, power errors) of one kind of test."""
    file, rpm_column = TABLES[kind]
    by_prop = defaultdict(list)
    for row in rows(file):
        by_prop[row["prop"], row["D_in"], row["variant"], row["blades"]].append(row)
    found = defaultdict(list)
    for prop, table in by_prop.items():
        rpm, ct_measured, cp_measured = numbers(table, rpm_column, "CT", "CP")
        advance = numbers(table, "J")[0] if kind == "advance" else np.zeros_like(rpm)
        n, diameter = rpm / 60, float(prop[1]) * INCH
        loads = rotor_loads(
            university_blade(*prop), 2 * np.pi * n, advance * n * diameter, 0.0, LAB_AIR
        )
        ct, cp = prop_coefficients(loads, n, diameter, LAB_AIR.density_kg_m3)
        found[prop[1]].append(
            (
                prop,
                (ct - ct_measured) / ct_measured.max(),
                (cp - cp_measured) / cp_measured.max(),
            )
        )
    return found


@pytest.mark.parametrize(("size", "kind"), ASKED)
def test_rotor_matches_small_propellers(size, kind):
    asked = ASKED[size, kind]
    print(f"\n{size}-inch {kind}: propeller, points, thrust mean |error| (bias), power (bias)")
    groups = errors(kind)[size]
    for prop, thrust, power in groups:
        print(
            f"  {prop[0]} {prop[2]:>6} {prop[3]} blades  {len(thrust):3d}  "
            f"{np.abs(thrust).mean():.3f} ({thrust.mean():+.3f})  "
            f"{np.abs(power).mean():.3f} ({power.mean():+.3f})"
        )
    thrust, power = (np.concatenate([g[k] for g in groups]) for k in (1, 2))
    print(
        f"  all {len(thrust)}: thrust {np.abs(thrust).mean():.3f}, power {np.abs(power).mean():.3f}"
    )
    assert len(thrust) > 100
    assert np.abs(thrust).mean() <= asked[0]
    assert np.abs(power).mean() <= asked[1]
