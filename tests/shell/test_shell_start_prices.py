"""Money in a typed question: what it is put to, and what asks only for it."""

from typing import Any

import pytest

from boltend.core.host import Host
from boltend.core.values import Notation
from boltend.shell.app import host_bench
from boltend.shell.start_numbers import taken

Shell = Any

MANY = "So many blocks of one size: how large, and what for two borders and binding?"
UNDER = "How much backing, and which batting?"


@pytest.fixture(scope="module")
def host() -> Any:
    with Host.load() as host:
        yield host


@pytest.mark.parametrize(
    ("said", "text"),
    [
        ("12.50 a yard", "12.50 per yard"),
        ("12.50/yd", "12.50 per yard"),
        ("12 per yard", "12 per yard"),
        ("$12.50 a yard", "$12.50 per yard"),
        ("12 dollars a yard", "$12 per yard"),
        ("€ 9 a metre", "€9 per metre"),
        ("9,99 €/m", "€9.99 per metre"),
        ("at $11", "$11 per yard"),
        ("at £8", "£8 per yard"),
    ],
)
@pytest.mark.parametrize(
    "sentence", ["20 blocks of 12 in, borders 3 and 5, {}", "{}, 20 blocks, borders 3, 5"]
)
def test_a_price_is_never_anything_else(host: Any, sentence: str, said: str, text: str) -> None:
    start = next(s for s in host.starts if s.question == MANY)
    got = taken(sentence.format(said), start.tabs, host.specs, host.table, Notation())
    assert got.price is not None
    assert got.price.text == text
    assert [row["width"] for row in got.givens[1]["borders"]] == ["3", "5"]
    assert got.givens[0]["blocks"] == 20
    assert got.left == ()


@pytest.mark.parametrize(
    ("said", "left"),
    [
        ("thread $9 a spool", ("$9",)),
        ("I have $40", ("$40",)),
        ("borders 12 a yard, binding 9 a yard", ("12 a yard", "9 a yard")),
    ],
)
def test_a_price_that_is_not_the_cloths_is_told(host: Any, said: str, left: tuple[str, ...]) -> None:
    start = next(s for s in host.starts if s.question == MANY)
    got = taken(f"20 blocks of 12 in, {said}", start.tabs, host.specs, host.table, Notation())
    assert (got.price, got.left) == (None, left)
    assert got.givens[1:] == ({}, {})


async def says(it: Any, words: str) -> None:
    """Wherever its lines end."""
    await it.wait(lambda: words in " ".join(it.text().split()), words)


def prices(it: Any) -> dict[str, object]:
    return {row.name: row.data.get("price") for row in it.desk.project.fabrics}


async def test_the_price_is_that_of_all_that_the_question_buys(shell: Shell) -> None:
    async with shell(None, bench=host_bench) as it:
        await it.type("20 blocks of 12 in, borders 3 and 5, 12.50 a yard")
        await it.press("enter")
        await says(it, "Borders 3, 5; price 12.50 a yard: for Inner border, Outer border, Binding.")
        await says(it, "Shift+F5: the yardage that a pattern prints.")
        assert prices(it) == dict.fromkeys(("Inner border", "Outer border", "Binding"), "12.50 per yard")
        # 4 × 12 by 5 × 12, with 2 × (3 + 5) round it.
        borders = it.desk.project.tab("Borders")
        found = it.desk.book.results[borders.key].found
        assert (found["width"], found["height"]) == (64, 76)
        await it.press("f8")
        await it.sees("Total", "$")
        assert "No price yet" not in it.text()
        await it.press("escape", "ctrl+z")
        assert it.desk.project.tabs == ()
        assert it.desk.project.fabrics == (), "one edit, one undo"


async def test_also_of_a_tab_that_names_no_fabric(shell: Shell) -> None:
    async with shell(None, bench=host_bench) as it:
        await it.type("binding for a 60 x 72 in throw at $11 a yard: what does it cost?")
        await it.press("enter")
        await says(it, "price $11 a yard: for Binding.")
        assert prices(it) == {"Binding": "$11 per yard"}
        assert it.given("Binding")["fabric"] == "Binding"
        await it.press("ctrl+z")
        assert (it.desk.project.tabs, it.desk.project.fabrics) == ((), ())


async def test_a_price_in_another_currency_or_of_nothing_bought_is_told_as_not_used(shell: Shell) -> None:
    async with shell(text='boltend = 1\n[project]\ncurrency = "EUR"\n', bench=host_bench) as it:
        await it.press("alt+home")
        await it.sees("type to search")
        await it.type("how much backing for 70 by 85 at $9 a yard")
        await it.press("enter")
        await says(it, "Not used: $9 a yard.")
        assert prices(it) == {"Backing": None}
    async with shell(None, bench=host_bench) as it:
        await it.type("3 yd cream, 2 yd blue at 12.50/yd, how large, 9 in squares")
        await it.press("enter")
        await says(it, "Not used: 12.50/yd.")
        assert it.desk.project.fabrics == ()


async def test_a_price_that_a_fabric_has_is_kept(shell: Shell) -> None:
    text = 'boltend = 1\n[[fabric]]\nname = "Binding"\nprice = "8"\n'
    async with shell(text=text, bench=host_bench) as it:
        await it.press("alt+home")
        await it.sees("type to search")
        await it.type("20 blocks of 12 in, borders 3 and 5, 12.50 a yard")
        await it.press("enter")
        await says(it, "price 12.50 a yard: for Inner border, Outer border.")
        assert prices(it)["Binding"] == "8"


async def test_what_was_typed_stands_there_again_where_nothing_could_use_it(shell: Shell) -> None:
    async with shell(None, bench=host_bench) as it:
        await it.type("how much will it all cost")
        await it.press("enter")
        await it.sees("[To buy")
        await it.press("alt+home")
        await it.sees("What do you want to know", "how much will it all cost")


async def test_also_after_an_example_was_opened(shell: Shell) -> None:
    async with shell(None, bench=host_bench) as it:
        await it.type("tidewater")
        await it.press("enter")
        await it.sees("A copy of the example")
        await it.press("alt+home")
        assert it.app.screen.filter.value == "tidewater"
