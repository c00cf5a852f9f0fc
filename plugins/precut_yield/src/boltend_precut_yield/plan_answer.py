"""The answer of a precut's plan. It brings the cutting engine along, which only the worker needs for it."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from boltend.plugin import Answer, Cannot, Job, Line, Part, Piece, ceil_div, line
from boltend_precut_yield.counts import counts
from boltend_precut_yield.plan_words import sets_lines, sets_picture, used
from boltend_precut_yield.precut_sheet import PrecutSheet
from boltend_precut_yield.sets import Sets, most_sets

if TYPE_CHECKING:
    from boltend_precut_yield.precut_plan import Wanted


def plan_answer(
    cuts: "Sequence[Wanted]",
    sheet: PrecutSheet,
    *,
    blocks_per_set: int,
    blocks_wanted: int | None,
    precuts: int | None,
    layers: int,
    fabric: str | None,
    job: Job | None,
) -> Answer:
    """How many sets of `cuts` come out of one `sheet`, and what so many precuts make; see `precut_plan`."""
    parts = _parts(cuts)
    got = most_sets(parts, sheet, job)
    if got is None:
        raise Cannot("cuts", "a piece is larger than the precut.", "Cut smaller, or take a larger precut.")
    each = max(got.each, 1) * blocks_per_set
    said = counts(each, blocks_wanted, precuts, layers, "blocks", got.precuts)
    return Answer(
        found={
            "sets_each": got.each, "blocks": said.made, "precuts_needed": said.needed,
            "used": used(parts, sheet, got), "stacks": said.stacks,
            "cuts_out": _cut_out(parts, said.made // blocks_per_set),
        },
        pieces=_pieces(fabric, parts, ceil_div(blocks_wanted or said.made, blocks_per_set)),
        working=[
            *sheet.lines(),
            *sets_lines(parts, sheet, got),
            *said.working,
            *sheet.packs(said.cuts, precuts),
        ],
        cautions=[*said.cautions, *_cautions(got), *_one_piece(parts, blocks_per_set)],
        picture=sets_picture(sheet, got),
    )  # fmt: skip


def _parts(cuts: "Sequence[Wanted]") -> list[Part]:
    if not cuts:
        raise Cannot("cuts", "no pieces are given.", "Add a row for each size that a set needs.")
    parts: list[Part] = []
    for number, each in enumerate(cuts, 1):
        name = each.name or f"piece {number}"
        if name in {part.name for part in parts}:  # the engine tells parts apart by their names
            name = f"{name} ({number})"
        parts.append(Part(name, each.width, each.height, each.count, each.may_turn))
    return parts


def _cut_out(parts: Sequence[Part], sets: int) -> list[dict[str, object]]:
    return [
        {"name": p.name, "width": p.across, "height": p.along, "in_a_set": p.count, "in_all": p.count * sets}
        for p in parts
    ]


def _pieces(fabric: str | None, parts: Sequence[Part], sets: int) -> list[Piece]:
    if fabric is None:
        return []
    return [Piece(p.name, p.across, p.along, p.count * sets, fabric, may_turn=p.may_turn) for p in parts]


def _one_piece(parts: Sequence[Part], blocks: int) -> list[Line]:
    """A block of a single piece is seldom meant: more likely nobody said how many of it a block takes."""
    if blocks > 1 or sum(part.count for part in parts) > 1:
        return []
    return [line("One piece makes a block here. If a block takes more, say how many of each size.")]


def _cautions(got: Sets) -> list[Line]:
    if got.each:
        return []
    return [
        line("A set does not come out of one precut: it takes {}, of one fabric or several.", got.precuts)
    ]
