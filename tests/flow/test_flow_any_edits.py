"""The test that matters most: after any edits a workbook says just what a fresh one of that project says."""

from dataclasses import replace
from typing import Any

from hypothesis import HealthCheck, given, note, settings
from hypothesis import strategies as st

from boltend.core.flow import Workbook
from boltend.core.project import edits, edits_fabrics
from boltend.core.project.history import History
from boltend.core.project.model import Project, Tab, new_key
from boltend.core.project.problems import EditRefused

NAMES = ["A", "B", "C", "Lantern", "lantern", "Ärmel", "[/x]"]
CALCULATORS = ["panel", "panel", "panel", "square", "top", "patchwork", "cloth", "mood", "naughty", "nobody"]
GIVENS = [
    "width", "width", "by", "spaced", "parts", "widths", "patches", "more", "usable_width", "seam", "layers",
    "prewash_along", "fabric", "other", "cloth", "mood", "pace", "button", "how", "link", "wdith",
]  # fmt: skip
FOUNDS = [
    "width", "width", "square", "long", "count", "patches", "spacer", "half", "spread", "seam", "name",
    "mood", "pace", "nothing",
]  # fmt: skip
TEXTS: list[Any] = [
    None, "10 in", "12 1/2 in", "12 1/2 in cut", "1/4 in", "3/8 in cut", "30 cm", "600 in", "", "x", "3", 4,
    True, False, 2.5, "0 %", "10 %", "bold", "very bold", "12 per in", "3 per min", "large", "Huge",
    "Moss", "moss", "10 in; 10 1/4 in", ["9 in", 10], [], [{"width": "3 in"}],
    [{"width": "60 in", "count": 2}, {"name": "x"}],
]  # fmt: skip
SETTINGS = [
    ("seam", "3/8 in"), ("seam", "x"), ("seam", None), ("usable_width", "40 in"), ("usable_width", "-1 in"),
    ("usable_width", None), ("size_step", "1 in"), ("cutting_step", "1/2 in"), ("layers", 6),
    ("units", "centimetres"), ("units", ["in"]), ("units", None), ("currency", "dollars"), ("currency", None),
]  # fmt: skip

index = st.integers(0, 7)
links = st.builds(
    lambda a, b: {"from": a, "take": b}, st.sampled_from([*NAMES, "Nowhere"]), st.sampled_from(FOUNDS)
)
values = st.one_of(links, st.sampled_from(TEXTS), links)
rows = st.lists(
    st.fixed_dictionaries({}, optional={"width": values, "count": values}), min_size=1, max_size=2
)
steps = st.one_of(
    st.tuples(st.just("given"), index, st.sampled_from(GIVENS), st.one_of(values, rows)),
    st.tuples(st.just("given"), index, st.sampled_from(["width", "by"]), links),
    st.tuples(st.just("rows"), index, st.sampled_from(["patches", "more"]), rows),
    st.tuples(st.just("add"), st.sampled_from(NAMES), st.sampled_from(CALCULATORS), index),
    st.tuples(st.just("twin"), st.sampled_from(NAMES), st.sampled_from(CALCULATORS), index),
    st.tuples(st.just("remove"), index),
    st.tuples(st.just("rename"), index, st.sampled_from(NAMES)),
    st.tuples(st.just("renamed by hand"), index, st.sampled_from(NAMES)),
    st.tuples(st.just("duplicate"), index),
    st.tuples(st.just("move"), index, index),
    st.tuples(st.just("calculator"), index, st.sampled_from(CALCULATORS)),
    st.tuples(st.just("note"), index),
    st.tuples(st.just("setting"), st.sampled_from(SETTINGS)),
    st.tuples(st.just("fabric"), st.sampled_from(["Moss", "Slate"]), st.sampled_from(["41 in", "x", None])),
    st.tuples(st.just("no fabric"), index),
    st.tuples(st.just("table row"), st.sampled_from(["12", "13", "many", None])),
    st.tuples(st.just("undo")),
    st.tuples(st.just("undo")),
    st.tuples(st.just("redo")),
    st.tuples(st.just("absent"), st.sampled_from(["panel", "square"])),
)


