"""Parts from TOML and from forms: units, origins, gaps, and every error text with its line."""

from __future__ import annotations

import math

import pytest

from slipfit.parts.key import key_name, keys_of
from slipfit.parts.kinds import KINDS, kind_of, kind_of_part
from slipfit.parts.reading import own_part_from_table, part_from_texts, read_parts
from slipfit.parts.shelf import shelf_from_folder, shelf_from_texts
from slipfit.parts.source import FileError, source_from_text

MOTOR = """\
[[motor]]
id = "m28"
name = "28 × 8 mm"
stator = "28 x 8 mm"
kv = "1950 rpm/V"
mount_pattern = "19x19"
"""
PACK = """\
[[pack]]
id = "k6"
name = "six cells"
cell_count = 6
capacity = "1600 mAh"
c_rating = 100
size = "75 x 36 x 32 mm"
"""


def problems(text: str) -> list[str]:
    with pytest.raises(FileError) as caught:
        read_parts(text, "parts.toml")
    assert caught.value.message == "\n".join(caught.value.problems)
    return list(caught.value.problems)


def one_problem(text: str) -> str:
    (problem,) = problems(text)
    return problem


def test_values_become_si():
    (motor,) = read_parts(MOTOR, "parts.toml")
    assert motor.stator_diameter_m == pytest.approx(0.028)
    assert motor.stator_height_m == pytest.approx(0.008)
    assert motor.kv_rad_s_V == pytest.approx(1950 * math.tau / 60)
    assert motor.mount_pattern.text() == "19x19"
    (pack,) = read_parts(PACK, "parts.toml")
    assert (pack.length_m, pack.width_m, pack.height_m) == pytest.approx((0.075, 0.036, 0.032))
    assert pack.capacity_C == pytest.approx(5760)


def test_gaps_are_estimated_and_marked():
    (motor,) = read_parts(MOTOR, "parts.toml")
    assert set(motor.guessed) == {
        "mass_kg", "resistance_ohm", "no_load_current_A", "can_diameter_m", "can_length_m",
        "max_current_A", "mount_depth_m",
    }  # fmt: skip
    assert motor.origins["resistance_ohm"].spread == 0.25
    assert motor.origins["kv_rad_s_V"].kind == "data sheet"
    assert 0.030 < motor.can_diameter_m < 0.036
    (pack,) = read_parts(PACK, "parts.toml")
    assert set(pack.guessed) == {"mass_kg", "cell_resistance_ohm"}
    # 6 x 3.7 V x 1.6 Ah = 35.5 Wh at 150 Wh/kg, and 20 g of leads
    assert pack.mass_kg == pytest.approx(0.2568, abs=1e-4)


def test_largest_current_heats_the_rim_as_stated():
    (motor,) = read_parts(MOTOR, "parts.toml")
    rim_mm2 = math.pi * 28 * 8
    assert motor.max_current_A**2 * motor.resistance_ohm == pytest.approx(0.14 * rim_mm2)


def test_antenna_is_half_a_wavelength_shortened():
    text = """
[[receiver]]
id = "r"
name = "receiver"
mass = "2 g"
size = "20 x 12 x 5 mm"
band = "{}"
"""
    (low,) = read_parts(text.format("868 MHz"), "parts.toml")
    assert low.antenna_length_m == pytest.approx(0.95 * 299_792_458 / (2 * 868e6))
    (high,) = read_parts(text.format("2.4 GHz"), "parts.toml")
    assert high.antenna_length_m / low.antenna_length_m == pytest.approx(868 / 2400)


def test_prop_mass_goes_with_blades_and_diameter_squared():
    text = '[[prop]]\nid = "p"\nname = "p"\ndiameter = "{}"\npitch = "5 in"\nblade_count = {}\n'
    text += 'style = "slim"\n'
    hub_kg = 0.5e-3
    (two,) = read_parts(text.format("5 in", 2), "p")
    (three,) = read_parts(text.format("5 in", 3), "p")
    (large,) = read_parts(text.format("10 in", 2), "p")
    assert (three.mass_kg - hub_kg) / (two.mass_kg - hub_kg) == pytest.approx(1.5)
    assert (large.mass_kg - hub_kg) / (two.mass_kg - hub_kg) == pytest.approx(4.0)


def test_origin_may_be_told_for_each_value():
    text = MOTOR + 'resistance = { value = "62 mohm", origin = "measured", spread = "3 %" }\n'
    text += 'mass = { value = "52 g", origin = "measured" }\n'
    (motor,) = read_parts(text, "parts.toml")
    assert motor.resistance_ohm == pytest.approx(0.062)
    assert motor.origins["resistance_ohm"].kind == "measured"
    assert motor.origins["resistance_ohm"].spread == pytest.approx(0.03)
    assert motor.origins["mass_kg"].spread == 0.02
    assert "resistance_ohm" not in motor.guessed


