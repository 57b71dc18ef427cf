"""Rules about the figures of a price book and a labour table: ranges, units, keys, currency and dates."""

from collections.abc import Iterator
from datetime import date
from difflib import get_close_matches

from branchwright.findings import Finding, Provided, Required
from branchwright.findings.pointers import escaped
from branchwright.jobs.installation.case import Case
from branchwright.jobs.installation.price_keys import PRICE_MEASURES, TASK_MEASURES
from branchwright.jobs.installation.rules.rule import listed, rule
from branchwright.jobs.installation.sources import fits, in_order
from branchwright.jobs.installation.units import UNITS_OF
from branchwright.quantities.money import minor_digits

LONGEST_SHOWN = 100
"""Characters of an unknown key that a finding shows."""

SUGGESTED = 3
"""For how many unknown keys the nearest known one is looked for."""


def _ranges(case: Case) -> Iterator[tuple[str, bool, str]]:
    """Yield each range of the request: its pointer, whether it rises, and its figures."""
    book, table = case.sources.stated_book, case.sources.stated_table
    for key, price in (book.prices if book else {}).items():
        figures = f"{price.low:f}, {price.likely:f}, {price.high:f}"
        yield f"/price_book/prices/{escaped(key)}", in_order(price.low, price.likely, price.high), figures
    if table is None:
        return
    rate = table.hourly_rate
    figures = f"{rate.low:f}, {rate.likely:f}, {rate.high:f}"
    yield "/labour_table/hourly_rate", in_order(rate.low, rate.likely, rate.high), figures
    for key, task in table.tasks.items():
        low, likely, high = task.hours_low, task.hours_likely, task.hours_high
        at = f"/labour_table/tasks/{escaped(key)}"
        yield at, in_order(low, likely, high), f"{low:g}, {likely:g}, {high:g}"
    if table.condition_factors is not None:
        for name, factor in table.condition_factors:
            if factor is not None:
                at = f"/labour_table/condition_factors/{name.replace('_', '-')}"
                figures = f"{factor.low:g}, {factor.likely:g}, {factor.high:g}"
                yield at, in_order(factor.low, factor.likely, factor.high), figures


@rule("estimate-ranges", subject="prices and hours")
def estimate_ranges(case: Case) -> Finding:
    """Is each low figure at most the likely one, and that at most the high one?

    Applies: to prices, hours, factors and the hourly rate that the request states.
    Rests on: a range from low to high with a likely figure inside. One that is none is not used.
    Missing facts: none.
    """
    wrong = [(pointer, figures) for pointer, rises, figures in _ranges(case) if not rises]
    if wrong:
        pointer, figures = wrong[0]
        return estimate_ranges.failed(
            f"Low, likely and high do not rise at {listed([place for place, _ in wrong])}; they are not used.",
            pointer,
            Required("low <= likely <= high", "text", "equal"),
            Provided(figures, "text"),
        )
    return estimate_ranges.passed("Each range rises from low to high.")


@rule("estimate-units", subject="units of prices and hours")
def estimate_units(case: Case) -> Finding:
    """Does each price and each time have a unit of what it is for?

    Applies: to keys of the request that are known.
    Rests on: things are counted, runs are measured in feet or metres, the way in miles or kilometres. Feet and metres
    are converted exactly; nothing else is. A figure in another unit is not used.
    Missing facts: none.
    """
    book, table = case.sources.stated_book, case.sources.stated_table
    stated = [
        *(
            ("/price_book/prices", key, price.unit, PRICE_MEASURES)
            for key, price in (book.prices if book else {}).items()
        ),
        *(
            ("/labour_table/tasks", key, task.unit, TASK_MEASURES)
            for key, task in (table.tasks if table else {}).items()
        ),
    ]
    wrong = [
        (f"{at}/{escaped(key)}/unit", key, unit, list(UNITS_OF[measures[key]]))
        for at, key, unit, measures in stated
        if not fits(unit, measures.get(key))
    ]
    if wrong:
        pointer, _, unit, permitted = wrong[0]
        return estimate_units.one_of(
            unit,
            permitted,
            f"The unit is not one of what is priced: {listed([f'{key} per {of}' for _, key, of, _ in wrong])}.",
            None,
            pointer,
            holds=False,
        )
    return estimate_units.passed("Each unit is one of what is priced.")


