"""What the service knows of each code edition and where from, and the rules that it applies."""

from __future__ import annotations

import inspect
from collections.abc import Callable, Iterable, Mapping, Sequence
from functools import cache
from typing import Annotated, Protocol, TypeVar

from fastapi import APIRouter, Path, Query

from branchwright import codebook
from branchwright.checks.charging_cost import charging_comparison, tariffs
from branchwright.checks.circuits import rules as circuits
from branchwright.checks.service_capacity import (
    capacity_review,
    dwelling_load,
    interval_data,
    managed_charging,
)
from branchwright.codebook import (
    EditionBook,
    EditionRecord,
    Interpretation,
    Provision,
    ProvisionLacking,
    Table,
    UnknownEntry,
    loader,
)
from branchwright.codebook.differences import Difference, differences
from branchwright.codebook.editions import edition_book
from branchwright.codebook.tables import public_name
from branchwright.findings import Citation
from branchwright.findings.finding import Force
from branchwright.http_api.contract import keyed_client_method, reference_responses
from branchwright.http_api.problems import LONGEST_INPUT, NOT_FOUND, InvalidField, ProblemError
from branchwright.http_api.routes import ReferenceRoute
from branchwright.http_api.suggestions import nearest_value
from branchwright.http_api.v1.codebook_answers import (
    DifferencesPage,
    EditionAnswer,
    EditionComparison,
    EditionPage,
    InterpretationAnswer,
    Page,
    ProvisionAnswer,
    RuleAnswer,
    RulePage,
    RuleSection,
    RuleSummary,
    TableAnswer,
    TableSummary,
)
from branchwright.jobs import installation

router = APIRouter(tags=["codebook"], route_class=ReferenceRoute)


class ListedRule(Protocol):
    """What is shown of a rule, whatever it judges."""

    name: str
    subject: str
    concept: str
    force: Force
    prose: str
    consults: frozenset[str]

    def cited(self, edition: EditionBook) -> Citation:
        """The citation of the provision or table that the rule rests on; its concept is empty where there is none."""
        ...


@cache
def _rules() -> Mapping[str, tuple[str, ListedRule]]:
    """Each rule by its name, with the check that applies it; found when the first is asked for."""
    checks: Mapping[str, Sequence[ListedRule]] = {
        "circuits": circuits.RULES,
        "dwelling-load": dwelling_load.RULES,
        "interval-data": interval_data.RULES,
        "capacity-review": capacity_review.RULES,
        "managed-charging": managed_charging.RULES,
        "tariffs": tariffs.RULES,
        "charging-comparison": charging_comparison.RULES,
        "installation": installation.RULES,
    }
    return {rule.name: (check, rule) for check, rules in checks.items() for rule in rules}


Entry = TypeVar("Entry")


@router.get(
    "/v1/editions",
    operation_id="list_editions",
    summary="Which code editions does the service know?",
    response_description="A page of editions, ordered by name.",
    responses=reference_responses(422),
    openapi_extra=keyed_client_method("codebook", "list_editions"),
)
async def list_editions(page: Annotated[Page, Query()]) -> EditionPage:
    """Lists the editions that a request can name."""
    items, next_after = _paged(codebook.editions(), page, lambda record: record.name)
    return EditionPage(items=items, next_after=next_after)


@router.get(
    "/v1/editions/{edition}",
    operation_id="get_edition",
    summary="What does the service know of an edition, and where from?",
    response_description="The edition with its tables, provisions and interpretations.",
    responses=reference_responses(404),
    openapi_extra=keyed_client_method("codebook", "get_edition"),
)
async def get_edition(
    edition: Annotated[str, Path(description="Name of the edition.", examples=["nec-2023"])],
) -> EditionAnswer:
    """Names every table and provision of an edition with its section, its source and its confidence."""
    record = _edition(edition)
    return EditionAnswer(
        edition=record,
        tables=[_table_summary(table) for table in loader.tables(record.name).values()],
        provisions=[_provision(provision) for provision in loader.provisions(record.name).values()],
        interpretations=[_interpretation(point, record.name) for point in codebook.interpretations()],
    )


@router.get(
    "/v1/editions/{edition}/tables/{table}",
    operation_id="get_edition_table",
    summary="What does this table say, and where from?",
    response_description="The table with its columns, units, rows and source.",
    responses=reference_responses(404),
    openapi_extra=keyed_client_method("codebook", "get_table"),
)
async def get_edition_table(
    edition: Annotated[str, Path(description="Name of the edition.", examples=["nec-2023"])],
    table: Annotated[
        str, Path(description="Name of the table, as the edition lists it.", examples=["ampacity"])
    ],
) -> TableAnswer:
    """Shows a table as it can be compared with the printed one."""
    record = _edition(edition)
    tables = {public_name(name): found for name, found in loader.tables(record.name).items()}
    found = tables.get(table)
    if found is None:
        raise _unknown("table", table, tables)
    return TableAnswer(
        edition=record.name,
        name=table,
        title=found.title,
        lookup=found.lookup,
        row_keys=list(found.row_keys),
        columns=list(found.columns),
        rows=[dict(row) for row in found.rows],
        evidence=found.evidence,
    )


