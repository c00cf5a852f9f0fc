"""The checks of the contract, each a function of a `Subject` that raises AssertionError where it is broken.

Givens are drawn by hypothesis around the subject's example, always the same ones, so that a test that passed
once passes again; a failure is shown with the smallest givens that show it.
"""

import json
import signal
import threading
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from fractions import Fraction
from time import monotonic, process_time
from types import FrameType
from typing import Any, NamedTuple

from hypothesis import HealthCheck, Phase, given, note, settings
from hypothesis import strategies as st

from boltend.core.contract import Cannot, FoundSpec, GivenSpec, Polygon, Shape
from boltend.core.cutting import unplaced_unseen
from boltend.core.values import Surd
from boltend.testing import draw
from boltend.testing.echo import work_linked
from boltend.testing.subject import SAME_IN_BOTH, Subject
from boltend.testing.worked import Worked

Raw = Mapping[str, object]

ON_BUSY = 4
"""How many times as long as its own time a call may take in all, while the processor does other work."""


class Refused(NamedTuple):
    """What a declared error said."""

    given: str
    why: str
    way_out: str


def the_example_is_answered(subject: Subject) -> None:
    """The example works out, in words and in JSON, and again to the same answer."""
    first, again = _outcome(subject, subject.example), _outcome(subject, subject.example)
    assert isinstance(first, Worked), f"{subject.name} does not answer its example: {first}"
    assert isinstance(again, Worked)
    assert first.found == again.found, f"{subject.name} gave two answers to the same givens: it is not pure."
    assert first.answer == again.answer, (
        f"{subject.name} gave two answers to the same givens: it is not pure."
    )
    _sound(subject, first)
    _covers(subject, subject.example, first)


def nothing_but_cannot(subject: Subject) -> None:
    """For any givens within or beyond their limits: a sound answer or `Cannot`, in bounded time."""
    within = draw.givens(subject.calculator.spec.givens, subject.example, _rows(subject))
    beyond = draw.wild(subject.calculator.spec.givens, subject.example, _rows(subject))

    def holds(raw: Raw) -> None:
        outcome = _outcome(subject, raw)
        if isinstance(outcome, Refused):
            assert outcome.why.strip(), f"Cannot says no reason, for {raw}"
        else:
            _sound(subject, outcome)
            _covers(subject, raw, outcome)

    _for_all(subject, within, holds)
    _for_all(subject, beyond, holds)


def any_settings(subject: Subject) -> None:
    """Under other settings than the usual ones, too: a sound answer or `Cannot`."""
    spec = subject.calculator.spec
    if not (subject.calculator.takes_setting or any(g.setting or g.is_length for g in spec.givens)):
        return

    def holds(drawn: tuple[Raw, Raw]) -> None:
        raw, said = drawn
        outcome = _outcome(subject, raw, settings=said)
        if isinstance(outcome, Worked):
            _sound(subject, outcome, outcome.unrounded)  # a project's coarse step may round a size to none
            _covers(subject, raw, outcome)

    near = st.one_of(st.just(dict(subject.example)), _within(subject))
    _for_all(subject, st.tuples(near, draw.settings()), holds)


def limits_are_real(subject: Subject) -> None:
    """A limit itself is taken (the calculator may still say `Cannot`), one stride beyond it is refused."""
    for spec in subject.calculator.spec.givens:
        if spec.kind not in draw.SPANS:
            continue
        stride = draw.SPANS[spec.kind][2]
        for limit, beyond in zip(draw.limits(spec), (-stride, stride), strict=True):
            if limit is None:
                continue
            at = _outcome(subject, {**subject.example, spec.name: draw.shown(spec, limit)})
            if isinstance(at, Refused):
                said = "the least that makes sense" in at.why or "the most that is worked out" in at.why
                assert not (said and at.given == spec.name), f"{spec.name} refuses its own limit: {at.why}"
            over = _outcome(subject, {**subject.example, spec.name: draw.shown(spec, limit + beyond)})
            assert isinstance(over, Refused), f"{spec.name} takes {limit + beyond}, beyond its limit {limit}"
            assert over.given == spec.name, f"{spec.name} beyond its limit, but {over.given} is blamed"


