"""Frames on the pipes between the host and its worker, and the reading of them without foreign code.

Unpickling a class imports its module, and a stranger's code is never imported in the main process. So what
comes from a worker is read with a short list of classes, all of them ours or plain numbers.
"""

import io
import pickle
import struct
from collections import OrderedDict
from collections.abc import Callable
from fractions import Fraction
from typing import IO, Any

from boltend.core.contract import (
    Answer,
    CalculatorSpec,
    Cannot,
    FoundSpec,
    GivenSpec,
    Goods,
    Line,
    Note,
    Piece,
    Polygon,
    Rect,
    Rule,
    Run,
    Shown,
    Start,
    Step,
    Table,
)
from boltend.core.host.calls import Fault, Outcome
from boltend.core.host.messages import Better, Described, Done, Ready, Reply
from boltend.core.values import Price, Rate, Surd, ThreadNumber

MOST_BYTES = 32 * 2**20
"""The largest frame: far above any answer that a person could use, far below what fills a memory."""

MOST_REPLY = 8 * 2**20
"""The largest reply of a worker: taking one apart holds up the screen for a moment."""

MOST_BITS = 10_000
"""The longest number, above or below its line: 3010 digits."""

_LENGTH = struct.Struct(">I")

_CLASSES: tuple[type, ...] = (
    *(Ready, Described, Better, Done, Outcome, Fault, Cannot),
    *(Answer, Line, Shown, Piece, Run, Goods, Rect, Polygon, Rule, Note),
    *(CalculatorSpec, GivenSpec, FoundSpec, Step, Start, Table),
    *(Price, Rate, ThreadNumber, OrderedDict),
)


class FrameError(Exception):
    """A frame that is too large, or that holds something which may not cross between processes."""


def write_frame(stream: IO[bytes], message: object) -> None:
    """Write one message. Raises `FrameError`, before any byte, where it is too large or cannot be sent."""
    try:
        data = pickle.dumps(message, pickle.HIGHEST_PROTOCOL)
    except Exception as error:  # whatever a plugin's own classes raise when they are taken apart
        raise FrameError(f"holds something that cannot be sent ({type(error).__name__}: {error})") from error
    if len(data) > MOST_BYTES:
        raise FrameError(f"is larger than {MOST_BYTES // 2**20} MiB")
    stream.write(_LENGTH.pack(len(data)) + data)
    stream.flush()


def read_frame(stream: IO[bytes]) -> bytes:
    """Read the bytes of one message. Raises `EOFError` at the end, `FrameError` where it is too large."""
    (length,) = _LENGTH.unpack(_read_exactly(stream, _LENGTH.size))
    if length > MOST_BYTES:
        raise FrameError(f"is larger than {MOST_BYTES // 2**20} MiB")
    return _read_exactly(stream, length)


def _fraction(top: object, under: object) -> Fraction:
    """A fraction of whole numbers as they are sent: `Fraction("1e999999999")` would take for ever."""
    if type(top) is not int or type(under) is not int or not under:
        raise FrameError("holds a fraction that is none")
    if max(top.bit_length(), under.bit_length()) > MOST_BITS:
        raise FrameError("holds a number of too many digits")
    return Fraction(top, under)


def _surd(a: object, b: object) -> Surd:
    if type(a) is not Fraction or type(b) is not Fraction:
        raise FrameError("holds a root that is none")
    return Surd(a, b)


_ALLOWED: dict[tuple[str, str], type | Callable[[object, object], object]] = {
    **{(c.__module__, c.__qualname__): c for c in _CLASSES},
    (Fraction.__module__, Fraction.__qualname__): _fraction,
    (Surd.__module__, Surd.__qualname__): _surd,
}
"""What may stand in a reply. Where a class would work on what it is given, a stand-in looks first."""


def _read_exactly(stream: IO[bytes], count: int) -> bytes:
    data = stream.read(count)
    if len(data) < count:
        raise EOFError
    return data


def read_reply(data: bytes) -> Reply:
    """Read what a worker said. Raises `FrameError` on anything but a reply made of the allowed classes."""
    if len(data) > MOST_REPLY:
        raise FrameError(f"is larger than {MOST_REPLY // 2**20} MiB")
    try:
        reply = _Careful(io.BytesIO(data)).load()
    except FrameError:
        raise
    except Exception as error:  # a broken pickle raises almost anything
        raise FrameError(f"cannot be read ({type(error).__name__})") from error
    if not isinstance(reply, Reply) or not _sound(reply):
        raise FrameError("is no reply")
    return reply


def _sound(reply: Reply) -> bool:
    if isinstance(reply, Better):
        return isinstance(reply.answer, Answer)
    if isinstance(reply, Done):
        outcome = reply.outcome
        return isinstance(outcome, Outcome) and isinstance(outcome.answer, Answer | None)
    return True


class _Careful(pickle.Unpickler):
    """An unpickler that knows a few classes and never imports a module."""

    def find_class(self, module: str, name: str) -> Any:
        known = _ALLOWED.get((module, name))
        if known is None:
            raise FrameError(f"holds a {module}.{name}, which is no value of the contract")
        return known
