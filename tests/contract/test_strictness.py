"""What the schema admits is taken and what it does not admit is refused, at every place of a request.

The request that is changed has every field of the published schema; each place is tried in turn.
"""

import copy
import json

import pytest
from tests.contract.document import DOCUMENT, OPERATIONS, QUESTIONS, Operation, conforms, errors, fits
from tests.contract.places import (
    ABSENT,
    MAP_KEY,
    Place,
    at,
    bounds,
    changed,
    filled,
    is_map,
    models_in,
    places,
)

JSON = {"Content-Type": "application/json"}
# The first choice is a hardwired charger, the second a receptacle.
FULL = {
    (operation.name, choice): filled(operation.body_schema, choice)
    for operation in QUESTIONS
    for choice in (0, 1)
}
WRONG = {
    "number": (True, False, "3", "", [], {}, [48]),
    "integer": (True, False, "3", 1.5, [], {}),
    "boolean": (0, 1, 0.0, 1.0, "true", "false", "yes", [], {}),
    "string": (True, 3, 0, [], {}, ["copper"]),
    "array": ({}, "", "text", 0, True, {"0": {}}),
    "object": ([], "", "text", 0, True, [{}]),
}


# Models that several questions have are tried at every place of one that answers by them alone; of the others only as
# a whole.
TRIED_BY = {
    "compare_currents": ("design_circuit", "estimate_installation"),
    "compare_charging": ("review_tariff",),
    "estimate_installation": ("design_circuit",),
}


def tried_elsewhere(operation: Operation) -> frozenset[str]:
    """The models of a question that other questions are tried with."""
    others = [OPERATIONS[name] for name in TRIED_BY.get(operation.name, ()) if name in OPERATIONS]
    return frozenset().union(*(models_in(other.body_schema) for other in others))


def all_places() -> list[tuple[Operation, int, Place]]:
    """Every place of both questions, with either connection; what the second choice repeats is left out."""
    found = {}
    for operation in QUESTIONS:
        for choice in (0, 1):
            for place in places(
                operation.body_schema, FULL[operation.name, choice], closed=tried_elsewhere(operation)
            ):
                found.setdefault(
                    (operation.name, place.text, place.branches[-1].get("title")), (operation, choice, place)
                )
    return list(found.values())


PLACES = all_places()


def named(*kinds: str) -> pytest.MarkDecorator:
    """Parametrize over the places that hold one of these JSON types."""
    chosen = [entry for entry in PLACES if entry[2].kind in kinds]
    return pytest.mark.parametrize(
        ("operation", "choice", "place"),
        chosen,
        ids=[f"{operation.name}:{place.text or '/'}-{choice}" for operation, choice, place in chosen],
    )


def spelled(operation, choice, place, text):
    """The full request as bytes, with a JSON text of one's own at a place."""
    marked = json.dumps(changed(FULL[operation.name, choice], place, "HERE"))
    return marked.replace('"HERE"', text).encode()


def ask(client, operation, body):
    """Post a body; bytes go as they are, so that no JSON writer decides how a number is spelled."""
    content = body if isinstance(body, bytes) else json.dumps(body).encode()
    return client.post(operation.path, content=content, headers=JSON)


def accepted(client, operation, body):
    assert errors(operation.body_schema, body) == [], "not a valid request: a fault of this test"
    return conforms(operation, 200, ask(client, operation, body))


def answered(client, operation, body):
    assert ask(client, operation, body).status_code == 200


def refused(client, operation, body):
    assert not fits(operation.body_schema["$ref"], body), "a valid request: a fault of this test"
    return conforms(operation, 422, ask(client, operation, body))


def substance(answer):
    """An answer without what names the request itself."""
    return {name: part for name, part in answer.items() if name not in {"provenance", "review_request"}}


def test_every_field_of_the_schema_is_tried():
    closed = [
        schema
        for schema in DOCUMENT["components"]["schemas"].values()
        if schema.get("additionalProperties") is False
    ]
    assert closed, "requests are the models that admit no unknown field"
    tried = {place.pointer[-1] for _, _, place in PLACES if place.pointer}
    assert tried - {0, MAP_KEY} == {name for schema in closed for name in schema["properties"]}


@pytest.mark.parametrize(("name", "choice"), FULL)
def test_a_request_with_every_field_is_answered(client, name, choice):
    accepted(client, OPERATIONS[name], FULL[name, choice])


