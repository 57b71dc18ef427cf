"""What goes out: method, path, query and body, as the contract writes them."""

import datetime
import json
from collections.abc import Callable
from decimal import Decimal
from enum import StrEnum
from pathlib import Path
from typing import Any

import httpx
import pytest

from .conftest import DESIGN, DESIGN_ANSWER, Service, design


def sent(service: Service) -> Any:
    return json.loads(service.requests[-1].content)


def test_a_question_goes_to_its_path_with_only_what_was_given(service: Service) -> None:
    answer = service.ask(design, DESIGN_ANSWER)
    request = service.requests[0]
    assert (request.method, str(request.url)) == ("POST", "http://service.test/v1/circuit-designs")
    assert request.headers["Content-Type"] == "application/json"
    assert request.headers["Accept"] == "application/json"
    assert sent(service) == DESIGN
    assert answer.design.breaker_rating_a == 40.0
    assert answer.steps[0].inputs["a"].from_ == "codebook:x"


def test_null_is_sent_and_omitted_is_not(service: Service) -> None:
    omitted = service.sdk.OMITTED
    service.ask(
        lambda client: client.circuits.design(**DESIGN, jurisdiction=None, least_size=omitted), DESIGN_ANSWER
    )
    assert sent(service) == {**DESIGN, "jurisdiction": None}


def test_a_field_named_like_a_keyword_takes_an_underscore(service: Service) -> None:
    service.ask(lambda client: client.circuits.design(**DESIGN, from_="here"), DESIGN_ANSWER)
    assert sent(service)["from"] == "here"


def test_models_and_mappings_mix_and_send_only_their_set_fields(service: Service) -> None:
    models = service.sdk.models
    question = {
        **DESIGN,
        "supply": models.Supply(system="split-phase-120-240"),
        "charger": {"charging_current_a": 32.0, "connection": models.Hardwired(kind="hardwired")},
        "run": (models.Segment(wiring_method="emt", length=models.Length(value=27, unit="ft")),),
    }
    service.ask(lambda client: client.circuits.design(**question), DESIGN_ANSWER)
    assert sent(service) == DESIGN


def test_a_whole_request_goes_to_the_twin_method(service: Service) -> None:
    request = service.sdk.models.CircuitDesignRequest(**DESIGN, from_="here")
    service.ask(lambda client: client.circuits.design_from(request), DESIGN_ANSWER)
    assert sent(service) == {**DESIGN, "from": "here"}
    service.ask(lambda client: client.circuits.design_from(json.loads(json.dumps(DESIGN))), DESIGN_ANSWER)
    assert sent(service) == DESIGN


def test_text_beyond_ascii_goes_out_and_comes_back(service: Service) -> None:
    place = "Cañon City – 東京 🔌"
    answer = service.ask(
        lambda client: client.circuits.design(**DESIGN, jurisdiction=place),
        {**DESIGN_ANSWER, "verdict": place},
    )
    assert place.encode() in service.requests[0].content
    assert answer.verdict == place


def test_path_and_query_are_escaped(service: Service) -> None:
    service.ask(
        lambda client: client.codebook.get_table(edition="nec-2023", table="a/b ü?"),
        {"name": "t", "rows": [{"x": 1}]},
    )
    assert service.requests[-1].url.raw_path == b"/v1/editions/nec-2023/tables/a%2Fb%20%C3%BC%3F"
    service.ask(
        lambda client: client.codebook.list_editions(limit=2, from_="a&b"), {"items": [], "next": None}
    )
    assert dict(service.requests[-1].url.params) == {"limit": "2", "from": "a&b"}
    assert service.requests[-1].content == b""
    service.ask(lambda client: client.codebook.list_editions(), {"items": [], "next": None})
    assert service.requests[-1].url.query == b""


CSV = b"Start,kWh\n2025-01-14T17:00:00-06:00,4.37\n"


def test_a_body_of_another_form_goes_as_it_is_with_its_query(service: Service) -> None:
    answer = service.ask(
        lambda client: client.services.read_csv(
            CSV, unit="energy kWh", first_row=2, signed=False, edition=None
        ),
        {"total": 4.37},
    )
    request = service.requests[-1]
    assert (request.method, request.url.path) == ("POST", "/v1/readings")
    assert dict(request.url.params) == {"unit": "energy kWh", "first-row": "2", "signed": "false"}
    assert request.headers["Content-Type"] == "text/csv"
    assert request.headers["Accept"] == "application/json"
    assert request.content == CSV
    assert answer.total == 4.37
    service.ask(lambda client: client.services.read_xml(b"<feed/>", edition="nec-2023"), {"total": 0})
    assert service.requests[-1].headers["Content-Type"] == "application/xml"
    assert dict(service.requests[-1].url.params) == {"edition": "nec-2023"}
    service.ask(lambda client: client.services.read(values=[1, None]), {"total": 1})
    assert sent(service) == {"values": [1, None]}
    assert service.requests[-1].url.query == b""


