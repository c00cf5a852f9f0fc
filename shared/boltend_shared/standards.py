"""Published facts and figures of thread, beds, batting, fabric, safety, colour and units, with sources."""

import tomllib
from collections.abc import Mapping
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

_FILE = Path(__file__).parent / "references" / "standards.toml"


@cache
def standards() -> Mapping[str, Any]:
    """The tables of `references/standards.toml` by name, read once; decimal numbers are exact Fractions.

    A row's `source` is a key of the table `sources` (title, publisher, year), its `grade` says how far it may
    be leaned on; the head of the file explains the grades.
    """
    return tomllib.loads(_FILE.read_text(encoding="utf-8"), parse_float=Fraction)


def source_line(key: str) -> str:
    """A source as it is named beside a check: title (publisher, year)."""
    entry = standards()["sources"][key]
    return f"{entry['title']} ({entry['publisher']}, {entry['year']})"
