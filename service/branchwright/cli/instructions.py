"""The options of the command that reads meter readings: those of the query of the same question."""

from collections.abc import Callable
from typing import Any, TypeVar

import click

from branchwright.checks.service_capacity.interval_data import Instructions

Command = TypeVar("Command", bound=Callable[..., Any])


def instructed(command: Command) -> Command:
    """Give a command an option for each field of the query that goes with a body of readings."""
    for name, field in reversed(Instructions.model_fields.items()):
        click.option(f"--{name.replace('_', '-')}", name, metavar="TEXT", help=field.description)(command)
    return command
