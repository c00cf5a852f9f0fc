"""What each option of a choice means: declared, told in the schema, and a text that steers no terminal."""

from typing import Any, Literal

from boltend.core.contract import CalculatorSpec
from boltend.core.host import Host
from boltend.core.host.soundness import calculator_problem
from boltend.core.report.json import schema_json
from boltend.plugin import Answer, Count, calculator, found, given
from boltend.shell.given_help import given_help
from boltend.shell.looks import Look


class Found:
    """What is found."""

    one: Count = found("One")


def joined(straight: object) -> CalculatorSpec:
    means: Any = {"straight": straight}

    @calculator("joined", asks="How is it joined?", found=Found)
    def joined(join: Literal["diagonal", "straight"] = given("Join", choices=means)) -> Answer:
        """Nothing is worked out."""
        return Answer(found={"one": 1}, working=["One."])

    return joined.spec


def test_it_is_kept_and_told() -> None:
    spec = joined("Edge to edge.")
    (join,) = spec.givens
    assert join.meanings == (("straight", "Edge to edge."),)
    assert "\n  straight: Edge to edge." in given_help(join, Look())
    (told,) = schema_json(spec)["given"]
    assert (told["choices"], told["meanings"]) == (["diagonal", "straight"], {"straight": "Edge to edge."})


def test_it_is_a_text_that_steers_no_terminal() -> None:
    assert calculator_problem(joined("Edge to edge."), deep=False) is None
    assert "its choices" in str(calculator_problem(joined("\x1b[2J"), deep=False))
    assert "its choices" in str(calculator_problem(joined(3), deep=False))


def test_who_tells_of_some_options_tells_of_all() -> None:
    with Host.load() as host:
        givens = [given for spec in host.specs.values() for given in spec.givens]
    told = [each for given in givens for each in (given, *given.columns) if each.meanings]
    assert len(told) > 5
    assert [each.name for each in told if [option for option, _ in each.meanings] != [*each.options]] == []
