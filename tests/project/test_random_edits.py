"""Random edits of random files: the text says what was meant, and no comment goes but with its own table."""

from __future__ import annotations

import sys
import tomllib
from pathlib import Path
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from boltend.core.project import edits, edits_fabrics
from boltend.core.project.blocks import cut
from boltend.core.project.document import Document
from boltend.core.project.model import Project
from boltend.core.project.plain import same_plain
from boltend.core.project.problems import EditRefused
from boltend.core.project.reading import read_text

sys.path.insert(0, str(Path(__file__).parent))  # test modules stand alone under --import-mode=importlib
from quilts import crlf, mixed
from text_helpers import comment_lines

WORDS = ["Lantern", "Edge [x]", 'Rim "2"', "O'Hara", "Übergang", "# hash", "a = 1", "Stern\\weg"]
GIVENS = ["width", "height", "count", "sizes", "borders", "odd key", "fabric"]
names = st.sampled_from(WORDS)
links = st.builds(lambda source, take: {"from": source, "take": take}, names, st.sampled_from(GIVENS))
texts = st.sampled_from(
    ["12 1/2 in", "5/8 yd", "[tab]", "# no", 'say "x"', "two\nlines", "'", "\\", "", "½", "\t\x7f"]
)
scalars = st.one_of(texts, st.integers(-3, 99), st.booleans(), links)
rows = st.lists(st.dictionaries(st.sampled_from(GIVENS), scalars, max_size=3), min_size=1, max_size=3)
values = st.one_of(scalars, st.lists(texts, max_size=4), rows)


class Writer:
    """Writes a file as a person might: comments everywhere, each with a number; odd spacing."""

    def __init__(self, draw: Any) -> None:
        self.draw, self.number = draw, 0

    def remark(self, mark: str) -> str:
        if not self.draw(st.booleans()):
            return ""
        self.number += 1
        tail = self.draw(st.sampled_from(["", ' [tab] """', " 'open", " { ["]))
        return f"# {mark}{self.number}.{tail}\n"

    def pairs(self, mark: str, data: dict[str, Any]) -> str:
        text = ""
        for name, value in data.items():
            space = self.draw(st.sampled_from(["", " ", "   "]))
            key = name if name.isalpha() else f'"{name}"'
            text += self.remark(mark) + f"{key}{space}={space}{self.value(value)}\n"
            text += self.draw(st.sampled_from(["", "", "\n"]))
        return text

    def value(self, value: Any) -> str:
        if isinstance(value, str):
            if self.draw(st.booleans()) and value.isprintable() and "'" not in value:
                return f"'{value}'"
            if "\n" in value and self.draw(st.booleans()):
                return '"""\n' + value.replace("\\", "\\\\") + '"""'
            named = {"\n": "\\n", "\t": "\\t", "\x7f": "\\u007f"}
            return '"' + "".join(named.get(c, "\\" + c if c in '"\\' else c) for c in value) + '"'
        if isinstance(value, bool):
            return str(value).lower()
        if isinstance(value, list):
            if self.draw(st.booleans()):
                return "[\n" + "".join(f"  {self.value(v)},\n" for v in value) + "]"
            return "[" + ", ".join(map(self.value, value)) + "]"
        if isinstance(value, dict):
            keys = (k if k.isalpha() else f'"{k}"' for k in value)
            return (
                "{ "
                + ", ".join(f"{k} = {self.value(v)}" for k, v in zip(keys, value.values(), strict=True))
                + " }"
            )
        return str(value)

    def tab(self, name: str) -> str:
        mark = f"T{WORDS.index(name)}-"
        given_data = self.draw(st.dictionaries(st.sampled_from(GIVENS), values, max_size=4))
        text = self.remark(mark) + "[[tab]]\n" + self.pairs(mark, {"name": name, "calculator": "binding"})
        style = self.draw(st.sampled_from(["block", "inline", "none"]))
        if style == "inline":
            return text + f"given = {self.value(given_data)}\n"
        if style == "none":
            return text
        blocks = {k: v for k, v in given_data.items() if is_rows(v) and self.draw(st.booleans())}
        text += self.blank() + self.remark(mark) + "[tab.given]\n"
        text += self.pairs(mark, {k: v for k, v in given_data.items() if k not in blocks})
        for key, table in blocks.items():
            for row in table:
                head = key if key.isalpha() else f'"{key}"'
                text += self.blank() + self.remark(f"R{mark}") + f"[[tab.given.{head}]]\n"
                text += self.pairs(f"R{mark}", row)
        return text

    def blank(self) -> str:
        return str(self.draw(st.sampled_from(["", "\n", "\n\n"])))

    def gap(self) -> str:
        loose = self.remark("L")
        return "\n" + loose + "\n" if loose else self.blank()

    def file(self) -> str:
        text = self.remark("L") + "boltend = 1\n" + self.gap()
        if self.draw(st.booleans()):
            text += "[project]\n" + self.pairs("L", {"name": "x", "seam": "1/4 in"}) + self.gap()
        for name in self.draw(st.lists(names, unique=True, max_size=5)):
            text += self.tab(name) + self.gap()
            if self.draw(st.integers(0, 3)) == 0:
                text += (
                    self.remark("F")
                    + "[[fabric]]\n"
                    + self.pairs("F", {"name": f"cloth {name}"})
                    + self.gap()
                )
        style = self.draw(
            st.sampled_from([str, crlf, mixed, lambda t: "\ufeff" + t, lambda t: t.removesuffix("\n")])
        )
        return str(style(text))


