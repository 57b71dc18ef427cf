"""The rules of a sound tariff, in the order in which they stand in an answer."""

from branchwright.checks.charging_cost.tariffs.rules.charges import (
    tariff_bill_credits,
    tariff_events_apart,
    tariff_events_in_year,
    tariff_meters,
    tariff_riders,
)
from branchwright.checks.charging_cost.tariffs.rules.hours import (
    tariff_day_types,
    tariff_no_hour_priced_twice,
    tariff_no_hour_unpriced,
    tariff_seasons,
)
from branchwright.checks.charging_cost.tariffs.rules.names import (
    tariff_names,
    tariff_references,
    tariff_size,
)
from branchwright.checks.charging_cost.tariffs.rules.place_and_time import (
    tariff_currency,
    tariff_dates,
    tariff_holiday_calendar,
    tariff_holiday_names,
    tariff_holidays_known,
    tariff_in_force,
    tariff_time_zone,
)
from branchwright.checks.charging_cost.tariffs.rules.prices import (
    tariff_credits_marked,
    tariff_export_price,
    tariff_rows_of_one_price,
    tariff_tiers,
)
from branchwright.checks.charging_cost.tariffs.rules.rule import Rule

RULES: tuple[Rule, ...] = (
    tariff_size,
    tariff_currency,
    tariff_time_zone,
    tariff_dates,
    tariff_in_force,
    tariff_holiday_calendar,
    tariff_holiday_names,
    tariff_holidays_known,
    tariff_names,
    tariff_references,
    tariff_seasons,
    tariff_day_types,
    tariff_no_hour_unpriced,
    tariff_no_hour_priced_twice,
    tariff_tiers,
    tariff_rows_of_one_price,
    tariff_credits_marked,
    tariff_riders,
    tariff_bill_credits,
    tariff_meters,
    tariff_events_apart,
    tariff_events_in_year,
    tariff_export_price,
)
"""Every rule of a tariff."""

__all__ = ["RULES", "Rule"]
