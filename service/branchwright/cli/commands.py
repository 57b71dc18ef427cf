"""The commands: serve, demo, check, readings, keys and openapi."""

import os
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any, NoReturn

import click
from pydantic import BaseModel
from rich.console import Console

from branchwright import __version__
from branchwright.cli.checking import NotAnswered, answer_file, exit_code_of
from branchwright.cli.demonstration import DemoFailed, demonstrate
from branchwright.cli.reading import instructed, read_file, write_series
from branchwright.cli.service_tables import show_interval_data
from branchwright.http_api.openapi import render
from branchwright.http_api.security import create_key
from branchwright.http_api.serve import NoFolderError, UnsafeAddressError
from branchwright.http_api.serve import serve as run_service
from branchwright.http_api.settings import SettingsError, load


@click.group()
@click.version_option(__version__, prog_name="branchwright")
def main() -> None:
    """Check the branch circuits of EV chargers and their service: over HTTP, or one file at a time."""


@main.command()
@click.option("--host", help="Address to listen on; loopback where not given.")
@click.option("--port", type=click.IntRange(0, 65535), help="Port to listen on; 0 takes a free one.")
@click.option("--workers", type=click.IntRange(1, 256), help="Worker processes.")
@click.option("--allow-anonymous", is_flag=True, help="Answer without keys on any address.")
def serve(host: str | None, port: int | None, workers: int | None, *, allow_anonymous: bool) -> None:
    """Serve over HTTP until told to stop.

    What is not given here is read from the environment, BRANCHWRIGHT_HOST and so on.
    """
    chosen = {"host": host, "port": port, "workers": workers, "allow_anonymous": allow_anonymous or None}
    try:
        run_service(load(**{name: value for name, value in chosen.items() if value is not None}))
    except (SettingsError, UnsafeAddressError, NoFolderError) as error:
        raise click.ClickException(str(error)) from error


@main.command()
def demo() -> None:
    """Show the main job on loopback: a design, a review with its remedy, the settings, and the service."""
    try:
        demonstrate(Console())
    except DemoFailed as error:
        raise click.ClickException(str(error)) from error


@main.command()
@click.argument("file", type=click.Path(path_type=Path, allow_dash=True))
@click.option("--json", "as_json", is_flag=True, help="Print the answer as JSON.")
def check(file: Path, *, as_json: bool) -> None:
    """Answer one request FILE without a server; - reads standard input.

    What is asked is told by a field of the request: `installed` asks for the review of a circuit, `currents_a` or
    `night_h` for a comparison, `existing_load` for the review of a service, `dwelling` for a load calculation,
    `house_load` for a study of managed charging, `series` for a report on readings; anything else for the design of a
    circuit.

    Exit status: 0 where no failure was found, 1 for a failure, 3 where a fact is missing, 2 where the file could not be
    answered; of a comparison that of its best row.
    """
    try:
        question, answer = answer_file(file)
    except NotAnswered as error:
        _fail(error)
    _print_answer(answer, question.show, as_json=as_json)


@main.command(context_settings={"max_content_width": 120})
@click.argument("file", type=click.Path(path_type=Path, allow_dash=True))
@instructed
@click.option("--json", "as_json", is_flag=True, help="Print the answer as JSON.")
@click.option(
    "--write-csv", type=click.Path(path_type=Path), help="Write the normalised series here, as CSV."
)
@click.option(
    "--write-green-button",
    type=click.Path(path_type=Path),
    help="Write the normalised series here, as Green Button XML.",
)
def readings(
    file: Path,
    *,
    as_json: bool,
    write_csv: Path | None,
    write_green_button: Path | None,
    **options: str | None,
) -> None:
    """Report on a FILE of meter readings without a server: how good they are, and the demand that they show.

    The file is Green Button XML, JSON or CSV, which its first mark tells; - reads standard input. The options say what
    the file does not say itself. Exit status as of `check`.
    """
    try:
        answer = read_file(file, options)
        write_series(answer, write_csv, write_green_button)
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


@main.group()
def keys() -> None:
    """API keys."""


@keys.command("create")
def create() -> None:
    """Print a new key once, with the hash to configure; the key is kept nowhere."""
    key, digest = create_key()
    click.echo(f"key   {key}")
    click.echo(f"hash  {digest}")
    click.echo(
        "Give the key to the client. Set BRANCHWRIGHT_API_KEY_HASHES to the hash; two hashes may be active at "
        "once, separated by a comma, while a key is replaced.",
        err=True,
    )


@main.command()
@click.option(
    "--write", type=click.Path(dir_okay=False, path_type=Path), help="Write it here instead of printing it."
)
def openapi(write: Path | None) -> None:
    """Print the OpenAPI document of the service."""
    if write is None:
        click.echo(render(), nl=False)
    else:
        write.write_text(render(), encoding="utf-8")
