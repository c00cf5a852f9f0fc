"""Names that mean harm, in every form that leaves the house: each read back by a reader that is not ours."""

from __future__ import annotations

import csv
import io
import json
import os
import re
import subprocess
import sys
import unicodedata
import xml.etree.ElementTree as ET
from collections.abc import Iterator
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import pytest
from markdown_it import MarkdownIt
from pypdf import PdfReader

from boltend.commands.opened import Opened, open_project
from boltend.core.host import Host
from boltend.core.paper.forms import Paper, on_paper, write
from boltend.core.pool import Lists, Pool

ESC = "\x1b]0;owned\x07\x1b[2J\x1b[31m\x1b]8;;http://x.example\x1b\\\x9b31m\x90q\x9c"
BIDI = "\u202eright to left\u202c\u2066\u2069\u200b\u2028\ufeff\U000e0041"
MARKUP = (
    "<script>alert(1)</script><img src=x onerror=alert(2)>&lt;\"' `code` **bold** [l](javascript:alert(3))"
)
LINES = "one\n# heading\n- item\n\n<div>\n```\n|a|b|\n---\n> quote\r\x0b\x0c\x85end"
FORMULAS = ("=1+1", "+1", "-1", "@SUM(A1)", "\t=1", " =1", "\uff1d1", "a;=1+1", '",=1+1,"', "=cmd|' /C x'!A0")
RICH = "[bold red]x[/] [@click=app.quit]q[/] {0} %s $(id) `id` ; rm -rf / || {{x}}"
NASTY = {"escape": ESC, "bidi": BIDI, "markup": MARKUP, "lines": LINES, "rich": RICH, "formula": FORMULAS[0]}


def project(nasty: str) -> str:
    """A quilt that names everything that can be named in one way."""

    def name(text: str) -> str:
        plain = (
            c if c.isascii() and c.isprintable() and c not in '"\\' else f"\\U{ord(c):08x}" for c in text
        )
        return f'"{"".join(plain)}"'

    fabric = f"sash_fabric = {name(nasty)}" if nasty.isprintable() else ""  # what cannot be seen is refused
    it = name(nasty)
    return f"""boltend = 1
{it} = {it}

[project]
name = {it}
notes = {it}

[[fabric]]
name = {it}
price = "$12.50 per yard"
have = "1/4 yd"
colour = {it}

[[row]]
table = "beds"
name = {it}
width = "60 in"
length = "70 in"

[[tab]]
name = {it}
calculator = "straight_set"
note = {it}
[tab.given]
block_width = "12 in"
block_height = "12 in"
across = 4
down = 4
sash = "2 in"
{fabric}

[[tab]]
name = {name(nasty + " border")}
calculator = "borders"
[tab.given]
top_width = {{ from = {it}, take = "width" }}
top_height = {{ from = {it}, take = "height" }}
[[tab.given.borders]]
name = {it}
width = "3 in"
fabric = {it}

[[tab]]
name = {name(nasty + " wrong")}
calculator = {it}
[tab.given]
width = {{ from = {name(nasty + "?")}, take = {it} }}
{it} = {it}

[[tab]]
name = {name(nasty + " cannot")}
calculator = "binding"
[tab.given]
width = {it}
height = {{ from = {name(nasty + "?")}, take = {it} }}
fabric = {name(nasty + "?")}

[[ladder]]
name = {it}
tab = {it}
given = "across"
values = [3, 4, {it}]
"""


@pytest.fixture(scope="module", name="host")
def _host() -> Iterator[Host]:
    with Host.load() as host:
        yield host


@pytest.fixture(scope="module", params=NASTY, name="quilt")
def _quilt(request: Any, host: Host, tmp_path_factory: pytest.TempPathFactory) -> tuple[str, Opened, Lists]:
    nasty = NASTY[request.param]
    path = tmp_path_factory.mktemp("hostile") / "q.toml"
    path.write_text(project(nasty), encoding="utf-8")
    opened = open_project(str(path), host)
    assert opened.book.results[opened.book.project.tabs[0].key].state == "worked out"
    return nasty, opened, Pool(effort=0, units=0).lists(opened.book)


