"""The working and the cautions of a batting, in words."""

from collections.abc import Mapping, Sequence
from fractions import Fraction

from boltend.plugin import Line, Settings, cut, finished, length, line, percent, yards
from boltend_backing_batting.packs import Pack, Size


def size_lines(
    finished_size: Size, setting: Settings, overage: Fraction, shrinkage: Fraction, exact: Size, needed: Size
) -> list[Line]:
    """From the finished quilt to the batting that it needs, up to the whole inch or centimetre."""
    lines, seam = [], setting.seam
    unit = "inches" if setting.system == "in" else "centimetres"
    for name, f, e, n in zip(("width", "height"), finished_size, exact, needed, strict=True):
        said = "Batting {}: {} finished + 2 × {} seam + 2 × {} overage makes {}"
        values: list[object] = [name, finished(f), length(seam), length(overage)]
        if shrinkage:
            said += ", ÷ (1 − {}) makes {}"
            values += [cut(e * (1 - shrinkage / 100)), percent(shrinkage)]
        words = f"{said}: {{}} needed." if e == n else f"{said}, up to whole {unit}: {{}} needed."
        lines.append(line(words, *values, cut(e), cut(n)))
    return lines


def choice_lines(
    packs: Sequence[Pack], needed: Size, roll: Fraction | None, width: Fraction | None
) -> list[Line]:
    """Why this package, or what a roll takes."""
    lines = []
    if packs and roll is None:
        best = packs[0]
        said = "The package of least area that covers {} × {} either way round: {}, {} × {}."
        shown = length(best.width), length(best.length)
        lines.append(line(said, cut(needed[0]), cut(needed[1]), best.name, *shown))
    if roll is not None and width is not None:
        across = needed[0] if roll == needed[1] and needed[0] <= width else needed[1]
        said = "Off a roll {} wide: {} lie across it, so {} of its length."
        lines.append(line(said, length(width), cut(across), yards(roll)))
    return lines


def gap_lines(batting: Mapping[str, object] | None) -> list[Line]:
    """What the batting asks of the quilting."""
    gap = batting["quilting_gap"] if batting is not None else None
    if batting is None or not isinstance(gap, Fraction):
        return []
    return [line("Quilting lines on {} lie at most {} apart.", str(batting["name"]), length(gap))]


def cautions(
    packs: Sequence[Pack],
    roll: Fraction | None,
    width: Fraction | None,
    batting: Mapping[str, object] | None,
    shrinkage: Fraction,
) -> list[Line]:
    """Why what was asked for cannot be had, shrinkage that is not counted, and a baby's sleep."""
    said = []
    if roll is None and not packs:
        said.append(line("No usual package covers it: take it off a roll, or join two."))
    if width is not None and roll is None:
        said.append(line("No length off the roll: neither side is within {}.", length(width)))
    own = batting["shrinkage"] if batting is not None else None
    if batting is not None and isinstance(own, Fraction) and own > shrinkage:
        words = "{} may shrink by {}, of which {} is counted: give it as the shrinkage if you wash the quilt."
        said.append(line(words, str(batting["name"]), percent(own), percent(shrinkage)))
    if packs and packs[0].name == "crib":
        said.append(line(CRIB))
    return said


CRIB = (
    "A size for a crib: a quilt is no bedding for a sleeping infant under twelve months. Safe-sleep guidance "
    "says a bare cot; follow what holds where you live."
)
