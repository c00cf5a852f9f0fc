"""The records of a recovery journal: one JSON object a line, each with its length and checksum before it."""

from __future__ import annotations

import hashlib
import json
import tomllib
import zlib
from collections.abc import Iterator
from datetime import UTC, date, datetime, time
from typing import Any

from boltend.core.project.model import NO_SETTINGS, FabricRow, LadderRow, Project, Tab

VERSION = 1
Row = Tab | FabricRow | LadderRow

_DATE = "$toml"


def frame(record: dict[str, Any]) -> bytes:
    """One record as a line: checksum (8 hex digits), length, JSON; ASCII only, so lengths are in bytes."""
    body = json.dumps(record, default=_plain, separators=(",", ":")).encode("ascii")
    return b"%08x %d %s\n" % (zlib.crc32(body), len(body), body)


def unframe(data: bytes) -> Iterator[tuple[dict[str, Any], int]]:
    """The records in order, each with the offset of its end; stops at the first that is torn or damaged."""
    at = 0
    while (stop := data.find(b"\n", at)) >= 0:
        parts = data[at:stop].split(b" ", 2)
        try:
            checksum, length, body = int(parts[0], 16), int(parts[1]), parts[2]
            if len(body) != length or zlib.crc32(body) != checksum:
                return
            record = _READER.decode(body.decode("ascii"))
        except (ValueError, IndexError):
            return
        at = stop + 1
        yield record, at


def _plain(value: Any) -> Any:
    if isinstance(value, date | datetime | time):
        return {_DATE: value.isoformat()}
    return dict(value)


def _back(table: dict[str, Any]) -> Any:
    if table.keys() == {_DATE} and isinstance(table[_DATE], str):
        return tomllib.loads(f"x = {table[_DATE]}")["x"]
    return table


_READER = json.JSONDecoder(object_hook=_back)


def _ids(project: Project) -> dict[str, list[int]]:
    return {
        "fabric": [row.key for row in project.fabrics],
        "tab": [row.key for row in project.tabs],
        "ladder": [row.key for row in project.ladders],
    }


def digest_of(data: bytes | None) -> str | None:
    """What tells one version of a file from another."""
    return None if data is None else hashlib.sha256(data).hexdigest()


def header(saved: Project, data: bytes | None, path: str) -> dict[str, Any]:
    """The first record: the project as saved, and a digest of the bytes that say so."""
    return {
        "version": VERSION,
        "file": path,
        "base": digest_of(data),
        "plain": saved.to_plain(),
        "ids": _ids(saved),
    }


def delta(old: Project, new: Project) -> dict[str, Any]:
    """What an edit changed: whole tables by key, the order where it differs, the moment."""
    record: dict[str, Any] = {"when": datetime.now(UTC).timestamp()}
    if new.root is not old.root:
        record["root"] = new.root
    if new.settings is not old.settings:
        record["project"] = None if new.settings is NO_SETTINGS else new.settings
    for word in ("fabric", "tab", "ladder"):
        before, after = rows_of(old, word), rows_of(new, word)
        if before is after:
            continue
        known = {row.key: row for row in before}
        rows = {row.key: row for row in after if known.get(row.key) is not row}
        record[word] = {key: [row.data, getattr(row, "origin", None)] for key, row in rows.items()}
        if [row.key for row in before] != [row.key for row in after]:
            record[f"{word}_order"] = [row.key for row in after]
    return record


def rows_of(project: Project, word: str) -> tuple[Row, ...]:
    """The fabrics, tabs or ladders of a project."""
    if word == "fabric":
        return project.fabrics
    return project.tabs if word == "tab" else project.ladders
