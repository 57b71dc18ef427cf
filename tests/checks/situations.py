"""The requests of the situations, with their answers: cases that an electrician can read, each asked once."""

import tomllib
from functools import cache
from pathlib import Path

from tests.checks.circuits import Json, designed, reviewed

FOLDER = Path(__file__).parents[1] / "situations"


@cache
def requests() -> dict[str, tuple[str, Json]]:
    """Kind and request of each design and review, by file and edition."""
    found: dict[str, tuple[str, Json]] = {}
    for path in sorted(FOLDER.glob("*.toml")):
        situation = tomllib.loads(path.read_text(encoding="utf-8"))
        if situation["kind"] not in ("design", "review"):
            continue
        request = situation["request"]
        for edition in situation.get("editions", [request.get("edition")]):
            found[f"{path.stem} {edition}"] = (situation["kind"], {"edition": edition, **request})
    return found


@cache
def answers() -> dict[str, tuple[str, Json, Json]]:
    """Kind, request and answer of each, and those of the review of each design."""
    found: dict[str, tuple[str, Json, Json]] = {}
    for name, (kind, request) in requests().items():
        answer = {"design": designed, "review": reviewed}[kind](request)
        found[name] = kind, request, answer
        if kind == "design" and answer["review_request"] is not None:
            asked = answer["review_request"]
            found[f"{name} reviewed"] = "review", asked, reviewed(asked)
    return found
