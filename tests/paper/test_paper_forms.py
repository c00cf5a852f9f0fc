"""The one door for whoever writes a plan to a file: forms by their endings, and what cannot be had."""

from pathlib import Path
from typing import Literal

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from worked import Worked, worked, worked_at

from boltend.core.drawing.hatches import MARKS
from boltend.core.paper.choices import FORMS, NoPaper, Paper, form_of
from boltend.core.paper.forms import on_paper, size_for, tab_svg, write
from boltend.core.paper.hatching import HATCHES, Lines, ink_on, segments
from boltend.core.report.safety import CUTTING_CAUTION


def all_of(one: Worked):  # type: ignore[no-untyped-def]
    return one.book, one.book.project.tabs, one.lists


@pytest.mark.parametrize("form", [form for form in FORMS if form != "svg"])
def test_the_ending_names_the_form(form: str, tmp_path: Path) -> None:
    path = tmp_path / f"plan{FORMS[form].upper()}"
    assert form_of(path) == form
    assert write(path, *all_of(worked("harbour-steps"))) == (path,)
    assert path.read_bytes() == on_paper(*all_of(worked("harbour-steps")), form)
    assert b"Harbour Steps" in path.read_bytes() or form == "pdf"


def test_an_ending_that_is_none_is_text(tmp_path: Path) -> None:
    (path,) = write(tmp_path / "plan", *all_of(worked("harbour-steps")))
    assert path.read_text(encoding="utf-8").startswith("Harbour Steps\n====")


def test_pictures_go_into_a_folder_of_names_that_every_system_takes(tmp_path: Path) -> None:
    files = write(tmp_path / "new" / "folder", *all_of(worked("harbour-steps")), "svg")
    assert {file.parent for file in files} == {tmp_path / "new" / "folder"}
    assert all(file.exists() and file.name.isascii() and " " not in file.name for file in files)
    with pytest.raises(NoPaper, match="name a folder"):
        write(tmp_path / "one.svg", *all_of(worked("harbour-steps")))


def test_what_cannot_be_had(tmp_path: Path) -> None:
    one = worked("harbour-steps")
    with pytest.raises(NoPaper, match="html or pdf"):
        on_paper(*all_of(one), "text", Paper("customer"))
    measured = one.book.project.find_tab("The top, measured")
    assert measured is not None
    with pytest.raises(NoPaper, match="no picture"):
        tab_svg(one.book, measured, one.lists)
    with pytest.raises(NoPaper, match="no picture"):
        write(tmp_path / "none", one.book, (measured,), worked("mistakes").lists, "svg")


@pytest.mark.parametrize(
    ("currency", "size"), [("USD", "letter"), ("CAD", "letter"), ("EUR", "a4"), ("GBP", "a4")]
)
def test_the_paper_goes_with_the_money(currency: str, size: str, tmp_path: Path) -> None:
    file = tmp_path / "q.toml"
    file.write_text(f'boltend = 1\n[project]\ncurrency = "{currency}"\n', encoding="utf-8")
    assert size_for(worked_at(file).book) == size


def test_a_project_without_tabs_is_a_sheet_too(tmp_path: Path) -> None:
    file = tmp_path / "q.toml"
    file.write_text("boltend = 1\n", encoding="utf-8")
    one = worked_at(file)
    for form in ("html", "pdf"):
        for sheet in ("plan", "customer"):
            assert on_paper(*all_of(one), form, Paper(sheet))  # type: ignore[arg-type]
    html = on_paper(*all_of(one), "html").decode()
    assert "There are no tabs yet." in html
    assert CUTTING_CAUTION.split(":")[0] not in html, "nothing is cut"


def test_every_mark_has_a_hatch_of_its_own() -> None:
    assert set(HATCHES) == set(MARKS)
    assert len(set(HATCHES.values())) == len(MARKS)


@pytest.mark.parametrize("lines", [line for hatch in HATCHES.values() for line in hatch])
def test_hatches_reach_all_of_an_area(lines: Lines) -> None:
    """No point of a box is farther than a gap from a line, measured square to it."""
    left, top, right, bottom = 3.0, 7.0, 61.0, 40.0
    drawn = list(segments(lines, left, top, right, bottom))
    for x, y in ((4.0, 8.0), (60.0, 39.0), (4.0, 39.0), (60.0, 8.0), (30.0, 20.0)):
        assert min(_far(x, y, line) for line in drawn) <= lines.gap, (x, y)


def _far(x: float, y: float, line: tuple[float, float, float, float]) -> float:
    x1, y1, x2, y2 = line
    long = ((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5
    return abs((x2 - x1) * (y1 - y) - (x1 - x) * (y2 - y1)) / long


@given(st.integers(0, 0xFFFFFF))
@example(0x808080)
@example(0xC8552B)
def test_words_show_on_every_colour(colour: int) -> None:
    """Contrast of at least 4.5 : 1, the least for text (WCAG 2.2, W3C 2023, 1.4.3)."""
    cloth = f"#{colour:06x}"
    light, dark = sorted((_bright(cloth), _bright(ink_on(cloth))), reverse=True)
    assert (light + 0.05) / (dark + 0.05) >= 4.5


def _bright(colour: str) -> float:
    """Relative luminance by another way: sRGB's curve as IEC 61966-2-1 (1999) prints it."""
    levels = [int(colour[at : at + 2], 16) for at in (1, 3, 5)]
    linear = [v / 255 / 12.92 if v <= 10 else ((v / 255 + 0.055) / 1.055) ** 2.4 for v in levels]
    return sum(weight * value for weight, value in zip((0.2126, 0.7152, 0.0722), linear, strict=True))


def test_the_plan_begins_with_its_name_or_its_files_and_the_finished_size() -> None:
    book, tabs, lists = all_of(worked("harbour-steps"))
    html = on_paper(book, tabs, lists, "html", Paper(called="not so")).decode()
    assert "<title>Harbour Steps</title>" in html
    assert "not so" not in html
    said = on_paper(book, tabs, lists, "text").decode().split("\n")[2]
    assert said.startswith("Finished size, with its binding on: ")
    head = html.partition("To buy")[0]
    assert said.partition(" (")[0].removeprefix("Finished size, ") in head.replace("\xa0", " ")
    assert "Finished size" not in on_paper(book, tabs[:1], lists, "html").decode()


@pytest.mark.parametrize("sheet", ["plan", "customer"])
def test_a_project_without_a_name_is_called_by_its_file(
    sheet: Literal["plan", "customer"], tmp_path: Path
) -> None:
    file = tmp_path / "blue crib.toml"
    file.write_text(NAMELESS, encoding="utf-8")
    one = all_of(worked_at(file))
    assert "<title>blue crib</title>" in on_paper(*one, "html", Paper(sheet, called=file.stem)).decode()
    assert "<title>Plan of a quilt</title>" in on_paper(*one, "html", Paper(sheet)).decode()


NAMELESS = """boltend = 1
[[tab]]
name = "Top"
calculator = "measured_top"
[tab.given]
widths = "36 in"
heights = "45 in"
"""
