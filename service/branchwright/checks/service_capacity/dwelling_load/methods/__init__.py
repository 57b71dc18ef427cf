"""The methods of a load calculation, and the load of the neutral."""

from branchwright.checks.service_capacity.dwelling_load.methods.method import MethodLoad, method_load
from branchwright.checks.service_capacity.dwelling_load.methods.neutral import NeutralLoad, neutral_load

__all__ = ["MethodLoad", "NeutralLoad", "method_load", "neutral_load"]
