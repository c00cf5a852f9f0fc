"""Which batting covers a quilt."""

from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import Literal

from boltend.plugin import (
    Answer,
    Cannot,
    Cut,
    Finished,
    Goods,
    Length,
    Money,
    Percent,
    Price,
    Rect,
    Rows,
    Settings,
    TableRow,
    Text,
    calculator,
    found,
    given,
    row,
    up,
)
from boltend_backing_batting.batting_words import (
    cautions,
    choice_lines,
    gap_lines,
    size_lines,
)
from boltend_backing_batting.packs import CENTIMETRE, Pack, Size, covering, off_the_roll, price_of
from boltend_backing_batting.panels import MOST_INCHES

Per = Literal["yard", "metre"]
_GROWERS = ("width", "height", "overage", "shrinkage")
_IN_WHOLE = "Up to the whole inch (centimetre), as batting is sold; a backing is not rounded so."
_WHOLE = ("1 in", "1 cm")
_PER: dict[Per, tuple[str, Fraction]] = {"yard": ("yd", Fraction(36)), "metre": ("m", 100 * CENTIMETRE)}


@row
class Offer:
    """A package that covers the quilt."""

    package: Text = found("Package")
    width: Length = found("Width", nearest="size")
    length: Length = found("Length", nearest="size")


class Found:
    """What is found."""

    needed_width: Cut = found("Width needed", up=_WHOLE, grows_with=_GROWERS, help=_IN_WHOLE)
    needed_height: Cut = found("Height needed", up=_WHOLE, grows_with=_GROWERS, help=_IN_WHOLE)
    package: Text | None = found(
        "Package",
        help="The least area that covers it, either way round; none where it is off a roll.",
        empty="No package is taken: no usual one covers it, or it is bought off the roll.",
    )
    roll_length: Length | None = found(
        "Length off the roll",
        up="buying",
        unit="yd",
        grows_with=_GROWERS,
        empty="Nothing is taken off a roll: give the width of one that a side of the quilt fits.",
    )
    choices: Rows[Offer] = found("Packages that cover it", help="The least area first.")


@calculator("batting", asks="Which batting covers it?", found=Found)
def batting(
    width: Finished = given("Width of the quilt", least="1 in", most="10000 in", example=("60 in", "150 cm")),
    height: Finished = given(
        "Height of the quilt", least="1 in", most="10000 in", example=("72 in", "180 cm")
    ),
    overage: Length = given("Overage on each side", least="0 in"),
    shrinkage: Percent = given("Shrinkage", default="0 %", least="0 %", most="50 %", help="Its maker's."),
    roll_width: Length | None = given("Width of the roll", least="1 in", help="To buy it off a roll."),
    batting: TableRow | None = given(
        "Batting", table="battings", help="A package that you have, or a kind of batting."
    ),
    price: Money | None = given(
        "Price", help="Of the package; off the roll of a yard (metre). Over the batting's own."
    ),
    *,
    setting: Settings,
) -> Answer:
    """The batting needed, and the package of least area that covers it, or the length off a roll.

    Lengths in inches. Needed: (finished + 2 seams + 2 `overage`) ÷ (1 − `shrinkage`), up to the whole inch
    (whole centimetre). A package covers either way round. Off a roll only where one side is within
    `roll_width`, the shorter of the two ways; with a roll that fits, that is what is bought, and no package.
    A `price` is that of the package, or for a length of the roll: a yard (metre) where it does not say.
    60 × 80 in with 4 in: 69 × 89 in, a package of 72 × 90 in. Common practice, no source; sizes of packages:
    the table's sources.
    """
    raw = width + 2 * setting.seam, height + 2 * setting.seam
    exact = _needed(raw[0], overage, shrinkage), _needed(raw[1], overage, shrinkage)
    whole = Fraction(1) if setting.system == "in" else CENTIMETRE
    needed = up(exact[0], whole), up(exact[1], whole)
    roll = off_the_roll(needed, roll_width)
    _check_most(needed, roll, setting)
    packs = covering(needed, batting)
    return Answer(
        found={
            "needed_width": needed[0], "needed_height": needed[1], "roll_length": roll,
            "package": packs[0].name if packs and roll is None else None,
            "choices": [{"package": p.name, "width": p.width, "length": p.length} for p in packs],
        },
        goods=_goods(packs, roll, batting, price, setting),
        working=[
            *size_lines((width, height), setting, overage, shrinkage, exact, needed),
            *choice_lines(packs, needed, roll, roll_width),
            *gap_lines(batting),
        ],
        cautions=cautions(packs, roll, roll_width, batting, shrinkage),
        picture=_picture(raw, needed),
    )  # fmt: skip


def _needed(raw: Fraction, overage: Fraction, shrinkage: Fraction) -> Fraction:
    return (raw + 2 * overage) / (1 - shrinkage / 100)


def _check_most(needed: Size, roll: Fraction | None, setting: Settings) -> None:
    """Raise `Cannot` where what is shown would be longer than any length may be.

    Only the overage, or a seam as absurd, brings it there.
    """
    if max(*needed, setting.buy_up(roll or 0)) > MOST_INCHES:
        raise Cannot(
            "overage",
            "up to the next step it takes more than 10 000 000 in of batting, 158 miles.",
            "Give a smaller overage, or look at the project's seam.",
        )


def _goods(
    packs: Sequence[Pack],
    roll: Fraction | None,
    batting: Mapping[str, object] | None,
    said: Price | None,
    setting: Settings,
) -> list[Goods]:
    """What is bought: off the roll where it fits, else one package; with the price said, else the row's."""
    price = said or price_of(batting)
    if roll is not None:
        own: Per = "yard" if setting.system == "in" else "metre"
        unit, inches = _PER[(price and price.per) or own]
        kind = f"batting, {batting['name']}" if batting is not None else "batting"
        if said is not None and said.per is None:
            price = Price(said.amount, said.currency, own)
        of_length = price if price is not None and price.per else None
        amount = setting.buy_up(roll) / inches
        return [Goods(f"{kind}, off the roll", amount, unit, of_length, price_given="price")]
    if said is not None and said.per is not None:
        raise Cannot(
            "price",
            f"this is the price of a {said.per}, and nothing is bought off a roll.",
            "Write the price of the package, as 24.50, or give the width of the roll.",
        )
    flat = price if price is not None and price.per is None else None
    if not packs:
        return []
    return [Goods(f"batting, {packs[0].name}", Fraction(1), "package", flat, price_given="price")]


def _picture(raw: Size, needed: Size) -> list[Rect]:
    """The batting needed, and the quilt in its middle."""
    left, top = (needed[0] - raw[0]) / 2, (needed[1] - raw[1]) / 2
    return [
        Rect(Fraction(0), Fraction(0), *needed, fill="batting", label="batting"),
        Rect(left, top, *raw, fill="top", label="quilt"),
    ]
