"""A hanging sleeve: the tube at the back of a quilt that a rod goes through."""

from boltend.plugin import (
    Answer,
    Calculator,
    Cannot,
    Count,
    Cut,
    Fabric,
    Finished,
    Length,
    Rect,
    Run,
    Settings,
    calculator,
    cut,
    finished,
    found,
    given,
    hookimpl,
    length,
    line,
)

boltend_contract = 1


class Found:
    """What it finds."""

    strip_width: Cut = found("Width of the strip", up="cutting", grows_with=("depth", "ease"))
    section_length: Cut = found("Length of each section", up="cutting", grows_with=("width", "hem"))
    finished_length: Finished = found("Each section, hemmed", nearest="size")


@calculator("hanging_sleeve", asks="What do I cut for a hanging sleeve?", found=Found)
def hanging_sleeve(
    width: Finished = given("Width of the quilt", least="6 in", most="200 in"),
    depth: Finished = given(
        "Depth of the sleeve", default="4 in", metric="10 cm", least="1/2 in", most="12 in", step="1/4 in"
    ),
    ease: Length = given(
        "Ease", default="1/2 in", metric="1 cm", least="0 in", most="4 in",
        help="The side away from the quilt is so much wider, so that the rod makes no ridge in front.",
    ),
    short: Length = given("Stops short of each side by", default="1 in", metric="2.5 cm", least="0 in"),
    hem: Length = given(
        "Hem", default="1/2 in", metric="1 cm", least="0 in", most="4 in", help="Turned twice at each end."
    ),
    sections: Count = given("Sections", default="1", least="1", most="6"),
    gap: Length = given("Gap between sections", default="2 in", metric="5 cm", least="0 in"),
    fabric: Fabric | None = given("Fabric"),
    *,
    setting: Settings,
) -> Answer:  # fmt: skip
    """A tube as deep as `depth`, closed by one seam, hemmed at its ends, in one or several sections.

    Lengths in inches. A quilt 60 in wide, with all defaults: a strip 2 × 4 + 1/2 + 2 × 1/4 = 9 in wide and
    60 − 2 + 4 × 1/2 = 60 in long. Common practice, no source.
    """
    room = width - 2 * short - (sections - 1) * gap
    if room <= 0:
        way_out = "Take a smaller gap, fewer sections, or let the sleeve go nearer to the sides."
        raise Cannot("sections", "they leave no room for a sleeve.", way_out)
    hemmed = room / sections
    strip = setting.cut_up(2 * depth + ease + 2 * setting.seam)
    each = setting.cut_up(hemmed + 4 * hem)
    places = [short + n * (hemmed + gap) for n in range(sections)]
    return Answer(
        found={"strip_width": strip, "section_length": each, "finished_length": hemmed},
        runs=[Run("hanging sleeve", strip, (each,) * sections, join="straight", fabric=fabric)],
        working=[
            line("Width: 2 × {} + {} ease + 2 × {} seam makes {}.",
                 finished(depth), length(ease), length(setting.seam), cut(strip)),
            line("Room: {} − 2 × {} − {} gaps of {} leaves {}, {} for each section.", finished(width),
                 length(short), sections - 1, length(gap), finished(room), finished(hemmed)),
            line("A hem of {}, turned twice at both ends, takes 4 times that: {} to cut.", length(hem), cut(each)),
        ],
        cautions=["Hang no quilt over a bed or a cot: a rod that falls can hurt."],
        picture=[
            Rect(0, 0, width, 3 * depth, label="back of the quilt"),
            *(Rect(x, depth / 2, hemmed, depth, fabric or "sleeve") for x in places),
        ],
    )  # fmt: skip


@hookimpl
def boltend_calculators() -> list[Calculator]:
    """Bring the calculator."""
    return [hanging_sleeve]
