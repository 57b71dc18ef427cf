"""Rules about names: what is named twice, and what is named that is not there; and how much one tariff may have."""

from collections.abc import Iterator, Sequence

from branchwright.checks.charging_cost.tariffs.facts import price_count
from branchwright.checks.charging_cost.tariffs.given import Given
from branchwright.checks.charging_cost.tariffs.rules.rule import Fault, listed, nearest, rule
from branchwright.findings import Finding

MOST_LINES = 200


@rule("tariff-size", subject="tariff")
def tariff_size(given: Given) -> list[Finding]:
    """Is the tariff small enough to be billed line by line?

    Applies: always.
    Rests on: a limit of this service: at most 200 different prices by season, period and tier, tiers on all
    energy included.
    Missing facts: none are asked for.
    """
    lines = price_count(given.tariff)
    wrong = Fault(
        "/energy_rates",
        f"The tariff has {lines} prices by season, period and tier, tiers on all energy included; "
        f"{MOST_LINES} are the most.",
        float(MOST_LINES),
        float(lines),
        unit="count",
        comparison="at-most",
    )
    faults = [wrong] if lines > MOST_LINES else []
    return tariff_size.judged(
        given,
        faults,
        f"The tariff has {lines} prices by season, period and tier, tiers on all energy included.",
        "/energy_rates",
    )


@rule("tariff-names", subject="names")
def tariff_names(given: Given) -> list[Finding]:
    """Does every name stand for one thing?

    Applies: always.
    Rests on: seasons and day types are referred to by name, and lines of a bill are told apart by it. Rows of energy
    rates may share the name of a period.
    Missing facts: none are asked for.
    """
    return tariff_names.judged(given, _named_twice(given), "Every name stands for one thing.")


def _named_twice(given: Given) -> Iterator[Fault]:
    tariff = given.tariff
    lists: dict[str, Sequence[str]] = {
        "seasons": [each.name for each in tariff.seasons],
        "day_types": [each.name for each in tariff.day_types],
        "tiers_on_all_energy": [each.name for each in tariff.tiers_on_all_energy],
        "fixed_charges": [each.name for each in tariff.fixed_charges],
        "demand_charges": [each.name for each in tariff.demand_charges],
        "riders": [each.name for each in tariff.riders],
        "credits": [each.name for each in tariff.credits],
    }
    for field, names in lists.items():
        for at, name in enumerate(names):
            before = names.index(name)
            if before < at:
                yield Fault(
                    f"/{field}/{at}/name",
                    f"{name} is the name of /{field}/{before} too.",
                    "a name of its own",
                    name,
                )


@rule("tariff-references", subject="names")
def tariff_references(given: Given) -> list[Finding]:
    """Is every season, day type and period that is referred to there?

    Applies: where a name is referred to.
    Rests on: seasons and day types are those of the tariff, periods those of its energy rates. What refers to a name
    that nothing bears would never apply.
    Missing facts: none are asked for.
    """
    return tariff_references.judged(
        given, _lacking(given), "Every season, day type and period that is named is there."
    )


def _lacking(given: Given) -> Iterator[Fault]:
    tariff = given.tariff
    seasons = [season.name for season in tariff.seasons]
    day_types = [day_type.name for day_type in tariff.day_types]
    periods = list(dict.fromkeys(rate.period for rate in tariff.energy_rates))
    for at, rate in enumerate(tariff.energy_rates):
        yield from _unknown(f"/energy_rates/{at}/season", "season", rate.season, seasons)
        yield from _unknown(f"/energy_rates/{at}/day_type", "day type", rate.day_type, day_types)
    of_season: dict[str, Sequence[str | None]] = {
        "tiers_on_all_energy": [each.season for each in tariff.tiers_on_all_energy],
        "fixed_charges": [each.season for each in tariff.fixed_charges],
        "demand_charges": [each.season for each in tariff.demand_charges],
        "riders": [each.season for each in tariff.riders],
        "credits": [each.season for each in tariff.credits],
    }
    for field, names in of_season.items():
        for at, name in enumerate(names):
            yield from _unknown(f"/{field}/{at}/season", "season", name, seasons)
    of_period: dict[str, Sequence[str | None]] = {
        "demand_charges": [each.period for each in tariff.demand_charges],
        "credits": [each.period for each in tariff.credits],
    }
    for field, names in of_period.items():
        for at, name in enumerate(names):
            yield from _unknown(f"/{field}/{at}/period", "period", name, periods)


def _unknown(place: str, kind: str, name: str | None, known: list[str]) -> Iterator[Fault]:
    if name is not None and name not in known:
        yield Fault(
            place,
            f"The tariff has no {kind} named {name}; it has {listed(known)}.{nearest(name, known)}",
            known,
            name,
            comparison="one-of",
        )
