"""The size of a top as it lies on the table: with the seam that its edge still has."""

from boltend.plugin import Line, Number, Settings, cut, length, line


def raw_line(width: Number, height: Number, setting: Settings) -> Line:
    """From the finished size of a top to the raw one, which is what one measures."""
    over = 2 * setting.seam
    words = "raw edge to raw edge it measures {} × {} cut: finished + 2 seams of {}"
    return line(words, cut(width + over), cut(height + over), length(setting.seam))
