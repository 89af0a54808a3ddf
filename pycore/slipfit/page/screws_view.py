"""The table of screws: what to buy, how far it engages, how tight, what gives first."""

from __future__ import annotations

from collections.abc import Sequence

from slipfit.checks.fit_screws import screw_name, screw_verdict
from slipfit.fit.screws import ScrewFit
from slipfit.markup import Tree, el
from slipfit.page.marks import capital, state_mark
from slipfit.page.table import cell, table_figure
from slipfit.units import LENGTH_MM, TORQUE

LOCKS = {
    "fluid": "One small drop of thread-lock of the removable sort.",
    "itself": "None: the nut locks itself. A used one does so less each time.",
    "none": "None.",
}


def screws_table(fits: Sequence[ScrewFit], system: str) -> Tree:
    """Every joint of the build."""
    if not fits:
        return el("p", "This frame's file names no screws.", class_="sf-quiet-line")
    head = ("Where", "Screw", "Thread it engages", "Tighten to", "Before it gives", "Thread-lock")
    rows = [el("tbody", *(_row(fit, system) for fit in fits))]
    friction = (
        "Torques scatter by 30 % and more, because friction does: the smaller numbers give the "
        "same clamp on a slippery and on a rough surface. Shear strengths of the threads are "
        "remembered, not measured."
    )
    return table_figure(
        "screws", "Screws of this build", head, rows, csv=True,
        under=el("p", friction, class_="sf-quiet-line"),
    )  # fmt: skip


def _row(fit: ScrewFit, system: str) -> Tree:
    def mm(length_m: float) -> str:
        return LENGTH_MM.text(length_m, system)

    joint, verdict = fit.joint, screw_verdict(fit)
    passed = " and ".join(f"{name} {mm(length)}" for name, length in fit.layers if length)
    gives = "the screw gives first" if fit.screw_limits else f"{fit.hold.words} gives first"
    torque = TORQUE.text(fit.torque_Nm, system)
    span = f"{TORQUE.number(fit.low_Nm, system)} to {TORQUE.text(fit.high_Nm, system)}"
    mend = capital(verdict.fix) + "." if verdict.fix else None
    return el(
        "tr",
        cell(
            capital(joint.label),
            f"Passes {passed}, into {fit.hold.words}.",
            tag="th",
            scope="row",
        ),
        cell(
            f"{joint.count} × {screw_name(fit)}",
            f"{capital(joint.head)} head, {joint.strength}. Key {fit.key_mm:g} mm.",
            class_="sf-list-nowrap",
        ),
        cell(
            el("span", state_mark(verdict.severity), f"{fit.state}, {mm(fit.engagement_m)}"),
            f"At least {mm(fit.least_m)}, wanted {mm(fit.wanted_m)}.",
            mend,
        ),
        cell(torque, span, class_="sf-list-nowrap"),
        cell(f"{fit.margin:.1f} ×", gives),
        cell(LOCKS[fit.hold.lock], fit.hold.note),
        data_joint=joint.id,
    )
