"""Reading a project file: tomllib first (strict, quick), then each complaint with its line and a way out."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from dataclasses import replace
from typing import Any, NamedTuple

from boltend.core.project.checks import root_problems, settings_problems
from boltend.core.project.document import Document
from boltend.core.project.file_bytes import LIMIT
from boltend.core.project.model import FORMAT, Project, project_from_plain
from boltend.core.project.plain import FreeNames, Plain, folded
from boltend.core.project.problems import Problem, ProjectUnreadable

_PLACE = re.compile(r"\s*\(at (?:line (\d+), column (\d+)|end of document)\)$")


class Reading(NamedTuple):
    """What was read: the project, its text, and all that is wrong with it."""

    project: Project
    document: Document
    problems: tuple[Problem, ...]


def read_text(text: str, file: str) -> Reading:
    """Read a project from its text (line ends as in the file). Raises ProjectUnreadable."""
    if len(text) > LIMIT:
        raise _too_large(file)
    document = Document.from_text(text)
    plain = parse(document.text, file)
    check_format(plain, file, document)
    project = project_from_plain(plain)
    return Reading(project, document, locate(project, project, document, file))


def read_bytes(data: bytes, file: str) -> Reading:
    """Read a project from the bytes of its file. Raises ProjectUnreadable."""
    return read_text(decode(data, file), file)


def decode(data: bytes, file: str) -> str:
    """The text of a file's bytes, its byte-order mark still in front."""
    if len(data) > LIMIT:
        raise _too_large(file)
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError as error:
        before = data[: error.start]
        column = len(before[before.rfind(b"\n") + 1 :].decode("utf-8", "replace")) + 1
        raise ProjectUnreadable(
            file,
            "this is not UTF-8 text.",
            "Save it as UTF-8 in your editor.",
            before.count(b"\n") + 1,
            column,
        ) from error


def _too_large(file: str) -> ProjectUnreadable:
    why = f"the file is larger than {LIMIT // 1_000_000} MB."
    return ProjectUnreadable(file, why, "A project file is far smaller: is it the right file?")


def parse(text: str, file: str) -> dict[str, Any]:
    """What tomllib gives for a text, or ProjectUnreadable with line and column where they are known."""
    try:
        return tomllib.loads(text)
    except RecursionError as error:
        raise ProjectUnreadable(
            file, "lists or tables are nested too deep.", "Take some levels out."
        ) from error
    except ValueError as error:
        # ValueError also covers the plain one that Python raises for a number of five thousand digits.
        found = _PLACE.search(str(error))
        why = _PLACE.sub("", str(error)) if found else str(error)
        if found is None:
            raise ProjectUnreadable(
                file, f"this is not TOML: {why}.", "Look for a very long number."
            ) from error
        if found.group(1):
            line, column = int(found.group(1)), int(found.group(2))
        else:
            line, column = text.count("\n") + 1, len(text) - text.rfind("\n")
        raise ProjectUnreadable(
            file, f"this is not TOML: {why}.", _hint(why, text, line), line, column
        ) from error


def _hint(why: str, text: str, line: int) -> str:
    lines = text.split("\n")
    here = lines[line - 1].strip() if line <= len(lines) else ""
    if "overwrite" in why or "twice" in why:
        return "A key may stand only once in a table: remove or rename one of the two."
    if re.search(r"=\s*[\d½¼¾⅛⅜⅝⅞]", here):
        return 'Write lengths in quotes: width = "12 1/2 in".'
    if "Illegal character" in why:
        return "Close the text with a quotation mark on the same line, and leave control characters out."
    return 'Write one name = value on a line; text in quotes: name = "Lantern".'


def check_format(plain: Plain, file: str, document: Document) -> None:
    """Refuse, kindly, a file that is not ours or that a later version wrote."""
    number = plain.get("boltend")
    if "boltend" not in plain:
        nested = next((k for k, v in plain.items() if isinstance(v, dict) and "boltend" in v), None)
        where = f" (it stands under [{nested}] now)" if nested else ""
        raise ProjectUnreadable(
            file,
            f"the format number is missing{where}.",
            f"Write boltend = {FORMAT} as the first line, before any [header].",
            1,
        )
    if number is True or number != FORMAT or not isinstance(number, int):
        line = document.line_of("", None, ("boltend",))
        way = f"Write boltend = {FORMAT}."
        if isinstance(number, int) and number is not True and number > FORMAT:
            way = "A later Boltend wrote it: update this one. The file was not touched."
        raise ProjectUnreadable(file, f"this Boltend does not know the format {number!r}.", way, line)


def project_problems(project: Project) -> tuple[Problem, ...]:
    """All that is wrong with the shape of a project, without files and lines."""
    return (
        *root_problems(project.root),
        *settings_problems(project.settings),
        *(p for fabric in project.fabrics for p in fabric.problems),
        *_twins([(f.key, f.name) for f in project.fabrics], "fabric"),
        *(p for tab in project.tabs for p in tab.problems),
        *_twins([(t.key, t.name) for t in project.tabs], "tab"),
        *(p for ladder in project.ladders for p in ladder.problems),
    )


def _twins(rows: list[tuple[int, str]], word: str) -> Iterator[Problem]:
    first: dict[str, str] = {}
    free: FreeNames | None = None
    for key, name in rows:
        if not name:
            continue
        same = folded(name)
        if same in first:
            free = free or FreeNames(other for _, other in rows)
            offer = free.like(name)
            yield Problem(
                f'{word} "{name}"',
                f'there is a {word} called "{first[same]}" above; links and lists mean that one.',
                f'Rename this one, say to "{offer}".',
                tab_key=key if word == "tab" else None,
                owner_key=key,
                path=("name",),
            )
        first.setdefault(same, name)


def locate(project: Project, saved: Project, document: Document, file: str) -> tuple[Problem, ...]:
    """The problems of `project` with file and line, where the text (which says `saved`) has one for them."""
    places = {row.key: ("fabric", index) for index, row in enumerate(saved.fabrics)}
    places.update({row.key: ("tab", index) for index, row in enumerate(saved.tabs)})
    places.update({row.key: ("ladder", index) for index, row in enumerate(saved.ladders)})
    return tuple(_placed(problem, places, document, file) for problem in project_problems(project))


def _placed(problem: Problem, places: dict[int, tuple[str, int]], document: Document, file: str) -> Problem:
    if problem.owner_key is not None:
        if problem.owner_key not in places:
            return replace(problem, file=file)
        word, index = places[problem.owner_key]
        return replace(problem, file=file, line=document.line_of(word, index, problem.path))
    word = "project" if problem.where.startswith("project") else ""
    if not word and isinstance(problem.path[0], str):
        line = document.line_of(problem.path[0], None) or document.line_of(problem.path[0], 0)
        return replace(problem, file=file, line=document.line_of("", None, problem.path) or line)
    return replace(problem, file=file, line=document.line_of(word, None, problem.path))
