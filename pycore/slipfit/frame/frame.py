"""A frame: rotors, seats, bodies in the air stream, bays and hardware, and the build it ships with.

`station` is the distance aft of the nose plane along the rotor axis (downwards in hover);
`front` the direction the frame tilts towards in forward flight; `right` to the right of it.
Both are 0 on the axis. Everything is SI.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final

from slipfit.frame.joint import Joint
from slipfit.frame.leg import DEFAULT_LEGS, Leg
from slipfit.parts.key import key
from slipfit.parts.motor import SCREWS
from slipfit.parts.pattern import HolePattern
from slipfit.physics.material import material_names

BAY_SHAPES: Final = ("box", "tube", "tapered")
BAY_LIES: Final = ("along", "across")
BOXED: Final = ("pack", "gps", "video", "receiver")  # kinds that lie in a bay as a box
PILED: Final = ("length", "width", "height")
SIDES: Final = ("nose", "tail", "right", "left", "front", "back")
COOLING: Final = ("open", "duct", "closed")
BAY_KINDS: Final = ("pack", "esc", "stack", "camera", "video", "gps", "receiver")


def _station(help: str = "Aft of the nose plane, along the rotor axis.") -> Any:
    return key("station", "length", "mm", low=-1.0, high=3.0, help=help)


def _right() -> Any:
    return key("right of the axis", "length", "mm", low=-2.0, high=2.0, default=0.0)


def _front() -> Any:
    return key("front of the axis", "length", "mm", low=-2.0, high=2.0, default=0.0)


@dataclass(frozen=True, kw_only=True)
class Day:
    """The day a frame is flown on, unless the reader says otherwise."""

    air_temperature_K: float = key("air temperature", "temperature", "C", low=223.15, high=328.15)
    height_m: float = key(
        "height above the sea", "length", "m", low=-450.0, high=6000.0, default=0.0
    )
    relative_humidity: float = key(
        "relative humidity", "ratio", "%", low=0.0, high=1.0, default=0.0
    )
    pack_temperature_K: float = key(
        "pack temperature at take-off", "temperature", "C", low=243.15, high=333.15
    )
    charge: float = key("charge at take-off", "ratio", "%", low=0.2, high=1.0, default=1.0)
    wind_m_s: float = key("wind", "speed", "m/s", low=0.0, high=40.0, default=0.0)
    pack_flights: int = key(
        "flights of the pack so far", "count", low=0, high=600, default=0,
        help="Capacity goes and resistance comes with them; 0 for a new pack.",
    )  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class RotorMount:
    """Where one rotor turns: the centre of its disk."""

    station_m: float = _station("Of the propeller's plane.")
    right_m: float = key("right of the axis", "length", "mm", low=-2.0, high=2.0)
    front_m: float = key("front of the axis", "length", "mm", low=-2.0, high=2.0)
    pusher: bool = key(
        "pusher", "flag", default=False, help="True where it turns behind its motor."
    )


@dataclass(frozen=True, kw_only=True)
class MotorSeat:
    """What a motor is screwed to, and the fairing around it."""

    patterns: tuple[HolePattern, ...] = key("hole patterns", "patterns", convention="motor")
    screw: str = key("screw", "choice", choices=SCREWS, default="M3")
    bore_m: float = key(
        "fairing bore", "length", "mm", low=0.005, high=0.3, default=0.0,
        help="Inside diameter; left out where the motor stands in the open.",
    )  # fmt: skip
    depth_m: float = key(
        "fairing depth", "length", "mm", low=0.002, high=0.3, default=0.0,
        help="From the mounting face to the fairing's mouth; left out where there is none.",
    )  # fmt: skip
    behind_prop_m: float = key(
        "motor behind propeller", "length", "mm", low=-0.2, high=0.2, default=0.015,
        help="How far the middle of the motor lies aft of the propeller's plane.",
    )  # fmt: skip
    air_share: float = key(
        "air past the can", "ratio", "%", low=0.0, high=1.0, default=1.0,
        help="Speed of the air along the can over that of the slipstream: 100 % in the open, "
        "less in a fairing.",
    )  # fmt: skip


def _option() -> Any:
    return key(
        "option", "text", default="",
        help="What it belongs to, such as `spinners on` or `spinners off, fairings on`; left out "
        "for what is always there.",
    )  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class Option:
    """Something that a reader may put on a frame or leave off: spinners, a mast."""

    id: str
    label: str = key("label", "text", help="As in “with spinners”.")
    default: bool = key("as shipped", "flag", help="True where the frame ships with it.")
    about: str = key("about", "text", help="One sentence: what it is, and what it is for.")


@dataclass(frozen=True, kw_only=True)
class BodyEntry:
    """Something in the air stream: a shape of one of the body models, how often, and where.

    `washed` is the share of the rotors' wash that it stands in, 0 to 1; `sheltered` the share of
    its axial drag that it is spared by a body right ahead of it.
    """

    name: str
    model: str
    shape: Any
    count: int = key("count", "count", low=1, high=64, default=1)
    washed: float = key("washed by the rotors", "ratio", "%", low=0.0, high=1.0, default=0.0)
    sheltered: float = key(
        "sheltered", "ratio", "%", low=0.0, high=1.0, default=0.0,
        help="Share of its axial drag that a body right ahead of it takes away.",
    )  # fmt: skip
    station_m: float = _station("Of its middle.")
    right_m: float = _right()
    front_m: float = _front()
    option: str = _option()


@dataclass(frozen=True, kw_only=True)
class Bay:
    """Room for one part, or for several that are piled up in it: `kind` first, then those `also`.

    A `box` has length, width and height; a `tube` length and diameter; a `tapered` bay has
    width and height at its fore end and `end_width_m`, `end_height_m` at its aft end.

    A bay that lies `along` has its length along the rotor axis and its height to the front, as in
    a body that stands on its tail. One that lies `across` has its length from front to back and
    its height along the axis, its floor aft, as on a flat frame. Width lies to the right.
    """

    id: str
    kind: str = key("holds", "choice", choices=BAY_KINDS, help="The kind of part it holds.")
    also: tuple[str, ...] = key(
        "holds also", "words", choices=BOXED, default=(),
        help="Kinds of part that are piled on the first, in this order.",
    )  # fmt: skip
    piled: str = key(
        "piled along", "choice", choices=PILED, default="height",
        help="The side of the bay along which several parts follow each other, its floor, left "
        "or nose end first.",
    )  # fmt: skip
    pile_gap_m: float = key(
        "gap in the pile", "length", "mm", low=0.0, high=0.05, default=0.0,
        help="Foam or air between one part and the next.",
    )  # fmt: skip
    label: str = key("label", "text", default="")
    shape: str = key("shape", "choice", choices=BAY_SHAPES, default="box")
    lies: str = key(
        "lies", "choice", choices=BAY_LIES, default="along",
        help="Its length along the rotor axis, or across it from front to back.",
    )  # fmt: skip
    length_m: float = key("length", "length", "mm", low=0.002, high=2.0)
    width_m: float = key("width", "length", "mm", low=0.0, high=1.0, default=0.0)
    height_m: float = key("height", "length", "mm", low=0.0, high=1.0, default=0.0)
    diameter_m: float = key("diameter", "length", "mm", low=0.0, high=1.0, default=0.0)
    end_width_m: float = key("width at the aft end", "length", "mm", low=0.0, high=1.0, default=0.0)
    end_height_m: float = key(
        "height at the aft end", "length", "mm", low=0.0, high=1.0, default=0.0
    )
    corner_m: float = key(
        "corner radius", "length", "mm", low=0.0, high=0.5, default=0.0,
        help="Of the inside edges along a box or a tapered bay.",
    )  # fmt: skip
    station_m: float = _station("Of its centre.")
    right_m: float = _right()
    front_m: float = _front()
    padding_m: float = key(
        "padding", "length", "mm", low=0.0, high=0.05, default=0.0,
        help="Foam or tape on every side, which the part does not get.",
    )  # fmt: skip
    lead_room_m: float = key(
        "lead room", "length", "mm", low=0.0, high=0.3, default=0.0,
        help="Part of the length kept free, for leads and connector to turn.",
    )  # fmt: skip
    tolerance_m: float = key(
        "tolerance", "length", "mm", low=0.0, high=0.01, default=0.0005,
        help="How far the made bay may be off.",
    )  # fmt: skip
    under: str = key(
        "lies under", "text", default="",
        help="What must come off before hands get at it, with its article: `the hatch`.",
    )  # fmt: skip

    @property
    def kinds(self) -> tuple[str, ...]:
        """The kinds of part it holds, in the order of their pile."""
        return (self.kind, *self.also)


@dataclass(frozen=True, kw_only=True)
class KeepOut:
    """A box of the frame in which no part may lie: screws, a duct, the path of a cable. Its sides
    lie along the frame's axes."""

    name: str
    length_m: float = key("length", "length", "mm", low=0.0005, high=2.0, help="Along the axis.")
    width_m: float = key("width", "length", "mm", low=0.0005, high=2.0, help="To the right.")
    height_m: float = key("height", "length", "mm", low=0.0005, high=2.0, help="To the front.")
    room_m: float = key(
        "room around it", "length", "mm", low=0.0, high=0.1, default=0.0005,
        help="That a part must leave to be clear of it.",
    )  # fmt: skip
    station_m: float = _station("Of its middle.")
    right_m: float = _right()
    front_m: float = _front()


