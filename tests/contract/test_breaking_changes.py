"""The contract breaks nothing of what was released; and every kind of break is seen, every addition passes.

The breaks and additions are made in a copy of the released document. Whether the check is sound for schemas is
then held against a JSON Schema validator: where it reports nothing, no value that was valid has become invalid.
"""

import copy
import json
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from tests.contract.breaking_changes import breaking_changes, main
from tests.contract.document import DOCUMENT, Json

OPENAPI = Path(__file__).parents[2] / "openapi"
RELEASES = sorted((OPENAPI / "released").glob("v1-*.json"))
FIRST: Json = json.loads((OPENAPI / "released" / "v1-0.1.0.json").read_text("utf-8"))

Change = Callable[[Json], Any]


def lines(released: Json, new: Json) -> list[str]:
    return [str(one) for one in breaking_changes(released, new)]


def changed(change: Change) -> Json:
    document = copy.deepcopy(FIRST)
    change(document)
    assert document != FIRST, "nothing was changed: a fault of this test"
    return document


def fields(document: Json, name: str) -> Json:
    found: Json = document["components"]["schemas"][name]["properties"]
    return found


def schema(document: Json, name: str) -> Json:
    found: Json = document["components"]["schemas"][name]
    return found


def operation(document: Json, method: str, path: str) -> Json:
    found: Json = document["paths"][path][method]
    return found


def headers(document: Json, path: str, status: int) -> Json:
    found: Json = operation(document, "get", path)["responses"][str(status)]["headers"]
    return found


def without_field(document: Json, name: str, field: str) -> None:
    del fields(document, name)[field]
    if field in schema(document, name).get("required", []):
        schema(document, name)["required"].remove(field)


def parameter(document: Json, path: str, name: str) -> Json:
    (found,) = [one for one in operation(document, "get", path)["parameters"] if one["name"] == name]
    return found


@pytest.mark.parametrize("path", RELEASES, ids=lambda path: path.stem)
def test_nothing_of_a_release_is_broken(path):
    released = json.loads(path.read_text("utf-8"))
    assert f"v1-{released['info']['version']}.json" == path.name
    assert lines(released, DOCUMENT) == []


def test_the_first_release_is_kept():
    assert FIRST["info"]["version"] == "0.1.0"
    assert set(FIRST["paths"]) >= {"/v1/circuit-designs", "/v1/circuit-reviews", "/v1/editions", "/v1/rules"}


def test_a_document_breaks_nothing_of_itself():
    assert lines(FIRST, copy.deepcopy(FIRST)) == []


