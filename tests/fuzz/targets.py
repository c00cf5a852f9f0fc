"""What is fuzzed: each target takes bytes of any kind and raises where a promise is broken.

The same functions serve the coverage-guided fuzzer (`run.py`), the gate (`test_fuzz_targets.py`) and whoever
repeats a finding. Promises: no exception but the declared ones, everything said can be shown, what is
shown reads back equal, an edit keeps all lines of a file that it does not concern, time is bounded.
"""

from __future__ import annotations

import itertools
import json
import time
import tomllib
from collections.abc import Callable, Iterator
from fractions import Fraction
from typing import Any

from boltend.core.flow.graph import build
from boltend.core.project import edits, edits_fabrics
from boltend.core.project.document import CannotWrite, Document
from boltend.core.project.journal_text import frame
from boltend.core.project.model import Project, Tab, new_key
from boltend.core.project.plain import same_plain
from boltend.core.project.problems import EditRefused, ProjectUnreadable
from boltend.core.project.reading import read_bytes
from boltend.core.values import KINDS, ChoiceKind, Kind, Notation, NotationError, is_unseen

PROJECTS = [Notation(), Notation("cm", Fraction(30, 127), "EUR"), Notation("in", Fraction(3, 8), "CAD")]
LENGTH_UNITS = ["", "in", "ft", "yd", "cm", "m", "mm"]
UNITS: dict[str, list[str]] = {
    **dict.fromkeys(("finished", "cut", "length", "measured"), LENGTH_UNITS),
    "area": ["", "sq in", "sq ft", "sq yd", "sq cm", "sq m", "sq mm"],
    "time": ["", "min", "h", "s"],
    "price": ["", "yd", "m"],
    "rate": ["", "per in", "per cm", "per m", "per yd", "per min", "per hour", "in per in"],
}
READERS: list[Kind] = [*KINDS.values(), ChoiceKind(("sides first", "ends first", "mitred", "½ square"))]

SLOW = 2.0
"""CPU seconds that nothing of the few kilobytes fed here may take; each takes thousandths of one."""


class Broken(AssertionError):
    """A promise that did not hold."""


def text_of(data: bytes) -> str:
    """Any text, lone halves of a pair too: those can be pasted."""
    return data.decode("utf-8", "surrogateescape")


def hold(promise: bool, *said: object) -> None:
    """Raise `Broken` unless the promise holds."""
    if not promise:
        raise Broken(*said)


def notation(data: bytes) -> None:
    """A text is read as a value of some kind, or refused in words; what is read shows and reads back."""
    if len(data) < 3:
        return
    kind = READERS[data[0] % len(READERS)]
    units = UNITS.get(kind.name, [""])
    read(kind, PROJECTS[data[1] % len(PROJECTS)], units[data[2] % len(units)], text_of(data[3:]))


def prices(data: bytes) -> None:
    """The same for prices alone: they have a grammar of their own."""
    if len(data) >= 2:
        read(KINDS["price"], PROJECTS[data[0] % 3], UNITS["price"][data[1] % 3], text_of(data[2:]))


def read(kind: Kind, how: Notation, unit: str, text: str) -> None:
    """Read, show, read back; by way of a file, too."""
    try:
        value = kind.read(text, how, unit)
    except NotationError as error:
        for said in (str(error), *error.pointed().split("\n")):
            hold(not any(is_unseen(c) for c in said), "a message that does not show", said)
        hold(0 <= error.at <= len(text), "the caret is outside", error.at)
        for offer in error.offers:
            kind.read(offer, how, unit)  # what is offered can be typed
        return
    hold(kind.check(value) is None, "read what a plugin may not answer", value, kind.check(value))
    shown = kind.show(value, how, unit)
    hold(kind.read(shown, how, unit) == value, "shown but read back as another", text, shown)
    hold(kind.from_toml(kind.to_toml(value, how, unit), how, unit) == value, "kept as another", text)
    json.dumps(kind.to_json(value, how, unit), allow_nan=False)
    kind.also(value, how, unit)


def document(data: bytes) -> None:
    """A file is read or refused; one edit keeps every line that it does not concern, and reads back."""
    if len(data) < 2:
        return
    body = data[2:] if data[1] & 1 else b"boltend = 1\n" + data[2:]
    try:
        reading = read_bytes(body, "quilt.toml")
    except ProjectUnreadable as error:
        str(error)
        return
    project, text = reading.project, reading.document
    lines = text.text.count("\n") + 1
    for problem in reading.problems:
        hold(problem.line is None or 1 <= problem.line <= lines, "a line that is not there", str(problem))
    hold(text.apply(project, project).text.encode() == body, "no edit, but another text")
    hold(same_plain(project.to_plain(), tomllib.loads(text.text)), "read as something else")
    wanted = one_edit(project, data[0], data[1] >> 1)
    if wanted is not None:
        kept(text, project, wanted, adds=data[0] % 8 < 4)


