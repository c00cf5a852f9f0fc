"""Every instance that the proving solver is held against, in one table.

    python tests/benchmarks/cutting_table.py [SECTION ...] [--write]

Sections: bolt, sheets, own, knapsack, several, one, strips. `--write` puts the tables of all sections run
into `cutting_table.md` beside this file. Times are processor time of this process, as a ratio to the level
heuristic's (`plan(..., effort=0)`). `cutting_peers.py` says how to make an environment with the two peers.
"""

import platform
import sys
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from os import cpu_count, getloadavg
from pathlib import Path
from random import Random
from time import process_time

TESTS = Path(__file__).parent.parent
sys.path.insert(0, str(TESTS))  # the demands and instances of the tests

from cutting.demands import BOLT, FEWEST, MIXED, SHEETS, SIMPLE, parts  # noqa: E402 - after the path
from cutting.proving import published  # noqa: E402
from cutting_peers import SECONDS, Size, exact_levels, free_length, free_sheets  # noqa: E402

from boltend.core.cutting import Bolt, Part, Plan, Proof, Sheet, Stock, plan, prove  # noqa: E402
from boltend.core.cutting.convert import convert  # noqa: E402
from boltend_shared.cutting import instances  # noqa: E402

F = Fraction
SINGLES = Proof(50_000_000)
"""Work for the sets of single pieces, less than the usual: see the head of their tables."""

MINUTES = ("alvarez2002/ATP44 Horizontal",)
"""A knapsack whose list of strips takes minutes (it does give the published optimum)."""

HEAD = (
    "| instance | kinds / pieces | plans | bound, any way | bound, such plans | answer | proved | "
    "published or table | time ratio | rectpack (free) | CP-SAT (simple strips) |\n"
    "|---|---|---|---|---|---|---|---|---|---|---|"
)


@dataclass
class Sums:
    """What is counted over a section."""

    rows: int = 0
    proved: int = 0
    wrong: int = 0
    gap: float = 0.0
    worst: float = 0.0

    def add(self, answer: Fraction, least: Fraction, fine: bool) -> None:
        """Count one row; `fine` where it keeps to what is published."""
        self.rows += 1
        self.proved += answer == least
        self.wrong += not fine
        gap = float(answer / least - 1) if least else 0.0
        self.gap += gap
        self.worst = max(self.worst, gap)

    @property
    def line(self) -> str:
        """One sentence."""
        mean = 100 * self.gap / max(1, self.rows)
        return (
            f"{self.rows} rows, {self.proved} proved, {self.wrong} against what is published; the answer is "
            f"{mean:.2f} % above the bound for such plans in the mean, {100 * self.worst:.2f} % at worst."
        )


def number(value: Fraction | int) -> str:
    """A number as short as it can be shown."""
    return f"{float(value):.10g}"


def timed(call: Callable[[], Plan]) -> tuple[Plan, float]:
    """A plan and the processor time it took."""
    start = process_time()
    found = call()
    return found, process_time() - start


def compared(
    name: str,
    demand: Sequence[Part],
    stock: Stock,
    stacks: bool,
    sums: Sums,
    known: str = "",
    fine: Callable[[Plan], bool] = lambda _: True,
    proof: Proof | None = None,
    peers: bool = True,
) -> str:
    """One row of a table."""
    level, quick = min(
        (timed(lambda: plan(demand, stock, stacks=stacks, effort=0)) for _ in range(3)),
        key=lambda each: each[1],
    )
    found, slow = timed(lambda: prove(plan(demand, stock, stacks=stacks), None, proof))
    least = found.bound if found.least is None else found.least
    shorter = level.lacking or found.answer <= level.answer
    sums.add(found.answer, least, fine(found) and shorter and found.bound <= least <= found.answer)
    free, exact = _peers(demand, stock, level) if peers and not stacks else ("", "")
    wide = f" up to {number(found.widest)}" if found.widest is not None else ""
    cells = [
        name,
        f"{len(found.kinds)} / {sum(part.count for part in demand)}",
        ("stacks" if stacks else "simple") + wide,
        number(found.bound),
        number(least),
        number(found.answer),
        "yes" if found.answer == least else f"{100 * float(found.answer / least - 1):.2f} %",
        known,
        f"{slow / quick:,.0f} ({slow:.2f} s)",
        free,
        exact,
    ]
    return "| " + " | ".join(cells) + " |"


def _peers(demand: Sequence[Part], stock: Stock, level: Plan) -> tuple[str, str]:
    made = convert(demand, stock)
    sizes = [Size(size.across, size.along, size.may_turn, size.wanted) for size in made.sizes]
    unit = made.grid.unit
    if made.run is not None:
        free = free_length(sizes, made.run)
        exact = exact_levels(sizes, made.run, int(level.answer / unit))
        words = exact if isinstance(exact, str) else _exact_words(exact, unit)
        return free if isinstance(free, str) else number(free * unit), words
    if len(made.cloths) > 1:
        return "", ""
    fewest = free_sheets(sizes, made.cloths[0].across, made.cloths[0].along)
    return str(fewest), ""


