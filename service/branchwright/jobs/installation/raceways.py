"""Takes off raceways and sleeves, what joins, turns and fastens them, and the work of running them."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from branchwright.calculations.take_off import bought_raceway_ft, couplings_count, straps_count
from branchwright.checks.circuits.answers import DesignedSegment
from branchwright.findings import StepInput
from branchwright.jobs.installation import price_keys as keys
from branchwright.jobs.installation.job import Job, Need
from branchwright.questions.ledger import stated

BURIED_ELBOWS: Final = 2.0
"""Where a raceway goes down and where it comes up; common practice, no source."""


@dataclass(slots=True, frozen=True)
class Tube:
    """A raceway of a segment, or the sleeve around its cable; the trade size is None where it is not known."""

    segment: int
    method: str
    trade_size: str | None
    at: str

    @property
    def words(self) -> str:
        """Return method and trade size in words."""
        return f"{self.method} {self.trade_size or 'of a size not known'}"

    def key(self, form: keys.KeyForm) -> str | None:
        """Return the key of a part of it; None where the size is not known."""
        return form.key(method=self.method, trade_size=self.trade_size) if self.trade_size else None


def take_off_raceways(job: Job) -> None:
    """Enter the raceways of the run, and what fastens them and the cables, segment by segment."""
    for index, segment in enumerate(job.design.segments):
        tube = _tube(job, index, segment)
        if tube is not None:
            _raceway(job, tube)
        _straps(job, index, segment, tube)


def _tube(job: Job, index: int, segment: DesignedSegment) -> Tube | None:
    """Return the raceway of a segment, or the sleeve around its cable, if there is one."""
    facts = job.circuit.facts.run[index]
    if segment.raceway is not None:
        at = f"design:/segments/{index}/raceway/trade_size"
        return Tube(index, segment.wiring_method, segment.raceway.trade_size, at)
    if segment.wiring_method in keys.RACEWAYS:
        # What else it holds is not stated, so that no size was chosen; one may be stated.
        at = f"design:/segments/{index}/wiring_method"
        return Tube(index, segment.wiring_method, facts.raceway_trade_size, at)
    if facts.sleeve_method is not None:
        at = f"request:{job.circuit_at}/run/{index}/sleeve_method"
        return Tube(index, facts.sleeve_method, job.circuit.sizes.trade_sizes[index], at)
    return None


def _raceway(job: Job, tube: Tube) -> None:
    """Enter a raceway, what joins and turns it, and the running of it."""
    index, length = tube.segment, job.length(tube.segment)
    rests_on = [tube.at, f"request:{job.circuit_at}/run/{index}/length"]
    key = tube.key(keys.RACEWAY)
    rigid = tube.method in keys.RIGID
    step = bought_raceway_ft.step(
        f"segment-{index}-raceway",
        {"length_ft": length, "waste_percent": job.percent("raceway")},
        None,
        index,
    )
    job.need(
        Need(
            "material",
            f"{tube.words} raceway",
            key,
            job.ledger.add(step),
            "length of the segment with waste" + (", in whole sticks" if rigid else ""),
            rests_on,
            "sticks" if rigid else "length",
        )
    )
    if rigid:
        inputs = {"length_ft": length, "stick_ft": job.stick_ft(key)}
        couplings = couplings_count.step(f"segment-{index}-couplings", inputs, None, index)
        why = "one fewer than sticks in each segment, with waste"
        job.need(_piece(tube, keys.COUPLING, "coupling", job.ledger.add(couplings), why, rests_on))
    two = job.constant("two-ends", "ends of a piece", 2.0, "count")
    job.need(
        _piece(tube, keys.CONNECTOR, "connector", two, "one at either end of a segment, with waste", rests_on)
    )
    for form, name, task, count in _turns(job, tube):
        job.need(_piece(tube, form, name, count, "as stated or usual, with waste", rests_on))
        job.need(
            Need(
                "labour",
                f"fitting: {name}",
                task,
                count,
                "each of the segment",
                rests_on,
                condition=job.condition_of(index),
            )
        )
    job.need(
        Need(
            "labour",
            f"running {tube.words} raceway",
            tube.key(keys.RACEWAY_TASK),
            length,
            "length of the segment",
            rests_on,
            "length",
            job.condition_of(index),
        )
    )


def _turns(job: Job, tube: Tube) -> Iterator[tuple[keys.KeyForm, str, str, StepInput]]:
    """Yield the elbows and conduit bodies of a segment: form, name, task and count."""
    index = tube.segment
    found = job.site_of(index)
    at = f"{job.facts_at}/site/segments/{found[0]}" if found else ""
    elbows, bodies = (found[1].elbows, found[1].pull_points) if found else (None, None)
    elbow_task, body_task = (
        keys.CONNECT_TASK.key(device="elbow"),
        keys.CONNECT_TASK.key(device="conduit-body"),
    )
    if elbows is not None:
        yield keys.ELBOW, "elbow", elbow_task, stated(float(elbows), "count", at + "/elbows")
    elif job.is_buried(index) and tube.method in keys.RIGID:
        usual = job.constant("usual-elbows", "elbows underground, usual", BURIED_ELBOWS, "count")
        yield keys.ELBOW, "elbow", elbow_task, usual
    if bodies is not None:
        count = stated(float(bodies), "count", at + "/pull_points")
        yield keys.CONDUIT_BODY, "conduit body", body_task, count


def _piece(
    tube: Tube, form: keys.KeyForm, name: str, count: StepInput, why: str, rests_on: list[str]
) -> Need:
    return Need("material", f"{tube.words} {name}", tube.key(form), count, why, rests_on, "pieces")


def _straps(job: Job, index: int, segment: DesignedSegment, tube: Tube | None) -> None:
    """Enter what fastens a segment above ground, by the support rule of its design."""
    if segment.supports is None or job.is_buried(index):
        return
    at = f"design:/segments/{index}/supports"
    step = straps_count.step(
        f"segment-{index}-straps",
        {
            "length_ft": job.length(index),
            "within_in": StepInput(segment.supports.within_of_box.value, "in", at + "/within_of_box/value"),
            "interval_in": StepInput(segment.supports.interval.value, "in", at + "/interval/value"),
        },
        None,
        index,
    )
    method = segment.wiring_method
    fastens_raceway = method in keys.RACEWAYS
    job.need(
        Need(
            "material",
            f"{tube.words if tube and fastens_raceway else method} strap",
            tube.key(keys.STRAP) if tube and fastens_raceway else keys.CABLE_STRAP.key(method=method),
            job.ledger.add(step),
            "by the support rule, either end of a segment counting as a box; with waste",
            [at],
            "pieces",
        )
    )
