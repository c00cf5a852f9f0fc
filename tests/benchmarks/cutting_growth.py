"""How time and peak memory grow with pieces and with sizes, and what hostile demands take.

    python tests/benchmarks/cutting_growth.py [--write]

Each point is a process of its own: processor time of the level heuristic, the usual plan and the proof (the
usual work), and the peak of that process's memory. `--write` draws `cutting_growth.svg` beside this file.
Nothing here is a test: times depend on the machine.
"""

import json
import resource
import subprocess
import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import log10
from pathlib import Path
from random import Random
from time import process_time

TESTS = Path(__file__).parent.parent
sys.path.insert(0, str(TESTS))  # the hostile demands of the tests

from cutting.proving.hostile import BOLT, DEMANDS  # noqa: E402 - after the path

from boltend.core.cutting import Part, plan, prove  # noqa: E402

F = Fraction
PIECES = (10, 30, 100, 300, 1_000, 3_000, 10_000, 100_000, 1_000_000)
OF_SIZES = 8
SIZES = (1, 2, 4, 8, 12, 16, 24, 32, 48, 64)
OF_PIECES = 20
"""Pieces of each size, where the number of sizes grows."""

MOST_SECONDS = 300


@dataclass(frozen=True)
class Point:
    """Processor seconds of the level heuristic, of the usual plan and of the proof; peak megabytes; the gap
    that is left, as a share.
    """

    level: float
    usual: float
    proof: float
    memory: float
    gap: float


