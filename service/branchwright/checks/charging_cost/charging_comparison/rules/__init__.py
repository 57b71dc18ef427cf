"""The rules of a charging cost comparison, in the order in which they stand in an answer."""

from branchwright.checks.charging_cost.charging_comparison.rules.meters import (
    charging_separate_meter,
    charging_worked_bill,
)
from branchwright.checks.charging_cost.charging_comparison.rules.rule import Rule
from branchwright.checks.charging_cost.charging_comparison.rules.series import (
    charging_generation,
    charging_house_load,
)
from branchwright.checks.charging_cost.charging_comparison.rules.soundness import charging_tariffs_sound
from branchwright.checks.charging_cost.charging_comparison.rules.stays import (
    charging_solar_surplus,
    charging_stays,
    charging_timer_windows,
)
from branchwright.checks.charging_cost.charging_comparison.rules.tariffs_compared import (
    charging_arrangements,
    charging_comparison_size,
    charging_currency,
    charging_house_tariff,
    charging_tariff_names,
    charging_time_zone,
)
from branchwright.checks.charging_cost.charging_comparison.rules.vehicle import (
    charging_battery,
    charging_consumption,
    charging_least_current,
    charging_need_in_window,
    charging_onboard_limit,
    charging_worst_day,
)

RULES: tuple[Rule, ...] = (
    charging_comparison_size,
    charging_tariff_names,
    charging_currency,
    charging_time_zone,
    charging_tariffs_sound,
    charging_house_tariff,
    charging_arrangements,
    charging_house_load,
    charging_generation,
    charging_stays,
    charging_least_current,
    charging_onboard_limit,
    charging_consumption,
    charging_battery,
    charging_worst_day,
    charging_timer_windows,
    charging_solar_surplus,
    charging_need_in_window,
    charging_separate_meter,
    charging_worked_bill,
)
"""Every rule of a comparison."""

__all__ = ["RULES", "Rule"]
