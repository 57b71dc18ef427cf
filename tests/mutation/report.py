"""The report of a run, on the screen and as a page of the documentation."""

import tomllib
from collections import Counter, defaultdict
from pathlib import Path
from typing import Any

from tests.mutation.suites import package_of

EQUIVALENT = Path(__file__).parent / "equivalent.toml"
COLUMNS = ("killed", "timed out", "survived", "not covered", "equivalent")

Result = dict[str, Any]


def explained(results: list[Result]) -> tuple[list[tuple[Result, str]], list[str]]:
    """Survivors that are explained as equivalent with their reasons, and explanations that nothing needs any more.

    An explanation is known by file, function and change, so that it falls away when the code changes.
    """
    reasons = {
        (each["file"], each["within"], _lines(each["change"])): each["why"]
        for each in tomllib.loads(EQUIVALENT.read_text(encoding="utf-8")).get("equivalent", [])
    }
    found: list[tuple[Result, str]] = []
    stale: list[str] = []
    for result in results:
        mutant = result["mutant"]
        key = mutant["path"], mutant["within"], _lines(result["diff"])
        if key in reasons:
            if result["fate"] == "survived":
                found.append((result, reasons[key]))
            else:
                stale.append(f"{mutant['path']}:{mutant['line']} is {result['fate']}")
    return found, stale


def _lines(change: str) -> tuple[str, ...]:
    return tuple(line[:1] + line[1:].strip() for line in change.strip().splitlines())


def counted(results: list[Result]) -> tuple[dict[str, Counter[str]], list[Result], list[tuple[Result, str]]]:
    """Fates by module, the survivors that nothing explains, and those that are equivalent."""
    equivalent, stale = explained(results)
    if stale:
        raise SystemExit("equivalent.toml explains what needs no explanation:\n" + "\n".join(stale))
    same = {id(result) for result, _ in equivalent}
    fates: defaultdict[str, Counter[str]] = defaultdict(Counter)
    for result in results:
        fates[result["mutant"]["path"]]["equivalent" if id(result) in same else result["fate"]] += 1
    open_ = [
        result
        for result in results
        if result["fate"] in ("survived", "not covered") and id(result) not in same
    ]
    return dict(fates), open_, equivalent


def share_percent(fates: Counter[str]) -> float:
    """Mutants that a test noticed, in percent of those that are not equivalent."""
    judged = sum(fates.values()) - fates["equivalent"]
    return 100.0 if not judged else 100 * (fates["killed"] + fates["timed out"]) / judged


def table(fates: dict[str, Counter[str]]) -> list[str]:
    """The table by module as Markdown, with its sum."""
    total = sum(fates.values(), Counter())
    lines = [
        "| module | mutants | " + " | ".join(COLUMNS) + " | noticed |",
        "|---|" + "--:|" * (len(COLUMNS) + 2),
    ]
    for name, each in [*fates.items(), ("all", total)]:
        cells = [
            str(sum(each.values())),
            *(str(each[column]) for column in COLUMNS),
            f"{share_percent(each):.1f} %",
        ]
        module = name.removeprefix("service/branchwright/")
        lines.append(f"| {module if name == 'all' else f'`{module}`'} | " + " | ".join(cells) + " |")
    return lines


def listed(results: list[Result], reasons: list[str] | None = None) -> list[str]:
    """Mutants with their places and changes, and a reason each where there is one."""
    lines: list[str] = []
    for place, result in enumerate(results):
        mutant = result["mutant"]
        fate = "" if result["fate"] == "survived" else f" ({result['fate']})"
        lines += [
            f"**`{mutant['path']}:{mutant['line']}`** {mutant['within']}, {mutant['operator']}{fate}",
            "",
        ]
        if reasons is not None:
            lines += [reasons[place], ""]
        lines += ["```diff", result["diff"], "```", ""]
    return lines


def _left_out(tests: list[str]) -> list[str]:
    """What is said of tests that fail without a mutant: nothing where there are none."""
    return (
        [f"Left out, since they fail without a mutant: {', '.join(f'`{test}`' for test in tests)}.", ""]
        if tests
        else []
    )


def page(outcome: dict[str, Any], command: str, day: str, revision: str, machine: str) -> str:
    """The report as a page."""
    fates, open_, equivalent = counted(outcome["results"])
    tried = Counter(package_of(Path(result["mutant"]["path"])) for result in outcome["results"])
    packages = ", ".join(
        f"{count} of `{package}`"
        + ("" if tried[package] == count else f", of which {tried[package]} were drawn and tried")
        for package, count in outcome["there_are"].items()
    )
    excluded = ", ".join(f"{count} {kind}" for kind, count in sorted(outcome["excluded"].items()))
    lines = [
        f"# Mutation testing: {', '.join(outcome['there_are'])}",
        "",
        "A mutant is the service with one small change in its source: a comparison turned round, a number raised",
        "by one, a call left out. Where a test fails, the mutant is killed; where all pass, it survives, and",
        "nothing holds what was changed. How mutants are made and judged is",
        "[decision 21](../decisions/0021-a-mutation-runner-of-our-own.md).",
        "",
        f"Run on {day} at revision `{revision}`, {machine}, in {outcome['seconds'] / 60:.0f} minutes:",
        "",
        "```console",
        command,
        "```",
        "",
        f"Mutants: {packages}.",
        f"Left alone, since a change of them changes only what a person reads: {excluded}.",
        "Type expressions are not mutated either, save for the arguments of calls in them.",
        "",
        *_left_out(outcome["left_out"]),
        "*Timed out* means that the tests went on more than eight times as long as without the change;",
        "*equivalent* that no input can tell the change from the original, for the reason given below; *noticed* is",
        "what was killed or timed out, of all that are not equivalent.",
        "",
        *table(fates),
        "",
        "## Survivors",
        "",
        *(listed(open_) or ["None.", ""]),
        "## Equivalent mutants",
        "",
        *(listed([result for result, _ in equivalent], [why for _, why in equivalent]) or ["None.", ""]),
    ]
    return "\n".join(lines)
