"""Example projects and published reference tables, each with its source."""

from boltend_shared.check_values import Case, Source, cases

__all__ = ["Case", "Source", "cases"]
