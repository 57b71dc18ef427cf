"""Requests made up from the OpenAPI document, valid and not, against every operation.

Every check and every phase of schemathesis is on and no operation is left out. By default it lets a service
answer valid input with 401, 403, 404, 409, 429 or 5xx; here valid input must be accepted. Only where a path names
an edition, a table or a rule does any text fit the schema, and 404 is the answer to a name that there is not.
"""

from collections import Counter, defaultdict
from typing import Any

import schemathesis
from schemathesis import engine
from schemathesis.checks import CHECKS, load_all_checks
from schemathesis.config import SchemathesisConfig
from schemathesis.engine.events import FatalError, NonFatalError, ScenarioFinished, SchemaAnalysisWarnings
from schemathesis.engine.recorder import ScenarioRecorder
from tests.contract.client import KEY, KEY_HASH
from tests.contract.document import OPERATIONS
from tests.contract.forms import register

from branchwright.http_api.app import create_app
from branchwright.http_api.settings import Settings

NAMED_IN_THE_PATH = [operation.name for operation in OPERATIONS.values() if "{" in operation.path]
LABELS = {f"{operation.method.upper()} {operation.path}" for operation in OPERATIONS.values()}
CONFIGURATION: dict[str, Any] = {
    "seed": 1,
    # The service answers loopback names only as long as it has no key: sending one keeps both worlds the same.
    "base-url": "http://127.0.0.1:8000",
    "auth": {"openapi": {"bearer": {"bearer": KEY}}},
    "generation": {"mode": "all", "max-examples": 120, "deterministic": True, "database": "none"},
    "cache": {"enabled": False},
    "phases": {"enabled": True, "coverage": {"generate-duplicate-query-parameters": True}},
    "checks": {
        "enabled": True,
        "positive_data_acceptance": {"expected-statuses": ["2xx"]},
        # 401 is the answer where the header that was spoilt is the one with the key.
        "negative_data_rejection": {"expected-statuses": ["400", "401", "404", "405", "415", "422"]},
    },
    "operations": [
        {
            "include-operation-id": name,
            "checks": {"positive_data_acceptance": {"expected-statuses": ["2xx", "404"]}},
        }
        for name in NAMED_IN_THE_PATH
    ],
}


def failures(recorder: ScenarioRecorder) -> list[str]:
    """Each failed check of a scenario with the request that shows it."""
    return [
        f"{check.name}: {check.failure_info.failure}\n{check.failure_info.code_sample}"
        for checks in recorder.checks.values()
        for check in checks
        if check.failure_info is not None
    ]


def test_every_operation_keeps_to_its_description():
    register()
    schema = schemathesis.openapi.from_asgi(
        "/openapi.json",
        create_app(Settings(api_key_hashes=(KEY_HASH,))),
        config=SchemathesisConfig.from_dict(CONFIGURATION),
    )
    found: list[str] = []
    checked: set[str] = set()
    statuses: defaultdict[tuple[str, str | None], Counter[int]] = defaultdict(Counter)
    answered: Counter[tuple[str, str | None]] = Counter()
    for event in engine.from_schema(schema).execute():
        match event:
            case ScenarioFinished():
                found += failures(event.recorder)
                checked |= {check.name for checks in event.recorder.checks.values() for check in checks}
                for case_id, interaction in event.recorder.interactions.items():
                    assert interaction.response is not None, event.label
                    status = interaction.response.status_code
                    statuses[event.phase.value, event.label][status] += 1
                    case = event.recorder.cases[case_id].value
                    answered[case.operation.path, case.media_type] += status == 200
            case SchemaAnalysisWarnings():
                found += [str(warning) for warning in event.warnings]
            case NonFatalError():
                found.append(f"{event.label}: {event.value!r}")
            case FatalError():
                raise event.exception
    assert not found, "\n\n".join(found)

    # A run that tested nothing finds nothing. max_response_time needs a limit, which a busy machine would break.
    load_all_checks()
    assert checked == set(CHECKS.get_all_names()) - {"max_response_time"}
    assert {label for phase, label in statuses if phase == "coverage"} == LABELS
    assert {label for phase, label in statuses if phase == "fuzzing"} == LABELS
    assert {phase for phase, _ in statuses} == {"examples", "coverage", "fuzzing", "stateful"}
    for operation in OPERATIONS.values():
        seen = statuses["coverage", f"{operation.method.upper()} {operation.path}"]
        assert seen[200], operation.name
        assert seen[405], operation.name
        if operation.method == "post":
            assert seen[200] > 200, operation.name
            assert seen[422] > 300, operation.name
            for media_type in operation.media_types:
                assert answered[operation.path, media_type] > 10, (operation.name, media_type)
    assert sum(statuses["stateful", None].values()) > 100
