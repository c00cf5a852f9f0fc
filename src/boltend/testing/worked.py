"""Work one calculator out from texts, as a person would type them."""

from collections.abc import Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from difflib import get_close_matches
from fractions import Fraction
from typing import Any

from boltend.core.contract import (
    Answer,
    Calculator,
    CalculatorSpec,
    Cannot,
    GivenSpec,
    Line,
    Settings,
    Shown,
    Table,
)
from boltend.core.flow import Workbook
from boltend.core.flow.results import Result
from boltend.core.host.calls import Call, Outcome
from boltend.core.host.invoke import invoke, prepare
from boltend.core.host.soundness import table_problem
from boltend.core.host.tables import TableRows
from boltend.core.project.edits import add_tab
from boltend.core.project.edits_fabrics import add_fabric
from boltend.core.project.model import Project
from boltend.core.project.problems import EditRefused
from boltend.core.report.json import result_json
from boltend.core.report.words import caution_lines, working_lines
from boltend.core.values import Notation


@dataclass(frozen=True)
class Worked:
    """What came of one calculator: founds as shown and passed on, and before their one rounding.

    `settings` are those that it was worked out with, as the tab sees them.
    """

    found: Mapping[str, Any]
    unrounded: Mapping[str, Any]
    answer: Answer
    working: list[str]
    cautions: list[str]
    json: Mapping[str, Any]
    settings: Settings


class HereOnly:
    """Runs a few calculators in this process, with their tables."""

    def __init__(self, calculators: Sequence[Calculator], tables: Sequence[Table]) -> None:
        self.calculators = {c.spec.name: c for c in calculators}
        self.prepared = {c.spec.name: prepare(c) for c in calculators}
        self.tables = {table.name: table for table in tables}
        self.rows = TableRows(self.tables)

    def table(self, name: str) -> Table | None:
        """The table of a name, or None."""
        return self.tables.get(name)

    def spec(self, calculator: str) -> CalculatorSpec | None:
        """What is declared of a calculator, or None."""
        known = self.calculators.get(calculator)
        return known.spec if known else None

    def why_absent(self, calculator: str) -> tuple[str, str]:
        """Why there is no calculator of a name."""
        return f"there is no {calculator} here.", ""

    def start(self, call: Call, ticket: int) -> Outcome | None:
        """Run a call at once."""
        args = self.rows.fill(call.spec, call.args, call.settings.currency)
        return invoke(self.prepared[call.spec.name], args, call.settings)

    def drop(self, ticket: int) -> None:
        """Nothing runs on."""


def work(
    calculator: Calculator,
    *,
    settings: Mapping[str, object] | None = None,
    units: str = "inches",
    tables: Sequence[Table] = (),
    **givens: object,
) -> Worked:
    """Work a calculator out.

    Givens are texts in the trade's notation (or values as they stand in a project file: whole numbers,
    booleans, lists of dicts for rows); missing ones take their defaults. A Python value such as a
    Fraction of inches is written out first. `settings` are the project's.

    Raises:
        Cannot: the calculator's own, or what the platform says of a given that cannot be read.
        AssertionError: the calculator broke the contract (it raised, gave a wrong answer, or left a found
            empty without a caution, or an `empty=`, that says why).
    """
    how = Notation("cm" if units == "centimetres" else "in")
    spec = calculator.spec
    tables_passed(spec, tables, givens)
    raw = {name: _raw(spec.given(name), value, how) for name, value in givens.items()}
    project = add_tab(a_project(spec, raw, settings, units), "It", spec.name, raw)
    return worked_of(Workbook(HereOnly([calculator], tables), project).result("It"), spec)


def tables_passed(spec: CalculatorSpec, tables: Sequence[Table], givens: Mapping[str, object] | None) -> None:
    """Raise AssertionError for an unsound table, or one missing that givens (None: any) choose from."""
    for table in tables:
        problem = table_problem(table, deep=givens is None)
        assert problem is None, problem
    known = [table.name for table in tables if not table.adds]
    for given in spec.givens:
        for each in (given, *given.columns):
            if each.table is None or each.table in known:
                continue
            if givens is None or given.name in givens or (each.default is not None and not given.columns):
                near = get_close_matches(each.table, known, 1)
                hint = (
                    f"Did {spec.name} mean {near[0]!r}?"
                    if near
                    else f"Pass it: tables=[{each.table.upper()}]."
                )
                raise AssertionError(
                    f"no table {each.table} was passed, and {each.name} chooses from it. {hint}"
                )


def a_project(
    spec: CalculatorSpec, raw: Mapping[str, object], settings: Mapping[str, object] | None, units: str
) -> Project:
    """A project with settings and every fabric that the givens name: a test need not declare them."""
    project = Project(settings={"units": units, **(settings or {})})
    for name in sorted(_fabrics(spec.givens, raw)):
        with suppress(EditRefused):  # a name that no fabric may have is for the given to refuse
            project = add_fabric(project, name)
    return project


def worked_of(result: Result, spec: CalculatorSpec) -> Worked:
    """What came of it. Raises as `work` does."""
    if result.answer is None:
        trouble = result.troubles[0]
        if trouble.traceback or "wrong answer" in trouble.why:
            raise AssertionError(f"{trouble.why}\n{trouble.traceback}")
        if trouble.given and spec.given(trouble.given) is None:
            raise AssertionError(f"Cannot names {trouble.given!r}, which is no given of {spec.name}.")
        raise Cannot(trouble.given, trouble.why, trouble.way_out)
    empty = [f.name for f in spec.founds if result.found[f.name] is None and not f.empty]
    if empty and not result.answer.cautions:
        raise AssertionError(f"{', '.join(empty)}: no value, and neither a caution nor empty= says why.")
    for said in (*result.answer.working, *result.answer.cautions, *result.answer.first):
        _check_line(said)
    return Worked(
        result.found,
        result.unrounded,
        result.answer,
        working_lines(result),
        caution_lines(result),
        result_json(result),
        result.settings,
    )


def _check_line(said: Line | str) -> None:
    """A slip in a line costs it its looks in the shell; in a test it is an error."""
    if isinstance(said, str):
        return
    if said.words.count("{}") != len(said.values):
        raise AssertionError(
            f"{said.words!r} has {said.words.count('{}')} places for {len(said.values)} values."
        )
    for value in said.values:
        inexact = isinstance(value, float) or (isinstance(value, Shown) and isinstance(value.value, float))
        if inexact:
            raise AssertionError(f"{said.words!r} shows a float: {value!r}. Keep it exact, as a Fraction.")


def _raw(spec: GivenSpec | None, value: object, how: Notation) -> object:
    """A value as it would stand in a project file."""
    if spec is not None and isinstance(value, Fraction):
        return spec.reader.show(value, how, spec.unit)
    if spec is not None and isinstance(value, list | tuple) and spec.columns:
        columns = {column.name: column for column in spec.columns}
        return [{name: _raw(columns.get(name), cell, how) for name, cell in row.items()} for row in value]
    return value


def _fabrics(specs: Sequence[GivenSpec], raw: Mapping[str, object]) -> set[str]:
    names = set()
    for spec in specs:
        value = raw.get(spec.name)
        if spec.kind == "fabric" and isinstance(value, str):
            names.add(value)
        elif spec.columns and isinstance(value, list):
            for row in value:
                names |= _fabrics(spec.columns, row if isinstance(row, Mapping) else {})
    return names
