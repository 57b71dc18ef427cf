"""The rules, from the docstrings of their functions."""

import inspect
import re

from branchwright import codebook
from branchwright.checks.circuits.rules import RULES, Rule
from branchwright.codebook import EditionRecord, ProvisionLacking
from branchwright.codebook.editions import edition_book
from page_parts.markdown import blocks, code, table, words

LABELS = ("Applies", "Rests on", "Missing facts")


def every_rule() -> str:
    """Return one section a rule, in the order in which the rules are asked."""
    return blocks(_contents(), *[_rule(rule) for rule in RULES])


def _contents() -> str:
    rows = [(f"[{code(rule.name)}](#{rule.name})", words(_question(rule)), rule.force) for rule in RULES]
    return table(("rule", "question", "force"), rows)


def _rule(rule: Rule) -> str:
    sections = "; ".join(f"{words(_section(rule, record))} ({record.name})" for record in codebook.editions())
    consults = ", ".join(f"[{name}](codebook.md#interpretation-{name})" for name in sorted(rule.consults))
    facts = [
        f"- Subject: {words(rule.subject)}. Force: {rule.force}.",
        f"- Section: {sections}.",
        f"- May consult: {consults}." if consults else "",
        "- Asked in reviews only: a design has nothing to hold it against." if rule.review_only else "",
    ]
    return blocks(
        f"## {rule.name} {{ #{rule.name} }}",
        f"**{words(_question(rule))}**",
        "\n".join(fact for fact in facts if fact),
        *[f"*{label}:* {words(text)}" for label, text in _parts(rule).items()],
    )


def _question(rule: Rule) -> str:
    return inspect.cleandoc(rule.prose).partition("\n")[0]


def _parts(rule: Rule) -> dict[str, str]:
    """Return what the docstring says under each label; ValueError where one is missing or there is another."""
    prose = inspect.cleandoc(rule.prose).partition("\n")[2].strip()
    split = re.split(r"^([A-Z][a-z ]+): ", prose, flags=re.MULTILINE)
    found = dict(zip(split[1::2], split[2::2], strict=True))
    if split[0] or tuple(found) != LABELS:
        raise ValueError(f"The docstring of rule {rule.name} must have the parts {', '.join(LABELS)}.")
    return found


def _section(rule: Rule, record: EditionRecord) -> str:
    try:
        return rule.cited(edition_book(record.name)).section
    except ProvisionLacking:
        return "no such provision"
