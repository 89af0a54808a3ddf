"""A joint: what a set of screws clamps, what they turn into, and which of it depends on parts.

[[joint]]
id = "motors"
label = "motor on its pod"
screw = "motor"
into = "aluminium"
depth = "motor.mount_depth"
count = 16

[joint.grip]
"base of the pod" = "4 mm"
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any, Final

from slipfit.errors import InputError, nearest
from slipfit.parts.key import key, keys_of
from slipfit.parts.kinds import KINDS
from slipfit.parts.motor import SCREWS
from slipfit.parts.record import plain_line
from slipfit.physics.fastener import FRICTIONS, HEADS, HOLDS, STRENGTHS
from slipfit.units import quantity_from_text

SCREW_OF: Final = ("motor", "esc", "stack")  # kinds of part that bring a screw size
# Lengths that follow from a part or the frame besides a part's own keys.
DERIVED: Final = ("arm.thickness", "camera.washer")
MOST_LAYERS: Final = 12
LONGEST_LAYER_M: Final = 0.2
ID: Final = re.compile(r"[a-z][a-z0-9-]{0,31}")


@dataclass(frozen=True, kw_only=True)
class Layer:
    """One thing that a screw passes or turns into: a fixed length, or where its length comes from,
    such as `esc.height`."""

    name: str
    length_m: float = 0.0
    source: str = ""


@dataclass(frozen=True, kw_only=True)
class Joint:
    """Screws that are all alike. `depth` is the length of thread that they may turn into."""

    id: str
    label: str = key("label", "text", help="What is joined to what.")
    screw: str = key(
        "screw", "choice", choices=(*SCREWS, *SCREW_OF),
        help="Its thread, or the kind of part whose screw it is.",
    )  # fmt: skip
    into: str = key("turns into", "choice", choices=tuple(HOLDS))
    count: int = key("count", "count", low=1, high=200, help="In the whole frame.")
    head: str = key("head", "choice", choices=HEADS, default="cap")
    strength: str = key(
        "property class", "choice", choices=tuple(STRENGTHS), default="8.8",
        help="As stamped on its head or named in its listing.",
    )  # fmt: skip
    friction: str = key(
        "friction", "choice", choices=tuple(FRICTIONS), default="dry",
        help="Of thread and head; wet thread-lock counts as oiled.",
    )  # fmt: skip
    room_m: float = key(
        "room beyond the thread", "length", "mm", low=0.0, high=0.1, default=0.0,
        help="How far a screw's end may reach beyond the thread, as behind a nut.",
    )  # fmt: skip
    torque_Nm: float = key(
        "torque asked for", "torque", "N cm", low=0.0, high=20.0, default=0.0, typed="torque",
        help="Left out, it follows from screw and thread.",
    )  # fmt: skip
    station_m: float = key(
        "station", "length", "mm", low=-1.0, high=3.0, default=0.0,
        help="Of the middle of these screws, for the balance. Left out with `right` and `front`, "
        "they are where the part is whose screws they are, else amid the frame's hardware.",
    )  # fmt: skip
    right_m: float = key("right of the axis", "length", "mm", low=-2.0, high=2.0, default=0.0)
    front_m: float = key("front of the axis", "length", "mm", low=-2.0, high=2.0, default=0.0)
    ring_m: float = key(
        "ring", "length", "mm", low=0.0, high=2.0, default=0.0,
        help="Radius at which they stand around that middle, for inertia.",
    )  # fmt: skip
    grip: tuple[Layer, ...] = ()
    depth: Layer


Say = Callable[[str, str], None]


def read_layers(table: Mapping[str, Any], say: Say) -> tuple[tuple[Layer, ...], Layer]:
    """`grip` and `depth` of a joint's table."""
    depth = _layer("depth", table.get("depth"), "depth", say)
    given = table.get("grip")
    if not isinstance(given, Mapping) or not 1 <= len(given) <= MOST_LAYERS:
        say(
            "grip",
            f"grip must be a table [joint.grip] of 1 to {MOST_LAYERS} lengths, each under the name "
            "of what the screw passes",
        )
        return (), depth
    return tuple(_layer(name, raw, "grip", say) for name, raw in given.items()), depth


def _layer(name: str, raw: Any, at: str, say: Say) -> Layer:
    who = name if at == "depth" else f"grip: {name[:40]}"
    if not isinstance(raw, str):
        got = "nothing" if raw is None else f"{raw!r:.40}"
        say(
            at, f"{who} must be a length such as '4 mm' or a part's such as 'esc.height', got {got}"
        )
        return Layer(name=name)
    try:
        shown = plain_line("", at, name)
        if re.fullmatch(r"[a-z]+\.\w+", raw.strip()):
            return Layer(name=shown, source=_source(who, raw.strip()))
        length = quantity_from_text("", who, raw, "length")
    except InputError as error:
        say(at, error.message.removeprefix(": "))
        return Layer(name=name)
    if not 0.0 < length <= LONGEST_LAYER_M:
        say(at, f"{who} must be above 0 and at most {LONGEST_LAYER_M * 1e3:g} mm, got {raw[:40]}")
    return Layer(name=shown, length_m=length)


def _source(who: str, text: str) -> str:
    if text in DERIVED:
        return text
    kind, _, name = text.partition(".")
    known = {k.id: k for k in KINDS}
    if kind not in known:
        choices = [*known, *(d.partition(".")[0] for d in DERIVED)]
        raise InputError(f": {who}: no kind of part '{kind[:40]}'{nearest(kind[:40], choices)}")
    keys = keys_of(known[kind].cls)
    lengths = [key for key, record in keys.items() if record.dimension == "length"]
    lengths += [d.partition(".")[2] for d in DERIVED if d.startswith(f"{kind}.")]
    if name not in lengths:
        raise InputError(f": {who}: no length '{name[:40]}' of a {kind}{nearest(name, lengths)}")
    return text
