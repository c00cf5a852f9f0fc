"""Pictures by a terminal's own graphics, where the person asked for them: an extra, `boltend[sharp]`.

A picture goes the way of paper: one page as PDF, which pdfium turns into dots, which textual-image hands to
the terminal, as Sixel or by kitty's protocol. Nothing asks the terminal what it can: such questions cost
tenths of a second, and the answers get into what is typed. Who wants it says so in `config.toml`.
"""

from importlib import import_module
from io import BytesIO
from typing import Any

from textual.widget import Widget

from boltend.core.paper.model import Picture

WAYS = {"sixel": "SixelImage", "kitty": "TGPImage"}
"""How a terminal may draw, each with the widget that has it do so."""

_POINTS = 0.5
"""Points of paper to a dot of the screen: small letters are then as high as the terminal's."""

_ready: dict[str, Any] = {}


def make_ready(way: str) -> str:
    """Import what draws; what is wrong in words, or nothing.

    Before the app starts, for textual-image measures a cell with the terminal then.
    """
    _ready.clear()
    try:
        found = {name: import_module(name) for name in ("textual_image.widget", "pypdfium2")}
        found["cell"] = import_module("textual_image._terminal").get_cell_size()
    except Exception as error:  # libraries of others: whatever it is, pictures stay in cells
        return f"pictures: “{way}” needs pip install 'boltend[sharp]' ({type(error).__name__}: {error})."
    _ready.update(found, way=way)
    return ""


def is_ready() -> bool:
    """Whether pictures can be drawn sharp."""
    return "way" in _ready


def widget_of(picture: Picture, width: int, rows: int) -> Widget | None:
    """A widget of so many cells, the picture as large as it can be; None where there is nothing to draw."""
    image = image_of(picture, width * _ready["cell"].width, rows * _ready["cell"].height)
    if image is None:
        return None
    widget: Widget = getattr(_ready["textual_image.widget"], WAYS[_ready["way"]])(image)
    widget.styles.width, widget.styles.height = width, rows
    return widget


def image_of(picture: Picture, width: int, height: int) -> Any:
    """The picture as a Pillow image of so many dots; None where there is nothing to draw."""
    from boltend.core.paper.pdf import picture_page

    page = picture_page(picture, width * _POINTS, height * _POINTS)
    if page is None:
        return None
    document = _ready["pypdfium2"].PdfDocument(BytesIO(page))
    try:
        return document[0].render(scale=1 / _POINTS).to_pil()
    finally:
        document.close()
