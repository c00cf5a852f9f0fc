"""Published cases of the units of a block, from the file beside this one, like `boltend_shared.cases`."""

import tomllib
from fractions import Fraction
from functools import cache
from pathlib import Path

from boltend_shared import Case, Source

_FILE = Path(__file__).parent / "block_unit_cases.toml"


@cache
def block_unit_cases() -> tuple[Case, ...]:
    """All cases, in the file's order; decimal numbers are exact Fractions."""
    data = tomllib.loads(_FILE.read_text(encoding="utf-8"), parse_float=Fraction)
    sources = {
        key: Source(entry["title"], entry["publisher"], str(entry["year"]))
        for key, entry in data["source"].items()
    }
    return tuple(
        Case(
            id=entry["id"],
            kind=entry["kind"],
            source=sources[entry["source"]],
            status=entry["status"],
            note=entry.get("note", ""),
            inputs=entry["inputs"],
            expected=entry["expected"],
            computed=entry.get("computed", {}),
        )
        for entry in data["case"]
    )
