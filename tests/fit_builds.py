"""An invented frame and parts, made without files, for tests of fit and drawings."""

from __future__ import annotations

import dataclasses
import math
from typing import Any

from slipfit.build import Build
from slipfit.frame.frame import (
    Access,
    Bay,
    BodyEntry,
    CameraSeat,
    Day,
    Frame,
    Item,
    KeepOut,
    MotorSeat,
    RotorMount,
    StackSeat,
    Wire,
)
from slipfit.frame.joint import Joint, Layer
from slipfit.frame.outline import outline_of
from slipfit.parts.camera import Camera
from slipfit.parts.esc import Esc
from slipfit.parts.gps import Gps
from slipfit.parts.motor import Motor
from slipfit.parts.pack import Pack
from slipfit.parts.part import Part
from slipfit.parts.pattern import HolePattern
from slipfit.parts.prop import Prop
from slipfit.parts.receiver import Receiver
from slipfit.parts.stack import Stack
from slipfit.parts.video import Video
from slipfit.physics.body.fins import Fin
from slipfit.physics.body.streamlined import Streamlined
from slipfit.physics.body.strut import Strut


def motor_pattern(a: float, b: float) -> HolePattern:
    return HolePattern(convention="motor", a_m=a / 1e3, b_m=b / 1e3)


def stack_pattern(a: float) -> HolePattern:
    return HolePattern(convention="stack", a_m=a / 1e3, b_m=a / 1e3)


PACK_BAY = Bay(
    id="pack", kind="pack", label="pack bay", length_m=0.100, width_m=0.0405, height_m=0.0375,
    station_m=0.190, padding_m=1e-3, lead_room_m=0.018, tolerance_m=5e-4,
)  # fmt: skip

BODIES = (
    BodyEntry(
        name="body", model="streamlined", station_m=0.155,
        shape=Streamlined(
            length_m=0.310, width_m=0.072, height_m=0.066, nose_length_m=0.110,
            base_diameter_m=0.040,
        ),
    ),
    BodyEntry(
        name="arms", model="strut", count=4, station_m=0.130,
        shape=Strut(span_m=0.065, chord_m=0.030, thickness_m=0.010),
    ),
    BodyEntry(
        name="pods", model="streamlined", count=4, station_m=0.140,
        shape=Streamlined(
            length_m=0.080, width_m=0.036, height_m=0.036, nose_length_m=0.012,
            base_diameter_m=0.012, flat_nose_diameter_m=0.030,
        ),
    ),
    BodyEntry(
        name="fins", model="fin", count=4, station_m=0.280,
        shape=Fin(area_m2=0.0030, span_m=0.055, thickness_m=0.002),
    ),
)  # fmt: skip

FRAME = Frame(
    slug="test-frame", name="Test frame", summary="For tests.", uptilt_rad=math.radians(60),
    avionics_W=0.0,
    day=Day(air_temperature_K=265.15, pack_temperature_K=288.15),
    rotors=tuple(
        RotorMount(station_m=0.095, right_m=x, front_m=y)
        for x, y in ((0.085, 0.085), (0.085, -0.085), (-0.085, -0.085), (-0.085, 0.085))
    ),
    motor_seat=MotorSeat(
        patterns=(motor_pattern(16, 16), motor_pattern(16, 19)), bore_m=0.0345, depth_m=0.018,
    ),
    stack_seat=StackSeat(
        patterns=(stack_pattern(30.5),), max_height_m=0.022, max_length_m=0.042,
        max_width_m=0.040, station_m=0.110,
    ),
    camera_seat=CameraSeat(
        widths_m=(0.019, 0.020), max_height_m=0.0205, max_depth_m=0.024,
        uptilt_low_rad=0.5, uptilt_high_rad=1.4, station_m=0.045,
    ),
    wire=Wire(motor_gauge=20, motor_lead_length_m=0.12, pack_gauge=12, pack_lead_length_m=0.09),
    bodies=BODIES,
    bays=(
        PACK_BAY,
        Bay(id="gps", kind="gps", length_m=0.025, width_m=0.025, height_m=0.009,
            station_m=0.075, front_m=-0.020, padding_m=5e-4),
        Bay(id="video", kind="video", length_m=0.036, width_m=0.034, height_m=0.010,
            station_m=0.100, front_m=0.020, padding_m=5e-4),
        Bay(id="receiver", kind="receiver", shape="tube", length_m=0.026, diameter_m=0.016,
            station_m=0.260),
    ),
    hardware=(Item(name="shell", mass_kg=0.110, station_m=0.150),),
    outline=outline_of(BODIES),
    defaults={},
    joints=(
        Joint(
            id="motors", label="motor on its pod", screw="motor", into="aluminium", count=16,
            grip=(Layer(name="base of the pod", length_m=4.4e-3),),
            depth=Layer(name="depth", source="motor.mount_depth"),
        ),
    ),
    keep_outs=(
        KeepOut(name="cable duct", length_m=0.050, width_m=0.006, height_m=0.004, room_m=1e-3,
                station_m=0.190, front_m=0.024),
    ),
    accesses=(
        # The board's left is the frame's right: it stands, its face to the front.
        Access(name="side window", side="right", length_m=0.020, width_m=0.014,
               station_m=0.110, right_m=0.034, front_m=0.005),
        Access(name="card flap", side="front", length_m=0.030, width_m=0.024,
               station_m=0.100, front_m=0.032),
    ),
)  # fmt: skip

