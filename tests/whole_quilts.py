"""What the tests of the whole quilts share: an example worked out, and plain sums to work along with.

Nothing here asks Boltend for a number. √2 is carried to forty digits, far finer than any step that it is
rounded to.
"""

from collections.abc import Mapping
from fractions import Fraction as Fr
from math import ceil, floor, isqrt
from typing import Any

from shapely import Polygon, box  # type: ignore[import-untyped]  # it ships no types

from boltend.core.flow import Workbook
from boltend.core.host import Host
from boltend.core.project.model import Project
from boltend.core.project.reading import read_bytes
from boltend.core.values import Price
from boltend_shared.examples import path

R2 = Fr(isqrt(2 * 10**80), 10**40)
S = Fr(1, 4)
"""The seam allowance of all three projects."""
YARD, EIGHTH = 36, Fr(36, 8)
METRE = 100 / Fr(254, 100)

Founds = dict[str, Mapping[str, Any]]


def read(name: str) -> Project:
    reading = read_bytes(path(name).read_bytes(), f"{name}.toml")
    assert reading.problems == ()
    return reading.project


def work_out(host: Host, project: Project) -> Founds:
    """All tabs' founds, by name; every tab must be worked out, without a trouble."""
    book = Workbook(host, project)
    assert book.row_troubles() == []
    results = {tab.name: book.result(tab.key) for tab in project.tabs}
    for name, each in results.items():
        assert each.state == "worked out", f"{name}: {each.why}"
        assert each.troubles == ()
    return {name: each.found for name, each in results.items()}


def rows(founds: Mapping[str, Any], name: str, *keys: str) -> list[tuple[Any, ...]]:
    """Some columns of a found of rows."""
    return [tuple(row[key] for key in keys) for row in founds[name]]


def rectangle(left: Fr, top: Fr, right: Fr, bottom: Fr) -> Polygon:
    return box(*(float(each) for each in (left, top, right, bottom)))


def framed(inner: tuple[Fr, Fr, Fr, Fr], sides: Fr, ends: Fr) -> tuple[list[Polygon], tuple[Fr, Fr, Fr, Fr]]:
    """Four strips round a rectangle, sides first, and the rectangle that they make; finished."""
    left, top, right, bottom = inner
    outer = (left - sides, top - ends, right + sides, bottom + ends)
    strips = [
        rectangle(outer[0], top, left, bottom),
        rectangle(right, top, outer[2], bottom),
        rectangle(outer[0], outer[1], outer[2], top),
        rectangle(outer[0], bottom, outer[2], outer[3]),
    ]
    return strips, outer


def up(value: Fr, step: Fr) -> Fr:
    return ceil(value / step) * step


def down(value: Fr, step: Fr) -> Fr:
    return floor(value / step) * step


def nearest(value: Fr, step: Fr) -> Fr:
    return floor(value / step + Fr(1, 2)) * step


def eighths(inches: Fr) -> Fr:
    """As the shop cuts it: whole eighths of a yard."""
    return up(inches, EIGHTH)


def strips_one_by_one(wanted: Fr, usable: int, join: Fr) -> int:
    """Add strips until they reach; each join takes some."""
    strips, reach = 1, Fr(usable)
    while reach < wanted:
        strips, reach = strips + 1, reach + usable - join
    return strips


def thread(path_inches: Fr, stitches: int, thickness: Fr, waste: Fr, spool: Fr, bobbin: Fr) -> dict[str, Any]:
    """Each thread takes 1 + T·S for each length of seam, low and high with half of T and one and a half.

    Whole yards, the low one rounded down, the others up; spools for both threads, bobbins for one.
    """
    pull = thickness * stitches
    low, mid, high = (path_inches * (1 + waste) * (1 + pull * part) for part in (Fr(1, 2), Fr(1), Fr(3, 2)))
    each = {"": up(mid, Fr(YARD)), "_low": down(low, Fr(YARD)), "_high": up(high, Fr(YARD))}
    founds: dict[str, Any] = {
        f"{which}_thread{end}": inches for which in ("top", "bobbin") for end, inches in each.items()
    }
    founds["spools"] = ceil(2 * each[""] / spool)
    founds["bobbins"] = ceil(each[""] / bobbin)
    return founds


def on_a_bobbin(holds_yards: int, number: int) -> Fr:
    """Inches of a cotton of so many hanks a pound and ply, two plies, on a bobbin that holds so much 70 Nm.

    70 Nm is 1000/70 tex; tex · Ne = 32399455/54864 a ply. What a bobbin holds goes by weight.
    """
    tex = 2 * Fr(32399455, 54864) / number
    return holds_yards * YARD * Fr(1000, 70) / tex


def cost(dollars: str, inches: Fr) -> Price:
    """So much a yard, to the cent."""
    return Price(nearest(Fr(dollars) * inches / YARD, Fr(1, 100)), "USD")
