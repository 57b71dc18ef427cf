"""Bodies of interval data that mean harm or nonsense: each is a problem or a finding, never a fault."""

import gzip
import json
import zlib

import pytest
from tests.contract.document import JSON, OPERATIONS, conforms

READ = OPERATIONS["read_interval_data"]
STUDY = OPERATIONS["study_managed_charging"]
XML = "application/xml"
CSV = "text/csv"
LIMIT = 32 * 1024 * 1024
ATOM = 'xmlns="http://www.w3.org/2005/Atom"'


def send(client, content, media_type, operation=READ, **options):
    """Post a body in one of its forms."""
    headers = {"Content-Type": media_type} | options.pop("headers", {})
    return client.post(operation.path, content=content, headers=headers, **options)


def problem(client, status, slug, content, media_type, operation=READ, **options):
    """The problem that a body must be answered with."""
    found = conforms(operation, status, send(client, content, media_type, operation, **options))
    assert found["type"] == f"/problems/{slug}"
    assert len(found["detail"]) < 500
    return found


def answer(client, content, media_type, **options):
    return conforms(READ, 200, send(client, content, media_type, **options))


def bomb(levels: int) -> bytes:
    """Entities that each stand for ten of the one before: 10**levels laughs."""
    declared = "".join(
        f'<!ENTITY e{level} "{f"&e{level - 1};" * 10 if level else "laugh"}">' for level in range(levels)
    )
    return f"<!DOCTYPE feed [{declared}]><feed {ATOM}>&e{levels - 1};</feed>".encode()


UNREADABLE_XML = {
    "nothing": b"",
    "no XML": b"Start,kWh\n1,2\n",
    "an open element": f"<feed {ATOM}>".encode(),
    "two roots": b"<a/><b/>",
    "an undeclared entity": f"<feed {ATOM}>&nothing;</feed>".encode(),
    "an entity of its own": b'<!DOCTYPE a [<!ENTITY b "c">]><a>&b;</a>',
    "a document type alone": b"<!DOCTYPE feed><feed/>",
    "a document type elsewhere": b'<!DOCTYPE feed SYSTEM "http://127.0.0.1:1/feed.dtd"><feed/>',
    "a file of the server": b'<!DOCTYPE a [<!ENTITY b SYSTEM "file:///etc/passwd">]><a>&b;</a>',
    "a parameter entity": b'<!DOCTYPE a [<!ENTITY % b SYSTEM "http://127.0.0.1:1/"> %b;]><a/>',
    "a few laughs": bomb(3),
    "a billion laughs": bomb(10),
    "a quadratic blow-up": b'<!DOCTYPE a [<!ENTITY b "'
    + b"c" * 100_000
    + b'">]><a>'
    + b"&b;" * 1_000
    + b"</a>",
    "depth": b"<a>" * 100_000 + b"</a>" * 100_000,
    "bytes that are no UTF-8": f"<feed {ATOM}>".encode() + b"\xff\xfe</feed>",
    "a null character": f"<feed {ATOM}>\0</feed>".encode(),
    "an unknown encoding": b'<?xml version="1.0" encoding="ebcdic"?><feed/>',
    "a name without end": b"<" + b"a" * 1_000_000,
}


@pytest.mark.parametrize("name", UNREADABLE_XML)
def test_xml_that_may_not_be_read_is_a_problem(client, name):
    found = problem(client, 400, "unreadable-body", UNREADABLE_XML[name], XML)
    assert "passwd" not in json.dumps(found)
    assert "root:" not in json.dumps(found)


@pytest.mark.parametrize(
    "content",
    [
        b"<feed/>",
        b"<html><body>Please sign in</body></html>",
        f"<feed {ATOM}><entry><content/></entry></feed>".encode(),
        f"<?xml-stylesheet href='http://127.0.0.1:1/a.xsl'?><feed {ATOM}/>".encode(),
        b"<a " + b" ".join(f'b{number}="c"'.encode() for number in range(10_000)) + b"/>",
        f"<feed {ATOM}>{'<entry/>' * 1_000}</feed>".encode(),
    ],
    ids=["empty", "a page", "an empty entry", "a stylesheet", "attributes", "entries"],
)
def test_xml_without_readings_is_answered_with_what_is_missing(client, content):
    found = answer(client, content, XML)
    assert found["verdict"] == "fail"
    assert found["series"] is None


