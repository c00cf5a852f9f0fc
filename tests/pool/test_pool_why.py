"""Why so much is bought: every line of the working against the same sum by hand."""

from fractions import Fraction

from boltend.core.contract import Goods
from boltend.core.pool import Lists
from boltend.core.report.list_words import buy_sheet
from boltend.core.values import Notation, Price

from .kit import Made, lists, piece, run

HOW = Notation()
BANDS = Made("Bands", [piece("band", "42", "2", 5)])
PANEL = Made("Panel", [piece("panel", "42", "10")])


def why(found: Lists, row: int = 0) -> list[tuple[str, str]]:
    return [(each.tab, each.words) for each in buy_sheet(found, HOW).rows[row].why]


def test_two_tabs_a_length_in_hand_the_squaring_the_step_and_the_price() -> None:
    slate = {"name": "Slate", "have": "1/4 yd", "price": "8"}
    # In hand 9 in, 8 1/2 in once squared: four bands of 2 in, so 8 1/2 in are used. One band and the panel,
    # 12 in, are bought: with 1/2 in to square it 12 1/2 in, so 3/8 yd (13 1/2 in) at $8 a yard. Alone either
    # takes 10 in and 1/2 in: 3/8 yd.
    assert why(lists(BANDS, PANEL, fabrics=[slate])) == [
        ("Bands", "“Bands” asks for (alone it would take 3/8 yd):"),
        ("Bands", "5 × band: 42 in × 2 in"),
        ("Panel", "“Panel” asks for (alone it would take 3/8 yd):"),
        ("Panel", "1 × panel: 42 in × 10 in"),
        ("", "In hand 1/4 yd: 8 1/2 in of it are used, 1/2 in of that to square its end"),
        ("", "Cut together off the bolt: 1 strip × 10 in + 1 strip × 2 in = 12 in, along the selvage"),
        ("", "With the squaring of the end: 12 in + 1/2 in = 12 1/2 in"),
        ("", "Up to the next 1/8 yd of the shop: 3/8 yd (13 1/2 in)"),
        ("", "Each tab on its own, and nothing in hand: 3/8 yd + 3/8 yd = 3/4 yd"),
        ("", "3/8 yd × $8.00 per yard = $3.00"),
    ]


def test_strips_that_are_joined_and_a_cloth_that_shrinks() -> None:
    # 60 in of a strip 2 in wide by straight joins of 1/2 in: 42 in and 18 1/2 in, one below the other.
    edge = Made("Edge", runs=[run("edge", "2", "60", join="straight")])
    said = [words for _, words in why(lists(edge, fabrics=[{"name": "Slate", "prewash_along": "10 %"}]))]
    assert said[1:4] == [
        "1 × strip of edge: 42 in × 2 in",
        "1 × strip of edge: 18 1/2 in × 2 in",
        "“Edge”: edge is sewn from 2 strips with 1 straight join.",
    ]
    # 4 in and 1/2 in are 4 1/2 in; nine tenths of 5 in are that.
    assert "Before the wash, which takes 10 %: 5 in" in said
    assert said[-1] == "Up to the next 1/8 yd of the shop: 1/4 yd (9 in)"


def test_precuts_are_counted_and_bought_by_the_pack() -> None:
    squares = {"name": "Mixed", "form": "small square", "have": 3, "price": "30"}
    patch = Made("Patch", [piece("patch", "10", "10", 45, fabric="Mixed")], says={"squaring": Fraction(0)})
    # 45 squares, 3 in hand, 42 in a pack.
    assert [words for _, words in why(lists(patch, fabrics=[squares]))] == [
        "“Patch” asks for (alone it would take 45 pieces):",
        "45 × patch: 10 in × 10 in",
        "Cut into, all tabs together: 45 pieces",
        "In hand 3, of which 3 are used: 42 pieces to buy",
        "42 in a pack, up to whole packs: 1 pack",
        "1 pack × $30.00 = $30.00",
    ]


def test_goods_are_added_up_before_they_are_rounded() -> None:
    def grey(part: str) -> Goods:
        return Goods("grey", 1, "spool", Price(Fraction(7), "USD"), part=Fraction(part))

    found = lists(Made("A", goods=[grey("2/5")]), Made("B", goods=[grey("7/10")]))
    assert why(found) == [
        ("A", "“A” asks for 0.40 of a spool"),
        ("B", "“B” asks for 0.70 of a spool"),
        ("", "Together 1.10 spools, up to whole ones: 2 spools"),
        ("", "2 spools × $7.00 = $14.00"),
    ]


def test_what_cannot_be_planned_has_no_working_but_says_so_in_its_notes() -> None:
    found = lists(BANDS, fabrics=[{"name": "Slate", "form": "no such precut"}])
    (row,) = buy_sheet(found, HOW).rows
    assert row.why == ()
    assert any("no precut" in note for note in row.notes)


def test_not_whole_stands_beside_the_total() -> None:
    slate = {"name": "Slate", "price": "8"}
    assert buy_sheet(lists(BANDS, fabrics=[slate]), HOW).total_row.amount == ""
    found = buy_sheet(lists(BANDS, Made("Later", why="it waits."), fabrics=[slate]), HOW)
    assert found.total_row.amount == "not whole"
    assert found.total_row.cost == "$3.00", "the bands alone: 10 1/2 in, 3/8 yd"
