"""What holds of all interval data, whatever it is."""

import json
import random
from datetime import UTC, datetime, timedelta

from hypothesis import assume, given
from hypothesis import strategies as st
from tests.checks.effort import examples
from tests.checks.interval_data.asking import as_json, ask_csv, ask_json, stamped
from tests.checks.interval_data.green_button_files import house
from tests.checks.interval_data.test_csv_layouts import LAYOUTS

from branchwright.checks.service_capacity.interval_data import (
    Instructions,
    IntervalDataRequest,
    UnreadableBody,
    read_csv,
    read_green_button,
    read_json,
)
from branchwright.checks.service_capacity.interval_data.answers import NormalisedSeries
from branchwright.checks.service_capacity.interval_data.printing import print_csv, print_green_button

FIRST = datetime(2023, 1, 1, tzinfo=UTC)
VALUES = st.floats(0, 20_000).map(lambda value: round(value, 3))


@st.composite
def readings(draw: st.DrawFn) -> list[tuple[str, float]]:
    """Readings by the hour, with gaps, in the order of time."""
    hours = sorted(draw(st.sets(st.integers(0, 300), min_size=2, max_size=80)))
    return [((FIRST + timedelta(hours=hour)).isoformat(), draw(VALUES)) for hour in hours]


@examples(100)
@given(readings(), st.integers(0, 400), st.floats(0, 0.999))
def test_a_reading_below_the_greatest_never_changes_the_demand(
    some: list[tuple[str, float]], hour: int, share: float
) -> None:
    before = ask_json(stamped(some, interval_minutes=60))["measured_demand"]
    assume(before is not None)
    greatest = max(value for _, value in some)
    added = ((FIRST + timedelta(hours=hour)).isoformat(), greatest * share)
    assume(added[0] not in dict(some))
    after = ask_json(stamped([*some, added], interval_minutes=60))["measured_demand"]
    for part in ("greatest_w", "at", "averaging_minutes", "greatest_a"):
        assert after[part] == before[part]


@examples(100)
@given(readings(), st.randoms(use_true_random=False))
def test_shuffling_changes_nothing_but_the_count_of_what_is_unsorted(
    some: list[tuple[str, float]], randomly: random.Random
) -> None:
    shuffled = list(some)
    randomly.shuffle(shuffled)
    before, after = (
        ask_json(stamped(each, interval_minutes=60), edition="nec-2023") for each in (some, shuffled)
    )
    for part in before:
        if part == "quality":
            assert {**before[part], "unsorted": None} == {**after[part], "unsorted": None}
        elif part == "findings":
            assert [each for each in before[part] if each["rule"] != "interval-data-order"] == [
                each for each in after[part] if each["rule"] != "interval-data-order"
            ]
        elif part != "provenance":
            assert before[part] == after[part]
    assert (after["quality"]["unsorted"] == 0) == (shuffled == some)


ENERGIES = st.lists(
    st.one_of(st.none(), st.floats(-1e6, 1e6).map(lambda value: round(value, 6))), max_size=200
)
SERIES = st.builds(
    lambda start, minutes, first, inside, last: NormalisedSeries(
        start.isoformat(), minutes, "Wh", [first, *inside, last], None
    ),
    st.datetimes(datetime(1990, 1, 1), datetime(2100, 1, 1)).map(
        lambda moment: moment.replace(second=0, microsecond=0, tzinfo=UTC)
    ),
    st.sampled_from([1, 5, 10, 15, 30, 60, 1440]),
    VALUES,
    ENERGIES,
    VALUES,
)


@examples(100)
@given(SERIES)
def test_what_is_printed_as_csv_is_read_as_it_was(series: NormalisedSeries) -> None:
    answer = ask_csv(
        print_csv(series),
        unit="energy-wh",
        time_column="start",
        value_column="energy_wh",
        stamps_at="start",
        interval_minutes=str(series.interval_minutes),
    )
    assert answer["series"]["energy_wh"] == series.energy_wh
    assert answer["series"]["start"] == series.start
    assert answer["quality"]["fault_count"] == 0


@examples(100)
@given(SERIES)
def test_what_is_printed_as_green_button_is_read_as_it_was(series: NormalisedSeries) -> None:
    answer = as_json(read_green_button(print_green_button(series).encode(), Instructions()))
    assert answer["series"]["energy_wh"] == series.energy_wh
    assert answer["series"]["start"] == series.start
    assert answer["quality"]["fault_count"] == 0
    assert answer["series"]["interval_minutes"] == series.interval_minutes


