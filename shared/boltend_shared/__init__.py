"""Example projects and published reference tables, each with its source."""

from boltend_shared.check_values import Case, Source, cases
from boltend_shared.standards import source_line, standards

__all__ = ["Case", "Source", "cases", "source_line", "standards"]
