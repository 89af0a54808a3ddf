"""The api answers every example natively, and whatever else it is sent: it never raises, and what
it says is JSON. The same list is asked in a real browser by `test_native_equals_browser.py`."""

from __future__ import annotations

import json
import math
import re
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

import assets
from api_examples import EXAMPLES, HEAVY, KEPT_PACK, LINK, OWN_PACK, SLOTS
from site_builds import DOCS
from slipfit import api, page
from slipfit.errors import ValidityError
from slipfit.parts.kinds import KINDS

REFUSED = {
    "an unknown figure": ("figure", "no figure 'top_sped'; did you mean 'top_speed'"),
    "a swap for nothing": ("motor", "no motor 'm28-195'; did you mean 'm28-1950'"),
    "a choice that there is not": ("key", "no propeller 'p5' to choose"),
    "a place that there is not": ("slots", "page: no place 'valu'; did you mean 'value'"),
    "a unit system that there is not": ("system", "no unit system 'troy'"),
    "a kind that there is not": (None, "no kind of part 'wing'"),
    "wrong types": ("link", "api: link must be a text, got int"),
    "a payload that is no table": (None, "api: the payload must be a table, got list"),
    "an unknown call": (None, "api: no call 'pages'; did you mean 'page'"),
}


@pytest.fixture(scope="module", autouse=True)
def site() -> None:
    api.use_site(assets.site_files(DOCS))


def asked(name: str, payload: Any) -> dict[str, Any]:
    """The answer by way of JSON, as the worker gets it."""
    return json.loads(api.call_json(name, json.dumps(payload)))


def well_formed(answer: dict[str, Any]) -> None:
    """One of the two documented shapes, JSON without NaN, and no fault of ours."""
    json.dumps(answer, allow_nan=False)
    if answer["ok"]:
        assert set(answer) == {"ok", "result"} and isinstance(answer["result"], dict)
        return
    assert set(answer) == {"ok", "error"}
    error = answer["error"]
    assert set(error) == {"kind", "message", "field", "low", "high"}
    assert error["kind"] != "fault", error["message"]
    assert error["message"] and len(error["message"]) < 2000


def test_every_call_of_the_api_is_among_the_examples() -> None:
    assert {name for name, _ in EXAMPLES.values()} >= set(api.CALLS)


@pytest.mark.parametrize("example", EXAMPLES)
def test_example_is_answered(example: str) -> None:
    name, payload = EXAMPLES[example]
    answer = asked(name, payload)
    well_formed(answer)
    if example in REFUSED:
        field, message = REFUSED[example]
        assert not answer["ok"]
        assert message in answer["error"]["message"]
        assert answer["error"]["field"] == field or field is None
    else:
        assert answer["ok"], answer["error"]


QUICK = [example for example, (name, _) in EXAMPLES.items() if name != "choices"]


@pytest.mark.parametrize("example", [*QUICK, "choices of gps"])
def test_example_is_answered_the_same_again(example: str) -> None:
    """Nothing is kept from one question to the next that could change an answer."""
    name, payload = EXAMPLES[example]
    assert asked(name, payload) == asked(name, payload)


# ------------------------------------------------------------------------------ what answers hold


def result(name: str, **payload: Any) -> dict[str, Any]:
    answer = asked(name, payload)
    assert answer["ok"], answer["error"]
    found: dict[str, Any] = answer["result"]
    return found


def test_catalogue_lists_frames_and_parts() -> None:
    found = result("catalogue")
    assert "quillback-5" in {frame["slug"] for frame in found["frames"]}
    assert set(found["parts"]) == {kind.id for kind in KINDS}
    assert sum(len(ids) for ids in found["parts"].values()) >= 30


def test_page_holds_what_was_asked_for_and_nothing_else() -> None:
    found = result("page", link=LINK, slots=["value:top_speed", "shelf"])
    assert set(found["slots"]) == {"value:top_speed", "shelf"}
    assert set(found["figures"]) == {"top_speed"}  # those that the page shows
    assert found["messages"] == [] and found["changes"] == {}
    assert found["frame"] == "quillback-5" and found["link"].startswith("#b1;quillback-5;")


def test_page_says_what_changed_since_the_previous_figures() -> None:
    slots = ["value:mass_total", "note:top_speed"]
    usual = result("page", link=LINK, slots=slots)
    same = result("page", link=LINK, slots=slots, previous=usual["figures"])
    assert same["changes"] == {}
    link = result("swap", link=LINK, kind="pack", part="k6-2200")["link"]
    heavier = result("page", link=link, slots=slots, previous=usual["figures"])
    gained = heavier["figures"]["mass_total"] - usual["figures"]["mass_total"]
    assert re.fullmatch(rf"\+{gained * 1000:.0f}\sg", heavier["changes"]["mass_total"])


