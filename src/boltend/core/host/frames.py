"""Frames on the pipes between the host and its worker, and the reading of them without foreign code.

Unpickling a class imports its module, and a stranger's code is never imported in the main process. So what
comes from a worker is read with a short list of classes, all of them ours or plain numbers.
"""

import io
import pickle
import struct
from collections import OrderedDict
from fractions import Fraction
from typing import IO

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

_LENGTH = struct.Struct(">I")

_CLASSES: tuple[type, ...] = (
    *(Ready, Described, Better, Done, Outcome, Fault, Cannot),
    *(Answer, Line, Shown, Piece, Run, Goods, Rect, Polygon, Rule, Note),
    *(CalculatorSpec, GivenSpec, FoundSpec, Step, Start, Table),
    *(Fraction, Surd, Price, Rate, ThreadNumber, OrderedDict),
)
_ALLOWED = {(c.__module__, c.__qualname__): c for c in _CLASSES}


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


def _read_exactly(stream: IO[bytes], count: int) -> bytes:
    data = stream.read(count)
    if len(data) < count:
        raise EOFError
    return data


def read_reply(data: bytes) -> Reply:
    """Read what a worker said. Raises `FrameError` on anything but a reply made of the allowed classes."""
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

    def find_class(self, module: str, name: str) -> type:
        known = _ALLOWED.get((module, name))
        if known is None:
            raise FrameError(f"holds a {module}.{name}, which is no value of the contract")
        return known
