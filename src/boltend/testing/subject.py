"""What is held against the contract: a calculator, an example that it answers, and what is said of it."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from boltend.core.contract import Calculator, Table
from boltend.core.flow import Workbook
from boltend.core.project.edits import add_tab
from boltend.testing.worked import HereOnly, Worked, a_project, tables_passed, worked_of

SAME_IN_BOTH = {
    "seam": "1/4 in",
    "usable_width": "42 in",
    "overage": "4 in",
    "squaring": "1/2 in",
    "layers": 8,
    "prewash_across": "0 %",
    "prewash_along": "0 %",
    "size_step": "1/16 in",
    "cutting_step": "1/8 in",
    "buying_step": "4 1/2 in",
}
"""Every setting said, so that a project in centimetres differs from one in inches by its looks alone."""


@dataclass(frozen=True)
class Subject:
    """A calculator under test.

    `example` are givens that it answers, as `work` takes them; others are drawn around it. `may_be_zero`
    names finished and cut founds that may be 0 (a spacer that is not needed). `own_metric` names founds
    whose step is another one in metric *inside* the calculator, so that they differ between the systems by
    right. `covers` is the author's own check that what was found covers what was needed: it gets the givens,
    defaults among them, and the `Worked`, whose `settings` are not always the usual ones; it raises
    AssertionError. `seconds` (of the processor) is the longest that any call may take, `examples` how many
    givens each check draws.
    """

    calculator: Calculator
    example: Mapping[str, object]
    tables: Sequence[Table] = ()
    may_be_zero: frozenset[str] = frozenset()
    own_metric: frozenset[str] = frozenset()
    covers: Callable[[Mapping[str, object], Worked], None] | None = None
    seconds: float = 10
    examples: int = 40
    runner: HereOnly = field(init=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "runner", HereOnly([self.calculator], self.tables))

    @property
    def name(self) -> str:
        """The calculator's name."""
        return self.calculator.spec.name

    def work(
        self,
        raw: Mapping[str, object],
        units: str = "inches",
        settings: Mapping[str, object] = SAME_IN_BOTH,
    ) -> Worked:
        """Work it out with every setting said. Raises as `boltend.testing.work` does."""
        spec = self.calculator.spec
        project = add_tab(a_project(spec, raw, settings, units), "It", spec.name, dict(raw))
        return worked_of(Workbook(self.runner, project).result("It"), spec)


def check(
    calculator: Calculator,
    *,
    tables: Sequence[Table] = (),
    may_be_zero: Sequence[str] = (),
    own_metric: Sequence[str] = (),
    covers: Callable[[Mapping[str, object], Worked], None] | None = None,
    seconds: float = 10,
    examples: int = 40,
    **example: Any,
) -> None:
    """Hold a calculator against the contract: every check of `boltend.testing.kit`, in order.

    The givens are an example that the calculator answers; see `Subject` for the rest.

    Raises:
        AssertionError: says which part of the contract was broken, with the givens that broke it.
        ModuleNotFoundError: hypothesis is not installed.
    """
    try:
        from boltend.testing.kit import CHECKS
    except ModuleNotFoundError as error:
        said = "boltend.testing.check draws its givens with hypothesis: pip install hypothesis"
        raise ModuleNotFoundError(said, name=error.name) from error
    tables_passed(calculator.spec, tables, None)
    subject = Subject(
        calculator,
        example,
        tables,
        frozenset(may_be_zero),
        frozenset(own_metric),
        covers,
        seconds,
        examples,
    )
    for one in CHECKS.values():
        one(subject)
