"""Errors name who, what, the rule and the value."""

import numpy as np
import pytest

from slipfit.errors import ValidityError, nearest, require_range


@pytest.mark.parametrize("value", [-1.0, 11_001.0, float("nan")])
def test_a_value_outside_its_range_is_named(value):
    with pytest.raises(
        ValidityError, match=r"air: height_m must be 0 to 11000 \(ISO 2533\), got"
    ) as refused:
        require_range("air", "height_m", value, 0.0, 11_000.0, "ISO 2533")
    assert (refused.value.low, refused.value.high) == (0.0, 11_000.0)


def test_the_mask_says_which_elements_are_out():
    with pytest.raises(ValidityError, match="got 7") as refused:
        require_range("x", "y", [1.0, 7.0, 2.0], 0.0, 5.0, "test")
    assert np.array_equal(refused.value.mask, [False, True, False])


def test_a_misspelt_name_is_met_with_the_nearest():
    assert (
        nearest("motr", ["motor", "pack"]) == "; did you mean 'motor'? There are: 'motor', 'pack'"
    )
    assert nearest("zzz", ["motor"]) == ". There are: 'motor'"
