"""The command line from outside: what it prints, how it ends, and what it says of mistakes."""

from __future__ import annotations

import csv
import json
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from slipfit import __version__
from slipfit.cli import main

ROOT = Path(__file__).resolve().parents[2]
DOCS = ROOT / "docs"
FRAME = "frames/quillback-5/frame.toml"


def run(capsys: pytest.CaptureFixture[str], *arguments: object) -> tuple[int, str, str]:
    """Exit code, output and errors of one command."""
    words = [str(word) for word in arguments]
    if words[0] != "rotor" and "--docs" not in words:
        words += ["--docs", str(DOCS)]
    code = main(words)
    out, err = capsys.readouterr()
    return code, out, err


def no_constants(text: str) -> float:
    pytest.fail(f"{text} is no JSON")


@pytest.fixture
def build_file(tmp_path: Path) -> Path:
    file = tmp_path / "mine.toml"
    file.write_text('frame = "quillback-5"\n\n[parts]\npack = "k6-1500"\n', encoding="utf-8")
    return file


@pytest.fixture
def docs(tmp_path: Path) -> Path:
    """A copy of the docs' data, to be spoiled."""
    folder = tmp_path / "docs"
    shutil.copytree(DOCS / "frames/quillback-5", folder / "frames/quillback-5")
    shutil.copytree(DOCS / "parts", folder / "parts")
    return folder


def spoil(docs: Path, name: str, old: str, new: str) -> int:
    """Replace some text in a file; the number of the line where it now stands."""
    file = docs / name
    text = file.read_text("utf-8")
    assert text.count(old) >= 1, old
    text = text.replace(old, new, 1)
    file.write_text(text, encoding="utf-8")
    return text[: text.index(new)].count("\n") + 1


# ------------------------------------------------------------------------------ check


