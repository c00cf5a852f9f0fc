"""In the shell a built-in plugin is opened once somebody asks for what it brings, and nobody can tell."""

from collections.abc import Iterator

import pytest

from boltend.core.host import Host, load_plugins
from boltend.core.host import host as host_module
from boltend.core.host import loading as loading_module
from boltend.core.host.brought import BROUGHT
from boltend.core.host.opening import Opened, open_plugin


@pytest.fixture
def opened(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The names of the plugins that are opened, in turn."""
    names: list[str] = []

    def note(ref: object, *, deep: bool) -> Opened:
        names.append(ref.name)  # type: ignore[attr-defined]  # a PluginRef
        return open_plugin(ref, deep=deep)  # type: ignore[arg-type]

    monkeypatch.setattr(loading_module, "open_plugin", note)
    return names


@pytest.fixture
def host(opened: list[str]) -> Iterator[Host]:
    with Host.load(on_outcome=lambda ticket, outcome: None, patience=0.5) as host:
        yield host


def test_the_names_are_those_that_the_plugins_bring() -> None:
    brings = {p.name: tuple(c.name for c in p.calculators) for p in load_plugins() if p.built_in}
    assert brings == BROUGHT


def test_only_what_is_asked_for_is_opened(host: Host, opened: list[str]) -> None:
    assert opened == []
    backing = host.spec("backing")
    assert backing is not None
    assert opened == ["backing_batting"]
    assert host.spec("batting") is not None
    assert host.spec("borders") is not None
    assert host.table("battings") is not None
    assert opened == ["backing_batting", "borders_binding"]
    assert set(host.specs) == {name for names in BROUGHT.values() for name in names}
    assert sorted(opened) == sorted(BROUGHT)  # each once
    assert host.spec("backing") is backing  # a form is of one specification for as long as it is in sight


@pytest.mark.parametrize(
    "ask",
    [
        lambda host: host.specs,
        lambda host: host.starts,
        lambda host: host.plugins,
        lambda host: host.table("bobbins"),
        lambda host: host.spec("no_such_calculator"),
        lambda host: host.why_absent("no_such_calculator"),
    ],
)
def test_what_asks_for_all_opens_all(host: Host, opened: list[str], ask: object) -> None:
    ask(host)  # type: ignore[operator]  # one of those above
    assert sorted(opened) == sorted(BROUGHT)
    whole = Host(load_plugins())
    assert list(host.specs) == list(whole.specs)
    assert [start.question for start in host.starts] == [start.question for start in whole.starts]
    assert host.why_absent("no_such_calculator") == whole.why_absent("no_such_calculator")
    whole.close()


def test_a_name_that_moved_is_found_all_the_same(
    host: Host, opened: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(host_module, "PLUGIN_OF", {"backing": "fabric_mix"})
    assert host.spec("backing") is not None
    assert host.spec("borders") is not None
    assert sorted(opened) == sorted(BROUGHT)
