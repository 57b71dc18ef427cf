"""CSV that is wrong or leaves a doubt: each fault names its line, column and value; nothing is guessed."""

import pytest
from tests.checks.interval_data.asking import ask_csv, finding, outcome

from branchwright.checks.service_capacity.interval_data import Instructions, UnreadableBody, read_csv

QUERY = {"time_column": "time", "value_column": "usage", "unit": "energy-kwh", "time_zone": "America/Denver"}


def table(*rows: str, header: str = "time,usage") -> str:
    return "\n".join([header, *rows, ""])


HOURS = [f"2023-02-01 {hour:02}:00,0.{hour + 10}" for hour in range(24)]


@pytest.mark.parametrize(
    "row, at, given",
    [
        ("2023-02-01 24:30,0.5", "line 26, column 'time'", "2023-02-01 24:30"),
        ("2023-02-30 01:00,0.5", "line 26, column 'time'", "2023-02-30 01:00"),
        ("yesterday,0.5", "line 26, column 'time'", "yesterday"),
        ("2023-02-02,0.5", "line 26, column 'time'", "2023-02-02"),
        ("1923-02-02 00:00,0.5", "line 26, column 'time'", "1923-02-02 00:00"),
        ("2023-02-02 00:00 MST,0.5", "line 26, column 'time'", "2023-02-02 00:00 MST"),
        ("2023-02-02 13:00 PM,0.5", "line 26, column 'time'", "2023-02-02 13:00 PM"),
        ("2023-02-02 00:00+99:00,0.5", "line 26, column 'time'", "2023-02-02 00:00+99:00"),
        ("2023-02-02 00:00,n/a", "line 26, column 'usage'", "n/a"),
        ("2023-02-02 00:00,1_000", "line 26, column 'usage'", "1_000"),
        ("2023-02-02 00:00,0x10", "line 26, column 'usage'", "0x10"),
        ("2023-02-02 00:00,NaN", "line 26, column 'usage'", "NaN"),
        ("2023-02-02 00:00,1e99", "line 26, column 'usage'", "1e99"),
        ("2023-02-02 00:00,٣", "line 26, column 'usage'", "٣"),
        ("2023-02-02 00:00,-", "line 26, column 'usage'", "-"),
        ("2023-02-02 00:00", "line 26", "2023-02-02 00:00"),
    ],
)
def test_a_row_that_cannot_be_read_is_named(row: str, at: str, given: str) -> None:
    answer = ask_csv(table(*HOURS, row), **QUERY)
    failed = finding(answer, "readings")
    assert (failed["outcome"], failed["force"]) == ("fail", "requirement")
    assert failed["message"].startswith(f"{at}: ")
    assert failed["provided"]["value"] == given
    assert answer["quality"]["faults"][0]["at"] == at
    assert answer["quality"]["faults"][0]["given"] == given
    assert len(answer["series"]["energy_wh"]) == 24, "the others are there all the same"


def test_input_is_quoted_at_most_200_characters() -> None:
    answer = ask_csv(table(*HOURS, "2023-02-02 00:00," + "9z" * 5000), **QUERY)
    assert len(answer["quality"]["faults"][0]["given"]) == 200
    assert len(finding(answer, "readings")["message"]) < 700


def test_many_faults_are_counted_and_the_first_named() -> None:
    answer = ask_csv(table(*HOURS, *[f"2023-02-02 {hour:02}:00,x" for hour in range(24)] * 5), **QUERY)
    assert answer["quality"]["fault_count"] == 120
    assert len(answer["quality"]["faults"]) == 50
    message = finding(answer, "readings")["message"]
    assert message.count("column 'usage'") == 3
    assert message.endswith("117 more of this kind.")


def test_an_unknown_column_is_named_with_what_there_is() -> None:
    answer = ask_csv(table(*HOURS), **{**QUERY, "value_column": "usages"})
    failed = finding(answer, "layout")
    assert failed["outcome"] == "fail"
    assert failed["provided"]["value"] == "usages"
    assert "Is usage meant?" in failed["message"]
    assert "time, usage" in failed["message"]
    assert answer["series"] is None


def test_a_column_that_is_there_twice_is_a_failure() -> None:
    rows = [f"{row},1" for row in HOURS]
    answer = ask_csv(table(*rows, header="time,usage,usage"), **QUERY)
    assert "more than one column" in finding(answer, "layout")["message"]


@pytest.mark.parametrize("lacking", ["unit", "value_column", "time_column"])
def test_what_is_not_stated_is_undetermined_and_lists_the_columns(lacking: str) -> None:
    query = {name: value for name, value in QUERY.items() if name != lacking}
    answer = ask_csv(table(*HOURS), **query)
    found = finding(answer, "layout")
    assert (found["outcome"], found["pointer"]) == ("undetermined", f"query:{lacking}")
    assert "time, usage" in found["message"]
    assert answer["series"] is None and answer["measured_demand"] is None
    assert answer["verdict"] == "undetermined"