def test_check_reports_every_frame_and_ends_well(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, err = run(capsys, "check")
    assert code == 0 and err == ""
    assert "quillback-5: " in out and "km/h" in out
    assert re.fullmatch(
        r"\d+ frames with \d+ pages and \d+ parts are in order.", out.splitlines()[-1]
    )


@pytest.mark.parametrize(
    ("name", "old", "new", "said"),
    [
        (
            "parts/motors.toml",
            'kv = "1950 rpm/V"',
            'kv = "1950"',
            "[motor] 'm28-1950': kv must carry a unit of kv (rpm/V, rad/(s V)), got no unit in "
            "'1950'",
        ),
        (
            "parts/motors.toml",
            'stator = "28 x 8 mm"',
            'statr = "28 x 8 mm"',
            "[motor] 'm28-1950': no key 'statr'; did you mean 'stator'?",
        ),
        (
            "parts/packs.toml",
            "cell_count = 6",
            "cell_count = 60",
            "[pack] 'k6-1600': cell_count must be",
        ),
        (FRAME, 'bore = "36 mm"', 'boar = "36 mm"', "no key 'boar'; did you mean 'bore'?"),
        (FRAME, 'model = "streamlined"', 'model = "streamlind"', "did you mean 'streamlined'?"),
        (FRAME, 'motor = "m28-1950"', 'motor = "m28-195"', "did you mean 'm28-1950'?"),
        (FRAME, 'uptilt = "70 deg"', 'uptilt = "70 dog"', "uptilt must carry a unit of angle"),
    ],
)
def test_check_names_file_line_key_rule_and_value(
    capsys: pytest.CaptureFixture[str], docs: Path, name: str, old: str, new: str, said: str
) -> None:
    line = spoil(docs, name, old, new)
    code, out, err = run(capsys, "check", "--docs", docs)
    assert code == 1 and out == ""
    hits = [text for text in err.splitlines() if said in text]
    assert hits, err
    assert hits[0].startswith(f"{name}:{line}: ")


def test_check_says_everything_at_once(capsys: pytest.CaptureFixture[str], docs: Path) -> None:
    spoil(docs, "parts/motors.toml", 'kv = "1950 rpm/V"', 'kv = "1950"')
    spoil(docs, "parts/gps.toml", "[[gps]]", "[[gsp]]")
    spoil(docs, FRAME, 'bore = "36 mm"', 'boar = "36 mm"')
    code, _, err = run(capsys, "check", "--docs", docs)
    assert code == 1
    for name in ("parts/motors.toml:", "parts/gps.toml:", f"{FRAME}:"):
        assert any(text.startswith(name) for text in err.splitlines()), err


def test_check_reads_the_pages_of_a_frame_too(
    capsys: pytest.CaptureFixture[str], docs: Path
) -> None:
    """Names, conditions, times and tools, in the order of their lines; a head counts its lines."""
    page = "frames/quillback-5/more.md"
    lines = (
        "---", "title: {=nothing}", "---", "",
        "It flies {=top_sped}, {>hover_tim} and `{=anything}`.", "",
        "{chart level_fligth}", "", "{drawing sid}", "", "{checks fits}", "", "{shelv}", "",
        "{when pack.cell_cout >= 8}", "", "{otherwise}", "", "Well.", "", "{end}", "",
        "{when motor is m28-195: small}", "", "{time 4 mins}", "", "{tools saw; key motor}", "",
        "{steps A}", "",
    )  # fmt: skip
    (docs / page).write_text("\n".join(lines), "utf-8")
    nearest = {
        5: ("no figure 'top_sped'; did you mean 'top_speed'?",
            "no figure 'hover_tim'; did you mean 'hover_time'?"),
        7: ("no chart 'level_fligth'; did you mean 'level_flight'?",),
        9: ("no drawing 'sid'; did you mean 'side'?",),
        11: ("no list of checks 'fits'; did you mean 'fit'?",),
        13: ("no token 'shelv'; did you mean 'shelf'?",),
        15: ("no name 'pack.cell_cout'; did you mean 'pack.cell_count'?",),
        23: ("'motor' is never 'm28-195'; did you mean 'm28-1950'?",),
        25: ("time must carry a unit of time",),
        27: ("no joint 'motor'; did you mean 'motors'?",),
        29: ("{steps} must have a name in small letters", "{steps} is never closed with {end}"),
    }  # fmt: skip
    wanted = [f"{page}:{line}: {said}" for line, told in nearest.items() for said in told]
    code, out, err = run(capsys, "check", "--docs", docs)
    assert code == 1 and out == ""
    got = err.splitlines()
    assert len(got) == len(wanted), err
    for told, expected in zip(got, wanted, strict=True):
        assert told.startswith(expected)


def test_pages_are_checked_though_parts_or_another_frame_are_wrong(
    capsys: pytest.CaptureFixture[str], docs: Path
) -> None:
    """What a page names of a shelf or a frame that could not be read is not held against it."""
    shutil.copytree(docs / "frames/quillback-5", docs / "frames/other")
    spoil(docs, "frames/other/frame.toml", 'bore = "36 mm"', 'boar = "36 mm"')
    (docs / "frames/other/fly.md").write_text("{=top_sped}\n", "utf-8")
    spoil(docs, "parts/motors.toml", 'kv = "1950 rpm/V"', 'kv = "1950"')
    (docs / "frames/quillback-5/fly.md").write_text(
        "{when motor is m28-1950: small} {=top_sped}\n", "utf-8"
    )
    code, _, err = run(capsys, "check", "--docs", docs)
    assert code == 1
    places = [told.partition(": ")[0] for told in err.splitlines()]
    assert sorted(place.rpartition(":")[0] for place in places) == [
        "frames/other/frame.toml", "frames/quillback-5/fly.md", "parts/motors.toml",
    ]  # fmt: skip
    assert "frames/quillback-5/fly.md:1: no figure 'top_sped'" in err


def test_text_that_is_no_toml_is_said_with_its_line(
    capsys: pytest.CaptureFixture[str], docs: Path
) -> None:
    line = spoil(docs, "parts/escs.toml", "[[esc]]", "[[esc]")
    code, _, err = run(capsys, "check", "--docs", docs)
    assert code == 1
    assert f"parts/escs.toml:{line}: must be TOML, got: " in err


def test_a_folder_without_frames_is_said(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    code, out, err = run(capsys, "check", "--docs", tmp_path)
    assert code == 1 and out == ""
    assert err.startswith("slipfit: --docs must name a folder with frames/*/frame.toml, got '")


def test_a_file_that_is_no_text_is_said(capsys: pytest.CaptureFixture[str], docs: Path) -> None:
    (docs / "parts/more.toml").write_bytes(b"# \xff\xfe\n")
    code, _, err = run(capsys, "check", "--docs", docs)
    assert code == 1
    assert "more.toml must be UTF-8 text, got a byte that is not at position 2" in err


# ------------------------------------------------------------------------------ report


def test_report_prints_figures_verdicts_and_link(
    capsys: pytest.CaptureFixture[str], build_file: Path
) -> None:
    code, out, err = run(capsys, "report", build_file)
    assert code == 0 and err == ""
    lines = out.splitlines()
    speed = next(line for line in lines if line.startswith("top speed in level flight"))
    assert "km/h" in speed and "–" in speed  # a value and its range
    assert any(line.startswith("clear") for line in lines)
    assert lines[-1].startswith("share as #b1;quillback-5;")
    assert ";pack=k6-1500;" in lines[-1]


def test_report_without_ranges_has_values_alone(
    capsys: pytest.CaptureFixture[str], build_file: Path
) -> None:
    code, out, _ = run(capsys, "report", build_file, "--no-ranges")
    assert code == 0
    speed = next(line for line in out.splitlines() if line.startswith("top speed in level"))
    assert "km/h" in speed and "–" not in speed


def test_report_as_json_is_data(capsys: pytest.CaptureFixture[str], build_file: Path) -> None:
    code, out, err = run(capsys, "report", build_file, "--json")
    assert code == 0 and err == ""
    data = json.loads(out, parse_constant=no_constants)
    assert data["slipfit"] == __version__
    assert data["messages"] == []
    figure = data["figures"]["top_speed"]
    assert figure["low"] < figure["value"] < figure["high"]
    assert {part["id"] for part in data["parts"]} >= {"k6-1500", "m28-1950"}


def test_report_says_what_could_not_be_had_and_goes_on(
    capsys: pytest.CaptureFixture[str], build_file: Path
) -> None:
    build_file.write_text('frame = "quillback-5"\n[parts]\nmotor = "m28-195"\n', encoding="utf-8")
    code, out, err = run(capsys, "report", build_file, "--json", "--no-ranges")
    assert code == 0
    assert "The shelf has no motor 'm28-195'; did you mean 'm28-1950'?" in err
    assert json.loads(out)["messages"] == err.splitlines()


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ('fram = "quillback-5"', "mine.toml:1: no key 'fram'; did you mean 'frame'?"),
        (
            'frame = "quillback-5"\n[day]\nair = "cold"',
            "mine.toml:3: [day]: air must be a number with a unit (K, C, F), got 'cold'",
        ),
        ('frame = "quillback-6"', "no frame 'quillback-6'; did you mean 'quillback-5'?"),
        (
            'frame = "quillback-5"\n[parts]\npack = "own"\n[own.pack]\nmass = "1 elephant"',
            "mine.toml:5: [own.pack]: mass must carry a unit of mass (kg, g, oz, lb), "
            "got 'elephant'",
        ),
    ],
)
def test_report_refuses_a_wrong_build_file_with_its_line(
    capsys: pytest.CaptureFixture[str], build_file: Path, text: str, said: str
) -> None:
    build_file.write_text(text, encoding="utf-8")
    code, out, err = run(capsys, "report", build_file)
    assert code == 1 and out == ""
    assert said in err


