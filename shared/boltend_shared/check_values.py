"""Published check values, each with its source: what tests hold the calculators against."""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

_FILE = Path(__file__).parent / "references" / "quilt_cases.toml"


@dataclass(frozen=True, slots=True)
class Source:
    """Where a value was printed."""

    title: str
    publisher: str
    year: str


@dataclass(frozen=True)
class Case:
    """One published case. Decimal numbers are exact Fractions: inches, or yards where a name says so.

    `inputs` is what the source starts from, `expected` what it printed, `computed` the collector's own
    arithmetic. `status` is `agrees` where arithmetic gives the printed value.
    """

    id: str
    kind: str
    source: Source
    status: str
    note: str
    inputs: Mapping[str, Any]
    expected: Mapping[str, Any]
    computed: Mapping[str, Any]

    @property
    def agrees(self) -> bool:
        """Whether the printed value is a check value: `agrees` or `agrees (oversize)`."""
        return self.status in ("agrees", "agrees (oversize)")


def cases(*kinds: str) -> tuple[Case, ...]:
    """The cases of these kinds, in the file's order; of every kind where none is named.

    Raises:
        ValueError: a kind is named that no case has.
    """
    unknown = set(kinds) - {case.kind for case in _all()}
    if unknown:
        raise ValueError(f"no case is of kind {sorted(unknown)[0]!r}")
    return tuple(case for case in _all() if not kinds or case.kind in kinds)


@cache
def _all() -> tuple[Case, ...]:
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
