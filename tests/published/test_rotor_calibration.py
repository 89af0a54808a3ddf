"""Published values: how many measured points the rotor's 10-90 % range holds.

A range is worth its name only when measured points have been counted in and out of it: of all
points, 70 to 90 % must lie inside. The ranges are those of flight estimates for a blade whose shape
was measured: thrust, torque and pitch drawn with the spreads of `flight/inputs.py`, wider beyond
the tip speeds of small propellers' tests (`flight/trim.py`). Merit is efficiency, or at rest
CT^1.5 / CP: flights need the power for a thrust more than either alone.
"""

import numpy as np

from validation import SETS, held


def test_the_range_holds_most_measured_points():
    every = ([], [], [])
    print("\nset, points, share of thrust, of power and of merit inside the range")
    for one in SETS:
        parts = held(one.runs())
        shares = "  ".join(f"{part.mean():.2f}" if len(part) else " -  " for part in parts)
        print(f"  {one.id:12} {len(parts[0]):4d}  {shares}")
        for kept, part in zip(every, parts, strict=True):
            kept.append(part)
    shares = [float(np.concatenate(kept).mean()) for kept in every]
    print("  all          ", np.round(shares, 2))
    assert sum(len(part) for part in every[0]) > 1300
    assert min(shares) >= 0.70
    assert max(shares) <= 0.90
