"""The table of battings. A row with a size is a package; one without is a kind of batting.

Where a source gives a range, the row has its careful end: the narrower quilting gap, the larger shrinkage.
"""

from boltend.plugin import Table

_PACKAGES = "How far apart to quilt; packaged batting sizes (Needlepointers, undated)"
_SCRIM = "Batting guide, scrim and no scrim (Everything Fabric AU, undated)"
_JUDGE = "More thoughts about batts: a judge's rule (Melody Crust, 2020)"
_UNSTABLE = "Scrim (Learn How to Quilt, undated)"
_SHRINKS = "Types of batting (The Quilt Orchard, 2013)"

BATTINGS = Table(
    name="battings",
    columns={
        "width": "length",
        "length": "length",
        "quilting_gap": "length",
        "shrinkage": "percent",
        "price": "price",
    },
    rows={
        "craft": {"width": "36 in", "length": "45 in", "source": _PACKAGES},
        "crib": {"width": "45 in", "length": "60 in", "source": _PACKAGES},
        "twin": {"width": "72 in", "length": "90 in", "source": _PACKAGES},
        "full": {"width": "81 in", "length": "96 in", "source": _PACKAGES},
        "queen": {"width": "90 in", "length": "108 in", "source": _PACKAGES},
        "king": {"width": "120 in", "length": "120 in", "source": _PACKAGES},
        "cotton, with scrim": {
            "quilting_gap": "8 in",
            "shrinkage": "5 %",
            "source": f"gap of 8 to 12 in: {_SCRIM}; shrinks 3 to 5 %: {_SHRINKS}",
        },
        "cotton, without scrim": {
            "quilting_gap": "3 in",
            "shrinkage": "5 %",
            "source": f"gap of 3 to 4 in: {_SCRIM}; shrinks 3 to 5 %: {_SHRINKS}",
        },
        "cotton, not stabilised": {
            "quilting_gap": "1/2 in",
            "shrinkage": "5 %",
            "source": f"gap of 1/2 to 1 in: {_UNSTABLE}; shrinks 3 to 5 %: {_SHRINKS}",
        },
        "cotton and polyester, 80/20": {"quilting_gap": "2 in", "source": f"gap of 2 to 3 in: {_JUDGE}"},
        "cotton and wool, 80/20": {
            "quilting_gap": "4 in",
            "shrinkage": "5 %",
            "source": "gap of 4 in, shrinks 3 to 5 %: maker's text (Hobbs Bonded Fibers, via a seller, 2017)",
        },
        "bamboo and cotton": {"shrinkage": "3 %", "source": f"shrinks 2 to 3 %: {_SHRINKS}"},
        "polyester": {
            "quilting_gap": "2 in",
            "shrinkage": "0 %",
            "source": f"gap of 2 to 3 in: {_JUDGE}; shrinks little to not at all: {_SHRINKS}",
        },
        "recycled polyester": {
            "quilting_gap": "12 in",
            "source": "gap of 12 in: maker's text (Quilters Dream, via Batty Lady, undated)",
        },
        "wool": {"quilting_gap": "3 in", "source": f"gap of 3 in: {_JUDGE}"},
    },
)