@dataclass(frozen=True, kw_only=True)
class Access:
    """A rectangular opening in a wall, or a gap between posts, through which a plug and a hand
    reach what lies behind it."""

    name: str
    side: str = key("side", "choice", choices=SIDES, help="The side of the frame it looks to.")
    length_m: float = key(
        "length", "length", "mm", low=0.001, high=2.0,
        help="Along the axis; of one at nose or tail, to the right.",
    )  # fmt: skip
    width_m: float = key(
        "width", "length", "mm", low=0.001, high=2.0, help="Across that, in its wall."
    )
    station_m: float = _station("Of its middle, at the outside of the wall.")
    right_m: float = _right()
    front_m: float = _front()


@dataclass(frozen=True, kw_only=True)
class StackSeat:
    """Where ESC and flight controller are screwed down."""

    patterns: tuple[HolePattern, ...] = key("hole patterns", "patterns", convention="stack")
    screw: str = key("screw", "choice", choices=SCREWS, default="M3")
    max_height_m: float = key(
        "room above the seat", "length", "mm", low=0.005, high=0.2,
        help="For both boards, their spacers and the plugs on top.",
    )  # fmt: skip
    max_length_m: float = key("longest board", "length", "mm", low=0.01, high=0.3)
    max_width_m: float = key("widest board", "length", "mm", low=0.01, high=0.3)
    cooling: str = key(
        "cooling of the boards", "choice", choices=COOLING, default="open",
        help="`open` to the air stream; `duct`: fed by the inlets among the bodies; `closed`.",
    )  # fmt: skip
    air_section_m2: float = key(
        "section of the duct", "area", "cm2", low=1e-5, high=0.1, default=1.2e-3,
        help="Free section beside the boards through which the cooling air passes.",
    )  # fmt: skip
    station_m: float = _station("Of the middle of the boards.")
    right_m: float = _right()
    front_m: float = _front()
    under: str = key(
        "lies under", "text", default="",
        help="What must come off before hands get at the boards, with its article: `the top "
        "plate`.",
    )  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class CameraSeat:
    """The cage that holds the camera between its side plates."""

    widths_m: tuple[float, ...] = key(
        "camera widths", "lengths", "mm", help="Those the cage takes as it is."
    )
    max_height_m: float = key("tallest camera", "length", "mm", low=0.005, high=0.2)
    max_depth_m: float = key("deepest camera", "length", "mm", low=0.005, high=0.3)
    uptilt_low_rad: float = key("least uptilt", "angle", "deg", low=-1.6, high=1.6)
    uptilt_high_rad: float = key("largest uptilt", "angle", "deg", low=-1.6, high=1.6)
    behind_m: float = key(
        "room behind the pivot", "length", "mm", low=0.0, high=0.3, default=0.0,
        help="To what stands behind the camera, square to it at the least uptilt; left out where "
        "nothing does.",
    )  # fmt: skip
    window_start_m: float = key(
        "window's fore end", "length", "mm", low=-1.0, high=3.0, default=0.0,
        help="Station from which the shell before the lens is clear.",
    )  # fmt: skip
    window_end_m: float = key(
        "window's aft end", "length", "mm", low=-1.0, high=3.0, default=0.0,
        help="Station up to which it is clear; left out where no window is known.",
    )  # fmt: skip
    station_m: float = _station("Of its pivot.")
    right_m: float = _right()
    front_m: float = _front()


