"""Cloth in hand in a typed question, put into rows: “3 yd of cream, 2 yd blue”, “8 fat quarters”."""

import re
from collections.abc import Callable, Iterator

from boltend.core.contract import GivenSpec, Table
from boltend.shell.start_reading import NUMBER
from boltend.shell.start_search import words_of
from boltend.shell.start_taking import Open, Taking, stem

_LENGTH = re.compile(
    rf"(?<![\w/.])({NUMBER}) ?(yards?|yds?|m|met(?:re|er)s?)\b"
    r"(?: (?:of|in|a|the|my|some|one)\b)*((?: [a-z]+){0,3})"
)
"""How much, in what, and behind what joins them up to three words that may be its name."""

_NO_NAME = frozenset(
    words_of(
        "and or how what which is are do does can will for from to at with by on plus left over it enough "
        "i we she he have has want need make makes made cut into plain fabric fabrics cloth cotton cottons "
        "material stuff each wide long square squares quilt quilts block blocks x backing binding border "
        "borders"
    )
)
"""Words behind a length that are not what its fabric is called."""

_MOST = 40
"""Rows that are filled: more are no sentence."""


def has_cloth(rows: GivenSpec) -> bool:
    """Whether rows are cloth in hand: lengths by the yard with a name, or precuts and how many."""
    return _lengths(rows) is not None or _precuts(rows) is not None


def take_cloth(taking: Taking, at: Open, tables: Callable[[str], Table | None]) -> None:
    """Fill rows with the lengths and the precuts that a sentence tells, each with what it is called."""
    length, precut = _lengths(at.spec), _precuts(at.spec)
    found: list[tuple[dict[str, object], re.Match[str]]] = []
    if length is not None:
        found = [({length.name: text, **name}, match) for text, name, match in _said(taking, length)]
    elif precut is not None and (table := tables(precut.table or "")) is not None:
        found = [
            ({"how_many": many, precut.name: name} if many else {precut.name: name}, match)
            for name, many, match in [*_many(taking, table)] or [*_squares(taking, table)]
        ]
    if not found or len(found) > _MOST:
        return
    taking.values[at] = [row for row, _ in found]
    words = [(" × " if "how_many" in row else " ").join(map(str, row.values())) for row, _ in found]
    taking.said.append((at.tab, at.spec.label, ", ".join(words)))
    for _, match in found:
        taking.use(match)


def take_whole_squares(taking: Taking) -> None:
    """Squares of a pack for which no size of a piece is said are left whole."""
    for at, rows in [*taking.values.items()]:
        precut = _precuts(at.spec) if at.spec.kind == "rows" else None
        names = (
            {str(row[precut.name]) for row in rows} if precut is not None and isinstance(rows, list) else ()
        )
        piece = next((o for o in taking.opens if o.tab == at.tab and o.noun == stem("square")), None)
        if len(names) == 1 and piece is not None and (size := _square(*names)):
            taking.put(piece, size)


def _lengths(rows: GivenSpec) -> GivenSpec | None:
    named = any(column.name == "name" for column in rows.columns)
    return next((c for c in rows.columns if named and c.kind == "length" and c.unit == "yd"), None)


def _precuts(rows: GivenSpec) -> GivenSpec | None:
    counted = any(column.name == "how_many" for column in rows.columns)
    return next((c for c in rows.columns if counted and c.kind == "table_row"), None)


def _said(taking: Taking, spec: GivenSpec) -> Iterator[tuple[str, dict[str, object], re.Match[str]]]:
    for match in taking.free(_LENGTH):
        text = f"{match[1]} {'yd' if match[2].startswith('y') else 'm'}"
        if taking.reads(spec, text):
            name = _name(match[3])
            yield text, {"name": name} if name else {}, match


def _name(words: str) -> str:
    name: list[str] = []
    for word in words.split()[:2]:
        if word in _NO_NAME:
            break
        name.append(word)
    return " ".join(name)


def _many(taking: Taking, table: Table) -> Iterator[tuple[str, int, re.Match[str]]]:
    """Precuts that are called by words alone, as fat quarters: a number in a name may be a piece's size."""
    for name in table.rows:
        if all(c.isalpha() or c == " " for c in name):
            for match in taking.free(re.compile(rf"(?<![\w/.])(\d+) {re.escape(name)}s?\b")):
                yield name, int(match[1]), match


def _squares(taking: Taking, table: Table) -> Iterator[tuple[str, int, re.Match[str]]]:
    """Squares of packs, and how many: 0 where a whole pack is meant. Out of yards squares are cut."""
    if _LENGTH.search(taking.text):
        return
    for name, row in table.rows.items():
        size = re.escape(_square(name))
        pack = rf"(?:(?:(\d+)|an?|one|my|the) )?{size} square packs?(?: (?:of|with) (\d+))?"
        loose = rf"(\d+) (?:{size} squares|squares of {size})\b"
        for match in taking.free(re.compile(rf"(?<![\w/.])(?:{pack}|{loose})(?![\w/])")) if size else ():
            packs, of, single = match.groups()
            each = of or (row.get("pieces") if packs else None)
            yield name, int(single or 0) or int(packs or 1) * int(str(each or 0)), match


def _square(name: str) -> str:
    """The size of a square by the name of its pack, “10 in” of the 10 in square pack; nothing of others."""
    size, is_square, _ = name.partition(" square pack")
    return size if is_square else ""
