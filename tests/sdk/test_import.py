"""Importing the SDK stays cheap: models and pydantic wait for the first question."""

import subprocess
import sys
from pathlib import Path

QUESTION = """
client = small_sdk.Client("http://127.0.0.1:9", max_retries=0, timeout=0.001)
try:
    client.operations.check_live()
except small_sdk.BranchwrightError:
    pass
client.close()
"""


def loaded_after(package: Path, source: str) -> set[str]:
    command = [sys.executable, "-c", f"import sys\nimport small_sdk\n{source}\nprint(*sys.modules)"]
    ran = subprocess.run(command, cwd=package.parent, capture_output=True, text=True, check=True)
    return set(ran.stdout.split())


def test_the_import_loads_neither_models_nor_pydantic(small_package: Path) -> None:
    loaded = loaded_after(small_package, "")
    assert "small_sdk.client" in loaded
    assert not {"small_sdk.models", "small_sdk.mappings", "pydantic", "pydantic_core"} & loaded


def test_models_come_with_the_first_question_or_by_name(small_package: Path) -> None:
    assert "small_sdk.models" in loaded_after(small_package, QUESTION)
    assert "small_sdk.models" in loaded_after(small_package, "small_sdk.models.Supply")
    assert "small_sdk.mappings" not in loaded_after(small_package, QUESTION)
    assert "small_sdk.mappings" in loaded_after(small_package, "small_sdk.mappings.Supply")


def test_other_names_are_missing_as_usual(small_package: Path) -> None:
    source = "try:\n    small_sdk.nothing\nexcept AttributeError as error:\n    print(error)"
    assert {"'small_sdk'", "'nothing'"} <= loaded_after(small_package, source)
