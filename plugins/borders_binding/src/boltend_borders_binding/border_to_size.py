"""Borders that bring a top to a wanted size."""

from fractions import Fraction
from itertools import islice
from typing import Literal

from boltend.plugin import (
    Answer,
    Cannot,
    Count,
    Finished,
    Length,
    Rows,
    Settings,
    calculator,
    ceil_div,
    floor_div,
    found,
    given,
    row,
)
from boltend_borders_binding.border_size_picture import picture
from boltend_borders_binding.border_size_words import (
    MOST_BORDERS,
    closer_unlike,
    misses,
    order_words,
    said_length,
    working,
)
from boltend_borders_binding.border_totals import (
    Limits,
    Order,
    Plan,
    Reach,
    Totals,
    in_order,
    totals_in_order,
)

REACHES = {
    "exactly": "Only what makes the size wanted, to the step.",
    "at least": "Never smaller than wanted: what is over is least.",
    "nearest": "Whatever misses it least, also a little too small.",
}
MOST_CHOICES = 40
"""Nobody reads more."""

_FEWER = "So many borders are not asked for: raise their number, or take this border away."

_NAMES = tuple(f"border_{n}_{part}" for n in range(1, MOST_BORDERS + 1) for part in ("sides", "ends"))


@row
class Offer:
    """One way to the size, from the inside out."""

    border_1_sides: Finished = found("1, sides", nearest="size")
    border_1_ends: Finished = found("1, ends", nearest="size")
    border_2_sides: Finished | None = found("2, sides", nearest="size")
    border_2_ends: Finished | None = found("2, ends", nearest="size")
    border_3_sides: Finished | None = found("3, sides", nearest="size")
    border_3_ends: Finished | None = found("3, ends", nearest="size")
    border_4_sides: Finished | None = found("4, sides", nearest="size")
    border_4_ends: Finished | None = found("4, ends", nearest="size")
    width: Finished = found("Width", nearest="size")
    height: Finished = found("Height", nearest="size")
    over_width: Length = found("Over, width", nearest="size")
    over_height: Length = found("Over, height", nearest="size")


class Found:
    """The chosen borders, counted from the inside out, and all that there are to choose from."""

    border_1_sides: Finished = found("Border 1, sides", nearest="size")
    border_1_ends: Finished = found("Border 1, ends", nearest="size")
    border_2_sides: Finished | None = found("Border 2, sides", nearest="size", empty=_FEWER)
    border_2_ends: Finished | None = found("Border 2, ends", nearest="size", empty=_FEWER)
    border_3_sides: Finished | None = found("Border 3, sides", nearest="size", empty=_FEWER)
    border_3_ends: Finished | None = found("Border 3, ends", nearest="size", empty=_FEWER)
    border_4_sides: Finished | None = found("Border 4, sides", nearest="size", empty=_FEWER)
    border_4_ends: Finished | None = found("Border 4, ends", nearest="size", empty=_FEWER)
    width: Finished = found("Width with its borders", nearest="size")
    height: Finished = found("Height with its borders", nearest="size")
    over_width: Length = found("Over the wanted width", nearest="size", help="Below it where less than 0")
    over_height: Length = found("Over the wanted height", nearest="size", help="Below it where less than 0")
    choices: Rows[Offer] = found("Choices", help="Best first")


