"""The rules of load calculations: first the facts, then the service."""

from branchwright.checks.service_capacity.dwelling_load.rules.chargers import (
    dwelling_charger_setting,
    dwelling_load_management,
)
from branchwright.checks.service_capacity.dwelling_load.rules.dwelling import (
    calculated_load,
    cooking_rating,
    heat_pump_listed_once,
    heating_control,
    laundry_circuits,
    listed_once,
    motor_within_rating,
    small_appliance_circuits,
)
from branchwright.checks.service_capacity.dwelling_load.rules.rule import LoadRule
from branchwright.checks.service_capacity.dwelling_load.rules.service_rating import (
    dwelling_supply_phases,
    least_service_rating,
    service_by_existing_dwelling_method,
    service_by_optional_method,
    service_by_standard_method,
    service_rating,
)

RULES: tuple[LoadRule, ...] = (
    calculated_load,
    listed_once,
    heat_pump_listed_once,
    small_appliance_circuits,
    laundry_circuits,
    cooking_rating,
    motor_within_rating,
    heating_control,
    dwelling_charger_setting,
    dwelling_load_management,
    dwelling_supply_phases,
    least_service_rating,
    service_by_standard_method,
    service_by_optional_method,
    service_by_existing_dwelling_method,
    service_rating,
)
"""Every rule of a load calculation, in the order in which it is judged."""

__all__ = ["RULES", "LoadRule"]