@dataclass(frozen=True, kw_only=True)
class Item:
    """Something of fixed mass that comes with the frame: a shell half, an arm, a bag of screws.

    Its mass is weighed, or follows from its volume, material and infill (`material_mass`).
    """

    name: str
    mass_kg: float = key(
        "mass", "mass", "g", low=1e-4, high=20.0, default=0.0,
        help="Of one, weighed; left out where volume and material are given instead.",
    )  # fmt: skip
    volume_m3: float = key(
        "volume", "volume", "cm3", low=1e-9, high=0.05, default=0.0,
        help="Of one, as drawn and full.",
    )  # fmt: skip
    material: str = key(
        "material", "choice", choices=material_names, default="", help="What it is made of."
    )
    infill: float = key(
        "infill", "ratio", "%", low=0.0, high=1.0, default=1.0,
        help="How full a print is between its walls.",
    )  # fmt: skip
    walls: float = key(
        "walls", "ratio", "%", low=0.0, high=1.0, default=0.3,
        help="Share of a print's volume that is wall, top or bottom, and so is always full.",
    )  # fmt: skip
    station_m: float = _station("Of its centre of mass.")
    right_m: float = _right()
    front_m: float = _front()
    ring_m: float = key(
        "ring", "length", "mm", low=0.0, high=2.0, default=0.0,
        help="Radius at which they stand around that centre, or at which a shell's wall does; "
        "for inertia.",
    )  # fmt: skip
    length_m: float = key(
        "length", "length", "mm", low=0.0, high=3.0, default=0.0,
        help="How long each is along the rotor axis; for inertia.",
    )  # fmt: skip
    turning_ring_m: float = key(
        "ring about the propeller's axis", "length", "mm", low=0.0, high=0.5, default=0.0,
        help="Radius at which its mass turns with a propeller; left out for what does not turn.",
    )  # fmt: skip
    count: int = key("count", "count", low=1, high=200, default=1)
    option: str = _option()


