"""What comes back: answers that may have grown, raw responses, and answers that are not the contract's."""

import copy
import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import httpx
import pytest

from .conftest import DESIGN, DESIGN_ANSWER, SMALL_CONTRACT, Service, design


def grown(value: Any) -> Any:
    """Return an answer in which every object has a field more."""
    if isinstance(value, dict):
        return {**{key: grown(item) for key, item in value.items()}, "added_later": {"deep": [1]}}
    return [grown(item) for item in value] if isinstance(value, list) else value


def test_unknown_fields_are_kept(service: Service) -> None:
    answer_with_more = grown({**DESIGN_ANSWER, "steps": []})
    answer = service.ask(design, answer_with_more)
    assert answer.model_extra == {"added_later": {"deep": [1]}}
    assert answer.findings[0].model_extra == {"added_later": {"deep": [1]}}
    assert answer.model_dump(mode="json", by_alias=True) == answer_with_more


def enum_places(
    schema: Any, schemas: dict[str, Any], path: tuple[Any, ...] = ()
) -> Iterator[tuple[Any, ...]]:
    """Yield the way to every value of an answer that the document limits to an enum or a constant."""
    if "$ref" in schema:
        schema = schemas[schema["$ref"].rpartition("/")[2]]
    if "enum" in schema or "const" in schema:
        yield path
    for name, field in schema.get("properties", {}).items():
        yield from enum_places(field, schemas, (*path, name))
    for choice in [*schema.get("anyOf", []), *schema.get("oneOf", [])]:
        yield from enum_places(choice, schemas, path)
    if "items" in schema:
        yield from enum_places(schema["items"], schemas, (*path, 0))


DOCUMENT = json.loads(SMALL_CONTRACT.read_text("utf-8"))
SCHEMAS = DOCUMENT["components"]["schemas"]
PLACES = sorted(set(enum_places(SCHEMAS["CircuitDesignAnswer"], SCHEMAS)), key=str)


def test_the_search_finds_every_enum_of_the_answer() -> None:
    assert PLACES == [
        ("design", "connection", "kind"),
        ("design", "size"),
        ("findings", 0, "force"),
        ("findings", 0, "outcome"),
        ("verdict",),
    ]


@pytest.mark.parametrize("place", PLACES, ids=str)
def test_unknown_values_of_every_enum_are_taken(service: Service, place: tuple[Any, ...]) -> None:
    body = copy.deepcopy(DESIGN_ANSWER)
    at: Any = body
    for step in place[:-1]:
        at = at[step]
    at[place[-1]] = "added-later"
    answer: Any = service.ask(design, body)
    for step in place:
        answer = answer[step] if isinstance(step, int) else getattr(answer, step)
    assert answer == "added-later"


def test_known_variants_of_a_union_keep_their_class(service: Service) -> None:
    models = service.sdk.models
    for connection, variant in [
        ({"kind": "hardwired"}, models.DesignedHardwired),
        ({"kind": "receptacle", "configuration": "14-50"}, models.DesignedReceptacle),
        ({"kind": "receptacle", "configuration": "14-50", "added_later": 1}, models.DesignedReceptacle),
        ({"kind": "wireless", "gap_mm": 150}, models.UnknownKind),
    ]:
        body = {**DESIGN_ANSWER, "design": {**DESIGN_ANSWER["design"], "connection": connection}}
        answer = service.ask(design, body)
        assert type(answer.design.connection) is variant
        assert answer.design.connection.model_dump() == connection


def test_a_raw_response_shows_everything(service: Service) -> None:
    response = httpx.Response(200, json=DESIGN_ANSWER, headers={"X-Request-ID": "abc", "ETag": '"1"'})
    raw = service.ask(lambda client: client.circuits.with_raw_response.design(**DESIGN), response)
    assert (raw.status_code, raw.request_id, raw.headers["etag"]) == (200, "abc", '"1"')
    assert json.loads(raw.content) == DESIGN_ANSWER
    assert raw.parse() == service.ask(design, DESIGN_ANSWER)
    assert repr(raw) == "RawResponse(200, CircuitDesignAnswer)"


def test_a_raw_question_may_be_a_whole_request_and_still_raises_problems(service: Service) -> None:
    def question(client: Any) -> Any:
        return client.circuits.with_raw_response.design_from(DESIGN)

    assert service.ask(question, DESIGN_ANSWER).request_id is None
    with pytest.raises(service.sdk.NotFound):
        service.ask(question, httpx.Response(404))


def test_not_modified_is_only_for_raw_questions(service: Service) -> None:
    def raw(client: Any) -> Any:
        asking = client.with_options(headers={"If-None-Match": '"1"'})
        return asking.codebook.with_raw_response.list_editions()

    response = service.ask(raw, httpx.Response(304))
    assert response.status_code == 304
    assert service.requests[0].headers["If-None-Match"] == '"1"'
    with pytest.raises(service.sdk.UnexpectedAnswer, match="no answer"):
        response.parse()
    with pytest.raises(service.sdk.UnexpectedAnswer, match="304"):
        service.ask(design, httpx.Response(304))


@pytest.mark.parametrize(
    ("status", "content"),
    [
        (200, b"<html>Sign in to the wireless network</html>"),
        (200, b'{"edition": "nec-2023"}'),
        (200, b"[]"),
        (200, b"\xff\xfe"),
        (200, b"[" * 100_000),
        (204, b""),
        (307, b""),
    ],
)
def test_what_the_contract_does_not_say_is_an_error_of_ours(
    service: Service, status: int, content: bytes
) -> None:
    headers = {"X-Request-ID": "abc", "Location": "http://elsewhere.test/"}
    response = httpx.Response(status, content=content, headers=headers)
    with pytest.raises(service.sdk.UnexpectedAnswer) as caught:
        service.ask(design, response)
    assert caught.value.status == status
    assert caught.value.request_id == "abc"
    assert "request abc" in str(caught.value)
    assert len(service.requests) == 1


def test_no_class_of_an_answer_is_closed(small_package: Path) -> None:
    source = (small_package / "models.py").read_text("utf-8")
    answers = {name for name in SCHEMAS if name.startswith("Designed")} | {
        "CircuitDesignAnswer",
        "Finding",
        "Health",
    }
    for part in source.split("\n\n\n"):
        name = part.removeprefix("class ").split("(")[0]
        if name in answers:
            assert 'extra="allow"' in part, name
