"""Switching plugins off and on by name."""

import pytest

from boltend.core.host import ConfigError, off_file, switch_off, switch_on, switched_off


def test_a_plugin_that_is_off_is_not_imported_and_says_how_to_switch_it_on(maker, load, tmp_path):
    mark = tmp_path / "imported"
    maker.simple("loom", head=f"open({str(mark)!r}, 'w').close()\n")
    maker.simple("wheel")
    assert "loom_twice" in load().specs
    assert mark.exists()
    mark.unlink()

    switch_off("loom", ["loom_twice"])
    host = load()
    assert not mark.exists()
    assert list(host.specs) == ["wheel_twice"]
    loom = host.plugins.named("loom")
    assert (loom.state, loom.off, loom.calculators) == ("off", True, ())
    assert host.why_absent("loom_twice") == (
        "its plugin loom is switched off.",
        "`boltend plugins --on loom` switches it on.",
    )

    assert switch_on("loom")
    assert not switch_on("loom")
    assert "loom_twice" in load().specs


def test_a_built_in_plugin_can_be_switched_off(maker, load):
    maker.simple("ours", built_in=True)
    switch_off("ours")
    assert not load().specs
    assert "Switched off: ours" in load().why_absent("ours_twice")[1]


def test_switching_off_again_keeps_what_was_remembered(maker):
    switch_off("loom", ["a", "b"])
    switch_off("loom")
    switch_off('odd "name" \x7f é', ["c"])
    assert switched_off() == {"loom": ("a", "b"), 'odd "name" \x7f é': ("c",)}


@pytest.mark.parametrize("text", ["[off\n", "off = 3\n", "[off]\nloom = true\n", "[off]\nloom = [1]\n"])
def test_a_damaged_file_is_named_and_never_written_over(maker, load, text):
    off_file().parent.mkdir()
    off_file().write_text(text)
    maker.simple("loom")
    host = load()
    assert list(host.specs) == ["loom_twice"]
    assert str(off_file()) in host.plugins.problems[0].why
    with pytest.raises(ConfigError, match=r"off\.toml"):
        switch_off("loom")
    assert off_file().read_text() == text


def test_a_start_of_a_plugin_that_is_off_is_silent(maker, load):
    head = '@hookimpl\ndef boltend_starts(): return [Start("A", (("Tab", "wheel_twice", {}),))]\n'
    maker.simple("loom", head=head)
    maker.simple("wheel")
    assert len(load().starts) == 1
    switch_off("wheel", ["wheel_twice"])
    host = load()
    assert not host.starts
    assert host.plugins.named("loom").state == "on"


def test_the_config_folder_without_an_override_is_the_platforms_own(monkeypatch, tmp_path):
    monkeypatch.delenv("BOLTEND_CONFIG", raising=False)
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path))
    monkeypatch.setenv("HOME", str(tmp_path))
    assert tmp_path in off_file().parents


def test_a_folder_that_cannot_be_written_is_named(monkeypatch, tmp_path):
    (tmp_path / "file").write_text("")
    monkeypatch.setenv("BOLTEND_CONFIG", str(tmp_path / "file" / "config"))
    with pytest.raises(ConfigError, match=r"file/config/off\.toml cannot be"):
        switch_off("loom")
