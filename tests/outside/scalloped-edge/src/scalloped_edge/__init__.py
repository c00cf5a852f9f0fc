"""The length of a scalloped edge, and its bias binding."""

from fractions import Fraction

from boltend.plugin import (
    Answer,
    Calculator,
    Cannot,
    Choice,
    Count,
    Cut,
    Fabric,
    Finished,
    Length,
    Line,
    Note,
    Percent,
    Polygon,
    Rows,
    Settings,
    Shape,
    Start,
    Table,
    TableRow,
    Text,
    calculator,
    finished,
    found,
    given,
    hookimpl,
    length,
    line,
    percent,
    row,
)

from scalloped_edge.arcs import arc_between, points_on
from scalloped_edge.bias import continuous, single_strips

boltend_contract = 1

MOST_DRAWN = 24
"""Scallops in the picture: more of them nobody could tell apart."""

FORMS = Table(
    "scallops",
    {"depth": "percent"},
    {
        "shallow": {"depth": "10 %", "source": "ours, for this plugin"},
        "gentle": {"depth": "15 %", "source": "ours, for this plugin"},
        "round": {"depth": "25 %", "source": "ours, for this plugin"},
        "half circle": {"depth": "50 %", "source": "geometry: half as deep as it is wide"},
    },
)
"""Forms by name: their depth as a share of their width from tip to tip."""


@row
class Edge:
    """Edges alike."""

    name: Text = given("Name", default="edge")
    length: Finished = given("Length", least="1 in", most="300 in", help="Straight, from corner to corner.")
    times: Count = given("How many alike", default="1", least="1", most="8")
    scallops: Count = given("Scallops along it", least="0", most="200", help="0 for a straight edge.")
    form: TableRow = given("Form", default="gentle", table="scallops")
    depth: Finished | None = given("Depth of your own", least="0 in", help="In place of the form's.")


@row
class Each:
    """What is found for one edge."""

    name: Text = found("Name")
    wide: Finished = found("From tip to tip", nearest="size")
    deep: Finished = found("Depth", nearest="size")
    arc: Length = found("One arc", up=("1/16 in", "1 mm"), bounded=True)
    along: Length = found("Along the edge", up=("1/16 in", "1 mm"), bounded=True)


class Found:
    """What it finds."""

    edge_length: Length = found("Length of all edges", up=("1/2 in", "1 cm"), bounded=True)
    binding_length: Length = found(
        "Length of binding", up=("1/2 in", "1 cm"), bounded=True, grows_with=("tail",)
    )
    strips: Count | None = found("Bias strips", grows_with=("tail",))
    square: Cut | None = found("Square for continuous bias", up=("1 in", "1 cm"))
    length_to_buy: Length = found("Fabric to buy", up="buying", unit="yd", grows_with=("tail", "strip_width"))
    share: Percent = found("Longer than a straight edge by", up="1", bounded=True)
    each: Rows[Each] = found("Edge by edge")


