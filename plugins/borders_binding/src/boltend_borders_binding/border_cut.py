"""What one border takes: strips, runs, cornerstones and cloth."""

from collections import Counter
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from boltend.plugin import (
    Cannot,
    Line,
    Piece,
    Run,
    Settings,
    ceil_div,
    cut,
    floor_div,
    length,
    line,
)
from boltend_borders_binding.border_rows import Laid
from boltend_borders_binding.cloth import Cloth
from boltend_borders_binding.strips import Join, join_loss, joined, side_by_side, strips_for


@dataclass(frozen=True, slots=True)
class Taken:
    """What a border takes: strips, inches of its fabric before squaring, and the parts of an answer."""

    strips: int
    buy: Fraction
    cloth: Cloth
    runs: tuple[Run, ...]
    pieces: tuple[Piece, ...]
    working: tuple[Line, ...]


def take(laid: Laid, join: Join, piecing: str, cloth: Cloth, setting: Settings) -> Taken:
    """What one border takes off its cloth. Raises `Cannot` where its strips are wider than the cloth."""
    strips, buy, runs, working = (
        _crosswise(laid, join, piecing, cloth, setting)
        if laid.border.grain == "crosswise"
        else _lengthwise(laid, cloth, setting)
    )
    pieces, more, said = _cornerstones(laid, cloth)
    working = [*cloth.working, *working, *said]
    return Taken(strips, cloth.bought(buy + more), cloth, tuple(runs), pieces, tuple(working))


def _parts(laid: Laid, setting: Settings) -> list[tuple[str, Fraction, tuple[Fraction, ...]]]:
    """(name, cut width, lengths) of what is cut from strips of one width: all four, or two and two."""
    sides, ends = setting.cut_up(laid.sides), setting.cut_up(laid.ends)
    if laid.has_sides and laid.has_ends and laid.strip == laid.strip_ends:
        return [(laid.name, laid.strip, (sides, sides, ends, ends))]
    apart = (
        (laid.has_sides, f"{laid.name}, sides", laid.strip, (sides, sides)),
        (laid.has_ends, f"{laid.name}, ends", laid.strip_ends, (ends, ends)),
    )
    return [(name, strip, lengths) for there, name, strip, lengths in apart if there]


_Cut = tuple[int, Fraction, list[Run], list[Line]]


def _crosswise(laid: Laid, join: Join, piecing: str, cloth: Cloth, setting: Settings) -> _Cut:
    strips, buy = 0, Fraction(0)
    runs, working = [], []
    for name, width, lengths in _parts(laid, setting):
        wants = lengths if piecing == "each side" else (sum(lengths, Fraction(0)),)
        loss = join_loss(join, width, setting.seam)
        counts = [strips_for(want, cloth.usable, loss) for want in wants]
        for want, count in sorted({*zip(wants, counts, strict=True)}, reverse=True):
            working.append(_strips_line(name, count, want, cloth.usable, loss))
        working.append(
            line("{}: {} strips × {} = {}.", name, sum(counts), cut(width), length(sum(counts) * width))
        )
        joined_up = sum(counts) > len(wants) or len(wants) < len(lengths)
        later = _then_cut(name, lengths, sum(counts), piecing) if joined_up else ""
        runs.append(_run(laid, name, width, wants, join, later))
        strips, buy = strips + sum(counts), buy + sum(counts) * width
    return strips, buy, runs, working


def _strips_line(name: str, count: int, want: Fraction, usable: Fraction, loss: Fraction) -> Line:
    have = length(joined(count, usable, loss))
    if count == 1:
        return line("{}: one strip of {} gives the {} wanted.", name, have, length(want))
    return line("{}: {} × {} − {} × {} for joins makes {}, for the {} wanted; {} would make {}.", name, count,
                length(usable), count - 1, length(loss), have, length(want), count - 1,
                length(joined(count - 1, usable, loss)))  # fmt: skip


def _lengthwise(laid: Laid, cloth: Cloth, setting: Settings) -> _Cut:
    parts = _parts(laid, setting)
    if max(width for _, width, _ in parts) > cloth.usable:
        raise Cannot("borders", f"the lengthwise strips of {laid.name} are wider than the fabric.",
                     "Cut them crosswise, or take a wider fabric.")  # fmt: skip
    strips = [(each, width) for _, width, lengths in parts for each in lengths]
    buy = side_by_side(strips, cloth.usable)
    said = "{}: {} strips without a join, side by side across {} as they fit, the longest {}: {} of fabric."
    longest = max(each for each, _ in strips)
    working = [line(said, laid.name, len(strips), length(cloth.usable), cut(longest), length(buy))]
    runs = [_run(laid, name, width, lengths, "none") for name, width, lengths in parts]
    return len(strips), buy, runs, working


def _then_cut(name: str, lengths: tuple[Fraction, ...], strips: int, piecing: str) -> Line:
    """What the joined strips are cut into: `2 of 53 1/2 in and 2 of 49 3/4 in`.

    Of strips for each side the joins between two sides are not reckoned with, so no run is made of them.
    """
    counts = Counter(lengths)
    parts = " and ".join("{} of {}" for _ in counts)
    sewn = "join the strips of {} end to end, then cut" if strips > 1 else "cut the strip of {} into"
    sewn = "join the strips of {} to" if piecing == "each side" else sewn
    values = (value for size, many in counts.items() for value in (many, cut(size)))
    return line(f"{sewn} {parts}", name, *values)


def _run(
    laid: Laid,
    name: str,
    width: Fraction,
    wants: tuple[Fraction, ...],
    join: Join | Literal["none"],
    later: Line | str = "",
) -> Run:
    grain, fabric = laid.border.grain, laid.border.fabric
    return Run(name, width, wants, join=join, grain=grain, fabric=fabric, later=later)


def _cornerstones(laid: Laid, cloth: Cloth) -> tuple[tuple[Piece, ...], Fraction, tuple[Line, ...]]:
    """Four cornerstones, and the inches that they add where they are of the border's own fabric."""
    if not laid.cornerstones:
        return (), Fraction(0), ()
    name, fabric = f"{laid.name}, cornerstone", laid.border.cornerstone_fabric or laid.border.fabric
    piece = Piece(name, laid.strip, laid.strip_ends, laid.cornerstones, fabric=fabric)
    size = cut(laid.strip), cut(laid.strip_ends)
    if fabric != laid.border.fabric:
        return (piece,), Fraction(0), (line("{}: 4 of {} × {}, from their own fabric.", name, *size),)
    across = floor_div(cloth.usable, laid.strip)
    if not across:
        raise Cannot("borders", f"the cornerstones of {laid.name} are wider than the fabric.",
                     "Make the border narrower, or take a wider fabric.")  # fmt: skip
    more = ceil_div(laid.cornerstones, across) * laid.strip_ends
    said = line("{}: 4 of {} × {}, from {} of the same fabric; To buy may find room in strip ends.",
                name, *size, length(more))  # fmt: skip
    return (piece,), more, (said,)
