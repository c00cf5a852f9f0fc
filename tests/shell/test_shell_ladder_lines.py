"""A ladder as lines of any width: whole, and readable without colour and in ASCII. No screen."""

from typing import Any

import boltend.shell.climbing as climbing
from boltend.core.asking.ladder import climb
from boltend.core.flow import Workbook
from boltend.core.host import Host
from boltend.core.project.edits_fabrics import add_ladder, change_ladder
from boltend.core.project.reading import read_bytes
from boltend.shell.ladder_lines import ladder_lines
from boltend.shell.ladder_table import LadderTable, leads_to
from boltend_shared.examples import path


def test_bars_and_marks_are_plain_signs_where_these_are_wanted() -> None:
    """In ASCII, and every line within its width."""
    with Host.load() as host:
        book = Workbook(host, read_bytes(path("tidewater").read_bytes(), "t.toml").project)
        climbs = climbing.Climbs()
        climbs.follow(book)
        (standing,) = climbs.standing
        rungs = list(climb(book, standing.ladder))
        climbs.take([(standing.row.key, at, rung) for at, rung in enumerate(rungs)])
        for width in (40, 60, 80, 120, 200):
            lines = ladder_lines(book, climbs.standing, width, "", plain=True)
            texts = ["".join(text for text, _ in line.parts) for line in lines]
            assert max(map(len, texts)) <= width
            assert any("####" in text for text in texts)
            assert sum(text.startswith(" *US twin") for text in texts) >= 1
            # (10 + 2 × 14) ÷ 0.96 and (20 + 2 × 14) ÷ 0.96, by hand, up to 1/16 in; the cost is its own.
            for column in ("39 5/8 in", "50 in", rungs[-1].cells["Total"].text.replace(" and more", " +")):
                assert any(column in text for text in texts), (width, column)
            assert "no bedding for a sleeping" in " ".join(" ".join(texts).split())


def standing_of(
    host: Host, values: list[str], example: str = "tidewater", **data: Any
) -> tuple[Workbook, climbing.Climbs]:
    """The bed of Tidewater, or another ladder of an example, through these values, worked out."""
    project = read_bytes(path(example).read_bytes(), "t.toml").project
    row = project.ladders[0] if project.ladders else None
    said = {**(row.data if row is not None else {}), "values": values, **data}
    project = change_ladder(project, row.key, said) if row is not None else add_ladder(project, said)
    book = Workbook(host, project)
    climbs = climbing.Climbs()
    climbs.follow(book)
    (standing,) = climbs.standing
    climbs.take([(standing.row.key, at, rung) for at, rung in enumerate(climb(book, standing.ladder))])
    return book, climbs


BEDS = ["US twin", "US twin XL", "US full", "US queen", "US king", "US California king"]


def test_what_is_the_same_for_all_and_the_words_of_cautions_stand_with_the_first_part() -> None:
    with Host.load() as host:
        book, climbs = standing_of(host, [*BEDS, "crib, no drop"])
        texts = ["".join(t for t, _ in line.parts) for line in ladder_lines(book, climbs.standing, 79, "")]
    assert any(text.startswith("  The same for all: Drop at each side 14 in") for text in texts)
    cautions = next(
        n for n, text in enumerate(texts) if "no bedding for a sleeping" in text or "infant" in text
    )
    second = next(n for n, text in enumerate(texts) if n > 5 and not text)
    assert cautions < second, "before the other parts of the table"
    # One notation for yards, of a bolt and off a roll.
    assert not [text for text in texts if " yd" in text and "." in text.split(" yd")[0].split()[-1]]


def test_many_values_go_down_in_parts_that_begin_with_their_heads_and_sizes_with_the_total() -> None:
    with Host.load() as host:
        _, climbs = standing_of(host, BEDS)
        for width in (60, 70, 79):
            table = LadderTable(0, climbs.standing[0], 0, width, plain=True)
            assert not table.across
            first = table.parts[0]
            needed = ["Width of the quilt", "Height of the quilt", "Total", "Not in the total"]
            assert first[:4] == needed[: 3 if width == 60 else 4]
            assert [name for part in table.parts for name in part] == table.names
            assert len(table.parts) < 2 or len(table.parts[-1]) > 1, "no single column at the end"
            texts = ["".join(text for text, _ in line.parts) for line in (*table.lines(), *table.more())]
            heads = [text for text in texts if text.startswith("  Bed ")]
            assert len(heads) == len(table.parts)
            assert max(map(len, texts)) <= width


def test_few_values_go_across_with_all_names_below_each_other() -> None:
    with Host.load() as host:
        book, climbs = standing_of(host, ["US crib", "throw", "US queen"])
        table = LadderTable(0, climbs.standing[0], None, 79, plain=True)
        assert table.across
        lines = [*table.lines()]
        texts = ["".join(text for text, _ in line.parts) for line in lines]
        assert texts[0].split() == ["Bed", "US", "crib", "throw", "US", "queen"]
        total = next(text for text in texts if text.startswith("  Total"))
        rungs = climbs.standing[0].rungs
        costs = [rung.cells["Total"].text.replace(" and more", " +") for rung in rungs]
        assert total.split() == ["Total", *" ".join(costs).split()]
        assert texts.index(total) == 3, "below the two sizes"
        for line in lines[1:]:  # each cell leads to its own rung, where it stands
            for n, (start, end, leads) in enumerate(line.across):
                assert leads == leads_to(0, n)
                assert "".join(text for text, _ in line.parts)[start:end].strip()
        whole = " ".join(
            " ".join(
                "".join(text for text, _ in line.parts)
                for line in ladder_lines(book, climbs.standing, 80, "")
            ).split()
        )
        assert "US queen: not in the total: batting, king (no price yet: the tab “Batting” takes it)" in whole
        assert "! US crib: A size for a crib or cot" in whole, "and no throw is one"


def test_a_tab_that_fails_at_a_rung_is_told_with_its_reason_and_what_all_rungs_share_is_not_counted() -> None:
    """Blocks of 7 in make a top of 66 1/2 in, 76 1/2 in with borders; 4 in over at each side are 84 1/2 in.

    The shop's own batting is 81 in wide. With cornerstones the length of a long sash is missing anywhere.
    """
    with Host.load() as host:
        ladder = {"name": "Wider", "tab": "Street", "given": "block_width", "take": ["width", "to buy"]}
        book, climbs = standing_of(host, ["6 in", "7 in"], "lantern-row", **ladder)
        lines = ladder_lines(book, climbs.standing, 80, "")
        texts = ["".join(text for text, _ in line.parts) for line in lines]
        total = next(n for n, text in enumerate(texts) if text.startswith("  Total"))
        assert texts[total].endswith("+")
        assert texts[total + 1].split() == ["Not", "in", "the", "total", "–", "1", "tab"]
        assert not any(text.startswith("  Cautions") for text in texts)
        whole = " ".join(" ".join(texts).split())
        assert "! 7 in: not in the total: “Batting” (not worked out: the package" in whole
        assert whole.count("does not cover the quilt") == 1
