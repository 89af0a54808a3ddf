"""Slips that people make with packs and motors: named with the field, the rule and the slip, and
what was typed stays in the form."""

from __future__ import annotations

import pytest

from assets import site_files
from site_builds import DOCS, shipped
from slipfit.api import call, use_site
from slipfit.library import link_of_build

PACK = {
    "name": "mine", "mass": "250 g", "cell_count": "6", "capacity": "1600 mAh", "c_rating": "100",
    "length": "75 mm", "width": "36 mm", "height": "32 mm",
}  # fmt: skip
MOTOR = {
    "name": "mine", "stator_diameter": "28 mm", "stator_height": "8 mm", "kv": "1950 rpm/V",
    "mount_pattern": "19x19",
}  # fmt: skip


def told(kind: str, fields: dict[str, str]):
    use_site(site_files(DOCS))
    answer = call("own_part", {"link": link_of_build(shipped()), "kind": kind, "fields": fields})
    assert answer["ok"], answer
    return answer["result"]


@pytest.mark.parametrize("kind", ["pack", "motor"])
def test_what_is_right_makes_a_link(kind):
    assert "own" in told(kind, PACK if kind == "pack" else MOTOR)["link"]


@pytest.mark.parametrize(
    ("kind", "field", "typed", "said"),
    [
        ("pack", "capacity", "-1600 mAh", "capacity must be 50 to 60000 mAh, got -1600 mAh"),
        ("pack", "cell_count", "0", "cell_count must be 1 to 14, got 0"),
        ("motor", "kv", "19500 rpm/V",
         "kv must be 50 to 12000 rpm/V, got 19500 rpm/V; did you mean 1950 rpm/V?"),
        ("motor", "kv", "19500", "did you mean 1950 rpm/V?"),
        ("pack", "capacity", "1800 Ah",
         "capacity must be 50 to 60000 mAh, got 1800 Ah; did you mean 1800 mAh?"),
        ("pack", "capacity", "1800 V", "capacity must carry a unit of charge"),
        ("pack", "mass", "250 mm", "mass must carry a unit of mass"),
        ("motor", "stator_diameter", "28 in",
         "stator_diameter must be 6 to 120 mm, got 28 in; did you mean 28 mm?"),
        ("motor", "resistance", "38 ohm",
         "resistance must be 1 to 5000 mohm, got 38 ohm; did you mean 38 mohm?"),
        ("pack", "cell_resistance", "3", None),  # a bare number is in the unit beside it
    ],
)  # fmt: skip
def test_slip_is_named_and_nothing_typed_is_lost(kind, field, typed, said):
    fields = {**(PACK if kind == "pack" else MOTOR), field: typed}
    result = told(kind, fields)
    if said is None:
        assert "link" in result
        return
    messages = {error["field"]: error["message"] for error in result["errors"]}
    assert said in messages[field]
    tree = str(result["tree"])
    for value in fields.values():
        assert value in tree
