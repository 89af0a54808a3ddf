"""The airframe's table against the sum of its bodies' own models, and what that sum must obey.

Tolerance: 0.3 % of the force. Models of body drag agree with measurements to 10 to 20 % at best
(the spreads in `physics/body`), so a table thirty times better adds nothing to see. Below 1e-4 N,
a hundred-thousandth of such a frame's weight, the share does not matter.
"""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import fit_builds
from site_builds import shipped
from slipfit.flight.airframe import FULL_SLIPSTREAM, AirframeLoads, airframe_loads
from slipfit.flight.airframe_map import AirframeMap, airframe_map
from slipfit.frame.frame import BodyEntry, Frame
from slipfit.numerics import Array, low_discrepancy
from slipfit.physics.air import air_of_day
from slipfit.physics.body import MODELS
from slipfit.physics.body.box import Box
from slipfit.physics.body.cylinder import Cylinder
from slipfit.physics.body.disk import Disk
from slipfit.physics.body.fins import Fin
from slipfit.physics.body.inlet import Inlet
from slipfit.physics.body.plate import Plate
from slipfit.physics.body.protrusion import Protrusion
from slipfit.physics.body.streamlined import Streamlined
from slipfit.physics.body.strut import Strut
from slipfit.physics.body.window import Window

SHARE, FLOOR_N = 0.003, 1e-4
AIR = air_of_day(420.0, 265.15)
FRAMES = {"quillback-5": shipped().frame, "test-frame": fit_builds.FRAME}

# A flat frame of bare boxes, plates and cylinders, the other kind of airframe there is.
FLAT = (
    BodyEntry(
        name="deck",
        station_m=0.1,
        model="plate",
        washed=0.2,
        shape=Plate(depth_m=0.14, width_m=0.05, thickness_m=0.004),
    ),
    BodyEntry(
        name="pack",
        station_m=0.1,
        model="box",
        washed=0.1,
        shape=Box(length_m=0.034, width_m=0.075, height_m=0.036),
    ),
    BodyEntry(
        name="motors",
        station_m=0.1,
        model="cylinder",
        count=4,
        washed=1.0,
        shape=Cylinder(length_m=0.02, diameter_m=0.028, across=False),
    ),
    BodyEntry(
        name="top", station_m=0.1, model="disk", shape=Disk(diameter_m=0.05, thickness_m=0.002)
    ),
)
FRAMES["flat"] = dataclasses.replace(fit_builds.FRAME, slug="flat", bodies=FLAT)


def states(
    count: int, low_deg: float = 0.0, high_deg: float = 180.0, slowest: float = 0.5
) -> tuple[Array, Array, Array]:
    """Axial, side and induced speed over directions: up to 160 m/s with 15 m/s induced, so that the
    wash stays below the 199 m/s at which the table ends."""
    u = low_discrepancy(count, 3)
    theta = np.radians(low_deg + (high_deg - low_deg) * u[:, 0])
    speed = slowest * (160.0 / slowest) ** u[:, 1]
    induced = u[:, 2] * np.minimum(15.0, 0.2 * speed)
    return speed * np.cos(theta), speed * np.sin(theta), induced


def off_by(table: AirframeLoads, direct: AirframeLoads) -> Array:
    """Distance of the two force vectors over what is allowed."""
    off = np.hypot(table.axial_N - direct.axial_N, table.normal_N - direct.normal_N)
    return np.asarray(off / (FLOOR_N + SHARE * np.hypot(direct.axial_N, direct.normal_N)))


@pytest.mark.parametrize("name", FRAMES)
@pytest.mark.parametrize(("low_deg", "high_deg"), [(0.0, 6.0), (0.0, 180.0), (165.0, 180.0)])
def test_the_table_gives_the_sum_of_the_bodies(name: str, low_deg: float, high_deg: float) -> None:
    frame = FRAMES[name]
    at = states(3000, low_deg, high_deg)
    direct = airframe_loads(frame, *at, AIR, 1.3)
    table = airframe_map(frame.bodies, AIR).loads(*at, 1.3)
    off = off_by(table, direct)
    worst = int(np.argmax(off))
    assert off[worst] <= 1.0, [float(x[worst]) for x in at]
    assert table.valid.all()


