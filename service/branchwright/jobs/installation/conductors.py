"""Takes off conductors and cables, and the work of pulling and running them."""

from collections.abc import Iterator
from dataclasses import dataclass

from branchwright.calculations.take_off import (
    bought_conductor_ft,
    pulled_ft,
)
from branchwright.findings import StepInput
from branchwright.jobs.installation import price_keys as keys
from branchwright.jobs.installation.job import Job, Need


@dataclass(slots=True, frozen=True)
class Piece:
    """Segments through which the same conductors, or the same cable, run without a break."""

    segments: tuple[int, ...]
    cable: str | None

    @property
    def name(self) -> str:
        """Return the segments in an identifier."""
        return f"segments-{self.segments[0]}-to-{self.segments[-1]}"


def pieces(job: Job) -> list[Piece]:
    """Return the run in pieces: a device or splice breaks it, and so does a change of cable."""
    breaks = {point.after_segment for point in job.points}
    found: list[Piece] = []
    for index, segment in enumerate(job.design.segments):
        method = segment.wiring_method
        cable = None if method in keys.RACEWAYS else method
        last = found[-1] if found else None
        if last is not None and last.cable == cable and index - 1 not in breaks:
            found[-1] = Piece((*last.segments, index), cable)
        else:
            found.append(Piece((index,), cable))
    return found


def take_off_conductors(job: Job) -> None:
    """Enter the conductors and cables of the run, piece by piece from panel to charger."""
    for piece in pieces(job):
        if piece.cable is None:
            _conductors(job, piece)
        else:
            _cable(job, piece, piece.cable)


def _length_of(job: Job, piece: Piece) -> StepInput:
    lengths = [job.length(index) for index in piece.segments]
    return job.total(f"{piece.name}-length", "length of the piece", lengths, "ft")


def _rests_on_lengths(job: Job, piece: Piece) -> list[str]:
    return [f"request:{job.circuit_at}/run/{index}/length" for index in piece.segments]


def _bought(job: Job, piece: Piece, what: str, count: StepInput) -> StepInput:
    step = bought_conductor_ft.step(
        f"{piece.name}-{what}",
        {
            "count": count,
            "length_ft": _length_of(job, piece),
            "waste_percent": job.percent("cable"),
            "ends_ft": job.ends(),
        },
        None,
    )
    return job.ledger.add(step)


def _insulated(job: Job) -> Iterator[tuple[str, str, str, StepInput, str]]:
    """Yield each kind of conductor of the circuit: what, metal, size, count and where the size stands."""
    conductors = job.design.conductors
    count = StepInput(float(conductors.ungrounded.count), "count", "design:/conductors/ungrounded/count")
    metal = conductors.ungrounded.material
    yield "ungrounded", metal, conductors.ungrounded.size, count, "design:/conductors/ungrounded/size"
    if conductors.neutral is not None:
        yield "neutral", metal, conductors.neutral.size, job.one(), "design:/conductors/neutral/size"
    grounding = conductors.grounding
    yield "grounding", grounding.material, grounding.size, job.one(), "design:/conductors/grounding/size"


def _conductors(job: Job, piece: Piece) -> None:
    """Enter the conductors that are drawn through raceways, and the pulling of them."""
    insulation = job.circuit.given.insulation
    for what, metal, size, count, size_at in _insulated(job):
        rests_on = [size_at, *_rests_on_lengths(job, piece)]
        drawn = "drawn through as one piece, with waste and ends"
        job.need(
            Need(
                "material",
                f"{size} {metal} {insulation} conductor",
                keys.CONDUCTOR.key(metal=metal, insulation=insulation, size=size),
                _bought(job, piece, what, count),
                f"{count.value:g} {what} {drawn}" if count.value != 1 else f"{what}, {drawn}",
                rests_on,
                "length",
            )
        )
        _pulling(job, piece, what, size, count, rests_on)


def _pulling(job: Job, piece: Piece, what: str, size: str, count: StepInput, rests_on: list[str]) -> None:
    step = pulled_ft.step(
        f"{piece.name}-{what}-pulled", {"count": count, "length_ft": _length_of(job, piece)}, None
    )
    job.need(
        Need(
            "labour",
            f"pulling {size} conductors",
            keys.PULL_TASK.key(size=size),
            job.ledger.add(step),
            "each conductor over the length of its piece",
            rests_on,
            "length",
        )
    )


def _cable(job: Job, piece: Piece, method: str) -> None:
    """Enter a cable, its connectors, and the running of it by segment."""
    conductors = job.design.conductors
    size, metal = conductors.ungrounded.size, conductors.ungrounded.material
    insulated = conductors.ungrounded.count + (conductors.neutral is not None)
    rests_on = ["design:/conductors/ungrounded/size", *_rests_on_lengths(job, piece)]
    job.need(
        Need(
            "material",
            f"{size} {metal} {method} cable of {insulated} conductors with grounding conductor",
            keys.CABLE.key(method=method, metal=metal, size=size, count=str(insulated)),
            _bought(job, piece, "cable", job.one()),
            "one cable in one piece, with waste and ends",
            rests_on,
            "length",
        )
    )
    job.need(
        Need(
            "material",
            f"{method} connector",
            keys.CABLE_CONNECTOR.key(method=method),
            job.constant("two-ends", "ends of a piece", 2.0, "count"),
            "one at either end of a piece",
            [f"design:/segments/{piece.segments[0]}/wiring_method"],
            "pieces",
        )
    )
    for index in piece.segments:
        job.need(
            Need(
                "labour",
                f"running {size} {method} cable",
                keys.CABLE_TASK.key(method=method, size=size),
                job.length(index),
                "length of the segment",
                [f"request:{job.circuit_at}/run/{index}/length"],
                "length",
                job.condition_of(index),
            )
        )
