"""What a tariff and the twelve months that are priced come to before any rule looks at them."""

from collections.abc import Iterator
from datetime import date, timedelta
from functools import cached_property
from zoneinfo import ZoneInfo

from branchwright.checks.charging_cost.tariffs.coverage import Coverage
from branchwright.checks.charging_cost.tariffs.facts import Tariff
from branchwright.checks.charging_cost.tariffs.holiday_calendar import (
    holiday_dates,
    known_countries,
    known_subdivisions,
)
from branchwright.checks.charging_cost.tariffs.price_facts import Tiers
from branchwright.checks.charging_cost.tariffs.price_hours import looks_at_holidays
from branchwright.questions.local_time import zone_named


class Given:
    """A tariff, the dates from `first` to `last`, and where the tariff stands in the request."""

    def __init__(self, tariff: Tariff, first: date, prefix: str) -> None:
        """Take a tariff, the first of the twelve months, and the JSON pointer of the tariff."""
        self.tariff = tariff
        self.first = first
        # The day before the same month of the next year.
        self.last = first.replace(year=first.year + 1) - timedelta(days=1)
        self.prefix = prefix

    def at(self, place: str) -> str:
        """Return the JSON pointer in the request of a place within the tariff."""
        return self.prefix + place

    @cached_property
    def zone(self) -> ZoneInfo | None:
        """The time zone; None where it is not known."""
        return zone_named(self.tariff.time_zone)

    @property
    def knows_country(self) -> bool:
        """Whether the country's holidays are known."""
        return self.tariff.country in known_countries()

    @property
    def knows_place(self) -> bool:
        """Whether the holidays of country and subdivision are known."""
        country, subdivision = self.tariff.country, self.tariff.subdivision
        if country is None or not self.knows_country:
            return False
        return subdivision is None or subdivision in known_subdivisions(country)

    @property
    def has_holidays(self) -> bool:
        """Whether the tariff says from where its holidays come."""
        return self.tariff.country is not None or bool(self.tariff.holiday_dates)

    @property
    def looks_at_holidays(self) -> bool:
        """Whether some kind of day treats holidays apart."""
        return looks_at_holidays(self.tariff)

    @cached_property
    def holidays(self) -> dict[date, str]:
        """The dates of the twelve months that count as holidays, with their names."""
        return holiday_dates(self.tariff, self.first, self.last)

    @cached_property
    def coverage(self) -> Coverage:
        """Which kinds of quarter hour have no price or more than one."""
        tries_holidays = self.has_holidays and self.looks_at_holidays
        return Coverage(self.tariff, self.first, self.holidays if tries_holidays else None)

    def every_tiers(self) -> Iterator[tuple[str, Tiers]]:
        """Yield the place of each row of tiers, and the tiers."""
        for at, rate in enumerate(self.tariff.energy_rates):
            yield f"/energy_rates/{at}/tiers", rate.tiers
        for at, adder in enumerate(self.tariff.tiers_on_all_energy):
            yield f"/tiers_on_all_energy/{at}/tiers", adder.tiers
