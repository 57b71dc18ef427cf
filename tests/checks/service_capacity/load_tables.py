"""What the oracle of dwelling loads takes as printed: figures by edition, typed from the articles' tables.

Nothing here is read from the codebook. Sources: NEC article 220 of 2017, 2020 and 2023 and article 120 of 2026,
by a pocket guide of 2005 with Annex D, forum quotations, continuing-education pages and trade magazines; tables
220.54 and 220.55 beyond spot values from memory, held by Annex D examples D2(b) and D6.
"""

from fractions import Fraction

EDITIONS = ("nec-2017", "nec-2020", "nec-2023", "nec-2026")

LIGHTING_VA_PER_FT2 = {"nec-2017": 3, "nec-2020": 3, "nec-2023": 3, "nec-2026": 2}
"""220.12, 220.14(J), 220.41, 120.41."""

SMALL_CIRCUIT_VA = 1500
LEAST_SMALL_APPLIANCE_CIRCUITS = 2
LEAST_LAUNDRY_CIRCUITS = 1
"""220.52(A) and (B), 120.52: of each circuit, and the fewest that count."""

LIGHTING_STEPS = ((3000, Fraction(1)), (120_000, Fraction(35, 100)), (None, Fraction(25, 100)))
"""Table 220.42, 220.45, 120.45: up to so many VA in all, at this share."""

FOUR_APPLIANCES = 4
FOUR_APPLIANCES_SHARE = Fraction(3, 4)
LEAST_APPLIANCE_VA = {"nec-2017": 0, "nec-2020": 500, "nec-2023": 500, "nec-2026": 500}
LEAST_APPLIANCE_HP = Fraction(1, 4)
"""220.53: from 2020 only those of 500 W or 1/4 hp and more."""

LEAST_DRYER_VA = 5000
"""220.54."""

RANGE_SCOPE_KW = Fraction("1.75")
COLUMN_A_BELOW_KW = Fraction("3.5")
COLUMN_B_UP_TO_KW = Fraction("8.75")
COLUMN_C_UP_TO_KW = Fraction(12)
NOTES_UP_TO_KW = Fraction(27)
MORE_PER_KW = Fraction(5, 100)
"""Table 220.55, headings and notes 1 to 3."""

COLUMN_A = (80, 75, 70, 66, 62, 59, 56, 53, 51, 49, 47, 45, 43, 41, 40)
COLUMN_A += (39, 38, 37, 36, 35, 34, 33, 32, 31, 30)
COLUMN_B = (80, 65, 55, 50, 45, 43, 40, 36, 35, 34, 32, 32, 32, 32, 32)
COLUMN_B += (28, 28, 28, 28, 28, 26, 26, 26, 26, 26)
COLUMN_C = (8, 11, 14, 17, 20, 21, 22, 23, 24, 25, 26, 27, 28, 29, 30)
COLUMN_C += (31, 32, 33, 34, 35, 36, 37, 38, 39, 40)
"""Percent, percent and kW for one to twenty-five appliances."""

COLUMN_B_BEYOND = ((30, 24), (40, 22), (50, 20), (60, 18), (None, 16))
"""Percent up to so many appliances; column A stays at 30."""

COOKING_ON_NEUTRAL = Fraction(7, 10)
DRYERS_ON_NEUTRAL = Fraction(7, 10)
NEUTRAL_FULL_UP_TO_A = 200
NEUTRAL_BEYOND = Fraction(7, 10)
"""220.61(B); nothing is reduced on three wires of a 208Y/120 supply, 220.61(C)."""

LARGEST_MOTOR_MORE = Fraction(1, 4)
"""220.50 with 430.24."""

OMITTED_MOTOR_COUNTS = {"nec-2017": False, "nec-2020": True, "nec-2023": True, "nec-2026": True}
"""220.60: from 2020 a motor that is the largest weighs 125 percent when it is compared with what it never meets."""

LEAST_CHARGER_VA = {"nec-2017": None, "nec-2020": None, "nec-2023": 7200, "nec-2026": 7200}
LEAST_ONLY_WITHOUT_NAMEPLATE = {"nec-2026"}
"""220.57 (2023): the larger of 7,200 VA and the nameplate; 120.57 (2026): 7,200 VA where no nameplate is known."""

OPTIONAL_FIRST_VA = {"nec-2017": 10_000, "nec-2020": 10_000, "nec-2023": 10_000, "nec-2026": 8000}
EXISTING_FIRST_VA = 8000
REST = Fraction(4, 10)
"""220.82(B), 220.83, 120.82(B), 120.83."""

LEAST_OPTIONAL_AMPACITY_A = 100
SUPPLEMENTAL_HEAT = Fraction(65, 100)
FEW_UNITS = Fraction(65, 100)
MANY_UNITS = Fraction(4, 10)
MANY = 4
"""220.82(A) and (C)."""

STANDARD_RATINGS_A = (15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225, 250)
STANDARD_RATINGS_A += (300, 350, 400, 450, 500, 600, 700, 800, 1000, 1200, 1600, 2000, 2500, 3000, 4000)
STANDARD_RATINGS_A += (5000, 6000)
"""240.6(A)."""

LEAST_SERVICE_A = {"one-family": 100, "two-family": 60, "multifamily": 60, "other": 60}
"""230.79(C) and (D)."""


def dryer_share(dryers: int) -> Fraction:
    """Table 220.54: the share of so many dryers' load."""
    first = {5: 85, 6: 75, 7: 65, 8: 60, 9: 55, 10: 50, 11: 47}
    if dryers <= 4:
        return Fraction(1)
    if dryers <= 11:
        return Fraction(first[dryers], 100)
    if dryers <= 23:
        return Fraction(47 - (dryers - 11), 100)
    if dryers <= 42:
        return (35 - Fraction(dryers - 23, 2)) / 100
    return Fraction(25, 100)


def column_a(appliances: int) -> Fraction:
    """Table 220.55, column A: the share of cooking appliances below 3 1/2 kW."""
    return Fraction(COLUMN_A[min(appliances, 25) - 1], 100)


def column_b(appliances: int) -> Fraction:
    """Table 220.55, column B: the share of cooking appliances of 3 1/2 to 8 3/4 kW."""
    if appliances <= len(COLUMN_B):
        return Fraction(COLUMN_B[appliances - 1], 100)
    return next(
        Fraction(percent, 100) for up_to, percent in COLUMN_B_BEYOND if up_to is None or appliances <= up_to
    )


def column_c_kw(appliances: int) -> Fraction:
    """Table 220.55, column C: the greatest demand of cooking appliances up to 12 kW, kW."""
    if appliances <= len(COLUMN_C):
        return Fraction(COLUMN_C[appliances - 1])
    if appliances <= 40:
        return Fraction(15 + appliances)
    return 25 + Fraction(3, 4) * appliances
