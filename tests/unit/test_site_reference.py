"""The reference of formulas keeps what a docstring says."""

from __future__ import annotations

from pathlib import Path

from markdown import markdown

import reference

SOURCE = '''"""A topic."""


def fall_speed(height_m, g_m_s2=9.8):
    r"""Speed after a fall, with no *air*.

    $$ v = \\\\sqrt{2 g h} $$

    Parameters
    ----------
    height_m : float or array
        Height $h_0$ < that of a tower. [m]

    Returns
    -------
    speed_m_s : float
        Speed. [m/s]

    Validity
    --------
    0 <= height_m <= 100.

    Source
    ------
    A book.

    Examples
    --------
    >>> fall_speed(10.0)
    14.0
    """


def _private():
    """Source
    ------
    none
    """


def without_source():
    """Nothing to see."""
'''


def test_a_formula_appears_with_all_its_sections(tmp_path: Path) -> None:
    (tmp_path / "topic.py").write_text(SOURCE.replace("\\\\\\\\", "\\\\"), "utf-8")
    text = reference.page(tmp_path)
    assert "## topic" in text
    assert "fall_speed(height_m, g_m_s2)" in text
    assert "_private" not in text
    assert "without_source" not in text
    html = markdown(text, extensions=["def_list", "fenced_code", "attr_list"])
    assert 'id="topic-fall_speed"' in html
    assert "sqrt{2 g h}" in html
    assert "<code>height_m</code>" in html
    assert "<code>h_0</code> &lt; that of a tower. [m]" in html
    assert "<p>0 &lt;= height_m &lt;= 100.</p>" in html
    assert "&gt;&gt;&gt; fall_speed(10.0)\n14.0" in html
    for section in reference.SECTIONS:
        assert f"<strong>{section}</strong>" in html


def test_every_formula_of_the_core_is_in_it() -> None:
    physics = Path(__file__).resolve().parents[2] / "pycore" / "slipfit" / "physics"
    text = reference.page(physics)
    for name in ("air_density_dry", "rotor_loads"):
        assert f"\n### {name} " in text, name
