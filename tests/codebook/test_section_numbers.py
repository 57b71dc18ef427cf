"""Every section has the number that its edition gives it, and what is not reported as moved keeps its number."""

import tomllib
from pathlib import Path
from typing import Any

import pytest

DATA = Path(__file__).parents[2] / "service" / "branchwright" / "codebook" / "data" / "nec"
EDITIONS = ("nec-2017", "nec-2020", "nec-2023", "nec-2026")


def editions_of(path: Path) -> dict[str, Any]:
    return tomllib.loads(path.read_text(encoding="utf-8"))["editions"]


LISTED = {
    **{path.stem: editions_of(path) for path in (DATA / "provisions").glob("*.toml")},
    **{path.parent.name: editions_of(path) for path in (DATA / "tables").glob("*/about.toml")},
}


def moved(section: str) -> tuple[str, ...]:
    """The sections of a rule of article 220 that kept its number there until it moved to article 120."""
    return section, section, section, section.replace("220.", "120.")


# Section numbers by edition. What keeps its number is not listed here: see the next test.
RENUMBERED = {
    "lighting_demand": ("Table 220.42", "Table 220.42", "Table 220.45", "Table 120.45"),
    "dryer_demand": moved("Table 220.54"),
    "range_demand": moved("Table 220.55"),
    "dwelling_service_sizes": (None, "Table 310.12", "Table 310.12(A)", "Table 310.12(A)"),
    "lighting-load": ("220.12", "220.14(J)", "220.41", "120.41"),
    "small-appliance-load": moved("220.52(A)"),
    "laundry-load": moved("220.52(B)"),
    "appliance-demand": moved("220.53"),
    "dryer-load": moved("220.54"),
    "range-load": moved("220.55 and Table 220.55, Notes 1 to 4"),
    "space-heating-load": moved("220.51"),
    "noncoincident-load": moved("220.60"),
    "largest-motor": ("220.50", "220.50", "220.50(A)", "120.50(A)"),
    "neutral-load": moved("220.61"),
    "charger-load": ("220.14(A) and 625.42", "220.14(A) and 625.42", "220.57", "120.57"),
    "optional-dwelling-load": moved("220.82(B)"),
    "optional-heating-and-cooling": moved("220.82(C)"),
    "existing-dwelling-load": moved("220.83"),
    "measured-demand": moved("220.87"),
    "load-rounding": moved("220.5(B)"),
    "energy-management-load": ("625.42", "625.42", "220.70", "120.7"),
    "energy-management-equipment": ("750.30(C)", "750.30(C)", "750.6 and 750.30(C)", "130.2 and 130.30"),
    "monitored-conductors": ("750.30(C)", "750.30(C)", "750.30(C)", "130.30"),
    "dwelling-service-conductors": (
        "310.15(B)(7)",
        "310.12(A) and (B)",
        "310.12(A) and (B)",
        "310.12(A) and (B)",
    ),
    "busbar-with-backfeed": ("705.12(B)(2)(3)", "705.12(B)(3)", "705.12(B)", "705.12(B)"),
    "ampacity": ("Table 310.15(B)(16)", "Table 310.16", "Table 310.16", "Table 310.16"),
    "ambient_correction": (
        "Table 310.15(B)(2)(a)",
        "Table 310.15(B)(1)",
        "Table 310.15(B)(1)(1)",
        "Table 310.15(B)(1)(1)",
    ),
    "conductor_count_adjustment": (
        "Table 310.15(B)(3)(a)",
        "Table 310.15(C)(1)",
        "Table 310.15(C)(1)",
        "Table 310.15(C)(1)",
    ),
    "insulations": ("Table 310.104(A)", "Table 310.4(A)", "Table 310.4(1)", "Table 310.4(1)"),
    "standard_ratings": ("240.6(A)", "Table 240.6(A)", "Table 240.6(A)", "Table 240.6(A)"),
    "burial_cover": ("Table 300.5", "Table 300.5", "Table 300.5(A)", "Table 300.5(A)"),
    "nominal_voltages": ("220.5(A)", "220.5(A)", "220.5(A)", "120.5(A)"),
    "base-ambient": ("Table 310.15(B)(16)", "310.16", "310.16", "310.16"),
    "branch-circuit-rating": ("210.3", "210.18", "210.18", "210.18"),
    "bundling": ("310.15(B)(3)(a)", "310.15(C)(1)", "310.15(C)(1)", "310.15(C)(1)"),
    "conductor-continuous-load": ("210.19(A)(1)(a)", "210.19(A)(1)(a)", "210.19(A)(1)", "210.19(A)(1)"),
    "conductor-actual-load": ("210.19(A)(1)(b)", "210.19(A)(1)(b)", "210.19(A)(2)", "210.19(A)(2)"),
    "current-setting": ("625.42", "625.42", "625.42(B)", "625.42(B)"),
    "shared-circuit": ("625.40", "625.40 Exception", "625.40 Exception", "625.40 Exception"),
    "setting-label": (None, "625.42", "625.42(B)", "625.42(B)"),
    "disconnect": ("625.43", "625.43", "625.43", "625.43(C)"),
    "emergency-shutoff": ("625.43", "625.43", "625.43", "625.43(D)"),
    "hardwired-protection": ("210.8", "210.8(F)", "210.8(F)", "210.8(F)"),
    "neutral-count": ("310.15(B)(5)", "310.15(E)", "310.15(E)", "310.15(E)"),
    "operating-temperature": ("310.15(C)", "310.14(B)", "310.14(B)", "310.14(B)"),
    "permanently-wired-protection": ("625.54", "625.54", "625.54", "625.54(B)"),
    "receptacle-protection": ("625.54", "625.54", "625.54", "625.54(A)"),
    "receptacle-rating": ("210.21(B)(1)", "210.21(B)(1)", "210.21(B)(1)", "210.21(B)(1) and 625.44"),
    "rooftop": ("310.15(B)(3)(c)", "310.15(B)(2)", "310.15(B)(2)", "310.15(B)(2)"),
    "short-length-exception": (
        "310.15(A)(2) Exception",
        "310.14(A)(2) Exception",
        "310.14(A)(2) Exception",
        "310.14(A)(2) Exception",
    ),
    "voltage-drop": (
        "210.19(A) Informational Note",
        "210.19(A) Informational Note",
        "210.19 Informational Note",
        "210.19 Informational Note",
    ),
}


@pytest.mark.source(
    "International Residential Code, tables E3705.1 to E3705.3, which name the sections; continuing-education pages "
    "on rooftops (2017, 2020, 2023), 625.43 and 625.44 (2026), 705.12 (2017, 2020) and article 120 (2026); trade "
    "magazine on 210.18; a distributor's page on Table 310.12 (2020); the rest from memory"
)
@pytest.mark.parametrize("name", sorted(RENUMBERED))
def test_sections_have_the_number_of_their_edition(name: str):
    assert tuple(LISTED[name].get(edition, {}).get("section") for edition in EDITIONS) == RENUMBERED[name]


def test_every_other_section_keeps_its_number():
    for name, listed in LISTED.items():
        if name not in RENUMBERED:
            assert len({record["section"] for record in listed.values()}) == 1, name