@calculator(
    "scalloped_edge", asks="How long is a scalloped edge, and what bias binding does it take?", found=Found
)
def scalloped_edge(
    edges: Rows[Edge] = given("Edges"),
    strip_width: Cut = given(
        "Width of the binding strip", default="2 in", metric="5 cm", least="1 in", most="6 in", step="1/8 in"
    ),
    method: Choice["single strips", "continuous"] = given("Bias", default="single strips"),
    tail: Length = given("Tail", default="10 in", metric="25 cm", least="0 in", most="60 in"),
    fabric: Fabric | None = given("Fabric"),
    *,
    setting: Settings,
) -> Answer:  # fmt: skip
    """Arcs along each edge by geometry; the marked arc is the raw edge that the binding is sewn to.

    Lengths in inches. An arc over a chord c, d deep: h = c/2, r = (h² + d²)/2d, length 4·r·arctan(d/h), rounded
    up from a bound a millionth above. A half circle over 4 in is 2π = 6.2832 in. Geometry; the bias by common
    practice, no source.
    """
    each, working, total, straight = [], [], Fraction(0), Fraction(0)
    for edge in edges:
        wide, deep = _size(edge)
        low, high = arc_between(wide, deep)
        many = max(1, edge.scallops)
        total += edge.times * many * high
        straight += edge.times * edge.length
        each.append({"name": edge.name, "wide": wide, "deep": deep, "arc": high, "along": many * high})
        working += _edge_lines(edge, wide, deep, low, high)
    wanted = total + tail
    cut = (single_strips if method == "single strips" else continuous)(wanted, strip_width, fabric, setting)
    return Answer(
        found={
            "edge_length": total,
            "binding_length": wanted,
            "strips": cut.strips,
            "square": cut.square,
            "length_to_buy": cut.to_buy,
            "share": 100 * (total / straight - 1),
            "each": each,
        },
        pieces=[cut.piece],
        working=[
            *working,
            line("All edges {}, and {} tail: {} of binding.", length(total), length(tail), length(wanted)),
            *cut.working,
        ],
        cautions=[
            cut.caution,
            "Bias edges stretch: press, do not pull. Sew the binding on before the scallops are cut out.",
            "Close the rotary cutter's blade whenever you put it down.",
        ],
        picture=_picture(edges[0], fabric),
    )


def _size(edge: Edge) -> tuple[Fraction, Fraction]:
    """From tip to tip, and how deep."""
    if edge.scallops == 0:
        return edge.length, Fraction(0)
    wide = edge.length / edge.scallops
    share = edge.form["depth"]
    assert isinstance(share, Fraction)  # the table says percent
    deep = wide * share / 100 if edge.depth is None else edge.depth
    if 2 * deep > wide:
        why = f"the scallops of {edge.name} are deeper than half circles."
        raise Cannot("edges", why, "Take fewer scallops, or a smaller depth.")
    return wide, deep


def _edge_lines(edge: Edge, wide: Fraction, deep: Fraction, low: Fraction, high: Fraction) -> list[Line]:
    if deep == 0:
        return [line("{}: straight, {} × {}.", edge.name, edge.times, finished(edge.length))]
    return [
        line("{}: {} ÷ {} scallops = {} from tip to tip, {} deep ({}).", edge.name, finished(edge.length),
             edge.scallops, finished(wide), finished(deep), percent(100 * deep / wide)),
        line("An arc is between {} and {} long; {} × {} of the longer are {}.", length(low), length(high),
             edge.times, edge.scallops, length(edge.times * edge.scallops * high)),
    ]  # fmt: skip


def _picture(edge: Edge, fabric: str | None) -> list[Shape]:
    """The first edge, its scallops downwards."""
    wide, deep = _size(edge)
    many = min(max(1, edge.scallops), MOST_DRAWN)
    above = max(2 * deep, wide / 4)
    outline = [(many * wide, Fraction(0)), (Fraction(0), Fraction(0))]
    for n in range(many):
        outline += [(n * wide + x, above + y) for x, y in points_on(wide, deep, 8)]
    return [Polygon(tuple(outline), fabric or "quilt"), Note(wide / 8, above / 2, edge.name)]


@hookimpl
def boltend_calculators() -> list[Calculator]:
    """Bring the calculator."""
    return [scalloped_edge]


@hookimpl
def boltend_tables() -> list[Table]:
    """Bring the forms."""
    return [FORMS]


@hookimpl
def boltend_starts() -> list[Start]:
    """Bring one question: the edges follow from the measured top."""
    top = ("Top", "measured_top", {"widths": "60 in", "heights": "72 in"})
    ends = {"name": "ends", "length": {"from": "Top", "take": "width"}, "times": 2, "scallops": 8}
    sides = {"name": "sides", "length": {"from": "Top", "take": "height"}, "times": 2, "scallops": 10}
    edge = ("Edge", "scalloped_edge", {"edges": [ends, sides]})
    return [Start("What does a scalloped edge take?", (top, edge))]
