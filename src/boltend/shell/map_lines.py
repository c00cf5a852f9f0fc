"""The map of the tabs as lines of a given width; each leads to a tab. Words come from the core's report."""

from collections.abc import Iterator

from boltend.core.flow import Workbook
from boltend.core.report.project_map import Feed, MapTab, map_summary, map_tab
from boltend.shell.result_lines import Part, ResultLine
from boltend.shell.texts import clipped, shown, wrapped

STATES = {"working": "~ being worked out", "waiting": "… WAITING", "cannot": "! CANNOT be worked out"}


def map_lines(book: Workbook, width: int) -> Iterator[ResultLine]:
    """Tab by tab: what it takes from which, why it is not worked out, and where its founds go."""
    width = max(20, width - 1)
    yield ResultLine(((clipped(map_summary(book), width), "muted"),))
    for tab in book.project.tabs:
        yield ResultLine((("", ""),))
        yield from _tab(map_tab(book, tab), width)


def _tab(tab: MapTab, width: int) -> Iterator[ResultLine]:
    state = STATES.get(tab.state, "")
    flags = "".join(f" ({flag})" for flag in tab.flags)
    head = clipped(tab.name or "(no name)", max(8, width - len(state) - len(flags) - 3))
    parts: list[Part] = [(" " + head, "title"), (flags, "muted"), (f"  {state}" if state else "", "bad")]
    yield ResultLine(tuple(parts), tab.key)
    for why in tab.why:
        for n, text in enumerate(wrapped(why, width - 6)):
            yield ResultLine((("    - " if n == 0 else "      ", "muted"), (text, "")), tab.key, tail=n > 0)
    for feed in tab.takes:
        yield from _feed("  ← ", feed, width)
    for feed in tab.gives:
        yield from _feed("  → ", feed, width)
    if tab.lists:
        yield ResultLine((("  → ", "muted"), (" and ".join(tab.lists), "muted")), tab.key)
    if not (tab.takes or tab.gives or tab.lists or tab.why):
        yield ResultLine((("  feeds nothing yet, and takes from no tab", "muted"),), tab.key)


def _feed(sign: str, feed: Feed, width: int) -> Iterator[ResultLine]:
    name = clipped(feed.name, max(8, width // 2))
    texts = wrapped(f"{name}: {', '.join(map(shown, feed.things))}", width - len(sign))
    for n, text in enumerate(texts):
        head = name if n == 0 and text.startswith(name) else ""
        parts: list[Part] = [(sign if n == 0 else " " * len(sign), "muted")]
        parts += [(head, "link"), (text[len(head) :], "")] if head else [(text, "")]
        yield ResultLine(tuple(parts), feed.key, tail=n > 0)
