"""The demo: a service on loopback, asked through the SDK for the whole job, from the circuit to what charging costs.

The job is invented: a carport at the end of a driveway, fed from a panel on the garage's inside wall.
"""

import socket
import subprocess
import sys
from collections.abc import Generator
from contextlib import contextmanager
from typing import Any, Final

from rich.console import Console
from rich.rule import Rule

from branchwright.cli.charging_tables import show_charging
from branchwright.cli.circuit_tables import show_circuit, show_comparison
from branchwright.cli.estimate_tables import show_estimate
from branchwright.cli.service_tables import show_capacity
from branchwright.cli.tables import show_working

READY_TRIES: Final = 8
STOP_SECONDS: Final = 10

JOB: Final[dict[str, Any]] = {
    "edition": "nec-2023",
    "premises": {"occupancy": "one-family", "charger_location": "outdoors"},
    "supply": {"system": "split-phase-120-240"},
    "charger": {
        "charging_current_a": 48,
        "rated_current_a": 48,
        "connection": {"kind": "hardwired"},
        "terminals": {
            "temperature_rating_c": 75,
            "materials": ["copper"],
            "smallest": "10 AWG",
            "largest": "4 AWG",
            "torque": {"value": 38, "unit": "lbf-in"},
        },
    },
    "breaker": {
        "terminals": {
            "temperature_rating_c": 75,
            "materials": ["copper", "aluminum"],
            "torque": {"value": 45, "unit": "lbf-in"},
        },
        "listed_for_panel": True,
    },
    "conductors": {"material": "copper", "insulation": "THWN-2"},
    "run": [
        {"wiring_method": "emt", "length": {"value": 31, "unit": "ft"}, "location": "dry", "ambient_c": 32},
        {"wiring_method": "lfnc-b", "length": {"value": 5, "unit": "ft"}, "location": "wet", "ambient_c": 30},
    ],
    "targets": {"voltage_drop_percent": 3},
}
"""What the installer was asked for."""

SERVICE: Final[dict[str, Any]] = {
    "edition": JOB["edition"],
    "occupancy": "one-family",
    "service": {
        "rating_a": 100,
        "system": "split-phase-120-240",
        "main_breaker_a": 100,
        "busbar_rating_a": 125,
    },
    "existing_load": {
        "kind": "measured",
        "measured_demand_w": 9_450,
        "averaging_minutes": 15,
        "days": 365,
        "coverage_percent": 99.6,
        "has_generation": False,
        "occupied": True,
        "seasonal_load_va": 0,
    },
    "chargers": [
        {
            "charging_current_a": 48,
            "rated_current_a": 48,
            "setting_access": "restricted",
            "connection": "hardwired",
            "circuit_breaker_a": 60,
        }
    ],
}
"""The house behind that panel: a 100 A service, and a year of quarter hours by its meter."""


EVERY_HOUR: Final[dict[str, Any]] = {"from": "00:00", "to": "00:00"}
FLAT: Final[dict[str, Any]] = {
    "name": "one price",
    "currency": "USD",
    "time_zone": "America/Chicago",
    "energy_rates": [{"period": "all day", **EVERY_HOUR, "tiers": [{"up_to_kwh": None, "per_kwh": "0.142"}]}],
    "fixed_charges": [{"name": "account", "amount": "11.00", "per": "month"}],
}
NIGHT: Final[dict[str, Any]] = {
    **FLAT,
    "name": "cheap nights",
    "energy_rates": [
        {"period": "day", "from": "06:00", "to": "23:00", "tiers": [{"up_to_kwh": None, "per_kwh": "0.176"}]},
        {
            "period": "night",
            "from": "23:00",
            "to": "06:00",
            "tiers": [{"up_to_kwh": None, "per_kwh": "0.071"}],
        },
    ],
}
WEEKDAYS: Final = ("mon", "tue", "wed", "thu", "fri")
CHARGING: Final[dict[str, Any]] = {
    "tariffs": [FLAT, NIGHT],
    "house_tariff": FLAT["name"],
    "year": 2027,
    "house_load": {"kind": "annual-energy", "kwh_per_year": 6800},
    "charging": {
        "energy_need": {
            "kind": "distance",
            "basis": "wall",
            "distance_by_weekday": dict.fromkeys(WEEKDAYS, 38),
            "distance_unit": "mi",
            "consumption": {"value": 31, "unit": "kWh/100 mi"},
            "winter_factor_by_month": [1.3, 1.3, 1.2, 1.1, 1, 1, 1, 1, 1, 1.1, 1.2, 1.3],
            "worst_day_factor": 1.6,
        },
        "charger": {"charging_current_a": 48, "voltage_v": 240},
        "arrival": "18:00",
        "departure": "06:30",
    },
    "schedules": [{"kind": "on-arrival"}, {"kind": "least-cost"}],
    "separate_meter": {"installed_cost": "1350.00", "monthly_charge": "3.50", "discount_rate_percent": 4},
}
"""What the vehicle of that house drives, and two invented tariffs that it may charge on."""


