"""The rules, from the docstrings of their functions: an index, and one page a rule."""

import inspect
import re
import sys

from branchwright.codebook import ProvisionLacking
from branchwright.codebook.editions import edition_book
from page_parts import exercised, interpretations
from page_parts.entries import EDITIONS, provisions, tables
from page_parts.markdown import blocks, bullets, link, long_code, table, words
from page_parts.questions import QUESTIONS, RULES, Question, Rule, question_of

LABELS = ("Applies", "Rests on", "Missing facts")


def index() -> str:
    """Return every rule by its question and by what it is about, in the order in which they are asked."""
    return blocks(*[_of_question(question) for question in QUESTIONS])


def _of_question(question: Question) -> str:
    groups: dict[str, list[Rule]] = {}
    for rule in question.rules:
        groups.setdefault(_about(rule), []).append(rule)
    return blocks(
        f"## {words(question.title)} {{ #{question.name} }}",
        f"Asked by {_guides(question)}.",
        *[
            blocks(
                f"### {words(about)}",
                table(
                    ("rule", "question", "force"),
                    [(link(rule.name, page(rule)), words(_question(rule)), rule.force) for rule in rules],
                ),
            )
            for about, rules in groups.items()
        ],
    )


def _guides(question: Question) -> str:
    return " and ".join(link(guide.replace("-", " "), f"guides/{guide}.md") for guide in question.guides)


def pages_of(name: str) -> list[str]:
    """Return the paths of the pages of a question's rules, in the order in which they are asked."""
    (rules,) = [question.rules for question in QUESTIONS if question.name == name]
    return [page(rule) for rule in rules]


def pages() -> dict[str, str]:
    """Return the page of each rule by its path."""
    return {page(rule): _page(rule) for rule in RULES}


def page(rule: Rule) -> str:
    """Return the path of a rule's page."""
    return f"rules/{rule.name}.md"


def _page(rule: Rule) -> str:
    parts = _parts(rule)
    consults = [link(name, interpretations.anchor(name)) for name in sorted(rule.consults)]
    question = question_of(rule)
    hang_on = [link(name, interpretations.anchor(name)) for name in question.facts_hang_on]
    return blocks(
        f"# {rule.name}",
        f"**{words(_question(rule))}**",
        f"Asked by {_guides(question)}. Subject: {words(rule.subject)}. Force: {rule.force}."
        + (
            " Asked in reviews only: a design has nothing to hold it against."
            if _only_in_reviews(rule)
            else ""
        ),
        *[blocks(f"## {label}", _sentence(text)) for label, text in parts.items()],
        "## Sections",
        _sections(rule),
        "## Interpretations",
        f"May consult {', '.join(consults)}." if consults else "It consults none itself.",
        f"The facts that the rules of this question judge may hang on {', '.join(hang_on)}."
        if hang_on
        else "",
        "## What exercises it",
        _exercised(rule),
    )


def _only_in_reviews(rule: Rule) -> bool:
    """Return whether a design leaves a rule out; only rules of circuits may say so."""
    return bool(getattr(rule, "review_only", False))


def _about(rule: Rule) -> str:
    """Return what the rules of a module are about: the first line of its docstring."""
    module = sys.modules[rule.function.__module__]
    return inspect.cleandoc(module.__doc__ or "").partition("\n")[0].rstrip(".")


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


def _sentence(text: str) -> str:
    return words(text[0].upper() + text[1:])


def _sections(rule: Rule) -> str:
    entry = tables().get(rule.concept) or provisions().get(rule.concept)
    if entry is None:
        return "It rests on no section of the code, and cites none."
    return blocks(
        f"From {link(entry.name, entry.page)} in the codebook. A finding cites what is closest to it, which may be "
        "another section.",
        table(
            ("edition", "section", "confidence"),
            [
                (
                    edition,
                    words(_section(rule, edition)),
                    entry.evidence[edition].confidence if edition in entry.records else "",
                )
                for edition in EDITIONS
            ],
        ),
    )


def _section(rule: Rule, edition: str) -> str:
    try:
        return rule.cited(edition_book(edition)).section
    except ProvisionLacking:
        return "no such provision: undetermined"


def _exercised(rule: Rule) -> str:
    situations = exercised.situations().get(rule.name, [])
    tests = exercised.tests().get(rule.name, [])
    return blocks(
        "### Situations",
        table(
            ("situation", "expected", "source"),
            [(words(item.title), item.expected, words(item.source)) for item in situations],
        )
        if situations
        else "None expects a finding of this rule by name.",
        "### Tests that name it" if tests else "",
        bullets(
            f"{long_code(file)}: {words(name.removeprefix('test_').replace('_', ' '))}"
            for file, _, name in (test.partition(": ") for test in tests)
        ),
    )
