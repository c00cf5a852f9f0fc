"""Calculators of how blocks are set together into a top."""

from boltend.plugin import Calculator, Start, Table, hookimpl
from boltend_quilt_setting.bed_size import bed_size
from boltend_quilt_setting.bed_size_starts import FOR_A_BED, FOR_A_BED_ON_POINT
from boltend_quilt_setting.beds import BEDS
from boltend_quilt_setting.grid_for_size import grid_for_size
from boltend_quilt_setting.on_point import on_point
from boltend_quilt_setting.straight_set import straight_set

boltend_contract = 1


@hookimpl
def boltend_calculators() -> list[Calculator]:
    """The calculators of quilt settings."""
    return [straight_set, on_point, grid_for_size, bed_size]


@hookimpl
def boltend_tables() -> list[Table]:
    """Beds: the mattress sizes of several regions."""
    return [BEDS]


@hookimpl
def boltend_starts() -> list[Start]:
    """Questions for the start screen."""
    return [
        Start(
            question="How large is a top set on point, and what do I cut for its edges?",
            tabs=(("Top", "on_point", {}),),
        ),
        FOR_A_BED,
        FOR_A_BED_ON_POINT,
    ]