def is_rows(value: Any) -> bool:
    return isinstance(value, list) and bool(value) and all(isinstance(v, dict) for v in value)


@st.composite
def files(draw: Any) -> str:
    return Writer(draw).file()


def one_edit(draw: Any, project: Project) -> tuple[Project, set[str]]:
    """A random edit, and the marks of comments that it may take with it."""
    may_go: set[str] = set()
    kind = draw(
        st.sampled_from(["given", "given", "clear", "add", "rename", "copy", "move", "remove", "set", "flag"])
    )
    key = draw(st.sampled_from([tab.key for tab in project.tabs])) if project.tabs else None
    if kind == "add":
        data = draw(st.dictionaries(st.sampled_from(GIVENS), values, max_size=3))
        at = draw(st.none() | st.integers(0, len(project.tabs)))
        return edits.add_tab(project, draw(names), "borders", data, at), may_go
    if kind == "set" or key is None:
        name, value = draw(st.sampled_from(["overage", "notes", "seam"])), draw(texts | st.none())
        if draw(st.booleans()):
            return edits_fabrics.add_fabric(project, draw(names)), may_go
        return edits.set_setting(project, name, value), may_go
    if kind in ("given", "clear"):
        given_name = draw(st.sampled_from(GIVENS))
        value = draw(values) if kind == "given" else None
        return edits.set_given(project, key, given_name, value), {"RT"}
    if kind == "rename":
        return edits.rename_tab(project, key, draw(names) + draw(st.sampled_from([" x", " y"]))), may_go
    if kind == "copy":
        return edits.duplicate_tab(project, key), may_go
    if kind == "move":
        return edits.move_tab(project, key, draw(st.integers(0, len(project.tabs)))), may_go
    if kind == "flag":
        return edits.set_tab_flag(project, key, "note", draw(texts)), may_go
    return edits.remove_tab(project, key), {f"key {key}"}


@settings(max_examples=200, deadline=None)
@given(st.data())
def test_random_edits(data: Any) -> None:
    text = data.draw(files())
    read = read_text(text, "random.toml")
    assert cut(read.document.text).text() == text.removeprefix("\ufeff")
    marks = {tab.key: f"T{WORDS.index(tab.name)}-" for tab in read.project.tabs}
    project, document, start = read.project, read.document, set(comment_lines(text.removeprefix("\ufeff")))
    excused: set[str] = set()
    for _ in range(data.draw(st.integers(1, 5))):
        wanted, steps = project, data.draw(st.integers(1, 3))
        for _ in range(steps):
            try:
                wanted, may_go = one_edit(data.draw, wanted)
            except EditRefused:
                continue
            excused |= {marks.get(int(m[4:]), "T?") if m.startswith("key ") else m for m in may_go}
        edited = document.apply(project, wanted)
        assert edited.note == ""
        assert same_plain(tomllib.loads(edited.text.removeprefix("\ufeff")), wanted.to_plain())
        assert edited.text.startswith("\ufeff") == text.startswith("\ufeff")
        project, document = wanted, Document.from_text(edited.text)
    now = set(comment_lines(document.text))
    lost = {c for c in start - now if not any(c.startswith((f"# {m}", f"# R{m}")) for m in excused)}
    assert lost == set()
    if not text.endswith("\n"):
        assert not document.text.endswith("\n")
