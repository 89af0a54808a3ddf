"""A small report with every kind of thing in it, invented, for tests of what a reader sees."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

from slipfit import units
from slipfit.charts.chart import Chart, Mark, Series
from slipfit.checks.verdict import Verdict
from slipfit.drawings.drawing import Dimension, Drawing, Outline, Point
from slipfit.figures.figure import Driver, Figure, Step


@dataclass(frozen=True, kw_only=True)
class Day:
    air_temperature_K: float = 265.15
    height_m: float = 350.0
    relative_humidity: float = 0.7
    pack_temperature_K: float = 288.15
    charge: float = 1.0
    wind_m_s: float = 0.0
    pack_flights: int = 0


@dataclass(frozen=True, kw_only=True)
class Build:
    day: Day = field(default_factory=Day)
    uptilt_rad: float = 0.61


@dataclass(frozen=True, kw_only=True)
class PartLine:
    kind: str
    kind_label: str
    part_id: str
    name: str
    mass_kg: float
    count: int = 1
    guessed: bool = False
    worst: Verdict | None = None


CLASH = Verdict(
    id="pack_bay",
    family="fit",
    state="clashes",
    kind="pack",
    subject="pack",
    amount=-0.0024,
    sentence_metric="The pack clashes by 2.4 mm in width.",
    sentence_imperial="The pack clashes by 0.09 in in width.",
    basis="Bay 44 × 34 mm inside, 1.5 mm padding on each side.",
    fix="A pack no wider than 36 mm.",
)
PAST = Verdict(
    id="esc_current",
    family="limit",
    state="past",
    kind="esc",
    subject="ESC",
    amount=1.2,
    sentence_metric="The ESC runs past its rating: 1.20 × 40 A for each channel.",
    sentence_imperial="The ESC runs past its rating: 1.20 × 40 A for each channel.",
    basis="Continuous rating of the data sheet.",
    fix="An ESC of at least 50 A for each channel.",
)
NEAR = Verdict(
    id="tip_mach",
    family="limit",
    state="near",
    kind="prop",
    subject="propeller tips",
    amount=0.97,
    sentence_metric="The propeller tips are near Mach 0.72: 0.97 of it.",
    sentence_imperial="The propeller tips are near Mach 0.72: 0.97 of it.",
    basis="Above Mach 0.72 the section tables end.",
)
SNUG = Verdict(
    id="gps_bay",
    family="fit",
    state="snug",
    kind="gps",
    subject="GPS module",
    amount=0.0004,
    sentence_metric="The GPS module is snug: 0.4 mm left in height.",
    sentence_imperial="The GPS module is snug: 0.02 in left in height.",
    basis="Bay 25 × 25 × 9 mm.",
)
CLEAR = Verdict(
    id="stack_holes",
    family="fit",
    state="clear",
    kind="stack",
    subject="stack",
    amount=0.0,
    sentence_metric="The stack's holes 30.5 × 30.5 mm meet the frame's.",
    sentence_imperial="The stack's holes 30.5 × 30.5 mm meet the frame's.",
    basis="Side of the square of holes.",
)

TOP_SPEED = Figure(
    id="top_speed",
    label="Top speed",
    display=units.SPEED,
    value=79.2,
    low=75.3,
    high=82.8,
    cause="limited by the pack's sag",
    steps=(
        Step(
            words="At full throttle, thrust along the path equals drag.",
            formula="T cos α = D(V)",
            numbers="31.2 N = 31.2 N at 79.2 m/s",
            source="Momentum balance in steady level flight.",
        ),
        Step(
            words="The pack gives 22.1 V under 158 A.", numbers="25.2 V − 158 A × 19.6 mΩ = 22.1 V"
        ),
    ),
    drivers=(
        Driver(label="drag of the body", swing_si=2.9),
        Driver(label="pack resistance", swing_si=-1.8),
        Driver(label="propeller pitch", swing_si=1.1),
        Driver(label="air density", swing_si=0.3),
    ),
    source="Trim of the whole frame, Methods page.",
)
NO_HOVER = Figure(
    id="hover_time",
    label="Hover time",
    display=units.DURATION,
    value=None,
    missing="cannot hover: too heavy by 12 %",
)
WINDING = Figure(
    id="winding",
    label="Winding",
    display=units.TEMPERATURE,
    value=361.15,
    low=350.15,
    high=373.15,
    cause="after two minutes flat out",
    drivers=(Driver(label="air over the motor", swing_si=9.0),),
)
CURRENT = Figure(
    id="motor_current_full",
    label="Each motor, flat out",
    display=units.CURRENT,
    value=39.6,
    low=34.0,
    high=46.1,
    cause="in level flight at top speed",
)

_SPEEDS = tuple(2.0 * k for k in range(41))


def _power(v: float) -> float:
    return 380.0 - 9.0 * v + 0.11 * v**2 + 0.0052 * v**3


LEVEL_FLIGHT = Chart(
    id="level_flight",
    title="Level flight",
    caption="Power is least at 112 km/h and reaches what the pack can give at 285 km/h.",
    shape="curves",
    x_label="speed",
    x_display=units.SPEED,
    x=_SPEEDS,
    series=(
        Series(
            id="power",
            label="power from the pack",
            display=units.POWER,
            values=tuple(_power(v) for v in _SPEEDS),
            low=tuple(0.9 * _power(v) for v in _SPEEDS),
            high=tuple(1.1 * _power(v) for v in _SPEEDS),
        ),
        Series(
            id="current",
            label="each motor",
            display=units.CURRENT,
            values=tuple(_power(v) / 80 for v in _SPEEDS),
        ),
        Series(
            id="esc",
            label="ESC rating",
            display=units.CURRENT,
            values=tuple(40.0 for v in _SPEEDS),
        ),
        Series(
            id="throttle",
            label="throttle",
            display=units.PERCENT,
            values=tuple(None if v > 78 else 0.2 + v / 100 for v in _SPEEDS),
        ),
    ),
    marks=(
        Mark(label="goes furthest", x=36.0),
        Mark(label="ESC rating", x=74.0),
        Mark(label="full throttle", x=79.2),
    ),
)
DRAG_SPLIT = Chart(
    id="drag_split",
    title="Drag by cause",
    caption="At top speed skin friction of the shell is half of all drag.",
    shape="layers",
    x_label="speed",
    x_display=units.SPEED,
    x=_SPEEDS,
    series=tuple(
        Series(
            id=name,
            label=name,
            display=units.FORCE,
            values=tuple(c * v**2 for v in _SPEEDS),
        )
        for name, c in (
            ("skin of the shell", 2.4e-3),
            ("base", 6e-4),
            ("fins", 7e-4),
            ("motor pods", 5e-4),
            ("arms", 3e-4),
            ("camera window", 1e-4),
        )
    ),
)
MASSES = Chart(
    id="masses",
    title="Where the mass is",
    caption="The pack is a quarter of the mass.",
    shape="bars",
    x_label="Part",
    names=("pack", "four motors", "shell", "ESC"),
    series=(
        Series(
            id="mass",
            label="Mass",
            display=units.MASS,
            values=(0.245, 0.21, 0.18, None),
            low=(0.24, 0.20, 0.15, None),
            high=(0.25, 0.22, 0.21, None),
        ),
    ),
)


def _shell() -> tuple[tuple[float, float], ...]:
    xs = [k / 40 * 0.31 for k in range(41)]
    r = [0.034 * math.sin(math.pi * min(x / 0.31, 1.0) ** 0.7) ** 0.8 for x in xs]
    return tuple(zip(xs, r, strict=True)) + tuple(
        (x, -y) for x, y in reversed(list(zip(xs, r, strict=True)))
    )


def _box(x1: float, x2: float, h: float, y: float = 0.0) -> tuple[tuple[float, float], ...]:
    return ((x1, y - h), (x2, y - h), (x2, y + h), (x1, y + h))


SIDE = Drawing(
    id="side",
    title="Side elevation",
    caption="Nose to the left. The pack clashes with the shell by 2.4 mm in width.",
    left=-0.02,
    top=-0.16,
    right=0.33,
    bottom=0.16,
    outlines=(
        Outline(role="axis", points=((-0.02, 0.0), (0.33, 0.0)), closed=False),
        Outline(role="shell", points=_shell(), name="Shell, 310 mm long"),
        Outline(role="arm", points=_box(0.15, 0.165, 0.085), name="Arms"),
        Outline(
            role="fin", points=((0.25, 0.02), (0.31, 0.06), (0.325, 0.06), (0.31, 0.01)), name="Fin"
        ),
        Outline(
            role="fin",
            points=((0.25, -0.02), (0.31, -0.06), (0.325, -0.06), (0.31, -0.01)),
            name="Fin",
        ),
        Outline(
            role="disk", points=((0.13, 0.03), (0.13, 0.16)), name="Propeller disk", closed=False
        ),
        Outline(
            role="disk", points=((0.13, -0.03), (0.13, -0.16)), name="Propeller disk", closed=False
        ),
        Outline(role="bay", points=_box(0.11, 0.2, 0.018), name="Pack bay, 90 × 36 mm"),
        Outline(
            role="part",
            points=_box(0.115, 0.19, 0.0204),
            name="Pack, 75 × 41 mm, clashes by 2.4 mm",
        ),
        Outline(
            role="clash",
            points=((0.115, 0.018), (0.19, 0.018), (0.19, 0.0204), (0.115, 0.0204)),
            name="Clash, 2.4 mm",
        ),
        Outline(role="part", points=_box(0.02, 0.045, 0.01), name="Camera"),
    ),
    points=(
        Point(role="balance", x=0.148, y=0.0, label="balances 148 mm from the nose"),
        Point(role="pressure", x=0.19, y=0.0, label="centre of pressure"),
    ),
    dimensions=(
        Dimension(x1=0.0, y1=0.1, x2=0.31, y2=0.1, text_metric="310 mm", text_imperial="12.2 in"),
        Dimension(
            x1=0.2, y1=-0.018, x2=0.2, y2=0.018, text_metric="36 mm", text_imperial="1.42 in"
        ),
        Dimension(
            x1=0.195,
            y1=0.018,
            x2=0.195,
            y2=0.0204,
            text_metric="clashes by 2.4 mm",
            text_imperial="clashes by 0.09 in",
            clash=True,
        ),
    ),
)

SHORT = (
    "The pack clashes by 2.4 mm; with that mended it would fly 271–298 km/h and draw 1.2 times "
    "what the ESC is rated for."
)


@dataclass(frozen=True, kw_only=True)
class StandIn:
    build: Build = field(default_factory=Build)
    link: str = "#b1;quillback-5"
    figures: dict[str, Figure] = field(
        default_factory=lambda: {f.id: f for f in (TOP_SPEED, NO_HOVER, WINDING, CURRENT)}
    )
    verdicts: tuple[Verdict, ...] = (CLEAR, SNUG, CLASH, NEAR, PAST)
    charts: dict[str, Chart] = field(
        default_factory=lambda: {c.id: c for c in (LEVEL_FLIGHT, DRAG_SPLIT, MASSES)}
    )
    drawings: dict[str, Drawing] = field(default_factory=lambda: {SIDE.id: SIDE})
    in_short: dict[str, str] = field(default_factory=lambda: {"metric": SHORT, "imperial": SHORT})
    part_lines: tuple[PartLine, ...] = (
        PartLine(
            kind="motor",
            kind_label="motor",
            count=4,
            part_id="m1",
            name="28 × 8 mm, 1950 rpm/V",
            mass_kg=0.052,
        ),
        PartLine(
            kind="prop",
            kind_label="propeller",
            part_id="p1",
            name="5.25 × 8 in, two blades",
            mass_kg=0.0048,
            worst=NEAR,
        ),
        PartLine(
            kind="pack",
            kind_label="pack",
            part_id="k1",
            name="6 cells, 1600 mAh",
            mass_kg=0.245,
            worst=CLASH,
        ),
        PartLine(
            kind="esc",
            kind_label="ESC",
            part_id="e1",
            name="40 A, four channels",
            mass_kg=0.016,
            worst=PAST,
            guessed=True,
        ),
        PartLine(
            kind="gps",
            kind_label="GPS module",
            part_id="g1",
            name="20 × 20 × 8 mm",
            mass_kg=0.009,
            worst=SNUG,
        ),
    )