BREAKS: dict[str, tuple[Change, list[str]]] = {
    "a path is removed": (
        lambda d: d["paths"].pop("/v1/rules"),
        ["GET /v1/rules: removed"],
    ),
    "a path parameter is renamed": (
        lambda d: d["paths"].update({"/v1/rules/{name}": d["paths"].pop("/v1/rules/{rule}")}),
        ["GET /v1/rules/{rule}: removed"],
    ),
    "a method is removed": (
        lambda d: d["paths"]["/v1/editions"].update(post=d["paths"]["/v1/editions"].pop("get")),
        ["GET /v1/editions: removed"],
    ),
    "an operationId changes": (
        lambda d: operation(d, "get", "/v1/rules").update(operationId="rules"),
        ["GET /v1/rules: operationId was list_rules and is rules"],
    ),
    "an operationId is left out": (
        lambda d: operation(d, "get", "/v1/rules").pop("operationId"),
        ["GET /v1/rules: operationId was list_rules and is not set"],
    ),
    "a method of the SDK is renamed": (
        lambda d: operation(d, "get", "/v1/rules")["x-client"].update(method="rules"),
        ["GET /v1/rules: the SDK's method was client.codebook.list_rules and is client.codebook.rules"],
    ),
    "a method of the SDK moves": (
        lambda d: operation(d, "get", "/v1/rules")["x-client"].update(resource="rules"),
        ["GET /v1/rules: the SDK's method was client.codebook.list_rules and is client.rules.list_rules"],
    ),
    "a method of the SDK is removed": (
        lambda d: operation(d, "get", "/v1/rules").pop("x-client"),
        ["GET /v1/rules: the SDK's method was client.codebook.list_rules and is not set"],
    ),
    "a class of the SDK is renamed": (
        lambda d: [
            d["components"]["schemas"].update(State=d["components"]["schemas"].pop("Health")),
            *(
                operation(d, "get", path)["responses"]["200"]["content"]["application/json"].update(
                    schema={"$ref": "#/components/schemas/State"}
                )
                for path in ("/health/live", "/health/ready")
            ),
        ],
        ["schema Health: removed; the SDK has a class of this name"],
    ),
    "a key is asked for": (
        lambda d: operation(d, "get", "/health/live").update(security=[{"bearer": []}]),
        ["GET /health/live: no key was enough, and now bearer is asked for"],
    ),
    "a key is asked for everywhere": (
        lambda d: d.update(security=[{"bearer": []}]),
        [
            "GET /health/live: no key was enough, and now bearer is asked for",
            "GET /health/ready: no key was enough, and now bearer is asked for",
        ],
    ),
    "a second key is asked for": (
        lambda d: operation(d, "get", "/v1/rules").update(security=[{"bearer": [], "other": []}]),
        ["GET /v1/rules: bearer was enough, and now bearer and other is asked for"],
    ),
    "a scope is asked for": (
        lambda d: operation(d, "get", "/v1/rules").update(security=[{"bearer": ["read"]}]),
        ["GET /v1/rules: bearer was enough, and now bearer is asked for"],
    ),
    "keys are sent in another way": (
        lambda d: d["components"]["securitySchemes"].update(
            bearer={"type": "apiKey", "in": "header", "name": "X-Key"}
        ),
        ["security scheme bearer: changed"],
    ),
    "a query parameter is removed": (
        lambda d: operation(d, "get", "/v1/rules").update(parameters=[parameter(d, "/v1/rules", "limit")]),
        ["GET /v1/rules, query parameter after: removed"],
    ),
    "a query parameter becomes required": (
        lambda d: parameter(d, "/v1/rules", "limit").update(required=True),
        ["GET /v1/rules, query parameter limit: is required now"],
    ),
    "a required query parameter is added": (
        lambda d: operation(d, "get", "/v1/rules")["parameters"].append(
            {"name": "check", "in": "query", "required": True, "schema": {"type": "string"}}
        ),
        ["GET /v1/rules, query parameter check: is new and required"],
    ),
    "a required header is asked for on every method of a path": (
        lambda d: d["paths"]["/v1/rules"].update(
            parameters=[{"name": "X-Site", "in": "header", "required": True, "schema": {"type": "string"}}]
        ),
        ["GET /v1/rules, header parameter X-Site: is new and required"],
    ),
    "a query parameter is written in another way": (
        lambda d: parameter(d, "/v1/rules", "after").update(style="pipeDelimited"),
        ["GET /v1/rules, query parameter after: style changed"],
    ),
    "a query parameter is limited": (
        lambda d: parameter(d, "/v1/rules", "limit")["schema"].update(maximum=50),
        ["GET /v1/rules, query parameter limit: maximum was 100 and is 50"],
    ),
    "a default changes": (
        lambda d: parameter(d, "/v1/rules", "limit")["schema"].update(default=50),
        ["GET /v1/rules, query parameter limit: the default was 20 and is 50"],
    ),
    "a default is gone": (
        lambda d: parameter(d, "/v1/rules", "limit")["schema"].pop("default"),
        ["GET /v1/rules, query parameter limit: the default was 20 and is not set"],
    ),
    "a body is no longer taken": (
        lambda d: operation(d, "post", "/v1/circuit-designs").pop("requestBody"),
        ["POST /v1/circuit-designs, request body: removed"],
    ),
    "a body is asked for": (
        lambda d: operation(d, "get", "/v1/rules").update(requestBody={"required": True, "content": {}}),
        ["GET /v1/rules, request body: is required now"],
    ),
    "a body is taken in another form alone": (
        lambda d: operation(d, "post", "/v1/circuit-designs")["requestBody"].update(
            content={"application/cbor": {}}
        ),
        ["POST /v1/circuit-designs, request body as application/json: removed"],
    ),
    "a request field is removed": (
        lambda d: without_field(d, "Charger", "rated_current_a"),
        ["request Charger.rated_current_a: removed"],
    ),
    "a request field becomes required": (
        lambda d: schema(d, "Charger")["required"].append("rated_current_a"),
        ["request Charger.rated_current_a: is required now"],
    ),
    "a required request field is added": (
        lambda d: [
            fields(d, "Charger").update(color={"type": "string"}),
            schema(d, "Charger")["required"].append("color"),
        ],
        ["request Charger.color: is new and required"],
    ),
    "a request field may no longer be null": (
        lambda d: fields(d, "Charger").update(rated_current_a={"type": "number", "maximum": 1000}),
        ["request Charger.rated_current_a: null is no longer taken"],
    ),
    "a value of a request is removed": (
        lambda d: fields(d, "Length")["unit"]["enum"].remove("mm"),
        ['request Length.unit: "mm" is no longer taken'],
    ),
    "a number of a closed list is removed": (
        lambda d: fields(d, "Terminals")["temperature_rating_c"]["anyOf"][0].update(enum=[60, 75]),
        ["request Terminals.temperature_rating_c: 90 is no longer taken"],
    ),
    "the only value of a request is another": (
        lambda d: fields(d, "CircuitDesignRequest")["edition"].update(const="nec-2026"),
        ['request CircuitDesignRequest.edition: "nec-2023" is no longer taken'],
    ),
    "a text of a request becomes a closed list": (
        lambda d: fields(d, "CircuitDesignRequest")["jurisdiction"]["anyOf"][0].update(enum=["CA", "CO"]),
        ['request CircuitDesignRequest.jurisdiction: only "CA", "CO" now'],
    ),
    "a maximum of a request is lowered": (
        lambda d: fields(d, "Charger")["charging_current_a"].update(maximum=200),
        ["request Charger.charging_current_a: maximum was 1000 and is 200"],
    ),
    "a maximum of a request excludes itself": (
        lambda d: [
            fields(d, "Charger")["charging_current_a"].update(exclusiveMaximum=1000),
            fields(d, "Charger")["charging_current_a"].pop("maximum"),
        ],
        ["request Charger.charging_current_a: maximum was 1000 and is 1000 itself excluded"],
    ),
    "a minimum of a request is raised": (
        lambda d: fields(d, "Point")["after_segment"].update(minimum=1),
        ["request Point.after_segment: minimum was 0 and is 1"],
    ),
    "a minimum that excluded itself is raised": (
        lambda d: fields(d, "Charger")["charging_current_a"].update(exclusiveMinimum=1),
        [
            "request Charger.charging_current_a: "
            "minimum was 0 itself excluded and is 1 itself excluded"
        ],
    ),
    "numbers of a request must be multiples": (
        lambda d: fields(d, "Length")["value"].update(multipleOf=0.5),
        ["request Length.value: multipleOf was not set and is 0.5"],
    ),
    "a text of a request is shorter": (
        lambda d: fields(d, "CircuitDesignRequest")["jurisdiction"]["anyOf"][0].update(maxLength=20),
        ["request CircuitDesignRequest.jurisdiction: maxLength was 200 and is 20"],
    ),
    "a text of a request is longer": (
        lambda d: fields(d, "CircuitDesignRequest")["jurisdiction"]["anyOf"][0].update(minLength=2),
        ["request CircuitDesignRequest.jurisdiction: minLength was 1 and is 2"],
    ),
    "a text of a request has a pattern": (
        lambda d: fields(d, "CircuitDesignRequest")["jurisdiction"]["anyOf"][0].update(pattern="^[A-Z]+$"),
        ["request CircuitDesignRequest.jurisdiction: pattern was not set and is ^[A-Z]+$"],
    ),
    "a text of a request has a format": (
        lambda d: fields(d, "CircuitDesignRequest")["jurisdiction"]["anyOf"][0].update(format="uri"),
        ["request CircuitDesignRequest.jurisdiction: format was not set and is uri"],
    ),
    "a list of a request is shorter": (
        lambda d: fields(d, "CircuitDesignRequest")["run"].update(maxItems=5),
        [
            "request CircuitDesignRequest.run: maxItems was "
            f"{fields(FIRST, 'CircuitDesignRequest')['run']['maxItems']} and is 5"
        ],
    ),
    "a list of a request has more": (
        lambda d: fields(d, "CircuitDesignRequest")["run"].update(minItems=2),
        ["request CircuitDesignRequest.run: minItems was 1 and is 2"],
    ),
    "a list of a request has nothing twice": (
        lambda d: fields(d, "CircuitDesignRequest")["run"].update(uniqueItems=True),
        ["request CircuitDesignRequest.run: uniqueItems was not set and is True"],
    ),
    "the items of a list of a request are limited": (
        lambda d: fields(d, "Terminals")["materials"]["anyOf"][0]["items"]["enum"].remove("aluminum"),
        ['request Terminals.materials[]: "aluminum" is no longer taken'],
    ),
    "a request has another type": (
        lambda d: fields(d, "Length").update(value={"type": "string"}),
        ["request Length.value: a number is no longer taken"],
    ),
    "a number of a request must be whole": (
        lambda d: fields(d, "Length")["value"].update(type="integer"),
        ["request Length.value: a number is no longer taken"],
    ),
    "a variant of a request is removed": (
        lambda d: [
            fields(d, "Charger")["connection"]["oneOf"].pop(),
            fields(d, "Charger")["connection"]["discriminator"]["mapping"].pop("receptacle"),
        ],
        ["request Charger.connection: the variant 'receptacle' is no longer taken"],
    ),
    "a variant of a request is limited": (
        lambda d: schema(d, "Receptacle")["required"].append("terminals"),
        ["request Receptacle.terminals: is required now"],
    ),
    "an open object of a request is closed": (
        lambda d: schema(d, "Length").update(additionalProperties=False),
        ["request Length: other fields are refused now"],
    ),
    "an open object of a request limits a name": (
        lambda d: fields(d, "Length").update(note={"type": "string"}),
        ["request Length.note: anything is no longer taken"],
    ),
    "a field must be there that nothing is said of": (
        lambda d: schema(d, "Charger")["required"].append("color"),
        ["request Charger.color: is new and required"],
    ),
    "a status is removed": (
        lambda d: operation(d, "get", "/v1/rules")["responses"].pop("304"),
        ["GET /v1/rules, status 304: removed"],
    ),
    "a header is removed": (
        lambda d: headers(d, "/v1/rules", 200).pop("ETag"),
        ["GET /v1/rules, status 200, header ETag: removed"],
    ),
    "a header may be missing": (
        lambda d: headers(d, "/v1/rules", 429)["Retry-After"].update(required=False),
        ["GET /v1/rules, status 429, header Retry-After: may be missing now"],
    ),
    "a header has another type": (
        lambda d: headers(d, "/v1/rules", 429)["Retry-After"].update(schema={"type": "string"}),
        ["GET /v1/rules, status 429, header Retry-After: may now be text"],
    ),
    "an answer has another form": (
        lambda d: operation(d, "get", "/v1/rules")["responses"]["200"].update(content={"text/csv": {}}),
        ["GET /v1/rules, status 200 as application/json: removed"],
    ),
    "an answer has no body": (
        lambda d: operation(d, "get", "/v1/rules")["responses"]["200"].pop("content"),
        ["GET /v1/rules, status 200 as application/json: removed"],
    ),
    "an answer is another object": (
        lambda d: operation(d, "get", "/v1/rules")["responses"]["200"]["content"]["application/json"].update(
            schema={"type": "array", "items": {"$ref": "#/components/schemas/RuleSummary"}}
        ),
        ["GET /v1/rules, status 200 as application/json: may now be a list"],
    ),
    "a field of answers is removed": (
        lambda d: without_field(d, "Finding", "margin_percent"),
        ["answer Finding.margin_percent: removed"],
    ),
    "a field of answers is renamed": (
        lambda d: [
            fields(d, "RulePage").update(after=fields(d, "RulePage")["next_after"]),
            without_field(d, "RulePage", "next_after"),
        ],
        ["answer RulePage.next_after: removed"],
    ),
    "a field of problems is removed": (
        lambda d: without_field(d, "InvalidField", "allowed"),
        ["answer InvalidField.allowed: removed"],
    ),
    "a field of answers may be missing": (
        lambda d: schema(d, "Finding")["required"].remove("margin_percent"),
        ["answer Finding.margin_percent: may be missing now"],
    ),
    "a field of answers may be null": (
        lambda d: fields(d, "Finding").update(rule={"anyOf": [fields(d, "Finding")["rule"], {"type": "null"}]}),
        ["answer Finding.rule: may now be null"],
    ),
    "an object of answers may be null": (
        lambda d: fields(d, "TableAnswer").update(
            evidence={"anyOf": [fields(d, "TableAnswer")["evidence"], {"type": "null"}]}
        ),
        ["answer TableAnswer.evidence: may now be null"],
    ),
    "a field of answers has another type": (
        lambda d: fields(d, "Finding").update(margin_percent={"type": "string"}),
        ["answer Finding.margin_percent: may now be text"],
    ),
    "a field of answers has one more type": (
        lambda d: fields(d, "Finding")["segment"]["anyOf"].append({"type": "string"}),
        ["answer Finding.segment: may now be text"],
    ),
    "a whole number of answers may have a fraction": (
        lambda d: fields(d, "Finding")["segment"]["anyOf"][0].update(type="number"),
        ["answer Finding.segment: may now be a number"],
    ),
    "a field of answers may be anything": (
        lambda d: fields(d, "Finding").update(message={}),
        ["answer Finding.message: may now be anything"],
    ),
    "the items of a list of answers change": (
        lambda d: fields(d, "RuleAnswer")["interpretations"]["items"].update(type="integer"),
        ["answer RuleAnswer.interpretations[]: may now be a whole number"],
    ),
    "the values of a mapping of answers change": (
        lambda d: fields(d, "ProvisionAnswer")["values"]["additionalProperties"]["anyOf"].append({"type": "null"}),
        ["answer ProvisionAnswer.values.*: may now be null"],
    ),
    "values of answers are a closed list": (
        lambda d: fields(d, "Finding")["outcome"].update(enum=["pass", "fail"]),
        ["answer Finding.outcome: the list of its values is closed now"],
    ),
    "values of answers have one value": (
        lambda d: fields(d, "Health")["status"].update(const="live"),
        ["answer Health.status: the list of its values is closed now"],
    ),
    "fields of answers are a closed list": (
        lambda d: schema(d, "Finding").update(additionalProperties=False),
        ["answer Finding: the list of its fields is closed now"],
    ),
    "a closed object of answers has one more field": (
        lambda d: fields(d, "Health").update(since={"type": "string"}),
        ["answer Health.since: is new, and no other fields were to be expected"],
    ),
    "a closed object of answers is opened": (
        lambda d: schema(d, "Health").pop("additionalProperties"),
        ["answer Health: may now have other fields"],
    ),
    "a field of a mapping of answers is of another type": (
        lambda d: fields(d, "ProvisionAnswer")["values"].update(properties={"note": {"type": "array"}}),
        ["answer ProvisionAnswer.values.note: may now be a list"],
    ),
    "a bound of a header is gone": (
        lambda d: headers(d, "/v1/rules", 429)["Retry-After"]["schema"].pop("minimum"),
        ["GET /v1/rules, status 429, header Retry-After: minimum was 0 and is not set"],
    ),
    "a keyword that is not understood": (
        lambda d: schema(d, "Length").update(dependentRequired={"value": ["unit"]}),
        ["schema Length: additionalProperties, dependentRequired, properties, required, type together are not "
         "understood; compare by hand"],
    ),
    "a bound beside alternatives": (
        lambda d: fields(d, "Charger")["rated_current_a"].update(maximum=10),
        ["schema Charger.rated_current_a: anyOf, maximum together are not understood; compare by hand"],
    ),
}  # fmt: skip
# Some start from a document that the first release is not.
BEFORE: dict[str, Change] = {
    "an open object of a request is closed": lambda d: schema(d, "Length").pop("additionalProperties"),
    "an open object of a request limits a name": lambda d: schema(d, "Length").pop("additionalProperties"),
    "a closed object of answers has one more field": lambda d: schema(d, "Health").update(
        additionalProperties=False
    ),
    "a closed object of answers is opened": lambda d: schema(d, "Health").update(additionalProperties=False),
}


