"""CSV in the layouts that utilities hand out: each gives the same series."""

import pytest
from tests.checks.interval_data.asking import PLAIN, ask_csv, ask_json, finding, outcome, stamped

from branchwright.checks.service_capacity.interval_data.collected import NO_OFFSET
from branchwright.checks.service_capacity.interval_data.time_stamps import parse_time

VALUES_WH = [400, 700, 350, 5200, 900, 300.5, 420, 610]
TIMES = [f"{minutes // 60:02}:{minutes % 60:02}" for minutes in range(0, 120, 15)]
ENDS = [f"{minutes // 60:02}:{minutes % 60:02}" for minutes in range(15, 135, 15)]
ROWS = list(zip(TIMES, ENDS, VALUES_WH, strict=True))
DENVER = {"time_zone": "America/Denver"}

LAYOUTS = {
    "one stamped column": (
        "time,usage\n" + "".join(f"2023-02-01 {at},{wh}\n" for at, _, wh in ROWS),
        {"time_column": "time", "value_column": "usage", "unit": "energy-wh"},
    ),
    "ISO 8601 with offsets": (
        "time,usage\n" + "".join(f"2023-02-01T{at}:00-07:00,{wh}\n" for at, _, wh in ROWS),
        {"time_column": "time", "value_column": "usage", "unit": "energy-wh"},
    ),
    "UTC": (
        "time,usage\n" + "".join(f"2023-02-01T{int(at[:2]) + 7:02}{at[2:]}Z,{wh}\n" for at, _, wh in ROWS),
        {"time_column": "time", "value_column": "usage", "unit": "energy-wh"},
    ),
    "date and time apart, month first, twelve hours, kWh": (
        "Date,Time,kWh\n"
        + "".join(f"02/01/2023,{int(at[:2]) or 12}:{at[3:]} AM,{wh / 1000}\n" for at, _, wh in ROWS),
        {
            "date_column": "Date",
            "time_of_day_column": "Time",
            "value_column": "kWh",
            "unit": "energy-kwh",
            "date_order": "month-day-year",
        },
    ),
    "start and end, preamble, quoted, trailing columns": (
        'Name,A. Resident\nAddress,"1 Invented Way, Springtown"\nAccount,0\n\n'
        "TYPE,DATE,START TIME,END TIME,USAGE (kWh),NOTES\n"
        + "".join(f'Electric usage,2023-02-01,{at},{end},"{wh / 1000}",\n' for at, end, wh in ROWS),
        {
            "date_column": "DATE",
            "time_of_day_column": "START TIME",
            "end_column": "END TIME",
            "value_column": "USAGE (kWh)",
            "unit": "energy-kwh",
        },
    ),
    "start and end as stamps": (
        "from,to,Wh\n" + "".join(f"2023-02-01 {at},2023-02-01 {end},{wh}\n" for at, end, wh in ROWS),
        {"time_column": "from", "end_column": "to", "value_column": "Wh", "unit": "energy-wh"},
    ),
    "ends one minute short": (
        "from,to,Wh\n"
        + "".join(f"2023-02-01 {at},2023-02-01 {at[:3]}{int(at[3:]) + 14:02},{wh}\n" for at, _, wh in ROWS),
        {"time_column": "from", "end_column": "to", "value_column": "Wh", "unit": "energy-wh"},
    ),
    "stamps at the end": (
        "time,usage\n" + "".join(f"2023-02-01 {end},{wh}\n" for _, end, wh in ROWS),
        {"time_column": "time", "value_column": "usage", "unit": "energy-wh", "stamps_at": "end"},
    ),
    "semicolons and decimal commas, day first": (
        "Zeit;Verbrauch\n"
        + "".join(f"01.02.2023 {at};{str(wh / 1000).replace('.', ',')}\n" for at, _, wh in ROWS),
        {
            "time_column": "Zeit",
            "value_column": "Verbrauch",
            "unit": "energy-kwh",
            "date_order": "day-month-year",
        },
    ),
    "tabs, average kW": (
        "time\tkW\n" + "".join(f"2023-02-01 {at}\t{wh * 4 / 1000}\n" for at, _, wh in ROWS),
        {"time_column": "time", "value_column": "kW", "unit": "power-kw"},
    ),
    "pipes, average W, seconds": (
        "time|W\n" + "".join(f"2023-02-01 {at}:00|{wh * 4}\n" for at, _, wh in ROWS),
        {"time_column": "time", "value_column": "W", "unit": "power-w"},
    ),
    "thousands parted": (
        "time,Wh\n" + "".join(f'2023-02-01 {at},"{wh:,}"\n' for at, _, wh in ROWS),
        {"time_column": "time", "value_column": "Wh", "unit": "energy-wh", "decimal_mark": "point"},
    ),
    "newest first": (
        "time,usage\n" + "".join(f"2023-02-01 {at},{wh}\n" for at, _, wh in reversed(ROWS)),
        {"time_column": "time", "value_column": "usage", "unit": "energy-wh"},
    ),
    "byte order mark, Windows ends of lines, empty lines": (
        "\ufefftime,usage\r\n" + "".join(f"2023-02-01 {at},{wh}\r\n\r\n" for at, _, wh in ROWS),
        {"time_column": "time", "value_column": "usage", "unit": "energy-wh"},
    ),
    "digits alone": (
        "day,time,usage\n" + "".join(f"20230201,{at.replace(':', '')},{wh}\n" for at, _, wh in ROWS),
        {"date_column": "day", "time_of_day_column": "time", "value_column": "usage", "unit": "energy-wh"},
    ),
}


