"""Opening a project for a command."""

from dataclasses import dataclass, replace
from functools import cached_property
from pathlib import Path

from boltend.core.flow import Workbook
from boltend.core.flow.results import Trouble
from boltend.core.host import Host
from boltend.core.project.document import Document
from boltend.core.project.model import Tab
from boltend.core.project.problems import Problem
from boltend.core.project.saving import ProjectFile


@dataclass(frozen=True)
class Opened:
    """A project, worked out, with the text and the problems of its file."""

    path: str
    book: Workbook
    document: Document
    problems: tuple[Problem, ...]

    @cached_property
    def _places(self) -> dict[int, int]:
        return {tab.key: at for at, tab in enumerate(self.book.project.tabs)}

    @property
    def all_well(self) -> bool:
        """Whether every tab is worked out and the file has no error."""
        errors = any(problem.severity == "error" for problem in self.problems)
        return not (errors or self.book.basis.troubles or self.book.row_troubles()) and all(
            r.state == "worked out" for r in self.book.results.values()
        )

    def place(self, tab: Tab, trouble: Trouble) -> str:
        """`file:line` of the given that stands in a tab's way, or of the tab."""
        index = self._places[tab.key]
        paths = ("given", trouble.given), (trouble.given,), ()
        lines = (self.document.line_of("tab", index, path) for path in paths)
        line = next((line for line in lines if line is not None), None)
        return self.path if line is None else f"{self.path}:{line}"


def open_project(path: str, host: Host) -> Opened:
    """Open and work out a project file, which may come through a pipe. Raises ProjectUnreadable."""
    file = ProjectFile.open(Path(path), pipes=True)
    problems = tuple(replace(problem, file=path) for problem in file.problems())
    return Opened(path, Workbook(host, file.saved), file.document, problems)
