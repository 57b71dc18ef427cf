"""Time zones by their IANA name, and what a zone's clock shows at an instant in seconds since 1970."""

from datetime import UTC, datetime, timedelta, tzinfo
from functools import cache
from zoneinfo import ZoneInfo, available_timezones

from branchwright.questions.near_names import nearest_name

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
    return nearest_name(name, _known_zones(), 0.75)


def instant(second: int, zone: tzinfo) -> datetime:
    """Return an instant as a zone's clock shows it."""
    return (EPOCH + timedelta(seconds=second)).astimezone(zone)


def seconds_at(moment: datetime) -> int:
    """Return the whole seconds since 1970 of an instant."""
    return int((moment - EPOCH).total_seconds())
