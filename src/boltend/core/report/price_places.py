"""Where the price of a line of To buy is written, and the project with one there."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from boltend.core.flow import Workbook
from boltend.core.pool import FabricPlan, GoodsLine
from boltend.core.pool.heaps import OpenFabric, open_fabrics
from boltend.core.project.edits import set_cell, set_given
from boltend.core.project.edits_fabrics import add_fabric, set_fabric
from boltend.core.project.model import Project, Tab
from boltend.core.project.plain import free_name
from boltend.core.values import KINDS, Notation, NotationError


@dataclass(frozen=True)
class PricePlace:
    """A fabric's price, or the given of a name in `tabs`.

    `fabric` is the name of a fabric, or with `open` the name that one gets which the tab does not choose yet.
    `per` is how it is priced, as one says it: "a yard", "each", "a spool". `lacking` tells that some of a
    fabric is bought without a price.
    """

    tabs: tuple[str, ...] = ()
    fabric: str = ""
    given: str = ""
    per: str = "each"
    open: bool = False
    bolt: bool = False
    lacking: bool = False

    def is_like(self, other: "PricePlace") -> bool:
        """Whether what one fabric costs may be said of another, too."""
        return not self.given and not other.given and (self.per, self.bolt) == (other.per, other.bolt)


def place_of_fabric(fabric: FabricPlan, how: Notation) -> PricePlace | None:
    """Where a fabric's price goes; None where no given of its tab would name one."""
    cloth = fabric.cloth
    if not fabric.named and not fabric.chosen_as:
        return None
    per = "each" if cloth.precut is not None else "a yard" if how.system == "in" else "a metre"
    tabs = tuple(tab for tab, _ in fabric.alone)
    lacking = cloth.price is None and bool(fabric.buy.length or fabric.buy.packs)
    return PricePlace(tabs, cloth.name, "", per, not fabric.named, cloth.precut is None, lacking)


def place_of_goods(line: GoodsLine) -> PricePlace | None:
    """Where the price of goods goes; None where no given takes it."""
    goods = line.goods
    return PricePlace(line.tabs, "", goods.price_given, f"a {goods.unit}") if goods.price_given else None


def wrong_price(place: PricePlace, text: str, book: Workbook) -> str:
    """What is wrong with a typed price; nothing where it will do."""
    spec = next((s for tab in _tabs(place, book) if (s := book.results[tab.key].spec)), None)
    given = spec.given(place.given) if spec is not None and place.given else None
    unit = given.unit if given is not None else "yd" if place.bolt else ""
    try:
        price = KINDS["price"].read(text, book.basis.how, unit)
    except (NotationError, ValueError) as error:
        return str(error)
    if given is None and (price.per is not None) != place.bolt:
        return f"It is priced {place.per}: write “12.50”."
    return ""


def with_prices(places: Iterable[PricePlace], text: str, book: Workbook) -> Project:
    """The project with this price in each place.

    A fabric that there is none of yet is made, and chosen where none was.
    """
    project = book.project
    for place in places:
        project = _priced(project, place, text, book)
    return project


def _priced(project: Project, place: PricePlace, text: str, book: Workbook) -> Project:
    if place.given:
        for tab in _tabs(place, book):
            project = set_given(project, tab.key, place.given, text)
        return project
    row = project.find_fabric(place.fabric) if not place.open else None
    if row is not None:
        return set_fabric(project, row.key, "price", text)
    name = free_name(place.fabric, [row.name for row in project.fabrics if row.name])
    project = add_fabric(project, name, {"price": text})
    for tab in _tabs(place, book) if place.open else ():
        for each in open_places(tab, book):
            if each.column:
                project = set_cell(project, tab.key, each.given, each.row, each.column, name)
            else:
                project = set_given(project, tab.key, each.given, name)
    return project


def open_places(tab: Tab, book: Workbook) -> Iterator[OpenFabric]:
    """The givens of a tab that choose no fabric yet; rows that are linked, or are not there, choose none."""
    for each in open_fabrics(book.results[tab.key]):
        rows = tab.given.get(each.given)
        if not each.column or (isinstance(rows, list) and each.row < len(rows)):
            yield each


def _tabs(place: PricePlace, book: Workbook) -> Iterator[Tab]:
    return (tab for name in place.tabs if (tab := book.project.find_tab(name)) is not None)
