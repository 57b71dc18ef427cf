"""Part of a customer system: for each job the circuit to offer, or why there is none yet.

Written as its developers would; the tests put it through strict type checkers and run it.
"""

import asyncio
from collections.abc import Iterable
from dataclasses import dataclass
from typing import assert_type

from branchwright_sdk import (
    AsyncClient,
    BranchwrightError,
    Client,
    FieldError,
    InvalidRequest,
    NotAuthenticated,
    Problem,
    TooManyRequests,
)
from branchwright_sdk.mappings import Segment
from branchwright_sdk.models import CircuitDesignAnswer, CircuitReviewAnswer, Design, Finding


@dataclass(frozen=True)
class Job:
    """What the customer system knows of a job."""

    number: str
    charging_current_a: float
    run_length_ft: float


@dataclass(frozen=True)
class Offer:
    """What goes onto the offer."""

    number: str
    breaker_rating_a: float | None = None
    conductor_size: str | None = None
    to_ask: tuple[str, ...] = ()
    error: str | None = None


def request_for(job: Job) -> dict[str, object]:
    """Return the whole request of a job, as JSON would hold it."""
    run: list[Segment] = [
        {"wiring_method": "emt", "length": {"value": job.run_length_ft, "unit": "ft"}, "location": "dry"}
    ]
    return {
        "edition": "nec-2023",
        "supply": {"system": "split-phase-120-240"},
        "charger": {
            "charging_current_a": job.charging_current_a,
            "connection": {"kind": "hardwired"},
            "terminals": {"temperature_rating_c": 75},
        },
        "breaker": {"terminals": {"temperature_rating_c": 75}},
        "conductors": {"material": "copper", "insulation": "THWN-2"},
        "run": run,
    }


def undetermined(findings: Iterable[Finding]) -> tuple[str, ...]:
    """Return the fields that the customer has to be asked for."""
    return tuple(
        finding.pointer for finding in findings if finding.outcome == "undetermined" and finding.pointer
    )


def offer_from(job: Job, answer: CircuitDesignAnswer) -> Offer:
    """Return the offer that an answer leads to."""
    assert_type(answer.design, Design | None)
    to_ask = undetermined(answer.findings)
    if answer.design is None:
        return Offer(job.number, to_ask=to_ask)
    breaker_rating_a: float = answer.design.breaker.rating_a
    conductor_size: str = answer.design.conductors.ungrounded.size
    return Offer(job.number, breaker_rating_a, conductor_size, to_ask)


def offers(client: Client, jobs: Iterable[Job]) -> list[Offer]:
    """Return an offer for each job; a job that cannot be asked says why and holds up no other."""
    found: list[Offer] = []
    for job in jobs:
        try:
            found.append(offer_from(job, client.circuits.design_from(request_for(job))))
        except InvalidRequest as error:
            assert_type(error.errors, tuple[FieldError, ...])
            found.append(Offer(job.number, error="; ".join(field.pointer for field in error.errors)))
    return found


async def offers_together(client: AsyncClient, jobs: Iterable[Job]) -> list[Offer]:
    """Return the same, asked for all at once."""
    known = list(jobs)
    answers = await asyncio.gather(*(client.circuits.design_from(request_for(job)) for job in known))
    assert_type(answers, list[CircuitDesignAnswer])
    return [offer_from(job, answer) for job, answer in zip(known, answers, strict=True)]


def holds(client: Client, answer: CircuitDesignAnswer) -> bool:
    """Return whether a review finds no fault with what was designed."""
    if answer.review_request is None:
        return False
    review = client.circuits.review_from(answer.review_request)
    assert_type(review, CircuitReviewAnswer)
    return review.verdict != "fail"


def connected(base_url: str | None, api_key: str | None) -> str:
    """Return what the settings page of the customer system shows of the connection."""
    try:
        with Client(base_url, api_key, timeout=2.5, max_retries=0) as client:
            names: list[str] = [edition.name for edition in client.codebook.list_editions().items]
    except NotAuthenticated as error:
        return f"ask for a new key ({error.request_id})"
    except TooManyRequests:
        return "busy"
    except Problem as error:
        return f"refused: {error.status} {error.title}"
    except BranchwrightError as error:
        return f"not connected: {error}"
    return "knows " + ", ".join(names)


def main() -> None:
    """Make the offers of a morning without any server."""
    with Client.embedded() as client:
        assert_type(client, Client)
        for offer in offers(client, [Job("2026-001", 40, 30), Job("2026-002", 48, 55)]):
            print(offer)


if __name__ == "__main__":
    main()
