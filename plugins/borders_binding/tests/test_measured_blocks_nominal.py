"""Measured blocks without a nominal size: it is needed only where it is used."""

import pytest

from boltend.plugin import Cannot
from boltend.testing import work
from boltend_borders_binding.measured_blocks import measured_blocks

SIZES = "2 of 12 1/4 in; 12 1/2 in; 12 5/8 in"


def test_trimmed_to_the_smallest_no_nominal_size_is_needed() -> None:
    worked = work(measured_blocks, sizes=SIZES)
    found = worked.found
    # The smallest is 12 1/4 in, less two seams of 1/4 in; the largest is 3/8 in more.
    assert [str(found[name]) for name in ("trim_to", "finished_size", "spread")] == ["49/4", "47/4", "3/8"]
    assert [found[name] for name in ("short", "long", "coping_strip")] == [None, None, None]
    assert worked.working[0].startswith("4 blocks measured")
    assert not any("coping" in line or "below" in line for line in worked.working)
    with_nominal = work(measured_blocks, sizes=SIZES, nominal="12 1/2 in")
    assert with_nominal.found["trim_to"] == found["trim_to"]
    assert with_nominal.cautions == worked.cautions


def test_trimmed_to_the_nominal_size_it_is_asked_for() -> None:
    with pytest.raises(Cannot) as refused:
        work(measured_blocks, sizes=SIZES, trim="nominal")
    assert refused.value.given == "nominal"


@pytest.mark.parametrize(
    ("givens", "said"),
    [
        ({"sizes": SIZES}, ["trim all 4 blocks to 12 1/4 in cut"]),
        ({"sizes": "12 1/4 in; 12 1/4 in"}, []),  # they are alike already
        (
            {"sizes": SIZES, "trim": "nominal", "nominal": "12 1/2 in"},
            ["sew coping strips round the short ones (2), then trim all 4 blocks to 12 1/2 in cut"],
        ),
        (
            {"sizes": "12 5/8 in", "trim": "nominal", "nominal": "12 1/2 in"},
            ["trim every block to 12 1/2 in cut"],  # one size stands for all, however many there are
        ),
    ],
)
def test_to_cut_begins_with_the_trimming(givens: dict[str, str], said: list[str]) -> None:
    assert work(measured_blocks, **givens).json["first"] == said
