"""Time zones by their IANA name, and what a zone's clock shows at an instant in seconds since 1970."""

from datetime import UTC, datetime, timedelta, tzinfo
from difflib import get_close_matches
from functools import cache
from zoneinfo import ZoneInfo, available_timezones

DAY_S = 86_400
EPOCH = datetime(1970, 1, 1, tzinfo=UTC)


@cache
def _known_zones() -> frozenset[str]:
    return frozenset(available_timezones())


def zone_named(name: str) -> ZoneInfo | None:
    """Return the zone with an IANA name; None where there is none."""
    return ZoneInfo(name) if name in _known_zones() else None


def nearest_zone(name: str) -> str | None:
    """Return the known name that is most like an unknown one, if any is like it."""
    names = {known.lower(): known for known in _known_zones()}
    found = get_close_matches(name.lower(), names, 1, 0.75)
    return names[found[0]] if found else None


def instant(second: int, zone: tzinfo) -> datetime:
    """Return an instant as a zone's clock shows it."""
    return (EPOCH + timedelta(seconds=second)).astimezone(zone)


def seconds_at(moment: datetime) -> int:
    """Return the whole seconds since 1970 of an instant."""
    return int((moment - EPOCH).total_seconds())
