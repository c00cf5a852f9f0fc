"""A question without what a typed sentence says there is none of. Knows no screen."""

from collections.abc import Mapping

from boltend.core.contract import CalculatorSpec, Start
from boltend.shell.start_cues import NO_BORDER


def without(start: Start, sentence: str, specs: Mapping[str, CalculatorSpec]) -> tuple[Start, str]:
    """The question without its borders, where the sentence says so; and what it says that is not heard.

    A tab of borders with nothing in it would have no answer: it goes, and what took its size takes the top's.
    """
    said = NO_BORDER.search(sentence)
    if said is None:
        return start, ""
    top = {name: givens for name, _, givens in start.tabs if isinstance(givens.get("borders"), list)}
    if not top:
        return start, said.group()
    tabs = []
    for name, calculator, givens in start.tabs:
        if name not in top:
            linked = {given: _past(value, top) for given, value in givens.items()}
            tabs.append((name, calculator, linked | _none_of(specs.get(calculator))))
    return Start(start.question, tuple(tabs)), ""


def _past(value: object, borders: Mapping[str, Mapping[str, object]]) -> object:
    """A link to what borders find is now the one from which they took the same of their top."""
    if isinstance(value, Mapping) and value.get("from") in borders:
        return borders[str(value["from"])].get(f"top_{value['take']}", value)
    return value


def _none_of(spec: CalculatorSpec | None) -> dict[str, object]:
    """The givens that ask how wide borders may be, as nothing."""
    names = ("border_least", "border_most")
    return {name: "0" for name in names if spec is not None and name in spec.by_name}