@pytest.mark.parametrize("name", BREAKS)
def test_a_break_is_seen(name):
    change, expected = BREAKS[name]
    before = changed(BEFORE[name]) if name in BEFORE else FIRST
    after = copy.deepcopy(before)
    change(after)
    assert after != before, "nothing was changed: a fault of this test"
    assert lines(before, after) == expected


ADDITIONS: dict[str, Change] = {
    "a path": lambda d: d["paths"].update({"/v1/loads": copy.deepcopy(d["paths"]["/v1/rules"])}),
    "a method": lambda d: d["paths"]["/v1/rules"].update(post=copy.deepcopy(d["paths"]["/v1/circuit-designs"]["post"])),
    "a status": lambda d: operation(d, "get", "/v1/rules")["responses"].update({"410": {"description": "Gone"}}),
    "a header": lambda d: headers(d, "/v1/rules", 200).update(Sunset={"schema": {"type": "string"}}),
    "a header that is always there": lambda d: headers(d, "/v1/rules", 200).update(
        Sunset={"required": True, "schema": {"type": "string"}}
    ),
    "another form of an answer": lambda d: operation(d, "get", "/v1/rules")["responses"]["200"]["content"].update(
        {"text/csv": {}}
    ),
    "another form of a body": lambda d: operation(d, "post", "/v1/circuit-designs")["requestBody"]["content"].update(
        {"application/cbor": {}}
    ),
    "a query parameter": lambda d: operation(d, "get", "/v1/rules")["parameters"].append(
        {"name": "check", "in": "query", "schema": {"type": "string"}}
    ),
    "a body that may be left out": lambda d: operation(d, "get", "/v1/rules").update(
        requestBody={"content": {"application/json": {"schema": {"type": "object"}}}}
    ),
    "no key is asked for": lambda d: operation(d, "get", "/v1/rules").pop("security"),
    "another way to be let in": lambda d: operation(d, "get", "/v1/rules")["security"].append({"other": []}),
    "a request field": lambda d: fields(d, "Charger").update(color={"type": "string", "enum": ["red"]}),
    "a request field that is an object": lambda d: [
        d["components"]["schemas"].update(Color={"type": "object", "additionalProperties": False}),
        fields(d, "Charger").update(color={"$ref": "#/components/schemas/Color"}),
    ],
    "a request field may be left out": lambda d: schema(d, "Charger")["required"].remove("charging_current_a"),
    "a request field may be null": lambda d: fields(d, "Length").update(
        value={"anyOf": [fields(d, "Length")["value"], {"type": "null"}]}
    ),
    "a value of a request": lambda d: fields(d, "Length")["unit"]["enum"].append("yd"),
    "a second value of a request": lambda d: fields(d, "CircuitDesignRequest").update(
        edition={"type": "string", "enum": ["nec-2017", "nec-2020", "nec-2023", "nec-2026"]}
    ),
    "a whole number beside the only one": lambda d: fields(d, "Supply").update(
        phases={"anyOf": [{"type": "integer", "enum": [1, 3]}, {"type": "null"}]}
    ),
    "another spelling of a number": lambda d: fields(d, "Terminals")["temperature_rating_c"]["anyOf"][0].update(
        enum=[60.0, 75.0, 90.0]
    ),
    "a closed list of a request is opened": lambda d: fields(d, "Length")["unit"].pop("enum"),
    "a maximum of a request is raised": lambda d: fields(d, "Charger")["charging_current_a"].update(maximum=2000),
    "a minimum of a request includes itself": lambda d: [
        fields(d, "Length")["value"].pop("exclusiveMinimum"),
        fields(d, "Length")["value"].update(minimum=0),
    ],
    "a text of a request may be longer": lambda d: fields(d, "CircuitDesignRequest")["jurisdiction"]["anyOf"][0].update(
        maxLength=400
    ),
    "a list of a request may be empty": lambda d: fields(d, "CircuitDesignRequest")["run"].pop("minItems"),
    "a variant of a request": lambda d: [
        d["components"]["schemas"].update(Inlet=copy.deepcopy(schema(d, "Hardwired"))),
        fields(d, "Inlet")["kind"].update(const="inlet"),
        fields(d, "Charger")["connection"]["oneOf"].append({"$ref": "#/components/schemas/Inlet"}),
        fields(d, "Charger")["connection"]["discriminator"]["mapping"].update(inlet="#/components/schemas/Inlet"),
    ],
    "a type of a request": lambda d: fields(d, "Length").update(
        value={"anyOf": [fields(d, "Length")["value"], {"type": "string"}]}
    ),
    "a field of answers": lambda d: [
        fields(d, "Finding").update(weight={"type": "number"}),
        schema(d, "Finding")["required"].append("weight"),
    ],
    "a field of problems": lambda d: fields(d, "Problem").update(help={"type": "string"}),
    "a known value of answers": lambda d: fields(d, "Finding")["outcome"]["x-known-values"].append("waived"),
    "a field of answers is never null": lambda d: fields(d, "Finding").update(segment={"type": "integer"}),
    "a field of answers is always there": lambda d: [
        fields(d, "Health").update(since={"type": "string"}),
        schema(d, "Health")["required"].append("since"),
    ],
    "words": lambda d: [
        operation(d, "get", "/v1/rules").update(summary="Other words", description="More of them"),
        schema(d, "Finding").update(description="Other words"),
        fields(d, "Length")["value"].update(description="Other words", title="Other"),
        parameter(d, "/v1/rules", "limit").update(description="Other words"),
        d["components"]["securitySchemes"]["bearer"].update(description="Other words", bearerFormat="text"),
    ],
    "an example": lambda d: operation(d, "post", "/v1/circuit-designs")["requestBody"]["content"]["application/json"][
        "examples"
    ].update(another={"value": {"allOf": 1, "schema": {"not": "a schema"}}}),
    "a deprecation": lambda d: operation(d, "get", "/v1/rules").update(deprecated=True),
    "the version": lambda d: d["info"].update(version="9.9.9"),
    "another order": lambda d: d.update(paths=dict(reversed(d["paths"].items()))),
}  # fmt: skip


