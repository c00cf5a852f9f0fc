"""Large and hostile mixes end, say what they have not proved, can be stopped, and keep quiet."""

import json
import random
import subprocess
import sys
from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from mix_lab import meets_but, mixed, solved, sound, tasks
from test_fabric_mix_brute import brute

from boltend.plugin import Answer, Cannot, Settings
from boltend_fabric_mix.asked import Asked
from boltend_fabric_mix.cloths import Cloths
from boltend_fabric_mix.effort import MOST, Effort
from boltend_fabric_mix.fabric_mix import Cuts, fabric_mix
from boltend_fabric_mix.mix import Mix
from boltend_fabric_mix.reasons import none_go_together
from boltend_fabric_mix.solve import Task, solve
from boltend_fabric_mix.words import cautions

CHAIN = Task(meets_but(3, [(0, 1), (1, 2)]), [2, 9, 3], 2, 5)
"""Only the first and the last may meet, so 2 blocks; that is for a program to find: the groups allow 3."""


class Job:
    """A search's job that hears of better answers, and asks to stop after so many looks."""

    def __init__(self, looks: int) -> None:
        self.looks, self.heard = looks, list[Answer]()

    def better(self, answer: Answer, bound: object = None) -> None:
        self.heard.append(answer)

    def stopped(self) -> bool:
        self.looks -= 1
        return self.looks < 0


def coloured(count: int, cuts: int, seed: int) -> tuple[tuple[Cuts, ...], Settings]:
    """So many fabrics of any colours."""
    chance = random.Random(seed)
    names = [f"Cloth {number}" for number in range(count)]
    fabrics = {name: {"colour": f"#{chance.randrange(1 << 24):06x}"} for name in names}
    return tuple(Cuts(fabric=name, cuts=cuts) for name in names), Settings(fabrics=fabrics)


@settings(max_examples=150, deadline=None)
@given(tasks(), st.sampled_from([0, 2_000, 20_000, 200_000]))
def test_with_less_effort_nothing_false_is_claimed(task: Task, most: int) -> None:
    mix = solve(task, Effort(lambda: False, most), lambda mix: None).mix
    uses = sound(task, mix)
    best, even = brute(task)
    assert mix.made <= best <= mix.at_most
    if mix.even and mix.made == best and best:
        assert uses == even


def test_what_is_not_proved_is_said_so() -> None:
    mix = solve(CHAIN, Effort(lambda: False, most=400), lambda mix: None).mix
    assert (mix.made, mix.at_most, mix.even) == (2, 3, False)
    asked = Asked(CHAIN, Cloths(("Slate", "Moss", "Chalk"), (2, 9, 3), None, ()), Fraction(0))
    said = [each.words for each in cautions(asked, mix, None, None)]
    assert said == [
        "{} of {} were found; more than {} cannot be made, and whether so many can is not proved.",
        "That the fabrics are used as evenly as can be is not proved: the search ended first.",
    ]
    full = solved(CHAIN).mix
    assert (full.made, full.at_most, full.even) == (2, 2, True)


def test_four_hundred_fabrics_without_colours() -> None:
    rows = [(f"Cloth {number}", 10**6 - number) for number in range(400)]
    worked: Any = mixed(rows, per_block=20, blocks=2500)
    assert worked.found["blocks_made"] == 2500
    assert worked.found["least_contrast"] is None
    used: dict[str, int] = {}
    for row in worked.found["layout"]:
        for name in row["fabrics"].split(", "):
            used[name] = used.get(name, 0) + row["blocks"]
    assert set(used.values()) == {125}  # 2500 × 20 ÷ 400
    assert len(used) == 400


def test_more_than_four_hundred_are_refused() -> None:
    with pytest.raises(Cannot, match="more than 400 different fabrics"):
        mixed([(f"Cloth {number}", 1) for number in range(401)], blocks=2)


@pytest.mark.parametrize(("count", "size", "least"), [(100, 6, 35), (80, 3, 40)])
def test_many_colours_end_within_their_effort(count: int, size: int, least: int) -> None:
    rows, setting = coloured(count, 10**6, seed=count)
    asked: Any = {"fabrics": rows, "per_block": size, "blocks": 300, "contrast_least": least}
    answer = fabric_mix(**asked, setting=setting, job=None)
    made: Any = answer.found["blocks_made"]
    layout: Any = answer.found["layout"]
    assert sum(row["blocks"] for row in layout) == made > 0
    assert all(row["contrast"] >= least for row in layout)
    assert all(len(set(row["fabrics"].split(", "))) == size for row in layout)


