"""A hatch for every fill, so that fills are told apart without colour."""

from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise

from boltend.core.drawing.picture import Picture, Sign
from boltend.core.drawing.widths import cells_of, clean

MARKS = (" ", "░", "▒", "·", "+", "~", "▓", "×", "=", "%")
ASCII_MARKS = (" ", "/", "#", "+", "~", "o", "*", "x", "%", "@")
SPACED = frozenset("·+×ox*@%~=")
"""Marks that, where there is room, stand in every fourth cell, shifted from row to row: a lighter tone."""

WASTE = ("waste", "left over")
"""Fills that are always hatched: what is thrown away or kept for another time."""


def hatched(fills: Sequence[str], owners: Sequence[Sequence[int]], *, ascii: bool) -> dict[str, str]:  # noqa: A002 - as in `draw`
    """A mark for every fill that is seen in a raster of areas: the largest is blank, and all differ.

    With more fills than marks those that touch still differ where that can be had. `fills` are the areas', by
    their number in `owners`, where -1 is none. The order of the result is from the largest to the smallest.
    """
    seen = Counter(owner for row in owners for owner in row)
    cells: Counter[str] = Counter()
    for owner, count in seen.items():
        if owner >= 0:
            cells[fills[owner]] += count
    for fill in fills:
        cells.setdefault(fill, 0)
    ordered = sorted(cells, key=lambda fill: -cells[fill])
    marks: tuple[str, ...] = ASCII_MARKS if ascii else MARKS
    waste = [fill for fill in ordered if fill in WASTE]
    others = [fill for fill in ordered if fill not in WASTE]
    if waste:
        marks = (marks[0], *marks[2:])
    if len(others) <= len(marks):
        chosen = dict(zip(others, marks, strict=False))
    else:
        chosen = _apart(others, _touching(fills, owners), marks)
    chosen.update(dict.fromkeys(waste, (ASCII_MARKS if ascii else MARKS)[1]))
    return {fill: chosen[fill] for fill in ordered}


def _apart(fills: Sequence[str], touching: dict[str, set[str]], marks: Sequence[str]) -> dict[str, str]:
    chosen: dict[str, str] = {}
    for number, fill in enumerate(fills):
        taken = {chosen.get(other) for other in touching[fill]}
        free = [mark for mark in marks if mark not in taken] or marks
        chosen[fill] = free[number % len(free)]
    return chosen


def _touching(fills: Sequence[str], owners: Sequence[Sequence[int]]) -> dict[str, set[str]]:
    """Which fills are seen beside or below each other."""
    found: dict[str, set[str]] = defaultdict(set)
    beside = {pair for row in owners for pair in pairwise(row)}
    below = {pair for rows in pairwise(owners) for pair in zip(*rows, strict=True)}
    for one, other in beside | below:
        if one >= 0 and other >= 0 and fills[one] != fills[other]:
            found[fills[one]].add(fills[other])
            found[fills[other]].add(fills[one])
    return found


def sign_words(
    sign: Sign,
    facts: Mapping[str, str] | None = None,
    *,
    ascii: bool = False,  # noqa: A002 - as in `draw`
) -> str:
    """What a hatch stands for, `Slate: inner (2 in wide), outer`; nothing for what has no name."""
    facts, fill = facts or {}, clean(sign.fill, ascii=ascii)

    def told(name: str) -> str:
        fact = facts.get(name)
        return clean(f"{name} ({fact})" if fact else name, ascii=ascii)

    if not any(clean(label, ascii=ascii) != fill for label in sign.labels):
        return told(sign.fill) if fill else ""
    names = ", ".join(filter(None, map(told, sign.labels)))
    return f"{fill}: {names}" if fill else names


def legend_entries(
    picture: Picture,
    facts: Mapping[str, str] | None = None,
    *,
    ascii: bool = False,  # noqa: A002 - as in `draw`
) -> list[str]:
    """What each hatch is, `[░] Slate: inner`."""
    named = [(sign.mark, sign_words(sign, facts, ascii=ascii)) for sign in picture.signs]
    entries = [f"[{mark}] {name}" for mark, name in named if name]
    return [*entries, *(["(seams too close together to draw)"] if picture.left_out else [])]


def legend(
    picture: Picture,
    columns: int,
    facts: Mapping[str, str] | None = None,
    *,
    ascii: bool = False,  # noqa: A002 - as in `draw`
) -> list[str]:
    """Lines of at most `columns` cells that say which hatch is what: `[░] Slate: inner   [ ] block`."""
    lines: list[str] = []
    for entry in legend_entries(picture, facts, ascii=ascii):
        joined = f"{lines[-1]}   {entry}" if lines else entry
        if lines and cells_of(joined) <= columns:
            lines[-1] = joined
        else:
            lines.append(entry)
    return [part for line in lines for part in _broken(line, columns)]


def _broken(entry: str, columns: int) -> Iterator[str]:
    """One entry in lines, broken between its names; nothing where one of them has no room."""
    lines: list[str] = []
    for name in entry.replace(", ", ",\n").split("\n") if cells_of(entry) > columns else [entry]:
        joined = f"{lines[-1]} {name}" if lines else name
        if lines and cells_of(joined) > columns:
            lines.append(f"    {name}")
        else:
            lines[-1:] = [joined]
    return iter(lines if all(cells_of(line) <= columns for line in lines) else ())
