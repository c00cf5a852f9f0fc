"""Nothing that a worker sends makes the main process import or run anything."""

import io
import pickle
import struct
import sys
from fractions import Fraction

import pytest

from boltend.core.contract import Answer, Settings
from boltend.core.host.calls import Outcome
from boltend.core.host.frames import MOST_BYTES, MOST_REPLY, FrameError, read_frame, read_reply, write_frame
from boltend.core.host.messages import Better, Done, Ready
from boltend.core.values import Surd


class Evil:
    def __reduce__(self):
        return print, ("harm",)


def pickled(message: object) -> bytes:
    return pickle.dumps(message, pickle.HIGHEST_PROTOCOL)


@pytest.mark.parametrize(
    "message", [Ready(), Better(Answer({"a": Fraction(1, 3)}), 3), Done(Outcome(), False)]
)
def test_replies_cross(message):
    stream = io.BytesIO()
    write_frame(stream, message)
    stream.seek(0)
    assert read_reply(read_frame(stream)) == message


@pytest.mark.parametrize(
    "message",
    [
        Evil(),
        Better(Answer({"a": Evil()}), None),
        Better(Answer({"a": print}), None),
        Better("no answer", None),  # type: ignore[arg-type]
        Done(3, False),  # type: ignore[arg-type]
        Done(Outcome(answer="no answer"), False),  # type: ignore[arg-type]
        Settings(),
        "words",
        None,
    ],
)
def test_anything_else_is_refused(message, capsys):
    with pytest.raises(FrameError):
        read_reply(pickled(message))
    assert capsys.readouterr().out == ""


def test_a_module_is_never_imported_for_a_reply():
    sys.modules.pop("this", None)
    with pytest.raises(FrameError, match=r"holds a this\.s"):
        read_reply(b"cthis\ns\n.")
    assert "this" not in sys.modules


@pytest.mark.parametrize("data", [b"", b"\x80\x05", b"not a pickle", b"\x80\x05K\x01"])
def test_a_broken_reply_is_refused(data):
    with pytest.raises(FrameError):
        read_reply(data)


def test_a_dotted_way_into_an_allowed_module_is_refused():
    data = b"\x80\x04\x8c\x09fractions\x8c\x0bsys.modules\x93."
    with pytest.raises(FrameError, match=r"fractions\.sys\.modules"):
        read_reply(data)


def test_a_frame_is_bounded_both_ways():
    stream = io.BytesIO()
    with pytest.raises(FrameError, match="larger than 32 MiB"):
        write_frame(stream, b"x" * (MOST_BYTES + 1))
    assert stream.getvalue() == b""
    with pytest.raises(FrameError, match="larger than 32 MiB"):
        read_frame(io.BytesIO(struct.pack(">I", MOST_BYTES + 1)))


class Made:
    """Says how it is to be made at the other end."""

    def __init__(self, make: object, *args: object) -> None:
        self.make, self.args = make, args

    def __reduce__(self):
        return self.make, self.args


@pytest.mark.parametrize(
    "made",
    [
        (Fraction, "1e999999999"),  # minutes of work and a gigabyte, in the process that paints
        (Fraction, 10**4000, 7),
        (Fraction, 1, 10**4000),
        (Fraction, 1, 0),
        (Fraction, 0.5, 1),
        (Surd, "1e999999999", Fraction(1)),
        (Surd, Fraction(1), 2),
    ],
)
def test_a_number_that_would_take_for_ever_is_not_begun(made):
    with pytest.raises(FrameError):
        read_reply(pickled(Better(Answer({"a": Made(*made)}), None)))


def test_numbers_cross_exactly():
    found = {"a": Fraction(-7, 10**3000), "b": Surd(Fraction(1, 3), Fraction(-2)), "c": 10**3000}
    assert read_reply(pickled(Better(Answer(found), None))) == Better(Answer(found), None)


def test_a_reply_is_bounded():
    with pytest.raises(FrameError, match="larger than 8 MiB"):
        read_reply(pickled(Better(Answer({"a": "x" * (MOST_REPLY + 1)}), None)))


@pytest.mark.parametrize("data", [b"", b"\0\0", struct.pack(">I", 3) + b"ab"])
def test_a_frame_that_ends_early_is_the_end(data):
    with pytest.raises(EOFError):
        read_frame(io.BytesIO(data))
