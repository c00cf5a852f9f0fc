"""The working and the picture of sets cut out of one precut."""

from collections.abc import Sequence
from fractions import Fraction

from boltend.plugin import CuttingPlan, Line, Part, Rect, Sheetplan, Yield, cut, length, line
from boltend_precut_yield.precut_sheet import PrecutSheet
from boltend_precut_yield.sets import Sets, area_of
from boltend_precut_yield.yield_words import MOST_PIECES, cut_lines
from boltend_precut_yield.yield_words import picture as yield_picture


def sets_lines(parts: Sequence[Part], sheet: PrecutSheet, got: Sets) -> list[Line]:
    """What a set is, how many come out of one precut, how they are cut."""
    lines = [line("A set has {} {} of {} × {}.", p.count, p.name, cut(p.across), cut(p.along)) for p in parts]
    if got.each:
        sets = "1 whole set comes" if got.each == 1 else f"{got.each} whole sets come"
        lines.append(line("{} out of one precut; area promises {}.", sets, got.by_area))
    else:
        lines.append(line("One set comes out of {} precuts.", got.precuts))
    if isinstance(got.layout, Yield):
        return lines + cut_lines(sheet.usable, got.layout, (parts[0].across, parts[0].along))
    return lines + plan_lines(got.layout)


def used(parts: Sequence[Part], sheet: PrecutSheet, got: Sets) -> Fraction:
    """Percent of the precuts' area that whole sets take."""
    return 100 * area_of(parts) * max(got.each, 1) / (sheet.area * got.precuts)


def plan_lines(plan: CuttingPlan) -> list[Line]:
    """The strips and what is cut from each, in the order of cutting; then what stays whole."""
    lines = []
    for each in plan.sheetplans:
        for strip in each.strips:
            said, values = "{} × strip of {}, {}: ", [strip.times, cut(strip.width), f"cut {each.direction}"]
            pieces = []
            for stack in strip.stacks:
                pieces.append("{} {} of {} × {}")
                values += [stack.pieces, stack.part, cut(stack.across), cut(stack.along)]
            lines.append(line(said + ", ".join(pieces) + ".", *values))
    return lines + [
        line("Left over: {} of {} × {}.", rest.count, length(rest.across), length(rest.along))
        for rest in plan.leftovers
    ]


def sets_picture(sheet: PrecutSheet, got: Sets) -> list[Rect]:
    """The first precut, and the pieces in it."""
    if isinstance(got.layout, Yield):
        return yield_picture(sheet.usable, got.layout)
    shapes = [Rect(Fraction(0), Fraction(0), *sheet.usable, "left over")]
    if sum(got.layout.cut_counts.values()) > MOST_PIECES:
        return shapes + _strips(got.layout.sheetplans[0])
    for _, number, placed in got.layout.placements():
        if number == 1:
            at = placed.across_from, placed.along_from
            shapes.append(Rect(*at, placed.across, placed.along, placed.part, placed.part))
    return shapes


def _strips(each: Sheetplan) -> list[Rect]:
    """The strips of one precut, each kind drawn as one: its pieces are too many to be told apart."""
    shapes, at = [], Fraction(0)
    run = each.across if each.direction == "across" else each.along or Fraction(0)
    for strip in each.strips:
        wide = strip.width * strip.times
        part = strip.stacks[0].part
        if each.direction == "across":
            shapes.append(Rect(Fraction(0), at, run, wide, part))
        else:
            shapes.append(Rect(at, Fraction(0), wide, run, part))
        at += wide
    return shapes
