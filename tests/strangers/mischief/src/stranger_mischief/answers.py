"""Wrong answers: of a wrong kind, too many, too large, hostile."""

from collections.abc import Callable
from fractions import Fraction

from boltend.plugin import Answer, Cannot, Goods, Piece, Polygon, Rect, Run, finished, line

NASTY = "[/x] [@click=app.quit]\x1b[31m\x07\u202e red\r\n"


def plain(**other: object) -> Answer:
    """A sound answer, but for what is told otherwise."""
    parts = {k: other.pop(k) for k in list(other) if k in Answer.__slots__ and k != "found"}
    found = {"made": 2, "wide": Fraction(7, 2), "said": None, "strips": (), **other}
    return Answer(found=found, **parts)


class Hostile:
    """An object that harms whoever looks at it."""

    def __repr__(self) -> str:
        raise SystemExit("looked at")

    __str__ = __repr__

    def __eq__(self, other: object) -> bool:
        raise SystemExit("compared")

    __hash__ = None


class Reduces(Hostile):
    """An object that says how it is to be made at the other end: a number that would take for ever."""

    def __init__(self, make: object, *args: object) -> None:
        self.make, self.args = make, args

    def __reduce__(self) -> tuple[object, tuple[object, ...]]:
        return self.make, self.args


class OwnAnswer(Answer):
    """An answer of a class of its own."""


def cannot(given: object, why: object, way_out: object) -> Answer:
    """The declared error, with words of the plugin's."""
    raise Cannot(given, why, way_out)


def piece(**other: object) -> Piece:
    """A sound piece, but for what is told otherwise."""
    return Piece(**{"name": "p", "across": Fraction(3), "along": Fraction(3), "count": 1, **other})


def _rounds(count: int) -> Polygon:
    points = tuple((Fraction(n), Fraction(n * n % 97)) for n in range(count))
    return Polygon(points)


HUGE = 10**5000
ANSWERS: dict[str, Callable[[], Answer]] = {
    "nothing at all": lambda: None,
    "a dict": lambda: {"made": 2},
    "a class of its own": lambda: OwnAnswer({"made": 2, "wide": None, "said": None, "strips": ()}),
    "NaN": lambda: plain(made=float("nan")),
    "a float": lambda: plain(wide=3.5),
    "below nothing": lambda: plain(made=-1),
    "a length below nothing": lambda: plain(wide=Fraction(-7, 2)),
    "pieces below nothing": lambda: plain(pieces=[piece(count=-3)]),
    "a piece without a size": lambda: plain(pieces=[piece(across=Fraction(0))]),
    "a text for a number": lambda: plain(made="two"),
    "a million rows": lambda: plain(strips=[{"width": Fraction(n)} for n in range(1_000_000)]),
    "many rows": lambda: plain(strips=[{"width": Fraction(n, 8)} for n in range(1_999)]),
    "a million pieces": lambda: plain(pieces=[piece(name=f"p{n}") for n in range(1_000_000)]),
    "many pieces": lambda: plain(
        pieces=[piece(name=f"p{n}", across=Fraction(n % 200 + 8, 8)) for n in range(999)]
    ),
    "a million of a piece": lambda: plain(pieces=[piece(count=1_000_000)]),
    "a million lines": lambda: plain(working=["a line"] * 1_000_000),
    "many lines": lambda: plain(working=["a line " * 60] * 450),
    "a megabyte of lines": lambda: plain(working=["a line " * 60] * 2_500),
    "a million lengths of a run": lambda: plain(runs=[Run("r", Fraction(2), (Fraction(9),) * 1_000_000)]),
    "a million points": lambda: plain(picture=[_rounds(1_000_000)]),
    "many shapes": lambda: plain(
        picture=[Rect(Fraction(n), Fraction(n), Fraction(1), Fraction(1)) for n in range(9_999)]
    ),
    "a picture as wide as the world": lambda: plain(
        picture=[Rect(Fraction(0), Fraction(0), Fraction(10**40), Fraction(1, 10**40))]
    ),
    "a megabyte of words": lambda: plain(working=["so long " * 131_072], cautions=["so long " * 131_072]),
    "a megabyte of values": lambda: plain(working=[line("{}" * 100_000, *range(100_000))]),
    "a megabyte of Cannot": lambda: cannot("what", "so long " * 131_072, "so long " * 131_072),
    "a huge number": lambda: plain(made=HUGE),
    "a huge length": lambda: plain(wide=Fraction(10**2_000_000, 3)),
    "a huge number in the working": lambda: plain(
        working=[line("{} and {}", finished(Fraction(HUGE, 7)), HUGE)]
    ),
    "a huge size of a piece": lambda: plain(pieces=[piece(across=Fraction(HUGE, 7))]),
    "huge goods": lambda: plain(goods=[Goods("g", Fraction(HUGE), "box")]),
    "markup": lambda: plain(
        said="[/x] [b]",
        working=[NASTY, line(NASTY + "{}", NASTY)],
        cautions=[NASTY],
        pieces=[piece(name=NASTY)],
        goods=[Goods(NASTY, Fraction(1), NASTY)],
    ),
    "markup in Cannot": lambda: cannot(NASTY, NASTY, NASTY),
    "control characters": lambda: plain(said="red\x1b[31m"),
    "a hostile object": lambda: plain(said=Hostile()),
    "a hostile line": lambda: plain(working=[line("{}", Hostile())]),
    "a hostile Cannot": lambda: cannot(Hostile(), Hostile(), Hostile()),
    "a number that takes for ever": lambda: plain(wide=Reduces(Fraction, "1e999999999")),
    "a root of nonsense": lambda: plain(wide=Reduces(Fraction, 1, 0)),
    "a format": lambda: plain(working=[line("{0.__class__} {:>999999999} {", 1, 2)]),
    "deep": lambda: plain(said=_deep()),
}
"""Answers by what is wrong with them."""


def _deep() -> list[object]:
    inner: list[object] = []
    for _ in range(100_000):
        inner = [inner]
    return inner