@pytest.mark.parametrize("name", ADDITIONS)
def test_an_addition_passes(name):
    change = ADDITIONS[name]
    document = copy.deepcopy(FIRST)
    change(document)
    assert json.dumps(document) != json.dumps(FIRST), "nothing was changed: a fault of this test"
    assert lines(FIRST, document) == []


def document_of(request: Any, answer: Any, **components: Any) -> Json:
    """A document of one operation with these schemas."""
    return {
        "openapi": "3.1.0",
        "paths": {
            "/x": {
                "post": {
                    "requestBody": {"content": {"application/json": {"schema": request}}},
                    "responses": {"200": {"content": {"application/json": {"schema": answer}}}},
                }
            }
        },
        "components": {"schemas": components},
    }


def tagged(*kinds: str) -> Json:
    return {
        "oneOf": [{"$ref": f"#/components/schemas/{kind}"} for kind in kinds],
        "discriminator": {
            "propertyName": "kind",
            "mapping": {kind: f"#/components/schemas/{kind}" for kind in kinds},
        },
    }


def variants(*kinds: str) -> Json:
    return {
        kind: {
            "type": "object",
            "properties": {"kind": {"type": "string", "const": kind}},
            "required": ["kind"],
        }
        for kind in kinds
    }


def test_answers_may_gain_a_variant_that_a_tag_tells_apart():
    old = document_of(True, tagged("a", "b"), **variants("a", "b"))
    new = document_of(True, tagged("a", "b", "c"), **variants("a", "b", "c"))
    assert lines(old, new) == []


