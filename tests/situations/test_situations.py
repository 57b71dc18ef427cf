"""Runs the situations: one file each, written so that an electrician can read and dispute it.

A file has a `title`, a `source` (the publication, or "common practice, no source"), optional `notes`, and a
`kind`. A `design` or `review` has the `request` as the service takes it and what is expected of the answer:

- `expect.verdict`
- `expect.findings.<rule>`: outcome, required, provided, citation, pointer, remedy; `says`: words of its message
- `expect.steps.<id>`: the value of a step
- `expect.design.<JSON pointer into the design>`, `expect.absent`: pointers at which there is nothing
- `expect.interpretations.<name>.<other reading>`: the verdict under it
- `expect.existing_circuit`: what a review says that the installed sizes allow
- `expect.within`: how far a number may lie from the printed one; 0.01 percent of it unless told

A `comparison` has the request of a comparison of charging currents, whose answer gives no verdict. Expected are:

- `expect.currents.<current>`: breaker, conductors, grounding, neutral and raceway (of a run of one segment);
  under `fails` the rules that leave a current without a circuit
- `expect.last_before_a_step`: the currents marked as the last before a step in cost, or the last allowed

One situation may be judged by several editions: its request then names none, and `editions.<edition>` holds what
is expected by that one in the same words, beside what `expect` asks of all of them; `why` says it in words.

A `load` or a `capacity` has the request of a load calculation or of a capacity review; `service_situations` says
what is expected of it.

A `calculation` is a list of names with inputs and the published value, `within` its rounding. What a source
prints wrongly stands under `published_error` and must not come out.
"""

import importlib
import pkgutil
import tomllib
from pathlib import Path
from typing import Any

import pytest
from tests.checks.circuits import Json, by_rule, designed, reviewed
from tests.checks.replay import Disagreement, at_pointer, replay
from tests.jobs.comparisons import compared
from tests.situations import service_situations

from branchwright import calculations
from branchwright.codebook import at

FILES = sorted(Path(__file__).parent.glob("*.toml"))
NAMES = {
    name: value
    for module in pkgutil.iter_modules(calculations.__path__)
    for name, value in vars(importlib.import_module(f"{calculations.__name__}.{module.name}")).items()
    if name.endswith(("_a", "_c", "_ft", "_in2", "_v", "_ohm", "_cmil", "_percent", "_count", "_va"))
}
FIELDS = {
    "title",
    "source",
    "notes",
    "kind",
    "request",
    "calculation",
    "expect",
    "editions",
    "published_error",
}
EXPECTED = {
    "verdict",
    "findings",
    "steps",
    "design",
    "absent",
    "interpretations",
    "existing_circuit",
    "within",
}
COMPARED = {"currents", "last_before_a_step"}


def smallest_size_with_area(area_cmil: float) -> str | None:
    """The smallest conductor of the 2023 table that has an area."""
    return at("nec-2023").edition.size_with_area_at_least(area_cmil)


def agrees(found: Any, expected: Any, within: float | None = None) -> bool:
    if isinstance(expected, bool) or not isinstance(expected, (int, float)):
        return bool(found == expected)
    return bool(found == pytest.approx(expected, rel=1e-4 if within is None else 0, abs=within or 1e-9))


def read(path: Path) -> Json:
    situation = tomllib.loads(path.read_text(encoding="utf-8"))
    assert situation["title"], path
    assert situation["source"], path
    assert set(situation) <= FIELDS, f"{path.name} has fields that nothing reads: {set(situation) - FIELDS}"
    return situation


def joined(common: Json, own: Json) -> Json:
    """Join what is expected in every edition with what is expected in one; neither may say what the other says."""
    result = dict(common)
    for name, value in own.items():
        if name in result and isinstance(value, dict):
            result[name] = joined(result[name], value)
        else:
            assert name not in result, f"{name} is expected in every edition and in one"
            result[name] = value
    return result


def of_edition(situation: Json, edition: str | None) -> tuple[Json, Json]:
    """Return the request of a situation and what is expected of its answer, in one edition where it names several."""
    request, expected = situation["request"], situation.get("expect", {})
    if edition is not None:
        assert "edition" not in request, "a situation of several editions leaves it to them"
        own = {name: value for name, value in situation["editions"][edition].items() if name != "why"}
        request, expected = {"edition": edition, **request}, joined(expected, own)
    return request, expected


def cases() -> list[Any]:
    """Return every file with each of its editions; None where the request names the edition, or nothing does."""
    return [
        pytest.param(path, edition, id=path.stem if edition is None else f"{path.stem}-{edition}")
        for path in FILES
        for edition in read(path).get("editions", [None])
    ]


