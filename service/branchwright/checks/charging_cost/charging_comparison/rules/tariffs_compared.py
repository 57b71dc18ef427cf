"""Rules about what is compared: whether the tariffs are sound, and can stand beside each other."""

from branchwright.checks.charging_cost.charging_comparison.facts import LeastCost
from branchwright.checks.charging_cost.charging_comparison.given import Given, may_serve
from branchwright.checks.charging_cost.charging_comparison.rules.rule import rule
from branchwright.checks.charging_cost.tariffs.facts import Tariff, price_count
from branchwright.checks.charging_cost.tariffs.priced import depends_on_use, has_tax_in_percent
from branchwright.findings import Finding
from branchwright.questions.local_time import nearest_zone

MOST_OPTIONS = 100
MOST_CELLS = 8_000_000
MOST_LINES = 24_000
BILLS_OF_A_SEARCH = 12
"""As many does a search for the least cost make at most where there is no one price of a kWh."""

BILLS_OF_A_BREAK_EVEN = 68
"""Seventeen multiples of the need, of two options, against two rivals."""

LONGEST_YEAR_MINUTES = 527_040


@rule("charging-comparison-size", subject="comparison", stops=("fail",))
def charging_comparison_size(given: Given) -> Finding:
    """Is the comparison small enough to be priced in one request?

    Applies: always.
    Rests on: limits of this service: at most 100 options, which are tariffs times arrangements times schedules, at
    most 8,000,000 options times intervals, and 24,000 lines of a month's bills, counted as often as they are made: once
    an option, twelve times where a least cost is searched under tiers, demand charges or a minimum, and up to 68 times
    the longest of these where a break-even is searched. Larger comparisons are asked for part by part.
    Missing facts: none are asked for.
    """
    request = given.request
    options = len(request.tariffs) * len(given.arrangements) * len(request.schedules)
    if options > MOST_OPTIONS:
        return charging_comparison_size.at_most(
            float(options),
            float(MOST_OPTIONS),
            "count",
            f"{options} options: {len(request.tariffs)} tariffs, {len(given.arrangements)} arrangements and "
            f"{len(request.schedules)} schedules.",
            None,
            "/tariffs",
        )
    lines = lines_made(given)
    if lines > MOST_LINES:
        return charging_comparison_size.at_most(
            float(lines),
            float(MOST_LINES),
            "count",
            f"{options} options take bills of up to {lines} lines a month, as often as they are made.",
            None,
            "/tariffs",
        )
    intervals = LONGEST_YEAR_MINUTES // given.step_minutes
    return charging_comparison_size.at_most(
        float(options * intervals),
        float(MOST_CELLS),
        "count",
        f"{options} options over up to {intervals} intervals.",
        None,
        "/tariffs",
    )


def lines_made(given: Given) -> int:
    """Return how many lines a month's bills have in all, counted as often as they are made."""
    request = given.request
    searched = sum(isinstance(each, LeastCost) for each in request.schedules)
    others = len(request.schedules) - searched
    options = longest = 0
    for tariff in request.tariffs:
        # Whether a bill below nothing makes a tax stop is not known yet.
        has_many_prices = depends_on_use(tariff) or has_tax_in_percent(tariff)
        tries = BILLS_OF_A_SEARCH if has_many_prices else 1
        options += most_lines(tariff) * (searched * tries + others)
        longest = max(longest, most_lines(tariff) * (tries if searched else 1))
    options *= len(given.arrangements)
    breaks_even = request.separate_meter is not None and len(given.arrangements) > 1
    return options + BILLS_OF_A_BREAK_EVEN * longest * breaks_even


def most_lines(tariff: Tariff) -> int:
    """Return how many lines a month's bill of a tariff may have."""
    others = (
        tariff.fixed_charges,
        tariff.demand_charges,
        tariff.riders,
        tariff.credits,
        tariff.critical_peak_events,
    )
    return price_count(tariff) + sum(len(each) for each in others)


@rule("charging-tariff-names", subject="tariffs", stops=("fail",))
def charging_tariff_names(given: Given) -> Finding:
    """Has every tariff a name of its own?

    Applies: always.
    Rests on: the answer, and the request itself, speak of tariffs by their names.
    Missing facts: none are asked for.
    """
    names = [tariff.name for tariff in given.request.tariffs]
    for place, name in enumerate(names):
        first = names.index(name)
        if first < place:
            return charging_tariff_names.equal(
                name,
                "another name",
                f"Tariffs {first} and {place} are both named {name}.",
                f"/tariffs/{place}/name",
            )
    return charging_tariff_names.passed("No two tariffs have the same name.")


