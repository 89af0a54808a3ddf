"""The kinds of part, one record each. A new kind is one file and one line here."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from slipfit.errors import InputError, nearest
from slipfit.parts.camera import Camera
from slipfit.parts.esc import Esc
from slipfit.parts.gps import Gps
from slipfit.parts.motor import Motor
from slipfit.parts.pack import Pack
from slipfit.parts.part import Part
from slipfit.parts.prop import Prop
from slipfit.parts.receiver import Receiver
from slipfit.parts.stack import Stack
from slipfit.parts.video import Video


@dataclass(frozen=True, kw_only=True)
class Kind:
    """One kind: its id, its names for people, its class and the file of the shelf that lists it."""

    id: str
    label: str
    plural: str
    cls: type[Part]
    file: str
    count: int = 1  # how many of it one build carries


KINDS: Final[tuple[Kind, ...]] = (
    Kind(id="motor", label="motor", plural="motors", cls=Motor, file="motors.toml", count=4),
    Kind(id="prop", label="propeller", plural="propellers", cls=Prop, file="props.toml", count=4),
    Kind(id="pack", label="pack", plural="packs", cls=Pack, file="packs.toml"),
    Kind(id="esc", label="ESC", plural="ESCs", cls=Esc, file="escs.toml"),
    Kind(id="stack", label="stack", plural="stacks", cls=Stack, file="stacks.toml"),
    Kind(id="camera", label="camera", plural="cameras", cls=Camera, file="cameras.toml"),
    Kind(id="video", label="video unit", plural="video units", cls=Video, file="video.toml"),
    Kind(id="gps", label="GPS module", plural="GPS modules", cls=Gps, file="gps.toml"),
    Kind(id="receiver", label="receiver", plural="receivers", cls=Receiver, file="receivers.toml"),
)  # fmt: skip
_BY_ID: Final = {kind.id: kind for kind in KINDS}


def kind_of(id: str) -> Kind:
    """The kind with an id; InputError names the nearest."""
    if id not in _BY_ID:
        raise InputError(f"no kind of part '{id[:40]}'{nearest(id[:40], _BY_ID)}", field="kind")
    return _BY_ID[id]


def kind_of_part(part: Part) -> Kind:
    """The kind of a part."""
    return next(kind for kind in KINDS if kind.cls is type(part))
