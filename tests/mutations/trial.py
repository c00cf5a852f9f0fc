"""Tries one mutant with the tests that reach it, and never edits the tree.

This process imports what all tests need, but no plugin. Every trial is a fork of it: there an import hook
compiles the mutated module in the original's stead, and pytest runs. Which test reaches which function is
learnt once: a run with every function of the plugins marked, so that a mutant meets only the tests that enter
its function, the quickest first.

1. the plugin's own tests, each property with few examples;
2. the tests of `tests/references` and `tests/testing` that reach the function, likewise;
3. what is still alive meets those properties again, with all the examples that they ask for.

A test that starts another process runs the original there. Hypothesis is derandomised and does not shrink.
"""

import ast
import builtins
import importlib.abc
import importlib.util
import json
import os
import resource
import select
import signal
import sys
import threading
import time
from collections.abc import Callable, Iterable, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from types import CodeType, ModuleType
from typing import Any

from mutate import MODULE, Site, mutant

FEW = 25
"""Examples of a property in the first rounds."""
MOST_MEMORY = 4 << 30
KILLED, SURVIVED, TIMED_OUT = "killed", "survived", "timed out"
_OPTIONS = ("-q", "-x", "--assert=plain", "-p", "no:cacheprovider")


@dataclass(frozen=True, slots=True)
class Test:
    """What is known of one test: seconds, whether it has more examples than `FEW`, what it reaches."""

    name: str
    seconds: float
    more: bool
    reaches: frozenset[str]

    @property
    def file(self) -> str:
        """The file that it stands in."""
        return self.name.partition("::")[0]


@dataclass(frozen=True, slots=True)
class Verdict:
    """What became of a mutant, by which test, and in what time."""

    what: str
    by: str
    seconds: float


def warm() -> None:
    """Import what every trial needs. Only before the first trial, and never a plugin."""
    import hypothesis
    import pytest  # noqa: F401
    import shapely.affinity
    import shapely.geometry
    import shapely.ops  # noqa: F401

    import boltend.core.flow
    import boltend.core.host
    import boltend.plugin
    import boltend.testing.kit  # noqa: F401
    import boltend_shared  # noqa: F401

    phases = (hypothesis.Phase.explicit, hypothesis.Phase.generate)
    hypothesis.settings.register_profile(
        "mutations", derandomize=True, database=None, deadline=None, phases=phases
    )
    hypothesis.settings.load_profile("mutations")


def forked(work: Callable[[], object], seconds: float) -> Any:
    """What `work` returns in a fork of this process, as JSON; None where it ends in no time or not at all."""
    read, write = os.pipe()
    child = os.fork()
    if child == 0:
        try:
            os.close(read)
            os.setsid()
            resource.setrlimit(resource.RLIMIT_AS, (MOST_MEMORY, MOST_MEMORY))
            nowhere = os.open(os.devnull, os.O_RDWR)
            for stream in (0, 1, 2):
                os.dup2(nowhere, stream)
            with os.fdopen(write, "w") as out:
                json.dump(work(), out)
        finally:
            os._exit(0)
    os.close(write)
    said, until = b"", time.monotonic() + seconds
    try:
        while (left := until - time.monotonic()) > 0:
            if select.select([read], [], [], left)[0]:
                part = os.read(read, 1 << 16)
                if not part:
                    break
                said += part
    finally:
        with suppress(ProcessLookupError):
            os.killpg(child, signal.SIGKILL)  # the child's own group: what it started ends with it
        os.waitpid(child, 0)
        os.close(read)
    try:
        return json.loads(said)
    except ValueError:
        return None


