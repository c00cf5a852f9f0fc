"""Two writers of one file: merging by (tab, given) against the text that both began from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any, NamedTuple, TypeVar

from boltend.core.project.model import NO_SETTINGS, FabricRow, LadderRow, Project, Tab
from boltend.core.project.plain import FreeNames, Plain, folded, same_plain

Row = TypeVar("Row", Tab, FabricRow, LadderRow)
_ABSENT = object()


class Conflict(NamedTuple):
    """One key changed on both sides. `mine` or `theirs` is None where that side took it out."""

    where: str
    mine: Any
    theirs: Any


@dataclass
class Merge:
    """A merged project (mine where both changed the same key), with those conflicts."""

    project: Project
    conflicts: list[Conflict] = field(default_factory=list)


def rekeyed(theirs: Project, base: Project) -> Project:
    """The project on disk with the keys that its tabs, fabrics and ladders have here.

    A tab that kept its name is the same tab; of those left over, one that says the same was renamed.
    """
    return replace(
        theirs,
        fabrics=_matched(theirs.fabrics, base.fabrics),
        tabs=_matched(theirs.tabs, base.tabs),
        ladders=_matched(theirs.ladders, base.ladders),
    )


def _matched(theirs: tuple[Row, ...], base: tuple[Row, ...]) -> tuple[Row, ...]:
    by_name: dict[str, list[Row]] = {}
    for row in base:
        by_name.setdefault(folded(row.name), []).append(row)
    pairs: dict[int, Row] = {}
    for row in theirs:
        if same := by_name.get(folded(row.name)):
            pairs[row.key] = same.pop(0)
    left = [row for rows in by_name.values() for row in rows]
    for row in theirs:
        if row.key in pairs:
            continue
        twin = next((old for old in left if _alike(row.data, old.data)), None)
        if twin is not None:
            left.remove(twin)
            pairs[row.key] = twin
    return tuple(_with_key(row, pairs[row.key]) if row.key in pairs else row for row in theirs)


def _alike(one: Plain, other: Plain) -> bool:
    """Whether two tables say the same but for their names: then the one is the other, renamed."""
    return same_plain(
        {k: v for k, v in one.items() if k != "name"}, {k: v for k, v in other.items() if k != "name"}
    )


def _with_key(row: Row, old: Row) -> Row:
    # The old object itself where nothing differs, so that `is` tells what really changed.
    return old if same_plain(row.data, old.data) else replace(row, key=old.key)


def merge(base: Project, mine: Project, theirs: Project) -> Merge:
    """Both sides' changes since `base`; `theirs` must bear base's keys (see `rekeyed`)."""
    result = Merge(mine)
    root = _tables(result, "file", base.root, mine.root, theirs.root)
    settings: Plain = _tables(result, "project", base.settings, mine.settings, theirs.settings)
    if not settings and (mine.settings is NO_SETTINGS or theirs.settings is NO_SETTINGS):
        settings = NO_SETTINGS
    result.project = Project(
        root,
        settings,
        _rows(result, "fabric", base.fabrics, mine.fabrics, theirs.fabrics),
        _rows(result, "tab", base.tabs, mine.tabs, theirs.tabs),
        _rows(result, "ladder", base.ladders, mine.ladders, theirs.ladders),
    )
    return result


def _tables(result: Merge, where: str, base: Plain, mine: Plain, theirs: Plain) -> dict[str, Any]:
    """Key by key; `given` one level deeper. A rows given, a list and a link are each one value."""
    merged: dict[str, Any] = {}
    for key in {**mine, **theirs, **base}:
        old, own, other = (side.get(key, _ABSENT) for side in (base, mine, theirs))
        value = own
        if own is other or same_plain(own, other) or same_plain(old, other):
            value = own
        elif same_plain(old, own):
            value = other
        elif key == "given" and all(
            isinstance(side, Mapping) or side is _ABSENT for side in (old, own, other)
        ):
            sides: list[Any] = [{} if side is _ABSENT else side for side in (old, own, other)]
            value = _tables(result, f"{where} · given", *sides)
        else:
            absent_as_none = [None if side is _ABSENT else side for side in (own, other)]
            result.conflicts.append(Conflict(f"{where} · {key}", *absent_as_none))
        if value is not _ABSENT:
            merged[key] = value
    return merged


def _rows(
    result: Merge, word: str, base: tuple[Row, ...], mine: tuple[Row, ...], theirs: tuple[Row, ...]
) -> tuple[Row, ...]:
    """Rows by key. My order, with theirs put in after the row that precedes them there."""
    olds, owns, others = ({row.key: row for row in side} for side in (base, mine, theirs))
    kept: list[Row] = []
    for row in mine:
        merged = _row(result, word, olds.get(row.key), row, others.get(row.key))
        if merged is not None:
            kept.append(merged)
    before: int | None = None
    free = FreeNames(row.name for row in kept)
    for row in theirs:
        lost = row.key in olds and row.key not in owns
        if lost and olds[row.key] is not row:
            result.conflicts.append(Conflict(f'{word} "{row.name}"', None, row.data))
        if row.key not in olds:
            name = free.like(row.name) if row.name else ""
            free.take(name)
            data = row.data if name == row.name else {**row.data, "name": name}
            at = next((i + 1 for i, other in enumerate(kept) if other.key == before), 0)
            kept.insert(at, replace(row, data=data))
        before = row.key if any(other.key == row.key for other in kept) else before
    if [row.key for row in mine] == [row.key for row in base]:
        kept = _in_order_of(theirs, kept)
    return mine if len(kept) == len(mine) and all(map(_is, kept, mine)) else tuple(kept)


def _in_order_of(theirs: tuple[Row, ...], kept: list[Row]) -> list[Row]:
    """I moved nothing: then the order on disk is the one that was last wished for."""
    rank = {row.key: index for index, row in enumerate(theirs)}
    if not all(row.key in rank for row in kept):
        return kept
    return sorted(kept, key=lambda row: rank[row.key])


def _is(one: object, other: object) -> bool:
    return one is other


def _row(result: Merge, word: str, old: Row | None, own: Row, other: Row | None) -> Row | None:
    if old is None or other is old:
        return own
    if other is None:
        if own is old:
            return None  # they removed it, I did not touch it
        result.conflicts.append(Conflict(f'{word} "{own.name}"', own.data, None))
        return own
    if own is old:
        return other
    data = _tables(result, f'{word} "{old.name}"', old.data, own.data, other.data)
    return own if same_plain(data, own.data) else replace(own, data=data)
