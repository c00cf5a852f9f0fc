"""Editing the text: every line that an edit does not concern stays byte for byte, in every style of file."""

from __future__ import annotations

import sys
import tomllib
from collections import Counter
from dataclasses import replace
from pathlib import Path

import pytest

from boltend.core.project.blocks import cut
from boltend.core.project.document import Document
from boltend.core.project.edits import (
    add_tab,
    duplicate_tab,
    move_tab,
    remove_tab,
    rename_tab,
    set_cell,
    set_given,
    set_rows,
    set_setting,
    set_tab_flag,
)
from boltend.core.project.edits_fabrics import (
    add_fabric,
    add_ladder,
    remove_fabric,
    remove_ladder,
    rename_fabric,
    set_fabric,
    set_ladder,
)
from boltend.core.project.plain import same_plain
from boltend.core.project.reading import Reading, read_text

sys.path.insert(0, str(Path(__file__).parent))  # test modules stand alone under --import-mode=importlib
from quilts import CROWDED, DOTTED, HARBOUR, INLINE_TABS, STYLES, crlf, mixed
from text_helpers import applied, changed_lines, comment_lines, counts

HARBOUR_STYLES = {name: text for name, text in STYLES.items() if "Harbour" in text}


def bare(lines: list[str]) -> list[str]:
    return [line.strip() for line in lines]


@pytest.fixture(params=HARBOUR_STYLES, name="read")
def _read(request: pytest.FixtureRequest) -> Reading:
    return read_text(HARBOUR_STYLES[request.param], "harbour.toml")


def text_of(read: Reading) -> str:
    return "\ufeff" * read.document.bom + read.document.text


@pytest.mark.parametrize("text", [*STYLES.values(), DOTTED, INLINE_TABS], ids=[*STYLES, "dotted", "inline"])
def test_cut_and_unchanged_apply_give_the_text_back(text: str) -> None:
    read = read_text(text, "x.toml")
    assert cut(read.document.text).text() == text.removeprefix("\ufeff")
    assert read.document.apply(read.project, read.project).text == text
    # Also where the project is another object that says the same.
    again = replace(read.project, tabs=(*read.project.tabs,))
    assert again is not read.project
    assert read.document.apply(read.project, again).text == text


def key(read: Reading, name: str) -> int:
    return read.project.tab(name).key


def one_line(read: Reading, wanted: object, gone: list[str], come: list[str]) -> None:
    """Only these lines (stripped) go and come, and every comment line stands in its order."""
    old = text_of(read)
    new = applied(read.document, read.project, wanted)  # type: ignore[arg-type]  # object keeps the calls short
    went, came = changed_lines(old, new)
    assert bare(went) == gone
    assert bare(came) == come
    assert comment_lines(new) == comment_lines(old)


def test_a_scalar_keeps_its_trailing_comment(read: Reading) -> None:
    wanted = set_given(read.project, key(read, "Lantern blocks"), "block_width", "11 1/2 in")
    one_line(read, wanted, ['block_width = "12 in"  # finished'], ['block_width = "11 1/2 in"  # finished'])


def test_a_new_key_comes_last_in_its_own_table(read: Reading) -> None:
    wanted = set_given(read.project, key(read, "Lantern blocks"), "sash", "1 in")
    one_line(read, wanted, [], ['sash = "1 in"'])
    new = applied(read.document, read.project, wanted)
    assert "Cream" in new.split('sash = "1 in"')[0].rstrip().split("\n")[-1]


def test_a_cleared_key_takes_only_its_line(read: Reading) -> None:
    wanted = set_given(read.project, key(read, "Lantern blocks"), "across", None)
    one_line(read, wanted, ["across = 4"], [])


def test_one_value_of_a_list_keeps_the_comments_of_the_others(read: Reading) -> None:
    values = ["48 1/4 in", "47 7/8 in", "48 1/8 in"]
    wanted = set_given(read.project, key(read, "Top as sewn"), "widths", values)
    one_line(read, wanted, ['"48 in",      # middle, [pinned]'], ['"47 7/8 in",      # middle, [pinned]'])


def test_a_literal_stays_a_literal_and_a_long_text_long(read: Reading) -> None:
    wanted = set_given(read.project, key(read, "Lantern blocks"), "sash_fabric", 'Blue "tick"')
    one_line(read, wanted, ["sash_fabric = 'Cream \"shell\"'"], ["sash_fabric = 'Blue \"tick\"'"])
    wanted = set_setting(read.project, "notes", 'Three\nlines: "a",\n[b] \\ end"')
    new = applied(read.document, read.project, wanted)
    assert comment_lines(new) == comment_lines(text_of(read))
    assert 'notes = """' in new