@dataclass(frozen=True, kw_only=True)
class Arm:
    """An arm as a beam, for its bending frequencies: a straight bar from where the body lets go of
    it to the motor's axis. `wall_m` is 0 for a solid one."""

    name: str
    length_m: float = key(
        "length", "length", "mm", low=0.005, high=2.0, help="Free, from its root to the motor."
    )
    width_m: float = key("width", "length", "mm", low=0.001, high=0.3, help="In the disk plane.")
    thickness_m: float = key(
        "thickness", "length", "mm", low=0.0005, high=0.3, help="Along the rotor axis."
    )
    wall_m: float = key(
        "wall", "length", "mm", low=0.0002, high=0.1, default=0.0,
        help="Of a hollow arm; left out for a solid one.",
    )  # fmt: skip
    material: str = key("material", "choice", choices=material_names)
    fibre_angle_rad: float = key(
        "fibre angle", "angle", "deg", low=0.0, high=1.5708, default=0.0,
        help="Between the arm and the nearest fibres of a cloth.",
    )  # fmt: skip
    end_mass_kg: float = key(
        "mass at its end", "mass", "g", low=0.0, high=5.0, default=0.0, typed="end_mass",
        help="Besides motor and propeller: pod, screws.",
    )  # fmt: skip
    root_give: float = key(
        "give of the root", "ratio", "%", low=0.0, high=0.6, default=0.2,
        help="Share of the frequency that a root which is not rigid takes away; tap and listen.",
    )  # fmt: skip
    count: int = key("count", "count", low=1, high=64, default=4)


