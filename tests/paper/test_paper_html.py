"""The plan as one HTML file: whole without anything from anywhere, for everybody, and no name is markup."""

import re
from html.parser import HTMLParser
from pathlib import Path

import pytest
from worked import (
    ARABIC,
    CJK,
    EMOJI,
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
from boltend.core.paper.html import html_file, said
from boltend.core.paper.model import Table
from boltend.core.paper.texts import seen
from boltend.core.report.list_words import BLOCKS_UNCUT, buy_sheet, cut_sheets
from boltend.core.report.safety import CUTTING_CAUTION, INFANT_CAUTION
from boltend.core.values import is_unseen, visible

VOID = {"meta", "br", "img", "link", "input", "hr"}


class Page(HTMLParser):
    """What a reader of HTML finds: elements with their attributes, texts, and whether all is closed."""

    def __init__(self, text: str) -> None:
        super().__init__(convert_charrefs=True)
        self.elements: list[tuple[str, dict[str, str | None]]] = []
        self.open: list[str] = []
        self.texts: list[str] = []
        self.feed(text)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append((tag, dict(attrs)))
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append((tag, dict(attrs)))

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        if self.open and self.open[-1] not in ("style", "script"):
            self.texts.append(data)

    @property
    def text(self) -> str:
        return squeezed("".join(self.texts))

    def of(self, tag: str) -> list[dict[str, str | None]]:
        return [attributes for name, attributes in self.elements if name == tag]


def squeezed(text: str) -> str:
    return re.sub(r"\s+", "", text)


@pytest.fixture(scope="module")
def hostile(tmp_path_factory: pytest.TempPathFactory) -> Worked:
    file = tmp_path_factory.mktemp("hostile") / "hostile.toml"
    file.write_text(HOSTILE, encoding="utf-8")
    return worked_at(file)


@pytest.fixture(scope="module", params=[*NAMES, "hostile"])
def made(request: pytest.FixtureRequest) -> tuple[Worked, str]:
    one = request.getfixturevalue("hostile") if request.param == "hostile" else worked(request.param)
    return one, html_file(one.plan(working=True))


def test_every_element_is_closed_and_every_id_its_own(made: tuple[Worked, str]) -> None:
    page = Page(made[1])
    assert page.open == []
    ids = [attributes["id"] for _, attributes in page.elements if "id" in attributes]
    assert len(ids) == len(set(ids))
    for _, attributes in page.elements:
        for name in ("aria-labelledby", "href"):
            for target in (attributes.get(name) or "").split():
                assert target.removeprefix("#") in ids
    for target in re.findall(r"url\(#([^)]*)\)", made[1]):
        assert target in ids


def test_nothing_is_fetched_and_nothing_runs(made: tuple[Worked, str]) -> None:
    page = Page(made[1])
    assert {tag for tag, _ in page.elements} <= {
        "html", "head", "meta", "title", "style", "body", "main", "nav", "section", "h1", "h2", "h3", "p",
        "a", "ul", "ol", "li", "div", "span", "bdi", "table", "caption", "thead", "tbody", "tfoot", "tr",
        "th", "td", "figure", "figcaption", "svg", "desc", "defs", "pattern", "path", "circle", "g", "rect",
        "polygon", "line", "text",
    }  # fmt: skip
    for tag, attributes in page.elements:
        assert "src" not in attributes
        assert not [name for name in attributes if name.startswith("on")], tag
        assert (attributes.get("href") or "#").startswith("#")
    (style,) = re.findall(r"<style>(.*?)</style>", made[1], re.S)
    assert "url(" not in style
    assert "@import" not in style


def test_every_line_of_both_lists_is_in_it(made: tuple[Worked, str]) -> None:
    one, html = made
    text, how = Page(html).text, one.book.basis.settings.notation
    bought, cut = buy_sheet(one.lists, how), cut_sheets(one.lists, how)
    wanted = [part for row in bought.rows for part in (row.what, row.amount, row.price, row.cost, *row.notes)]
    wanted += [bought.total, *bought.notes] if bought.rows else []
    for sheet in cut:
        wanted += [sheet.title, *sheet.facts, *sheet.steps, *sheet.pieces, *sheet.leftovers, *sheet.notes]
        wanted += [line for picture in sheet.pictures for line in (picture.title, *picture.key)]
    wanted += list_lines(one.plan(working=True))
    assert [line for line in wanted if squeezed(visible(line)) not in text] == []


def test_tables_have_heads_and_pictures_have_words(made: tuple[Worked, str]) -> None:
    page = Page(made[1])
    assert all(th.get("scope") in ("col", "row") for th in page.of("th"))
    pictures = [svg for svg in page.of("svg") if "aria-hidden" not in svg]
    assert all(svg.get("role") == "img" and svg.get("aria-labelledby") for svg in pictures)
    assert len(page.of("h1")) == 1
    assert page.of("html") == [{"lang": "en"}]
    assert page.of("meta")[1]["name"] == "viewport"


def test_the_caution_of_blades_comes_before_the_first_cut() -> None:
    text = Page(html_file(worked("harbour-steps").plan())).text
    assert text.index(squeezed(CUTTING_CAUTION)) < text.index(squeezed("Usable width"))


def test_working_only_where_it_is_asked_for() -> None:
    one = worked("harbour-steps")
    line = squeezed("blocks = 5 across × 6 down = 30")
    assert line in Page(html_file(one.plan(working=True))).text
    assert line not in Page(html_file(one.plan())).text


def test_names_are_text(hostile: Worked) -> None:
    html = html_file(hostile.plan(working=True))
    page = Page(html)
    for name in (LONG, HEBREW, ARABIC, CJK, EMOJI, FRACTIONS):
        assert squeezed(name) in page.text, name
    assert "alert(1)" in page.text
    assert "<U+0007>" in page.text
    assert "<U+202E>" in page.text
    assert "http://example.org" in page.text
    unseen = {c for c in html if is_unseen(c)} - {"\n"}
    assert unseen <= {"\u2068", "\u2069"}, "only signs of ours, that set a part apart"
    assert html.count("\u2068") == html.count("\u2069")


def test_what_reads_from_the_right_turns_no_number() -> None:
    assert said(f"12 × {HEBREW} 7 in") == f"12 × <bdi>{HEBREW}</bdi> 7 in"
    assert (
        said(f"{HEBREW} 5 {HEBREW}, a {ARABIC}") == f"<bdi>{HEBREW} 5 {HEBREW}</bdi>, a <bdi>{ARABIC}</bdi>"
    )
    assert said("plain <b>") == "plain &lt;b&gt;"


def test_light_dark_phone_and_print() -> None:
    html = html_file(worked("orchard-cloth").plan(), "letter")
    assert "prefers-color-scheme: dark" in html
    assert "@media print" in html
    assert "size: letter" in html
    assert "break-inside: avoid" in html


def test_the_makers_notes_are_not_the_customers(hostile: Worked) -> None:
    page = html_file(customer_sheet(hostile.book, hostile.book.project.tabs, hostile.lists), "a4")
    assert FRACTIONS not in page


def test_the_customers_page(hostile: Worked) -> None:
    for one in (hostile, *map(worked, NAMES)):
        sheet = customer_sheet(one.book, one.book.project.tabs, one.lists)
        text = Page(html_file(sheet)).text
        assert squeezed(INFANT_CAUTION) in text
        assert "Given" not in text
        tables = (block for block in sheet.blocks if isinstance(block, Table))
        told = {(row.cells[0], row.cells[2]) for table in tables for row in table.rows}
        for row in buy_sheet(one.lists, one.book.basis.settings.notation).rows:
            bought = row.amount != "nothing to buy"
            assert ((seen(row.what), seen(row.amount)) in told) == bought
            assert not bought or squeezed(visible(row.what)) in text


def test_the_customer_reads_what_each_cloth_is_for() -> None:
    one = worked("lantern-row")
    sheet = customer_sheet(one.book, one.book.project.tabs, one.lists)
    (table,) = (block for block in sheet.blocks if isinstance(block, Table))
    assert table.columns == ("What", "For", "Amount", "Price", "Cost")
    told = {row.cells[0]: row.cells[1] for row in table.rows}
    # The cloth is Night, the border that is cut from it is called Sky: both names stand together.
    assert told["Night"] == "Street (sash in the rows, sash between rows); Borders (Sky)"
    assert told["Ember"].endswith("; Binding")
    assert told["Gravel"] == "Backing"
    page = html_file(sheet)
    assert "Night: sash (1 1/2 in wide), Sky (4 in wide)" in page
    assert "Finished size, with its binding on: 69" in page
    assert '<table class="whole">' in page
    assert '<table class="whole">' not in html_file(one.plan())


def test_the_customer_reads_where_no_fabric_is_chosen() -> None:
    """No tab cuts the swapped blocks of Short Measure; Lantern Row's are in its list."""
    one, other = worked("short-measure"), worked("lantern-row")
    page = Page(html_file(customer_sheet(one.book, one.book.project.tabs, one.lists))).text
    assert squeezed("block (11 3/4 in × 11 3/4 in, no fabric chosen)") in page
    assert squeezed(BLOCKS_UNCUT) in page
    page = Page(html_file(customer_sheet(other.book, other.book.project.tabs, other.lists))).text
    assert squeezed("no fabric chosen") not in page
    assert squeezed(BLOCKS_UNCUT) not in page


def test_the_same_project_is_the_same_file(tmp_path: Path) -> None:
    assert html_file(worked("tidewater").plan()) == html_file(worked("tidewater").plan())
