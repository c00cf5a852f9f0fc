"""Borders and binding: what a top really measures, what goes round it, and what that takes."""

from boltend.plugin import Calculator, Start, hookimpl
from boltend_borders_binding.binding import binding
from boltend_borders_binding.border_repeat import border_repeat
from boltend_borders_binding.border_to_size import border_to_size
from boltend_borders_binding.borders import borders
from boltend_borders_binding.measured_blocks import measured_blocks
from boltend_borders_binding.measured_top import measured_top

boltend_contract = 1


@hookimpl
def boltend_calculators() -> list[Calculator]:
    """The calculators of this plugin."""
    return [measured_blocks, measured_top, borders, border_to_size, border_repeat, binding]


@hookimpl
def boltend_starts() -> list[Start]:
    """A question for the start screen."""
    return [
        Start(
            question="How much do the borders and the binding round my top take?",
            tabs=(
                ("Top", "measured_top", {}),
                (
                    "Borders",
                    "borders",
                    {
                        **_linked("Top", "top_width", "top_height"),
                        "borders": [{"name": "Border 1", "fabric": "Border 1"}],
                    },
                ),
                ("Binding", "binding", {**_linked("Borders", "width", "height"), "fabric": "Binding"}),
            ),
        ),
        Start(
            question="Which borders bring my top to the size I want?",
            tabs=(
                ("Top", "measured_top", {}),
                ("Borders to size", "border_to_size", _linked("Top", "top_width", "top_height")),
                (
                    "Borders",
                    "borders",
                    {
                        **_linked("Top", "top_width", "top_height"),
                        **_linked("Borders to size", "target_width", "target_height"),
                        "borders": _two_borders(),
                    },
                ),
                ("Binding", "binding", {**_linked("Borders", "width", "height"), "fabric": "Binding"}),
            ),
        ),
        Start(
            question="Is the fabric that I have left enough for my borders?",
            tabs=(("Borders", "borders", {"borders": [{"name": "Border 1", "fabric": "Border 1"}]}),),
        ),
        Start(
            question="Does a pieced border fit my top, and what spacer does it need?",
            tabs=(
                ("Top", "measured_top", {}),
                ("Repeat", "border_repeat", _linked("Top", "top_width", "top_height")),
            ),
        ),
        Start(
            question="My blocks came out unequal: what do I trim them to?",
            tabs=(("Blocks", "measured_blocks", {}),),
        ),
    ]


def _two_borders() -> list[dict[str, object]]:
    """The two that are found, each of a fabric of its own: To buy tells them apart."""
    return [
        {
            "name": name,
            "fabric": f"{name.capitalize()} border",
            "width": {"from": "Borders to size", "take": f"border_{number}_sides"},
            "width_ends": {"from": "Borders to size", "take": f"border_{number}_ends"},
        }
        for number, name in ((1, "inner"), (2, "outer"))
    ]


def _linked(tab: str, width: str, height: str) -> dict[str, object]:
    return {width: {"from": tab, "take": "width"}, height: {"from": tab, "take": "height"}}