def test_links_in_both_spacings_are_renamed_everywhere(read: Reading) -> None:
    wanted = rename_tab(read.project, key(read, "Lantern blocks"), "Lamps")
    one_line(
        read,
        wanted,
        [
            'name = "Lantern blocks"',
            'top_width = { from = "Lantern blocks", take = "width" }   # linked',
            'top_height = {from="Lantern blocks",take="height"}',
        ],
        [
            'name = "Lamps"',
            'top_width = { from = "Lamps", take = "width" }   # linked',
            'top_height = {from="Lamps",take="height"}',
        ],
    )


def test_renaming_reaches_cells_and_ladders(read: Reading) -> None:
    wanted = rename_tab(read.project, key(read, "Top as sewn"), "My top")
    new = applied(read.document, read.project, wanted)
    assert 'width = { from = "My top", take = "spread_width" }' in new
    wanted = rename_tab(read.project, key(read, "Edge"), "Rim")
    one_line(
        read,
        wanted,
        ['name = "Edge"', 'tab = "Edge"', 'take = { from = "Edge", take = "length" }'],
        ['name = "Rim"', 'tab = "Rim"', 'take = { from = "Rim", take = "length" }'],
    )


def test_inline_given(read: Reading) -> None:
    wanted = set_given(read.project, key(read, "Edge"), "width", "61 in")
    before = 'given = { width = "60 in", height = "60 in", fabric = "Navy dots" } # all in one line'
    one_line(read, wanted, [before], [before.replace('width = "60', 'width = "61')])


def test_cells_and_rows(read: Reading) -> None:
    tab = key(read, "Border walk")
    one_line(
        read,
        set_cell(read.project, tab, "borders", 0, "width", "2 in"),
        ['width = "1 1/2 in"'],
        ['width = "2 in"'],
    )
    wanted = set_cell(read.project, tab, "borders", 1, "width", "5 in")
    one_line(read, wanted, ['width = { from = "Top as sewn", take = "spread_width" }'], ['width = "5 in"'])
    wanted = set_cell(read.project, tab, "borders", 2, "width", "3 in")
    one_line(read, wanted, [], ["[[tab.given.borders]]", 'width = "3 in"', ""])
    # The first row goes with the comment above it, and nothing else.
    rows = read.project.tab(tab).given["borders"]
    new = applied(read.document, read.project, set_rows(read.project, tab, "borders", rows[1:]))
    gone, come = changed_lines(text_of(read), new)
    assert come == []
    assert sorted(bare(gone)) == sorted(
        [
            "# the narrow one",
            "[[tab.given.borders]]",
            'name = "inner"',
            'width = "1 1/2 in"',
            'fabric = "Rust"',
            "",
        ]
    )


def test_rows_give_way_to_a_link_and_back(read: Reading) -> None:
    tab = key(read, "Border walk")
    link = {"from": "Edge", "take": "rows"}
    linked = set_given(read.project, tab, "borders", link)
    new = applied(read.document, read.project, linked)
    assert 'borders = { from = "Edge", take = "rows" }' in new
    back = set_given(linked, tab, "borders", [{"width": "1 in"}, {"width": "2 in"}])
    applied(Document.from_text(new), linked, back)


@pytest.mark.parametrize("name", ["Lantern blocks", "Top as sewn", "Border walk", "Edge"])
def test_moving_moves_whole_blocks_with_the_comments_above_them(read: Reading, name: str) -> None:
    old = text_of(read)
    for index in range(4):
        wanted = move_tab(read.project, key(read, name), index)
        new = applied(read.document, read.project, wanted)
        unfinished = not old.endswith("\n")
        assert counts(new + "\n" * unfinished) == counts(old + "\n" * unfinished)
        assert "# the middle" in new.split("[[tab]]")[0] or index == 0 or name == "Lantern blocks"
        flat = new.replace("\r\n", "\n")
        assert '# right above Top as sewn\n[[tab]]\n  name = "Top as sewn"' in flat
        assert '# the middle\n# comes first\n[[tab]]\nname = "Lantern blocks"' in flat
        assert '# last but one\n[[tab]]\nname = "Edge"' in flat
        assert '# the narrow one\n[[tab.given.borders]]\nname = "inner"' in flat
        assert "\n\n# a loose remark between two tables\n\n[[fabric]]" in flat
        assert flat.removesuffix("\n").endswith("# end of the file")


OWN_COMMENTS = {
    "Lantern blocks": ["# the middle", "# comes first", '# sash = "1 1/2 in"   might come back'],
    "Top as sewn": ["# right above Top as sewn"],
    "Border walk": ["# the narrow one"],
    "Edge": ["# last but one"],
}


