"""A stranger's plugin: buttons along an edge. It prints wherever it can, as plugins in the making do."""

import os
import sys

from boltend.plugin import (
    Answer,
    Cannot,
    Count,
    Finished,
    Rows,
    Settings,
    Start,
    Table,
    TableRow,
    calculator,
    floor_div,
    found,
    given,
    hookimpl,
    line,
    row,
)

boltend_contract = 1


def noise(when: str) -> None:
    """Print in every way that there is."""
    print("NOISE on stdout", when)
    print("NOISE on stderr", when, file=sys.stderr)
    os.write(1, b"NOISE on descriptor 1\n")
    os.write(2, b"NOISE on descriptor 2\n")


noise("at import")

BUTTONS = Table(
    "buttons",
    {"across": "finished"},
    # Invented for this test.
    {"small": {"across": "1/2 in", "source": "invented"}, "large": {"across": "1 in", "source": "invented"}},
)


@row
class Skip:
    """A stretch without buttons."""

    width: Finished = given("Width")


class ButtonRow:
    """What a row of buttons finds."""

    buttons: Count = found("Buttons")
    pitch: Finished = found("From centre to centre", nearest="size")


@calculator("button_row", asks="How many buttons go along this edge?", found=ButtonRow)
def button_row(
    edge: Finished = given("Length of the edge"),
    apart: Finished = given("At least apart", default="2 in", least="1/2 in"),
    button: TableRow = given("Button", default="small", table="buttons"),
    skips: Rows[Skip] | None = given("Stretches without buttons"),
    *,
    setting: Settings,
) -> Answer:
    """Buttons along an edge: one at each pitch, the pitch at least `apart` plus the button. Inches."""
    noise("in a call")
    room = edge - sum(skip.width for skip in skips or ())
    if room <= 0:
        raise Cannot("skips", "they leave no room on the edge.", "A longer edge would do.")
    across = button["across"]
    many = floor_div(room, apart + across)
    return Answer(
        found={"buttons": many, "pitch": room / many if many else None},
        working=[line("{} buttons, seam {}", many, str(setting.seam))],
    )


@hookimpl
def boltend_calculators():
    """Bring the calculator."""
    return [button_row]


@hookimpl
def boltend_tables():
    """Bring the buttons."""
    return [BUTTONS]


@hookimpl
def boltend_starts():
    """Bring one question."""
    return [Start("I have buttons to sew on", (("Buttons", "button_row", {"edge": "12 in"}),))]
