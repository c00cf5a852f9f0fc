"""Paths as a person types them: completed from what is there, and what is wrong with them in words."""

import os
from pathlib import Path
from typing import NamedTuple

MOST_LISTED = 200
"""Entries of a folder that are offered."""

SUFFIX = ".toml"


class Candidate(NamedTuple):
    """What a typed path may go on to: the whole text, and the part that is its name."""

    text: str
    name: str
    is_folder: bool


class Offered(NamedTuple):
    """What there is to go on to, or why nothing can be said."""

    candidates: tuple[Candidate, ...] = ()
    why: str = ""
    more: bool = False


def path_of(text: str) -> Path:
    """The path that a text means: `~` is the person's own folder."""
    path = Path(text.strip())
    try:
        return path.expanduser()
    except RuntimeError:  # ~nobody
        return path


def whole_of(text: str) -> str:
    """The whole path that a text means, for the person; of nothing typed yet, the folder that is meant."""
    if "\0" in text:
        return ""
    try:
        if not text.strip():
            return f"in {short_path(Path.cwd())}"
        return f"= {short_path(Path(os.path.abspath(path_of(text))))}"
    except OSError:  # the folder that we are in is gone
        return ""


def short_path(path: Path) -> str:
    """A path with `~` for the person's own folder."""
    home = os.path.expanduser("~")
    text = str(path)
    return f"~{text[len(home) :]}" if home != os.sep and text.startswith(home + os.sep) else text


def offered(text: str) -> Offered:
    """What a typed path may go on to: folders, and project files; other files only where none fits.

    Names that begin with a full stop are offered once it is typed.
    """
    text = text.lstrip()
    if "\0" in text:
        return Offered(why="a file name cannot hold that character.")
    if text == "~":
        return Offered((Candidate(f"~{os.sep}", f"~{os.sep}", True),))
    head, start = _cut(text)
    folder = path_of(head) if head else Path()
    try:
        with os.scandir(folder) as entries:
            found = [_candidate(head, entry) for entry in entries if _begins(entry.name, start)]
    except FileNotFoundError:
        return Offered(why=f"There is no folder {folder}.")
    except NotADirectoryError:
        return Offered(why=f"{folder} is a file, not a folder.")
    except (OSError, ValueError) as error:
        return Offered(why=f"{folder} cannot be listed ({getattr(error, 'strerror', None) or error}).")
    chosen = [c for c in found if c.is_folder or c.name.casefold().endswith(SUFFIX)]
    if start and not chosen:
        chosen = found
    # Project files before folders: that is what is looked for.
    chosen.sort(key=lambda c: (c.is_folder, c.name.casefold(), c.name))
    return Offered(tuple(chosen[:MOST_LISTED]), more=len(chosen) > MOST_LISTED)


def completed(text: str, candidates: tuple[Candidate, ...]) -> str:
    """The text, grown as far as all candidates agree; letters become as the files have them."""
    if not candidates:
        return text
    head, start = _cut(text.lstrip())
    names = [c.text[len(head) :] for c in candidates]
    common, folded = _alike(names), _alike([name.casefold() for name in names])
    if len(common) >= len(start):
        return head + common
    return text if len(folded) <= len(start) else head + names[0][: len(folded)]


def _alike(names: list[str]) -> str:
    """What all names begin with, letter by letter."""
    first, last = min(names), max(names)
    same = next((n for n, (a, b) in enumerate(zip(first, last, strict=False)) if a != b), None)
    return first[:same] if same is not None else min(first, last, key=len)


def _cut(text: str) -> tuple[str, str]:
    """What stands before the last separator, with it, and what stands behind."""
    at = max(text.rfind(sep) for sep in {os.sep, os.altsep or os.sep}) + 1
    return text[:at], text[at:]


def _begins(name: str, start: str) -> bool:
    if name.startswith(".") and not start.startswith("."):
        return False
    return name.isprintable() and name.casefold().startswith(start.casefold())


def _candidate(head: str, entry: os.DirEntry[str]) -> Candidate:
    try:
        is_folder = entry.is_dir()
    except OSError:
        is_folder = False
    name = entry.name + (os.sep if is_folder else "")
    return Candidate(head + name, name, is_folder)


def wrong_to_save(text: str) -> str:
    """What is wrong with a path for a new file, or nothing."""
    wrong = _wrong(text)
    if wrong:
        return wrong
    path = path_of(text)
    if path.is_dir():
        return f"{path} is a folder. Write a file name behind it."
    if not path.parent.is_dir():
        return _no_folder(path.parent)
    return ""


def wrong_to_open(text: str) -> str:
    """What is wrong with a path of a file that shall be there, or nothing."""
    wrong = _wrong(text)
    if wrong:
        return wrong
    path = path_of(text)
    if path.is_dir():
        return f"{path} is a folder. Write the name of a file in it; Tab completes."
    if not path.parent.is_dir():
        return _no_folder(path.parent)
    if not path.exists():
        return f"There is no file {path.name} in {Path(os.path.abspath(path.parent))}."
    return ""


def _wrong(text: str) -> str:
    if not text.strip() or "\0" in text:
        return "Write a file name, as lantern.toml."
    try:
        os.stat(path_of(text))
    except FileNotFoundError:
        return ""
    except NotADirectoryError:
        return _no_folder(path_of(text).parent)
    except OSError as error:  # a name that is too long, a folder that may not be looked into
        return f"{path_of(text).name[:40]} cannot be reached ({error.strerror})."
    return ""


def _no_folder(folder: Path) -> str:
    """Says where the way ends: `There is no folder b in /a`."""
    if folder.exists():
        return f"{folder} is a file, not a folder."
    missing = Path(os.path.abspath(folder))
    while not missing.parent.is_dir() and missing.parent != missing:
        missing = missing.parent
    return f"There is no folder {missing.name} in {missing.parent}. Make it first, or take another."