@pytest.mark.parametrize("name", OWN_COMMENTS)
def test_removing_takes_the_tab_its_comments_and_one_blank_line(read: Reading, name: str) -> None:
    old = text_of(read)
    new = applied(read.document, read.project, remove_tab(read.project, key(read, name)))
    gone, come = changed_lines(old, new)
    assert come == []
    left = [line for line in comment_lines(old) if line not in OWN_COMMENTS[name]]
    assert comment_lines(new) == left
    assert "\n\n\n\n" not in new.replace("\r\n", "\n")
    assert 'name = "' + name in "".join(gone)


def test_removing_all_tabs_and_all_fabrics(read: Reading) -> None:
    wanted = read.project
    for tab in read.project.tabs:
        wanted = remove_tab(wanted, tab.key)
    for fabric in read.project.fabrics:
        wanted = remove_fabric(wanted, fabric.key)
    wanted = remove_ladder(wanted, wanted.ladders[0].key)
    new = applied(read.document, read.project, wanted)
    for loose in ("# ======== tabs ========", "# a loose remark between two tables", "# end of the file"):
        assert loose in comment_lines(new)


def test_duplicating_copies_the_text_under_a_new_name(read: Reading) -> None:
    old = text_of(read)
    wanted = duplicate_tab(read.project, key(read, "Border walk"))
    new = applied(read.document, read.project, wanted)
    gone, come = changed_lines(old, new)
    assert gone == []
    assert 'name = "Border walk 2"' in bare(come)
    assert 'top_width = { from = "Lantern blocks", take = "width" }   # linked' in bare(come)
    # A copy of a copy, edited before it was ever saved, still comes from the text.
    copy = wanted.tab("Border walk 2")
    twice = set_given(duplicate_tab(wanted, copy.key), copy.key, "piecing", "each side")
    new = applied(read.document, read.project, remove_tab(twice, key(read, "Border walk")))
    assert new.count('take = "width" }   # linked') == 2


@pytest.mark.parametrize("at", [None, 0, 1, 2, 3])
def test_adding_a_tab_puts_in_lines_and_changes_none(read: Reading, at: int | None) -> None:
    old = text_of(read)
    given = {"width": "60 in", "height": {"from": "Edge", "take": "height"}, "rows": [{"a b": "1 in"}]}
    new = applied(read.document, read.project, add_tab(read.project, "Another", "binding", given, at))
    gone, come = changed_lines(old, new)
    assert gone == []
    assert comment_lines(new) == comment_lines(old)
    assert bare(come).count("") in (4, 3)
    usual = "\r\n" if old.count("\r\n") * 2 > old.count("\n") else "\n"
    assert all(line.endswith(usual) and (usual == "\r\n" or "\r" not in line) for line in come)


def test_settings_flags_fabrics_ladders(read: Reading) -> None:
    project = read.project
    one_line(read, set_setting(project, "seam", "3/8 in"), ['seam = "1/4 in"'], ['seam = "3/8 in"'])
    one_line(read, set_setting(project, "copies", 2), [], ["copies = 2"])
    one_line(
        read,
        set_setting(project, "name", "Harbour"),
        ['name   =   "Harbour lights"      # aligned by hand'],
        ['name   =   "Harbour"      # aligned by hand'],
    )
    one_line(
        read,
        set_tab_flag(project, key(read, "Border walk"), "aside", True),
        ["aside = false"],
        ["aside = true"],
    )
    one_line(read, set_tab_flag(project, key(read, "Top as sewn"), "done", True), [], ["done = true"])
    rust = project.find_fabric("Rust")
    assert rust is not None
    one_line(read, set_fabric(project, rust.key, "have", "2 yd"), [], ['have = "2 yd"'])
    uses = [(key(read, "Border walk"), "borders", "fabric"), (key(read, "Edge"), "fabric", None)]
    one_line(
        read,
        rename_fabric(project, rust.key, "Brick", uses),
        ['name = "Rust"   # a fabric among the tabs: the array is interrupted', 'fabric = "Rust"'],
        ['name = "Brick"   # a fabric among the tabs: the array is interrupted', 'fabric = "Brick"'],
    )
    one_line(read, add_fabric(project, "Green"), [], ["[[fabric]]", 'name = "Green"', ""])
    ladder = project.ladders[0]
    one_line(
        read,
        set_ladder(project, ladder.key, "values", ["2 in", "2 1/2 in"]),
        ['values = ["2 in", "2 1/4 in"]'],
        ['values = ["2 in", "2 1/2 in"]'],
    )
    data = {"name": "More", "tab": "Edge", "given": "tail", "values": ["9 in"], "take": "length"}
    applied(read.document, project, add_ladder(project, data))


