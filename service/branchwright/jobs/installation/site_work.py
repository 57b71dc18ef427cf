"""Takes off the trench and what else was ordered: energy management, meters, panel, patches, papers, permit, travel."""

from branchwright.findings import StepInput
from branchwright.jobs.installation import price_keys as keys
from branchwright.jobs.installation.devices import both, device, made
from branchwright.jobs.installation.facts import Supplies
from branchwright.jobs.installation.job import Job, Need
from branchwright.quantities.lengths import inches
from branchwright.questions.ledger import stated


def take_off_trench(job: Job) -> None:
    """Enter a trench along each segment underground; none where the segment needs no cover and has none."""
    for index in range(len(job.design.segments)):
        depth = trench_depth_in(job, index)
        if depth:
            _trench(job, index, depth)


def trench_depth_in(job: Job, segment: int) -> float:
    """Return the depth in inches of a segment's trench: the stated cover, or the least; 0 without a trench."""
    underground = job.circuit.facts.run[segment].underground
    cover = job.design.segments[segment].cover
    if underground is None:
        return 0.0
    if underground.cover is not None:
        return inches(underground.cover.value, underground.cover.unit)
    return cover.least.value if cover is not None else 0.0


def _trench(job: Job, index: int, depth_in: float) -> None:
    trench = job.facts.trench
    surface, by = (trench.surface, trench.by) if trench else (None, None)
    size = made(keys.DEPTHS_IN, round(depth_in, 6))
    key = keys.TRENCH.key(surface=surface, by=by, depth=size) if surface and by and size else None
    words = (
        f"trench in {surface or 'ground not stated'}, dug by {by or 'means not stated'}, {depth_in:g} in deep"
    )
    at = [f"request:{job.circuit_at}/run/{index}/length", f"design:/segments/{index}/cover"]
    why = "length of the segment underground; depth by its cover"
    job.need(Need("material", words, key, job.length(index), why, at, "length"))
    job.need(Need("labour", f"digging and filling: {words}", key, job.length(index), why, at, "length"))


def take_off_orders(job: Job) -> None:
    """Enter what belongs to the job beside the circuit."""
    supplies = job.facts.supplies or Supplies()
    if supplies.energy_management:
        _energy_management(job)
    kinds = {point.kind for point in job.points}
    breaker_a = job.design.breaker.rating_a
    for kind, words, ordered in (
        ("meter-socket", "meter socket", supplies.meter_socket),
        ("submeter", "submeter", supplies.submeter),
    ):
        if ordered and kind not in kinds:
            at = [f"request:{job.facts_at}/supplies/{kind.replace('-', '_')}"]
            device(job, kind, f"{words} for {breaker_a:g} A", breaker_a, "ordered; rated as the breaker", at)
    if supplies.panel is not None:
        rating = supplies.panel.rating_a
        device(
            job,
            "panel",
            f"panel for {rating:g} A",
            rating,
            "replaced",
            [f"request:{job.facts_at}/supplies/panel"],
        )
    _patches(job)
    _papers(job, supplies)
    _travel(job)


def _energy_management(job: Job) -> None:
    at = [f"request:{job.facts_at}/supplies/energy_management"]
    task = keys.CONNECT_TASK.key(device="energy-management")
    key = keys.ENERGY_MANAGEMENT.key()
    both(job, "energy-management equipment", key, task, job.one(), "ordered", at)
    sensors = StepInput(
        float(job.design.conductors.ungrounded.count), "count", "design:/conductors/ungrounded/count"
    )
    item, why = "current transformer", "one for each ungrounded conductor of the system"
    job.need(Need("material", item, keys.CURRENT_TRANSFORMER.key(), sensors, why, at))


def _patches(job: Job) -> None:
    site = job.facts.site
    if site is not None and site.wall_patches:
        pointer = f"{job.facts_at}/site/wall_patches"
        count = stated(float(site.wall_patches), "count", pointer)
        task = keys.CONNECT_TASK.key(device="wall-patch")
        job.need(
            Need("material", "wall patch", keys.WALL_PATCH.key(), count, "as stated", ["request:" + pointer])
        )
        job.need(Need("labour", "closing an opening", task, count, "as stated", ["request:" + pointer]))


def _papers(job: Job, supplies: Supplies) -> None:
    """Enter permit, papers and the tests at the end, which every job has."""
    if supplies.permit:
        at = [f"request:{job.facts_at}/supplies/permit"]
        job.need(Need("fee", "permit", keys.PERMIT.key(), job.one(), "ordered", at))
        for work, words in (("permit", "obtaining the permit"), ("inspection", "being there for inspection")):
            _desk(job, work, words, "with the permit", at)
    if supplies.paperwork:
        at = [f"request:{job.facts_at}/supplies/paperwork"]
        _desk(job, "paperwork", "papers for rebates and utility", "ordered", at)
    if supplies.load_calculation:
        at = [f"request:{job.facts_at}/supplies/load_calculation"]
        _desk(job, "load-calculation", "calculation of the load in writing", "ordered", at)
    at = [f"request:{job.circuit_at}/charger"]
    _desk(job, "commissioning", "tests and instruction at the end", "every job has them", at)


def _desk(job: Job, work: str, item: str, why: str, at: list[str]) -> None:
    job.need(Need("labour", item, keys.DESK_TASK.key(work=work), job.one(), why, at))


def _travel(job: Job) -> None:
    travel = job.facts.site.travel if job.facts.site else None
    if travel is None:
        return
    pointer = f"{job.facts_at}/site/travel"
    distance = stated(travel.distance.value, travel.distance.unit, pointer + "/distance/value")
    trips = stated(float(travel.trips), "count", pointer + "/trips")
    driven = job.ledger.work_out(
        "distance-driven",
        "distance driven",
        "distance * trips",
        {"distance": distance, "trips": trips},
        travel.distance.value * travel.trips,
        travel.distance.unit,
        None,
    )
    key, at = keys.TRAVEL.key(), ["request:" + pointer]
    job.need(Need("fee", "travel", key, driven, "there and back by the number of trips", at, "road"))
    job.need(
        Need("labour", "time on the road", key, driven, "there and back by the number of trips", at, "road")
    )
