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
    Measured,
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
from boltend_backing_batting.backing_ways import Asked, Ways, ways_of
from boltend_backing_batting.backing_words import (
    buy_lines,
    cautions,
    fewer_lines,
    half_lines,
    size_lines,
    wash_lines,
    way_lines,
)
from boltend_backing_batting.panels import Cloth, Layout, check_most

_GROWERS = ("width", "height", "overage")
_PANEL = "backing panel"
_NOT_PIECED = "No yardage is saved by piecing the last panel, or it is pieced."
_NOT_PRINTED = "Give the printed yardage."
Seams = Literal["down", "across", "none"]


@row
class Offer:
    """One way of laying the panels."""

    seams_run: Seams = found("Seams run")
    panels: Count = found("Panels")
    panel_length: Cut = found("Length of a panel", up="cutting")
    last_width: Cut = found("Width of the last panel", up="cutting")
    last_panel: Literal["whole", "pieced"] = found("Last panel")
    seams: Count = found("Seams")
    length_to_buy: Length = found("Fabric, before squaring", up="buying", unit="yd")


@row
class Other:
    """The backing from a fabric of one width."""

    usable_width: Length = found("Width", nearest="size")
    buy_alone: Length = found("To buy", up="buying", unit="yd")
    seams: Count = found("Seams")
    seams_run: Seams = found("They run")
    panels: Count = found("Panels")


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
    others: Rows[Other] = found(
        "By the usable width", help="This one, then the others; laid as asked above, the end squared once."
    )
    pieced_to_buy: Length | None = found(
        "With a pieced last panel",
        up="buying",
        unit="yd",
        empty=_NOT_PIECED,
        help="To buy, where the last panel is sewn from two halves cut side by side: one more seam.",
    )
    panels: Count = found("Panels")
    seams_run: Seams = found("Seams run")
    panel_length: Cut = found("Length of a panel", up="cutting")
    length_to_buy: Length = found("Fabric, before squaring", up="buying", unit="yd", grows_with=_GROWERS)
    backing_width: Cut = found("Width of the backing", up="cutting", grows_with=_GROWERS)
    backing_height: Cut = found("Height of the backing", up="cutting", grows_with=_GROWERS)
    choices: Rows[Offer] = found(
        "Both ways", help="Panels laid down the quilt, and across it; last those with a pieced last panel."
    )


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
    seams: Asked = given(
        "Seams",
        default="best",
        choices={
            "best": "Whichever takes less to buy.",
            "down": "Panels lie down the quilt, from head to foot.",
            "across": "Panels lie across the quilt, from side to side.",
        },
    ),
    last_panel: Literal["whole", "pieced"] = given(
        "Last panel",
        default="whole",
        help="Pieced: two halves cut side by side and joined end to end, where that saves yardage.",
        choices={
            "whole": "Every panel in one length.",
            "pieced": "The last one from two halves, one seam more, where that saves yardage.",
        },
    ),
    other_widths: Measured = given(
        "Other widths to compare",
        # 108 in: wide backing fabrics (standards.toml, wide_sources); the others common practice, no source.
        default="42 in; 60 in; 90 in; 108 in",
        metric="106 cm; 150 cm; 220 cm; 270 cm",
        help="Usable widths that your shop has.",
    ),
    fabric: Fabric | None = given("Fabric"),
    *,
    setting: Settings,
) -> Answer:
    """Panels of one fabric that cover a quilt and its overage, laid down it or across it.

    Lengths in inches. The backing is `width` + 2 `seam` + 2 `overage` by the same of `height` (the raw edge
    is a seam outside the finished size). Panels: n = ceil((needed − 2 seam) ÷ (U − 2 seam)) with U the usable
    width once washed; n lengths are bought, each after the first rounded up to whole repeats, and divided by
    what washing leaves. Best is the shorter of the two after the shop's step (without the squaring, then with
    it), then the one of fewer panels, then seams down. 60 × 80 in with 4 in on 42 in: 2 panels down, 177 in,
    5 yd. A `printed` yardage is held against what this tab alone takes, its end squared once.

    Pieced: where the last panel lies twice in the width, it may be sewn from two halves, (length + 2 `seam`)
    ÷ 2 each, cut side by side and joined end to end. 87 × 93 in with 4 in on 42 in: 3 panels across of
    95 1/2 in, 8 yd; the last is 18 1/2 in wide, and two halves of 48 in make it 6 3/4 yd. Common practice, no
    source.
    """
    raw = width + 2 * seam, height + 2 * seam
    needed = raw[0] + 2 * overage, raw[1] + 2 * overage
    usable = usable_width * (1 - (prewash_across or Fraction(0)) / 100)
    cloth = Cloth(usable, 1 - (prewash_along or Fraction(0)) / 100, seam, repeat)
    ways = ways_of(needed, cloth, setting)
    chosen = ways.chosen(seams, may_piece=last_panel == "pieced")
    saving = [] if chosen.half is not None else ways.saving(seams)
    alone = ways.alone(chosen)
    check_most(setting.buy_up(alone))
    return Answer(
        found={**_founds(chosen), **_printed(printed, alone), "buy_alone": alone,
               "pieced_to_buy": ways.alone(saving[0]) if saving else None,
               "backing_width": needed[0], "backing_height": needed[1],
               "others": [
                   _other(width, each, each.chosen(seams, may_piece=last_panel == "pieced"))
                   for width, each in ways.at((usable_width, *other_widths), usable / usable_width)
               ],
               "choices": [_offer(each) for each in (
                   *ways.whole, *ways.saving("down")[:1], *ways.saving("across")[:1]
               )]},
        pieces=_panels(chosen, cloth, fabric, setting),
        working=[
            *size_lines((width, height), needed, seam, overage),
            *wash_lines(usable_width, cloth),
            *(said for each in ways.whole for said in way_lines(each, cloth)),
            *fewer_lines(chosen, cloth, raw[chosen.way == "across"], overage),
            *(said for each in (chosen, *saving[:1]) for said in half_lines(each, cloth)),
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


def _offer(each: Layout) -> dict[str, object]:
    return {
        **_founds(each),
        "last_width": each.last,
        "last_panel": "whole" if each.half is None else "pieced",
        "seams": each.seams,
    }


def _other(width: Fraction, ways: Ways, chosen: Layout) -> dict[str, object]:
    return {
        "usable_width": width,
        "buy_alone": ways.alone(chosen),
        "seams": chosen.seams,
        "seams_run": chosen.way if chosen.panels > 1 else "none",
        "panels": chosen.panels,
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
    final = further if each.half is None else setting.cut_up(each.half)
    name = _PANEL if each.half is None else "half of the last panel"
    sizes = [
        (_PANEL, cloth.usable, first, 1),
        (_PANEL, cloth.usable, further, each.panels - 2),
        (name, last, final, 1 if each.half is None else 2),
    ]
    if each.panels == 1:
        sizes = [(_PANEL, last, first, 1)]
    return [
        Piece(name, across, along, count, fabric, "lengthwise", may_turn=False)
        for name, across, along, count in sizes
        if count
    ]
