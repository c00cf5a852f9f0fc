"""Plugins are loaded one at a time: every failure is kept, the others go on, no stranger is imported here."""

import sys

import pytest

from boltend.core.contract import Settings, hooks
from boltend.core.host import Call, Host
from boltend.core.host.opening import HOOKS

HEAD = "from boltend.plugin import *\nboltend_contract = 1\n"
FOUND = "class F:\n  n: Count = found('N')\n@calculator('c', asks='?', found=F)\n"
BRINGS = "@hookimpl\ndef boltend_calculators(): "
TABLES = "@hookimpl\ndef boltend_tables(): "

BAD = {
    "raises at import": (
        "raise RuntimeError('no loom today')",
        "could not be imported: RuntimeError: no loom today",
    ),
    "missing module": ("import no_such_module_of_ours", "No module named 'no_such_module_of_ours'"),
    "syntax": ("def (:", "could not be imported: "),
    "sys.exit at import": ("import sys; sys.exit(3)", "could not be imported: SystemExit(3)"),
    "os._exit at import": ("import os; os._exit(7)", "ended the process with exit code 7"),
    "a signal at import": ("import os, signal; os.kill(os.getpid(), signal.SIGSEGV)", "by signal SIGSEGV"),
    "hangs at import": ("import time; time.sleep(60)", "took longer than 1.5 s to import"),
    "holds the GIL": ("import re; re.match(r'(a+)+$', 'a' * 60 + 'b')", "took longer than 1.5 s to import"),
    "recursion": ("def deep(): return deep()\ndeep()", "RecursionError"),
    "no contract": ("x = 1", "does not say which contract it keeps. `boltend_contract = 1`"),
    "contract of text": ("boltend_contract = 'one'", "its boltend_contract is 'one', not a whole number"),
    "newer contract": (
        "boltend_contract = 2",
        "written for contract 2, and this Boltend understands contract 1. A newer Boltend",
    ),
    "nothing": ("boltend_contract = 1", "it brings nothing"),
    "unmarked hook": (
        HEAD + "def boltend_calculators(): return []",
        "its function boltend_calculators is not marked as a hook",
    ),
    "mistyped hook": (
        HEAD + "@hookimpl\ndef boltend_calculatrs(): return []",
        "marks boltend_calculatrs, which is no hook. Did it mean boltend_calculators?",
    ),
    "hook with arguments": (
        HEAD + "@hookimpl\ndef boltend_calculators(config): return []",
        "could not be registered",
    ),
    "raising hook": (HEAD + BRINGS + "return 1 / 0", "its boltend_calculators raised ZeroDivisionError"),
    "exiting hook": (HEAD + BRINGS + "raise SystemExit(1)", "its boltend_calculators raised SystemExit(1)"),
    "hook returns None": (
        HEAD + BRINGS + "pass",
        "its boltend_calculators returned None, not a list of Calculator",
    ),
    "hook returns a function": (
        HEAD + "def plain(): pass\n" + BRINGS + "return [plain]",
        "returned a function (plain) where a Calculator is wanted",
    ),
    "contract error": (
        HEAD + FOUND + "def c(many: float = given('Many')): pass",
        "c, given many: <class 'float'> is no kind of value.",
    ),
    "step that is none": (
        HEAD + FOUND + "def c(wide: Cut = given('Wide', step='cuting')): pass",
        "c, given wide: 'cuting' is no step. Did you mean 'cutting'?",
    ),
    "grows with letters": (
        HEAD + FOUND.replace("'N'", "'N', grows_with='many'") + "def c(many: Count = given('Many')): pass",
        'c, found n: grows_with= takes a tuple of names. Write grows_with=("many",).',
    ),
    "name that is none": (
        HEAD + FOUND.replace("'c'", "'Big C'") + "def c(): pass\n" + BRINGS + "return [c]",
        "a calculator is named 'Big C'. Small letters",
    ),
    "unreadable default": (
        HEAD + FOUND + "def c(wide: Cut = given('Wide', default='3 inn')): pass\n" + BRINGS + "return [c]",
        "c, wide: '3 inn' cannot be read as cut",
    ),
    "unreadable metric default": (
        HEAD + FOUND + "def c(wide: Cut = given('Wide', metric='3 zz')): pass\n" + BRINGS + "return [c]",
        "c, wide: '3 zz' cannot be read as cut",
    ),
    "unreadable step": (
        HEAD + FOUND + "def c(wide: Cut = given('Wide', step='3 zz')): pass\n" + BRINGS + "return [c]",
        "c, wide: '3 zz' cannot be read as cut",
    ),
    "default that is no choice": (
        HEAD + FOUND + "def c(a: Choice['x', 'y'] = given('A', default='z')): pass\n" + BRINGS + "return [c]",
        "this is none of the choices",
    ),
    "default that is no text": (
        HEAD + FOUND + "def c(many: Count = given('Many', default=3)): pass\n" + BRINGS + "return [c]",
        "its default is 3, not a text",
    ),
    "table without a source": (
        HEAD + TABLES + "return [Table('looms', {'wide': 'length'}, {'a': {'wide': '3 in'}})]",
        "table looms, row 'a': no source",
    ),
    "table with an unreadable cell": (
        HEAD + TABLES + "return [Table('looms', {'wide': 'length'}, {'a': {'wide': '3 zz', 'source': 's'}})]",
        "table looms, row 'a'",
    ),
    "table of an unknown kind": (
        HEAD + TABLES + "return [Table('looms', {'wide': 'width'}, {})]",
        "column 'wide': no kind 'width'",
    ),
}

