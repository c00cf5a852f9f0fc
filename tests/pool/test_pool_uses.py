"""What a cloth is for, as the customer's page tells it: the tabs, and what is cut where that says more."""

from boltend.core.paper.customer_sheet import uses_of

from .kit import Made, lists, piece, run

SLATE = {"name": "Slate"}


def uses(*made: Made) -> str:
    (fabric,) = lists(*made, fabrics=[SLATE]).fabrics
    return uses_of(fabric)


def test_the_border_is_told_by_its_name_and_a_binding_is_a_binding() -> None:
    assert uses(
        Made("Borders", runs=[run("Sky", "3", "40")]), Made("Binding", runs=[run("binding", "2", "90")])
    ) == ("Borders (Sky); Binding")
    assert uses(Made("Backing", [piece("backing panel", "40", "60", 2)])) == "Backing"


def test_of_many_uses_the_first_are_told() -> None:
    many = [Made(f"Tab {n}", [piece(f"patch {m}", "3", "3", 2) for m in range(5)]) for n in range(6)]
    said = uses(*many)
    assert said.startswith("Tab 0 (patch 0, patch 1, patch 2, and 2 more); Tab 1 (patch 0, patch 1, ")
    assert said.endswith("; and 2 more")
