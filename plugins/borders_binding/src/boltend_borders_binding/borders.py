"""What borders make of a top, and what is cut for them."""

from fractions import Fraction
from typing import Literal

from boltend.plugin import (
    Answer,
    Cannot,
    Count,
    Cut,
    Finished,
    Length,
    Line,
    Rows,
    Settings,
    Text,
    calculator,
    finished,
    found,
    given,
    length,
    line,
    row,
    up,
    yards,
)
from boltend_borders_binding.border_cut import Taken, take
from boltend_borders_binding.border_picture import picture
from boltend_borders_binding.border_rows import Border, Laid, lay, none_of
from boltend_borders_binding.border_working import (
    border_lines,
    mitre_cautions,
    none_lines,
    one_way_cautions,
    raw_line,
)
from boltend_borders_binding.cloth import MOST_INCHES, cloth
from boltend_borders_binding.in_hand import NOT_SAID, held
from boltend_borders_binding.strips import Join

_TOP = ("top_width", "top_height")
_SHARED = "Where all borders share one length; else see each."
_NOT_SHARED = "The {} of the borders share no one length: each border has its own."
_SEVERAL = "The borders are of several fabrics: each border has its own fabric to buy."


@row
class Each:
    """What one border takes, and what the quilt measures after it."""

    name: Text = found("Border")
    sides_cut: Cut | None = found("Sides", up="cutting")
    ends_cut: Cut | None = found("Ends", up="cutting")
    strip_width: Cut | None = found("Strip width", up="cutting")
    strip_width_ends: Cut | None = found("Strip width of the ends", up="cutting")
    strips: Count = found("Strips")
    cornerstones: Count = found("Cornerstones", help="Strip width by strip width of the ends, cut.")
    buy_alone: Length = found("To buy, alone", up="buying", unit="yd", help="With the end squared once.")
    length_to_buy: Length = found("Fabric, before squaring", up="buying", unit="yd")
    width: Finished = found("Width after it", nearest="size")
    height: Finished = found("Height after it", nearest="size")


class Found:
    """What is found."""

    width: Finished = found("Width with its borders", nearest="size")
    height: Finished = found("Height with its borders", nearest="size")
    raw_width: Cut = found("Raw width of the quilt", nearest="size", help="As measured, raw edge to raw edge")
    raw_height: Cut = found(
        "Raw height of the quilt", nearest="size", help="As measured, raw edge to raw edge"
    )
    have_is: Literal["enough", "not enough"] | None = found("In hand is", empty=NOT_SAID)
    sides_cut: Cut | None = found("Sides", up="cutting", help=_SHARED, empty=_NOT_SHARED.format("sides"))
    ends_cut: Cut | None = found("Ends", up="cutting", help=_SHARED, empty=_NOT_SHARED.format("ends"))
    strips: Count = found("Strips", grows_with=_TOP)
    buy_alone: Length | None = found(
        "To buy, this tab alone",
        up="buying",
        unit="yd",
        grows_with=_TOP,
        help="With the end squared once. To buy has what all tabs take of the fabric.",
        empty=_SEVERAL,
    )
    length_to_buy: Length | None = found(
        "Fabric, before squaring", up="buying", unit="yd", grows_with=_TOP, empty=_SEVERAL
    )
    each: Rows[Each] = found("Each border")


@calculator("borders", asks="What do my borders make, and what do I cut?", found=Found)
def borders(
    top_width: Finished = given(
        "Width of the top", takes=("width",), least="1 in", most="10000 in", example=("60 in", "150 cm")
    ),
    top_height: Finished = given(
        "Height of the top", takes=("height",), least="1 in", most="10000 in", example=("72 in", "180 cm")
    ),
    borders: Rows[Border] = given("Borders, from the inside out"),
    have: Length | None = given(
        "In hand", least="1 in", unit="yd", help="Of the borders' one fabric: is it enough? To buy uses it."
    ),
    join: Join = given("Join", default="diagonal"),
    piecing: Literal["one run", "each side"] = given(
        "Piecing",
        default="one run",
        help="Join all strips and cut the sides off, or piece each side.",
        choices={
            "one run": "All strips are joined to one, and the four are cut off it: fewest strips.",
            "each side": "Each of the four is joined by itself: its joins can be placed.",
        },
    ),
    usable_width: Length = given("Usable width of the fabric", least="1 in", most="150 in"),
    target_width: Finished | None = given(
        "Wanted width", least="1 in", most="10000 in", help="Borders that do not reach it are warned of."
    ),
    target_height: Finished | None = given(
        "Wanted height", least="1 in", most="10000 in", help="Borders that do not reach it are warned of."
    ),
    *,
    setting: Settings,
) -> Answer:
    """Borders one after another round a top: cut lengths, strips, cloth, and the size that they make.

    All lengths in inches. `top_width`, `top_height`: finished, above zero; a border's widths are finished,
    from 1/4 in, or 0 where it has no sides or no ends (neither: no such border). Sides first: sides are as
    long as the top is high, cut; ends as the top is wide and twice the border. Mitred strips: the finished
    side + 2 borders + 2 seams × (1 + √2), several sewn together as one of their summed width. 48 in and a
    border of 3 in, sides first: 48 1/2 and 54 1/2 in, 6 strips in one run (21 in of cloth), 8 when each side
    is pieced. Source: common practice, no source; the mitre by geometry.
    """
    for name, value in (("top_width", top_width), ("top_height", top_height)):
        if value <= 0:
            raise Cannot(name, "it is not above zero.", "Give the finished size of the top.")
    top = top_width, top_height
    laid = lay(top, borders, setting)
    taken = [take(b, join, piecing, cloth(b.border.fabric, usable_width, setting), setting) for b in laid]
    _check_most(laid, taken, setting)
    rows = [_row(b, t) for b, t in zip(laid, taken, strict=True)]
    totals, cautions = _totals(rows, taken, laid)
    of_alone = totals["buy_alone"]
    there = held(have, of_alone if isinstance(of_alone, Fraction) else None)
    whole = laid[-1].outer if laid else top
    raw = whole[0] + 2 * setting.seam, whole[1] + 2 * setting.seam
    return Answer(
        found={
            "width": whole[0],
            "height": whole[1],
            "raw_width": raw[0],
            "raw_height": raw[1],
            "have_is": there.verdict,
            **totals,
            "each": rows,
        },
        pieces=[piece for t in taken for piece in t.pieces],
        runs=[run for t in taken for run in t.runs],
        working=[
            *none_lines(none_of(borders)),
            *(
                said
                for b, t in zip(laid, taken, strict=True)
                for said in (*border_lines(b, setting), *t.working)
            ),
            raw_line(raw, setting),
            *_alone_lines(totals, laid, taken, setting),
            *there.working,
        ],
        cautions=[
            *_short_of((target_width, target_height), whole, 2 * len(laid) * setting.size_step),
            *cautions,
            *there.cautions,
        ],
        picture=picture(top, laid),
    )


