"""The plan as PDF, read back: every line of both lists, every fraction and name, the same bytes each time."""

import os
import re
import subprocess
import sys
import unicodedata
from io import BytesIO
from pathlib import Path

import pytest
from pypdf import PdfReader
from worked import (
    ARABIC,
    CJK,
    EMOJI,
    EXAMPLES,
    FRACTIONS,
    HEBREW,
    HOSTILE,
    LONG,
    NAMES,
    Worked,
    list_lines,
    worked,
    worked_at,
)

from boltend.core.paper.customer_sheet import customer_sheet
from boltend.core.paper.model import Heading, Items, Picture, Row, Sheet, Table, Text
from boltend.core.paper.pdf import FOOT, MARGIN, PAPERS, laid_out, pdf_bytes
from boltend.core.paper.pdf_fonts import PLAIN, lines_of, runs, wide
from boltend.core.paper.turning import in_sight
from boltend.core.report.list_words import buy_sheet, cut_sheets
from boltend.core.values import visible


def pages_of(made: bytes) -> list[str]:
    """The text of each page, without blanks: a line may be broken anywhere."""
    return [squeezed(page.extract_text()) for page in PdfReader(BytesIO(made)).pages]


def squeezed(text: str) -> str:
    return re.sub(r"\s+", "", text)


@pytest.fixture(scope="module")
def hostile(tmp_path_factory: pytest.TempPathFactory) -> Worked:
    file = tmp_path_factory.mktemp("hostile") / "hostile.toml"
    file.write_text(HOSTILE, encoding="utf-8")
    return worked_at(file)


@pytest.mark.parametrize("name", NAMES)
def test_every_line_of_both_lists_is_in_it(name: str) -> None:
    one = worked(name)
    how = one.book.basis.settings.notation
    text = "".join(_without_feet(pages_of(pdf_bytes(one.plan())), one.plan().name))
    bought, cut = buy_sheet(one.lists, how), cut_sheets(one.lists, how)
    wanted = [part for row in bought.rows for part in (row.what, row.amount, row.price, row.cost, *row.notes)]
    wanted += [bought.total, *bought.notes] if bought.rows else []
    for sheet in cut:
        wanted += [sheet.title, *sheet.facts, *sheet.steps, *sheet.pieces, *sheet.leftovers, *sheet.notes]
        wanted += [line for picture in sheet.pictures for line in (picture.title, *picture.key)]
    lacks = [line for line in wanted if squeezed(visible(line)) not in text]
    # A cell of a narrow column is broken in lines, between which the next column's stand.
    assert [line for line in lacks if not all(squeezed(word) in text for word in visible(line).split())] == []
    assert not [line for line in lacks if line in {s for sheet in cut for s in sheet.steps}]


def _without_feet(pages: list[str], name: str) -> list[str]:
    """A line goes on over the foot of a page."""
    many = len(pages)
    return [page.replace(squeezed(name) + f"{n}of{many}", "") for n, page in enumerate(pages, 1)]


def test_every_page_has_its_number_and_the_projects_name() -> None:
    pages = pages_of(pdf_bytes(worked("lantern-row").plan()))
    assert len(pages) > 5
    for number, page in enumerate(pages, 1):
        assert f"LanternRow{number}of{len(pages)}" in page


@pytest.mark.parametrize("paper", PAPERS)
def test_the_paper(paper: str) -> None:
    (page, *_) = PdfReader(BytesIO(pdf_bytes(worked("orchard-cloth").plan(), paper))).pages
    size = (float(page.mediabox.width), float(page.mediabox.height))
    # ISO 216 (2007): A4 is 210 × 297 mm; letter is 8 1/2 × 11 in (ANSI/ASME Y14.1, 2012).
    inches = {"a4": (210 / 25.4, 297 / 25.4), "letter": (8.5, 11)}[paper]
    assert size == pytest.approx((inches[0] * 72, inches[1] * 72), abs=0.01)