def same_in_both_systems(subject: Subject) -> None:
    """At equal steps a project in centimetres finds what one in inches finds."""

    def holds(raw: Raw) -> None:
        raw = _defaults_said(subject, raw)
        inches, metric = _outcome(subject, raw), _outcome(subject, raw, "centimetres")
        if isinstance(inches, Refused) or isinstance(metric, Refused):
            if subject.own_metric:
                return  # where its own steps differ, so may what they reach
            both = (type(inches), type(metric), getattr(inches, "given", ""), getattr(metric, "given", ""))
            assert both[0] == both[1], f"an answer in one system only: {inches} / {metric}"
            assert both[2] == both[3], f"another given is blamed in centimetres: {inches} / {metric}"
            return
        for spec in subject.calculator.spec.founds:
            if spec.name not in subject.own_metric:
                ours, theirs = inches.unrounded[spec.name], metric.unrounded[spec.name]
                assert ours == theirs, f"{spec.name} is {ours} in inches, {theirs} in centimetres"
        if not subject.own_metric:
            assert inches.answer.pieces == metric.answer.pieces, "other pieces in centimetres"
            assert inches.answer.runs == metric.answer.runs, "other runs in centimetres"

    _for_all(subject, _within(subject), holds)


def a_link_is_a_typed_value(subject: Subject) -> None:
    """A typed value and a link of the same value agree."""

    def holds(raw: Raw) -> None:
        typed = _outcome(subject, raw)
        with _within_time(subject):
            linked = _refused_or(lambda: work_linked(subject, raw))
        if isinstance(typed, Refused) or isinstance(linked, Refused):
            assert type(typed) is type(linked), f"typed: {typed}; linked: {linked}"
            return
        assert typed.found == linked.found, "a link finds something else than the typed value"
        parts = [(w.answer.pieces, w.answer.runs, w.answer.goods) for w in (typed, linked)]
        assert parts[0] == parts[1], "a link gives other parts than the typed value"

    _for_all(subject, _within(subject), holds)


def more_never_takes_less(subject: Subject) -> None:
    """An amount to buy never shrinks when a given grows that it `grows_with`."""
    spec = subject.calculator.spec
    pairs = [
        (found_, given_)
        for found_ in spec.founds
        for name in found_.grows_with
        if (given_ := spec.given(name)) is not None and given_.kind in draw.SPANS
    ]
    if not pairs:
        return
    grown = st.sampled_from(pairs).flatmap(
        lambda pair: st.tuples(st.just(pair), draw.anywhere(pair[1]), _one_of(pair[1]))
    )

    def holds(drawn: tuple[Raw, tuple[tuple[FoundSpec, GivenSpec], Fraction, Fraction]]) -> None:
        raw, ((found_, given_), one, other) = drawn
        small, large = sorted((one, other))
        less = _outcome(subject, {**raw, given_.name: draw.shown(given_, small)})
        more = _outcome(subject, {**raw, given_.name: draw.shown(given_, large)})
        if isinstance(less, Refused) or isinstance(more, Refused):
            return
        before, after = less.found[found_.name], more.found[found_.name]
        if before is not None and after is not None:
            assert before <= after, (
                f"{found_.name} shrinks from {before} to {after} as {given_.name} grows, {small} to {large}"
            )

    _for_all(subject, st.tuples(_within(subject), grown), holds)


CHECKS: Mapping[str, Callable[[Subject], None]] = {
    check.__name__: check
    for check in (
        the_example_is_answered,
        nothing_but_cannot,
        any_settings,
        limits_are_real,
        same_in_both_systems,
        a_link_is_a_typed_value,
        more_never_takes_less,
    )
}
"""Every check by its name."""


def _sound(subject: Subject, worked: Worked, found: Mapping[str, Any] | None = None) -> None:
    """What holds of every answer, beyond what the host checks before it is shown."""
    assert worked.answer.working, (
        f"{subject.name} shows no working of its own: one line(…) at least says how it came about."
    )
    for spec in subject.calculator.spec.founds:
        value = (worked.found if found is None else found)[spec.name]
        if spec.kind in ("finished", "cut") and value is not None:
            least = "not below 0" if spec.name in subject.may_be_zero else "above 0"
            good = value > 0 or (value == 0 and spec.name in subject.may_be_zero)
            assert good, f"{spec.name} is {value}; a size is {least}"
        if spec.kind == "count" and value is not None:
            assert found is not None or type(value) is int, f"{spec.name} is {value!r}, not a whole number"
            assert value >= 0, f"{spec.name} is {value}, below none"
    for piece in worked.answer.pieces:
        assert piece.count > 0, f"a piece is to be cut {piece.count} times: {piece}"
    assert json.dumps(worked.json), "an answer that JSON cannot hold"
    for shape in worked.answer.picture:
        inexact = [place for place in _places(shape) if not isinstance(place, int | Fraction | Surd)]
        assert not inexact, f"the picture has a place that is not exact, {inexact[0]!r}: {shape!s:.200}"


