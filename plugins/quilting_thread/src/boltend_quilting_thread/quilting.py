"""Thread and time for quilting the layers together."""

from fractions import Fraction

from boltend.plugin import (
    Answer,
    Cannot,
    Count,
    Finished,
    Length,
    Line,
    Money,
    Percent,
    Rate,
    Settings,
    TableRow,
    ThreadNumber,
    Time,
    calculator,
    ceil_div,
    found,
    given,
    line,
)
from boltend_quilting_thread.amounts import spools, supply, thread_for
from boltend_quilting_thread.lockstitch import stitches_an_inch, taken
from boltend_quilting_thread.path_words import band_line, gap_lines, path_cautions, path_lines
from boltend_quilting_thread.paths import Pattern, Quilting
from boltend_quilting_thread.picture import picture
from boltend_quilting_thread.say import decimal, density, long
from boltend_quilting_thread.thread_words import (
    MEASURE,
    NO_BOBBIN,
    NO_TIME,
    bobbin_lines,
    spool_goods,
    spool_lines,
    take_lines,
    thread_cautions,
    thread_lines,
)

_GROWERS = ("width", "height", "ditch_length", "path", "margin", "waste", "thickness")
_WHOLE = ("1 yd", "1 m")
_EIGHTH = ("1/8 yd", "1 cm")


class Found:
    """What is found. Thread in yards or metres, its waste counted in."""

    path: Length = found("Length of the lines", nearest=_EIGHTH, unit="yd", help="With the margin.")
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
    hours: Time | None = found(
        "Time", nearest="1 min", help="Of the needle running, without stops.", empty=NO_TIME
    )


@calculator("quilting_thread", asks="How much thread will the quilting take, and how long?", found=Found)
def quilting_thread(
    width: Finished = given("Width of the quilt", least="1 in", most="10000 in", example=("60 in", "150 cm")),
    height: Finished = given(
        "Height of the quilt", least="1 in", most="10000 in", example=("72 in", "180 cm")
    ),
    pattern: Pattern = given("Pattern"),
    spacing: Length | None = given(
        "Spacing", least="1/16 in", most="10000 in", help="Line to line, square across; a meander's mean gap."
    ),
    ditch_length: Length | None = given(
        "Seams to follow",
        least="0 in",
        help="For the pattern in the ditch only: link it to the setting's ditch length.",
    ),
    path: Length | None = given(
        "Length of the lines",
        least="0 in",
        unit="yd",
        help="All lines together, if you know it; the pattern then does not count.",
    ),
    stitches_per_inch: Rate = given(
        "Stitches", default="10", unit="per in", help="To the inch; 2.5 mm long is 4 per cm."
    ),
    thickness: Length = given(
        "Thickness under the needle",
        default="1.5 mm",
        least="0 in",
        most="2 in",
        unit="mm",
        help="The layers with the foot down. 1.5 mm is usual for a low batting (common practice, no source).",
    ),
    waste: Percent = given("Waste", default="10 %", least="0 %", most="100 %", help="Ends, breaks, bobbins."),
    margin: Percent = given(
        "Margin", default="0 %", least="0 %", most="200 %", help="Edges, travel, starts."
    ),
    unpicked_top: Rate | None = given(
        "Top thread unpicked", unit="in per in", help="From an inch of seam: 4 1/2 in out of 3 in is 1.5."
    ),
    unpicked_bobbin: Rate | None = given(
        "Bobbin thread unpicked", unit="in per in", help="From an inch of seam."
    ),
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
    speed: Rate | None = given("Speed", unit="per min", help="Stitches a minute, as you really sew."),
    batting: TableRow | None = given("Batting", table="battings", help="For its widest quilting gap."),
    *,
    setting: Settings,
) -> Answer:
    """Thread above and below for the quilting, as a range, with its spools, bobbins and hours.

    Lengths in inches, `width` and `height` finished, rates an inch of seam. The path by the pattern, with
    the `margin` on top (edge effects: `paths.lines_of`). Each thread takes 1 + thickness × stitches for
    each length of seam, low and high with the thickness halved and one and a half times; or what was
    unpicked, low and high as a ruler leaves them open. `waste` multiplies all three. Spools and bobbins
    are for the middle figure, in whole yards (metres) as shown, with one thread above and below. hours =
    path × stitches ÷ speed, the needle running: home machines reach some 800 a minute (E. Love, 13
    Woodhouse Road, 2012). 60 × 72 in in lines 2 in apart, 1/16 in thick: path 60 yd, each thread 60 ×
    1.625 × 1.1 = 107.25 yd, from 86.63 to 127.88. An estimate: the thread's own diameter and its bends
    are left out. Source: Consumption formula for single needle lock stitch, tension balanced (Textile
    Calculation, 2015); paths: common practice, no source.
    """
    quilting = Quilting(width, height, pattern, spacing, ditch_length, path, margin)
    stitches = stitches_an_inch(stitches_per_inch)
    takes = (
        taken(thickness, stitches, unpicked_top, "unpicked_top"),
        taken(thickness, stitches, unpicked_bobbin, "unpicked_bobbin"),
    )
    blamed = "path" if path is not None else "ditch_length" if pattern == "in the ditch" else "spacing"
    top, below = (thread_for(quilting.margined, take, waste, blamed) for take in takes)
    of = supply(thread, bobbin, thread_number, spool_length, price)
    shown = top.whole(setting), below.whole(setting)
    count = spools(shown[0].mid + shown[1].mid, of.spool)
    minutes = _minutes(quilting.margined, stitches, speed)
    return Answer(
        found={
            "path": quilting.margined,
            "top_thread": top.mid, "top_thread_low": top.low, "top_thread_high": top.high,
            "bobbin_thread": below.mid, "bobbin_thread_low": below.low, "bobbin_thread_high": below.high,
            "spools": count,
            "bobbins": None if of.on_a_bobbin is None else ceil_div(shown[1].mid, of.on_a_bobbin),
            "hours": minutes,
        },
        goods=spool_goods(shown[0].mid + shown[1].mid, of, setting),
        working=[
            *path_lines(quilting, setting),
            *take_lines(*takes, thickness, stitches, setting),
            *thread_lines(takes, (top, below), quilting.margined, waste, setting),
            band_line(quilting, top),
            *spool_lines(*shown, of, setting),
            *bobbin_lines(shown[1], of, setting),
            *_time_lines(quilting.margined, stitches, speed, minutes, setting),
        ],
        cautions=[
            *gap_lines(quilting, batting),
            *path_cautions(quilting),
            *thread_cautions(takes, of, *shown, setting, better=MEASURE),
        ],
        picture=picture(quilting),
    )  # fmt: skip


def _minutes(path: Fraction, stitches: Fraction, speed: Rate | None) -> Fraction | None:
    if speed is None:
        return None
    if speed.value < 1:
        raise Cannot("speed", "it is at least a stitch a minute.", "Count the stitches of one minute.")
    return path * stitches / speed.value


def _time_lines(
    path: Fraction, stitches: Fraction, speed: Rate | None, minutes: Fraction | None, setting: Settings
) -> list[Line]:
    if speed is None or minutes is None:
        return []
    words = (
        "Time with the needle running: {} × {} ÷ {} a minute = {} min. Turning, threading and winding "
        "come on top."
    )
    values = long(path, setting), density(stitches, setting), decimal(speed.value), decimal(minutes, 1)
    return [line(words, *values)]
