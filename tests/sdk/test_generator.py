"""The generator: the same document gives the same bytes, drift is found, what cannot be said is refused."""

import copy
import inspect
import json
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

from .conftest import GENERATED, ROOT, SMALL_CONTRACT, generate

DOCUMENT: dict[str, Any] = json.loads(SMALL_CONTRACT.read_text("utf-8"))
DESIGN_PATH = "/v1/circuit-designs"


def sources(package: Path) -> dict[str, str]:
    return {name: (package / name).read_text("utf-8") for name in GENERATED}


def test_the_same_document_gives_the_same_bytes(small_package: Path, tmp_path: Path) -> None:
    assert generate(SMALL_CONTRACT, tmp_path).returncode == 0
    assert sources(tmp_path) == sources(small_package)


def test_it_runs_from_any_folder(small_package: Path, tmp_path: Path) -> None:
    # a pyproject.toml that would change the style of ruff and of the models, were it read
    (tmp_path / "pyproject.toml").write_text(
        "[tool.ruff]\nline-length = 60\n[tool.datamodel-codegen]\nreuse-model = true\n"
    )
    command = [
        sys.executable,
        str(ROOT / "sdk/generator"),
        "--document",
        str(SMALL_CONTRACT),
        "--package",
        str(tmp_path),
    ]
    subprocess.run(command, cwd=tmp_path, check=True, capture_output=True)
    assert sources(tmp_path) == sources(small_package)


def test_check_finds_drift_and_writes_nothing(small_package: Path, tmp_path: Path) -> None:
    ran = generate(SMALL_CONTRACT, tmp_path, "--check")
    assert ran.returncode == 1
    assert list(tmp_path.iterdir()) == []
    assert generate(SMALL_CONTRACT, tmp_path).returncode == 0
    assert generate(SMALL_CONTRACT, tmp_path, "--check").returncode == 0
    (tmp_path / "models.py").write_text("edited\n")
    ran = generate(SMALL_CONTRACT, tmp_path, "--check")
    assert ran.returncode == 1
    assert "models.py: differs from the document" in ran.stdout
    assert "resources.py" not in ran.stdout
    assert (tmp_path / "models.py").read_text() == "edited\n"


def test_generated_code_satisfies_ruff(small_package: Path) -> None:
    ran = subprocess.run(
        [
            sys.executable,
            "-m",
            "ruff",
            "check",
            "--no-cache",
            "--config",
            str(ROOT / "pyproject.toml"),
            str(small_package),
        ],
        capture_output=True,
        text=True,
        check=False,
    )
    assert ran.returncode == 0, ran.stdout


def test_no_name_on_both_sides_of_the_line(small_package: Path) -> None:
    for path in (ROOT / "sdk/branchwright_sdk").glob("*.py"):
        generated = path.name in GENERATED
        assert path.read_text("utf-8").startswith("# Generated from the OpenAPI document") is generated, path


def test_methods_are_documented_and_take_keywords_alone(sdk: ModuleType) -> None:
    for resources, circuits in [
        (sdk.resources.Resources, sdk.resources.Circuits),
        (sdk.resources.AsyncResources, sdk.resources.AsyncCircuits),
    ]:
        assert inspect.getdoc(resources)
        documentation = inspect.getdoc(circuits.design) or ""
        assert documentation.startswith("What circuit does this charger need?\n\nSizes breaker,")
        assert "C:\\wire" in documentation
        assert "jurisdiction: Echoed; its amendments are not applied." in documentation
        assert "supply: The premises' supply." in documentation
        parameters = list(inspect.signature(circuits.design).parameters.values())[1:]
        assert {parameter.kind for parameter in parameters} == {inspect.Parameter.KEYWORD_ONLY}
        assert [parameter.name for parameter in parameters if parameter.default is parameter.empty] == [
            "edition",
            "supply",
            "charger",
            "run",
        ]


def test_another_form_of_a_body_has_its_method_with_the_parameters_that_it_takes(sdk: ModuleType) -> None:
    for services in (sdk.resources.Services, sdk.resources.AsyncServices):
        taken = {
            name: list(inspect.signature(getattr(services, name)).parameters)[1:]
            for name in ("read", "read_csv", "read_xml")
        }
        assert taken == {
            "read": ["values", "edition", "series"],
            "read_csv": ["source", "unit", "edition", "first_row", "signed"],
            "read_xml": ["source", "edition"],
        }
        documentation = inspect.getdoc(services.read_csv) or ""
        assert "Asks what `read` asks, with a body of text/csv." in documentation
        assert "source: One reading a row. Bytes, or the path of a file that holds them." in documentation
        assert "unit: CSV: the unit of the values." in documentation


def change(at: str, value: Any) -> Callable[[dict[str, Any]], None]:
    """Return a change of the document at a JSON Pointer whose "/" in keys are written "~1"."""

    def apply(document: dict[str, Any]) -> None:
        *steps, last = [step.replace("~1", "/") for step in at.strip("/").split("/")]
        node: Any = document
        for step in steps:
            node = node[int(step)] if isinstance(node, list) else node[step]
        if value is None:
            del node[last]
        else:
            node[last] = value

    return apply


WHERE = f"POST {DESIGN_PATH}"
REF = "#/components/schemas"
POST = f"/paths/{DESIGN_PATH.replace('/', '~1')}/post"
READ = "/paths/~1v1~1readings/post"
FIELDS = "/components/schemas/CircuitDesignRequest/properties"


