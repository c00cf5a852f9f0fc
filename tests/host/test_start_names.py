"""A start that names what its calculators do not know is told when it is loaded, not when it is chosen."""

import pytest

from boltend.core.host import load_plugins
from boltend.core.host.soundness import misnamed, start_problem
from boltend.plugin import Start

TOP = ("Top", "measured_top", {"widths": "60 in", "heights": "72 in"})
WIDTH = {"from": "Top", "take": "width"}


def start(calculator: str, givens: dict[str, object]) -> Start:
    return Start("What now?", (TOP, ("It", calculator, givens)))


@pytest.fixture(scope="module")
def specs() -> dict[str, object]:
    return dict(load_plugins().specs)


@pytest.mark.parametrize(
    ("it", "said"),
    [
        (start("binding", {"widht": WIDTH}), "tab 'It': binding has no given 'widht'. Did you mean width?"),
        (
            start("binding", {"width": {"from": "Top", "take": "widths"}}),
            "tab 'It', width: measured_top finds no 'widths'. Did you mean width?",
        ),
        (
            start("borders", {"borders": [{"width": "3 in"}, {"wide": "3 in"}]}),
            "tab 'It': borders has no column 'wide'.",
        ),
        (
            start("borders", {"borders": [{"width": {"from": "Top", "take": "girth"}}]}),
            "tab 'It', borders: measured_top finds no 'girth'.",
        ),
    ],
)
def test_a_slip_in_a_name(specs: dict[str, object], it: Start, said: str) -> None:
    told = misnamed(it, specs)  # type: ignore[arg-type]  # specifications by name
    assert told is not None
    assert told.startswith(said)
    assert start_problem(it) is None


def test_a_link_in_a_cell_leads_to_a_tab(specs: dict[str, object]) -> None:
    astray = start("borders", {"borders": [{"width": {"from": "Topp", "take": "width"}}]})
    assert start_problem(astray) == "start 'What now?', tab 'It', borders: its link leads to no tab."
    right = start("borders", {"top_width": WIDTH, "borders": [{"width": WIDTH}]})
    assert start_problem(right) is None
    assert misnamed(right, specs) is None  # type: ignore[arg-type]  # specifications by name


def test_through_the_door_the_rest_of_the_plugin_stays(maker, load) -> None:
    head = '@hookimpl\ndef boltend_starts(): return [Start("A?", (("T", "wheel_twice", {"may": 3}),))]\n'
    maker.simple("wheel", head=head)
    host = load()
    plugin = host.plugins.named("wheel")
    assert (plugin.state, list(host.specs), host.starts) == ("faulty", ["wheel_twice"], ())
    assert "start 'A?', tab 'T': wheel_twice has no given 'may'." in plugin.error.why
