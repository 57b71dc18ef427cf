"""The rules of a managed-charging study, in the order in which they stand in an answer."""

from branchwright.checks.service_capacity.managed_charging.rules.chargers import (
    managed_battery,
    managed_charger_circuit,
    managed_least_current,
    managed_need_in_window,
    managed_phases,
    managed_sessions,
)
from branchwright.checks.service_capacity.managed_charging.rules.house_load import (
    managed_days_covered,
    managed_house_load,
    managed_house_readings,
    managed_local_clock,
    managed_study_size,
)
from branchwright.checks.service_capacity.managed_charging.rules.management import (
    managed_house_below_setting,
    managed_nights_met,
    managed_response,
    managed_setting_on_service,
)
from branchwright.checks.service_capacity.managed_charging.rules.rule import Rule, Studied

RULES: tuple[Rule, ...] = (
    managed_study_size,
    managed_house_load,
    managed_house_readings,
    managed_local_clock,
    managed_phases,
    managed_sessions,
    managed_charger_circuit,
    managed_least_current,
    managed_battery,
    managed_response,
    managed_setting_on_service,
    managed_house_below_setting,
    managed_need_in_window,
    managed_nights_met,
    managed_days_covered,
)
"""Every rule of a study."""

__all__ = ["RULES", "Rule", "Studied"]