def finding_agrees(found: Json, expected: Json, within: float | None) -> list[str]:
    """What of a finding differs from what is expected."""
    seen = {
        "outcome": found["outcome"],
        "required": found["required"] and found["required"]["value"],
        "provided": found["provided"] and found["provided"]["value"],
        "citation": found["citation"] and found["citation"]["section"],
        "pointer": found["pointer"],
    }
    wrong = []
    for name, value in expected.items():
        if name == "remedy":
            remedy = found["remedy"] or {}
            wrong += [
                f"remedy: {remedy.get(part)!r}, not {wanted!r}"
                for part, wanted in value.items()
                if not agrees(remedy.get(part), wanted)
            ]
        elif name == "says":
            if value not in found["message"]:
                wrong.append(f"says {found['message']!r}, not {value!r}")
        elif not agrees(seen[name], value, within):
            wrong.append(f"{name}: {seen[name]!r}, not {value!r}")
    return wrong


def differences(answer: Json, expected: Json) -> list[str]:
    """Where an answer differs from what is expected of it."""
    within = expected.get("within")
    findings = by_rule(answer)
    steps = {step["id"]: step["value"] for step in answer["steps"]}
    readings = {
        item["name"]: {other["reading"]: other["verdict"] for other in item["other_readings"]}
        for item in answer["interpretations"]
    }
    wrong = []
    if "verdict" in expected and answer["verdict"] != expected["verdict"]:
        open_ = [name for name, item in findings.items() if item["outcome"] in ("fail", "undetermined")]
        wrong.append(f"verdict: {answer['verdict']}, not {expected['verdict']}; {open_}")
    for rule, wanted in expected.get("findings", {}).items():
        wrong += [f"{rule}: {what}" for what in finding_agrees(findings[rule], wanted, within)]
    for step, wanted in expected.get("steps", {}).items():
        if not agrees(steps.get(step), wanted, within):
            wrong.append(f"step {step}: {steps.get(step)!r}, not {wanted!r}")
    for pointer, wanted in expected.get("design", {}).items():
        found = at_pointer(answer["design"], pointer)
        if not agrees(found, wanted, within):
            wrong.append(f"design {pointer}: {found!r}, not {wanted!r}")
    for pointer in expected.get("absent", []):
        if at_pointer(answer["design"], pointer) is not None:
            wrong.append(f"design {pointer} is there")
    for name, wanted in expected.get("existing_circuit", {}).items():
        found = answer["existing_circuit"][name]
        if not agrees(found, wanted, within):
            wrong.append(f"existing circuit {name}: {found!r}, not {wanted!r}")
    wrong += [
        f"{name}: {found!r}, not {wanted!r}"
        for name, found, wanted in service_situations.figures(answer, expected)
        if not agrees(found, wanted, within)
    ]
    for name, others in expected.get("interpretations", {}).items():
        if readings.get(name) != others:
            wrong.append(f"interpretation {name}: {readings.get(name)}, not {others}")
    return wrong


def compared_row(row: Json) -> Json:
    """Return a row of a comparison in the words of a situation."""
    return {
        "breaker": row["breaker_rating_a"],
        "conductors": row["ungrounded_size"],
        "grounding": row["grounding_size"],
        "neutral": row["neutral_size"],
        "raceway": row["raceways"][0]["trade_size"] if row["raceways"] else None,
        "fails": row["failed_rules"],
    }


def comparison_differences(answer: Json, expected: Json) -> list[str]:
    """Where a comparison differs from what is expected of it."""
    rows = {f"{row['charging_current_a']:g}": row for row in answer["rows"]}
    wrong = []
    if "currents" in expected and set(expected["currents"]) != set(rows):
        wrong.append(f"currents: {sorted(rows)}")
    for current, wanted in expected.get("currents", {}).items():
        found = compared_row(rows[current])
        wrong += [
            f"{current} A {name}: {found[name]!r}, not {value!r}"
            for name, value in wanted.items()
            if not agrees(found[name], value)
        ]
    if "last_before_a_step" in expected:
        marked = [row["charging_current_a"] for row in answer["rows"] if row["mark"]]
        if marked != expected["last_before_a_step"]:
            wrong.append(f"last before a step: {marked}, not {expected['last_before_a_step']}")
    return wrong


def repeats_the_error(answer: Json, error: Json) -> list[str]:
    """Which of the figures that a source prints wrongly an answer repeats."""
    steps = {step["id"]: step["value"] for step in answer["steps"]}
    findings = by_rule(answer)
    repeated = [
        f"{rule}: {part} {wrong!r}"
        for rule, parts in error.get("findings", {}).items()
        for part, wrong in parts.items()
        if not finding_agrees(findings[rule], {part: wrong}, None)
    ]
    return repeated + [
        f"step {step}: {wrong!r}"
        for step, wrong in error.get("steps", {}).items()
        if agrees(steps[step], wrong)
    ]


