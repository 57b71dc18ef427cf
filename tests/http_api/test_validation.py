"""What does not fit the schema is named: where, what was given, what is allowed, what was perhaps meant."""

import pytest

from branchwright.http_api.suggestions import nearest_name, nearest_value

MISSING = object()


def changed(body, pointer, value):
    """The body with the value at the pointer replaced, added or (MISSING) taken away."""
    *parents, last = [int(token) if token.isdigit() else token for token in pointer.split("/")[1:]]
    place = body
    for token in parents:
        place = place[token]
    if value is MISSING:
        del place[last]
    else:
        place[last] = value
    return body


# pointer to change, new value, pointer of the error, code, message, given, allowed
CASES = {
    "near miss": (
        "/size",
        "6awg",
        "/size",
        "not-an-allowed-value",
        "the text '6awg' is not one of the allowed values; did you mean '6 AWG'?",
        "6awg",
        ["8 AWG", "6 AWG", "250 kcmil"],
    ),
    "another size is no near miss": (
        "/size",
        "7 AWG",
        "/size",
        "not-an-allowed-value",
        "the text '7 AWG' is not one of the allowed values.",
        "7 AWG",
        ["8 AWG", "6 AWG", "250 kcmil"],
    ),
    "number for a closed list": (
        "/size",
        6,
        "/size",
        "not-an-allowed-value",
        "6 is not one of the allowed values.",
        6,
        ["8 AWG", "6 AWG", "250 kcmil"],
    ),
    "missing": (
        "/size",
        MISSING,
        "/size",
        "missing",
        "'size' is missing.",
        None,
        ["8 AWG", "6 AWG", "250 kcmil"],
    ),
    "missing in a list item": (
        "/run/0/value",
        MISSING,
        "/run/0/value",
        "missing",
        "'value' is missing.",
        None,
        ["a number, more than 0, at most 1000"],
    ),
    "misspelt": (
        "/run/0/vaule",
        3,
        "/run/0/vaule",
        "unknown-field",
        "'vaule' is not a field here; did you mean 'value'?",
        3,
        ["value", "unit"],
    ),
    "unknown": (
        "/colour",
        {"a": 1},
        "/colour",
        "unknown-field",
        "'colour' is not a field here.",
        "an object with 1 members",
        ["size", "run", "connection", "current_a", "poles", "outdoors", "label", "odd", "checked"],
    ),
    "pointer is escaped": (
        "/run/0/a b",
        1,
        "/run/0/a b",
        "unknown-field",
        "'a b' is not a field here.",
        1,
        ["value", "unit"],
    ),
    "too small": (
        "/run/0/value",
        -3,
        "/run/0/value",
        "out-of-range",
        "a number, more than 0, at most 1000 is needed, -3 was given.",
        -3,
        ["a number, more than 0, at most 1000"],
    ),
    "text for a number": (
        "/run/0/value",
        "48",
        "/run/0/value",
        "wrong-type",
        "a number, more than 0, at most 1000 is needed, the text '48' was given; "
        "did you mean 48 without quotation marks?",
        "48",
        ["a number, more than 0, at most 1000"],
    ),
    "truth for a number": (
        "/run/0/value",
        True,
        "/run/0/value",
        "wrong-type",
        "a number, more than 0, at most 1000 is needed, true was given.",
        True,
        ["a number, more than 0, at most 1000"],
    ),
    "number for truth": (
        "/outdoors",
        1,
        "/outdoors",
        "wrong-type",
        "true or false is needed, 1 was given.",
        1,
        ["true or false"],
    ),
    "half an integer": (
        "/poles",
        2.5,
        "/poles",
        "wrong-type",
        "a whole number, at least 1 is needed, 2.5 was given.",
        2.5,
        ["a whole number, at least 1"],
    ),
    "null": (
        "/current_a",
        None,
        "/current_a",
        "wrong-type",
        "a number, at least 0 is needed, null was given.",
        None,
        ["a number, at least 0"],
    ),
    "object for a list": (
        "/run",
        {},
        "/run",
        "wrong-type",
        "a list, at least 1 long, at most 100 long is needed, an object was given.",
        "an object with 0 members",
        ["a list, at least 1 long, at most 100 long"],
    ),
    "empty list": (
        "/run",
        [],
        "/run",
        "wrong-length",
        "a list, at least 1 long, at most 100 long is needed, a list of 0 was given.",
        "a list of 0 items",
        ["a list, at least 1 long, at most 100 long"],
    ),
    "pattern": (
        "/label",
        "no!",
        "/label",
        "wrong-format",
        "text, at most 400 characters long, matching ^[^!]*$ is needed, the text 'no!' was given.",
        "no!",
        ["text, at most 400 characters long, matching ^[^!]*$"],
    ),
    "own rule": (
        "/checked",
        13,
        "/checked",
        "invalid",
        "thirteen is reserved.",
        13,
        ["a whole number", "null"],
    ),
    "tag misspelt": (
        "/connection/kind",
        "hard-wired",
        "/connection/kind",
        "not-an-allowed-value",
        "the text 'hard-wired' is not one of the allowed values; did you mean 'hardwired'?",
        "hard-wired",
        ["hardwired", "receptacle"],
    ),
    "tag missing": (
        "/connection",
        {},
        "/connection/kind",
        "missing",
        "'kind' is missing.",
        None,
        ["hardwired", "receptacle"],
    ),
    "member of the tagged branch missing": (
        "/connection",
        {"kind": "receptacle"},
        "/connection/configuration",
        "missing",
        "'configuration' is missing.",
        None,
        ["14-30", "14-50"],
    ),
    "member of the other branch": (
        "/connection/configuration",
        "14-50",
        "/connection/configuration",
        "unknown-field",
        "'configuration' is not a field here.",
        "14-50",
        ["kind", "torque"],
    ),
    "below a tagged branch": (
        "/connection/torque",
        {"value": 3, "unit": "feet"},
        "/connection/torque/unit",
        "not-an-allowed-value",
        "the text 'feet' is not one of the allowed values; did you mean 'ft'?",
        "feet",
        ["ft", "m"],
    ),
    "untagged union, reported once": (
        "/odd",
        "known",
        "/odd",
        "wrong-type",
        "unknown or a number or null is needed, the text 'known' was given.",
        "known",
        ["unknown", "a number", "null"],
    ),
    "long text is cut": (
        "/size",
        "z" * 1000,
        "/size",
        "not-an-allowed-value",
        f"the text '{'z' * 57}...' is not one of the allowed values.",
        "z" * 197 + "...",
        ["8 AWG", "6 AWG", "250 kcmil"],
    ),
    "huge integer is cut": (
        "/outdoors",
        10**300,
        "/outdoors",
        "wrong-type",
        f"true or false is needed, 1{'0' * 56}... was given.",
        "1" + "0" * 196 + "...",
        ["true or false"],
    ),
}


