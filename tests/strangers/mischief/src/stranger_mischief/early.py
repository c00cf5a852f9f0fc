"""Faults before any calculation: while the module is imported, in its hook, in what it declares."""

from copy import copy
from dataclasses import replace

from boltend.plugin import Answer, Count, Text, calculator, found, given
from stranger_mischief import faults

NASTY = "[/x] [@click=app.quit]\x1b[31m\x07\u202e red\r\n"


class Found:
    """What the thief finds."""

    made: Count = found("Made")


@calculator("straight_set", asks="Whose name is this?", found=Found)
def thief(what: Text = given("What", default="x")) -> Answer:
    """Bears the name of a built-in calculator."""
    return Answer({"made": 1})


@calculator("button_row", asks="Whose name is this?", found=Found)
def twin(what: Text = given("What", default="x")) -> Answer:
    """Bears the name of another stranger's calculator."""
    return Answer({"made": 1})


def at_import(what: str) -> None:
    """Go wrong while the module is imported: `import: ` and the name of a fault."""
    if what.startswith("import: "):
        faults.FAULTS[what.removeprefix("import: ")]()


def in_hook(what: str, good: object) -> object:
    """Go wrong in the hook (`hook: ` and the name of a fault), or bring something wrong."""
    if what.startswith("hook: "):
        faults.FAULTS[what.removeprefix("hook: ")]()
    return {
        "brings: a number": 7,
        "brings: a million": [good] * 1_000_000,
        "brings: the name of a built-in": [good, thief],
        "brings: the name of a stranger": [good, twin],
        "brings: markup": [_with(good, _nasty(good.spec))],
        "brings: a megabyte": [_with(good, replace(good.spec, asks="so long " * 131_072))],
        "brings: many givens": [_with(good, replace(good.spec, givens=good.spec.givens * 100_000))],
    }.get(what, [good])


def _with(good: object, spec: object) -> object:
    other = copy(good)
    other.spec = spec
    return other


def _nasty(spec: object) -> object:
    givens = tuple(replace(g, label=NASTY, help=NASTY) for g in spec.givens)
    founds = tuple(replace(f, label=NASTY) for f in spec.founds)
    return replace(spec, asks=NASTY, givens=givens, founds=founds)


EARLY = (
    *(f"import: {name}" for name in faults.FAULTS),
    *(f"hook: {name}" for name in faults.FAULTS),
    *("brings: a number", "brings: a million", "brings: markup", "brings: a megabyte", "brings: many givens"),
    *("brings: the name of a built-in", "brings: the name of a stranger"),
)
"""All that can be said in MISCHIEF."""
