"""Published values: materials as their sources print them (flags in the table), an arm as beam."""

import dataclasses

import pytest

from published import printed
from site_builds import altered, shipped
from slipfit.physics.material import MATERIALS, printed_mass
from slipfit.structure import arm_modes
from tables import figures, rows

COLUMNS = {
    "density_kg_m3": ("density_kg_m3", 1.0),
    "modulus_GPa": ("modulus_Pa", 1e9),
    "strength_MPa": ("strength_Pa", 1e6),
    "shear_modulus_GPa": ("shear_modulus_Pa", 1e9),
}


def test_materials_match_their_sources():
    seen = set()
    for row in rows("material_figures.csv"):
        material = MATERIALS[row["material"]]
        for column, (field, factor) in COLUMNS.items():
            if row[column]:
                assert getattr(material, field) / factor == printed(row[column])
                seen.add((row["material"], field))
    used = {(name, "density_kg_m3") for name in MATERIALS}
    used |= {(name, "modulus_Pa") for name in MATERIALS}
    used |= {(name, "strength_Pa") for name in MATERIALS}
    assert used <= seen  # every number in use stands in the table


def test_printed_mass_of_full_and_hollow_prints():
    assert printed_mass(1e-5, 1250.0, infill=1.0, walls=0.1) == pytest.approx(0.0125)
    assert printed_mass(1e-5, 1250.0, infill=0.0, walls=0.4) == pytest.approx(0.005)


def test_arm_of_a_frame_matches_beam_figures():
    """The table's arm, 90 x 12 x 5 mm of carbon cloth with 40 g at its end and a rigid root."""
    build = altered("motor", mass_kg=0.036)
    build = altered("prop", of=build, mass_kg=0.003)
    arm = dataclasses.replace(
        build.frame.arms[0], length_m=0.090, width_m=0.012, thickness_m=0.005, wall_m=0.0,
        material="carbon cloth", fibre_angle_rad=0.0, end_mass_kg=0.001, root_give=0.0,
    )  # fmt: skip
    frame = dataclasses.replace(build.frame, arms=(arm,))
    mode = arm_modes(dataclasses.replace(build, frame=frame))[0]
    assert mode.direction == "along the axis"
    assert mode.frequency_Hz == printed(figures("beam_figures.csv")["ARM-F-EXACT"])


def test_cloth_is_soft_between_its_fibres():
    """A sixth of the modulus at 45 degrees: 2.7 GPa in shear against 60 GPa along (tables)."""
    cloth = MATERIALS["carbon cloth"]
    assert cloth.modulus_at(0.0) == pytest.approx(60e9)
    assert cloth.modulus_at(0.7853981634) == pytest.approx(9.949e9, rel=1e-3)
    assert MATERIALS["aluminium"].modulus_at(0.7) == 69e9
    assert shipped().frame.arms[0].material == "carbon cloth"