UNREADABLE_TEXT = {
    "latin-1": "Zähler,kWh\n".encode("latin-1"),
    "utf-16": "Start,kWh\n".encode("utf-16"),
    "an overlong form": b"Start,kWh\n\xc0\xaf",
    "half a surrogate pair": b"Start,kWh\n\xed\xa0\x80",
    "a byte cut off": "Start,kWh\n€".encode()[:-1],
}


@pytest.mark.source("RFC 3629: what is no UTF-8, among it overlong forms and surrogates")
@pytest.mark.parametrize("name", UNREADABLE_TEXT)
def test_text_that_is_no_utf_8_is_a_problem(client, name):
    problem(client, 400, "unreadable-body", UNREADABLE_TEXT[name], CSV)


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"\xef\xbb\xbf",
        b"\x00" * 1_000,
        b"\n" * 100_000,
        b"," * 100_000,
        b'"' * 99_999,
        b'Start,kWh\n"never closed,1\n' * 100,
        b"Start,kWh\n" + b"x" * 1_000_000,
        b"Start,kWh\n2025-01-14T00:00:00Z," + b"9" * 10_000,
        b"Start,kWh\n2025-01-14T00:00:00Z,NaN\n2025-01-14T01:00:00Z,inf\n",
        "Start,kWh\n٢٠٢٥-٠١-١٤,١\n".encode(),
        b"Start,kWh\n=cmd|' /C calc'!A0,1\n",
        b"<!DOCTYPE a><a/>",
        b'{"series": {}}',
    ],
)
def test_text_that_is_no_table_of_readings_is_answered_with_what_is_wrong(client, content):
    query = {"unit": "energy-kwh", "time_column": "Start", "value_column": "kWh"}
    found = answer(client, content, CSV, params=query)
    assert found["verdict"] == "fail"
    failing = [item for item in found["findings"] if item["outcome"] == "fail"]
    assert all(len(item["message"]) < 1_000 for item in failing)


def test_more_readings_than_are_taken_are_refused_or_named(client):
    # Six years of quarter hours are taken: 210,240.
    many = "Start,kWh\n" + "2025-01-14T00:00:00Z,1\n" * 210_241
    found = send(client, many.encode(), CSV, params={"unit": "energy-kwh"})
    assert found.status_code in {200, 400}
    conforms(READ, found.status_code, found)
    series = {
        "kind": "regular",
        "start": "2025-01-14T00:00:00Z",
        "interval_minutes": 15,
        "energy_wh": [1] * 210_241,
    }
    refused = problem(client, 422, "invalid-request", json.dumps({"series": series}).encode(), JSON)
    assert [error["code"] for error in refused["errors"]] == ["wrong-length"]


@pytest.mark.parametrize("operation", [READ, STUDY], ids=lambda operation: operation.name)
@pytest.mark.parametrize(
    "content",
    [
        b'{"series": {"kind": "regular", "energy_wh": [NaN]}}',
        b'{"house_load": {"energy_wh": [1e999]}}',
        b'{"jurisdiction": "\\udc00"}',
        b'{"series": {}, "series": {}}',
        b"[" * 100_000,
        b'{"a":' * 100_000,
        b"1" * 1_000_000,
        b'"' + b"\\u0041" * 1_000_000 + b'"',
        b'{"edition": "nec-2023"',
    ],
)
def test_json_that_is_not_strict_is_a_problem(client, operation, content):
    found = send(client, content, JSON, operation)
    assert found.status_code in {400, 422}
    conforms(operation, found.status_code, found)


