"""What a reader replays is what the engine computed: every expression against its function."""

import importlib
import inspect
import math
import pkgutil
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.checks.effort import examples
from tests.checks.replay import evaluate

from branchwright import calculations
from branchwright.calculations.calculation import Calculation
from branchwright.findings import Citation, StepInput

ALL = {
    name: value
    for module in pkgutil.iter_modules(calculations.__path__)
    for name, value in vars(importlib.import_module(f"{calculations.__name__}.{module.name}")).items()
    if isinstance(value, Calculation)
}


def test_the_calculations_are_found() -> None:
    assert {"least_rating_a", "corrected_ampacity_a", "proportional_area_cmil", "fill_percent"} <= set(ALL)


@pytest.mark.parametrize("name", sorted(ALL))
@examples(100)
@given(st.data())
def test_an_expression_agrees_with_its_function(name: str, data: st.DataObject) -> None:
    calculation = ALL[name]
    names = list(inspect.signature(calculation.value).parameters)
    values = {each: data.draw(st.floats(0.01, 10_000), label=each) for each in names}
    expected = evaluate(calculation.expression, dict(values))
    assert isinstance(expected, float)
    # Both round to the same millionth, where the expression says so: what is left is the order of operations.
    assert math.isclose(calculation(**values), expected, rel_tol=1e-12, abs_tol=1e-9)
    cited = Citation("nec-2023", "1.1")
    step = calculation.step(
        "some-step",
        {each: StepInput(value, "1", "request:/somewhere") for each, value in values.items()},
        cited,
        3,
    )
    assert step.value == calculation(**values)
    assert isinstance(step.value, float), "a step's value is a number as JSON knows it, or a name"
    assert (step.id, step.segment, step.citation, step.expression) == (
        "some-step",
        3,
        cited,
        calculation.expression,
    )
    assert step.as_input().origin == "step:some-step"


UNITS = {
    "_a": "A",
    "_v": "V",
    "_c": "degC",
    "_ft": "ft",
    "_in2": "in2",
    "_kw": "kW",
    "_kwh": "kWh",
    "_va": "VA",
    "_w": "W",
    "_wh": "Wh",
    "_ratio": "1",
    "_ohm": "ohm",
    "_cmil": "cmil",
    "_percent": "%",
    "_count": "count",
    "_years": "years",
}
"""Endings of names and the units that they stand for: the convention of `DEVELOPERS.md`."""


@pytest.mark.parametrize("name", sorted(ALL))
def test_a_result_has_the_unit_of_its_name(name: str) -> None:
    assert ALL[name].unit == UNITS["_" + name.rsplit("_", 1)[1]]


@pytest.mark.parametrize("name", sorted(ALL))
def test_a_quantity_is_named_in_words(name: str) -> None:
    assert re.fullmatch(r"[a-z]+(,? [a-z-]+)*", ALL[name].quantity)


@pytest.mark.parametrize(
    "expression, value",
    [
        ("1 + 2 * 3", 7),
        ("(1 + 2) * 3", 9),
        ("2 ^ 3 ^ 2", 512),
        ("-2 ^ 2", -4),
        ("8 / 4 / 2", 1),
        ("7 - 4 - 2", 1),
        ("sqrt(16) + min(3, 1, 2) + max(4, 5)", 10),
        ("floor(2.7) + ceil(2.1) + round(2.6)", 8),
        ("round(1.23456, 2)", 1.23),
        ("a * b_c", 12),
    ],
)
def test_the_evaluator_reads_the_grammar(expression: str, value: float) -> None:
    assert evaluate(expression, {"a": 3.0, "b_c": 4.0}) == value


@pytest.mark.parametrize(
    "expression",
    [
        "",
        "1 +",
        "1 2",
        "a b",
        "(1",
        "1)",
        "unknown",
        "__import__(1)",
        "a.b",
        "1 // 2",
        "min()",
        "lookup(x)",
        "'a'",
    ],
)
def test_the_evaluator_refuses_what_is_outside_the_grammar(expression: str) -> None:
    with pytest.raises(AssertionError):
        evaluate(expression, {"a": 3.0, "b": 4.0})
