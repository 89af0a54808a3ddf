"""Fit of parts beside each other, and beside what the frame keeps free of parts."""

from __future__ import annotations

from collections.abc import Iterable

from slipfit.build import Build
from slipfit.checks.verdict import SEVERITY, Verdict
from slipfit.checks.wording import both, fit_verdict, says, state_of
from slipfit.fit.solids import AXES, Gap, Solid, free_of_parts, gaps, pairs_of, solids
from slipfit.parts.kinds import kind_of

# Parts of different places shake against each other, and wires run between them. Common practice,
# no source.
APART_M = 1.0e-3


def judge_apart(build: Build, kind: str | None = None) -> Verdict | None:
    """The nearest two parts of different places, of which one is of a kind where one is named."""
    found = list(gaps(pairs_of(solids(build), kind), APART_M))
    if not found:
        return None
    least = min(found, key=lambda gap: gap.gap_m)
    state = state_of(least.gap_m, APART_M)
    names = f"{_label(least.first)} and {_label(least.second)}"
    subject = names[:1].upper() + names[1:]

    def sentence(system: str) -> str:
        said = says(subject, state, least.gap_m, AXES[least.axis], system)
        return said.replace(" clashes ", " clash ", 1).replace(" is ", " are ", 1)

    return fit_verdict(
        "parts_apart", least.first.kind, "Parts beside each other", state, least.gap_m, sentence,
        f"Parts of different places where the drawing shows them; {both(APART_M)} apart is clear "
        "(common practice).",
        "" if state == "clear" else
        f"{both(APART_M - least.gap_m)} more between them {AXES[least.axis]} would be clear: "
        "choose a smaller one of the two",
    )  # fmt: skip


def judge_keep_outs(build: Build, kind: str | None = None) -> Verdict | None:
    """The part that comes nearest to a keep-out, or deepest into it."""
    frame = build.frame
    if not frame.keep_outs:
        return None
    rooms = {box.name: box.room_m for box in frame.keep_outs}
    parts = [solid for solid in solids(build) if kind in (None, solid.kind)]
    boxes = free_of_parts(frame)
    worst = _worst(
        gaps(((part, box) for box in boxes for part in parts), max(rooms.values())), rooms
    )
    if worst is None:
        return None
    gap, part, name = worst.gap_m, worst.first, worst.second.name
    needed = rooms[name]
    state = state_of(gap, needed)
    label = _label(part)
    return fit_verdict(
        "keep_outs", part.kind, "What stays free", state, gap,
        lambda system: (
            f"{says(label[:1].upper() + label[1:], state, gap, AXES[worst.axis], system)} "
            f"{'with' if state == 'clashes' else 'to'} what stays free: {name}"
        ),
        f"The frame file keeps boxes free of parts; {both(needed)} to this one is clear.",
        "" if state == "clear" else
        f"a {label} that ends {both(needed - gap)} earlier {AXES[worst.axis]} would be clear",
    )  # fmt: skip


def _worst(found: Iterable[Gap], rooms: dict[str, float]) -> Gap | None:
    """The gap of the worst state, and of those the smallest."""

    def order(gap: Gap) -> tuple[int, float]:
        return -SEVERITY[state_of(gap.gap_m, rooms[gap.second.name])], gap.gap_m

    return min(found, key=order, default=None)


def _label(solid: Solid) -> str:
    label = "flight controller" if solid.kind == "stack" else kind_of(solid.kind).label
    return label
