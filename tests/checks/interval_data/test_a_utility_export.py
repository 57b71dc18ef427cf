"""An hourly year as a utility handed it out: the file that ships in a package of the public registry."""

from datetime import datetime
from importlib.util import find_spec
from pathlib import Path
from xml.etree import ElementTree

import pytest
from tests.checks.interval_data.asking import as_json, finding, outcome
from tests.checks.replay import replay

from branchwright.checks.service_capacity.interval_data import Instructions, read_green_button

SOURCE = "jendobson-greenbutton 0.0.1 (MIT), its sample data"


def export() -> bytes:
    """The file, found without importing the package, which would import a plotting library."""
    spec = find_spec("greenbutton")
    assert spec is not None and spec.origin is not None
    (found,) = (Path(spec.origin).parent / "sample_data").glob("*.xml")
    return found.read_bytes()


@pytest.fixture(scope="module")
def answer() -> dict:
    query = {
        "edition": "nec-2023",
        "time_zone": "America/Los_Angeles",
        "system": "split-phase-120-240",
        "has_generation": "false",
    }
    return as_json(read_green_button(export(), Instructions.model_validate(query)))


@pytest.mark.source(SOURCE)
def test_its_readings_are_counted(answer: dict) -> None:
    quality = answer["quality"]
    assert quality["readings"] == 8727
    assert quality["resolution_minutes"] == 60
    assert (quality["duplicates"], quality["overlaps"], quality["unsorted"], quality["negative"]) == (
        0,
        0,
        0,
        0,
    )
    assert quality["fault_count"] == 0
    assert quality["expected"] == 364 * 24, "the last day of the year is absent"


@pytest.mark.source("The same file through xml.etree of the standard library")
def test_another_reader_has_the_same_values(answer: dict) -> None:
    espi = "{http://naesb.org/espi}"
    values = {}
    tree = ElementTree.fromstring(export())  # noqa: S314
    for reading in tree.iter(f"{espi}IntervalReading"):
        start = int(reading.findtext(f"{espi}timePeriod/{espi}start"))
        values[start] = float(reading.findtext(f"{espi}value"))
    first = min(values)
    series = answer["series"]["energy_wh"]
    assert [values.get(first + 3600 * at) for at in range(len(series))] == series
    assert datetime.fromisoformat(answer["series"]["start"]).timestamp() == first


@pytest.mark.source(SOURCE)
def test_its_gaps_are_named(answer: dict) -> None:
    assert answer["quality"]["gaps"] == [
        {"from": "2011-02-08T16:00:00-08:00", "to": "2011-02-09T00:00:00-08:00", "minutes": 8 * 60},
        {"from": "2011-11-06T01:00:00-08:00", "to": "2011-11-06T02:00:00-08:00", "minutes": 60},
    ]


@pytest.mark.source(SOURCE)
def test_its_demand_is_the_documented_one(answer: dict) -> None:
    demand = answer["measured_demand"]
    assert demand["greatest_w"] == 5180
    assert round(demand["total_kwh"], 1) == 5089.6
    assert demand["greatest_a"] == pytest.approx(5180 / 240)


@pytest.mark.source(
    "Energy Policy Act of 2005, section 110: second Sunday of March to first Sunday of November"
)
def test_the_days_of_the_change_are_found(answer: dict) -> None:
    assert answer["quality"]["short_days"] == [{"date": "2011-03-13", "hours": 23}]
    assert answer["quality"]["long_days"] == [{"date": "2011-11-06", "hours": 25}]


@pytest.mark.source("NEC 220.87: a year's data")
def test_364_days_are_no_year(answer: dict) -> None:
    assert outcome(answer, "duration") == "fail"
    assert finding(answer, "duration")["provided"] == {"value": 364, "unit": "d"}
    assert outcome(answer, "coverage") == "pass"
    assert outcome(answer, "resolution") == "undetermined", "an hour hides its quarters"
    assert answer["verdict"] == "fail"


def test_what_the_file_leaves_open_is_to_be_verified(answer: dict) -> None:
    # Its flowDirection and accumulationBehaviour are 0.
    pointers = {each["pointer"] for each in answer["to_verify"]}
    assert {"body:ReadingType/flowDirection", "body:ReadingType/accumulationBehaviour"} <= pointers


def test_its_steps_replay(answer: dict) -> None:
    assert {"greatest-demand", "bound-15-minutes", "bound-factor", "greatest-current"} <= {
        step["id"] for step in answer["steps"]
    }
    replay(answer, {})
