"""What is mutated: the modules of every plugin, but for those left out here, each with its reason."""

import hashlib
import json
import os
import tempfile
import tomllib
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import asdict, dataclass
from fnmatch import fnmatch
from pathlib import Path

from mutate import Site, sites
from trial import Lab, Test

ROOT = Path(__file__).parents[2]
OTHERS = ("tests/references", "tests/testing")
EXPLAINED = Path(__file__).with_name("survivors.toml")

LEFT_OUT: Mapping[str, str] = {
    "__init__.py": "declares what the plugin offers, and computes nothing",
    "*starts.py": "questions and their tabs, as data",
    "*picture.py": "drawn to be looked at: nobody reads a number off it; geometry tests hold the shapes",
    "asked.py": "one record without a method",
    "battings.py": "a table of rows with their sources",
    "beds.py": "a table of rows with their sources",
    "bobbins.py": "a table of rows with their sources",
    "precuts.py": "a table of rows with their sources",
    "threads.py": "a table of rows with their sources",
}
"""By the name of a module: why it is not mutated."""
DRAWS = {
    ("batting.py", "_picture"),
    ("yield_words.py", "picture"),
    ("plan_words.py", "sets_picture"),
    ("plan_words.py", "_strips"),
}
"""Functions of other modules that draw: left out as the modules of pictures are."""


@dataclass(frozen=True, slots=True)
class Explained:
    """A survivor that changes nothing a test could see, and why."""

    site: Site
    why: str


def names() -> list[str]:
    """Every plugin of the tree."""
    return sorted(folder.name for folder in (ROOT / "plugins").iterdir() if (folder / "src").is_dir())


def package(name: str) -> Path:
    """The folder of a plugin's modules."""
    return ROOT / "plugins" / name / "src" / f"boltend_{name}"


def modules(name: str) -> list[Path]:
    """The modules of a plugin that are mutated."""
    files = sorted(package(name).rglob("*.py"))
    return [file for file in files if not any(fnmatch(file.name, pattern) for pattern in LEFT_OUT)]


def all_sites(name: str) -> list[Site]:
    """Every site of a plugin."""
    return [
        site
        for file in modules(name)
        for site in sites(file.read_text(encoding="utf-8"), file.relative_to(ROOT).as_posix())
        if (file.name, site.outer) not in DRAWS
    ]


def explained() -> list[Explained]:
    """The survivors that `survivors.toml` explains."""
    entries = tomllib.loads(EXPLAINED.read_text(encoding="utf-8")).get("survivor", [])
    return [
        Explained(
            Site(e["file"], e["function"], e["kind"], e["text"], e["ordinal"], line=0, outer=""), e["why"]
        )
        for e in entries
    ]


def stale(entries: Iterable[Explained]) -> list[Explained]:
    """The entries of sites that are no more."""
    there = {site for name in names() for site in all_sites(name)}
    return [entry for entry in entries if entry.site not in there]


def drawn(chosen: Sequence[Site], many: int, seed: int) -> list[Site]:
    """So many of the sites, by lot: a small sample is part of a larger one, a new site moves no other."""

    def lot(site: Site) -> bytes:
        words = (str(seed), site.file, site.function, site.kind, site.text, str(site.ordinal))
        return hashlib.sha256("\0".join(words).encode()).digest()

    taken = set(sorted(chosen, key=lot)[:many])
    return [site for site in chosen if site in taken]


def state() -> str:
    """What all files that a trial may read hold, as one digest."""
    folders = [ROOT / name for name in ("src", "shared", "plugins", "tests")]
    files = sorted(
        file for folder in folders for kind in ("py", "toml") for file in folder.rglob(f"*.{kind}")
    )
    return hashlib.sha256(b"".join(file.read_bytes() for file in files)).hexdigest()


def learnt(lab: Lab, name: str) -> tuple[list[Test], list[Test]]:
    """A plugin's own tests, and the others that concern it; kept for the next run until a file changes."""
    own = _kept(lab, [f"plugins/{name}/tests"], [name])
    others = _kept(lab, OTHERS, names())
    mine = f"plugins/{name}/"
    concern = {test.file for test in others if any(reached.startswith(mine) for reached in test.reaches)}
    return own, [test for test in others if test.file in concern]


def _kept(lab: Lab, paths: Iterable[str], plugins: Iterable[str]) -> list[Test]:
    paths = list(paths)
    read = [file for path in paths for file in sorted((ROOT / path).rglob("*.py"))]
    read += [file for name in plugins for file in sorted(package(name).rglob("*.py"))]
    read.append(Path(__file__).with_name("trial.py"))
    digest = hashlib.sha256(b"".join(file.read_bytes() for file in read)).hexdigest()
    folder = Path(tempfile.gettempdir()) / f"boltend-mutations-{os.getuid()}"
    folder.mkdir(mode=0o700, exist_ok=True)
    kept = folder / f"{digest}.json"
    if kept.is_file():
        rows = json.loads(kept.read_text(encoding="utf-8"))
        return [Test(**{**row, "reaches": frozenset(row["reaches"])}) for row in rows]
    tests = lab.learn(paths)
    rows = [{**asdict(test), "reaches": sorted(test.reaches)} for test in tests]
    kept.write_text(json.dumps(rows), encoding="utf-8")
    return tests
