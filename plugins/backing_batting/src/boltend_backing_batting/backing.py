"""How much backing a quilt takes, and which way its seams run."""

from collections.abc import Sequence
from fractions import Fraction
from typing import Literal

from boltend.plugin import (
    Answer,
    Count,
    Cut,
    Fabric,
    Finished,
    Length,
    Percent,
    Piece,
    Rows,
    Settings,
    calculator,
    found,
    given,
    row,
)
from boltend_backing_batting.backing_picture import picture
from boltend_backing_batting.backing_words import (
    buy_lines,
    cautions,
    fewer_lines,
    size_lines,
    wash_lines,
    way_lines,
)
from boltend_backing_batting.panels import Cloth, Layout, check_most, layout

_GROWERS = ("width", "height", "overage")
_NOT_PRINTED = "Give the printed yardage."
Seams = Literal["down", "across", "none"]


@row
class Offer:
    """One way of laying the panels."""

    seams_run: Seams = found("Seams run")
    panels: Count = found("Panels")
    panel_length: Cut = found("Length of a panel", up="cutting")
    last_width: Cut = found("Width of the last panel", up="cutting")
    length_to_buy: Length = found("Fabric, before squaring", up="buying", unit="yd")


class Found:
    """What is found."""

    printed_is: Literal["enough", "not enough"] | None = found("Printed yardage is", empty=_NOT_PRINTED)
    printed_short: Length | None = found(
        "Printed is short by", up="buying", unit="yd", empty=f"{_NOT_PRINTED} Or it is enough."
    )
    printed_spare: Length | None = found(
        "Printed, left over", down="buying", unit="yd", empty=f"{_NOT_PRINTED} Or it is short."
    )
    buy_alone: Length = found(
        "To buy, this tab alone",
        up="buying",
        unit="yd",
        grows_with=_GROWERS,
        help="With the end squared once. To buy has what all tabs take of the fabric.",
    )
    panels: Count = found("Panels")
    seams_run: Seams = found("Seams run")
    panel_length: Cut = found("Length of a panel", up="cutting")
    length_to_buy: Length = found("Fabric, before squaring", up="buying", unit="yd", grows_with=_GROWERS)
    backing_width: Cut = found("Width of the backing", up="cutting", grows_with=_GROWERS)
    backing_height: Cut = found("Height of the backing", up="cutting", grows_with=_GROWERS)
    choices: Rows[Offer] = found("Both ways", help="Panels laid down the quilt, and across it.")


@calculator("backing", asks="How much backing, and which way do its seams run?", found=Found)
def backing(
    width: Finished = given("Width of the quilt", least="1 in", most="10000 in", example=("60 in", "150 cm")),
    height: Finished = given(
        "Height of the quilt", least="1 in", most="10000 in", example=("72 in", "180 cm")
    ),
    printed: Length | None = given(
        "Printed yardage", least="1 in", unit="yd", help="What the pattern says to buy: is it enough?"
    ),
    overage: Length = given("Overage on each side", least="0 in"),
    usable_width: Length = given(
        "Usable width of the fabric", least="1 in", help="Between the selvages; wide backs are 90 to 118 in."
    ),
    seam: Length = given("Seam", least="0 in", help="Round the quilt, and between two panels."),
    repeat: Length = given("Pattern repeat", default="0 in", metric="0 cm", least="0 in", help="To match."),
    prewash_along: Percent | None = given("Prewash loss of the length"),
    prewash_across: Percent | None = given("Prewash loss of the width"),
    seams: Literal["best", "down", "across"] = given("Seams", default="best"),
    fabric: Fabric | None = given("Fabric"),
    *,
    setting: Settings,
) -> Answer:
    """Panels of one fabric that cover a quilt and its overage, laid down it or across it.

    Lengths in inches. The backing is `width` + 2 `seam` + 2 `overage` by the same of `height` (the raw edge
    is a seam outside the finished size). Panels: n = ceil((needed − 2 seam) ÷ (U − 2 seam)) with U the usable
    width once washed; n lengths are bought, each after the first rounded up to whole repeats, and divided by
    what washing leaves. Best is the shorter of the two after the shop's step, then the one of fewer panels,
    then seams down. 60 × 80 in with 4 in on 42 in: 2 panels down, 177 in, 5 yd. A `printed` yardage is held
    against what this tab alone takes, its end squared once. Common practice, no source.
    """
    raw = width + 2 * seam, height + 2 * seam
    needed = raw[0] + 2 * overage, raw[1] + 2 * overage
    usable = usable_width * (1 - (prewash_across or Fraction(0)) / 100)
    cloth = Cloth(usable, 1 - (prewash_along or Fraction(0)) / 100, seam, repeat)
    ways = layout("down", needed, cloth, setting), layout("across", needed, cloth, setting)
    best = min(ways, key=lambda each: (setting.buy_up(each.bought), each.panels))
    chosen = best if seams == "best" else ways[seams == "across"]
    alone = chosen.bought + setting.squaring / cloth.kept
    check_most(setting.buy_up(alone))
    return Answer(
        found={**_founds(chosen), **_printed(printed, alone), "buy_alone": alone,
               "backing_width": needed[0], "backing_height": needed[1],
               "choices": [{**_founds(each), "last_width": each.last} for each in ways]},
        pieces=_panels(chosen, cloth, fabric, setting),
        working=[
            *size_lines((width, height), needed, seam, overage),
            *wash_lines(usable_width, cloth),
            *(said for each in ways for said in way_lines(each, cloth)),
            *fewer_lines(chosen, cloth, raw[chosen.way == "across"], overage),
            *buy_lines(chosen.bought, alone, printed, setting),
        ],
        cautions=cautions(overage),
        picture=picture(chosen, cloth, raw, fabric or "backing"),
    )  # fmt: skip


def _founds(each: Layout) -> dict[str, object]:
    return {
        "seams_run": each.way if each.panels > 1 else "none",
        "panels": each.panels,
        "panel_length": each.length,
        "length_to_buy": each.bought,
    }


def _printed(printed: Fraction | None, alone: Fraction) -> dict[str, object]:
    """How a printed length compares with the length needed, both in inches."""
    if printed is None:
        return {"printed_is": None, "printed_short": None, "printed_spare": None}
    over = printed - alone
    return {
        "printed_is": "enough" if over >= 0 else "not enough",
        "printed_short": -over if over < 0 else None,
        "printed_spare": over if over >= 0 else None,
    }


def _panels(each: Layout, cloth: Cloth, fabric: str | None, setting: Settings) -> Sequence[Piece]:
    """The panels as pieces, as large as the founds say: lengths along the selvage, up to the cutting step.

    Panels to be matched are as long as their whole repeats, which are no size of ours to round; no panel is
    wider than the cloth.
    """
    first, last = setting.cut_up(each.length), min(setting.cut_up(each.last), cloth.usable)
    further = first if each.further == each.first else each.further * cloth.kept
    widths = [(cloth.usable, first, 1), (cloth.usable, further, each.panels - 2), (last, further, 1)]
    if each.panels == 1:
        widths = [(last, first, 1)]
    return [
        Piece("backing panel", across, along, count, fabric, "lengthwise", may_turn=False)
        for across, along, count in widths
        if count
    ]
