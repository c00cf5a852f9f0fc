"""How much thread the quilting and the piecing take."""

from boltend.plugin import Calculator, Start, Table, hookimpl
from boltend_quilting_thread.bobbins import BOBBINS
from boltend_quilting_thread.piecing import piecing_thread
from boltend_quilting_thread.quilting import quilting_thread
from boltend_quilting_thread.threads import THREADS

boltend_contract = 1


@hookimpl
def boltend_calculators() -> list[Calculator]:
    """The calculators of this plugin."""
    return [quilting_thread, piecing_thread]


@hookimpl
def boltend_tables() -> list[Table]:
    """Threads with their number and spool, bobbins with what they hold."""
    return [THREADS, BOBBINS]


@hookimpl
def boltend_starts() -> list[Start]:
    """Questions for the start screen."""
    size: dict[str, object] = {side: {"from": "Top", "take": side} for side in ("width", "height")}
    seams: dict[str, object] = {"seam_length": {"from": "Top", "take": "seam_length"}}
    return [
        Start(
            question="How much thread will the quilting take, and how long?",
            tabs=(("Top", "measured_top", {}), ("Quilting", "quilting_thread", size)),
        ),
        Start(
            question="How much thread will the piecing take?",
            tabs=(("Top", "straight_set", {}), ("Piecing", "piecing_thread", seams)),
        ),
    ]
