"""What the thread calculators say of their own arithmetic: each number of a line worked by hand."""

from typing import Any

from boltend.testing import Worked, work
from boltend_quilting_thread.bobbins import BOBBINS
from boltend_quilting_thread.piecing import piecing_thread
from boltend_quilting_thread.quilting import quilting_thread
from boltend_quilting_thread.threads import THREADS

KEPT = {"thread": "cotton 50/2, 1300 m", "bobbin": "L"}


def pieced(**said: Any) -> Worked:
    return work(piecing_thread, tables=[THREADS, BOBBINS], **{**KEPT, **said})


def quilted(**said: Any) -> Worked:
    plain = {**KEPT, "width": "60 in", "height": "72 in", "pattern": "other", "path": "100 yd"}
    return work(quilting_thread, tables=[THREADS, BOBBINS], **{**plain, **said})


def test_a_metric_project_counts_whole_metres() -> None:
    # 1 + 0.1 cm · 5 = 1.5; 100 m · 1.5 · 1.1 = 165 m of each, a whole number of metres but of no yards.
    worked = pieced(
        units="centimetres", seam_length="100 m", thickness="1 mm", stitches_per_inch="5 per cm", waste="10 %"
    )
    spools = "(165 m + 165 m) ÷ 1300 m = ≈ 0.25, up to 1. At the low figures 1, at the high ones 1."
    assert f"Spools, with the same thread above and below: {spools}" in worked.working


def test_bobbins_are_wound_with_the_thread_below() -> None:
    # 130 yd of 1000/70 tex are 78.62 yd of 2 · 590.5/50 tex: 150 yd below take two, 300 yd above would
    # take four.
    worked = quilted(unpicked_top="3", unpicked_bobbin="1.5", waste="0 %", margin="0 %")
    assert (worked.found["top_thread"], worked.found["bobbin_thread"]) == (300 * 36, 150 * 36)
    assert worked.found["bobbins"] == 2


def test_of_bobbins_that_are_counted_nothing_is_missed() -> None:
    assert not any("No count" in said for said in pieced(seam_length="100 yd", thickness="1/16 in").cautions)
    said = pieced(seam_length="100 yd", thickness="1/16 in", thread="rayon 40 wt, 850 yd").cautions
    assert any(
        "the number of “rayon 40 wt, 850 yd” is not known with its convention" in each for each in said
    )
