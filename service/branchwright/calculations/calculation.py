"""A calculation: one formula that gives a number to the sizing and a replayable step to the reader."""

from collections.abc import Callable
from typing import Generic, ParamSpec

from branchwright.findings import Citation, Step, StepInput

P = ParamSpec("P")


class Calculation(Generic[P]):
    """A pure function with the expression that a reader replays.

    Calling it gives the value; `step` gives the same value with its inputs, their origins and the expression.
    A test holds every expression against its function.
    """

    def __init__(self, function: Callable[P, float], quantity: str, expression: str, unit: str) -> None:
        """Keep the function and what a reader needs."""
        self.value = function
        self._compute: Callable[..., float] = function
        self.quantity = quantity
        self.expression = expression
        self.unit = unit
        self.__doc__ = function.__doc__
        self.__name__ = function.__name__

    def __call__(self, *args: P.args, **kwargs: P.kwargs) -> float:
        """Return the value."""
        return self.value(*args, **kwargs)

    def step(
        self,
        step_id: str,
        inputs: dict[str, StepInput],
        citation: Citation | None,
        segment: int | None = None,
    ) -> Step:
        """Return the step; the inputs bear the names of the function's parameters, in their order."""
        value = self._compute(*[item.value for item in inputs.values()])
        return Step(step_id, self.quantity, segment, self.expression, inputs, value, self.unit, citation)


def calculation(quantity: str, expression: str, unit: str) -> Callable[[Callable[P, float]], Calculation[P]]:
    """Make a calculation of a function."""

    def wrap(function: Callable[P, float]) -> Calculation[P]:
        return Calculation(function, quantity, expression, unit)

    return wrap
