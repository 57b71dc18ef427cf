"""What the OpenAPI document says of every operation alike: problems, headers, the key, the SDK's method."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Final, cast

from branchwright.http_api import problems
from branchwright.http_api.problems import KINDS, Kind, Problem

PROBLEM_REFERENCE: Final = "#/components/schemas/Problem"
SCHEMA_TEMPLATE: Final = "#/components/schemas/{model}"

TITLES_BETWEEN: Final = " | "
"""What stands between the titles of the problems that one status may mean."""

Document = dict[str, Any]
Responses = dict[int | str, dict[str, Any]]

_REQUEST_ID_HEADER: Final[Document] = {
    "X-Request-ID": {
        "description": "The id of this request: the caller's own where one was sent, else a new one.",
        "required": True,
        "schema": {"type": "string", "minLength": 1, "maxLength": 128},
    }
}
_EXTRA_HEADERS: Final[dict[int, Document]] = {
    401: {
        "WWW-Authenticate": {
            "description": "The scheme that is asked for: Bearer.",
            "required": True,
            "schema": {"type": "string"},
        }
    },
    405: {
        "Allow": {
            "description": "The methods that are offered here.",
            "required": True,
            "schema": {"type": "string"},
        }
    },
    429: {
        "Retry-After": {
            "description": "Seconds to wait before the request is repeated.",
            "required": True,
            "schema": {"type": "integer", "minimum": 0},
        }
    },
    503: {
        "Retry-After": {
            "description": "Seconds to wait before the request is repeated.",
            "required": True,
            "schema": {"type": "integer", "minimum": 0},
        }
    },
}
_VALIDATOR_HEADERS: Final[Document] = {
    "ETag": {
        "description": "Strong validator of this very body, for If-None-Match.",
        "required": True,
        "schema": {"type": "string"},
    },
    "Cache-Control": {
        "description": "How long the answer may be kept.",
        "required": True,
        "schema": {"type": "string"},
    },
}
_BOUNDS: Final = frozenset({"minimum", "maximum", "exclusiveMinimum", "exclusiveMaximum", "multipleOf"})
# Kinds are listed by what most operations answer: the first of a status is the one that speaks for it.
_USUAL: Final = {kind.status: kind for kind in reversed(list(KINDS.values()))}


def open_responses(*statuses: int) -> Responses:
    """Responses of an operation without key: the success, and a problem for each status."""
    responses: Responses = {200: {"headers": _REQUEST_ID_HEADER}}
    return responses | {status: _problem(_USUAL[status]) for status in sorted(statuses)}


def question_responses() -> Responses:
    """Responses of ``POST /v1/...``, a JSON question."""
    return open_responses(400, 401, 403, 405, 406, 413, 415, 422, 429, 500, 503)


def many_forms_responses() -> Responses:
    """Responses of a question whose body may also have another form than JSON."""
    return question_responses() | {400: _problem(_USUAL[400], problems.UNREADABLE_BODY)}


def reference_responses(*further: int) -> Responses:
    """Responses of ``GET /v1/...``, what changes only with a release; ``further`` adds statuses."""
    responses = open_responses(401, 403, 405, 406, 429, 500, 503, *further)
    responses[200] = {"headers": _REQUEST_ID_HEADER | _VALIDATOR_HEADERS}
    responses[304] = {
        "description": "The caller already has this very body.",
        "headers": _REQUEST_ID_HEADER | _VALIDATOR_HEADERS,
    }
    return dict(sorted(responses.items(), key=lambda item: int(item[0])))


@dataclass(frozen=True)
class OtherBody:
    """A form of a question's body beside JSON: how it is sent and shown, and the SDK's method for it.

    ``parameters`` are those of the query that mean something for this form.
    """

    media_type: str
    description: str
    examples: Document
    method: str
    parameters: Sequence[str]


def client_method(resource: str, method: str) -> Document:
    """The extension from which the SDK takes its names: ``client.<resource>.<method>``."""
    return {"x-client": {"resource": resource, "method": method}}


def keyed_client_method(resource: str, method: str, other_bodies: Sequence[OtherBody] = ()) -> Document:
    """The same for an operation that needs a key where keys are configured, with the other forms of its body."""
    extension: Document = {**client_method(resource, method), "security": [{"bearer": []}]}
    if other_bodies:
        extension["requestBody"] = {
            "content": {
                body.media_type: {
                    "schema": {"type": "string", "description": body.description},
                    "examples": body.examples,
                }
                for body in other_bodies
            }
        }
        extension["x-client"]["bodies"] = {
            body.media_type: {"method": body.method, "parameters": list(body.parameters)}
            for body in other_bodies
        }
    return extension


def complete(document: Document) -> Document:
    """Add, in place, what operations refer to, and take out what the framework supposes of them."""
    components = document.setdefault("components", {})
    schemas = components.setdefault("schemas", {})
    schema = Problem.model_json_schema(mode="serialization", ref_template=SCHEMA_TEMPLATE)
    schemas |= schema.pop("$defs") | {Problem.__name__: schema}
    # The framework documents its own form of a 422 wherever there is a parameter. A path parameter that is
    # plain text cannot be invalid, and everything else is answered with a problem.
    for name in ("HTTPValidationError", "ValidationError"):
        schemas.pop(name, None)
    for item in document["paths"].values():
        for operation in item.values():
            if "headers" not in operation["responses"].get("422", {"headers": {}}):
                del operation["responses"]["422"]
            if "requestBody" in operation:
                # What is only read was released with null in its parameters, and keeps it.
                for parameter in operation.get("parameters", []):
                    parameter["schema"] = without_null(parameter["schema"])
    components["schemas"] = dict(sorted(schemas.items()))
    components["securitySchemes"] = {
        "bearer": {
            "type": "http",
            "scheme": "bearer",
            "description": "An API key. Needed under /v1 where the service has keys configured.",
        }
    }
    _write_whole_bounds(document)
    return document


def without_null(schema: Document) -> Document:
    """The schema of a parameter without null, which no query can say: it is left out instead."""
    choices: list[Document] = schema.get("anyOf", [])
    if choices[1:] != [{"type": "null"}]:
        return schema
    return choices[0] | {name: value for name, value in schema.items() if name != "anyOf"}


def _write_whole_bounds(node: object) -> None:
    """Write 1.0 as 1 where it bounds a value: the framework turns every bound into a float."""
    if isinstance(node, list):
        for item in cast("list[object]", node):
            _write_whole_bounds(item)
    elif isinstance(node, dict):
        members = cast("dict[str, object]", node)
        for name, value in members.items():
            if name in _BOUNDS and isinstance(value, float) and value.is_integer():
                members[name] = int(value)
            else:
                _write_whole_bounds(value)


def _problem(*kinds: Kind) -> Document:
    return {
        "description": TITLES_BETWEEN.join(kind.title for kind in kinds),
        "headers": _REQUEST_ID_HEADER | _EXTRA_HEADERS.get(kinds[0].status, {}),
        "content": {problems.MEDIA_TYPE: {"schema": {"$ref": PROBLEM_REFERENCE}}},
    }


def rendered(document: Document) -> str:
    """The document as text, the same every time: one space of indent, members in their own order."""
    return json.dumps(document, ensure_ascii=False, indent=1) + "\n"
