"""Borders and binding: what a top really measures, what goes round it, and what that takes."""

from boltend.plugin import Calculator, Start, hookimpl
from boltend_borders_binding.binding import binding
from boltend_borders_binding.borders import borders
from boltend_borders_binding.measured_top import measured_top

boltend_contract = 1


@hookimpl
def boltend_calculators() -> list[Calculator]:
    """The calculators of this plugin."""
    return [measured_top, borders, binding]


@hookimpl
def boltend_starts() -> list[Start]:
    """A question for the start screen."""
    return [
        Start(
            question="How much do the borders and the binding round my top take?",
            tabs=(
                ("Top", "measured_top", {}),
                ("Borders", "borders", _linked("Top", "top_width", "top_height")),
                ("Binding", "binding", _linked("Borders", "width", "height")),
            ),
        )
    ]


def _linked(tab: str, width: str, height: str) -> dict[str, object]:
    return {width: {"from": tab, "take": "width"}, height: {"from": tab, "take": "height"}}
