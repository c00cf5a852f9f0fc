"""Quilting and piecing thread are held against the contract."""

from typing import Any

import pytest

from boltend.testing import Worked, check
from boltend_backing_batting.battings import BATTINGS
from boltend_quilting_thread.bobbins import BOBBINS
from boltend_quilting_thread.piecing import piecing_thread
from boltend_quilting_thread.quilting import quilting_thread
from boltend_quilting_thread.threads import THREADS

TABLES = [THREADS, BOBBINS, BATTINGS]
FULL: dict[str, Any] = {
    "width": "60 in", "height": "72 in", "spacing": "2 in", "thickness": "1/16 in",
    "thread": "cotton 50/2, 1300 m", "bobbin": "L", "speed": "600",
}  # fmt: skip


def holds(raw: Any, worked: Worked) -> None:
    """So many spools hold both threads, and there is at least as much of each thread as of its seam."""
    found: Any = worked.found
    for goods in worked.answer.goods:
        assert goods.amount == found["spools"]
    for thread in ("top_thread", "bobbin_thread"):
        assert found[f"{thread}_low"] <= found[thread] <= found[f"{thread}_high"]


@pytest.mark.parametrize("pattern", ["square grid", "in the ditch"])
def test_quilting_keeps_the_contract(pattern: str) -> None:
    example = {**FULL, "pattern": pattern, "ditch_length": "40 yd", "batting": "wool"}
    check(
        quilting_thread, tables=TABLES, own_metric=("spools", "bobbins"), covers=holds, examples=25, **example
    )


def test_piecing_keeps_the_contract() -> None:
    check(
        piecing_thread, tables=TABLES, own_metric=("spools", "bobbins"), covers=holds, examples=25,
        seam_length="100 yd", thickness="0.025 in", thread="cotton 50/2, 1300 m", bobbin="L",
    )  # fmt: skip
