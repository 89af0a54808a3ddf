"""Every figure of a build: a value, its cause, its steps, its range, and the right direction."""

from __future__ import annotations

import math
import re
from pathlib import Path

import numpy as np
import pytest

from site_builds import DOCS, altered, framed, on_day, shipped, swapped
from slipfit.build import Build
from slipfit.constants import G0_M_S2
from slipfit.figures.evaluate import ENOUGH_SAMPLES, figures, why_missing
from slipfit.figures.figure import Figure, shown
from slipfit.figures.registry import FIGURES
from slipfit.flight.inputs import VARIABLES, esc_of, pack_of, sampled_inputs
from slipfit.flight.performance import USABLE_CHARGE, performance
from slipfit.masses import balance, mass_total

OF_FLIGHT = {
    "top_speed",
    "cruise_range",
    "hover_time",
    "hover_throttle",
    "motor_current_full",
    "drag_full",
}
WITHOUT_FLIGHT = {"mass_total", "balance_station", "thrust_to_weight", "motor_current_static"}


def figures_of(build: Build) -> dict[str, Figure]:
    return figures(performance(build))


def ranged(build: Build, count: int = 64) -> dict[str, Figure]:
    p = performance(build)
    inputs, scores = sampled_inputs(build, count)
    return figures(p, lambda: (performance(build, inputs, p.speeds_m_s), scores))


@pytest.fixture(scope="module")
def usual() -> dict[str, Figure]:
    return ranged(shipped())


def value(figure: Figure) -> float:
    assert figure.value is not None, figure.id
    return figure.value


# ------------------------------------------------------------------------------ completeness


@pytest.mark.parametrize("kind", FIGURES, ids=lambda kind: kind.id)
def test_a_figure_is_whole(kind: object, usual: dict[str, Figure]) -> None:
    figure = usual[kind.id]
    assert math.isfinite(value(figure))
    assert figure.label and figure.cause and figure.source and not figure.missing
    assert figure.steps
    for step in figure.steps:
        assert step.words.endswith("."), step.words
        assert re.search(r"\d", step.numbers), f"no numbers in: {step.numbers!r}"
        assert "nan" not in step.numbers and "inf" not in step.numbers
    for system in ("metric", "imperial"):
        assert re.search(r"\d", figure.text(system))
        assert "nan" not in figure.text(system)


def test_ids_and_labels_are_used_once() -> None:
    assert len({kind.id for kind in FIGURES}) == len(FIGURES)
    assert len({kind.label for kind in FIGURES}) == len(FIGURES)


def test_sources_name_pages_of_the_methods(usual: dict[str, Figure]) -> None:
    titles = {
        page.read_text("utf-8").splitlines()[0].removeprefix("# ")
        for page in Path(DOCS, "methods").glob("*.md")
    }
    for figure in usual.values():
        named = re.search(r", see (.+)$", figure.source)
        assert named is None or named[1] in titles, figure.source


# ------------------------------------------------------------------------------ ranges


@pytest.mark.parametrize("kind", FIGURES, ids=lambda kind: kind.id)
def test_a_range_holds_the_value(kind: object, usual: dict[str, Figure]) -> None:
    figure = usual[kind.id]
    if figure.exact:  # nothing that is uncertain moves it
        assert figure.low is None and figure.high is None and figure.drivers == ()
        return
    assert figure.low is not None and figure.high is not None
    assert figure.low <= value(figure) <= figure.high
    assert figure.range_text("metric") and figure.range_text("imperial")


def test_ranges_of_more_samples_are_the_same_ranges() -> None:
    """64 samples place the ends of a range within a seventh of its width, a third digit."""
    build = shipped()
    few, many = ranged(build, 64), ranged(build, 400)
    for id in ("top_speed", "motor_current_full", "hover_time", "thrust_to_weight", "mass_total"):
        a, b = few[id], many[id]
        width = b.high - b.low
        assert a.low == pytest.approx(b.low, abs=width / 7), id
        assert a.high == pytest.approx(b.high, abs=width / 7), id