def drawn(sizes: int, pieces: int) -> list[Part]:
    """Sizes in quarter inches, from 1 1/2 to 12 in, which may turn; always the same ones."""
    chance = Random("growth")
    sides = [(chance.randint(6, 48), chance.randint(6, 48)) for _ in range(sizes)]
    return [Part(f"p{n}", F(a, 4), F(b, 4), max(1, (pieces + n) // sizes)) for n, (a, b) in enumerate(sides)]


def demand(key: str) -> list[Part]:
    """A demand by its name: "sizes pieces" or a hostile one's."""
    if key in DEMANDS:
        return DEMANDS[key]
    sizes, pieces = key.split()
    return drawn(int(sizes), int(pieces))


def measured(key: str) -> Point:
    """Take one point in a process of its own."""
    line = [sys.executable, __file__, "--one", key]
    said = subprocess.run(line, capture_output=True, text=True, check=True, timeout=MOST_SECONDS).stdout
    return Point(**json.loads(said))


def one(key: str) -> Point:
    """Take one point here."""
    wanted = demand(key)
    begin = process_time()
    plan(wanted, BOLT, effort=0)
    level = process_time()
    usual = plan(wanted, BOLT)
    planned = process_time()
    found = prove(usual)
    proved = process_time()
    least = found.bound if found.least is None else found.least
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024  # in kilobytes on Linux
    gap = float(found.answer / least - 1) if least else 0.0
    return Point(level - begin, planned - level, proved - planned, peak, gap)


def line(name: str, point: Point) -> str:
    """One line of the printed table."""
    return (
        f"{name:<28} {point.level:>9.3f} {point.usual:>9.3f} {point.proof:>9.3f} {point.memory:>8.0f} "
        f"{100 * point.gap:>8.2f}"
    )


WIDTH, HEIGHT, LEFT, TOP, GAP = 360, 220, 64, 56, 90
INK, GRID = "#222222", "#d0d0d0"
SERIES = (
    ("level heuristic", "#7a7a7a", "4 3"),
    ("usual plan", "#1f6f8b", "1 0"),
    ("proof", "#b5482a", "1 0"),
)
"""Name, colour and dash of each line of a time plot."""


@dataclass(frozen=True)
class Axis:
    """A logarithmic axis from `low` to `high` over `length` points."""

    low: float
    high: float
    length: float

    def at(self, value: float) -> float:
        """The place of a value."""
        share = (log10(value) - log10(self.low)) / (log10(self.high) - log10(self.low))
        return self.length * min(1.0, max(0.0, share))


def panel(
    place: tuple[float, float],
    title: str,
    across: tuple[str, Sequence[int]],
    up: tuple[str, Axis],
    lines: Sequence[tuple[Sequence[float], str, str]],
) -> Iterator[str]:
    """One plot of lines over the same places."""
    x0, y0 = place
    name, marks = across
    x, y = Axis(marks[0], marks[-1], WIDTH), up[1]
    yield f'<g transform="translate({x0},{y0})">'
    yield f'<text x="0" y="-14" font-weight="bold">{title}</text>'
    for mark in _tens(y):
        at = HEIGHT - y.at(mark)
        yield f'<line x1="0" x2="{WIDTH}" y1="{at:.1f}" y2="{at:.1f}" stroke="{GRID}"/>'
        yield f'<text x="-6" y="{at + 4:.1f}" text-anchor="end">{mark:g}</text>'
    for mark in marks if len(marks) < 10 else marks[::2] + marks[-1:]:
        at = x.at(mark)
        yield f'<line x1="{at:.1f}" x2="{at:.1f}" y1="{HEIGHT}" y2="{HEIGHT + 4}" stroke="{INK}"/>'
        yield f'<text x="{at:.1f}" y="{HEIGHT + 17}" text-anchor="middle">{_short(mark)}</text>'
    yield f'<path d="M0 0V{HEIGHT}H{WIDTH}" fill="none" stroke="{INK}"/>'
    yield f'<text x="{WIDTH / 2}" y="{HEIGHT + 36}" text-anchor="middle">{name}</text>'
    turned = f'transform="rotate(-90 -46 {HEIGHT / 2})"'
    yield f'<text x="-46" y="{HEIGHT / 2}" text-anchor="middle" {turned}>{up[0]}</text>'
    for values, colour, dash in lines:
        spots = [(x.at(m), HEIGHT - y.at(v)) for m, v in zip(marks, values, strict=True)]
        path = " ".join(f"{a:.1f},{b:.1f}" for a, b in spots)
        stroke = f'stroke="{colour}" stroke-width="2" stroke-dasharray="{dash}"'
        yield f'<polyline points="{path}" fill="none" {stroke}/>'
        yield from (f'<circle cx="{a:.1f}" cy="{b:.1f}" r="3" fill="{colour}"/>' for a, b in spots)
    yield "</g>"


def _tens(axis: Axis) -> list[float]:
    low, high = round(log10(axis.low)), round(log10(axis.high))
    return [float(f"1e{power}") for power in range(low, high + 1)]


def _short(number: int) -> str:
    if number >= 1_000_000:
        return f"{number // 1_000_000} M"
    return f"{number // 1000} k" if number >= 1000 else str(number)


def svg(by_pieces: Sequence[Point], by_sizes: Sequence[Point]) -> str:
    """Four plots: time and memory, over pieces and over sizes."""
    wide, high = 2 * (LEFT + WIDTH) + 60, 2 * (HEIGHT + GAP) + TOP + 10
    found = [
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide}" height="{high}" viewBox="0 0 {wide} {high}" '
        f'font-family="sans-serif" font-size="12" fill="{INK}">',
        f'<rect width="{wide}" height="{high}" fill="#ffffff"/>',
    ]
    for number, (name, colour, dash) in enumerate(SERIES):
        x = LEFT + 130 * number
        found.append(
            f'<line x1="{x}" x2="{x + 24}" y1="16" y2="16" stroke="{colour}" stroke-width="2" '
            f'stroke-dasharray="{dash}"/><text x="{x + 30}" y="20">{name}</text>'
        )
    columns = (
        (f"pieces, of {OF_SIZES} sizes", PIECES, by_pieces),
        (f"sizes, {OF_PIECES} pieces of each", SIZES, by_sizes),
    )
    for column, (name, marks, points) in enumerate(columns):
        x = LEFT + column * (WIDTH + LEFT + 30)
        times = [[p.level for p in points], [p.usual for p in points], [p.proof for p in points]]
        lines = [
            ([max(0.001, t) for t in each], colour, dash)
            for each, (_, colour, dash) in zip(times, SERIES, strict=True)
        ]
        up = ("seconds", Axis(0.001, 100, HEIGHT))
        found += panel((x, TOP + 14), "Processor time", (name, marks), up, lines)
        memory = [([p.memory for p in points], SERIES[2][1], SERIES[2][2])]
        up = ("megabytes", Axis(10, 1000, HEIGHT))
        found += panel((x, TOP + 14 + HEIGHT + GAP), "Peak memory of the process", (name, marks), up, memory)
    return "\n".join([*found, "</svg>"]) + "\n"


def main(arguments: Sequence[str]) -> int:
    """Print all points; draw them where asked to."""
    if arguments[:1] == ["--one"]:
        print(json.dumps(vars(one(arguments[1]))))
        return 0
    print(f"{'':<28} {'level s':>9} {'plan s':>9} {'proof s':>9} {'peak MB':>8} {'gap %':>8}")
    found: list[list[Point]] = []
    for keys in ([f"{OF_SIZES} {n}" for n in PIECES], [f"{n} {n * OF_PIECES}" for n in SIZES]):
        found.append([])
        for key in keys:
            found[-1].append(measured(key))
            print(line("sizes, pieces: " + key, found[-1][-1]), flush=True)
    for key in DEMANDS:
        print(line(key, measured(key)), flush=True)
    if "--write" in arguments:
        Path(__file__).with_suffix(".svg").write_text(svg(*found), encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
