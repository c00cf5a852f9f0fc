"""Calculators that give back what they are given: sources of links for any given."""

from collections.abc import Mapping
from typing import Any

from boltend.core.contract import Answer, Calculator, CalculatorSpec, FoundSpec, GivenSpec
from boltend.core.flow import Workbook
from boltend.core.project.edits import add_tab
from boltend.core.values import KINDS
from boltend.testing.subject import SAME_IN_BOTH, Subject
from boltend.testing.worked import HereOnly, Worked, a_project, worked_of

_ROUNDED = ("finished", "cut", "length", "area")


def work_linked(subject: Subject, raw: Mapping[str, object]) -> Worked:
    """Work it out with every value that can be linked coming from a tab of its own."""
    spec = subject.calculator.spec
    linked = [g for g in spec.givens if g.name in raw and (g.kind in KINDS or g.kind == "choice")]
    project = a_project(spec, raw, SAME_IN_BOTH, "inches")
    given = dict(raw)
    for source in linked:
        project = add_tab(project, f"From {source.name}", _name(source), {"value": raw[source.name]})
        given[source.name] = {"from": f"From {source.name}", "take": "value"}
    project = add_tab(project, "It", spec.name, given)
    runner = HereOnly([subject.calculator, *map(_echo, linked)], subject.tables)
    return worked_of(Workbook(runner, project).result("It"), spec)


def _name(source: GivenSpec) -> str:
    return f"echo_{source.name}"


def _echo(source: GivenSpec) -> Calculator:
    """A calculator of one given and one found, both of a given's kind and without limits."""
    same: dict[str, Any] = {
        "kind": source.kind,
        "label": "Value",
        "unit": source.unit,
        "options": source.options,
    }
    spec = CalculatorSpec(
        name=_name(source),
        asks="What was given?",
        givens=(GivenSpec("value", **same),),
        founds=(FoundSpec("value", **same, direction="nearest" if source.kind in _ROUNDED else ""),),
    )
    return Calculator(spec, _give_back)


def _give_back(value: object) -> Answer:
    return Answer(found={"value": value})
