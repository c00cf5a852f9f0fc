"""Every built-in calculator as a subject of the kit. The examples are invented."""

from collections.abc import Mapping
from fractions import Fraction
from importlib.metadata import entry_points
from typing import Any

from boltend.core.values import KINDS, Notation
from boltend.plugin import Calculator, Table
from boltend.testing import Subject, Worked

BLOCKS: dict[str, Any] = {"block_width": "9 in", "block_height": "9 in"}
UNIT: dict[str, Any] = {"finished_size": "3 in", "count": 20}
TOP: dict[str, Any] = {"width": "60 in", "height": "72 in"}


def calculators() -> dict[str, Calculator]:
    """Every calculator of the `boltend` distribution, through its own door."""
    return {c.spec.name: c for module in _modules() for c in module.boltend_calculators()}


def tables() -> list[Table]:
    """Every table of the built-in plugins."""
    return [t for module in _modules() if hasattr(module, "boltend_tables") for t in module.boltend_tables()]


def _modules() -> list[Any]:
    return [e.load() for e in entry_points(group="boltend.plugins") if e.dist and e.dist.name == "boltend"]


def cloth_holds(raw: Mapping[str, object], worked: Worked) -> None:
    """What is bought holds the area of all that is sewn from strips: joins and trimming only add to it."""
    found: Any = worked.found
    if found["length_to_buy"] is None:
        return
    width = worked.settings.usable_width
    assert found["length_to_buy"] * width >= sum(run.width * sum(run.wants) for run in worked.answer.runs)
    assert found["strips"] != 0 or found.get("each") == ()  # borders without a width are none


def precuts_hold(wanted: str, each: str) -> Any:
    """So many precuts, at so many each, hold what is wanted, and one fewer does not."""

    def covers(raw: Mapping[str, object], worked: Worked) -> None:
        found: Any = worked.found
        if found["precuts_needed"] is None or not isinstance(raw.get(wanted), int):
            return
        need: Any = raw[wanted]
        assert found["precuts_needed"] * found[each] >= need
        assert (found["precuts_needed"] - 1) * found[each] < need or need == 0

    return covers


def sets_hold(raw: Mapping[str, object], worked: Worked) -> None:
    """So many precuts hold the blocks that are wanted, and one fewer does not."""
    found: Any = worked.found
    wanted: Any = raw.get("blocks_wanted")
    if found["precuts_needed"] is None or not isinstance(wanted, int) or not found["sets_each"]:
        return  # a set that is larger than a precut comes out of several
    each = found["sets_each"] * int(str(raw.get("blocks_per_set", "")).strip() or 1)
    assert found["precuts_needed"] * each >= wanted
    assert (found["precuts_needed"] - 1) * each < wanted or wanted == 0


def panels_cover(raw: Mapping[str, object], worked: Worked) -> None:
    """The backing is as large as the quilt and its overage, and no piece of it is bought twice."""
    found: Any = worked.found
    if found["length_to_buy"] is not None:
        full = found["panels"] - (raw.get("last_panel") == "pieced")
        assert found["length_to_buy"] >= full * (found["panel_length"] - Fraction(1, 8))


def batting_covers(raw: Mapping[str, object], worked: Worked) -> None:
    """The roll's length is at least the lesser side that is needed."""
    found: Any = worked.found
    if found["roll_length"] is not None:
        assert found["roll_length"] >= min(found["needed_width"], found["needed_height"])


def units_come_out(raw: Mapping[str, object], worked: Worked) -> None:
    """At least as many units come out as are wanted, and less than a set of eight more."""
    found: Any = worked.found
    wanted: Any = raw["count"]
    assert wanted <= found["made"] < wanted + 8


def spools_hold(raw: Mapping[str, object], worked: Worked) -> None:
    """The spools hold the thread above and the thread below."""
    found: Any = worked.found
    if found["spools"] is None:
        return
    said = str(raw.get("spool_length") or "").strip()
    if said:
        spool = KINDS["length"].read(said, Notation(), "yd")
    else:
        (threads,) = (table for table in tables() if table.name == "threads")
        spool = threads.row(str(raw["thread"]))["length"]
    assert found["spools"] * spool >= found["top_thread"] + found["bobbin_thread"]


THREAD: dict[str, Any] = {"thickness": "1/16 in", "thread": "cotton 50/2, 1300 m", "bobbin": "L"}

