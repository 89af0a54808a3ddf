"""The screws of a build: length from the stack-up, engagement, what strips first, torque.

A joint says what its screws pass and what they turn into; parts of the build bring some of those
lengths. From the lengths that shops stock the shortest is taken that engages as much as is wanted
and ends before it meets something; else the one that engages most.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Final

from slipfit.build import Build
from slipfit.fit.camera import cage_fit
from slipfit.frame.joint import SCREW_OF, Joint, Layer
from slipfit.numerics import Real
from slipfit.parts.camera import Camera
from slipfit.parts.key import keys_of
from slipfit.parts.kinds import kind_of
from slipfit.physics.fastener import (
    FRICTIONS,
    HOLDS,
    INSERT_DIAMETERS_M,
    KEYS_MM,
    LENGTHS_M,
    STRENGTHS,
    Hold,
    Thread,
    head_volume,
    insert_pull_out,
    nut_shear_area,
    preload_of_torque,
    proof_load,
    screw_mass,
    strip_force,
    thread_of,
    thread_stress_area,
    tightening_torque,
)

END_GAP_M: Final = 0.3e-3  # between a screw's end and what it must not meet; our choice
PRELOAD_SHARE: Final = 0.75  # of the screw's proof load; common practice, no source
STRIP_SHARE: Final = 0.5  # of what strips the thread; our choice, for friction and for luck


@dataclass(frozen=True, kw_only=True)
class ScrewFit:
    """One joint of one build.

    `length_m` is the length to buy, `engagement_m` the thread that it then engages, `end_gap_m`
    the room left beyond its end. `state` is `clear`, `snug` (it holds, by less than is wanted) or
    `clashes` (no stocked length does); `gap_m` what is left or lacks. `hold_N` strips the thread
    (or tears out the insert); `torque_Nm` is to be set, `low_Nm` and `high_Nm` the same clamp on a
    slippery and on a rough surface; `held_Nm` strips it on a slippery one. `screw_limits` says that
    the screw would stretch before the thread strips. `mass_kg` is that of one screw.
    """

    joint: Joint
    thread: Thread
    hold: Hold
    layers: tuple[tuple[str, float], ...]
    grip_m: float
    depth_m: float
    length_m: float
    engagement_m: float
    wanted_m: float
    least_m: float
    end_gap_m: float
    state: str
    gap_m: float
    kind: str
    hold_N: float
    screw_N: float
    preload_N: float
    torque_Nm: float
    low_Nm: float
    high_Nm: float
    held_Nm: float
    key_mm: float
    mass_kg: float

    @property
    def margin(self) -> float:
        """How many times the clamp on a slippery surface the joint holds before it gives."""
        return self.held_Nm / self.torque_Nm if self.torque_Nm > 0.0 else 0.0

    @property
    def screw_limits(self) -> bool:
        """True where the screw gives before the thread."""
        return self.screw_N < self.hold_N


def screw_fits(build: Build) -> tuple[ScrewFit, ...]:
    """Every joint of a build whose parts are there."""
    found = (screw_fit(build, joint) for joint in build.frame.joints)
    return tuple(fit for fit in found if fit is not None)


def screw_fit(build: Build, joint: Joint) -> ScrewFit | None:
    """One joint of a build; None where a part that it depends on is missing."""
    size = screw_size(build, joint)
    layers = [(layer.name, layer_length(build, layer)) for layer in joint.grip]
    depth = layer_length(build, joint.depth)
    if size is None or depth is None or any(length is None for _, length in layers):
        return None
    return _kept_fit(joint, size, tuple((name, length or 0.0) for name, length in layers), depth)


@lru_cache(maxsize=512)
def _kept_fit(
    joint: Joint, size: str, lengths: tuple[tuple[str, float], ...], depth: float
) -> ScrewFit:
    """A joint by its screw and lengths; kept, since most builds of a page share most joints."""
    thread, hold = thread_of(size), HOLDS[joint.into]
    d = thread.diameter_m
    grip = sum(length for _, length in lengths)
    # A thread that is all there is, such as a nut's, need not be longer than itself.
    wanted, least = min(hold.wanted * d, max(depth - END_GAP_M, 0.0)), hold.least * d
    if joint.room_m > 0.0:
        wanted = min(hold.wanted * d, depth)
    reach = depth + joint.room_m - (END_GAP_M if joint.room_m == 0.0 else 0.0)
    length = _length(grip, reach, wanted, least, joint.room_m > 0.0, depth)
    engaged = max(min(length - grip, depth), 0.0)
    end_gap = grip + depth + joint.room_m - length
    state, gap = _judged(engaged, wanted, least, grip + reach - length)
    strip = _hold_force(thread, hold, engaged)
    strength, friction = STRENGTHS[joint.strength], FRICTIONS[joint.friction]
    area = float(thread_stress_area(d, thread.pitch_m))
    proof = float(proof_load(area, strength.proof_Pa))
    gives = min(strip, proof)
    # Even on a slippery surface the clamp stays within these shares.
    asked = joint.torque_Nm or _torque(
        friction.low, min(PRELOAD_SHARE * proof, STRIP_SHARE * strip), d
    )
    clamp = float(preload_of_torque(friction.usual, asked, d))
    return ScrewFit(
        joint=joint, thread=thread, hold=hold, layers=lengths, grip_m=grip, depth_m=depth,
        length_m=length, engagement_m=engaged, wanted_m=wanted, least_m=least, end_gap_m=end_gap,
        state=state, gap_m=gap, kind=kind_of_joint(joint), hold_N=strip, screw_N=proof,
        preload_N=clamp, torque_Nm=asked, low_Nm=_torque(friction.low, clamp, d),
        high_Nm=_torque(friction.high, clamp, d), held_Nm=_torque(friction.low, gives, d),
        key_mm=KEYS_MM[joint.head][size],
        mass_kg=float(screw_mass(d, thread.pitch_m, length, head_volume(joint.head, size))),
    )  # fmt: skip


def _torque(nut_factor: float, preload_N: float, diameter_m: float) -> float:
    return float(tightening_torque(nut_factor, preload_N, diameter_m))


def _length(
    grip: float, reach: float, wanted: float, least: float, through: bool, depth: float
) -> float:
    """The stocked length to take; where none will do, the one that misses least."""
    out = 1e-9

    def engaged(length: float) -> float:
        return max(min(length - grip, depth), 0.0)

    ends_free = [length for length in LENGTHS_M if length - grip <= reach + out]
    for asked in (wanted, least):
        enough = [length for length in ends_free if engaged(length) >= asked - out]
        if enough:
            return enough[0] if asked == wanted or through else enough[-1]
    longer = [length for length in LENGTHS_M if length not in ends_free]
    if not ends_free or (longer and longer[0] - grip - reach < least - engaged(ends_free[-1])):
        return longer[0] if longer else LENGTHS_M[-1]
    return ends_free[-1]


def _judged(engaged: float, wanted: float, least: float, spare: float) -> tuple[str, float]:
    """State and gap: of the screw's end first, then of its thread."""
    if spare < -1e-9:
        return "clashes", spare
    if engaged < least - 1e-9:
        return "clashes", engaged - least
    if engaged < wanted - 1e-9:
        return "snug", engaged - least
    return "clear", spare


