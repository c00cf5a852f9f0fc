"""The likeliest name: what difflib finds among few, what begins alike among many, in bounded time."""

import time
from difflib import get_close_matches

from hypothesis import given
from hypothesis import strategies as st

from boltend.core.values.alike import likeliest

words = st.text("abcde ", max_size=12)


@given(words, st.lists(words, max_size=30))
def test_among_few_it_is_what_difflib_finds(word: str, names: list[str]) -> None:
    assert likeliest(word, names) == next(iter(get_close_matches(word, names, 1)), None)


def test_among_many_one_that_begins_alike_is_found() -> None:
    names = [f"Lantern {n}" for n in range(10_000)]
    assert likeliest("Lantern 77777", names) in names
    assert likeliest("Lamtern 77", ["Moss", *names, "Lamtern 7"]) == "Lamtern 7"
    assert likeliest("zzz", names) is None


def test_long_names_are_not_compared_letter_by_letter() -> None:
    """difflib takes the square of their lengths: a minute for two of a hundred thousand letters."""
    before = time.process_time()
    assert likeliest("ab" * 100_000, ["ba" * 100_000, "x"]) is None
    assert likeliest("ab", ["ba" * 100_000, "abc"]) == "abc"
    assert time.process_time() - before < 5
