"""The fabrics in a list: each with all that it says of itself, as far as there is room."""

from collections.abc import Container, Sequence

from rich.cells import cell_len
from textual.content import Content
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from boltend.core.project.model import FabricRow
from boltend.shell.texts import clipped, padded, shown
from boltend.shell.typed import text_of

COLUMNS = (
    ("name", "Fabric"), ("form", "Form"), ("price", "Price"), ("have", "In hand"), ("printed", "Printed"),
    ("usable_width", "Usable"), ("one_way", "One way"), ("colour", "Colour"),
)  # fmt: skip
UNUSED = "used by nothing"
"""Behind a fabric that no tab names."""

_WIDEST = 22
_ALWAYS = 4
"""The first columns are shown even if no fabric says anything there: what is missing is worth seeing."""


def cell_texts(row: FabricRow, wrong: frozenset[str]) -> list[str]:
    """A fabric's cells as text; what is wrong has its sign."""
    texts = []
    for name, _ in COLUMNS:
        text = shown(text_of(row.data.get(name)))
        text = "" if name == "one_way" and text == "no" else text
        texts.append(f"! {text}" if name in wrong else text)
    return texts


def lay_out(table: Sequence[Sequence[str]], room: int) -> list[str]:
    """The rows of a table as lines, without empty columns and without the last where there is no room."""
    kept = [n for n in range(len(table[0])) if n < _ALWAYS or any(row[n] for row in table[1:])]
    table = [[row[n] for n in kept] for row in table]
    widths = [min(_WIDEST, max(map(cell_len, column))) for column in zip(*table, strict=True)]
    while len(widths) > 1 and sum(widths) + 2 * (len(widths) - 1) > room:
        widths.pop()
    return [
        clipped("  ".join(padded(c, w) for c, w in zip(row, widths, strict=False)).rstrip(), room)
        for row in table
    ]


class FabricList(OptionList):
    """The list; its first line is the head of the columns, which cannot be chosen."""

    DEFAULT_CSS = """
    FabricList { height: auto; max-height: 8; border: none; padding: 0; background: $panel; }
    FabricList > .option-list--option-disabled { color: $text-muted; }
    FabricList > .option-list--option-highlighted { color: $foreground; background: $panel;
                                                    text-style: bold reverse; }
    """

    def __init__(self) -> None:
        super().__init__(compact=True, markup=False)
        self._shown: list[str] = []

    def show(
        self,
        rows: Sequence[FabricRow],
        wrong: Sequence[frozenset[str]],
        unused: Container[int],
        at: int | None,
    ) -> None:
        """Show these fabrics, the one at `at` chosen; `unused` are the numbers of those that no tab names."""
        table = [[title for _, title in COLUMNS], *(map(cell_texts, rows, wrong))]
        # The chosen one has a sign: it also shows while the form has the focus, and without colour.
        room = (self.size.width or 76) - 2
        lines = lay_out(table, room)
        width = max(map(cell_len, lines))
        if width + len(UNUSED) + 2 <= room:
            lines = [f"{padded(x, width)}  {UNUSED}" if n in unused else x for n, x in enumerate(lines, -1)]
        lines = [("> " if n == at else "  ") + line for n, line in enumerate(lines, -1)]
        with self.prevent(OptionList.OptionHighlighted):
            if len(lines) != len(self._shown):
                self.clear_options()
                self.add_options(Option(Content(line), disabled=n == 0) for n, line in enumerate(lines))
            else:
                for n, line in enumerate(lines):
                    if line != self._shown[n]:
                        self.replace_option_prompt_at_index(n, Content(line))
            self._shown = lines
            self.highlighted = None if at is None else at + 1
