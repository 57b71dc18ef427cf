"""The local time that a Green Button file brings with it: its offset from UTC, and the rules of its daylight saving."""

from calendar import monthrange
from dataclasses import dataclass
from datetime import datetime, timedelta, tzinfo

from branchwright.checks.service_capacity.interval_data.green_button.resources import Resource

DISABLED = 0xFFFFFFFF
LAST_OF_MONTH = 7
GREATEST_OFFSET_S = 18 * 3600


class NoLocalTime(ValueError):
    """Parameters of local time that cannot be; says why."""


@dataclass(slots=True, frozen=True)
class ChangeRule:
    """When daylight saving starts or ends in a year: the bit map of ESPI (DstRuleType)."""

    month: int
    operator: int
    day_of_month: int
    day_of_week: int
    """Monday is 1."""

    second: int

    def clock(self, year: int) -> datetime:
        """Return the clock on the wall, as it stood until then, at which the change comes in a year."""
        days = monthrange(year, self.month)[1]
        if self.operator == 0:
            day = min(self.day_of_month, days)
        elif self.operator == 1:
            day = self._weekday_from(year, self.day_of_month)
        elif self.operator == LAST_OF_MONTH:
            day = self._weekday_from(year, days - 6)
        else:
            day = self._weekday_from(year, 1) + 7 * (self.operator - 2)
            day = day if day <= days else day - 7
        return datetime(year, self.month, day) + timedelta(seconds=self.second)

    def _weekday_from(self, year: int, day: int) -> int:
        """Return the first day of the rule's weekday on or after a day of its month."""
        return day + (self.day_of_week - datetime(year, self.month, day).isoweekday()) % 7


def change_rule(text: str) -> ChangeRule | None:
    """Return the rule that a text of eight hexadecimal digits stands for; None where it says that there is none.

    Bits 0 to 11 are seconds of the hour, 12 to 16 the hour, 17 to 19 the day of the week, 20 to 24 the day of the
    month, 25 to 27 the operator, 28 to 31 the month (NAESB ESPI, DstRuleType).
    """
    try:
        bits = int(text, 16)
    except ValueError:
        raise NoLocalTime(f"its rule {text[:40]!r} is no hexadecimal number.") from None
    if bits == DISABLED:
        return None
    rule = ChangeRule(
        month=bits >> 28,
        operator=bits >> 25 & 0b111,
        day_of_month=bits >> 20 & 0b11111,
        day_of_week=bits >> 17 & 0b111,
        second=(bits >> 12 & 0b11111) * 3600 + (bits & 0xFFF),
    )
    by_weekday = rule.operator > 0
    if (
        not 1 <= rule.month <= 12
        or (by_weekday and not rule.day_of_week)
        or (rule.operator <= 1 and not rule.day_of_month)
    ):
        raise NoLocalTime(f"its rule {text[:40]!r} names no day.")
    if rule.operator == 1 and rule.day_of_month > 22:
        raise NoLocalTime(f"its rule {text[:40]!r} may name a day of the next month.")
    return rule


class FileZone(tzinfo):
    """The zone of a file's LocalTimeParameters."""

    def __init__(
        self, offset_s: int, saving_s: int, start: ChangeRule | None, end: ChangeRule | None
    ) -> None:
        """Keep the offset without daylight saving, what is added while it lasts, and from when to when."""
        self._offset = timedelta(seconds=offset_s)
        self._saving = timedelta(seconds=saving_s)
        self._start, self._end = start, end

    def __str__(self) -> str:
        """The zone in words."""
        return "the file's own local time"

    def tzname(self, _: datetime | None) -> str:
        """The zone in words."""
        return str(self)

    def utcoffset(self, moment: datetime | None) -> timedelta:
        """The offset from UTC at a local time."""
        return self._offset + self.dst(moment)

    def dst(self, moment: datetime | None) -> timedelta:
        """What daylight saving adds at a local time; its fold tells the passings of the hour that comes twice."""
        if moment is None or self._start is None or self._end is None:
            return timedelta(0)
        wall = moment.replace(tzinfo=None, fold=0)
        begins, ends = self._start.clock(wall.year), self._end.clock(wall.year)
        if moment.fold:
            # Of the hour that comes twice before the end, the second passing is no longer in it.
            ends -= self._saving
        saving = begins <= wall < ends if begins < ends else not ends <= wall < begins
        return self._saving if saving else timedelta(0)

    def fromutc(self, moment: datetime) -> datetime:
        """Return the local time of an instant that stands in UTC with this zone."""
        standard = (moment + self._offset).replace(tzinfo=None)
        if self._start is None or self._end is None:
            return standard.replace(tzinfo=self)
        begins, ends = self._start.clock(standard.year), self._end.clock(standard.year) - self._saving
        if begins <= standard < ends if begins < ends else not ends <= standard < begins:
            return (standard + self._saving).replace(tzinfo=self)
        return standard.replace(tzinfo=self, fold=int(ends <= standard < ends + self._saving))


def file_zone(parameters: Resource) -> FileZone:
    """Return the zone of a file's LocalTimeParameters; raise NoLocalTime where they cannot be."""
    fields = parameters.fields
    offset, saving = _seconds(fields.get("tzOffset", "")), _seconds(fields.get("dstOffset", "0"))
    start, end = (change_rule(fields.get(name, "FFFFFFFF")) for name in ("dstStartRule", "dstEndRule"))
    if not saving or start is None or end is None:
        return FileZone(offset, 0, None, None)
    return FileZone(offset, saving, start, end)


def _seconds(text: str) -> int:
    digits = text.removeprefix("-")
    if not digits.isdecimal() or len(digits) > 6 or abs(int(text)) > GREATEST_OFFSET_S:
        raise NoLocalTime(f"its offset {text[:40]!r} is none from UTC.")
    return int(text)
