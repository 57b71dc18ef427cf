"""A request with one field changed, by JSON pointer."""

from typing import Any, TypeVar, cast

from pydantic import BaseModel

Model = TypeVar("Model", bound=BaseModel)


def changed(request: Model, pointer: str, value: Any) -> Model:
    """Return the request with the field at a pointer set to a value of that field's own type."""
    changed_request: Model = _set(request, pointer.split("/")[1:], value)
    return changed_request


def stated(request: BaseModel, pointer: str) -> Any:
    """Return what the request has at a pointer; None where the way there is not stated."""
    here: Any = request
    for part in pointer.split("/")[1:]:
        if here is None:
            return None
        here = cast("Any", here)[int(part)] if isinstance(here, tuple) else getattr(here, part)
    return here


def _set(here: Any, path: list[str], value: Any) -> Any:
    head, rest = path[0], path[1:]
    if isinstance(here, tuple):
        place = int(head)
        inner = _set(here[place], rest, value) if rest else value
        return (*here[:place], inner, *here[place + 1 :])
    inner = _set(getattr(here, head), rest, value) if rest else value
    return here.model_copy(update={head: inner})
