"""The SDK under strict type checkers, generated code included: right calls pass, wrong ones are flagged."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

from .conftest import ROOT

USER_SCRIPT = Path(__file__).with_name("user_script.py")
CALL = """
from small_sdk import Client

def ask(client: Client) -> str:
    return client.circuits.design(
        edition="nec-2023",
        supply={"system": "wye-208y-120"},
        charger={"charging_current_a": 32, "connection": {"kind": "hardwired"}},
        run=[{"wiring_method": "emt", "length": {"value": 27, "unit": "ft"}}],
    ).verdict
"""


PRICE = """
from decimal import Decimal
from small_sdk import Client
from small_sdk.models import PriceTier

def ask(client: Client) -> Decimal:
    return client.costs.price(
        charge="9.50",
        tiers=[{"per_kwh": "0.31"}, PriceTier(per_kwh="0.27")],
    ).total
"""


def mypy(folder: Path, *targets: str) -> str:
    command = [sys.executable, "-m", "mypy", "--strict", "--python-version", "3.11", "--config-file="]
    command += ["--cache-dir", str(folder / "mypy-cache"), *targets]
    return subprocess.run(command, cwd=folder, capture_output=True, text=True, check=False).stdout


def basedpyright(folder: Path, *targets: Path) -> str:
    configuration = folder / "pyrightconfig.json"
    settings = {
        "typeCheckingMode": "strict",
        "pythonVersion": "3.11",
        "include": [str(target) for target in targets],
        "extraPaths": [str(targets[0]), str(folder)],
    }
    configuration.write_text(json.dumps(settings), "utf-8")
    command = [sys.executable, "-m", "basedpyright", "-p", str(configuration), "--pythonpath", sys.executable]
    return subprocess.run(command, capture_output=True, text=True, check=False).stdout


def test_the_package_and_a_user_pass_both_checkers(small_package: Path) -> None:
    folder = small_package.parent
    (folder / "user_script.py").write_bytes(USER_SCRIPT.read_bytes())
    assert "Success: no issues found" in mypy(folder, "small_sdk", "user_script.py")
    assert basedpyright(folder, small_package, folder / "user_script.py").startswith("0 errors, 0 warnings")


def test_the_generator_passes_both_checkers(tmp_path: Path) -> None:
    generator = ROOT / "sdk/generator"
    assert "Success: no issues found" in mypy(tmp_path, *map(str, sorted(generator.glob("*.py"))))
    assert basedpyright(tmp_path, generator).startswith("0 errors, 0 warnings")


def test_wrong_calls_are_flagged(small_package: Path) -> None:
    wrong = {
        "unknown_edition": CALL.replace('"nec-2023"', '"nec-1897"'),
        "unknown_argument": CALL.replace("edition=", 'colour="red", edition='),
        "missing_argument": CALL.replace('supply={"system": "wye-208y-120"},', ""),
        "misspelt_field": CALL.replace('"system"', '"sytem"'),
        "missing_field": CALL.replace(', "unit": "ft"', ""),
        "deep_unknown_value": CALL.replace('"ft"', '"furlong"'),
        "text_for_number": CALL.replace("32", '"32"'),
        "unknown_field_of_the_answer": CALL.replace(".verdict", ".verdikt"),
        "positional": CALL.replace('edition="nec-2023"', '"nec-2023"'),
        "unknown_variant": CALL.replace('"hardwired"', '"wireless"'),
        "none_for_omitted": CALL.replace("run=", "readings=None, run="),
    }
    wrong |= {
        "float_for_money": PRICE.replace('"9.50"', "9.50"),
        "float_for_money_in_a_mapping": PRICE.replace('"0.31"', "0.31"),
        "float_for_money_in_a_model": PRICE.replace('"0.27"', "0.27"),
        "money_of_an_answer_as_a_float": PRICE.replace(") -> Decimal:", ") -> float:"),
    }
    folder = small_package.parent
    names = [f"wrong_{name}.py" for name in wrong]
    for name, source in zip(names, wrong.values(), strict=True):
        assert source not in (CALL, PRICE)
        (folder / name).write_text(source, "utf-8")
    (folder / "right.py").write_text(CALL, "utf-8")
    (folder / "right_price.py").write_text(PRICE, "utf-8")
    output = mypy(folder, *names, "right.py", "right_price.py")
    flagged = {line.split(":")[0] for line in output.splitlines() if ": error: " in line}
    assert flagged == set(names), output


@pytest.mark.parametrize("name", ["py.typed", "models.py"])
def test_the_package_carries_its_types(small_package: Path, name: str) -> None:
    assert (small_package / name).exists()
