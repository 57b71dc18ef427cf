"""Near misses: the name or value that was probably meant."""

from __future__ import annotations

import difflib
from collections.abc import Iterable


def nearest_name(given: str, known: Iterable[str]) -> str | None:
    """The known name that a misspelt one is near to, or None: ``lenght`` -> ``length``."""
    matches = difflib.get_close_matches(given[:100].casefold(), list(known), n=1, cutoff=0.7)
    return matches[0] if matches else None


def nearest_value(given: str, known: Iterable[str]) -> str | None:
    """The value of a closed list that was probably meant, or None: ``6awg`` -> ``6 AWG``.

    A value with other digits is never suggested: ``7 AWG`` is not a slip for ``6 AWG``, it is another
    conductor.
    """
    given = given[:100]
    candidates = {_folded(value): value for value in known if _digits(value) == _digits(given)}
    if (exact := candidates.get(_folded(given))) is not None:
        return exact
    matches = difflib.get_close_matches(_folded(given), list(candidates), n=1, cutoff=0.6)
    return candidates[matches[0]] if matches else None


def _folded(value: str) -> str:
    return "".join(character for character in value.casefold() if character.isalnum())


def _digits(value: str) -> str:
    return "".join(character for character in value if character.isdigit())
