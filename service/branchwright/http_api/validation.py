"""From pydantic's errors to problems in plain words: where, what was given, what is allowed."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final, cast

from pydantic import ValidationError

from branchwright.findings.pointers import escaped
from branchwright.http_api.problems import INVALID_REQUEST, LONGEST_INPUT, InvalidField, ProblemError
from branchwright.http_api.schema_view import Schema, SchemaView
from branchwright.http_api.suggestions import nearest_name, nearest_value

MOST_ERRORS: Final = 50
"""How many places one problem names; a body that is wrong in more places is told so."""

# pydantic's error types, grouped under the codes that this service promises.
_CODES: Final[Mapping[str, str]] = {
    "missing": "missing",
    "union_tag_not_found": "missing",
    "extra_forbidden": "unknown-field",
    "enum": "not-an-allowed-value",
    "literal_error": "not-an-allowed-value",
    "union_tag_invalid": "not-an-allowed-value",
    "greater_than": "out-of-range",
    "greater_than_equal": "out-of-range",
    "less_than": "out-of-range",
    "less_than_equal": "out-of-range",
    "multiple_of": "out-of-range",
    "finite_number": "out-of-range",
    "int_parsing_size": "out-of-range",
    "string_too_short": "wrong-length",
    "string_too_long": "wrong-length",
    "too_short": "wrong-length",
    "too_long": "wrong-length",
    "string_pattern_mismatch": "wrong-format",
    "decimal_parsing": "wrong-format",
    "int_from_float": "wrong-type",
    "int_parsing": "wrong-type",
    "float_parsing": "wrong-type",
    "bool_parsing": "wrong-type",
    "none_required": "wrong-type",
    "value_error": "invalid",
    "assertion_error": "invalid",
}
_NUMBER: Final = re.compile(r"-?\d{1,20}(\.\d{1,20})?", re.ASCII)
_LONGEST_QUOTE: Final = 60
_LARGEST_ECHOED_INTEGER: Final = 2**63
_MOST_LISTED_IN_A_SENTENCE: Final = 4


class _Absent:
    """Stands for a value that was not given, which JSON null is not."""


_ABSENT: Final = _Absent()


@dataclass(frozen=True, slots=True)
class _Detail:
    """The part of one pydantic error that is used here."""

    kind: str
    loc: tuple[str | int, ...]
    context: Mapping[str, object]

    @property
    def code(self) -> str:
        known = _CODES.get(self.kind)
        if known is not None:
            return known
        return "wrong-type" if self.kind.endswith("_type") else "wrong-format"


@dataclass(frozen=True, slots=True)
class _Place:
    """Where an error points to: the path, what was given there, the schema there and of its owner."""

    tokens: tuple[str | int, ...]
    given: object
    view: SchemaView
    owner: SchemaView

    @property
    def name(self) -> str:
        return _cut(str(self.tokens[-1]), _LONGEST_QUOTE) if self.tokens else "the body"


def problem_from(error: ValidationError, data: object, schema: Schema) -> ProblemError:
    """The problem (422) that tells a caller what in a body does not fit.

    Args:
        error: what pydantic raised for the body.
        data: the parsed body.
        schema: the published JSON Schema of the body, ``Model.model_json_schema()``.
    """
    details = [
        _Detail(detail["type"], detail["loc"], detail.get("ctx", {}))
        for detail in error.errors(include_url=False, include_input=False)
    ]
    return _problem(details, data, schema, parameters_in=None)


def parameter_problem(
    details: Sequence[Mapping[str, object]],
    given: Mapping[str, object],
    schema: Schema,
    *,
    parameters_in: str,
) -> ProblemError:
    """The same for parameters, whose places are written ``query:limit`` or ``path:edition``.

    Args:
        details: pydantic's errors, their ``loc`` starting with the kind of parameter.
        given: the parameters as they were sent.
        schema: a JSON Schema with one property for each parameter.
        parameters_in: ``query`` or ``path``.
    """
    found = [
        _Detail(
            str(detail["type"]),
            cast("tuple[str | int, ...]", detail["loc"])[1:],
            cast("Mapping[str, object]", detail.get("ctx", {})),
        )
        for detail in details
    ]
    return _problem(found, given, schema, parameters_in=parameters_in)


def _problem(
    details: Sequence[_Detail], data: object, schema: Schema, *, parameters_in: str | None
) -> ProblemError:
    details = [detail for detail in details if not _counts_faulty_items(detail, data)]
    fields: dict[str, InvalidField] = {}
    for detail in details[:MOST_ERRORS]:
        field = _field(detail, data, schema, parameters_in)
        # The branches of an untagged union each report the same place.
        fields.setdefault(field.pointer, field)
    count = len(details) if len(details) > MOST_ERRORS else len(fields)
    if count == 1:
        (only,) = fields.values()
        where = _cut(only.pointer, _LONGEST_QUOTE) or "the top level"
        summary = f"The request does not fit the schema at {where}: {only.message}"
    else:
        listed = f"the first {len(fields)} are" if len(details) > MOST_ERRORS else "they are"
        summary = f"{count} places in the request do not fit the schema; {listed} listed in errors."
    return ProblemError(INVALID_REQUEST, summary, errors=list(fields.values()))


def _counts_faulty_items(detail: _Detail, data: object) -> bool:
    """Whether a list is long enough and only its faulty items make it seem short: pydantic counts valid ones."""
    if detail.kind != "too_short":
        return False
    here = data
    for part in detail.loc:
        child = _child(here, part)
        here = here if isinstance(child, _Absent) else child
    least = detail.context.get("min_length")
    return isinstance(here, list) and isinstance(least, int) and len(cast("list[object]", here)) >= least


def _field(detail: _Detail, data: object, schema: Schema, parameters_in: str | None) -> InvalidField:
    place = _locate(detail, data, schema)
    allowed = place.owner.member_names() if detail.code == "unknown-field" else place.view.allowed()
    return InvalidField(
        pointer=_pointer(place.tokens, parameters_in),
        message=_message(detail, place, allowed),
        code=detail.code,
        given=_echo(place.given),
        allowed=allowed,
    )


def _locate(detail: _Detail, data: object, schema: Schema) -> _Place:
    """Follow pydantic's ``loc`` through the data.

    ``loc`` also holds parts that are no members: the tags of tagged unions and the names of union branches.
    A part is taken for a member only where the data has it, or where it is the very member that is missing.
    """
    loc = detail.loc
    if detail.kind.startswith("union_tag_"):
        loc = (*loc, str(detail.context["discriminator"]).strip("'"))
    view = owner = SchemaView(schema, data)
    given = data
    tokens: list[str | int] = []
    tag_is_next = view.tag is not None
    for position, part in enumerate(loc):
        if tag_is_next and part == view.tag:
            tag_is_next = False
            continue
        child = _child(given, part)
        is_missing_member = detail.code == "missing" and position == len(loc) - 1
        if isinstance(child, _Absent) and not is_missing_member:
            continue
        owner, given = view, child
        view = view.at(part, given)
        tag_is_next = view.tag is not None
        tokens.append(part)
    return _Place(tuple(tokens), given, view, owner)


def _child(value: object, part: str | int) -> object:
    if isinstance(value, dict):
        return cast("dict[str | int, object]", value).get(part, _ABSENT)
    if isinstance(value, list) and isinstance(part, int):
        items = cast("list[object]", value)
        return items[part] if part < len(items) else _ABSENT
    return _ABSENT


def _pointer(tokens: Sequence[str | int], parameters_in: str | None) -> str:
    shown = [_cut(str(token), LONGEST_INPUT) for token in tokens]
    if parameters_in is not None:
        return f"{parameters_in}:{'/'.join(shown)}"
    return "".join(f"/{escaped(token)}" for token in shown)


def _message(detail: _Detail, place: _Place, allowed: list[str]) -> str:
    given = _described(place.given)
    match detail.code:
        case "missing":
            return f"'{place.name}' is missing."
        case "unknown-field":
            return f"'{place.name}' is not a field here{_ending(_quoted(nearest_name(place.name, allowed)))}"
        case "not-an-allowed-value":
            near = nearest_value(place.given, place.view.values()) if isinstance(place.given, str) else None
            return f"{given} is not one of the allowed values{_ending(_quoted(near))}"
        case "invalid":
            return f"{_cut(str(detail.context.get('error', 'not valid here')), LONGEST_INPUT)}."
        case _:
            near = (
                _unquoted_number(place.given)
                if detail.code == "wrong-type" and _wants_number(allowed)
                else None
            )
            return f"{_needed(allowed)} is needed, {given} was given{_ending(near)}"


def _ending(suggestion: str | None) -> str:
    return f"; did you mean {suggestion}?" if suggestion is not None else "."


def _quoted(text: str | None) -> str | None:
    return None if text is None else f"'{text}'"


def _needed(allowed: list[str]) -> str:
    if not allowed:
        return "another value"
    if len(allowed) > _MOST_LISTED_IN_A_SENTENCE:
        return "one of the allowed values"
    return " or ".join(allowed)


def _wants_number(allowed: list[str]) -> bool:
    return any(phrase.startswith(("a number", "a whole number")) for phrase in allowed)


def _unquoted_number(value: object) -> str | None:
    """The number that a text holds, as in ``"48"`` where ``48`` was meant."""
    return f"{value} without quotation marks" if isinstance(value, str) and _NUMBER.fullmatch(value) else None


def _described(value: object) -> str:
    """The value in a sentence: short values as they are, the rest by their kind."""
    match value:
        case _Absent():
            return "nothing"
        case None:
            return "null"
        case bool():
            return "true" if value else "false"
        case str():
            return f"the text '{_cut(value, _LONGEST_QUOTE)}'"
        case dict():
            return "an object"
        case list():
            return f"a list of {len(cast('list[object]', value))}"
        case _:
            return _cut(str(value), _LONGEST_QUOTE)


def _echo(value: object) -> str | int | float | bool | None:
    """What may come back of a value: scalars as they are, cut; objects and lists only described."""
    match value:
        case None | _Absent():
            return None
        case bool() | float():
            return value
        case int():
            return value if abs(value) < _LARGEST_ECHOED_INTEGER else _cut(str(value), LONGEST_INPUT)
        case str():
            return _cut(value, LONGEST_INPUT)
        case dict():
            return f"an object with {len(cast('dict[str, object]', value))} members"
        case list():
            return f"a list of {len(cast('list[object]', value))} items"
        case _:
            return _cut(str(value), LONGEST_INPUT)


def _cut(text: str, length: int) -> str:
    return text if len(text) <= length else text[: length - 3] + "..."