def test_fractions_and_names_are_read_back_as_they_are(hostile: Worked) -> None:
    text = "".join(pages_of(pdf_bytes(hostile.plan())))
    for fraction in FRACTIONS.split():
        assert fraction in text
    assert squeezed(LONG) in text
    assert HEBREW in text or HEBREW[::-1] in text
    assert squeezed(visible("bell \u0007 and \u202e turned")) in text
    assert "<U+1F9F5>" in text, "no shipped face has the emoji, so its code point is written"
    assert unicodedata.normalize("NFKC", "".join(c for c in text if "\ufe70" <= c <= "\ufeff"))


def test_no_character_prints_as_a_box() -> None:
    for sign in (
        *FRACTIONS.replace(" ", ""),
        *"≈×÷−“”…·éßŁЖωא؟‰€",
        *CJK,
        EMOJI,
        "\u0e01",
        "\u3042",
        "\ud55c",
    ):
        for run in runs(sign, PLAIN):
            if run.face == PLAIN:
                from reportlab.pdfbase import pdfmetrics

                glyphs = pdfmetrics.getFont(PLAIN).face.charToGlyph
                assert all(ord(c) in glyphs for c in run.words), sign
    assert [run.words for run in runs("\u0e01", PLAIN)] == ["<U+0E01>"]
    assert runs("\u6885", PLAIN)[0].face != PLAIN
    assert runs("\u3042", PLAIN)[0].face == "HeiseiMin-W3"
    assert runs("\ud55c", PLAIN)[0].face == "HYSMyeongJo-Medium"


def test_right_to_left_in_its_order() -> None:
    # The order in sight, from left to right: a name is turned, the number after it stays after it.
    assert in_sight(f"12 × {HEBREW} 7 in") == f"12 × {HEBREW[::-1]} 7 in"
    assert in_sight(f"{HEBREW} 12 (x)", from_right=True) == f"(x) 12 {HEBREW[::-1]}"
    assert in_sight(f"a (b) [{HEBREW}] «c»") == f"a (b) [{HEBREW[::-1]}] «c»"
    assert in_sight(f"(({HEBREW}) 3 < 4)", from_right=True) == f"(4 > 3 ({HEBREW[::-1]}))"
    # A point stays over its letter: it is drawn after it.
    assert in_sight("\u05e9\u05c1\u05d3") == "\u05d3\u05e9\u05c1"
    # Seen, lam with alef, meem: initial, final, isolated (Unicode code charts, Arabic Presentation Forms-B).
    assert in_sight(ARABIC) == "\ufee1\ufefc\ufeb3"


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("example", NAMES)
def test_no_page_parts_a_picture_from_its_title_and_key(example: str, paper: str) -> None:
    sheet = worked(example).plan()
    pages = laid_out(sheet, paper)
    room = PAPERS[paper][1] - MARGIN - FOOT
    told = pages_of(pdf_bytes(sheet, paper))
    for picture in sheet.pictures():
        name, key = f"picture: {picture.title}", set(picture.key)
        slabs = [(n, slab) for n, page in enumerate(pages) for slab, _ in page]
        here = [n for n, slab in slabs if slab.what == name and key <= set(slab.says)]
        assert here, picture.title
        assert any(
            all(squeezed(words) in told[n] for words in (picture.title, *picture.key)) for n in here
        ), picture.title
    for page in pages:
        for slab, y in page:
            assert y + slab.height <= room + 1e-6, slab.what
    for page in pages:
        assert not page[-1].slab.what.startswith(("heading", "label", "table head")), "an orphan"


def test_heads_stand_on_every_page_of_a_long_table() -> None:
    rows = tuple(Row((f"row {n}", str(n))) for n in range(150))
    sheet = Sheet("long", (Table("", ("Name", "Number of it"), rows),))
    pages = laid_out(sheet)
    assert len(pages) > 2
    assert [page[0].slab.what for page in pages] == ["table head"] * len(pages)
    told = pages_of(pdf_bytes(sheet))
    assert all("Numberofit" in page for page in told)
    assert all(sum(f"row{n}{n}" in page for page in told) == 1 for n in range(100, 150))


