"""One tab as words: what every printed form shows, each in its own way."""

from collections.abc import Callable
from dataclasses import dataclass, replace

from boltend.core.contract import FoundSpec, GivenSpec, Shape
from boltend.core.flow import Result, Workbook
from boltend.core.flow.givens import GivenState
from boltend.core.project.model import Tab
from boltend.core.report.near import sizes_as
from boltend.core.report.words import caution_lines, say_value, working_lines
from boltend.core.values import Number

LONGEST_RAW = 60
"""Characters of a text that could not be read: a file may hold a megabyte in its place."""


@dataclass(frozen=True)
class Entry:
    """A labelled value: `origin` says where a given comes from, `also` gives the other system.

    `name` is that of a found.
    """

    label: str
    value: str
    origin: str = ""
    also: str = ""
    name: str = ""


@dataclass(frozen=True)
class Grid:
    """Rows under labelled columns; `name` is that of a found."""

    label: str
    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    name: str = ""

    @property
    def text(self) -> str:
        """As it goes into a sheet of another program: a line for each row, tabs between the cells."""
        return "\n".join("\t".join(cells) for cells in (self.columns, *self.rows))


@dataclass(frozen=True)
class TabSheet:
    """A tab in words: Given, Found, Working, Cautions; or its state and why.

    `shapes` are its picture, the sizes of which `show` says.
    """

    name: str
    calculator: str
    asks: str
    state: str
    why: tuple[str, ...]
    note: str
    flags: tuple[str, ...]
    given: tuple[Entry, ...]
    found: tuple[Entry, ...]
    grids: tuple[Grid, ...]
    working: tuple[str, ...]
    cautions: tuple[str, ...]
    shapes: tuple[Shape, ...] = ()
    show: Callable[[Number], str] = str


def tab_sheet(book: Workbook, tab: Tab, *, given: bool = True, also: bool = True) -> TabSheet:
    """The sheet of one tab, where nobody reads them without what is `given` or what is `also` said."""
    result = book.results[tab.key]
    spec = result.spec
    return TabSheet(
        name=tab.name,
        calculator=tab.calculator,
        asks=spec.asks if spec else "",
        state=result.state,
        why=result.reasons,
        note=tab.note,
        flags=tuple(word for word, said in (("aside", tab.aside), ("done", tab.done)) if said),
        given=_given(book, tab, result, also) if given else (),
        found=_found(book, tab, result, also),
        grids=_grids(result, given),
        working=tuple(working_lines(result)),
        cautions=tuple(caution_lines(result)),
        shapes=tuple(result.answer.picture) if result.answer else (),
        show=sizes_as(result.settings),
    )


def _given(book: Workbook, tab: Tab, result: Result, also: bool) -> tuple[Entry, ...]:
    prepared = book.prepared(tab.key)
    if prepared is None:
        return ()
    return tuple(
        _pointed(given_entry(state, result, also=also, takes=takes_of(book, state)), state, result)
        for state in prepared.states.values()
        if state.speaks != "empty" or state.trouble is not None
    )


def _pointed(entry: Entry, state: GivenState, result: Result) -> Entry:
    """Of rows, how many there are, and where they stand."""
    has_grid = state.spec.kind == "rows" and state.trouble is None and result.args.get(state.spec.name)
    return replace(entry, value=f"{entry.value}, below") if has_grid else entry


def takes_of(book: Workbook, state: GivenState) -> str:
    """The label of the found that a given takes; nothing of one that is not linked."""
    return book.label_of(state.link) if state.link is not None else ""


def given_entry(state: GivenState, result: Result, *, also: bool = True, takes: str = "") -> Entry:
    """One given as words, with who says it, and where `also` is wanted in the other system.

    `takes` is the label of what its link takes, `takes_of` has it.
    """
    how, spec = result.settings.notation, state.spec
    origins = {
        "default": "default",
        "project": "the project's",
        "fabric": "the fabric's",
        "calculator": "default",
        "boltend": "default",
    }
    origin = f"from “{state.link.tab}” · {takes}" if state.link else origins.get(state.speaks, "")
    if state.trouble is not None:
        return Entry(spec.label, _raw_words(state.raw), origin)
    value = result.args.get(spec.name) if state.link else state.value
    text = say_value(spec, value, how)
    return Entry(spec.label, text, origin, _also(spec, value, result) if also else "")


def _raw_words(raw: object) -> str:
    """What stands there, as it stands there; the reason beside it tells what is wrong with it."""
    words = "–" if raw is None or raw == "" else raw if isinstance(raw, str) else str(raw)
    return words if len(words) <= LONGEST_RAW else words[: LONGEST_RAW - 1] + "…"


def _also(spec: GivenSpec | FoundSpec, value: object, result: Result) -> str:
    if value is None or not spec.is_length:
        return ""
    return spec.reader.also(value, result.settings.notation, spec.unit) or ""


def _found(book: Workbook, tab: Tab, result: Result, also: bool) -> tuple[Entry, ...]:
    """The founds but rows; one without a value only where somebody waits for it: a caution says why."""
    if result.spec is None or result.answer is None:
        return ()
    how = result.settings.notation
    return tuple(
        Entry(
            spec.label,
            say_value(spec, result.found[spec.name], how),
            "",
            _also(spec, result.found[spec.name], result) if also else "",
            spec.name,
        )
        for spec in result.spec.founds
        if spec.kind != "rows" and (result.found[spec.name] is not None or book.users(tab.key, spec.name))
    )


def _grids(result: Result, given: bool) -> tuple[Grid, ...]:
    """The rows that were given, where they are wanted, and those that were found."""
    if result.spec is None:
        return ()
    givens = result.spec.givens if given else ()
    grids = [_grid(spec, result.args.get(spec.name), result) for spec in givens if spec.kind == "rows"]
    grids += [
        _grid(spec, result.found.get(spec.name), result) for spec in result.spec.founds if spec.kind == "rows"
    ]
    return tuple(grid for grid in grids if grid.rows)


def _grid(spec: GivenSpec | FoundSpec, value: object, result: Result) -> Grid:
    how = result.settings.notation
    rows = value if isinstance(value, tuple) else ()
    columns = [c for c in spec.columns if any(row.get(c.name) is not None for row in rows)]
    return Grid(
        spec.label,
        tuple(column.label for column in columns),
        tuple(tuple(say_value(column, row.get(column.name), how) for column in columns) for row in rows),
        spec.name if isinstance(spec, FoundSpec) else "",
    )