def _exact_words(found: tuple[int | None, int, str], unit: Fraction) -> str:
    answer, bound, word = found
    if word == "optimal":
        return f"{number((answer or 0) * unit)} (optimal)"
    return f"{'none' if answer is None else number(answer * unit)} (bound {number(bound * unit)})"


def bolt() -> Iterator[str]:
    """The fifteen demands of `cutting.md`."""
    sums, stock = Sums(), Stock(bolt=Bolt(F(42)))
    yield (
        "## Bolt of 42 in: the demands written out in `cutting.md`\n\nInches. The table's answers are "
        "proved; with stacks its strips go up to 24 in or the longest piece, ours to the width that the row "
        "says, or any.\n"
    )
    yield HEAD
    for name, (pieces, _, _, stacked) in BOLT.items():
        for stacks in (False, True):
            known = stacked if stacks else SIMPLE[name]
            yield compared(
                name, parts(pieces), stock, stacks, sums, known,
                lambda found, known=known, stacks=stacks: (
                    found.answer <= F(known) * F(1002, 1000) and (stacks or found.bound <= F(known))
                ),
            )  # fmt: skip
    yield f"\n{sums.line}\n"


def sheets() -> Iterator[str]:
    """The sheet tasks of `cutting.md`."""
    sums = Sums()
    yield "## Sheets: the tasks of `cutting.md`\n\nSheets; S15: square inches.\n"
    yield HEAD
    for name, (pieces, (across, along), _, _, _) in SHEETS.items():
        for stacks in (False, True):
            known = FEWEST[name][stacks]
            stock = Stock((Sheet("sheet", F(across), F(along)),))
            yield compared(
                name, parts(pieces), stock, stacks, sums, str(known),
                lambda found, known=known: found.answer == known,
            )  # fmt: skip
    mixed, in_hand, _, simple, stacked = MIXED
    stock = Stock(tuple(Sheet(f"{a} x {b}", F(a), F(b), count) for a, b, count in in_hand))
    for stacks, known in ((False, simple), (True, stacked)):
        yield compared(
            "S15", parts(mixed), stock, stacks, sums, f"{known} (not proved)",
            lambda found, known=known: found.answer <= known * F(1002, 1000),
        )  # fmt: skip
    yield f"\n{sums.line}\n"


def own_demands() -> dict[str, list[Part]]:
    """Twenty demands, always the same: 20 to 2000 pieces of 3 to 30 sizes, in steps of 1/2 to 1/10 in."""
    found = {}
    for number_of in range(20):
        chance = Random(f"own {number_of}")
        kinds = 3 + round(27 * number_of / 19)
        pieces = round(20 * 100 ** ((number_of * 7 % 20) / 19))
        step = F(1, chance.choice([2, 4, 8, 10]))
        shares = [chance.random() + 0.2 for _ in range(kinds)]
        found[f"own {number_of + 1}"] = [
            Part(
                f"p{n}",
                chance.randint(3, 24) * F(1, 2) + chance.randint(0, 3) * step,
                chance.randint(3, 30) * F(1, 2) + chance.randint(0, 3) * step,
                max(1, round(pieces * share / sum(shares))),
                chance.random() < 0.75,
            )
            for n, share in enumerate(shares)
        ]
    return found


def own() -> Iterator[str]:
    """Twenty more demands."""
    sums, stock = Sums(), Stock(bolt=Bolt(F(42)))
    yield "## Bolt of 42 in: twenty demands drawn at random\n\nInches; see `own_demands`.\n"
    yield HEAD
    for name, demand in own_demands().items():
        for stacks in (False, True):
            yield compared(name, demand, stock, stacks, sums)
    yield f"\n{sums.line}\n"


def knapsack() -> Iterator[str]:
    """Two-stage knapsacks by the pricing program."""
    yield (
        "## Two-stage knapsacks: the pricing program\n\nPublished optimum against ours "
        "(`published.Knapsack`): the bound by one run of the pricing program, then what is found and "
        "proved.\n\n"
        "| instance | kinds / pieces | bound by pricing | ours | published | equal | seconds |\n"
        "|---|---|---|---|---|---|---|"
    )
    equal = rows = 0
    for each in instances("knapsack_two_stage"):
        if each.name in MINUTES:
            continue
        start = process_time()
        ours = published.Knapsack(each)
        most, proved = ours.most()
        optimum = each.published["optimum"]
        same = most == proved == optimum
        equal, rows = equal + same, rows + 1
        yield (
            f"| {each.name} | {len(each.items)} / {each.copies} | {ours.bound(ours.whole)} | {most} | "
            f"{optimum} | {'yes' if same else 'NO'} | {process_time() - start:.2f} |"
        )
    yield f"\n{equal} of {rows} equal the published optimum. Left out, as it takes minutes: {MINUTES[0]}.\n"


