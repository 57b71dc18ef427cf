"""The rules of interval data, from the body to the conditions of the method."""

from branchwright.checks.service_capacity.interval_data.rules.body import (
    interval_data_autumn_hour,
    interval_data_choice,
    interval_data_duplicates,
    interval_data_instructions,
    interval_data_intervals,
    interval_data_layout,
    interval_data_order,
    interval_data_readings,
    interval_data_time_zone,
    interval_data_zone_agreement,
)
from branchwright.checks.service_capacity.interval_data.rules.conditions import (
    interval_data_coverage,
    interval_data_duration,
    interval_data_generation,
    interval_data_greatest_reading,
    interval_data_months,
    interval_data_resolution,
)
from branchwright.checks.service_capacity.interval_data.rules.rule import DataRule
from branchwright.checks.service_capacity.interval_data.rules.values import (
    interval_data_magnitude,
    interval_data_phases,
    interval_data_registers,
)

RULES: tuple[DataRule, ...] = (
    interval_data_instructions,
    interval_data_layout,
    interval_data_choice,
    interval_data_readings,
    interval_data_time_zone,
    interval_data_zone_agreement,
    interval_data_autumn_hour,
    interval_data_order,
    interval_data_intervals,
    interval_data_duplicates,
    interval_data_phases,
    interval_data_registers,
    interval_data_magnitude,
    interval_data_duration,
    interval_data_coverage,
    interval_data_months,
    interval_data_resolution,
    interval_data_generation,
    interval_data_greatest_reading,
)
"""Every rule of interval data, in the order in which it is judged."""

__all__ = ["RULES", "DataRule"]