def test_answers_may_gain_no_variant_without_a_tag():
    old = document_of(True, {"anyOf": tagged("a", "b")["oneOf"]}, **variants("a", "b"))
    new = document_of(True, {"anyOf": tagged("a", "b", "c")["oneOf"]}, **variants("a", "b", "c"))
    assert lines(old, new) == ['answer a.kind: may now be "c"']


def test_a_comparison_in_vain_hides_no_break():
    """The pair C and D is met in an alternative that does not fit, and then where it matters."""

    def of(name: str, **more: Json) -> Json:
        return {"type": "object", "properties": {"inner": {"$ref": f"#/components/schemas/{name}"}, **more}}

    c, d = {"type": "string"}, {"type": "string", "maxLength": 3}
    old_root = {
        "properties": {"p": {"$ref": "#/components/schemas/A"}, "q": {"$ref": "#/components/schemas/C"}}
    }
    new_root = {
        "properties": {
            "p": {"anyOf": [{"$ref": "#/components/schemas/X"}, {"$ref": "#/components/schemas/Y"}]},
            "q": {"$ref": "#/components/schemas/D"},
        }
    }
    old = document_of({"type": "object", **old_root}, True, A=of("C"), C=c)
    new = document_of({"type": "object", **new_root}, True, A=of("C"), C=c, D=d, X=of("D"), Y=of("C"))
    assert lines(old, new) == ["request C: maxLength was not set and is 3"]


