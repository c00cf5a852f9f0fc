"""Looks at a plan from outside: only its rectangles, nothing of how it was made."""

from collections import Counter
from collections.abc import Sequence
from fractions import Fraction

from boltend.core.cutting import Part, Plan

Box = tuple[Fraction, Fraction, Fraction, Fraction]
"""Left, near, right, far."""


def boxes(plan: Plan) -> dict[tuple[str, int], list[Box]]:
    found: dict[tuple[str, int], list[Box]] = {}
    for name, number, p in plan.placements():
        box = (p.across_from, p.along_from, p.across_from + p.across, p.along_from + p.along)
        found.setdefault((name, number), []).append(box)
    return found


def overlap(first: Box, second: Box) -> bool:
    return first[0] < second[2] and second[0] < first[2] and first[1] < second[3] and second[1] < first[3]


def any_overlap(found: Sequence[Box]) -> bool:
    return any(overlap(a, b) for n, a in enumerate(found) for b in found[:n])


def cuttable(found: Sequence[Box]) -> bool:
    """Cut apart by straight cuts from edge to edge, recursively: split wherever no box stands across."""
    if len(found) <= 1:
        return True
    for low, high in ((0, 2), (1, 3)):
        ordered = sorted(found, key=lambda box: box[low])
        reach = ordered[0][high]
        for place in range(1, len(ordered)):
            if ordered[place][low] >= reach:
                return cuttable(ordered[:place]) and cuttable(ordered[place:])
            reach = max(reach, ordered[place][high])
    return False


def counted(plan: Plan) -> Counter[str]:
    return Counter(p.part for _, _, p in plan.placements())


def check(plan: Plan, demand: Sequence[Part]) -> None:
    """Assert everything that a plan promises about its rectangles."""
    sizes = {part.name: part for part in demand}
    limits = {each.name: (each.across, each.along) for each in plan.sheetplans}
    for (name, _), found in boxes(plan).items():
        across, along = limits[name]
        length = plan.length_used if along is None else along
        assert all(box[0] >= 0 and box[1] >= 0 and box[2] <= across and box[3] <= length for box in found)
        assert not any_overlap(found)
        assert cuttable(found)
    for _, _, p in plan.placements():
        if p.part != "spare":
            part = sizes[p.part]
            straight = (p.across, p.along) == (part.across, part.along)
            turned = (p.across, p.along) == (part.along, part.across)
            assert straight or (part.may_turn and turned)
    lacking: Counter[str] = Counter()
    for each in plan.unplaced:
        lacking[each.part.name] += each.count
    wanted = Counter({part.name: part.count for part in demand if part.count})
    got = counted(plan)
    del got["spare"]
    assert got + lacking == wanted
    assert plan.bound <= plan.answer or plan.unplaced
    assert not plan.proved or (plan.bound == plan.answer)