def test_drag_slows_and_pitch_quickens(usual: dict[str, Figure]) -> None:
    swings = {d.label: d.swing_si for d in usual["top_speed"].drivers}
    assert swings["drag of the airframe"] < 0.0
    labels = {v.field: v.label for v in VARIABLES}
    rises = {labels["pitch_factor"], labels["kv_rad_s_V"], labels["thrust_factor"]}
    for label in rises & swings.keys():
        assert swings[label] > 0.0, label


def test_drivers_are_those_that_can_matter(usual: dict[str, Figure]) -> None:
    mass = usual["mass_total"].drivers
    assert [d.label for d in mass][:1] == ["mass of the build"]
    assert mass[0].swing_si == pytest.approx(
        usual["mass_total"].high - usual["mass_total"].low, rel=0.1
    )
    hover = [d.label for d in usual["hover_time"].drivers]
    assert "drag of the airframe" not in hover
    assert usual["balance_station"].drivers == ()
    known = {v.label for v in VARIABLES}
    for figure in usual.values():
        assert len(figure.drivers) <= 3
        sizes = [abs(d.swing_si) for d in figure.drivers]
        assert sizes == sorted(sizes, reverse=True)
        assert {d.label for d in figure.drivers} <= known


def test_without_samples_there_is_no_range_and_no_driver() -> None:
    for figure in figures_of(shipped()).values():
        assert figure.low is figure.high is None
        assert figure.drivers == () and figure.range_text("metric") == ""


def test_a_range_that_too_few_samples_reach_is_not_shown() -> None:
    """At the edge of hover half of the samples cannot fly: a range of the rest would flatter."""
    standing = performance(shipped()).standing
    lift_kg = shipped().rotor_count * float(standing.rotor.thrust_N[0, 0]) / G0_M_S2
    rest_kg = mass_total(shipped()) - shipped().parts["pack"].mass_kg
    build = altered("pack", mass_kg=0.96 * lift_kg - rest_kg)  # some of the lift is download
    p = performance(build)
    inputs, scores = sampled_inputs(build, 64)
    samples = performance(build, inputs, p.speeds_m_s)
    assert p.can_hover.all() and samples.can_hover.mean() < ENOUGH_SAMPLES
    speed = figures(p, lambda: (samples, scores))["top_speed"]
    assert speed.value is not None and speed.low is None and speed.drivers == ()


# ------------------------------------------------------------------------------ identities


def test_figures_agree_with_each_other(usual: dict[str, Figure]) -> None:
    """Each line is arithmetic between figures of one state, so it holds to rounding."""
    build = shipped()
    v = {id: value(figure) for id, figure in usual.items()}
    cells = pack_of(build).cell_count
    assert v["mass_total"] == pytest.approx(mass_total(build), rel=1e-12)
    assert v["balance_station"] == pytest.approx(balance(build).station_m, rel=1e-12)
    assert v["pack_voltage_per_cell_full"] == pytest.approx(v["pack_voltage_full"] / cells)
    assert v["power_full"] == pytest.approx(v["pack_current_full"] * v["pack_voltage_full"])
    assert v["esc_ratio"] == pytest.approx(v["motor_current_full"] / esc_of(build).continuous_A)
    charge = USABLE_CHARGE * pack_of(build).capacity_C
    late = charge / v["hover_time"]
    assert late > v["pack_current_hover"]  # at half charge the voltage is lower, the current higher
    assert late == pytest.approx(v["pack_current_hover"], rel=0.15)
    assert v["cruise_range"] > v["cruise_speed"] * v["hover_time"]  # it is the best of all speeds


def test_figures_lie_where_such_a_frame_flies(usual: dict[str, Figure]) -> None:
    """Wide gates against a slip of units or sign, not tuning."""
    v = {id: value(figure) for id, figure in usual.items()}
    gates = {
        "mass_total": (0.5, 1.5),
        "top_speed": (60.0, 150.0),
        "cruise_speed": (20.0, 60.0),
        "hover_time": (120.0, 600.0),
        "hover_throttle": (0.15, 0.5),
        "thrust_to_weight": (3.0, 12.0),
        "motor_current_hover": (4.0, 25.0),
        "rpm_full": (2000.0, 5000.0),
        "tip_mach_full": (0.6, 1.0),
        "prop_efficiency_full": (0.5, 0.9),
        "tilt_full": (math.radians(75), math.radians(90)),
        "esc_loss_full": (1.0, 20.0),
        "pack_voltage_per_cell_full": (3.2, 4.2),
    }
    for id, (low, high) in gates.items():
        assert low < v[id] < high, (id, v[id])
    assert v["cruise_current"] < v["motor_current_hover"] < v["motor_current_full"]
    assert v["motor_current_full"] < v["motor_current_static"]


