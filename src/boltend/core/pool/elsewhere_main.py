"""The process behind `elsewhere`: makes plans, one after the other, until its pipe ends."""

import os
import pickle
import threading
from queue import SimpleQueue
from typing import BinaryIO

from boltend.core.cutting import Plan
from boltend.core.host.child import take_pipes
from boltend.core.host.frames import FrameError, read_frame, write_frame
from boltend.core.host.messages import Ready
from boltend.core.pool.cutter import cut
from boltend.core.pool.elsewhere import Asked, StopAsked, Told


class _Job:
    """What the engine asks and tells, passed on."""

    def __init__(self, number: int, replies: BinaryIO) -> None:
        self.number, self.replies, self.stop = number, replies, threading.Event()

    def stopped(self) -> bool:
        return self.stop.is_set()

    def better(self, answer: object, bound: object) -> None:
        if isinstance(answer, Plan):
            write_frame(self.replies, Told(self.number, answer, last=False))


def main() -> None:
    """Serve requests until the pipe ends."""
    requests, replies = take_pipes()
    inbox: SimpleQueue[tuple[Asked, _Job]] = SimpleQueue()
    now: list[_Job] = []

    def listen() -> None:
        while True:
            try:
                asked = pickle.loads(read_frame(requests))
            except (EOFError, OSError, FrameError):
                os._exit(0)  # the main process is gone, or wants this one gone
            if isinstance(asked, StopAsked):
                for job in now:
                    job.stop.set()
            elif isinstance(asked, Asked):
                # made here, so that a stop that came too late for one plan never meets the next
                now[:] = [_Job(asked.number, replies)]
                inbox.put((asked, now[0]))

    threading.Thread(target=listen, name="boltend-listener", daemon=True).start()
    write_frame(replies, Ready())
    while True:
        asked, job = inbox.get()
        try:
            told = Told(asked.number, cut(asked.task, job), last=True)
        except Exception as error:
            told = Told(asked.number, None, last=True, fault=f"{type(error).__name__}: {error}")
        write_frame(replies, told)


if __name__ == "__main__":
    main()
