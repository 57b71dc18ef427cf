"""Dwelling loads: what is this dwelling's load by each permitted method?"""

from typing import TYPE_CHECKING

from branchwright.checks.service_capacity.dwelling_load.answers import LoadCalculationAnswer
from branchwright.checks.service_capacity.dwelling_load.facts import (
    Dwelling,
    DwellingCharger,
    LoadCalculationRequest,
    Method,
)
from branchwright.questions.when_asked import when_asked

if TYPE_CHECKING:
    from branchwright.checks.service_capacity.dwelling_load.calculation import calculate_load
    from branchwright.checks.service_capacity.dwelling_load.demands import Demands
    from branchwright.checks.service_capacity.dwelling_load.household import Household, Placed, Supply
    from branchwright.checks.service_capacity.dwelling_load.methods import (
        MethodLoad,
        NeutralLoad,
        method_load,
        neutral_load,
    )
    from branchwright.checks.service_capacity.dwelling_load.rules import RULES, LoadRule

__all__ = [
    "RULES",
    "Demands",
    "Dwelling",
    "DwellingCharger",
    "Household",
    "LoadCalculationAnswer",
    "LoadCalculationRequest",
    "LoadRule",
    "Method",
    "MethodLoad",
    "NeutralLoad",
    "Placed",
    "Supply",
    "calculate_load",
    "method_load",
    "neutral_load",
]

__getattr__ = when_asked(
    __name__,
    {
        "Demands": "demands",
        "Household": "household",
        "LoadRule": "rules",
        "MethodLoad": "methods",
        "NeutralLoad": "methods",
        "Placed": "household",
        "RULES": "rules",
        "Supply": "household",
        "calculate_load": "calculation",
        "method_load": "methods",
        "neutral_load": "methods",
    },
)
