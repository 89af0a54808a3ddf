"""Arms and blades of whole frames, their limit, and their chart."""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest

from site_builds import altered, framed, shipped, without
from slipfit.charts.campbell import campbell
from slipfit.checks.limit import judge
from slipfit.checks.limit_arm_bending import LEAST_DISTANCE, LIMIT
from slipfit.errors import ValidityError
from slipfit.flight.performance import performance
from slipfit.physics.blade_stress import blade_gyration
from slipfit.structure import arm_distance, arm_modes, blade_tension, lowest_mode, turning
from slipfit.units import ROTATION

ARM = shipped().frame.arms[0]


def with_arm(**changes):
    return framed(arms=(dataclasses.replace(ARM, **changes),))


def test_modes_come_lowest_first_in_both_directions():
    modes = arm_modes(shipped("longspur-7"))
    assert [m.direction for m in modes] == ["along the axis", "in the disk plane"]
    assert modes[0].frequency_Hz < modes[1].frequency_Hz


def test_a_full_arm_turned_on_its_side_swaps_its_modes():
    upright = arm_modes(with_arm(width_m=0.01, thickness_m=0.03, wall_m=0.0))
    lying = arm_modes(with_arm(width_m=0.03, thickness_m=0.01, wall_m=0.0))
    assert [m.frequency_Hz for m in upright] == pytest.approx([m.frequency_Hz for m in lying])
    assert upright[0].direction != lying[0].direction


def test_a_wall_as_thick_as_half_the_arm_is_a_full_arm():
    hollow = arm_modes(with_arm(width_m=0.012, thickness_m=0.044, wall_m=0.006))[0]
    full = arm_modes(with_arm(width_m=0.012, thickness_m=0.044, wall_m=0.0))[0]
    assert hollow.frequency_Hz == pytest.approx(full.frequency_Hz)


def test_length_mass_and_fibres_act_as_they_must():
    """With a heavy end f goes as L^-3/2, as the root of the modulus, and falls with the mass."""
    base = lowest_mode(with_arm(end_mass_kg=3.0))
    twice = lowest_mode(with_arm(end_mass_kg=3.0, length_m=2 * ARM.length_m))
    assert twice.frequency_Hz == pytest.approx(base.frequency_Hz * 2**-1.5, rel=0.01)
    bias = lowest_mode(with_arm(end_mass_kg=3.0, fibre_angle_rad=np.pi / 4))
    stiffness = bias.modulus_Pa / base.modulus_Pa
    assert bias.frequency_Hz == pytest.approx(base.frequency_Hz * stiffness**0.5, rel=0.01)
    assert lowest_mode(with_arm(end_mass_kg=0.05)).frequency_Hz > base.frequency_Hz
    rigid = lowest_mode(with_arm(root_give=0.0))
    assert lowest_mode(with_arm(root_give=0.3)).frequency_Hz == pytest.approx(
        0.7 * rigid.frequency_Hz
    )


def test_frames_without_arms_or_motors_have_no_modes():
    assert arm_modes(framed(arms=())) == ()
    assert arm_modes(without("motor")) == ()
    p = performance(framed(arms=()))
    assert np.isnan(arm_distance(p)).all()
    assert judge(LIMIT, p) is None
    assert "describes no arm" in campbell(p, None).caption


def tuned_to(turning_Hz: float):
    """The shipped build with an arm of just that lowest frequency."""
    rigid = lowest_mode(with_arm(root_give=0.0))
    give = 1.0 - turning_Hz / rigid.frequency_Hz
    return performance(with_arm(root_give=give))


def test_an_arm_that_hover_strikes_is_past_its_limit_and_one_beside_it_is_not():
    hover = float(performance(shipped()).hover.trim.omega_rad_s[0, 0]) / (2 * np.pi)
    struck = tuned_to(hover)
    assert arm_distance(struck)[0, 0] < 0.01
    verdict = judge(LIMIT, struck)
    assert verdict.state == "past" and verdict.severity == 2
    assert "balanced with care" in verdict.fix
    assert verdict.sentence("metric").startswith("Distance from the arms' bending is past")
    clear = judge(LIMIT, performance(shipped("longspur-7")))
    assert clear.state == "inside"
    assert clear.amount == pytest.approx(
        LEAST_DISTANCE / arm_distance(performance(shipped("longspur-7")))[0, 0], rel=1e-6
    )


def test_blades_pull_with_the_square_of_the_turning_and_by_their_material():
    light = performance(altered("prop", material="ABS"))
    heavy = performance(altered("prop", material="PA-GF30"))
    assert heavy.top.trim.omega_rad_s == pytest.approx(light.top.trim.omega_rad_s)
    ratio = blade_tension(heavy) / blade_tension(light)
    assert ratio[0, 0] == pytest.approx(1360 / 1040)
    # a rod of the same length and speed bounds it from above: blades taper
    omega, R = light.top.trim.omega_rad_s[0, 0], light.build.parts["prop"].diameter_m / 2
    assert 0.2 < blade_tension(light)[0, 0] / (0.5 * 1040 * omega**2 * R**2) < 1.0


def test_the_chart_draws_lines_that_meet_where_the_caption_says():
    p = performance(shipped("longspur-7"))
    chart = campbell(p, None)
    turn, blade, arm = (np.array(chart.series[k].values) for k in (0, 1, 2))
    assert blade == pytest.approx(3 * turn)  # three blades
    assert arm == pytest.approx(lowest_mode(p.build).frequency_Hz)
    meets = np.interp(arm[0], turn, chart.x)
    assert meets == pytest.approx(arm[0] * 2 * np.pi)
    assert ROTATION.text(float(meets), "metric") in chart.caption
    assert "below hover" in chart.caption
    assert [m.label for m in chart.marks] == ["hover", "cruise", "flat out"]


def test_blade_whose_sections_fall_to_the_tip_has_its_mass_further_in():
    """Sections that fall evenly to nothing at the tip: k² = (1/12) / (1/2) R²."""
    r = np.linspace(0.0, 0.06, 7)
    k = blade_gyration(r, 1.0 - r / 0.06 * (1.0 - 1e-12))
    assert k == pytest.approx(0.06 / 6**0.5)
    assert blade_gyration([0.03, 0.06], [1.0, 1.0]) == pytest.approx(
        (0.06**2 + 0.06 * 0.03 + 0.03**2) ** 0.5 / 3**0.5
    )
    with pytest.raises(ValidityError):
        blade_gyration([0.06, 0.03], [1.0, 1.0])


def test_what_turns_is_propeller_half_the_motor_and_what_the_frame_says():
    build = shipped("longspur-7")
    found, motor = turning(build), build.parts["motor"]
    assert found.motor_kg_m2 == pytest.approx(
        0.5 * motor.mass_kg * (0.42 * motor.can_diameter_m) ** 2
    )
    assert found.prop_kg_m2 == pytest.approx(build.parts["prop"].mass_kg * found.prop_gyration_m**2)
    assert 0.3 < found.prop_gyration_m / (build.parts["prop"].diameter_m / 2) < 0.58  # a rod: 0.58
    assert found.hardware_kg_m2 == 0.0
