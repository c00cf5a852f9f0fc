"""Every row of the published tables of thread and quilting, by a name, and why some are no check of ours."""

from collections.abc import Iterator, Mapping
from typing import Any

from boltend_shared import source_line, standards

LISTS = {
    "thread_check": "id", "numbering_check": "id", "put_up": "name", "bobbin": "style",
    "quilt_thread_yards": "year", "batting_spacing": "material",
}  # fmt: skip
"""Tables of many rows, and the column that names a row."""
SINGLE = (
    "lockstitch", "numbering", "wt_ambiguity", "bobbin_capacity", "quilt_thread_density_derived",
    "line_length", "stitch_density", "stitch_speed", "quilting_spacing", "batting_loft_in",
)  # fmt: skip
"""Tables of single values: each value is a row."""
ABOUT = ("source", "sources", "note", "grade", "covers", "warning", "assumes", "standard")
"""Cells that tell of the others."""


def _values(name: str, table: Mapping[str, Any]) -> Iterator[tuple[str, Any]]:
    for key, value in table.items():
        if key.rpartition("_")[2] in ABOUT:
            continue
        if isinstance(value, Mapping):
            yield from _values(f"{name}/{key}", value)
        else:
            yield f"{name}/{key}", value


def _rows() -> Iterator[tuple[str, Any]]:
    for name, column in LISTS.items():
        for row in standards()[name]:
            yield f"{name}/{row[column]}", row
    for name in SINGLE:
        yield from _values(name, standards()[name])


ROWS: Mapping[str, Any] = dict(_rows())


OTHER_SOURCES = {
    "stitch_density/spi_from_mm": "stitchlen_formula",
    "stitch_density/examples": "stitchlen_formula",
    "stitch_speed/minutes": "derived",
    "bobbin_capacity/M_prewound_yd_derived": "derived",
    "bobbin_capacity/class15_prewound_yd_derived": "derived",
    "lockstitch/ratios/implied_thickness_mm_at_7_per_cm": "derived",
}
"""Values whose source the table names under another word."""


def named(key: str) -> str:
    """A test's name: the row and where it was printed."""
    row, (table, *path) = ROWS[key], key.split("/")
    if isinstance(row, Mapping):
        sources = [row["source"]]
    elif key in OTHER_SOURCES:
        sources = [OTHER_SOURCES[key]]
    else:
        sources = _sources(standards()[table], path)
    return f"{key} ({'; '.join(map(source_line, sources))})"


def _sources(table: Mapping[str, Any], path: list[str]) -> list[str]:
    """The sources beside a value: those that begin with its own words, else those of the whole table."""
    own: list[str] = []
    for key, value in table.items():
        stem, is_source, _ = key.rpartition("source")
        if is_source and path[0].startswith(stem.strip("_")):
            own += [value] if isinstance(value, str) else list(value)
    inner = table.get(path[0])
    return (_sources(inner, path[1:]) or own) if isinstance(inner, Mapping) else own


REASONS: dict[str, str] = {
    "thread_check/A11": "Stitch 304, a zigzag: no quilting stitch of ours.",
    "thread_check/A12": "Stitch 101, a chain stitch; the maker's ratio is far from the formula (its note).",
    "thread_check/A21": "A blouse in all: no seams, stitches or thickness are printed with it.",
    "lockstitch/ratios/coats_101": "Stitch 101, a chain stitch.",
    "lockstitch/ratios/coats_103": "Stitch 103, a blind stitch.",
    "lockstitch/ratios/coats_304_zigzag": "Stitch 304, a zigzag.",
    "lockstitch/formula/family/504": "An overlock; and two sources differ.",
    **dict.fromkeys(
        (
            "lockstitch/sensitivity/feed_rate_share_percent",
            "lockstitch/sensitivity/tension_share_percent",
            "lockstitch/sensitivity/compressibility_share_percent",
            "lockstitch/sensitivity/geometric_R2_percent_class400",
            "lockstitch/sensitivity/regression_R2_percent_class400",
            "lockstitch/sensitivity/geometric_R2_percent_class600",
        ),
        "How far a model of another stitch explains measurements: no thread is printed with it.",
    ),
    "lockstitch/waste/ae_percent": "A range for a factory (15 to 20 %); waste is a given, tested with 15 %.",
    "numbering/typp": "A numbering of glass and technical yarns: no convention of ours.",
    "numbering/iso1144": "The title of a standard.",
    "numbering/trap_583": "A warning of other tables: ours is not that constant, tested with tex_from_Ne.",
    "bobbin/singer_163131": "A class of one maker's machines, without a printed capacity or core.",
    "bobbin_capacity/prewound_holds_more": "No figure is printed: a person's own row says what theirs holds.",
    "stitch_speed/longarm_spm_range": "From memory; the speed is a given.",
    "stitch_speed/sensitive_thread_percent_of_max": "How to run a delicate thread; the speed is a given.",
    "quilting_spacing/meander_in": "No figure: wider than stippling.",
    "batting_spacing/any batting: printed range": "From 2 to 10 in for all battings: no row of the table.",
    "batting_spacing/carded, no bonding": "Not a batting of the table.",
    "batting_spacing/Hobbs Heirloom natural cotton": "One maker's: a person's own row has it.",
    "batting_spacing/Warm & Natural type (scrim)": "A forum's word: no label was read; the table has 8 in.",
    "batting_spacing/Mountain Mist wool/poly": "One maker's: a person's own row has it.",
    **dict.fromkeys(
        (
            "batting_loft_in/wool", "batting_loft_in/quilters_dream_wool", "batting_loft_in/poly_4oz",
            "batting_loft_in/poly_6oz", "batting_loft_in/poly_8oz", "batting_loft_in/poly_10oz",
        ),
        "A loft that nothing presses: what counts is the thickness under the needle, which is asked for.",
    ),
}  # fmt: skip
"""Rows that do not run, by name, each with the reason why it is no check value of ours."""
