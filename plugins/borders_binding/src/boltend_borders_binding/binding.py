"""How much binding a quilt takes."""

from fractions import Fraction
from typing import Literal

from boltend.plugin import (
    Answer,
    Cannot,
    Count,
    Cut,
    Fabric,
    Finished,
    Length,
    Piece,
    Rect,
    Run,
    Settings,
    calculator,
    found,
    given,
)
from boltend_borders_binding.binding_cut import Plan, bias, crosswise, lengthwise
from boltend_borders_binding.binding_working import FOLDS, edge_lines, fold_lines, length_lines
from boltend_borders_binding.cloth import MOST_INCHES, Cloth, cloth
from boltend_borders_binding.in_hand import NOT_SAID, held
from boltend_borders_binding.strips import Join

_GROWERS = ("width", "height", "strip_width", "tail")


class Found:
    """What is found."""

    length: Length = found(
        "Length, with its tail", up=("1/2 in", "1 cm"), grows_with=("width", "height", "tail")
    )
    strips: Count | None = found(
        "Strips", empty="A bias binding has none to count: it is cut as one continuous strip from its square."
    )
    buy_alone: Length = found(
        "To buy, this tab alone",
        up="buying",
        unit="yd",
        grows_with=_GROWERS,
        help="With the end squared once. To buy has what all tabs take of the fabric.",
    )
    have_is: Literal["enough", "not enough"] | None = found("In hand is", empty=NOT_SAID)
    length_to_buy: Length = found("Fabric, before squaring", up="buying", unit="yd", grows_with=_GROWERS)
    bias_square: Length | None = found(
        "Bias square",
        up=("1 in", "1 cm"),
        grows_with=_GROWERS,
        empty="Only a bias binding is cut from a square: choose the grain bias.",
    )
    finished_width: Finished = found("Binding's finished width", nearest="size", help="Front and back alike.")
    bound_width: Finished = found("Width once bound", nearest="size")
    bound_height: Finished = found("Height once bound", nearest="size")


@calculator("binding", asks="How much binding, and how is it cut?", found=Found)
def binding(
    width: Finished = given("Width of the quilt", least="1 in", most="10000 in", example=("60 in", "150 cm")),
    height: Finished = given(
        "Height of the quilt", least="1 in", most="10000 in", example=("72 in", "180 cm")
    ),
    fold: Literal["double", "single"] = given("Fold", default="double"),
    strip_width: Cut = given(
        "Strip width", default="2 1/2 in", metric="6.5 cm", least="1/2 in", step="cutting"
    ),
    grain: Literal["crosswise", "lengthwise", "bias"] = given("Grain", default="crosswise"),
    join: Join = given("Join", default="diagonal"),
    tail: Length = given(
        "Tail",
        default="10 in",
        metric="25 cm",
        least="0 in",
        most="1000 in",
        help="To join the two ends with.",
    ),
    thickness: Length = given("Thickness of the quilt", default="1/8 in", metric="3 mm", least="0 in"),
    bias_loss: Literal["whole turns", "10 %"] = given("What a bias square loses", default="whole turns"),
    usable_width: Length = given("Usable width of the fabric", least="1 in", most="150 in"),
    fabric: Fabric | None = given("Fabric"),
    have: Length | None = given(
        "In hand", least="1 in", unit="yd", help="Of the fabric: is it enough? To buy uses it."
    ),
    *,
    setting: Settings,
) -> Answer:
    """Length, strips and cloth of a binding, from the raw edge of the quilt.

    All lengths in inches. `width`, `height`: finished, above zero; the raw edge lies a seam further out.
    `strip_width`: cut, above 2 × `thickness` (single fold: above `thickness`). Each layer of a double fold
    lies once under the seam, once in front, once round the `thickness` and once behind, with the seam as
    wide as the binding: strip = 6 × finished width + 2 × thickness; a single fold, its edge turned under,
    is 4 × finished width + thickness. So the fold lies round the raw edge, and the bound quilt measures what
    its raw edges do. 60 × 80 in at the defaults: 292 in, 8 strips of 42 in, 20 in of cloth.
    Source: common practice, no source.
    """
    _check(width, height, tail, thickness)
    raw = width + 2 * setting.seam, height + 2 * setting.seam
    shown = _finished_width(fold, strip_width, thickness, min(raw))
    wanted = 2 * raw[0] + 2 * raw[1] + tail
    if wanted > MOST_INCHES:
        raise Cannot(
            "width",
            "with the project's seam round it the binding is longer than 10 000 000 in, 158 miles.",
            "Look at the project's seam again.",
        )
    bolt = cloth(fabric, usable_width, setting)
    plan = _plan(grain, join, bias_loss, wanted, strip_width, bolt, setting)
    if setting.buy_up(bolt.alone(plan.buy)) > MOST_INCHES:
        raise Cannot(
            "strip_width",
            "up to the shop's step it takes more than 10 000 000 in of cloth, 158 miles.",
            "Cut narrower strips, or take a wider fabric.",
        )
    there = held(have, bolt.alone(plan.buy))
    return Answer(
        found={
            "length": wanted, "strips": plan.strips, "buy_alone": bolt.alone(plan.buy),
            "have_is": there.verdict, "length_to_buy": plan.buy, "bias_square": plan.square,
            "finished_width": shown, "bound_width": raw[0], "bound_height": raw[1],
        },
        pieces=_square(plan, fabric),
        runs=[] if plan.square else [Run("binding", strip_width, (wanted,), join, grain, fabric)],
        working=[
            *length_lines(raw, tail, setting.seam),
            *fold_lines(fold, strip_width, thickness, shown, setting.seam),
            *plan.working,
            bolt.alone_line(plan.buy, setting),
            *there.working,
            *edge_lines(raw, grain),
        ],
        cautions=[*plan.cautions, *there.cautions],
        picture=[
            Rect(Fraction(0), Fraction(0), *raw, fill=fabric or "binding", label="binding"),
            Rect(shown, shown, raw[0] - 2 * shown, raw[1] - 2 * shown, fill="top", label="quilt"),
        ],
    )  # fmt: skip


def _square(plan: Plan, fabric: str | None) -> list[Piece]:
    """The square that a continuous bias strip is cut from."""
    if plan.square is None:
        return []
    return [Piece("binding square", plan.square, plan.square, 1, fabric, "bias")]


def _check(width: Fraction, height: Fraction, tail: Fraction, thickness: Fraction) -> None:
    for name, value in (("width", width), ("height", height)):
        if value <= 0:
            raise Cannot(name, "it is not above zero.", "Give the finished size of the quilt.")
    for name, value in (("tail", tail), ("thickness", thickness)):
        if value < 0:
            raise Cannot(name, "it is below zero.", "Give zero or more.")


def _finished_width(fold: str, strip_width: Fraction, thickness: Fraction, narrowest: Fraction) -> Fraction:
    layers, share = FOLDS[fold]
    shown = (strip_width - layers * thickness) / share
    if shown <= 0:
        raise Cannot("strip_width", "folded round the quilt, none of it shows.", "Cut wider strips.")
    if 2 * shown >= narrowest:
        raise Cannot("strip_width", "the binding would cover the whole quilt.", "Cut narrower strips.")
    return shown


def _plan(
    grain: str, join: Join, bias_loss: str, wanted: Fraction, strip: Fraction, bolt: Cloth, setting: Settings
) -> Plan:
    if grain == "bias":
        return bias(wanted, strip, bias_loss, bolt, setting)
    along = lengthwise if grain == "lengthwise" else crosswise
    return along(wanted, strip, join, bolt, setting)
