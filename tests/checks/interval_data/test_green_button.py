"""Green Button files put together in every way that the standard leaves open."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.checks.effort import examples
from tests.checks.interval_data.asking import ask_xml, finding, outcome
from tests.checks.interval_data.green_button_files import (
    MIDNIGHT,
    block,
    feed,
    hours,
    house,
    local_time,
    meter_reading,
    reading,
    reading_type,
    usage_point,
)

VALUES = [400, 700, 350, 5200, 900, 300, 420, 610]
ESPI = "NAESB ESPI: its schema of energy usage information"


def energies(text: str, **query: str) -> list[float | None]:
    return ask_xml(text, **query)["series"]["energy_wh"]


def test_the_plain_file_is_read() -> None:
    answer = ask_xml(house(VALUES))
    assert answer["series"]["energy_wh"] == VALUES
    assert answer["series"]["start"] == "2023-01-01T00:00:00+00:00"
    assert answer["series"]["zone"] is None
    assert outcome(answer, "choice") == outcome(answer, "layout") == outcome(answer, "readings") == "pass"


ENTRIES = [
    usage_point(),
    meter_reading(),
    reading_type(),
    local_time(),
    block(hours(VALUES[:4]), place=1),
    block(hours(VALUES[4:], MIDNIGHT + 4 * 3600), place=2),
]


@pytest.mark.source("RFC 4287, 4.1.1: the order of entries has no meaning")
@examples(30)
@given(st.permutations(ENTRIES))
def test_the_order_of_entries_changes_nothing(entries: list[str]) -> None:
    answer = ask_xml(feed(*entries))
    assert answer["series"]["energy_wh"] == VALUES
    assert outcome(answer, "order") == "pass", "blocks may stand in any order"


def test_links_and_not_places_tell_which_type_is_whose() -> None:
    # The type of the house stands last and is the one that its meter reading links to.
    entries = [
        usage_point(),
        meter_reading(kind=2),
        reading_type(1, powerOfTenMultiplier=3),
        block(hours(VALUES)),
        reading_type(2, powerOfTenMultiplier=0),
    ]
    assert energies(feed(*entries)) == VALUES


def test_absolute_and_relative_links_are_the_same() -> None:
    text = house(VALUES).replace('rel="self" href="/', 'rel="self" href="https://meters.example/')
    assert energies(text) == VALUES


def test_a_file_without_links_is_plain_where_nothing_can_be_confused() -> None:
    bare = re.sub(r"<link [^>]*>", "", feed(reading_type(), block(hours(VALUES))))
    assert energies(bare) == VALUES


def test_a_file_without_links_and_with_two_types_is_not() -> None:
    bare = re.sub(r"<link [^>]*>", "", feed(reading_type(1), reading_type(2, uom=38), block(hours(VALUES))))
    answer = ask_xml(bare)
    assert answer["series"] is None
    assert outcome(answer, "layout") == "undetermined"
    assert "no ReadingType belongs to it" in finding(answer, "layout")["message"]


@pytest.mark.source("XML Namespaces 1.0: a prefix has no meaning of its own")
def test_prefixes_have_no_meaning() -> None:
    text = house(VALUES)
    for name in ("feed", "title", "entry", "link", "content"):
        text = re.sub(rf"<(/?){name}\b", rf"<\1a:{name}", text)
    assert energies(text.replace("xmlns=", "xmlns:a=", 1)) == VALUES


@pytest.mark.source(ESPI)
@pytest.mark.parametrize(
    "fields, expected",
    [
        ({"powerOfTenMultiplier": 3}, [value * 1000 for value in VALUES]),
        ({"powerOfTenMultiplier": -3}, [value / 1000 for value in VALUES]),
        ({"powerOfTenMultiplier": None}, VALUES),
        ({"uom": 38, "kind": 37}, VALUES),
    ],
    ids=["kWh", "mWh", "no multiplier", "average W over an hour"],
)
def test_the_unit_and_the_power_of_ten_are_the_types(fields: dict, expected: list[float]) -> None:
    assert energies(house(VALUES, **fields)) == expected


def test_average_power_over_a_quarter_is_a_quarter_of_it_in_energy() -> None:
    readings = [reading(MIDNIGHT + 900 * at, value, 900) for at, value in enumerate(VALUES)]
    text = feed(
        usage_point(), meter_reading(), reading_type(uom=38, kind=37, intervalLength=900), block(readings)
    )
    assert energies(text) == [value / 4 for value in VALUES]


@pytest.mark.source(ESPI)
@pytest.mark.parametrize("behaviour", [1, 2, 3])
def test_a_register_is_read_as_one(behaviour: int) -> None:
    registers = [100_000]
    for value in VALUES:
        registers.append(registers[-1] + value)
    answer = ask_xml(house(registers, accumulationBehaviour=behaviour))
    assert answer["series"]["energy_wh"] == VALUES
    assert outcome(answer, "registers") == "pass"
    assert answer["quality"]["register_like"] is False


def test_a_register_that_falls_is_named() -> None:
    answer = ask_xml(house([9000, 9500, 100, 700], accumulationBehaviour=3))
    assert answer["series"]["energy_wh"] == [500, None, 600]
    failed = finding(answer, "registers")
    assert failed["outcome"] == "fail"
    assert "from 9500 to 100" in failed["message"]
    assert "2023-01-01T02:00:00" in failed["message"]


@pytest.mark.source(ESPI)
def test_without_time_periods_the_block_and_the_interval_length_tell_the_time() -> None:
    readings = [reading(None, value, None) for value in VALUES]
    text = feed(usage_point(), meter_reading(), reading_type(), block(readings, start=MIDNIGHT))
    answer = ask_xml(text)
    assert answer["series"]["energy_wh"] == VALUES
    assert answer["series"]["start"] == "2023-01-01T00:00:00+00:00"


def test_a_reading_that_cannot_be_read_keeps_its_place_in_such_a_block() -> None:
    values = [400, "4o0", 350]
    readings = [reading(None, value, None) for value in values]
    answer = ask_xml(feed(usage_point(), meter_reading(), reading_type(), block(readings, start=MIDNIGHT)))
    assert answer["series"]["energy_wh"] == [400, None, 350]
    failed = finding(answer, "readings")
    assert failed["outcome"] == "fail"
    assert "reading 2" in failed["message"]
    assert failed["provided"]["value"] == "4o0"


@pytest.mark.parametrize("start, length", [(None, 3600), (MIDNIGHT, None), (None, None)])
def test_without_any_time_a_reading_is_a_fault(start: int | None, length: int | None) -> None:
    readings = [reading(None, value, None) for value in VALUES]
    answer = ask_xml(
        feed(
            usage_point(), meter_reading(), reading_type(intervalLength=length), block(readings, start=start)
        )
    )
    assert answer["series"] is None
    assert outcome(answer, "readings") == "fail"
    assert finding(answer, "readings")["message"].count("has no start") == 3
    assert answer["quality"]["faults"][7]["at"].endswith("reading 8")


@pytest.mark.source(ESPI)
def test_marks_of_quality_are_counted() -> None:
    codes = [0, 7, 8, 9, 10, 11, 12, 13, 14, 17, 18, 99]
    readings = [reading(MIDNIGHT + 3600 * at, 500 + at, quality=code) for at, code in enumerate(codes)]
    quality = ask_xml(feed(usage_point(), meter_reading(), reading_type(), block(readings)))["quality"]
    assert quality["estimated"] == 6, "7, 8, 9, 11, 12, 13"
    assert quality["questionable"] == 2, "10, and a code that the standard has not"


@pytest.mark.source(ESPI)
def test_a_default_quality_stands_for_readings_without_one() -> None:
    readings = hours([500, 600, 700]) + hours([800], MIDNIGHT + 3 * 3600, quality=10)
    text = feed(usage_point(), meter_reading(), reading_type(defaultQuality=8), block(readings))
    quality = ask_xml(text)["quality"]
    assert (quality["estimated"], quality["questionable"]) == (3, 1)


def test_the_greatest_reading_must_be_measured() -> None:
    readings = hours(VALUES)
    readings[3] = reading(MIDNIGHT + 3 * 3600, 5200, quality=8)
    answer = ask_xml(feed(usage_point(), meter_reading(), reading_type(), block(readings)))
    assert outcome(answer, "greatest-reading") == "undetermined"
    assert "marked as estimated or edited" in finding(answer, "greatest-reading")["message"]
    readings[3] = reading(MIDNIGHT + 3 * 3600, 5200, quality=10)
    answer = ask_xml(feed(usage_point(), meter_reading(), reading_type(), block(readings)))
    assert "marked as questionable" in finding(answer, "greatest-reading")["message"]
    readings[3] = reading(MIDNIGHT + 3 * 3600, 5200)
    readings[4] = reading(MIDNIGHT + 4 * 3600, 900, quality=10)
    answer = ask_xml(feed(usage_point(), meter_reading(), reading_type(), block(readings)))
    assert outcome(answer, "greatest-reading") == "pass"
    assert "1 others" in finding(answer, "greatest-reading")["message"]


@pytest.mark.parametrize("power", ["99", "three", "1.5", ""])
def test_a_power_of_ten_that_is_none_is_named(power: str) -> None:
    text = house(VALUES).replace("<powerOfTenMultiplier>0<", f"<powerOfTenMultiplier>{power}<")
    failed = finding(ask_xml(text), "layout")
    assert failed["outcome"] == "fail"
    assert "powerOfTenMultiplier" in failed["message"]
    assert failed["provided"]["value"] == power


def two_series(**second: int | None) -> str:
    return feed(
        usage_point(),
        meter_reading(number=1, kind=1, title="First"),
        meter_reading(number=2, kind=2, title="Second"),
        reading_type(1),
        reading_type(2, **second),
        block(hours(VALUES), number=1),
        block(hours([100] * 8), number=2),
    )


def test_of_two_series_that_can_be_the_load_none_is_taken() -> None:
    answer = ask_xml(two_series())
    assert answer["series"] is None and answer["measured_demand"] is None
    failed = finding(answer, "choice")
    assert failed["outcome"] == "fail"
    assert "/UsagePoint/1/MeterReading/1" in failed["message"]
    assert "/UsagePoint/1/MeterReading/2" in failed["message"]


@pytest.mark.parametrize(
    "name", ["First", "/UsagePoint/1/MeterReading/1", "https://m.example/UsagePoint/1/MeterReading/1/"]
)
def test_the_request_can_name_the_one_that_is_meant(name: str) -> None:
    assert energies(two_series(), meter_reading=name) == VALUES
    assert energies(two_series(), meter_reading="Second") == [100] * 8


def test_a_name_that_no_series_has_is_a_failure_that_lists_them() -> None:
    answer = ask_xml(two_series(), meter_reading="Third")
    failed = finding(answer, "choice")
    assert (failed["outcome"], failed["pointer"]) == ("fail", "query:meter_reading")
    assert failed["provided"]["value"] == "Third"
    assert "MeterReading/1" in failed["message"]


@pytest.mark.source(ESPI)
@pytest.mark.parametrize(
    "second",
    [
        {"uom": 73},
        {"commodity": 7},
        {"dataQualifier": 8},
        {"uom": 38, "accumulationBehaviour": 12},
        {"uom": 29},
    ],
    ids=["reactive", "gas", "greatest of each interval", "instants", "volts"],
)
def test_what_cannot_be_the_load_makes_no_doubt(second: dict) -> None:
    answer = ask_xml(two_series(**second))
    assert answer["series"]["energy_wh"] == VALUES
    assert outcome(answer, "choice") == "pass"


def test_a_file_of_gas_alone_says_so() -> None:
    answer = ask_xml(
        feed(usage_point(kind=1), meter_reading(), reading_type(commodity=7), block(hours(VALUES)))
    )
    assert answer["series"] is None
    assert "service kind 1" in finding(answer, "choice")["message"]


@pytest.mark.source(ESPI)
def test_received_energy_beside_it_is_a_sign_of_generation() -> None:
    query = {"edition": "nec-2023", "has_generation": "false"}
    answer = ask_xml(two_series(flowDirection=19), **query)
    assert answer["series"]["energy_wh"] == VALUES
    assert outcome(answer, "generation") == "fail"
    assert "stated that there is none" in finding(answer, "generation")["message"]
    assert outcome(ask_xml(house(VALUES), **query), "generation") == "pass"


@pytest.mark.parametrize("flow", [4, 20])
def test_net_and_total_flow_are_signs_of_generation(flow: int) -> None:
    answer = ask_xml(house(VALUES, flowDirection=flow), edition="nec-2023", has_generation="false")
    assert outcome(answer, "generation") == "fail"


def test_a_second_usage_point_without_readings_makes_no_doubt() -> None:
    text = feed(usage_point(1), usage_point(2, "Barn"), meter_reading(), reading_type(), block(hours(VALUES)))
    assert energies(text) == VALUES


def test_a_block_that_belongs_to_no_meter_reading_is_named() -> None:
    entries = [
        usage_point(),
        meter_reading(number=1),
        meter_reading(number=2),
        reading_type(),
        block(hours(VALUES), number=1),
        block(hours(VALUES), point=7),
    ]
    failed = finding(ask_xml(feed(*entries)), "choice")
    assert failed["outcome"] == "fail"
    assert "entry 6 (/UsagePoint/7/MeterReading/1/IntervalBlock/1)" in failed["message"]


def test_the_files_own_local_time_tells_months_and_days() -> None:
    # From noon of 11 March to noon of 13 March 2023, mountain time: 47 hours on the clock, 48 in truth.
    start = MIDNIGHT + (69 * 24 + 12 + 7) * 3600
    text = feed(
        usage_point(more=["/LocalTimeParameters/1"]),
        meter_reading(),
        reading_type(),
        local_time(),
        block(hours([500] * 47, start)),
    )
    answer = ask_xml(text)
    assert answer["series"]["start"] == "2023-03-11T12:00:00-07:00"
    assert answer["quality"]["short_days"] == [{"date": "2023-03-12", "hours": 23}]
    assert "body:LocalTimeParameters" in {each["pointer"] for each in answer["to_verify"]}


def test_a_stated_zone_goes_before_the_files_own() -> None:
    text = feed(usage_point(), meter_reading(), reading_type(), local_time(), block(hours(VALUES)))
    assert ask_xml(text, time_zone="America/New_York")["series"]["start"] == "2022-12-31T19:00:00-05:00"


def test_impossible_local_time_is_named() -> None:
    for wrong in (local_time(offset=999999), local_time(start="ZZ"), local_time(start="060E2000")):
        answer = ask_xml(feed(usage_point(), meter_reading(), reading_type(), wrong, block(hours(VALUES))))
        assert outcome(answer, "time-zone") == "fail"
        assert "LocalTimeParameters" in finding(answer, "time-zone")["message"]


def test_xml_that_is_no_green_button_is_a_failure() -> None:
    answer = ask_xml("<html><body>Sign in to download</body></html>")
    assert answer["series"] is None
    assert outcome(answer, "layout") == "fail"


def test_instructions_for_csv_mean_nothing_here() -> None:
    answer = ask_xml(house(VALUES), value_column="usage", delimiter="comma")
    found = finding(answer, "instructions")
    assert (found["outcome"], found["force"]) == ("fail", "recommendation")
    assert "query:value_column, query:delimiter" in found["message"]
    assert answer["series"]["energy_wh"] == VALUES
