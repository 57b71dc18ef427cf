"""The rules of capacity reviews, from the record of demand to the lost link."""

from branchwright.checks.service_capacity.capacity_review.rules.backfeed import (
    backfeed_breaker,
    busbar_with_backfeed,
)
from branchwright.checks.service_capacity.capacity_review.rules.calculated import (
    existing_load_facts,
    existing_load_method,
)
from branchwright.checks.service_capacity.capacity_review.rules.chargers import (
    charger_circuit_breaker,
    charger_setting_available,
    charger_setting_within_rating,
    least_charging_current,
)
from branchwright.checks.service_capacity.capacity_review.rules.conductors import (
    service_conductor_load,
    service_conductor_table,
    service_conductors,
)
from branchwright.checks.service_capacity.capacity_review.rules.lost_link import (
    fail_safe_current,
    link_loss_test,
    lost_link_capacity,
    lost_link_current,
)
from branchwright.checks.service_capacity.capacity_review.rules.management import (
    control_setting_range,
    managed_least_load,
    management_access,
    management_listing,
    monitor_position,
    monitored_legs,
)
from branchwright.checks.service_capacity.capacity_review.rules.measured import (
    measured_coverage,
    measured_duration,
    measured_generation,
    measured_interval,
    measured_occupied,
    measured_season,
)
from branchwright.checks.service_capacity.capacity_review.rules.rule import CapacityRule
from branchwright.checks.service_capacity.capacity_review.rules.service import (
    busbar_capacity,
    busbar_protection,
    main_breaker_capacity,
    main_breaker_within_service,
    service_capacity,
    service_phases,
)
from branchwright.checks.service_capacity.capacity_review.rules.shared_circuits import (
    shared_circuit_lost_link,
    shared_circuit_management,
    shared_circuit_members,
    shared_circuit_setting,
    shared_circuit_share,
)

RULES: tuple[CapacityRule, ...] = (
    service_phases,
    charger_setting_within_rating,
    charger_setting_available,
    least_charging_current,
    charger_circuit_breaker,
    existing_load_facts,
    existing_load_method,
    measured_duration,
    measured_interval,
    measured_coverage,
    measured_occupied,
    measured_season,
    measured_generation,
    service_capacity,
    main_breaker_capacity,
    main_breaker_within_service,
    busbar_capacity,
    busbar_protection,
    busbar_with_backfeed,
    backfeed_breaker,
    service_conductors,
    service_conductor_table,
    service_conductor_load,
    control_setting_range,
    managed_least_load,
    management_listing,
    management_access,
    monitored_legs,
    monitor_position,
    fail_safe_current,
    lost_link_current,
    lost_link_capacity,
    link_loss_test,
    shared_circuit_members,
    shared_circuit_management,
    shared_circuit_setting,
    shared_circuit_share,
    shared_circuit_lost_link,
)
"""Every rule of a capacity review."""

__all__ = ["RULES", "CapacityRule"]