PARTS: dict[str, Part] = {
    "motor": Motor(
        id="m", name="28 × 8 motor", mass_kg=0.048, stator_diameter_m=0.028,
        stator_height_m=0.008, kv_rad_s_V=204.0, resistance_ohm=0.04, no_load_current_A=1.6,
        can_diameter_m=0.0335, can_length_m=0.021, mount_pattern=motor_pattern(16, 19),
        max_current_A=45.0, mount_depth_m=0.0045,
    ),
    "prop": Prop(
        id="p", name="5.25 × 8 two-blade", mass_kg=0.0043, diameter_m=0.13335, pitch_m=0.2032,
        blade_count=2, style="slim",
    ),
    "pack": Pack(
        id="k", name="6S 1600 mAh", mass_kg=0.250, cell_count=6, capacity_C=5760.0,
        cell_resistance_ohm=2.5e-3, c_rating=120.0, length_m=0.075, width_m=0.038,
        height_m=0.035,
    ),
    "esc": Esc(
        id="e", name="60 A board", mass_kg=0.016, continuous_A=60.0, burst_A=70.0,
        fet_resistance_ohm=1e-3, max_cells=8, pattern=stack_pattern(30.5), length_m=0.040,
        width_m=0.038, height_m=0.0075,
    ),
    "stack": Stack(
        id="s", name="flight board", mass_kg=0.009, pattern=stack_pattern(30.5),
        length_m=0.037, width_m=0.037, height_m=0.0075,
    ),
    "camera": Camera(
        id="c", name="micro camera", mass_kg=0.009, width_m=0.019, height_m=0.019, depth_m=0.022,
        lens_diameter_m=0.012,
        horizontal_fov_rad=2.18,
    ),
    "gps": Gps(id="g", name="20 mm module", mass_kg=0.008, length_m=0.020, width_m=0.020,
               height_m=0.0065),
    "video": Video(id="v", name="video unit", mass_kg=0.017, length_m=0.033, width_m=0.031,
                   height_m=0.008, card_side="face"),
    "receiver": Receiver(id="r", name="receiver", mass_kg=0.002, length_m=0.018, width_m=0.011,
                         height_m=0.004, band_Hz=2.4e9, antenna_length_m=0.059),
}  # fmt: skip

BUILD = Build(frame=FRAME, parts=PARTS, day=FRAME.day, uptilt_rad=FRAME.uptilt_rad)


def with_part(kind: str, build: Build = BUILD, **changes: Any) -> Build:
    """The build with one part changed."""
    part = dataclasses.replace(build.parts[kind], **changes)  # type: ignore[type-var]
    return dataclasses.replace(build, parts={**build.parts, kind: part})


def without(kind: str, build: Build = BUILD) -> Build:
    """The build without a part."""
    parts = {k: part for k, part in build.parts.items() if k != kind}
    return dataclasses.replace(build, parts=parts)


def with_frame(build: Build = BUILD, **changes: Any) -> Build:
    """The build on a changed frame."""
    return dataclasses.replace(build, frame=dataclasses.replace(build.frame, **changes))
