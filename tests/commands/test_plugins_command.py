"""`boltend plugins`: every state with its reason, the switch, and a tab that outlives its plugin."""

import json
import re
import sys
from pathlib import Path

import pytest
from calling import call

TWICE = '''
from boltend.plugin import Answer, Count, calculator, found, given, hookimpl, line
boltend_contract = {contract}

class Made:
    """Made."""
    made: Count = found("Made")

@calculator("{calculator}", asks="How many are made?", found=Made)
def {calculator}(many: Count = given("How many")) -> Answer:
    """Twice as many. Invented."""
    return Answer(found={{"made": 2 * many}}, working=[line("2 × {{}}", many)])

@hookimpl
def boltend_calculators():
    return [{calculator}]
'''


class Site:
    """Distributions in a folder that is on the path of what is called."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.env = {"PYTHONPATH": f"{folder}:{':'.join(sys.path)}", "BOLTEND_CONFIG": str(folder / "config")}

    def plugin(self, name: str, source: str) -> None:
        (self.folder / f"of_{name}.py").write_text(source, encoding="utf-8")
        info = self.folder / f"of_{name}-1.2.dist-info"
        info.mkdir()
        (info / "METADATA").write_text(f"Metadata-Version: 2.1\nName: of-{name}\nVersion: 1.2\n")
        (info / "entry_points.txt").write_text(f"[boltend.plugins]\n{name} = of_{name}\n")

    def call(self, *words: str | Path) -> tuple[int, str, str]:
        said = call(*words, **self.env)
        return said.returncode, said.stdout, said.stderr


@pytest.fixture
def site(tmp_path: Path) -> Site:
    return Site(tmp_path)


def test_every_state_has_its_reason(site: Site) -> None:
    site.plugin("loom", TWICE.format(contract=1, calculator="loom"))
    site.plugin("newer", TWICE.format(contract=2, calculator="newer"))
    site.plugin("silent", TWICE.format(contract=1, calculator="silent").replace("boltend_contract = 1", ""))
    site.plugin("torn", "import boltend.plugin\nraise RuntimeError('the shuttle broke')\n")
    site.plugin("double", TWICE.format(contract=1, calculator="binding"))  # a built-in bears that name
    both = TWICE.format(contract=1, calculator="half").replace("return [half]", "return [half, 3]")
    site.plugin("half", both)
    code, out, err = site.call("plugins", "--json")
    assert (code, err) == (1, "")
    told = {each["name"]: each for each in json.loads(out)["plugins"] if not each["built_in"]}
    assert {name: each["state"] for name, each in told.items()} == {
        "loom": "on", "newer": "refused", "silent": "refused", "torn": "broken", "double": "refused",
        "half": "in part",
    }  # fmt: skip
    assert told["loom"] == {
        "name": "loom", "module": "of_loom", "distribution": "of-loom", "version": "1.2", "built_in": False,
        "contract": 1, "state": "on", "calculators": ["loom"], "tables": [], "starts": [], "faults": [],
    }  # fmt: skip
    assert (told["newer"]["contract"], told["silent"]["contract"]) == (2, None)
    why = told["newer"]["faults"][0]["why"]
    assert "it is written for contract 2, and this Boltend understands contract 1." in why
    assert "A newer Boltend, or an older version of the plugin, would do." in why
    assert told["double"]["calculators"] == []
    assert told["half"]["calculators"] == ["half"]

    code, out, err = site.call("plugins")
    assert (code, err) == (1, "")
    lines = out.splitlines()
    assert any(line.split() == ["loom", "on", "of-loom", "1.2", "contract", "1"] for line in lines)
    # The traceback as Python wrote it, from the margin, to be copied.
    assert lines[lines.index("Traceback (most recent call last):") - 1].startswith("Traceback of torn: ")
    assert "RuntimeError: the shuttle broke" in lines


def test_off_and_on_and_a_tab_that_is_kept(site: Site, tmp_path: Path) -> None:
    site.plugin("loom", TWICE.format(contract=1, calculator="loom"))
    quilt = tmp_path / "quilt.toml"
    quilt.write_text(
        'boltend = 1\n[[tab]]\nname = "L" # mine\ncalculator = "loom"\n[tab.given]\nmany=3\n',
        encoding="utf-8",
    )
    before = quilt.read_bytes()
    assert site.call("check", quilt)[0] == 0
    code, out, _ = site.call("plugins", "--off", "loom")
    assert (code, out) == (
        0,
        "loom is off. Tabs that use loom stay as they are, and cannot be worked out. "
        "`boltend plugins --on loom` switches it on.\n",
    )
    assert site.call("plugins", "--off", "loom")[1] == "loom was off already.\n"
    code, out, _ = site.call("plugins", "--json")
    (told,) = (each for each in json.loads(out)["plugins"] if each["name"] == "loom")
    assert (code, told["state"], told["calculators"], told["contract"]) == (0, "off", ["loom"], None)
    code, out, err = site.call("check", quilt)
    assert code == 1
    assert "its plugin loom is switched off. `boltend plugins --on loom` switches it on." in out + err
    assert quilt.read_bytes() == before
    assert site.call("plugins", "--on", "loom")[:2] == (0, "loom is on.\n")
    assert site.call("plugins", "--on", "loom")[1] == "loom was on already.\n"
    assert site.call("check", quilt)[0] == 0


def test_one_that_was_taken_away_while_it_was_off_can_be_switched_on(site: Site, tmp_path: Path) -> None:
    (tmp_path / "config").mkdir()
    (tmp_path / "config" / "off.toml").write_text("[off]\ngone = []\n", encoding="utf-8")
    assert site.call("plugins", "--on", "gone")[:2] == (0, "gone is on.\n")


@pytest.mark.parametrize(
    ("words", "part"),
    [
        (["--off"], "expected one argument"),
        (["--off", "bordres_binding"], "no plugin 'bordres_binding'. Did you mean “borders_binding”?"),
        (["--on", "nobody"], "there is no plugin 'nobody'."),
    ],
)
def test_a_call_that_cannot_be_read(site: Site, words: list[str], part: str) -> None:
    code, out, err = site.call("plugins", *words)
    assert (code, out) == (2, "")
    assert part in err


def test_a_config_file_that_cannot_be_read_is_named(site: Site, tmp_path: Path) -> None:
    (tmp_path / "config").mkdir()
    (tmp_path / "config" / "off.toml").write_text("[off\n", encoding="utf-8")
    code, out, _ = site.call("plugins")
    assert code == 1
    assert "off.toml" in out
    code, _, err = site.call("plugins", "--off", "fabric_mix")
    assert code == 2
    assert "off.toml" in err


def test_a_calculator_of_a_broken_plugin_is_not_taken_for_a_slip_of_the_pen(site: Site) -> None:
    site.plugin("bindings", "raise RuntimeError('the shuttle broke')\n")
    code, out, err = site.call("work", "bindings")  # binding is near, but this one is meant
    assert (code, out) == (2, "")
    assert "Did you mean" not in err
    assert "Not whole: bindings (it could not be imported: RuntimeError: the shuttle broke (…/" in err
    assert "/of_bindings.py, line 1))." in err
    assert "`boltend plugins` tells all of it." in err


def test_the_rows_of_a_table_are_told_where_one_is_chosen(site: Site) -> None:
    code, out, _ = site.call("calculators", "quilting_thread")
    assert code == 0
    assert "      One of: class 15; L; M.\n" in out


WRONG = '''
from boltend.plugin import Answer, Cannot, Count, calculator, found, given, hookimpl, line
boltend_contract = 1

class Made:
    """Made."""
    made: Count = found("Made")

@calculator("loom", asks="How many are made?", found=Made)
def loom(many: Count = given("How many threads")) -> Answer:
    """Twice as many. Invented."""
    if many == 1:
        raise Cannot("many", "one thread is no warp.", "Take two.")
    if many == 2:
        raise RuntimeError("the shuttle broke")
    return Answer(found={"made": 2 * many, "depth": 1}, working=[line("2 × {}", many)])

@hookimpl
def boltend_calculators():
    return [loom]
'''


def test_what_a_calculator_cannot_has_its_given_s_label_everywhere(site: Site, tmp_path: Path) -> None:
    site.plugin("loom", WRONG)
    said = "How many threads: one thread is no warp. Take two."
    assert f"loom: {said}" in site.call("work", "loom", "many=1")[2]
    file = tmp_path / "warp.toml"
    file.write_text(
        'boltend = 1\n\n[[tab]]\nname = "Warp"\ncalculator = "loom"\ngiven.many = 1\n', encoding="utf-8"
    )
    assert f"“Warp” cannot: {said}" in site.call("check", file)[1]
    assert f"- {said}" in site.call("print", file)[1]
    assert said in json.loads(site.call("print", file, "--as", "json")[1])["tabs"][0]["why"]
    assert "How many threads: nothing is given yet." in site.call("work", "loom")[2]  # and none has it twice


def test_an_author_is_told_what_would_do_and_where(site: Site, tmp_path: Path) -> None:
    site.plugin("loom", WRONG)
    said = site.call("work", "loom", "many=3")[2]
    assert "add `depth: … = found(…)` to the class of founds" in said
    assert 'of_loom.py", line 9, in loom' in said
    file = tmp_path / "warp.toml"
    file.write_text(
        'boltend = 1\n\n[[tab]]\nname = "Warp"\ncalculator = "loom"\ngiven.many = 2\n', encoding="utf-8"
    )
    assert "`boltend work loom …` shows where." in site.call("check", file)[1]
    assert "`boltend work loom …` with the same givens shows where." in site.call("print", file)[2]
    assert "the shuttle broke" in site.call("work", "loom", "many=2")[2]


def test_a_fault_of_an_import_says_file_and_line_and_starts_are_listed(site: Site) -> None:
    site.plugin("torn", "import boltend.plugin\n\nraise RuntimeError('the shuttle broke')\n")
    site.plugin("bent", "import boltend.plugin\n\n\ndef (:\n")
    asks = "\n\n@hookimpl\ndef boltend_starts():\n    return [Start('How many?', (('It', 'loom', {}),))]\n"
    site.plugin("loom", WRONG.replace("hookimpl, line", "Start, hookimpl, line") + asks)
    _, out, _ = site.call("plugins")
    told = " ".join(out.split())
    assert re.search(r"RuntimeError: the shuttle broke \(…/[^/]+/of_torn\.py, line 3\)\.", told)
    assert re.search(r"SyntaxError: invalid syntax \(…/[^/]+/of_bent\.py, line 4\)\.", told)
    assert "starts: How many?" in told


def test_a_clash_and_a_contract_in_quotes_say_what_would_do(site: Site) -> None:
    site.plugin("double", TWICE.format(contract=1, calculator="binding"))
    site.plugin("quoted", TWICE.format(contract='"1"', calculator="quoted"))
    _, out, _ = site.call("plugins")
    told = " ".join(out.split())
    assert "so this one stays out. Give it another name." in told
    assert "is the text '1'; it is a whole number, without quotes." in told
