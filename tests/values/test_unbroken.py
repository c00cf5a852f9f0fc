"""No line end parts a number from its fraction or its unit."""

import textwrap

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boltend.core.report.text import wrapped
from boltend.core.values.unbroken import broken, unbroken
from boltend.shell.texts import wrapped as wrapped_to


@pytest.mark.parametrize("width", range(12, 40))
def test_a_number_stays_whole(width: int) -> None:
    text = "the 1 yd printed is enough, with 3 1/2 in to spare and 10 5/16 cm (2 3/4 yd) left"
    for lines in ([broken(x) for x in textwrap.wrap(unbroken(text), width)], wrapped_to(text, width)):
        assert " ".join(lines) == text
        for whole in ("1 yd", "3 1/2 in", "10 5/16 cm", "2 3/4 yd"):
            assert sum(whole in line for line in lines) == 1, (whole, lines)


def test_no_blank_that_keeps_comes_out() -> None:
    assert "\u00a0" not in "".join(wrapped("x " * 38 + "3 1/2 in of it", "  "))


@given(st.text("0123456789/ inydx.", max_size=200))
def test_nothing_is_lost(text: str) -> None:
    assert broken(unbroken(text)) == text
    assert "".join(" ".join(wrapped_to(text, 30)).split()) == "".join(text.split())