@pytest.mark.parametrize("text", [CROWDED, crlf(CROWDED), CROWDED.removesuffix("\n")])
def test_files_without_blank_lines(text: str) -> None:
    read = read_text(text, "x.toml")
    three = move_tab(read.project, key(read, "Three"), 0)
    new = applied(read.document, read.project, three)
    assert counts(new + "\n") == counts(text + "\n") or not text.endswith("\n")
    assert '# about Three\n[[tab]]\nname="Three"' in new.replace("\r\n", "\n")
    assert new.endswith("\n") == text.endswith("\n")
    added = add_tab(read.project, "Four", "binding", {"width": "1 m"})
    new = applied(read.document, read.project, added)
    gone, _ = changed_lines(text + "\n" * (not text.endswith("\n")), new + "\n" * (not new.endswith("\n")))
    assert gone == []
    new = applied(read.document, read.project, remove_tab(read.project, key(read, "Two")))
    assert comment_lines(new) == ["# about Three"]
    given = set_given(read.project, key(read, "Three"), "width", "2 m")
    assert '[tab.given]\nwidth = "2 m"' in applied(read.document, read.project, given).replace("\r\n", "\n")


def test_mixed_line_ends_stay_on_their_lines() -> None:
    text = mixed(HARBOUR)
    read = read_text(text, "x.toml")
    new = applied(read.document, read.project, set_given(read.project, key(read, "Edge"), "width", "1 in"))
    gone, come = changed_lines(text, new)
    assert len(gone) == len(come) == 1
    assert gone[0].endswith("\r\n") == come[0].endswith("\r\n")


def test_dotted_keys_are_edited_and_other_comments_kept() -> None:
    read = read_text(DOTTED, "x.toml")
    project = set_given(read.project, key(read, "A"), "width", "61 in")
    new = applied(read.document, read.project, project)
    assert 'given.width = "61 in"   # dotted too' in new
    # A new key there is where tomlkit is known to lose data: it must read back right all the same.
    project = set_setting(set_given(project, key(read, "A"), "tail", "9 in"), "overage", "4 in")
    edited = read.document.apply(read.project, project)
    assert same_plain(tomllib.loads(edited.text), project.to_plain())
    assert "# about A" in edited.text
    assert "# a link as a table of its own" in edited.text


def test_a_link_written_as_a_table() -> None:
    read = read_text(DOTTED, "x.toml")
    tab = key(read, "B")
    new = applied(read.document, read.project, rename_tab(read.project, key(read, "A"), "First"))
    assert 'from = "First"' in new
    typed = set_given(read.project, tab, "width", "12 in")
    assert same_plain(tomllib.loads(applied(read.document, read.project, typed)), typed.to_plain())
    more = set_given(read.project, tab, "height", "12 in")
    assert "# a link as a table of its own" in applied(read.document, read.project, more)


def test_tabs_in_one_inline_list_are_written_afresh_and_said_so() -> None:
    read = read_text(INLINE_TABS, "x.toml")
    wanted = set_given(read.project, key(read, "B"), "width", "12 in")
    edited = read.document.apply(read.project, wanted)
    assert same_plain(tomllib.loads(edited.text), wanted.to_plain())
    assert "comments" in edited.note
    assert "[[tab]]" in edited.text


def test_a_subtable_far_from_its_tab_is_not_lost() -> None:
    text = CROWDED + '[[fabric]]\nname = "F"\n[tab.given]\nwidth = "9 in"  # of Three\n'
    read = read_text(text, "x.toml")
    wanted = set_given(read.project, key(read, "Three"), "width", "8 in")
    edited = read.document.apply(read.project, wanted)
    assert same_plain(tomllib.loads(edited.text), wanted.to_plain())
    # An edit elsewhere leaves the odd shape as it is.
    wanted = set_given(read.project, key(read, "One"), "width", "8 in")
    assert "# of Three" in applied(read.document, read.project, wanted)


def test_no_blank_lines_are_left_at_the_end() -> None:
    loose = 'boltend = 1\n\n[[tab]]\nname = "A"\n\n# loose\n\n[[tab]]\nname = "B"'
    for text in (loose, loose + "\n", crlf(loose), crlf(loose + "\n")):
        read = read_text(text, "x.toml")
        new = applied(read.document, read.project, remove_tab(read.project, key(read, "B")))
        assert new.rstrip("\r\n").endswith("# loose")
        assert new[len(new.rstrip("\r\n")) :] == text[len(text.rstrip("\r\n")) :]


def test_counting_helper_sees_a_lost_line() -> None:
    """The helpers above must be able to fail."""
    assert counts("a\nb\n") != counts("a\n")
    assert Counter(changed_lines("a\nb\n", "a\nc\n")[0]) == Counter(["b\n"])
