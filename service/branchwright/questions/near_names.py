"""The known name that an unknown one is most like, to be proposed where a name is not known."""

from collections.abc import Iterable
from difflib import get_close_matches


def nearest_name(name: str, known: Iterable[str], likeness: float) -> str | None:
    """Return the known name most like another, whatever their capitals; None where none is so like it.

    >>> nearest_name("america/denvr", ["America/Denver", "America/Detroit"], 0.75)
    'America/Denver'
    """
    folded = {each.lower(): each for each in known}
    found = get_close_matches(name.lower(), folded, 1, likeness)
    return folded[found[0]] if found else None
