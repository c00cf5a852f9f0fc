"""How a binding is cut: across the cloth, along it, or on the bias."""

from dataclasses import dataclass
from fractions import Fraction

from boltend.plugin import ROOT2, Cannot, Line, Settings, cut, floor_div, length, line, percent
from boltend_borders_binding.bias import area_length, square_by_area, square_by_turns, turns_length
from boltend_borders_binding.cloth import Cloth
from boltend_borders_binding.strips import Join, join_loss, joined, strips_for

CENTIMETRE = Fraction(50, 127)
"""In inches: a bias square is cut by whole inches or whole centimetres."""
TENTH = Fraction(1, 10)


@dataclass(frozen=True, slots=True)
class Plan:
    """Strips (None: one continuous strip), inches to buy, the bias square (None: there is none), and why."""

    strips: int | None
    buy: Fraction
    square: Fraction | None
    working: tuple[Line, ...]
    cautions: tuple[Line, ...]


def crosswise(wanted: Fraction, strip: Fraction, join: Join, cloth: Cloth, setting: Settings) -> Plan:
    """Strips from selvage to selvage. `wanted` is the length of binding, `strip` its cut width; inches."""
    loss = join_loss(join, strip, setting.seam)
    strips = strips_for(wanted, cloth.usable, loss)
    working = (_join_line(join, loss), *_strips_lines(strips, wanted, cloth.usable, loss))
    buy = line("{} strips × {} = {} of cloth.", strips, cut(strip), length(strips * strip))
    return Plan(strips, cloth.bought(strips * strip), None, (*working, buy), ())


def lengthwise(wanted: Fraction, strip: Fraction, join: Join, cloth: Cloth, setting: Settings) -> Plan:
    """Strips along the selvage, side by side: the shortest length of cloth that holds enough of them.

    As many as lie side by side make that length shortest; of the length that the shop then cuts, only as many
    are cut as the binding needs.
    """
    beside = floor_div(cloth.usable, strip)
    if not beside:
        raise Cannot("strip_width", "it is wider than the fabric.", "Cut narrower strips, or cut crosswise.")
    loss = join_loss(join, strip, setting.seam)
    used = beside if wanted > loss else 1  # within one join's loss a second strip adds nothing
    each = (wanted - loss) / used + loss
    buy = cloth.bought(each)
    ready = setting.buy_up(buy) * cloth.kept
    strips = strips_for(wanted, ready, loss)
    shortest = "Shortest length: ({} − {}) ÷ {} + {} makes {}."
    working = (
        _join_line(join, loss),
        line("{} strips of {} lie side by side in {}.", beside, cut(strip), length(cloth.usable)),
        line(shortest, length(wanted), length(loss), used, length(loss), length(each)),
        line("The shop's step makes that {} to cut from.", length(ready)),
        *_strips_lines(strips, wanted, ready, loss),
    )
    return Plan(strips, buy, None, working, ())


def bias(wanted: Fraction, strip: Fraction, bias_loss: str, cloth: Cloth, setting: Settings) -> Plan:
    """One continuous bias strip from a square, the least by whole inches (metric: centimetres)."""
    step = Fraction(1) if setting.system == "in" else CENTIMETRE
    area = line(
        "By area alone: a square of {}, and nothing lost.", length(square_by_area(wanted, strip, step))
    )
    if bias_loss == "whole turns":
        square = square_by_turns(wanted, strip, setting.seam, step)
        said = _turns_line(square, strip, setting.seam)
    else:
        square = square_by_area(wanted, strip, step, TENTH)
        promised = area_length(square, strip)
        said = line("A square of {}: {} by area, less {} is {}.", length(square), length(promised),
                    percent(100 * TENTH), length(promised * (1 - TENTH)))  # fmt: skip
    if square > cloth.usable:
        raise Cannot(
            "usable_width",
            "the bias square is wider than the fabric.",
            "Cut narrower or crosswise strips, or make two squares, each for half the length.",
        )
    single = line("In single bias strips instead, each join takes {}.", length(2 * setting.seam * ROOT2))
    cautions = (line("Bias edges stretch: press, do not pull."),)
    return Plan(None, cloth.bought(square), square, (area, said, single), cautions)


def _turns_line(square: Fraction, strip: Fraction, seam: Fraction) -> Line:
    turns = floor_div(square, ROOT2 * strip)
    return line(
        "A square of {}: {} whole turns of √2 × ({} − 4 × {} seam) give {}.",
        length(square), turns, length(square), length(seam), length(turns_length(square, strip, seam)),
    )  # fmt: skip


def _join_line(join: Join, loss: Fraction) -> Line:
    why = "the strip's cut width" if join == "diagonal" else "two seams"
    return line("A {} join takes {}: {}.", join, length(loss), why)


def _strips_lines(strips: int, wanted: Fraction, usable: Fraction, loss: Fraction) -> list[Line]:
    said = "{} × {} − {} × {} makes {}, for the {} wanted."
    have = length(joined(strips, usable, loss))
    have_line = line(said, strips, length(usable), strips - 1, length(loss), have, length(wanted))
    if strips == 1:
        return [have_line]
    return [have_line, line("{} would make {}.", strips - 1, length(joined(strips - 1, usable, loss)))]
