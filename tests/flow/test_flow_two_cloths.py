"""What a tab's own fabric says holds for no other cloth."""

from fractions import Fraction as Fr

from boltend.core.contract import Settings
from boltend.core.flow import Workbook
from boltend.core.host import Host
from boltend.core.pool import Pool
from boltend.core.project.edits import add_tab, set_given
from boltend.core.project.edits_fabrics import add_fabric
from boltend.core.project.model import Project

TOP = {
    "block_width": "9 in", "block_height": "9 in", "across": 3, "down": 3, "sash": "1 in",
    "cornerstones": True, "sash_fabric": "Narrow",
}  # fmt: skip


def project(**given: object) -> Project:
    made = add_fabric(Project(), "Narrow", {"usable_width": "20 in"})
    made = add_fabric(made, "Plain")
    return add_tab(made, "Top", "straight_set", {**TOP, **given})


def widths(made: Project) -> dict[str, Fr]:
    with Host.load() as host:
        book = Workbook(host, made)
        assert book.result("Top").state == "worked out", book.result("Top").why
        return {each.cloth.name: each.cloth.usable for each in Pool().lists(book).fabrics}


def test_pieces_without_a_fabric_are_cut_from_the_projects_bolt() -> None:
    assert widths(project()) == {"Narrow": 20, "Top": 42}


def test_another_fabric_keeps_its_own_width() -> None:
    assert widths(project(cornerstone_fabric="Plain")) == {"Narrow": 20, "Plain": 42}


def test_the_fabric_of_a_tab_gives_way_to_another() -> None:
    narrow = {"usable_width": Fr(20)}
    general = Settings(fabrics={"Narrow": narrow})
    own = general.on("Narrow")
    assert own.usable_width == 20
    assert general.on("Plain").usable_width == general.on(None).usable_width == 42


def test_what_the_tab_types_holds_for_all_its_cloth() -> None:
    made = add_fabric(Project(), "Narrow", {"usable_width": "20 in"})
    made = add_tab(made, "Edge", "binding", {"width": "60 in", "height": "60 in", "fabric": "Narrow"})
    with Host.load() as host:
        book = Workbook(host, made)
        settings = book.result("Edge").settings
        assert (settings.usable_width, settings.on(None).usable_width) == (20, 42)
        book.update(set_given(made, made.tab("Edge").key, "usable_width", "30 in"))
        settings = book.result("Edge").settings
        assert {each.usable_width for each in (settings, settings.on(None), settings.on("Narrow"))} == {30}