@router.get(
    "/v1/editions/{edition}/differences/{other}",
    operation_id="compare_editions",
    summary="What differs between two editions?",
    response_description="A page of tables, provisions and interpretations, ordered by kind and name.",
    responses=reference_responses(404, 422),
    openapi_extra=keyed_client_method("codebook", "compare_editions"),
)
async def compare_editions(
    edition: Annotated[str, Path(description="Name of this edition.", examples=["nec-2020"])],
    other: Annotated[str, Path(description="Name of the other edition.", examples=["nec-2023"])],
    page: Annotated[DifferencesPage, Query()],
) -> EditionComparison:
    """Compares two editions cell by cell: what the other one adds, removes, changes and renumbers.

    Only what the editions say is compared. An edition and itself differ in nothing.
    """
    this, that = _editions(edition=edition, other=other)
    items, next_after = _paged(differences(this.name, that.name), page, _kind_and_name)
    return EditionComparison(edition=this.name, other=that.name, items=items, next_after=next_after)


@router.get(
    "/v1/rules",
    operation_id="list_rules",
    summary="Which rules does the service apply?",
    response_description="A page of rules, ordered by name.",
    responses=reference_responses(422),
    openapi_extra=keyed_client_method("codebook", "list_rules"),
)
async def list_rules(page: Annotated[Page, Query()]) -> RulePage:
    """Lists the rules with the question that each one asks."""
    summaries = (_rule_summary(check, rule) for check, rule in _rules().values())
    items, next_after = _paged(summaries, page, lambda rule: rule.name)
    return RulePage(items=items, next_after=next_after)


@router.get(
    "/v1/rules/{rule}",
    operation_id="get_rule",
    summary="What does this rule ask, and what does it rest on?",
    response_description="The rule in prose, with its sections.",
    responses=reference_responses(404),
    openapi_extra=keyed_client_method("codebook", "get_rule"),
)
async def get_rule(
    rule: Annotated[str, Path(description="Name of the rule.", examples=["raceway-fill"])],
) -> RuleAnswer:
    """Explains a rule: when it applies, what it rests on and what it does where a fact is missing."""
    if rule not in _rules():
        raise _unknown("rule", rule, _rules())
    check, found = _rules()[rule]
    summary = _rule_summary(check, found)
    return RuleAnswer(
        name=summary.name,
        check=summary.check,
        subject=summary.subject,
        force=summary.force,
        question=summary.question,
        prose=inspect.cleandoc(found.prose).partition("\n")[2].strip(),
        sections=[
            RuleSection(edition=record.name, section=_section(found, record))
            for record in codebook.editions()
        ],
        interpretations=sorted(found.consults),
    )


def _paged(
    entries: Iterable[Entry], page: Page, name: Callable[[Entry], str]
) -> tuple[list[Entry], str | None]:
    """The entries of a page, and the name to go on after where there are more."""
    wanted = sorted((entry for entry in entries if page.after is None or name(entry) > page.after), key=name)
    shown = wanted[: page.limit]
    return shown, name(shown[-1]) if len(wanted) > len(shown) else None


def _kind_and_name(difference: Difference) -> str:
    """What tells a difference from all others: a table and a provision may have one name."""
    return f"{difference.kind}/{difference.name}"


def _edition(name: str) -> EditionRecord:
    (record,) = _editions(edition=name)
    return record


def _editions(**named: str) -> list[EditionRecord]:
    """The editions that the parameters of a path name; a problem (404) that says which there are not."""
    found: list[EditionRecord] = []
    unknown: list[InvalidField] = []
    for parameter, name in named.items():
        try:
            found.append(codebook.edition(name))
        except UnknownEntry as lacking:
            unknown.append(_unknown_field(parameter, "edition", name, lacking.known))
    if unknown:
        raise ProblemError(NOT_FOUND, unknown[0].message, errors=unknown)
    return found


def _unknown(kind: str, given: str, known: Iterable[str]) -> ProblemError:
    """The problem (404) that names what there is, and what was probably meant."""
    field = _unknown_field(kind, kind, given, known)
    return ProblemError(NOT_FOUND, field.message, errors=[field])


def _unknown_field(parameter: str, kind: str, given: str, known: Iterable[str]) -> InvalidField:
    names = list(known)
    near = nearest_value(given, names)
    suggestion = f"; did you mean '{near}'?" if near else "."
    return InvalidField(
        pointer=f"path:{parameter}",
        message=f"There is no {kind} of this name{suggestion}",
        code="not-an-allowed-value",
        given=given[:LONGEST_INPUT],
        allowed=names,
    )


def _table_summary(table: Table) -> TableSummary:
    return TableSummary(
        name=public_name(table.name), title=table.title, row_count=len(table.rows), evidence=table.evidence
    )


def _provision(provision: Provision) -> ProvisionAnswer:
    return ProvisionAnswer(
        concept=provision.concept,
        title=provision.title,
        columns=list(provision.columns),
        values={name: sourced.value for name, sourced in provision.values.items()},
        evidence=provision.evidence,
    )


def _interpretation(point: Interpretation, edition: str) -> InterpretationAnswer:
    return InterpretationAnswer(
        name=point.name,
        question=point.question,
        default=point.default,
        readings=dict(point.readings),
        section=point.sections.get(edition),
        notes=point.notes,
    )


def _rule_summary(check: str, rule: ListedRule) -> RuleSummary:
    return RuleSummary(
        name=rule.name,
        check=check,
        subject=rule.subject,
        force=rule.force,
        question=inspect.cleandoc(rule.prose).partition("\n")[0],
    )


def _section(rule: ListedRule, record: EditionRecord) -> str | None:
    if not rule.concept:
        return None
    try:
        return rule.cited(edition_book(record.name)).section
    except ProvisionLacking:
        return None
