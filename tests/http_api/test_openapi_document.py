"""The OpenAPI document is valid, the same every time, and says what the contract promises."""

import json
import os
import re
import subprocess
import sys

import pytest
from openapi_spec_validator import validate

from branchwright import __version__
from branchwright.http_api.openapi import document, render
from branchwright.http_api.problems import KINDS

DOCUMENT = document()
OPERATIONS = {
    operation["operationId"]: (path, method, operation)
    for path, item in DOCUMENT["paths"].items()
    for method, operation in item.items()
}


def test_it_is_valid_openapi_3_1():
    assert DOCUMENT["openapi"].startswith("3.1.")
    validate(DOCUMENT)


def test_it_names_the_service():
    assert DOCUMENT["info"]["title"] == "Branchwright"
    assert DOCUMENT["info"]["version"] == __version__
    assert DOCUMENT["info"]["license"]["identifier"] == "Apache-2.0"
    assert DOCUMENT["components"]["securitySchemes"]["bearer"]["scheme"] == "bearer"


def test_it_does_not_depend_on_hash_order():
    program = "from branchwright.http_api.openapi import render; print(render(), end='')"
    for seed in ("1", "2"):
        environment = {**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": os.pathsep.join(sys.path)}
        text = subprocess.run(
            [sys.executable, "-c", program], env=environment, capture_output=True, check=True
        ).stdout
        assert text.decode() == render()


def test_it_is_plain_text():
    text = render()
    assert text.endswith("}\n")
    assert json.loads(text) == DOCUMENT
    assert "HTTPValidationError" not in text
    assert not re.search(r'"(minimum|maximum|exclusiveM(in|ax)imum)": -?\d+\.0\b', text)


def test_no_model_is_used_in_requests_and_answers():
    assert not [name for name in DOCUMENT["components"]["schemas"] if "-" in name]


def test_the_service_serves_it(client):
    served = client.get("/openapi.json").json()
    assert served["components"]["schemas"]["Problem"] == DOCUMENT["components"]["schemas"]["Problem"]


@pytest.mark.parametrize("name", OPERATIONS)
def test_every_operation_names_its_client_method(name):
    path, method, operation = OPERATIONS[name]
    client = operation["x-client"]
    content = operation.get("requestBody", {}).get("content", {})
    others = set(content) - {"application/json"}
    assert set(client) == {"resource", "method"} | ({"bodies"} if others else set())
    assert set(client.get("bodies", {})) == others
    assert operation["tags"] == [client["resource"]]
    assert operation["summary"]
    assert operation["description"]
    assert operation.get("security") == ([{"bearer": []}] if path.startswith("/v1/") else None)
    del method


@pytest.mark.parametrize("name", OPERATIONS)
def test_every_refusal_is_a_problem(name):
    path, method, operation = OPERATIONS[name]
    statuses = {int(status) for status in operation["responses"]}
    expected = {403, 405, 500}
    if path.startswith("/v1/"):
        expected |= {401, 406, 429, 503}
    if method == "post":
        expected |= {400, 413, 415, 422}
    assert expected <= statuses
    for status in statuses:
        response = operation["responses"][str(status)]
        assert "X-Request-ID" in response["headers"]
        if status >= 400:
            assert response["content"] == {
                "application/problem+json": {"schema": {"$ref": "#/components/schemas/Problem"}}
            }
        extra = {401: {"WWW-Authenticate"}, 405: {"Allow"}, 429: {"Retry-After"}, 503: {"Retry-After"}}
        if status >= 400:
            assert set(response["headers"]) == {"X-Request-ID"} | extra.get(status, set())


def test_every_status_has_its_problem_types():
    assert {kind.status for kind in KINDS.values()} == {
        400,
        401,
        403,
        404,
        405,
        406,
        413,
        415,
        422,
        429,
        500,
        503,
    }


def test_the_problem_model_has_every_member_required():
    schema = DOCUMENT["components"]["schemas"]["Problem"]
    assert schema["required"] == ["type", "title", "status", "detail", "instance", "errors"]
    field = DOCUMENT["components"]["schemas"]["InvalidField"]
    assert field["required"] == ["pointer", "message", "code", "given", "allowed"]
