"""Harbour Steps worked by hand, step by step, against what the workbook finds; and one change going through.

Only whole numbers and fractions stand here, none taken from Boltend's output.
"""

from collections.abc import Iterator, Mapping
from fractions import Fraction as Fr

import pytest

from boltend.core.flow import Workbook
from boltend.core.host import Host
from boltend.core.pool import Pool
from boltend.core.project.edits import set_given
from boltend.core.project.model import Project
from boltend.core.project.reading import read_bytes
from boltend.core.values import Price
from boltend_shared.examples import path

TABS = (
    "Squares in hand", "Blocks in hand", "Steps", "The top, measured", "Borders", "Binding", "Backing",
    "Batting",
)  # fmt: skip
SEAMS = 2 * Fr(1, 4)  # one on each side


@pytest.fixture(scope="module")
def host() -> Iterator[Host]:
    with Host.load() as loaded:
        yield loaded


@pytest.fixture
def project() -> Project:
    reading = read_bytes(path("harbour-steps").read_bytes(), "harbour-steps.toml")
    assert reading.problems == ()
    return reading.project


def founds(host: Host, project: Project) -> dict[str, Mapping[str, object]]:
    book = Workbook(host, project)
    assert [book.result(name).state for name in TABS] == ["worked out"] * len(TABS)
    return {name: book.result(name).found for name in TABS}


@pytest.fixture
def found(host: Host, project: Project) -> dict[str, Mapping[str, object]]:
    return founds(host, project)


def test_the_chain_has_these_tabs_and_no_more(project: Project) -> None:
    assert tuple(tab.name for tab in project.tabs) == TABS


