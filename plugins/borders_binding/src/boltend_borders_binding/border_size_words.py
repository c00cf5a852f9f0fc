"""The working of borders that reach a size, and what misses it, in words."""

from collections.abc import Sequence
from fractions import Fraction

from boltend.plugin import Line, finished, length, line
from boltend_borders_binding.border_totals import Plan, Totals

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
        "order: least over in width and height together, then the larger of the two least; of equals the "
        "narrowest inner border first, then the ends nearest to the sides (narrowing borders: from the "
        "outside in)",
    ]


def misses(nearest: Sequence[tuple[Totals, Plan]], step: Fraction) -> str:
    """The nearest plans and by how much they miss, in inches: a reason is plain words."""
    return "; ".join(_miss(totals, plan, step) for totals, plan in nearest)


def _miss(totals: Totals, plan: Plan, step: Fraction) -> str:
    sides = " + ".join(_inches(x * step) for x, _ in plan)
    ends = " + ".join(_inches(y * step) for _, y in plan)
    widths = sides if sides == ends else f"sides {sides}, ends {ends}"
    return f"{widths} in ({_by(totals.over_width)} in width, {_by(totals.over_height)} in height)"


def _by(over: Fraction) -> str:
    if over == 0:
        return "just so"
    return f"{_inches(abs(over))} in {'over' if over > 0 else 'short'}"


def _inches(value: Fraction) -> str:
    whole, rest = divmod(value, 1)
    if not rest:
        return str(whole)
    return f"{whole} {rest}" if whole else str(rest)
