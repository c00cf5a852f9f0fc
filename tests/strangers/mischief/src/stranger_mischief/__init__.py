"""Every fault that a plugin can have, one at a time: `what` says which, by its name in `faults` or `answers`.

MISCHIEF in the environment says what goes wrong before any calculation: while the module is imported or in
its hook (`early`). Nothing here harms the machine: memory is taken untouched, and a process
that is left behind ends by itself.
"""

import os

from boltend.plugin import Answer, Count, Finished, Rows, Text, calculator, found, given, hookimpl, row
from stranger_mischief import answers, early, faults

boltend_contract = 1

MISCHIEF = os.environ.get("MISCHIEF", "")
early.at_import(MISCHIEF)


@row
class Strip:
    """One strip."""

    width: Finished = found("Width", nearest="size")


class Found:
    """What it finds."""

    made: Count = found("Made")
    wide: Finished | None = found("Wide", nearest="size")
    said: Text | None = found("Said")
    strips: Rows[Strip] = found("Strips")


@calculator("mischief", asks="What goes wrong today?", found=Found)
def mischief(what: Text = given("What goes wrong", default="nothing")) -> Answer:
    """One fault, or twice one. Invented."""
    if what in faults.FAULTS:
        faults.FAULTS[what]()
    return answers.ANSWERS.get(what, answers.plain)()


@hookimpl
def boltend_calculators():
    """Bring the calculator, if nothing goes wrong."""
    return early.in_hook(MISCHIEF, mischief)
