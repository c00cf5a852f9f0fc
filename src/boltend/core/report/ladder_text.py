"""A ladder in words: a table with the values across, what is taken down, and a little plot of each row."""

import unicodedata
from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Any

from boltend.core.asking import Ladder, Rung, Spot
from boltend.core.asking.ladder import columns
from boltend.core.flow import Workbook
from boltend.core.report.words import say_line, say_value
from boltend.core.values import visible

BARS = "▁▂▃▄▅▆▇█"
LEAST_FOR_PLOT = 3


def ladder_text(ladder: Ladder, rungs: Sequence[Rung], width: int = 100) -> str:
    """The table, in as many parts as the width needs; below it why something is missing."""
    names = columns(rungs)
    plots = {name: plot([_amount(rung, name) for rung in rungs]) for name in names}
    head = max([len(ladder.spot.label), *map(_width, names)])
    lines = [f"{visible(ladder.name)}", ""] if ladder.name else []
    for part in _parts(rungs, names, width - head - 2):
        widths = [max(_width(rung.value), *(_width(_text(rung, name)) for name in names), 1) for rung in part]
        lines.append(_row(ladder.spot.label, [rung.value for rung in part], head, widths))
        for name in names:
            row = _row(name, [_text(rung, name) for rung in part], head, widths)
            last = part[-1] is rungs[-1]
            lines.append(f"{row}  {plots[name]}".rstrip() if last else row)
        lines.append("")
    lines += _missing(rungs, names)
    lines += [f"! {text}" for text in ladder_left_out(rungs)]
    lines += [f"- {text}" for text in ladder_cautions(ladder, rungs)]
    return "\n".join(lines).rstrip() + "\n"


def ladder_cautions(ladder: Ladder, rungs: Sequence[Rung]) -> list[str]:
    """What the given's own tab warns of, each once, with the values that it is said of."""
    said: dict[str, list[str]] = {}
    for rung in rungs:
        for caution in rung.cautions:
            said.setdefault(say_line(caution, ladder.how), []).append(rung.value)
    return [
        visible(text if len(values) == len(rungs) else f"{some_values(values)}: {text}")
        for text, values in said.items()
    ]


MOST_KEPT = 4
"""Givens that are named as the same for all."""


def same_for_all(book: Workbook, spot: Spot) -> str:
    """What else was typed in the tab of a ladder, which every value of it keeps: `Drop 14 in, Take up 4 %`.

    A quilt in several sizes is thought of as several quilts; what is not varied is easily overlooked.
    """
    prepared = book.prepared(spot.tab)
    if prepared is None:
        return ""
    how = book.results[spot.tab].settings.notation
    varied = spot.rows if spot.row >= 0 else spot.spec.name
    said = [
        f"{state.spec.label} {say_value(state.spec, state.value, how)}"
        for name, state in prepared.states.items()
        if name != varied
        and state.speaks == "typed"
        and state.value is not None
        and state.spec.kind != "rows"
    ]
    more = ", …" if len(said) > MOST_KEPT else ""
    return f"{', '.join(said[:MOST_KEPT])}{more}"


def some_values(values: Sequence[str]) -> str:
    """Values in a row; those of which one has a comma of its own stand in quotes."""
    apart = any("," in value for value in values)
    return ", ".join(f"“{value}”" if apart else value for value in values)


def ladder_left_out(rungs: Sequence[Rung]) -> list[str]:
    """What the totals do not count, each set of it once, with the values at which it is not counted."""
    said: dict[tuple[str, ...], list[str]] = {}
    for rung in rungs:
        if rung.left_out:
            said.setdefault(rung.left_out, []).append(rung.value)
    found = []
    for what, at in said.items():
        where = "" if len(at) == len(rungs) else f"{some_values(at)}: "
        found.append(visible(f"{where}not in the total: {'; '.join(what)}"))
    return found


def ladder_json(ladder: Ladder, rungs: Sequence[Rung]) -> dict[str, Any]:
    """The same for a program: texts as they are shown, amounts as exact fractions in a text."""
    return {
        "name": ladder.name,
        "given": ladder.spot.name,
        "cautions": ladder_cautions(ladder, rungs),
        "left_out": ladder_left_out(rungs),
        "rungs": [
            {
                "value": rung.value,
                "cells": {
                    name: {
                        "text": cell.text,
                        "exact": None if cell.amount is None else str(cell.amount),
                        "why": cell.why,
                    }
                    for name, cell in rung.cells.items()
                },
            }
            for rung in rungs
        ],
    }


def plot(amounts: Sequence[Fraction | None]) -> str:
    """A bar for each amount, from the least to the most; nothing where it would tell nothing."""
    known = [amount for amount in amounts if amount is not None]
    if len(known) < LEAST_FOR_PLOT or min(known) == max(known):
        return ""
    least, step = min(known), (max(known) - min(known)) / (len(BARS) - 1)
    return "".join(" " if amount is None else BARS[round((amount - least) / step)] for amount in amounts)


def _parts(rungs: Sequence[Rung], names: Sequence[str], room: int) -> Iterator[Sequence[Rung]]:
    """As many rungs side by side as fit."""
    part: list[Rung] = []
    used = 0
    for rung in rungs:
        need = max([_width(rung.value), *(_width(_text(rung, name)) for name in names)]) + 2
        if part and used + need > room:
            yield part
            part, used = [], 0
        part.append(rung)
        used += need
    if part:
        yield part


def _amount(rung: Rung, name: str) -> Fraction | None:
    return rung.cells[name].amount if name in rung.cells else None


def _text(rung: Rung, name: str) -> str:
    if name not in rung.cells:
        return "–"
    return rung.cells[name].text or "!"


def _missing(rungs: Sequence[Rung], names: Sequence[str]) -> Iterator[str]:
    whys = dict.fromkeys(
        f"! {some_values([rung.value])}, {name}: {rung.cells[name].why}"
        for rung in rungs
        for name in names
        if name in rung.cells and rung.cells[name].why
    )
    yield from map(visible, whys)


def _row(label: str, texts: Sequence[str], head: int, widths: Sequence[int]) -> str:
    cells = (" " * (width - _width(text)) + visible(text) for text, width in zip(texts, widths, strict=True))
    return visible(label) + " " * (head - _width(label)) + "  " + "  ".join(cells)


def _width(text: str) -> int:
    """Cells on a screen: wide signs take two, marks that combine none."""
    wide = sum(2 if unicodedata.east_asian_width(c) in "WF" else 1 for c in visible(text))
    return wide - sum(1 for c in text if unicodedata.combining(c))
