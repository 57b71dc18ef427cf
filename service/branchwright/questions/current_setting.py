"""Whether an adjusted setting of a charger counts as its rating."""

from branchwright.codebook import Book


def setting_counts(book: Book, access: str | None, *, fastened_in_place: bool) -> bool | None:
    """Return whether the edition takes a charger's adjusted setting for its rating; None where access decides.

    Args:
        book: the edition and the readings in force.
        access: restricted, unrestricted, or None where it is not stated.
        fastened_in_place: whether the charger is hardwired; one that is plugged in is not fastened.
    """
    rule = book.edition.provision("current-setting")
    counts = rule.values["counts"].name
    if counts == "read-two-ways":
        counts = "yes" if book.reading("setting-as-rating") == "setting" else "no"
    if counts != "yes" or (rule.says("fixed_only") and not fastened_in_place):
        return False
    asked = rule.values["access"].name
    if asked == "any":
        return True
    return None if access is None else access == asked