@rule("charging-currency", subject="tariffs", stops=("fail",))
def charging_currency(given: Given) -> Finding:
    """Have all tariffs the same currency?

    Applies: always.
    Rests on: amounts of different currencies cannot be compared, and this service knows no rate of exchange.
    Missing facts: none are asked for.
    """
    first = given.request.tariffs[0].currency
    for place, tariff in enumerate(given.request.tariffs):
        if tariff.currency != first:
            return charging_currency.equal(
                tariff.currency,
                first,
                f"{tariff.name} is in {tariff.currency}, {given.request.tariffs[0].name} in {first}.",
                f"/tariffs/{place}/currency",
            )
    return charging_currency.passed(f"All amounts are in {first}.")


@rule("charging-time-zone", subject="tariffs", stops=("fail",))
def charging_time_zone(given: Given) -> Finding:
    """Have all tariffs the same time zone, and is there one of that name?

    Applies: always.
    Rests on: house and vehicle are in one place, by whose clock hours are priced and the vehicle comes and goes.
    Missing facts: none are asked for.
    """
    first = given.request.tariffs[0].time_zone
    for place, tariff in enumerate(given.request.tariffs):
        if tariff.time_zone != first:
            return charging_time_zone.equal(
                tariff.time_zone,
                first,
                f"{tariff.name} is priced by the clock of {tariff.time_zone}, {given.request.tariffs[0].name} by that "
                f"of {first}.",
                f"/tariffs/{place}/time_zone",
            )
    if given.zone is None:
        nearest = nearest_zone(first)
        hint = "" if nearest is None else f" Perhaps {nearest} is meant."
        return charging_time_zone.equal(
            first, "an IANA name", f"There is no time zone {first}.{hint}", "/tariffs/0/time_zone"
        )
    return charging_time_zone.passed(f"All tariffs are priced by the clock of {first}.")


@rule("charging-house-tariff", subject="house", stops=("fail",))
def charging_house_tariff(given: Given) -> Finding:
    """Is the tariff that the house is on today among those stated, and may it serve a whole house?

    Applies: where there is a house, or its tariff is stated.
    Rests on: what charging costs is the difference to what the house pays today.
    Missing facts: the first tariff that may serve a whole house stands for it, which is to be verified.
    """
    request, place, pointer = given.request, given.house_place, "/house_tariff"
    names = [tariff.name for tariff in request.tariffs if may_serve(tariff, "whole-house")]
    if place is None and request.house_tariff is None:
        if not given.has_house:
            return charging_house_tariff.not_applicable(
                "There is no house, and no tariff that may serve one."
            )
        return charging_house_tariff.finding(
            "fail", "None of the tariffs may serve a whole house.", citation=None, pointer="/tariffs"
        )
    if place is None:
        return charging_house_tariff.none_of(
            str(request.house_tariff), names, f"No tariff is named {request.house_tariff}.", pointer
        )
    tariff = request.tariffs[place]
    if not may_serve(tariff, "whole-house"):
        return charging_house_tariff.none_of(
            tariff.name, names, f"{tariff.name} may not serve a whole house.", pointer
        )
    return charging_house_tariff.passed(f"The house is on {tariff.name} today.", pointer)


@rule("charging-arrangements", subject="arrangements")
def charging_arrangements(given: Given) -> list[Finding]:
    """Is there a tariff for each meter arrangement that is to be compared?

    Applies: always; one finding for each arrangement that none of the tariffs may serve.
    Rests on: the meters that each tariff states to serve; other combinations are listed as not offered.
    Missing facts: a tariff that states none may serve all.
    """
    found = [
        charging_arrangements.none_of(
            arrangement,
            sorted({each for tariff in given.request.tariffs for each in tariff.arrangements or ()}),
            f"None of the tariffs may serve {arrangement}.",
            "/arrangements",
        )
        for arrangement in given.arrangements
        if not any(may_serve(tariff, arrangement) for tariff in given.request.tariffs)
    ]
    return found or [charging_arrangements.passed("Each arrangement has a tariff that may serve it.")]
