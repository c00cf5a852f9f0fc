"""What an empty field shows faintly: sensible for it, readable, within its limits, the same everywhere."""

from collections.abc import Iterator
from typing import Any

import pytest

from boltend.core.contract import GivenSpec
from boltend.core.flow.givens import example_of, out_of_limits
from boltend.core.host import Host
from boltend.core.host.soundness import calculator_problem
from boltend.core.report.json import schema_json
from boltend.core.values import Notation
from boltend.plugin import Answer, Cannot, Count, Finished, calculator, found, given, line
from boltend.testing import work

BOTH = (Notation("in"), Notation("cm"))


def needed() -> Iterator[Any]:
    with Host.load() as host:
        specs = [spec for spec in host.specs.values() if spec.built_in]
    for spec in specs:
        for each in (cell for one in spec.givens for cell in (one, *one.columns)):
            if each.required and each.kind not in ("rows", "table_row", "choice") and not each.options:
                yield pytest.param(each, id=f"{spec.name}-{each.name}")


NEEDED = list(needed())


@pytest.mark.parametrize("spec", NEEDED)
def test_what_a_needed_field_shows_would_do_there(spec: GivenSpec) -> None:
    for how in BOTH:
        example = example_of(spec, how)
        assert example or spec.kind in ("text", "fabric")
        if example:
            assert out_of_limits(spec, spec.reader.read(example, how, spec.unit), how) == ""


@pytest.mark.parametrize("spec", NEEDED)
def test_sizes_of_a_quilt_are_no_sizes_of_a_block(spec: GivenSpec) -> None:
    whole = any(
        word in spec.label for word in ("of the quilt", "of the top", "Wanted width", "Wanted height")
    )
    if whole and spec.kind == "finished":
        assert spec.reader.read(example_of(spec, BOTH[0]), BOTH[0]) >= 60


def framed(example: Any) -> Any:
    class Found:
        twice: Finished = found("Twice", nearest="size")

    @calculator("framed", asks="How large?", found=Found)
    def framed(width: Finished = given("Width", least="1 in", example=example)) -> Answer:
        """Twice the width."""
        return Answer(found={"twice": 2 * width}, working=[line("Twice.")])

    return framed


def test_a_given_may_bring_its_own_and_its_trouble_says_it() -> None:
    spec = framed(("60 in", "150 cm")).spec
    assert [example_of(spec.givens[0], how) for how in BOTH] == ["60 in", "150 cm"]
    assert schema_json(spec)["given"][0]["example"] == ["60 in", "150 cm"]
    with pytest.raises(Cannot, match="nothing is given yet") as caught:
        work(framed(("60 in", "150 cm")))
    assert "Type it, as 60 in, or link it to another tab." in str(caught.value)
    assert calculator_problem(spec, deep=True) is None


def test_an_example_that_cannot_be_read_is_refused() -> None:
    assert "cannot be read" in str(calculator_problem(framed("six feet").spec, deep=True))
    assert "its example" in str(calculator_problem(framed(("6 in",)).spec, deep=False))
    assert "its example" in str(calculator_problem(framed(("6 in", 3)).spec, deep=False))


def test_a_count_says_that_two_are_no_one() -> None:
    class Found:
        many: Count = found("Many")

    @calculator("counted", asks="How many?", found=Found)
    def counted(many: Count = given("Many")) -> Answer:
        """As many."""
        return Answer(found={"many": many}, working=[line("So many.")])

    with pytest.raises(Cannot, match=r"two values where one belongs .*: “6” or “7”"):
        work(counted, many="6 x 7")
