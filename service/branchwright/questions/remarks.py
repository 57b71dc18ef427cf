"""The cautions that every answer bears, and what it depends on."""

from typing import Any

from branchwright import __version__, codebook
from branchwright.findings import Provenance, sha256_of

CAUTIONS = [
    "De-energize the circuit, lock it out and test it before touching any conductor.",
    "Service conductors and the line-side lugs of a main breaker stay live with the main off.",
    "Local code, permit and inspection, the authority having jurisdiction and licensed practice govern.",
    "The manufacturers' instructions of charger, breaker and terminals come first.",
]


def provenance_of(stated: dict[str, Any]) -> Provenance:
    """Return what an answer to a request, as it was stated, depends on."""
    return Provenance(__version__, codebook.revision(), sha256_of(stated))
