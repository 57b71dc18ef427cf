"""The README's request, answer and SDK example are what the service really does."""

import io
import json
import re
from contextlib import redirect_stdout
from pathlib import Path
from typing import Any

import pytest

from branchwright.checks.circuits import CircuitDesignRequest, design

README = (Path(__file__).parents[1] / "README.md").read_text("utf-8")


def example(name: str) -> str:
    found = re.search(rf"<!-- example: {name} -->\n```\w+\n(.*?)\n```", README, re.DOTALL)
    assert found is not None, name
    return found.group(1)


def assert_within(shown: Any, real: Any, at: str = "") -> None:
    """Everything that is shown is in the real answer; a list shows some of the real one's entries."""
    if isinstance(shown, dict):
        for key, value in shown.items():
            assert key in real, f"{at}/{key}"
            assert_within(value, real[key], f"{at}/{key}")
    elif isinstance(shown, list):
        for entry in shown:
            name = next((key for key in ("rule", "id", "wiring_method") if key in entry), None)
            assert name is not None, at
            matching = [item for item in real if item[name] == entry[name]]
            assert len(matching) == 1, f"{at}: {entry[name]}"
            assert_within(entry, matching[0], f"{at}/{entry[name]}")
    else:
        assert shown == real, at


def test_the_answer_shown_is_the_answer_given() -> None:
    request = CircuitDesignRequest.model_validate(json.loads(example("request")))
    answer = json.loads(design(request).model_dump_json(by_alias=True))
    assert_within(json.loads(example("answer")), answer)


@pytest.mark.usefixtures("service_on_port_8000")
def test_the_sdk_example_runs_as_shown(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "request.json").write_text(example("request"), "utf-8")
    monkeypatch.chdir(tmp_path)
    printed = io.StringIO()
    with redirect_stdout(printed):
        exec(compile(example("sdk"), "README.md", "exec"), {"__name__": "readme"})  # noqa: S102
    assert printed.getvalue().split("\n")[:2] == ["no-failure-found 60.0 6 AWG", "no-failure-found"]


def test_the_capacity_example_prints_what_is_shown_below_it() -> None:
    printed = io.StringIO()
    with redirect_stdout(printed):
        exec(compile(example("capacity"), "README.md", "exec"), {"__name__": "readme"})  # noqa: S102
    shown = README.partition(example("capacity"))[2].partition("```text\n")[2].partition("```")[0]
    assert printed.getvalue() == shown
    assert shown.startswith("fail")


@pytest.fixture
def service_on_port_8000(monkeypatch: pytest.MonkeyPatch) -> None:
    """Answer the README's address in process: a test must not need a certain port to be free."""
    import asyncio

    import httpx

    from branchwright.http_api.app import create_app
    from branchwright.http_api.settings import Settings

    inner = httpx.ASGITransport(create_app(Settings(log_level="critical")))

    class InProcess(httpx.BaseTransport):
        def handle_request(self, request: httpx.Request) -> httpx.Response:
            async def ask() -> httpx.Response:
                answer = await inner.handle_async_request(request)
                return httpx.Response(
                    answer.status_code, headers=answer.headers, content=await answer.aread()
                )

            return asyncio.run(ask())

    real = httpx.Client
    monkeypatch.setattr(httpx, "Client", lambda **options: real(transport=InProcess(), **options))
