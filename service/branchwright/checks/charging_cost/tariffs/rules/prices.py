"""Rules about prices: tiers, rows that are one price, credits, and what flows out."""

from collections.abc import Iterator
from decimal import Decimal

from branchwright.checks.charging_cost.tariffs.given import Given
from branchwright.checks.charging_cost.tariffs.price_facts import EnergyRate, Tiers
from branchwright.checks.charging_cost.tariffs.rules.rule import Fault, rule
from branchwright.findings import Finding


@rule("tariff-tiers", subject="tiers")
def tariff_tiers(given: Given) -> list[Finding]:
    """Do tiers follow each other upwards, with the last one open?

    Applies: always; one price for all energy is one open tier.
    Rests on: each tier begins where the one before it ends. An end that is not above the one before, or an open tier
    that others follow, leaves energy without a price or with two; so does a last tier that ends.
    Missing facts: none are asked for.
    """
    faults = [fault for place, tiers in given.every_tiers() for fault in _tier_faults(place, tiers)]
    return tariff_tiers.judged(given, faults, "All tiers follow each other, and the last ones are open.")


def _tier_faults(place: str, tiers: Tiers) -> Iterator[Fault]:
    if not tiers:
        yield Fault(
            place,
            "There is no tier, so that no energy has a price.",
            1.0,
            0.0,
            "count",
            comparison="at-least",
        )
        return
    before = 0.0
    for at, tier in enumerate(tiers):
        is_last = at == len(tiers) - 1
        end, pointer = tier.up_to_kwh, f"{place}/{at}/up_to_kwh"
        if is_last and end is not None:
            message = f"The last tier ends at {end:g} kWh; energy beyond that has no price."
            yield Fault(pointer, message, "open", f"{end:g} kWh")
        elif not is_last and end is None:
            yield Fault(pointer, "The tier is open, and others follow it.", "an end", "open")
        elif end is not None and end <= before:
            message = f"The tier ends at {end:g} kWh, and the one before it at {before:g} kWh."
            yield Fault(pointer, message, before, end, "kWh", comparison="at-least")
        before = before if end is None else end


@rule("tariff-rows-of-one-price", subject="energy rates")
def tariff_rows_of_one_price(given: Given) -> list[Finding]:
    """Do rows of the same season and period say the same?

    Applies: where a season and a period have several rows.
    Rests on: they are one price, stated in parts of the day or for several kinds of day, and their energy is summed on
    one line; so their tiers, their allowance and what flows out have to be alike.
    Missing facts: none are asked for.
    """
    return tariff_rows_of_one_price.judged(
        given, _unlike_rows(given), "Rows of one season and period are alike.", "/energy_rates"
    )


def _unlike_rows(given: Given) -> Iterator[Fault]:
    firsts: dict[tuple[str | None, str], int] = {}
    rates = given.tariff.energy_rates
    for at, rate in enumerate(rates):
        first = firsts.setdefault((rate.season, rate.period), at)
        for field, one, other in _differing(rates[first], rate):
            season = "" if rate.season is None else f" in {rate.season}"
            yield Fault(
                f"/energy_rates/{at}/{field}",
                f"{rate.period}{season} has {other} here, and {one} in {given.at('/energy_rates')}/{first}.",
                one,
                other,
            )


def _differing(one: EnergyRate, other: EnergyRate) -> Iterator[tuple[str, str, str]]:
    """Yield each field in which two rows of one price differ, with both values in words."""
    if [(tier.up_to_kwh, tier.per_kwh) for tier in one.tiers] != [
        (tier.up_to_kwh, tier.per_kwh) for tier in other.tiers
    ]:
        yield "tiers", _in_words(one.tiers), _in_words(other.tiers)
    if (one.allowance_per or "month") != (other.allowance_per or "month"):
        yield "allowance_per", one.allowance_per or "month", other.allowance_per or "month"
    if one.export_per_kwh != other.export_per_kwh:
        yield "export_per_kwh", _or_nothing(one.export_per_kwh), _or_nothing(other.export_per_kwh)


def _in_words(tiers: Tiers) -> str:
    prices = [
        f"{tier.per_kwh:f}" if tier.up_to_kwh is None else f"{tier.per_kwh:f} up to {tier.up_to_kwh:g} kWh"
        for tier in tiers
    ]
    return ", ".join(prices) or "no tier"


def _or_nothing(amount: Decimal | None) -> str:
    return "nothing" if amount is None else f"{amount:f}"


@rule("tariff-credits-marked", subject="signs")
def tariff_credits_marked(given: Given) -> list[Finding]:
    """Is every price below zero marked as a credit, and no other?

    Applies: always.
    Rests on: a minus sign that slipped in turns a charge into a gift. A credit is stated below zero and marked; one
    that is marked and above zero is as doubtful.
    Missing facts: none are asked for.
    """
    return tariff_credits_marked.judged(
        given, _sign_faults(given), "Whatever is below zero is marked as a credit."
    )


def _sign_faults(given: Given) -> Iterator[Fault]:
    tariff = given.tariff
    signed = [
        (f"{place}/{at}", "per_kwh", tier.per_kwh, tier.is_credit)
        for place, tiers in given.every_tiers()
        for at, tier in enumerate(tiers)
    ]
    signed += [
        (f"/fixed_charges/{at}", "amount", each.amount, each.is_credit)
        for at, each in enumerate(tariff.fixed_charges)
    ]
    for at, rider in enumerate(tariff.riders):
        for field, value in (("per_kwh", rider.per_kwh), ("percent", rider.percent)):
            if value is not None:
                signed.append((f"/riders/{at}", field, value, rider.is_credit))
    for place, field, value, is_credit in signed:
        if value < 0 and not is_credit:
            message = f"{value:f} is below zero and not marked as a credit."
            yield Fault(f"{place}/{field}", message, "0", f"{value:f}", tariff.currency, "at-least")
        elif value > 0 and is_credit:
            message = f"{value:f} is above zero and marked as a credit; a credit is stated below zero."
            yield Fault(f"{place}/{field}", message, "0", f"{value:f}", tariff.currency, "at-most")


@rule("tariff-export-price", subject="export", force="recommendation")
def tariff_export_price(given: Given) -> list[Finding]:
    """Is what flows out credited at no more than what flows in costs?

    Applies: where energy that flows out is credited.
    Rests on: a credit above the first tier's price pays for drawing energy and handing it back; tariffs seldom mean
    that. Common practice, no source.
    Missing facts: none are asked for.
    """
    rates = given.tariff.energy_rates
    if all(rate.export_per_kwh is None for rate in rates):
        return tariff_export_price.no_question("Nothing is credited for energy that flows out.")
    faults = [
        Fault(
            f"/energy_rates/{at}/export_per_kwh",
            f"A kWh that flows out brings {rate.export_per_kwh:f}; one that flows in costs "
            f"{rate.tiers[0].per_kwh:f}.",
            f"{rate.tiers[0].per_kwh:f}",
            f"{rate.export_per_kwh:f}",
            given.tariff.currency,
            "at-most",
        )
        for at, rate in enumerate(rates)
        if rate.export_per_kwh is not None and rate.tiers and rate.export_per_kwh > rate.tiers[0].per_kwh
    ]
    return tariff_export_price.judged(given, faults, "No kWh brings more than it costs.", "/energy_rates")
