"""Published bindings, worked by our calculator: what print leaves open is stated here, case by case."""

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from boltend.core.values import Number, Surd
from boltend.testing import Worked, work
from boltend_borders_binding.bias import area_length, square_by_area
from boltend_borders_binding.binding import binding
from boltend_shared import Case

SEAMS = Fraction(1, 2)
"""Two seam allowances of 1/4 in: raw less finished."""


def raw(value: Fraction | int) -> str:
    """A printed raw size, typed."""
    return f"{value} in cut"


@dataclass(frozen=True)
class Stated:
    """What a printed binding rests on: its tail, the fabric's width, its joins, the shop's step."""

    tail: str
    usable_width: str = "42 in"
    join: str = "diagonal"
    buying_step: str = "1/8 yd"


# Patterns print sizes and strips but neither tail nor fabric width: 42 in, diagonal joins and a tail of 1 in.
PATTERN = Stated(tail="1 in")
# A list of five sizes and yards. The collector's reading is a tail of 10 in over 40 in without joins; what it
# leaves of a 42 in width is more than straight joins lose.
LIST = Stated(tail="10 in", join="straight")

BINDINGS: dict[str, Stated] = {
    "bind-big": PATTERN,
    "bind-crib": PATTERN,
    "bind-hal": PATTERN,
    "bind-candy": PATTERN,
    "bind-salsa": PATTERN,
    "bind-rings": PATTERN,
    "bind-past": PATTERN,
    "bind-fast": PATTERN,
    "bind-blues": PATTERN,
    "bind-mccall": PATTERN,
    "bind-callme": PATTERN,
    "bind-mm": PATTERN,
    "bind-cam": PATTERN,
    "bind-sewcan": PATTERN,
    # perimeter ÷ (40 − 2): no tail, 2 in lost a strip, which is near a diagonal join of 2 1/2 in
    "bind-castil": Stated(tail="0 in", usable_width="40 in"),
    # perimeter ÷ 40, no tail; 12 1/2 in is bought as 1/2 yd, "more than enough": by the quarter yard
    "bind-sylvia": Stated(tail="0 in", usable_width="40 in", buying_step="1/4 yd"),
    "bind-always": Stated(tail="0 in", usable_width="40 in"),
    # 1 in a corner and 4 in: a tail of 8 in; ÷ 40 without joins, so straight ones here
    "bind-once": Stated(tail="8 in", usable_width="40 in", join="straight"),
    # a tail of 20 in; ÷ 40 without joins, so straight ones here; bought by the quarter yard
    "bind-msqc2": Stated(tail="20 in", usable_width="40 in", join="straight", buying_step="1/4 yd"),
    "bindyd-gems-baby": LIST,
    "bindyd-gems-throw": LIST,
    "bindyd-gems-twin": LIST,
    "bindyd-gems-queen": LIST,
    "bindyd-gems-king": LIST,
    # 8 yd is the bare perimeter
    "bindyd-mm-len": Stated(tail="0 in"),
    # the perimeter and 17 in
    "bindyd-rjr": Stated(tail="17 in"),
    # the allowance is an input of the case
    "bias-gen": Stated(tail="12 in"),
}


def bind(case: Case, **more: Any) -> Worked:
    """The binding of a case, under what is stated for it."""
    stated = BINDINGS[case.id]
    width = case.inputs.get("strip_width")
    if width is not None:
        more["strip_width"] = f"{width} in"
    return work(
        binding,
        settings={"buying_step": stated.buying_step},
        width=raw(case.inputs["quilt_w"]),
        height=raw(case.inputs["quilt_l"]),
        tail=stated.tail,
        usable_width=stated.usable_width,
        join=stated.join,
        grain="bias" if case.kind == "bias_binding" else "crosswise",
        **more,
    )


def binding_found(case: Case) -> dict[str, object]:
    """What we find, under the names that the case expects."""
    worked = bind(case)
    found = worked.found
    ours: dict[str, Callable[[], object]] = {
        "strips": lambda: found["strips"],
        "inches": lambda: worked.unrounded["length_to_buy"],
        "yards": lambda: inches(found["length_to_buy"]) / 36,
        "total_length": lambda: found["length"],
        "length": lambda: found["length"],
        "binding_length_yards": lambda: inches(found["length"]) / 36,
    }
    return {key: ours[key]() for key in case.expected}


def inches(value: object) -> Fraction:
    """A length that is there."""
    assert isinstance(value, Fraction)
    return value


def exact(value: object) -> Number:
    """An unrounded length that is there."""
    assert isinstance(value, Fraction | Surd)
    return value


def bias_area(case: Case) -> dict[str, object]:
    """20 in square, 2 in strips: what area promises, seams and part turns not taken off."""
    return {"length": area_length(Fraction(case.inputs["square"]), Fraction(case.inputs["strip_width"]))}


def bias_square(case: Case) -> dict[str, object]:
    """The least square by area; in the working of a quilt that takes this length."""
    wanted, strip = Fraction(case.inputs["length"]), Fraction(case.inputs["strip_width"])
    square = square_by_area(wanted, strip, Fraction(1))
    side = raw((wanted - 10) / 4)  # a square quilt, with the default tail of 10 in
    worked = work(binding, width=side, height=side, strip_width=f"{strip} in", grain="bias")
    assert worked.found["length"] == wanted
    assert any(f"By area alone: a square of {square} in" in line for line in worked.working)
    hundredth = Fraction(
        1, 100
    )  # ours is the hundredth above the root, print gives the nearest, which is below
    return {
        "area": wanted * strip,
        "square_exact": square_by_area(wanted, strip, hundredth) - hundredth,
        "square": square,
    }


def bias_cut_width(case: Case) -> dict[str, object]:
    """The strip of each turn, sought by our fold.

    The case is labelled a single fold, but 4 × finished + 2 seams + turn is the double one: each of its two
    layers lies once under the seam, once in front and once behind, with the seam as wide as the binding; the
    turn is the quilt's thickness, once a layer. (A single fold of 1/4 in is 4 × 1/4 in + thickness.)
    """
    assert case.inputs["seam"] == case.inputs["finished_binding"]
    eighths = [Fraction(n, 8) for n in range(4, 33)]
    return {
        "cut_width": [
            next(strip for strip in eighths if folded(strip, turn / 2) == case.inputs["finished_binding"])
            for turn in case.inputs["turn"]
        ]
    }


def folded(strip: Fraction, thickness: Fraction) -> object:
    """The exact finished width of a double fold."""
    worked = work(
        binding, width="40 in", height="40 in", strip_width=f"{strip} in", thickness=f"{thickness} in"
    )
    return worked.unrounded["finished_width"]