def test_a_block_that_nobody_finds_is_not_denied() -> None:
    """100 fabrics, 10 in a block: whether any ten go together is too long to look for."""
    chance = random.Random(2)
    apart = [(i, j) for i in range(100) for j in range(i) if chance.random() < 0.45]
    task = Task(meets_but(100, apart), [5] * 100, 10, 20)
    mix = solve(task, Effort(lambda: False, most=1_000), lambda mix: None).mix
    assert mix.at_most == 20
    assert not mix.made
    asked = Asked(task, Cloths((), (), None, ()), Fraction(20))
    assert "there may be some" in none_go_together(asked, mix).why


def test_a_hard_one_ends_within_its_effort() -> None:
    effort = Effort(lambda: False)
    chance = random.Random(3)
    apart = [(i, j) for i in range(60) for j in range(i) if chance.random() < 0.4]
    task = Task(meets_but(60, apart), [chance.randint(1, 9) for _ in range(60)], 9, 80)
    mix = solve(task, effort, lambda mix: None).mix
    sound(task, mix)
    assert 0 <= effort.left < MOST


@pytest.mark.parametrize("most", [50_000, 200_000, 500_000, 1_000_000])
def test_half_done_evening_is_a_mix_still(most: int) -> None:
    """Where a level is not proved, a later program may be better than it: the levels below are found anew."""
    chance = random.Random(36)
    apart = [(i, j) for i in range(36) for j in range(i) if chance.random() < 0.4]
    task = Task(meets_but(36, apart), [chance.randint(1, 20) for _ in range(36)], 4, 100)
    mix = solve(task, Effort(lambda: False, most), lambda mix: None).mix
    assert sound(task, mix)[0] > 0


@pytest.mark.parametrize("looks", [0, 1, 2, 3, 5, 8, 13, 30])
def test_a_stop_answers_with_the_best_so_far(looks: int) -> None:
    rows, setting = coloured(24, 6, seed=6)
    job: Any = Job(looks)
    asked: Any = {"fabrics": rows, "per_block": 5, "blocks": 40, "contrast_least": 25}
    answer = fabric_mix(**asked, setting=setting, job=job)
    made: Any = answer.found["blocks_made"]
    assert made == job.heard[-1].found["blocks_made"] > 0
    assert job.stopped()


def test_a_search_tells_of_its_first_mix_before_it_ends() -> None:
    rows, setting = coloured(24, 6, seed=6)
    job: Any = Job(10**9)
    asked: Any = {"fabrics": rows, "per_block": 5, "blocks": 40, "contrast_least": 25}
    answer = fabric_mix(**asked, setting=setting, job=job)
    assert len(job.heard) >= 2
    assert all(each.found["blocks_made"] == answer.found["blocks_made"] for each in job.heard)


def run(code: str, seed: str) -> str:
    done = subprocess.run(
        [sys.executable, "-c", code],
        capture_output=True, text=True, check=True, timeout=120, env={"PYTHONHASHSEED": seed},
    )  # fmt: skip
    assert done.stderr == ""
    return done.stdout


def test_the_plugin_is_loaded_without_its_libraries() -> None:
    code = (
        "import sys; from boltend.core.host import load_plugins; import boltend_fabric_mix; load_plugins();"
        "import boltend_fabric_mix.fabric_mix;"
        "print(sorted({'coloraide', 'highspy', 'numpy'} & {m.partition('.')[0] for m in sys.modules}))"
    )
    assert run(code, "0") == "[]\n"


MANY = """
import json, random
from boltend.plugin import Settings
from boltend_fabric_mix.fabric_mix import Cuts, fabric_mix
chance = random.Random(5)
names = [f"Cloth {n}" for n in range(20)]
setting = Settings(fabrics={n: {"colour": f"#{chance.randrange(1 << 24):06x}"} for n in names})
rows = tuple(Cuts(fabric=n, cuts=chance.randint(1, 12)) for n in names)
answer = fabric_mix(fabrics=rows, per_block=4, blocks=40, contrast_least=30, setting=setting, job=None)
print(json.dumps([answer.found, [str(each) for each in answer.working + answer.cautions]], default=str))
"""


def test_the_same_givens_have_the_same_answer_and_nothing_is_printed() -> None:
    """In two processes with other hashes; HiGHS writes nothing to the process's own output."""
    one, other = run(MANY, "1"), run(MANY, "2")
    assert one == other
    assert json.loads(one)[0]["blocks_made"] > 0


def test_nothing_reaches_the_screen(capfd: pytest.CaptureFixture[str]) -> None:
    told: list[Mix] = []
    tell: Callable[[Mix], None] = told.append
    solve(CHAIN, Effort(lambda: False), tell)
    assert told
    assert capfd.readouterr() == ("", "")
