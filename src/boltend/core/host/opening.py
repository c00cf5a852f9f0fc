"""Open one plugin in this process: import it, register it by itself, call each of its hooks on its own.

pluggy's own loader stops at the first plugin that fails to import, one hook that raises stops the rest, and
a mistyped hook is silent. So every plugin gets a manager of its own here, and every failure is kept.
"""

from collections.abc import Callable
from dataclasses import dataclass, field
from difflib import get_close_matches
from functools import reduce
from importlib import import_module
from typing import TypeVar

import pluggy

from boltend.core.contract import CONTRACT, Calculator, Start, Table, hooks
from boltend.core.host.calls import Fault
from boltend.core.host.faults import fault_of, one_line
from boltend.core.host.invoke import Prepared, prepare
from boltend.core.host.messages import PluginRef
from boltend.core.host.soundness import calculator_problem, start_problem, table_problem

GROUP = "boltend.plugins"
HOOKS = ("boltend_calculators", "boltend_tables", "boltend_starts")

T = TypeVar("T")


@dataclass
class Opened:
    """A plugin that was imported, or what stood in the way. Faulty parts are left out, the others stay."""

    calculators: list[Calculator] = field(default_factory=list)
    prepared: dict[str, Prepared] = field(default_factory=dict)
    tables: list[Table] = field(default_factory=list)
    starts: list[Start] = field(default_factory=list)
    faults: list[Fault] = field(default_factory=list)
    contract: int | None = None


def open_plugin(ref: PluginRef, *, deep: bool) -> Opened:
    """Import a plugin and ask what it brings. Never raises for what the plugin does wrong.

    `deep` also reads every default, limit, step and table cell, which takes time: it is done for strangers,
    in the worker, while the texts of our own plugins are read by their tests.
    """
    opened = Opened()
    try:
        plugin = _imported(ref.value)
    except KeyboardInterrupt:
        raise
    except BaseException as error:
        opened.faults.append(fault_of(error, "it could not be imported:"))
        return opened
    try:
        version = getattr(plugin, "boltend_contract", None)
        opened.contract = version if type(version) is int else None
        problem = _contract_problem(version)
        if problem is None:
            _open(plugin, opened, deep)
        else:
            opened.faults.append(Fault(problem, refused=True))
    except KeyboardInterrupt:
        raise
    except BaseException as error:
        opened.faults.append(fault_of(error, "it could not be registered:"))
    return opened


def _imported(value: str) -> object:
    """What the value of an entry point names: `module`, or `module:attribute`."""
    module, _, attribute = value.partition("[")[0].partition(":")
    found = import_module(module.strip())
    return reduce(getattr, filter(None, attribute.strip().split(".")), found)


def _contract_problem(version: object) -> str | None:
    would_do = f"`boltend_contract = {CONTRACT}` in its module would do."
    if version is None:
        return f"it does not say which contract it keeps. {would_do}"
    if isinstance(version, str) and version.strip().isdigit():
        why = f"its boltend_contract is the text {version!r:.60}; it is a whole number, without quotes."
        return f"{why} {would_do}"
    if type(version) is not int or version < 1:
        return f"its boltend_contract is {version!r:.60}, not a whole number. {would_do}"
    if version > CONTRACT:
        return (
            f"it is written for contract {version}, and this Boltend understands contract {CONTRACT}. "
            "A newer Boltend, or an older version of the plugin, would do."
        )
    return None


def _open(plugin: object, opened: Opened, deep: bool) -> None:
    manager = pluggy.PluginManager("boltend")
    manager.add_hookspecs(hooks)
    manager.register(plugin)
    callers = manager.get_hookcallers(plugin) or []
    # what check_pending() finds, each with the nearest right name
    opened.faults += [_mistyped(c.name) for c in callers if not c.has_spec()]
    opened.faults += _unmarked(plugin)
    if not callers and not opened.faults:
        opened.faults.append(Fault("it brings nothing. A boltend_calculators() under @hookimpl would do."))
    for calculator in _ask(manager, HOOKS[0], Calculator, opened):
        _keep(opened, opened.calculators, calculator, lambda c: _calculator_problem(opened, c, deep))
    for table in _ask(manager, HOOKS[1], Table, opened):
        _keep(opened, opened.tables, table, lambda t: table_problem(t, deep))
    for start in _ask(manager, HOOKS[2], Start, opened):
        _keep(opened, opened.starts, start, start_problem)


def _mistyped(name: str) -> Fault:
    near = get_close_matches(name, HOOKS, 1, 0.5)
    return Fault(f"it marks {name}, which is no hook. " + (f"Did it mean {near[0]}?" if near else _known()))


def _unmarked(plugin: object) -> list[Fault]:
    """Functions that look like hooks but were never marked; pluggy would pass over them in silence."""
    faults = []
    for name in dir(plugin):
        value = getattr(plugin, name, None)
        if name.startswith("boltend_") and callable(value) and not hasattr(value, "boltend_impl"):
            near = get_close_matches(name, HOOKS, 1, 0.8)
            if near:
                hint = f"@hookimpl above {near[0]} would do."
                faults.append(Fault(f"its function {name} is not marked as a hook. {hint}"))
    return faults


def _known() -> str:
    return f"There are {', '.join(HOOKS[:-1])} and {HOOKS[-1]}."


def _ask(manager: pluggy.PluginManager, hook: str, wanted: type[T], opened: Opened) -> list[T]:
    caller = getattr(manager.hook, hook)
    if not caller.get_hookimpls():
        return []
    try:
        results = caller()
    except KeyboardInterrupt:
        raise
    except BaseException as error:
        opened.faults.append(fault_of(error, f"its {hook} raised"))
        return []
    result = results[0] if results else None
    if not isinstance(result, list | tuple):
        opened.faults.append(Fault(f"its {hook} returned {_a(result)}, not a list of {wanted.__name__}."))
        return []
    items = list(result)
    for item in items:
        if not isinstance(item, wanted):
            why = f"its {hook} returned {_a(item)} where a {wanted.__name__} is wanted."
            opened.faults.append(Fault(why))
    return [item for item in items if isinstance(item, wanted)]


def _a(value: object) -> str:
    if value is None:
        return "None"
    name = getattr(value, "__name__", "")
    return f"a {type(value).__name__}" + (f" ({name:.40})" if isinstance(name, str) and name else "")


def _keep(opened: Opened, kept: list[T], item: T, problem_of: Callable[[T], str | None]) -> None:
    """Keep one part, or what is wrong with it; the other parts are left alone."""
    try:
        problem = problem_of(item)
        fault = Fault(one_line(problem)) if problem is not None else None
    except Exception as error:
        fault = fault_of(error, f"{_a(item)} of its cannot be read:")
    if fault is None:
        kept.append(item)
    else:
        opened.faults.append(fault)


def _calculator_problem(opened: Opened, calculator: Calculator, deep: bool) -> str | None:
    problem = calculator_problem(calculator.spec, deep)
    if problem is None:
        opened.prepared[calculator.spec.name] = prepare(calculator)
    return problem