def test_squares_in_hand(found: dict[str, Mapping[str, object]]) -> None:
    # A 10 in square is 2 × 2 of 5 in, all of it: one block a square, of four patches; 32 squares in layers
    # of eight are four stacks.
    assert (10 // 5) ** 2 == 4
    got = found["Squares in hand"]
    assert (got["sets_each"], got["blocks"], got["used"], got["stacks"]) == (1, 32, 100, 4)
    rows = got["cuts_out"]
    assert isinstance(rows, tuple)
    assert [(row["in_a_set"], row["in_all"]) for row in rows] == [(4, 32 * 4)]
    # Four patches of 5 in, less a seam on each side, make the block that the next tab takes: 9 in.
    assert 2 * (5 - SEAMS) == 9


def test_blocks_in_hand(found: dict[str, Mapping[str, object]]) -> None:
    # 32 blocks of 9 in, 1 1/2 in between, taller than wide. 5 × 6 takes 30:
    # 5 · 9 + 4 · 1 1/2 = 51 wide, 6 · 9 + 5 · 1 1/2 = 61 1/2 high, less than 5/4 of 51 (63 3/4).
    # 4 × 8 takes all 32 but is 40 1/2 × 82 1/2, more than twice as long as wide; 6 across would need 42.
    width, height = 5 * 9 + 4 * Fr(3, 2), 6 * 9 + 5 * Fr(3, 2)
    assert (width, height) == (Fr(51), Fr(123, 2))
    mine = {"across": 5, "down": 6, "width": width, "height": height, "spare": 32 - 5 * 6}
    mine |= {"block_width": Fr(9), "block_height": Fr(9)}  # as given, for the setting
    mine |= {"top_width": width, "top_height": height}  # no border is allowed for
    rows = found["Blocks in hand"]["choices"]
    assert isinstance(rows, tuple)
    assert {**found["Blocks in hand"], "choices": None} == {**mine, "choices": None}
    # All that are taller than wide and that nothing beats both ways, down = 32 // across: 1 × 32, 2 × 16,
    # 3 × 10, 4 × 8, 5 × 6. After the near square the rest by how near to square, all over twice as long.
    assert [(row["across"], row["down"]) for row in rows] == [(5, 6), (4, 8), (3, 10), (2, 16), (1, 32)]


def test_steps(found: dict[str, Mapping[str, object]]) -> None:
    # Between the blocks only: 4 upright lines of sash by 6 rows, 5 level lines by 5 columns, 4 × 5 crossings.
    # Seams, raw: a row of 5 blocks and 4 sashes has 8 joins of 9 1/2; a sash row 8 joins of 2; 6 + 5 rows
    # have 10 seams between them of 51 1/2. Finished: 8 upright lines of 61 1/2 and 10 level ones of 51.
    raw = 6 * 8 * (9 + SEAMS) + 5 * 8 * (Fr(3, 2) + SEAMS) + 10 * (51 + SEAMS)
    assert raw == 456 + 80 + 515 == 1051
    assert found["Steps"] == {
        "width": 51, "height": Fr(123, 2), "blocks": 30, "sashes_down": 4 * 6, "sashes_across": 5 * 5,
        "long_sashes": 0, "long_sash_length": None, "joins": 0, "cornerstone_count": 4 * 5,
        "seam_length": raw, "ditch_length": 8 * Fr(123, 2) + 10 * 51,
        "raw_width": 51 + SEAMS, "raw_height": Fr(123, 2) + SEAMS,
    }  # fmt: skip


def test_the_top_measured(found: dict[str, Mapping[str, object]]) -> None:
    # 51 finished is 51 1/2 from raw edge to raw edge, and less the seams 51 again; nothing to spread yet.
    assert found["The top, measured"] == {
        "width": 51, "height": Fr(123, 2), "spread_width": 0, "spread_height": 0
    }  # fmt: skip


def strips_one_by_one(wanted: Fr, usable: int, join: Fr) -> int:
    """Add strips until they reach; each join takes some."""
    strips, reach = 1, Fr(usable)
    while reach < wanted:
        strips, reach = strips + 1, reach + usable - join
    return strips


def test_borders(found: dict[str, Mapping[str, object]]) -> None:
    # Quay, 1 1/2 in, sides first: sides as the top is high, cut; ends as it is wide, and twice the border.
    quay_sides, quay_ends, quay_strip = Fr(123, 2) + SEAMS, 51 + SEAMS + 2 * Fr(3, 2), Fr(3, 2) + SEAMS
    assert (quay_sides, quay_ends, quay_strip) == (Fr(62), Fr(109, 2), Fr(2))
    width, height = 51 + 2 * Fr(3, 2), Fr(123, 2) + 2 * Fr(3, 2)  # 54 × 64 1/2
    # One run of 2 · 62 + 2 · 54 1/2 = 233 in; five strips of 42 less four joins of 2 are 202, six are 242.
    quay_strips = strips_one_by_one(2 * quay_sides + 2 * quay_ends, 42, quay_strip)
    assert quay_strips == 6
    # Water, 5 in, round that, on cloth of 43 in: 65 and 64 1/2, together 259; six are 230 1/2, seven 268.
    water_sides, water_ends, water_strip = height + SEAMS, width + SEAMS + 2 * 5, 5 + SEAMS
    assert (water_sides, water_ends, water_strip) == (Fr(65), Fr(129, 2), Fr(11, 2))
    water_strips = strips_one_by_one(2 * water_sides + 2 * water_ends, 43, water_strip)
    assert water_strips == 7
    assert (width + 10, height + 10) == (Fr(64), Fr(149, 2))
    eighth = Fr(36, 8)  # the shop cuts eighths of a yard: 6 · 2 = 12 in is 3 of them, 7 · 5 1/2 = 38 1/2 is 9
    assert 2 * eighth < 6 * quay_strip <= 3 * eighth
    assert 8 * eighth < 7 * water_strip <= 9 * eighth
    got = found["Borders"]
    assert (got["width"], got["height"], got["strips"]) == (64, Fr(149, 2), 6 + 7)
    # Two lengths and two fabrics: no one value for both.
    assert (got["sides_cut"], got["ends_cut"], got["length_to_buy"]) == (None, None, None)
    rows = got["each"]
    assert isinstance(rows, tuple)
    names = ("name", "sides_cut", "ends_cut", "strip_width", "strips", "length_to_buy", "width", "height")
    assert [tuple(row[name] for name in names) for row in rows] == [
        ("Quay", quay_sides, quay_ends, quay_strip, 6, 3 * eighth, 54, Fr(129, 2)),
        ("Water", water_sides, water_ends, water_strip, 7, 9 * eighth, 64, Fr(149, 2)),
    ]


def test_binding(found: dict[str, Mapping[str, object]]) -> None:
    # From the raw edge: 64 1/2 × 75, round it 279, and a tail of 10.
    raw_width, raw_height = 64 + SEAMS, Fr(149, 2) + SEAMS
    length = 2 * raw_width + 2 * raw_height + 10
    assert length == 289
    # Seven strips of 42 less six joins of 2 1/2 are 279, eight less seven are 318 1/2.
    # 8 · 2 1/2 = 20 in, which is more than 1/2 yd and less than 5/8.
    strips = strips_one_by_one(length, 42, Fr(5, 2))
    assert strips == 8
    assert 4 * Fr(36, 8) < strips * Fr(5, 2) <= 5 * Fr(36, 8)
    got = dict(found["Binding"])
    assert (got["length"], got["strips"], got["length_to_buy"]) == (length, strips, 5 * Fr(36, 8))
    # Folded double: 2 1/2 = 6 widths and twice the 1/8 in of the quilt.
    assert got["finished_width"] == (Fr(5, 2) - 2 * Fr(1, 8)) / 6 == Fr(3, 8)
    assert (got["bound_width"], got["bound_height"], got["bias_square"]) == (raw_width, raw_height, None)


def test_backing(found: dict[str, Mapping[str, object]]) -> None:
    # Raw 64 1/2 × 75, and 4 in on each side: 72 1/2 × 83. Two widths of 42 less their seam are 83 1/2 and
    # more than either: two lengths of 83 (seams down) or of 72 1/2 (across), which is less.
    width, height = 64 + SEAMS + 8, Fr(149, 2) + SEAMS + 8
    assert (width, height) == (Fr(145, 2), 83)
    assert min(width, height) > 42
    assert max(width, height) <= 2 * 42 - SEAMS
    assert 2 * width < 2 * height
    got = found["Backing"]
    assert (got["panels"], got["seams_run"], got["panel_length"]) == (2, "across", width)
    # 145 in is a hair over 4 yd (144): 4 1/8 yd.
    assert got["length_to_buy"] == Fr(33, 8) * 36
    assert 4 * 36 < 2 * width <= Fr(33, 8) * 36


def test_batting(found: dict[str, Mapping[str, object]]) -> None:
    # 72 1/2 × 83, up to the inch 73 × 83; the shop's pack of 81 × 96 covers it.
    got = found["Batting"]
    assert (got["needed_width"], got["needed_height"]) == (73, 83)
    assert got["package"] == "shop's full pack"


def test_what_to_buy(host: Host, project: Project) -> None:
    lists = Pool().lists(Workbook(host, project))
    bought = {each.cloth.name: each for each in lists.fabrics}
    # 32 squares are cut into; 34 are in hand.
    assert (bought["Swap squares"].buy.packs, bought["Swap squares"].buy.have_used) == (0, 32)
    # Water: 7 strips of 5 1/2 in and 1/2 in to square the end are 39 in, 9 eighths of a yard: $14.85.
    assert bought["Deep water"].buy.length == 9 * Fr(36, 8)
    assert bought["Deep water"].buy.cost == Price(Fr(1320, 100) * 9 / 8, "USD")
    # Fog: 145 in and 1/2 in, 4 1/8 yd at 9.60: $39.60. The leaflet's 4 yd is short by 1 1/2 in.
    fog = bought["Fog"]
    assert (fog.buy.length, fog.buy.cost) == (Fr(33, 8) * 36, Price(Fr(3960, 100), "USD"))
    assert fog.printed is not None
    assert (fog.printed.verdict, fog.printed.by) == ("short", Fr(3, 2))
    # Slate: 49 sashes and 8 strips of binding. Together it is at most what they would be apart (12 strips of
    # sash: 24 1/2 in; binding 20 1/2 in; 6 and 5 eighths), and no less than their area.
    area = 49 * 2 * Fr(19, 2) + (289 + 7 * Fr(5, 2)) * Fr(5, 2)
    assert area / 42 <= bought["Slate"].plan.length_used
    assert bought["Slate"].buy.length <= (6 + 5) * Fr(36, 8)
    costs = [each.buy.cost.amount for each in lists.fabrics if each.buy.length]
    assert lists.total == Price(sum(costs, Fr(0)) + Fr(3150, 100), "USD")


def with_blocks(project: Project, blocks: int) -> Project:
    """As many squares in hand, each of which makes a block."""
    return set_given(project, project.tab("Squares in hand").key, "precuts", blocks)


def test_changing_the_first_number_changes_every_later_tab(host: Host, project: Project) -> None:
    book = Workbook(host, project)
    before = {name: book.result(name).found for name in TABS}
    reached = book.update(with_blocks(project, 20))
    assert reached >= {project.tab(name).key for name in TABS}
    after = {name: book.result(name).found for name in TABS}
    # 20 blocks make 4 × 5: 4 · 9 + 3 · 1 1/2 = 40 1/2 by 5 · 9 + 4 · 1 1/2 = 51; borders add 13 in each way.
    assert (after["Blocks in hand"]["across"], after["Blocks in hand"]["down"]) == (4, 5)
    for name in ("Steps", "The top, measured"):
        assert (after[name]["width"], after[name]["height"]) == (Fr(81, 2), 51)
    width, height = Fr(81, 2) + 13, 51 + 13
    assert (after["Borders"]["width"], after["Borders"]["height"]) == (width, height)
    assert after["Binding"]["length"] == 2 * (width + SEAMS) + 2 * (height + SEAMS) + 10
    assert after["Backing"]["backing_width"] == width + SEAMS + 8
    assert (after["Batting"]["needed_width"], after["Batting"]["needed_height"]) == (62, 73)  # of 72 1/2
    tells = {"Squares in hand": "blocks", "Binding": "length", "Backing": "length_to_buy"}
    for name in TABS:
        key = "needed_width" if name == "Batting" else tells.get(name, "width")
        assert before[name][key] != after[name][key]
    # And in step with a workbook that starts from there.
    assert after == founds(host, with_blocks(project, 20))


def test_a_change_that_makes_the_same_grid_goes_no_further(host: Host, project: Project) -> None:
    book = Workbook(host, project)
    reached = book.update(with_blocks(project, 31))  # 5 × 6 too, with one left over
    assert book.result("Blocks in hand").found["spare"] == 1
    assert project.tab("Borders").key not in reached
    assert project.tab("Binding").key not in reached


def test_the_metric_example_is_worked_out_throughout(host: Host) -> None:
    reading = read_bytes(path("orchard-cloth").read_bytes(), "orchard-cloth.toml")
    assert reading.problems == ()
    book = Workbook(host, reading.project)
    assert {result.state for result in book.results.values()} == {"worked out"}
    cm = 1 / Fr(254, 100)
    # 27 panels of 22 × 14 cm, 3 cm between them, three may be left: 5 × 5 is 122 × 82 cm. With the sash all
    # round 128 × 88; the mitred border of 9 cm makes 146 × 106; bound from the raw edge, 0.75 cm further out.
    got = [book.result(name).found for name in ("Panels", "Cloth", "Edge", "Plum edge")]
    assert (got[0]["across"], got[0]["down"], got[0]["spare"]) == (5, 5, 2)
    sizes = [(each["width"], each["height"]) for each in got[:3]]
    assert sizes == [(122 * cm, 82 * cm), (128 * cm, 88 * cm), (146 * cm, 106 * cm)]
    # Six long sashes of 128 + 1.5 cm, which cloth of 140 cm holds without a join.
    assert (got[1]["long_sashes"], got[1]["long_sash_length"], got[1]["joins"]) == (6, Fr(1295, 10) * cm, 0)
    assert got[3]["length"] == (2 * Fr(1475, 10) + 2 * Fr(1075, 10) + 25) * cm


@pytest.mark.parametrize(
    ("name", "typed_in", "taken"),
    [
        ("harbour-steps", "Blocks in hand", {"Steps": "block_width"}),
        (
            "lantern-row",
            "Rows to choose from",
            {"Street": "block_width", "Glass": "finished_size", "Flames": "finished_size"},
        ),
        ("tidewater", "How many", {"On point": "block", "Pools": "finished_size"}),
        ("orchard-cloth", "Panels", {"Cloth": "block_width"}),
    ],
)
def test_one_change_of_the_block_goes_everywhere(
    host: Host, name: str, typed_in: str, taken: dict[str, str]
) -> None:
    project = read_bytes(path(name).read_bytes(), name).project
    text, inches = ("20 cm", Fr(2000, 254)) if name == "orchard-cloth" else ("8 in", Fr(8))
    changed = set_given(project, project.tab(typed_in).key, "block_width", text)
    book = Workbook(host, changed)
    for tab, given in taken.items():
        assert book.result(tab).args[given] == inches
