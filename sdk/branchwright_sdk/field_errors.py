"""What pydantic found wrong with a request, in the words that the service uses for the same."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, cast

from .errors import FieldError

if TYPE_CHECKING:
    from pydantic_core import ErrorDetails

_LONGEST_GIVEN = 200
_CODES = {  # patterns of pydantic's error types, the first that fits
    "missing|union_tag_not_found": "missing",
    "extra_forbidden": "unknown-field",
    "literal_error|enum|union_tag_invalid": "not-an-allowed-value",
    "(greater|less)_than(_equal)?|multiple_of|finite_number": "out-of-range",
    "(string_)?too_(short|long)": "wrong-length",
    "string_pattern_mismatch|.*_(parsing|from_.*)": "wrong-format",
    ".*_type": "wrong-type",
    ".*": "invalid",
}
_BOUNDS = {
    "ge": "at least",
    "gt": "more than",
    "le": "at most",
    "lt": "less than",
    "min_length": "a length of at least",
    "max_length": "a length of at most",
    "pattern": "text of the form",
}


def field_error(error: ErrorDetails, body: object) -> FieldError:
    """Return one error of a pydantic ValidationError, which was raised for a body in JSON's own types."""
    context: Mapping[str, object] = error.get("ctx", {})
    location: list[str | int] = list(error["loc"])
    given: object = error["input"]
    if error["type"].startswith("union_tag_"):  # pydantic blames the object; its tag is what is wrong
        tag = str(context["discriminator"]).strip("'")
        location.append(tag)
        given = cast("dict[str, object]", given).get(tag)
    code = next(code for pattern, code in _CODES.items() if re.fullmatch(pattern, error["type"]))
    allowed = _allowed(context)
    near = _near_miss(given, allowed)
    return FieldError(
        pointer=_pointer(location, body),
        message=f"{error['msg']}; did you mean {near!r}?" if near else error["msg"],
        code=code,
        given=None if code == "missing" else short(given),
        allowed=allowed,
    )


def child(pointer: str, key: str | int) -> str:
    """Return the JSON Pointer (RFC 6901) of a field or item of what another points to."""
    return f"{pointer}/{str(key).replace('~', '~0').replace('/', '~1')}"


def short(given: object) -> object:
    """Return a scalar, text cut after 200 characters; of anything else only what it is."""
    if isinstance(given, str):
        return given[:_LONGEST_GIVEN]
    return given if given is None or isinstance(given, (bool, int, float)) else type(given).__name__


def _pointer(location: Sequence[str | int], body: object) -> str:
    """Return where an error lies. Pydantic's location also names union variants, which no body holds."""
    pointer = ""
    at = body
    for index, step in enumerate(location):
        if isinstance(at, dict) and step in at:
            at = cast("dict[str | int, object]", at)[step]
        elif isinstance(at, list) and isinstance(step, int):
            at = cast("list[object]", at)[step]
        elif index < len(location) - 1 or not isinstance(at, dict):
            continue  # the name of a variant; only as the last step within an object is it a missing field
        pointer = child(pointer, step)
    return pointer


def _allowed(context: Mapping[str, object]) -> tuple[str, ...]:
    """Return each value of a closed list, or the bounds in words."""
    listed = str(context.get("expected") or context.get("expected_tags") or "")
    if "'" in listed:
        return tuple(re.findall(r"'([^']*)'", listed))
    if listed:
        return tuple(re.split(", | or ", listed))
    return tuple(f"{words} {context[key]}" for key, words in _BOUNDS.items() if key in context)


def _near_miss(given: object, allowed: Sequence[str]) -> str | None:
    if not isinstance(given, str):
        return None
    import difflib  # only a failure needs it

    choices = {_folded(choice): choice for choice in allowed}
    near = difflib.get_close_matches(_folded(given), choices, n=1, cutoff=0.75)
    return choices[near[0]] if near else None


def _folded(text: str) -> str:
    return re.sub(r"[\s_-]", "", text).casefold()
