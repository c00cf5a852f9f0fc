"""Backing and batting: what lies under the top, and what that takes."""

from boltend.plugin import Calculator, Start, Table, hookimpl
from boltend_backing_batting.backing import backing
from boltend_backing_batting.batting import batting
from boltend_backing_batting.battings import BATTINGS

boltend_contract = 1


@hookimpl
def boltend_calculators() -> list[Calculator]:
    """The calculators of this plugin."""
    return [backing, batting]


@hookimpl
def boltend_tables() -> list[Table]:
    """Battings: the usual packages, and kinds with their widest quilting gap and their shrinkage."""
    return [BATTINGS]


@hookimpl
def boltend_starts() -> list[Start]:
    """A question for the start screen."""
    top: dict[str, object] = {
        "width": {"from": "Top", "take": "width"},
        "height": {"from": "Top", "take": "height"},
    }
    return [
        Start(
            question="How much backing, and which batting?",
            tabs=(
                ("Top", "measured_top", {}),
                ("Backing", "backing", dict(top)),
                ("Batting", "batting", dict(top)),
            ),
        )
    ]
