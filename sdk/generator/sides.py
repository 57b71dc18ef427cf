"""The two sides of the contract: what callers send is closed, what the service answers is open.

An unknown field or value in a request is an error, found before anything is sent. Within one version the
service may add fields and values to its answers, so answers lose their enums, bounds and closed objects
here, before any model is generated: no addition can break an SDK in use.
"""

# A JSON document has no static type:
# pyright: reportUnknownVariableType=false, reportUnknownArgumentType=false, reportMatchNotExhaustive=false

from __future__ import annotations

from typing import Any

Schema = dict[str, Any]

PREFIX = "#/components/schemas/"
_UNNAMED = ("string", "number", "integer", "boolean", "array")
_CLOSING = {
    *("enum", "const", "x-enum-varnames", "pattern", "minLength", "maxLength", "minimum", "maximum"),
    *("exclusiveMinimum", "exclusiveMaximum", "multipleOf", "minItems", "maxItems", "uniqueItems"),
    *("minProperties", "maxProperties", "discriminator", "default"),
}


def closed(schema: Any) -> Any:
    """Return a request schema whose objects refuse unknown fields."""
    match schema:
        case list():
            return [closed(item) for item in schema]
        case {"properties": dict(properties)}:
            fields = {name: closed(field) for name, field in properties.items()}
            return {"additionalProperties": False, **_plain(schema), "properties": fields}
        case dict():
            return {key: closed(value) for key, value in _plain(schema).items()}
        case _:
            return schema


def exact(schema: Any, python_type: str) -> Any:
    """Return a schema in which every decimal that is sent as text has the Python type of this name."""
    match schema:
        case list():
            return [exact(item, python_type) for item in schema]
        case {"format": "decimal", "type": kind}:
            named = f"{python_type} | None" if "null" in kind else python_type
            return {**schema, "x-python-type": named}
        case dict():
            return {key: exact(value, python_type) for key, value in schema.items()}
        case _:
            return schema


def opened(schemas: dict[str, Schema]) -> dict[str, Schema]:
    """Return answer schemas that also fit fields, values and variants that are added later.

    A union told apart by a tag keeps the tags of its variants and gains one more, for the tags of the future.
    """
    unions = [union for schema in schemas.values() for union in _tagged_unions(schema)]
    result = {name: _open(schema) for name, schema in schemas.items()}
    for union in unions:
        tag = union["discriminator"]["propertyName"]
        for variant in (choice["$ref"].removeprefix(PREFIX) for choice in union["oneOf"]):
            result[variant]["properties"][tag] = schemas[variant]["properties"][tag]
        result[_unknown(tag)] = {
            "description": f"A variant that this version of the SDK does not know, named by its `{tag}`.",
            "type": "object",
            "properties": {tag: {"type": "string"}},
            "required": [tag],
            "additionalProperties": True,
        }
    return result


def _open(schema: Any) -> Any:
    match schema:
        case list():
            return [_open(item) for item in schema]
        case {"discriminator": {"propertyName": tag}, "oneOf": variants}:
            return {"anyOf": [*variants, {"$ref": PREFIX + _unknown(tag)}]}
        case {"properties": dict(properties)}:
            fields = {name: _open(field) for name, field in properties.items()}
            return {**_plain(schema), "properties": fields, "additionalProperties": True}
        case {"enum": [*_]} | {"const": _} if "type" not in schema:
            values = schema.get("enum", [schema.get("const")])
            return {"type": "string"} if all(isinstance(value, str) for value in values) else {}
        case dict():
            return {key: _open(value) for key, value in _plain(schema).items() if key not in _CLOSING}
        case _:
            return schema


def _plain(schema: Schema) -> Schema:
    """Return a schema without title, and "or null" of a scalar or list in its type: fewer invented names."""
    plain = {key: value for key, value in schema.items() if key != "title"}
    match schema.get("anyOf"):
        case [{"type": str(name)} as scalar, {"type": "null"}] if name in _UNNAMED:
            if not {"enum", "const"} & set(scalar):
                del plain["anyOf"]
                return {**scalar, **plain, "type": [name, "null"]}
    return plain


def _tagged_unions(node: Any) -> list[Schema]:
    match node:
        case {"discriminator": {"propertyName": str()}, "oneOf": [*_]}:
            return [node]
        case dict():
            return [union for value in node.values() for union in _tagged_unions(value)]
        case list():
            return [union for value in node for union in _tagged_unions(value)]
        case _:
            return []


def _unknown(tag: str) -> str:
    return f"Unknown{tag.title().replace('_', '')}"
