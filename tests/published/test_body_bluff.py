"""Published values: cylinders, boxes, plates and disks, from two books' figures."""

import math

import pytest

from published import printed
from slipfit.physics.air import air_of_day
from slipfit.physics.body import MODELS
from slipfit.physics.body.box import box_drag
from slipfit.physics.body.cylinder import cylinder_drag_across, cylinder_drag_axial
from slipfit.physics.body.window import window_drag
from slipfit.physics.fin import plate_drag_broadside
from tables import rows


def _drag(shape, **where):
    return rows("body_bluff_shapes.csv", shape=shape, **where)[0]["CD"]


@pytest.mark.parametrize("name", ["cylinder axial", "circular rod axial"])
def test_axial_cylinder_matches_both_books(name):
    for row in rows("body_bluff_shapes.csv", shape=name):
        fineness = float(row["param"].split("=")[1])
        # one unit of the last digit: the two books differ by up to two
        assert cylinder_drag_axial(fineness) == printed(row["CD"], ulps=1.0), fineness


@pytest.mark.parametrize(
    "row", rows("body_bluff_shapes.csv", shape="cylinder crossflow"), ids=lambda r: r["param"]
)
def test_cylinder_across_matches_matthews_figure_5_13b(row):
    fineness = float(row["param"].split("=")[1])
    assert cylinder_drag_across(fineness) == printed(row["CD"])


def test_plates_match_matthews_figure_5_13b():
    assert plate_drag_broadside(1.0) == printed(_drag("square plate normal"))
    # the longest plate the function takes is 3 % short of endless
    assert plate_drag_broadside(1000.0) == pytest.approx(
        float(_drag("long plate normal")), rel=0.03
    )


def test_boxes_match_munson_figures_9_19_and_9_20():
    assert box_drag(1.0) == printed(_drag("cube face-on"))
    assert box_drag(0.0) == printed(_drag("square plate normal"))
    sharp = float(_drag("square rod", param="R/D=0"))
    for row in rows("body_bluff_shapes.csv", shape="square rod"):
        rounding = float(row["param"].split("=")[1])
        assert box_drag(1.0, rounding) / box_drag(1.0) * sharp == printed(row["CD"]), rounding


def test_open_port_matches_the_cup_of_munson_figure_9_20():
    assert window_drag(1.0, open_port=True) == printed(_drag("solid hemisphere flat face upstream"))


def test_disk_force_matches_munson_figure_9_20():
    model, air = MODELS["disk"], air_of_day()
    disk = model.shape(diameter_m=0.05, thickness_m=0.002)
    q = 0.5 * air.density_kg_m3 * 30.0**2 * math.pi * 0.05**2 / 4.0
    assert float(model.loads(disk, 30.0, 0.0, air).axial_N) / q == printed(_drag("thin disk"))