def _places(shape: Shape) -> list[object]:
    """Every number in a shape."""
    if isinstance(shape, Polygon):
        return [place for corner in shape.corners for place in corner]
    return [place for place in shape if not isinstance(place, str)]


def _covers(subject: Subject, raw: Raw, worked: Worked) -> None:
    if subject.covers:
        subject.covers(_defaults_said(subject, raw), worked)


def _outcome(
    subject: Subject, raw: Raw, units: str = "inches", settings: Raw = SAME_IN_BOTH
) -> Worked | Refused:
    with _within_time(subject), unplaced_unseen() as unseen:
        outcome = _refused_or(lambda: subject.work(raw, units, settings))
    if isinstance(outcome, Worked):
        said = [f"{each.count} of {each.part.name!r} ({each.why})" for each in unseen]
        assert not said, (
            f"{subject.name} answers without looking at what its cutting_plan leaves out, {', '.join(said)}. "
            "Look at .unplaced of the plan first, and raise Cannot where it is not empty."
        )
    return outcome


def _refused_or(call: Callable[[], Worked]) -> Worked | Refused:
    try:
        return call()
    except Cannot as cannot:
        return Refused(cannot.given, cannot.why, cannot.way_out)


@contextmanager
def _within_time(subject: Subject) -> Iterator[None]:
    """Ends a call that takes longer than the subject may, where the system has an alarm clock."""
    if not hasattr(signal, "setitimer") or threading.current_thread() is not threading.main_thread():
        yield
        return

    begun, worked = monotonic(), process_time()

    def late(signum: int, frame: FrameType | None) -> None:
        if process_time() - worked < subject.seconds and monotonic() - begun < ON_BUSY * subject.seconds:
            signal.setitimer(signal.ITIMER_REAL, subject.seconds / 4)  # the machine is busy with others
            return
        raise AssertionError(f"{subject.name} took longer than {subject.seconds:g} s")

    before = signal.signal(signal.SIGALRM, late)
    signal.setitimer(signal.ITIMER_REAL, subject.seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)
        signal.signal(signal.SIGALRM, before)


def _one_of(spec: GivenSpec) -> st.SearchStrategy[Fraction]:
    return st.one_of(draw.numbers(spec), draw.anywhere(spec))


def _rows(subject: Subject) -> dict[str, list[str]]:
    return {table.name: list(table.rows) for table in subject.tables}


def _within(subject: Subject) -> st.SearchStrategy[dict[str, object]]:
    return draw.givens(subject.calculator.spec.givens, subject.example, _rows(subject))


def _defaults_said(subject: Subject, raw: Raw) -> Raw:
    """With the defaults of a project in inches written out: a metric project has defaults of its own."""
    specs = subject.calculator.spec.givens
    said = {g.name: _said(g, g.default) for g in specs if g.default is not None and not g.setting}
    rows = {g.name: g.columns for g in specs if g.columns}
    return {**said, **{name: _rows_said(rows.get(name, ()), value) for name, value in raw.items()}}


def _rows_said(columns: tuple[GivenSpec, ...], value: object) -> object:
    if not columns or not isinstance(value, list):
        return value
    said = {c.name: _said(c, c.default) for c in columns if c.default is not None}
    return [{**said, **row} for row in value]


def _said(spec: GivenSpec, default: str) -> object:
    return default == "yes" if spec.kind == "yes_no" else default


def _for_all(subject: Subject, drawn: st.SearchStrategy[Any], holds: Callable[[Any], None]) -> None:
    late: list[str] = []

    @settings(
        max_examples=subject.examples,
        deadline=None,
        database=None,
        derandomize=True,
        phases=(Phase.generate, Phase.shrink),
        report_multiple_bugs=False,
        suppress_health_check=list(HealthCheck),
    )
    @given(drawn)
    def run(value: Any) -> None:
        if late:
            return  # one is enough: looking for a smaller one would take as long at every try
        note(f"{subject.name}: {value}")
        begin = monotonic()
        try:
            holds(value)
        except AssertionError:
            if monotonic() - begin < subject.seconds:
                raise
            late.append(f"{subject.name} took longer than {subject.seconds:g} s for {value}")

    run()
    assert not late, late[0]
