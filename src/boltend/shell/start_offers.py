"""What the start screen offers: projects, questions, examples, single tabs. Knows no screen."""

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from boltend.core.contract import CalculatorSpec, GivenSpec, Start
from boltend.core.project.model import Project
from boltend.core.project.plain import folded
from boltend.core.project.recovered import Recovered, is_unsaved
from boltend.shell.actions import BY_NAME
from boltend.shell.desk import Bench, ago_words
from boltend.shell.start_paths import short_path
from boltend.shell.start_recent import Recent
from boltend.shell.start_search import is_number, matching, with_others, words_of

Tabs = Iterable[tuple[str, str, Mapping[str, object]]]
"""Tabs to be made: name, calculator, givens."""


class Example(NamedTuple):
    """A shipped example: opened as a copy, so that it is never overwritten."""

    name: str
    about: str

    @property
    def title(self) -> str:
        """Its name as a person writes it."""
        return self.about.partition(":")[0] or self.name


class Do(NamedTuple):
    """Something that the project's screen does, by its action's name."""

    action: str


class ShowAll(NamedTuple):
    """The rest of the unsaved works, which stand in short while nothing is searched."""


class ThrowAway(NamedTuple):
    """Unsaved work that the person has no use for."""

    work: Recovered


Pick = Recovered | ThrowAway | ShowAll | Recent | Example | Start | CalculatorSpec | Do

OPEN, EMPTY = Do("open"), Do("empty_project")


@dataclass(frozen=True)
class Line:
    """One line of the start screen. `kind` stands behind it in a search, `about` below the list."""

    group: str
    kind: str
    pick: Pick
    words: str
    more: str = ""
    about: str = ""
    find: str = field(default="", compare=False)

    @property
    def made_before(self) -> bool:
        """Whether it is opened, and answers nothing by itself."""
        return isinstance(self.pick, (Recovered, Recent, Example))

    @property
    def name(self) -> str:
        """The name that a person gave it; the tabs' names that stand for it are ours."""
        nameless = isinstance(self.pick, Recovered) and not self.pick.project.name
        return "" if nameless else self.words

    @property
    def named(self) -> str:
        """What is searched of something made before: not what is said of it."""
        return f"{self.kind} {self.more} {self.find}"

    @property
    def rest(self) -> str:
        """What is searched beside its words."""
        return f"{self.kind} {self.more} {self.about} {self.find}"


class ListQuestion(NamedTuple):
    """A question that a list or a dialog of the whole project answers."""

    action: str
    question: str
    about: str
    find: str


LIST_QUESTIONS = (
    ListQuestion(
        "to_buy", "What does it cost, and what is to buy?", "To buy, for all tabs of this project",
        "price prices total money expensive shop shopping list yardage fabric amount how much",
    ),
    ListQuestion(
        "to_cut", "What do I cut, and in which order?", "To cut, for all tabs of this project",
        "cutting list plan strips pieces leftovers",
    ),
    ListQuestion(
        "printed", "Is the yardage printed in a pattern enough?",
        "Fabrics: what a pattern prints; then To buy, which compares",
        "is it enough printed yd short generous compare check pattern yards",
    ),
    ListQuestion(
        "ladders", "What does it come to as one size or another, side by side?",
        "Ladders: one given through several values, with the cost",
        "ladder several sizes compare cost price as a crib throw twin queen king and which",
    ),
    ListQuestion(
        "back", "How wide or how many must it be, that it reaches a size or a cost?",
        "Working backwards, from what the tab in sight finds",
        "work backwards back so that how wide must the border be reach at least at most wanted price",
    ),
    ListQuestion(
        "customer", "What may the customer take along: size, picture, what to buy, what it costs?",
        "A page for the customer, as PDF or HTML",
        "customer page print paper pdf mail share quote offer sheet",
    ),
    ListQuestion(
        "export", "How do I get the plan on paper or into a file?", "The whole plan, with working and lists",
        "print export save pdf html text markdown paper mail share",
    ),
    ListQuestion(
        "fabrics", "Which fabrics are there, in hand and at what price?", "Fabrics of this project",
        "cost stash bolt precut colour one way have",
    ),
)  # fmt: skip


NEED_A_TAB = ("printed", "ladders", "back", "customer", "export")
"""The questions that cannot be answered of nothing."""