def edited(project: Project, step: tuple[Any, ...]) -> Project:
    """One edit, as the shell would make it; a tab is meant by its place."""
    word, *said = step
    tab = (
        project.tabs[said[0] % len(project.tabs)]
        if said and isinstance(said[0], int) and project.tabs
        else None
    )
    match word:
        case "add":
            return edits.add_tab(project, said[0], said[1], at=said[2] % (len(project.tabs) + 1))
        case "twin":  # written by hand: two tabs may bear one name
            new = Tab(new_key(), {"name": said[0], "calculator": said[1], "given": {"width": "9 in"}})
            return edits.insert_tab(project, new, said[2] % (len(project.tabs) + 1))
        case "table row":  # a row of the project's own in a plugin's table
            own = [] if said[0] is None else [{"table": "buttons", "name": "Huge", "size": said[0]}]
            return replace(project, root={**project.root, "row": own})
        case "setting":
            return edits.set_setting(project, *said[0])
        case "fabric":
            row = project.find_fabric(said[0])
            if row is None:
                return edits_fabrics.add_fabric(project, said[0], {"form": "bolt"})
            return edits_fabrics.set_fabric(project, row.key, "usable_width", said[1])
        case "no fabric" if project.fabrics:
            return edits_fabrics.remove_fabric(project, project.fabrics[said[0] % len(project.fabrics)].key)
    if tab is None:
        return project
    match word:
        case "given" | "rows":
            return edits.set_given(project, tab.key, said[1], said[2])
        case "remove":
            return edits.remove_tab(project, tab.key)
        case "rename":
            return edits.rename_tab(project, tab.key, said[1])
        case "renamed by hand":  # the links are not carried along
            return edits.replace_tab(project, tab.key, {**tab.data, "name": said[1]})
        case "duplicate":
            return edits.duplicate_tab(project, tab.key)
        case "move":
            return edits.move_tab(project, tab.key, said[1])
        case "calculator":
            return edits.set_tab_calculator(project, tab.key, said[1])
        case "note":
            return edits.set_tab_flag(project, tab.key, "note", "seen")
    return project


def told(book: Workbook) -> dict[int, Any]:
    """All that a person could see of each tab, and who is on a circle."""
    return {
        key: (
            r.state, dict(r.found), dict(r.unrounded), r.troubles, r.notes, dict(r.args), r.settings,
            r.answer, r.spec, r.stopped, book.graph.circles.get(key, ())[:1],
        )
        for key, r in book.results.items()
    }  # fmt: skip


def start(small: Any) -> Project:
    link = small.link
    return small.project(
        ("A", "panel", {"width": "10 in"}),
        ("B", "panel", {"width": link("A", "width")}),
        ("C", "square", {"width": link("B", "square"), "parts": link("A", "count")}),
        ("Lantern", "patchwork", {"patches": [{"width": link("C", "half")}], "more": link("A", "patches")}),
    )


def run(small: Any, steps: list[tuple[Any, ...]], later: bool) -> None:
    bench = small.Bench(later=later)
    history = History(start(small))
    book = Workbook(bench, history.now)
    for step in steps:
        note(f"{step}")
        if step[0] == "undo":
            history.undo()
        elif step[0] == "redo":
            history.redo()
        elif step[0] == "absent":
            bench.absent ^= {step[1]}
            book.refresh()
        else:
            try:
                history.do(edited(history.now, step), step[0])
            except EditRefused:
                continue
        book.update(history.now)
        if later and len(bench.started) % 2:
            bench.finish(book)  # some answers come between two edits, others after the last
        if not later:
            assert told(book) == told(Workbook(small.Bench(absent=set(bench.absent)), history.now))
    while bench.started:
        bench.finish(book)
    assert told(book) == told(Workbook(small.Bench(absent=set(bench.absent)), history.now))
    assert book.results.keys() == {tab.key for tab in history.now.tabs}


def run_few(small: Any, steps: list[tuple[Any, ...]], seen: int, few: int) -> None:
    """As in a shell that paints before all is worked out: the tab in sight at once, the rest later."""
    bench = small.Bench()
    history = History(start(small))
    book = Workbook(bench, history.now)
    for step in steps:
        note(f"{step}")
        try:
            history.do(edited(history.now, step), step[0])
        except EditRefused:
            continue
        now = history.now
        first = now.tabs[seen % len(now.tabs)].key if now.tabs else None
        book.update(now, first)
        fresh = told(Workbook(small.Bench(), now))
        assert first is None or told(book)[first] == fresh[first]
        if len(step) % 2:
            book.finish(few)  # some of it between two edits
    for _ in range(1000):
        if not book.unfinished:
            break
        book.finish(max(1, few))
    assert told(book) == told(Workbook(small.Bench(), history.now))


quick = settings(max_examples=200, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])


@quick
@given(st.lists(steps, max_size=14))
def test_after_any_edits_the_results_are_those_of_a_fresh_workbook(small: Any, steps: list[Any]) -> None:
    run(small, steps, later=False)


@quick
@given(st.lists(steps, max_size=10))
def test_the_same_with_answers_that_come_later(small: Any, steps: list[Any]) -> None:
    run(small, steps, later=True)


def test_the_comparison_would_notice_a_stale_result(small: Any) -> None:
    """The property above is worth what `told` sees: a workbook that was not updated must differ."""
    project = start(small)
    stale = Workbook(small.Bench(), project)
    after = edits.set_given(project, project.tab("A").key, "width", "20 in")
    assert told(stale) != told(Workbook(small.Bench(), after))
    assert stale.result("Lantern").state == "worked out"


@quick
@given(st.lists(steps, max_size=14), index, st.integers(0, 3))
def test_also_where_only_the_tab_in_sight_is_worked_out_at_once(
    small: Any, steps: list[Any], seen: int, few: int
) -> None:
    run_few(small, steps, seen, few)
