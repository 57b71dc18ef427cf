"""Puts the resources of a Green Button file together by their links, whatever their order."""

from dataclasses import dataclass
from urllib.parse import urlsplit

from branchwright.checks.service_capacity.interval_data.faults import Faults
from branchwright.checks.service_capacity.interval_data.green_button.resources import (
    Block,
    Entry,
    Feed,
    Resource,
)


@dataclass(slots=True)
class Series:
    """What belongs together: the blocks of a meter reading with its type and its usage point."""

    meter_reading: Resource | None
    usage_point: Resource | None
    reading_type: Resource | None
    local_time: Resource | None
    blocks: list[Block]

    @property
    def entries(self) -> list[Entry]:
        """The entries that name the series, the closest first."""
        found = [each.entry for each in (self.meter_reading, self.usage_point, self.reading_type) if each]
        return found or [self.blocks[0].entry]

    @property
    def name(self) -> str:
        """How a message names the series."""
        return self.entries[0].name

    def answers_to(self, name: str) -> bool:
        """Return whether a name is the title or the self link of its meter reading or usage point."""
        own = [entry for entry in self.entries if entry.title or entry.self_link]
        return any(name == entry.title or _path(name) == _path(entry.self_link or "-") for entry in own)


def series_of(feed: Feed, faults: Faults) -> list[Series]:
    """Return every series of the file that has readings; blocks that belong to none are faults."""
    groups, orphans = _blocks_by_meter_reading(feed)
    if orphans and len(feed.meter_readings) > 1:
        for block in orphans:
            faults.add(
                "series", block.entry.name, "its IntervalBlock belongs to none of the file's MeterReadings."
            )
        orphans = []
    only = feed.meter_readings[0] if len(feed.meter_readings) == 1 else None
    if orphans:
        groups.setdefault(id(only), (only, []))[1].extend(orphans)
    return [
        Series(meter_reading, point, _type_of(feed, meter_reading), _local_time_of(feed, point), blocks)
        for meter_reading, blocks in groups.values()
        if any(len(block.values) for block in blocks)
        for point in (_usage_point_of(feed, meter_reading),)
    ]


Groups = dict[int, tuple[Resource | None, list[Block]]]


def _blocks_by_meter_reading(feed: Feed) -> tuple[Groups, list[Block]]:
    by_related: dict[str, Resource] = {}
    by_self: dict[str, Resource] = {}
    for meter_reading in feed.meter_readings:
        if meter_reading.entry.self_link:
            by_self[_path(meter_reading.entry.self_link)] = meter_reading
        for link in meter_reading.entry.related:
            by_related[_path(link)] = meter_reading
    groups: Groups = {}
    orphans: list[Block] = []
    for block in feed.blocks:
        links = [_path(link) for link in (block.entry.up_link, block.entry.self_link) if link]
        found = next((by_related[link] for link in links if link in by_related), None)
        found = found or next(
            (by_self[above] for link in links for above in _above(link) if above in by_self), None
        )
        if found is None:
            orphans.append(block)
        else:
            groups.setdefault(id(found), (found, []))[1].append(block)
    return groups, orphans


def _type_of(feed: Feed, meter_reading: Resource | None) -> Resource | None:
    """Return the type that a meter reading links to, or the only one; None where there are several."""
    if meter_reading is not None:
        linked = {_path(link) for link in meter_reading.entry.related}
        found = [each for each in feed.reading_types if _path(each.entry.self_link or "-") in linked]
        if found:
            return found[0]
    return feed.reading_types[0] if len(feed.reading_types) == 1 else None


def _usage_point_of(feed: Feed, meter_reading: Resource | None) -> Resource | None:
    if meter_reading is not None:
        entry = meter_reading.entry
        links = [_path(link) for link in (entry.up_link, entry.self_link) if link]
        for point in feed.usage_points:
            linked = {_path(link) for link in point.entry.related}
            own = _path(point.entry.self_link or "-")
            if linked.intersection(links) or any(own in _above(link) for link in links):
                return point
    return feed.usage_points[0] if len(feed.usage_points) == 1 else None


def _local_time_of(feed: Feed, point: Resource | None) -> Resource | None:
    if point is not None:
        linked = {_path(link) for link in point.entry.related}
        for each in feed.local_times:
            if _path(each.entry.self_link or "-") in linked:
                return each
    return feed.local_times[0] if len(feed.local_times) == 1 else None


def _path(link: str) -> str:
    """Return a link without server and closing slash: some files mix absolute links with others."""
    try:
        return urlsplit(link.strip()).path.rstrip("/")
    except ValueError:
        return link


def _above(path: str) -> list[str]:
    """Return the paths that a path lies below, the nearest first."""
    parts = path.split("/")
    return ["/".join(parts[:end]) for end in range(len(parts) - 1, 0, -1) if parts[end - 1]]