def _hold_force(thread: Thread, hold: Hold, engaged_m: float) -> float:
    area: Real = nut_shear_area(
        thread.pitch_m, thread.screw_major_min_m, thread.nut_pitch_max_m, engaged_m
    )
    strip = float(strip_force(area, hold.shear_Pa))
    if hold.body_Pa == 0.0:
        return strip
    outside = INSERT_DIAMETERS_M[thread.name]
    return min(strip, float(insert_pull_out(outside, engaged_m, hold.body_Pa)))


def screw_size(build: Build, joint: Joint) -> str | None:
    """The thread of a joint's screws, which a part may bring."""
    if joint.screw not in SCREW_OF:
        return joint.screw
    part = build.parts.get(joint.screw)
    if part is None:
        return None
    size: str = part.mount_screw if joint.screw == "motor" else part.screw  # type: ignore[attr-defined]
    return size


def layer_length(build: Build, layer: Layer) -> float | None:
    """The length of a layer in a build; None where its part is missing."""
    if not layer.source:
        return layer.length_m
    kind, _, name = layer.source.partition(".")
    if kind == "arm":
        return build.frame.arms[0].thickness_m if build.frame.arms else None
    part = build.parts.get(kind)
    if part is None:
        return None
    if layer.source == "camera.washer":
        assert isinstance(part, Camera)
        return cage_fit(part.width_m, build.frame.camera_seat.widths_m).washer_m
    return float(getattr(part, keys_of(kind_of(kind).cls)[name].field))


def kind_of_joint(joint: Joint) -> str:
    """The kind of part that decides about a joint's screws, empty where the frame alone does."""
    sources = [joint.depth.source, *(layer.source for layer in joint.grip)]
    kinds = [
        joint.screw if joint.screw in SCREW_OF else "",
        *(s.partition(".")[0] for s in sources),
    ]
    return next((kind for kind in kinds if kind and kind != "arm"), "")
