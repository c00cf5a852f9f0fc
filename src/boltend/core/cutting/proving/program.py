"""Linear and integer programs of patterns, solved by HiGHS, one thread, with counted limits.

highspy is imported where it is used: with numpy it costs 60 to 300 ms, which only a proof has to pay.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from boltend.core.cutting.proving.work import Spent, Stopped, Work

ASK = 800_000
ASK_CELL = 400
"""HiGHS asks whether to go on at certain places of its code, so the number of its questions measures its
work: about so many units a question, and so many more for each cell of the program (measured)."""

LARGEST = 4_000_000
"""Rows × columns of an integer program that is tried at all."""

HAIR = 1e-6
"""What a float may be off: HiGHS's own tolerance."""


@dataclass(frozen=True)
class Solved:
    """A whole solution: each column's count, and whether nothing is cheaper by a whole step."""

    cost: int
    counts: list[int]
    least: bool


class Relaxation:
    """A linear program that grows by columns: least cost, every row between its limits."""

    def __init__(self, rows: Sequence[tuple[float, float]]) -> None:
        import highspy  # late, see above

        self.highs: Any = highspy.Highs()  # type: ignore[no-untyped-call]  # its stubs leave it bare
        self.highs.setOptionValue("output_flag", False)
        self.highs.setOptionValue("threads", 1)
        for low, high in rows:
            self.highs.addRow(low, high, 0, [], [])

    def add(self, cost: float, cells: Mapping[int, float]) -> None:
        """Add a column."""
        self.highs.addCol(cost, 0.0, self.highs.inf, len(cells), list(cells), list(cells.values()))

    def solve(self, work: Work) -> tuple[float, list[float]]:
        """Give the least cost and what one more in each row would cost.

        Raises `Spent` where HiGHS lost its footing: then nothing is proved.
        """
        import highspy  # late, see above

        before = self.highs.getInfo().simplex_iteration_count
        self.highs.run()
        if self.highs.getModelStatus() != highspy.HighsModelStatus.kOptimal:
            raise Spent
        info = self.highs.getInfo()
        rounds = max(1, info.simplex_iteration_count - max(0, before))
        work.spend(rounds * self.highs.getNumRow() * 20)
        return info.objective_function_value, list(self.highs.getSolution().row_dual)


@dataclass
class Program:
    """An integer program: least cost, columns are whole and 0 or more; costs are whole."""

    costs: list[int] = field(default_factory=list)
    uppers: list[float] = field(default_factory=list)
    rows: list[tuple[float, float, dict[int, float]]] = field(default_factory=list)

    def column(self, cost: int, upper: float = float("inf")) -> int:
        """Add a column; its place."""
        self.costs.append(cost)
        self.uppers.append(upper)
        return len(self.costs) - 1

    def row(self, low: float, high: float, cells: Mapping[int, float]) -> None:
        """Add `low <= the sum of cells × columns <= high`."""
        self.rows.append((low, high, dict(cells)))

    def solve(
        self, work: Work, start: Sequence[int] | None = None, enough: int | None = None
    ) -> Solved | None:
        """Give the best whole solution that the work allows, `least` where it is proved; None for none.

        `start` is a solution to begin with; one as cheap as `enough` ends the search. Raises `Stopped`.
        """
        import highspy  # late, see above

        size = len(self.rows) * len(self.costs)
        if size > LARGEST:
            return None
        work.spend(20 * sum(len(row[2]) for row in self.rows))
        highs: Any = highspy.Highs()  # type: ignore[no-untyped-call]  # its stubs leave it bare
        options = {"output_flag": False, "threads": 1, "mip_rel_gap": 0.0, "mip_abs_gap": 0.999}
        for name, value in options.items():
            highs.setOptionValue(name, value)
        if enough is not None:
            highs.setOptionValue("objective_target", enough + 0.5)
        highs.passModel(_model(self, highspy))
        if start is not None:
            begin = highspy.HighsSolution()
            begin.col_value = [float(each) for each in start]
            highs.setSolution(begin)
        asked, units = 0, ASK + ASK_CELL * sum(len(row[2]) for row in self.rows)

        def ask(event: Any) -> None:
            nonlocal asked
            asked += 1
            if asked * units > work.left or work.stopped():
                event.interrupt()

        highs.cbMipInterrupt.subscribe(ask)
        highs.run()
        if work.stopped():
            raise Stopped
        work.left -= min(work.left, asked * units)
        return self._solution(highs, highspy)

    def _solution(self, highs: Any, highspy: Any) -> Solved | None:
        info = highs.getInfo()
        if info.primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
            return None
        counts = [round(value) for value in highs.getSolution().col_value]
        if any(count < 0 for count in counts) or not self._holds(counts):
            return None  # rounding broke it; the one who asked keeps what it had
        cost = sum(cost * count for cost, count in zip(self.costs, counts, strict=True))
        status = highs.getModelStatus()
        least = status == highspy.HighsModelStatus.kOptimal and info.mip_dual_bound > cost - 1 + HAIR
        return Solved(cost, counts, least)

    def _holds(self, counts: Sequence[int]) -> bool:
        return all(
            low <= sum(cell * counts[column] for column, cell in cells.items()) <= high
            for low, high, cells in self.rows
        )


def _model(program: Program, highspy: Any) -> Any:
    model = highspy.HighsLp()
    model.num_col_, model.num_row_ = len(program.costs), len(program.rows)
    model.col_cost_ = [float(cost) for cost in program.costs]
    model.col_lower_ = [0.0] * len(program.costs)
    model.col_upper_ = program.uppers
    model.row_lower_ = [row[0] for row in program.rows]
    model.row_upper_ = [row[1] for row in program.rows]
    starts, places, cells = [0], list[int](), list[float]()
    for _, _, row in program.rows:
        places.extend(row.keys())
        cells.extend(row.values())
        starts.append(len(places))
    model.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    model.a_matrix_.start_ = starts
    model.a_matrix_.index_ = places
    model.a_matrix_.value_ = cells
    model.integrality_ = [highspy.HighsVarType.kInteger] * len(program.costs)
    return model
