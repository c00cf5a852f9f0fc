"""What every plan of the pool must be, whatever the tabs ask for."""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from boltend.core.contract import Piece, Run
from boltend.core.cutting import at_least
from boltend.core.pool import FabricPlan
from boltend.core.values import up

from .kit import Made, check, lists, only, piece, plan_of, run, usual

CM = Fraction(50, 127)
halves = st.integers(2, 2 * 24).map(lambda n: Fraction(n, 2))


@st.composite
def pieces(draw: st.DrawFn) -> Piece:
    turn, grain = draw(st.booleans()), draw(st.sampled_from(["any", "any", "crosswise", "lengthwise"]))
    return Piece("piece", draw(halves), draw(halves), draw(st.integers(1, 9)), "Slate", grain, may_turn=turn)


@st.composite
def runs(draw: st.DrawFn) -> Run:
    wants = tuple(draw(st.lists(st.integers(10, 150).map(Fraction), min_size=1, max_size=2)))
    join, grain = (
        draw(st.sampled_from(["diagonal", "straight"])),
        draw(st.sampled_from(["crosswise"] * 2 + ["lengthwise"])),
    )
    return Run("run", draw(st.integers(2, 12).map(lambda n: Fraction(n, 2))), wants, join, grain, "Slate")


@st.composite
def tabs(draw: st.DrawFn) -> list[Made]:
    found = []
    for number in range(draw(st.integers(1, 3))):
        some = draw(st.lists(pieces(), max_size=2))
        found.append(Made(f"tab {number}", some, draw(st.lists(runs(), min_size=not some, max_size=1))))
    return found


@st.composite
def cloths(draw: st.DrawFn) -> dict[str, Any]:
    cloth: dict[str, Any] = {"name": "Slate", "usable_width": f"{draw(st.integers(30, 44))} in"}
    if draw(st.booleans()):
        cloth["have"] = f"{draw(st.integers(1, 50))} in"
    if draw(st.booleans()):
        cloth |= {
            "prewash_along": f"{draw(st.integers(0, 8))} %",
            "prewash_across": f"{draw(st.integers(0, 8))} %",
        }
    return cloth | {
        "one_way": draw(st.booleans()),
        "squaring": draw(st.sampled_from(["0 in", "1/2 in", "1 in"])),
    }


@usual
@given(tabs(), cloths())
def test_plans_hold_what_they_promise(made: Sequence[Made], cloth: dict[str, Any]) -> None:
    fabric = only(*made, fabrics=[cloth])
    check(fabric)
    if cloth["one_way"]:
        assert not any(p.turned for _, _, p in plan_of(fabric).placements())


@usual
@given(tabs(), cloths())
def test_what_is_bought_and_in_hand_covers_what_is_cut(made: Sequence[Made], cloth: dict[str, Any]) -> None:
    fabric = only(*made, fabrics=[cloth])
    plan, squaring, kept = plan_of(fabric), fabric.cloth.squaring, fabric.cloth.kept
    from_bought = max(
        (p.along_from + p.along for n, _, p in plan.placements() if n != "in hand"), default=Fraction(0)
    )
    from_hand = max(
        (p.along_from + p.along for n, _, p in plan.placements() if n == "in hand"), default=Fraction(0)
    )
    step = fabric.cloth.settings.buying_step
    assert (fabric.buy.length / step).denominator == 1
    if from_bought:
        # Washed, then squared once, then cut; and a whole step less would not do for this plan.
        assert fabric.buy.length * kept - squaring >= from_bought
        assert (fabric.buy.length - step) * kept - squaring < plan.length_used
    else:
        assert fabric.buy.length == 0
    if from_hand:
        assert fabric.cloth.have * kept - squaring >= from_hand
        assert from_hand <= fabric.buy.have_used * kept - squaring
    assert fabric.buy.have_used <= fabric.cloth.have
    assert fabric.buy.least <= (fabric.buy.length == up(
        (plan.bound + squaring) / kept if plan.bound else Fraction(0), step))  # fmt: skip


@usual
@given(tabs(), cloths())
def test_pooled_is_never_more_than_separate(made: Sequence[Made], cloth: dict[str, Any]) -> None:
    bare = {key: value for key, value in cloth.items() if key != "have"}
    together = only(*made, fabrics=[bare])
    alone = [only(tab, fabrics=[bare]).buy.length for tab in made]
    assert together.separate == sum(alone)
    assert together.buy.length <= together.separate
    assert only(*made, fabrics=[cloth]).buy.length <= together.buy.length


@usual
@given(st.lists(pieces(), min_size=1, max_size=3), st.integers(1, 20))
def test_pooled_precuts_are_never_more_than_separate(wanted: list[Piece], have: int) -> None:
    small = [
        replace(each, across=min(each.across, Fraction(9)), along=min(each.along, Fraction(9)))
        for each in wanted
    ]
    made = [Made(f"tab {n}", [each]) for n, each in enumerate(small)]
    cloth = {"name": "Slate", "form": "small square", "have": have}
    together = only(*made, fabrics=[cloth])
    check(together)
    used = together.buy.pieces + together.buy.have_used
    assert used <= together.separate
    assert together.buy.have_used == min(have, used)
    assert 42 * (together.buy.packs - 1) < together.buy.pieces <= 42 * together.buy.packs


def metric(tab: Made) -> Made:
    """The same tab with every inch a centimetre."""
    return replace(
        tab,
        pieces=[replace(p, across=p.across * CM, along=p.along * CM) for p in tab.pieces],
        runs=[replace(r, width=r.width * CM, wants=tuple(w * CM for w in r.wants)) for r in tab.runs],
    )


