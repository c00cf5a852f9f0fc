"""Linear and integer programs, solved by HiGHS.

highspy is imported where it is used: with numpy it costs 60 to 300 ms, which only the worker process has to
pay. One thread always (HiGHS keeps the number of its first run), and limits that are counted, not timed: the
same program has the same solution on every machine.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from boltend.plugin import ceil_div
from boltend_fabric_mix.effort import ASKS, CELL, Effort, Spent, Stopped

MOST_FOR_ONE = 8_000_000
"""Units of effort that one integer program may take; beyond them its best solution stands, unproved."""

LARGEST = 1_000_000
"""Rows × columns of an integer program that is tried at all: a larger one takes seconds between questions."""

HAIR = 1e-6
"""What a float may be off: HiGHS's own tolerance."""


@dataclass
class Program:
    """Least cost. Columns are whole numbers of 0 or more unless told otherwise."""

    costs: list[float] = field(default_factory=list)
    uppers: list[float] = field(default_factory=list)
    whole: list[bool] = field(default_factory=list)
    rows: list[tuple[float, float, dict[int, float]]] = field(default_factory=list)

    def column(self, cost: float, upper: float, *, whole: bool = True) -> int:
        """Add a column; its place."""
        self.costs.append(cost)
        self.uppers.append(upper)
        self.whole.append(whole)
        return len(self.costs) - 1

    def row(self, low: float, high: float, cells: Mapping[int, float]) -> int:
        """Add `low <= the sum of cells × columns <= high`; its place."""
        self.rows.append((low, high, dict(cells)))
        return len(self.rows) - 1

    @property
    def cells(self) -> int:
        """How many cells it has: its size."""
        return len(self.costs) + sum(len(row[2]) for row in self.rows)


@dataclass(frozen=True)
class Solved:
    """A solution: the columns' values, what one more in each row would cost, and whether it is the least."""

    cost: float
    values: list[float]
    duals: list[float]
    least: bool

    def count(self, column: int) -> int:
        """The value of a whole column."""
        return round(self.values[column])


def relaxed(program: Program, effort: Effort) -> Solved:
    """The solution in fractions, which bounds the whole ones. It must have one."""
    effort.spend(CELL * program.cells)
    highs = _highs(program, whole=False)
    highs.run()
    solved = _solution(highs)
    if solved is None:  # HiGHS lost its footing: then nothing is proved, and what is known stands
        raise Spent
    return solved


def solved(program: Program, effort: Effort, start: Sequence[float] | None = None) -> Solved | None:
    """The least whole solution, or the best one within `MOST_FOR_ONE`; None where none was found.

    `start` is a solution to begin with. Raises `Stopped` and `Spent` as effort does.
    """
    import highspy  # late, as in `_highs`

    size = len(program.rows) * len(program.costs)
    if size > LARGEST:
        raise Spent
    effort.spend(CELL * program.cells)
    highs = _highs(program, whole=True)
    if start is not None:
        begin = highspy.HighsSolution()
        begin.col_value = list(start)
        highs.setSolution(begin)
    asked = 0
    units = ceil_div(size, ASKS)

    def ask(event: Any) -> None:
        """HiGHS asks at certain places of its code, so the number of its questions measures its work."""
        nonlocal asked
        asked += 1
        if asked * units > MOST_FOR_ONE or effort.stopped():
            event.interrupt()

    highs.cbMipInterrupt.subscribe(ask)
    highs.run()
    if effort.stopped():
        raise Stopped
    effort.spend(min(asked * units, effort.left))  # what was found is used, even where it took the last unit
    return _solution(highs)


def _highs(program: Program, *, whole: bool) -> Any:
    import highspy  # late: 60 to 300 ms, and only the worker needs it

    highs = highspy.Highs()  # type: ignore[no-untyped-call]  # its stubs leave it bare
    options = {"output_flag": False, "threads": 1, "mip_rel_gap": 0.0, "mip_abs_gap": 0.5}  # costs are whole
    for name, value in options.items():
        highs.setOptionValue(name, value)
    highs.passModel(_model(program, highspy, whole=whole))
    return highs


def _solution(highs: Any) -> Solved | None:
    import highspy  # late, as in `_highs`

    info = highs.getInfo()
    if info.primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
        return None
    solution = highs.getSolution()
    return Solved(
        info.objective_function_value,
        list(solution.col_value),
        list(solution.row_dual),
        highs.getModelStatus() == highspy.HighsModelStatus.kOptimal,
    )


def _model(program: Program, highspy: Any, *, whole: bool) -> Any:
    model = highspy.HighsLp()
    model.num_col_, model.num_row_ = len(program.costs), len(program.rows)
    model.col_cost_ = program.costs
    model.col_lower_ = [0.0] * len(program.costs)
    model.col_upper_ = program.uppers
    model.row_lower_ = [row[0] for row in program.rows]
    model.row_upper_ = [row[1] for row in program.rows]
    starts, places = [0], list[int]()
    cells: list[float] = []
    for _, _, row in program.rows:
        places.extend(row.keys())
        cells.extend(row.values())
        starts.append(len(places))
    model.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    model.a_matrix_.start_ = starts
    model.a_matrix_.index_ = places
    model.a_matrix_.value_ = cells
    if whole:
        integer, free = highspy.HighsVarType.kInteger, highspy.HighsVarType.kContinuous
        model.integrality_ = [integer if each else free for each in program.whole]
    return model
