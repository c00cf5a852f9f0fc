"""A pieced border whose repeat must fit, and the plain spacer that makes it fit."""

from fractions import Fraction

from boltend.plugin import (
    Answer,
    Cannot,
    Count,
    Finished,
    Length,
    Rows,
    Settings,
    calculator,
    floor_div,
    found,
    given,
    row,
)
from boltend_borders_binding.border_repeat_words import cautions, none_fits, working
from boltend_borders_binding.border_size_picture import picture
from boltend_borders_binding.repeat_fits import CORNERS, Asked, Fit, fits, nearest_miss

MOST_CHOICES = 40
MOST_TRIES = 4000
"""Spacers times repeats: as many as are looked at in the time of a keystroke."""


@row
class Offer:
    """One way to make it fit."""

    spacer_sides: Finished = found("Spacer, sides", nearest="size")
    spacer_ends: Finished = found("Spacer, ends", nearest="size")
    repeats_across: Count = found("Across")
    repeats_down: Count = found("Down")
    left_over_across: Length = found("Left over across", nearest=("1/64 in", "0.1 mm"))
    left_over_down: Length = found("Left over down", nearest=("1/64 in", "0.1 mm"))
    repeat_used: Finished = found("Repeat", nearest="size")


class Found:
    """The chosen fit, and all that there are to choose from."""

    spacer_sides: Finished = found("Spacer, sides", nearest="size")
    spacer_ends: Finished = found("Spacer, ends", nearest="size")
    repeats_across: Count = found("Repeats across", help="Along the top, and as many along the bottom")
    repeats_down: Count = found("Repeats down", help="Along each side")
    repeats: Count = found("Repeats in all", help="Along all four edges")
    repeats_and_corners: Count = found(
        "With four corners", help="Where each corner is filled by one more of the same unit"
    )
    left_over_across: Length = found("Left over across", nearest=("1/64 in", "0.1 mm"), help="To ease in")
    left_over_down: Length = found("Left over down", nearest=("1/64 in", "0.1 mm"), help="To ease in")
    repeat_used: Finished = found("Repeat", nearest="size", help="Smaller only where a least repeat is given")
    width: Finished = found("Width with the border", nearest="size")
    height: Finished = found("Height with the border", nearest="size")
    choices: Rows[Offer] = found("Choices", help="Best first")


@calculator(
    "border_repeat",
    asks="Does a pieced border's repeat fit, and what spacer makes it fit?",
    found=Found,
)
def border_repeat(
    top_width: Finished = given(
        "Width of the top", takes=("width",), least="1 in", most="1000 in", example=("60 in", "150 cm")
    ),
    top_height: Finished = given(
        "Height of the top", takes=("height",), least="1 in", most="1000 in", example=("72 in", "180 cm")
    ),
    repeat: Finished = given(
        "Repeat",
        least="1/4 in",
        most="60 in",
        help="What comes again along the border.",
        example=("6 in", "15 cm"),
    ),
    border_width: Finished = given(
        "Border width", least="1/4 in", most="60 in", help="Of the pieced border.", example=("6 in", "15 cm")
    ),
    repeat_least: Finished | None = given(
        "Least repeat",
        least="1/4 in",
        most="60 in",
        help="Where the units may be made smaller, by the step.",
        empty="as the repeat",
    ),
    spacer_least: Finished = given(
        "Narrowest spacer",
        default="0 in",
        metric="0 cm",
        least="0 in",
        most="24 in",
        help="There is none, or one at least so wide; never below 1/4 in, as any border.",
    ),
    ease_most: Length = given(
        "Most to ease in a repeat", default="1/16 in", metric="1.5 mm", least="0 in", most="1 in"
    ),
    spacer_most: Finished = given(
        "Widest spacer", default="4 in", metric="10 cm", least="0 in", most="24 in"
    ),
    step: Length = given("Spacers go by", default="1/8 in", metric="5 mm", least="1/16 in", most="12 in"),
    pick: Count = given("Pick", default="1", least="1", help="The number of the choice to go on with"),
    *,
    setting: Settings,
) -> Answer:
    """Every spacer with which whole repeats go round a top, best first.

    Finished sizes in exact inches. A spacer is none, or on the step from its least to its most, and as
    any border at least 1/4 in wide; the width inside the pieced border is the top and two spacers of the
    sides, the height alike. A fit is exact, or has so little left over that no repeat gives or takes more
    than `ease_most`; repeats smaller than given are tried only down to `repeat_least`, on the step. Order:
    exact before eased; then the wider spacer least, the two least unlike, the largest repeat, the least
    easing. At most 40 are listed. The corners are squares of the border's width, pieces of their own.
    Worked: 50 × 62 in and a repeat of 6 in: spacers of 2 in make 54 × 66 in, 9 and 11 repeats. Arithmetic;
    the order is ours, no source.
    """
    asked = Asked(
        (top_width, top_height),
        repeat,
        repeat if repeat_least is None else repeat_least,
        spacer_least,
        spacer_most,
        step,
        ease_most,
        setting.size_step,
    )
    _check(asked)
    choices = fits(asked, MOST_CHOICES)
    if not choices:
        raise none_fits(nearest_miss(asked), setting)
    if pick > len(choices):
        there = f"There are {len(choices)} choices, no number {pick}."
        raise Cannot("pick", there, f"Pick 1 to {len(choices)}.")
    fit = choices[pick - 1]
    spacer = (fit.across.spacer, fit.down.spacer)
    return Answer(
        found={
            **_row(fit),
            "repeats": fit.repeats,
            "repeats_and_corners": fit.repeats + CORNERS,
            "width": top_width + 2 * (spacer[0] + border_width),
            "height": top_height + 2 * (spacer[1] + border_width),
            "choices": [_row(each) for each in choices],
        },
        working=working(asked, fit, border_width, pick, len(choices), len(choices) == MOST_CHOICES),
        cautions=cautions(asked, fit),
        picture=picture(asked.top, [*([spacer] if max(spacer) else []), (border_width, border_width)]),
    )


def _check(asked: Asked) -> None:
    if asked.repeat_least > asked.repeat:
        raise Cannot("repeat_least", "it is more than the repeat.", "Give a smaller one, or leave it empty.")
    if asked.spacer_least > asked.spacer_most:
        raise Cannot("spacer_most", "it is less than the narrowest spacer.", "Give a wider one.")
    repeats = 1 + floor_div(asked.repeat - asked.repeat_least, asked.step)
    spacers = 1 + floor_div(asked.spacer_most, asked.step)
    if repeats * spacers > MOST_TRIES:
        raise Cannot("step", "there are too many spacers and repeats to try.", "Take a coarser step.")


def _row(fit: Fit) -> dict[str, object]:
    left: tuple[Fraction, Fraction] = (fit.across.left_over, fit.down.left_over)
    return {
        "spacer_sides": fit.across.spacer,
        "spacer_ends": fit.down.spacer,
        "repeats_across": fit.across.repeats,
        "repeats_down": fit.down.repeats,
        "left_over_across": left[0],
        "left_over_down": left[1],
        "repeat_used": fit.repeat,
    }
