"""Imports of what computes, put off until the first question."""

from collections.abc import Callable, Mapping
from importlib import import_module


def when_asked(package: str, modules: Mapping[str, str]) -> Callable[[str], object]:
    """Return the `__getattr__` of a package, which imports the module of a name when it is first asked for.

    Facts and answers are what the contract is made of, and every start needs them. What computes, and numpy with it,
    takes longer to import than they do, and waits for the first question.
    """

    def found(name: str) -> object:
        if name not in modules:
            raise AttributeError(f"module {package!r} has no attribute {name!r}")
        value: object = getattr(import_module(f"{package}.{modules[name]}"), name)
        return value

    return found
