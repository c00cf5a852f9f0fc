"""What is refused: at which character, and with what way out."""

from __future__ import annotations

import pytest

from boltend.core.values import KINDS, ChoiceKind, Kind, Notation, NotationError, read_length

US = Notation()

# text, index of the character at fault, texts that are offered
LENGTHS: list[tuple[str, int, tuple[str, ...]]] = [
    ("1,5 cm", 1, ("1.5 cm",)),
    ("1,500 in", 1, ("1500 in", "1.500 in")),
    ("1,500,000", 1, ("1500000",)),
    ("12 in, 3", 5, ()),
    ("1 2 in", 2, ("12 in", "1/2 in")),
    ("12 1/2 1/4", 7, ()),
    ("3/4/5", 3, ()),
    ("1/2½", 3, ()),
    ("1½½", 2, ()),
    ("5/0", 2, ()),
    ("5/", 2, ()),
    ("5 /8 yd", 2, ("5/8 yd",)),
    ("12 3/2", 3, ("13 1/2",)),
    ("12 4/2 in", 3, ("14 in",)),
    ("1 yd 4", 5, ("1 yd 4 ft", "1 yd 4 in")),
    ("1 yd 4 cut", 5, ("1 yd 4 ft cut", "1 yd 4 in cut")),
    ("4 in 1 yd", 7, ()),
    ("1 in 1 in", 7, ()),
    ("1 yd 3 cm", 7, ()),
    ("2 x 4", 2, ("2", "4")),
    ("2x4", 1, ("2", "4")),
    ("2 × 4", 2, ("2", "4")),
    ("2 by 4", 2, ("2", "4")),
    ("6 x 12 1/2", 2, ("6", "12 1/2")),
    ("60 in x 80 in", 6, ("60 in", "80 in")),
    ("60 in × 80 in", 6, ("60 in", "80 in")),
    ("4 x", 2, ("4",)),
    ("12 - 1/2", 3, ("12 1/2",)),
    ("12 -1/2", 3, ("12 1/2",)),
    ("12- 1/2", 2, ("12 1/2",)),
    ("12–1/2", 2, ("12 1/2",)),
    ("12-1", 2, ()),
    ("12 in - 1 in", 6, ()),
    ("3+4", 1, ()),
    ("+3", 0, ("3",)),
    ("--3", 1, ()),
    ("1e3", 1, ()),
    ("1e999999", 1, ()),
    ("9**9**9", 1, ()),
    ("9^9", 1, ()),
    ("12 inchs", 3, ("12 inches",)),
    ("12 yrad", 3, ("12 yard",)),
    ("12 qqqq", 3, ()),
    ("4 sq in", 2, ()),
    ("12 in cut cut", 10, ()),
    ("12 in sewn", 6, ()),
    ("", 0, ()),
    ("   ", 3, ()),
    ("hello", 0, ()),
    ("in", 0, ()),
    ("≈ 31.8 cm", 0, ()),
    ("12 ≈", 3, ()),
    ("12.", 2, ("12",)),
    ("1.2.3", 3, ()),
    ("12.5 1/2", 5, ()),
    ("1_000", 1, ("1000",)),
    ("12\u200b in", 2, ("12 in",)),
    ("\u202e12", 0, ("12",)),
    ("12\t in", 2, ("12 in",)),
    ("12\n", 2, ("12",)),
    ("12\x00", 2, ("12",)),
    ("12\ud800", 2, ("12",)),
    ("٣ in", 0, ("3 in",)),
    ("12 in ٣", 6, ()),
    ("１２", 0, ("12",)),
    ("1" * 13, 12, ()),
    ("0." + "1" * 13, 14, ()),
    ("1/" + "1" * 16, 17, ()),
    ("10000001", 0, ()),
    ("1" * 1_000_000, 100, ()),
    ("1/" * 500_000, 100, ()),
]


def refusal(kind: Kind, text: str, unit: str = "") -> NotationError:
    with pytest.raises(NotationError) as caught:
        kind.read(text, US, unit)
    return caught.value


