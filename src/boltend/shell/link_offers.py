"""What may feed a given: the founds of other tabs that fit and make no circle."""

from collections.abc import Iterator

from boltend.core.contract import FoundSpec, GivenSpec
from boltend.core.flow import Workbook
from boltend.core.flow.links import Fit, fit
from boltend.core.project.model import Tab
from boltend.core.report.words import say_line, say_value
from boltend.shell.dialogs import Offer

LinkTo = tuple[str, str]
"""Name of a tab, name of its found."""


def link_offers(book: Workbook, tab: Tab, given: GivenSpec) -> list[Offer[LinkTo]]:
    """What fits: founds of the same name first, and of those the one in the nearest tab before this one.

    A binding made after its borders goes round them, not round the top within.
    """
    offers = list(_offers(book, tab, given))
    return sorted(offers, key=lambda o: o.value[1] not in given.name and o.value[1] not in given.takes)


def sure_link(book: Workbook, tab: Tab, given: GivenSpec) -> LinkTo | None:
    """The found that says the same as a given: it bears its name, or one that the given takes.

    Of the nearest tab before this one, else of the one tab behind it that has such a found; where several
    have, nobody could say which is meant. Of two in one tab the one that needs no conversion.
    """
    names = (given.name, *given.takes)
    says = [offer.value for offer in _offers(book, tab, given) if offer.value[1] in names]
    before = {other.name for other in book.project.tabs[: book.project.tabs.index(tab)]}
    sources = [name for name, _ in says]
    if not sources or (sources[0] not in before and len(set(sources)) > 1):
        return None

    def plainness(link: LinkTo) -> tuple[bool, int]:
        spec = book.results[book.project.tab(link[0]).key].spec
        assert spec is not None  # it was offered
        found = next(found for found in spec.founds if found.name == link[1])
        return fit(found, given).convert is not None, names.index(link[1])

    return min((link for link in says if link[0] == sources[0]), key=plainness)


def _offers(book: Workbook, tab: Tab, given: GivenSpec) -> Iterator[Offer[LinkTo]]:
    # What this tab feeds, at any distance, would make a circle.
    circle = _fed(book, tab.key)
    tabs = book.project.tabs
    at = tabs.index(tab)
    for other in (*reversed(tabs[:at]), *tabs[at:]):
        # Of two tabs with one name a link means the first.
        if other.key in circle or not other.name or book.project.find_tab(other.name) is not other:
            continue
        spec = book.runner.spec(other.calculator)
        for found in spec.founds if spec is not None else ():
            fitting = fit(found, given)
            if not fitting.misfit:
                yield _offer(book, tab, given, other, found, fitting)


def _fed(book: Workbook, key: int) -> set[int]:
    """The tab itself and all that it feeds, at any distance."""
    seen, to_see = set(), [key]
    while to_see:
        one = to_see.pop()
        if one not in seen:
            seen.add(one)
            to_see.extend(book.graph.feeds.get(one, ()))
    return seen


def _offer(
    book: Workbook, tab: Tab, given: GivenSpec, other: Tab, found: FoundSpec, fitting: Fit
) -> Offer[LinkTo]:
    settings = book.results[tab.key].settings
    value = book.results[other.key].found.get(found.name)
    note = ""
    if value is not None and fitting.convert is not None and fitting.note is not None:
        after = fitting.convert(value, settings)
        said = say_line(fitting.note(given.label, other.name, value, after), settings.notation)
        # Which tab gives what stands in the line above.
        note = said.rpartition("; ")[2]
    says = say_value(found, value, settings.notation) if value is not None else "no value yet"
    return Offer((other.name, found.name), f"“{other.name}” · {found.label}", says, note, find=found.name)
