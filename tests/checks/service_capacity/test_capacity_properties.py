"""What holds between answers of capacity reviews: more load, less current, a larger service, another order."""

import random
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from tests.checks.effort import examples
from tests.checks.service_capacity.capacity_requests import HOUSE, asked, at, calculated, reviewed
from tests.checks.service_capacity.capacity_strategies import any_reviews, sound_chargers, usual_reviews
from tests.checks.service_capacity.services import capacity_reviewed

Json = dict[str, Any]

BADNESS = {"no-failure-found": 0, "undetermined": 1, "fail": 2}


def badness(answer: Json) -> int:
    return BADNESS[answer["verdict"]]


def largest(answer: Json, kind: str) -> float:
    return answer["capacity"]["largest_charging_current_a"][kind] or 0.0


LOADS = {
    "ranges": "rating_w",
    "dryers": "rating_w",
    "appliances": "rating_va",
    "heating": "rating_w",
    "cooling": "rating_va",
    "heat_pumps": "compressor_va",
}


@examples(60)
@given(usual_reviews(), st.floats(1, 3), st.data())
def test_more_of_one_load_never_raises_headroom_at_a_fixed_number_of_appliances(
    request: Json, more: float, data: st.DataObject
) -> None:
    existing = request["existing_load"]
    if existing["kind"] == "measured":
        changed = at(request, "/existing_load/measured_demand_w", existing["measured_demand_w"] * more + more)
    else:
        dwelling = existing["dwelling"]
        pointers = [
            f"/{kind}/{place}/{field}"
            for kind, field in LOADS.items()
            for place in range(len(dwelling.get(kind) or []))
        ] + ["/floor_area_ft2"]
        pointer = data.draw(st.sampled_from(pointers))
        _, *path = pointer.split("/")
        value: Any = dwelling
        for name in path:
            value = value[int(name)] if isinstance(value, list) else value[name]
        # The columns and notes of the table for cooking appliances lower the demand where a rating passes a limit,
        # and a load up to a limit is none of those that are counted: the tests of load calculations hold that.
        assume("/ranges/" not in pointer and "/appliances/" not in pointer)
        changed = at(request, "/existing_load/dwelling" + pointer, min(value * more, 900_000))
    before, after = reviewed(request), reviewed(changed)
    assert after["capacity"]["headroom_a"] <= before["capacity"]["headroom_a"] + 1e-9
    assert after["capacity"]["least_headroom_a"] <= before["capacity"]["least_headroom_a"] + 1e-9
    assert largest(after, "unmanaged") <= largest(before, "unmanaged")


@pytest.mark.source(
    "NEC 220.53 (2023): 75 percent from the fourth appliance on, so the code itself drops demand"
)
def test_the_code_itself_lowers_demand_when_a_fourth_appliance_joins() -> None:
    three = [{"name": f"heater {place}", "rating_va": 4500, "fastened_in_place": True} for place in range(3)]
    small = {"name": "disposer", "rating_va": 500, "fastened_in_place": True}
    motors: Json = {"motor": False, "voltage_v": 240}
    headroom = []
    for appliances in (three, [*three, small]):
        dwelling = {**HOUSE, "appliances": [{**item, **motors} for item in appliances]}
        answer = reviewed(asked(existing_load=calculated("standard", dwelling)))
        headroom.append(answer["capacity"]["headroom_a"])
    # 13 500 VA count in full; 14 000 VA at 75 percent are 10 500 VA: 12.5 A at 240 V come free.
    assert headroom[1] - headroom[0] == pytest.approx(12.5)


@examples(80)
@given(usual_reviews(), st.integers(0, 2), st.integers(6, 48))
def test_a_lower_setting_never_turns_a_pass_into_a_failure(request: Json, place: int, lower: int) -> None:
    place %= len(request["chargers"])
    charger = request["chargers"][place]
    management = request.get("management")
    assume(lower < charger["charging_current_a"])
    # A fail-safe current above the setting is a contradiction of its own.
    assume(management is None or management["fail_safe_current_a"] <= lower)
    changed = at(request, f"/chargers/{place}/charging_current_a", lower)
    assert badness(reviewed(changed)) <= badness(reviewed(request))


