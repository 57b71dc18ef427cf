"""The commands: serve, demo, check, readings, keys and openapi.

What prints answers is imported by the commands that do: a service starts without it.
"""

from pathlib import Path

import click

from branchwright import __version__
from branchwright.cli.instructions import instructed
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
    from rich.console import Console

    from branchwright.cli.demonstration import DemoFailed, demonstrate

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
    from branchwright.cli.answering import check_file

    check_file(file, as_json=as_json)


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
    from branchwright.cli.answering import report_on

    report_on(file, options, write_csv, write_green_button, as_json=as_json)


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
