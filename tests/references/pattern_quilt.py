"""A published pattern, in straight rows or on point, worked out by our calculators."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property
from typing import Any

from boltend.core.contract import Settings
from boltend.core.cutting import Bolt, Part, Stock, plan
from boltend.core.values import KINDS, Notation, nearest
from boltend.testing import Worked, work
from boltend_backing_batting.backing import backing
from boltend_backing_batting.batting import batting
from boltend_borders_binding.binding import binding
from boltend_borders_binding.borders import borders
from boltend_precut_yield.precut_yield import precut_yield
from boltend_precut_yield.precuts import PRECUTS
from boltend_quilt_setting.on_point import on_point
from boltend_quilt_setting.straight_set import straight_set
from boltend_shared import Case

SEAMS = Fraction(1, 2)
"""Two seam allowances of 1/4 in: raw less finished."""


@dataclass(frozen=True)
class Stated:
    """What a pattern leaves open: overage, tail, joins, how borders are pieced, cloth, shop's step, strip.

    `grid` is the block (width, height), across and down where the inputs tell it otherwise; `raw` whether the
    printed size has its outer seams, where the inputs do not say; `size_step` the step to which print rounds
    a size that has a root in it, `edge` where an on-point top's edge lies, `corners` how its borders meet.
    """

    overage: str = "4 in"
    tail: str = "1 in"  # with it and diagonal joins these patterns' binding strips are ours
    join: str = "diagonal"
    piecing: str = "one run"
    usable: int = 42
    step: str = "1/8 yd"
    strip: str = "2 1/2 in"
    grid: tuple[str, str, int, int] | None = None
    raw: bool | None = None
    size_step: str | None = None
    edge: str | None = None
    corners: str = "sides first"


def is_on_point(case: Case) -> bool:
    """Whether a pattern sets its blocks on point."""
    return str(case.inputs.get("setting", "")).startswith("on point")


@dataclass(frozen=True)
class Quilt:
    """One pattern with what is stated for it: our top, borders, binding, backing and batting."""

    case: Case
    said: Stated

    @property
    def inputs(self) -> Mapping[str, Any]:
        """What the pattern starts from."""
        return self.case.inputs

    @cached_property
    def top(self) -> Worked:
        """The setting; with cornerstones wherever a sash is printed without long ones."""
        given = self.inputs
        if is_on_point(self.case):
            return work(
                on_point, block=Fraction(given["block"]), across=given["across"], down=given["down"],
                sash=Fraction(given.get("sash", 0)), cornerstones=self.case.id not in LONG_SASHES,
                **({"edge": self.said.edge} if self.said.edge else {}),
            )  # fmt: skip
        wide, high, across, down = self.said.grid or (
            f"{given['block']} in", f"{given['block']} in", given["across"], given["down"]
        )  # fmt: skip
        return work(
            straight_set, block_width=wide, block_height=high, across=across, down=down,
            sash=f"{given.get('sash', 0)} in", sash_all_round=given.get("outer_sash", False),
            cornerstones=self.case.id not in LONG_SASHES,
        )  # fmt: skip

    @cached_property
    def bordered(self) -> Worked:
        """The top with its borders."""
        if "center_raw" in self.inputs:
            width, height = (f"{side} in cut" for side in self.inputs["center_raw"])
        else:
            width, height = (f"{side} in" for side in size_of(self.top))
        rows = [{"width": f"{w} in", "corners": self.said.corners} for w in self.inputs["borders_finished"]]
        return work(
            borders, top_width=width, top_height=height, borders=rows, join=self.said.join,
            piecing=self.said.piecing, usable_width=f"{self.said.usable} in",
        )  # fmt: skip

    @cached_property
    def size(self) -> list[Fraction]:
        """Finished, with its borders where it has any."""
        return size_of(self.bordered if self.inputs.get("borders_finished") else self.top)

    @cached_property
    def printed_as(self) -> list[Fraction]:
        """The size in the pattern's own way: raw, or finished."""
        said = self.inputs.get("size_convention") in ("raw", "approx")
        raw = said if self.said.raw is None else self.said.raw
        sides = [side + SEAMS if raw else side for side in self.size]
        return [nearest(side, read(self.said.size_step)) for side in sides] if self.said.size_step else sides

    @cached_property
    def bound(self) -> Worked:
        """Its binding."""
        return work(
            binding, width=self.size[0], height=self.size[1], tail=self.said.tail, join=self.said.join,
            strip_width=self.said.strip, usable_width=f"{self.said.usable} in",
        )  # fmt: skip

    @cached_property
    def backed(self) -> Worked:
        """Its backing: print adds the overage to its own size, and takes no seam off a width."""
        width, height = self.printed_as
        return work(
            backing, settings={"buying_step": self.said.step}, width=width, height=height, seam="0 in",
            overage=self.said.overage, usable_width=f"{self.said.usable} in",
        )  # fmt: skip

    def pieces(self, name: str) -> Any:
        """One kind of piece of the straight set."""
        return next(piece for piece in self.top.answer.pieces if piece.name == name)

    def strips(self, border: int) -> Fraction:
        """Inches that the strips of one border take."""
        row = each(self.bordered)[border]
        return Fraction(row["strips"] * row["strip_width"])

    @property
    def binding_inches(self) -> Fraction:
        """Inches that its binding strips take."""
        return count(self.bound, "strips") * read(self.said.strip)