def test_what_no_page_holds_is_parted_and_none_of_it_is_lost() -> None:
    word = "w" * 400 + " "
    sheet = Sheet("x" * 500, (
        Heading("H" * 500, 1, "a"),
        Text(word * 40),
        Items("T", tuple(f"{n} {word * 20}" for n in range(3)), ordered=True),
        Table("", ("A", "B"), (Row((word * 30, "end of B")),)),
        Picture("P", (), key=("k",)),
    ))  # fmt: skip
    pages = pages_of(pdf_bytes(sheet))
    assert "".join(pages).count("w") == 400 * (40 + 60 + 30)
    assert "endofB" in "".join(pages)


def test_lines_are_no_wider_than_their_room() -> None:
    for text in (LONG, "x" * 300, f"{HEBREW} " * 40, f"{EMOJI}{CJK}" * 30, "", " a"):
        lines = list(lines_of(text, PLAIN, 9.5, 120))
        assert "".join(lines).replace(" ", "") == text.replace(" ", "")
        assert all(wide(line, PLAIN, 9.5) <= 120 for line in lines)


@pytest.mark.parametrize("name", NAMES)
def test_the_customers_sheet_is_one_page(name: str) -> None:
    one = worked(name)
    sheet = customer_sheet(one.book, one.book.project.tabs, one.lists)
    (page,) = pages_of(pdf_bytes(sheet, "letter"))
    bought = buy_sheet(one.lists, one.book.basis.settings.notation)
    assert squeezed(bought.total) in page
    for row in bought.rows:
        if row.amount != "nothing to buy":
            assert squeezed(row.what) in page
            assert squeezed(row.amount) in page
    assert "sleepinginfant" in page


def test_a_customers_sheet_of_much_is_made_smaller() -> None:
    rows = tuple(Row((f"Fabric number {n}", "", "1 yd", "", "")) for n in range(45))
    sheet = customer_sheet(worked("harbour-steps").book, worked("harbour-steps").book.project.tabs,
                           worked("harbour-steps").lists)  # fmt: skip
    blocks = tuple(
        Table("", b.columns, rows, b.right, b.total) if isinstance(b, Table) else b for b in sheet.blocks
    )
    (page,) = pages_of(pdf_bytes(Sheet(sheet.name, blocks, one_page=True)))
    assert "Fabricnumber44" in page


def test_the_same_plan_is_the_same_bytes_in_every_process(tmp_path: Path) -> None:
    made = set()
    for seed, zone in (("1", "UTC"), ("77", "Asia/Tokyo")):
        out = tmp_path / f"{seed}.pdf"
        done = subprocess.run(
            [
                sys.executable,
                "-m",
                "boltend",
                "print",
                str(EXAMPLES / "harbour-steps.toml"),
                "--out",
                str(out),
            ],
            env={**os.environ, "PYTHONHASHSEED": seed, "TZ": zone},
            capture_output=True,
            check=False,
            timeout=60,
        )
        assert (done.returncode, done.stderr) == (0, b"")
        made.add(out.read_bytes())
    made.add(pdf_bytes(worked("harbour-steps").plan(), "letter"))
    assert len(made) == 1


def test_the_file_says_what_it_is_and_has_a_list_of_contents() -> None:
    reader = PdfReader(BytesIO(pdf_bytes(worked("harbour-steps").plan())))
    assert reader.metadata is not None
    assert reader.metadata.title == "Harbour Steps"
    titles = [str(each.title) for each in _flat(reader.outline)]
    assert titles[:3] == ["Harbour Steps", "To buy", "To cut"]
    assert "Borders" in titles


def _flat(outline):  # type: ignore[no-untyped-def]
    for each in outline:
        yield from _flat(each) if isinstance(each, list) else [each]


def test_every_line_of_a_plan_is_laid_out_once() -> None:
    sheet = worked("harbour-steps").plan(working=True)
    said = "".join(squeezed(text) for page in laid_out(sheet) for slab, _ in page for text in slab.says)
    assert [line for line in list_lines(sheet) if squeezed(line) not in said] == []
