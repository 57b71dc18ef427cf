"""What the next kWh of each interval costs, and brings where it flows out, for tariffs without tiers."""

from tests.checks.charging_cost.reference_pricing import Reference, fraction


def next_kwh(priced: Reference) -> list[float]:
    """Return the price of each interval: its energy rate, events, and taxes in percent of all."""
    factor = 1 + sum(
        float(fraction(rider["percent"])) / 100
        for rider in priced.tariff.get("riders", ())
        if rider.get("is_tax")
    )
    found = []
    for at in priced.intervals:
        price = fraction(priced.rate(at)["tiers"][0]["per_kwh"])
        event = priced.event(at)
        if event is not None:
            price = fraction(event["per_kwh"]) + (price if event["how"] == "added" else 0)
        found.append(float(price) * factor)
    return found