def test_swap_own_part_and_day_make_links_that_open_to_them() -> None:
    link = result("swap", link=LINK, kind="motor", part="m28-1700")["link"]
    assert ";motor=m28-1700;" in link
    link = result("own_part", link=link, kind="pack", fields=OWN_PACK)["link"]
    link = result("day", link=link, fields={"air": "-20 C"})["link"]
    found = result("report", link=link)
    parts = {part["kind"]: part for part in found["parts"]}
    assert parts["motor"]["id"] == "m28-1700"
    assert parts["pack"]["name"] == "ours"
    assert parts["pack"]["mass_kg"] == pytest.approx(0.248)
    assert found["messages"] == [] and found["link"] == link


def test_faults_of_an_own_part_come_with_their_fields_and_the_form() -> None:
    found = result("own_part", link=LINK, kind="pack", fields={**OWN_PACK, "mass": "heavy"})
    assert "link" not in found
    assert [error["field"] for error in found["errors"]] == ["mass"]
    assert "must be a number with a unit" in found["errors"][0]["message"]
    assert "heavy" in json.dumps(found["tree"])


def test_choices_offer_every_part_of_the_kind_once() -> None:
    known = result("catalogue")["parts"]
    current = {part["kind"]: part["id"] for part in result("report", link=LINK)["parts"]}
    for kind in KINDS:
        tree = json.dumps(result("choices", link=LINK, kind=kind.id)["tree"])
        offered = re.findall(r'"data-swap-part": "([^"]+)"', tree)
        # the part of the build itself stands in the list too, but is nothing to swap to
        assert {*offered, current[kind.id]} == set(known[kind.id]), kind.id
        assert len(offered) == len(set(offered))


def test_choices_in_stages_end_as_those_that_come_at_once() -> None:
    """Propellers come by their fit, then one by one: each as it stands in the whole list."""

    def rows(tree: Any) -> dict[str, Any]:
        found = {}
        for node in tree[2:] if isinstance(tree, list) else ():
            if isinstance(node, list):
                key = node[1].get("data-choice")
                found.update({key: node} if key else rows(node))
        return found

    asked = {"link": LINK, "kind": "prop"}
    whole = rows(result("choices", **asked)["tree"])
    staged = result("choices", **asked, staged=True)
    assert "come one by one" in json.dumps(staged["tree"])
    assert list(rows(staged["tree"])) == staged["rest"]
    assert sorted(staged["rest"]) == sorted(whole)
    assert staged["rest"][0] == "p525-80-2"  # itself; then its likes
    assert staged["rest"][1:4] == ["p525-75-3", "p500-90-2", "p525-70-2"]
    judged = {key: result("judged_choice", **asked, key=key)["tree"] for key in staged["rest"][:4]}
    for key, row in judged.items():
        assert row == whole[key]
        assert row != rows(staged["tree"])[key]
    assert result("choices", link=LINK, kind="motor", staged=True)["rest"] == []


def test_a_build_that_cannot_fly_is_an_answer_not_a_fault() -> None:
    found = result("report", link=HEAVY, ranges=True)
    assert found["figures"]["top_speed"]["value"] is None
    assert "does not hold the weight" in found["figures"]["top_speed"]["cause"]
    assert found["figures"]["mass_total"]["value"] > 4.0
    assert "cannot fly" in found["in_short"]
    tree = json.dumps(result("choices", link=HEAVY, kind="motor")["tree"])
    assert "cannot fly" in tree


def test_texts_of_a_stranger_stay_texts() -> None:
    """A name from a link comes back as a text node, with nothing done to it and nothing added."""
    evil = "<img src=x onerror=alert(1)>"
    link = result("own_part", link=LINK, kind="pack", fields={**OWN_PACK, "name": evil})["link"]
    assert "<" not in link
    found = result("page", link=link, slots=["shelf"])

    def texts(tree: Any) -> list[str]:
        if isinstance(tree, str):
            return [tree]
        return [text for child in tree[2:] for text in texts(child)]

    assert any(evil in text for text in texts(found["slots"]["shelf"]))


# ------------------------------------------------------------------------------ hostile

ANYTHING = st.recursive(
    st.none()
    | st.booleans()
    | st.integers(-(10**30), 10**30)
    | st.floats(allow_nan=True, allow_infinity=True)
    | st.text(max_size=40)
    | st.just("x" * 100_000)
    | st.sampled_from([LINK, "#b1;", "#b9;q", "quillback-5", "top_speed", "motor", "metric"]),
    lambda inner: (
        st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=12), inner, max_size=4)
    ),
    max_leaves=8,
)
KEYS = [
    "link",
    "frame",
    "slots",
    "system",
    "ranges",
    "previous",
    "figure",
    "kind",
    "part",
    "fields",
    "own",
    "key",
    "toml",
    "conditions",
    "late",
]
USUAL: dict[str, dict[str, Any]] = {
    "catalogue": {},
    "choices": {"link": LINK, "kind": "gps"},
    "day": {"link": LINK, "fields": {"air": "3 C"}},
    "explain": {"link": LINK, "figure": "top_speed"},
    "judged_choice": {"link": LINK, "kind": "gps", "key": "g20"},
    "legs": {"link": LINK, "fields": {"legs": "hover 9 s, land 3 s"}},
    "options": {"link": LINK, "fields": {"spinners": "on"}},
    "own_file": {"own": [KEPT_PACK]},
    "own_form": {"link": LINK, "kind": "pack"},
    "own_part": {"link": LINK, "kind": "pack", "fields": OWN_PACK},
    "own_read": {"name": "mine.toml", "toml": KEPT_PACK},
    "own_use": {"link": LINK, "toml": KEPT_PACK},
    "page": {"link": LINK, "slots": ["short"]},
    "report": {"link": LINK},
    "shot": {"link": LINK, "fields": {"chase": "100 km/h"}},
    "swap": {"link": LINK, "kind": "gps", "part": "g20"},
}


