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
_TAKEN = ("self", "request", "models", "source")  # names that the generated methods use themselves
_JSON = "application/json"


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
class OtherBody:
    """A form of an operation's body beside JSON, which becomes a method of its own: it takes bytes or a file."""

    media_type: str
    method: str
    documentation: str
    description: str
    arguments: tuple[Argument, ...]


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
    other_bodies: tuple[OtherBody, ...]


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
    names = [
        f"{operation.resource}.{method}"
        for operation in operations
        for method in (operation.method, *(body.method for body in operation.other_bodies))
    ]
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
        _require_name(client, key, "x-client")
    if not stated.get("summary"):
        raise RefusedError("a summary is needed: it becomes the docstring")
    arguments = [_parameter(parameter, schemas) for parameter in parameters]
    in_path = {argument.wire_name for argument in arguments if argument.place == "path"}
    if in_path != set(re.findall(r"{([^}]*)}", path)):
        raise RefusedError(f"the path names other parameters than those declared: {sorted(in_path)}")
    request = None
    other_bodies: tuple[OtherBody, ...] = ()
    if "requestBody" in stated:
        content = dict(stated["requestBody"].get("content", {}))
        if "bodies" in client:
            other_bodies = _other_bodies(client["bodies"], content, stated, arguments)
            # What JSON says itself, a body of another form has beside it, in the query.
            arguments = [argument for argument in arguments if argument.place != "query"]
            content = {media_type: content[media_type] for media_type in content if media_type == _JSON}
        request = _named_object(content, "the request body", schemas)
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
        arguments=_required_first(arguments),
        request=request,
        answer=_named_object(responses[good[0]].get("content", {}), "the answer", schemas),
        other_bodies=other_bodies,
    )


def _other_bodies(
    named: Schema, content: Schema, stated: Schema, arguments: list[Argument]
) -> tuple[OtherBody, ...]:
    """Return the forms beside JSON, each with its method and the parameters that x-client gives to it."""
    if set(named) != set(content) - {_JSON}:
        raise RefusedError(f"x-client.bodies names {sorted(named)}, the request body has {sorted(content)}")
    by_name = {argument.wire_name: argument for argument in arguments}
    bodies: list[OtherBody] = []
    method = stated["x-client"]["method"]
    for media_type, client in named.items():
        _require_name(client, "method", f"x-client.bodies.{media_type}")
        parameters = client.get("parameters", [])
        if unknown := set(parameters) - set(by_name):
            raise RefusedError(f"x-client.bodies.{media_type} names unknown parameters: {sorted(unknown)}")
        schema = content[media_type].get("schema", {})
        if schema.get("type") != "string" or not schema.get("description"):
            raise RefusedError(f"the request body as {media_type} must be a described string")
        bodies.append(
            OtherBody(
                media_type=media_type,
                method=client["method"],
                documentation=f"{stated['summary']}\n\nAsks what `{method}` asks, with a body of {media_type}.",
                description=f"{schema['description']} Bytes, or the path of a file that holds them.",
                arguments=_required_first(by_name[name] for name in parameters),
            )
        )
    return tuple(bodies)


def _required_first(arguments: Iterable[Argument]) -> tuple[Argument, ...]:
    return tuple(sorted(arguments, key=lambda argument: not argument.required))


def _require_name(client: Schema, key: str, where: str) -> None:
    name = client.get(key)
    if not isinstance(name, str) or not name.isidentifier() or keyword.iskeyword(name):
        raise RefusedError(f"{where}.{key} must be a Python name, not {name!r}")


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
    if place == "query":
        name = name.replace("-", "_")
    if not name.isidentifier() or name in _TAKEN:
        raise RefusedError(f"{wire_name!r} cannot be the name of a keyword argument")
    try:
        annotation = _annotation(schema, schemas)
    except RefusedError as refusal:
        raise RefusedError(f"{wire_name}: {refusal}") from None
    if not required:
        # No query can say null: None leaves the parameter out.
        absent = ["Omitted", "None"] if place == "query" else ["Omitted"]
        annotation = _union([*annotation.split(" | "), *absent])
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
        case {"type": "string", "format": "decimal"}:
            return "Decimal | str"
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
