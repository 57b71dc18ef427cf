"""The verdict follows from the requirements, and from nothing else."""

import itertools

import pytest

from branchwright.findings import Citation, Finding, Sourced, verdict_of
from branchwright.findings.finding import margin_at_least, margin_at_most


def finding(outcome: str, force: str) -> Finding:
    return Finding("a-rule", outcome, force, "it", None, None, None, None, None, None, "It is so.", None)


@pytest.mark.parametrize(
    "outcomes", list(itertools.product(("pass", "fail", "undetermined", "not-applicable"), repeat=3))
)
def test_requirements_decide(outcomes: tuple[str, ...]) -> None:
    verdict = verdict_of(finding(outcome, "requirement") for outcome in outcomes)
    if "fail" in outcomes:
        assert verdict == "fail"
    else:
        assert verdict == ("undetermined" if "undetermined" in outcomes else "no-failure-found")


def test_recommendations_do_not() -> None:
    assert (
        verdict_of([finding("fail", "recommendation"), finding("pass", "requirement")]) == "no-failure-found"
    )
    assert verdict_of([finding("undetermined", "recommendation")]) == "no-failure-found"


def test_nothing_found_is_no_failure_found() -> None:
    assert verdict_of([]) == "no-failure-found"


def test_margins_are_percent_of_what_is_required() -> None:
    assert margin_at_least(65, 60) == pytest.approx(8.33)
    assert margin_at_least(55, 60) == pytest.approx(-8.33)
    assert margin_at_most(20, 40) == 50
    assert margin_at_most(44, 40) == -10
    assert margin_at_least(1, 0) is None
    assert margin_at_most(1, 0) is None


def test_a_name_is_no_number_and_a_number_no_name() -> None:
    cited = Citation("nec-2023", "250.122")
    size = Sourced("10 AWG", "size", "codebook:grounding-conductor/60/copper", cited)
    factor = Sourced(1.25, "1", "codebook:continuous-load/factor", cited)
    assert (size.name, factor.number) == ("10 AWG", 1.25)
    with pytest.raises(TypeError, match="10 AWG"):
        size.number  # noqa: B018
    with pytest.raises(TypeError, match=r"1\.25"):
        factor.name  # noqa: B018
