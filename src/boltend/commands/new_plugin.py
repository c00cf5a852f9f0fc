"""`boltend new-plugin DIR`: a small, whole plugin to begin from."""

import argparse
import keyword
import re
import shlex
import shutil
import sys
import unicodedata
from collections.abc import Iterable
from importlib.util import find_spec
from pathlib import Path
from string import Template

import boltend
from boltend.commands.exits import BadCall, Exit
from boltend.core.host import load_plugins
from boltend.core.values import visible

_LONGEST = 40
_FALLBACK = "my_plugin"


def add(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Declare the command."""
    parser = commands.add_parser(
        "new-plugin",
        help="make a calculator plugin to begin from",
        description="Make a folder with a whole plugin in it: one calculator, its tests, its door to "
        "Boltend. Its names come from the folder's.",
        epilog=f"The guide: {guide()}. Exit codes: 0 done; 2 the folder holds something already, or "
        "cannot be written.",
    )
    parser.add_argument("folder", metavar="DIR", help="a folder that is not there yet, or is empty")
    parser.set_defaults(do=new_plugin)


def new_plugin(said: argparse.Namespace) -> Exit:
    """Make the folder, and say what comes next."""
    folder = Path(said.folder)
    _refuse_full(folder)
    module = module_name(folder.resolve().name, _taken())
    plain = module_name(folder.resolve().name, (), known=False)
    written = _write(folder, module)
    print(visible(f"{folder} holds a plugin that works as it stands:"))
    if module != plain:
        print(f"  (named {module}: {plain} is installed already, or a name that Python or Boltend uses)")
    widest = max(len(path) for path in written)
    for path, what in written.items():
        print(f"  {path:<{widest}}  {what}")
    print("\nNext:")
    for line in _next(folder, module):
        print(visible(f"  {line}"))
    print("\nThen make the calculator your own, as the guide tells piece by piece:")
    print(visible(f"  {guide()}"))
    return Exit.DONE


def guide() -> Path:
    """The guide for authors: in the wheel beside this package, in a checkout at its top."""
    package = Path(boltend.__file__).parent
    places = (package / "DEVELOPERS.md", package.parents[1] / "DEVELOPERS.md")
    return next((place for place in places if place.is_file()), Path("DEVELOPERS.md"))


def module_name(folder: str, taken: Iterable[str], *, known: bool = True) -> str:
    """A name for module, plugin and calculator from that of a folder: one that nothing else bears.

    Small letters, digits and _, beginning with a letter. Neither what is `taken`, nor a word or module of
    Python's, nor what a plugin imports from us. With `known=False` the plain name, whoever bears it.
    """
    plain = unicodedata.normalize("NFKD", folder).encode("ascii", "ignore").decode()
    name = re.sub(r"[^a-z0-9]+", "_", plain.lower())[:_LONGEST].strip("_") or _FALLBACK
    if name[0].isdigit():
        name = f"my_{name}"
    if not known:
        return name
    from boltend import plugin, testing  # late: every command imports this module

    busy = {*taken, *plugin.__all__, *testing.__all__, "test", "tests", "src"}
    for tried in (name, f"my_{name}", f"{name}_plugin"):
        if tried not in busy and not _is_known(tried):
            return tried
    number = 2
    while f"{name}_{number}" in busy or _is_known(f"{name}_{number}"):
        number += 1
    return f"{name}_{number}"


def _is_known(name: str) -> bool:
    """Whether Python has a meaning for the name, or a module here bears it already."""
    if keyword.iskeyword(name) or keyword.issoftkeyword(name) or name in sys.stdlib_module_names:
        return True
    try:
        return find_spec(name) is not None
    except (ImportError, ValueError):
        return True


def _taken() -> set[str]:
    plugins = load_plugins()
    return {*plugins.specs, *(each.name for each in plugins)}


def _refuse_full(folder: Path) -> None:
    try:
        if not folder.exists():
            return
        if not folder.is_dir():
            raise BadCall(f"{folder} is a file. Name a folder that is not there yet.")
        first = min((path.name for path in folder.iterdir()), default=None)
    except OSError as error:
        raise BadCall(f"{folder} cannot be read: {error.strerror}. Choose another place.") from None
    if first is not None:
        raise BadCall(
            f"{folder} holds something already ({first}), and nothing of yours is written over. "
            f"Name a new folder, as {folder / 'my-plugin'}."
        )


def _write(folder: Path, module: str) -> dict[str, str]:
    """Write all files or none; each with what it is."""
    names = {"module": module, "distribution": module.replace("_", "-")}
    sources = {
        "pyproject.toml": ("pyproject.toml", "its name and its door to Boltend"),
        f"src/{module}/__init__.py": ("module.py", f"one calculator, {module}"),
        f"tests/test_{module}.py": ("test_module.py", "by hand, through the door, against the contract"),
        "README.md": ("README.md", "what you will tell about it"),
        ".gitignore": ("gitignore", "what is made anew, and no part of it"),
    }
    template = Path(boltend.__file__).parent / "template"
    was_there = folder.exists()
    try:
        for path, (source, _) in sources.items():
            text = (template / f"{source}.txt").read_text(encoding="utf-8")
            target = folder / path
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_text(Template(text).substitute(names), encoding="utf-8")
    except OSError as error:
        _take_back(folder, was_there)
        raise BadCall(f"{folder} cannot be written: {error.strerror}. Choose another place.") from None
    return {path: what for path, (_, what) in sources.items()}


def _take_back(folder: Path, was_there: bool) -> None:
    """Take away what was written: the folder was empty, or not there at all."""
    for path in folder.iterdir() if was_there and folder.is_dir() else ():
        shutil.rmtree(path) if path.is_dir() else path.unlink()
    if not was_there:
        shutil.rmtree(folder, ignore_errors=True)


def _next(folder: Path, module: str) -> list[str]:
    """The commands that come next, with the Python that runs this: another one may not know Boltend."""
    found = shutil.which("python")
    same = found is not None and Path(found).parent == Path(sys.executable).parent
    python = "python" if same else shlex.quote(sys.executable)
    command = "boltend" if same else f"{python} -m boltend"
    return [
        f"cd {shlex.quote(str(folder))}",
        f"{python} -m pip install -e '.[test]'",
        f"{python} -m pytest",
        f'{command} work {module} size="2 1/2 in" wanted=40 --picture',
        command,
    ]
