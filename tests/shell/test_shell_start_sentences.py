"""What people in a shop type, and the question or calculator that must stand first for it."""

from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest

from boltend.core.host import Host
from boltend.core.project.edits import add_tab, set_setting
from boltend.core.project.model import Project
from boltend.core.project.recovered import Recovered
from boltend.shell.start_offers import (
    PROJECT_LINES,
    Line,
    example_lines,
    examples,
    found_lines,
    list_lines,
    recent_lines,
    start_lines,
    tab_lines,
    unsaved_lines,
)
from boltend.shell.start_recent import Recent

BED = "How many of my blocks cover this bed, and what for borders, binding and backing?"
ONPOINTBED = "How many of my blocks on point cover this bed"
MANY = "So many blocks of one size: how large, and what for two borders and binding?"
REACH = "Which borders bring my top to the size I want?"
ROUND = "How much do the borders and the binding round my top take?"
UNDER = "How much backing, and which batting?"
BACKING = "How much backing, and which way do its seams run?"
YARDS = ("How many squares or other pieces", "I have these yards of fabric")
ENOUGH = "Is the yardage that is printed for my backing enough?"
PRECUT = "How many blocks do my precuts make, and which quilts?"
WHOLE = "My precut squares are the blocks, left whole: which quilts do they make?"
THREAD = "How much thread will the quilting take, and how long?"
PIECING = "How much thread will the piecing take?"
TRIM = "My blocks came out unequal: what do I trim them to?"
HST = "What do I cut for half-square triangles, and how large a top do they make?"
NINE = "What do I cut for nine patches, and how large a top do they make?"
ALL = "This is all I have: how large, and what for borders and binding?"
MIX = "Which of my fabrics go together in each block?"
BORDERS = "What do my borders make, and what do I cut?"
BINDING = "How much binding, and how is it cut?"
BATTING = "Which batting covers it?"
GEESE = "What do I cut for flying geese?"
GRID = "How many blocks, and what sash and border, reach the size I want?"
BEDSIZE = "How large should a quilt for this bed be?"
STRAIGHT = "How large is a top of straight rows, and what does its sashing take?"
COST = "What does it cost, and what is to buy?"
QST = "What do I cut for quarter-square triangles or hourglass units?"
PRECUT1 = "How many pieces of one size does a precut give, and how many precuts do I need?"

