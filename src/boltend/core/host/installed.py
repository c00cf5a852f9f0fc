"""The plugins that installed distributions name, read straight from their folders.

`importlib.metadata` reads the same, but brings Python's whole mail parser along, which costs a start 20 ms of
CPU. So it is asked only where modules come from something else than folders: an archive on the path, or a
finder that a tool has added.
"""

import os
import sys
from collections.abc import Iterator
from importlib.machinery import PathFinder
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from boltend.core.host.calls import Fault
from boltend.core.host.faults import fault_of
from boltend.core.host.opening import GROUP

if TYPE_CHECKING:
    from importlib.metadata import EntryPoint


class Installed(NamedTuple):
    """A plugin by its name, where its code is, and the distribution that brings it."""

    name: str
    value: str
    distribution: str = ""
    version: str = ""


def installed(problems: list[Fault]) -> list[Installed]:
    """What every distribution on the path names, each read by itself: a damaged one is told and left out.

    Of two of one name the first on the path counts, as it does for its modules.
    """
    if not _only_folders():
        return _asked_of_python(problems)
    found: list[Installed] = []
    seen: set[str] = set()
    for info in _infos():
        try:
            text = _text(info / "entry_points.txt")
            if GROUP not in text:
                continue
            name, version = _name_and_version(info)
            if normal(name) not in seen:
                seen.add(normal(name))
                found += [Installed(*pair, name, version) for pair in _pairs(text)]
        except Exception as error:
            problems.append(fault_of(error, f"{info} cannot be read:"))
    return found


def described(entry_point: "EntryPoint") -> Installed:
    """The same of an entry point that Python has read."""
    metadata = entry_point.dist.metadata if entry_point.dist is not None else {"Name": "", "Version": ""}
    name, version = str(metadata["Name"] or ""), str(metadata["Version"] or "")
    return Installed(entry_point.name, entry_point.value, name, version)


def normal(name: str) -> str:
    """A distribution's name as names are compared."""
    return name.lower().replace("_", "-").replace(".", "-")


def _only_folders() -> bool:
    finders = (finder for finder in sys.meta_path if hasattr(finder, "find_distributions"))
    return all(finder is PathFinder for finder in finders) and not any(map(os.path.isfile, sys.path))


def _asked_of_python(problems: list[Fault]) -> list[Installed]:
    from importlib.metadata import distributions

    found: list[Installed] = []
    seen: set[str] = set()
    for distribution in distributions():
        try:
            if GROUP in (distribution.read_text("entry_points.txt") or ""):
                name = normal(distribution.metadata["Name"] or "")
                if name not in seen:
                    seen.add(name)
                    found += map(described, distribution.entry_points.select(group=GROUP))
        except Exception as error:
            place = getattr(distribution, "_path", "an installed distribution")
            problems.append(fault_of(error, f"{place} cannot be read:"))
    return found


def _infos() -> Iterator[Path]:
    """The folders in which distributions tell of themselves, in the order of the path."""
    for folder in dict.fromkeys(sys.path):
        try:
            names = os.listdir(folder or ".")
        except OSError:  # a path may name what is not there
            continue
        yield from (Path(folder, name) for name in names if name.endswith((".dist-info", ".egg-info")))


def _text(file: Path) -> str:
    try:
        return file.read_text(encoding="utf-8")
    except (FileNotFoundError, NotADirectoryError):
        return ""


def _name_and_version(info: Path) -> tuple[str, str]:
    """The two lines that are wanted of the head, which is written like that of a letter."""
    text = _text(info / "METADATA") or _text(info / "PKG-INFO")
    head = dict(line.split(": ", 1) for line in text.partition("\n\n")[0].split("\n") if ": " in line)
    return head.get("Name", "").strip(), head.get("Version", "").strip()


def _pairs(text: str) -> Iterator[tuple[str, str]]:
    """Name and value of each plugin."""
    section = ""
    for line in map(str.strip, text.splitlines()):
        if line.startswith("["):
            section = line.strip("[]")
        elif section == GROUP and line and not line.startswith("#"):
            name, equals, value = line.partition("=")
            if not equals:
                raise ValueError(f"“{line}” names no module")
            yield name.strip(), value.strip()
