"""What an answer on interval data says beside its findings."""

from branchwright.checks.service_capacity.interval_data.case import Case
from branchwright.checks.service_capacity.interval_data.collected import Collected
from branchwright.questions.answers import ToVerify
from branchwright.questions.remarks import CAUTIONS

NOT_EXAMINED = [
    "which meter, service and loads the readings are of",
    "whether the building was occupied and its heating and cooling in use",
    "loads that were added or taken away since",
    "the demand of each leg, and of times shorter than an interval",
    "the meter's accuracy and its transformer ratio",
    "local amendments of the code",
]
HIDDEN = "Measured demand is that of the past: a load that did not run then is not in it."


def with_cautions() -> list[str]:
    """Return the cautions that every answer bears, and that of all measured demand."""
    return [*CAUTIONS, HIDDEN]


def not_examined(jurisdiction: str | None) -> list[str]:
    """Return what was not looked at."""
    if jurisdiction is None:
        return NOT_EXAMINED
    return [*NOT_EXAMINED, f"amendments in force in {jurisdiction}"]


def to_verify(case: Case, collected: Collected | None) -> list[ToVerify]:
    """Return the facts that were merely declared, told from the body, or assumed where nothing was stated."""
    found: list[ToVerify] = []
    stated, grid, demand = case.stated, case.grid, case.demand
    if collected is not None:
        found += collected.to_verify
        if demand is not None:
            found.append(
                ToVerify(
                    case.unit_pointer,
                    f"{collected.unit}: {demand.total_kwh:,.1f} kWh in {demand.days:g} days",
                    "bills of the same time",
                )
            )
    if grid is not None and grid.told_interval:
        found.append(
            ToVerify(
                case.interval_pointer,
                f"not stated, told from the readings: {grid.interval_minutes}",
                "the export",
            )
        )
    if stated.time_zone is not None:
        found.append(ToVerify(case.stated.pointer("time_zone"), stated.time_zone, "place of the meter"))
    elif grid is not None:
        found.append(
            ToVerify(
                case.stated.pointer("time_zone"),
                f"not stated: months and days are those of {case.zone}",
                "place of the meter",
            )
        )
    if stated.has_generation is not None:
        found.append(
            ToVerify(
                case.stated.pointer("has_generation"),
                "yes" if stated.has_generation else "no",
                "inverters and storage on the premises",
            )
        )
    if demand is not None:
        found.append(
            ToVerify(
                case.stated.pointer("leg_assumption"),
                f"{'' if stated.leg_assumption else 'not stated, taken as '}{stated.legs}, at power factor 1",
                "clamp meter on each leg under load",
            )
        )
    return found
