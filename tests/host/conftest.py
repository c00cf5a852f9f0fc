"""Plugins made on the fly: a module and the least of a dist-info folder, put on the path of this process."""

import sys
import textwrap
from collections.abc import Callable, Iterator
from importlib.metadata import EntryPoint, PathDistribution
from pathlib import Path

import pytest

from boltend.core.contract import Settings
from boltend.core.host import Call, Host, Outcome

HEAD = """\
import os, sys, threading, time
from fractions import Fraction
from boltend.plugin import *

boltend_contract = 1


class Made:
    made: Count = found("Made")
"""

CALCULATOR = '''

@calculator("{name}", asks="How many are made?", found=Made)
def {name}(many: Count = given("How many", default="1"){extra}) -> Answer:
    """Twice as many are made. {where}"""
{body}

'''

HOOK = """

@hookimpl
def boltend_calculators():
    return [{names}]
"""

TWICE = 'return Answer(found={"made": 2 * many})'


class Maker:
    """Makes distributions in a folder of their own that lies on the import path."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.modules: list[str] = []
        self.order: list[EntryPoint] = []

    def plugin(self, name: str, source: str, *, distribution: str = "", module: str = "") -> EntryPoint:
        """A distribution with one plugin of the given source."""
        module = module or f"stranger_{name}_{self.folder.name}".replace("-", "_")
        distribution = distribution or f"stranger-{name}"
        (self.folder / f"{module}.py").write_text(textwrap.dedent(source), encoding="utf-8")
        info = self.folder / f"{distribution.replace('-', '_')}-1.0.dist-info"
        if distribution == "boltend":  # several plugins of one distribution, out of sight of a real scan
            info = self.folder / "ours" / name / "boltend-1.0.dist-info"
        info.mkdir(parents=True)
        (info / "METADATA").write_text(f"Metadata-Version: 2.1\nName: {distribution}\nVersion: 1.0\n")
        (info / "entry_points.txt").write_text(f"[boltend.plugins]\n{name} = {module}\n")
        self.modules.append(module)
        (entry_point,) = PathDistribution(info).entry_points
        self.order.append(entry_point)
        return entry_point

    def simple(
        self,
        name: str,
        body: str = TWICE,
        *,
        calculator: str = "",
        extra: str = "",
        head: str = "",
        built_in: bool = False,
    ) -> EntryPoint:
        """A plugin with one calculator that doubles `many`, or does what `body` says."""
        calculator = calculator or f"{name}_twice"
        source = HEAD + textwrap.dedent(head)
        source += CALCULATOR.format(
            name=calculator, extra=extra, where=name, body=textwrap.indent(textwrap.dedent(body), "    ")
        )
        source += HOOK.format(names=calculator)
        return self.plugin(name, source, distribution="boltend" if built_in else "")


@pytest.fixture
def maker(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Maker]:
    folder = tmp_path / f"site{abs(hash(tmp_path)) % 10**8}"
    folder.mkdir()
    monkeypatch.syspath_prepend(folder)
    monkeypatch.setenv("BOLTEND_CONFIG", str(tmp_path / "config"))
    made = Maker(folder)
    yield made
    for module in made.modules:
        sys.modules.pop(module, None)


@pytest.fixture
def load(maker: Maker) -> Iterator[Callable[..., Host]]:
    """Load the made plugins into a host that is closed at the end."""
    hosts: list[Host] = []

    def load(**settings: object) -> Host:
        hosts.append(Host.load(maker.order, **settings))
        return hosts[-1]

    yield load
    for host in hosts:
        host.close()


@pytest.fixture
def work() -> Callable[..., Outcome]:
    """Call a calculator of a host that waits."""

    def work(host: Host, calculator: str, ticket: object = "ticket", **args: object) -> Outcome:
        spec = host.specs[calculator]
        outcome = host.start(Call(spec, args or {"many": 3}, Settings()), ticket)
        assert outcome is not None
        return outcome

    return work
