"""From keyword arguments, models and mappings to the JSON that is sent, or to a clear error before it is."""

from __future__ import annotations

import enum
import json
import math
import re
from collections.abc import Iterable, Mapping, Sequence
from datetime import date, time
from decimal import Decimal
from typing import TYPE_CHECKING, Any, Final, cast

from .errors import FieldError, InvalidRequest

if TYPE_CHECKING:
    from pydantic import BaseModel
    from pydantic_core import ErrorDetails

_LONGEST_GIVEN = 200
_BOUNDS = {
    "ge": "at least",
    "gt": "more than",
    "le": "at most",
    "lt": "less than",
    "min_length": "a length of at least",
    "max_length": "a length of at most",
    "pattern": "text of the form",
    "expected": "",
    "expected_tags": "",
}


class Omitted(enum.Enum):
    """The type of OMITTED: an argument that is left out, which is not the same as null."""

    OMITTED = "omitted"


OMITTED: Final = Omitted.OMITTED


def encoded(request: type[BaseModel], given: object) -> bytes:
    """Return a request as UTF-8 JSON that fits its model, with only the fields that were given.

    Raises InvalidRequest, naming every field that does not fit.
    """
    try:
        body = plain(given)
    except RecursionError as error:
        raise _unsendable("", "nested too deeply, or within itself", None) from error
    content = json.dumps(body, ensure_ascii=False, allow_nan=False).encode()
    from pydantic import ValidationError

    try:
        request.model_validate_json(content, strict=True)
    except ValidationError as error:
        details = error.errors(include_url=False)
        raise InvalidRequest.before_sending(*(_field_error(detail, body) for detail in details)) from error
    return content


def plain(value: object, pointer: str = "") -> Any:
    """Return a value as JSON knows it: models and mappings as dict, sequences as list, the rest as scalars.

    A model gives the fields that were set. Raises InvalidRequest for what JSON cannot say.
    """
    from pydantic import BaseModel

    match value:
        case None | bool() | int():
            return value
        case enum.Enum():
            return plain(value.value, pointer)
        case str():
            return _text(value, pointer)
        case float():
            if not math.isfinite(value):
                raise _unsendable(pointer, "not a finite number", value)
            # 3.0 is a valid integer in JSON Schema and is written 3 in canonical JSON (RFC 8785).
            return int(value) if value.is_integer() and abs(value) < 2**53 else value
        case Decimal():
            return str(value)
        case date() | time():
            return value.isoformat()
        case BaseModel():
            return plain(value.model_dump(by_alias=True, exclude_unset=True, warnings=False), pointer)
        case Mapping():
            return _fields(cast("Mapping[object, object]", value), pointer)
        case bytes() | bytearray():
            raise _unsendable(pointer, "bytes cannot be sent as JSON", value)
        case Sequence():
            items = cast("Sequence[object]", value)
            return [plain(item, f"{pointer}/{index}") for index, item in enumerate(items)]
        case _:
            raise _unsendable(pointer, f"{type(value).__name__} cannot be sent as JSON", value)


def _fields(mapping: Mapping[object, object], pointer: str) -> dict[str, Any]:
    fields: dict[str, Any] = {}
    for key, item in mapping.items():
        if not isinstance(key, str):
            raise _unsendable(pointer, "a field's name must be text", key)
        if item is not OMITTED:
            fields[_text(key, pointer)] = plain(item, _child(pointer, key))
    return fields


def _text(text: str, pointer: str) -> str:
    try:
        text.encode()
    except UnicodeEncodeError as error:
        raise _unsendable(pointer, "not valid Unicode text (a lone surrogate)", ascii(text)) from error
    return str(text)


def _child(pointer: str, key: str | int) -> str:
    return f"{pointer}/{str(key).replace('~', '~0').replace('/', '~1')}"


def _unsendable(pointer: str, message: str, given: object) -> InvalidRequest:
    return InvalidRequest.before_sending(FieldError(pointer, message, "not-json", _short(given)))


def _field_error(error: ErrorDetails, body: object) -> FieldError:
    allowed = _allowed(error.get("ctx", {}))
    given = error["input"]
    message = error["msg"]
    if near := _near_miss(given, allowed):
        message = f"{message}; did you mean {near!r}?"
    is_scalar = isinstance(given, (str, int, float, bool))
    return FieldError(
        _pointer(error["loc"], body), message, error["type"], _short(given) if is_scalar else None, allowed
    )


def _pointer(location: Iterable[str | int], body: object) -> str:
    """Return where an error lies. Pydantic's location also names union variants, which no body holds."""
    steps = list(location)
    pointer = ""
    at = body
    for index, step in enumerate(steps):
        if isinstance(at, dict) and step in at:
            at = cast("dict[str | int, object]", at)[step]
        elif isinstance(at, list) and isinstance(step, int):
            at = cast("list[object]", at)[step]
        elif index < len(steps) - 1 or not isinstance(at, dict):
            continue  # the name of a variant; only as the last step within an object is it a missing field
        pointer = _child(pointer, step)
    return pointer


def _allowed(context: Mapping[str, object]) -> str | None:
    said = [f"{word} {context[key]}".strip() for key, word in _BOUNDS.items() if key in context]
    return ", ".join(said) or None


def _near_miss(given: object, allowed: str | None) -> str | None:
    if not isinstance(given, str) or not allowed:
        return None
    import difflib  # only a failure needs it

    choices = {_folded(choice): choice for choice in re.findall(r"'([^']*)'", allowed)}
    near = difflib.get_close_matches(_folded(given), choices, n=1, cutoff=0.75)
    return choices[near[0]] if near else None


def _folded(text: str) -> str:
    return re.sub(r"[\s_-]", "", text).casefold()


def _short(value: object) -> object:
    return value[:_LONGEST_GIVEN] if isinstance(value, str) else value
