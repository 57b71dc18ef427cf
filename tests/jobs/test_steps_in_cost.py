"""What changes from one current to the next: never less for more, the rule that asks for it, and the marks."""

from itertools import pairwise
from typing import Any

from hypothesis import given
from hypothesis import strategies as st
from tests.checks.circuits import Json, by_rule, reviewed
from tests.checks.effort import examples
from tests.jobs.comparisons import (
    compared,
    comparisons,
    design_at,
    served,
    size_rank,
    trade_size_rank,
)

LAST_ALLOWED = "last current that these facts allow"
SIZED = {"breaker": "breaker_rating_a", "ungrounded": "ungrounded_size", "grounding": "grounding_size"}


def raceways(row: Json) -> dict[int, str]:
    return {raceway["segment"]: raceway["trade_size"] for raceway in row["raceways"]}


@examples(80)
@given(st.one_of(comparisons(usual=True), comparisons(usual=False)))
def test_more_current_never_needs_less(request: Json) -> None:
    # Breakers here are at most 100 A where the current sets them, so unmarked terminals, which count as 60 degC
    # up to 100 A and as 75 degC above, cannot make a larger circuit need smaller conductors. What may shrink is
    # the grounding conductor: it grows in proportion to what the ungrounded conductors exceed the load's own
    # need by (voltage drop, a raceway's temperature), and a larger load leaves less of that. With it a raceway
    # may shrink too. A current may also have no circuit while a higher one has: where a raceway as it lies does
    # not take the grown grounding conductor.
    rows = served(compared(request))
    for lower, row in pairwise(rows):
        assert row["power_kw"] >= lower["power_kw"]
        assert row["breaker_rating_a"] >= lower["breaker_rating_a"]
        assert size_rank(row["ungrounded_size"]) >= size_rank(lower["ungrounded_size"])
        if size_rank(row["grounding_size"]) >= size_rank(lower["grounding_size"]):
            before = raceways(lower)
            for segment, trade_size in raceways(row).items():
                assert trade_size_rank(trade_size) >= trade_size_rank(before[segment])
        if lower["disconnect_required"]:
            assert row["disconnect_required"]


def is_larger(change: Json) -> bool:
    if change["what"] == "raceway":
        return trade_size_rank(change["to"]) > trade_size_rank(change["from"])
    if change["what"] == "breaker":
        return float(change["to"]) > float(change["from"])
    return size_rank(change["to"]) > size_rank(change["from"])


def with_what_it_was(review: Json, change: Json) -> Json:
    """The review request of a row's design with one thing as it is at the lower current."""
    installed, run = dict(review["installed"]), [dict(segment) for segment in review["run"]]
    match change["what"]:
        case "raceway":
            run[change["segment"]]["raceway_trade_size"] = change["from"]
        case "ground-fault-protection":
            installed["ground_fault_protection"] = "none"
        case "disconnect":
            installed["disconnect"] = {"present": False}
        case "label":
            installed["setting_label"] = False
        case "breaker":
            installed["breaker_rating_a"] = change["from"]
        case what:
            installed[f"{what}_size"] = change["from"]
    return {**review, "run": run, "installed": installed}


def holds_against_the_rows(lower: Json, row: Json) -> None:
    """Every difference between two rows is a change, and every change is a difference."""
    words = {None: "undetermined", True: "required", False: "not-required"}
    expected: dict[tuple[str, int | None], tuple[Any, Any]] = {}
    for what, field in (
        ("breaker", "breaker_rating_a"),
        ("ungrounded", "ungrounded_size"),
        ("neutral", "neutral_size"),
        ("grounding", "grounding_size"),
    ):
        expected[what, None] = lower[field], row[field]
    for what in ("ground-fault-protection", "disconnect", "label"):
        field = f"{what.replace('-', '_')}_required"
        expected[what, None] = words[lower[field]], words[row[field]]
    for segment, trade_size in raceways(row).items():
        expected["raceway", segment] = raceways(lower)[segment], trade_size
    found = {(change["what"], change["segment"]): (change["from"], change["to"]) for change in row["changes"]}
    assert len(found) == len(row["changes"])
    assert found == {key: values for key, values in expected.items() if values[0] != values[1]}
    for change in row["changes"]:
        dear = (change["what"] in ("ungrounded", "raceway") and is_larger(change)) or (
            change["what"] == "disconnect" and change["to"] == "required"
        )
        assert change["is_dear"] == dear


@examples(60)
@given(st.one_of(comparisons(usual=True), comparisons(usual=False)))
def test_changes_are_the_differences_from_the_next_lower_current_with_a_circuit(request: Json) -> None:
    answer = compared(request)
    rows = served(answer)
    assert all(row["changes"] == [] for row in answer["rows"] if row not in rows)
    if rows:
        assert rows[0]["changes"] == []
    for lower, row in pairwise(rows):
        holds_against_the_rows(lower, row)


@examples(40)
@given(comparisons(usual=True))
def test_the_rule_of_a_change_refuses_what_was_there(request: Json) -> None:
    # Every fact is stated, so that no judgement waits. The neutral's own rule may permit a smaller one: it is
    # as large as the ungrounded conductors, and bears their rule.
    for row in served(compared(request)):
        for change in row["changes"]:
            what = change["what"]
            if what == "neutral":
                ungrounded = [other for other in row["changes"] if other["what"] == "ungrounded"]
                assert [change["rule"]] == [other["rule"] for other in ungrounded]
                assert row["neutral_size"] == row["ungrounded_size"]
                continue
            review = design_at(request, row["charging_current_a"])["review_request"]
            finding = by_rule(reviewed(with_what_it_was(review, change)))[change["rule"]]
            if what in ("ground-fault-protection", "disconnect", "label"):
                asked = "fail" if change["to"] == "required" else "not-applicable"
                assert finding["outcome"] == asked
            elif is_larger(change):
                assert finding["outcome"] == "fail"
                assert what != "raceway" or finding["segment"] == change["segment"]
            else:
                # Smaller than before: what was there would do, and is no longer asked for.
                assert finding["outcome"] == "pass"


@examples(60)
@given(comparisons(usual=True))
def test_marks_stand_where_the_next_current_is_dear_or_there_is_none(request: Json) -> None:
    answer = compared(request)
    rows = served(answer)
    assert all(row["mark"] is None for row in answer["rows"] if row not in rows)
    for row, higher in pairwise(rows):
        dear = [change for change in higher["changes"] if change["is_dear"]]
        assert (row["mark"] is not None) == bool(dear)
        for change in dear:
            assert change["what"] == "disconnect" or str(change["to"]) in row["mark"]
    if rows:
        more_was_asked = rows[-1] is not answer["rows"][-1]
        assert rows[-1]["mark"] == (LAST_ALLOWED if more_was_asked else None)
