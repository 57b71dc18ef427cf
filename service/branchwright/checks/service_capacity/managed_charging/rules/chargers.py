"""Rules about chargers and vehicles: whether what is stated of them can be."""

from collections.abc import Iterator

from branchwright.calculations.continuous_load import least_rating_a
from branchwright.checks.service_capacity.managed_charging.facts import ManagedCharger
from branchwright.checks.service_capacity.managed_charging.given import Given
from branchwright.checks.service_capacity.managed_charging.rules.rule import Studied, rule
from branchwright.checks.service_capacity.managed_charging.sessions import (
    efficiency_of,
    wall_kwh,
    window_minutes,
)
from branchwright.checks.service_capacity.managed_charging.simulation import LEAST_A
from branchwright.findings import Finding, Provided, Required
from branchwright.questions.local_days import WEEKDAYS

WEEK_MINUTES = 7 * 1440


@rule("managed-phases", subject="supply system", concept="nominal_voltages", stops=("fail",))
def managed_phases(given: Given, studied: Studied | None) -> Finding:
    """Does the service have as many phases as are stated, and as the chargers use?

    Applies: always.
    Rests on: a split-phase system serves single-phase chargers only; a three-phase charger needs a three-phase
    service.
    Missing facts: no number of phases stands for one.
    """
    service = given.request.service
    cited = managed_phases.cited(given.edition)
    stated = service.phases or 1
    if stated > given.phases:
        return managed_phases.at_most(
            float(stated),
            float(given.phases),
            "count",
            f"A {service.system} system has no {stated} phases.",
            cited,
            "/service/phases",
        )
    uses = [charger.phases or 1 for charger in given.request.chargers]
    most = max(range(len(uses)), key=uses.__getitem__)
    return managed_phases.at_most(
        float(uses[most]),
        float(given.phases),
        "count",
        f"The chargers use up to {uses[most]} phase{'s' if uses[most] > 1 else ''}; the service has {given.phases}.",
        cited,
        f"/chargers/{most}/phases",
    )


@rule("managed-charger-circuit", subject="branch circuit", concept="continuous-load")
def managed_charger_circuit(given: Given, studied: Studied | None) -> Finding:
    """Is each charger's circuit rated for its charging current as a continuous load?

    Applies: always.
    Rests on: the overcurrent device is rated for 125 percent of the load. A charger that is set higher is simulated at
    what its circuit allows.
    Missing facts: none are asked for.
    """
    provision = given.edition.provision("continuous-load")
    factor = provision.number("factor")

    def short(place: int) -> float:
        charger = given.request.chargers[place]
        return least_rating_a.value(factor, charger.charging_current_a) / charger.circuit_breaker_a

    worst = max(range(len(given.request.chargers)), key=short)
    charger = given.request.chargers[worst]
    required = least_rating_a.value(factor, charger.charging_current_a)
    return managed_charger_circuit.at_least(
        charger.circuit_breaker_a,
        required,
        "A",
        f"Charging at {charger.charging_current_a:g} A asks for a circuit of {required:g} A at least.",
        provision.citation,
        f"/chargers/{worst}/circuit_breaker_a",
    )


@rule("managed-least-current", subject="charging current")
def managed_least_current(given: Given, studied: Studied | None) -> Finding:
    """Is there room for the least current that a vehicle is offered?

    Applies: always.
    Rests on: the pilot signal of SAE J1772 offers 6 A at least; what cannot have that never charges: a charger, a
    circuit, an onboard charger, or a control setting less its margin.
    Missing facts: an onboard limit that is not stated limits nothing.
    """
    management = given.request.management
    room = management.control_setting_a - given.margin_a
    found = [(room, "/management/control_setting_a", "The control setting less its margin")]
    factor = given.edition.provision("continuous-load").number("factor")
    for place, charger in enumerate(given.request.chargers):
        who, pointer = f"Charger {place}", f"/chargers/{place}"
        found.append((charger.charging_current_a, pointer + "/charging_current_a", who))
        found.append((charger.circuit_breaker_a / factor, pointer + "/circuit_breaker_a", who))
        if charger.vehicle is not None and charger.vehicle.onboard_limit_a is not None:
            found.append((charger.vehicle.onboard_limit_a, pointer + "/vehicle/onboard_limit_a", who))
    least, pointer, who = min(found, key=lambda each: each[0])
    return managed_least_current.at_least(
        least, LEAST_A, "A", f"{who} has {least:g} A; a vehicle is offered 6 A at least.", None, pointer
    )