class Instead(importlib.abc.MetaPathFinder, importlib.abc.Loader):
    """An import hook: these modules are made from code that was compiled from a changed tree."""

    def __init__(self, files: Mapping[str, Path], code: Callable[[Path], CodeType]) -> None:
        self.files, self.code = files, code

    def find_spec(self, fullname: str, path: Any = None, target: Any = None) -> Any:
        file = self.files.get(fullname)
        if file is None:
            return None
        package = [str(file.parent)] if file.name == "__init__.py" else None
        return importlib.util.spec_from_file_location(
            fullname, file, loader=self, submodule_search_locations=package
        )

    def create_module(self, spec: Any) -> None:
        return None

    def exec_module(self, module: ModuleType) -> None:
        exec(self.code(self.files[module.__name__]), module.__dict__)


class Round:
    """A pytest plugin: takes the tests named, in that order, with few examples or all, and notes each."""

    def __init__(self, order: Mapping[str, float] | None, few: bool) -> None:
        self.order, self.few = order, few
        self.notes: dict[str, Any] = {}
        self.failed = ""
        self.until = float("inf")

    def pytest_collection_modifyitems(self, config: Any, items: list[Any]) -> None:
        if self.order is not None:
            place = {name: at for at, name in enumerate(self.order)}
            items[:] = sorted((i for i in items if i.nodeid in place), key=lambda i: place[i.nodeid])
        for item in items:
            self.notes[item.nodeid] = {
                "more": self.lessen(item),
                "seconds": 0.0,
                "reaches": [],
                "passed": True,
            }

    def lessen(self, item: Any) -> bool:
        """Whether a property asks for more than `FEW` examples; it then gets few, in the first rounds."""
        import hypothesis

        function = getattr(item, "obj", None)
        function = getattr(function, "__func__", function)
        asked = getattr(function, "_hypothesis_internal_use_settings", None)
        if asked is None or asked.max_examples <= FEW:
            return False
        if self.few:
            function._hypothesis_internal_use_settings = hypothesis.settings(asked, max_examples=FEW)
        return True

    def pytest_runtest_logstart(self, nodeid: str) -> None:
        usual = self.order[nodeid] if self.order else 60.0
        self.until = time.monotonic() + 8 + 8 * usual
        builtins.__dict__.setdefault("_reached_by_a_test", set()).clear()

    def pytest_runtest_logreport(self, report: Any) -> None:
        note = self.notes[report.nodeid]
        note["seconds"] += report.duration
        if report.failed:
            note["passed"] = False
            self.failed = self.failed or report.nodeid

    def pytest_collectreport(self, report: Any) -> None:
        if report.failed:
            self.failed = self.failed or f"{report.nodeid}, as it is collected"

    def pytest_runtest_logfinish(self, nodeid: str) -> None:
        self.notes[nodeid]["reaches"] = sorted(builtins.__dict__["_reached_by_a_test"])
        self.until = float("inf")


def _pytest(root: Path, paths: Iterable[str], round_: Round, options: Sequence[str]) -> int:
    import pytest

    os.chdir(root)
    names = [str(root / path) for path in paths]
    return int(pytest.main([*options, "--rootdir", str(root), *names], plugins=[round_]))