def test_a_break_deep_in_a_schema_that_refers_to_itself_is_seen_once():
    def tree(leaf: Json) -> Json:
        children = {"type": "array", "items": {"$ref": "#/components/schemas/Tree"}}
        return {"Tree": {"type": "object", "properties": {"children": children, "leaf": leaf}}}

    reference = {"$ref": "#/components/schemas/Tree"}
    old = document_of(reference, reference, **tree({"type": "integer"}))
    new = document_of(reference, reference, **tree({"type": "string"}))
    assert lines(old, new) == [
        "request Tree.leaf: a whole number is no longer taken",
        "answer Tree.leaf: may now be text",
    ]
    assert lines(old, copy.deepcopy(old)) == []


def test_parameters_bodies_and_answers_may_be_referred_to():
    def referring(required: bool, status: Json) -> Json:
        return {
            "paths": {
                "/x": {
                    "get": {
                        "parameters": [{"$ref": "#/components/parameters/P"}],
                        "requestBody": {"$ref": "#/components/requestBodies/B"},
                        "responses": {"200": {"$ref": "#/components/responses/R"}},
                    }
                }
            },
            "components": {
                "parameters": {"P": {"name": "p", "in": "query", "required": required, "schema": {}}},
                "requestBodies": {"B": {"required": required, "content": {}}},
                "responses": {"R": {"headers": {"H": {"$ref": "#/components/headers/H"}}}},
                "headers": {"H": {"schema": status}},
            },
        }

    old, new = referring(False, {"type": "integer"}), referring(True, {"type": "string"})
    assert lines(old, new) == [
        "GET /x, query parameter p: is required now",
        "GET /x, request body: is required now",
        "GET /x, status 200, header H: may now be text",
    ]