@pytest.mark.parametrize("name", LAYOUTS)
def test_every_layout_gives_the_same_series(name: str) -> None:
    text, query = LAYOUTS[name]
    answer = ask_csv(text, **query, **DENVER)
    assert answer["series"] == {
        "start": "2023-02-01T00:00:00-07:00",
        "interval_minutes": 15,
        "unit": "Wh",
        "energy_wh": VALUES_WH,
        "zone": "America/Denver",
    }
    for rule in ("layout", "readings", "time-zone", "intervals", "duplicates"):
        assert outcome(answer, rule) == "pass", finding(answer, rule)["message"]
    assert outcome(answer, "order") == ("fail" if name == "newest first" else "pass")


def test_newest_first_is_a_recommendation_alone() -> None:
    text, query = LAYOUTS["newest first"]
    found = finding(ask_csv(text, **query, **DENVER), "order")
    assert found["force"] == "recommendation"
    assert found["message"].startswith("The newest reading stands first")


def test_a_register_is_read_as_its_differences() -> None:
    registers = [1000.0]
    for wh in VALUES_WH:
        registers.append(registers[-1] + wh / 1000)
    times = [*TIMES, "02:00"]
    text = "time,kWh\n" + "".join(
        f"2023-02-01 {at},{register:.4f}\n" for at, register in zip(times, registers, strict=True)
    )
    answer = ask_csv(
        text, time_column="time", value_column="kWh", unit="register-kwh", stamps_at="end", **DENVER
    )
    assert answer["series"]["energy_wh"] == VALUES_WH
    assert answer["series"]["start"] == "2023-02-01T00:00:00-07:00", "a register's stamp is an instant"
    assert finding(answer, "instructions")["message"].endswith("query:stamps_at.")


def day_rows(minutes: int, days: list[str], value: float = 0.25) -> str:
    count = 1440 // minutes
    header = "Date,Meter," + ",".join(f"I{at}" for at in range(count)) + ",Total\n"
    return header + "".join(f"{day},7,{','.join([str(value)] * count)},{value * count}\n" for day in days)


