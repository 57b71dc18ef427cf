"""A missing fact: what passes without it passes whatever it is, and what fails fails whatever it is."""

import copy
from collections.abc import Iterator

from hypothesis import given
from hypothesis import strategies as st
from tests.checks.circuits import Json, designed, outcomes, reviewed
from tests.checks.effort import examples
from tests.checks.strategies import LOCATIONS, usual_designs, usual_reviews


def completions(request: Json, missing: str, place: int) -> Iterator[Json]:
    """The request with every value that the missing fact may have; the first one lacks it."""
    vague = copy.deepcopy(request)
    if missing == "location":
        del vague["run"][place]["location"]
        yield vague
        for location in LOCATIONS:
            run = [*vague["run"]]
            run[place] = {**run[place], "location": location}
            yield {**vague, "run": run}
    elif missing == "access":
        del vague["charger"]["setting_access"]
        yield vague
        for access in ("restricted", "unrestricted"):
            yield {**vague, "charger": {**vague["charger"], "setting_access": access}}
    elif missing == "temperature":
        terminals = vague["breaker"]["terminals"]
        del terminals["temperature_rating_c"]
        yield vague
        # What is not marked counts as 60 degC up to 100 A, where a marking may say 75, and as 75 degC above.
        breaker = request["installed"].get("breaker_rating_a")
        for rating in (60, 75) if breaker is None or breaker <= 100 else (75,):
            marked = {**terminals, "temperature_rating_c": rating}
            yield {**vague, "breaker": {**vague["breaker"], "terminals": marked}}
    elif missing == "occupancy":
        del vague["premises"]["occupancy"]
        yield vague
        for occupancy in ("one-family", "two-family", "multifamily", "other"):
            yield {**vague, "premises": {**vague["premises"], "occupancy": occupancy}}
    elif missing == "protection":
        del vague["installed"]["ground_fault_protection"]
        yield vague
        for protection in ("breaker", "receptacle", "charger", "none"):
            yield {**vague, "installed": {**vague["installed"], "ground_fault_protection": protection}}


@examples(150)
@given(
    st.one_of(usual_reviews(), usual_designs()),
    st.sampled_from(("location", "access", "temperature", "occupancy", "protection")),
    st.data(),
)
def test_a_judgement_without_a_fact_holds_for_every_value_of_it(
    asked: Json, missing: str, data: st.DataObject
) -> None:
    if "installed" not in asked:
        answer = designed(asked)
        if answer["design"] is None:
            return
        asked = answer["review_request"]
    if missing == "protection" and "ground_fault_protection" not in asked["installed"]:
        return
    place = data.draw(st.integers(0, len(asked["run"]) - 1))
    vague, *full = [outcomes(reviewed(request)) for request in completions(asked, missing, place)]
    for rule, outcome in vague.items():
        found = {answer[rule] for answer in full}
        if outcome == "pass":
            assert found <= {"pass", "not-applicable"}, rule
        elif outcome == "fail":
            assert found == {"fail"}, rule
        elif outcome == "not-applicable" and (missing, rule) != ("access", "setting-label"):
            # A setting whose access is unknown does not count, so that it needs no label; known to be restricted
            # it counts, and needs one.
            assert "fail" not in found, rule