@rule("estimate-keys", subject="keys of prices and hours", force="recommendation")
def estimate_keys(case: Case) -> Finding:
    """Is each key one that an estimate may ask for?

    Applies: to price book and labour table of the request.
    Rests on: a key that is never asked for is most often one that is misspelt. It does no harm by itself.
    Missing facts: none.
    """
    book, table = case.sources.stated_book, case.sources.stated_table
    unknown = [
        *(
            ("/price_book/prices", key, PRICE_MEASURES)
            for key in (book.prices if book else {})
            if key not in PRICE_MEASURES
        ),
        *(
            ("/labour_table/tasks", key, TASK_MEASURES)
            for key in (table.tasks if table else {})
            if key not in TASK_MEASURES
        ),
    ]
    if not unknown:
        return estimate_keys.passed("Each key is known.")
    named = [key[:LONGEST_SHOWN] for _, key, _ in unknown]
    for place, (_, key, known) in enumerate(unknown[:SUGGESTED]):
        near = get_close_matches(key[:LONGEST_SHOWN], known, 1, 0.75)
        if near:
            named[place] = f"{key[:LONGEST_SHOWN]} (did you mean {near[0]}?)"
    at, key, _ = unknown[0]
    return estimate_keys.failed(
        f"No estimate asks for {listed(named)}.",
        f"{at}/{escaped(key)}",
        Required("a known key", "text", "one-of"),
        Provided(key[:LONGEST_SHOWN], "text"),
    )


@rule("estimate-currency", subject="currency")
def estimate_currency(case: Case) -> Finding:
    """Are prices and hourly rate in one known currency?

    Applies: always.
    Rests on: amounts of two currencies cannot be added; nothing is exchanged. ISO 4217 names the currencies. Where the
    two differ the labour has no price.
    Missing facts: undetermined where price book or labour table state no currency.
    """
    sources = case.sources
    book, table = sources.book.currency, sources.table.currency
    for pointer, currency in (("/price_book/currency", book), ("/labour_table/currency", table)):
        if currency is not None and minor_digits(currency) is None:
            return estimate_currency.failed(
                f"{currency} is no currency of ISO 4217.",
                pointer,
                Required("a code of ISO 4217", "text", "one-of"),
                Provided(currency, "text"),
            )
    if book is None or table is None:
        pointer = "/price_book/currency" if book is None else "/labour_table/currency"
        return estimate_currency.undetermined(pointer, "The currency is not stated.")
    whose = "" if sources.stated_table else " of the demo table; state one of your own"
    return estimate_currency.one_of(
        table,
        [book],
        f"Prices are in {book}, the hourly rate in {table}{whose}."
        if book != table
        else f"Prices and hourly rate are in {book}.",
        None,
        "/labour_table/currency" if sources.stated_table else "/labour_table",
        holds=book == table,
    )


@rule("estimate-dates", subject="dates of prices and hours")
def estimate_dates(case: Case) -> Finding:
    """Are the dates of price book and labour table in the calendar?

    Applies: always.
    Rests on: the calendar. How old a price is, the reader sees from its date: the service has no clock.
    Missing facts: none.
    """
    sources = case.sources
    for pointer, dated in (
        ("/price_book/dated", sources.book.dated),
        ("/labour_table/dated", sources.table.dated),
    ):
        try:
            date.fromisoformat(dated)
        except ValueError:
            return estimate_dates.failed(
                f"No calendar has {dated}.",
                pointer,
                Required("a date of the calendar", "text", "one-of"),
                Provided(dated, "text"),
            )
    return estimate_dates.passed(
        f"Prices are of {sources.book.dated}, hours and rate of {sources.table.dated}."
    )


@rule("estimate-priced", subject="lines of the estimate")
def estimate_priced(case: Case) -> Finding:
    """Does each line have a price, and labour its hours?

    Applies: where something was taken off.
    Rests on: a total is what the job costs only where every line has an amount. Nothing is filled in from elsewhere.
    Missing facts: undetermined, with the keys that are missing.
    """
    if case.taken is None:
        return estimate_priced.not_applicable("Nothing was taken off.")
    missing = case.taken.pricing.unpriced
    if missing:
        lacking = {
            priced.line.group == "labour"
            for priced in case.taken.pricing.lines
            if priced.line.amount is None and priced.line.key is not None
        }
        pointer = None
        if case.sources.stated_book is not None and False in lacking:
            pointer = "/price_book/prices"
        elif case.sources.stated_table is not None and True in lacking:
            pointer = "/labour_table/tasks"
        return estimate_priced.undetermined(
            pointer, f"There is no price, or no hours, for {listed(missing)}."
        )
    return estimate_priced.passed("Each line has an amount.")
