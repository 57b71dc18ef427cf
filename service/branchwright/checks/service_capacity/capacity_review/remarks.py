"""What a capacity review says beside its findings: what to verify, what was not examined, and the cautions."""

from branchwright.checks.service_capacity.capacity_review.calculated import DWELLING, CalculatedLoad
from branchwright.checks.service_capacity.capacity_review.case import Case
from branchwright.checks.service_capacity.capacity_review.rules.backfeed import has_backfeed
from branchwright.checks.service_capacity.dwelling_load.case import LoadCase
from branchwright.checks.service_capacity.dwelling_load.remarks import to_verify as load_to_verify
from branchwright.questions.answers import ToVerify
from branchwright.questions.remarks import CAUTIONS

NOT_EXAMINED = [
    "condition of service, meter and panel, and space in the panel",
    "whether the utility's transformer and drop carry the load",
    "the branch circuits of the chargers: POST /v1/circuit-reviews looks at them",
    "how loads from line to neutral are spread over the lines",
    "loads that are added later: a heat pump, a second vehicle, a charger that is reset to its full current",
    "local amendments of the code",
]
MANAGEMENT = (
    "Management is safe by listed equipment, verified monitors on the right conductors and a lost link that was tried; "
    "no simulated night proves it."
)
BALANCED = "Watts are taken as volt-amperes and spread evenly over the lines; one that carries more has less headroom."
BUSIEST = "On three phases the chargers are taken to be single-phase and all between the same two lines."


def cautions(case: Case) -> list[str]:
    """Return the cautions that every answer bears, and those that the case adds."""
    found = [*CAUTIONS, BALANCED]
    if case.phases == 3:
        found.append(BUSIEST)
    found.append(MANAGEMENT)
    return found


def not_examined(case: Case) -> list[str]:
    """Return what was not looked at."""
    found = list(NOT_EXAMINED)
    service = case.service
    if service.main_breaker_a is None:
        found.append("the main breaker: its rating is not stated")
    if service.busbar_rating_a is None:
        found.append("the busbar: its rating is not stated")
    if service.conductors is None:
        found.append("the service conductors: they are not stated")
    if case.request.jurisdiction is not None:
        found.append(f"amendments in force in {case.request.jurisdiction}")
    return found


def to_verify(case: Case, dwelling: LoadCase | None) -> list[ToVerify]:
    """Return the facts that were merely declared, or assumed where nothing was stated."""
    found = [
        ToVerify("/service/rating_a", f"{case.service.rating_a:g}", "main breaker and service conductors")
    ]
    found.extend(_service(case))
    found.extend(_existing(case, dwelling))
    found.extend(_chargers(case))
    found.extend(_management(case))
    return found


def _service(case: Case) -> list[ToVerify]:
    service = case.service
    found: list[ToVerify] = []
    if service.main_breaker_a is not None:
        found.append(
            ToVerify("/service/main_breaker_a", f"{service.main_breaker_a:g}", "handle of the main breaker")
        )
    if service.busbar_rating_a is not None:
        found.append(
            ToVerify("/service/busbar_rating_a", f"{service.busbar_rating_a:g}", "label of the panel")
        )
    if not has_backfeed(service):
        found.append(
            ToVerify("/service/backfeed_breaker_a", "not stated, taken as none", "breakers of the panel")
        )
    elif service.backfeed_output_a is None:
        found.append(
            ToVerify(
                "/service/backfeed_output_a",
                "not stated, its breaker's rating counts",
                "nameplate of the inverter",
            )
        )
    conductors = service.conductors
    if conductors is None:
        return found
    if conductors.ampacity_a is not None:
        found.append(
            ToVerify(
                "/service/conductors/ampacity_a",
                f"{conductors.ampacity_a:g}",
                "size, metal, insulation and conditions of the conductors",
            )
        )
        return found
    for field, stated, assumed, evidence in (
        (
            "conductor_temperature_rating_c",
            conductors.conductor_temperature_rating_c,
            "75 degC",
            "print on the conductors",
        ),
        (
            "terminal_temperature_rating_c",
            conductors.terminal_temperature_rating_c,
            "unmarked",
            "marking at both ends",
        ),
        ("ambient_c", conductors.ambient_c, "that of the ampacity table", "hottest hour where they lie"),
        (
            "current_carrying_conductors",
            conductors.current_carrying_conductors,
            "up to three",
            "inside of raceway or cable",
        ),
    ):
        words = f"not stated, taken as {assumed}" if stated is None else f"{stated:g}"
        found.append(ToVerify(f"/service/conductors/{field}", words, evidence))
    return found


def _existing(case: Case, dwelling: LoadCase | None) -> list[ToVerify]:
    load = case.existing
    if isinstance(load, CalculatedLoad):
        of_load = [] if dwelling is None else load_to_verify(dwelling)
        return [
            ToVerify(DWELLING, "as stated, without the chargers to be added", "survey of the dwelling"),
            *(item for item in of_load if item.pointer.startswith(DWELLING)),
        ]
    found = [
        ToVerify(
            "/existing_load/measured_demand_w",
            f"{load.facts.measured_demand_w:g}",
            "meter data, on the highest-loaded line where lines were measured",
        )
    ]
    if load.facts.has_generation is not False:
        found.append(
            ToVerify(
                "/existing_load/has_generation",
                "generation" if load.facts.has_generation else "not stated",
                "meter, inverters and batteries",
            )
        )
    if load.facts.occupied is not None and not load.is_year:
        found.append(
            ToVerify(
                "/existing_load/occupied",
                "occupied" if load.facts.occupied else "not occupied",
                "who lived there then",
            )
        )
    return found


def _chargers(case: Case) -> list[ToVerify]:
    found: list[ToVerify] = []
    for charger in case.chargers:
        facts, at = charger.facts, charger.pointer
        if facts.rated_current_a is None:
            found.append(
                ToVerify(
                    at + "/rated_current_a",
                    f"not stated, taken as {facts.charging_current_a:g} A",
                    "nameplate of the charger",
                )
            )
        if at + "/setting_access" in case.unknown:
            found.append(
                ToVerify(
                    at + "/setting_access",
                    f"not stated, taken as unrestricted: the rated {charger.rated_a:g} A count",
                    "how the setting is reached",
                )
            )
        elif facts.setting_access is not None:
            found.append(ToVerify(at + "/setting_access", facts.setting_access, "how the setting is reached"))
        if facts.connection is None and charger.rated_a > facts.charging_current_a:
            found.append(
                ToVerify(at + "/connection", "not stated, taken as hardwired", "how the charger is connected")
            )
    return found


def _management(case: Case) -> list[ToVerify]:
    management = case.management
    if management is None:
        return []
    found = [
        ToVerify(
            "/management/control_setting_a", f"{management.control_setting_a:g}", "setting of the equipment"
        )
    ]
    for field, stated, evidence in (
        ("fail_safe_current_a", management.fail_safe_current_a, "a trial with the link cut"),
        ("monitored_legs", management.monitored_legs, "sensors at the service, arrows agreeing"),
        ("monitor_position", management.monitor_position, "sensors seen from the source"),
        ("listed", management.listed, "label of the equipment"),
        ("link_loss_tested", management.link_loss_tested, "record of the trial"),
        ("access", management.access, "how the settings are reached"),
    ):
        if stated is not None:
            words = stated if isinstance(stated, str) else _in_words(stated)
            found.append(ToVerify(f"/management/{field}", words, evidence))
    return found


def _in_words(stated: bool | float) -> str:
    return ("yes" if stated else "no") if isinstance(stated, bool) else f"{stated:g}"
