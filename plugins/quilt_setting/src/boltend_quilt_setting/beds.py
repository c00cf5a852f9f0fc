"""The table of beds: mattress sizes by region, as their source states them, in inches or centimetres.

Where sources differ, the row says which one speaks. `depth` is a usual depth where one is in print, the
larger end of its range, so that a caution comes rather too early; most regions print none. `infant` marks
what a baby sleeps in; a row of one's own that says no is none of that, as a throw for a chair. Where a row
says nothing the mattress's size decides.
"""

from boltend.plugin import Table

_US = "Mattress sizes (National Sleep Foundation, undated)"
_US_DEPTH = (
    "standard depth 7 to 9 in: Suggested quilt measurements for standard bed sizes (Quilting Company, 2022)"
)
_US_SMALLER = "makers' actual sizes are up to 1/2 in shorter, a full 1 in narrower"
_CRIB_DEPTH = "at most 6 in deep: Secondary pages giving 27 1/4 x 51 1/4 or 51 5/8 (engineerfix.com, undated)"
_UK = "UK bed sizes, quoting the National Bed Federation (Kingsley Beds, 2023), to 2 cm either way"
_UK_COT = "UK and European bed sizes (Land of Beds, undated)"
_EU = "Bed sizes (gnomon.org.uk, undated)"
_AU = "Australian bed sizes (Just Bedding, undated)"
_AU_DEPTH = "depth 25 to 36 cm: collected with the sizes, its page not recorded"
_NZ = "NZ bed sizes 2025 (Treasure Box, 2025)"
_NZ_NARROWER = "others print it 1 cm narrower"
_NZ_DEPTH = "collected with the sizes, its page not recorded"
_JP = "How to choose a mattress size (Zinus Japan, undated), said to follow the Japanese standard"


def _us(width: str, length: str, more: str = "") -> dict[str, str]:
    source = "; ".join(part for part in (_US, more, _US_SMALLER, _US_DEPTH) if part)
    return {"width": f"{width} in", "length": f"{length} in", "depth": "9 in", "source": source}


def _metric(width: int, length: int, source: str, depth: int | None = None) -> dict[str, str]:
    cells = {"width": f"{width} cm", "length": f"{length} cm", "source": source}
    return cells if depth is None else {**cells, "depth": f"{depth} cm"}


def _cot(width: int, length: int, source: str) -> dict[str, str]:
    return {**_metric(width, length, source), "infant": "yes"}


def _au(width: int, length: int) -> dict[str, str]:
    return _metric(width, length, f"{_AU}; {_AU_DEPTH}", 36)


BEDS = Table(
    name="beds",
    columns={"width": "length", "length": "length", "depth": "length", "infant": "yes_no"},
    rows={
        "US twin": _us("38", "75", "many quilters' tables have 39 in"),
        "US twin XL": _us("38", "80", "many quilters' tables have 39 in"),
        "US full": _us("54", "75"),
        "US queen": _us("60", "80"),
        "US king": _us("76", "80", "some quilters' tables have 78 in"),
        "US California king": _us("72", "84"),
        "US crib": {
            "width": "27 1/4 in",
            "length": "52 in",
            "depth": "6 in",
            "infant": "yes",
            "source": f"Cribs (sizes.com, undated); {_CRIB_DEPTH}",
        },
        "US portable crib": {
            "width": "23 3/8 in",
            "length": "37 1/4 in",
            "depth": "4 in",
            "infant": "yes",
            "source": "the least that one maker's crib takes, at most 4 in deep: Portable crib 5438 "
            "instructions (Simmons Kids / Delta, undated)",
        },
        "UK small single": _metric(75, 190, _UK),
        "UK single": _metric(90, 190, _UK),
        "UK small double": _metric(120, 190, _UK),
        "UK double": _metric(135, 190, _UK),
        "UK king": _metric(150, 200, _UK),
        "UK super king": _metric(180, 200, _UK),
        "UK cot": _cot(60, 120, _UK_COT),
        "UK cot bed": _cot(70, 140, _UK_COT),
        "EU small single": _metric(80, 200, _EU),
        "EU single": _metric(90, 200, _EU),
        "EU large single": _metric(100, 200, _EU),
        "EU small double": _metric(120, 200, _UK_COT),
        "EU double": _metric(140, 200, _EU),
        "EU king": _metric(160, 200, _EU),
        "EU super king": _metric(180, 200, _EU),
        "AU single": _au(92, 188),
        "AU long single": _au(92, 203),
        "AU king single": _au(107, 203),
        "AU double": _au(138, 188),
        "AU queen": _au(153, 203),
        "AU king": _au(183, 203),
        "AU super king": _au(203, 203),
        "AU cot": _cot(69, 130, _AU),
        "NZ single": _metric(92, 188, f"{_NZ}; {_NZ_NARROWER}; depth 20 to 30 cm: {_NZ_DEPTH}", 30),
        "NZ king single": _metric(107, 203, _NZ),
        "NZ double": _metric(138, 188, f"{_NZ}; {_NZ_NARROWER}"),
        "NZ queen": _metric(153, 203, f"{_NZ}; depth 25 to 35 cm: {_NZ_DEPTH}", 35),
        "NZ king": _metric(168, 203, f"{_NZ}; {_NZ_NARROWER}"),
        "NZ super king": _metric(183, 203, _NZ),
        "NZ California king": _metric(203, 203, _NZ),
        "JP semi-single": _metric(82, 195, _JP),
        "JP single": _metric(98, 195, f"{_JP}; others print 97 cm"),
        "JP semi-double": _metric(120, 195, f"{_JP}; others print 122 cm"),
        "JP double": _metric(140, 195, _JP),
        "JP wide double": _metric(152, 195, _JP),
        "JP queen": _metric(160, 195, f"{_JP}; makers differ"),
        "JP king": _metric(180, 195, f"{_JP}; makers differ"),
    },
)
