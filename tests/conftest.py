"""The small calculators and their runner as fixtures: `small` is the module, `bench` a runner that counts."""

import importlib.util
import sys
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

HELPER = Path(__file__).with_name("small_calculators.py")


def load_helper() -> ModuleType:
    name = "boltend_tests_small_calculators"
    if name not in sys.modules:
        spec = importlib.util.spec_from_file_location(name, HELPER)
        assert spec is not None
        assert spec.loader is not None
        module = importlib.util.module_from_spec(spec)
        sys.modules[name] = module
        spec.loader.exec_module(module)
    return sys.modules[name]


@pytest.fixture
def small() -> Any:
    return load_helper()


@pytest.fixture
def bench(small: Any) -> Any:
    return small.Bench()