def one_edit(project: Project, which: int, place: int) -> Project | None:
    """An edit by number: the first four add something, the others change, move or remove."""
    tab = project.tabs[place % len(project.tabs)] if project.tabs else None
    try:
        match which % 8:
            case 0:
                return edits.add_tab(project, "Ünder the #1 'new' \"tab\"", "binding", {"width": "3 in"})
            case 1:
                return edits_fabrics.add_fabric(project, "Rust [2]", {"form": "bolt"})
            case 2 if tab and isinstance(tab.data.get("given", {}), dict):
                return edits.set_given(project, tab.key, "zz new", "12 1/2 in")
            case 3:
                return edits.set_setting(project, "zz new", "1/4 in")
            case 4 if tab and tab.name:
                return edits.rename_tab(project, tab.key, "Renamed")
            case 5 if tab:
                return edits.move_tab(project, tab.key, place % len(project.tabs))
            case 6 if tab:
                return edits.remove_tab(project, tab.key)
            case 7 if tab:
                return edits.duplicate_tab(project, tab.key, "Twin of it")
    except EditRefused:
        return None
    return None


def kept(text: Document, project: Project, wanted: Project, adds: bool) -> None:
    """The new text says `wanted`; where something was only added, all old lines stand in it, in order."""
    try:
        made = text.apply(project, wanted)
    except CannotWrite as error:
        raise Broken("an edit that cannot be saved", str(error)) from error
    back = read_bytes(made.text.encode(), "quilt.toml")
    hold(same_plain(back.project.to_plain(), wanted.to_plain()), "saved as something else")
    inline = any(text._blocks.has_key(word) for word in ("tab", "fabric", "project"))
    if adds and not made.note and not inline and not _given_inline(text):
        rest = iter(line.rstrip("\r") for line in made.text.removeprefix("\ufeff").split("\n"))
        for line in text.text.rstrip("\n").split("\n"):
            line = line.rstrip("\r")
            hold(any(line == other for other in rest), "a line is lost or moved", line)


def _given_inline(text: Document) -> bool:
    return any(block.has_key("given") for block in text._blocks.walk())


def links(data: bytes) -> None:
    """A graph of any links: each tab once, after what feeds it; on a circle who reaches itself, no other."""
    count = data[0] % 24 + 1 if data else 1
    sources: dict[int, list[int]] = {key: [] for key in range(count)}
    for a, b in zip(data[1::2], data[2::2], strict=False):
        sources[a % count].append(b % (count + 2))  # two that are not there
    graph = build(sources)
    feeds = {key: {s for s in fed if s in sources} for key, fed in sources.items()}
    above = {key: _above(key, feeds) for key in sources}
    hold(sorted(graph.order) == sorted(sources), "a tab is missing or there twice")
    hold(set(graph.circles) == {k for k in sources if k in above[k]}, "circles", graph.circles)
    for key, path in graph.circles.items():
        hold(path[0] == path[-1] == key, "a path that is not round", path)
        hold(all(b in feeds[a] for a, b in itertools.pairwise(path)), "no way round", path)
    for key in sources:
        if key not in above[key]:
            hold(all(graph.position[s] < graph.position[key] for s in feeds[key]), "out of order", key)
        hold(graph.reached([key]) == {key, *(k for k in sources if key in above[k])}, "reach", key)


def _above(key: int, feeds: dict[int, set[int]]) -> set[int]:
    seen: set[int] = set()
    open_ = list(feeds[key])
    while open_:
        one = open_.pop()
        if one not in seen:
            seen.add(one)
            open_ += feeds[one]
    return seen


def journal(data: bytes) -> None:
    """Lines of any JSON, framed as a journal's records: an offer or none, and never a fall."""
    from datetime import datetime
    from pathlib import Path

    from boltend.core.project.journal_text import header, unframe
    from boltend.core.project.recovered import ForeignJournal, replay
    from boltend.core.project.saving import ProjectFile

    tab = Tab(new_key(), {"name": "A", "calculator": "binding", "given": {"width": "3 in"}})
    saved = Project(tabs=(tab,))
    file = ProjectFile(Path("quilt.toml"), Document(""), saved, b"x")
    lines = data.split(b"\n")
    whole = frame(header(saved, b"x", "quilt.toml")) if data[:1] == b"h" else b""
    for line in lines[1:]:
        try:
            record = json.loads(line)
        except (ValueError, RecursionError):
            whole += line + b"\n"
            continue
        whole += frame(record)
    list(unframe(data))
    try:
        found = replay(whole, file, Path("."))
    except ForeignJournal as error:
        str(error)
        return
    if found is not None:
        hold(isinstance(found.when, datetime), "no moment")
        found.project.to_plain()


def timed(target: Callable[[bytes], None]) -> Callable[[bytes], None]:
    """The target, and a promise on the time that it takes."""

    def run(data: bytes) -> None:
        before = time.process_time()
        target(data)
        took = time.process_time() - before
        hold(took < SLOW, f"{took:.1f} s for {len(data)} bytes")

    return run