@rule("managed-sessions", subject="sessions", stops=("fail",))
def managed_sessions(given: Given, studied: Studied | None) -> Finding:
    """Is each vehicle gone before it comes again?

    Applies: always.
    Rests on: two sessions of one charger cannot overlap; a departure at or before the arrival is on the next day.
    Missing facts: none are asked for.
    """
    for place, charger in enumerate(given.request.chargers):
        windows = sorted(_week(charger))
        # The first of the week comes again after its last.
        following = [*windows[1:], (windows[0][0] + WEEK_MINUTES, windows[0][1], windows[0][2])]
        for (_, ends, one), (begins, _, other) in zip(windows, following, strict=True):
            if begins < ends:
                return managed_sessions.finding(
                    "fail",
                    f"Session {max(one, other)} begins or repeats before session {min(one, other)} has ended.",
                    citation=None,
                    pointer=f"/chargers/{place}/sessions/{max(one, other)}",
                    required=Required("no overlap", "text", "equal"),
                    provided=Provided("overlap", "text"),
                )
    return managed_sessions.passed("No two sessions of a charger overlap.")


def _week(charger: ManagedCharger) -> Iterator[tuple[int, int, int]]:
    """Yield begin and end of each session in minutes of the week, and its place."""
    for place, session in enumerate(charger.sessions):
        arrival, departure = window_minutes(session)
        for day in set(session.weekdays):
            midnight = 1440 * WEEKDAYS.index(day)
            yield midnight + arrival, midnight + departure, place


@rule("managed-battery", subject="battery")
def managed_battery(given: Given, studied: Studied | None) -> Finding:
    """Does the energy of every session fit into the vehicle's battery?

    Applies: where a battery is stated.
    Rests on: no battery takes more than it holds; energy at the wall arrives less what charging loses.
    Missing facts: a battery that is not stated is not judged.
    """
    found: list[tuple[float, float, float, str]] = []
    for place, charger in enumerate(given.request.chargers):
        battery_kwh = charger.vehicle.battery_kwh if charger.vehicle else None
        if battery_kwh is None:
            continue
        for number, session in enumerate(charger.sessions):
            loses = efficiency_of(charger) if session.basis == "wall" else 1.0
            arrives = round(session.energy_kwh * loses, 6)
            pointer = f"/chargers/{place}/sessions/{number}/energy_kwh"
            found.append((arrives / battery_kwh, arrives, battery_kwh, pointer))
    if not found:
        return managed_battery.not_applicable("No battery is stated.")
    _, arrives, battery_kwh, pointer = max(found)
    return managed_battery.at_most(
        arrives,
        battery_kwh,
        "kWh",
        f"{arrives:g} kWh are to arrive in a battery of {battery_kwh:g} kWh.",
        None,
        pointer,
    )


@rule("managed-need-in-window", subject="sessions", force="recommendation")
def managed_need_in_window(given: Given, studied: Studied | None) -> Finding:
    """Could every session be met at all, if the house drew nothing?

    Applies: always, as a recommendation: it tells what management cannot mend.
    Rests on: the energy that charger, circuit and vehicle bring from arrival to departure, at the nominal voltage and
    by the clock of an ordinary day.
    Missing facts: an onboard limit that is not stated limits nothing.
    """
    found: list[tuple[float, float, float, str]] = []
    for place, charger in enumerate(given.request.chargers):
        for number, session in enumerate(charger.sessions):
            arrival, departure = window_minutes(session)
            most = float(given.own_a[place] * given.kwh_per_ah[place]) * (departure - arrival) / 60
            needed = wall_kwh(charger, session)
            found.append((needed - most, needed, most, f"/chargers/{place}/sessions/{number}/energy_kwh"))
    _, needed, most, pointer = max(found)
    return managed_need_in_window.at_most(
        round(needed, 6),
        round(most, 6),
        "kWh",
        f"{needed:.2f} kWh are needed at the wall; charger and vehicle bring {most:.2f} kWh at most in that time.",
        None,
        pointer,
    )