def list_lines(*, empty: bool = False) -> list[Line]:
    """The questions that no calculator answers.

    `empty`: there is no tab yet. Then nothing can be held against what a pattern prints, put side by side or
    worked backwards from; the plugins' own questions make the tabs that can.
    """
    return [
        Line("Questions", "list", Do(q.action), q.question, about=_with_key(q), find=q.find)
        for q in LIST_QUESTIONS
        if not (empty and q.action in NEED_A_TAB)
    ]


def _with_key(question: ListQuestion) -> str:
    action = BY_NAME.get(question.action)
    keys = action.key_words if action is not None else ""
    return f"{question.about} ({keys})." if keys else f"{question.about}."


def start_lines(bench: Bench) -> list[Line]:
    """The plugins' questions."""
    return [
        Line(
            "Questions", _how_many(start), start, start.question,
            about="Makes " + ", ".join(f"“{name}”" for name, _, _ in start.tabs) + ".",
            find=" ".join([with_others(start.question), *_asked(start, bench.specs)]),
        )
        for start in bench.starts
    ]  # fmt: skip


def _how_many(start: Start) -> str:
    """By which a question is told from a single tab that is called nearly so."""
    return "one tab" if len(start.tabs) == 1 else f"{len(start.tabs)} tabs"


def _asked(start: Start, specs: Mapping[str, CalculatorSpec]) -> Iterator[str]:
    for n, (_, calculator, _) in enumerate(start.tabs):
        spec = specs.get(calculator)
        if spec is not None and n == 0:  # what a person begins with
            yield searched(spec)
        elif spec is not None:
            yield with_others(" ".join([spec.asks, *(found.label for found in spec.founds)]))


def tab_lines(bench: Bench, but: Collection[str] = ()) -> list[Line]:
    """One tab of any calculator, but those that a question is: by its words, or because it makes no more."""
    alone = {of_one(start) for start in bench.starts}
    return [
        Line(
            "One tab", "one tab", spec, spec.asks or spec.name,
            about=f"{spec.name}: finds {', '.join(found.label.lower() for found in spec.founds)}.",
            find=searched(spec),
        )
        for spec in bench.specs.values()
        if (spec.asks or spec.name) not in but and spec.name not in alone
    ]  # fmt: skip


def of_one(start: Start) -> str:
    """The calculator that a question is under another name, or nothing: one tab, and nothing set in it."""
    return start.tabs[0][1] if len(start.tabs) == 1 and not start.tabs[0][2] else ""


def searched(spec: CalculatorSpec) -> str:
    """All by which a calculator may be searched: what it asks, takes, finds, and what it says of itself."""
    parts = [spec.asks, spec.name.replace("_", " ")]
    for valued in (*spec.founds, *_givens(spec.givens)):
        parts += [valued.label, *valued.options]
    return with_others(" ".join([*parts, spec.help]))


def _givens(givens: Iterable[GivenSpec]) -> Iterator[GivenSpec]:
    for given in givens:
        yield given
        yield from given.columns


def unsaved_lines(works: Iterable[Recovered]) -> list[Line]:
    """The unsaved work of projects that have no file yet."""
    return [
        Line(
            "Unsaved work", "unsaved work", work, work.project.name or _tabs_words(work.project),
            more=f"{ago_words(work.when)}{_tabs_count(work.project)}",
            about=f"Enter goes on with it; Del throws it away. {typed_words(work.project)}",
            find=f"unsaved work go on continue recover lost {_tabs_words(work.project)}",
        )
        for work in works
    ]  # fmt: skip


MOST_UNSAVED = 3
"""Unsaved works that stand there at once: the newest. A question is looked for more often."""


def in_short(lines: list[Line]) -> list[Line]:
    """The lines with the older unsaved works in one; where it is only one more, that itself."""
    places = [at for at, line in enumerate(lines) if isinstance(line.pick, Recovered)][MOST_UNSAVED:]
    if len(places) < 2:
        return lines
    first, older = places[0], set(places)
    rest = Line(
        lines[first].group, "", ShowAll(), f"… and {len(older)} more",
        about="Enter shows all of them, the newest first. What is typed is searched in all of them.",
    )  # fmt: skip
    return [rest if at == first else line for at, line in enumerate(lines) if at == first or at not in older]