@pytest.mark.parametrize("as_path", [str, Path])
def test_a_file_is_read_from_its_path(service: Service, tmp_path: Path, as_path: type) -> None:
    file = tmp_path / "Grünes Büro.csv"
    file.write_bytes(b"\xef\xbb\xbf" + CSV)
    raw = service.ask(
        lambda client: client.services.with_raw_response.read_csv(as_path(file), unit="kWh"), {"total": 4.37}
    )
    assert service.requests[-1].content == b"\xef\xbb\xbf" + CSV
    assert raw.parse().total == 4.37


def test_a_file_is_sent_again_whole(service: Service, tmp_path: Path) -> None:
    file = tmp_path / "readings.csv"
    file.write_bytes(CSV)
    service.ask(lambda client: client.services.read_csv(file, unit="kWh"), httpx.Response(503), {"total": 1})
    assert [request.content for request in service.requests] == [CSV, CSV]


@pytest.mark.parametrize("source", ["nothing.csv", "", ".", "a\0b", "Start,kWh\n" * 1000, 3, None, "\ud800"])
def test_a_file_that_cannot_be_read_is_said_before_sending(service: Service, source: Any) -> None:
    with pytest.raises(service.sdk.InvalidRequest, match="the file cannot be read: ") as caught:
        service.ask(lambda client: client.services.read_csv(source, unit="kWh"))
    assert service.requests == []
    assert len(str(caught.value.errors[0].given)) <= 200


@pytest.mark.parametrize("table", ["", ".", ".."])
def test_a_path_is_never_led_astray(service: Service, table: str) -> None:
    with pytest.raises(service.sdk.InvalidRequest, match="path:table: cannot be part of a path"):
        service.ask(lambda client: client.codebook.get_table(edition="nec-2023", table=table))
    assert service.requests == []


def test_an_address_may_have_a_path(service: Service) -> None:
    service.ask(
        lambda client: client.operations.check_live(), {"status": "live"}, base_url="http://h.test/under/"
    )
    assert str(service.requests[0].url) == "http://h.test/under/health/live"


class Colour(StrEnum):
    RED = "red"


@pytest.mark.parametrize(
    ("given", "plain"),
    [
        (3.0, "3"),  # RFC 8785 section 3.2.2.3 writes whole numbers without a fraction
        (0.5, "0.5"),
        (1e300, "1e+300"),
        (True, "true"),
        (Decimal("9.50"), '"9.50"'),
        (datetime.date(2026, 1, 2), '"2026-01-02"'),
        (Colour.RED, '"red"'),
        ({"a": (1, [None])}, '{"a": [1, [null]]}'),
    ],
)
def test_values_become_json(sdk: Any, given: object, plain: str) -> None:
    assert json.dumps(sdk.bodies.plain(given)) == plain


def circular() -> dict[str, object]:
    mapping: dict[str, object] = {}
    mapping["itself"] = mapping
    return mapping


@pytest.mark.parametrize(
    ("change", "pointer", "message"),
    [
        ({"supply": {"sytem": "wye-208y-120"}}, "/supply/system", "Field required"),
        ({"supply": {"system": "wye-208y-120", "colour": "red"}}, "/supply/colour", "not permitted"),
        ({"supply": {"system": "wye 208Y/120"}}, "/supply/system", "did you mean 'wye-208y-120'?"),
        ({"least_size": "6awg"}, "/least_size", "did you mean '6 AWG'?"),
        (
            {"charger": {"charging_current_a": -1, "connection": {"kind": "hardwired"}}},
            "/charger/charging_current_a",
            "greater than 0",
        ),
        (
            {"charger": {"charging_current_a": "32", "connection": {"kind": "hardwired"}}},
            "/charger/charging_current_a",
            "valid number",
        ),
        (
            {"charger": {"charging_current_a": 32, "connection": {"kind": "receptacle"}}},
            "/charger/connection/configuration",
            "Field required",
        ),
        (
            {"charger": {"charging_current_a": 32, "connection": {"kind": "wireless"}}},
            "/charger/connection/kind",
            "'hardwired'",
        ),
        ({"run": []}, "/run", "at least 1 item"),
        (
            {
                "run": [
                    *DESIGN["run"],
                    {"wiring_method": "emt", "length": {"value": float("nan"), "unit": "ft"}},
                ]
            },
            "/run/1/length/value",
            "finite",
        ),
        ({"readings": {"a/b": 1}}, "/readings/a~1b", "valid string"),
        ({"readings": {"a": "\ud800"}}, "/readings/a", "Unicode"),
        ({"readings": {1: "a"}}, "/readings", "must be text"),
        ({"jurisdiction": object()}, "/jurisdiction", "object cannot be sent"),
        ({"jurisdiction": b"x"}, "/jurisdiction", "bytes"),
        ({"readings": circular()}, "", "within itself"),
    ],
)
def test_what_breaks_the_contract_is_found_before_sending(
    service: Service, change: dict[str, Any], pointer: str, message: str
) -> None:
    with pytest.raises(service.sdk.InvalidRequest) as caught:
        service.ask(lambda client: client.circuits.design(**{**DESIGN, **change}))
    assert service.requests == []
    assert caught.value.status == 422
    assert caught.value.request_id is None
    found = {error.pointer: error.message for error in caught.value.errors}
    assert message in found[pointer]
    assert f"{pointer or 'the request'}: " in str(caught.value)


