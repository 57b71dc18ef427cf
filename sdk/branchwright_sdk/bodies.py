"""From keyword arguments, models, mappings and files to what is sent, or to a clear error before it is."""

from __future__ import annotations

import enum
import json
import math
import os
from collections.abc import Mapping, Sequence
from datetime import date, time
from decimal import Decimal
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final, TypeAlias, cast

from .errors import FieldError, InvalidRequest
from .field_errors import child, field_error, short

if TYPE_CHECKING:
    from pydantic import BaseModel


_MOST_BITS = 1024  # a JSON number is a double for most readers (RFC 8259), so below 2**1024
_LONGEST_DECIMAL = 1_000  # more digits than any amount has; Decimal("1E+999999999") would fill the memory


class Omitted(enum.Enum):
    """The type of OMITTED: an argument that is left out, which is not the same as null."""

    OMITTED = "omitted"


OMITTED: Final = Omitted.OMITTED

Source: TypeAlias = bytes | str | os.PathLike[str]
"""A body that is sent as it is: its bytes, or the path of the file that holds them."""


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
        # By the names on the wire alone: a model may be built with from_, but the service knows only "from".
        request.model_validate_json(content, strict=True, by_alias=True, by_name=False)
    except ValidationError as error:
        details = error.errors(include_url=False)
        raise InvalidRequest.before_sending(*(field_error(detail, body) for detail in details)) from error
    return content


def contents(source: Source) -> bytes:
    """Return the bytes of a body that is sent as it is. Raises InvalidRequest for a file that cannot be read."""
    if isinstance(source, bytes):
        return source
    try:
        return Path(source).read_bytes()
    except (OSError, ValueError, TypeError) as error:  # a name with a null byte, and what is no name
        reason = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
        raise _unsendable("", f"the file cannot be read: {reason}", str(source)) from error


def plain(value: object, pointer: str = "") -> Any:
    """Return a value as JSON knows it: models and mappings as dict, sequences as list, the rest as scalars.

    A model gives the fields that were set. Raises InvalidRequest for what JSON cannot say.
    """
    from pydantic import BaseModel

    match value:
        case enum.Enum():
            return plain(value.value, pointer)
        case int() if value.bit_length() > _MOST_BITS:
            raise _unsendable(pointer, "too large a number", f"an integer of {value.bit_length()} bits")
        case None | bool() | int():
            return value
        case str():
            return _text(value, pointer)
        case float():
            if not math.isfinite(value):
                raise _unsendable(pointer, "not a finite number", str(value))
            # 3.0 is a valid integer in JSON Schema and is written 3 in canonical JSON (RFC 8785).
            return int(value) if value.is_integer() and abs(value) < 2**53 else value
        case Decimal():
            return written(value)
        case date() | time():
            return value.isoformat()
        case BaseModel():
            return plain(value.model_dump(by_alias=True, exclude_unset=True, warnings=False), pointer)
        case Mapping():
            return _fields(cast("Mapping[object, object]", value), pointer)
        case Sequence() if not isinstance(value, (bytes, bytearray)):
            items = cast("Sequence[object]", value)
            return [plain(item, child(pointer, index)) for index, item in enumerate(items)]
        case _:
            raise _unsendable(pointer, f"{type(value).__name__} cannot be sent as JSON", value)


def written(value: Decimal) -> str:
    """Return a decimal without an exponent, as JSON has it; one that cannot be written so is left to be refused."""
    if not value.is_finite() or abs(value.adjusted()) > _LONGEST_DECIMAL:
        return str(value)
    return format(value, "f")


def _fields(mapping: Mapping[object, object], pointer: str) -> dict[str, Any]:
    fields: dict[str, Any] = {}
    for key, item in mapping.items():
        if not isinstance(key, str):
            raise _unsendable(pointer, "the name of a field must be text", key)
        if item is not OMITTED:
            fields[_text(key, pointer)] = plain(item, child(pointer, key))
    return fields


def _text(text: str, pointer: str) -> str:
    try:
        text.encode()
    except UnicodeEncodeError as error:
        raise _unsendable(pointer, "not valid Unicode text (a lone surrogate)", ascii(text)) from error
    return str(text)


def _unsendable(pointer: str, message: str, given: object) -> InvalidRequest:
    return InvalidRequest.before_sending(FieldError(pointer, message, "invalid", short(given)))