@pytest.mark.parametrize(("text", "at", "offers"), LENGTHS, ids=lambda v: ascii(v)[:30])
def test_a_length_is_refused_at_the_character(text: str, at: int, offers: tuple[str, ...]) -> None:
    for name in ("length", "cut", "finished"):
        error = refusal(KINDS[name], text)
        assert error.text == text
        assert error.at == at
        assert error.why
        assert error.way_out
        assert error.offers == offers
        for offer in offers:
            assert offer in error.way_out
            read_length(offer, US)


OTHERS: list[tuple[str, str, str, int, tuple[str, ...]]] = [
    ("count", "2.5", "", 1, ("2", "3")),
    ("count", "1,000", "", 1, ("1000",)),
    ("count", "-3", "", 0, ()),
    ("count", "16 blocks", "", 3, ("16",)),
    ("count", "1000000001", "", 0, ()),
    ("percent", "10 foo", "", 3, ()),
    ("percent", "10 %%", "", 4, ()),
    ("number", "1e5", "", 1, ()),
    ("number", "5 in", "", 2, ()),
    ("time", "-3", "", 0, ()),
    ("time", "2:30", "", 1, ()),
    ("time", "30 min 2 h", "", 9, ()),
    ("time", "2 h 30", "", 4, ("2 h 30 min", "2 h 30 s")),
    ("area", "4 yd", "", 2, ("4 sq yd",)),
    ("area", "-4 sq yd", "", 0, ()),
    ("area", "4 sq yd 2 sq yd", "", 10, ()),
    ("price", "12,50", "", 2, ("12.50",)),
    ("price", "12 1/2", "", 0, ("12.50",)),
    ("price", "-1", "", 0, ()),
    ("price", "€5", "", 0, ("5",)),
    ("price", "14 EUR per metre", "", 3, ("14 per metre",)),
    ("price", "$5 USD", "", 3, ()),
    ("price", "5 per foot", "", 6, ("5 per yard", "5 per metre")),
    ("price", "5 per", "", 5, ("5 per yard", "5 per metre")),
    ("price", "5/", "", 2, ()),
    ("price", "1/3", "", 0, ()),
    ("rate", "10", "", 2, ("10 per in", "10 per cm", "10 per min")),
    ("rate", "10 in", "", 3, ("10 per in",)),
    ("rate", "850 per min", "per in", 3, ()),
    ("rate", "5 per foo", "", 6, ("5 per in", "5 per cm", "5 per min", "5 per hour")),
    ("rate", "-5 per in", "", 0, ()),
    ("thread_number", "40 wt", "", 3, ("40 wt Nm", "40 wt Ne 2 ply", "40 wt Ne 3 ply")),
    ("thread_number", "40wt", "", 2, ("40 wt Nm", "40 wt Ne 2 ply", "40 wt Ne 3 ply")),
    ("thread_number", "40 wt Ne", "", 3, ("40 wt Nm", "40 wt Ne 2 ply", "40 wt Ne 3 ply")),
    ("thread_number", "50/2 Ne", "", 0, ("50 Ne 2 ply", "50 Nm 2 ply")),
    ("thread_number", "50", "", 2, ("50 Ne", "50 Nm", "50 tex")),
    ("thread_number", "0 tex", "", 0, ()),
    ("thread_number", "50 foo", "", 3, ("50 Ne", "50 Nm", "50 tex", "50 den", "50 dtex")),
    ("yes_no", "maybe", "", 0, ("yes", "no")),
    ("fabric", " ", "", 0, ()),
    ("fabric", "Blue\u202edots", "", 4, ("Bluedots",)),
    ("text", "x" * 501, "", 500, ()),
    ("text", "a\x1b[31mb", "", 1, ("a[31mb",)),
    ("colour", "nvy", "", 0, ("navy",)),
    ("colour", "abc", "", 0, ("#abc",)),
    ("colour", "#12345", "", 6, ()),
    ("colour", " #1g2", "", 3, ()),
    ("measured", "1,5 cm", "", 1, ("1.5 cm", "1; 5 cm")),
    ("measured", "12, 1 2 in", "", 6, ("12, 12 in", "12, 1/2 in")),
    ("measured", "12; 13 inchs; 14", "", 7, ("12; 13 inches; 14",)),
    ("measured", "12;", "", 3, ()),
    ("measured", "", "", 0, ()),
    ("measured", "12; 0", "", 3, ()),
    ("measured", "6 x 12 1/2", "", 2, ("6 of 12 1/2",)),
    ("measured", "6 × 12 1/2; 4 by 12 3/8", "", 2, ("6 of 12 1/2; 4 of 12 3/8",)),
    ("measured", "60 in × 80 in", "", 6, ("60 in", "80 in")),
    ("measured", "0 of 12", "", 0, ()),
    ("measured", "12; 51 of 12", "", 4, ()),
    ("measured", "26 of 12; 25 of 13", "", 9, ()),
    ("measured", "6 of", "", 4, ()),
    ("measured", "2 of 3 of 12", "", 7, ()),
    ("measured", "1/2 of 12", "", 4, ()),
    ("measured", "12; 6 of 13 inchs", "", 12, ("12; 6 of 13 inches",)),
    ("cut", "6 of 12", "", 2, ()),
    ("measured", "-1/2", "", 0, ()),
    ("measured", ";".join(["1"] * 51), "", 100, ()),
    ("measured", "1" * 1_000_000, "", 5000, ()),
]