SENTENCES = [
    ("30 blocks of 9 in, two borders 2 in and 4 in, binding", MANY),
    ("queen 60 x 80, drop 13, 9 in blocks, cover", BED),
    ("top measures 60 1/4, 60 3/8, 60 1/4 by 72, borders to 70 by 84", REACH),
    ("backing for 87 by 93 top, 42 and 108, batting", UNDER),
    ("is 5 yd backing enough for 87 by 93", ENOUGH),
    ("backing 87 by 93 pattern prints 5 yd", ENOUGH),
    ("5 yd backing printed 87 by 93", ENOUGH),
    ("top 60 1/4, 60 3/8, 60 1/4 by 72 to 70 by 84", REACH),
    ("borders 60 1/4 60 3/8 60 1/4 by 72 to 70 by 84", REACH),
    ("backing batting 87 by 93 finished", UNDER),
    ("87 finished by 93 finished backing and batting", UNDER),
    ("trim blocks to one size", TRIM),
    ("border 5 in wide", BORDERS),
    ("5 in border", BORDERS),
    ("what do two borders of 2 in and 5 in come to", BORDERS),
    ("my blocks are all different sizes", TRIM),
    ("some blocks are 12 1/2 and some are 12 3/8", TRIM),
    ("she has a king size bed and wants it to hang down 14 in", BED),
    ("quilt for a twin bed out of 12 in blocks", BED),
    ("how big a quilt for a queen bed", BEDSIZE),
    ("queen bed with blocks on point", ONPOINTBED),
    ("I have 42 blocks 12 in finished, how big a quilt", (MANY, ALL)),
    ("a customer has 48 orphan blocks of 8 in", MANY),
    ("how many yards of backing for a 60 by 72 quilt", UNDER),
    ("wide back 108 for 90 by 100", (UNDER, BACKING)),
    ("what batting do I need for 87 by 93", BATTING),
    ("the pattern says 4 yards of backing, quilt is 70 by 84", ENOUGH),
    ("do I have enough backing, 5 yards, quilt 87 x 93", ENOUGH),
    ("binding for a 70 by 84 quilt", BINDING),
    ("how many strips of binding for 87 by 93", BINDING),
    ("how much for the border and binding, top 60 by 72", ROUND),
    ("make my top bigger, 60 by 72 to 70 by 84", REACH),
    ("how wide should my borders be to get to 90 by 100", REACH),
    ("enlarge a 60 by 60 top to 70 by 70", REACH),
    ("5 in squares, two packs, how many blocks", PRECUT),
    ("one 10 in square pack of 42, what can I make", PRECUT),
    ("2 1/2 in strip roll, 40 strips, how big", PRECUT),
    ("half square triangles 4 in finished 48 of them", HST),
    ("HSTs finishing at 3 in, 60 of them", "What do I cut for half-square"),
    ("flying geese 3 in by 6 in, 24", GEESE),
    ("nine patch 9 in finished, 20 blocks", NINE),
    ("20 blocks of 12 in with 2 in sashing", (MANY, STRAIGHT)),
    ("sashing for 5 by 6 blocks of 9 in", STRAIGHT),
    ("how much thread to quilt 60 by 72 lines 1 in apart", THREAD),
    ("thread for piecing", PIECING),
    ("how much will it cost", COST),
    ("what fabrics go together", MIX),
    ("pieced border repeat 3 in on a 60 by 72 top", "Does a pieced border"),
    ("piano keys border 3 in repeat", "Does a pieced border"),
    ("hourglass blocks 4 in", QST),
    ("mitered borders 4 in on 60 by 72", BORDERS),
    ("my customer wants a king quilt with on point blocks, 12 in", ONPOINTBED),
    ("extra wide backing or 42 in, which is cheaper, quilt 90 by 90", (UNDER, BACKING)),
    ("how much fabric do I need for a 4 in border around a 60 by 80 quilt", (BORDERS, ROUND)),
    ("add a 3 inch border", BORDERS),
    ("what size will my quilt be with a 6 in border, top 54 by 66", (BORDERS, ROUND)),
    ("does 3 1/2 yards backing do for 60 by 70", (ENOUGH, UNDER)),
    ("lap quilt from 25 blocks 10 in", MANY),
    ("baby quilt 36 by 44 backing", UNDER),
    ("how many 9 in blocks for a twin bed", BED),
    ("how many blocks to make 60 by 72", (GRID,)),
    ("12 in blocks to reach 84 by 96", GRID),
    ("two 2 1/2 in strip rolls, how many blocks", PRECUT),
    ("fat quarters 12, how many 5 in squares", (PRECUT1, PRECUT)),
    ("square up my blocks", TRIM),
    ("some of my blocks are too small", TRIM),
    ("is my yardage enough", (ENOUGH,)),
    ("quilting thread 87 by 93 stipple", THREAD),
    ("spools of thread for quilting a queen", THREAD),
    ("flying geese border", (GEESE,)),
    ("top is 60 by 72, I want it about 80 by 92", REACH),
    ("how wide must the border be to get 84 in", REACH),
    ("backing", UNDER),
    ("border", (BORDERS, ROUND, REACH)),
    ("binding", BINDING),
    ("batting", (BATTING, UNDER)),
    ("bed", (BED, BEDSIZE)),
    ("thread", THREAD),
    ("queen", (BED, BEDSIZE)),
    ("queen size quilt", (BED, BEDSIZE)),
    ("how many 5 in squares from 3 yards", YARDS),
    ("1 1/2 yards of 42 in cloth, how many 5 in squares", YARDS),
    ("I want to make a throw 60 x 72 from 12 inch blocks", GRID),
    ("30 blocks 9 in sashing 2 in cornerstones border 4 in", MANY),
    ("add borders 2.5 in and 5 in to a 48 by 60 top, binding", ROUND),
    ("70 by 85 finished; how much backing at 9.99 a yard and what does it cost?", UNDER),
    ("binding for a 60 x 72 in throw at $11 a yard: what does it cost?", BINDING),
    ("how much backing for 87 by 93 and the price", UNDER),
    ("30 blocks of 9 in, two borders, how much is it", MANY),
    ("how much will the backing cost", UNDER),
    ("queen bed, 9 in blocks, what would that cost", BED),
    ("20 blocks of 12 in, borders 3 and 5, 12.50 a yard", MANY),
    ("12 in square blocks with 2 in sashing, 20 of them", (MANY, STRAIGHT)),
    ("how much is it", COST),
    ("what does a 60 by 72 quilt cost", COST),
    ("backing for a 90 x 100 quilt, 108 wide at 22.99 per yard", (UNDER, BACKING)),
    ("12.50 a yard for 20 blocks of 12 in", MANY),
    ("5 in squares, two packs, 1 in sashing", WHOLE),
    ("one 10 in square pack of 42, 1 in sashing", WHOLE),
    ("how much does the fabric cost", COST),
    ("what does my quilt cost", COST),
]
"""Where two would do, either may stand first."""


