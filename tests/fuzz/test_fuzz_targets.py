"""The fuzzers' promises in the gate: seeds, findings of the past, near-valid input drawn by hypothesis."""

from __future__ import annotations

import base64
import sys
import tomllib
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

sys.path.insert(0, str(Path(__file__).parent))  # test files are no package here
from targets import TARGETS, result_of, seeds

SEEDS = list(seeds())
FOUND: dict[str, tuple[str, str]] = tomllib.loads(
    (Path(__file__).parent / "found.toml").read_text(encoding="utf-8")
)
"""What the fuzzers found, each mended since: the target and the bytes."""

bounded = settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow])


@pytest.mark.parametrize("target", TARGETS)
def test_seeds_hold_every_promise(target: str) -> None:
    own = [data for name, data in SEEDS if name == target]
    assert own
    for data in own:
        result_of(target, data)


@pytest.mark.parametrize("name", FOUND)
def test_what_was_found_once_stays_mended(name: str) -> None:
    found: Any = FOUND[name]
    result_of(found["target"], base64.b64decode(found["bytes"]))


# --- notation: grammar words in any order, cut, doubled, with strange signs between

NUMBERS = "1 12 0 007 1/2 ½ ¾ 12½ 3.5 1,5 9999999999999 e5 \u0663 - − – \" ″ ' / ; , ( ) [ ≈ ** ² % $ € £"
UNITS = "in in. inch inches ft yd yard cm mm m sq cut finished per each USD EUR h min s wt Ne tex den"
WORDY = "#b5512c red yes no to by from \u202e \x00 \ud800 \uf800 \u200b"
PARTS = [" ", "\u00a0", "1 1/2", *NUMBERS.split(), *UNITS.split(), *WORDY.split()]
near_notation = st.lists(st.sampled_from(PARTS), max_size=9).flatmap(
    lambda parts: st.sampled_from(["", " "]).map(lambda between: between.join(parts))
)


def raw(text: str) -> bytes:
    return text.encode("utf-8", "surrogatepass").replace(b"\xed\xa0\x80", b"\xed")


@bounded
@given(st.integers(0, 255), st.integers(0, 2), st.integers(0, 7), near_notation)
def test_near_notation(kind: int, how: int, unit: int, text: str) -> None:
    result_of("notation", bytes((kind, how, unit)) + raw(text))


@bounded
@given(st.integers(0, 2), st.integers(0, 2), near_notation)
def test_near_prices(how: int, unit: int, text: str) -> None:
    result_of("prices", bytes((how, unit)) + raw(text))


@bounded
@given(st.integers(0, 255), near_notation)
def test_near_ladders(spot: int, text: str) -> None:
    result_of("values", bytes((spot,)) + raw(text))


@bounded
@given(st.text(max_size=60))
def test_any_search(text: str) -> None:
    result_of("search", text.encode("utf-8", "surrogatepass"))


@bounded
@given(st.binary(max_size=80))
def test_any_links(data: bytes) -> None:
    result_of("links", data)


# --- near-valid projects: an example's lines, some of them taken out, doubled, moved, cut or made strange

FILES = [data[2:].decode() for name, data in SEEDS if name == "document" and data[0] == 0]
STRANGE = [
    *(
        "[",
        "[[",
        "[[tab]]",
        "[tab.given]",
        "[[tab.given.borders]]",
        "[project]",
        "[a.b.c]",
        "[[fabric]]",
        "]",
    ),
    *(
        'tab.name = "x"',
        "x = '''",
        'y = """',
        '"""',
        "'''",
        "z = [",
        "# only a comment",
        "  # indented",
        "\t",
    ),
    *(
        "",
        'name = "twice"',
        "given = {}",
        "tab = []",
        "tab = [{}]",
        "q = { a = 1, b = [1, 2] }",
        "'odd key' = 1",
    ),
    *(
        "\ufeff",
        "\x00",
        "date = 2026-11-29",
        "inf = inf",
        "n = nan",
        "e = 1e400",
        "big = 99999999999999999999",
    ),
    *('"" = ""', "a.b = 1", 'width = { from = "Top", take = "width" }', "\u2028 = 1", 'k = "\\u202e"'),
]
steps = st.one_of(
    st.tuples(st.sampled_from(["out", "double", "cut", "up"]), st.integers(0, 400), st.integers(0, 60)),
    st.tuples(st.just("strange"), st.integers(0, 400), st.integers(0, len(STRANGE) - 1)),
)


def mutated(text: str, changes: list[tuple[str, int, int]], end: str) -> str:
    lines = text.split("\n")
    for word, place, more in changes:
        at = place % len(lines)
        match word:
            case "out" if len(lines) > 1:
                del lines[at]
            case "double":
                lines.insert(at, lines[at])
            case "cut":
                lines[at] = lines[at][:more]
            case "up":
                lines.insert(more % len(lines), lines.pop(at))
            case "strange":
                lines.insert(at, STRANGE[more])
    return end.join(lines)


@settings(max_examples=300, deadline=None)
@given(
    st.sampled_from(FILES), st.lists(steps, max_size=6), st.sampled_from(["\n", "\r\n"]), st.integers(0, 7),
    st.integers(0, 30),
)  # fmt: skip
def test_near_valid_projects(text: str, changes: Any, end: str, edit: int, place: int) -> None:
    data = mutated(text, changes, end).encode()
    result_of("document", bytes((edit, place << 1 | 1)) + data)


near_json = st.recursive(
    st.sampled_from([None, True, False, -3, 0, 1, 2, 7, 0.5, 1e300, "a", "A", "2026-11-29"]),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(st.sampled_from(["1", "a", "$toml", "name"]), inner, max_size=3)
    ),
    max_leaves=8,
)
WORDS = ["draft", "when", "root", "project", "tab", "tab_order", "fabric", "fabric_order", "ladder", "ids"]


@bounded
@given(st.booleans(), st.lists(st.dictionaries(st.sampled_from(WORDS), near_json, max_size=4), max_size=4))
def test_near_journals(whole: bool, records: list[dict[str, Any]]) -> None:
    import json

    lines = [json.dumps(record) for record in records]
    result_of("journal", "\n".join(["h" if whole else "", *lines]).encode())