@calculator("border_to_size", asks="Which borders bring my top to the size I want?", found=Found)
def border_to_size(
    top_width: Finished = given(
        "Width of the top", takes=("width",), least="1 in", most="1000 in", example=("60 in", "150 cm")
    ),
    top_height: Finished = given(
        "Height of the top", takes=("height",), least="1 in", most="1000 in", example=("72 in", "180 cm")
    ),
    target_width: Finished = given("Wanted width", least="1 in", most="1000 in", example=("84 in", "210 cm")),
    target_height: Finished = given(
        "Wanted height", least="1 in", most="1000 in", example=("96 in", "240 cm")
    ),
    sides_and_ends: Literal["alike", "may differ"] = given(
        "Sides and ends",
        default="alike",
        help="Alike: each border is one width all round. Where they may differ, it comes closer.",
    ),
    how_many: Count = given("Borders", default="2", least="1", most="4"),
    step: Length = given("Widths go by", default="1/2 in", metric="1 cm", least="1/16 in", most="12 in"),
    least: Finished = given("Narrowest border", default="1 in", metric="2 cm", least="1/4 in", most="60 in"),
    most: Finished = given("Widest border", default="12 in", metric="30 cm", least="1/4 in", most="60 in"),
    order: Literal["even", "widening", "narrowing", "any"] = given(
        "From the inside out",
        default="widening",
        help="Widening: each at least as wide as the one inside it.",
        choices={
            "even": "All borders are of one width.",
            "widening": "Each is at least as wide as the one inside it.",
            "narrowing": "Each is at most as wide as the one inside it.",
            "any": "In whatever order.",
        },
    ),
    reach: Literal["exactly", "at least", "nearest"] = given("Reach", default="at least", choices=REACHES),
    pick: Count = given("Pick", default="1", least="1", help="The number of the choice to go on with"),
    *,
    setting: Settings,
) -> Answer:
    """Every plan of one to four borders that reaches a size, best first.

    Sizes are finished, in exact inches; every width is a whole number of steps between the narrowest and
    the widest. The size is the top and twice the sum of the widths. Order: least over (or missed) in
    width and height together, then the larger of the two least. Of three sizes first one split each: of
    two borders one third inside and two thirds outside, of three 1, 2 and 3 parts of six, of four 1 to 4
    of ten, to the nearest step that the limits leave; then their other splits, the narrowest inner border
    first, then the ends nearest to the sides; narrowing borders alike from the outside in. At most 40
    are listed. Where sides and ends are alike, a caution names what comes closer unlike.

    Worked: 60 × 72 in to 84 × 100 in takes 12 in of sides and 14 in of ends in all, so exactly only where
    sides and ends may differ. Arithmetic; thirds are common practice, no source.
    """
    limits = _limits(how_many, step, least, most, order)
    alike = sides_and_ends == "alike"

    def over(total: int) -> tuple[Fraction, Fraction]:
        grown = 2 * total * step
        return top_width + grown - target_width, top_height + grown - target_height

    def ranked(reach: Reach) -> list[tuple[Totals, Plan]]:
        pairs = totals_in_order(limits, over, reach, alike)
        return list(islice(in_order(limits, pairs, alike), MOST_CHOICES))

    choices = ranked(reach)
    unlike = next(totals_in_order(limits, over, reach, alike=False), None) if alike else None
    if not choices:
        raise _none(reach, unlike, step, misses(ranked("nearest")[:3], step, setting), setting)
    if pick > len(choices):
        raise Cannot(
            "pick", f"There are {len(choices)} choices, no number {pick}.", f"Pick 1 to {len(choices)}."
        )
    rows = [_row(totals, plan, step, (target_width, target_height)) for totals, plan in choices]
    chosen = rows[pick - 1]
    plan = [(x * step, y * step) for x, y in choices[pick - 1][1]]
    return Answer(
        found={**chosen, "choices": rows},
        working=[
            *working((top_width, top_height), (target_width, target_height), plan),
            *order_words(pick, len(rows), len(rows) == MOST_CHOICES),
        ],
        cautions=closer_unlike(choices[0][0], unlike, step, (target_width, target_height)),
        picture=picture((top_width, top_height), plan),
    )


def _limits(many: int, step: Fraction, least: Fraction, most: Fraction, order: Order) -> Limits:
    low, high = ceil_div(least, step), floor_div(most, step)
    if low > high:
        raise Cannot(
            "most", "no width on the step lies between the narrowest and the widest.", "Allow wider borders."
        )
    return Limits(many, low, high, order)


def _none(reach: Reach, unlike: Totals | None, step: Fraction, said: str, setting: Settings) -> Cannot:
    if reach == "exactly":
        way_out = "Take a finer step, or reach at least."
        if unlike is not None:
            sides, ends = (said_length(total * step, setting) for total in (unlike.sides, unlike.ends))
            way_out = f"Let them differ: {sides} at the sides and {ends} at the ends. Or reach at least."
        return Cannot("reach", f"no borders reach it exactly. Nearest: {said}.", way_out)
    way_out = "Allow wider borders, or more of them."
    return Cannot("most", f"even the widest borders do not reach it. Nearest: {said}.", way_out)


def _row(totals: Totals, plan: Plan, step: Fraction, target: tuple[Fraction, Fraction]) -> dict[str, object]:
    widths: list[Fraction | None] = [units * step for border in plan for units in border]
    widths += [None] * (len(_NAMES) - len(widths))
    return {
        **dict(zip(_NAMES, widths, strict=True)),
        "width": target[0] + totals.over_width,
        "height": target[1] + totals.over_height,
        "over_width": totals.over_width,
        "over_height": totals.over_height,
    }