# What ends or holds a whole process is a stranger's; the texts of built-in plugins are read by their tests.
STRANGERS_ONLY = (
    "os._exit",
    "a signal",
    "hangs",
    "holds",
    "unreadable",
    "table with an",
    "default that is no choice",
)


@pytest.mark.parametrize("what", BAD)
def test_a_bad_stranger_is_kept_with_its_fault_and_the_others_go_on(what, maker, load, work):
    source, expected = BAD[what]
    maker.simple("before")
    maker.plugin("bent", source)
    maker.simple("cafter")  # sorted behind it
    host = load(describe_timeout=1.5 if "took longer" in expected else 30)
    bent = host.plugins.named("bent")
    assert bent is not None
    assert bent.error is not None
    assert expected in bent.error.why
    assert bent.state == "failed"
    assert bent.distribution == "stranger-bent"
    assert list(host.specs) == ["before_twice", "cafter_twice"]
    for name in host.specs:
        outcome = work(host, name)
        assert outcome.answer is not None
        assert outcome.answer.found == {"made": 6}
    assert not [m for m in maker.modules if m in sys.modules]


@pytest.mark.parametrize(
    ("plugin", "calculator", "told"),
    [
        ("bent", "bent", "given many: <class 'float'> is no kind of value."),
        ("bent", "rod", "rod, given many: <class 'float'> is no kind of value."),
    ],
)
@pytest.mark.parametrize("own", [False, True])
def test_a_wrong_declaration_begins_with_its_place_and_no_name_is_said_twice(
    maker, load, plugin, calculator, told, own
):
    source = HEAD + FOUND.replace("'c'", repr(calculator)) + "def c(many: float = given('Many')): pass"
    maker.plugin(plugin, source, distribution="boltend" if own else "")
    bent = load().plugins.named(plugin)
    assert bent.error.why.startswith(f"{calculator}, given many: ")
    assert "boltend.core" not in bent.error.why  # where our classes live tells an author nothing
    assert "ContractError" in bent.error.traceback
    assert bent.told.startswith(told)


@pytest.mark.parametrize("what", [what for what in BAD if not what.startswith(STRANGERS_ONLY)])
def test_a_bad_built_in_plugin_is_kept_with_its_fault_too(what, maker, load):
    source, expected = BAD[what]
    maker.plugin("bent", source, distribution="boltend")
    maker.simple("cafter", built_in=True)
    host = load()
    bent = host.plugins.named("bent")
    assert bent.built_in
    assert expected in bent.error.why
    assert list(host.specs) == ["cafter_twice"]


def test_a_raising_hook_leaves_the_other_hooks_of_its_plugin_alone(maker, load):
    maker.simple("half", head="@hookimpl\ndef boltend_tables(): raise ValueError('x')\n")
    host = load()
    half = host.plugins.named("half")
    assert half.state == "faulty"
    assert "its boltend_tables raised ValueError: x" in half.error.why
    assert "ValueError" in half.error.traceback
    assert list(host.specs) == ["half_twice"]


def test_what_a_stranger_says_in_its_error_cannot_steer_a_terminal(maker, load):
    maker.plugin("loud", r"raise ValueError('\x1b[31mred\x07\u202e\n' + 'long ' * 5000)")
    fault = load().plugins.named("loud").error
    assert fault.why.isprintable()
    assert len(fault.why) < 320
    assert all(line.isprintable() for line in fault.traceback.split("\n"))


def test_a_built_in_calculator_wins_and_the_stranger_hears_of_it(maker, load, work):
    maker.simple("ours", calculator="same", built_in=True)
    maker.simple("theirs", "return Answer(found={'made': 0})", calculator="same")
    host = load()
    assert list(host.specs) == ["same"]
    assert host.specs["same"].built_in
    assert host.plugins.named("ours").state == "on"
    assert "Boltend brings a calculator same of its own" in host.plugins.named("theirs").error.why
    assert work(host, "same").answer.found == {"made": 6}


def test_two_strangers_with_one_name_both_stay_out_and_both_hear_of_it(maker, load):
    maker.simple("one", calculator="same")
    maker.simple("two", calculator="same")
    maker.simple("three")
    host = load()
    assert list(host.specs) == ["three_twice"]
    assert (
        "the plugin two (of stranger-two 1.0) brings a calculator same too"
        in host.plugins.named("one").error.why
    )
    assert (
        "the plugin one (of stranger-one 1.0) brings a calculator same too"
        in host.plugins.named("two").error.why
    )
    why, way_out = host.why_absent("same")
    assert "both stay out" in why
    assert "boltend plugins --off" in way_out


