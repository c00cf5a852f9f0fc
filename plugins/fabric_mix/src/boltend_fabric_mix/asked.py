"""What was asked for."""

from dataclasses import dataclass
from fractions import Fraction

from boltend_fabric_mix.cloths import Cloths
from boltend_fabric_mix.solve import Task


@dataclass(frozen=True)
class Asked:
    """What was asked for: the task, its fabrics, and the least contrast."""

    task: Task
    cloths: Cloths
    least: Fraction
