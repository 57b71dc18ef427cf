"""The rules of circuits, in the order in which an inspector would follow the current."""

from branchwright.checks.circuits.rules.breaker_rating import (
    breaker_listed_for_panel,
    breaker_standard_rating,
    greatest_overcurrent_device,
    overcurrent_continuous_load,
)
from branchwright.checks.circuits.rules.conductor_ampacity import (
    conductor_continuous_load,
    conductor_corrected_ampacity,
    conductor_overcurrent_protection,
    small_conductor_protection,
)
from branchwright.checks.circuits.rules.current_setting import current_setting, setting_label
from branchwright.checks.circuits.rules.disconnecting_means import disconnecting_means
from branchwright.checks.circuits.rules.emergency_shutoff import emergency_shutoff
from branchwright.checks.circuits.rules.ground_fault_protection import ground_fault_protection
from branchwright.checks.circuits.rules.grounding_conductor import grounding_conductor_size
from branchwright.checks.circuits.rules.locations import (
    cable_size,
    conductor_insulation_location,
    wiring_method_location,
)
from branchwright.checks.circuits.rules.neutral import neutral_size
from branchwright.checks.circuits.rules.points import point_rating, points_on_run
from branchwright.checks.circuits.rules.raceway_fill import raceway_fill
from branchwright.checks.circuits.rules.raceway_temperature import raceway_ambient, raceway_temperature
from branchwright.checks.circuits.rules.receptacles import (
    receptacle_configuration,
    receptacle_listing,
    receptacle_rating,
)
from branchwright.checks.circuits.rules.rule import Rule
from branchwright.checks.circuits.rules.supply import supply_phases
from branchwright.checks.circuits.rules.terminals import terminal_materials, terminal_sizes, terminal_torque
from branchwright.checks.circuits.rules.underground import burial_cover, wiring_method_underground
from branchwright.checks.circuits.rules.voltage_drop import voltage_drop_suggestion, voltage_drop_target

RULES: tuple[Rule, ...] = (
    supply_phases,
    current_setting,
    setting_label,
    overcurrent_continuous_load,
    breaker_standard_rating,
    greatest_overcurrent_device,
    breaker_listed_for_panel,
    receptacle_configuration,
    receptacle_rating,
    receptacle_listing,
    conductor_continuous_load,
    conductor_corrected_ampacity,
    conductor_overcurrent_protection,
    small_conductor_protection,
    terminal_materials,
    terminal_sizes,
    terminal_torque,
    neutral_size,
    grounding_conductor_size,
    wiring_method_location,
    conductor_insulation_location,
    wiring_method_underground,
    burial_cover,
    cable_size,
    raceway_fill,
    raceway_temperature,
    raceway_ambient,
    points_on_run,
    point_rating,
    voltage_drop_target,
    voltage_drop_suggestion,
    ground_fault_protection,
    disconnecting_means,
    emergency_shutoff,
)
"""Every rule of a circuit review; a design leaves out those that are `review_only`."""

__all__ = ["RULES", "Rule"]
