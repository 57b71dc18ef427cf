"""Takes off what stands at the ends of the circuit and between its segments, and the work of connecting it."""

from typing import Final

from branchwright.checks.circuits.facts import Receptacle
from branchwright.findings import StepInput
from branchwright.jobs.installation import price_keys as keys
from branchwright.jobs.installation.conductors import pieces
from branchwright.jobs.installation.job import Job, Need

POINT_WORDS: Final = {
    "disconnect": "disconnecting means",
    "meter-socket": "meter socket",
    "submeter": "submeter",
    "splice": "splice",
}


def made(sizes: tuple[int, ...], at_least: float) -> str | None:
    """Return the smallest size that is made and large enough, as keys write it; None above the largest.

    >>> made((30, 60, 100), 50.0), made((30, 60, 100), 125.0)
    ('60', None)
    """
    return next((str(size) for size in sizes if size >= at_least), None)


def phases_of(job: Job) -> str:
    """Return the phases of the circuit, as keys write them."""
    return "three-phase" if job.design.breaker.poles == 3 else "single-phase"


def both(job: Job, item: str, key: str | None, task: str, count: StepInput, why: str, at: list[str]) -> None:
    """Enter a thing and the work of mounting and connecting it."""
    job.need(Need("material", item, key, count, why, at))
    job.need(
        Need("labour", f"mounting and connecting: {task.replace('-', ' ')}", task, count, "one of each", at)
    )


def take_off_devices(job: Job) -> None:
    """Enter breaker, disconnecting means, points, receptacle, charger, splices and label."""
    _breaker(job)
    _points(job)
    _required_disconnect(job)
    _breaks(job)
    _outlet(job)
    _charger(job)
    design = job.design
    if design.label.required:
        item, task = "label with the adjusted current", keys.CONNECT_TASK.key(device="setting-label")
        both(job, item, keys.SETTING_LABEL.key(), task, job.one(), design.label.why, ["design:/label"])
    if design.emergency_shutoff.required:
        task = keys.CONNECT_TASK.key(device="emergency-shutoff")
        why, at = design.emergency_shutoff.why, ["design:/emergency_shutoff"]
        both(job, "emergency shutoff", keys.EMERGENCY_SHUTOFF.key(), task, job.one(), why, at)


def _breaker(job: Job) -> None:
    breaker = job.design.breaker
    protects = job.circuit.sizes.ground_fault_protection == "breaker"
    form = keys.GROUND_FAULT_BREAKER if protects else keys.BREAKER
    why = breaker.ground_fault_protection.why if protects else "overcurrent protection as designed"
    both(
        job,
        f"{breaker.rating_a:g} A breaker of {breaker.poles} poles"
        + (" with ground-fault protection" if protects else ""),
        form.key(rating=f"{breaker.rating_a:g}", poles=str(breaker.poles)),
        keys.CONNECT_TASK.key(device="breaker"),
        job.one(),
        why,
        ["design:/breaker"],
    )


def _points(job: Job) -> None:
    """Enter the devices that the run states; splices are entered with the other breaks of the conductors."""
    for place, point in enumerate(job.points):
        if point.kind != "splice":
            rating = point.rating_a if point.rating_a is not None else job.design.breaker.rating_a
            item = POINT_WORDS[point.kind]
            at = [f"request:{job.circuit_at}/points/{place}"]
            why = (
                "a point of the run"
                if point.rating_a is not None
                else "a point of the run, rated as the breaker"
            )
            device(job, point.kind, f"{item} for {rating:g} A", rating, why, at)


def device(job: Job, kind: str, item: str, rating_a: float, why: str, at: list[str]) -> None:
    """Enter a disconnecting means, meter socket or submeter of the next size that is made."""
    task = keys.CONNECT_TASK.key(device=kind)
    both(job, item, _device_key(job, kind, rating_a), task, job.one(), why, at)


def _device_key(job: Job, kind: str, rating_a: float) -> str | None:
    if kind == "disconnect":
        size = made(keys.DISCONNECTS_A, rating_a)
        return keys.DISCONNECT.key(rating=size, poles=str(job.design.breaker.poles)) if size else None
    form, sizes = {
        "meter-socket": (keys.METER_SOCKET, keys.METER_SOCKETS_A),
        "submeter": (keys.SUBMETER, keys.SUBMETERS_A),
        "panel": (keys.PANEL, keys.PANELS_A),
    }[kind]
    size = made(sizes, rating_a)
    return form.key(rating=size, phases=phases_of(job)) if size else None


