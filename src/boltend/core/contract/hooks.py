"""The hooks through which a plugin, built-in or a stranger's, enters the house.

A plugin is a module with `boltend_contract = 1` and one or more functions marked by `hookimpl`.
"""

from typing import TYPE_CHECKING

import pluggy

if TYPE_CHECKING:
    from boltend.core.contract.declare import Calculator
    from boltend.core.contract.specs import Start
    from boltend.core.contract.tables import Table

hookspec = pluggy.HookspecMarker("boltend")
hookimpl = pluggy.HookimplMarker("boltend")


@hookspec
def boltend_calculators() -> "list[Calculator]":  # type: ignore[empty-body]  # a specification has no body
    """The calculators that this plugin brings."""


@hookspec
def boltend_tables() -> "list[Table]":  # type: ignore[empty-body]  # a specification has no body
    """The tables that its givens choose from."""


@hookspec
def boltend_starts() -> "list[Start]":  # type: ignore[empty-body]  # a specification has no body
    """Questions for the start screen, each with the tabs and links that answer it."""
