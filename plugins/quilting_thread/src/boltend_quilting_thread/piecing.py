"""Thread for sewing the pieces together."""

from boltend.plugin import (
    Answer,
    Count,
    Length,
    Money,
    Percent,
    Rate,
    Settings,
    TableRow,
    ThreadNumber,
    calculator,
    ceil_div,
    found,
    given,
    line,
)
from boltend_quilting_thread.amounts import spools, supply, thread_for
from boltend_quilting_thread.lockstitch import stitches_an_inch, taken
from boltend_quilting_thread.say import long
from boltend_quilting_thread.thread_words import (
    NO_BOBBIN,
    bobbin_lines,
    spool_goods,
    spool_lines,
    take_lines,
    thread_cautions,
    thread_lines,
)

_GROWERS = ("seam_length", "waste", "thickness")
_WHOLE = ("1 yd", "1 m")


class Found:
    """What is found. Thread in yards or metres, its waste counted in."""

    top_thread: Length = found("Top thread", up=_WHOLE, unit="yd", bounded=True, grows_with=_GROWERS)
    top_thread_low: Length = found("Top thread, low", down=_WHOLE, unit="yd", bounded=True)
    top_thread_high: Length = found(
        "Top thread, high", up=_WHOLE, unit="yd", bounded=True, grows_with=_GROWERS
    )
    bobbin_thread: Length = found("Bobbin thread", up=_WHOLE, unit="yd", bounded=True, grows_with=_GROWERS)
    bobbin_thread_low: Length = found("Bobbin thread, low", down=_WHOLE, unit="yd", bounded=True)
    bobbin_thread_high: Length = found(
        "Bobbin thread, high", up=_WHOLE, unit="yd", bounded=True, grows_with=_GROWERS
    )
    spools: Count = found("Spools", grows_with=_GROWERS, help="For the top and the bobbin.")
    bobbins: Count | None = found("Bobbins to wind", grows_with=_GROWERS, empty=NO_BOBBIN)


@calculator("piecing_thread", asks="How much thread will the piecing take?", found=Found)
def piecing_thread(
    seam_length: Length = given(
        "Seams",
        least="0 in",
        help="Raw edge to raw edge, each once: link it to a setting's or a unit's seams.",
        example=("100 yd", "90 m"),
    ),
    stitches_per_inch: Rate = given(
        "Stitches", default="12", unit="per in", help="To the inch; 2 mm long is 5 per cm."
    ),
    thickness: Length = given(
        "Thickness under the needle",
        default="0.025 in",
        metric="0.6 mm",
        least="0 in",
        most="2 in",
        unit="mm",
        help="Two layers of cloth; 0.025 in is an ordinary seam (Textile Calculation, 2015).",
    ),
    waste: Percent = given("Waste", default="10 %", least="0 %", most="100 %", help="Ends, breaks, bobbins."),
    thread: TableRow | None = given("Thread", table="threads"),
    thread_number: ThreadNumber | None = given(
        "Number of the thread",
        help="With its convention: 40 wt Nm is not 40 wt Ne 2 ply. Over the thread's own.",
        empty="the thread's",
    ),
    spool_length: Length | None = given(
        "On a spool",
        least="1 yd",
        unit="yd",
        help="As its label says. Over the thread's own.",
        empty="the thread's",
    ),
    bobbin: TableRow | None = given("Bobbin", table="bobbins", help="The class that the machine takes."),
    price: Money | None = given("Price of a spool", help="Over the thread's own."),
    *,
    setting: Settings,
) -> Answer:
    """Thread above and below for the seams of the piecing, as a range, with its spools and bobbins.

    Lengths in inches. Each thread takes 1 + thickness × stitches for each length of seam, low and high
    with the thickness halved and one and a half times, times (1 + waste). 100 yd of seam, 0.025 in thick
    at 12 an inch, 10 % waste: 143 yd of each. Spools and bobbins are for the middle figure, in whole
    yards (metres) as shown, with one thread above and below. Source: Consumption formula for single
    needle lock stitch, tension balanced (Textile Calculation, 2015), which has 0.025 in at 10 an inch as
    2.5 in all.
    """
    stitches = stitches_an_inch(stitches_per_inch)
    take = taken(thickness, stitches, None)
    each = thread_for(seam_length, take, waste, "seam_length")
    of = supply(thread, bobbin, thread_number, spool_length, price)
    shown = each.whole(setting)
    count = spools(2 * shown.mid, of.spool)
    return Answer(
        found={
            "top_thread": each.mid, "top_thread_low": each.low, "top_thread_high": each.high,
            "bobbin_thread": each.mid, "bobbin_thread_low": each.low, "bobbin_thread_high": each.high,
            "spools": count,
            "bobbins": None if of.on_a_bobbin is None else ceil_div(shown.mid, of.on_a_bobbin),
        },
        goods=spool_goods(2 * shown.mid, of, setting),
        working=[
            line("Seams, raw edge to raw edge, each once: {}.", long(seam_length, setting)),
            *take_lines(take, take, thickness, stitches, setting),
            *thread_lines((take, take), (each, each), seam_length, waste, setting),
            *spool_lines(shown, shown, of, setting),
            *bobbin_lines(shown, of, setting),
        ],
        cautions=thread_cautions((take, take), of, shown, shown, setting),
    )  # fmt: skip
