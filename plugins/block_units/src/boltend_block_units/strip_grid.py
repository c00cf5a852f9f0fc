"""Chequered grids of two fabrics, pieced from strips: four patches, nine patches and larger ones."""

from fractions import Fraction

from boltend.plugin import (
    Answer,
    Count,
    Cut,
    Fabric,
    Finished,
    Length,
    Run,
    Settings,
    calculator,
    found,
    given,
)
from boltend_block_units.parts import check_seams
from boltend_block_units.strip_grid_picture import picture
from boltend_block_units.strip_grid_sets import Grid, grid, strip_length
from boltend_block_units.strip_grid_words import cautions, working

_GROWERS = ("finished_size", "count")


class Found:
    """What is found."""

    strip_width: Cut = found(
        "Strip width", up="cutting", grows_with=("finished_size",), help="Of a strip, and of every segment."
    )
    segments_each: Count = found("Segments from a strip set")
    segments: Count = found("Segments", grows_with=("count",))
    dark_sets: Count = found("Strip sets, dark outside", grows_with=_GROWERS)
    light_sets: Count = found("Strip sets, light outside", grows_with=_GROWERS, help="Of odd grids only.")
    dark_strips: Count = found("Dark strips", grows_with=_GROWERS)
    light_strips: Count = found("Light strips", grows_with=_GROWERS)
    trim_to: Cut = found("Trim each unit to", nearest="size")
    made: Count = found("Units that come out", grows_with=("count",))
    seam_length: Length = found(
        "Seams, raw edge to raw edge", up="size", grows_with=("count",), help="Of all sets and units."
    )


@calculator(
    "strip_pieced_grid", asks="What do I cut for nine patches and other grids from strips?", found=Found
)
def strip_pieced_grid(
    finished_size: Finished = given(
        "Finished size",
        least="1/2 in",
        most="120 in",
        step="1/2 in",
        help="Of the whole unit, a square.",
        example=("9 in", "22 cm"),
    ),
    count: Count = given("Units wanted", least="1", most="10000"),
    patches: Count = given(
        "Patches along a side", default="3", least="2", most="15", help="2: four patch. 3: nine patch."
    ),
    dark_fabric: Fabric | None = given("Dark fabric", help="At the corners of a nine patch."),
    light_fabric: Fabric | None = given("Light fabric"),
    usable_width: Length = given("Usable width of the fabric", least="1 in"),
    squaring: Length = given("Lost to square a strip set", least="0 in"),
    *,
    setting: Settings,
) -> Answer:
    """Strips and strip sets for chequered grids of n × n patches that finish at f; s is the seam.

    All lengths in inches. `finished_size` 1/2 to 120, `count` 1 to 10 000, `patches` n from 2 to 15. Strips
    of f/n + 2s, rounded up to the cutting step, are sewn side by side into sets, and these cut across into
    segments of the same width: floor((usable width − squaring) ÷ width) a set. An odd grid takes sets of
    two kinds, with dark outside (ABA) and light outside (BAB), (n + 1)/2 and (n − 1)/2 segments a unit; an
    even one takes one kind, every second segment turned. Twenty nine patches of 6 in at 1/4 in and 42: 16
    segments a set of strips 2 1/2 wide, 3 sets ABA and 2 BAB. The last set of a kind is only as long as its
    segments. Common practice, no source.
    """
    made = grid(finished_size, patches, count, (dark_fabric, light_fabric), usable_width, squaring, setting)
    check_seams(made.seams)
    dark, light = made.kinds
    return Answer(
        found={
            "strip_width": made.strip.exact,
            "segments_each": made.segments_each,
            "segments": dark.segments + light.segments,
            "dark_sets": dark.sets,
            "light_sets": light.sets,
            "dark_strips": made.dark_strips,
            "light_strips": made.light_strips,
            "trim_to": finished_size + 2 * setting.seam,
            "made": count,
            "seam_length": made.seams,
        },
        runs=[
            run
            for name, fabric, strips in (
                ("dark strip", dark_fabric, (dark.dark, light.dark)),
                ("light strip", light_fabric, (dark.light, light.light)),
            )
            if (run := _run(name, made, strips, fabric))
        ],
        working=working(made, count),
        cautions=cautions(made, setting),
        picture=picture(made, dark_fabric, light_fabric),
    )


def _run(name: str, made: Grid, strips: tuple[int, int], fabric: str | None) -> Run | None:
    """All strips of one fabric: in each set so many, as long as the segments that are cut from it."""
    wants: tuple[Fraction, ...] = ()
    for kind, each in zip(made.kinds, strips, strict=True):
        for segments, sets in kind.lengths(made.segments_each):
            wants += (strip_length(segments, made),) * (sets * each)
    return Run(name, made.strip.cut, wants, join="none", fabric=fabric) if wants else None