_BOOK: list[Any] = []


def _book() -> Any:
    """The workbook of an example, worked out once."""
    from boltend.core.flow import Workbook
    from boltend.core.host import Host
    from boltend_shared.examples import path

    if not _BOOK:
        book = Workbook(Host.load(), read_bytes(path("tidewater").read_bytes(), "tidewater.toml").project)
        _BOOK.append((book, [(tab, given) for tab, given in SPOTS if book.project.find_tab(tab)]))
    return _BOOK[0]


SPOTS = [
    ("Binding", "strip_width"), ("How many", "pick"), ("Window bed", "take_up"), ("Window bed", "bed"),
    ("Binding", "grain"), ("Binding", "fabric"), ("Shoreline", "borders.2.corners"),
    ("Shoreline", "borders.1.width"),
]  # fmt: skip


def values(data: bytes) -> None:
    """The values of a ladder, and the name of its given, as typed: raw values that it takes, or words."""
    from boltend.core.asking import AskError
    from boltend.core.asking.ladder import MOST_RUNGS
    from boltend.core.asking.spots import spot_of
    from boltend.core.asking.values import read_values

    if not data:
        return
    book, spots = _book()
    tab, given = spots[data[0] % len(spots)]
    said = text_of(data[1:])
    if data[0] >= 128:
        given, _, said = said.partition("\n")
    try:
        spot = spot_of(book, book.project.tab(tab), given)
        raws = read_values(book, spot, said)
    except AskError as error:
        str(error)
        return
    hold(0 < len(raws) <= MOST_RUNGS, "no values, or too many", len(raws))
    how = book.results[spot.tab].settings.notation
    for raw in raws:
        spot.spec.reader.from_toml(raw, how, spot.spec.unit)


def search(data: bytes) -> None:
    """What is typed on the start screen: lines of those that there are, each once."""
    from boltend.shell.start_offers import found_lines, start_lines, tab_lines
    from boltend.shell.start_search import words_of

    book, _ = _book()
    lines = [*start_lines(book.runner), *tab_lines(book.runner)]
    found = found_lines(lines, text_of(data))
    hold(len({id(line) for line in found}) == len(found), "a line twice")
    hold(all(any(line is one for one in lines) for line in found), "a line from nowhere")
    hold(bool(words_of(text_of(data))) or found == lines, "nothing typed, but something left out")


TARGETS: dict[str, Callable[[bytes], None]] = {
    "notation": notation,
    "prices": prices,
    "document": document,
    "links": links,
    "journal": journal,
    "values": values,
    "search": search,
}


def seeds() -> Iterator[tuple[str, bytes]]:
    """Where the fuzzers begin: values as the trade writes them, the example projects, a few graphs."""
    from boltend_shared.examples import NAMES, path

    texts = [
        "12 1/2", "12½ in", '12-1/2"', "5/8 yd", "1 yd 4 in", "32 cm", "1.5 m", "60 1/4 in cut", "3 ft 2 in",
        "60 1/4; 60 1/8", "4 sq yd", "1.5 yd²", "10 %", "12.50", "$11.99 per yard", "14 EUR/m", "€3 each",
        "12 per in", "800 per min", "1 h 20 min", "90 s", "40 wt", "Ne 50/2", "tex 27", "#b5512c", "yes",
        "mitred", "3", "1,5 cm", "≈ 3 in", "\u0663", "1e5", "9**9", "half", "\ud800", "1/0", "⅛", "1 1/2 1/2",
    ]  # fmt: skip
    for text in texts:
        raw = text.encode("utf-8", "surrogatepass")
        for number in range(len(READERS)):
            yield "notation", bytes((number, 0, 0)) + raw
        yield "prices", b"\0\0" + raw
    for name in NAMES:
        for which in range(8):
            yield "document", bytes((which, 3)) + path(name).read_bytes()
    for text in ("boltend = 1\n", "tab = [{name='A',calculator='b'}]\n", "a.b = 1\n[[b]]\n[x]\n[[b]]\n"):
        for which in range(8):
            yield "document", bytes((which, 0)) + text.encode()
    for number in range(len(SPOTS)):
        for text in ("2; 2 1/4 in", "from 2 to 3 by 1/4", "us king; crib", "bias; lengthwise", "1 to 9"):
            yield "values", bytes((number,)) + text.encode()
            yield "values", bytes((128 + number,)) + b"borders.1.width\n" + text.encode()
    for text in ("how much binding", "borders 3", "what can i make of 32 squares", "?", "", "½ yd"):
        yield "search", text.encode()
    yield "links", b"\x05\0\1\1\2\2\0\3\3\4\0"
    yield "journal", b'h\n{"tab":{"7":[{"name":"B"},null]},"tab_order":[7]}\n{"draft":[1,"width","6"]}\n'


def result_of(name: str, data: bytes) -> Any:
    """Run one target once, timed."""
    return timed(TARGETS[name])(data)