@pytest.mark.parametrize("minutes", [15, 30, 60])
def test_one_row_a_day(minutes: int) -> None:
    text = day_rows(minutes, ["2023-02-01", "2023-02-02"])
    last = f"I{1440 // minutes - 1}"
    answer = ask_csv(
        text, date_column="Date", first_value_column="I0", last_value_column=last, unit="energy-kwh", **DENVER
    )
    assert answer["series"]["energy_wh"] == [250] * (2 * 1440 // minutes)
    assert answer["series"]["interval_minutes"] == minutes
    assert answer["series"]["start"] == "2023-02-01T00:00:00-07:00"


def test_a_row_a_day_with_too_many_columns_says_how_many() -> None:
    text = day_rows(60, ["2023-02-01"])
    answer = ask_csv(text, date_column="Date", first_value_column="I0", unit="energy-kwh", **DENVER)
    failed = finding(answer, "layout")
    assert failed["outcome"] == "fail"
    assert "25 columns" in failed["message"]


@pytest.mark.parametrize(
    "old, new, at, given, expected",
    [
        (
            "2023-02-02,7,0.25,0.25",
            "2023-02-02,7,0.25,x",
            "line 3, column 'I1'",
            "x",
            [250, None, *[250] * 22],
        ),
        ("2023-02-02,", "2023-02-32,", "line 3, column 'Date'", "2023-02-32", [None] * 24),
        ("2023-02-02,", "2023-02-02 06:00,", "line 3, column 'Date'", "2023-02-02 06:00", [None] * 24),
    ],
)
def test_a_cell_of_a_row_a_day_that_cannot_be_read_is_named(
    old: str, new: str, at: str, given: str, expected: list[float | None]
) -> None:
    text = day_rows(60, ["2023-02-01", "2023-02-02", "2023-02-03"]).replace(old, new)
    query = {"date_column": "Date", "first_value_column": "I0", "last_value_column": "I23"}
    answer = ask_csv(text, unit="energy-kwh", **query, **DENVER)
    failed = finding(answer, "readings")
    assert failed["outcome"] == "fail"
    assert failed["message"].startswith(f"{at}: ")
    assert failed["provided"]["value"] == given
    assert answer["series"]["energy_wh"] == [250] * 24 + expected + [250] * 24


def test_a_row_a_day_of_another_length_is_read_where_it_is_stated() -> None:
    text = day_rows(120, ["2023-02-01"])
    answer = ask_csv(
        text,
        date_column="Date",
        first_value_column="I0",
        last_value_column="I11",
        interval_minutes="120",
        unit="energy-kwh",
        **DENVER,
    )
    assert answer["series"]["energy_wh"] == [250] * 12


@pytest.mark.source("IANA time zone database: Denver's clock skips 2023-03-12 02:00 to 03:00")
def test_the_hour_that_spring_skips_is_empty_or_zero_in_a_row_a_day() -> None:
    for cell in ("", "0", "0.0"):
        cells = ["0.25"] * 24
        cells[2] = cell
        text = "Date," + ",".join(f"H{at}" for at in range(24)) + f"\n2023-03-12,{','.join(cells)}\n"
        answer = ask_csv(text, date_column="Date", first_value_column="H0", unit="energy-kwh", **DENVER)
        assert answer["series"]["energy_wh"] == [250] * 23
        assert outcome(answer, "time-zone") == "pass"


@pytest.mark.source("IANA time zone database: Denver's clock skips 2023-03-12 02:00 to 03:00")
def test_a_value_in_the_hour_that_spring_skips_is_a_failure() -> None:
    text = day_rows(60, ["2023-03-12"])
    query = {"date_column": "Date", "first_value_column": "I0", "last_value_column": "I23"}
    failed = finding(ask_csv(text, unit="energy-kwh", **query, **DENVER), "time-zone")
    assert failed["outcome"] == "fail"
    assert "line 2, column 'I2'" in failed["message"]
    # A meter whose clock is never put forward: mountain standard time all year.
    assert outcome(ask_csv(text, unit="energy-kwh", **query, time_zone="Etc/GMT+7"), "time-zone") == "pass"


@pytest.mark.source("IANA time zone database: Denver's clock shows 2023-11-05 01:00 to 02:00 twice")
def test_the_hour_that_autumn_has_twice_is_in_doubt_in_a_row_a_day() -> None:
    text = day_rows(60, ["2023-11-05"])
    query = {"date_column": "Date", "first_value_column": "I0", "last_value_column": "I23"}
    answer = ask_csv(text, unit="energy-kwh", **query, **DENVER)
    assert answer["series"]["energy_wh"] == [250, 250, None, *[250] * 22]
    found = finding(answer, "autumn-hour")
    assert (found["outcome"], found["force"]) == ("undetermined", "recommendation")
    assert "line 2, column 'I1'" in found["message"]


def test_marks_of_quality_are_read() -> None:
    marks = ["A", "Estimated", "", "E", "10", "suspect", "Actual", "??"]
    text = "time,Wh,flag\n" + "".join(
        f"2023-02-01 {at},{wh},{mark}\n" for (at, _, wh), mark in zip(ROWS, marks, strict=True)
    )
    query = {"time_column": "time", "value_column": "Wh", "quality_column": "flag", "unit": "energy-wh"}
    answer = ask_csv(text, **query, **DENVER)
    assert answer["quality"]["estimated"] == 2
    assert answer["quality"]["questionable"] == 3
    assert outcome(answer, "greatest-reading") == "undetermined", "5,200 Wh is marked E"
    stated = [each["stated"] for each in answer["to_verify"] if each["pointer"] == "query:quality_column"]
    assert stated == ["marks of unknown meaning, taken as questionable: ??"]


def test_marks_stay_with_their_values_where_a_row_cannot_be_read() -> None:
    rows = ["2023-02-01 00:00,x,E", *[f"2023-02-01 {at},{wh},A" for at, _, wh in ROWS[1:]]]
    rows[5] = rows[5][:-1] + "E"
    query = {"time_column": "time", "value_column": "Wh", "quality_column": "flag", "unit": "energy-wh"}
    answer = ask_csv("\n".join(["time,Wh,flag", *rows, ""]), **query, **DENVER)
    assert outcome(answer, "readings") == "fail"
    assert answer["quality"]["readings"] == 7
    assert answer["quality"]["estimated"] == 1
    assert outcome(answer, "greatest-reading") == "pass", "the mark of the row above is not that of 5,200 Wh"


@pytest.mark.parametrize(
    "text, second, offset",
    [
        ("17:45:30", 63930, None),
        ("17:45:30.000", 63930, None),
        ("5:45 PM", 63900, None),
        ("5:45:30 p.m.", 63930, None),
        ("12:00 AM", 0, None),
        ("12:30 pm", 45000, None),
        ("1745", 63900, None),
        ("24:00", 86400, None),
        ("00:00Z", 0, 0),
        ("00:00 UTC", 0, 0),
        ("00:00-07:00", 0, -25200),
        ("00:00-0330", 0, -12600),
        ("00:00+14:00", 0, 50400),
    ],
)
def test_times_of_day_are_read_as_they_are_written(text: str, second: int, offset: int | None) -> None:
    parsed = parse_time(text)
    assert parsed.second == second
    assert parsed.offset == (NO_OFFSET if offset is None else offset)


def test_a_csv_says_the_same_as_json() -> None:
    text, query = LAYOUTS["ISO 8601 with offsets"]
    by_csv = ask_csv(text, **query, **PLAIN)
    readings = [(f"2023-02-01T{at}:00-07:00", wh) for at, _, wh in ROWS]
    by_json = ask_json(
        stamped(readings), edition="nec-2023", time_zone="America/Denver", has_generation=False
    )
    for part in ("series", "quality", "measured_demand", "existing_load", "verdict", "interpretations"):
        assert by_csv[part] == by_json[part]
