"""What the views read from a report, so that they can be tested without computing one."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Protocol

from slipfit.charts.chart import Chart
from slipfit.checks.verdict import Verdict
from slipfit.drawings.drawing import Drawing
from slipfit.figures.figure import Figure


class ShownDay(Protocol):
    """The conditions that the estimates are for."""

    @property
    def air_temperature_K(self) -> float: ...
    @property
    def height_m(self) -> float: ...
    @property
    def relative_humidity(self) -> float: ...
    @property
    def pack_temperature_K(self) -> float: ...
    @property
    def charge(self) -> float: ...


class ShownBuild(Protocol):
    """The part of a build that the views look at."""

    @property
    def day(self) -> ShownDay: ...
    @property
    def uptilt_rad(self) -> float: ...


class ShownPart(Protocol):
    """One line of the parts shelf."""

    @property
    def kind(self) -> str: ...
    @property
    def kind_label(self) -> str: ...
    @property
    def part_id(self) -> str: ...
    @property
    def name(self) -> str: ...
    @property
    def mass_kg(self) -> float: ...
    @property
    def count(self) -> int: ...
    @property
    def guessed(self) -> bool: ...
    @property
    def worst(self) -> Verdict | None: ...


class Shown(Protocol):
    """A report, as far as the page is concerned."""

    @property
    def build(self) -> ShownBuild: ...
    @property
    def figures(self) -> Mapping[str, Figure]: ...
    @property
    def verdicts(self) -> Sequence[Verdict]: ...
    @property
    def charts(self) -> Mapping[str, Chart]: ...
    @property
    def drawings(self) -> Mapping[str, Drawing]: ...
    @property
    def in_short(self) -> Mapping[str, str]: ...
    @property
    def part_lines(self) -> Sequence[ShownPart]: ...
