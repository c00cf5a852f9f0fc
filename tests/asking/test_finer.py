"""Between the steps of a form: by 1/2 in, where 1/8 in is cut. What is expected is worked out by hand."""

from fractions import Fraction
from typing import Any

import pytest

from boltend.core.asking import Backwards, Wish, back, read_wish
from boltend.core.asking.ladder import TOTAL, Take
from boltend.core.asking.offers import feeders
from boltend.core.asking.sift import Sift
from boltend.core.asking.spots import spot_of
from boltend.core.asking.values import read_tries
from boltend.core.flow import Workbook
from boltend.core.host import Host
from boltend.core.project.reading import read_bytes
from boltend.core.report.back_text import back_text, how_far, which_do
from boltend_shared.examples import path


@pytest.fixture(scope="module")
def host() -> Any:
    with Host.load() as host:
        yield host


def opened(host: Host, name: str = "lantern-row") -> Workbook:
    return Workbook(host, read_bytes(path(name).read_bytes(), f"{name}.toml").project)


def asked(book: Workbook, reach: str, wanted: str, **along: Any) -> tuple[Wish, Backwards]:
    """The top with its first border is 60 1/2 in wide: with the second 60 1/2 in + 2 × its width."""
    said = {"tab": "Borders", "given": "borders.2.width", "take": "width", "reach": reach, "wanted": wanted}
    wish = read_wish(book, {**said, **along})
    return wish, back(book, wish)


@pytest.mark.parametrize(
    ("wanted", "step", "border", "value"),
    [
        ("72 in", "1/4", "5 3/4 in", "23/4"),
        ("72 1/4 in", "1/8", "5 7/8 in", "47/8"),
        ("68 3/4 in", "1/8", "4 1/8 in", "33/8"),
    ],
)
def test_exactly_where_no_half_inch_does(host: Host, wanted: str, step: str, border: str, value: str) -> None:
    book = opened(host)
    wish, told = asked(book, "exactly", wanted)
    assert wish.step == Fraction(1, 2)
    assert told.hits == ()
    assert told.finer is not None
    assert told.finer.step == Fraction(step)
    assert [one.value for one in told.finer.hits] == [Fraction(value)]
    assert told.best == told.finer.hits
    said = f"{border} does (by {step} in): it gives {wanted}. By 1/2 in none does."
    assert f"  {said}\n" in back_text(book, wish, told)


def test_where_no_value_one_can_cut_does_the_nearest_of_all_are_told(host: Host) -> None:
    """1/3 in more than 72 in needs a border of 5 11/12 in; 5 7/8 in and 6 in lie about it."""
    book = opened(host)
    wish, told = asked(book, "exactly", "72 1/3 in")
    assert not told.reached
    assert [one.value for one in told.best] == [Fraction(47, 8), 6, Fraction(23, 4)]
    assert which_do(book, wish, told) == ("None does. The nearest: 5 7/8 in, which gives 72 1/4 in.")
    assert how_far(book, wish, told).endswith("; about the nearest by 1/8 in, too.")


@pytest.mark.parametrize(
    ("reach", "coarse", "fine"), [("at least", 6, "47/8"), ("at most", Fraction(11, 2), "47/8")]
)
def test_the_least_and_the_most_are_looked_for_finer(host: Host, reach: str, coarse: Any, fine: str) -> None:
    book = opened(host)
    wish, told = asked(book, reach, "72 1/4 in")
    assert told.hits[0 if reach == "at least" else -1].value == coarse
    assert told.finer is not None
    assert Fraction(fine) in [one.value for one in told.finer.hits]
    for one in told.finer.hits:  # each was really worked out
        if one.cell.amount is not None:
            assert one.cell.amount == Fraction(121, 2) + 2 * one.value
    says = which_do(book, wish, told)
    end = "least" if reach == "at least" else "most"
    assert says.startswith(
        f"5 7/8 in is the {end} that does (by 1/8 in): it gives exactly 72 1/4 in. All from "
    )
    assert how_far(book, wish, told).endswith("; beside those that do by 1/8 in, too.")


def test_values_that_were_chosen_are_left_at_that(host: Host) -> None:
    book = opened(host)
    wish, told = asked(book, "exactly", "72 in", values=["5 in", "6 in", "5 1/2 in"])
    assert [told.tried, told.of, told.finer] == [3, 3, None]
    assert how_far(book, wish, told) == "All 3 values that were asked for were tried."
    wish, told = asked(book, "exactly", "72 in", least="5 1/8 in", most="6 in", step="1/8 in")
    assert [one.value for one in told.hits] == [Fraction(23, 4)]
    assert wish.of == 8


def test_in_metric_down_to_the_millimetre(host: Host) -> None:
    """A quarter of an inch is no whole millimetres: from 1/2 in at once to the step in which it is cut."""
    book = opened(host, "orchard-cloth")
    wish = read_wish(book, {"tab": "Cloth", "given": "block_width", "take": "width", "wanted": "1 m"})
    assert wish.step == Fraction(1, 2)
    assert [step * Fraction(254, 100) for step in wish.finer] == [Fraction(1, 10)]


def test_it_is_heard_how_far_it_is_between_the_steps_too(host: Host) -> None:
    book, heard = opened(host), []
    wish, _ = asked(book, "exactly", "72 1/4 in")
    told = back(book, wish, hear=lambda tried, of: heard.append((tried, of)))
    assert told.finer is not None
    assert told.finer.tried > 0
    assert heard[-1] == (told.tried + told.finer.tried, wish.of + told.finer.tried)
    assert all(tried <= of for tried, of in heard)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", {}),
        ("7 in to 8 in by 1/8 in", {"least": "7 in", "most": "8 in", "step": "1/8 in"}),
        ("from 8 to 7 by 1/8", {"least": "7 in", "most": "8 in", "step": "1/8"}),
        ("7 to 8", {"least": "7 in", "most": "8 in"}),
        ("5; 5 3/4; 6", {"values": ["5 in", "5 3/4 in", "6 in"]}),
        ("5 3/4 in", {"values": ["5 3/4 in"]}),
    ],
)
def test_the_spellings(host: Host, text: str, said: dict[str, Any]) -> None:
    book = opened(host)
    assert read_tries(book, spot_of(book, book.project.tab("Borders"), "borders.2.width"), text) == said


def test_what_changes_nothing_is_found_by_trying(host: Host) -> None:
    """The spare makes strips longer, never a quilt wider; cost it can. The outer border stands first."""
    book = opened(host)
    tab = book.project.tab("Borders")
    width = book.results[tab.key].spec.found("width")  # type: ignore[union-attr]
    take = Take("Width", tab.key, width)
    spots = feeders(book, take)
    names = [spot.name for spot in spots if spot.tab == tab.key]
    assert names.index("borders.2.width") < names.index("borders.1.width")
    idle = [spot.name for spot in Sift(book, take, spots, host).run() if spot.tab == tab.key]
    assert {"borders.1.spare", "borders.2.spare"} <= set(idle)
    assert not {"borders.1.width", "borders.2.width"} & set(idle)
    cost = Take(TOTAL)
    spares = [spot for spot in feeders(book, cost) if spot.name == "borders.2.spare"]
    assert Sift(book, cost, spares, host).run() == []


def test_what_there_was_no_time_for_stays(host: Host) -> None:
    book = opened(host)
    tab = book.project.tab("Borders")
    take = Take("Width", tab.key, book.results[tab.key].spec.found("width"))  # type: ignore[union-attr]
    clock = iter(range(100))
    assert Sift(book, take, feeders(book, take), host).run(0.5, lambda: next(clock)) == []
