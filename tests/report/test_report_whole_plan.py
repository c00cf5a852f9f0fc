"""The plan of a whole project in plain text: its name, the size of the quilt, the ladders that it keeps."""

import json

from boltend.core.asking import climb, read_ladder
from boltend.core.flow import Workbook
from boltend.core.host import Host
from boltend.core.paper.model import Heading, Picture, Table, Text
from boltend.core.paper.plan_sheet import plan_sheet
from boltend.core.pool import Pool
from boltend.core.project.model import project_from_plain
from boltend.core.report.forms import printed
from boltend.core.report.pictures import Look


def test_the_whole_plan_begins_with_its_name_and_size_and_ends_with_its_ladders() -> None:
    plain = {
        "boltend": 1,
        "project": {"name": "Four"},
        "tab": [
            {"name": "Top", "calculator": "straight_set",
             "given": {"block_width": "9 in", "block_height": "9 in", "across": 4, "down": 5}},
            {"name": "Edge", "calculator": "binding",
             "given": {side: {"from": "Top", "take": side} for side in ("width", "height")}},
        ],
        "ladder": [
            {"name": "How wide", "tab": "Top", "given": "across", "values": [4, 6], "take": ["width"]},
            {"name": "Lost", "tab": "Gone", "given": "across", "values": [4]},
        ],
    }  # fmt: skip
    with Host.load() as host:
        book = Workbook(host, project_from_plain(plain))
        done = read_ladder(book, book.project.ladders[0])
        kept = [(done, list(climb(book, done)))]
        lists = Pool().lists(book)
    tabs = book.project.tabs
    text, markdown = (printed(book, tabs, lists, form, None, kept) for form in ("text", "markdown"))
    # 4 · 9 and 5 · 9 in, and a seam of 1/4 in all round, which the binding encloses.
    size = "Finished size, with its binding on: 36 1/2 in × 45 1/2 in (≈ 92.7 cm × 115.6 cm)"
    assert text.startswith("Four\n====\nFinished size")
    assert " ".join(text.split()).startswith(f"Four ==== {size}"), "a line end may stand in it"
    assert markdown.startswith(f"# Four\n\n{size}\n")
    # Six blocks of 9 in are 54.
    for said in (text, markdown):
        assert "How wide" in said
        assert "54 in" in said
        assert "Not worked out here: “Lost”." in said
    assert "\nLadders\n=======\n" in text
    said = json.loads(printed(book, tabs, lists, "json", None, kept))
    assert said["ladders"][0]["rungs"][1]["cells"]["Width of the top"]["text"] == "54 in"
    # The whole quilt stands above its tabs, the top within its binding, and its parts with their sizes.
    for form in ("text", "markdown"):
        drawn = printed(book, tabs, lists, form, Look(), kept)
        above = drawn[: drawn.index("straight")]
        assert "block (9 in × 9 in, no fabric chosen)" in above
        assert "binding (" in above
        assert sum(sign in "┃│" for sign in max(above.splitlines(), key=lambda line: line.count("│"))) >= 5
    assert "┃" not in text
    paper = plan_sheet(book, tabs, lists, ladders=kept)
    blocks = list(paper.blocks)
    heads = [block for block in blocks if isinstance(block, Heading | Picture)]
    said_first = [block.words if isinstance(block, Heading) else block.title for block in heads]
    assert said_first[:2] == ["Four", "The quilt"]
    (table,) = (block for block in blocks if isinstance(block, Table) and block.title == "How wide")
    assert [row.cells[:2] for row in table.rows] == [("4", "36\xa0in"), ("6", "54\xa0in")]
    assert any(isinstance(block, Text) and "Not worked out here: “Lost”." in block.words for block in blocks)
    without = plan_sheet(book, tabs, lists, pictures=False)
    assert without.pictures() == []
    # One tab alone is no whole quilt, and has no ladders.
    part = printed(book, tabs[:1], lists, "text", Look(), kept)
    assert "The quilt\n" not in part
    assert "Finished size" not in part
    assert "Ladders" not in part
    with Host.load() as host:
        nameless = Workbook(host, project_from_plain({**plain, "project": {}}))
    assert printed(nameless, nameless.project.tabs, lists, "text", None).startswith("Plan of a quilt\n====")
