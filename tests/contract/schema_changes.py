"""How a schema of an OpenAPI 3.1 document may change without breaking those who send or read what it describes.

Schemas are held against each other by one relation: all that may be given is taken. In requests the given is
what the released document lets callers send, and the new one must take it; in answers the given is what the new
document lets the service send, and those who read the released one must be able to take it. Fields that are
added to answers, and variants added to unions that a tag tells apart, are expected by every caller.

Two things break nothing today and are reported all the same: an answer that gets a closed list of values or of
fields, since nothing could be added to it later, and what is said in a way that is not understood here.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

Json = dict[str, Any]

_WORDS = {"null": "null", "boolean": "true or false", "number": "a number", "integer": "a whole number"}
_WORDS |= {"string": "text", "array": "a list", "object": "an object", "anything": "anything"}
# The bounds of each kind: the value where there is no bound, and the sign with which a greater one is stricter.
_BOUNDS: dict[str, tuple[float, int]] = {"minLength": (0, 1), "minItems": (0, 1), "minProperties": (0, 1)}
_BOUNDS |= {name: (float("inf"), -1) for name in ("maxLength", "maxItems", "maxProperties")}
_FORMS = ("pattern", "format", "multipleOf", "uniqueItems")
_OF_A_TYPE = {
    *("enum", "const", *_BOUNDS, *_FORMS, "minimum", "maximum", "exclusiveMinimum", "exclusiveMaximum"),
    *("items", "properties", "required", "additionalProperties"),
}
_SAYING_NOTHING = {
    *("title", "description", "default", "example", "examples", "deprecated", "readOnly", "writeOnly"),
    "discriminator",
}


@dataclass(frozen=True)
class Break:
    """One break: where in the document, and what changed there."""

    place: str
    what: str

    def __str__(self) -> str:
        """The break as a line."""
        return f"{self.place}: {self.what}"


@dataclass(frozen=True)
class _Branch:
    """One alternative of a schema: one JSON type, the name of its component, the tag that tells it apart."""

    type: str
    schema: Json
    name: str | None
    tag: str | None

    @property
    def values(self) -> list[str] | None:
        """The values of a closed list as JSON; None where the list is open."""
        return [_as_json(value) for value in self.schema["enum"]] if "enum" in self.schema else None

    @property
    def words(self) -> str:
        """The alternative in words."""
        name = f" ({self.name})" if self.name else ""
        return f"the variant '{self.tag}'" if self.tag else _WORDS[self.type] + name


class Schemas:
    """Holds what may be given, by the schemas of one document, against what is taken by those of another."""

    def __init__(self, given: Json, taken: Json, *, requests: bool) -> None:
        self._given, self._taken, self._requests = given, taken, requests
        self._side = "request" if requests else "answer"
        self._under_comparison: list[tuple[str, str]] = []

    def breaks(self, place: str, released: Any, new: Any) -> Iterator[Break]:
        """What does not fit between two versions of the schema at a place."""
        if self._requests:
            default, new_default = _default(released), _default(new)
            if default not in (None, new_default):
                yield Break(place, f"the default was {default} and is {stated(new_default)}")
            yield from self._unfit(place, released, new)
        else:
            yield from self._unfit(place, new, released)

    def _unfit(self, place: str, given: Any, taken: Any) -> Iterator[Break]:
        """What may be given and is not taken: for each alternative of the given, by the nearest of the taken."""
        alternatives = list(_branches(taken, self._taken))
        for branch in _branches(given, self._given):
            tried = [
                list(self._differences(place, branch, other))
                for other in alternatives
                if _may_fit(branch, other)
            ]
            is_new_variant = branch.tag and any(other.tag for other in alternatives)
            if tried:
                yield from min(tried, key=len)
            elif self._requests:
                yield Break(place, f"{branch.words} is no longer taken")
            elif not is_new_variant:
                yield Break(place, f"may now be {branch.words}")

    def _differences(self, place: str, given: _Branch, taken: _Branch) -> Iterator[Break]:
        """What of one alternative another does not take."""
        if given.name is None or taken.name is None:
            yield from self._unlike(place, given, taken)
        elif (given.name, taken.name) not in self._under_comparison:
            self._under_comparison.append((given.name, taken.name))
            released = given.name if self._requests else taken.name
            yield from self._unlike(f"{self._side} {released}", given, taken)
            self._under_comparison.pop()

    def _unlike(self, place: str, given: _Branch, taken: _Branch) -> Iterator[Break]:
        yield from self._values(place, given, taken)
        yield from self._limits(place, given.schema, taken.schema)
        if given.type == "array":
            yield from self._unfit(f"{place}[]", given.schema.get("items", {}), taken.schema.get("items", {}))
        if given.type == "object":
            yield from self._fields(place, given.schema, taken.schema)

    def _values(self, place: str, given: _Branch, taken: _Branch) -> Iterator[Break]:
        """Closed lists of values."""
        if taken.values is None:
            if given.values is not None and not self._requests:
                yield Break(place, "the list of its values is closed now")
        elif given.values is None:
            closed = ", ".join(taken.values)
            yield Break(place, f"only {closed} now" if self._requests else f"no longer only {closed}")
        else:
            for value in (value for value in given.values if value not in taken.values):
                yield Break(place, f"{value} is no longer taken" if self._requests else f"may now be {value}")

    def _limits(self, place: str, given: Json, taken: Json) -> Iterator[Break]:
        """Bounds and forms that the taken has and the given does not keep to."""
        for name, (absent, sign) in _BOUNDS.items():
            if sign * taken.get(name, absent) > sign * given.get(name, absent):
                yield self._limit(place, name, given.get(name), taken.get(name))
        for name in _FORMS:
            if taken.get(name, False) not in (False, given.get(name)):
                yield self._limit(place, name, given.get(name), taken[name])
        for name, exclusive, sign in (
            ("minimum", "exclusiveMinimum", 1),
            ("maximum", "exclusiveMaximum", -1),
        ):
            edges = [_edge(schema, name, exclusive, sign) for schema in (given, taken)]
            if edges[1] > edges[0]:
                words = [
                    f"{schema[exclusive]} itself excluded" if exclusive in schema else schema.get(name)
                    for schema in (given, taken)
                ]
                yield self._limit(place, name, *words)

    def _limit(self, place: str, name: str, given: object, taken: object) -> Break:
        released, new = (given, taken) if self._requests else (taken, given)
        return Break(place, f"{name} was {stated(released)} and is {stated(new)}")

    def _fields(self, place: str, given: Json, taken: Json) -> Iterator[Break]:
        """The fields of an object."""
        released, new = (given, taken) if self._requests else (taken, given)
        fields, new_fields = _fields_of(released), _fields_of(new)
        required, new_required = released.get("required", []), new.get("required", [])
        for name, schema in fields.items():
            field = f"{place}.{name}"
            if name not in new_fields:
                yield Break(field, "removed")
                continue
            yield from self.breaks(field, schema, new_fields[name])
            if self._requests and name in new_required and name not in required:
                yield Break(field, "is required now")
            elif not self._requests and name in required and name not in new_required:
                yield Break(field, "may be missing now")
        others, new_others = (schema.get("additionalProperties", True) for schema in (released, new))
        for name in (name for name in new_fields if name not in fields):
            if self._requests and name in new_required:
                yield Break(f"{place}.{name}", "is new and required")
            elif not self._requests and others is False:
                yield Break(f"{place}.{name}", "is new, and no other fields were to be expected")
            elif others is not False and (self._requests or others is not True):
                yield from self.breaks(f"{place}.{name}", others, new_fields[name])
        if others is not False and new_others is False:
            refused, closed = "other fields are refused now", "the list of its fields is closed now"
            yield Break(place, refused if self._requests else closed)
        elif others is False and new_others is not False and not self._requests:
            yield Break(place, "may now have other fields")
        elif others is not False:
            yield from self.breaks(f"{place}.*", others, new_others)


def _branches(
    schema: Any, document: Json, name: str | None = None, tag: str | None = None
) -> Iterator[_Branch]:
    """The alternatives of a schema, references followed, each with one JSON type."""
    if schema is False:
        return
    if schema is True:
        schema = {}
    if "$ref" in schema:
        yield from _branches(followed(schema, document), document, schema["$ref"].rpartition("/")[2], tag)
        return
    choices = [*schema.get("anyOf", []), *schema.get("oneOf", [])]
    tags = {to: value for value, to in schema.get("discriminator", {}).get("mapping", {}).items()}
    for choice in choices:
        reference = choice.get("$ref") if isinstance(choice, dict) else None
        yield from _branches(choice, document, None, tags.get(reference, tag))
    if choices:
        return
    values = [schema["const"]] if "const" in schema else schema.get("enum")
    types = schema.get("type") or ("anything" if values is None else sorted({*map(_type, values)}))
    for one in [types] if isinstance(types, str) else types:
        if values is None:
            yield _Branch(one, schema, name, tag)
        elif fitting := [value for value in values if _is_of(_type(value), one)]:
            yield _Branch(one, {**schema, "enum": fitting}, name, tag)


def _as_json(value: object) -> str:
    """The value as JSON; 60 and 60.0 are one number."""
    return json.dumps(int(value) if isinstance(value, float) and value.is_integer() else value)


def _type(value: object) -> str:
    match value:
        case None:
            return "null"
        case bool():
            return "boolean"
        case int() | float():
            return "integer" if value == int(value) else "number"
        case str():
            return "string"
        case list():
            return "array"
        case _:
            return "object"


def _is_of(given: str, taken: str) -> bool:
    return taken in (given, "anything") or (given, taken) == ("integer", "number")


def _may_fit(given: _Branch, taken: _Branch) -> bool:
    """Whether two alternatives are of one type and, where both have a tag, of one tag."""
    return _is_of(given.type, taken.type) and not (given.tag and taken.tag and given.tag != taken.tag)


def _edge(schema: Json, inclusive: str, exclusive: str, sign: int) -> tuple[float, bool]:
    """A bound of a number, so that a greater one is stricter."""
    edges = [(sign * schema[name], name == exclusive) for name in (inclusive, exclusive) if name in schema]
    return max(edges, default=(float("-inf"), False))


def _fields_of(schema: Json) -> Json:
    """The schemas of the fields that an object may or must have."""
    return {**dict.fromkeys(schema.get("required", []), True), **schema.get("properties", {})}


def _default(schema: Any) -> str | None:
    return json.dumps(schema["default"]) if isinstance(schema, dict) and "default" in schema else None


def stated(value: object) -> str:
    """The value as a sentence names it."""
    return "not set" if value is None else str(value)


def followed(node: Json, document: Json) -> Json:
    """The part of the document that a reference stands for, or the part itself."""
    while "$ref" in node:
        found: Any = document
        for token in node["$ref"].removeprefix("#/").split("/"):
            found = found[token.replace("~1", "/").replace("~0", "~")]
        node = found
    return node


def not_understood(document: Json) -> Iterator[Break]:
    """The places of the document's schemas that this check would pass over."""
    roots = document.get("components", {}).get("schemas", {}).items()
    waiting = [(f"schema {name}", schema) for name, schema in roots]
    waiting += [(place, schema) for place, schema in _inline_schemas(document.get("paths", {}), "paths")]
    while waiting:
        place, schema = waiting.pop(0)
        if isinstance(schema, bool):
            continue
        said = {name for name in schema if not name.startswith("x-")} - _SAYING_NOTHING
        whole = [name for name in ("$ref", "anyOf", "oneOf", "type") if name in schema]
        beside = said - set(whole) - (set() if whole in (["$ref"], ["anyOf"], ["oneOf"]) else _OF_A_TYPE)
        is_typed = "type" in schema or "enum" in schema or "const" in schema
        if len(whole) > 1 or beside or (not whole and said and not is_typed):
            yield Break(place, f"{', '.join(sorted(said))} together are not understood; compare by hand")
        waiting += [(f"{place}.{name}", inner) for name, inner in schema.get("properties", {}).items()]
        waiting += [(place, inner) for word in ("anyOf", "oneOf") for inner in schema.get(word, [])]
        waiting += [(place, schema[word]) for word in ("items", "additionalProperties") if word in schema]


def _inline_schemas(node: Any, place: str) -> Iterator[tuple[str, Json]]:
    """The schemas that stand in the operations themselves."""
    if isinstance(node, list):
        for item in node:
            yield from _inline_schemas(item, place)
    elif isinstance(node, dict):
        for name, inner in node.items():
            if name == "schema":
                yield place, inner
            elif name not in ("example", "examples"):
                yield from _inline_schemas(inner, f"{place} {name}")
