"""Rows of a typed question: the widths of borders from the inside out, and a bed or a precut by its name."""

import re
from collections.abc import Callable, Mapping, Sequence

from boltend.core.contract import Table
from boltend.core.project.plain import folded
from boltend.core.values.lengths import inches_of
from boltend.shell.start_reading import INCHES, LENGTH, NUMBER, UNIT
from boltend.shell.start_taking import Open, Taking

_COUNTED = (
    r"(?![\w/.]| ?(?:by|x|×)\b| (?:[a-z]+ )?(?:blocks?|squares?|strips?|pieces?|rows?|borders?|quilts?)\b)"
)
"""“borders of 2, 30 blocks” are 2 wide, and never 30."""
_WIDTH = rf"(?>{NUMBER}{UNIT}){_COUNTED}"
_WIDTHS = rf"{_WIDTH}(?:(?:, (?:and |then )?|; | and | then ){_WIDTH})*"
_MEASURED = rf"{NUMBER} ?(?:in|inch|inches|cm|mm|[\"″])(?![a-z])"
_WIDEST = 24
"""Inches: a number above it is no border's width."""
_MOST = 9
"""Rows that one width is written into."""


def take_rows(taking: Taking, at: Open, said: object) -> None:
    """The widths of rows, as of borders: “two borders, 2 in and 4 in”, from the inside out.

    A count that is the question's own, or the widths', is heard; one width of several rows is that of each.
    """
    width = next((c for c in at.spec.columns if c.name == "width"), None)
    rows = [dict(row) for row in said if isinstance(row, Mapping)] if isinstance(said, list) else []
    if width is None:
        return
    noun = rf"{re.escape(at.noun)}[a-z]*\b"
    count = next(taking.free(re.compile(rf"(?<![\w/.])(\d+) (?!in |inch|cm |mm )(?:[a-z]+ )?{noun}")), None)
    many = int(count[1]) if count is not None else 0
    if any("width" in row for row in rows):  # they are found, and not said
        if count is not None and many == len(rows):
            taking.use(count)
        return
    behind = rf"{noun}(?: (?:of|at|are|is|with|each|both|measuring|wide))*[:,]? ({_WIDTHS})"
    before = rf"({_MEASURED}(?:(?:, | and ){_MEASURED})*)(?: wide)? (?:[a-z]+ )?{noun}"
    for found in (*taking.free(re.compile(behind)), *taking.free(re.compile(before))):
        widths = [match.group().strip() for match in LENGTH.finditer(found[1])]
        if all(taking.reads(width, text) and 0 < inches_of(text, INCHES) <= _WIDEST for text in widths):
            if len(widths) == 1:
                widths *= min(max(1, many), _MOST)
            rows += [_named(at, n) if rows else {} for n in range(len(rows) + 1, len(widths) + 1)]
            taking.values[at] = [{**row, "width": text} for row, text in zip(rows, widths, strict=False)]
            taking.said.append((at.tab, at.spec.label.partition(",")[0], ", ".join(widths)))
            taking.use(found)
            break
    now = taking.values.get(at, rows)
    if count is not None and isinstance(now, list) and many == len(now):
        taking.use(count)


def _named(at: Open, number: int) -> dict[str, object]:
    """One row more than the question has, of a fabric of its own, too."""
    name = f"{at.spec.label.partition(',')[0].removesuffix('s')} {number}"
    return {"name": name, "fabric": name}


def take_row(taking: Taking, tables: Callable[[str], Table | None]) -> Mapping[str, object]:
    """A row by its name, as a bed or a precut, in the first tab, where it is one row's name alone."""
    for at in taking.opens:
        table = tables(at.spec.table) if at.spec.table is not None and at.tab == 0 else None
        if table is None:
            continue
        found: dict[str, re.Match[str]] = {}
        for name in table.rows:
            match = next(taking.free(_row_pattern(name)), None)
            if match is not None:
                found[name] = match
        if any(name[0].isalpha() for name in found):  # of fat quarters and 5 in squares, these are cut
            found = {name: match for name, match in found.items() if name[0].isalpha()}
        longest = max((len(match.group()) for match in found.values()), default=0)
        names = [name for name, match in found.items() if len(match.group()) == longest]
        if len(names) > 1 and taking.how.system != "cm":
            names = [name for name in names if name.startswith("US ")] or names[: _only_precuts(names)]
        if len(names) == 1 and taking.put(at, names[0]):
            _take_packs(taking, names[0], table.rows[names[0]].get("pieces"))
            if names[0][0].isdigit():
                taking.use(found[names[0]])  # its size is its name
            return table.rows[names[0]]
    return {}


def _take_packs(taking: Taking, name: str, pieces: object) -> None:
    """So many packs, or a pack of so many, as the precuts that are in them; `pieces` are in one."""
    one = re.escape(name.rpartition(" ")[0])
    packs = re.compile(
        rf"(?<![\w/.])(?:(\d+) )?(?:{one} )?(?:pack|roll)s?(?: (?:of|with) (\d+))?(?![\w/.]| in\b)"
    )
    at = taking.named("precut", ("count",))
    for match in taking.free(packs) if at is not None else ():
        each = match[2] or (pieces if match[1] else None)
        if at is not None and each and taking.put(at, str(int(match[1] or 1) * int(str(each)))):
            taking.use(match)


def _row_pattern(name: str) -> re.Pattern[str]:
    """How a row is called in passing: “queen”, “10 in squares” for the 10 in square pack."""
    short = _without_place(name)
    if short[:1].isdigit():
        words = short.split()
        size = next((n for n, word in enumerate(words) if word in ("square", "strip")), None)
        if size is not None:
            return re.compile(rf"(?<![\w/.]){re.escape(' '.join(words[: size + 1]))}s?\b")
    return re.compile(rf"(?<!\w){re.escape(short)}s?(?!\w)")


def _only_precuts(names: Sequence[str]) -> int:
    """Of precuts that are called alike the first is meant; of anything else none."""
    return 1 if all(name[0].isdigit() for name in names) else 0


def _without_place(name: str) -> str:
    """A bed's name without the country that it is of."""
    first, _, rest = folded(name).partition(" ")
    return rest if rest and first.isalpha() and len(first) == len("us") else folded(name)
