"""The request model of a tariff review, and the tariff itself: prices by the local calendar, as data."""

from typing import Annotated, TypeAlias

from pydantic import BeforeValidator, Field

from branchwright.checks.charging_cost.tariffs.calendar_facts import (
    MOST_DAY_TYPES,
    MOST_HOLIDAYS,
    MOST_SEASONS,
    DayType,
    Effective,
    ObservedHolidays,
    Season,
)
from branchwright.checks.charging_cost.tariffs.price_facts import (
    AllEnergyTiers,
    Arrangement,
    BillCredit,
    CriticalPeakEvent,
    DemandCharge,
    EnergyRate,
    FixedCharge,
    MinimumBill,
    Rider,
    Rounding,
)
from branchwright.questions.fields import NONE_WHERE_NULL, CalendarDate, Facts, Name, ZoneName, whole
from branchwright.questions.money_fields import Currency

MOST_ENERGY_RATES = 100
MOST_EVENTS = 400
MOST_CHARGES = 30
FIRST_YEAR = 2000
LAST_YEAR = 2100

Year: TypeAlias = Annotated[
    Annotated[int, Field(strict=True, ge=FIRST_YEAR, le=LAST_YEAR)], BeforeValidator(whole)
]


class Tariff(Facts):
    """Prices of energy by the local calendar, and what else stands on the bill. A sound one prices every hour once."""

    name: Name
    currency: Currency
    time_zone: Annotated[ZoneName, Field(description="IANA name of the zone by whose clock it prices.")]
    country: Annotated[
        Annotated[str, Field(strict=True, pattern=r"^[A-Z]{2}$")] | None,
        Field(
            description="ISO 3166 code of the country whose public holidays count. Not stated: none count."
        ),
    ] = None
    subdivision: Annotated[
        Annotated[str, Field(strict=True, pattern=r"^[A-Z0-9]{1,3}$")] | None,
        Field(
            description="Code of the state or province whose holidays count too, as ISO 3166-2 writes it after the "
            "hyphen."
        ),
    ] = None
    observed_holidays: Annotated[
        ObservedHolidays | None,
        Field(
            description="Which day counts where a holiday is observed on another than its own. Not stated: both, "
            "which is to be verified."
        ),
    ] = None
    holiday_names: Annotated[
        tuple[Name, ...] | None,
        Field(
            max_length=MOST_HOLIDAYS,
            description="The only holidays of the country that count, by name. Not stated: all.",
        ),
    ] = None
    holiday_dates: Annotated[
        tuple[CalendarDate, ...] | None,
        Field(max_length=MOST_HOLIDAYS, description="Dates that count as holidays beside them, YYYY-MM-DD."),
    ] = None
    effective: Annotated[
        Effective | None,
        Field(description="When it is in force. Not stated: the whole year that is asked for."),
    ] = None
    seasons: Annotated[tuple[Season, ...], Field(max_length=MOST_SEASONS), NONE_WHERE_NULL] = ()
    day_types: Annotated[tuple[DayType, ...], Field(max_length=MOST_DAY_TYPES), NONE_WHERE_NULL] = ()
    energy_rates: Annotated[
        tuple[EnergyRate, ...],
        Field(
            max_length=MOST_ENERGY_RATES,
            description="Rows with the same season and period are one price, and have the same tiers.",
        ),
    ]
    tiers_on_all_energy: Annotated[
        tuple[AllEnergyTiers, ...], Field(max_length=MOST_CHARGES), NONE_WHERE_NULL
    ] = ()
    fixed_charges: Annotated[tuple[FixedCharge, ...], Field(max_length=MOST_CHARGES), NONE_WHERE_NULL] = ()
    demand_charges: Annotated[tuple[DemandCharge, ...], Field(max_length=MOST_CHARGES), NONE_WHERE_NULL] = ()
    minimum_bill: MinimumBill | None = None
    riders: Annotated[tuple[Rider, ...], Field(max_length=MOST_CHARGES), NONE_WHERE_NULL] = ()
    credits: Annotated[tuple[BillCredit, ...], Field(max_length=MOST_CHARGES), NONE_WHERE_NULL] = ()
    critical_peak_events: Annotated[
        tuple[CriticalPeakEvent, ...], Field(max_length=MOST_EVENTS), NONE_WHERE_NULL
    ] = ()
    rounding: Annotated[
        Rounding | None, Field(description="Not stated: each line, a half away from zero.")
    ] = None
    arrangements: Annotated[
        tuple[Arrangement, ...] | None,
        Field(min_length=1, max_length=3, description="The meters that it may serve. Not stated: all."),
    ] = None


def price_count(tariff: Tariff) -> int:
    """Return how many prices a tariff has by season, period and tier, and by tier on all energy."""
    # Rows of one season and period are one price; of unlike ones, which a rule refuses, the first counts.
    tiers = {(rate.season, rate.period): len(rate.tiers) for rate in reversed(tariff.energy_rates)}
    return sum(tiers.values()) + sum(len(adder.tiers) for adder in tariff.tiers_on_all_energy)


class TariffReviewRequest(Facts):
    """Is this tariff sound, and what does each hour cost?"""

    tariff: Tariff
    year: Annotated[
        Year,
        Field(description="The calendar year, by the tariff's own clock."),
    ]
