"""The examples in docstrings are run, on every floor; each calculation has one."""

import doctest
import importlib
import importlib.util
import pkgutil
from types import ModuleType

import pytest

import branchwright
from branchwright import calculations, findings, quantities
from branchwright.calculations.calculation import Calculation

MODULES = [
    importlib.import_module(f"{package.__name__}.{module.name}")
    for package in (quantities, findings, calculations)
    for module in pkgutil.iter_modules(package.__path__)
]

WITH_EXAMPLES = [
    importlib.import_module(module.name)
    for module in pkgutil.walk_packages(branchwright.__path__, "branchwright.")
    if ">>> " in (importlib.util.find_spec(module.name).loader.get_source(module.name) or "")
]


class CalculationFinder(doctest.DocTestFinder):
    """Finds the docstrings of calculations too, which are objects and not functions."""

    def _find(self, tests, obj, name, module, source_lines, globs, seen):
        super()._find(tests, obj, name, module, source_lines, globs, seen)
        if isinstance(obj, ModuleType):
            for inner, value in vars(obj).items():
                if isinstance(value, Calculation):
                    self._find(tests, value.value, f"{name}.{inner}", module, source_lines, globs, seen)


@pytest.mark.parametrize(
    "module", WITH_EXAMPLES, ids=lambda module: module.__name__.removeprefix("branchwright.")
)
def test_the_examples_in_docstrings_hold(module: ModuleType) -> None:
    runner = doctest.DocTestRunner()
    for found in CalculationFinder(exclude_empty=False).find(module):
        runner.run(found)
    result = runner.summarize(verbose=False)
    assert (result.failed, result.attempted > 0) == (0, True)


def test_every_calculation_has_an_example() -> None:
    for module in MODULES:
        for name, value in vars(module).items():
            if isinstance(value, Calculation):
                examples = [line for line in (value.__doc__ or "").splitlines() if ">>> " in line]
                assert any(f"{name}(" in line for line in examples), f"{module.__name__}.{name}"