def typed_words(project: Project) -> str:
    """What was typed first, by which one unsaved quilt is told from another: “Top: 60 1/4 in, 72 in”."""
    said: dict[str, list[str]] = {}
    for tab in project.tabs:
        for value in tab.given.values():
            if isinstance(value, (list, tuple)):
                value = next((x for x in value if isinstance(x, str)), None)
            if isinstance(value, (str, int)) and not isinstance(value, bool):
                said.setdefault(tab.name, []).append(str(value))
    words = "; ".join(f"{name}: {', '.join(values[:3])}" for name, values in list(said.items())[:3])
    return words or "Nothing typed yet"


def _tabs_words(project: Project) -> str:
    names = [tab.name for tab in project.tabs if tab.name]
    return ", ".join(names) if names else "no tab yet"


def _tabs_count(project: Project) -> str:
    count = len(project.tabs)
    return f", {count} tab{'s' if count > 1 else ''}" if count else ""


def recent_lines(recents: Iterable[Recent]) -> list[Line]:
    """The projects that were open last."""
    lines = []
    for recent in recents:
        missing = recent.missing
        more = "! missing" if missing else short_path(recent.path)
        if not missing and is_unsaved(recent.path):
            more = f"unsaved work · {more}"
        lines.append(
            Line(
                "Projects", "project", recent, recent.name or recent.path.name,
                more=more,
                about=f"{'There is no file any more: ' if missing else ''}{short_path(recent.path)}",
                find="open again recent last",
            )
        )  # fmt: skip
    return lines


PROJECT_LINES = (
    Line(
        "Projects", "project", OPEN, "Open a project file …", about="By its path; Tab completes.",
        find="another load path folder toml",
    ),
    Line(
        "Projects", "project", EMPTY, "An empty project", about="Without any tab yet.",
        find="new blank another begin",
    ),
)  # fmt: skip


def example_lines(examples: Iterable[Example]) -> list[Line]:
    """The shipped examples."""
    return [
        Line(
            "Examples", "example", example, example.title,
            more=example.about.partition(":")[2].partition(". ")[0].strip().rstrip("."),
            about="Opens a copy: the example itself stays as it is.", find="example sample show me",
        )
        for example in examples
    ]  # fmt: skip


def found_lines(lines: list[Line], wanted: str) -> list[Line]:
    """The lines that a search finds, best first: what answers it, then what was made before.

    What was made before is known by its name alone, for it says words and numbers of many questions. Its name
    comes first where all that was typed stands in it, no number does, and no question says the same.
    """
    said = words_of(wanted)
    if not said:
        return list(lines)
    asked = [line for line in lines if not line.made_before]
    answers = matching(asked, wanted, lambda line: line.words, lambda line: line.rest)
    named = [line for line in lines if line.made_before and _says(line.name, said)]
    kept = [line for line in lines if line.made_before and not _says(line.name, said)]
    others = matching(kept, wanted, lambda line: line.words, lambda line: line.named)
    asks = any(map(is_number, said)) or any(_says(f"{x.words} {x.rest}", said) for x in answers[:1])
    return [*answers, *named, *others] if asks else [*named, *answers, *others]


def _says(words: str, said: Collection[str]) -> bool:
    """Whether each word that was typed begins one of these."""
    return all(f" {word}" in f" {words.casefold()}" for word in said)


def examples() -> list[Example]:
    """The shipped examples, each with the first line of its file; none where they are not installed."""
    try:
        from boltend_shared.examples import NAMES, path
    except ImportError:
        return []
    found = []
    for name in NAMES:
        try:
            with path(name).open(encoding="utf-8") as file:
                found.append(Example(name, file.readline().lstrip("# ").strip()))
        except OSError:
            continue
    return found


def example_bytes(name: str) -> bytes:
    """The text of an example. Raises OSError."""
    from boltend_shared.examples import path

    return path(name).read_bytes()


def fabrics_of(tabs: Tabs, specs: Mapping[str, CalculatorSpec], project: Project) -> list[str]:
    """The fabrics that the tabs of a question name and the project does not have yet."""
    have = {folded(row.name) for row in project.fabrics if row.name}
    missing: list[str] = []
    for _, calculator, givens in tabs:
        spec = specs.get(calculator)
        for given in spec.givens if spec is not None else ():
            said = givens.get(given.name)
            cells = [(given, said)]
            if given.columns and isinstance(said, list):
                cells = [(c, row.get(c.name)) for row in said if isinstance(row, dict) for c in given.columns]
            for cell, name in cells:
                if cell.kind == "fabric" and isinstance(name, str) and folded(name) not in have:
                    have.add(folded(name))
                    missing.append(name)
    return missing
