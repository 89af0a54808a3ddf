"""Fit of propellers: tips to each other, tips to the body, bore on the shaft."""

from __future__ import annotations

from collections.abc import Callable

from slipfit.build import Build
from slipfit.checks.verdict import Verdict
from slipfit.checks.wording import both, fit_verdict, says, size, state_of
from slipfit.fit.rotors import (
    Nearest,
    largest_clear_diameter,
    nearest_body,
    nearest_box,
    nearest_tips,
)
from slipfit.fit.solids import beside_rotors
from slipfit.frame.frame import RotorMount
from slipfit.parts.motor import Motor
from slipfit.parts.prop import Prop

# Blades bend and arms flex: tips want this share of the diameter to be clear. Common practice, no
# source.
TIP_ROOM_RATIO = 0.02
BORE_ROUNDING_M = 0.05e-3  # bores and shafts are quoted to a tenth of a millimetre at best


def judge_prop_tips(build: Build) -> Verdict | None:
    """The closest pair of propellers."""
    prop = build.parts.get("prop")
    if not isinstance(prop, Prop):
        return None
    rotors, thickness = build.frame.rotors, prop.hub_thickness_m

    def where(near: Nearest) -> str:
        first, second = (_place(rotors[k]) for k in near.rotors)
        return f"between the {first} and {second} propellers"

    return _verdict(
        "prop_tips", "Propeller tips", prop,
        lambda diameter: nearest_tips(rotors, diameter, thickness), where,
        "The frame file's rotor places; each propeller sweeps a disk as thick as its hub",
    )  # fmt: skip


def judge_prop_body(build: Build) -> Verdict | None:
    """The propeller that comes closest to the body, or to plates, arms and parts in the open."""
    prop = build.parts.get("prop")
    if not isinstance(prop, Prop):
        return None
    frame, thickness, boxes = build.frame, prop.hub_thickness_m, beside_rotors(build)

    def nearest(diameter_m: float) -> Nearest | None:
        found = (
            nearest_body(frame.rotors, frame.outline, diameter_m, thickness),
            nearest_box(frame.rotors, boxes, diameter_m, thickness),
        )
        return min((n for n in found if n is not None), key=lambda n: n.gap_m, default=None)

    return _verdict(
        "prop_body", "Propeller tip", prop, nearest,
        lambda near: f"at the {near.what}, {_place(frame.rotors[near.rotors[0]])} propeller",
        "The frame file's rotor places, body outline, plates and arms, and the parts in the open",
    )  # fmt: skip


def _verdict(
    id: str, subject: str, prop: Prop, nearest: Callable[[float], Nearest | None],
    where: Callable[[Nearest], str], rule: str,
) -> Verdict | None:  # fmt: skip
    near = nearest(prop.diameter_m)
    if near is None:
        return None
    gap = 0.0 if abs(near.gap_m) < 1e-9 else near.gap_m
    needed = TIP_ROOM_RATIO * prop.diameter_m
    state = state_of(gap, needed)
    fix = ""
    if state != "clear":

        def room(diameter_m: float) -> float:
            other = nearest(diameter_m)
            assert other is not None
            return other.gap_m - TIP_ROOM_RATIO * diameter_m

        largest = largest_clear_diameter(room, 0.0, prop.diameter_m)
        fix = (
            f"propellers up to {both(largest)} in diameter would be clear"
            if largest > 0.3 * prop.diameter_m
            else "no propeller of a useful size would be clear here"
        )
    verb = "clash" if id == "prop_tips" else "clashes"

    def sentence(system: str) -> str:
        text = says(subject, state, gap, where(near), system)
        if id == "prop_tips":
            text = text.replace(" clashes ", f" {verb} ", 1).replace(" is ", " are ", 1)
        return text

    return fit_verdict(
        id, "prop", subject, state, gap, sentence,
        f"{rule}; {100 * TIP_ROOM_RATIO:.0f} % of the diameter, here {both(needed)}, is clear "
        "(common practice).", fix,
    )  # fmt: skip


def judge_prop_bore(build: Build) -> Verdict | None:
    """The propeller's bore on the motor's shaft."""
    prop, motor = build.parts.get("prop"), build.parts.get("motor")
    if not isinstance(prop, Prop) or not isinstance(motor, Motor):
        return None
    gap = prop.bore_m - motor.shaft_diameter_m
    gap = 0.0 if abs(gap) < BORE_ROUNDING_M else gap
    state = "clashes" if gap < 0 else "clear"

    def sentence(system: str) -> str:
        bore, shaft = size(prop.bore_m, system), size(motor.shaft_diameter_m, system)
        if state == "clashes":
            return f"Propeller bore clashes by {size(gap, system)}: {bore} on a shaft of {shaft}"
        if gap > 0:
            return (
                f"Propeller bore is clear: {size(gap, system)} of play for a reducing ring to "
                f"fill, {bore} on a shaft of {shaft}"
            )
        return f"Propeller bore is clear: {bore} on a shaft of {shaft}"

    shaft_text = both(motor.shaft_diameter_m)
    fix = ""
    if gap < 0:
        fix = f"a propeller with a bore of {shaft_text} would be clear; never drill one out by hand"
    elif gap > 0:
        fix = f"a reducing ring of {shaft_text} inside, {both(prop.bore_m)} outside centres it"
    return fit_verdict(
        "prop_bore", "prop", "Propeller bore", state, gap, sentence,
        "The propeller's bore against the motor's shaft.", fix,
    )  # fmt: skip


def _place(rotor: RotorMount) -> str:
    """Where a rotor is, in words: `front left`."""
    ahead = "front" if rotor.front_m > 1e-6 else "back" if rotor.front_m < -1e-6 else ""
    beside = "right" if rotor.right_m > 1e-6 else "left" if rotor.right_m < -1e-6 else ""
    return " ".join(word for word in (ahead, beside) if word) or "middle"