LONG_SASHES = ("pat-mccalls", "pat-4h-sash", "pat-4h-both", "pat-pq-bom", "pat-delaware", "pat-call-me")


def size_of(worked: Worked) -> list[Fraction]:
    """Width and height that were found."""
    found: Any = worked.found
    return [found["width"], found["height"]]


def each(worked: Worked) -> Any:
    """The rows of the borders."""
    return worked.found["each"]


def count(worked: Worked, name: str) -> int:
    """A count that was found."""
    found: Any = worked.found[name]
    return int(found)


def read(text: str, kind: str = "cut") -> Fraction:
    """A length as our notation reads it: `8 in finished` where a cut size is wanted is 8 1/2."""
    value: Fraction = KINDS[kind].read(text, Notation())
    return value


def from_bolt(pieces: Sequence[tuple[Any, Any, int]], usable: int = 42) -> Fraction:
    """Inches of bolt that pieces (across, along, count) take, by the engine that plans To cut."""
    parts = [Part(f"{i}", Fraction(a), Fraction(b), n) for i, (a, b, n) in enumerate(pieces)]
    return plan(parts, Stock((), Bolt(Fraction(usable)))).length_used


def of_tens(width: str, height: str, wanted: int) -> int:
    """How many 10 in squares so many pieces take."""
    found = work(
        precut_yield, tables=[PRECUTS], precut="10 in square pack", piece_width=width, piece_height=height,
        pieces_wanted=wanted,
    )  # fmt: skip
    return count(found, "precuts_needed")


Check = Callable[[Quilt], object]


def finished(q: Quilt) -> object:
    """The printed size, in the pattern's own way."""
    return q.printed_as


def blocks(q: Quilt) -> object:
    """How many blocks."""
    return q.top.found["blocks"]


def short_sashes(q: Quilt) -> object:
    """Sashes as long as a block."""
    return count(q.top, "sashes_down") + count(q.top, "sashes_across")


def sash_cut(q: Quilt) -> object:
    """Width and length of a short sash."""
    piece = q.pieces("sash in the rows")
    return [piece.across, piece.along]


def cornerstones(q: Quilt) -> object:
    """How many cornerstones."""
    return q.top.found["cornerstone_count"]


def border_cut(q: Quilt) -> object:
    """Strip widths of the borders."""
    widths = [row["strip_width"] for row in each(q.bordered)]
    return widths[0] if len(widths) == 1 else widths


def border_strips(q: Quilt) -> object:
    """Strips of the borders."""
    strips = [row["strips"] for row in each(q.bordered)]
    return strips[0] if len(strips) == 1 else strips


def border_lengths(q: Quilt) -> object:
    """Cut lengths of sides and ends."""
    return [[row["sides_cut"], row["ends_cut"]] for row in each(q.bordered)]


def binding_strips(q: Quilt) -> object:
    """Strips of the binding."""
    return q.bound.found["strips"]


def batted(q: Quilt) -> object:
    """The batting needed, from the printed size."""
    width, height = q.printed_as
    found = work(batting, settings={"seam": "0 in"}, width=width, height=height, overage=q.said.overage).found
    return [found["needed_width"], found["needed_height"]]


def backing_yards(q: Quilt) -> object:
    """What the shop cuts for the backing."""
    found: Any = q.backed.found["length_to_buy"]
    return found / 36


def backing_inches(q: Quilt) -> Fraction:
    """What the backing takes."""
    found: Any = q.backed.unrounded["length_to_buy"]
    return Fraction(found)


def binding_yards(q: Quilt) -> object:
    """What the shop cuts for the binding."""
    return Settings().buy_up(q.binding_inches) / 36


def squares(q: Quilt, size: str) -> Fraction:
    """Inches of bolt for a square of this size for every block."""
    side = read(size)
    return from_bolt([(side, side, count(q.top, "blocks"))], q.said.usable)


def sash_inches(q: Quilt) -> Fraction:
    """Inches of bolt for all sashes, the long ones too."""
    parts = [(p.across, p.along, p.count) for p in q.top.answer.pieces if "sash" in p.name]
    return from_bolt(parts, q.said.usable)


def printed_input(key: str) -> Check:
    """A number that a pattern chooses and ours takes in: that it does is what is held."""
    return lambda q: read(getattr(q.said, key))


FABRICS = "What is cut from this fabric is not in the inputs of the case."
CHOSEN = "The pattern's own choice of pieces, from which our sizes start; no calculator finds it."


@dataclass(frozen=True)
class Pattern:
    """The numbers of one pattern: as printed, printed amounts that are enough, and what is not ours."""

    said: Stated = Stated()
    exact: Mapping[str, Check] = field(default_factory=dict)
    enough: Mapping[str, Callable[[Quilt], Fraction | int]] = field(default_factory=dict)
    not_ours: Mapping[str, str] = field(default_factory=dict)


def fabrics(*names: str) -> dict[str, str]:
    """Yards of fabrics whose pieces are not told."""
    return {f"yards.{name}": FABRICS for name in names}


SIZE: dict[str, Check] = {"finished": finished, "blocks": blocks}
BOUND: dict[str, Check] = {"binding_strips": binding_strips}
BATTED: dict[str, Check] = {"batting": batted}
BACKED: dict[str, Check] = {"yards.backing": backing_yards}
BORDERED: dict[str, Check] = {"border_cut": border_cut, "border_strips": border_strips}