HARDWIRED = {"charging_current_a": 32, "connection": {"kind": "hardwired"}}


@pytest.mark.parametrize(
    ("change", "code", "given", "allowed"),
    [
        ({"edition": "nec-1897" * 100}, "not-an-allowed-value", "nec-1897" * 25, ("nec-2023", "nec-2026")),
        ({"supply": {"system": "wye-208y-120", "phases": 2}}, "not-an-allowed-value", 2, ("1", "3")),
        ({"supply": {}}, "missing", None, ()),
        ({"supply": {"system": "wye-208y-120", "colour": 1}}, "unknown-field", 1, ()),
        ({"charger": {**HARDWIRED, "charging_current_a": -1}}, "out-of-range", -1, ("more than 0.0",)),
        ({"charger": {**HARDWIRED, "charging_current_a": [1]}}, "wrong-type", "list", ()),
        ({"charger": {**HARDWIRED, "connection": {}}}, "missing", None, ()),
        (
            {"charger": {**HARDWIRED, "connection": {"kind": "wire"}}},
            "not-an-allowed-value",
            "wire",
            ("hardwired", "receptacle"),
        ),
        ({"run": []}, "wrong-length", "list", ("a length of at least 1",)),
        ({"jurisdiction": "x" * 201}, "wrong-length", "x" * 200, ("a length of at most 200",)),
        ({"jurisdiction": float("inf")}, "invalid", "inf", ()),
        ({"jurisdiction": 10**5000}, "invalid", "an integer of 16610 bits", ()),
    ],
)
def test_a_local_error_says_what_was_given_and_what_is_allowed(
    service: Service, change: dict[str, Any], code: str, given: object, allowed: tuple[str, ...]
) -> None:
    with pytest.raises(service.sdk.InvalidRequest) as caught:
        service.ask(lambda client: client.circuits.design(**{**DESIGN, **change}))
    (error,) = caught.value.errors
    assert (error.code, error.given, error.allowed) == (code, given, allowed)


def test_a_mapping_has_the_names_on_the_wire(service: Service) -> None:
    with pytest.raises(service.sdk.InvalidRequest, match="/from_: "):
        service.ask(lambda client: client.circuits.design_from({**DESIGN, "from_": "here"}))
    service.ask(lambda client: client.circuits.design_from({**DESIGN, "from": "here"}), DESIGN_ANSWER)


@pytest.mark.parametrize("request_", [[], "text", 3, None])
def test_a_whole_request_must_be_an_object(service: Service, request_: object) -> None:
    with pytest.raises(service.sdk.InvalidRequest):
        service.ask(lambda client: client.circuits.design_from(request_))


@pytest.mark.parametrize("wrong", [{}, {"colour": "red"}])
def test_unknown_and_missing_arguments_are_plain_type_errors(sdk: Any, wrong: dict[str, Any]) -> None:
    with httpx.Client() as http, pytest.raises(TypeError):
        sdk.Client("http://service.test", http_client=http).circuits.design(**wrong)


QUESTIONS: list[Callable[[Any], Any]] = [
    design,
    lambda client: client.circuits.review(**DESIGN),
    lambda client: client.codebook.list_editions(),
    lambda client: client.codebook.get_table(edition="nec-2023", table="t"),
    lambda client: client.operations.check_live(),
    lambda client: client.services.read_csv(b"", unit="kWh"),
    lambda client: client.services.read_xml(b""),
]


@pytest.mark.parametrize("question", QUESTIONS)
def test_every_method_reaches_the_service(service: Service, question: Callable[[Any], Any]) -> None:
    with pytest.raises(service.sdk.NotFound):
        service.ask(question, httpx.Response(404))
    assert len(service.requests) == 1
