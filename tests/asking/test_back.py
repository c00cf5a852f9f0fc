"""Working backwards against plain search: every value of the range run by itself."""

from fractions import Fraction
from typing import Any

import pytest

from boltend.core.asking import AskError, Backwards, back, read_wish
from boltend.core.flow import Workbook
from boltend.core.host import Host
from boltend.core.pool import Pool
from boltend.core.project.edits import set_given
from boltend.core.project.model import Project
from boltend.core.project.reading import read_bytes
from boltend_shared.examples import path


def project(name: str) -> Project:
    return read_bytes(path(name).read_bytes(), f"{name}.toml").project


@pytest.fixture(scope="module")
def host() -> Any:
    with Host.load() as host:
        yield host


def plain(host: Host, name: str, asked: dict[str, Any], values: list[Any]) -> list[tuple[Any, Any]]:
    """Every value with what comes of it, each in a workbook of its own."""
    found = []
    for value in values:
        fresh = project(name)
        key = fresh.tab(asked["tab"]).key
        book = Workbook(host, set_given(fresh, key, asked["given"], value))
        result = book.result(asked["take"]["from"] if isinstance(asked["take"], dict) else asked["tab"])
        take = asked["take"]["take"] if isinstance(asked["take"], dict) else asked["take"]
        found.append((value, result.found.get(take) if result.answer is not None else None))
    return found


HITS = {"at least": lambda a, w: a >= w, "at most": lambda a, w: a <= w, "exactly": lambda a, w: a == w}


@pytest.mark.parametrize("reach", list(HITS))
@pytest.mark.parametrize("wanted", [9, 30, 31, 10**6])
def test_through_the_links_of_an_example(host: Host, reach: str, wanted: int) -> None:
    """How many precuts make a top so wide? The width comes two tabs later and does not only grow."""
    asked = {
        "tab": "Squares in hand",
        "given": "precuts",
        "take": "blocks",
        "reach": reach,
        "least": 1,
        "most": 60,
    }
    asked["take"] = {"from": "Steps", "take": "width"}
    book = Workbook(host, project("harbour-steps"))
    before = dict(book.results)
    told = ask(book, {**asked, "wanted": f"{wanted} in"})
    known = plain(host, "harbour-steps", asked, list(range(1, 61)))
    hits = [value for value, amount in known if amount is not None and HITS[reach](amount, wanted)]
    assert [int(one.value) for one in told.hits] == hits
    assert told.whole
    assert (told.tried, told.of) == (60, 60)
    if not hits:
        nearest = sorted((abs(amount - wanted), value) for value, amount in known if amount is not None)[:3]
        assert [(abs(one.cell.amount - wanted), one.value) for one in told.misses] == nearest
    assert book.results == before


def ask(book: Workbook, said: dict[str, Any]) -> Backwards:
    take = said["take"]
    if isinstance(take, dict):
        said = {**said, "take": take}
    return back(book, read_wish(book, said))


@pytest.mark.parametrize("reach", list(HITS))
@pytest.mark.parametrize("wanted", ["1 yd", "30 in", "45 in", "46 in", "200 yd"])
def test_by_halves_where_the_found_never_shrinks(host: Host, reach: str, wanted: str) -> None:
    asked = {
        "tab": "Binding",
        "given": "strip_width",
        "take": "length_to_buy",
        "reach": reach,
        "most": "6 in",
    }
    book = Workbook(host, project("harbour-steps"))
    spec = next(f for f in book.result("Binding").spec.founds if f.name == "length_to_buy")
    assert "strip_width" in spec.grows_with
    wish = read_wish(book, {**asked, "wanted": wanted})
    told = back(book, wish)
    places = range(int((wish.most - wish.least) / wish.step) + 1)
    values = [wish.least + n * wish.step for n in places]
    known = plain(host, "harbour-steps", asked, [f"{value} in" for value in values])
    hits = [
        v for v, (_, a) in zip(values, known, strict=True) if a is not None and HITS[reach](a, wish.wanted)
    ]
    assert [one.value for one in told.hits] == hits
    assert told.whole
    assert told.tried < len(values) or hits


def test_the_total_is_reached_too(host: Host) -> None:
    asked = {"tab": "Squares in hand", "given": "precuts", "take": "total", "reach": "at most", "most": 12}
    book = Workbook(host, project("harbour-steps"))
    told = back(book, read_wish(book, {**asked, "wanted": "70 USD"}))
    known = []
    for value in range(1, 13):
        fresh = project("harbour-steps")
        key = fresh.tab("Squares in hand").key
        lists = Pool().lists(Workbook(host, set_given(fresh, key, "precuts", value)))
        known.append((value, lists.total.amount if lists.total else None))
    assert [int(one.value) for one in told.hits] == [v for v, a in known if a is not None and a <= 70]


def test_stopped_it_tells_what_it_has(host: Host) -> None:
    class Stop:
        asked = 0

        def stopped(self) -> bool:
            self.asked += 1
            return self.asked > 10

    asked = {
        "tab": "Steps",
        "given": "sash",
        "take": "width",
        "reach": "at least",
        "wanted": "1 in",
        "most": "9 in",
    }
    book = Workbook(host, project("harbour-steps"))
    told = back(book, read_wish(book, asked), job=Stop())
    assert told.stopped
    assert not told.whole
    assert 0 < told.tried < told.of
    assert told.hits


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"given": "cornerstones"}, "has no steps to go along"),
        ({"given": "across_"}, "has no given 'across_'"),
        ({"take": "widt"}, "finds no 'widt'. Did you mean “width”?"),
        ({"reach": "about"}, "'about' is no way to reach something. Say one of: at least, at most, exactly."),
        ({"wanted": "wide"}, "'wide': "),
        ({"wanted": None}, "what should be reached? Say an amount."),
        ({"least": "9 in", "most": "2 in"}, "the range is empty."),
        ({"least": "x"}, "'x': "),
    ],
)
def test_what_cannot_be_read_is_told(host: Host, change: dict[str, Any], said: str) -> None:
    asked = {"tab": "Steps", "given": "sash", "take": "width", "wanted": "60 in"}
    book = Workbook(host, project("harbour-steps"))
    with pytest.raises(AskError) as told:
        read_wish(book, {**asked, **change})
    assert said in str(told.value)


def test_steps_are_the_projects(host: Host) -> None:
    book = Workbook(host, project("orchard-cloth"))
    wish = read_wish(
        book, {"tab": "Plum edge", "given": "strip_width", "take": "strips", "wanted": "6", "least": "5 cm"}
    )
    assert wish.step == Fraction(1, 10) / Fraction(254, 100)  # 1 mm
