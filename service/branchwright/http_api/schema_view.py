"""Reading a published JSON Schema at one place of one document: which members exist there, what is allowed.

Only the part of JSON Schema that pydantic writes is understood: ``$ref``, ``anyOf``, ``oneOf``, ``allOf``,
``discriminator``, ``properties``, ``items``, ``prefixItems``, ``additionalProperties``, ``enum``, ``const``
and the bounds.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Final, TypeAlias, cast

Schema: TypeAlias = Mapping[str, object]

_TYPE_NAMES: Final[Mapping[str, str]] = {
    "number": "a number",
    "integer": "a whole number",
    "string": "text",
    "boolean": "true or false",
    "array": "a list",
    "object": "an object",
}
_BOUNDS: Final = (
    ("minimum", "at least {}"),
    ("exclusiveMinimum", "more than {}"),
    ("maximum", "at most {}"),
    ("exclusiveMaximum", "less than {}"),
    ("multipleOf", "a multiple of {}"),
    ("minLength", "at least {} characters long"),
    ("maxLength", "at most {} characters long"),
    ("minItems", "at least {} long"),
    ("maxItems", "at most {} long"),
    ("pattern", "matching {}"),
    ("format", "in the format {}"),
)


class SchemaView:
    """A place in a JSON Schema, seen together with the value that was given there.

    A place may have several alternatives (a union). Where the value's own tag chooses one, ``tag`` holds
    that tag and the others are left out.
    """

    tag: str | None

    def __init__(self, root: Schema, value: object, alternatives: Sequence[Schema] | None = None) -> None:
        """Stand at ``root``, or at ``alternatives`` of it, with the value given there."""
        self.tag = None
        self._root = root
        self._value = value
        self._alternatives = [
            concrete
            for alternative in ([root] if alternatives is None else alternatives)
            for concrete in self._resolve(alternative)
        ]

    def at(self, token: str | int, value: object) -> SchemaView:
        """The place one step deeper, a member by name or an item by index, with the value given there."""
        deeper: list[Schema] = []
        for schema in self._alternatives:
            if isinstance(token, int):
                prefix = cast("Sequence[Schema]", schema.get("prefixItems", ()))
                found = prefix[token] if token < len(prefix) else schema.get("items")
            else:
                found = _members(schema).get(token, schema.get("additionalProperties"))
            if isinstance(found, Mapping):
                deeper.append(cast("Schema", found))
        return SchemaView(self._root, value, deeper)

    def member_names(self) -> list[str]:
        """The names that an object may have here, in the order of the schema."""
        return list(dict.fromkeys(name for schema in self._alternatives for name in _members(schema)))

    def values(self) -> list[str]:
        """The values of a closed list, as text; empty where the list is not closed."""
        return list(dict.fromkeys(value for schema in self._alternatives for value in _closed_list(schema)))

    def allowed(self) -> list[str]:
        """What is allowed here: the values of a closed list, then one phrase per type with its bounds."""
        phrases = [phrase for schema in self._alternatives if (phrase := _phrase(schema)) is not None]
        return list(dict.fromkeys([*self.values(), *phrases]))

    def _resolve(self, schema: Schema) -> Iterator[Schema]:
        """The schemas without ``$ref`` and unions that could be meant for the value."""
        reference = schema.get("$ref")
        if isinstance(reference, str):
            yield from self._resolve(self._follow(reference))
            return
        chosen = self._chosen_by_tag(schema)
        if chosen is not None:
            yield from self._resolve(chosen)
            return
        branches = [
            branch
            for keyword in ("anyOf", "oneOf", "allOf")
            for branch in cast("Sequence[Schema]", schema.get(keyword, ()))
        ]
        if not branches:
            yield schema
        for branch in branches:
            yield from self._resolve(branch)

    def _chosen_by_tag(self, schema: Schema) -> Schema | None:
        """The branch of a tagged union that the value names, or None."""
        discriminator = schema.get("discriminator")
        if not isinstance(discriminator, Mapping) or not isinstance(self._value, dict):
            return None
        tagged = cast("Mapping[str, object]", discriminator)
        tag = cast("dict[str, object]", self._value).get(str(tagged["propertyName"]))
        mapping = cast("Mapping[str, str]", tagged.get("mapping", {}))
        if not isinstance(tag, str) or tag not in mapping:
            return None
        self.tag = tag
        return self._follow(mapping[tag])

    def _follow(self, reference: str) -> Schema:
        schema: Schema = self._root
        for token in reference.removeprefix("#/").split("/"):
            schema = cast("Schema", schema[token])
        return schema


def _members(schema: Schema) -> Mapping[str, Schema]:
    return cast("Mapping[str, Schema]", schema.get("properties", {}))


def _closed_list(schema: Schema) -> list[str]:
    if "const" in schema:
        return [_as_text(schema["const"])]
    return [_as_text(value) for value in cast("Sequence[object]", schema.get("enum", ()))]


def _phrase(schema: Schema) -> str | None:
    """The type with its bounds, as in 'a number, at least 0'; None without a type or for a closed list."""
    name = schema.get("type")
    if not isinstance(name, str) or "const" in schema or "enum" in schema:
        return None
    bounds = [form.format(_as_text(schema[keyword])) for keyword, form in _BOUNDS if keyword in schema]
    return ", ".join([_TYPE_NAMES.get(name, name), *bounds])


def _as_text(value: object) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, float) and value.is_integer():
        return str(int(value))
    return str(value)
