"""A project as Python sees it: its tabs, what they find, the lists, and what else could be asked."""

import os
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType, TracebackType
from typing import Any, Self

from boltend.core.asking import Backwards, Rung, back, climb, read_ladder, read_wish
from boltend.core.flow import Workbook
from boltend.core.flow.nodes import near
from boltend.core.host import Host
from boltend.core.pool import Lists, Pool
from boltend.core.project.edits import set_given
from boltend.core.project.model import Tab
from boltend.core.project.saving import ProjectFile
from boltend.core.report.list_words import buy_sheet, cut_sheets
from boltend.core.report.words import caution_lines, working_lines
from boltend.core.values import Price
from boltend.door.value import Value, value_of


@dataclass(frozen=True)
class QuiltTab:
    """One tab, worked out.

    `state` is `worked out`, `waiting` (for a tab that failed) or `cannot`; `why` says what stands in the way.
    `tab["width"]` is what it found of that name. Names are those of the file and of `boltend calculators`.
    """

    name: str
    calculator: str
    asks: str
    state: str
    why: tuple[str, ...]
    given: Mapping[str, Value]
    found: Mapping[str, Value]
    working: tuple[str, ...]
    cautions: tuple[str, ...]

    def __getitem__(self, found: str) -> Value:
        """What it found. Raises KeyError with the nearest name, and with why there is nothing."""
        if found not in self.found:
            reason = " ".join(self.why) or near(found, list(self.found))
            raise KeyError(f"“{self.name}” finds no {found!r}. {reason}".strip())
        return self.found[found]


@dataclass(frozen=True)
class Purchase:
    """One line of To buy.

    `length` is inches off the bolt, `packs` counts those of a precut, `amount` other goods in `unit`; what
    does not fit the thing is None, and so is `cost` without a price. `text` is what the list shows.
    """

    name: str
    text: str
    length: Fraction | None
    packs: int | None
    amount: Fraction | None
    unit: str
    cost: Price | None