@pytest.mark.parametrize("name", FRAMES)
def test_the_table_gives_each_cause_and_they_add_up(name: str) -> None:
    frame = FRAMES[name]
    at = states(1000)
    direct = airframe_loads(frame, *at, AIR, 1.0)
    table = airframe_map(frame.bodies, AIR).loads(*at, 1.0)
    assert set(table.causes) == set(direct.causes)
    # a cause may hide behind others: its share is of the whole force
    allowed = FLOOR_N + SHARE * np.hypot(direct.axial_N, direct.normal_N)
    for cause, force in table.causes.items():
        assert np.max(np.abs(force - direct.causes[cause]) / allowed) <= 1.0, cause
    # the total is interpolated from the sum of tables: the same numbers in another order
    total = sum(table.causes.values())
    assert table.axial_N == pytest.approx(total, rel=1e-12, abs=1e-12)


SHAPES: dict[str, st.SearchStrategy[object]] = {
    "streamlined": st.builds(
        Streamlined,
        length_m=st.floats(0.36, 0.5),
        width_m=st.floats(0.03, 0.07),
        height_m=st.floats(0.03, 0.07),
        nose_length_m=st.floats(0.05, 0.12),
        base_diameter_m=st.floats(0.01, 0.03),
    ),
    "strut": st.builds(
        Strut,
        span_m=st.floats(0.03, 0.1),
        chord_m=st.floats(0.02, 0.06),
        thickness_m=st.floats(0.004, 0.012),
    ),
    "fin": st.builds(
        Fin,
        area_m2=st.floats(0.001, 0.004),
        span_m=st.floats(0.03, 0.07),
        thickness_m=st.floats(0.001, 0.003),
    ),
    "cylinder": st.builds(
        Cylinder,
        length_m=st.floats(0.01, 0.1),
        diameter_m=st.floats(0.003, 0.04),
        across=st.booleans(),
    ),
    "box": st.builds(
        Box,
        length_m=st.floats(0.02, 0.1),
        width_m=st.floats(0.02, 0.1),
        height_m=st.floats(0.02, 0.1),
    ),
    "plate": st.builds(
        Plate,
        depth_m=st.floats(0.05, 0.2),
        width_m=st.floats(0.02, 0.1),
        thickness_m=st.floats(0.001, 0.005),
    ),
    "disk": st.builds(Disk, diameter_m=st.floats(0.02, 0.1), thickness_m=st.floats(0.001, 0.005)),
    "window": st.builds(Window, area_m2=st.floats(1e-4, 1e-3), facing=st.floats(0.0, 1.0)),
    "inlet": st.builds(Inlet, area_m2=st.floats(1e-5, 2e-4)),
    "protrusion": st.builds(
        Protrusion, height_m=st.floats(1e-4, 1e-3), width_m=st.floats(2e-3, 1e-2)
    ),
}


def test_every_body_model_is_drawn() -> None:
    assert set(SHAPES) == set(MODELS)


ENTRIES = st.sampled_from(sorted(SHAPES)).flatmap(
    lambda model: st.builds(
        BodyEntry,
        name=st.just(model),
        station_m=st.just(0.1),
        model=st.just(model),
        shape=SHAPES[model],
        count=st.integers(1, 4),
        washed=st.sampled_from([0.0, 0.3, 0.9]),
    )
)