@pytest.fixture(scope="module")
def lines() -> Iterator[list[Line]]:
    """What the start screen offers in an empty project."""
    with Host.load() as host:
        asked = [*start_lines(host), *list_lines(empty=True)]
        yield [
            *PROJECT_LINES,
            *asked,
            *example_lines(examples()),
            *tab_lines(host, but={line.words for line in asked}),
        ]


@pytest.mark.parametrize(("typed", "first"), SENTENCES)
def test_what_answers_it_stands_first(lines: list[Line], typed: str, first: str | tuple[str, ...]) -> None:
    found = [line.words for line in found_lines(lines, typed)]
    assert found[0].startswith(first), found[:4]


# What was made before ---------------------------------------------------------------------------------


def _work(name: str, *tabs: str) -> Recovered:
    project = Project()
    if name:
        project = set_setting(project, "name", name)
    for tab in tabs:
        project = add_tab(project, tab, "backing", {"width": "87", "height": "93", "printed": "5 yd"})
    when = datetime(2026, 11, 29, 8, 30, tzinfo=UTC)
    return Recovered(project, (), when, False, Path("/nowhere"))


@pytest.fixture(scope="module")
def with_kept(lines: list[Line]) -> list[Line]:
    """The same for somebody who has worked before."""
    works = [
        _work("", "Bed", "Blocks", "Top", "Borders", "Binding", "Backing", "Batting"),
        _work("Backing for Anna", "Backing"),
        _work("Lot 7", "Blocks"),
        _work("Backing 87 by 93", "Backing"),
    ]
    recents = [
        Recent(Path("/nowhere/queen-bed.toml"), "Queen bed, 9 in blocks, cover"),
        Recent(Path("/nowhere/b.toml")),
    ]
    return [*unsaved_lines(works), *recent_lines(recents), *lines]


@pytest.mark.parametrize("typed", [typed for typed, _ in SENTENCES] + ["backing", "bed", "top", "queen bed"])
def test_no_question_opens_what_was_made_before(with_kept: list[Line], typed: str) -> None:
    assert found_lines(with_kept, typed)[0].group in ("Questions", "One tab")


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ("backing for anna", "Backing for Anna"),
        ("anna", "Backing for Anna"),
        ("lot 7", "Lot 7"),
        ("lot", "Lot 7"),
        ("tidewater", "Tidewater"),
        ("lantern row", "Lantern Row"),
        ("b.toml", "b.toml"),
    ],
)
def test_a_name_finds_what_bears_it(with_kept: list[Line], typed: str, name: str) -> None:
    assert found_lines(with_kept, typed)[0].words == name


def test_what_was_made_before_is_still_found_and_says_what_it_is(with_kept: list[Line]) -> None:
    found = found_lines(with_kept, "backing 87 by 93")
    kept = [line for line in found if line.group == "Unsaved work"]
    assert kept[0].words == "Backing 87 by 93"
    assert {line.kind for line in kept} == {"unsaved work"}


def test_two_that_are_the_same_are_one(lines: list[Line]) -> None:
    """A question that is a single tab with nothing set in it is that tab."""
    found = [line.words for line in found_lines(lines, "trim blocks to one size")]
    assert sum(words.startswith("My blocks came out unequal") for words in found) == 1