class Lab:
    """The plugins under `root`, the tests, and which test reaches what."""

    def __init__(self, root: Path, packages: Mapping[str, Path]) -> None:
        self.root = root
        self.files = {
            ".".join((name, *file.relative_to(folder).with_suffix("").parts)).removesuffix(".__init__"): file
            for name, folder in packages.items()
            for file in sorted(folder.rglob("*.py"))
        }

    def learn(self, paths: Sequence[str], seconds: float = 1800) -> list[Test]:
        """Run these tests with every function marked. Raises RuntimeError where one fails as it is."""

        def work() -> object:
            sys.meta_path.insert(0, Instead(self.files, self._marked))
            round_ = Round(None, few=True)
            ended = _pytest(self.root, paths, round_, [o for o in _OPTIONS if o != "-x"])
            return {"notes": round_.notes, "failed": round_.failed, "ended": ended}

        said = forked(work, seconds)
        if said is None:
            raise RuntimeError(f"The tests of {', '.join(paths)} do not end.")
        if said["failed"] or said["ended"]:
            raise RuntimeError(f"A test fails without any mutant: {said['failed'] or said['ended']}")
        return [
            Test(name, note["seconds"], note["more"], frozenset(note["reaches"]))
            for name, note in said["notes"].items()
        ]

    def _marked(self, file: Path) -> CodeType:
        tree = ast.parse(file.read_text(encoding="utf-8"))
        name = str(file.relative_to(self.root))
        for outer, function in _functions(tree.body, ""):
            mark = ast.parse(f"_reached_by_a_test.add({name + ':' + outer!r})").body
            at = 1 if ast.get_docstring(function) is not None else 0
            function.body[at:at] = mark
        builtins.__dict__.setdefault("_reached_by_a_test", set())
        return compile(ast.fix_missing_locations(tree), str(file), "exec")

    def trial(self, site: Site, own: Sequence[Test], others: Sequence[Test]) -> Verdict:
        """What becomes of the mutant of one site."""
        begin = time.monotonic()
        file = self.root / site.file
        tree = mutant(file.read_text(encoding="utf-8"), site)
        mark = f"{site.file}:{site.outer}"
        entered = site.outer == MODULE or any(mark in test.reaches for test in (*own, *others))
        reaching = _reaching((own, others), site)
        rounds = [(tests, True) for tests in reaching]
        rounds.append(([test for tests in reaching for test in tests if test.more], False))
        for tests, few in rounds:
            what, by = self._round(file, tree, tests, few)
            if what != SURVIVED:
                return Verdict(what, by, time.monotonic() - begin)
        return Verdict(SURVIVED, "" if entered else "no test enters it", time.monotonic() - begin)

    def _round(self, file: Path, tree: ast.Module, tests: Sequence[Test], few: bool) -> tuple[str, str]:
        if not tests:
            return SURVIVED, ""
        scale = 1.0 if few else 10.0
        order = {test.name: test.seconds * scale for test in sorted(tests, key=lambda t: t.seconds)}
        module = {name: path for name, path in self.files.items() if path == file}

        def work() -> object:
            sys.meta_path.insert(0, Instead(module, lambda _: compile(tree, str(file), "exec")))
            round_ = Round(order, few)
            threading.Thread(target=_watch, args=(round_,), daemon=True).start()
            ended = _pytest(self.root, dict.fromkeys(test.file for test in tests), round_, _OPTIONS)
            return {"failed": round_.failed or (f"pytest ends with {ended}" if ended else "")}

        said = forked(work, 120 + 9 * sum(order.values()))
        if said is None:
            return TIMED_OUT, ""
        return (KILLED, said["failed"]) if said["failed"] else (SURVIVED, "")


def _watch(round_: Round) -> None:
    while time.monotonic() < round_.until:
        time.sleep(0.1)
    os._exit(1)  # which writes nothing, and so is a time-out


def _reaching(groups: Sequence[Sequence[Test]], site: Site) -> list[list[Test]]:
    """The tests that enter the function.

    What runs as the module is imported is seen by any test of a file that has to do with the module; so is
    what a cache remembers from one test to the next.
    """
    mark, module = f"{site.file}:{site.outer}", f"{site.file}:"
    found = [[test for test in tests if mark in test.reaches] for tests in groups]
    if any(found):
        return found
    concern = {
        test.file for tests in groups for test in tests if any(r.startswith(module) for r in test.reaches)
    }
    return [[test for test in tests if test.file in concern] for tests in groups]


def _functions(body: Iterable[ast.stmt], within: str) -> Iterable[tuple[str, ast.FunctionDef]]:
    """The outermost functions and methods, each with its qualified name, but for those with a memory."""
    for node in body:
        if isinstance(node, ast.FunctionDef):
            if any("lru_cache" in ast.unparse(each) for each in node.decorator_list):
                continue
            yield within + node.name, node
        elif isinstance(node, ast.ClassDef):
            yield from _functions(node.body, f"{within}{node.name}.")
