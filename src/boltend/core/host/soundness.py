"""Whether what a plugin declares can be used: names, texts that can be read, tables with their sources."""

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from difflib import get_close_matches

from boltend.core.contract import CalculatorSpec, FoundSpec, GivenSpec, Start, Step, Table
from boltend.core.values import KINDS, Notation, visible

MOST_VALUES = 500
"""Givens and founds of one calculator; nobody could fill in so many."""

MOST_TEXT = 2_000
"""Characters of a label, a question, a help."""

_NAME = re.compile(r"[a-z][a-z0-9_]{0,59}")
_SYSTEMS = (Notation("in"), Notation("cm"))


def calculator_problem(spec: CalculatorSpec, deep: bool) -> str | None:
    """What is wrong with a calculator's declaration, or None. `deep` reads every text in it."""
    if not (isinstance(spec.name, str) and _NAME.fullmatch(spec.name)):
        return f"a calculator is named {spec.name!r:.60}. Small letters, digits and _ (snake_case) would do."
    if not isinstance(spec.asks, str):
        return f"{spec.name}: its question (asks=) is no text."
    unfit = _unfit(spec.asks)
    if unfit:
        return f"{spec.name}: its question (asks=) {unfit}"
    values: list[GivenSpec | FoundSpec] = [*spec.givens, *spec.founds]
    if len(values) > MOST_VALUES:
        return f"{spec.name} has {len(values)} givens and founds. {MOST_VALUES} are the most."
    for value in values:
        problem = _texts_problem(value) or (_deep_problem(value) if deep else None)
        if problem is not None:
            return f"{spec.name}, {value.name}: {problem}"
    return None


def _texts_problem(value: GivenSpec | FoundSpec) -> str | None:
    said = [("label", value.label), ("unit", value.unit), ("help", value.help), ("empty", value.empty)]
    if isinstance(value, GivenSpec):
        optional = ("default", "metric_default", "least", "most", "table")
        said += [(key, getattr(value, key)) for key in optional if getattr(value, key) is not None]
        if len(value.example) != 2:
            return f"its example is {value.example!r:.60}, not a text or a pair (inches, metric)."
        said += [("example", text) for text in value.example]
        said += [("choices", text) for _, text in value.meanings]
    for key, text in said:
        if not isinstance(text, str):
            return f"its {key} is {text!r:.60}, not a text. Write it in quotes."
        unfit = _unfit(text)
        if unfit:
            return f"its {key} {unfit}"
    return next((p for column in value.columns if (p := _texts_problem(column))), None)


def _unfit(text: str) -> str:
    """Why a text cannot be shown, or nothing: it must not steer a terminal, nor fill one."""
    if len(text) > MOST_TEXT:
        return f"is {len(text)} characters long. {MOST_TEXT} are the most."
    if text.isprintable():
        return ""
    unseen = next((c for c in text if not c.isprintable() and c != "\n"), "")
    return f"holds a character that does not show: {visible(unseen)}. Take it out." if unseen else ""


def _deep_problem(value: GivenSpec | FoundSpec) -> str | None:
    if value.kind == "rows":
        return next((f"column {c.name}: {p}" for c in value.columns if (p := _deep_problem(c))), None)
    reader = replace(value).reader  # of a copy: a reader is kept where it is made, and cannot cross a process
    for text, how in _written(value):
        try:
            reader.read(text, how, value.unit)
        except ValueError as error:
            return f"{text!r:.60} cannot be read as {value.kind}: {error}"
    return None


def _written(value: GivenSpec | FoundSpec) -> Iterator[tuple[str, Notation]]:
    """Every text of a value that must be readable, and how it is read."""
    inches, metric = _SYSTEMS
    if isinstance(value, GivenSpec):
        if value.kind != "table_row":  # a row of a table, which may be another plugin's
            texts = (value.default, value.least, value.most)
            yield from ((text, inches) for text in texts if text is not None)
        if value.metric_default is not None:
            yield value.metric_default, metric
        yield from ((text, how) for text, how in zip(value.example, _SYSTEMS, strict=True) if text)
    step: Step | None = value.step
    if step is not None and not step.name:
        yield step.inches, inches
        yield step.metric, metric


def table_problem(table: Table, deep: bool) -> str | None:
    """What is wrong with a table, or None. `deep` reads every cell."""
    if not (isinstance(table.name, str) and _NAME.fullmatch(table.name)):
        return f"a table is named {table.name!r:.60}. Small letters, digits and _ (snake_case) would do."
    if not isinstance(table.columns, Mapping) or not isinstance(table.rows, Mapping):
        return f"table {table.name}: its columns and rows must be mappings."
    for column, kind in table.columns.items():
        if kind not in KINDS:
            where = f"table {table.name}, column {column!r:.60}"
            return f"{where}: no kind {kind!r:.40}. Use one of {', '.join(KINDS)}."
    problem = table.problem()
    if problem is None and deep:
        problem = _cells_problem(table)
    return problem


def _cells_problem(table: Table) -> str | None:
    for name in table.rows:
        try:
            table.row(name)
        except ValueError as error:
            return f"table {table.name}, row {name!r:.60}: {error}"
    return None


def start_problem(start: Start) -> str | None:
    """What is wrong with a start in itself, or None: its links must lead to its own tabs."""
    names = {tab[0] for tab in start.tabs}
    for name, _, givens in start.tabs:
        for key, said in givens.items():
            if any(link.get("from") not in names for link in _links(said)):
                return f"start {start.question!r:.60}, tab {name!r:.40}, {key}: its link leads to no tab."
    return None


def _links(said: object) -> Iterator[Mapping[str, object]]:
    """A given of a start that is a link, or the cells of its rows that are."""
    if isinstance(said, Mapping):
        yield said
    elif isinstance(said, list | tuple):
        cells = (cell for row in said if isinstance(row, Mapping) for cell in row.values())
        yield from (cell for cell in cells if isinstance(cell, Mapping))


def misnamed(start: Start, known: Mapping[str, CalculatorSpec]) -> str | None:
    """A given, column or found of a start that its calculators (all of them `known`) do not have, or None."""
    calculators = {name: known[calculator] for name, calculator, _ in start.tabs}
    for name, calculator, givens in start.tabs:
        for key, said in givens.items():
            where, given = f"tab {name!r:.40}", known[calculator].given(key)
            if given is None:
                return (
                    f"{where}: {calculator} has no given {key!r:.40}.{_near(key, known[calculator].by_name)}"
                )
            columns = [column.name for column in given.columns]
            rows = said if columns and isinstance(said, list | tuple) else ()
            for column in (c for row in rows if isinstance(row, Mapping) for c in row):
                if column not in columns:
                    return f"{where}: {key} has no column {column!r:.40}.{_near(str(column), columns)}"
            for link in _links(said):
                source, take = calculators[str(link.get("from"))], str(link.get("take"))
                if source.found(take) is None:
                    founds = [found.name for found in source.founds]
                    return f"{where}, {key}: {source.name} finds no {take!r:.40}.{_near(take, founds)}"
    return None


def _near(name: str, names: Iterable[str]) -> str:
    near = get_close_matches(name, list(names), 1)
    return f" Did you mean {near[0]}?" if near else ""
