"""Texts that parsers read differently are refused, by the function and over HTTP (RFC 8259, RFC 6901)."""

import json

import pytest

from branchwright.http_api.strict_json import NotStrictJson, parse

BAD = {
    "empty": (b"", "the body is empty"),
    "blank": (b" \r\n\t", "the body is empty"),
    "not a number": (b'{"a": NaN}', "NaN and Infinity are not JSON numbers at line 1, column 7"),
    "infinity": (b'{"a": Infinity}', "NaN and Infinity are not JSON numbers at line 1, column 7"),
    "negative infinity": (b'{"a": -Infinity}', "NaN and Infinity are not JSON numbers"),
    "overflow": (b'{"a": [1, 1e999]}', "number beyond the range of a 64-bit float at /a/1"),
    "negative overflow": (b"[-1e999]", "number beyond the range of a 64-bit float at /0"),
    "overflow, signed exponent": (b"[1E+400]", "number beyond the range of a 64-bit float at /0"),
    "overflow, padded exponent": (b"[1e0000400]", "number beyond the range of a 64-bit float at /0"),
    "overflow, alone": (b"1e400", "number beyond the range of a 64-bit float at the top level"),
    "overflow, many digits": (b"[1" + b"0" * 400 + b".0]", "number beyond the range of a 64-bit float at /0"),
    "overflow, digits and exponent": (
        b"[1" + b"0" * 250 + b"e99]",
        "number beyond the range of a 64-bit float at /0",
    ),
    "overflow, escaped pointer": (
        b'{"a/b~c": 1e999}',
        "number beyond the range of a 64-bit float at /a~1b~0c",
    ),
    "duplicate": (b'{"a": 1, "a": 1}', 'Detected duplicate key "a" at line 1'),
    "duplicate, nested": (b'{"a": [{"b": 1, "b": 2}]}', 'Detected duplicate key "b"'),
    "duplicate, escaped": (b'{"a": 1, "\\u0061": 2}', 'Detected duplicate key "a"'),
    "lone high surrogate": (b'["\\ud800"]', "hex escape at line 1"),
    "lone low surrogate": (b'["\\udc00"]', "surrogate"),
    "surrogates the wrong way round": (b'["\\udc00\\ud800"]', "surrogate"),
    "surrogate in UTF-8": ("['\ud800']".replace("'", '"').encode("utf-8", "surrogatepass"), "unicode"),
    "not UTF-8": (b'["\xff"]', "unicode"),
    "UTF-16": ('{"a": 1}'.encode("utf-16"), "expected value"),
    "byte order mark": (b"\xef\xbb\xbf{}", "byte order mark"),
    "text after": (b"{} {}", "trailing characters at line 1, column 4"),
    "trailing comma": (b'{"a": 1,\n}', "trailing comma at line 2"),
    "single quotes": (b"{'a': 1}", "key must be a string"),
    "comment": (b"/* */ {}", "expected value"),
    "leading zero": (b"[01]", "invalid number"),
    "plus": (b"[+1]", "expected value"),
    "raw newline": (b'["a\nb"]', "control character"),
    "nul": (b'["\x00"]', "control character"),
    "deep": (b"[" * 5000 + b"]" * 5000, "recursion limit exceeded"),
    "deep objects": (b'{"a":' * 5000 + b"1" + b"}" * 5000, "recursion limit exceeded"),
    "endless integer": (b"[" + b"9" * 100_000 + b"]", "number out of range"),
}


@pytest.mark.source("RFC 8259 sections 2, 4, 6, 7, 8; RFC 6901 sections 3 to 5")
@pytest.mark.parametrize(("body", "reason"), BAD.values(), ids=BAD.keys())
def test_refuses_with_reason_and_place(body, reason):
    with pytest.raises(NotStrictJson) as caught:
        parse(body)
    assert reason in str(caught.value)
    assert len(str(caught.value)) < 250


@pytest.mark.parametrize("body", [body for body, _ in BAD.values()], ids=BAD.keys())
def test_is_answered_with_400(client, body):
    answer = client.ask(body)
    assert answer.status_code == 400
    assert answer.headers["content-type"] == "application/problem+json"
    problem = answer.json()
    assert problem["type"] == "/problems/invalid-json"
    assert problem["instance"] == "/v1/questions"
    assert problem["detail"].startswith("The body is not strict JSON: ")


@pytest.mark.parametrize(
    "text",
    [
        "{}",
        "[1.5, -0.0, 1e308, 1E-400, 0, -1]",
        '["\\ud83d\\ude00", "\u00e9", ""]',
        "[" * 150 + "]" * 150,
        "9" * 60,
        '"model-e900"',
        '[{"a": 1}, {"a": 2}]',
        "null",
    ],
)
def test_agrees_with_the_standard_library_on_what_is_sound(text):
    assert parse(text.encode()) == json.loads(text)


def test_a_fraction_of_300_digits_is_finite():
    assert parse(b"[0." + b"1" * 300 + b"]") == [pytest.approx(1 / 9)]


def test_a_long_name_is_not_echoed_in_full(client):
    name = b"x" * 5000
    answer = client.ask(b'{"' + name + b'": 1, "' + name + b'": 2}')
    assert answer.status_code == 400
    assert answer.text.count("x") < 200


def test_a_valid_question_is_answered(client, good):
    answer = client.post("/v1/questions", json=good)
    assert answer.status_code == 200
    assert answer.headers["content-type"] == "application/json"
    assert answer.json() == {"size": "6 AWG", "feet": 27.0, "label": ""}


@pytest.mark.source("RFC 8785, 3.2.2.3: minus zero is written 0")
@pytest.mark.parametrize("text", ["-0", "-0.0", "-0.000e+5", "-0E0", "[1, -0.0]", '{"a": {"b": [-0.0]}}'])
def test_there_is_one_zero(text):
    assert "-" not in json.dumps(parse(text.encode()))


def test_what_is_not_zero_keeps_its_sign():
    text = '["-0.0", -0.5, -0.01, -1, -10, "2025-01-14T00:00:00-00:00", -0.0]'
    assert parse(text.encode()) == [*json.loads(text)[:-1], 0.0]
    assert repr(parse(text.encode())[-1]) == "0.0"
