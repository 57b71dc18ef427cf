"""The committed document is valid, and what it shows works: each example gets the answer that it describes."""

import pytest
from openapi_spec_validator import OpenAPIV31SpecValidator
from tests.contract.document import DESIGN, DOCUMENT, OPERATIONS, QUESTIONS, REVIEW, conforms, errors

SHOWN = [
    pytest.param(operation, body, id=f"{operation.name}-{name}")
    for operation in QUESTIONS
    for name, body in operation.body_examples.items()
]


def test_the_committed_document_is_valid_openapi_3_1():
    assert DOCUMENT["openapi"].startswith("3.1.")
    assert [error.message for error in OpenAPIV31SpecValidator(DOCUMENT).iter_errors()] == []


@pytest.mark.parametrize("operation", QUESTIONS, ids=lambda operation: operation.name)
def test_every_question_shows_an_example(operation):
    assert operation.body_examples


@pytest.mark.parametrize(("operation", "body"), SHOWN)
def test_every_example_of_a_body_is_answered_as_described(client, operation, body):
    assert errors(operation.body_schema, body) == []
    conforms(operation, 200, client.post(operation.path, json=body))


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
