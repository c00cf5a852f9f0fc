"""A price in a typed question: read, and put to all that its tabs buy by the yard. Knows no screen."""

import re
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from boltend.core.flow import Workbook
from boltend.core.pool.heaps import gather
from boltend.core.pool.snapshot import snapshot_of
from boltend.core.project.model import Project, Tab
from boltend.core.report.price_places import PricePlace, open_places
from boltend.shell.start_cues import PRICE
from boltend.shell.start_offers import fabrics_of
from boltend.shell.start_taking import Taking

_OF_ANOTHER = re.compile(r" ?(?:/|(?:a|an|per|each)\b)")
"""“$9 a spool” is no price of cloth."""

_SIGNS = {"dollar": "$", "dollars": "$", "euro": "€", "euros": "€"}


class PriceSaid(NamedTuple):
    """A price by the yard or the metre: in the person's words, and as it is typed into a fabric."""

    words: str
    text: str


def take_prices(taking: Taking) -> tuple[PriceSaid | None, list[str]]:
    """The price of cloth that a sentence says, and the prices that it is not: no given takes any of them.

    Of several prices nobody knows which cloth each is for.
    """
    found = [*taking.free(PRICE)]
    for match in found:
        taking.use(match)
    prices = [PriceSaid(_words(match), _text(match)) for match in found]
    if len({price.text for price in prices}) == 1 and _by_length(taking.text, found[0]):
        return prices[0], []
    return None, [price.words for price in prices]


def _words(match: re.Match[str]) -> str:
    return match.group().removeprefix(match["at"] or "").strip()


def _text(match: re.Match[str]) -> str:
    said = (match["sign"] or match["name"] or "").strip()
    per = "metre" if (match["per"] or "").startswith("m") else "yard"
    return f"{_SIGNS.get(said, said)}{match['number'].replace(',', '.')} per {per}"


def _by_length(text: str, match: re.Match[str]) -> bool:
    """Whether it is cloth's: by its length, or what it is bought at, and not by anything else."""
    return bool(match["per"] or (match["at"] and not _OF_ANOTHER.match(text, match.end())))


def unpriced(tabs: Sequence[Tab], book: Workbook) -> Iterator[PricePlace]:
    """What these tabs buy off a bolt without a price yet: fabrics by name, and cloth that has none."""
    named = [(tab.name, tab.calculator, tab.given) for tab in tabs]
    specs = {spec.name: spec for tab in tabs if (spec := book.results[tab.key].spec) is not None}
    for name in fabrics_of(named, specs, Project()):
        row = book.project.find_fabric(name)
        if row is not None and row.form in ("", "bolt") and "price" not in row.data:
            yield PricePlace(fabric=name, per="a yard", bolt=True)
    for heap in gather(snapshot_of(book, tabs), 1).heaps:
        tab = next((tab for tab in tabs if tab.key == heap.shares[0].key), None)
        if heap.fabric is None and tab is not None and any(open_places(tab, book)):
            yield PricePlace((tab.name,), tab.name, per="a yard", open=True, bolt=True)