class DemoFailed(Exception):
    """The demo could not run; the text says why and what to do."""


def demonstrate(console: Console) -> None:
    """Run the demo on a console. Raises DemoFailed where the SDK is missing or the service does not answer."""
    try:
        from branchwright_sdk import BranchwrightError, Client
    except ImportError as error:
        raise DemoFailed("The demo asks through the SDK: install it with 'pip install ./sdk'.") from error
    with _service() as address:
        console.print(f"A service is running at {address} for this demo.")
        try:
            with Client(address, max_retries=READY_TRIES) as client:
                client.operations.check_ready()
                console.print(Rule("1. What circuit does a 48 A charger at the carport need?"))
                design = client.circuits.design_from(JOB)
                answer = design.model_dump(mode="json", by_alias=True)
                show_circuit(console, answer)
                show_working(console, answer, 6)
                console.print(Rule("2. The circuit as found on site: 8 AWG behind the 60 A breaker"))
                installed = _as_found(answer["review_request"])
                review = client.circuits.review_from(installed)
                show_circuit(console, review.model_dump(mode="json", by_alias=True), remarks=False)
                console.print(Rule("3. The settings of this charger, over a night of nine hours"))
                comparison = client.circuits.compare_currents_from(_settings(JOB))
                show_comparison(console, comparison.model_dump(mode="json", by_alias=True), remarks=False)
                console.print(Rule("4. Does the 100 A service carry it, beside what the meter has recorded?"))
                capacity = client.services.review_capacity_from(SERVICE)
                show_capacity(console, capacity.model_dump(mode="json", by_alias=True), remarks=False)
                console.print(Rule("5. What will the job cost, by a demo book of invented prices?"))
                estimate = client.costs.estimate_installation_from(
                    {"circuit": JOB, "supplies": {"permit": True}}
                )
                show_estimate(console, estimate.model_dump(mode="json", by_alias=True), remarks=False)
                console.print(Rule("6. What does charging cost a year, and does a meter of its own pay?"))
                costs = client.costs.compare_charging_from(CHARGING)
                show_charging(console, costs.model_dump(mode="json", by_alias=True), remarks=False)
        except BranchwrightError as error:
            raise DemoFailed(f"The service did not answer as it should: {error}") from error
    console.print(Rule("How to go on"))
    console.print(
        "Serve:       branchwright serve --port 8000      (then open http://127.0.0.1:8000/docs)\n"
        "One file:    branchwright check request.json     (the same answers without a server)\n"
        "Readings:    branchwright readings meter.xml      (a report on a file of meter readings)\n"
        "From Python: Client('http://127.0.0.1:8000').circuits.design(...)\n"
        "README.md shows a request with its answer, by curl and by SDK.",
        highlight=False,
    )


def _as_found(review_request: dict[str, Any]) -> dict[str, Any]:
    """Return the review of the circuit as designed, save for the conductors, which are smaller."""
    return {**review_request, "installed": {**review_request["installed"], "ungrounded_size": "8 AWG"}}


def _settings(job: dict[str, Any]) -> dict[str, Any]:
    """Return the comparison of the settings that the charger of a job has, which only an installer can change."""
    charger = {name: value for name, value in job["charger"].items() if name != "charging_current_a"}
    return {
        **job,
        "charger": {**charger, "setting_access": "restricted"},
        "currents_a": [16, 24, 32, 40, 48],
        "night_h": 9,
    }


@contextmanager
def _service() -> Generator[str]:
    """Run a service on a free port of loopback; its log goes nowhere, its end comes with the demo's."""
    port = _free_port()
    command = [sys.executable, "-m", "branchwright.cli", "serve", "--host", "127.0.0.1", "--port", str(port)]
    with subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL) as process:  # noqa: S603
        try:
            yield f"http://127.0.0.1:{port}"
        finally:
            process.terminate()
            try:
                process.wait(STOP_SECONDS)
            except subprocess.TimeoutExpired:
                process.kill()


def _free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port: int = probe.getsockname()[1]
    return port
