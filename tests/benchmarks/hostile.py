"""Projects that nobody would write: how long, and how much memory, until there is a clear answer.

    python tests/benchmarks/hostile.py [--only NAME …] [--share 0.5] [--commands check print]

`--share` makes each so much smaller, so that growth can be seen. A line gives CPU seconds and the peak of
memory of a command, its exit code and what it says first.
"""

from __future__ import annotations

import argparse
import os
import subprocess
import sys
import tempfile
import threading
from collections.abc import Callable
from pathlib import Path

HEAD = 'boltend = 1\n\n[[fabric]]\nname = "Slate"\nprice = "$12.50 per yard"\n\n'
SECONDS = 300


def tab(name: str, calculator: str, *givens: str) -> str:
    """One tab as text."""
    lines = "".join(f"{given}\n" for given in givens)
    return f'[[tab]]\nname = "{name}"\ncalculator = "{calculator}"\n[tab.given]\n{lines}\n'


def take(given: str, source: str, found: str) -> str:
    """A given that is linked."""
    return f'{given} = {{ from = "{source}", take = "{found}" }}'


def tabs(count: int) -> str:
    """So many tabs, each worked out for itself."""
    return HEAD + "".join(
        tab(f"T{n}", "binding", 'width = "60 in"', 'height = "70 in"') for n in range(count)
    )


def cloth(count: int) -> str:
    """So many tabs that cut one fabric, each another size."""
    return HEAD + "".join(
        tab(f"T{n}", "binding", f'width = "{n % 97 + 9} in"', 'height = "70 in"', 'fabric = "Slate"')
        for n in range(count)
    )


def chain(count: int) -> str:
    """Each tab takes from the one before."""
    first = tab("T0", "binding", 'width = "60 in"', 'height = "70 in"')
    return (
        HEAD
        + first
        + "".join(
            tab(f"T{n}", "binding", take("width", f"T{n - 1}", "bound_width"), 'height = "70 in"')
            for n in range(1, count)
        )
    )


def backwards(count: int) -> str:
    """The chain, written with its end first."""
    head, _, rest = chain(count).partition("[[tab]]")
    parts = ["[[tab]]" + part for part in rest.split("[[tab]]")]
    return head + "".join(reversed(parts))


def circle(count: int) -> str:
    """One circle through all tabs."""
    return HEAD + "".join(
        tab(f"T{n}", "binding", take("width", f"T{(n + 1) % count}", "bound_width"), 'height = "70 in"')
        for n in range(count)
    )


def circles(count: int) -> str:
    """Circles of two, by the thousand."""
    return HEAD + "".join(
        tab(f"T{n}", "binding", take("width", f"T{n ^ 1}", "bound_width"), 'height = "70 in"')
        for n in range(count)
    )


def knot(count: int) -> str:
    """Everything on circles: each tab takes from the next and from the one far behind."""
    return HEAD + "".join(
        tab(
            f"T{n}", "binding", take("width", f"T{(n + 1) % count}", "bound_width"),
            take("height", f"T{(n * 7 + 3) % count}", "bound_height"),
        )
        for n in range(count)
    )  # fmt: skip


def laughs(count: int) -> str:
    """Each tab doubles and redoubles what the two before it found."""
    text = tab(
        "T0", "straight_set", 'block_width = "9 in"', 'block_height = "9 in"', "across = 9", "down = 9"
    )
    for n in range(1, count):
        before = f"T{n - 1}"
        text += tab(
            f"T{n}", "straight_set", take("block_width", before, "width"),
            take("block_height", before, "height"), take("across", before, "blocks"), "down = 9",
        )  # fmt: skip
    return HEAD + text


def fan(count: int) -> str:
    """All tabs take from the first."""
    first = tab("T0", "binding", 'width = "60 in"', 'height = "70 in"')
    return (
        HEAD
        + first
        + "".join(
            tab(f"T{n}", "binding", take("width", "T0", "bound_width"), take("height", "T0", "bound_height"))
            for n in range(1, count)
        )
    )


def nowhere(count: int) -> str:
    """Links to tabs that are not there, each with a name like others."""
    return HEAD + "".join(
        tab(f"Lantern {n}", "binding", take("width", f"Lanterm {n}", "bound_width"), 'height = "70 in"')
        for n in range(count)
    )


def no_fabrics(count: int) -> str:
    """Fabrics that are not there, among as many that are."""
    rows = "".join(f'[[fabric]]\nname = "Dawn {n}"\n' for n in range(count))
    return (
        HEAD
        + rows
        + "".join(
            tab(f"T{n}", "binding", 'width = "60 in"', 'height = "70 in"', f'fabric = "Dawm {n}"')
            for n in range(count)
        )
    )


def fabrics(count: int) -> str:
    """So many fabrics, each used by nobody but a few."""
    rows = "".join(f'[[fabric]]\nname = "Dawn {n}"\nprice = "$9"\nform = "bolt"\n' for n in range(count))
    return HEAD + rows + tab("T", "binding", 'width = "60 in"', 'height = "70 in"', 'fabric = "Dawn 7"')


def twins(count: int) -> str:
    """All tabs and fabrics bear one name, written in ways that are alike after folding."""
    ways = ("Äußere", "A\u0308ußere", "äussere", "ÄUSSERE", "a\u0308USSERE")
    rows = "".join(f'[[fabric]]\nname = "{ways[n % 5]}"\n' for n in range(count))
    return (
        HEAD
        + rows
        + "".join(tab(ways[n % 5], "binding", 'width = "60 in"', 'height = "70 in"') for n in range(count))
    )


