"""The tables of threads and bobbins."""

from boltend_quilting_thread.bobbins import BOBBINS
from boltend_quilting_thread.threads import THREADS


def test_the_tables_are_whole() -> None:
    assert [table.problem() for table in (THREADS, BOBBINS)] == [None, None]
    for table in (THREADS, BOBBINS):
        for name in table.rows:
            assert table.row(name)["source"]
