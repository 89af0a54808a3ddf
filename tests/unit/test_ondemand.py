"""Values on demand: made once, when asked for."""

import pytest

from slipfit.ondemand import OnDemand


def test_nothing_is_made_before_it_is_asked_for_and_then_once():
    made = []

    def maker(name):
        def make():
            made.append(name)
            return name.upper()

        return make

    values = OnDemand({name: maker(name) for name in ("a", "b")})
    assert (list(values), len(values), "b" in values, made) == (["a", "b"], 2, True, [])
    assert (values["b"], values["b"], made) == ("B", "B", ["b"])
    with pytest.raises(KeyError, match="c"):
        values["c"]