def several() -> Iterator[str]:
    """Sheets of several sizes."""
    yield (
        "## Sheets of several sizes, two stages, first cuts across (Cintra et al. 2008)\n\n"
        "The published bound and best known answer, ours in per cent of them (the bound: 0 is equal; the "
        "answer: less than 0 is better).\n\n"
        "| instance | kinds / pieces | published bound | our bound | best known | our answer | seconds |\n"
        "|---|---|---|---|---|---|---|"
    )
    for each in instances("cintra2008_vsbp_2nho"):
        start = process_time()
        found, unit = published.least_cost(each, 1_000_000_000)
        lower, best = each.published["lower_bound"], each.published["best_known"]
        yield (
            f"| {each.name} | {len(each.items)} / {each.copies} | {number(lower)} | "
            f"{100 * float(found.bound * unit / lower - 1):+.4f} % | {float(best):.0f} | {found.cost * unit} "
            f"({100 * float(found.cost * unit / best - 1):+.3f} %) | {process_time() - start:.2f} |"
        )
    yield ""


def one() -> Iterator[str]:
    """Identical sheets."""
    sums = Sums()
    yield (
        "## Sheets of one size (Berkey and Wang; Martello and Vigo), every tenth\n\n"
        f"Single pieces; {SINGLES.units:,} units of work each, less than usual. Published: the best known of "
        "a free packing, with * where it is proved by its area. Our plans may take more; the bound for any "
        "way of cutting may not be greater.\n"
    )
    yield HEAD
    for each in instances("class_2bp_50"):
        for may_turn in (False, True):
            key = "rotation" if may_turn else "oriented"
            best, proved = each.published["best_known"][key], each.published["optimal_proven"][key]
            yield compared(
                f"{each.name.removesuffix('_1')} {'turnable' if may_turn else 'fixed'}",
                published.parts(each, may_turn), published.stock(each), False, sums,
                f"{best}{'*' if proved else ''}",
                lambda found, best=best, proved=proved: (
                    found.bound <= best and (not proved or found.answer >= best)
                ),
                SINGLES,
            )  # fmt: skip
    yield f"\n{sums.line}\n"


def strips() -> Iterator[str]:
    """Endless strips."""
    sums = Sums()
    yield (
        "## Endless strips of zero waste (Hopper and Turton, C)\n\n"
        f"Single pieces that may turn; {SINGLES.units:,} units of work each, less than usual. Published: the "
        "least height of a free packing, below which none of our plans can be.\n"
    )
    yield HEAD
    for each in instances("hopper_turton_C"):
        optimum = each.published["optimal_height"]
        for stacks in (False, True):
            yield compared(
                each.name, published.parts(each, True), published.stock(each), stacks, sums, str(optimum),
                lambda found, optimum=optimum: found.bound <= optimum <= found.answer,
                SINGLES,
            )  # fmt: skip
    yield f"\n{sums.line}\n"


SECTIONS = {each.__name__: each for each in (bolt, sheets, own, knapsack, several, one, strips)}


def top() -> str:
    """When, where and how."""
    return (
        "# The proving solver against everything there is to hold it against\n\n"
        f"{date.today().isoformat()}, Python {platform.python_version()}, {platform.system()} "
        f"{platform.machine()}, {cpu_count()} cores, load {getloadavg()[0]:.1f}. Made by `python "
        "tests/benchmarks/cutting_table.py --write` (`cutting_peers.py` says which environment). Times are "
        "processor time; the ratio is to the level heuristic (`plan(..., effort=0)`) in the same process.\n\n"
        "*Bound, any way*: no way of cutting needs less. *Bound, such plans*: no plan of such strips needs "
        "less; integer programs are HiGHS's, to its tolerance. *rectpack*: the better of two of its "
        "packings, free: not always cuttable from edge to edge, never proved. *CP-SAT*: an exact model of "
        f"simple strips with a number of levels that loses none, {SECONDS:g} s, one worker. How time and "
        "memory grow with pieces and sizes: `cutting_growth.svg`, by `cutting_growth.py --write`.\n"
    )


def main(arguments: Sequence[str]) -> int:
    """Print the sections named, or all."""
    names = [name for name in arguments if name != "--write"] or list(SECTIONS)
    if unknown := [name for name in names if name not in SECTIONS]:
        print(f"There is no section {unknown[0]!r}. There are {', '.join(SECTIONS)}.", file=sys.stderr)
        return 2
    lines = [top()]
    for name in names:
        for line in SECTIONS[name]():
            print(line, flush=True)
            lines.append(line)
    if "--write" in arguments:
        Path(__file__).with_suffix(".md").write_text("\n".join(lines).rstrip() + "\n", encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