NUMBERS = st.sampled_from([0, 1, 2, 2.5, 3])
BOUNDS = {
    "number": ("minimum", "maximum", "exclusiveMinimum", "exclusiveMaximum"),
    "integer": ("minimum", "maximum"),
    "string": ("minLength", "maxLength"),
    "array": ("minItems", "maxItems"),
}
SCALARS: list[Any] = [None, True, False, 0, 1, 2, 2.0, 2.5, 3, "", "a", "ab", "abc"]


@st.composite
def schemas(draw: st.DrawFn, depth: int = 2) -> Any:
    """Small schemas of the kind that our documents have."""
    kinds = ["null", "boolean", "integer", "number", "string", "enum", "any"]
    kind = draw(st.sampled_from([*kinds, "array", "object", "map", "anyOf"] if depth else kinds))
    match kind:
        case "any":
            return draw(st.sampled_from([True, {}]))
        case "enum":
            values = draw(st.lists(st.sampled_from(SCALARS), min_size=1, max_size=4))
            return {"enum": values}
        case "anyOf":
            return {"anyOf": draw(st.lists(schemas(depth - 1), min_size=1, max_size=2))}
        case "map":
            return {"type": "object", "additionalProperties": draw(schemas(depth - 1))}
        case "object":
            properties = draw(st.dictionaries(st.sampled_from("xyz"), schemas(depth - 1), max_size=2))
            required = draw(st.lists(st.sampled_from("xyz"), max_size=1))
            others = draw(st.sampled_from([{}, {"additionalProperties": False}]))
            return {"type": "object", "properties": properties, "required": required, **others}
        case _:
            items = {"items": draw(schemas(depth - 1))} if kind == "array" else {}
            whole = st.integers(0, 3)
            bounds = {
                name: draw(NUMBERS if kind == "number" else whole)
                for name in BOUNDS.get(kind, ())
                if draw(st.integers(0, 3)) == 0
            }
            return {"type": kind, **bounds, **items}


