"""The README's table of the three whole quilts: cut apart and together, in simple strips and with stacks.

`python tests/readme_savings.py` prints it; `test_readme.py` holds the README to it. Only bolts count, and
nothing is taken to be in hand, so that the four ways buy for the same pieces.
"""

from dataclasses import replace
from fractions import Fraction

from boltend.core.flow import Workbook
from boltend.core.host import Host, load_plugins
from boltend.core.pool import Pool
from boltend.core.project.reading import read_bytes
from boltend_shared.examples import path

QUILTS = {"lantern-row": "Lantern Row", "tidewater": "Tidewater", "short-measure": "Short Measure"}
WAYS = [
    "simple strips, each tab its own",
    "simple strips, pooled",
    "with stacks, each tab its own",
    "with stacks, pooled",
]
HEAD = f"| quilt | {' | '.join(WAYS)} |\n|---|---|---|---|---|\n"


def table() -> str:
    """The table in markdown."""
    host = Host(load_plugins())
    return HEAD + "".join(_row(host, name, title) for name, title in QUILTS.items())


def _row(host: Host, name: str, title: str) -> str:
    project = read_bytes(path(name).read_bytes(), f"{name}.toml").project
    bare = [
        replace(each, data={key: said for key, said in each.data.items() if key != "have"})
        for each in project.fabrics
    ]
    book = Workbook(host, replace(project, fabrics=tuple(bare)))
    cells = [cell for stacks in (False, True) for cell in _bought(book, stacks)]
    return f"| {title} | {' | '.join(cells)} |\n"


def _bought(book: Workbook, stacks: bool) -> tuple[str, str]:
    apart, together = [Fraction(0)] * 2, [Fraction(0)] * 2
    for fabric in Pool(stacks=stacks).lists(book).fabrics:
        if fabric.cloth.precut is None:
            yard = fabric.buy.cost.amount * 36 / fabric.buy.length
            for sums, length in ((apart, fabric.separate), (together, fabric.buy.length)):
                sums[0] += length / 36
                sums[1] += length / 36 * yard
    return _said(*apart), _said(*together)


def _said(yards: Fraction, money: Fraction) -> str:
    whole, part = divmod(yards, 1)
    return f"{whole}{f' {part}' if part else ''} yd, ${float(money):.2f}"


if __name__ == "__main__":
    print(table())
