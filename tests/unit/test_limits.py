"""Limits: where inside ends and past begins, and what each limit compares."""

from __future__ import annotations

import dataclasses
import math

import pytest

from site_builds import altered, shipped, swapped
from slipfit.build import Build
from slipfit.checks.limit import NEAR, Asked, LimitKind, judge, state_of
from slipfit.checks.limits import LIMITS
from slipfit.checks.verdict import LIMIT_STATES, SEVERITY, Verdict
from slipfit.flight.inputs import esc_of, motor_of, pack_of
from slipfit.flight.performance import Performance, performance
from slipfit.parts.kinds import KINDS
from slipfit.units import CURRENT

USUAL = performance(shipped())


def judged(build: Build) -> dict[str, Verdict]:
    p = performance(build)
    found = (judge(limit, p) for limit in LIMITS)
    return {v.id: v for v in found if v is not None}


def limit_of(value: float, allowed: float, floor: bool = False, near: float = NEAR) -> LimitKind:
    return LimitKind(
        id="test",
        kind="esc",
        subject="test current",
        when="in a test",
        display=CURRENT,
        asked=lambda p: Asked(value=value, allowed=allowed, floor=floor),
        basis="a test",
        fix=lambda p, asked: "another test",
        near=near,
    )


# ------------------------------------------------------------------------------ edges


@pytest.mark.parametrize(
    ("ratio", "state"),
    [
        (0.0, "inside"),
        (0.9, "inside"),
        (math.nextafter(0.9, 1.0), "near"),
        (1.0, "near"),
        (math.nextafter(1.0, 2.0), "past"),
        (math.inf, "past"),
        (math.nan, "past"),
    ],
)
def test_states_change_at_nine_tenths_and_at_the_limit(ratio: float, state: str) -> None:
    assert state_of(ratio) == state
    assert state in LIMIT_STATES


@pytest.mark.parametrize(("cells", "state"), [(5, "inside"), (6, "inside"), (7, "past")])
def test_a_count_is_never_near(cells: int, state: str) -> None:
    """Six cells on an ESC for six is what it is made for."""
    build = altered("pack", cell_count=cells, of=altered("esc", min_cells=3, max_cells=6))
    assert judged(build)["esc_cells"].state == state


@pytest.mark.parametrize(
    ("value", "state"), [(44.9, "inside"), (45.0, "inside"), (49.9, "near"), (50.1, "past")]
)
def test_a_ceiling_is_judged_by_the_share_asked(value: float, state: str) -> None:
    verdict = judge(limit_of(value, 50.0), USUAL)
    assert verdict is not None and verdict.state == state
    assert verdict.amount == value / 50.0
    assert verdict.severity == SEVERITY[state]
    assert f"Test current is {state} its limit: {value:.1f}" in verdict.sentence("metric")
    assert verdict.sentence("imperial").endswith("in a test")
    assert verdict.fix == ("" if state == "inside" else "another test")


@pytest.mark.parametrize(("value", "state"), [(60.0, "inside"), (52.0, "near"), (49.0, "past")])
def test_a_floor_is_judged_the_other_way_round(value: float, state: str) -> None:
    verdict = judge(limit_of(value, 50.0, floor=True), USUAL)
    assert verdict is not None and verdict.state == state
    assert verdict.amount == 50.0 / value
    assert "at least 50.0" in verdict.sentence("metric")


def test_nothing_at_all_over_a_floor_is_past_it_and_no_fault() -> None:
    verdict = judge(limit_of(0.0, 50.0, floor=True), USUAL)
    assert verdict is not None and verdict.state == "past"
    assert "inf" not in verdict.sentence("metric")


# ------------------------------------------------------------------------------ the registry


def test_ids_are_used_once_and_kinds_exist() -> None:
    assert len({limit.id for limit in LIMITS}) == len(LIMITS)
    # what concerns the frame alone is of no kind
    assert {limit.kind for limit in LIMITS} <= {kind.id for kind in KINDS} | {""}


def test_every_limit_speaks_on_the_shipped_build() -> None:
    found = judged(shipped())
    assert {"esc_current", "esc_burst", "esc_cells", "motor_current", "pack_current"} <= set(found)
    for verdict in found.values():
        assert verdict.family == "limit" and verdict.basis and verdict.subject
        assert math.isfinite(verdict.amount) and verdict.amount > 0.0
        assert verdict.state == state_of(
            verdict.amount, next(limit.near for limit in LIMITS if limit.id == verdict.id)
        )


def test_limits_of_flight_say_nothing_where_nothing_flies() -> None:
    found = judged(altered("pack", mass_kg=9.0))
    assert found["hover_margin"].state == "past"
    assert not {"esc_current", "motor_current", "pack_current", "cell_voltage", "tip_mach"} & set(
        found
    )


# ------------------------------------------------------------------------------ what they compare


def at(p: Performance, name: str) -> float:
    return float(getattr(p.top.drive, name)[0, 0])


def test_ratios_are_those_of_the_parts() -> None:
    build, found = shipped(), judged(shipped())
    esc, motor, pack = esc_of(build), motor_of(build), pack_of(build)
    current = at(USUAL, "motor_current_A")
    assert found["esc_current"].amount == pytest.approx(current / esc.continuous_A, rel=1e-12)
    assert found["motor_current"].amount == pytest.approx(current / motor.max_current_A, rel=1e-12)
    burst = float(USUAL.standing.drive.motor_current_A[0, 0])
    assert found["esc_burst"].amount == pytest.approx(burst / esc.burst_A, rel=1e-12)
    claim = pack.c_rating * pack.capacity_C / 3600  # C times ampere-hours
    assert found["pack_current"].amount == pytest.approx(
        at(USUAL, "pack_current_A") / claim, rel=1e-12
    )
    volts = at(USUAL, "pack_voltage_V") / pack.cell_count
    assert found["cell_voltage"].amount == pytest.approx(3.3 / volts, rel=1e-12)


@pytest.mark.parametrize(
    ("build", "id"),
    [
        (altered("esc", continuous_A=20.0), "esc_current"),
        (altered("esc", burst_A=30.0), "esc_burst"),
        (altered("esc", max_cells=4), "esc_cells"),
        (altered("motor", max_current_A=20.0), "motor_current"),
        (altered("pack", c_rating=30.0), "pack_current"),
        (altered("pack", cell_resistance_ohm=0.008), "cell_voltage"),
        (altered("pack", mass_kg=3.5), "hover_margin"),
        (altered("pack", cell_count=8), "tip_mach"),
    ],
    ids=lambda x: x if isinstance(x, str) else "",
)
def test_each_limit_can_be_passed_or_approached_and_says_what_would_help(
    build: Build, id: str
) -> None:
    verdict = judged(build)[id]
    assert verdict.state in ("near", "past")
    assert verdict.amount > judged(shipped())[id].amount
    assert verdict.fix


def test_a_swap_to_a_smaller_esc_is_seen() -> None:
    small = judged(swapped(esc="e40"))["esc_current"]
    assert small.state in ("near", "past")
    assert "40.0" in small.sentence_metric


def test_verdicts_are_values_and_cannot_be_changed() -> None:
    verdict = next(iter(judged(shipped()).values()))
    with pytest.raises(dataclasses.FrozenInstanceError):
        verdict.state = "inside"
