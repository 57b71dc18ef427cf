"""The forms of the keys of price books and labour tables, from the module that makes the keys."""

import re
from collections.abc import Container

from branchwright.jobs.installation.demo import demo_labour_table, demo_price_book
from branchwright.jobs.installation.price_keys import PRICE_FORMS, TASK_FORMS, KeyForm
from page_parts.markdown import code, table, words

COUNTED_IN = {"count": "each", "length": "a length", "road": "a way"}


def prices() -> str:
    """Return every form of key of a price book with what it prices and an example of the demo book."""
    return _table(PRICE_FORMS, demo_price_book().prices)


def tasks() -> str:
    """Return every form of key of a labour table's tasks."""
    return _table(TASK_FORMS, demo_labour_table().tasks)


def _table(forms: tuple[KeyForm, ...], known: Container[str]) -> str:
    return table(
        ("key", "is", "for", "such as"),
        [
            (code(_written(form)), words(form.meaning), COUNTED_IN[form.measure], _example(form, known))
            for form in forms
        ],
    )


def _written(form: KeyForm) -> str:
    """Return a form with its parts named as in `<metal>`."""
    return re.sub(r"\{(\w+)\}", lambda part: f"<{part[1].replace('_', ' ')}>", form.form)


def _example(form: KeyForm, known: Container[str]) -> str:
    """Return the first key of a form that the demo has; every key where the form is nothing but one part."""
    if form.form.startswith("{") and len(form.parts) == 1:
        return ", ".join(map(code, form.keys))
    return code(next((key for key in form.keys if key in known), ""))
