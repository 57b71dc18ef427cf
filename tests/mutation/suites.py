"""Which tests are asked about which part of the service.

A mutant counts as killed only where a test fails. A test that is not asked can therefore make a report worse, never
better: the suites are kept to the tests that run in process and are quick.
"""

from pathlib import Path

SERVICE = Path("service/branchwright")
SUITES: dict[str, tuple[str, ...]] = {
    "calculations": ("tests/calculations", "tests/situations", "tests/checks/test_published_tables.py"),
    "codebook": (
        "tests/codebook",
        "tests/situations",
        "tests/checks/test_published_tables.py",
        "tests/checks/test_schema_and_codebook_agree.py",
    ),
    "checks/circuits": (
        "tests/checks/test_units_and_relations.py",
        "tests/checks/test_what_is_asked_for.py",
        "tests/checks/test_remedies_by_rule.py",
        "tests/situations",
        "tests/checks",
        "tests/http_api/test_openapi_drift.py",
        "tests/contract/test_misfits.py",
    ),
    "checks/service_capacity/dwelling_load": (
        "tests/checks/service_capacity/test_load_editions.py",
        "tests/checks/service_capacity/test_load_facts.py",
        "tests/checks/service_capacity/test_load_remarks.py",
        "tests/checks/service_capacity/test_published_loads.py",
        "tests/checks/service_capacity/test_load_rules.py",
        "tests/checks/service_capacity/test_load_properties.py",
        "tests/checks/service_capacity/test_against_the_load_oracle.py",
    ),
    "checks/service_capacity/capacity_review": (
        "tests/checks/service_capacity/test_capacity_ratings.py",
        "tests/checks/service_capacity/test_capacity_management.py",
        "tests/checks/service_capacity/test_capacity_measured.py",
        "tests/checks/service_capacity/test_capacity_published.py",
        "tests/checks/service_capacity/test_capacity_steps.py",
        "tests/checks/service_capacity/test_capacity_ways.py",
        "tests/checks/service_capacity/test_capacity_answers.py",
        "tests/checks/service_capacity/test_capacity_properties.py",
        "tests/checks/service_capacity/test_against_the_capacity_oracle.py",
    ),
    "checks/charging_cost/tariffs": (
        "tests/checks/charging_cost/tariffs/test_bills.py",
        "tests/checks/charging_cost/tariffs/test_priced.py",
        "tests/checks/charging_cost/tariffs/test_local_year.py",
        "tests/checks/charging_cost/tariffs/test_bill_steps.py",
        "tests/checks/charging_cost/tariffs",
        "tests/checks/charging_cost/test_against_reference.py",
    ),
}
"""Tests by package, those that are asked first before the others; further ones come with `--tests`."""


def rank(suite: list[str], test: str) -> int:
    """Where in a suite a test stands."""
    return next(place for place, folder in enumerate(suite) if test.startswith(folder))


def package_of(path: Path) -> str:
    """The package that a source file belongs to."""
    inner = path.relative_to(SERVICE).as_posix()
    found = [package for package in SUITES if inner.startswith(package + "/")]
    if not found:
        raise SystemExit(f"{path} lies in none of {', '.join(SUITES)}.")
    return found[0]


def source_files(root: Path, asked: list[str]) -> list[Path]:
    """The source files below the paths that are asked for, relative to the root."""
    found: set[Path] = set()
    for each in asked:
        path = root / each
        if not path.exists():
            raise SystemExit(f"--paths: there is no {each}.")
        found |= {path} if path.is_file() else set(path.rglob("*.py"))
    return sorted(path.relative_to(root) for path in found)
