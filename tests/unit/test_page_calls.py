"""The calls that a page makes of the core, on the site's own frames and parts."""

import pytest

from site_builds import DOCS, SLUG, site_files
from slipfit import api
from slipfit.markup import plain_text, to_html

LINK = f"#b1;{SLUG}"


@pytest.fixture(autouse=True)
def site():
    api.use_site(site_files(DOCS))


def result(name, **payload):
    answer = api.call(name, {"link": LINK, "frame": SLUG, "system": "metric", **payload})
    assert answer["ok"], answer
    return answer["result"]


def walk(tree):
    if isinstance(tree, list):
        yield tree
        for child in tree[2:]:
            yield from walk(child)


def day_form(link, system):
    """What stands in the day's form of a page."""
    tree = result("page", link=link, slots=["day"], system=system)["slots"]["day"]
    return {n[1]["name"]: n[1].get("value", "") for n in walk(tree) if n[0] == "input"}


@pytest.mark.parametrize("system", ["metric", "imperial"])
def test_a_day_sent_unchanged_changes_nothing(system):
    standard = result("swap", kind="gps", part="g20")["link"]
    fields = day_form(standard, system)
    assert set(fields) == {"air", "packs", "pack_flights", "height", "wind", "uptilt"}
    assert result("day", link=standard, fields=fields, system=system)["link"] == standard


def test_a_bare_number_has_the_unit_it_stood_beside():
    fields = {**day_form(LINK, "imperial"), "air": "14"}
    assert ";air=-10C" in result("day", fields=fields, system="imperial")["link"]


def test_an_emptied_entry_is_the_frames_own_again():
    fields = {**day_form(LINK, "metric"), "air": "25 C", "uptilt": "30"}
    warm = result("day", fields=fields)["link"]
    assert ";air=25C" in warm
    assert ";uptilt=30deg" in warm
    fields = {**day_form(warm, "metric"), "air": "", "uptilt": ""}
    cold = result("day", link=warm, fields={k: v for k, v in fields.items() if v})["link"]
    assert "air=" not in cold
    assert "uptilt=" not in cold


def test_a_wrong_entry_is_said_beside_it_and_stays():
    fields = {**day_form(LINK, "metric"), "height": "9000 m"}
    answer = result("day", fields=fields)
    assert [error["field"] for error in answer["errors"]] == ["height"]
    (field,) = [n for n in walk(answer["tree"]) if n[1].get("name") == "height"]
    assert field[1]["value"] == "9000 m"
    assert field[1]["aria-invalid"] == "true"


def test_own_form_guesses_from_what_is_typed():
    fields = {
        "cell_count": "6", "capacity": "1600", "c_rating": "100", "length": "75", "width": "36",
        "height": "32",
    }  # fmt: skip
    tree = result("own_form", kind="pack", fields=fields)["tree"]
    values = {n[1]["name"]: n[1] for n in walk(tree) if n[0] == "input"}
    assert values["capacity"]["value"] == "1600"
    assert values["mass"]["placeholder"].endswith(" g")
    assert "If empty, guessed" in plain_text(tree)


def test_the_age_of_the_pack_is_asked_for_said_and_explained():
    standard = result("swap", kind="gps", part="g20")["link"]
    fields = day_form(standard, "metric")
    assert fields["pack_flights"] == "0"
    old = result("day", fields=fields | {"pack_flights": "150"})["link"]
    assert old.endswith(";pack_flights=150")
    page = result("page", link=old, slots=["day", "value:top_speed"])
    said = to_html(page["slots"]["day"]).replace("\N{NARROW NO-BREAK SPACE}", " ")
    assert "with the pack, 150 flights old, at 30 °C and charged to 100 %." in said
    usual = result("page", slots=["value:top_speed"])["figures"]["top_speed"]
    assert page["figures"]["top_speed"] < 0.99 * usual
    tree = to_html(result("explain", link=old, figure="flight_time")["tree"])
    assert "after 150 flights 84% of the capacity and 1.28 times the resistance" in tree
    assert "± 60% of the change" in tree
    assert "flights" not in plain_text(result("explain", figure="flight_time")["tree"])
    assert result("day", link=old, fields=fields | {"pack_flights": ""})["link"] == standard
    wrong = result("day", fields=fields | {"pack_flights": "many"})
    assert wrong["errors"] == [
        {"field": "pack_flights", "message": "pack_flights must be a whole number, got 'many'"}
    ]
    assert "many" in to_html(wrong["tree"])
