"""Floor 1: what every answer is made of: citations, sourced values, steps, findings and the verdict."""

from branchwright.findings.citations import Citation, Sourced, StepInput
from branchwright.findings.finding import Finding, Outcome, Provided, Remedy, RemedyChange, Required
from branchwright.findings.provenance import Provenance, canonical_json, sha256_of
from branchwright.findings.steps import Step
from branchwright.findings.verdicts import Verdict, verdict_of

__all__ = [
    "Citation",
    "Finding",
    "Outcome",
    "Provenance",
    "Provided",
    "Remedy",
    "RemedyChange",
    "Required",
    "Sourced",
    "Step",
    "StepInput",
    "Verdict",
    "canonical_json",
    "sha256_of",
    "verdict_of",
]
