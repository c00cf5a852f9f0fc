"""Thread, spools and bobbins in words."""

from fractions import Fraction

from boltend.plugin import Goods, Line, Settings, ceil_div, line, percent
from boltend_quilting_thread.amounts import METRE, YARD, Supply, Thread, spools
from boltend_quilting_thread.lockstitch import Take
from boltend_quilting_thread.say import decimal, density, long, number_text, thin, yards_text

_STITCHED = (
    "For each length of seam, {}: 1 + thickness × stitches = 1 + {} × {} = {} times as much. "
    "Low with half the thickness: {}; high with one and a half times: {}."
)
_UNPICKED = (
    "For each length of seam, {}, as unpicked: {} times as much. Low {} and high {} are what a ruler "
    "leaves open: 3 in (7.6 cm) of seam unpicked, seam and thread each read to 1/16 in (1.6 mm)."
)
_SPOOLS = (
    "Spools, with the same thread above and below: ({} + {}) ÷ {} = {}, up to {}. "
    "At the low figures {}, at the high ones {}."
)
_BOBBINS = "A bobbin, {}, holds {} of {}; by weight that is {} of {}. Bobbins: {} ÷ {} = {}, up to {}."
_ESTIMATE = (
    "An estimate: it rests on the thickness under the needle and a balanced tension; the low and the high "
    "figure have half the thickness, and one and a half times."
)
MEASURE = (
    "Better than the thickness is to measure: sew your own layers, unpick 3 in (7.6 cm) of the seam, and "
    "divide what came out above and below by that."
)
_NO_SPOOL = (
    "No count of spools before the thread is chosen, or what is on a spool of yours is said: with {} on each "
    "it would be {}, with {} {}."
)
_USUAL_SPOOLS = (200, 500)
"""Yards or metres on a small spool and on a large one: common practice, no source."""
NO_TIME = "Time is counted where it is said how many stitches a minute you sew."
NO_BOBBIN = "Bobbins are counted where their class is chosen, and the number of the thread is known."
_NO_NUMBER = (
    "No count of bobbins: the number of {} is not known with its convention. Give the thread number as it is "
    "meant: 40 wt Nm (km to the kg), 40 wt Ne 2 ply and 40 wt Ne 3 ply (cotton count of each strand) are "
    "three threads."
)


def take_lines(top: Take, bobbin: Take, thickness: Fraction, stitches: Fraction, how: Settings) -> list[Line]:
    """What each length of seam takes of each thread, and what that rests on."""
    names = {"top thread": top, "bobbin thread": bobbin}
    rest = [name for name, take in names.items() if not take.unpicked]
    lines = []
    if rest:
        drawn = thin(thickness, how), density(stitches, how)
        lines.append(line(_STITCHED, " and ".join(rest), *drawn, *_said(names[rest[0]])))
    for name, take in names.items():
        if take.unpicked:
            lines.append(line(_UNPICKED, name, *_said(take)))
    return lines


def _said(take: Take) -> tuple[str, str, str]:
    return decimal(take.mid), decimal(take.low), decimal(take.high)


def thread_lines(
    takes: tuple[Take, Take], threads: tuple[Thread, Thread], path: Fraction, waste: Fraction, how: Settings
) -> list[Line]:
    """From the path to the two threads; one line where both take as much."""
    if threads[0] == threads[1]:
        return [_thread_line("Top thread and bobbin thread, each", path, takes[0], waste, threads[0], how)]
    return [
        _thread_line(name, path, take, waste, thread, how)
        for name, take, thread in zip(("Top thread", "Bobbin thread"), takes, threads, strict=True)
    ]


def _thread_line(
    name: str, path: Fraction, take: Take, waste: Fraction, thread: Thread, how: Settings
) -> Line:
    """From the path to one thread, with its waste, before it is rounded."""
    words = "{}: {} × {} × (1 + {} waste) = {}; low {}, high {}."
    amounts = (long(inches, how) for inches in (thread.mid, thread.low, thread.high))
    return line(words, name, long(path, how), decimal(take.mid), percent(waste), *amounts)


def spool_lines(top: Thread, bobbin: Thread, of: Supply, how: Settings) -> list[Line]:
    """Spools for both threads, at the figure and at its ends; the amounts are those shown, in whole yards."""
    if of.spool is None:
        return []
    both = top.mid + bobbin.mid
    low, mid, high = (
        spools(inches, of.spool) for inches in (top.low + bobbin.low, both, top.high + bobbin.high)
    )
    amounts = long(top.mid, how), long(bobbin.mid, how), long(of.spool, how)
    return [line(_SPOOLS, *amounts, decimal(both / of.spool, 2), mid, low, high)]


def bobbin_lines(bobbin: Thread, of: Supply, how: Settings) -> list[Line]:
    """What a bobbin holds of this thread, and how many that makes."""
    holds = of.on_a_bobbin
    if of.bobbin is None or of.number is None or holds is None:
        return []
    own: Fraction = of.bobbin["holds"]  # type: ignore[assignment]  # the column's kind
    filled = of.bobbin["name"], long(own, how), number_text(of.filled_with), long(holds, how)
    count = decimal(bobbin.mid / holds, 2), ceil_div(bobbin.mid, holds)
    return [line(_BOBBINS, *filled, number_text(of.number), long(bobbin.mid, how), long(holds, how), *count)]


def spool_goods(inches: Fraction, of: Supply, how: Settings) -> list[Goods]:
    """The spools for so much thread, with what one costs; none where there is nothing to sew.

    Their exact part goes along: what is left on a spool sews on in another tab.
    """
    if of.spool is None or not inches:
        return []
    part = inches / of.spool
    whole = Fraction(ceil_div(inches, of.spool))
    return [Goods(_bought_as(of, how), whole, "spool", of.price, part, price_given="price")]


def _bought_as(of: Supply, how: Settings) -> str:
    """A name that two threads share only if they are alike: spools of one name are bought together.

    So it says what a tab says of number and spool otherwise than the thread's row.
    """
    number, spool = (of.thread["number"], of.thread["length"]) if of.thread is not None else (None, None)
    words = ["thread", str(of.thread["name"])] if of.thread is not None else ["thread"]
    if of.number is not None and of.number != number:
        words.append(number_text(of.number))
    if of.spool is not None and of.spool != spool:
        words.append(f"{yards_text(of.spool, how)} a spool")
    return ", ".join(words)


def thread_cautions(
    takes: tuple[Take, Take], of: Supply, top: Thread, bobbin: Thread, how: Settings, better: str = ""
) -> list[Line]:
    """What the estimate rests on (and what is `better`), what may be short, why a found has no value."""
    said = []
    if not all(take.unpicked for take in takes):
        said.append(line(f"{_ESTIMATE} {better}".rstrip()))
    if of.spool is None:
        whole = YARD if how.system == "in" else METRE
        counts = [(long(n * whole, how), spools(top.mid + bobbin.mid, n * whole)) for n in _USUAL_SPOOLS]
        said.append(line(_NO_SPOOL, *counts[0], *counts[1]))
    else:
        mid, high = spools(top.mid + bobbin.mid, of.spool), spools(top.high + bobbin.high, of.spool)
        if mid != high:
            said.append(line("At the high figures it takes {} spools, not {}.", high, mid))
    if of.bobbin is not None and of.number is None:
        said.append(line(_NO_NUMBER, "the thread" if of.thread is None else f"“{of.thread['name']}”"))
    return said