# ------------------------------------------------------------------------------ directions


@pytest.mark.parametrize(
    ("build", "rises", "falls"),
    [
        (
            altered("pack", cell_count=8),
            ["top_speed", "motor_current_static", "thrust_to_weight", "pack_voltage_full"],
            ["hover_throttle"],
        ),
        (
            altered("pack", mass_kg=0.5),
            ["mass_total", "motor_current_hover", "pack_current_hover", "hover_throttle"],
            ["thrust_to_weight", "hover_time", "top_speed"],
        ),
        (
            altered("pack", capacity_C=2 * 5760.0),
            ["hover_time", "cruise_range"],
            [],
        ),
        (swapped(prop="p525-95-2"), ["motor_current_static", "motor_current_hover"], []),
        (swapped(esc="e40"), ["esc_ratio"], []),
        (on_day(pack_temperature_K=262.0), [], ["top_speed", "pack_voltage_full"]),
        (on_day(air_temperature_K=308.0), ["hover_throttle", "rpm_full"], ["thrust_to_weight"]),
    ],
    ids=["eight cells", "heavy", "capacity", "pitch", "small ESC", "cold pack", "warm air"],
)
def test_parts_and_day_move_figures_the_right_way(
    build: Build, rises: list[str], falls: list[str], usual: dict[str, Figure]
) -> None:
    now = figures_of(build)
    for id in rises:
        assert value(now[id]) > value(usual[id]) * 1.002, id
    for id in falls:
        assert value(now[id]) < value(usual[id]) * 0.9995, id


# ------------------------------------------------------------------------------ missing


@pytest.mark.parametrize(
    ("changes", "why"),
    [
        ({"mass_kg": 9.0}, "full throttle does not hold the weight in hover"),
        ({"cell_count": 1}, "full throttle does not hold the weight in hover"),
        ({"cell_resistance_ohm": 0.3}, "the pack cannot give the power that hover asks for"),
    ],
)
def test_a_build_that_cannot_hover_says_why(changes: dict[str, float], why: str) -> None:
    build = altered("pack", **changes)
    p = performance(build)
    assert why_missing(p) == why
    for figure in ranged(build, 16).values():
        if figure.value is None:
            assert figure.missing and figure.low is None and figure.steps == ()
            assert figure.text("metric") == "no value"
        else:
            assert not figure.missing, figure.id
        if figure.id in WITHOUT_FLIGHT:
            assert figure.value is not None, figure.id
        elif figure.id in OF_FLIGHT:
            assert figure.value is None and figure.missing == why, figure.id


def test_a_frame_without_bodies_has_figures_too() -> None:
    found = figures_of(framed(bodies=()))
    assert found["drag_full"].value == 0.0
    assert found["drag_full"].cause == "the frame has no bodies in the air stream"


def test_top_speed_says_what_ends_it() -> None:
    by_throttle = figures_of(shipped())["top_speed"].cause
    assert re.fullmatch(r"the throttle is fully open, with the pack down to \S+ V", by_throttle)
    by_rotor = figures_of(altered("pack", cell_count=14))["top_speed"].cause
    assert re.fullmatch(r"the rotor model ends here, at tip Mach (1|0\.9\d?)", by_rotor)
    faded = figures_of(altered("pack", cell_resistance_ohm=0.04))["top_speed"].cause
    assert re.fullmatch(r"the pack gives its most power here, at \S+ V", faded)


@pytest.mark.parametrize(
    ("number", "digits", "text"),
    [
        (0.0, 3, "0"),
        (12.345, 3, "12.3"),
        (-0.01234, 2, "−0.012"),
        (123456.0, 3, "123456"),
        (1.5e-7, 2, "0.00000015"),
        (np.array([[2.0], [3.0]]), 3, "2"),
    ],
)
def test_numbers_in_steps_have_few_digits_and_no_powers_of_ten(
    number: object, digits: int, text: str
) -> None:
    assert shown(number, digits) == text
