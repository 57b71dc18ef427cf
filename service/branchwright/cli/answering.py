"""Prints what a file is answered with, and ends with the exit status of the answer."""

import os
import sys
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any, NoReturn

import click
from pydantic import BaseModel
from rich.console import Console

from branchwright.cli.checking import NotAnswered, answer_file, exit_code_of
from branchwright.cli.reading import read_file, write_series
from branchwright.cli.service_tables import show_interval_data


def check_file(file: Path, *, as_json: bool) -> NoReturn:
    """Answer the request in a file."""
    try:
        question, answer = answer_file(file)
    except NotAnswered as error:
        _fail(error)
    _print_answer(answer, question.show, as_json=as_json)


def report_on(
    file: Path,
    options: Mapping[str, str | None],
    csv: Path | None,
    green_button: Path | None,
    *,
    as_json: bool,
) -> NoReturn:
    """Report on a file of readings, and write its series where that is wanted."""
    try:
        answer = read_file(file, options)
        write_series(answer, csv, green_button)
    except NotAnswered as error:
        _fail(error)
    _print_answer(answer, show_interval_data, as_json=as_json)


def _fail(error: NotAnswered) -> NoReturn:
    click.echo(f"Not answered: {error}", err=True)
    raise click.exceptions.Exit(2) from error


def _print_answer(
    answer: BaseModel, show: Callable[[Console, dict[str, Any]], None], *, as_json: bool
) -> NoReturn:
    """Print an answer as JSON or as tables, and end with its exit status."""
    if as_json:
        _print_whole(answer.model_dump_json(by_alias=True, indent=1))
    else:
        console = Console()
        with console.capture() as captured:
            show(console, answer.model_dump(mode="json", by_alias=True))
        _print_whole(captured.get().removesuffix("\n"))
    raise click.exceptions.Exit(exit_code_of(answer))


def _print_whole(text: str) -> None:
    """Print a text, also to a reader that stops reading: the exit status tells of the answer, not of the reader."""
    try:
        click.echo(text)
    except BrokenPipeError:
        # What is left in the buffer would fail once more at exit.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
