"""A row says what the design of the same facts and current says, and nothing else."""

from collections import defaultdict

from hypothesis import given
from hypothesis import strategies as st
from tests.checks.circuits import Json
from tests.checks.effort import examples
from tests.jobs.comparisons import USUAL_CURRENTS_A, compared, comparisons, design_at

RATED = "/charger/rated_current_a"
ACCESS = "/charger/setting_access"
ENERGY = {"power_kw", "kwh_per_hour", "kwh_per_night"}
ACROSS_ROWS = {"changes", "mark"}


def expected_row(design_answer: Json) -> Json:
    """What a row shows of a design answer: the circuit where there is one, else nothing of it."""
    failing: defaultdict[str, list[str]] = defaultdict(list)
    for finding in design_answer["findings"]:
        if finding["force"] == "requirement":
            failing[finding["outcome"]].append(finding["rule"])
    row = {
        "verdict": design_answer["verdict"],
        "failed_rules": failing["fail"],
        "undetermined_rules": failing["undetermined"],
    }
    design = design_answer["design"]
    if design is None:
        nothing = ("breaker_rating_a", "poles", "ungrounded_size", "neutral_size", "grounding_size")
        needs = ("ground_fault_protection_required", "disconnect_required", "label_required")
        return {
            **row,
            **dict.fromkeys((*nothing, *needs, "voltage_drop", "conductor_temperature_c")),
            "raceways": [],
        }
    temperatures = [segment["conductor_temperature_c"] for segment in design["segments"]]
    known = [temperature for temperature in temperatures if temperature is not None]
    drop = design["voltage_drop"]
    return {
        **row,
        "breaker_rating_a": design["breaker"]["rating_a"],
        "poles": design["breaker"]["poles"],
        "ungrounded_size": design["conductors"]["ungrounded"]["size"],
        "neutral_size": design["conductors"]["neutral"] and design["conductors"]["neutral"]["size"],
        "grounding_size": design["conductors"]["grounding"]["size"],
        "raceways": [
            {"segment": index, "wiring_method": segment["wiring_method"], **segment["raceway"]}
            for index, segment in enumerate(design["segments"])
            if segment["raceway"]
        ],
        "voltage_drop": drop and {"volts": drop["volts"], "percent": drop["percent"]},
        "conductor_temperature_c": max(known, default=None),
        "ground_fault_protection_required": design["breaker"]["ground_fault_protection"]["required"],
        "disconnect_required": design["disconnect"]["required"],
        "label_required": design["label"]["required"],
    }


def holds_row_by_row(request: Json) -> None:
    answer = compared(request)
    currents = [row["charging_current_a"] for row in answer["rows"]]
    assert currents == sorted(set(request["currents_a"] or USUAL_CURRENTS_A))
    designs = {current: design_at(request, current) for current in currents}
    for row in answer["rows"]:
        shown = {name: value for name, value in row.items() if name not in ENERGY | ACROSS_ROWS}
        del shown["charging_current_a"]
        # Nobody asked for a cost.
        assert shown == {**expected_row(designs[row["charging_current_a"]]), "cost": None}

    for name in ("edition", "jurisdiction", "cautions"):
        assert all(design[name] == answer[name] for design in designs.values())
    for current, design in designs.items():
        assert answer["not_examined"][:-1] == design["not_examined"]
        # Access that is not stated matters below the rated current alone: the lowest row tells whether it does.
        apart = (RATED,) if current == currents[0] else (RATED, ACCESS)
        assert [item for item in answer["to_verify"] if item["pointer"] not in apart] == [
            item for item in design["to_verify"] if item["pointer"] not in apart
        ]
        assert [item["pointer"] for item in answer["to_verify"] if item["pointer"] not in apart[1:]] == [
            item["pointer"] for item in design["to_verify"] if item["pointer"] not in apart[1:]
        ]

    expected: dict[str, Json] = {}
    for current, design in designs.items():
        for item in design["interpretations"]:
            readings = {other["reading"]: [] for other in item["other_readings"]}
            found = expected.setdefault(item["name"], {"reading": item["reading"], "others": readings})
            assert found["reading"] == item["reading"]
            for other in item["other_readings"]:
                if other["verdict"] != design["verdict"]:
                    found["others"][other["reading"]].append(current)
    assert {
        item["name"]: {
            "reading": item["reading"],
            "others": {other["reading"]: other["currents_a"] for other in item["other_readings"]},
        }
        for item in answer["interpretations"]
    } == expected


def test_access_that_matters_at_the_lowest_current_alone_is_verified() -> None:
    holds_row_by_row(
        {
            "edition": "nec-2023",
            "supply": {"system": "split-phase-120-240"},
            "charger": {"connection": {"kind": "hardwired"}, "rated_current_a": 8},
            "conductors": {"material": "copper"},
            "run": [{"wiring_method": "emt", "length": {"value": 1, "unit": "ft"}}],
            "currents_a": [6, 8],
        }
    )


@examples(40)
@given(comparisons(usual=True))
def test_rows_of_usual_requests_are_designs(request: Json) -> None:
    holds_row_by_row(request)


@examples(40)
@given(comparisons(usual=False))
def test_rows_of_any_requests_are_designs(request: Json) -> None:
    holds_row_by_row(request)


@examples(20)
@given(comparisons(usual=True), st.randoms(use_true_random=False))
def test_the_order_of_the_currents_and_repeats_do_not_matter(request: Json, shuffled_by: object) -> None:
    currents = list(request["currents_a"] or USUAL_CURRENTS_A)
    again = [*currents, *currents[:2]]
    shuffled_by.shuffle(again)  # type: ignore[attr-defined]
    one, other = compared({**request, "currents_a": currents}), compared({**request, "currents_a": again})
    assert one["rows"] == other["rows"]
    assert one["interpretations"] == other["interpretations"]
