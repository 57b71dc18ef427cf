"""Money on its way through the SDK: exact on both sides, and a float never gets that far."""

import json
from decimal import Decimal
from typing import Any

import httpx
import pytest

from .conftest import Service

ANSWER: dict[str, Any] = {"total": "0.30", "least": None, "lines": ["12345678901234567.89", "-0.10"]}


def price(service: Service, **changes: Any) -> Any:
    question = {"charge": "9.50", "tiers": [{"per_kwh": "0.31"}], **changes}
    return service.ask(lambda client: client.costs.price(**question), ANSWER)


def sent(service: Service) -> Any:
    return json.loads(service.requests[-1].content)


@pytest.mark.parametrize(
    ("given", "text"),
    [
        ("9.50", "9.50"),
        (Decimal("9.50"), "9.50"),
        (Decimal("0.00000001"), "0.00000001"),
        (Decimal("1E+3"), "1000"),
        (Decimal("1E-7"), "0.0000001"),
        (Decimal("123456789012.12345678"), "123456789012.12345678"),
    ],
)
def test_a_decimal_and_its_text_are_sent_as_the_same_text(service: Service, given: Any, text: str) -> None:
    price(service, charge=given, least=given, tiers=[{"per_kwh": given}], prices={"a": given})
    expected = {"charge": text, "least": text, "tiers": [{"per_kwh": text}], "prices": {"a": text}}
    assert sent(service) == expected
    models = service.sdk.models
    tier = models.PriceTier(per_kwh=given)
    assert Decimal(tier.per_kwh) == Decimal(text)
    request = models.PriceRequest(charge=given, least=given, tiers=[tier], prices={"a": given})
    service.ask(lambda client: client.costs.price_from(request), ANSWER)
    assert sent(service) == expected


def test_what_is_not_stated_stays_so(service: Service) -> None:
    price(service, least=None)
    assert sent(service) == {"charge": "9.50", "least": None, "tiers": [{"per_kwh": "0.31"}]}


@pytest.mark.parametrize(
    ("given", "code"),
    [
        (9.5, "wrong-type"),
        (9, "wrong-type"),
        (True, "wrong-type"),
        ("9,50", "wrong-format"),
        ("", "wrong-format"),
        ("1e5", "wrong-format"),
        ("9.123456789", "wrong-format"),
        ("1234567890123", "wrong-format"),
        (Decimal("NaN"), "wrong-format"),
        (Decimal("-Infinity"), "wrong-format"),
        (Decimal("1E+999999999"), "wrong-format"),
        (Decimal("0.1") / 3, "wrong-format"),
    ],
    ids=str,
)
@pytest.mark.parametrize("place", ["/charge", "/least", "/tiers/0/per_kwh"])
def test_anything_else_is_refused_before_it_is_sent(
    service: Service, place: str, given: Any, code: str
) -> None:
    changes = {place.split("/")[1]: given if place.count("/") == 1 else [{"per_kwh": given}]}
    with pytest.raises(service.sdk.InvalidRequest) as refused:
        price(service, **changes)
    (error,) = refused.value.errors
    assert (error.pointer, error.code) == (place, code)
    assert service.requests == []


def test_answers_are_exact(service: Service) -> None:
    answer = price(service)
    assert answer.total == Decimal("0.30")
    assert str(answer.total) == "0.30"
    assert answer.least is None
    # No binary fraction holds these digits.
    assert answer.lines == [Decimal("12345678901234567.89"), Decimal("-0.10")]
    assert json.loads(answer.model_dump_json()) == ANSWER


def test_an_answer_with_other_text_is_an_error_of_ours(service: Service) -> None:
    with pytest.raises(service.sdk.UnexpectedAnswer, match="PriceAnswer"):
        service.ask(
            lambda client: client.costs.price(charge="1", tiers=[]),
            httpx.Response(200, json={**ANSWER, "total": "a lot"}),
        )