@named("number", "integer", "boolean", "string", "array", "object")
def test_another_type_is_refused_and_named(client, operation, choice, place):
    for value in WRONG[place.kind]:
        problem = refused(client, operation, changed(FULL[operation.name, choice], place, value))
        assert {error["pointer"] for error in problem["errors"]} >= {place.text} or place.kind == "object", (
            value
        )


@named("number", "integer", "boolean", "string", "array", "object")
def test_null_and_absence(client, operation, choice, place):
    """Null says 'not stated', just as leaving the field out does; a required field may be neither."""
    full = FULL[operation.name, choice]
    if not place.pointer or isinstance(place.pointer[-1], int) or place.pointer[-1] == MAP_KEY:
        # Only a list of readings has nulls in it: they stand for those that are missing.
        (accepted if place.nullable else refused)(client, operation, changed(full, place, None))
    elif place.required:
        # Null is what a meter says of a reading that it does not have.
        assert place.nullable == (place.text == "/series/readings/0/value")
        (accepted if place.nullable else refused)(client, operation, changed(full, place, None))
        problem = refused(client, operation, changed(full, place, ABSENT))
        assert [(error["pointer"], error["code"]) for error in problem["errors"]] == [(place.text, "missing")]
    else:
        assert place.nullable
        null = accepted(client, operation, changed(full, place, None))
        absent = accepted(client, operation, changed(full, place, ABSENT))
        assert substance(null) == substance(absent)


@named("object")
def test_an_unknown_field_is_refused_at_every_depth(client, operation, choice, place):
    body = copy.deepcopy(FULL[operation.name, choice])
    at(body, place)["unheard_of"] = 1
    problem = refused(client, operation, body)
    # A map takes any name, but its values are of one kind, and none of ours is a number.
    code = "wrong-type" if is_map(place.branches[0]) else "unknown-field"
    assert [(error["pointer"], error["code"]) for error in problem["errors"]] == [
        (f"{place.text}/unheard_of", code)
    ]


@named("number", "integer")
def test_bounds_are_taken_and_nothing_beyond(client, operation, choice, place):
    full = FULL[operation.name, choice]
    if "enum" in place.schema or "const" in place.schema:
        values = place.schema.get("enum", [place.schema.get("const")])
        for value in values:
            accepted(client, operation, changed(full, place, value))
        beyond = [min(values) - 1, max(values) + 1, 0, -values[0]]
    else:
        low, high = (
            bounds(place.schema)
            if place.kind == "number"
            else (place.schema["minimum"], place.schema["maximum"])
        )
        for value in (low, high):
            accepted(client, operation, changed(full, place, value))
        under = 0 if "exclusiveMinimum" in place.schema else low - 1
        beyond = [under, high + 1, -(10**30), 10**30]
        if place.kind == "number":
            beyond += [1.7e308, -1.7e308, high * (1 + 1e-12)]
    for value in beyond:
        problem = refused(client, operation, changed(full, place, value))
        assert [error["pointer"] for error in problem["errors"]] == [place.text], value


@named("number", "integer")
def test_integers_of_any_length_are_refused_not_choked_on(client, operation, choice, place):
    for digits in ("9" * 25, "9" * 400, "-" + "9" * 400, "9" * 5000):
        answer = ask(client, operation, spelled(operation, choice, place, digits))
        assert answer.status_code in {400, 422}, answer.text[:300]
        conforms(operation, answer.status_code, answer)


@named("number", "integer")
def test_the_same_number_in_another_spelling_is_the_same_request(client, operation, choice, place):
    """JSON knows one kind of number: 3, 3.0, 30e-1 and 0.3e1 are one value, and so is its fingerprint."""
    full = FULL[operation.name, choice]
    value = at(full, place)
    assert value == int(value)
    answers = {
        ask(client, operation, spelled(operation, choice, place, spelling)).content
        for spelling in (f"{value}", f"{value}.0", f"{value}0e-1", f"{value}E0", f"{value}.000e+0")
    }
    assert len(answers) == 1
    assert "input_sha256" in json.loads(answers.pop())["provenance"]


@named("number", "integer")
def test_minus_zero_is_zero(client, operation, choice, place):
    full = FULL[operation.name, choice]
    plain, minus, minus_float = (
        ask(client, operation, spelled(operation, choice, place, spelling))
        for spelling in ("0", "-0", "-0.0")
    )
    if errors(operation.body_schema, changed(full, place, 0)):
        assert (plain.status_code, minus.status_code, minus_float.status_code) == (422, 422, 422)
    else:
        answers = [conforms(operation, 200, answer) for answer in (plain, minus, minus_float)]
        assert answers[0] == answers[1] == answers[2]


