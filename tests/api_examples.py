"""One list of questions to the api: asked natively by `contract/test_api_examples.py`, and in a
real browser by `contract/test_native_equals_browser.py`."""

from __future__ import annotations

from typing import Any

from slipfit.charts.registry import CHARTS
from slipfit.drawings.registry import DRAWINGS, FLOWN
from slipfit.figures.registry import FIGURES
from slipfit.parts.kinds import KINDS

FRAME = "quillback-5"
LINK = f"#b1;{FRAME}"
SLOTS = [
    *(f"{place}:{figure.id}" for place in ("value", "note") for figure in FIGURES),
    *(f"chart:{name}" for name in CHARTS),
    *(f"drawing:{name}" for name in (*DRAWINGS, *FLOWN)),
    *("checks:fit", "checks:limits", "shelf", "short", "day", "screws", "bom", "bench", "print"),
    *("shot", "rules", "safety", "flight", "effects", "options", "worth"),
]
OWN_PACK = {
    "name": "ours",
    "cell_count": "6",
    "capacity": "1500 mAh",
    "size": "78 x 37 x 41 mm",
    "mass": "248 g",
    "c_rating": "100",
    "connector": "3.5 mm bullet pair",
}
KEPT_PACK = """
[[pack]]
id = "ours"
name = "ours"
cell_count = 6
capacity = "1500 mAh"
c_rating = 100
size = "78 x 37 x 41 mm"
mass = { value = "248 g", origin = "measured" }
"""
# A brick of a pack: two cells and four kilograms, too much for any motor of the shelf to lift.
BRICK = "own,mass:4kg,cell_count:2,capacity:9000mAh,c_rating:10,length:78mm,width:37mm,height:41mm"
HEAVY = f"{LINK};pack={BRICK}"
EXAMPLES: dict[str, tuple[str, Any]] = {
    "catalogue": ("catalogue", {}),
    "report": ("report", {"link": LINK}),
    "report with ranges": ("report", {"link": LINK, "ranges": True}),
    "page in metric": ("page", {"link": LINK, "slots": SLOTS, "system": "metric"}),
    "page in imperial": ("page", {"link": LINK, "slots": SLOTS, "system": "imperial"}),
    "a warm day": ("page", {"link": f"{LINK};air=30C;height=500m", "slots": SLOTS}),
    "an old pack": ("explain", {"link": f"{LINK};pack_flights=150", "figure": "flight_time"}),
    "a link that is no link": ("page", {"link": "#b1;<b>;=;;motor=%00", "slots": ["short"]}),
    "an unknown part": ("page", {"link": f"{LINK};motor=none", "slots": ["shelf", "short"]}),
    "changes": ("page", {"link": LINK, "slots": [], "previous": {"top_speed": 50.0}}),
    "an explanation": ("explain", {"link": LINK, "figure": "top_speed"}),
    "an unknown figure": ("explain", {"link": LINK, "figure": "top_sped"}),
    "an own part": ("own_part", {"link": LINK, "kind": "pack", "fields": OWN_PACK}),
    "an own part with faults": ("own_part", {"link": LINK, "kind": "pack", "fields": {"x": "1"}}),
    "a kept part in use": ("own_use", {"link": LINK, "toml": KEPT_PACK}),
    "kept parts as a file": ("own_file", {"own": [KEPT_PACK, KEPT_PACK]}),
    "a file of parts": ("own_read", {"name": "mine.toml", "toml": KEPT_PACK}),
    "a file of parts with faults": ("own_read", {"name": "x.toml", "toml": "[[pack]]\nid = 3"}),
    "choices with kept parts": ("choices", {"link": LINK, "kind": "pack", "own": [KEPT_PACK]}),
    "choices of propellers by their fit": (
        "choices",
        {"link": LINK, "kind": "prop", "staged": True},
    ),
    "one of them judged": ("judged_choice", {"link": LINK, "kind": "prop", "key": "p525-80-2"}),
    "a kept part judged": (
        "judged_choice",
        {"link": LINK, "kind": "pack", "own": [KEPT_PACK], "key": "own:0"},
    ),
    "a choice that there is not": ("judged_choice", {"link": LINK, "kind": "prop", "key": "p5"}),
    "another day": ("day", {"link": LINK, "fields": {"air": "-20 C", "height": "300 m"}}),
    "a day with faults": ("day", {"link": LINK, "fields": {"air": "cold"}}),
    "a swap": ("swap", {"link": LINK, "kind": "motor", "part": "m28-1950"}),
    "a swap for nothing": ("swap", {"link": LINK, "kind": "motor", "part": "m28-195"}),
    "another flight": ("legs", {"link": LINK, "fields": {"legs": "hover 9 s, pass 300 m x2"}}),
    "a flight with faults": ("legs", {"link": LINK, "fields": {"legs": "hover 9 s, loop 3 s"}}),
    "a link with a flight": (
        "page",
        {"link": f"{LINK};legs=hover_20s,cruise_900m,land_8s", "slots": ["flight", "short"]},
    ),
    "what comes late": ("page", {"link": LINK, "slots": ["effects", "worth"], "late": True}),
    "what comes late of a build that cannot fly": (
        "page",
        {"link": HEAVY, "slots": ["effects", "worth"], "late": True},
    ),
    "other options": ("options", {"link": LINK, "fields": {"spinners": "on"}}),
    "all options off": ("options", {"link": f"{LINK};with=spinners", "fields": {}}),
    "a link with options": (
        "page",
        {
            "link": f"{LINK};with=spinners;without=pod-tails,wings",
            "slots": ["options", "value:top_speed", "value:mass_total"],
            "conditions": ["option.spinners is on", "option.pod-tails is on"],
        },
    ),
    "another shot": ("shot", {"link": LINK, "fields": {"chase": "160 km/h", "size": "20 %"}}),
    "a shot with faults": ("shot", {"link": LINK, "fields": {"chase": "fast"}}),
    "a build that cannot fly": ("report", {"link": HEAVY, "ranges": True}),
    "a page of a build that cannot fly": ("page", {"link": HEAVY, "slots": SLOTS}),
    "choices for a build that cannot fly": ("choices", {"link": HEAVY, "kind": "motor"}),
    "an explanation of what is missing": ("explain", {"link": HEAVY, "figure": "top_speed"}),
    "nothing at all": ("page", {}),
    "no frame of this site": ("page", {"link": "#b1;quilback", "slots": ["short"]}),
    "a figure that there is not": ("page", {"link": LINK, "slots": ["value:top_sped"]}),
    "a place that there is not": ("page", {"link": LINK, "slots": ["valu:top_speed"]}),
    "a unit system that there is not": ("page", {"link": LINK, "slots": [], "system": "troy"}),
    "a kind that there is not": ("choices", {"link": LINK, "kind": "wing"}),
    "wrong types": ("page", {"link": 7, "slots": "short", "previous": [1]}),
    "a payload that is no table": ("page", ["link"]),
    "an unknown call": ("pages", {}),
    **{f"choices of {kind.id}": ("choices", {"link": LINK, "kind": kind.id}) for kind in KINDS},
    **{f"form of {kind.id}": ("own_form", {"link": LINK, "kind": kind.id}) for kind in KINDS},
}
