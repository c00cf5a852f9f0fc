"""Keys in turn: one is done with before the next is looked at, however fast they come.

Textual 8.2 hands a key to what has the focus at that moment, and the widget acts on it a little later. Of a
burst (a fast typist over a slow line, a scanner, a paste without brackets) all of `7 in`, Enter, `8 in` would
so end in the first field, for the focus moves only after the last of them is on its way.
"""

import asyncio
from collections import deque

from textual import events
from textual.app import App
from textual.message import Message
from textual.message_pump import MessagePump
from textual.widget import Widget

MOST_WAIT = 0.3
"""Seconds after which the next key is let through in any case."""

MOST_WAIT_FOR_FOCUS = 2.0
"""The same where a key led to something new that has no focus yet: a form is made, on a busy machine."""

_LOOK = 0.004
"""Seconds between two looks whether a new field has the focus by now."""


class Passed(Message):
    """Goes the way of a key, right behind it, twice: where it comes back to the app the key was acted on, and
    the second time also what the widget said because of it, as a line of text that was taken with Enter.
    """

    def __init__(self, number: int, again: bool = False) -> None:
        self.number, self.again = number, again
        super().__init__()


class KeysInTurn(App[None]):
    """An app that holds keys back while the one before is on its way, or while nothing has the focus yet."""

    _behind = 0
    _busy = False
    _guard: asyncio.TimerHandle | None = None

    def __init__(self) -> None:
        super().__init__()
        self._held: deque[events.Key | events.Paste] = deque()

    @property
    def keys_taken(self) -> int:
        """How many keys were let through or wait for that."""
        return self._behind + len(self._held)

    async def on_event(self, event: events.Event) -> None:
        """Take a key in, or keep it for later; all else as ever."""
        if not isinstance(event, (events.Key, events.Paste)) or event.is_forwarded:
            await super().on_event(event)
        elif self._busy:
            self._held.append(event)
        else:
            await self._let_through(event)

    async def _let_through(self, event: events.Key | events.Paste) -> None:
        self._busy = True
        self._behind += 1
        target: Widget | None = self.focused
        await super().on_event(event)
        number = self._behind
        self._arm(number, MOST_WAIT)
        # A key with priority was acted on here, and went nowhere; it may have closed what had the focus.
        self._send(Passed(number), target if event.is_forwarded else self)

    def _arm(self, number: int, seconds: float) -> None:
        if self._guard is not None:
            self._guard.cancel()
        # asyncio's own, for one of Textual's is a task: too much for every key.
        loop = asyncio.get_running_loop()
        self._guard = loop.call_later(seconds, lambda: self.call_later(self._next, number))

    def _send(self, message: Passed, by: MessagePump | None) -> None:
        way = by if by is not None and by.is_attached else self.screen
        if not way.post_message(message):
            self.post_message(message)

    async def on_passed(self, event: Passed) -> None:
        """The key is done with. Where it led to something new, that may not have its focus yet."""
        event.stop()
        if event.number != self._behind:
            return
        if not event.again:
            if self.focused is None:
                self._arm(event.number, MOST_WAIT_FOR_FOCUS)
            self._send(Passed(event.number, again=True), self.focused)
        elif self._held and self.focused is None:
            self.set_timer(_LOOK, lambda: self.post_message(Passed(event.number, again=True)))
        else:
            await self._next(event.number)

    async def _next(self, number: int) -> None:
        if number != self._behind or not self._busy:
            return  # a later key is on its way already
        self._busy = False
        if self._held:
            await self._let_through(self._held.popleft())
        elif self._guard is not None:
            self._guard.cancel()
            self._guard = None
