"""Benchmarks, printed as ratios: `python tests/benchmarks/run.py [first_paint] [edit] [keystroke] …`.

Nothing here is a test: a time depends on the machine, a ratio hardly. Each line holds ours against something
that does the same work in the plainest way, both taken in turns, the least of nine each. A bare app
has as many widgets in sight as the shell.
"""

import os
import sys
from collections.abc import Sequence
from importlib import import_module

from figures import HEAD, ROUNDS, Figure, load_words

BENCHMARKS = {
    "first_paint": "first_paint",
    "edit": "chain_edit",
    "keystroke": "keystroke",
    "tab_switch": "tab_switch",
    "memory": "memory",
    "parsing": "parsing",
    "ladders": "ladders",
}
"""Each name with its module. A module is imported when its turn comes: the flow is timed without a screen."""


def main(names: Sequence[str]) -> int:
    """Run the benchmarks named, or all; the exit code is 0 whatever the ratios are."""
    unknown = [name for name in names if name not in BENCHMARKS]
    if unknown:
        print(f"There is no benchmark {unknown[0]!r}. There are {', '.join(BENCHMARKS)}.", file=sys.stderr)
        return 2
    print(f"Python {sys.version.split()[0]}, least of {ROUNDS}; {load_words()}")
    print(HEAD)
    for name in names or BENCHMARKS:
        figures: Sequence[Figure] = import_module(BENCHMARKS[name]).figures()
        for figure in figures:
            print(figure.line, flush=True)
    print(f"at the end: load {os.getloadavg()[0]:.2f}, of which about 1 is ours")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