def no_calculators(count: int) -> str:
    """Tabs of calculators that nobody has, each with a name like others."""
    return HEAD + "".join(tab(f"T{n}", f"bindin{n}", 'width = "60 in"') for n in range(count))


def rows(count: int) -> str:
    """One given with so many rows."""
    cells = ", ".join(['{width="1 in"}'] * count)
    return HEAD + tab("T", "borders", 'top_width = "60 in"', 'top_height = "60 in"', f"borders = [{cells}]")


def keys(count: int) -> str:
    """So many keys that nobody knows, in one tab and among its givens."""
    odd = [f"widht{n} = {n}" for n in range(count)]
    return HEAD + "[project]\n" + "\n".join(odd) + "\n" + tab("T", "binding", *odd)


def lists(count: int) -> str:
    """So many measurements in one list."""
    return HEAD + tab("T", "measured_top", f"widths = [{', '.join(['1'] * count)}]", 'heights = ["9 in"]')


def strings(count: int) -> str:
    """Names and givens of so many letters."""
    long = "9" * (count // 4)
    return HEAD + tab(long, "binding", f'width = "{long}"', f'height = "{"½ " * (count // 12)}"')


def own_rows(count: int) -> str:
    """Rows of the project's own in a table of a plugin."""
    return (
        HEAD
        + "".join(f'[[row]]\ntable = "beds"\nname = "Bed {n}"\nwidth = "60 in"\n' for n in range(count))
        + tab("T", "bed_size", 'bed = "Bed 7"')
    )


def ladders(count: int) -> str:
    """So many ladders."""
    return tabs(3) + "".join(
        f'[[ladder]]\nname = "L{n}"\ntab = "T1"\ngiven = "width"\nvalues = ["60 in"]\n' for n in range(count)
    )


def nested(count: int) -> str:
    """A list in a list in a list."""
    return HEAD + f"odd = {'[' * count}{']' * count}\n" + tab("T", "binding", 'width = "60 in"')


def nested_given(count: int) -> str:
    """The same, as a given."""
    return HEAD + tab("T", "binding", f"width = {'[' * count}{']' * count}", 'height = "60 in"')


def nested_tables(count: int) -> str:
    """A table in a table in a table."""
    return HEAD + tab("T", "binding", f"width = {'{a=' * count}1{'}' * count}", 'height = "60 in"')


def headers(count: int) -> str:
    """One header with so many names."""
    return HEAD + tab("T", "binding", 'width = "60 in"') + "[" + ".".join(["a"] * count) + "]\nx = 1\n"


PROJECTS: dict[str, tuple[Callable[[int], str], int]] = {
    "tabs": (tabs, 10_000),
    "cloth": (cloth, 10_000),
    "chain": (chain, 10_000),
    "backwards": (backwards, 10_000),
    "circle": (circle, 10_000),
    "circles": (circles, 10_000),
    "knot": (knot, 5_000),
    "laughs": (laughs, 3_000),
    "fan": (fan, 10_000),
    "nowhere": (nowhere, 10_000),
    "no fabrics": (no_fabrics, 8_000),
    "fabrics": (fabrics, 10_000),
    "twins": (twins, 8_000),
    "no calculators": (no_calculators, 10_000),
    "rows": (rows, 100_000),
    "keys": (keys, 40_000),
    "lists": (lists, 500_000),
    "strings": (strings, 1_900_000),
    "own rows": (own_rows, 20_000),
    "ladders": (ladders, 20_000),
    "nested": (nested, 900),
    "nested too deep": (nested, 100_000),
    "nested given": (nested_given, 300),
    "nested tables": (nested_tables, 150),
    "headers": (headers, 300),
}


def measured(*words: str) -> tuple[float, float, int, str]:
    """CPU seconds, peak in MB, exit code and the first line that a command says."""
    with tempfile.TemporaryFile() as out:
        child = subprocess.Popen([sys.executable, "-m", "boltend", *words], stdout=out, stderr=out)
        late = threading.Timer(SECONDS, child.kill)
        late.start()
        _, status, usage = os.wait4(child.pid, 0)
        late.cancel()
        child.returncode = os.waitstatus_to_exitcode(status)
        out.seek(0)
        said = out.read(4000).decode("utf-8", "replace").splitlines()
    return usage.ru_utime + usage.ru_stime, usage.ru_maxrss / 1024, child.returncode, next(iter(said), "")


def main() -> None:
    """Print a line for each project and command."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawTextHelpFormatter)
    parser.add_argument("--only", nargs="*", default=list(PROJECTS))
    parser.add_argument("--share", type=float, default=1.0)
    parser.add_argument("--commands", nargs="*", default=["check", "print"])
    said = parser.parse_args()
    print(f"{'project':<16} {'kB':>6}  {'command':<7} {'CPU s':>7} {'MB':>6} exit  first line")
    with tempfile.TemporaryDirectory() as folder:
        os.environ |= {"BOLTEND_STATE": f"{folder}/state", "BOLTEND_CONFIG": f"{folder}/config"}
        for name in said.only:
            make, count = PROJECTS[name]
            path = Path(folder) / "h.toml"
            path.write_text(make(int(count * said.share)), encoding="utf-8")
            size = path.stat().st_size / 1000
            for command in said.commands:
                took, peak, code, line = measured(command, str(path))
                figures = f"{size:6.0f}  {command:<7} {took:7.2f} {peak:6.0f} {code:>4}"
                print(f"{name:<16} {figures}  {line.rpartition('/')[2][:70]}", flush=True)


if __name__ == "__main__":
    main()
