"""The committed document is valid, and what it shows works: each example gets the answer that it describes."""

from collections.abc import Iterator

import pytest
from openapi_spec_validator import OpenAPIV31SpecValidator
from tests.contract.document import DESIGN, DOCUMENT, JSON, OPERATIONS, QUESTIONS, REVIEW, conforms, errors

SHOWN = [
    pytest.param(operation, body, id=f"{operation.name}-{name}")
    for operation in QUESTIONS
    for name, body in operation.body_examples.items()
]
SHOWN_OTHERWISE = [
    pytest.param(operation, media_type, text, id=f"{operation.name}-{media_type}-{name}")
    for operation in QUESTIONS
    for media_type in operation.media_types
    if media_type != JSON
    for name, text in operation.examples_in(media_type).items()
]
# JSON Schema 2020-12 with what OpenAPI 3.1 and this document add to it. A misspelt or foreign word says nothing.
KEYWORDS = {
    *("$ref", "title", "description", "type", "enum", "const", "default", "examples", "format", "pattern"),
    *("properties", "required", "additionalProperties", "items", "prefixItems", "anyOf", "oneOf", "allOf"),
    *("minimum", "maximum", "exclusiveMinimum", "exclusiveMaximum", "multipleOf"),
    *(
        "minLength",
        "maxLength",
        "minItems",
        "maxItems",
        "maxProperties",
        "discriminator",
        "x-known-values",
        "x-enum-varnames",
    ),
}


def test_the_committed_document_is_valid_openapi_3_1():
    assert DOCUMENT["openapi"].startswith("3.1.")
    assert [error.message for error in OpenAPIV31SpecValidator(DOCUMENT).iter_errors()] == []


def words(schema: object) -> Iterator[str]:
    """The keywords of a schema and of the schemas within it."""
    if not isinstance(schema, dict):
        return
    yield from schema
    for keyword in ("properties", "$defs"):
        for inner in schema.get(keyword, {}).values():
            yield from words(inner)
    for keyword in ("items", "additionalProperties"):
        yield from words(schema.get(keyword))
    for keyword in ("anyOf", "oneOf", "allOf", "prefixItems"):
        for inner in schema.get(keyword, []):
            yield from words(inner)


def test_schemas_are_written_in_the_words_of_json_schema():
    """What a validator does not know it passes over: a bound under another name would bind nobody."""
    parameters = [
        parameter["schema"]
        for operation in OPERATIONS.values()
        for parameter in operation.description.get("parameters", [])
    ]
    used = {
        word
        for schema in [*DOCUMENT["components"]["schemas"].values(), *parameters]
        for word in words(schema)
    }
    assert used <= KEYWORDS


@pytest.mark.parametrize("operation", QUESTIONS, ids=lambda operation: operation.name)
def test_every_question_shows_an_example_of_each_form(operation):
    assert all(operation.examples_in(media_type) for media_type in operation.media_types)


@pytest.mark.parametrize(("operation", "body"), SHOWN)
def test_every_example_of_a_body_is_answered_as_described(client, operation, body):
    assert errors(operation.body_schema, body) == []
    conforms(operation, 200, client.post(operation.path, json=body))


@pytest.mark.parametrize(("operation", "media_type", "text"), SHOWN_OTHERWISE)
def test_every_example_of_another_form_is_answered_as_described(client, operation, media_type, text):
    answer = client.post(operation.path, content=text.encode(), headers={"Content-Type": media_type})
    conforms(operation, 200, answer)


def test_there_are_questions_in_other_forms_than_json():
    assert {media_type for operation in QUESTIONS for media_type in operation.media_types} > {JSON}


@pytest.mark.parametrize(
    "operation",
    [operation for operation in OPERATIONS.values() if operation.method == "get"],
    ids=lambda operation: operation.name,
)
def test_every_example_of_a_parameter_is_answered_as_described(client, operation):
    conforms(operation, 200, client.request("GET", operation.example_path))


@pytest.mark.parametrize("body", DESIGN.body_examples.values(), ids=list(DESIGN.body_examples))
def test_the_review_request_of_a_design_is_a_review_request(client, body):
    designed = conforms(DESIGN, 200, client.post(DESIGN.path, json=body))
    assert errors(REVIEW.body_schema, designed["review_request"]) == []
    reviewed = conforms(REVIEW, 200, client.post(REVIEW.path, json=designed["review_request"]))
    assert reviewed["verdict"] != "fail"
