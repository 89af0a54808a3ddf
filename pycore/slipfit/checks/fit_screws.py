"""Fit of screws: a stocked length must engage enough thread and end before it meets something.

A frame has many joints; the verdict is that of the worst, the table of screws has them all.
"""

from __future__ import annotations

from slipfit.build import Build
from slipfit.checks.verdict import SEVERITY, Verdict
from slipfit.checks.wording import both, fit_verdict, size
from slipfit.fit.screws import END_GAP_M, ScrewFit, screw_fits


def judge_screws(build: Build) -> Verdict | None:
    """The joint whose screws fit worst."""
    fits = screw_fits(build)
    if not fits:
        return None
    worst = max(fits, key=lambda fit: (SEVERITY[fit.state], -fit.gap_m))
    return screw_verdict(worst)


def screw_verdict(fit: ScrewFit) -> Verdict:
    """The verdict of one joint."""
    name = f"{fit.joint.label}, {screw_name(fit)}"

    def sentence(system: str) -> str:
        if fit.state == "clashes":
            return f"Screws clash by {size(fit.gap_m, system)}: {name}, {_reason(fit, system)}"
        return (
            f"Screws are {fit.state}: {name} engages {size(fit.engagement_m, system)} of thread, "
            f"{size(fit.end_gap_m, system)} left beyond its end"
        )

    passed = ", ".join(f"{layer} {both(length)}" for layer, length in fit.layers if length)
    return fit_verdict(
        "screws", fit.kind, "Screws", fit.state, fit.gap_m, sentence,
        f"Passes {passed}; turns into {fit.hold.words}, {both(fit.depth_m)} of thread. Wanted are "
        f"{both(fit.wanted_m)} engaged, at least {both(fit.least_m)} (common practice), and "
        f"{both(END_GAP_M)} before its end meets something.",
        "" if fit.state == "clear" else _fix(fit),
    )  # fmt: skip


def screw_name(fit: ScrewFit) -> str:
    """A screw as shops name it: `M3 × 8 mm`, millimetres in either system of units."""
    return f"{fit.thread.name} × {fit.length_m * 1e3:g} mm"


def _reason(fit: ScrewFit, system: str) -> str:
    if fit.gap_m < 0 and fit.engagement_m >= fit.least_m - 1e-9:
        return "reaches that much too far, and the next shorter one would hold too little"
    return (
        f"engages {size(fit.engagement_m, system)} of thread where "
        f"{size(fit.least_m, system)} are the least"
    )


def _fix(fit: ScrewFit) -> str:
    if fit.depth_m - END_GAP_M < fit.least_m and fit.joint.room_m == 0.0:
        return f"a thread of {both(fit.least_m + END_GAP_M)} or deeper would hold"
    over = fit.length_m - fit.grip_m - fit.depth_m - fit.joint.room_m + END_GAP_M
    if over > 1e-9 and fit.engagement_m >= fit.least_m:
        return f"washers of {both(over)} under the heads, or a screw cut to length, would be clear"
    return "a screw cut from a longer one, or a thinner washer, would hold more"
