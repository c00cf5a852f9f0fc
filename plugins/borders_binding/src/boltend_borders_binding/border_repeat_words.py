"""The working and cautions of a repeat that must fit, in words."""

from fractions import Fraction

from boltend.plugin import Cannot, Line, Settings, finished, length, line, nearest
from boltend_borders_binding.repeat_fits import CORNERS, Asked, Fit, Side


def working(asked: Asked, fit: Fit, border: Fraction, pick: int, shown: int, more: bool) -> list[Line | str]:
    """How the repeats come out, both ways."""
    return [
        _side("across", asked.top[0], fit.across, fit.repeat),
        _side("down", asked.top[1], fit.down, fit.repeat),
        line(
            "repeats in all: 2 × ({} + {}) = {}, and {} corners of {} square",
            fit.across.repeats,
            fit.down.repeats,
            fit.repeats,
            CORNERS,
            finished(border),
        ),
        line("with the corners: {} + {} = {}", fit.repeats, CORNERS, fit.repeats + CORNERS),
        line(f"choice {{}} of {{}}{', the best of more' if more else ''}", pick, shown),
        "order: exact before eased; then the wider spacer least, the two least unlike, the largest repeat, "
        "the least easing",
    ]


def _side(name: str, top: Fraction, side: Side, repeat: Fraction) -> Line:
    inside = top + 2 * side.spacer
    words = f"{name}: {{}} + 2 × {{}} spacer = {{}} finished; {{}} repeats of {{}} = {{}}, "
    values = [
        finished(top),
        finished(side.spacer),
        finished(inside),
        side.repeats,
        finished(repeat),
        finished(side.repeats * repeat),
    ]
    if side.left_over == 0:
        return line(words + "exactly", *values)
    over = "left over" if side.left_over > 0 else "too little"
    return line(
        words + f"{{}} {over}, {{}} a repeat", *values, length(abs(side.left_over)), length(side.each)
    )


def cautions(asked: Asked, fit: Fit) -> list[Line]:
    """What is to be eased, and what is made smaller."""
    said = []
    easing = max(fit.across.each, fit.down.each)
    if easing:
        words = "It does not fit exactly: ease {} into every repeat, or take it from a few seams."
        said.append(line(words, length(easing)))
    if fit.repeat != asked.repeat:
        words = "The repeat is made {} instead of {}: all its units are cut anew."
        said.append(line(words, finished(fit.repeat), finished(asked.repeat)))
    return said


def none_fits(near: Fit, setting: Settings) -> Cannot:
    """Why none is within the easing, with the nearest."""
    said = f"{_side_miss('across', near.across, setting)}, {_side_miss('down', near.down, setting)}"
    return Cannot(
        "repeat",
        f"no spacer makes it fit. Nearest: {said}.",
        "Allow a wider spacer, a finer step, more easing, or a least repeat.",
    )


def _side_miss(name: str, side: Side, setting: Settings) -> str:
    unit, size = ("cm", Fraction(127, 50)) if setting.system == "cm" else ("in", Fraction(1))
    each = nearest(side.each * size, Fraction(1, 1000))
    return f"{side.repeats} repeats {name} with ≈ {float(each):g} {unit} to ease in each"
