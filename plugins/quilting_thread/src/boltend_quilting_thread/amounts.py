"""Thread for a length of stitching, and the spools and bobbins that hold it."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from boltend.plugin import Cannot, Price, Settings, ThreadNumber, ceil_div, down, tex, up
from boltend_quilting_thread.lockstitch import Take

YARD = Fraction(36)
METRE = Fraction(5000, 127)
_MOST = 9_000_000
"""Inches of thread: 250,000 yd, near the longest length that there is."""

Row = Mapping[str, object]


@dataclass(frozen=True, slots=True)
class Thread:
    """Inches of one thread, waste counted in."""

    low: Fraction
    mid: Fraction
    high: Fraction

    def whole(self, setting: Settings) -> "Thread":
        """As shown: whole yards (metres), the low figure rounded down, the others up."""
        step = YARD if setting.system == "in" else METRE
        return Thread(down(self.low, step), up(self.mid, step), up(self.high, step))


def thread_for(path: Fraction, take: Take, waste: Fraction, given: str) -> Thread:
    """Thread for `path` inches of stitching, with `waste` percent on top: path · take · (1 + waste).

    100 yd at 1.25 for each of two threads with 15 %: 287.5 yd in all. Raises `Cannot` past 250,000 yd, which
    is then laid to `given`.
    """
    each = path * (1 + waste / 100)
    if each * take.high > _MOST:
        raise Cannot(
            given,
            "it takes more than 250,000 yards of one thread.",
            "Look at the size, the spacing, the stitches and the thickness again.",
        )
    return Thread(each * take.low, each * take.mid, each * take.high)


@dataclass(frozen=True, slots=True)
class Supply:
    """The thread and the bobbin in use: inches on a spool, the thread's number, inches on a bobbin.

    None stands for what nobody said.
    """

    thread: Row | None
    bobbin: Row | None
    number: ThreadNumber | None
    spool: Fraction | None
    said: Price | None = None

    @property
    def price(self) -> Price | None:
        """What a spool costs: as `said`, else where the person's own row says it."""
        if self.said is not None:
            return self.said
        price = self.thread["price"] if self.thread is not None else None
        return price if isinstance(price, Price) and price.per is None else None

    @property
    def filled_with(self) -> ThreadNumber:
        """The thread that the bobbin's figure rests on."""
        assert self.bobbin is not None
        return self.bobbin["number"]  # type: ignore[return-value]  # the column's kind

    @property
    def on_a_bobbin(self) -> Fraction | None:
        """Inches of this thread on a bobbin: what it holds of another, by the ratio of their masses."""
        holds = self.bobbin["holds"] if self.bobbin is not None else None
        if not isinstance(holds, Fraction) or self.number is None:
            return None
        return holds * tex(self.filled_with) / tex(self.number)


def supply(
    thread: Row | None,
    bobbin: Row | None,
    number: ThreadNumber | None,
    spool: Fraction | None,
    price: Price | None = None,
) -> Supply:
    """The thread in use: what is said of it, else what its row says.

    Raises:
        Cannot: a row of the person's own says nothing of use, no bobbin holds a thread of that number, or
            the price is that of a length.
    """
    if price is not None and price.per is not None:
        why = f"thread is bought by the spool, and this is the price of a {price.per}."
        raise Cannot("price", why, "Write the price of one spool, as 7.50.")
    blamed = "thread_number" if number is not None else "thread"
    if thread is not None:
        number = number or thread["number"]  # type: ignore[assignment]  # the column's kind
        spool = spool or _an_inch(thread, "length", "thread")
    if bobbin is not None and (_an_inch(bobbin, "holds", "bobbin") is None or bobbin["number"] is None):
        way_out = "Give its row both: holds, and number with its convention."
        raise Cannot("bobbin", f"“{bobbin['name']}” does not say what it holds of which thread.", way_out)
    made = Supply(thread, bobbin, number, spool, price)
    if made.on_a_bobbin is not None and made.on_a_bobbin < 1:
        raise Cannot(blamed, "a thread so heavy goes on no bobbin.", "Look at its number again.")
    return made


def _an_inch(row: Row, column: str, given: str) -> Fraction | None:
    """A cell of a length, at least an inch."""
    value = row[column]
    if isinstance(value, Fraction) and value < 1:
        why = f"“{row['name']}” has a {column} below an inch."
        raise Cannot(given, why, f"Correct the {column} in its row.")
    return value if isinstance(value, Fraction) else None


def spools(inches: Fraction, spool: Fraction | None) -> int | None:
    """Whole spools that hold so much thread, or None where no spool is known."""
    return None if spool is None else ceil_div(inches, spool)