def test_origin_may_be_told_for_the_whole_part():
    (motor,) = read_parts(MOTOR + 'origin = "measured"\n', "parts.toml")
    assert motor.origins["kv_rad_s_V"].kind == "measured"
    assert motor.origins["stator_diameter_m"].spread == 0.01  # a length is good for a per cent


def test_estimated_part_keeps_wide_spreads():
    (motor,) = read_parts(MOTOR + 'origin = "estimated"\n', "parts.toml")
    assert motor.origins["stator_diameter_m"].spread == 0.20


@pytest.mark.parametrize(
    ("line", "message"),
    [
        ('kv = "19500 rpm/V"', "kv must be 50 to 12000 rpm/V, got 19500 rpm/V; did you mean 1950"),
        ("kv = 1950", "kv must carry a unit, such as '1950 rpm/V' with quotes, got 1950"),
        ('kv = "1950"', "kv must carry a unit of kv (rpm/V, rad/(s V)), got no unit in '1950'"),
        ("kv = true", "kv must be text such as '1 rpm/V', got True"),
        ('kv = "fast"', "kv must be a number with a unit (rpm/V, rad/(s V)), got 'fast'"),
        ('kv = "1950 mm"', "kv must carry a unit of kv (rpm/V, rad/(s V)), got 'mm' in '1950 mm'"),
    ],
)
def test_wrong_quantities_say_what_to_mend(line, message):
    text = MOTOR.replace('kv = "1950 rpm/V"', line)
    assert one_problem(text).startswith(f"parts.toml:5: [motor] 'm28': {message}")


@pytest.mark.parametrize(
    ("old", "new", "place", "message"),
    [
        ('"1600 mAh"', '"1800 Ah"', 5,
         "capacity must be 50 to 60000 mAh, got 1800 Ah; did you mean 1800 mAh?"),
        ('"1600 mAh"', '"16 mAh"', 5,
         "capacity must be 50 to 60000 mAh, got 16 mAh; did you mean 16 Ah?"),
        ("= 6\n", '= "6"\n', 4, "cell_count must be a whole number, got '6'"),
        ("= 6\n", "= 6.0\n", 4, "cell_count must be a whole number, got 6.0"),
        ("= 6\n", "= 60\n", 4, "cell_count must be 1 to 14, got 60; did you mean 6?"),
        ("= 100\n", '= "100"\n', 6, "c_rating must be a plain number, got '100'"),
        ("= 100\n", "= nan\n", 6, "c_rating must be finite, got nan"),
        ("= 100\n", f"= 1{'0' * 400}\n", 6, "c_rating must be finite, got a number beyond all"),
        ("75 x 36 x 32 mm", "75 x 36 mm", 7,
         "size must be length x width x height with one unit, such as '75 x 36 x 32 mm', "
         "got '75 x 36 mm'"),
        ("75 x 36 x 32 mm", "75 x 36 x 32", 7, "size must be length x width x height with one"),
        ("75 x 36 x 32 mm", "75 x wide x 32 mm", 7, "width must be a number with a unit"),
        ("75 x 36 x 32 mm", "75 x 36 x 3200 mm", 7, "height must be 3 to 300 mm, got 3200 mm"),
    ],
)  # fmt: skip
def test_wrong_values_say_what_to_mend(old, new, place, message):
    assert one_problem(PACK.replace(old, new)).startswith(
        f"parts.toml:{place}: [pack] 'k6': {message}"
    )


@pytest.mark.parametrize(
    ("line", "message"),
    [
        ('conector = "x"', "no key 'conector'; did you mean 'connector'? There are: 'c_rating'"),
        ('connector = "60 A"', "connector must be one of its words, got '60 A'. There are: '2.0"),
        ('lead_side = "edn"', "lead_side must be one of its words, got 'edn'; did you mean 'end'?"),
        ('width = "36 mm"', "width must be given once, got it in size and by itself"),
        ("lead_gauge = true", "lead_gauge must be a whole number, got True"),
        ("note = 3", "note must be text in quotes, got 3"),
        ('note = "a\\u0007b"', "note must be at most 400 printable characters, got 3 with control"),
        ('mass = { value = "200 g", orign = "measured" }',
         "mass has no key 'orign'; did you mean 'origin'?"),
        ('mass = { origin = "measured" }', "mass must have a value beside its origin, got none"),
        ('mass = { value = "200 g", origin = "guess" }', "mass: no origin 'guess'"),
        ('mass = { value = "200 g", spread = "wide" }',
         "mass: spread must be a number with a unit (a plain number, %), got 'wide'"),
        ('mass = { value = "200 g", spread = true }',
         "mass: spread must be a ratio such as '3 %', got True"),
        ('mass = "20 g"', "mass must be that of the whole pack: 20 g for 6 cells of 1600 mAh would "
         "be 1776 Wh/kg (no cell holds 300)"),
    ],
)  # fmt: skip
def test_further_lines_say_what_to_mend(line, message):
    assert message in one_problem(PACK + line + "\n")
    assert one_problem(PACK + line + "\n").startswith(
        ("parts.toml:8: [pack] 'k6': ", "parts.toml:7: [pack] 'k6': ")
    )


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ('id = "k6"', 'id = "K6"', "id must be 1 to 32 small letters, digits, dots and hyphens"),
        ('id = "k6"', 'id = "own"', "id must not be 'own', which stands for a reader's own part"),
        ('name = "six cells"', "name = 6", "name must be given: what the part is, by its numbers"),
        ("c_rating = 100\n", "", "c_rating must be given (C rating)"),
        ('capacity = "1600 mAh"\n', "", "capacity must be given (capacity, in mAh)"),
    ],
)
def test_what_a_part_must_have(old, new, message):
    assert message in one_problem(PACK.replace(old, new))


