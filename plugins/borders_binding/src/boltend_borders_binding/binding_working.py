"""The working of a binding in words: its length, its fold, the bound edge."""

from fractions import Fraction

from boltend.plugin import Line, cut, finished, length, line

FOLDS = {"double": (2, 6), "single": (1, 4)}
"""Layers round the edge, and how many finished widths the strip holds."""


def length_lines(raw: tuple[Fraction, Fraction], tail: Fraction, seam: Fraction) -> list[Line]:
    """How the length came about; `raw` is width and height, raw edge to raw edge, all inches."""
    shown = cut(raw[0]), cut(raw[1])
    total = 2 * raw[0] + 2 * raw[1] + tail
    return [
        line("Raw edges: {} and {}, a seam of {} round the finished size.", *shown, length(seam)),
        line("Length: 2 × {} + 2 × {} + {} tail makes {}.", *shown, length(tail), length(total)),
    ]


def fold_lines(
    fold: str, strip: Fraction, thickness: Fraction, shown: Fraction, seam: Fraction
) -> list[Line]:
    """The finished width when the seam is as wide, and what shows when the project's seam is sewn instead."""
    layers, share = FOLDS[fold]
    said = "Binding's finished width: ({} strip − {} × {} thickness) ÷ {} makes {}, the seam as wide."
    lines = [line(said, cut(strip), layers, length(thickness), share, finished(shown))]
    if fold == "double":
        behind, formula = strip / 2 - 2 * seam - thickness, "strip ÷ 2 − 2 seams − thickness"
    else:
        behind, formula = strip - 3 * seam - thickness, "strip − 3 seams − thickness, a seam turned under"
    if seam > 0 and behind > 0:
        said = "Sewn with a seam of {}: {} shows in front and {} behind ({}); points at that seam stay whole."
        lines.append(line(said, length(seam), finished(seam), finished(behind), formula))
    return lines


def edge_lines(raw: tuple[Fraction, Fraction], grain: str) -> list[Line]:
    """What the quilt measures once bound, and what the tab leaves out."""
    lines = [
        line(
            "The fold lies round the raw edge, so the bound quilt is {} × {}.",
            finished(raw[0]),
            finished(raw[1]),
        ),
    ]
    if grain != "bias":
        lines.append(line("A curved or scalloped edge needs a bias binding; a straight one does not."))
    return lines