@st.composite
def neighbours(draw: st.DrawFn) -> tuple[Any, Any]:
    """Two schemas, often alike: one is the other with a part drawn afresh or left out."""
    first = draw(schemas())
    if draw(st.integers(0, 3)) == 0:
        return first, draw(schemas())
    second = copy.deepcopy(first)
    place = second
    while isinstance(place, dict) and place:
        name = draw(st.sampled_from(sorted(place)))
        if name in ("properties", "items", "additionalProperties") and draw(st.booleans()):
            inner = place[name]
            if name == "properties" and inner:
                place, name = inner, draw(st.sampled_from(sorted(inner)))
                inner = place[name]
            if isinstance(inner, dict) and draw(st.booleans()):
                place = inner
                continue
            place[name] = {} if name == "properties" else draw(schemas(1))
        elif name in ("minimum", "maximum", "minLength", "maxLength", "minItems", "maxItems"):
            place[name] = draw(st.integers(0, 3))
        elif name == "enum":
            place[name] = place[name][1:] or [0]
        elif name == "required":
            place[name] = []
        elif name != "type":
            del place[name]
        break
    return first, second


OBJECTS: list[Any] = [{}, *({"x": value} for value in SCALARS), {"y": 1}, {"x": 1, "y": "a"}, {"z": None}]
OBJECTS += [{"x": inner} for inner in ([], [1], {}, {"y": 2.5})]
LISTS: list[Any] = [[], *([value] for value in SCALARS), [1, "a"], [1, 2, 3], [[]], [{}], [{"x": 1}]]
INSTANCES: list[Any] = [*SCALARS, *OBJECTS, *LISTS]


@settings(max_examples=500, deadline=None, derandomize=True, database=None)
@given(neighbours())
def test_where_nothing_is_reported_what_was_valid_is_valid(pair):
    """By the validator: all that callers sent is still taken, all that is answered now was to be expected."""
    old, new = pair
    was, now = Draft202012Validator(old), Draft202012Validator(new)
    if lines(document_of(old, True), document_of(new, True)) == []:
        assert [one for one in INSTANCES if was.is_valid(one) and not now.is_valid(one)] == []
    if lines(document_of(True, old), document_of(True, new)) == []:
        assert [one for one in INSTANCES if now.is_valid(one) and not was.is_valid(one)] == []


def test_the_command_prints_the_breaks_in_plain_words(tmp_path, capsys):
    released, new = tmp_path / "released.json", tmp_path / "new.json"
    released.write_text(json.dumps(FIRST))
    new.write_text(json.dumps(changed(lambda d: without_field(d, "Finding", "margin_percent"))))
    assert main([str(released), str(new)]) == 1
    assert capsys.readouterr().out == "answer Finding.margin_percent: removed\n"
    assert main([str(released), str(released)]) == 0
    assert "breaks nothing" in capsys.readouterr().out


@pytest.mark.parametrize("text", ["", "{", "[]", "{}", '{"paths": []}'])
def test_the_command_refuses_what_is_no_document(tmp_path, capsys, text):
    broken = tmp_path / "broken.json"
    broken.write_text(text)
    assert main([str(broken), str(OPENAPI / "v1.json")]) == 2
    assert str(broken) in capsys.readouterr().err
    assert main([str(tmp_path / "none.json"), str(OPENAPI / "v1.json")]) == 2
    assert "none.json cannot be read" in capsys.readouterr().err


def test_the_command_runs_as_a_script():
    command = [sys.executable, "tests/contract/breaking_changes.py", str(RELEASES[-1]), "openapi/v1.json"]
    ran = subprocess.run(command, cwd=OPENAPI.parent, capture_output=True, text=True, check=False)
    assert (ran.returncode, ran.stderr) == (0, "")