@pytest.mark.parametrize(
    ("changed", "message"),
    [
        (change("/openapi", "3.0.3"), "openapi is '3.0.3', and only 3.1 is understood"),
        (
            change(f"{POST}/x-client", None),
            f"{WHERE}: x-client.resource must be a Python name, not None",
        ),
        (
            change(f"{POST}/x-client/method", "import"),
            f"{WHERE}: x-client.method must be a Python name, not 'import'",
        ),
        (change(f"{POST}/x-client/method", "review"), "more than one operation is named circuits.review"),
        (change(f"{POST}/summary", None), f"{WHERE}: a summary is needed"),
        (
            change(f"{POST}/requestBody/content", {"text/csv": {}}),
            f"{WHERE}: the request body must be application/json alone",
        ),
        (
            change(f"{POST}/requestBody/content/application~1json/schema", {"type": "object"}),
            "a $ref to an object with properties",
        ),
        (
            change(f"{POST}/responses/200/content", {"image/svg+xml": {}}),
            f"{WHERE}: the answer must be application/json alone",
        ),
        (
            change(f"{POST}/responses/201", {"description": "Made"}),
            f"{WHERE}: one 2xx answer is needed, not 2",
        ),
        (
            change(f"{POST}/parameters", [{"in": "header", "name": "X-A", "schema": {"type": "string"}}]),
            "parameter 'X-A' is in 'header'",
        ),
        (
            change(f"{POST}/parameters", [{"in": "query", "name": "edition", "schema": {"type": "string"}}]),
            "more than one argument is named edition",
        ),
        (
            change(f"{POST}/parameters", [{"in": "path", "name": "id", "schema": {"type": "string"}}]),
            "the path names other parameters",
        ),
        (
            change(f"{READ}/x-client/bodies/text~1csv/method", "read"),
            "more than one operation is named services.read",
        ),
        (
            change(f"{READ}/x-client/bodies/text~1csv/method", "read-csv"),
            "POST /v1/readings: x-client.bodies.text/csv.method must be a Python name, not 'read-csv'",
        ),
        (
            change(f"{READ}/x-client/bodies/text~1csv/parameters", ["unit", "colour"]),
            "x-client.bodies.text/csv names unknown parameters: ['colour']",
        ),
        (
            change(f"{READ}/x-client/bodies/application~1xml", None),
            "x-client.bodies names ['text/csv'], the request body has",
        ),
        (
            change(f"{READ}/x-client/bodies", None),
            "POST /v1/readings: the request body must be application/json alone",
        ),
        (
            change(f"{READ}/requestBody/content/text~1csv/schema", {"type": "string"}),
            "the request body as text/csv must be a described string",
        ),
        (
            change(f"{READ}/requestBody/content/text~1csv/schema/type", "object"),
            "the request body as text/csv must be a described string",
        ),
        (
            change(f"{READ}/parameters/0/name", "source"),
            "'source' cannot be the name of a keyword argument",
        ),
        (
            change(f"{FIELDS}/not-a-name", {"type": "string"}),
            "'not-a-name' cannot be the name of a keyword argument",
        ),
        (change(f"{FIELDS}/self", {"type": "string"}), "'self' cannot be the name of a keyword argument"),
        (change(f"{FIELDS}/edition", {"not": {"type": "string"}}), "edition: no Python type for {'not'"),
        (change(f"{FIELDS}/edition", {"type": "object", "properties": {}}), "edition: no Python type for"),
        (
            change(f"{FIELDS}/edition", {"$ref": f"{REF}/Missing"}),
            f"{REF}/Missing is not the name of a class",
        ),
        (
            change(f"{FIELDS}/edition", {"$ref": "other.json#/Edition"}),
            "other.json#/Edition is not the name of a class",
        ),
        (
            change("/components/schemas/Finding/properties/outcome", {"$ref": f"{REF}/Edition"}),
            "schema Edition is both asked and answered",
        ),
        (
            change("/components/schemas/Finding/properties/outcome", {"$ref": f"{REF}/Supply"}),
            "schema Supply is both asked and answered",
        ),
    ],
)
def test_what_cannot_be_expressed_is_refused(
    changed: Callable[[dict[str, Any]], None], message: str, tmp_path: Path
) -> None:
    document = copy.deepcopy(DOCUMENT)
    changed(document)
    path = tmp_path / "document.json"
    path.write_text(json.dumps(document), "utf-8")
    package = tmp_path / "package"
    package.mkdir()
    ran = generate(path, package)
    assert ran.returncode == 2
    assert ran.stdout == ""
    assert ran.stderr.startswith(f"{path}: ")
    assert message in ran.stderr
    assert "Traceback" not in ran.stderr
    assert list(package.iterdir()) == []


@pytest.mark.parametrize("content", [None, "{", "\ufeff[]"])
def test_no_document_or_no_json_is_said_clearly(content: str | None, tmp_path: Path) -> None:
    path = tmp_path / "document.json"
    if content is not None:
        path.write_text(content, "utf-8")
    ran = generate(path, tmp_path)
    assert ran.returncode == 2
    assert ran.stderr.startswith(f"{path}: ")
    assert "Traceback" not in ran.stderr


def test_the_committed_sdk_is_that_of_the_committed_document() -> None:
    ran = generate(ROOT / "openapi/v1.json", ROOT / "sdk/branchwright_sdk", "--check")
    assert ran.returncode == 0, ran.stdout + ran.stderr
