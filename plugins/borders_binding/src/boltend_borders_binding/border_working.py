"""The working of borders in words: how long each strip is, and what the quilt then measures."""

from fractions import Fraction

from boltend.plugin import ROOT2, Line, Number, Settings, cut, finished, length, line
from boltend_borders_binding.border_rows import Laid

_Term = tuple[str, Number]


def border_lines(laid: Laid, setting: Settings) -> list[Line]:
    """How the strips of one border come to their lengths and widths, exact, and the size after it."""
    seams = 2 * setting.seam
    (width, height), border = laid.around, laid.border
    sides: list[_Term] = [("finished", height), ("for two seams", seams)]
    ends: list[_Term] = [("finished", width), ("for two seams", seams)]
    if border.corners == "sides first" and laid.has_sides:
        ends.append(("for the two sides", 2 * border.width))
    elif border.corners == "ends first" and laid.has_ends:
        sides.append(("for the two ends", 2 * laid.width_ends))
    elif border.corners == "mitred":
        mitre: list[_Term] = [("for two mitres", 2 * laid.mitred_width), ("for their seams", seams * ROOT2)]
        sides, ends = [*sides, *mitre], [*ends, *mitre]
    if border.spare:
        sides, ends = [*sides, ("to spare", border.spare)], [*ends, ("to spare", border.spare)]
    sums = [
        (laid.has_sides, _sum_line(f"{laid.name}, {border.corners}: sides ", sides, laid.sides)),
        (laid.has_ends, _sum_line(f"{laid.name}, {border.corners}: ends ", ends, laid.ends)),
    ]
    return [
        *(said for there, said in sums if there),
        *_width_lines(laid, setting.seam),
        line("{}: {} × {} finished before it, {} × {} after it.", laid.name, *map(finished, laid.inner),
             *map(finished, laid.outer)),
    ]  # fmt: skip


def raw_line(raw: tuple[Fraction, Fraction], setting: Settings) -> Line:
    """What the quilt measures on the table."""
    words = "Raw edge to raw edge it measures {} × {} cut: finished + 2 seams of {}."
    return line(words, *map(cut, raw), length(setting.seam))


def none_lines(names: list[str]) -> list[Line]:
    """Borders that are none."""
    return [line("{} has no width: left out.", name) for name in names]


def one_way_cautions(laid: list[Laid]) -> list[Line]:
    """Which borders lie on two edges only, so that the lengths of the others have no value."""
    parts = (("sides", [b for b in laid if not b.has_sides]), ("ends", [b for b in laid if not b.has_ends]))
    said = "The {} of {} have no width, so they are left out."
    return [line(said, part, border.name) for part, borders in parts for border in borders]


def mitre_cautions(laid: list[Laid]) -> list[Line]:
    """What to mind where corners are mitred."""
    mitred = [b for b in laid if b.border.corners == "mitred"]
    cautions: list[Line] = []
    if any(not b.border.spare for b in mitred):
        cautions.append(line("A mitred strip without a spare is the exact least; a little more sews easier."))
    if mitred:
        cautions.append(line("The edge of a mitre lies on the bias and stretches: press, do not pull."))
    return cautions


def _sum_line(start: str, terms: list[_Term], total: Number) -> Line:
    words = " + ".join(f"{{}} {what}" for what, _ in terms)
    return line("{}" + words + " make {}.", start, *(length(value) for _, value in terms), cut(total))


def _width_lines(laid: Laid, seam: Fraction) -> list[Line]:
    pairs = {
        (laid.border.width, laid.strip): "strips",
        (laid.width_ends, laid.strip_ends): "strips of the ends",
    }
    if len(pairs) == 1:
        pairs = dict.fromkeys(pairs, "strips")
    return [_width_line(laid.name, what, wide, strip, seam) for (wide, strip), what in pairs.items() if wide]


def _width_line(name: str, what: str, wide: Fraction, strip: Fraction, seam: Fraction) -> Line:
    exact = wide + 2 * seam
    if strip == exact:
        return line(
            "{}: {} {} finished + 2 × {} seam = {} wide.",
            name,
            what,
            finished(wide),
            length(seam),
            cut(strip),
        )
    said = "{}: {} {} finished + 2 × {} seam = {} wide; cut {}, the next cutting step, and trim."
    return line(said, name, what, finished(wide), length(seam), cut(exact), cut(strip))