@pytest.mark.parametrize(
    ("kind_text", "message"),
    [
        (MOTOR + 'can_diameter = "27 mm"\n',
         "parts.toml:7: [motor] 'm28': can_diameter must be more than the stator_diameter of 28"),
        (MOTOR + "pole_count = 13\n",
         "parts.toml:7: [motor] 'm28': pole_count must be even, got 13"),
        ('[[esc]]\nid = "e"\nname = "e"\nmass = "9 g"\ncontinuous = "50 A"\nburst = "40 A"\n'
         'max_cells = 6\npattern = "20x20"\nsize = "30 x 30 x 5 mm"\n',
         "parts.toml:6: [esc] 'e': burst must be at least the continuous 50 A, got 40 A"),
        ('[[esc]]\nid = "e"\nname = "e"\nmass = "9 g"\ncontinuous = "50 A"\nmin_cells = 8\n'
         'max_cells = 6\npattern = "20x20"\nsize = "30 x 30 x 5 mm"\n',
         "parts.toml:6: [esc] 'e': min_cells must be at most max_cells (6), got 8"),
        ('[[prop]]\nid = "p"\nname = "p"\ndiameter = "5 in"\npitch = "5 in"\nblade_count = 2\n'
         'style = "slim"\nr_R = [0.2, 0.5, 0.8, 1.0]\n',
         "parts.toml:4: [prop] 'p': c_R must be given with the rest of the blade table"),
    ],
)  # fmt: skip
def test_fields_must_agree(kind_text, message):
    # a key that is not in the file is reported at its part
    found = problems(kind_text)
    assert any(message.split(": ", 1)[1] in problem for problem in found)


def test_blade_table_is_checked_row_by_row():
    head = '[[prop]]\nid = "p"\nname = "p"\ndiameter = "5 in"\npitch = "5 in"\nblade_count = 2\n'
    good = head + 'style = "slim"\nr_R = [0.2, 0.5, 0.8, 1]\nc_R = [0.1, 0.2, 0.2, 0.1]\n'
    (prop,) = read_parts(good + "beta_deg = [40, 30, 20, 15]\n", "p")
    assert prop.beta_rad == pytest.approx([math.radians(b) for b in (40, 30, 20, 15)])
    assert "beta_deg must have as many rows as r_R (4), got 3" in one_problem(
        good + "beta_deg = [40, 30, 20]\n"
    )
    assert "r_R must rise from above 0 to at most 1" in one_problem(
        good.replace("0.8, 1]", "0.4, 1]") + "beta_deg = [40, 30, 20, 15]\n"
    )
    assert "t_c must lie between 0.01 and 0.5" in one_problem(
        good + "beta_deg = [40, 30, 20, 15]\nt_c = [0.1, 0.1, 0.1, 0.9]\n"
    )
    assert "beta_deg must hold plain numbers, got '40'" in one_problem(
        good + "beta_deg = ['40', 30, 20, 15]\n"
    )


def test_all_mistakes_of_a_file_are_told_at_once():
    text = "[[camra]]\nid = 1\n\n" + MOTOR.replace("1950 rpm", "19500 rpm") + "\n" + PACK * 2
    found = problems(text)
    assert found[0].startswith("parts.toml:1: no kind of part 'camra'; did you mean 'camera'?")
    assert found[1].startswith("parts.toml:8: [motor] 'm28': kv must be 50 to 12000 rpm/V")
    assert found[2] == (
        "parts.toml:19: [pack] 'k6': id must be used once, but it stands at parts.toml:12 too"
    )
    assert len(found) == 3


