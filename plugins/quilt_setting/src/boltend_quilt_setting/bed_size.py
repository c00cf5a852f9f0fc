"""How large a quilt for a bed is."""

from fractions import Fraction

from boltend.plugin import (
    Answer,
    Cannot,
    Finished,
    Length,
    Percent,
    Rect,
    TableRow,
    calculator,
    found,
    given,
)
from boltend_quilt_setting.bed_size_words import Covers, cautions, working


class Found:
    """What is found."""

    width: Finished = found("Width of the quilt", up="size")
    height: Finished = found("Height of the quilt", up="size", help="From the pillows to the foot")


@calculator("bed_size", asks="How large should a quilt for this bed be?", found=Found)
def bed_size(
    bed: TableRow | None = given(
        "Bed", table="beds", help="Left empty: say the mattress's width and length", empty="by its mattress"
    ),
    mattress_width: Length | None = given(
        "Width of the mattress",
        least="10 in",
        most="200 in",
        help="Left empty: the table's",
        empty="the bed's",
    ),
    mattress_length: Length | None = given(
        "Length of the mattress",
        least="10 in",
        most="200 in",
        help="Left empty: the table's",
        empty="the bed's",
    ),
    mattress_depth: Length | None = given(
        "Depth of the mattress",
        least="1 in",
        most="40 in",
        help="For the caution alone; left empty: a usual one, where the table knows it",
        empty="the usual",
    ),
    drop: Length = given(
        "Drop at each side",
        least="0 in",
        most="60 in",
        step=("1 in", "1 cm"),
        help="How far it hangs down: at least the mattress's depth, at most down to the floor",
        example=("15 in", "38 cm"),
    ),
    foot_drop: Length | None = given(
        "Drop at the foot",
        least="0 in",
        most="60 in",
        step=("1 in", "1 cm"),
        help="Left empty: as at the sides; 0 for a bed with a footboard",
        empty="as the sides",
    ),
    tuck: Length = given(
        "Pillow tuck",
        default="0 in",
        metric="0 cm",
        least="0 in",
        most="60 in",
        step=("1 in", "1 cm"),
        help="More length, to go over and under the pillows: 10 to 12 in is usual",
    ),
    take_up: Percent = given(
        "Taken up by quilting",
        default="0 %",
        least="0 %",
        most="30 %",
        help="How much smaller quilting, and washing, make it",
    ),
) -> Answer:
    """The finished size of a quilt that covers a bed, made larger by what quilting takes up.

    Lengths in exact inches: mattress 10 to 200 in each way, drops and tuck 0 to 60 in, `take_up` 0 to 30 %.
    Width = (mattress width + 2 × drop) ÷ (1 − take up); height = (mattress length + drop at the foot + tuck)
    ÷ (1 − take up), both up to the size step, for they must cover. A mattress size that is given speaks
    before the table's. Worked: a US queen, 60 × 80 in, with a drop of 13 in: 86 × 93 in. Source: Suggested
    quilt measurements for standard bed sizes (Quilting Company, 2022); mattresses: the table's sources.
    """
    row = bed or {}
    covers = Covers(
        bed=str(row["name"]) if bed else "",
        source=str(row["source"]) if bed else "",
        width=_side("width", mattress_width, row.get("width")),
        length=_side("length", mattress_length, row.get("length")),
        depth=mattress_depth or _length(row.get("depth")),
        depth_measured=mattress_depth is not None,
        infant=_infant(row.get("infant"), own=mattress_width is not None or mattress_length is not None),
        drop=drop,
        foot_drop=drop if foot_drop is None else foot_drop,
        tuck=tuck,
    )
    kept = 1 - take_up / 100
    return Answer(
        found={"width": covers.across / kept, "height": covers.along / kept},
        working=working(covers, take_up, (mattress_width is None, mattress_length is None)),
        cautions=cautions(covers),
        picture=[
            Rect(Fraction(0), Fraction(0), covers.across, covers.along, "quilt", "quilt"),
            Rect(drop, tuck, covers.width, covers.length, "mattress", "mattress"),
        ],
    )


def _infant(cell: object, *, own: bool) -> bool | None:
    """What the row says; that no baby sleeps there it says of its own size alone."""
    return cell if cell is True or (cell is False and not own) else None


def _length(cell: object) -> Fraction | None:
    return cell if isinstance(cell, Fraction) and cell > 0 else None


def _side(name: str, said: Fraction | None, cell: object) -> Fraction:
    """The mattress's width or length: as given, else the table's."""
    of_row = _length(cell)
    if said is not None:
        return said
    if of_row is not None:
        return of_row
    way_out = "Choose a bed from the table, or measure the mattress."
    raise Cannot(f"mattress_{name}", f"the {name} of the mattress is not said.", way_out)