def test_every_call_is_attacked() -> None:
    assert set(USUAL) == set(api.CALLS)


@settings(
    max_examples=150,
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)
@given(
    name=st.sampled_from(sorted(USUAL)),
    spoiled=st.dictionaries(st.sampled_from(KEYS), ANYTHING, min_size=1, max_size=3),
)
def test_no_payload_makes_it_raise(name: str, spoiled: dict[str, Any]) -> None:
    well_formed(api.call(name, {**USUAL[name], **spoiled}))


@pytest.mark.parametrize("name", [None, 3, [], {}, b"page", "", "x" * 10_000, "__import__"])
def test_no_name_makes_it_raise(name: Any) -> None:
    answer = api.call(name, {})
    well_formed(answer)
    assert answer["error"]["message"].startswith("api: no call '")


@pytest.mark.parametrize("payload", [None, [], "x", 3, math.nan, ["link"], True])
@pytest.mark.parametrize("name", sorted(USUAL))
def test_a_payload_that_is_no_table_is_refused(name: str, payload: Any) -> None:
    answer = api.call(name, payload)
    well_formed(answer)
    assert re.match(r"api: the payload must be a table, got \w+$", answer["error"]["message"])


@pytest.mark.parametrize(
    "value",
    [10**400, -(10**400), 1e308, math.nan, math.inf, "120", None, [], {}, True],
)
def test_previous_figures_may_be_anything(value: Any) -> None:
    answer = api.call("page", {"link": LINK, "slots": [], "previous": {"top_speed": value}})
    well_formed(answer)
    assert answer["ok"]


@pytest.mark.parametrize(
    "text", ["", "{", "[] []", "\x00", '{"a":' * 3000, "NaN", '{"link": Infinity}', '"\\ud800"']
)
def test_text_that_is_no_question_is_refused_as_json(text: str) -> None:
    answer = json.loads(api.call_json("page", text))
    well_formed(answer)
    assert not answer["ok"]


@pytest.mark.parametrize("text", ["1e999 g", "-1 g", "nan g", "12", "١٢ g", "12 g" * 200, "1_0 g"])
def test_numbers_that_no_pack_has_are_refused_by_field(text: str) -> None:
    found = result("own_part", link=LINK, kind="pack", fields={**OWN_PACK, "mass": text})
    if "errors" in found:
        assert {error["field"] for error in found["errors"]} == {"mass"}
    else:  # a bare number is in the unit beside its field
        assert text in ("12", "١٢ g")


def test_many_slots_and_many_fields_are_bounded() -> None:
    answer = api.call("page", {"link": LINK, "slots": ["short"] * 10_000})
    well_formed(answer)
    assert set(answer["result"]["slots"]) == {"short"}
    fields = {f"key{k}": "1 g" for k in range(5000)}
    answer = api.call("own_part", {"link": LINK, "kind": "pack", "fields": fields})
    well_formed(answer)
    assert len(answer["result"]["errors"]) < 80  # of the first 60 fields, and what is missing


# ------------------------------------------------------------------------------ faults of ours


def test_a_fault_of_ours_is_told_with_its_place(monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(payload: Any) -> dict[str, Any]:
        raise RuntimeError("a slip of ours")

    monkeypatch.setitem(api.CALLS, "report", broken)
    answer = api.call("report", {})
    assert answer["error"]["kind"] == "fault"
    assert answer["error"]["message"].rstrip().endswith("RuntimeError: a slip of ours")


def test_a_number_that_is_not_finite_never_leaves_as_json(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(api.CALLS, "report", lambda payload: {"value": math.nan})
    answer = asked("report", {})
    assert answer["error"] == {
        "kind": "fault",
        "message": "api: the answer to 'report' holds a number that is not finite",
        "field": None,
        "low": None,
        "high": None,
    }


def test_ends_of_a_range_that_are_open_are_null(monkeypatch: pytest.MonkeyPatch) -> None:
    def refuses(payload: Any) -> dict[str, Any]:
        raise ValidityError("x must be at least 2, got 1", field="x", low=2.0)

    monkeypatch.setitem(api.CALLS, "report", refuses)
    error = asked("report", {})["error"]
    assert error["kind"] == "ValidityError" and error["field"] == "x"
    assert error["low"] == 2.0 and error["high"] is None


def test_every_place_of_a_page_is_asked_for() -> None:
    """Places for build notes (`time`, `tools` and so on) take what an author writes there; pages
    of the site ask for them."""
    families = {slot.partition(":")[0] for slot in SLOTS}
    assert set(page.SLOTS) - families == {"time", "times", "tools"}