def test_a_single_table_is_not_a_list_of_parts():
    assert one_problem(MOTOR.replace("[[motor]]", "[motor]")) == (
        "parts.toml:1: [motor] must be written [[motor]], one for each part"
    )


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("a = 1\nb = = 2\n", r"^parts.toml:2: must be TOML, got: invalid value at column 5"),
        ("a = [\n" * 3, r"^parts.toml:2: must be TOML, got: invalid value at column 1"),
        ("a = " + "[" * 5000, r"^parts.toml: must be TOML, got"),
        ("#" * 1_000_001, r"^parts.toml: must be at most 1000000 characters, got 1000001"),
    ],
)
def test_what_is_not_toml_says_where(text, message):
    with pytest.raises(FileError, match=message):
        read_parts(text, "parts.toml")


def test_lines_are_found_past_long_strings_and_lists():
    source = source_from_text(
        'a = """\n[[motor]]\nb = 1\n"""\nlist = [\n  { c = 1 }, # ]\n  "]",\n]\n[t]\nd."e f" = 2\n'
        "[[x.y]]\nz = 1\n[[x.y]]\nz = 2\n",
        "f",
    )
    assert source.place(("list",)) == "f:5"
    assert source.place(("t", "d", "e f")) == "f:10"
    assert source.place(("x", "y", 0, "z")) == "f:12"
    assert source.place(("x", "y", 1, "z")) == "f:14"
    assert source.place(("x", "y", 1, "absent")) == "f:13"
    assert source.place(("b",)) == "f"


def test_form_takes_bare_numbers_in_the_unit_beside_the_field():
    fields = {
        "name": "my pack", "cell_count": "6", "capacity": "1600", "c_rating": "100",
        "length": "75", "width": "3.6 cm", "height": "32", "mass": " ",
    }  # fmt: skip
    part, faults = part_from_texts("pack", fields)
    assert faults == ()
    assert part is not None
    assert part.own
    assert part.name == "my pack"
    assert part.width_m == pytest.approx(0.036)
    assert part.guessed == ("mass_kg", "cell_resistance_ohm")


def test_form_says_what_is_wrong_by_field():
    part, faults = part_from_texts("pack", {"cell_count": "six", "capacity": "1800 Ah"})
    assert part is None
    told = dict(faults)
    assert told["cell_count"] == "cell_count must be a whole number, got 'six'"
    assert told["capacity"].endswith("did you mean 1800 mAh?")
    assert told["width"] == "width must be given (width, in mm)"


def test_estimates_outside_their_range_ask_for_the_value():
    part, faults = part_from_texts("motor", {"stator": "80 x 20 mm", "kv": "200",
                                             "mount_pattern": "30x30"})  # fmt: skip
    assert part is None
    ((key, sentence),) = faults
    assert key == "mass"
    assert sentence.startswith("mass must be given: estimated_mass: stator_diameter_m must be")


def test_own_part_from_a_table_is_as_strict_as_a_file():
    _, faults = own_part_from_table("gps", {"mass": 8, "size": "20 x 20 x 8 mm"})
    assert faults == (("mass", "mass must carry a unit, such as '8 g' with quotes, got 8"),)


def test_key_names_are_field_names_without_units():
    assert key_name("kv_rad_s_V") == "kv"
    assert key_name("stator_diameter_m") == "stator_diameter"
    assert key_name("cell_count") == "cell_count"
    for kind in KINDS:
        names = [key.field for key in keys_of(kind.cls).values()]
        assert len(names) == len(set(names))


def test_kinds_are_found_or_the_nearest_is_named():
    assert kind_of("esc").label == "ESC"
    with pytest.raises(ValueError, match=r"no kind of part 'mtor'; did you mean 'motor'\?"):
        kind_of("mtor")
    (motor,) = read_parts(MOTOR, "f")
    assert kind_of_part(motor).id == "motor"


def test_shelf_refuses_an_id_in_two_files():
    with pytest.raises(FileError) as caught:
        shelf_from_texts({"a.toml": MOTOR, "b.toml": MOTOR + PACK, "c.toml": "x = 1"})
    assert caught.value.problems[0] == (
        "b.toml: [motor] 'm28': id must be used once, but it stands in a.toml too"
    )
    assert caught.value.problems[1].startswith("c.toml:1: no kind of part 'x'")


def test_shelf_names_the_nearest_part(tmp_path):
    (tmp_path / "a.toml").write_text(MOTOR + PACK, encoding="utf-8")
    shelf = shelf_from_folder(tmp_path)
    assert len(shelf) == 2
    assert shelf.part("motor", "m28").name == "28 × 8 mm"
    assert shelf.of("gps") == ()
    with pytest.raises(ValueError, match=r"shelf: no motor 'm29'; did you mean 'm28'\?"):
        shelf.part("motor", "m29")
