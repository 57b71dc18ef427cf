"""The points that are read two ways: a table of all, and each with its readings."""

from branchwright import codebook
from branchwright.codebook import Interpretation
from page_parts.markdown import blocks, code, link, table, words
from page_parts.questions import QUESTIONS, RULES

PAGE = "codebook/interpretations.md"


def anchor(name: str) -> str:
    """Return where an interpretation stands: page and anchor."""
    return f"{PAGE}#{name}"


def overview() -> str:
    """Return one line for each interpretation: question, readings, the editions and sections it concerns."""
    return table(
        ("interpretation", "question", "readings, the default first", "editions and sections"),
        [
            (
                link(item.name, anchor(item.name)),
                words(item.question),
                ", ".join(code(reading) for reading in _readings(item)),
                _sections(item),
            )
            for item in codebook.interpretations()
        ],
    )


def every_interpretation() -> str:
    """Return one section for each interpretation."""
    return blocks(*[_section(item) for item in codebook.interpretations()])


def _section(item: Interpretation) -> str:
    rules = [link(rule.name, f"rules/{rule.name}.md") for rule in RULES if item.name in rule.consults]
    return blocks(
        f"### {item.name} {{ #{item.name} }}",
        f"**{words(item.question)}**",
        f"Sections: {_sections(item)}.",
        table(
            ("reading", "meaning", "default"),
            [
                (code(name), words(item.readings[name]), "yes" if name == item.default else "")
                for name in _readings(item)
            ],
        ),
        words(item.notes or ""),
        f"May be consulted by {', '.join(rules)}." if rules else "",
        _before_rules(item.name),
    )


def _before_rules(name: str) -> str:
    """Return for which questions an interpretation decides on the facts, before any rule is asked."""
    titles = [
        link(question.title, f"rules/index.md#{question.name}")
        for question in QUESTIONS
        if name in question.facts_hang_on
    ]
    if not titles:
        return ""
    return f"Decides on the facts before the rules are asked, and so may turn any of them round: {', '.join(titles)}."


def _readings(item: Interpretation) -> list[str]:
    return sorted(item.readings, key=lambda name: name != item.default)


def _sections(item: Interpretation) -> str:
    return "; ".join(f"{words(section)} ({edition})" for edition, section in item.sections.items())
