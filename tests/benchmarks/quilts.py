"""The example project many times over, each time its own tabs: what a long project is."""

from collections.abc import Iterator
from contextlib import contextmanager
from importlib.resources import as_file, files
from pathlib import Path
from typing import Any

from boltend.core.project.edits import add_tab
from boltend.core.project.saving import ProjectFile


@contextmanager
def example() -> Iterator[Path]:
    """The file of the example project."""
    with as_file(files("boltend_shared.examples").joinpath("harbour-steps.toml")) as path:
        yield path


def write_quilts(tabs: int, path: Path) -> Path:
    """A file with the example's tabs until there are so many, each round linked within itself."""
    with example() as source:
        project = ProjectFile.open(source).saved
    first, names = project.tabs, {tab.name for tab in project.tabs}
    for n in range(len(first), tabs):
        tab, again = first[n % len(first)], f" {n // len(first) + 1}"
        given = _relinked(dict(tab.given), names, again)
        project = add_tab(project, tab.name + again, tab.calculator, given)
    ProjectFile.new(path).save(project)
    return path


def _relinked(value: Any, names: set[str], again: str) -> Any:
    """The same givens, with every link to the tab of the same round."""
    if isinstance(value, dict):
        return {
            key: part + again if key == "from" and part in names else _relinked(part, names, again)
            for key, part in value.items()
        }
    return [_relinked(part, names, again) for part in value] if isinstance(value, list) else value
