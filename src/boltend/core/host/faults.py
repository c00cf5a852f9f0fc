"""Faults from exceptions: a short reason on one line, and the whole traceback, both safe to show."""

import os
import signal
import traceback

from boltend.core.contract import ContractError
from boltend.core.host.calls import Fault

_MOST_WHY = 300
_MOST_TRACEBACK = 20_000


def fault_of(error: BaseException, what: str = "it raised") -> Fault:
    """A fault from an exception: `what` (`it raised`) followed by the exception's own words.

    A `ContractError` begins with its place, and tells all by itself: nothing is said before it.
    """
    try:
        words = _in_short(error)
        lines = "".join(traceback.format_exception(error))
        if isinstance(error, SystemExit):
            words = f"SystemExit({error.code!r}), as if it were the program"
    except KeyboardInterrupt:
        raise
    except BaseException:  # an exception that cannot even be shown
        words, lines = type(error).__name__, ""
    said = str(error) if isinstance(error, ContractError) else f"{what} {words}"
    said = one_line(said)
    return Fault(said if said.endswith((".", "?", "!")) else f"{said}.", shown_text(lines[-_MOST_TRACEBACK:]))


def _in_short(error: BaseException) -> str:
    """An exception's own words, without the lines that point into a text, and where a module was read."""
    if isinstance(error, SyntaxError) and error.filename is not None:
        return f"{type(error).__name__}: {error.msg} ({_short(error.filename)}, line {error.lineno})"
    words = "".join(traceback.format_exception_only(error)).strip()
    frames = traceback.extract_tb(error.__traceback__)
    at = next((f for f in reversed(frames) if f.name == "<module>"), None)
    return words if at is None else f"{words.rstrip('.')} ({_short(at.filename)}, line {at.lineno})"


def _short(file: str) -> str:
    """The end of a path: enough for its author to know it."""
    folder, name = os.path.split(file)
    return f"…/{os.path.basename(folder)}/{name}" if folder else name


def one_line(text: str) -> str:
    """A text of any origin as one short line without control characters."""
    line = " ".join(plain(text[: 4 * _MOST_WHY]).split())
    return line if len(line) <= _MOST_WHY else line[: _MOST_WHY - 1] + "…"


def shown_text(text: str) -> str:
    """A text of any origin, its lines kept, without control characters."""
    return "\n".join(plain(line) for line in text.splitlines())


def plain(text: str) -> str:
    """A text of any origin without control characters, line ends among them."""
    return "".join(c if c.isprintable() else " " if c.isspace() else "�" for c in text)


def how_it_ended(code: int | None) -> str:
    """Words for the exit code of a process."""
    if code is None:
        return "without a word"
    if code < 0:
        try:
            return f"by signal {signal.Signals(-code).name}"
        except ValueError:
            return f"by signal {-code}"
    return f"with exit code {code}"
