"""From a plan to a proved one: shorter where it can be, and how near to the least it is for certain."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from math import gcd

from boltend.core.cutting.check import check_plan
from boltend.core.cutting.convert import Converted, convert, cuts_of
from boltend.core.cutting.engine import Used
from boltend.core.cutting.planner import finish, solved
from boltend.core.cutting.plans import Plan
from boltend.core.cutting.shapes import Job, Sheet
from boltend.core.cutting.sheets import Cut
from boltend.core.cutting.steps import Aim, Steps
from boltend.core.cutting.task import Level, Size, merged, options, total

USUAL = 600_000_000
"""Units of work for the proof of one sort of strips: one to three seconds here (Python 3.11); most
proofs take a tenth of one. The same on screen and in print, so that both show the same plan."""


@dataclass(frozen=True, slots=True)
class Proof:
    """How hard to look for a proof, and what for; without `aim` for the length to the last unit."""

    units: int = USUAL
    aim: Aim | None = None


def prove(found: Plan, job: Job | None = None, proof: Proof | None = None) -> Plan:
    """Improve a plan until it is proved least for what `proof` aims at, or its work is spent.

    Strips off a bolt after pieces of bolt in hand, or sheets of any sizes; a plan that mixes sheets with a
    bolt, or has rounded sizes, is given back as it is. Where sheets do not suffice for all pieces, a way to
    cut more of them is looked for. The answer's `least` is a
    lower bound for plans of its sort of strips; integer programs (where the linear bound does not suffice)
    are HiGHS's, to its tolerance, all else is exact. The same input gives the same plan. `job` hears of every
    better plan and may stop the search.
    """
    proof = proof or Proof()
    if found.proved or not found.exact or not found.kinds:
        return found
    if found.goal == "length":
        if found.lacking or any(isinstance(item, Sheet) and item.count != 0 for item in found.stock.sheets):
            return found
        return _prove_bolt(found, job, proof)
    return _prove_sheets(found, job, proof)


def _prove_bolt(found: Plan, job: Job | None, proof: Proof) -> Plan:
    # Late: the proving solver needs numpy and highspy, 0.1 to 0.4 s that only a proof has to pay.
    from boltend.core.cutting.proving.bolt import BoltTask, Found, prove_bolt
    from boltend.core.cutting.proving.work import Work

    made = convert(found.demand, found.stock)
    unit, aim = made.grid.unit, proof.aim
    in_hand = [(place, cloth.across, cloth.along) for place, cloth in enumerate(made.cloths) if cloth.copies]
    sizes = _only_fitting(made, [(run, depth) for _, run, depth in in_hand])

    def shorter(length: int) -> int:
        return length - 1 if aim is None else int(aim.shorter(length * unit) // unit)

    def whole(result: object) -> Plan:
        assert isinstance(result, Found)  # what `prove_bolt` tells
        used = [
            Used(place, Cut("across", tuple(merged(levels)), 1))
            for place, levels in sorted(result.cuts.items(), key=lambda each: (each[0] is None, each[0] or 0))
            if levels
        ]
        plan = finish(found.demand, found.stock, made, used, found.stacks)
        widest = None if result.cap is None else made.grid.inches(result.cap)
        return _with_least(plan, made.grid.inches(result.bound), widest, aim, result.stopped)

    def task(stacks: bool) -> BoltTask:
        return BoltTask(sizes, made.run or 1, in_hand, stacks, shorter)

    work, bound, cuts = Work(proof.units, job), int(-(-found.bound // unit)), _by_cloth(cuts_of(found, made))
    if shorter(int(found.answer / unit)) < bound:
        return _with_least(found, found.bound, None, aim, False)
    if found.stacks:
        # A plan of simple strips is where the search for one with stacks begins, so that stacks are never
        # longer: it gets as much work as if it were asked for alone.
        plain = _by_cloth(solved(made, False, 0))
        simple = prove_bolt(task(False), plain, bound, Work(proof.units, job))
        cuts = min(cuts, simple.cuts, key=lambda each: total(each.get(None, [])))
    work.tell = _teller(job, whole)
    return whole(prove_bolt(task(found.stacks), cuts, bound, work))


def _prove_sheets(found: Plan, job: Job | None, proof: Proof) -> Plan:
    from boltend.core.cutting.proving.sheets import FoundSheets, SheetType, prove_sheets  # late, as above
    from boltend.core.cutting.proving.work import Work

    made = convert(found.demand, found.stock)
    sizes = _only_fitting(made, [(cloth.across, cloth.along) for cloth in made.cloths if cloth.copies != 0])
    whole_units = gcd(*(cloth.across * cloth.along for cloth in made.cloths)) or 1
    types = [
        SheetType(
            place,
            cloth.across,
            cloth.along,
            cloth.copies,
            1 if found.goal == "sheets" else cloth.across * cloth.along // whole_units,
            cloth.directions,
        )
        for place, cloth in enumerate(made.cloths)
        if cloth.copies != 0
    ]
    worth = Fraction(1) if found.goal == "sheets" else whole_units * made.grid.unit**2

    def whole(result: object) -> Plan:
        assert isinstance(result, FoundSheets)  # what `prove_sheets` tells
        used = [Used(place, cut) for place, cut in result.cuts]
        plan = finish(found.demand, found.stock, made, used, found.stacks)
        return _with_least(plan, result.bound * worth, None, None, result.stopped)

    start = [(place, cut) for place, cut in cuts_of(found, made) if place is not None]
    work = Work(proof.units, job, _teller(job, whole))
    bound = int(-(-found.bound // worth))
    return whole(prove_sheets(sizes, types, found.stacks, start, bound, work))


def _with_least(plan: Plan, least: Fraction, widest: Fraction | None, aim: Aim | None, stopped: bool) -> Plan:
    if plan.lacking:
        return replace(plan, stopped=stopped)
    least = max(plan.bound, min(plan.answer, least))
    steps = aim if isinstance(aim, Steps) else None
    plan = replace(plan, least=least, widest=widest, steps=steps, stopped=stopped and plan.answer != least)
    check_plan(plan, plan.demand, plan.stock)
    return plan


def _teller(job: Job | None, whole: Callable[[object], Plan]) -> Callable[[object], None]:
    def tell(found: object) -> None:
        if job is not None:
            plan = whole(found)
            job.better(plan, plan.least)

    return tell


def _only_fitting(made: Converted, cloths: Sequence[tuple[int, int]]) -> list[Size]:
    """Give the sizes, with nothing wanted of those that fit no cloth."""
    found = []
    for size in made.sizes:
        fits = made.run is not None and bool(options([size], made.run, None, "across"))
        fits = fits or any(options([size], across, along, "across") for across, along in cloths)
        found.append(size if fits else size._replace(wanted=0))
    return found


def _by_cloth(cuts: Iterable[tuple[int | None, Cut]]) -> dict[int | None, list[Level]]:
    found: dict[int | None, list[Level]] = {}
    for place, cut in cuts:
        found.setdefault(place, []).extend(cut.levels)
    return found