def made(quilt: tuple[str, Opened, Lists], form: str, **how: Any) -> bytes:
    _, opened, lists = quilt
    return on_paper(opened.book, opened.book.project.tabs, lists, form, Paper(working=True, **how))


def harmless(text: str, but: str = "\n") -> None:
    """Nothing that a terminal would obey, and nothing that turns or hides what stands beside it."""
    for character in text:
        if character not in but:
            category = unicodedata.category(character)
            assert category not in ("Cc", "Cf", "Cs", "Co", "Zl", "Zp"), f"U+{ord(character):04X}"


def test_as_text_nothing_is_obeyed(quilt: tuple[str, Opened, Lists]) -> None:
    harmless(made(quilt, "text").decode())


def test_as_json_it_reads_back_letter_by_letter(quilt: tuple[str, Opened, Lists]) -> None:
    nasty, opened, _ = quilt
    text = made(quilt, "json").decode()
    harmless(text)
    data = json.loads(text)
    assert data["project"]["name"] == nasty
    assert [tab["name"] for tab in data["tabs"]] == [tab.name for tab in opened.book.project.tabs]


def test_as_markdown_nothing_is_markup(quilt: tuple[str, Opened, Lists]) -> None:
    """CommonMark with tables, HTML on: every block is one of ours; no token is HTML, a link or an image."""
    text = made(quilt, "markdown").decode()
    harmless(text)
    blocks = MarkdownIt("commonmark", {"html": True}).enable("table").parse(text)
    plain = made_plain_headings(text)
    for block in blocks:
        assert block.type not in ("html_block", "hr", "code_block"), block.content
        if block.type == "fence":
            assert block.info == "text"
        for token in block.children or ():
            assert token.type in (
                "text",
                "softbreak",
                "strong_open",
                "strong_close",
                "em_open",
                "em_close",
            ), (
                token.type,
                block.content,
            )
    headings = [b for b in blocks if b.type == "heading_open"]
    assert len(headings) == plain


def made_plain_headings(text: str) -> int:
    """Lines of ours that begin a heading: a name cannot begin one, for it never begins a line."""
    return len(re.findall(r"^#{1,4} ", text, re.MULTILINE))


