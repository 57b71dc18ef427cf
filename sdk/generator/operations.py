"""Reads the operations of an OpenAPI 3.1 document, and refuses what the SDK cannot express."""

# A JSON document has no static type:
# pyright: reportUnknownVariableType=false, reportUnknownArgumentType=false, reportMatchNotExhaustive=false

from __future__ import annotations

import keyword
import re
from collections.abc import Iterable
from dataclasses import dataclass

from sides import PREFIX, Schema, closed, opened

_VERBS = ("get", "put", "post", "delete", "options", "head", "patch", "trace")
_SCALARS = {"string": "str", "number": "float", "integer": "int", "boolean": "bool", "null": "None"}
_TAKEN = ("self", "request", "models")  # names that the generated methods use themselves


class RefusedError(Exception):
    """The document says something that the SDK cannot express; the message says where and what."""


@dataclass(frozen=True)
class Argument:
    """One keyword argument of a method: its Python name, its name on the wire, and where it travels."""

    name: str
    wire_name: str
    annotation: str
    required: bool
    place: str
    description: str


@dataclass(frozen=True)
class Operation:
    """One operation of the document, which becomes one method of a resource."""

    resource: str
    method: str
    verb: str
    path: str
    documentation: str
    arguments: tuple[Argument, ...]
    request: str | None
    answer: str


@dataclass(frozen=True)
class Contract:
    """The operations in the document's order, and the schemas of either side by name."""

    operations: tuple[Operation, ...]
    asked: dict[str, Schema]
    answered: dict[str, Schema]


def read(document: Schema) -> Contract:
    """Return what the SDK is made from. Raises RefusedError for what cannot be expressed."""
    if not str(document.get("openapi")).startswith("3.1."):
        raise RefusedError(f"openapi is {document.get('openapi')!r}, and only 3.1 is understood")
    schemas: dict[str, Schema] = document.get("components", {}).get("schemas", {})
    operations: list[Operation] = []
    asked: set[str] = set()
    for path, item in document.get("paths", {}).items():
        for verb in (verb for verb in _VERBS if verb in item):
            where = f"{verb.upper()} {path}"
            try:
                stated = item[verb]
                parameters = [*item.get("parameters", []), *stated.get("parameters", [])]
                asked |= _reached([parameters, stated.get("requestBody")], schemas)
                operations.append(_operation(verb, path, stated, parameters, schemas))
            except RefusedError as refusal:
                raise RefusedError(f"{where}: {refusal}") from None
    names = [f"{operation.resource}.{operation.method}" for operation in operations]
    if repeated := _repeated(names):
        raise RefusedError(f"more than one operation is named {repeated}")
    answered = _reached([{"$ref": PREFIX + operation.answer} for operation in operations], schemas)
    for name in sorted(asked & answered):
        if "properties" in schemas[name] or "enum" in schemas[name] or "const" in schemas[name]:
            raise RefusedError(
                f"schema {name} is both asked and answered: requests are closed and answers open, "
                "so each side needs its own"
            )
    return Contract(
        tuple(operations),
        {name: closed(schema) for name, schema in schemas.items() if name in asked},
        opened({name: schema for name, schema in schemas.items() if name in answered}),
    )


def _operation(verb: str, path: str, stated: Schema, parameters: list[Schema], schemas: Schema) -> Operation:
    client = stated.get("x-client", {})
    for key in ("resource", "method"):
        name = client.get(key)
        if not isinstance(name, str) or not name.isidentifier() or keyword.iskeyword(name):
            raise RefusedError(f"x-client.{key} must be a Python name, not {name!r}")
    if not stated.get("summary"):
        raise RefusedError("a summary is needed: it becomes the docstring")
    arguments = [_parameter(parameter, schemas) for parameter in parameters]
    in_path = {argument.wire_name for argument in arguments if argument.place == "path"}
    if in_path != set(re.findall(r"{([^}]*)}", path)):
        raise RefusedError(f"the path names other parameters than those declared: {sorted(in_path)}")
    request = None
    if "requestBody" in stated:
        request = _named_object(stated["requestBody"].get("content", {}), "the request body", schemas)
        arguments += _fields(schemas[request], schemas)
    if repeated := _repeated(argument.name for argument in arguments):
        raise RefusedError(f"more than one argument is named {repeated}")
    responses = stated.get("responses", {})
    good = [status for status in responses if str(status).startswith("2")]
    if len(good) != 1:
        raise RefusedError(f"one 2xx answer is needed, not {len(good)}")
    return Operation(
        resource=client["resource"],
        method=client["method"],
        verb=verb.upper(),
        path=path,
        documentation="\n\n".join(filter(None, [stated["summary"], stated.get("description")])),
        arguments=tuple(sorted(arguments, key=lambda argument: not argument.required)),
        request=request,
        answer=_named_object(responses[good[0]].get("content", {}), "the answer", schemas),
    )