class Quilt:
    """A project that is open; nothing here changes its file but `save`.

    `quilt["Top"]` is a tab. Close it, or use it in a `with`, so that its worker process ends.
    """

    def __init__(self, host: Host, file: ProjectFile, book: Workbook) -> None:
        self._host, self._file, self._book = host, file, book
        self._pool = Pool()

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    def close(self) -> None:
        """End what runs for it, and for all that `with_given` made of it."""
        self._host.close()

    # Reading --------------------------------------------------------------------------------------

    @property
    def name(self) -> str:
        """The project's name."""
        return self._book.project.name

    @property
    def problems(self) -> tuple[str, ...]:
        """What is wrong in the file, each with its line; the tabs that are right are there all the same."""
        return tuple(str(problem) for problem in self._file.problems(self._book.project))

    @property
    def tabs(self) -> tuple[QuiltTab, ...]:
        """All tabs in the order of the file."""
        return tuple(self._tab(tab) for tab in self._book.project.tabs)

    def __iter__(self) -> Iterator[QuiltTab]:
        return iter(self.tabs)

    def __len__(self) -> int:
        return len(self._book.project.tabs)

    def __getitem__(self, name: str) -> QuiltTab:
        """The tab of this name. Raises KeyError with the nearest one."""
        return self._tab(self._find(name))

    def _find(self, name: str) -> Tab:
        tab = self._book.project.find_tab(name)
        if tab is None:
            names = [each.name for each in self._book.project.tabs]
            raise KeyError(f"There is no tab {name!r}. {near(name, names)}".strip())
        return tab

    def _tab(self, tab: Tab) -> QuiltTab:
        result = self._book.results[tab.key]
        spec, worked = result.spec, result.answer is not None
        given = (
            {each.name: value_of(each, result.args.get(each.name), result) for each in spec.givens}
            if spec
            else {}
        )
        found = (
            {each.name: value_of(each, result.found.get(each.name), result) for each in spec.founds}
            if spec
            else {}
        )
        return QuiltTab(
            name=tab.name,
            calculator=tab.calculator,
            asks=spec.asks if spec else "",
            state=result.state,
            why=tuple(str(trouble) for trouble in result.troubles),
            given=MappingProxyType(given),
            found=MappingProxyType(found if worked else {}),
            working=tuple(working_lines(result)),
            cautions=tuple(caution_lines(result)),
        )

    # The lists ------------------------------------------------------------------------------------

    @property
    def _lists(self) -> Lists:
        return self._pool.lists(self._book)

    @property
    def to_buy(self) -> tuple[Purchase, ...]:
        """The shopping list: fabrics in the order in which tabs name them, then other goods."""
        lists = self._lists
        said = [row.amount for row in buy_sheet(lists, self._book.basis.settings.notation).rows]
        rows: list[Purchase] = []
        for fabric, text in zip(lists.fabrics, said, strict=False):
            precut = fabric.cloth.precut is not None
            length, packs = (None, fabric.buy.packs) if precut else (fabric.buy.length, None)
            rows.append(Purchase(fabric.cloth.name, text, length, packs, None, "", fabric.buy.cost))
        for line, text in zip(lists.goods, said[len(lists.fabrics) :], strict=True):
            goods = line.goods
            rows.append(Purchase(goods.name, text, None, None, Fraction(goods.amount), goods.unit, line.cost))
        return tuple(rows)

    @property
    def total(self) -> Price | None:
        """What all costs that has a price; None where nothing has one."""
        return self._lists.total

    @property
    def to_cut(self) -> Mapping[str, tuple[str, ...]]:
        """The steps at the cutting table, in order, by the fabric's title; first what is done before."""
        sheets = cut_sheets(self._lists, self._book.basis.settings.notation)
        return MappingProxyType({sheet.title: sheet.steps for sheet in sheets})

    # Asking ---------------------------------------------------------------------------------------

    def with_given(self, tab: str, given: str, value: Any) -> "Quilt":
        """The same project with another value for one given, worked out through all links; this one stays.

        `value` is what a project file would say: a text in the trade's notation (`"12 1/2 in"`), an int, a
        bool, a list, rows as dicts, a link `{"from": tab, "take": found}`, or None for nothing; also a
        `Value`. Raises KeyError where there is no such tab or given; a value that cannot be read makes the
        tab `cannot`.
        """
        key = self._find(tab).key
        spec = self._book.results[key].spec
        if spec is None or spec.given(given) is None:
            names = [each.name for each in spec.givens] if spec else []
            raise KeyError(f"“{tab}” has no given {given!r}. {near(given, names)}".strip())
        raw = value.text if isinstance(value, Value) else value
        project = set_given(self._book.project, key, given, raw)
        return Quilt(self._host, self._file, Workbook(self._host, project))

    def ladder(
        self, tab: str, given: str, values: Iterable[Any], take: Iterable[Any] = ("to buy",)
    ) -> tuple[Rung, ...]:
        """One given through several values: for each a rung with a cell for every column.

        `take` lists founds of the tab by name, of other tabs as links, and `"to buy"` for what is to buy with
        the total. A cell has `text` and, where it is a number, `amount`. Raises `boltend.door.AskError`.
        """
        said = {"tab": tab, "given": given, "values": list(values), "take": list(take)}
        return tuple(climb(self._book, read_ladder(self._book, said), self._pool))

    def back(
        self, tab: str, given: str, take: Any, wanted: str, reach: str = "at least", **limits: str
    ) -> Backwards:
        """Which values of a given make a found, or `"total"`, reach what is wanted.

        `hits` are all that do, `misses` the nearest where none does; `finer` is what was tried between the
        given's own steps. `least=`, `most=` and `step=` say along which values. The given may be one cell of
        rows, `borders.2.width`, or the same in all of them, `borders.all.width`.
        Raises `boltend.door.AskError` where it cannot be asked.
        """
        said = {"tab": tab, "given": given, "take": take, "wanted": wanted, "reach": reach, **limits}
        return back(self._book, read_wish(self._book, said), self._pool)

    # Keeping --------------------------------------------------------------------------------------

    def save(self) -> None:
        """Write the project into its file: comments stay, the version before is kept beside it.

        What somebody else has changed in the file since is merged in; where both changed the same given,
        raises `ChangedOnDisk`, and `SaveFailed` where it cannot be written.
        """
        saved = self._file.save(self._book.project)
        self._book = Workbook(self._host, saved.project)


def open_quilt(path: str | os.PathLike[str]) -> Quilt:
    """Open a project file and work it out. Raises `ProjectUnreadable` where it cannot be read."""
    file = ProjectFile.open(os.fspath(path))
    host = Host.load()
    try:
        return Quilt(host, file, Workbook(host, file.saved))
    except BaseException:
        host.close()
        raise
