"""For the tests of a plugin.

`work` works a calculator out from texts, as a person would type them:

    worked = work(binding, width="60 in", height="72 in", strip_width="2 1/2 in")
    assert worked.found["strips"] == 7

`check` holds a calculator against the whole contract, with givens that hypothesis draws around an example
(`pip install hypothesis`):

    def test_the_contract() -> None:
        check(binding, width="60 in", height="72 in")

`load` brings the calculators of an installed plugin through the real door, or says why they stay out:

    assert "binding" in load("my-distribution")
"""

from boltend.testing.door import load
from boltend.testing.subject import Subject, check
from boltend.testing.worked import Worked, work

__all__ = ["Subject", "Worked", "check", "load", "work"]