@pytest.mark.parametrize(("kind", "text", "unit", "at", "offers"), OTHERS, ids=lambda v: ascii(v)[:30])
def test_each_kind_refuses_at_the_character(
    kind: str, text: str, unit: str, at: int, offers: tuple[str, ...]
) -> None:
    error = refusal(KINDS[kind], text, unit)
    assert (error.text, error.at, error.offers) == (text, at, offers)
    assert error.why
    assert error.way_out
    for offer in offers:
        assert offer in error.way_out
        KINDS[kind].read(offer, US, unit)


def test_a_wrong_choice_is_told_the_nearest() -> None:
    kind = ChoiceKind(("one run", "each side"))
    assert refusal(kind, "each sid").offers == ("each side",)
    assert refusal(kind, "zzzz").offers == ("one run", "each side")


@pytest.mark.parametrize(
    "character", ["\x00", "\x1b", "\x7f", "\x9b", "\u200f", "\u2066", "\ufeff", "\u2028"]
)
@pytest.mark.parametrize("kind", [name for name in KINDS if name not in ("choice",)])
def test_hidden_characters_are_named_and_never_repeated_raw(kind: str, character: str) -> None:
    text = f"1{character}2 in"
    error = refusal(KINDS[kind], text)
    assert error.at == 1
    assert f"U+{ord(character):04X}" in error.why
    for shown in (str(error), error.pointed()):
        assert character not in shown
        assert f"U+{ord(character):04X}" in shown


@pytest.mark.parametrize("kind", list(KINDS))
@pytest.mark.parametrize("text", ["1" * 10**6, "9**" * 10**5, "1e" + "9" * 10**5, " " * 10**6, "½" * 10**5])
def test_hostile_texts_end_in_an_error(kind: str, text: str) -> None:
    error = refusal(KINDS[kind], text)
    assert len(str(error)) < 400
    assert len(error.pointed()) < 400


def test_the_caret_stands_under_the_character() -> None:
    error = refusal(KINDS["cut"], "12 3/2 in")
    text, caret, why, way_out = error.pointed().splitlines()
    assert text[caret.index("^") :] == "3/2 in"
    assert why == error.why
    assert way_out == error.way_out
    assert "\n" not in str(error)


def test_the_caret_stands_right_in_a_long_text_with_hidden_characters() -> None:
    text = "Blue " * 30 + "\u200bdots" + " red" * 50
    shown, caret = refusal(KINDS["fabric"], text).pointed().splitlines()[:2]
    assert shown[caret.index("^") :].startswith("<U+200B>dots")
    assert len(shown) < 100


@pytest.mark.parametrize("kind", list(KINDS))
def test_only_texts_are_read(kind: str) -> None:
    for bad in (None, 5, 1.5, b"12"):
        with pytest.raises(TypeError):
            KINDS[kind].read(bad, US)  # type: ignore[arg-type]  # what is tested
