"""The steps of what the loads are held against: the busbar with two supplies, and the service conductors."""

from branchwright.calculations.ampacity import corrected_ampacity_a
from branchwright.calculations.service_capacity import (
    busbar_limit_a,
    busbar_supplies_a,
    least_service_ampacity_a,
)
from branchwright.checks.service_capacity.capacity_review.ampacity import (
    UNPRINTED_C,
    corrected_a,
    terminal_columns,
)
from branchwright.checks.service_capacity.capacity_review.case import Case
from branchwright.findings import StepInput
from branchwright.questions.ledger import StepLedger, stated

AT = "/service/conductors"


def panel(case: Case, ledger: StepLedger) -> None:
    """Enter what both supplies put on a busbar, and what it may have."""
    service = case.service
    rule = case.edition.provision("busbar-with-backfeed")
    if service.busbar_rating_a is None or (
        service.backfeed_breaker_a is None and service.backfeed_output_a is None
    ):
        return
    main = (
        stated(service.rating_a, "A", "/service/rating_a")
        if service.main_breaker_a is None
        else stated(service.main_breaker_a, "A", "/service/main_breaker_a")
    )
    if service.backfeed_output_a is not None:
        ledger.note(
            busbar_supplies_a.step(
                "busbar-supplies",
                {
                    "main_breaker_a": main,
                    "factor": rule.values["backfeed_factor"],
                    "backfeed_a": stated(service.backfeed_output_a, "A", "/service/backfeed_output_a"),
                },
                rule.citation,
            )
        )
    elif service.backfeed_breaker_a is not None:
        ledger.work_out(
            "busbar-supplies",
            busbar_supplies_a.quantity,
            "round(main_breaker_a + backfeed_a, 6)",
            {
                "main_breaker_a": main,
                "backfeed_a": stated(service.backfeed_breaker_a, "A", "/service/backfeed_breaker_a"),
            },
            busbar_supplies_a.value(float(main.value), 1.0, service.backfeed_breaker_a),
            "A",
            rule.citation,
        )
    percent = rule.values["percent" if service.backfeed_opposite_main else "anywhere_percent"]
    ledger.note(
        busbar_limit_a.step(
            "busbar-limit",
            {
                "percent": percent,
                "busbar_a": stated(service.busbar_rating_a, "A", "/service/busbar_rating_a"),
            },
            rule.citation,
        )
    )


def service_conductors(case: Case, ledger: StepLedger) -> None:
    """Enter the ampacity of the service conductors at its worst, and the least by the percentage for dwellings."""
    conductors, edition = case.service.conductors, case.edition
    if conductors is None:
        return
    rule = edition.provision("dwelling-service-conductors")
    if rule.number("from_a") <= case.service.rating_a <= rule.number("to_a"):
        ledger.note(
            least_service_ampacity_a.step(
                "least-service-ampacity",
                {
                    "percent": rule.values["percent"],
                    "rating_a": stated(case.service.rating_a, "A", "/service/rating_a"),
                },
                rule.citation,
            )
        )
    if conductors.ampacity_a is not None or conductors.size is None or conductors.material is None:
        return
    printed = conductors.conductor_temperature_rating_c
    column = printed or UNPRINTED_C
    ampacity = edition.ampacities.get((conductors.size, conductors.material, column))
    at_worst, _ = terminal_columns(conductors, case.service.rating_a, edition)
    at_terminals = edition.ampacities.get((conductors.size, conductors.material, at_worst))
    base = edition.provision("base-ambient").values["ambient_c"]
    ambient: StepInput = (
        base if conductors.ambient_c is None else stated(conductors.ambient_c, "degC", AT + "/ambient_c")
    )
    correction = edition.ambient_correction(float(ambient.value), column)
    if ampacity is None or at_terminals is None or correction is None:
        return
    corrected = ledger.add(
        corrected_ampacity_a.step(
            "service-conductor-corrected-ampacity",
            {
                "ampacity_a": ampacity,
                "correction": ledger.work_out(
                    "service-conductor-correction",
                    "ambient correction factor",
                    f"lookup(ambient_correction, ambient_c, {column})",
                    {"ambient_c": ambient},
                    correction.number,
                    "1",
                    correction.citation,
                ),
                "adjustment_percent": edition.count_adjustment(conductors.current_carrying_conductors or 1),
            },
            edition.provision("conductor-actual-load").citation,
        )
    )
    ledger.work_out(
        "service-conductor-ampacity",
        "ampacity of the service conductors, at the terminals and after correction",
        "min(corrected_a, terminals_a)",
        {"corrected_a": corrected, "terminals_a": at_terminals},
        min(corrected_a(conductors, edition), at_terminals.number),
        "A",
        edition.citation_of("ampacity"),
    )
