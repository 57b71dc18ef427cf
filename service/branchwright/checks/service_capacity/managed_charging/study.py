"""Studies managed charging: judges what is stated, simulates every interval, and seeks the smallest setting."""

from dataclasses import dataclass

from branchwright.checks.service_capacity.managed_charging.answers import (
    ManagedChargingAnswer,
    SettingPoint,
    Smallest,
    StudiedCharger,
    StudiedNight,
    StudiedSession,
    StudiedYear,
    WorstDay,
)
from branchwright.checks.service_capacity.managed_charging.facts import ManagedChargingRequest
from branchwright.checks.service_capacity.managed_charging.given import Given
from branchwright.checks.service_capacity.managed_charging.remarks import cautions, not_examined, to_verify
from branchwright.checks.service_capacity.managed_charging.results import Results
from branchwright.checks.service_capacity.managed_charging.rules import RULES, Studied
from branchwright.checks.service_capacity.managed_charging.simulation import Clock, Simulation
from branchwright.checks.service_capacity.managed_charging.smallest import Search
from branchwright.checks.service_capacity.managed_charging.working import Working
from branchwright.findings import Finding, Step, verdict_of
from branchwright.questions.local_days import LocalDays
from branchwright.questions.readings import bind
from branchwright.questions.remarks import provenance_of


@dataclass(slots=True, frozen=True)
class Outcome:
    """What a study found beside its findings; empty where nothing was simulated."""

    nights: list[StudiedNight]
    unmet_sessions: list[StudiedSession]
    by_charger: list[StudiedCharger]
    year: StudiedYear | None
    by_control_setting: list[SettingPoint]
    smallest: Smallest | None
    worst_day: WorstDay | None
    steps: list[Step]


NOTHING = Outcome([], [], [], None, [], None, None, [])


def study_managed_charging(request: ManagedChargingRequest) -> ManagedChargingAnswer:
    """Return what load-managed charging delivers, night by night, and what was found in the facts."""
    stated = request.model_dump(by_alias=True, exclude_unset=True)
    given = Given(request, bind(request.edition, request.readings))
    findings, studied = judged(given)
    outcome = NOTHING if studied is None else outcome_of(given, studied)
    return ManagedChargingAnswer(
        edition=request.edition,
        jurisdiction=request.jurisdiction,
        verdict=verdict_of(findings),
        findings=findings,
        steps=outcome.steps,
        interpretations=[],
        to_verify=to_verify(given),
        not_examined=not_examined(given),
        cautions=cautions(),
        provenance=provenance_of(stated),
        nights=outcome.nights,
        unmet_sessions=outcome.unmet_sessions,
        by_charger=outcome.by_charger,
        year=outcome.year,
        by_control_setting=outcome.by_control_setting,
        smallest=outcome.smallest,
        worst_day=outcome.worst_day,
    )


def judged(given: Given) -> tuple[list[Finding], Studied | None]:
    """Return one finding of each rule, and what was simulated; None where the facts do not allow it."""
    first = {rule.name: rule(given) for rule in RULES if rule.stops}
    if any(first[rule.name].outcome in rule.stops for rule in RULES if rule.stops):
        return [first.get(rule.name) or rule(given) for rule in RULES], None
    studied = simulated(given)
    return [first.get(rule.name) or rule(given, studied) for rule in RULES], studied


def simulated(given: Given) -> Studied | None:
    """Return the stated setting, simulated; None where start or zone of the readings do not exist."""
    if given.begin is None or given.zone is None:
        return None
    end = given.begin + given.readings * given.interval_s
    simulation = Simulation(given, Clock(given.begin, end, LocalDays(given.begin, end, given.zone)))
    return Studied(simulation, *simulation.at_stated_setting())


def outcome_of(given: Given, studied: Studied) -> Outcome:
    """Return the tables, the curve, the smallest setting and the working of a simulation."""
    results, working = Results(studied), Working(given)
    nights = results.nights()
    worst = results.worst_session()
    if worst is None:
        return Outcome([], [], results.chargers(), results.year(nights), [], None, None, [])
    search = Search(studied.simulation, sum(night.met for night in nights))
    working.worst_interval(studied.simulation, worst)
    working.smallest_service(search)
    return Outcome(
        nights=nights,
        unmet_sessions=results.unmet_sessions(),
        by_charger=results.chargers(),
        year=results.year(nights),
        by_control_setting=search.points(),
        smallest=search.smallest(),
        worst_day=results.worst_day(),
        steps=working.steps,
    )