@usual
@given(tabs(), st.integers(30, 44), st.booleans())
def test_the_same_at_equal_steps_in_centimetres(made: list[Made], width: int, one_way: bool) -> None:
    def found(unit: str) -> FabricPlan:
        cloth = {"name": "Slate", "usable_width": f"{width} {unit}", "one_way": one_way, "have": f"20 {unit}"}
        said = {"seam": f"1/4 {unit}", "squaring": f"1/2 {unit}", "cutting_step": f"1/8 {unit}",
                "buying_step": f"10 {unit}"}  # fmt: skip
        units = "inches" if unit == "in" else "centimetres"
        some = made if unit == "in" else [metric(tab) for tab in made]
        return only(*some, fabrics=[cloth], units=units, **said)

    inch, cm = found("in"), found("cm")
    assert cm.buy.length == inch.buy.length * CM
    assert cm.buy.needed == inch.buy.needed * CM
    scaled = [
        (name, n, p.part, p.across_from * CM, p.along_from * CM, p.across * CM, p.along * CM)
        for name, n, p in plan_of(inch).placements()
    ]
    assert scaled == [
        (name, n, p.part, p.across_from, p.along_from, p.across, p.along)
        for name, n, p in plan_of(cm).placements()
    ]


@usual
@given(tabs(), pieces())
def test_more_pieces_never_take_less_cloth(made: list[Made], more: Piece) -> None:
    """A heuristic may find a better plan for more; the fewer then take that one (see `at_least`)."""
    cloth = {"name": "Slate"}
    fewer, greater = only(*made, fabrics=[cloth]), only(*made, Made("more", [more]), fabrics=[cloth])
    beside = at_least(plan_of(fewer), plan_of(greater))
    assert beside.length_used <= plan_of(greater).length_used
    assert beside.length_used <= plan_of(fewer).length_used


@settings(usual, max_examples=15)  # each plans twice, and looks for the width at which the print would do
@given(tabs())
def test_two_copies_never_take_more_than_twice(made: list[Made]) -> None:
    one, two = (only(*made, fabrics=[{"name": "Slate", "printed": "1 yd"}], copies=n) for n in (1, 2))
    assert at_least(plan_of(one), plan_of(two)).length_used <= plan_of(two).length_used
    assert plan_of(two).length_used <= 2 * plan_of(one).length_used


def test_lengthwise_and_crosswise_pieces_lie_as_they_must() -> None:
    # 40 along would lie better across; the grain forbids it.
    for grain, turned in (("lengthwise", False), ("crosswise", False), ("any", True)):
        fabric = only(Made("A", [piece("long", "3", "40", 2, grain=grain)]), fabrics=[{"name": "Slate"}])
        assert any(p.turned for _, _, p in plan_of(fabric).placements()) == turned, grain


def test_a_piece_wider_than_the_cloth_is_told_and_the_rest_is_planned() -> None:
    made = Made("A", [piece("panel", "50", "60", 2, may_turn=False), piece("square", "5", "5", 8)])
    fabric = only(made, fabrics=[{"name": "Slate"}])
    assert not fabric.whole
    assert [(u.count, fabric.demand.uses[u.part.name].name) for u in fabric.unplaced] == [(2, "panel")]
    assert plan_of(fabric).length_used == 5
    check(fabric)


def test_a_run_that_cannot_be_sewn_is_told_and_the_rest_is_planned() -> None:
    made = Made("A", [piece("square", "5", "5", 8)], [run("wide", "43", "50")])
    fabric = only(made, fabrics=[{"name": "Slate"}])
    assert not fabric.whole
    assert "wide cannot be sewn from strips" in fabric.troubles[0]
    assert plan_of(fabric).length_used == 5


def test_a_run_in_one_piece_wider_than_the_cloth_is_told_as_any_piece() -> None:
    fabric = only(
        Made("A", runs=[run("long sash", "2", "50", "30", join="none")]), fabrics=[{"name": "Slate"}]
    )
    assert [u.part.across for u in fabric.unplaced] == [50]
    assert plan_of(fabric).length_used == 2


def test_the_rest_of_a_short_strip_serves_others() -> None:
    # 44 in at 42: one strip, and 4 1/2 in more (with its join); 14 squares lie beside it.
    made = [
        Made("Binding", runs=[run("binding", "5/2", "44")]),
        Made("A", [piece("square", "5/2", "5/2", 15)]),
    ]
    fabric = only(*made, fabrics=[{"name": "Slate"}])
    assert plan_of(fabric).length_used == 5


def test_joins_are_counted_and_named() -> None:
    from boltend.core.report.list_words import plan_notes
    from boltend.core.values import Notation

    made = Made("Borders", runs=[run("Quay", "2", "100", "30")])
    notes = plan_notes(only(made, fabrics=[{"name": "Slate"}], copies=2), Notation())
    assert notes == ("“Borders”: Quay is sewn from 8 strips with 4 diagonal joins.",)


def test_the_join_is_sewn_with_the_tabs_own_seam() -> None:
    # 83 in from two strips of 42 in needs a loss of 1 in at most: a seam of 1/2 in or less.
    def strips(seam: Fraction) -> int:
        made = Made("A", runs=[run("r", "2", "83", join="straight")], says={"seam": seam})
        return sum(p.count for p in only(made, fabrics=[{"name": "Slate"}]).demand.parts)

    assert (strips(Fraction(1, 2)), strips(Fraction(5, 8))) == (2, 3)


def test_nothing_to_cut_makes_no_lists() -> None:
    found = lists(Made("A"), fabrics=[{"name": "Slate", "price": "5"}])
    assert not found.fabrics
    assert found.total is None