def test_a_name_twice_in_one_plugin_stays_out(maker, load):
    source = "from boltend.plugin import *\nboltend_contract = 1\nclass F:\n  n: Count = found('N')\n"
    for function in "ab":
        source += (
            f"@calculator('same', asks='?', found=F)\ndef {function}(many: Count = given('Many')): pass\n"
        )
    maker.plugin("twin", source + "@hookimpl\ndef boltend_calculators(): return [a, b]")
    host = load()
    assert not host.specs
    assert "it brings two calculators named same" in host.plugins.named("twin").error.why


def test_two_plugins_of_one_name_are_told_apart(maker, load):
    maker.simple("ours", built_in=True)
    maker.plugin("ours", "raise SystemError", distribution="somebody", module="somebody_ours")
    host = load()
    assert list(host.specs) == ["ours_twice"]
    theirs = next(p for p in host.plugins if not p.built_in)
    assert "Boltend brings a plugin ours of its own" in theirs.error.why


TABLE = """
@hookimpl
def boltend_tables():
    return [Table("spools", {{"wide": "length"}}, {{"a": {{"wide": "{wide}", "source": "invented"}}}})]
"""


def test_a_stranger_whose_table_stays_out_does_not_get_another_table_instead(maker, load):
    pick = ', spool: TableRow = given("Spool", default="a", table="spools")'
    maker.simple("ours", extra=pick, head=TABLE.format(wide="3 in"), built_in=True)
    maker.simple("theirs", extra=pick, head=TABLE.format(wide="5 in"))
    maker.simple("borrows", extra=pick)
    maker.simple("lost", extra=pick.replace("spools", "bobbins"))
    host = load()
    assert list(host.specs) == ["ours_twice", "borrows_twice"]
    assert any("table spools: Boltend brings a table" in f.why for f in host.plugins.named("theirs").faults)
    assert "no plugin brings its table bobbins" in host.plugins.named("lost").error.why
    assert host.table("spools").rows["a"]["wide"] == "3 in"
    assert host.table("bobbins") is None


def test_starts_that_lead_nowhere_are_left_out(maker, load):
    head = """
    @hookimpl
    def boltend_starts():
        return [
            Start("A", (("Tab", "good_twice", {"many": "3"}),)),
            Start("B", (("Tab", "nobodys", {"many": "3"}),)),
            Start("C", (("Tab", "good_twice", {"many": {"from": "Elsewhere", "take": "made"}}),)),
        ]
    """
    maker.simple("good", head=head)
    host = load()
    assert [s.question for s in host.starts] == ["A"]
    whys = [f.why for f in host.plugins.named("good").faults]
    assert any("nobody brings its 'nobodys'" in w for w in whys)
    assert any("leads to no tab" in w for w in whys)


def test_the_order_is_built_ins_first_then_by_name_of_the_plugin(maker, load):
    maker.simple("zebra", built_in=True)
    maker.simple("beta")
    maker.simple("Alpha", calculator="alpha_twice")
    maker.simple("ant", built_in=True)
    assert list(load().specs) == ["ant_twice", "zebra_twice", "alpha_twice", "beta_twice"]


def test_a_specification_says_who_brings_it(maker, load):
    maker.simple("loom")
    spec = load().spec("loom_twice")
    assert (spec.plugin, spec.distribution, spec.built_in) == ("loom", "stranger-loom", False)
    assert spec.given("many").label == "How many"


def test_installed_plugins_are_found_and_a_damaged_distribution_stops_none(maker):
    maker.simple("loom")
    broken = maker.folder / "broken-1.0.dist-info"
    broken.mkdir()
    (broken / "METADATA").write_text("Metadata-Version: 2.1\nName: broken\nVersion: 1\n")
    (broken / "entry_points.txt").write_text("[boltend.plugins]\nno equals sign here\n")
    with Host.load() as host:
        assert "loom_twice" in host.specs
        assert any("broken-1.0.dist-info cannot be read" in f.why for f in host.plugins.problems)
        assert any(p.built_in for p in host.plugins)


def test_an_absent_calculator_says_what_is_near(maker, load):
    maker.simple("loom")
    maker.plugin("bent", "import nothing_of_the_kind")
    host = load()
    assert host.spec("loom_twise") is None
    why, way_out = host.why_absent("loom_twise")
    assert "no plugin brings" in why
    assert "Did you mean loom_twice?" in way_out
    assert "bent (it could not be imported" in way_out


def test_a_call_of_an_absent_calculator_is_a_fault_not_a_crash(maker, load):
    maker.simple("loom")
    spec = load().specs["loom_twice"]
    maker.order.clear()
    outcome = load().start(Call(spec, {"many": 1}, Settings()), 1)
    assert "no plugin brings" in outcome.fault.why


def test_every_hook_of_the_contract_is_asked():
    specified = {name for name in vars(hooks) if hasattr(getattr(hooks, name), "boltend_spec")}
    assert specified == set(HOOKS)
