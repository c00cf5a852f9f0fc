"""What a spool costs: as given, else as the person's own row says."""

from fractions import Fraction as Fr
from typing import Any

import pytest

from boltend.plugin import Cannot, Goods, Price, Table
from boltend.testing import work
from boltend_quilting_thread.bobbins import BOBBINS
from boltend_quilting_thread.piecing import piecing_thread
from boltend_quilting_thread.quilting import quilting_thread
from boltend_quilting_thread.threads import THREADS

OWN = Table(
    "threads", THREADS.columns, {"shop's": {"length": "500 m", "price": "7.50", "source": "invented"}}
)
CASES = {
    "piecing": (piecing_thread, {"seam_length": "100 yd"}),
    "quilting": (quilting_thread, {"width": "60 in", "height": "72 in", "pattern": "other", "path": "60 yd"}),
}


def bought(case: str, **said: Any) -> Goods:
    calculator, given = CASES[case]
    (goods,) = work(calculator, tables=[OWN, BOBBINS], **given, **said).answer.goods
    return goods


@pytest.mark.parametrize("case", CASES)
def test_the_price_that_is_given_speaks_over_the_rows(case: str) -> None:
    assert bought(case, thread="shop's").price_each == Price(Fr(15, 2), "USD")
    goods = bought(case, thread="shop's", price="9")
    assert (goods.price_each, goods.price_given) == (Price(Fr(9), "USD"), "price")
    assert bought(case, spool_length="200 yd").price_each is None
    assert bought(case, spool_length="200 yd", price="4.25").price_each == Price(Fr(17, 4), "USD")


@pytest.mark.parametrize("case", CASES)
def test_a_price_of_a_length_is_refused(case: str) -> None:
    with pytest.raises(Cannot) as refused:
        bought(case, spool_length="200 yd", price="0.10 per metre")
    assert refused.value.given == "price"
