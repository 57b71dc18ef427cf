"""The demo price book and labour table: invented figures that show how an estimate is made."""

import tomllib
from functools import cache
from importlib import resources
from typing import Any

from branchwright.jobs.installation.price_facts import LabourTable, PriceBook


@cache
def demo_price_book() -> PriceBook:
    """Return the demo price book; its prices are invented."""
    return PriceBook.model_validate(_read("price-book.toml"))


@cache
def demo_labour_table() -> LabourTable:
    """Return the demo labour table; its rate is invented, its hours are rough (the file says which)."""
    return LabourTable.model_validate(_read("labour-table.toml"))


def _read(name: str) -> dict[str, Any]:
    file = resources.files("branchwright.jobs.installation").joinpath("data", name)
    return tomllib.loads(file.read_text("utf-8"))