STAMPS = st.one_of(
    st.from_regex(
        r"(19|20)[0-9]{2}-(0[1-9]|1[0-2])-[0-3][0-9]T[0-2][0-9]:[0-5][0-9](:00)?(Z|[+-]0[0-9]:00)?",
        fullmatch=True,
    ),
    st.sampled_from(["2023-11-05T01:30:00", "2023-03-12T02:30:00", "2023-02-01T00:00:00.5Z"]),
)
ANY_SERIES = st.one_of(
    st.fixed_dictionaries(
        {"kind": st.just("regular"), "start": STAMPS, "interval_minutes": st.integers(1, 1440)},
        optional={
            name: st.lists(st.one_of(st.none(), st.floats(-1e12, 1e12)), min_size=1, max_size=40)
            for name in ("energy_wh", "power_w")
        },
    ),
    st.fixed_dictionaries(
        {
            "kind": st.just("stamped"),
            "unit": st.sampled_from(
                ["energy-wh", "energy-kwh", "power-w", "power-kw", "register-wh", "register-kwh"]
            ),
            "readings": st.lists(
                st.fixed_dictionaries(
                    {"at": STAMPS, "value": st.one_of(st.none(), st.floats(-1e12, 1e12))},
                    optional={"quality": st.sampled_from([None, "measured", "estimated", "unknown"])},
                ),
                min_size=1,
                max_size=40,
            ),
        },
        optional={
            "stamps_at": st.sampled_from(["start", "end"]),
            "interval_minutes": st.integers(1, 1440),
        },
    ),
)
REQUESTS = st.fixed_dictionaries(
    {"series": ANY_SERIES},
    optional={
        "edition": st.sampled_from(["nec-2017", "nec-2020", "nec-2023", "nec-2026"]),
        "time_zone": st.sampled_from(["America/Denver", "Australia/Lord_Howe", "Nowhere/Atall", "UTC"]),
        "system": st.sampled_from(["split-phase-120-240", "wye-208y-120"]),
        "phases": st.sampled_from([1, 3]),
        "has_generation": st.booleans(),
        "leg_assumption": st.sampled_from(["balanced", "all-on-one-leg"]),
        "jurisdiction": st.just("Springtown"),
    },
)


@examples(150)
@given(REQUESTS)
def test_whatever_fits_the_schema_is_answered(request: dict) -> None:
    answer = as_json(read_json(IntervalDataRequest.model_validate(request)))
    json.dumps(answer, allow_nan=False)
    assert len({each["rule"] for each in answer["findings"]}) == len(answer["findings"])
    assert (answer["series"] is None) == (answer["quality"]["expected"] is None)
    if answer["series"] is None:
        assert answer["verdict"] != "no-failure-found"
        assert answer["measured_demand"] is None


@examples(150)
@given(st.data())
def test_no_csv_makes_a_traceback(data: st.DataObject) -> None:
    text, query = LAYOUTS[data.draw(st.sampled_from(sorted(LAYOUTS)))]
    body = bytearray(text.encode())
    for _ in range(data.draw(st.integers(1, 6))):
        place = data.draw(st.integers(0, len(body) - 1))
        body[place : place + data.draw(st.integers(0, 9))] = data.draw(
            st.one_of(
                st.binary(max_size=4), st.sampled_from([b'"', b",", b";", b"\n", b"-", b"1e9", b"\xc3\xa9"])
            )
        )
    try:
        answer = read_csv(bytes(body), Instructions.model_validate({**query, "time_zone": "America/Denver"}))
    except UnreadableBody as error:
        assert "UTF-8" in error.detail
    else:
        json.dumps(as_json(answer), allow_nan=False)


@examples(150)
@given(st.data())
def test_no_xml_makes_a_traceback(data: st.DataObject) -> None:
    body = bytearray(house([400, 700, 350, 5200]).encode())
    for _ in range(data.draw(st.integers(1, 6))):
        place = data.draw(st.integers(0, len(body) - 1))
        body[place : place + data.draw(st.integers(0, 9))] = data.draw(
            st.one_of(
                st.binary(max_size=4), st.sampled_from([b"<", b"</", b">", b"&lt;", b"9" * 30, b"<value>"])
            )
        )
    try:
        answer = read_green_button(bytes(body), Instructions())
    except UnreadableBody:
        return
    json.dumps(as_json(answer), allow_nan=False)