def _required_disconnect(job: Job) -> None:
    """Enter the disconnecting means that is asked for, unless the run states one."""
    if job.design.disconnect.required and not any(point.kind == "disconnect" for point in job.points):
        rating = job.design.breaker.rating_a
        why = f"asked for: {job.design.disconnect.why}; rated as the breaker"
        device(
            job, "disconnect", f"disconnecting means for {rating:g} A", rating, why, ["design:/disconnect"]
        )


def _breaks(job: Job) -> None:
    """Enter a box with splices at each splice, and wherever one cable ends and something else goes on."""
    splices = [
        (point.after_segment, f"request:{job.circuit_at}/points/{place}")
        for place, point in enumerate(job.points)
        if point.kind == "splice"
    ]
    at_points = {point.after_segment for point in job.points}
    changes = [
        (piece.segments[-1], f"design:/segments/{piece.segments[-1]}/wiring_method")
        for piece in pieces(job)[:-1]
        if piece.segments[-1] not in at_points
    ]
    for after, at in sorted(splices + changes):
        _splices(job, after, at)


def _splices(job: Job, after: int, at: str) -> None:
    why = f"where the conductors change after segment {after}"
    box_task, splice_task = keys.CONNECT_TASK.key(device="box"), keys.CONNECT_TASK.key(device="splice")
    both(job, "box for splices", keys.BOX.key(use="splice"), box_task, job.one(), why, [at])
    conductors = job.design.conductors
    count = StepInput(float(conductors.ungrounded.count), "count", "design:/conductors/ungrounded/count")
    spliced = [(conductors.ungrounded.material, conductors.ungrounded.size, count)]
    if conductors.neutral is not None:
        spliced.append((conductors.ungrounded.material, conductors.neutral.size, job.one()))
    spliced.append((conductors.grounding.material, conductors.grounding.size, job.one()))
    for metal, size, number in spliced:
        key = keys.SPLICE.key(metal=metal, size=size)
        both(job, f"splice of a {size} {metal} conductor", key, splice_task, number, why, [at])


def _outlet(job: Job) -> None:
    receptacle = job.design.receptacle
    connection = job.circuit.facts.charger.connection
    if receptacle is None or not isinstance(connection, Receptacle):
        return
    form = keys.EV_RECEPTACLE if connection.listed_for_ev_charging else keys.RECEPTACLE
    listed = ", listed for charging vehicles" if connection.listed_for_ev_charging else ""
    at = ["design:/receptacle"]
    both(
        job,
        f"{receptacle.configuration} receptacle{listed}",
        form.key(configuration=receptacle.configuration),
        keys.CONNECT_TASK.key(device="receptacle"),
        job.one(),
        "the charger is plugged in",
        at,
    )
    box_task = keys.CONNECT_TASK.key(device="box")
    both(job, "box for the receptacle", keys.BOX.key(use="receptacle"), box_task, job.one(), "one each", at)
    premises = job.circuit.facts.premises
    place = "outdoors" if premises and premises.charger_location == "outdoors" else "indoors"
    key = keys.RECEPTACLE_COVER.key(place=place)
    job.need(Need("material", f"receptacle cover, {place}", key, job.one(), "one for each receptacle", at))


def _charger(job: Job) -> None:
    """Enter the mounting of the charger, and the charger where the contractor brings it."""
    charger = job.circuit.facts.charger
    plugged = isinstance(charger.connection, Receptacle)
    connection = "receptacle" if plugged else "hardwired"
    at = [f"request:{job.circuit_at}/charger"]
    supplies = job.facts.supplies
    if supplies is not None and supplies.charger == "by-contractor":
        rating = charger.rated_current_a or charger.charging_current_a
        size = made(keys.CHARGERS_A, rating)
        job.need(
            Need(
                "material",
                f"charger of {rating:g} A, {connection}",
                keys.CHARGER.key(rating=size, connection=connection) if size else None,
                job.one(),
                "the contractor brings it",
                [*at, f"request:{job.facts_at}/supplies/charger"],
            )
        )
    task = keys.CHARGER_TASK.key(connection=connection)
    job.need(Need("labour", "mounting and connecting: charger", task, job.one(), "one charger", at))