def test_a_build_file_that_is_not_there_is_said(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    code, out, err = run(capsys, "report", tmp_path / "nothing.toml")
    assert code == 1 and out == ""
    assert "nothing.toml must be readable, got: No such file or directory" in err


def test_a_build_file_with_a_byte_order_mark_reads(
    capsys: pytest.CaptureFixture[str], build_file: Path
) -> None:
    build_file.write_bytes(b"\xef\xbb\xbf" + build_file.read_bytes())
    code, _, err = run(capsys, "link", build_file)
    assert code == 0 and err == ""


# ------------------------------------------------------------------------------ rotor


def table(name: str) -> list[dict[str, str]]:
    """Rows of one of tests/data's CSV files, without their heads."""
    lines = (ROOT / "tests/data" / name).read_text("utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


@pytest.fixture
def geometry(tmp_path: Path) -> Path:
    """A scanned 9-inch blade, see the head of tests/data/propeller_uiuc_geometry.csv."""
    rows = [row for row in table("propeller_uiuc_geometry.csv") if "da4002_9x6.75" in row["file"]]
    assert len(rows) > 10
    file = tmp_path / "blade.csv"
    file.write_text(
        "# scanned\nr_R,c_R,beta_deg\n"
        + "".join(f"{row['r_R']},{row['c_R']},{row['beta_deg']}\n" for row in rows),
        encoding="utf-8",
    )
    return file


NINE = ("--diameter", "9in", "--blades", "2", "--rpm", "5000")


def test_rotor_prints_a_line_for_each_speed(
    capsys: pytest.CaptureFixture[str], geometry: Path
) -> None:
    code, out, err = run(capsys, "rotor", geometry, *NINE, "--speeds", "0,5,10")
    assert code == 0 and err == ""
    head, *lines = out.splitlines()
    assert head.split()[:5] == ["speed_m_s", "J", "ct_prop", "cp_prop", "efficiency"]
    assert [float(line.split()[0]) for line in lines] == [0.0, 5.0, 10.0]


def test_rotor_as_json_is_data_and_adds_up(
    capsys: pytest.CaptureFixture[str], geometry: Path
) -> None:
    """Definitions on density, turns per second and diameter, so they hold to rounding; sea level's
    density to the digits that are written here."""
    code, out, _ = run(
        capsys, "rotor", geometry, *NINE, "--speeds", "0,5,10,40", "--section", "sda1075", "--json"
    )
    assert code == 0
    data = json.loads(out, parse_constant=no_constants)
    n, D, rho = 5000 / 60, 9 * 0.0254, 1.225
    assert data["J"] == pytest.approx([v / (n * D) for v in data["speed_m_s"]])
    thrust = [ct * rho * n**2 * D**4 for ct in data["ct_prop"]]
    assert data["thrust_N"] == pytest.approx(thrust, rel=1e-4)
    for k in range(3):
        expected = data["J"][k] * data["ct_prop"][k] / data["cp_prop"][k]
        assert data["efficiency"][k] == pytest.approx(expected)
    assert data["efficiency"][3] is None  # at 40 m/s it is a windmill
    assert data["valid"][:3] == [True, True, True]
    assert set(data) == {
        "slipfit", "rpm", "speed_m_s", "J", "ct_prop", "cp_prop", "efficiency", "thrust_N",
        "torque_Nm", "tip_mach", "valid",
    }  # fmt: skip


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("--rpm", "0"), "slipfit rotor: --rpm must be above 0, got 0"),
        (("--rpm", "nan"), "slipfit rotor: --rpm must be above 0, got nan"),
        (("--speeds", "a,b"), "--speeds must be numbers in m/s with commas, got 'a,b'"),
        (("--speeds", "0,inf"), "--speeds must be numbers in m/s with commas, got '0,inf'"),
        (("--diameter", "9"), "--diameter must carry a unit of length"),
        (("--blades", "0"), "blade_count must be 1 to 8, got 0"),
        (("--section", "clark"), "section must be a known family, got 'clark'; did you mean"),
    ],
)
def test_rotor_refuses_what_no_rotor_has(
    capsys: pytest.CaptureFixture[str], geometry: Path, arguments: tuple[str, str], said: str
) -> None:
    code, out, err = run(capsys, "rotor", geometry, *NINE, *arguments)  # the last one counts
    assert code == 1 and out == ""
    assert said in err


