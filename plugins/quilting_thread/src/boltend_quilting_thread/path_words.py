"""The path in words: its working, and what the batting says of the spacing."""

from collections.abc import Mapping
from fractions import Fraction

from boltend.plugin import Line, Settings, finished, length, line, percent
from boltend_quilting_thread.amounts import YARD, Thread
from boltend_quilting_thread.paths import Quilting, lines_of
from boltend_quilting_thread.say import decimal, long

_WIDEST = Fraction(3, 2)
"""A meander's widest gap is 1 to 1 1/2 times its mean one (common practice, no source)."""
_EDGES = "the lines end at the finished edge; what runs on past it is margin"


def path_lines(quilting: Quilting, setting: Settings) -> list[Line]:
    """From the pattern to the path."""
    lines = [_base(quilting, setting)]
    if quilting.margin:
        words = "With a margin of {} for edges and travel: {} of stitching."
        lines.append(line(words, percent(quilting.margin), long(quilting.margined, setting)))
    return lines


def _base(quilting: Quilting, setting: Settings) -> Line:
    path = long(lines_of(quilting), setting)
    if quilting.path is not None:
        return line("The length of the lines is given: {}. The pattern and its spacing do not count.", path)
    if quilting.pattern == "in the ditch":
        return line("In the ditch the path is the finished seams, each once: {}.", path)
    spacing = length(quilting.spacing or 0)
    size = finished(quilting.width), finished(quilting.height)
    if quilting.pattern == "meander":
        words = "A meander covers {} × {} at a mean gap of {}: width × height ÷ gap = {}."
        return line(words, *size, spacing, path)
    if quilting.sets == 1:
        words = "Parallel lines on {} × {}, {} apart: width × height ÷ spacing = {} ({})."
    else:
        words = "Two sets of lines on {} × {}, each {} apart: 2 × width × height ÷ spacing = {} ({})."
    return line(words, *size, spacing, path, _EDGES)


def band_line(quilting: Quilting, top: Thread) -> Line:
    """The top thread beside a thread maker's tables: to place it, not to judge it."""
    words = (
        "That is {} yd of top thread a square foot. A maker's tables come to about 10 yd where the quilting "
        "is light, 20 medium, 30 heavy (derived from Superior Threads, 2006); lines far apart take less."
    )
    return line(words, decimal(top.mid / YARD / (quilting.area / 144), 1))


def path_cautions(quilting: Quilting) -> list[Line]:
    """What the path takes for granted, and what was given in vain."""
    said = []
    if quilting.sets and quilting.pattern == "meander":
        words = (
            "The spacing of a meander is taken as its mean gap. If yours is the widest one, the path, the "
            "thread and the time may be up to half as much again."
        )
        said.append(line(words))
    elif quilting.sets and (quilting.spacing or 0) > min(quilting.width, quilting.height):
        words = "The lines lie further apart than the quilt is wide: draw them, and give the path instead."
        said.append(line(words))
    return [*said, *_in_vain(quilting), *_too_short(quilting)]


def _in_vain(quilting: Quilting) -> list[Line]:
    """What was given and does not count, by its label, and why."""
    own, pattern = quilting.path is not None, quilting.pattern
    why = "the length of the lines is given" if own else f"the pattern is {pattern}"
    labels = []
    if quilting.ditch_length is not None and (own or pattern != "in the ditch"):
        labels.append("“Seams to follow” is not counted: {}.")
    if quilting.spacing is not None and not own and pattern == "in the ditch":
        labels.append("“Spacing” makes no length of lines here: {}.")
    if own and pattern != "other":
        labels.append("The pattern and its spacing do not count: {}. Empty that, and they do.")
    return [line(said, why) for said in labels]


def _too_short(quilting: Quilting) -> list[Line]:
    """Lines that all together do not reach once along the quilt."""
    longer = max(quilting.width, quilting.height)
    if quilting.margined >= longer:
        return []
    words = "All lines together are {}, less than one line along the quilt's {}: look at what was given."
    return [line(words, length(quilting.margined), finished(longer))]


def gap_lines(quilting: Quilting, batting: Mapping[str, object] | None) -> list[Line]:
    """Cautions where the lines lie, or may lie, further apart than the batting holds together."""
    if batting is None:
        return []
    gap, name = batting.get("quilting_gap"), str(batting["name"])
    if not isinstance(gap, Fraction):
        return [line("How far apart “{}” may be quilted is not known here: read its label.", name)]
    spacing = quilting.spacing
    if spacing is None:
        words = (
            "The batting “{}” is quilted at most {} apart. Measure the widest gap: nothing here says how "
            "wide it is."
        )
        return [line(words, name, length(gap))]
    if spacing > gap:
        words = "{} apart is too far for “{}”: its lines lie at most {} apart. It may shift and bunch."
        return [line(words, length(spacing), name, length(gap))]
    if quilting.pattern == "meander" and spacing * _WIDEST > gap:
        words = (
            "The batting “{}” is quilted at most {} apart. With a mean gap of {} a meander's widest may be "
            "{}: too far."
        )
        return [line(words, name, length(gap), length(spacing), length(spacing * _WIDEST))]
    return []
