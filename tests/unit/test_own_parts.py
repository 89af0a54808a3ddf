"""A reader's own parts as a file: written, read back, refused whole when anything is wrong."""

from __future__ import annotations

import dataclasses

import pytest

import assets
from api_examples import KEPT_PACK, LINK, OWN_PACK
from site_builds import DOCS, library
from slipfit import api
from slipfit.markup import plain_text
from slipfit.ownparts import MOST, own_parts_toml, read_own_parts
from slipfit.parts.kinds import KINDS, kind_of_part
from slipfit.parts.part import OWN
from slipfit.parts.reading import read_parts
from slipfit.parts.source import FileError
from slipfit.parts.writing import stated_texts


@pytest.fixture(scope="module", autouse=True)
def site() -> None:
    api.use_site(assets.site_files(DOCS))


def result(call: str, **payload: object) -> dict:
    answer = api.call(call, payload)
    assert answer["ok"], answer
    return answer["result"]


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.id)
def test_parts_of_every_kind_survive_a_file(kind):
    parts = [dataclasses.replace(part, id=OWN) for part in library().shelf.of(kind.id)]
    again = read_own_parts(own_parts_toml(parts))
    assert [p.name for p in again] == [p.name for p in parts]
    for before, after in zip(parts, again, strict=True):
        assert after.own
        assert stated_texts(after) == stated_texts(before)
        assert after.origins == before.origins


def test_a_file_of_own_parts_is_a_file_of_the_shelf():
    pack = library().shelf.part("pack", "k6-1600")
    twins = [pack, pack, dataclasses.replace(pack, name="Own"), dataclasses.replace(pack, name="…")]
    ids = [part.id for part in read_parts(own_parts_toml(twins), "packs.toml")]
    assert ids[1] == f"{ids[0]}-2"
    assert ids[2:] == ["own-part", "part"]


def test_a_broken_file_is_refused_whole_with_every_mistake():
    text = KEPT_PACK + '\n[[pack]]\nid = "b"\nname = "b"\ncell_cout = 6\ncapacity = 1500\n'
    found = result("own_read", name="mine.toml", toml=text)
    assert "parts" not in found
    told = [error["message"] for error in found["errors"]]
    assert any("no key 'cell_cout'; did you mean 'cell_count'?" in line for line in told)
    assert any("capacity must carry a unit" in line for line in told)
    assert all(line.startswith("mine.toml:") for line in told)
    shown = plain_text(found["tree"])
    assert "Nothing was taken from that file" in shown
    assert all(line in shown for line in told)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "must hold at least one part, such as [[pack]]"),
        ("[[pack", "must be TOML"),
        ("x" * 1_000_001, "must be at most 1000000 characters"),
    ],
)
def test_a_file_that_holds_no_parts_says_so(text, said):
    found = result("own_read", name="mine.toml", toml=text)
    assert said in found["errors"][0]["message"]


def test_too_many_parts_are_refused():
    one = library().shelf.part("pack", "k6-1600")
    with pytest.raises(FileError, match=rf"must hold at most {MOST} parts, got {MOST + 1}"):
        read_own_parts(own_parts_toml([one] * (MOST + 1)))
    refused = api.call("own_file", {"own": [KEPT_PACK] * (MOST + 1)})
    assert "there must be at most" in refused["error"]["message"]


def test_a_part_that_is_typed_in_comes_back_to_be_kept_and_can_be_used_again():
    made = result("own_part", link=LINK, kind="pack", fields=OWN_PACK)
    assert made["kept"]["kind"] == "pack"
    assert made["kept"]["name"] == "ours"
    used = result("own_use", link=LINK, toml=made["kept"]["toml"])
    assert used["link"] == made["link"]


def test_kept_parts_stand_among_the_choices_judged_like_the_others():
    tree = result("choices", link=LINK, kind="pack", own=["not a part", KEPT_PACK])["tree"]
    words = plain_text(tree)
    assert f"{len(library().shelf.of('pack'))} on the shelf and 1 of yours" in words
    assert "ours, yours" in words
    assert "'data-own-use': '1'" in str(tree)
    assert "'data-own-forget': '1'" in str(tree)
    used = result("own_use", link=LINK, toml=KEPT_PACK)["link"]
    here = result("choices", link=used, kind="pack", own=[KEPT_PACK])["tree"]
    assert "'data-own-use'" not in str(here)  # it is in this build
    other = result("choices", link=LINK, kind="motor", own=[KEPT_PACK])["tree"]
    assert "of yours" not in plain_text(other)


def test_one_text_must_hold_one_part():
    refused = api.call(
        "own_use", {"link": LINK, "toml": KEPT_PACK + KEPT_PACK.replace("ours", "b")}
    )
    assert refused["error"]["field"] == "toml"
    assert kind_of_part(read_own_parts(KEPT_PACK)[0]).id == "pack"