def test_a_row_a_day_needs_its_date() -> None:
    answer = ask_csv(table(*HOURS), first_value_column="usage", unit="energy-kwh")
    found = finding(answer, "layout")
    assert (found["outcome"], found["pointer"]) == ("undetermined", "query:date_column")
    assert "time, usage" in found["message"]


def test_nothing_stated_at_all_is_undetermined() -> None:
    answer = ask_csv(table(*HOURS))
    assert outcome(answer, "layout") == "undetermined"
    assert answer["edition"] is None


def test_two_layouts_at_once_are_a_contradiction() -> None:
    answer = ask_csv(table(*HOURS), **QUERY, date_column="time")
    assert outcome(answer, "layout") == "fail"
    assert finding(answer, "layout")["pointer"] == "query:time_column"


def test_without_zone_a_stamp_without_offset_is_a_failure() -> None:
    query = {name: value for name, value in QUERY.items() if name != "time_zone"}
    answer = ask_csv(table(*HOURS), **query)
    failed = finding(answer, "time-zone")
    assert failed["outcome"] == "fail"
    assert "line 2, column 'time': 24 of 24 stamps have no offset" in failed["message"]
    assert failed["provided"]["value"] == "2023-02-01T00:00:00"
    assert answer["series"] is None


def test_an_unknown_zone_is_named_with_its_neighbour() -> None:
    answer = ask_csv(table(*HOURS), **{**QUERY, "time_zone": "america/Denvr"})
    failed = [each for each in answer["quality"]["faults"] if each["at"] == "query:time_zone"]
    assert failed[0]["given"] == "america/Denvr"
    assert "Is America/Denver meant?" in failed[0]["message"]
    assert outcome(answer, "time-zone") == "fail"


@pytest.mark.parametrize("name", ["../../etc/passwd", "America", "/etc/localtime", "x" * 64, "UTC\x00"])
def test_a_zone_is_never_a_path(name: str) -> None:
    assert outcome(ask_csv(table(*HOURS), **{**QUERY, "time_zone": name}), "time-zone") == "fail"


def test_day_and_month_in_doubt_are_not_guessed() -> None:
    rows = [f"02/03/2023 {hour:02}:00,0.5" for hour in range(24)]
    answer = ask_csv(table(*rows), **QUERY)
    found = finding(answer, "layout")
    assert (found["outcome"], found["pointer"]) == ("undetermined", "query:date_order")
    assert answer["quality"]["faults"][0]["given"] == "02/03/2023 00:00"


@pytest.mark.parametrize(
    "days, order, first",
    [
        (["01/12/2023", "01/13/2023"], "month-day-year", "2023-01-12"),
        (["12.01.2023", "13.01.2023"], "day-month-year", "2023-01-12"),
    ],
)
def test_a_day_above_twelve_leaves_no_doubt_and_is_to_be_verified(
    days: list[str], order: str, first: str
) -> None:
    rows = [f"{day} {hour:02}:00,0.5" for day in days for hour in range(24)]
    answer = ask_csv(table(*rows), **QUERY)
    assert answer["series"]["start"].startswith(first)
    assert {
        "pointer": "query:date_order",
        "stated": f"not stated, told from the dates: {order}",
        "evidence": "the file",
    } in answer["to_verify"]


def test_dates_that_contradict_each_other_are_not_guessed() -> None:
    answer = ask_csv(table("13/01/2023 00:00,0.5", "01/13/2023 01:00,0.5"), **QUERY)
    assert outcome(answer, "layout") == "undetermined"


def test_years_of_two_digits_are_to_be_verified() -> None:
    answer = ask_csv(table(*[f"1/31/23 {hour}:00,0.5" for hour in range(24)]), **QUERY)
    assert answer["series"]["start"] == "2023-01-31T00:00:00-07:00"
    assert any("two digits" in each["stated"] for each in answer["to_verify"])


@pytest.mark.parametrize("cells", [["1,234", "2,345"], ["1,5", "1.5"]])
def test_a_decimal_mark_in_doubt_is_not_guessed(cells: list[str]) -> None:
    rows = [f'2023-02-01 {hour:02}:00,"{cell}"' for hour, cell in enumerate(cells)]
    answer = ask_csv(table(*rows), **QUERY)
    assert finding(answer, "layout")["pointer"] == "query:decimal_mark"
    assert outcome(answer, "layout") == "undetermined"


