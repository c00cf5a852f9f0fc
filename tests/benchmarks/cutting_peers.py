"""What the proving solver is held beside: `rectpack` (free packing) and an exact model for CP-SAT.

Neither is needed by Boltend. Make an environment for them, outside of the project's own:

    python3 -m venv /tmp/bench-venv
    /tmp/bench-venv/bin/pip install -e . rectpack ortools

Where one is missing its column says so.
"""

import json
import subprocess
import sys
from collections.abc import Sequence
from dataclasses import astuple, dataclass
from importlib import import_module
from importlib.util import find_spec
from typing import Any

SECONDS = 5.0
"""Wall time for CP-SAT, one worker."""

MOST_PIECES = 600
"""For `rectpack`, which places them one by one."""

MOST_CELLS = 9000
"""Levels × ways to lie for CP-SAT."""

ENDLESS = 10**9


@dataclass(frozen=True)
class Size:
    """Whole units, as `boltend.core.cutting.convert` makes them."""

    across: int
    along: int
    may_turn: bool
    wanted: int


def free_length(sizes: Sequence[Size], run: int) -> int | str:
    """Give the shortest of two bottom-left packings in an endless bin, not always cuttable edge to edge.

    All pieces turn or none: where some may not, each lies as its own leave to turn lies lowest.
    """
    found = _packed(sizes, run, ENDLESS, ("SkylineBl", "MaxRectsBl"))
    if isinstance(found, str):
        return found
    return min(max(y + height for _, _, y, _, height in each) for each in found)


def free_sheets(sizes: Sequence[Size], across: int, along: int) -> int | str:
    """Give the fewest sheets of two packings."""
    found = _packed(sizes, across, along, ("MaxRectsBssf", "SkylineBlWm"))
    if isinstance(found, str):
        return found
    return min(len({each[0] for each in one}) for one in found)


def _packed(
    sizes: Sequence[Size], across: int, along: int, algorithms: Sequence[str]
) -> list[list[tuple[int, int, int, int, int]]] | str:
    if find_spec("rectpack") is None:
        return "not installed"
    rectpack = import_module("rectpack")
    if sum(size.wanted for size in sizes) > MOST_PIECES:
        return "too many"
    all_turn = all(size.may_turn or size.across == size.along for size in sizes)
    found = []
    for name in algorithms:
        packer = rectpack.newPacker(
            pack_algo=getattr(rectpack, name), rotation=all_turn, bin_algo=rectpack.PackingBin.BFF
        )
        for size in sizes:
            for _ in range(size.wanted):
                packer.add_rect(*_lying(size, across))
        packer.add_bin(across, along, count=float("inf") if along < ENDLESS else 1)
        packer.pack()
        lying = [(each[0], each[1], each[2], each[3], each[4]) for each in packer.rect_list()]
        if len(lying) == sum(size.wanted for size in sizes):
            found.append(lying)
    return found or "not all placed"


def _lying(size: Size, across: int) -> tuple[int, int]:
    longer, shorter = max(size.across, size.along), min(size.across, size.along)
    if size.may_turn and longer <= across:
        return longer, shorter
    if size.may_turn and size.across > across:
        return size.along, size.across
    return size.across, size.along


def exact_levels(sizes: Sequence[Size], run: int, known: int) -> tuple[int | None, int, str] | str:
    """Solve plans of simple strips exactly: one height a level, one count a level and way to lie.

    A plan no longer than `known` (the level heuristic's) has at most `known` ÷ the lowest piece levels: so
    none is lost. Give the length (None: none found), the proved bound and CP-SAT's word. In a process of its
    own: where highspy is loaded, ortools cannot be (both bring HiGHS along, of different versions).
    """
    if find_spec("ortools") is None:
        return "not installed"
    given = json.dumps([[astuple(size) for size in sizes], run, known])
    line = [sys.executable, __file__]
    said = json.loads(subprocess.run(line, input=given, capture_output=True, text=True, check=True).stdout)
    return said if isinstance(said, str) else (said[0], said[1], said[2])


def _exact_levels(sizes: Sequence[Size], run: int, known: int) -> tuple[int | None, int, str] | str:
    cp_model = import_module("ortools.sat.python.cp_model")
    ways = [
        (kind, beside, above)
        for kind, size in enumerate(sizes)
        for beside, above in sorted(
            {(size.across, size.along)} | ({(size.along, size.across)} if size.may_turn else set())
        )
        if beside <= run and size.wanted
    ]
    levels = known // min(above for _, _, above in ways)
    levels = min(levels, sum(size.wanted for size in sizes))
    if levels * len(ways) > MOST_CELLS:
        return f"too large ({levels} levels)"
    model = cp_model.CpModel()
    tops = sorted({above for _, _, above in ways})
    domain = cp_model.Domain.FromValues([0, *tops])
    heights = [model.new_int_var_from_domain(domain, f"h{n}") for n in range(levels)]
    held: list[list[Any]] = [[] for _ in sizes]
    for level in range(levels):
        line = []
        for kind, beside, above in ways:
            most = min(sizes[kind].wanted, run // beside)
            count = model.new_int_var(0, most, "")
            some = model.new_bool_var("")
            model.add(count <= most * some)
            model.add(heights[level] >= above * some)
            line.append(count * beside)
            held[kind].append(count)
        model.add(sum(line) <= run)
        if level:
            model.add(heights[level] <= heights[level - 1])
    for kind, size in enumerate(sizes):
        if size.wanted:
            model.add(sum(held[kind]) >= size.wanted)
    model.add(sum(heights) <= known)
    model.minimize(sum(heights))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.max_time_in_seconds = SECONDS
    status = solver.solve(model)
    word = solver.status_name(status).lower()
    some_answer = status in (cp_model.OPTIMAL, cp_model.FEASIBLE)
    answer = round(solver.objective_value) if some_answer else None
    return answer, round(solver.best_objective_bound), word


if __name__ == "__main__":
    rows, given_run, given_known = json.load(sys.stdin)
    print(json.dumps(_exact_levels([Size(*row) for row in rows], given_run, given_known)))