@settings(max_examples=60, deadline=None, derandomize=True)
@given(bodies=st.lists(ENTRIES, min_size=1, max_size=6, unique_by=lambda entry: entry.name))
def test_the_table_holds_for_any_frame(bodies: list[BodyEntry]) -> None:
    """Any airframe has a hull: without one, what is left at an angle where single bodies have no
    force is a share of nothing."""
    hull = BodyEntry(
        name="hull",
        station_m=0.1,
        model="streamlined",
        shape=Streamlined(
            length_m=0.3, width_m=0.07, height_m=0.07, nose_length_m=0.1, base_diameter_m=0.02
        ),
    )
    frame = dataclasses.replace(fit_builds.FRAME, bodies=(hull, *bodies))
    at = states(300, slowest=1.0)
    off = off_by(
        AirframeMap(frame.bodies, AIR).loads(*at, 1.0), airframe_loads(frame, *at, AIR, 1.0)
    )
    worst = int(np.argmax(off))
    assert off[worst] <= 1.0, [float(x[worst]) for x in at]


def test_still_air_has_no_force_and_wash_alone_has() -> None:
    frame = FRAMES["quillback-5"]
    table = airframe_map(frame.bodies, AIR)
    still = np.zeros(2)
    loads = table.loads(still, still, np.array([0.0, 8.0]), 1.0)
    assert loads.axial_N[0] == loads.normal_N[0] == 0.0
    assert loads.axial_N[1] > 0.0  # the download of hover
    assert loads.normal_N[1] == pytest.approx(0.0, abs=1e-12)


def test_drag_factor_scales_every_force_and_samples_keep_their_own() -> None:
    table = airframe_map(FRAMES["quillback-5"].bodies, AIR)
    axial, side, induced = (x.reshape(2, 5) for x in states(10))
    once = table.loads(axial, side, induced, 1.0)
    factors = np.array([[0.8], [1.5]])
    scaled = table.loads(axial, side, induced, factors)
    assert scaled.axial_N == pytest.approx(once.axial_N * factors, rel=1e-15)
    assert scaled.normal_N == pytest.approx(once.normal_N * factors, rel=1e-15)
    for cause, force in once.causes.items():
        assert scaled.causes[cause] == pytest.approx(force * factors, rel=1e-15)


def test_only_washed_bodies_feel_the_wash_and_by_twice_the_induced_speed() -> None:
    """Momentum theory: far below the disk the air moves at twice the induced speed."""
    body = fit_builds.FRAME.bodies[0]
    dry = dataclasses.replace(fit_builds.FRAME, bodies=(dataclasses.replace(body, washed=0.0),))
    wet = dataclasses.replace(fit_builds.FRAME, bodies=(dataclasses.replace(body, washed=0.5),))
    axial, side, induced = np.array([20.0]), np.array([3.0]), np.array([6.0])
    faster = axial + 0.5 * FULL_SLIPSTREAM * induced

    def axial_force(frame: Frame, axial: Array, induced: Array) -> float:
        return float(airframe_loads(frame, axial, side, induced, AIR, 1.0).axial_N[0])

    assert axial_force(dry, axial, induced) == axial_force(dry, axial, 0 * induced)
    assert axial_force(wet, axial, induced) == axial_force(dry, faster, 0 * induced)
    assert axial_force(wet, axial, induced) > axial_force(dry, axial, induced)


def test_air_too_fast_for_the_body_models_is_marked_not_clamped() -> None:
    """The body models end at 200 m/s, the table at 199."""
    table = airframe_map(FRAMES["quillback-5"].bodies, AIR)
    axial = np.array([150.0, 198.0, 199.5, 150.0])
    wash = np.array([0.0, 0.0, 0.0, 40.0])
    assert table.loads(axial, 0.0 * axial, wash, 1.0).valid.tolist() == [True, True, False, False]


def test_one_table_is_kept_for_the_same_bodies_and_air() -> None:
    bodies = FRAMES["quillback-5"].bodies
    assert airframe_map(bodies, AIR) is airframe_map(bodies, AIR)
    assert airframe_map(bodies, AIR) is not airframe_map(bodies, air_of_day(0.0))
