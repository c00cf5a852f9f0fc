"""What a tab says is in hand of its one fabric: cut first, and not bought; worked out by hand."""

from fractions import Fraction
from typing import Any

from boltend.core.flow import Workbook
from boltend.core.host import Host
from boltend.core.pool import FabricPlan, Pool
from boltend.core.project.model import project_from_plain


def border(name: str, have: str | None, fabric: str = "Rust", *more: dict[str, Any]) -> Any:
    """Round 65 × 80 in: 9 strips of 6 1/2 in, 58 1/2 in, and 1/2 in to square the end."""
    said = {} if have is None else {"have": have}
    rows = [{"width": "6 in", "fabric": fabric}, *more]
    return {"name": name, "calculator": "borders",
            "given": {"top_width": "65 in", "top_height": "80 in", "borders": rows, **said}}  # fmt: skip


def bought(*tabs: Any, copies: int = 1, **cells: str) -> list[FabricPlan]:
    plain = {"boltend": 1, "project": {"copies": copies}, "tab": list(tabs),
             "fabric": [{"name": "Rust", **cells}, {"name": "Slate"}]}  # fmt: skip
    with Host.load() as host:
        book = Workbook(host, project_from_plain(plain))
        return list(Pool().lists(book).fabrics)


def inches(*tabs: Any, copies: int = 1, **cells: str) -> tuple[Fraction, Fraction]:
    """Bought of Rust, and used of what is in hand."""
    rust = next(each for each in bought(*tabs, copies=copies, **cells) if each.cloth.name == "Rust")
    return rust.buy.needed, rust.buy.have_used


def test_what_is_enough_is_used_and_nothing_bought() -> None:
    assert inches(border("B", "2 1/4 yd")) == (0, 59)
    assert inches(border("B", None)) == (59, 0)


def test_what_is_short_is_used_first() -> None:
    # Five strips of 35 1/2 in: 33 in with the squaring. Four more are 26 in, and 1/2 in.
    assert inches(border("B", "1 yd")) == (Fraction(53, 2), 33)


def test_what_the_fabric_says_goes_first_even_where_it_says_none() -> None:
    assert inches(border("B", "1 yd"), have="3 yd") == (0, 59)
    assert inches(border("B", "3 yd"), have="0 yd") == (59, 0)


def test_two_tabs_speak_of_the_same_cloth() -> None:
    # 18 strips are 117 in: 2 1/4 yd hold 12 of them (78 in), and six more are 39 in.
    once, twice = (
        inches(border("A", "2 1/4 yd"), border("B", None)),
        inches(border("A", "2 1/4 yd"), border("B", "3 yd")),
    )
    assert once == twice == (Fraction(79, 2), Fraction(157, 2))


def test_two_copies_have_no_more_in_hand() -> None:
    assert inches(border("B", "2 1/4 yd"), copies=2) == (Fraction(79, 2), Fraction(157, 2))


def test_of_two_fabrics_in_a_tab_nobody_knows_which_is_in_hand() -> None:
    inner = border("B", "3 yd", "Rust", {"width": "2 in", "fabric": "Slate"})
    assert all(each.buy.have_used == 0 for each in bought(inner))


def test_a_tab_without_a_fabric_has_its_own() -> None:
    nameless = border("B", "2 1/4 yd")
    del nameless["given"]["borders"][0]["fabric"]
    (own,) = bought(nameless)
    assert (own.buy.needed, own.buy.have_used) == (0, 59)


def squares(*rows: dict[str, str]) -> Any:
    """Of 9 in: 3 yd of 42 in give 4 × 11, which take 99 in, and 1/2 in to square the end."""
    return {"name": "S", "calculator": "pieces_in_hand", "given": {"piece_width": "9 in", "fabrics": [*rows]}}


def test_lengths_in_rows_are_in_hand_of_their_own_fabrics() -> None:
    both = bought(squares({"have": "3 yd", "fabric": "Rust"}, {"have": "1 yd", "fabric": "Slate"}))
    used = {each.cloth.name: (each.buy.needed, each.buy.have_used) for each in both}
    assert used == {"Rust": (0, Fraction(199, 2)), "Slate": (0, Fraction(55, 2))}  # 3 × 9 and 1/2 in


def test_two_lengths_of_a_fabric_are_both_in_hand() -> None:
    # 11 and 3 strips: 126 in, and 1/2 in, of 144 in.
    two = squares({"have": "3 yd", "fabric": "Rust"}, {"have": "1 yd", "fabric": "Rust"})
    assert inches(two) == (0, Fraction(253, 2))


def test_half_a_width_is_not_counted_as_in_hand() -> None:
    # 36 − 1/2 in of 21 in are 2 × 3 squares: two strips of four, 18 in, are bought, and 1/2 in.
    assert inches(squares({"have": "1 yd", "width": "21 in", "fabric": "Rust"})) == (Fraction(37, 2), 0)