@pytest.mark.parametrize(
    "cells, mark, expected",
    [
        (["1,234", "2,345"], "comma", [1234, 2345]),
        (["1,234", "2,345"], "point", [1_234_000, 2_345_000]),
        (["0,234", "2,345"], None, [234, 2345]),
        (["1,25", "2,345"], None, [1250, 2345]),
        (["1.234,5", "2,345"], None, [1_234_500, 2345]),
        (["1,234.5", "2,345"], None, [1_234_500, 2_345_000]),
        (["1,234,567.0", "5"], None, [1_234_567_000, 5000]),
        (["1,234,567", "5"], None, [1_234_567_000, 5000]),
        (["1.234.567", "5"], None, [1_234_567_000, 5000]),
        (["1.25", "3"], None, [1250, 3000]),
        (["+1.5", ".5"], None, [1500, 500]),
        (["1e-3", "2E2"], None, [1, 200_000]),
    ],
)
def test_numbers_are_read_as_their_mark_says(
    cells: list[str], mark: str | None, expected: list[float]
) -> None:
    rows = [f'2023-02-01 {hour:02}:00,"{cell}"' for hour, cell in enumerate(cells)]
    query = QUERY if mark is None else {**QUERY, "decimal_mark": mark}
    assert ask_csv(table(*rows), **query)["series"]["energy_wh"] == expected


def test_three_decimals_between_semicolons_are_in_doubt() -> None:
    rows = ["2023-02-01 00:00;1.234", "2023-02-01 01:00;2.345"]
    assert (
        finding(ask_csv(table(*rows, header="time;usage"), **QUERY), "layout")["pointer"]
        == "query:decimal_mark"
    )


def test_an_empty_value_is_a_gap_and_no_fault() -> None:
    answer = ask_csv(table(*HOURS, "2023-02-02 00:00,", "2023-02-02 01:00,0.5"), **QUERY)
    assert answer["series"]["energy_wh"][24:] == [None, 500]
    assert answer["quality"]["fault_count"] == 0
    assert answer["quality"]["gap_count"] == 1


def test_an_empty_value_belongs_to_its_interval_where_stamps_are_ends() -> None:
    answer = ask_csv(table("2023-02-01 00:00,", *HOURS[1:]), **QUERY, stamps_at="end")
    assert answer["series"]["start"] == "2023-01-31T23:00:00-07:00"
    assert len(answer["series"]["energy_wh"]) == 24
    assert answer["series"]["energy_wh"][:2] == [None, 110]


@pytest.mark.parametrize("text", ["", "\n\n", "time,usage\n", "no table here"])
def test_a_body_without_readings_is_a_failure(text: str) -> None:
    answer = ask_csv(text, **QUERY)
    assert outcome(answer, "layout") == "fail"
    assert answer["quality"]["readings"] == 0


@pytest.mark.parametrize(
    "body", ["time,usage\n2023-02-01 00:00,1\n".encode("utf-16"), b"time,usage\n\xff\xfe,1\n"]
)
def test_bytes_that_are_no_utf_8_are_refused(body: bytes) -> None:
    with pytest.raises(UnreadableBody, match="not UTF-8"):
        read_csv(body, Instructions.model_validate(QUERY))


def test_a_cell_that_never_ends_is_a_failure_that_names_its_line() -> None:
    answer = ask_csv(table(*HOURS, '2023-02-02 00:00,"' + "0.5\n" * 100_000), **QUERY)
    assert outcome(answer, "layout") == "fail"
    assert "line " in finding(answer, "layout")["message"]


def test_too_many_readings_are_a_failure() -> None:
    rows = "2023-02-01 00:00,1\n" * 210_241
    answer = ask_csv("time,usage\n" + rows, **QUERY)
    assert "more than 210240 readings" in finding(answer, "layout")["message"]


def test_a_repeated_header_is_passed_over() -> None:
    answer = ask_csv(table(*HOURS[:12], "time,usage", *HOURS[12:]), **QUERY)
    assert len(answer["series"]["energy_wh"]) == 24
    assert outcome(answer, "readings") == "pass"


def test_a_total_below_the_table_is_a_fault_that_is_named() -> None:
    answer = ask_csv(table(*HOURS, "Total,12.3"), **QUERY)
    assert finding(answer, "readings")["provided"]["value"] == "Total"


def test_instructions_without_meaning_are_named() -> None:
    answer = ask_csv(
        table(*HOURS), **QUERY, meter_reading="House", first_value_column=None, last_value_column="usage"
    )
    assert finding(answer, "instructions")["message"].endswith(
        "query:last_value_column, query:meter_reading."
    )


def test_lines_without_end_are_given_up() -> None:
    answer = ask_csv("time,usage\n" + "\n" * 600_000, **QUERY)
    assert "more than 500000 lines" in finding(answer, "layout")["message"]
