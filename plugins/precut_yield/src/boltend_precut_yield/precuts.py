"""The table of precuts, by generic names.

`width` lies across the bolt, `length` along the selvage, both as cut; `pieces` is how many are in a pack
(1: cut singly). Where print gives a range, the row has the smaller size.
"""

from boltend.plugin import Table

_PRACTICE = "common practice, no source"
_CUTS = "What Are Fat Quarters and Fat Eighths? (allpeoplequilt.com, Meredith Corp., 2017)"
_CHART = "Fat-quarter chart (quilton.blogspot, 2011)"
_METRIC = "Fabric size calculations: metre, yard, inch and fat quarter (Tilkkunen, undated)"
_TENS = "pack of 42: Blissful Confection (Moda Fabrics, 2010)"
_FIVES = "pack of 42: Baby Quilt (Instructables, undated; the full title names a product, left out here)"
_NARROW = "roll of 40: Classic & Heirloom (Moda Fabrics, 2016)"


def _row(width: str, length: str, source: str, pieces: int = 1) -> dict[str, str]:
    return {"width": width, "length": length, "pieces": str(pieces), "source": source}


PRECUTS = Table(
    name="precuts",
    columns={"width": "cut", "length": "cut", "pieces": "count"},
    rows={
        "10 in square pack": _row("10 in", "10 in", _TENS, 42),
        "5 in square pack": _row("5 in", "5 in", _FIVES, 42),
        "2 1/2 in square pack": _row("2 1/2 in", "2 1/2 in", _PRACTICE, 42),
        "2 1/2 in strip roll": _row("42 in", "2 1/2 in", _PRACTICE, 40),
        "1 1/2 in strip roll": _row("42 in", "1 1/2 in", _NARROW, 40),
        "fat quarter": _row("21 in", "18 in", _CUTS),
        "fat quarter, 18 × 22 in": _row("22 in", "18 in", _CHART),
        "fat quarter, 20 × 22 in": _row("22 in", "20 in", _CHART),
        "fat quarter, 50 × 55 cm": _row("55 cm", "50 cm", _METRIC),
        "fat eighth": _row("21 in", "9 in", _CUTS),
        "long quarter": _row("42 in", "9 in", _CUTS),
        "long eighth": _row("42 in", "4 1/2 in", _CUTS),
        "half yard": _row("42 in", "18 in", _CUTS),
        "yard": _row("42 in", "36 in", _PRACTICE),
        "half metre": _row("106 cm", "50 cm", _PRACTICE),
    },
)