def _parameter(parameter: Schema, schemas: Schema) -> Argument:
    name, place = parameter.get("name", ""), parameter.get("in", "")
    if place not in ("path", "query"):
        raise RefusedError(f"parameter {name!r} is in {place!r}, and only path and query are understood")
    schema = {**parameter.get("schema", {}), "description": parameter.get("description", "")}
    return _argument(name, schema, place, bool(parameter.get("required")), schemas)


def _fields(request: Schema, schemas: Schema) -> list[Argument]:
    required = request.get("required", [])
    fields = request["properties"].items()
    return [_argument(name, schema, "body", name in required, schemas) for name, schema in fields]


def _argument(wire_name: str, schema: Schema, place: str, required: bool, schemas: Schema) -> Argument:
    name = f"{wire_name}_" if keyword.iskeyword(wire_name) else wire_name
    if not name.isidentifier() or name in _TAKEN:
        raise RefusedError(f"{wire_name!r} cannot be the name of a keyword argument")
    try:
        annotation = _annotation(schema, schemas)
    except RefusedError as refusal:
        raise RefusedError(f"{wire_name}: {refusal}") from None
    if not required:
        annotation = _union([*annotation.split(" | "), "Omitted"])
    return Argument(name, wire_name, annotation, required, place, _description(schema, schemas))


def _description(schema: Schema, schemas: Schema) -> str:
    """Return what is said of an argument itself, or else the first paragraph on the object that it takes."""
    match schema:
        case {"description": str(text)} if text:
            return text
        case {"$ref": str(reference)} | {"anyOf": [{"$ref": str(reference)}, {"type": "null"}]}:
            described: str = schemas[reference.removeprefix(PREFIX)].get("description", "")
            return described.split("\n\n")[0]
        case _:
            return ""


def _annotation(schema: Schema, schemas: Schema) -> str:
    """Return the type of an argument; for an object, its model or the mapping of the same shape."""
    match schema:
        case {"$ref": str(reference)}:
            name = reference.removeprefix(PREFIX)
            return f"models.{name} | mappings.{name}" if "properties" in schemas[name] else f"models.{name}"
        case {"anyOf": choices} | {"oneOf": choices}:
            return _union(_annotation(choice, schemas) for choice in choices)
        case {"const": value}:
            return f"Literal[{value!r}]"
        case {"enum": [*values]}:
            return f"Literal[{', '.join(map(repr, values))}]"
        case {"type": [*types]}:
            return _union(_annotation({**schema, "type": one}, schemas) for one in types)
        case {"type": "array", "items": dict(items)}:
            return f"Sequence[{_annotation(items, schemas)}]"
        case {"type": "object", "additionalProperties": dict(values)} if values:
            return f"Mapping[str, {_annotation(values, schemas)}]"
        case {"type": "object"} if "properties" not in schema:
            return "Mapping[str, object]"
        case {"type": str(name)} if name in _SCALARS:
            return _SCALARS[name]
        case _:
            raise RefusedError(f"no Python type for {str(schema)[:100]}")


def _union(types: Iterable[str]) -> str:
    """Return a union without repetitions, None last."""
    return " | ".join(sorted(dict.fromkeys(types), key=lambda name: name == "None"))


def _named_object(content: Schema, what: str, schemas: Schema) -> str:
    match content:
        case {"application/json": {"schema": {"$ref": str(reference)}}} if len(content) == 1:
            name = reference.removeprefix(PREFIX)
            if "properties" in schemas.get(name, {}):
                return name
    raise RefusedError(f"{what} must be application/json alone, a $ref to an object with properties")


def _reached(node: object, schemas: Schema) -> set[str]:
    """Return the names of all schemas that a part of the document refers to, directly or not."""
    reached: set[str] = set()
    waiting = [node]
    while waiting:
        match waiting.pop():
            case {"$ref": str(reference)} if (name := reference.removeprefix(PREFIX)) not in reached:
                if not re.fullmatch("[A-Z][A-Za-z0-9]*", name) or name not in schemas:
                    raise RefusedError(f"{reference} is not the name of a class under {PREFIX}")
                reached.add(name)
                waiting.append(schemas[name])
            case dict() as mapping:
                waiting.extend(mapping.values())
            case list() as items:
                waiting.extend(items)
            case _:
                pass
    return reached


def _repeated(names: Iterable[str]) -> str:
    listed = list(names)
    return ", ".join(sorted({name for name in listed if listed.count(name) > 1}))
