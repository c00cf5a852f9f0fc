"""A ladder as lines of any width: whole, and readable without colour and in ASCII. No screen."""

import boltend.shell.climbing as climbing
from boltend.core.asking.ladder import climb
from boltend.core.flow import Workbook
from boltend.core.host import Host
from boltend.core.project.reading import read_bytes
from boltend.shell.ladder_lines import ladder_lines
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
            for column in ("39 5/8 in", "50 in", rungs[-1].cells["Total"].text):
                assert any(column in text for text in texts), (width, column)
            assert "no bedding for a sleeping" in " ".join(" ".join(texts).split())
