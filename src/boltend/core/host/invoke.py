"""Run one calculator in this process: the same function in the main process and in the worker."""

from collections.abc import Callable, Mapping
from time import perf_counter
from typing import NamedTuple

from boltend.core.contract import Answer, Calculator, Cannot, Job, Settings, row_class_of
from boltend.core.host.calls import Fault, Outcome
from boltend.core.host.faults import fault_of


class Prepared(NamedTuple):
    """A calculator's function and what must be known to call it, looked up once."""

    function: Callable[..., object]
    takes_setting: bool
    takes_job: bool
    rows: tuple[tuple[str, type], ...]


def prepare(calculator: Calculator) -> Prepared:
    """Look up what a call needs: which givens are rows, and the class of their rows."""
    function = calculator.function
    rows = tuple((g.name, row_class_of(function, g.name)) for g in calculator.spec.givens if g.kind == "rows")
    return Prepared(function, calculator.takes_setting, calculator.takes_job, rows)


def invoke(
    prepared: Prepared, args: Mapping[str, object], settings: Settings, job: Job | None = None
) -> Outcome:
    """Call a calculator and keep whatever comes of it; only a KeyboardInterrupt passes through.

    `args` hold rows as tuples of dicts and table rows as values. The path of a plain call is kept short: a
    chain of two hundred tabs goes through here on every keystroke.
    """
    begin = perf_counter()
    try:
        if prepared.rows or prepared.takes_setting or prepared.takes_job:
            args = _filled(prepared, args, settings, job)
        answer = prepared.function(**args)
        seconds = perf_counter() - begin
        if isinstance(answer, Answer):
            return Outcome(answer, seconds=seconds)
        return Outcome(fault=Fault(f"it answered {type(answer).__name__}, not an Answer."), seconds=seconds)
    except Cannot as cannot:
        return _declared(cannot)._replace(seconds=perf_counter() - begin)
    except KeyboardInterrupt:
        raise
    except BaseException as error:  # SystemExit and plugins' own BaseExceptions harm their tab only
        return Outcome(fault=fault_of(error), seconds=perf_counter() - begin)


def _declared(cannot: Cannot) -> Outcome:
    """The declared error made anew: without the traceback, which would keep the call's frames alive."""
    try:
        return Outcome(cannot=Cannot(str(cannot.given), str(cannot.why), str(cannot.way_out)))
    except KeyboardInterrupt:
        raise
    except BaseException as error:  # a plugin's own object in place of a text
        return Outcome(fault=fault_of(error, "it raised Cannot, whose words cannot be read:"))


def _filled(
    prepared: Prepared, args: Mapping[str, object], settings: Settings, job: Job | None
) -> Mapping[str, object]:
    filled = dict(args)
    for name, cls in prepared.rows:
        rows = filled.get(name)
        if rows is not None:
            filled[name] = tuple(cls(**row) for row in rows)  # type: ignore[attr-defined]  # a tuple of dicts
    if prepared.takes_setting:
        filled["setting"] = settings
    if prepared.takes_job:
        filled["job"] = job
    return filled