@pytest.mark.parametrize(
    ("change", "value", "pointer", "code", "message", "given", "allowed"), CASES.values(), ids=CASES.keys()
)
def test_each_kind_of_misfit(client, good, change, value, pointer, code, message, given, allowed):
    answer = client.post("/v1/questions", json=changed(good, change, value))
    assert answer.status_code == 422
    assert answer.headers["content-type"] == "application/problem+json"
    problem = answer.json()
    assert problem["type"] == "/problems/invalid-request"
    assert problem["title"] == "The request does not fit the published schema"
    (first,) = problem["errors"]
    assert (first["pointer"], first["given"], first["allowed"]) == (pointer, given, allowed)
    assert (first["code"], first["message"]) == (code, message)
    assert problem["detail"] == f"The request does not fit the schema at {pointer}: {message}"


@pytest.mark.parametrize("body", ["[]", "3", '"text"', "null"])
def test_a_body_that_is_no_object(client, body):
    problem = client.ask(body).json()
    assert problem["status"] == 422
    (error,) = problem["errors"]
    assert (error["pointer"], error["code"], error["allowed"]) == ("", "wrong-type", ["an object"])


def test_every_place_is_named_at_once(client, good):
    good["size"] = "6awg"
    good["run"].append({"value": 1, "lenght": 2})
    problem = client.post("/v1/questions", json=good).json()
    assert [error["pointer"] for error in problem["errors"]] == ["/size", "/run/1/unit", "/run/1/lenght"]
    assert problem["detail"] == "3 places in the request do not fit the schema; they are listed in errors."


def test_the_same_body_gets_the_same_problem(client, good):
    good |= {"zzz": 1, "aaa": 2, "mmm": 3}
    del good["size"]
    assert client.post("/v1/questions", json=good).content == client.post("/v1/questions", json=good).content


def test_a_flood_of_errors_is_cut(client, good):
    good["run"] = [{} for _ in range(90)]
    problem = client.post("/v1/questions", json=good).json()
    assert len(problem["errors"]) == 50
    assert problem["detail"].startswith("180 places in the request")


def test_a_secret_deep_in_the_body_is_not_echoed(client, good):
    good["connection"] = {"kind": "hardwired", "password": {"deep": "s3cret"}}
    assert "s3cret" not in client.post("/v1/questions", json=good).text


def test_a_long_unknown_name_is_cut_everywhere(client, good):
    good["n" * 5000] = 1
    assert max(map(len, client.post("/v1/questions", json=good).text.split('"'))) <= 260


def test_integers_may_be_written_with_a_fraction_of_zero(client, good):
    good["poles"] = 3.0
    assert client.post("/v1/questions", json=good).status_code == 200


@pytest.mark.parametrize(
    ("query", "pointer", "code", "message"),
    [
        (
            "limit=0",
            "query:limit",
            "out-of-range",
            "a whole number, at least 1, at most 100 is needed, the text '0' was given.",
        ),
        (
            "limit=many",
            "query:limit",
            "wrong-type",
            "a whole number, at least 1, at most 100 is needed, the text 'many' was given.",
        ),
        ("limt=3", "query:limt", "unknown-field", "'limt' is not a field here; did you mean 'limit'?"),
    ],
)
def test_query_parameters(client, query, pointer, code, message):
    problem = client.get(f"/v1/things?{query}").json()
    assert problem["status"] == 422
    (error,) = problem["errors"]
    assert (error["pointer"], error["code"], error["message"]) == (pointer, code, message)


@pytest.mark.parametrize(
    ("given", "nearest"),
    [
        ("6awg", "6 AWG"),
        ("6 awg ", "6 AWG"),
        ("#6 AWG", "6 AWG"),
        ("1/0awg", "1/0 AWG"),
        ("250kcmil", "250 kcmil"),
        ("250 MCM", "250 kcmil"),
        ("250 AWG", None),
        ("7 AWG", None),
        ("60 AWG", None),
        ("16 AWG", None),
    ],
)
def test_conductor_sizes_are_never_swapped(given, nearest):
    assert nearest_value(given, ["16 kcmil", "6 AWG", "1/0 AWG", "250 kcmil"]) == nearest


def test_names(client):
    assert nearest_name("lenght", ["length", "location"]) == "length"
    assert nearest_name("Ambient", ["ambient_c", "location"]) == "ambient_c"
    assert nearest_name("weight", ["location"]) is None
