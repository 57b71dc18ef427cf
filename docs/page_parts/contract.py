"""The endpoints and what their requests hold, from the contract itself."""

import json
from functools import cache
from pathlib import Path
from typing import Any

from page_parts.markdown import blocks, code, long_code, table, words

CONTRACT = Path(__file__).parents[2] / "openapi" / "v1.json"
REFERENCE = "#/components/schemas/"
RANGE = (
    ("exclusiveMinimum", "more than {:g}"),
    ("minimum", "at least {:g}"),
    ("maximum", "at most {:g}"),
    ("minLength", "at least {} characters"),
    ("maxLength", "at most {} characters"),
)

FORMATS = {"decimal": "decimal number as text", "date": "date as text"}

Schema = dict[str, Any]


def operations() -> str:
    """Return every endpoint with the question that it answers and the method of the SDK that asks it."""
    return table(
        ("question", "HTTP", "SDK"),
        [
            (words(operation["summary"]), f"{method.upper()} {long_code(path)}", _client(operation))
            for path, methods in _document()["paths"].items()
            for method, operation in methods.items()
            if "x-client" in operation
        ],
    )


def request_fields() -> str:
    """Return every object that a request may hold, with its fields and what each of them may be."""
    bodies = [
        (path, methods["post"]["requestBody"]["content"]["application/json"]["schema"]["$ref"])
        for path, methods in _document()["paths"].items()
        if "post" in methods
    ]
    objects: list[str] = []
    for _, body in bodies:
        objects += _within(body.removeprefix(REFERENCE), objects)
    asked_at = {body.removeprefix(REFERENCE): path for path, body in bodies}
    return blocks(*[_object(name, asked_at.get(name)) for name in objects])


def query_fields() -> str:
    """Return every field of the query beside a body that is no JSON, with the forms for which it means something."""
    operation = _document()["paths"]["/v1/interval-data"]["post"]
    forms = operation["x-client"]["bodies"]
    return table(
        ("field", "holds", "meaning", "for"),
        [
            (
                long_code(field["name"]),
                _holds(field["schema"]),
                words(field["description"]),
                ", ".join(form for form, body in forms.items() if field["name"] in body["parameters"]),
            )
            for field in operation["parameters"]
            if field["in"] == "query"
        ],
    )


@cache
def _document() -> Schema:
    return dict(json.loads(CONTRACT.read_text("utf-8")))


def _schema(name: str) -> Schema:
    return dict(_document()["components"]["schemas"][name])


def _client(operation: Schema) -> str:
    """Return the method that asks an operation, and those that ask it with a body of another form."""
    client = operation["x-client"]
    methods = [client["method"], *(body["method"] for body in client.get("bodies", {}).values())]
    return ", ".join(code(f"client.{client['resource']}.{method}") for method in methods)


def _within(name: str, known: list[str]) -> list[str]:
    """Return an object's name and those of the objects within it, from the outside in, known ones left out."""
    if name in known:
        return []
    found = [name]
    for field in _schema(name).get("properties", {}).values():
        for inner in _named(field):
            found += _within(inner, [*known, *found])
    return found


def _named(schema: Schema) -> list[str]:
    """Return the names of the objects that a field may hold."""
    if "$ref" in schema:
        return [schema["$ref"].removeprefix(REFERENCE)]
    options = [*schema.get("anyOf", ()), *schema.get("oneOf", ())]
    options += [schema[part] for part in ("items", "additionalProperties") if schema.get(part)]
    return [name for option in options for name in _named(option)]


def _object(name: str, path: str | None) -> str:
    schema = _schema(name)
    required = schema.get("required", ())
    return blocks(
        f"### {name} {{ #{name.lower()} }}",
        f"The body of `POST {path}`: {words(schema['description'])}"
        if path
        else words(schema["description"]),
        table(
            ("field", "holds", "meaning"),
            [
                (
                    long_code(field) + (", required" if field in required else ""),
                    _holds(held),
                    words(_meaning(held)),
                )
                for field, held in schema["properties"].items()
            ],
        ),
    )


def _meaning(schema: Schema) -> str:
    """Return what a field means: its own words, else those of the only object that it may hold."""
    named = _named(schema)
    if "description" in schema or len(named) != 1:
        return str(schema.get("description", ""))
    return str(_schema(named[0])["description"])


def _holds(schema: Schema) -> str:
    """Return what a field may hold, in words."""
    options = [
        option for option in schema.get("anyOf", schema.get("oneOf", ())) if option.get("type") != "null"
    ]
    if options:
        return " or ".join(_holds(option) for option in options)
    if "$ref" in schema:
        name = schema["$ref"].removeprefix(REFERENCE)
        return f"[{name}](#{name.lower()})"
    if "const" in schema or "enum" in schema:
        values = schema.get("enum", [schema.get("const")])
        return ", ".join(code(str(value)) for value in values)
    if schema["type"] == "array":
        least, most = schema.get("minItems", 0), schema.get("maxItems")
        return f"{least} to {most} of {_holds(schema['items'])}"
    if schema.get("additionalProperties"):
        return f"at most {schema['maxProperties']} names, each with {_holds(schema['additionalProperties'])}"
    if schema.get("format") in FORMATS:
        return FORMATS[schema["format"]]
    kind = {"string": "text", "boolean": "true or false", "integer": "whole number"}.get(
        schema["type"], schema["type"]
    )
    bounds = [text.format(schema[key]) for key, text in RANGE if key in schema]
    return ", ".join([kind, *bounds])
