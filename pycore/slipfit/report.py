"""The report of a build: its figures, verdicts, charts and drawings. One call serves the
pre-rendered page, the live page, the command line and the tests."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache, cached_property, partial
from typing import Any

from slipfit import __version__
from slipfit.build import Build
from slipfit.charts.chart import Chart
from slipfit.charts.registry import CHARTS
from slipfit.checks.fit_checks import fit_verdicts
from slipfit.checks.limit import judge
from slipfit.checks.limits import LIMITS
from slipfit.checks.rule import RulesOfPlace, rule_verdicts
from slipfit.checks.verdict import Verdict
from slipfit.drawings.drawing import Drawing
from slipfit.drawings.registry import DRAWINGS, FLOWN
from slipfit.figures.evaluate import Samples, figures
from slipfit.figures.figure import Figure
from slipfit.flight.inputs import sampled_inputs
from slipfit.flight.performance import Performance, performance
from slipfit.library import link_of_build
from slipfit.masses import balance
from slipfit.ondemand import OnDemand
from slipfit.parts.kinds import KINDS
from slipfit.stability import stability

SAMPLES = 64


@dataclass(frozen=True, kw_only=True)
class PartLine:
    """One line of the parts shelf: a part in the build and the worst that is to be said of it."""

    kind: str
    kind_label: str
    part_id: str
    name: str
    mass_kg: float
    count: int
    guessed: bool
    worst: Verdict | None


@dataclass(frozen=True, kw_only=True, eq=False)
class Report:
    """Everything about one build. Whatever of it nobody asks for is not computed: a page that only
    shows a speed does not fly the legs."""

    performance: Performance
    drawn: (
        Callable[[], Samples] | None
    )  # 64 samples of the uncertain inputs, where ranges are asked

    @property
    def build(self) -> Build:
        """The build that it is about."""
        return self.performance.build

    @property
    def ranges(self) -> bool:
        """Whether figures and charts carry their ranges."""
        return self.drawn is not None

    @cached_property
    def link(self) -> str:
        """The share link of the build."""
        return link_of_build(self.build)

    @cached_property
    def figures(self) -> Mapping[str, Figure]:
        """Every figure by its id."""
        return figures(self.performance, self.drawn)

    @cached_property
    def verdicts(self) -> tuple[Verdict, ...]:
        """Fit and limit verdicts, in the order of the registries."""
        return verdicts(self.performance)

    @cached_property
    def charts(self) -> Mapping[str, Chart]:
        """Every chart by its id."""
        p, drawn = self.performance, self.drawn
        return OnDemand({id: _chart(id, p, drawn) for id in CHARTS})

    @cached_property
    def drawings(self) -> Mapping[str, Drawing]:
        """Every drawing by its id."""
        return OnDemand({id: _drawing(id, self.performance) for id in (*DRAWINGS, *FLOWN)})

    @cached_property
    def rules(self) -> tuple[RulesOfPlace, ...]:
        """What the rules of places say of the build."""
        return rule_verdicts(self.performance)

    @cached_property
    def in_short(self) -> Mapping[str, str]:
        """What a person would say aloud of it, by unit system."""
        return OnDemand({s: partial(_in_short, self, s) for s in SYSTEMS})

    @cached_property
    def part_lines(self) -> tuple[PartLine, ...]:
        """The lines of the parts shelf."""
        return tuple(_part_lines(self.build, self.verdicts))


def verdicts(p: Performance, *, flown: bool = True) -> tuple[Verdict, ...]:
    """Fit and limit verdicts of a build, in the order of the registries; without those that need
    a whole flight where many builds are judged at once."""
    limits = (judge(limit, p) for limit in LIMITS if flown or not limit.flown)
    return (*fit_verdicts(p.build), *(v for v in limits if v is not None))


def report(build: Build, *, ranges: bool = False) -> Report:
    """The report of a build; with ranges, from 64 samples of its uncertain inputs as well."""
    p = performance(build)

    @cache
    def drawn() -> Samples:
        inputs, scores = sampled_inputs(build, SAMPLES)
        return performance(build, inputs, p.speeds_m_s), scores

    return Report(performance=p, drawn=drawn if ranges else None)


def _chart(id: str, p: Performance, drawn: Callable[[], Samples] | None) -> Callable[[], Chart]:
    return lambda: CHARTS[id](p, drawn()[0] if drawn else None)


def _drawing(id: str, p: Performance) -> Callable[[], Drawing]:
    if id in FLOWN:
        return lambda: FLOWN[id](p)
    return lambda: DRAWINGS[id](p.build, balance(p.build).station_m, _pressure(p))


def _pressure(p: Performance) -> float | None:
    """Station of the centre of pressure flat out, where there is one."""
    station = float(stability(p).pressure_station_m[0, 0])
    return station if math.isfinite(station) else None


SYSTEMS = ("metric", "imperial")


def _part_lines(build: Build, judged: tuple[Verdict, ...]) -> Iterator[PartLine]:
    for kind in KINDS:
        part = build.parts.get(kind.id)
        if part is None:
            continue
        about = [v for v in judged if v.kind == kind.id]
        worst = max(about, key=lambda v: v.severity, default=None)
        yield PartLine(
            kind=kind.id,
            kind_label=kind.label,
            part_id=part.id,
            name=part.name,
            mass_kg=part.mass_kg,
            count=build.rotor_count if kind.count > 1 else 1,
            guessed=bool(part.guessed),
            worst=worst,
        )


def _in_short(report: Report, system: str) -> str:
    """The worst problem first."""
    found, judged = report.figures, report.verdicts

    def said(id: str) -> str:
        return found[id].range_text(system) or found[id].text(system)

    problems = sorted((v for v in judged if v.severity == 2), key=lambda v: v.family != "fit")
    close = [v for v in judged if v.severity == 1]
    name = report.build.frame.name
    if problems:
        more = len(problems) - 1
        others = (
            f", and {more} other {'thing' if more == 1 else 'things'} must change" if more else ""
        )
        opening = f"{problems[0].sentence(system)}{others}. As it stands, this {name}"
    elif close:
        opening = (
            f"Nothing clashes and nothing is past a limit. {close[0].sentence(system)}. This {name}"
        )
    else:
        opening = f"Every part is clear and every limit is kept. This {name}"
    mass = found["mass_total"].text(system)
    if found["top_speed"].value is None:
        return f"{opening} weighs {mass} and cannot fly: {found['top_speed'].missing}."
    return (
        f"{opening} weighs {mass}, flies {said('top_speed')} flat out at "
        f"{said('motor_current_full')} per motor, and hovers {said('hover_time')} on one pack."
    )


def report_json(r: Report) -> dict[str, Any]:
    """The report as data. Keys are stable and documented under "Command line"; values are SI."""
    return {
        "slipfit": __version__,
        "frame": {"slug": r.build.frame.slug, "name": r.build.frame.name},
        "link": r.link,
        "in_short": r.in_short["metric"],
        "options": {o.id: o.id in r.build.frame.on for o in r.build.frame.options},
        "parts": [
            {
                "kind": line.kind,
                "id": line.part_id,
                "name": line.name,
                "mass_kg": line.mass_kg,
                "count": line.count,
                "guessed": line.guessed,
            }
            for line in r.part_lines
        ],
        "figures": {
            f.id: {
                "label": f.label,
                "value": f.value,
                "low": f.low,
                "high": f.high,
                "text": f.text("metric"),
                "cause": f.cause or f.missing,
                "source": f.source,
            }
            for f in r.figures.values()
        },
        "verdicts": [
            {
                "id": v.id,
                "family": v.family,
                "state": v.state,
                "kind": v.kind,
                "amount": v.amount,
                "sentence": v.sentence_metric,
                "basis": v.basis,
                "fix": v.fix,
            }
            for v in r.verdicts
        ],
        "rules": {
            place.place: [
                {
                    "id": v.id,
                    "state": v.state,
                    "amount": v.amount,
                    "sentence": v.sentence_metric,
                    "basis": v.basis,
                }
                for v in place.verdicts
            ]
            for place in r.rules
        },
        "charts": {
            c.id: {
                "caption": c.caption,
                "x": list(c.x),
                "series": [
                    {
                        "id": s.id,
                        "label": s.label,
                        "values": list(s.values),
                        "low": list(s.low),
                        "high": list(s.high),
                    }
                    for s in c.series
                ],
                "marks": [{"label": m.label, "x": m.x} for m in c.marks],
            }
            for c in r.charts.values()
        },
    }
