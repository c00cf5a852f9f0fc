"""A ladder as a table with a row for each value: for a sheet of its own, as CSV, as Markdown."""

import re
from collections.abc import Sequence
from fractions import Fraction
from pathlib import PurePath

from boltend.core.asking import Ladder, Rung
from boltend.core.asking.ladder import LEFT_OUT, TOTAL, columns
from boltend.core.flow import Workbook
from boltend.core.project.model import Tab
from boltend.core.report.ladder_text import ladder_cautions, ladder_left_out, ladder_text
from boltend.core.report.markdown import escape
from boltend.core.values import visible

_FORMULA = tuple("=+-@＝＋－＠")
_FORMULA_INSIDE = re.compile(rf"(;\s*)([{re.escape(''.join(_FORMULA))}])")

FORMS = {"text": ".txt", "markdown": ".md", "csv": ".csv"}
"""The forms by name, each with the ending of its files."""

Done = tuple[Ladder, Sequence[Rung]]
"""A ladder with its rungs."""


def form_of(path: PurePath) -> str | None:
    """The form that a file's ending names."""
    return next((form for form, ending in FORMS.items() if path.suffix.lower() == ending), None)


def ladders_printed(ladders: Sequence[Done], form: str) -> str:
    """All of them in one of `FORMS`, one below the other."""
    if form == "csv":
        return "\r\n".join(ladder_csv(*each) for each in ladders)
    say = ladder_markdown if form == "markdown" else ladder_text
    return "\n".join(say(*each) for each in ladders)


def column_order(ladder: Ladder, rungs: Sequence[Rung]) -> list[str]:
    """Founds first, then the total and what it leaves out, then what it adds up."""
    founds = [take.label for take in ladder.takes if take.found is not None]
    others = [name for name in columns(rungs) if name not in founds]
    return [*founds, *sorted(others, key=lambda name: name not in (TOTAL, LEFT_OUT))]


def amounts(rungs: Sequence[Rung | None], name: str) -> list[Fraction | None]:
    """The numbers of a column; None where a rung has none, or is not worked out yet."""
    return [rung.cells[name].amount if rung and name in rung.cells else None for rung in rungs]


def ladder_rows(ladder: Ladder, rungs: Sequence[Rung]) -> list[list[str]]:
    """The head, and a row of texts for each value; `–` where a rung has none of a column."""
    names = column_order(ladder, rungs)
    rows = [[ladder.spot.label, *names]]
    for rung in rungs:
        cells = [rung.cells[name].text or "!" if name in rung.cells else "–" for name in names]
        rows.append([rung.value, *cells])
    return rows


def ladder_csv(ladder: Ladder, rungs: Sequence[Rung]) -> str:
    """By RFC 4180. A text that a sheet would take for a formula has an apostrophe before it."""
    return csv_text(ladder_rows(ladder, rungs))


def csv_text(rows: Sequence[Sequence[str]]) -> str:
    """Rows of texts by RFC 4180, each line with its end."""
    return "".join(",".join(map(_csv_cell, row)) + "\r\n" for row in rows)


def _csv_cell(text: str) -> str:
    """One cell. A semicolon is quoted like a comma: in many lands sheets part cells there."""
    text = visible(text)
    if text.lstrip()[:1] in _FORMULA:
        text = f"'{text}"
    # Behind a semicolon a formula would begin a cell of its own there, quotation marks or not.
    text = _FORMULA_INSIDE.sub(r"\1'\2", text)
    quoted = text.replace('"', '""')
    return f'"{quoted}"' if any(sign in text for sign in ',;"') else text


def ladder_markdown(ladder: Ladder, rungs: Sequence[Rung]) -> str:
    """A heading and a table; below it why something is missing."""
    head, *rows = [[escape(text) for text in row] for row in ladder_rows(ladder, rungs)]
    lines = [f"## {escape(ladder.name)}", ""] if ladder.name else []
    lines += [_line(head), _line(["---", *(["---:"] * (len(head) - 1))]), *map(_line, rows)]
    below = [f"- {escape(text)}" for text in ladder_notes(ladder, rungs)]
    return "\n".join([*lines, *([""] if below else []), *below]) + "\n"


def ladder_notes(ladder: Ladder, rungs: Sequence[Rung]) -> list[str]:
    """Why something is missing, what totals leave out, and what is warned of."""
    whys = dict.fromkeys(
        f"{rung.value}, {name}: {cell.why}" for rung in rungs for name, cell in rung.cells.items() if cell.why
    )
    return [*whys, *ladder_left_out(rungs), *ladder_cautions(ladder, rungs)]


def ladders_not_done(book: Workbook, tabs: Sequence[Tab], done: Sequence[Done]) -> str:
    """Which of the ladders that a project keeps are not worked out; nothing where some tabs are meant."""
    worked = {ladder.name for ladder, _ in done}
    missing = [row.name for row in book.project.ladders if row.name not in worked]
    if not missing or len(tabs) != len(book.project.tabs):
        return ""
    names = ", ".join(f"“{visible(name)}”" for name in missing)
    return f"Not worked out here: {names}. “boltend ladder” does, and so does the shell."


def _line(cells: Sequence[str]) -> str:
    return f"| {' | '.join(cells)} |"
