"""The working of borders that reach a size, and what misses it, in words."""

from collections.abc import Sequence
from fractions import Fraction

from boltend.plugin import Line, Settings, finished, length, line, nearest
from boltend_borders_binding.border_totals import Plan, Totals

MOST_BORDERS = 4
"""That are asked for at once, and have founds."""

Size = tuple[Fraction, Fraction]


def working(top: Size, target: Size, plan: Sequence[Size]) -> list[Line]:
    """How the borders make the size."""
    lines = []
    for side, (name, part) in enumerate((("width", "sides"), ("height", "ends"))):
        need = (target[side] - top[side]) / 2
        words = f"{name}: ({{}} wanted − {{}} top) ÷ 2 = {{}} of border on each of two {part}"
        lines.append(line(words, finished(target[side]), finished(top[side]), length(need)))
        widths = [border[side] for border in plan]
        total = sum(widths, Fraction(0))
        sums = " + ".join(["{}"] * len(widths))
        words = f"{part}: {sums} = {{}}; {name} = {{}} + 2 × {{}} = {{}} finished"
        made = top[side] + 2 * total
        lines.append(
            line(
                words,
                *map(finished, widths),
                finished(total),
                finished(top[side]),
                finished(total),
                finished(made),
            )
        )
    return lines


def order_words(pick: int, shown: int, more: bool) -> list[Line | str]:
    """Where the choice stands, and in which order."""
    return [
        line(f"choice {{}} of {{}}{', the best of more' if more else ''}", pick, shown),
        "order: least over in width and height together, then the larger of the two least; of three sizes "
        "first the usual split each (of two borders one third inside, two thirds outside), then their other "
        "splits, the narrowest inner border first, then the ends nearest to the sides (narrowing borders: "
        "from the outside in)",
    ]


def closer_unlike(first: Totals, unlike: Totals | None, step: Fraction, target: Size) -> list[Line]:
    """What comes closer than the first choice, where its sides and ends need not be alike."""
    if unlike is None or unlike.cost >= first.cost:
        return []
    words = (
        "Closer with ends unlike the sides: {} of border at the sides and {} at the ends make {} × {}. "
        "Choose “may differ” for Sides and ends."
    )
    borders = length(unlike.sides * step), length(unlike.ends * step)
    made = finished(target[0] + unlike.over_width), finished(target[1] + unlike.over_height)
    return [line(words, *borders, *made)]


def misses(plans: Sequence[tuple[Totals, Plan]], step: Fraction, setting: Settings) -> str:
    """The nearest plans and by how much they miss: a reason is plain words, so the unit is said here."""
    return "; ".join(_miss(totals, plan, step, setting) for totals, plan in plans)


def _miss(totals: Totals, plan: Plan, step: Fraction, setting: Settings) -> str:
    sides = " + ".join(said_length(x * step, setting) for x, _ in plan)
    ends = " + ".join(said_length(y * step, setting) for _, y in plan)
    widths = sides if sides == ends else f"sides {sides}, ends {ends}"
    wide, high = _by(totals.over_width, setting), _by(totals.over_height, setting)
    return f"{widths} ({wide} in width, {high} in height)"


def _by(over: Fraction, setting: Settings) -> str:
    if over == 0:
        return "just so"
    return f"{said_length(abs(over), setting)} {'over' if over > 0 else 'short'}"


def said_length(value: Fraction, setting: Settings) -> str:
    """A length in words, in the project's unit: to the sixteenth of an inch or the millimetre, exact or ≈."""
    if setting.system == "cm":
        tenths = nearest(value * Fraction(127, 50), Fraction(1, 10))
        about = "" if tenths == value * Fraction(127, 50) else "≈ "
        return f"{about}{float(tenths):g} cm"
    shown = nearest(value, Fraction(1, 16))
    whole, rest = divmod(shown, 1)
    number = f"{whole} {rest}" if whole and rest else str(rest or whole)
    return f"{'' if shown == value else '≈ '}{number} in"
