"""The table of effects, and that it comes after everything else of a page."""

from __future__ import annotations

import pytest

from assets import site_files
from site_builds import DOCS, altered, shipped
from slipfit.api import call, use_site
from slipfit.effects import effects
from slipfit.library import link_of_build
from slipfit.markup import to_html
from slipfit.page.effects_view import effects_table


@pytest.fixture(scope="module")
def table() -> str:
    return to_html(effects_table(effects(shipped()), "metric"))


def test_table_has_a_line_for_each_change_and_differences_to_the_first(table):
    assert table.count("<tr>") == 8
    assert table.count('scope="row"') == 7
    assert "As it is" in table and "Two more cells" in table
    first = table[table.index("As it is") : table.index("Two more cells")]
    assert "<small>" not in first
    cells = table[table.index("Two more cells") : table.index("An inch more pitch")]
    assert "(+" in cells and "Cell count for the ESC past, 1.33 ×" in cells


def test_table_speaks_imperial():
    assert "mph" in to_html(effects_table(effects(shipped()), "imperial"))


def test_build_that_cannot_fly_has_a_table_without_values():
    said = to_html(effects_table(effects(altered("motor", mass_kg=2.0)), "metric"))
    assert said.count("no value") >= 10
    assert "nan" not in said.lower().replace("finance", "")


def test_page_gets_late_places_only_when_it_asks_for_them():
    use_site(site_files(DOCS))
    link = link_of_build(shipped())
    asked = {"link": link, "slots": ["effects", "flight"]}
    assert set(call("page", asked)["result"]["slots"]) == {"flight"}
    late = call("page", {**asked, "late": True})["result"]["slots"]
    assert set(late) == {"effects", "flight"}
