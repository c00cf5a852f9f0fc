"""What a sewn top really measures, from several measurements each way."""

from fractions import Fraction

from boltend.plugin import (
    Answer,
    Cannot,
    Finished,
    Length,
    Line,
    Measured,
    Settings,
    calculator,
    cut,
    finished,
    found,
    given,
    length,
    line,
)


class Found:
    """What is found."""

    width: Finished = found("Width", nearest="size")
    height: Finished = found("Height", nearest="size")
    spread_width: Length = found(
        "Spread of the widths", nearest="size", help="The widest less the narrowest."
    )
    spread_height: Length = found(
        "Spread of the heights", nearest="size", help="The longest less the shortest."
    )


_WHERE = "Raw edge to edge, the middle and two more places; or one finished: 87 finished"


@calculator("measured_top", asks="What does my top really measure?", found=Found)
def measured_top(
    widths: Measured = given("Widths of the top", help=_WHERE),
    heights: Measured = given("Heights of the top", help=_WHERE),
    ease: Length = given("Spread without a caution", default="1/2 in", metric="12 mm", least="0 in"),
    *,
    setting: Settings,
) -> Answer:
    """The mean of the measurements less the two seam allowances; a border is cut to that, not to the edge.

    `widths`, `heights`: one or more cut lengths in inches, each above two seam allowances in the mean.
    `ease`: inches; it is only compared, never subtracted. Widths of 48 1/4, 48 1/2 and 48 3/4 in at a seam of
    1/4 in make 48 in finished, with a spread of 1/2 in. Source: common practice, no source.
    """
    found: dict[str, object] = {}
    working: list[Line] = []
    cautions: list[Line] = []
    for name, values in (("width", widths), ("height", heights)):
        mean, spread = _mean(f"{name}s", values, setting.seam)
        found |= {name: mean - 2 * setting.seam, f"spread_{name}": spread}
        working += _working(name, values, mean, spread, setting.seam)
        cautions += _cautions(name, len(values), spread, ease)
    return Answer(found=found, working=working, cautions=cautions)


def _mean(given: str, values: tuple[Fraction, ...], seam: Fraction) -> tuple[Fraction, Fraction]:
    if not values:
        raise Cannot(given, "nothing is measured.", "Give one measurement; three are better.")
    if min(values) <= 0:
        raise Cannot(given, "a measurement is not above zero.", "Measure from raw edge to raw edge.")
    mean = sum(values, Fraction(0)) / len(values)
    if mean <= 2 * seam:
        raise Cannot(given, "they are no more than the two seam allowances.", "Check the unit, or the seam.")
    return mean, max(values) - min(values)


def _working(
    name: str, values: tuple[Fraction, ...], mean: Fraction, spread: Fraction, seam: Fraction
) -> list[Line]:
    many = len(values) > 1
    mean_of = line("Mean {} of {} measured: {}.", name, len(values), cut(mean))
    spread_of = line(
        "Spread of the {}s: {} − {} makes {}.", name, cut(max(values)), cut(min(values)), length(spread)
    )
    less_seams = line(
        "Finished {}: {} − 2 × {} seam makes {}.",
        name,
        cut(mean),
        length(seam),
        finished(mean - 2 * seam),
    )
    return [mean_of, less_seams, spread_of] if many else [less_seams]


def _cautions(name: str, count: int, spread: Fraction, ease: Fraction) -> list[Line]:
    if count == 1:
        return [line("Only one {} is measured: the middle and two more places are surer.", name)]
    if spread > ease:
        said = "The {}s differ by {}, more than {}: press and measure again before a border hides it."
        return [line(said, name, length(spread), length(ease))]
    return []
