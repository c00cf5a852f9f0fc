"""For the tests of a plugin: work a calculator out from texts, as a person would type them.

worked = work(binding, width="60 in", height="72 in", strip_width="2 1/2 in")
assert worked.found["strips"] == 7
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from boltend.core.contract import Answer, Calculator, CalculatorSpec, Cannot, GivenSpec, Line, Shown, Table
from boltend.core.flow import Workbook
from boltend.core.host.calls import Call, Outcome
from boltend.core.host.invoke import invoke, prepare
from boltend.core.host.tables import TableRows
from boltend.core.project.edits import add_tab
from boltend.core.project.edits_fabrics import add_fabric
from boltend.core.project.model import Project
from boltend.core.report.json import result_json
from boltend.core.report.words import caution_lines, working_lines
from boltend.core.values import Notation

__all__ = ["Worked", "work"]


@dataclass(frozen=True)
class Worked:
    """What came of one calculator: founds as shown and passed on, and before their one rounding."""

    found: Mapping[str, object]
    unrounded: Mapping[str, object]
    answer: Answer
    working: list[str]
    cautions: list[str]
    json: Mapping[str, object]


class _OneCalculator:
    """Runs a single calculator in this process, with its tables."""

    def __init__(self, calculator: Calculator, tables: Sequence[Table]) -> None:
        self.calculator = calculator
        self.prepared = prepare(calculator)
        self.tables = {table.name: table for table in tables}
        self.rows = TableRows(self.tables)

    def table(self, name: str) -> Table | None:
        return self.tables.get(name)

    def spec(self, calculator: str) -> CalculatorSpec | None:
        return self.calculator.spec if calculator == self.calculator.spec.name else None

    def why_absent(self, calculator: str) -> tuple[str, str]:
        return f"there is no {calculator} here.", ""

    def start(self, call: Call, ticket: int) -> Outcome | None:
        return invoke(
            self.prepared, self.rows.fill(call.spec, call.args, call.settings.currency), call.settings
        )

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
            empty without a caution that says why).
    """
    how = Notation("cm" if units == "centimetres" else "in")
    spec = calculator.spec
    raw = {name: _raw(spec.given(name), value, how) for name, value in givens.items()}
    project = Project(settings={"units": units, **(settings or {})})
    for name in sorted(_fabrics(spec.givens, raw)):
        project = add_fabric(project, name)
    book = Workbook(_OneCalculator(calculator, tables), add_tab(project, "It", spec.name, raw))
    result = book.result("It")
    if result.answer is None:
        trouble = result.troubles[0]
        if trouble.traceback or "wrong answer" in trouble.why:
            raise AssertionError(f"{trouble.why}\n{trouble.traceback}")
        if trouble.given and spec.given(trouble.given) is None:
            raise AssertionError(f"Cannot names {trouble.given!r}, which is no given of {spec.name}.")
        raise Cannot(trouble.given, trouble.why, trouble.way_out)
    empty = [name for name, value in result.found.items() if value is None]
    if empty and not result.answer.cautions:
        raise AssertionError(f"{', '.join(empty)}: no value, and no caution that says why.")
    for said in (*result.answer.working, *result.answer.cautions):
        _check_line(said)
    return Worked(
        result.found,
        result.unrounded,
        result.answer,
        working_lines(result),
        caution_lines(result),
        result_json(result),
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
    """The fabrics that the givens name: a test need not declare them."""
    names = set()
    for spec in specs:
        value = raw.get(spec.name)
        if spec.kind == "fabric" and isinstance(value, str):
            names.add(value)
        elif spec.columns and isinstance(value, list):
            for row in value:
                names |= _fabrics(spec.columns, row)
    return names
