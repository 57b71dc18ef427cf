"""The committed OpenAPI document as tests read it: its operations, its examples, and validators of its schemas.

Nothing here imports the service: what is published is held against what is answered, never against itself.
"""

import json
import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from jsonschema import Draft202012Validator
from jsonschema_rs import Draft202012Validator as Draft202012QuickValidator
from referencing import Registry, Resource
from referencing.jsonschema import DRAFT202012

Json = dict[str, Any]

JSON = "application/json"
DOCUMENT: Json = json.loads((Path(__file__).parents[2] / "openapi" / "v1.json").read_text(encoding="utf-8"))
_URI = "urn:branchwright:v1"
_REGISTRY: Registry[Any] = Registry().with_resource(
    _URI, Resource.from_contents(DOCUMENT, default_specification=DRAFT202012)
)


@dataclass(frozen=True)
class Operation:
    """One method of one path."""

    method: str
    path: str
    description: Json

    @property
    def name(self) -> str:
        """The operationId."""
        return str(self.description["operationId"])

    @property
    def needs_key(self) -> bool:
        """Whether the document says that a key is asked for."""
        return bool(self.description.get("security"))

    @property
    def statuses(self) -> list[int]:
        """The documented status codes."""
        return [int(status) for status in self.description["responses"]]

    @property
    def body_schema(self) -> Json:
        """The schema of the request body."""
        schema: Json = self.description["requestBody"]["content"][JSON]["schema"]
        return schema

    @property
    def media_types(self) -> list[str]:
        """The forms in which a body may be sent; empty where there is none."""
        return list(self.description.get("requestBody", {}).get("content", {}))

    @property
    def body_examples(self) -> dict[str, Json]:
        """The documented JSON bodies by name; empty where there is no body."""
        return self.examples_in(JSON) if JSON in self.media_types else {}

    def examples_in(self, media_type: str) -> dict[str, Any]:
        """The documented bodies of a form by name: JSON as data, anything else as text."""
        content = self.description["requestBody"]["content"][media_type]
        return {name: example["value"] for name, example in content.get("examples", {}).items()}

    @property
    def example_path(self) -> str:
        """The path with the documented example of each of its parameters."""
        path = self.path
        for parameter in self.description.get("parameters", []):
            if parameter["in"] == "path":
                path = path.replace(f"{{{parameter['name']}}}", parameter["schema"]["examples"][0])
        assert "{" not in path, f"{self.path} has a parameter without an example"
        return path

    def response(self, status: int) -> Json:
        """What the document says of the answer with this status."""
        found: Json = self.description["responses"][str(status)]
        return found


OPERATIONS = {
    operation.name: operation
    for operation in (
        Operation(method, path, description)
        for path, item in DOCUMENT["paths"].items()
        for method, description in item.items()
    )
}
QUESTIONS = [operation for operation in OPERATIONS.values() if operation.method == "post"]
DESIGN, REVIEW = OPERATIONS["design_circuit"], OPERATIONS["review_circuit"]


def resolved(schema: Json) -> Json:
    """The schema that a reference stands for, or the schema itself."""
    while "$ref" in schema:
        schema = DOCUMENT["components"]["schemas"][schema["$ref"].removeprefix("#/components/schemas/")]
    return schema


def fits(reference: str, instance: object) -> bool:
    """Whether an instance fits the schema that a reference names, by the quicker of two validators."""
    return bool(_quick_validator(reference).is_valid(instance))


def errors(schema: Json, instance: object) -> list[str]:
    """What jsonschema (draft 2020-12, the dialect of OpenAPI 3.1) finds wrong with an instance.

    A second validator, which is a hundred times as fast, is asked first: most instances are valid.
    """
    if set(schema) == {"$ref"} and fits(schema["$ref"], instance):
        return []
    anchored = {**schema, "$ref": _URI + schema["$ref"]} if "$ref" in schema else schema
    validator = Draft202012Validator(anchored, registry=_REGISTRY)
    return [f"{error.json_path}: {error.message}" for error in validator.iter_errors(instance)]


@cache
def _quick_validator(reference: str) -> Draft202012QuickValidator:
    return Draft202012QuickValidator({"$ref": reference, "components": DOCUMENT["components"]})


def conforms(operation: Operation, status: int, answer: Any) -> Any:
    """Assert that an answer is what the document says of this status; return its JSON, None without a body.

    ``answer`` is an httpx response. Required headers, media type and schema are held against the document, and
    numbers must be JSON numbers.
    """
    assert answer.status_code == status, answer.text[:2000]
    described = operation.response(status)
    for name, header in described.get("headers", {}).items():
        if header.get("required"):
            assert name in answer.headers, f"{name} is missing"
            value: Any = answer.headers[name]
            if header["schema"]["type"] == "integer":
                value = int(value)
            assert errors(header["schema"], value) == []
    content = described.get("content")
    if content is None:
        assert answer.content == b""
        return None
    media_type = answer.headers["content-type"].partition(";")[0]
    assert list(content) == [media_type]
    body = json.loads(answer.content, parse_constant=_no_number)
    assert errors(content[media_type]["schema"], body) == []
    assert all(math.isfinite(number) for number in _numbers(body))
    return body


def _no_number(text: str) -> None:
    raise AssertionError(f"{text} is no JSON number")


def _numbers(value: object) -> Iterator[float]:
    match value:
        case bool():
            return
        case int() | float():
            yield value
        case dict():
            for inner in value.values():
                yield from _numbers(inner)
        case list():
            for inner in value:
                yield from _numbers(inner)