SUBJECTS: dict[str, dict[str, Any]] = {
    "straight_set": {"example": {**BLOCKS, "across": 4, "down": 5, "sash": "2 in"}},
    "measured_top": {
        "example": {"widths": "60 1/4 in; 60 3/8 in; 60 1/4 in", "heights": "72 in"},
        "may_be_zero": ("spread_width", "spread_height"),
    },
    "borders": {
        "example": {
            "top_width": "60 in",
            "top_height": "72 in",
            "borders": [{"name": "inner", "width": "2 in"}, {"name": "outer", "width": "5 in"}],
        },
        "covers": cloth_holds,
    },
    "binding": {
        "example": TOP,
        "covers": cloth_holds,
        "own_metric": ("bias_square", "length_to_buy", "buy_alone"),
    },
    "precut_yield": {
        "example": {"precut": "10 in square pack", "piece_width": "5 in", "piece_height": "5 in"},
        "covers": precuts_hold("pieces_wanted", "pieces_each"),
    },
    "precut_plan": {
        "example": {
            "precut": "10 in square pack",
            "cuts": [{"name": "patch", "width": "4 1/2 in", "height": "4 1/2 in", "count": 2}],
        },
        "covers": sets_hold,
        "examples": 15,  # a search, some milliseconds each
        "seconds": 60,  # and some seconds for small pieces out of a precut of several yards each way
    },
    "pieces_in_hand": {
        "example": {
            "piece_width": "9 in",
            "fabrics": [{"name": "cream", "have": "3 yd"}, {"have": "1 yd"}],
            "precuts": [{"precut": "fat quarter", "how_many": 4}],
        },
        "examples": 25,
        "seconds": 60,  # small oblong pieces out of many yards: a table for every row
    },
    "fabric_in_hand": {"example": {**BLOCKS, "blocks": 30}},
    "backing": {"example": TOP, "covers": panels_cover},
    "batting": {
        "example": TOP,
        "covers": batting_covers,
        "own_metric": ("needed_width", "needed_height", "roll_length", "package", "choices"),
    },
    "measured_blocks": {
        "example": {"sizes": "12 1/4 in; 12 1/2 in; 12 5/8 in", "nominal": "12 1/2 in"},
        "may_be_zero": ("coping_strip",),
    },
    "border_to_size": {
        "example": {
            "top_width": "60 in",
            "top_height": "72 in",
            "target_width": "84 in",
            "target_height": "96 in",
        }
    },
    "border_repeat": {
        "example": {
            "top_width": "50 in",
            "top_height": "62 in",
            "repeat": "6 in",
            "border_width": "3 in",
        },
        "may_be_zero": ("spacer_sides", "spacer_ends"),
    },
    **{
        name: {"example": example, "examples": 25, "covers": units_come_out}
        for name, example in {
            "half_square_triangles": UNIT,
            "quarter_square_triangles": UNIT,
            "flying_geese": {"finished_width": "4 in", "count": 10},
            "square_in_square": UNIT,
            "framed_square": {"centre": "4 in", "count": 4, "rounds": [{"width": "1 1/4 in"}]},
            "strip_pieced_grid": {"finished_size": "6 in", "count": 20},
        }.items()
    },
    "on_point": {"example": {"block": "9 in", "across": 3, "down": 4}},
    "grid_for_size": {
        "example": {"target_width": "86 in", "target_height": "93 in", "block_width": "9 in"},
        "may_be_zero": ("border_sides", "border_ends"),
        "examples": 25,
    },
    "bed_size": {"example": {"bed": "US queen", "drop": "13 in"}},
    "fabric_mix": {
        "example": {
            "fabrics": [{"fabric": name, "cuts": 9} for name in ("Slate", "Moss", "Chalk", "Rust")],
            "blocks": 8,
        },
        "examples": 20,  # a search
        "seconds": 60,
    },
    "quilting_thread": {
        "example": {**TOP, **THREAD, "pattern": "square grid", "spacing": "2 in"},
        "own_metric": ("spools", "bobbins"),
        "covers": spools_hold,
    },
    "piecing_thread": {
        "example": {**THREAD, "seam_length": "100 yd"},
        "own_metric": ("spools", "bobbins"),
        "covers": spools_hold,
    },
}
"""By calculator: what `Subject` takes beside the calculator and the tables."""


def subject(name: str) -> Subject:
    """The subject of a built-in calculator."""
    said = {**SUBJECTS[name]}
    for key in ("may_be_zero", "own_metric"):
        said[key] = frozenset(said.get(key, ()))
    return Subject(calculators()[name], tables=tables(), **said)
