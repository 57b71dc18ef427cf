"""Floor 2: what the published codes say, as data that a person can read beside the book.

`at(edition, readings)` binds an edition and the caller's readings once; the book it returns answers with
sourced values. `editions`, `edition`, `table` and `interpretations` describe the codebook itself.
"""

from branchwright.codebook.book import Book, at
from branchwright.codebook.dwelling_loads import DryerDemand, DwellingLoads, LightingPart, RangeDemand
from branchwright.codebook.editions import EditionBook, MethodFacts, WiringMethod
from branchwright.codebook.loader import edition, editions, interpretations, revision, table
from branchwright.codebook.records import (
    Column,
    EditionRecord,
    Interpretation,
    Provision,
    ProvisionLacking,
    UnknownEntry,
)
from branchwright.codebook.tables import Table

__all__ = [
    "Book",
    "Column",
    "DryerDemand",
    "DwellingLoads",
    "EditionBook",
    "EditionRecord",
    "Interpretation",
    "LightingPart",
    "MethodFacts",
    "Provision",
    "ProvisionLacking",
    "RangeDemand",
    "Table",
    "UnknownEntry",
    "WiringMethod",
    "at",
    "edition",
    "editions",
    "interpretations",
    "revision",
    "table",
]
