"""From collected readings to the answer: series, report, demand, findings, and what is to be verified."""

from collections.abc import Callable
from datetime import UTC, tzinfo

import numpy as np

from branchwright.checks.service_capacity.interval_data.answers import IntervalDataAnswer, NormalisedSeries
from branchwright.checks.service_capacity.interval_data.case import Case
from branchwright.checks.service_capacity.interval_data.collected import Collected
from branchwright.checks.service_capacity.interval_data.data_quality import report, report_without_grid
from branchwright.checks.service_capacity.interval_data.demand import measured_demand, measured_load
from branchwright.checks.service_capacity.interval_data.faults import Faults
from branchwright.checks.service_capacity.interval_data.normalising import Counts, Grid, normalise
from branchwright.checks.service_capacity.interval_data.placing import place
from branchwright.checks.service_capacity.interval_data.remarks import not_examined, to_verify, with_cautions
from branchwright.checks.service_capacity.interval_data.rules import RULES
from branchwright.checks.service_capacity.interval_data.rules.values import interval_data_magnitude
from branchwright.checks.service_capacity.interval_data.stated import Stated
from branchwright.checks.service_capacity.interval_data.zones import iso
from branchwright.codebook import Book
from branchwright.findings import Finding, Verdict, verdict_of
from branchwright.questions.interpretations import consulted_interpretations
from branchwright.questions.ledger import StepLedger
from branchwright.questions.local_time import nearest_zone, zone_named
from branchwright.questions.remarks import provenance_of

Collect = Callable[[tzinfo | None, Faults], Collected | None]


class Reading:
    """One body being read: its faults, and what its reader notes of it."""

    def __init__(self, stated: Stated, faults: Faults | None = None) -> None:
        """Begin with what is stated, and the faults that were found already."""
        self.stated = stated
        self.faults = faults or Faults()
        self.unused: list[str] = []
        self.candidates: int | None = None
        self.unit_pointer = "query:unit"
        self.file_zone: tzinfo | None = None
        """The local time of the file itself, where it brings one."""

    def zone(self) -> tzinfo | None:
        """Return the zone that is stated; None, with a fault where its name is unknown."""
        name = self.stated.time_zone
        if name is None:
            return None
        zone = zone_named(name)
        if zone is None:
            near = nearest_zone(name)
            meant = f" Is {near} meant?" if near else ""
            self.faults.add(
                "zone", self.stated.pointer("time_zone"), f"there is no zone of this name.{meant}", name
            )
        return zone

    def answer(self, collect: Collect) -> IntervalDataAnswer:
        """Return the answer to the readings that `collect` finds."""
        zone = self.zone()
        collected = collect(zone, self.faults)
        placement = None if collected is None else place(collected, zone, self.faults)
        grid, counts = None, Counts()
        if collected is not None:
            counts.readings = int(np.count_nonzero(~np.isnan(collected.values)))
            if placement is not None:
                grid, counts = normalise(collected, placement, self.faults)
        ruled = zone or self.file_zone
        shown = ruled or (placement.own_zone if placement is not None else None) or UTC
        case = Case(
            stated=self.stated,
            book=self.stated.book,
            faults=self.faults,
            counts=counts,
            quality=report_without_grid(counts, self.faults)
            if grid is None
            else report(grid, counts, shown, self.faults, by_zone=ruled is not None),
            zone=shown,
            placement=placement,
            grid=grid,
            demand=None,
            unused=self.unused,
            signs_of_generation=[] if collected is None else collected.signs_of_generation,
            unit_pointer=self.unit_pointer,
            candidates=self.candidates,
        )
        return _judged(case, collected, _series(grid, shown, self.stated.time_zone if zone else None))


def _series(grid: Grid | None, zone: tzinfo, name: str | None) -> NormalisedSeries | None:
    if grid is None:
        return None
    energies = grid.energies_wh.astype(object)
    energies[np.isnan(grid.energies_wh)] = None
    return NormalisedSeries(iso(grid.start, zone), grid.interval_minutes, "Wh", energies.tolist(), name)


def _judged(case: Case, collected: Collected | None, series: NormalisedSeries | None) -> IntervalDataAnswer:
    ledger = StepLedger()
    stated, book = case.stated, case.book
    impossible = case.counts.register_like or interval_data_magnitude(case).outcome == "fail"
    if case.grid is not None and not impossible:
        case.demand = measured_demand(case.grid, case.quality, case.zone, stated, book, ledger)
    findings = [rule(case) for rule in RULES]
    verdict = verdict_of(findings)
    demand = case.demand
    return IntervalDataAnswer(
        edition=stated.edition,
        jurisdiction=stated.jurisdiction,
        verdict=verdict,
        findings=findings,
        steps=ledger.steps,
        interpretations=[]
        if book is None
        else consulted_interpretations(book, verdict, _verdict_under(case, book, findings)),
        to_verify=to_verify(case, collected),
        not_examined=not_examined(stated.jurisdiction),
        cautions=with_cautions(),
        provenance=provenance_of(dict(stated.request)),
        series=series,
        quality=case.quality,
        measured_demand=demand,
        existing_load=None
        if demand is None or demand.greatest_w < 0
        else measured_load(demand, stated.has_generation),
    )


def _verdict_under(case: Case, book: Book, findings: list[Finding]) -> Callable[[str, str], Verdict]:
    """Return what gives the verdict under another reading; only rules that consult it judge again."""

    def under(name: str, reading: str) -> Verdict:
        other = case.under(book.with_reading(name, reading))
        return verdict_of(
            rule(other) if name in rule.consults else finding
            for rule, finding in zip(RULES, findings, strict=True)
        )

    return under
