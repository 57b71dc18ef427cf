"""Where prices and hours come from: the stated book and table or the demo ones, and which entries can be used."""

from decimal import Decimal
from functools import cached_property
from typing import TypeVar

from branchwright.jobs.installation.answers import MoneyRange, UsedLabourTable, UsedPriceBook
from branchwright.jobs.installation.demo import demo_labour_table, demo_price_book
from branchwright.jobs.installation.price_facts import (
    Condition,
    ConditionFactor,
    ConditionFactors,
    LabourTable,
    Price,
    PriceBook,
    Task,
)
from branchwright.jobs.installation.price_keys import PRICE_MEASURES, TASK_MEASURES, Measure
from branchwright.jobs.installation.units import UNITS_OF
from branchwright.quantities.money import minor_digits

USUAL_DIGITS = 2
"""Digits after the point where no currency is known."""

Figure = TypeVar("Figure", Decimal, float)


def in_order(low: Figure, likely: Figure, high: Figure) -> bool:
    """Return whether three figures rise, or stay.

    >>> in_order(1.0, 1.0, 2.0), in_order(2.0, 1.0, 3.0)
    (True, False)
    """
    return low <= likely <= high


def fits(unit: str, measure: Measure | None) -> bool:
    """Return whether a unit is one of a measure; a key that is not known takes any."""
    return measure is None or unit in UNITS_OF[measure]


class Sources:
    """The price book and the labour table of an answer."""

    def __init__(self, book: PriceBook | None, table: LabourTable | None) -> None:
        """Take what the request states, and the demo's for what it does not."""
        self.stated_book = book
        self.stated_table = table
        self.book = book or demo_price_book()
        self.table = table or demo_labour_table()

    @cached_property
    def is_demo_book(self) -> bool:
        """Whether the prices are invented."""
        return self.stated_book is None or self.book.is_demo is True

    @cached_property
    def is_demo_table(self) -> bool:
        """Whether the hourly rate is invented."""
        return self.stated_table is None or self.table.is_demo is True

    @cached_property
    def currency(self) -> str | None:
        """Currency of the totals; None where book or table state none. That of the book where the two differ."""
        return self.book.currency if self.table.currency is not None else None

    @cached_property
    def digits(self) -> int:
        """Digits after the point that amounts are rounded to."""
        known = minor_digits(self.currency) if self.currency is not None else None
        return USUAL_DIGITS if known is None else known

    @cached_property
    def money(self) -> str:
        """Unit of an amount in steps."""
        return self.currency or "money"

    @cached_property
    def currencies_agree(self) -> bool:
        """Whether book and table do not state different currencies."""
        stated = {self.book.currency, self.table.currency} - {None}
        return len(stated) < 2

    @cached_property
    def rate_is_usable(self) -> bool:
        """Whether the hourly rate is a range, in the currency of the prices."""
        rate = self.table.hourly_rate
        return self.currencies_agree and in_order(rate.low, rate.likely, rate.high)

    def price(self, key: str) -> Price | None:
        """Return a price that can be used: a range, in a unit of what it prices."""
        price = self.book.prices.get(key)
        if price is None or not in_order(price.low, price.likely, price.high):
            return None
        return price if fits(price.unit, PRICE_MEASURES.get(key)) else None

    def task(self, key: str) -> Task | None:
        """Return the hours of a task that can be used: a range, in a unit of the task."""
        task = self.table.tasks.get(key)
        if task is None or not in_order(task.hours_low, task.hours_likely, task.hours_high):
            return None
        return task if fits(task.unit, TASK_MEASURES.get(key)) else None

    def factor(self, condition: Condition) -> ConditionFactor | None:
        """Return the factor of a condition that can be used; None where it is not stated or no range."""
        factors = self.table.condition_factors or ConditionFactors()
        found: ConditionFactor | None = getattr(factors, condition.replace("-", "_"))
        return found if found and in_order(found.low, found.likely, found.high) else None

    def used_book(self) -> UsedPriceBook:
        """Return the book as the answer names it."""
        book = self.book
        return UsedPriceBook(book.name, book.dated, book.currency, self.is_demo_book)

    def used_table(self) -> UsedLabourTable:
        """Return the table as the answer names it."""
        table = self.table
        rate = table.hourly_rate
        shown = MoneyRange(rate.low, rate.likely, rate.high)
        return UsedLabourTable(table.name, table.dated, table.currency, self.is_demo_table, shown)