class Tags(HTMLParser):
    """What a browser would make of a page."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.tags: set[str] = set()
        self.attributes: set[str] = set()
        self.links: list[str] = []
        self.words: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.add(tag)
        for key, value in attrs:
            self.attributes.add(key)
            if key in ("href", "src", "xlink:href", "action", "data"):
                self.links.append(value or "")

    def handle_data(self, data: str) -> None:
        self.words.append(data)


NEVER = {"script", "img", "iframe", "object", "embed", "form", "input", "link", "base", "foreignobject", "b"}


@pytest.mark.parametrize("sheet", ["plan", "customer"])
def test_as_html_nothing_runs_and_nothing_is_fetched(quilt: tuple[str, Opened, Lists], sheet: Any) -> None:
    text = made(quilt, "html", sheet=sheet).decode()
    harmless(text, "\n\u2068\u2069")  # ours: what reads from right to left is set apart
    page = Tags()
    page.feed(text)
    page.close()
    assert not page.tags & NEVER
    assert not {a for a in page.attributes if a.startswith("on")}
    assert all(link.startswith("#") for link in page.links), page.links
    assert not re.findall(r"url\((?!#)", text)
    assert "@import" not in text


def test_as_svg_it_is_one_picture_of_shapes_and_words(
    quilt: tuple[str, Opened, Lists], tmp_path: Path
) -> None:
    _, opened, lists = quilt
    files = write(tmp_path / "pictures", opened.book, opened.book.project.tabs, lists, "svg")
    assert files
    for file in files:
        assert file.parent == tmp_path / "pictures"
        assert re.fullmatch(r"[a-z0-9-]+\.svg", file.name)
        text = file.read_text(encoding="utf-8")
        harmless(text, "\n\u2068\u2069")
        for element in ET.fromstring(text).iter():
            assert element.tag.rpartition("}")[2].lower() not in NEVER
            for key, value in element.attrib.items():
                assert not key.lower().startswith("on")
                assert "javascript" not in value
                assert not key.endswith("href") or value.startswith("#")
    assert sorted(tmp_path.iterdir()) == [tmp_path / "pictures"], "no name leads out of the folder"


def test_as_pdf_it_holds_no_action(quilt: tuple[str, Opened, Lists]) -> None:
    raw = made(quilt, "pdf")
    reader = PdfReader(io.BytesIO(raw))
    assert reader.pages
    root = reader.root_object
    assert not {"/OpenAction", "/AA", "/AcroForm", "/Names", "/URI"} & set(root), sorted(root)
    for page in reader.pages:
        assert not {"/Annots", "/AA"} & set(page), sorted(page)
    # What is in the text of a page is packed; a name of an object or of an action is not.
    assert not re.findall(rb"/(JavaScript|JS|Launch|URI|EmbeddedFile|SubmitForm|GoToR)\b", raw)


@pytest.mark.parametrize("form", ["text", "json", "markdown", "csv"])
def test_ladders(quilt: tuple[str, Opened, Lists], form: str, host: Host) -> None:
    from boltend.core.asking import climb, read_ladder
    from boltend.core.report.json import dump
    from boltend.core.report.ladder_forms import ladders_printed
    from boltend.core.report.ladder_text import ladder_json

    _, opened, _ = quilt
    ladder = read_ladder(opened.book, opened.book.project.ladders[0])
    rungs = list(climb(opened.book, ladder))
    text = dump(ladder_json(ladder, rungs)) if form == "json" else ladders_printed([(ladder, rungs)], form)
    harmless(text, "\r\n")
    if form == "csv":
        rows = list(csv.reader(io.StringIO(text)))
        assert len({len(row) for row in rows}) == 1
        assert not [cell for row in rows for cell in row if cell.strip()[:1] in tuple("=+-@")]


@pytest.mark.parametrize("formula", FORMULAS)
def test_no_cell_is_a_formula_whatever_parts_the_cells(formula: str) -> None:
    """Sheets part cells at a comma or, in many lands, at a semicolon or a tab."""
    from boltend.core.report.ladder_forms import csv_text

    text = csv_text([[formula, "3 in"], ["a", formula]])
    for parted in (",", ";", "\t"):
        for row in csv.reader(io.StringIO(text), delimiter=parted):
            for cell in row:
                assert cell.lstrip(' "')[:1] not in tuple("=+-@\uff1d\uff0b\uff0d\uff20"), (parted, cell)
    rows = list(csv.reader(io.StringIO(text)))
    assert [len(row) for row in rows] == [2, 2]


@pytest.mark.parametrize("nasty", NASTY)
def test_commands_say_it_as_text(nasty: str, tmp_path: Path) -> None:
    path = tmp_path / "q.toml"
    path.write_text(project(NASTY[nasty]), encoding="utf-8")
    env = {**os.environ, "BOLTEND_STATE": str(tmp_path / "state"), "PYTHONIOENCODING": "utf-8"}
    tab = NASTY[nasty]
    calls = [
        ["check", path],
        ["print", path, "--tab", f"{tab}!"],
        ["ladder", path, f"{tab}!"],
        ["ladder", path, "--tab", tab, "--given", tab, "--values", tab, "--take", tab],
        ["back", path, "--tab", tab, "--given", "across", "--take", tab, "--wanted", tab],
        ["work", tab, f"{tab}={tab}"],
        ["calculators", tab],
        ["plugins", "--off", tab],
        ["plugins", "off", tab],  # no such word: it is repeated as text
        [tab],
    ]
    for words in calls:
        done = subprocess.run(
            [sys.executable, "-m", "boltend", *map(str, words)],
            capture_output=True, env=env, timeout=60, check=False, stdin=subprocess.DEVNULL,
        )  # fmt: skip
        assert done.returncode in (0, 1, 2), words
        assert b"Traceback" not in done.stderr, done.stderr.decode()
        harmless((done.stdout + done.stderr).decode("utf-8"), "\n")
    assert [p.name for p in tmp_path.iterdir() if p.name not in ("q.toml", "state")] == []
