"""The working and the cautions of a backing, in words."""

from fractions import Fraction

from boltend.plugin import Line, Settings, cut, finished, length, line, percent, yards
from boltend_backing_batting.panels import Cloth, Layout

Size = tuple[Fraction, Fraction]

LEAST_OVERAGE = Fraction(2)
"""Inches a side for quilting by hand. Source: Batting sizes (The Creative Folk, undated)."""


def size_lines(finished_size: Size, needed: Size, seam: Fraction, overage: Fraction) -> list[Line]:
    """From the finished quilt to the backing that it needs."""
    said = "Backing {}: {} finished + 2 × {} seam + 2 × {} overage makes {}."
    return [
        line(said, name, finished(f), length(seam), length(overage), cut(n))
        for name, f, n in zip(("width", "height"), finished_size, needed, strict=True)
    ]


def wash_lines(bought_width: Fraction, cloth: Cloth) -> list[Line]:
    """What prewashing takes, where it takes anything."""
    lines = []
    if cloth.usable != bought_width:
        lost = percent(100 * (1 - cloth.usable / bought_width))
        said = "Washing first takes {} of the width: {} leaves {}."
        lines.append(line(said, lost, length(bought_width), length(cloth.usable)))
    if cloth.kept != 1:
        lost = percent(100 * (1 - cloth.kept))
        lines.append(
            line("Washing first takes {} of the length: each panel as bought is ÷ (1 − {}).", lost, lost)
        )
    return lines


def way_lines(each: Layout, cloth: Cloth) -> list[Line]:
    """One way of laying the panels, and what it takes."""
    lies = "down the quilt" if each.way == "down" else "across the quilt"
    if each.panels == 1:
        said = "Cloth {}: {} lie within one width of {}; {} makes {}."
        return [line(said, lies, cut(each.span), length(cloth.usable), cut(each.length), yards(each.bought))]
    pitch = "Seams {}: ({} − 2 × {}) ÷ ({} − 2 × {}) makes {} panels of {}, joined without their selvages."
    seam = length(cloth.seam)
    panels = line(
        pitch, lies, cut(each.span), seam, length(cloth.usable), seam, each.panels, cut(each.length)
    )
    return [panels, _length_line(each, cloth), line("The last panel is {} wide.", cut(each.last))]


def _length_line(each: Layout, cloth: Cloth) -> Line:
    if each.further == each.first:
        return line("{} × {} makes {}.", each.panels, length(each.first), yards(each.bought))
    said = "{} and {} × {}, a whole number of repeats of {}, make {}."
    further = each.panels - 1, length(each.further), length(cloth.repeat)
    return line(said, length(each.first), *further, yards(each.bought))


def fewer_lines(each: Layout, cloth: Cloth, raw_span: Fraction, overage: Fraction) -> list[Line]:
    """What one panel less would leave for overage, where it still covers the quilt."""
    less = (each.panels - 2) * (cloth.usable - 2 * cloth.seam) + cloth.usable
    if each.panels == 1 or less < raw_span:
        return []
    said = "With {} of these panels, {} would be left for overage on a side, instead of {}."
    return [line(said, each.panels - 1, length((less - raw_span) / 2), length(overage))]


def half_lines(each: Layout, cloth: Cloth) -> list[Line]:
    """What the last panel takes where it is pieced, and how its halves lie on the cloth."""
    if each.half is None:
        return []
    said = (
        "Seams {} and the last panel pieced: two halves {} wide lie side by side in {}, each ({} + 2 × {}) "
        "÷ 2 makes {} long, joined end to end."
    )
    lies = "down the quilt" if each.way == "down" else "across the quilt"
    seam = length(cloth.seam)
    lines = [line(said, lies, cut(each.last), length(cloth.usable), cut(each.length), seam, cut(each.half))]
    words = "{} × {} + {} makes {}, for one more seam."
    bought = length(each.first), length(each.last_bought), yards(each.bought)
    return [*lines, line(words, each.panels - 1, *bought)]


def buy_lines(bought: Fraction, alone: Fraction, printed: Fraction | None, setting: Settings) -> list[Line]:
    """Why To buy has more than the panels take, and whether a printed yardage does; all inches."""
    said = (
        "To buy, this tab alone: {} + {} to square the end makes {}, so the shop cuts {}. To buy takes all "
        "tabs of a fabric together, squares it once, and uses what is in hand."
    )
    whole = yards(setting.buy_up(alone))
    lines = [line(said, length(bought), length(alone - bought), length(alone), whole)]
    if printed is not None and printed < alone:
        missing = alone - printed
        words = "The {} printed is not enough: {} are needed ({}), and it is short by {} ({})."
        short = yards(setting.buy_up(missing)), length(missing)
        lines.append(line(words, yards(printed), whole, length(alone), *short))
    elif printed is not None:
        words = "The {} printed is enough: {} are needed, and {} are left."
        lines.append(line(words, yards(printed), length(alone), length(printed - alone)))
    return lines


def cautions(overage: Fraction) -> list[Line]:
    """An overage that is too little to hold the quilt by."""
    if overage >= LEAST_OVERAGE:
        return []
    said = "An overage of {} on a side is little: quilting by hand asks {}, a long-arm frame {}."
    # 4 in: Backing requirements (Sew Berry Chic, undated).
    return [line(said, length(overage), length(LEAST_OVERAGE), length(Fraction(4)))]