def test_rotor_names_what_is_wrong_in_a_table(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    file = tmp_path / "bad.csv"
    file.write_text("r_R,c_R,beta\n0.2,0.1,30\n", encoding="utf-8")
    code, _, err = run(capsys, "rotor", file, *NINE)
    assert code == 1 and "beta_deg" in err
    file.write_text("r_R,c_R,beta_deg\n0.2,0.1,30\n0.5,x,20\n0.8,0.1,12\n1,0.1,9\n", "utf-8")
    code, _, err = run(capsys, "rotor", file, *NINE)
    assert code == 1 and "3" in err and "x" in err


# ------------------------------------------------------------------------------ link and open


def test_link_and_open_are_each_others_inverse(
    capsys: pytest.CaptureFixture[str], build_file: Path
) -> None:
    code, link, err = run(capsys, "link", build_file)
    assert code == 0 and err == ""
    code, text, err = run(capsys, "open", link.strip())
    assert code == 0 and err == ""
    build_file.write_text(text, encoding="utf-8")
    assert run(capsys, "link", build_file) == (0, link, "")


def test_open_says_what_it_did_not_understand_and_opens_the_rest(
    capsys: pytest.CaptureFixture[str],
) -> None:
    code, out, err = run(capsys, "open", "#b1;quillback-5;pack=k6-1500;wing=w1")
    assert code == 1
    assert "'wing' in the link is not known" in err
    assert 'pack = "k6-1500"' in out


def test_open_reads_a_whole_address(capsys: pytest.CaptureFixture[str]) -> None:
    address = "https://example.org/frames/quillback-5/#b1;quillback-5;motor=m28-1700"
    code, out, _ = run(capsys, "open", address)
    assert code == 0 and 'motor = "m28-1700"' in out


# ------------------------------------------------------------------------------ the program itself


def test_version_and_help(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as ended:
        main(["--version"])
    assert ended.value.code == 0
    assert capsys.readouterr().out == f"slipfit {__version__}\n"
    with pytest.raises(SystemExit) as ended:
        main(["--help"])
    assert ended.value.code == 0
    out = capsys.readouterr().out
    for command in ("check", "report", "rotor", "link", "open"):
        assert command in out


@pytest.mark.parametrize("arguments", [[], ["fly"], ["rotor", "x.csv"], ["report"]])
def test_a_call_that_is_not_understood_ends_with_two(
    capsys: pytest.CaptureFixture[str], arguments: list[str]
) -> None:
    with pytest.raises(SystemExit) as ended:
        main(arguments)
    assert ended.value.code == 2
    assert "usage: slipfit" in capsys.readouterr().err


def test_it_runs_as_a_program_and_minds_a_closed_pipe(build_file: Path) -> None:
    """Like a pipe into `head`: whoever reads may stop, and nothing is said about it."""
    environment = {**os.environ, "PYTHONPATH": str(ROOT / "pycore")}
    command = [sys.executable, "-m", "slipfit.cli", "report", str(build_file), "--no-ranges"]
    program = subprocess.Popen(
        [*command, "--docs", str(DOCS)],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        env=environment,
        text=True,
    )
    assert program.stdout is not None and program.stderr is not None
    program.stdout.close()
    said = program.stderr.read()
    program.wait(timeout=120)
    program.stderr.close()
    assert said == ""