@examples(80)
@given(usual_reviews(), st.sampled_from((110, 125, 150, 200, 400, 1000)))
def test_a_larger_service_never_makes_it_worse(request: Json, rating: float) -> None:
    assume(rating > request["service"]["rating_a"])
    smaller, larger = reviewed(request), reviewed(at(request, "/service/rating_a", rating))
    assert badness(larger) <= badness(smaller)
    assert larger["capacity"]["headroom_a"] > smaller["capacity"]["headroom_a"]
    for kind in ("unmanaged", "managed"):
        assert largest(larger, kind) >= largest(smaller, kind)


@examples(50)
@given(usual_reviews(), sound_chargers())
def test_another_charger_never_makes_it_better(request: Json, charger: Json) -> None:
    more = {**request, "chargers": [*request["chargers"], charger]}
    assert badness(reviewed(more)) >= badness(reviewed(request))
    assert reviewed(more)["capacity"]["total_a"] >= reviewed(request)["capacity"]["total_a"] - 1e-9


@examples(50)
@given(usual_reviews())
def test_management_that_holds_never_makes_it_worse_and_the_largest_current_is_no_smaller(
    request: Json,
) -> None:
    answer = reviewed(request)
    for way in answer["capacity"]["ways_to_fit"]:
        assert BADNESS[way["verdict"]] <= badness(answer)
    # A stated control setting may be a low one; without any, the greatest that the service takes counts.
    answer = reviewed({name: value for name, value in request.items() if name != "management"})
    assert largest(answer, "managed") >= min(
        largest(answer, "unmanaged"), answer["capacity"]["limit_a"] / 1.25
    )


@examples(60)
@given(usual_reviews())
def test_the_largest_current_fits_and_the_next_setting_does_not(request: Json) -> None:
    """Asked again at the current that is named, and at the next whole ampere."""
    alone = {name: value for name, value in request.items() if name != "management"}
    answer = reviewed(alone)
    found = answer["capacity"]["largest_charging_current_a"]["unmanaged"]
    rated = min(charger["rated_current_a"] for charger in alone["chargers"])

    def load_outcome(current: float) -> str:
        tried = alone
        for place in range(len(alone["chargers"])):
            tried = at(tried, f"/chargers/{place}/charging_current_a", current)
        again = {item["rule"]: item["outcome"] for item in reviewed(tried)["findings"]}
        return str(again["service-capacity"])

    if found is not None:
        assert found in range(6, rated + 1)
        assert load_outcome(found) == "pass"
    following = 6 if found is None else found + 1
    if following <= rated:
        assert load_outcome(following) != "pass"


def _without_places(answer: Json) -> Json:
    """What does not depend on the order in which things are stated."""
    capacity = dict(answer["capacity"])
    capacity["ways_to_fit"] = [
        (way["way"], way["charging_current_a"], way["upgrade_to_a"], way["verdict"])
        for way in capacity["ways_to_fit"]
    ]
    return {
        "verdict": answer["verdict"],
        "outcomes": {item["rule"]: item["outcome"] for item in answer["findings"]},
        "interpretations": answer["interpretations"],
        "capacity": capacity,
    }


def _nearly_equal(one: Any, other: Any) -> bool:
    if isinstance(one, float) and isinstance(other, float):
        return bool(one == pytest.approx(other, rel=1e-9, abs=1e-9))
    if isinstance(one, dict) and isinstance(other, dict):
        return one.keys() == other.keys() and all(_nearly_equal(one[name], other[name]) for name in one)
    return bool(one == other)


@examples(60)
@given(any_reviews(), st.integers(0, 10**9))
def test_shuffling_changes_nothing(request: Json, seed: int) -> None:
    shuffled_by = random.Random(seed)  # noqa: S311 - an order, no secret
    places = list(range(len(request["chargers"])))
    shuffled_by.shuffle(places)
    shuffled = {**request, "chargers": [request["chargers"][place] for place in places]}
    if "shared_circuits" in request:
        # A charger that two circuits name belongs to the first: their order matters then, and stays.
        names = {old: new for new, old in enumerate(places)}
        shuffled["shared_circuits"] = [
            {**circuit, "chargers": [names.get(place, place) for place in circuit["chargers"]]}
            for circuit in request["shared_circuits"]
        ]
    existing = request["existing_load"]
    if existing["kind"] == "calculated":
        dwelling = dict(existing["dwelling"])
        for name, items in dwelling.items():
            if isinstance(items, list):
                dwelling[name] = shuffled_by.sample(items, len(items))
        shuffled["existing_load"] = {**existing, "dwelling": dwelling}
    one, other = capacity_reviewed(request), capacity_reviewed(shuffled)
    assert _nearly_equal(_without_places(one), _without_places(other))
