"""The fit checks, one record each. A new check is one function in a file and one line here."""

from __future__ import annotations

from typing import Final

from slipfit.build import Build
from slipfit.checks import (
    fit_access,
    fit_antenna,
    fit_board,
    fit_camera,
    fit_holes,
    fit_motor,
    fit_prop,
    fit_screws,
    fit_space,
)
from slipfit.checks.check import FitCheck
from slipfit.checks.fit_bay import bay_judge
from slipfit.checks.verdict import Verdict
from slipfit.ondemand import kept_for_latest

_PLACED: Final = ("esc", "stack", "camera", "gps", "video", "receiver")
FIT_CHECKS: Final = (
    FitCheck(id="pack_bay", kind="pack", label="pack in its bay",
             judge=bay_judge("pack_bay", "pack", "Pack")),
    FitCheck(id="esc_holes", kind="esc", label="ESC holes on the stack seat",
             judge=fit_holes.board_judge("esc_holes", "esc", "ESC holes")),
    FitCheck(id="esc_board", kind="esc", label="ESC board on the stack seat",
             judge=fit_board.board_judge("esc_board", "esc", "ESC board")),
    FitCheck(id="stack_holes", kind="stack", label="flight controller holes on the stack seat",
             judge=fit_holes.board_judge("stack_holes", "stack", "Flight controller holes")),
    FitCheck(id="stack_board", kind="stack", label="flight controller board on the stack seat",
             judge=fit_board.board_judge("stack_board", "stack", "Flight controller board")),
    FitCheck(id="stack_height", kind="stack", label="height of the stack",
             judge=fit_board.judge_stack_height, also=("esc",)),
    FitCheck(id="motor_holes", kind="motor", label="motor holes on the seat",
             judge=fit_holes.judge_motor_holes),
    FitCheck(id="motor_fairing", kind="motor", label="motor can in the fairing",
             judge=fit_motor.judge_motor_bore),
    FitCheck(id="motor_depth", kind="motor", label="propeller above the fairing's mouth",
             judge=fit_motor.judge_motor_depth),
    FitCheck(id="prop_tips", kind="prop", label="propeller tips to each other",
             judge=fit_prop.judge_prop_tips),
    FitCheck(id="prop_body", kind="prop", label="propeller tips to the body",
             judge=fit_prop.judge_prop_body),
    FitCheck(id="prop_bore", kind="prop", label="propeller on the motor's shaft",
             judge=fit_prop.judge_prop_bore),
    FitCheck(id="camera_cage", kind="camera", label="camera in its cage",
             judge=fit_camera.judge_camera_cage),
    FitCheck(id="camera_room", kind="camera", label="camera in the nose",
             judge=fit_camera.judge_camera_room),
    FitCheck(id="camera_uptilt", kind="camera", label="camera's uptilt in its cage",
             judge=fit_camera.judge_camera_uptilt),
    FitCheck(id="gps_bay", kind="gps", label="GPS module in its bay",
             judge=bay_judge("gps_bay", "gps", "GPS module")),
    FitCheck(id="video_bay", kind="video", label="video unit in its bay",
             judge=bay_judge("video_bay", "video", "Video unit")),
    FitCheck(id="receiver_bay", kind="receiver", label="receiver in its bay",
             judge=bay_judge("receiver_bay", "receiver", "Receiver")),
    FitCheck(id="receiver_antenna", kind="receiver", label="receiver's antenna in the body",
             judge=fit_antenna.judge_receiver_antenna),
    FitCheck(id="parts_apart", kind="pack", label="parts of different places beside each other",
             judge=fit_space.judge_apart, also=_PLACED, about=fit_space.judge_apart),
    FitCheck(id="keep_outs", kind="pack", label="parts beside what stays free",
             judge=fit_space.judge_keep_outs, also=_PLACED, about=fit_space.judge_keep_outs),
    FitCheck(id="usb_access", kind="stack", label="USB socket through an opening",
             judge=fit_access.judge_usb),
    FitCheck(id="card_access", kind="video", label="card slot through an opening",
             judge=fit_access.judge_card),
    FitCheck(id="screws", kind="motor", label="screws in their threads",
             judge=fit_screws.judge_screws, also=("esc", "stack", "camera", "")),
)  # fmt: skip


def fit_verdicts(build: Build, kind: str | None = None) -> tuple[Verdict, ...]:
    """Fit verdicts of a build in the order of the registry, of one kind of part or of all."""
    if kind is None:
        return _of_all_kinds(build)
    found = (
        check.about(build, kind) if check.about else check.judge(build)
        for check in FIT_CHECKS
        if kind == check.kind or kind in check.also
    )
    return tuple(v for v in found if v is not None and v.kind == kind)


@kept_for_latest
def _of_all_kinds(build: Build) -> tuple[Verdict, ...]:
    found = (check.judge(build) for check in FIT_CHECKS)
    return tuple(v for v in found if v is not None)