def _short_of(
    target: tuple[Fraction | None, Fraction | None], whole: tuple[Fraction, Fraction], rounding: Fraction
) -> list[Line]:
    """What the borders do not reach; each width may have been rounded to the size step before it came."""
    said = []
    for way, wanted, made in zip(("wide", "high"), target, whole, strict=True):
        if wanted is not None and wanted - made > rounding:
            words = "The quilt is {} {} where {} is wanted, {} short: a border is missing, or too narrow."
            said.append(line(words, finished(made), way, finished(wanted), length(wanted - made)))
    return said


def _check_most(laid: list[Laid], taken: list[Taken], setting: Settings) -> None:
    """Raise `Cannot` where a length that is shown would be longer than any may be.

    A strip is never wider than its cloth is long or wide.
    """
    bought = sum((t.buy for t in taken), Fraction(0))
    shown = [setting.buy_up(max((t.cloth.alone(bought) for t in taken), default=bought))]
    for each in laid:
        shown += [setting.cut_up(strip) for strip in (each.sides, each.ends)]
        shown += [up(size + 2 * setting.seam, setting.size_step) for size in each.outer]
    if max(shown) > MOST_INCHES:
        raise Cannot(
            "borders",
            "a length of theirs, up to its step, is more than 10 000 000 in, 158 miles.",
            "Make them narrower or with less spare, take a wider fabric, or look at the project's seam.",
        )


def _row(laid: Laid, taken: Taken) -> dict[str, object]:
    return {
        "name": laid.name,
        "sides_cut": laid.sides if laid.has_sides else None,
        "ends_cut": laid.ends if laid.has_ends else None,
        "strip_width": laid.strip if laid.has_sides else None,
        "strip_width_ends": laid.strip_ends if laid.has_ends else None,
        "strips": taken.strips,
        "cornerstones": laid.cornerstones,
        "buy_alone": taken.cloth.alone(taken.buy),
        "length_to_buy": taken.buy,
        "width": laid.outer[0],
        "height": laid.outer[1],
    }


def _totals(
    rows: list[dict[str, object]], taken: list[Taken], laid: list[Laid]
) -> tuple[dict[str, object], list[Line]]:
    """The founds of all borders together, and what to mind in sewing them."""
    totals: dict[str, object] = {"strips": sum(t.strips for t in taken)}
    cautions = [*mitre_cautions(laid), *one_way_cautions(laid)]
    for name in ("sides_cut", "ends_cut"):
        lengths = {row[name] for row in rows if row[name] is not None}
        totals[name] = lengths.pop() if len(lengths) == 1 else None
    fabrics = {fabric for b in laid for fabric in b.fabrics}
    bought = sum((t.buy for t in taken), Fraction(0)) if len(fabrics) <= 1 else None
    totals["length_to_buy"] = bought
    totals["buy_alone"] = taken[0].cloth.alone(bought) if bought and taken else bought
    return totals, cautions


def _alone_lines(
    totals: dict[str, object], laid: list[Laid], taken: list[Taken], setting: Settings
) -> list[Line]:
    """Why To buy has more than the borders take: for all of them, or of several fabrics for each."""
    bought = totals["length_to_buy"]
    if isinstance(bought, Fraction):
        return [taken[0].cloth.alone_line(bought, setting)] if taken else []
    said = "{} alone: {} + {} to square its end makes {}, so the shop cuts {}."
    lines = []
    for each, took in zip(laid, taken, strict=True):
        whole = took.cloth.alone(took.buy)
        more = length(whole - took.buy)
        cuts = yards(setting.buy_up(whole))
        lines.append(line(said, each.name, length(took.buy), more, length(whole), cuts))
    return [*lines, line("To buy takes all tabs of a fabric together, and uses what is in hand.")]