@pytest.mark.parametrize(("path", "edition"), cases())
def test_situation(path: Path, edition: str | None) -> None:
    situation = read(path)
    if situation["kind"] == "calculation":
        assert situation["calculation"]
        for line in situation["calculation"]:
            name = line["name"]
            compute = smallest_size_with_area if name == "smallest_size_with_area" else NAMES[name]
            found = compute(**line["inputs"])
            assert agrees(found, line["value"], line.get("within")), (name, found)
            assert "published_error" not in line or not agrees(found, line["published_error"])
        return
    request, expected = of_edition(situation, edition)
    if situation["kind"] == "comparison":
        assert expected
        assert set(expected) <= COMPARED
        assert comparison_differences(compared(request), expected) == []
        return
    kind = situation["kind"]
    assert set(expected) <= service_situations.EXPECTED.get(kind, EXPECTED)
    assert set(expected) - {"within"}
    answer = {"design": designed, "review": reviewed, **service_situations.ASKED}[kind](request)
    replay(answer, request)
    assert differences(answer, expected) == []
    assert repeats_the_error(answer, situation.get("published_error", {})) == []


def test_the_runner_sees_a_difference_in_a_comparison() -> None:
    situation = read(Path(__file__).parent / "currents-on-nonmetallic-cable.toml")
    request, expected = of_edition(situation, "nec-2023")
    answer = compared(request)
    assert comparison_differences(answer, expected) == []
    for current, name, value in (
        ("48", "breaker", 50),
        ("48", "conductors", "6 AWG"),
        ("48", "grounding", "8 AWG"),
        ("48", "neutral", "4 AWG"),
        ("48", "raceway", "3/4"),
        ("80", "fails", []),
    ):
        other = {"currents": {**expected["currents"], current: {name: value}}}
        assert len(comparison_differences(answer, other)) == 1, (current, name)
    assert comparison_differences(answer, {"currents": {}})
    assert comparison_differences(answer, {"last_before_a_step": [48]})


def test_the_runner_sees_a_difference_in_a_load() -> None:
    situation = read(Path(__file__).parent / "annex-d1a-one-family-standard-by-edition.toml")
    request, expected = of_edition(situation, "nec-2023")
    answer = service_situations.ASKED["load"](request)
    assert differences(answer, expected) == []
    for figure in (
        {"total_va": 18_603},
        {"permitted": False},
        {"rounded_current_a": 77},
        {"groups": {"cooking": 8001}},
        {"groups": {"no such group": 1}},
    ):
        assert len(differences(answer, {"methods": {"standard": figure}})) == 1, figure


def test_the_runner_sees_a_difference_in_a_capacity() -> None:
    situation = read(Path(__file__).parent / "48-a-is-too-much-for-a-100-a-service.toml")
    request, expected = of_edition(situation, None)
    answer = service_situations.ASKED["capacity"](request)
    assert differences(answer, expected) == []
    for other in (
        {"capacity": {"/total_a": 109}},
        {"capacity": {"/largest_charging_current_a/unmanaged": None}},
        {"ways": {"lower-setting": {"charging_current_a": 41}}},
        {"ways": {"no-such-way": {"charging_current_a": 40}}},
        {"ways_in_order": ["energy-management", "lower-setting", "service-upgrade"]},
    ):
        assert len(differences(answer, other)) == 1, other


def test_the_runner_sees_a_difference() -> None:
    situation = read(Path(__file__).parent / "48-a-on-6-awg-nonmetallic-cable.toml")
    request, _ = of_edition(situation, "nec-2023")
    answer = reviewed(request)
    rule = "conductor-continuous-load"
    for expected in (
        {"verdict": "no-failure-found"},
        {"findings": {rule: {"outcome": "pass"}}},
        {"findings": {rule: {"provided": 55.1}}},
        {"findings": {rule: {"citation": "1.1"}}},
        {"findings": {rule: {"says": "66 A"}}},
        {"findings": {rule: {"remedy": {"pointer": "/nowhere"}}}},
        {"steps": {"terminal-ampacity": 56}},
        {"steps": {"no-such-step": 1}},
        {"design": {"/breaker/rating_a": 50}},
        {"absent": ["/breaker"]},
        {"interpretations": {"no-such": {"reading": "fail"}}},
        {"existing_circuit": {"largest_charging_current_a": 48}},
        {"existing_circuit": {"limited_by": []}},
    ):
        assert len(differences(answer, expected)) == 1, expected
    assert repeats_the_error(answer, {"findings": {rule: {"provided": 55}}})
    assert repeats_the_error(answer, {"steps": {"terminal-ampacity": 55}})
    with pytest.raises(AssertionError, match="expected in every edition and in one"):
        joined({"findings": {rule: {"outcome": "fail"}}}, {"findings": {rule: {"outcome": "pass"}}})
    answer["steps"][0]["value"] += 1
    with pytest.raises(Disagreement):
        replay(answer, request)
