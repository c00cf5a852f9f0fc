"""The problems of an edited tab are those of its table read anew, whatever was known before the edit."""

import pytest

from boltend.core.project.checks import tab_problems
from boltend.core.project.edits import add_tab, set_given, set_tab_calculator, set_tab_flag
from boltend.core.project.model import Project, project_from_plain

SOUND: dict[str, object] = {
    "name": "T",
    "calculator": "borders",
    "given": {"width": "3 in", "rows": [{"width": "1 in"}]},
}
WRONG: dict[str, object] = {
    "name": "T",
    "calculator": "borders",
    "colour": "red",
    "given": {"width": {"from": "A"}},
}


def _project(data: dict[str, object]) -> Project:
    return project_from_plain({"boltend": 1, "tab": [data]})


@pytest.mark.parametrize("data", [SOUND, WRONG])
@pytest.mark.parametrize(
    "raw", ["4 in", "", 4, 2.5, True, None, {"from": "A"}, {"from": "A", "take": "b"}, [["x"]], [{"a": {}}]]
)
@pytest.mark.parametrize("given", ["width", "height"])
def test_a_given_set(data: dict[str, object], raw: object, given: str) -> None:
    project = _project(data)
    key = project.tabs[0].key
    known = project.tabs[0].problems
    assert bool(known) is (data is WRONG)
    tab = set_given(project, key, given, raw).tab(key)
    assert tab.problems == tab_problems(tab.data, key)


def test_a_link_without_its_found_is_noticed_after_a_sound_edit() -> None:
    project = _project(SOUND)
    key = project.tabs[0].key
    sound = set_given(project, key, "width", "4 in")
    assert sound.tab(key).problems == ()
    assert [p.path for p in set_given(sound, key, "width", {"from": "A"}).tab(key).problems] == [
        ("given", "width")
    ]


def test_other_keys_are_looked_at() -> None:
    project = _project(SOUND)
    key = project.tabs[0].key
    assert [p.path for p in set_tab_calculator(project, key, " ").tab(key).problems] == [("calculator",)]
    noted = set_tab_flag(project, key, "note", "for Ada")
    assert noted.tab(key).problems == ()
    assert noted.tab(key).note == "for Ada"


def test_an_edited_tab_is_found_by_key_and_by_name_and_keeps_its_place() -> None:
    project = add_tab(add_tab(_project(SOUND), "Second", "borders"), "Third", "borders")
    first, second, third = project.tabs
    edited = set_given(project, second.key, "width", "5 in")
    assert edited.tabs[0] is first
    assert edited.tabs[2] is third
    assert edited.tab(second.key) is edited.tab("Second") is edited.tabs[1]
    assert edited.tabs[1].given == {"width": "5 in"}
    assert second.given == {}
    assert project.tab(second.key) is second
