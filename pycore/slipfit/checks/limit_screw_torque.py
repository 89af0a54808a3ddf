"""Tightening torque against what the weakest thread or screw of the frame's joints holds."""

from __future__ import annotations

from slipfit.build import Build
from slipfit.checks.limit import Asked, LimitKind
from slipfit.fit.screws import ScrewFit, screw_fits
from slipfit.flight.performance import Performance
from slipfit.units import TORQUE


def weakest(build: Build) -> ScrewFit | None:
    """The joint that comes nearest to its torque's limit."""
    fits = [fit for fit in screw_fits(build) if fit.held_Nm > 0.0]
    return min(fits, key=lambda fit: fit.margin, default=None)


def _asked(p: Performance) -> Asked | None:
    fit = weakest(p.build)
    return None if fit is None else Asked(value=fit.torque_Nm, allowed=fit.held_Nm)


def _fix(p: Performance, asked: Asked) -> str:
    fit = weakest(p.build)
    assert fit is not None
    gives = f"{fit.thread.name} screw" if fit.screw_limits else f"thread in {fit.hold.words}"
    return (
        f"{fit.joint.label}: the {gives} gives first; {TORQUE.text(asked.allowed / 2, 'metric')} "
        f"({TORQUE.text(asked.allowed / 2, 'imperial')}) leaves it half of what it holds"
    )


LIMIT = LimitKind(
    id="screw_torque",
    kind="",
    subject="screw torque",
    when="in the weakest joint, on a slippery surface",
    display=TORQUE,
    asked=_asked,
    basis="the frame file's torque, or the one worked out, against the pull that strips the thread "
    "or stretches the screw, at the low end of the friction range; shear strengths from memory",
    fix=_fix,
)
