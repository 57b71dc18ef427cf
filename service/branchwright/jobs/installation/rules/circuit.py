"""Rules about the circuit that is taken off, and about the site along it."""

from branchwright.findings import Finding, Provided, Required
from branchwright.jobs.installation import price_keys as keys
from branchwright.jobs.installation.case import Case
from branchwright.jobs.installation.rules.rule import listed, rule
from branchwright.jobs.installation.site_work import trench_depth_in


@rule("estimate-circuit", subject="circuit")
def estimate_circuit(case: Case) -> Finding:
    """Does the circuit have a design that can be taken off?

    Applies: always.
    Rests on: an estimate takes its quantities from the sized circuit and never sizes it a second time.
    Missing facts: a design that rests on facts which are not stated leaves the estimate undetermined too.
    """
    judged = case.judged
    names = [
        finding.rule
        for finding in judged.findings
        if finding.force == "requirement" and finding.outcome == judged.verdict
    ]
    if case.design is None:
        return estimate_circuit.failed(
            f"The circuit has no design, so that nothing can be taken off: {listed(names)}.",
            "/circuit",
            Required("a design", "text", "present"),
            Provided("none", "text"),
        )
    if judged.verdict == "undetermined":
        return estimate_circuit.undetermined(
            "/circuit", f"The design rests on facts that are not stated: {listed(names)}."
        )
    return estimate_circuit.passed("The circuit has a design.", "/circuit")


@rule("estimate-site", subject="site")
def estimate_site(case: Case) -> Finding:
    """Does each condition of the site belong to one segment that the run has?

    Applies: where segments of the site are stated.
    Rests on: the request's own consistency; elbows and places to pull through are those of a raceway.
    Missing facts: none.
    """
    site = case.request.site
    if site is None or not site.segments:
        return estimate_site.not_applicable("Nothing is stated of the site along the run.")
    run, seen = case.request.circuit.run, set[int]()
    for place, stated in enumerate(site.segments):
        pointer, index = f"/site/segments/{place}", stated.segment
        if index >= len(run):
            return estimate_site.failed(
                f"The run has no segment {index}; its last is {len(run) - 1}.",
                pointer + "/segment",
                Required(float(len(run) - 1), "1", "at-most"),
                Provided(float(index), "1"),
            )
        if index in seen:
            return estimate_site.failed(
                f"Segment {index} is stated twice; the first counts.",
                pointer + "/segment",
                Required("each segment once", "text", "equal"),
                Provided(f"segment {index} twice", "text"),
            )
        seen.add(index)
        method = run[index].wiring_method
        is_raceway = method in keys.RACEWAYS or run[index].sleeve_method is not None
        for name, count in (("elbows", stated.elbows), ("pull_points", stated.pull_points)):
            if count and not is_raceway:
                return estimate_site.failed(
                    f"Segment {index} is {method} without a sleeve; it has no {name.replace('_', ' ')}.",
                    f"{pointer}/{name}",
                    Required(0.0, "count", "equal"),
                    Provided(float(count), "count"),
                )
    return estimate_site.passed("Each is of a segment of the run.", "/site/segments")


@rule("estimate-conditions", subject="conditions of the site")
def estimate_conditions(case: Case) -> Finding:
    """Is the condition known under which each segment above ground is worked at?

    Applies: to segments above ground.
    Rests on: finished walls, crawl spaces, attics and masonry lengthen the work.
    Missing facts: undetermined where a condition is not stated; the hours are then those in the open.
    """
    site = case.request.site
    stated = {one.segment for one in ((site and site.segments) or ()) if one.condition is not None}
    above = [index for index, segment in enumerate(case.request.circuit.run) if segment.underground is None]
    if not above:
        return estimate_conditions.not_applicable("The whole run lies underground.")
    unknown = [str(index) for index in above if index not in stated]
    if unknown:
        return estimate_conditions.undetermined(
            "/site/segments",
            f"The condition of segment {listed(unknown)} is not stated; its hours are those in the open.",
        )
    return estimate_conditions.passed("The condition of each segment is stated.", "/site/segments")


@rule("estimate-trench", subject="trench")
def estimate_trench(case: Case) -> Finding:
    """Is it known how the trench is dug, and is it one that has a price?

    Applies: where a segment lies underground with a cover.
    Rests on: surface, means and depth set what a trench costs.
    Missing facts: undetermined where surface or means are not stated; the trench is then without a price.
    """
    taken = case.taken
    depths = {}
    if taken is not None:
        found = {index: trench_depth_in(taken.job, index) for index in range(len(taken.job.design.segments))}
        depths = {index: depth for index, depth in found.items() if depth}
    if not depths:
        return estimate_trench.not_applicable("There is no trench.")
    deepest = max(depths, key=depths.__getitem__)
    trench = case.request.trench
    if trench is None or trench.surface is None or trench.by is None:
        lacking = "surface" if trench is None or trench.surface is None else "by"
        return estimate_trench.undetermined(
            f"/trench/{lacking}",
            f"Segment {deepest} lies underground; {'what is opened' if lacking == 'surface' else 'what digs'} is not "
            "stated, so that the trench has no price.",
        )
    greatest = float(keys.DEPTHS_IN[-1])
    return estimate_trench.at_most(
        depths[deepest],
        greatest,
        "in",
        f"The deepest trench has {depths[deepest]:g} in; prices go to {greatest:g} in.",
        None,
        f"/circuit/run/{deepest}/underground/cover",
    )
