"""A sheet as PDF, through reportlab: the same sheet gives the same bytes, today and in a year."""

from collections.abc import Iterator
from dataclasses import replace
from io import BytesIO

from reportlab.lib.pagesizes import A4, LETTER
from reportlab.pdfgen.canvas import Canvas

from boltend.core.paper.model import Block, Heading, Items, Picture, Sheet, Table, Text
from boltend.core.paper.pdf_fonts import PLAIN, lines_of
from boltend.core.paper.pdf_pages import Placed, on_pages
from boltend.core.paper.pdf_pen import Pen
from boltend.core.paper.pdf_pictures import picture_slabs, put_sketch
from boltend.core.paper.pdf_slabs import FAINT, Look, Slab, heading_slabs, items_slabs, text_slabs
from boltend.core.paper.pdf_tables import table_slabs
from boltend.core.paper.sketch import sketch, smaller

PAPERS: dict[str, tuple[float, float]] = {"a4": A4, "letter": LETTER}
"""Width and height in points."""

MARGIN, FOOT = 42.0, 54.0
_TRIES = ((1.0, 1.0), (1.0, 0.8), (1.0, 0.6), (1.0, 0.45), (0.9, 0.45), (0.8, 0.4), (0.7, 0.35), (0.6, 0.3))
"""How a sheet of one page is made to fit: the letters' scale and the pictures', the best first."""


def pdf_bytes(sheet: Sheet, paper: str = "a4") -> bytes:
    """The sheet as a file on paper that `PAPERS` names."""
    width, height = PAPERS[paper]
    pages = laid_out(sheet, paper)
    file = BytesIO()
    canvas = Canvas(file, pagesize=(width, height), invariant=1, pageCompression=1, lang="en")
    canvas.setTitle(sheet.name)
    canvas.setCreator("Boltend")
    canvas.setAuthor("")
    pen = Pen(canvas, height)
    for number, page in enumerate(pages, 1):
        for slab, y in page:
            if slab.mark is not None:
                _marked(canvas, slab.mark, height - MARGIN - y)
            slab.draw(pen, MARGIN, MARGIN + y)
        _foot(pen, sheet, width, f"{number} of {len(pages)}")
        canvas.showPage()
    canvas.save()
    return file.getvalue()


def picture_page(picture: Picture, width: float, height: float) -> bytes | None:
    """One picture alone on a page of so many points, as large as it can be; None where there is nothing."""
    drawn = sketch(picture, width, height)
    if drawn is None:
        return None
    file = BytesIO()
    canvas = Canvas(file, pagesize=(width, height), invariant=1)
    put_sketch(Pen(canvas, height), drawn, max(0.0, (width - drawn.width) / 2), 0.0)
    canvas.showPage()
    canvas.save()
    return file.getvalue()


def laid_out(sheet: Sheet, paper: str = "a4") -> list[list[Placed]]:
    """What stands on which page. A sheet of one page has several only where the least letters need them."""
    width, height = PAPERS[paper]
    room = (width - 2 * MARGIN, height - MARGIN - FOOT)
    if not sheet.one_page:
        return on_pages(_slabs(sheet, Look(), 1.0, *room), room[1])
    for letters, pictures in _TRIES:
        pages = on_pages(_slabs(sheet, Look(letters), pictures, *room), room[1])
        if len(pages) == 1:
            return pages
    return on_pages(_slabs(sheet, Look(), _TRIES[0][1], *room), room[1])


def _slabs(sheet: Sheet, look: Look, pictures: float, width: float, height: float) -> Iterator[Slab]:
    before: Block | None = None
    for block in sheet.blocks:
        slabs = list(_block(block, look, pictures, width, height))
        if slabs and isinstance(before, Heading) and isinstance(block, Text):
            slabs[-1] = replace(
                slabs[-1], keep=True
            )  # a heading and its line say nothing without what follows
        yield from slabs
        before = block


def _block(block: Block, look: Look, pictures: float, width: float, height: float) -> Iterator[Slab]:
    match block:
        case Heading():
            yield from heading_slabs(block, look, width)
        case Text():
            yield from text_slabs(block, look, width)
        case Items():
            yield from items_slabs(block, look, width)
        case Table():
            yield from table_slabs(block, look, width)
        case Picture():
            yield from picture_slabs(smaller(block, pictures), look, width, height)


def _marked(canvas: Canvas, heading: Heading, y: float) -> None:
    """A place that the reader's list of contents jumps to."""
    canvas.bookmarkHorizontal(heading.key, 0, y + 8)
    canvas.addOutlineEntry(heading.words, heading.key, heading.level - 1, closed=heading.level > 1)


def _foot(pen: Pen, sheet: Sheet, width: float, number: str) -> None:
    y = pen.height - FOOT / 2 - 4
    room = width - 2 * MARGIN - 60
    name = next(lines_of(sheet.name, PLAIN, 8, room))
    pen.text(MARGIN, y, name if name == sheet.name else f"{name}…", 8, colour=FAINT)
    pen.text(width - MARGIN, y, number, 8, colour=FAINT, anchor="end")