@pytest.mark.parametrize("operation", [READ, STUDY], ids=lambda operation: operation.name)
def test_as_many_misfits_as_there_are_readings_are_one_place(client, operation):
    wrong = ["x"] * 200_000
    body = {
        "series": {
            "kind": "regular",
            "start": "2025-01-14T00:00:00Z",
            "interval_minutes": 15,
            "energy_wh": wrong,
        },
        "house_load": {
            "start": "2025-01-14T00:00:00Z",
            "interval_minutes": 15,
            "time_zone": "UTC",
            "energy_wh": wrong,
        },
    }
    found = problem(client, 422, "invalid-request", json.dumps(body).encode(), JSON, operation)
    place = "/series/energy_wh/0" if operation is READ else "/house_load/energy_wh/0"
    assert place in [error["pointer"] for error in found["errors"]]
    assert len(found["errors"]) < 10


def test_as_many_unknown_fields_as_fit_a_body_are_refused_at_once(client):
    flood = json.dumps({f"f{number}": 0 for number in range(900_000)}).encode()
    problem(client, 413, "body-too-large", flood, JSON)


@pytest.mark.parametrize("media_type", READ.media_types)
def test_bodies_have_one_limit_whatever_their_form(client, media_type):
    problem(client, 413, "body-too-large", b" " * (LIMIT + 1), media_type)


# A hundred megabytes of zeros in a hundred kilobytes.
PACKED = {"gzip": gzip.compress(bytes(10**8)), "deflate": zlib.compress(bytes(10**8))}


@pytest.mark.parametrize("media_type", READ.media_types)
@pytest.mark.parametrize("encoding", ["gzip", "deflate", "br", "zstd", "x-gzip", "identity, gzip", ""])
def test_an_encoded_body_is_never_unpacked(client, media_type, encoding):
    packed = PACKED.get(encoding, PACKED["gzip"])
    headers = {"Content-Encoding": encoding}
    problem(client, 415, "unsupported-media-type", packed, media_type, headers=headers)


@pytest.mark.parametrize(
    ("query", "pointer"),
    [
        ("unit=horses", "query:unit"),
        ("colum=a", "query:colum"),
        ("unit=energy-wh&unit=energy-kwh", "query:unit"),
        ("interval_minutes=0", "query:interval_minutes"),
        ("interval_minutes=15.5", "query:interval_minutes"),
        ("interval_minutes=٣", "query:interval_minutes"),
        ("has_generation=1", "query:has_generation"),
        ("phases=2", "query:phases"),
        ("time_column=", "query:time_column"),
        (f"value_column={'a' * 201}", "query:value_column"),
        ("edition=nec-1999", "query:edition"),
        ("measured_with_generation=refused", "query:measured_with_generation"),
    ],
)
@pytest.mark.parametrize("media_type", READ.media_types)
def test_a_query_that_does_not_fit_is_named_whatever_the_form(client, media_type, query, pointer):
    shown = next(iter(READ.examples_in(media_type).values()))
    content = (json.dumps(shown) if media_type == JSON else shown).encode()
    answer = client.post(f"{READ.path}?{query}", content=content, headers={"Content-Type": media_type})
    found = conforms(READ, 422, answer)
    assert [error["pointer"] for error in found["errors"]] == [pointer]


EXAMPLES = {"boolean": "false", "integer": "60", "string": "UTC"}


@pytest.mark.parametrize("media_type", READ.media_types)
def test_every_parameter_is_read_or_named_as_meaningless(client, media_type):
    """One by one: what a form takes is no advice against it, and what it does not is named."""
    shown = next(iter(READ.examples_in(media_type).values()))
    content = (json.dumps(shown) if media_type == JSON else shown).encode()
    method = READ.description["x-client"]["bodies"].get(media_type, {"parameters": []})
    for parameter in READ.description["parameters"]:
        schema, name = parameter["schema"], parameter["name"]
        value = (
            str(schema["enum"][0])
            if "enum" in schema
            else {"boolean": "false", "integer": "60"}.get(schema["type"])
        )
        found = answer(client, content, media_type, params={name: value or "UTC"})
        (named,) = [item for item in found["findings"] if item["rule"] == "interval-data-instructions"]
        assert (name in named["message"]) == (name not in method["parameters"]), name
        assert named["force"] == "recommendation"