@named("string")
def test_closed_lists_are_closed(client, operation, choice, place):
    full = FULL[operation.name, choice]
    values = place.schema.get("enum", [place.schema["const"]] if "const" in place.schema else [])
    for value in values:
        if place.pointer[-1] != "kind" or "connection" not in place.pointer:
            accepted(client, operation, changed(full, place, value))
    for value in values[:1]:
        for near in (value + " ", " " + value, value.swapcase(), value + "\u0000", ""):
            if near not in values:
                refused(client, operation, changed(full, place, near))


@pytest.mark.parametrize("operation", QUESTIONS, ids=lambda operation: operation.name)
def test_lists_keep_to_their_lengths(client, operation):
    for choice in (0, 1):
        full = FULL[operation.name, choice]
        for place in places(operation.body_schema, full):
            if place.kind == "array":
                keeps_to_its_length(client, operation, full, place)


def keeps_to_its_length(client, operation, full, place):
    item = at(full, place)[0]
    least, most = place.schema.get("minItems", 0), place.schema["maxItems"]
    for length in (least, most):
        # A validator in Python takes some seconds for each list of readings.
        take = accepted if length < 10_000 else answered
        take(client, operation, changed(full, place, [item] * length))
    for length in ({least - 1} if least else set()) | {most + 1}:
        body = changed(full, place, [item] * length)
        problem = conforms(operation, 422, ask(client, operation, body))
        assert [error["code"] for error in problem["errors"]] == ["wrong-length"]


@pytest.mark.parametrize("operation", QUESTIONS, ids=lambda operation: operation.name)
def test_the_length_of_a_text_counts_characters(client, operation):
    """Every text without a form: a jurisdiction, the name of a tariff."""
    full = FULL[operation.name, 0]
    plain = [
        place
        for place in places(operation.body_schema, full)
        if place.kind == "string" and "maxLength" in place.schema and "pattern" not in place.schema
    ]
    assert plain
    for place in plain:
        most = place.schema["maxLength"]
        short = ("x", "\u0000", "\u2028", "\ufeff") if place is plain[0] else ()
        for text in (*short, "\U0001f50c" * most, "e\u0301" * (most // 2)):
            answer = accepted(client, operation, changed(full, place, text))
            if place.text == "/jurisdiction":
                assert answer["jurisdiction"] == text
        for text in ("", "x" * (most + 1), "\U0001f50c" * (most + 1)):
            refused(client, operation, changed(full, place, text))


@pytest.mark.source("decision 0033: money is decimal text, and a JSON number is refused")
@named("string")
def test_money_is_text_of_one_form(client, operation, choice, place):
    full = FULL[operation.name, choice]
    if place.schema.get("format") != "decimal":
        return
    for text in ("0", "0.00", "1.5", "9" * 4, "0." + "9" * 8):
        accepted(client, operation, changed(full, place, text))
    wrong = [
        "",
        " 1",
        "1 ",
        "1,5",
        "1e3",
        "1E3",
        ".5",
        "5.",
        "+1",
        "00.1",
        "NaN",
        "Infinity",
        "0x10",
        "\u0661",
    ]
    for text in (*wrong, "9" * 60, "0." + "1" * 60, "1" * 13, "1_000", "--1"):
        problem = refused(client, operation, changed(full, place, text))
        assert [(error["pointer"], error["code"]) for error in problem["errors"]] == [
            (place.text, "wrong-format")
        ]


@pytest.mark.parametrize("operation", QUESTIONS, ids=lambda operation: operation.name)
@pytest.mark.parametrize(
    "text",
    [
        '{"edition": "nec-2023", "edition": "nec-2023"}',
        '{"run": [{"length": {"value": 1, "value": 1}}]}',
        '{"jurisdiction": "\\ud800"}',
        '{"edition": "nec-2023",}',
        "{'edition': 'nec-2023'}",
        '{"edition": nec-2023}',
        '{"value": NaN}',
        '{"value": -Infinity}',
        '{"value": 1e999}',
        '{"value": 01}',
        '{"value": .5}',
        '{"value": +1}',
        '{"value": 0x10}',
        "[" * 300 + "]" * 300,
        "{} {}",
        "",
        "\ufeff{}",
    ],
)
def test_what_is_not_strict_json_is_400(client, operation, text):
    conforms(operation, 400, ask(client, operation, text.encode()))