@dataclass(frozen=True, kw_only=True)
class Shot:
    """What the camera is to show: a subject ahead and below, on level ground, in the middle from
    left to right."""

    subject: str = key("subject", "text", default="subject", help="What it is, in a word or two.")
    subject_length_m: float = key(
        "subject's length", "length", "m", low=0.05, high=500.0, default=4.0,
        help="Of the side that the camera sees, from left to right.",
    )  # fmt: skip
    subject_height_m: float = key(
        "subject's height", "length", "m", low=0.0, high=200.0, default=1.5,
        help="Of its highest point above the ground.",
    )  # fmt: skip
    depression_rad: float = key(
        "depression", "angle", "deg", low=0.0175, high=1.5708, default=0.2617993877991494,
        help="How steeply the camera looks down to the subject.",
    )  # fmt: skip
    size: float = key(
        "size in the picture", "ratio", "%", low=0.005, high=1.0, default=0.15,
        help="Share of the picture's width that the subject takes.",
    )  # fmt: skip
    place: float = key(
        "height in the picture", "ratio", "%", low=0.0, high=1.0, default=1 / 3,
        help="Of the subject, from the lower edge: 33 % is the lower third line, 50 % the middle.",
    )  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class Wire:
    """The wires that come with the frame. Gauges are AWG numbers."""

    motor_gauge: int = key("motor lead gauge", "count", low=8, high=30)
    motor_lead_length_m: float = key(
        "motor lead", "length", "mm", low=0.0, high=2.0, help="One of three."
    )
    pack_gauge: int = key("pack lead gauge", "count", low=4, high=24)
    pack_lead_length_m: float = key(
        "pack lead",
        "length",
        "mm",
        low=0.0,
        high=2.0,
        help="From the ESC to the connector, one way.",
    )


@dataclass(frozen=True, kw_only=True)
class Outline:
    """The outer contour of the main body at rising stations, for drawing and clearance.

    `radii_m` are those of circles of the section's area; half widths lie to the right, half
    heights to the front.
    """

    stations_m: tuple[float, ...] = ()
    radii_m: tuple[float, ...] = ()
    half_widths_m: tuple[float, ...] = ()
    half_heights_m: tuple[float, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Frame:
    """One frame as its author wrote it, with those of its options on that `on` names.

    `bodies`, `hardware` and `outline` are what there is with them; `whole` is the frame with what
    belongs to any setting, None where there are no options (see `slipfit.frame.options`).
    """

    slug: str
    name: str = key("name", "text")
    summary: str = key("summary", "text", help="One or two sentences.")
    uptilt_rad: float = key(
        "camera uptilt", "angle", "deg", low=-1.6, high=1.6, default=0.0,
        help="Of the optical axis above the plane of the rotors.",
    )  # fmt: skip
    avionics_W: float = key(
        "other electronics", "power", "W", low=0.0, high=200.0, default=0.0,
        help="Lights and the like; parts bring their own.",
    )  # fmt: skip
    static_margin: float = key(
        "static margin wanted", "number", low=-5.0, high=20.0, default=0.5,
        help="In body diameters, flat out; fins are sized for it.",
    )  # fmt: skip
    chase_speed_m_s: float = key(
        "chase speed", "speed", "m/s", low=1.0, high=150.0, default=0.0,
        help="Of the subject that is followed, which a run-up is asked to reach; left out for "
        "none.",
    )  # fmt: skip
    day: Day
    rotors: tuple[RotorMount, ...]
    motor_seat: MotorSeat
    stack_seat: StackSeat
    camera_seat: CameraSeat
    wire: Wire
    bodies: tuple[BodyEntry, ...]
    bays: tuple[Bay, ...]
    hardware: tuple[Item, ...]
    outline: Outline
    defaults: Mapping[str, str]
    legs: tuple[Leg, ...] = DEFAULT_LEGS
    arms: tuple[Arm, ...] = ()
    joints: tuple[Joint, ...] = ()
    shot: Shot = Shot()
    options: tuple[Option, ...] = ()
    on: tuple[str, ...] = ()  # ids of options, in their order
    whole: Frame | None = None
    keep_outs: tuple[KeepOut, ...] = ()
    accesses: tuple[Access, ...] = ()

    def bay_for(self, kind: str) -> Bay | None:
        """The first bay that holds a kind of part."""
        return next((bay for bay in self.bays if kind in bay.kinds), None)
