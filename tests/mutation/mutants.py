"""Mutants of a source file: small changes of its text, each of which a test ought to notice.

Left alone are, and counted by kind: docstrings; f-strings; string literals that are prose (two words or more beside
each other, not beginning with a digit, so that "6 AWG" and "ambient_c + adder_c" are none); strings that are raised;
type expressions, save for the arguments of calls in them (the bounds of a field are no prose); and whether a
dataclass has slots, which no caller can see.
"""

import ast
import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from difflib import unified_diff
from itertools import pairwise

PROSE = re.compile(r"(?!\d).*[^\W\d_]{2,}[,;:.']? [^\W\d_]{2,}", re.DOTALL)
COMPARISONS: dict[type[ast.cmpop], tuple[str, tuple[str, ...]]] = {
    ast.Lt: ("<", ("<=", ">=")),
    ast.LtE: ("<=", ("<", ">")),
    ast.Gt: (">", (">=", "<=")),
    ast.GtE: (">=", (">", "<")),
    ast.Eq: ("==", ("!=",)),
    ast.NotEq: ("!=", ("==",)),
    ast.Is: ("is", ("is not",)),
    ast.IsNot: (r"is\s+not", ("is",)),
    ast.In: ("in", ("not in",)),
    ast.NotIn: (r"not\s+in", ("in",)),
}
ARITHMETIC: dict[type[ast.operator], tuple[str, str]] = {
    ast.Add: ("+", "-"),
    ast.Sub: ("-", "+"),
    ast.Mult: ("*", "/"),
    ast.Div: ("/", "*"),
    ast.FloorDiv: ("//", "/"),
    ast.Mod: ("%", "*"),
    ast.Pow: ("**", "*"),
    ast.BitOr: ("|", "&"),
    ast.BitAnd: ("&", "|"),
}
EXCHANGED = {"min": "max", "max": "min", "any": "all", "all": "any", "floor": "ceil", "ceil": "floor"}
DROPPED = ("round", "float", "int", "abs", "sorted")
"""Functions of which a call is also replaced by its first argument."""


@dataclass(frozen=True)
class Mutant:
    """A change of the bytes from `start` to `end` of one file, in the statement of `first_line` to `last_line`."""

    path: str
    line: int
    first_line: int
    last_line: int
    within: str
    operator: str
    start: int
    end: int
    replacement: bytes

    def applied(self, source: bytes) -> bytes:
        """The source with the change."""
        return source[: self.start] + self.replacement + source[self.end :]

    def diff(self, source: bytes) -> str:
        """The change as lines taken away and added, without context."""
        old, new = source.decode().splitlines(), self.applied(source).decode().splitlines()
        lines = list(unified_diff(old, new, lineterm="", n=0))[2:]
        return "\n".join(line for line in lines if not line.startswith("@@"))

    @property
    def place(self) -> str:
        """File and line."""
        return f"{self.path}:{self.line}"


class Finder:
    """Finds the mutants of one file."""

    def __init__(self, path: str, source: bytes) -> None:
        self.path = path
        self.source = source
        self.excluded: Counter[str] = Counter()
        self._starts = [0]
        for line in source.splitlines(keepends=True):
            self._starts.append(self._starts[-1] + len(line))
        self._statement: ast.AST = ast.Pass(lineno=1, end_lineno=1)
        self._within: tuple[str, ...] = ()

    def mutants(self) -> list[Mutant]:
        """All mutants from top to bottom; those that are no Python are left out."""
        found = sorted(
            set(self._statements(ast.parse(self.source).body)), key=lambda item: (item.start, item.operator)
        )
        return [mutant for mutant in found if _is_python(mutant.applied(self.source))]

    # ---------------------------------------------------------------------------------- places in the text

    def _span(self, node: ast.AST) -> tuple[int, int]:
        return (
            self._starts[node.lineno - 1] + node.col_offset,
            self._starts[node.end_lineno - 1] + node.end_col_offset,
        )

    def _text(self, node: ast.AST) -> bytes:
        start, end = self._span(node)
        return self.source[start:end]

    def _change(
        self, node: ast.AST, operator: str, replacement: bytes, span: tuple[int, int] | None = None
    ) -> Mutant:
        start, end = span or self._span(node)
        line = self.source.count(b"\n", 0, start) + 1
        statement = self._statement
        body = getattr(statement, "body", None)
        last = body[0].lineno - 1 if isinstance(body, list) else statement.end_lineno
        first = min([statement.lineno, *(each.lineno for each in getattr(statement, "decorator_list", []))])
        within = ".".join(self._within) or "(module)"
        return Mutant(self.path, line, first, max(first, last), within, operator, start, end, replacement)

    def _token(self, before: ast.AST, after: ast.AST, token: str) -> tuple[int, int]:
        """Where an operator stands between two operands."""
        low, high = self._span(before)[1], self._span(after)[0]
        found = re.search(token.encode(), self.source[low:high])
        assert found is not None, (self.path, before.end_lineno, token)
        return low + found.start(), low + found.end()

    # ----------------------------------------------------------------------------------------- statements

    def _statements(self, body: list[ast.stmt]) -> Iterator[Mutant]:
        for statement in body:
            self._statement = statement
            yield from self._in_statement(statement)

    def _in_statement(self, statement: ast.stmt) -> Iterator[Mutant]:
        match statement:
            case ast.Import() | ast.ImportFrom() | ast.Pass():
                return
            case ast.Expr(ast.Constant(str())):
                self.excluded["docstrings"] += 1
                return
            case ast.FunctionDef() | ast.AsyncFunctionDef():
                for decorator in statement.decorator_list:
                    yield from self._expression(decorator)
                for default in (*statement.args.defaults, *filter(None, statement.args.kw_defaults)):
                    yield from self._expression(default)
                yield from self._nested(statement)
                return
            case ast.ClassDef():
                for part in (*statement.decorator_list, *statement.keywords):
                    yield from self._expression(part)
                yield from self._nested(statement)
                return
            case ast.AnnAssign():
                yield from self._in_type(statement.annotation)
                if statement.value is not None:
                    is_type = b"TypeAlias" in self._text(statement.annotation)
                    yield from (self._in_type if is_type else self._expression)(statement.value)
                return
            case ast.Assign(targets=[ast.Name("__all__")]):
                return
            case ast.Raise():
                yield self._change(statement, "raise nothing", b"pass")
                self.excluded["strings that are raised"] += _strings(statement)
                return
            case ast.Continue():
                yield self._change(statement, "continue to break", b"break")
            case ast.Break():
                yield self._change(statement, "break to continue", b"continue")
            case ast.Return(value) if value is not None:
                if not (isinstance(value, ast.Constant) and value.value is None):
                    yield self._change(value, "return None", b"None")
            case ast.Expr(ast.Call() | ast.Yield()) | ast.Delete():
                yield self._change(statement, "leave a call out", b"pass")
            case ast.AugAssign(target, operator, value):
                yield self._change(statement, "leave an assignment out", b"pass")
                if type(operator) in ARITHMETIC:
                    old, new = ARITHMETIC[type(operator)]
                    yield self._change(
                        statement,
                        "arithmetic",
                        f"{new}=".encode(),
                        self._token(target, value, re.escape(old) + "="),
                    )
        if isinstance(statement, (ast.If, ast.While)):
            yield from self._negated(statement.test)
        for name, value in ast.iter_fields(statement):
            if isinstance(value, list) and value and isinstance(value[0], ast.stmt):
                yield from self._statements(value)
                self._statement = statement
            elif name == "handlers":
                for handler in value:
                    yield from self._statements(handler.body)
            elif name == "cases":
                for case in value:
                    self._statement = case.pattern
                    yield from self._expression(case.pattern)
                    if case.guard is not None:
                        yield from self._negated(case.guard)
                        yield from self._expression(case.guard)
                    yield from self._statements(case.body)
            elif isinstance(value, ast.AST):
                yield from self._expression(value)
            elif isinstance(value, list):
                for item in value:
                    if isinstance(item, ast.AST):
                        yield from self._expression(item)

    def _nested(self, statement: ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef) -> Iterator[Mutant]:
        outer = self._within
        self._within = (*outer, statement.name)
        yield from self._statements(statement.body)
        self._within = outer

    # ---------------------------------------------------------------------------------------- expressions

    def _in_type(self, node: ast.AST) -> Iterator[Mutant]:
        if isinstance(node, ast.Call):
            yield from self._expression(node)
            return
        for child in ast.iter_child_nodes(node):
            yield from self._in_type(child)

    def _negated(self, test: ast.expr) -> Iterator[Mutant]:
        """A condition turned round, where no other operator does the same."""
        if isinstance(test, ast.Compare) and len(test.ops) == 1:
            return
        if isinstance(test, ast.UnaryOp) and isinstance(test.op, ast.Not):
            return
        yield self._change(test, "negate a condition", b"not (" + self._text(test) + b")")

    def _expression(self, node: ast.AST) -> Iterator[Mutant]:
        match node:
            case ast.JoinedStr():
                self.excluded["f-strings"] += 1
                return
            case ast.Constant():
                yield from self._constant(node)
                return
            case ast.Subscript(ast.Name("Literal")):
                return
            case ast.keyword("slots"):
                self.excluded["slots of dataclasses"] += 1
                return
            case ast.Compare(left, operators, right):
                operands = [left, *right]
                for before, operator, after in zip(operands, operators, right, strict=False):
                    old, others = COMPARISONS[type(operator)]
                    token = rf"\b{old}\b" if old[0].isalpha() else old
                    for other in others:
                        yield self._change(
                            node, "comparison", other.encode(), self._token(before, after, token)
                        )
            case ast.BinOp(left, operator, right) if type(operator) in ARITHMETIC:
                old, new = ARITHMETIC[type(operator)]
                yield self._change(node, "arithmetic", new.encode(), self._token(left, right, re.escape(old)))
            case ast.BoolOp(operator, values):
                old, new = ("and", "or") if isinstance(operator, ast.And) else ("or", "and")
                for before, after in pairwise(values):
                    yield self._change(
                        node, "and and or", new.encode(), self._token(before, after, rf"\b{old}\b")
                    )
            case ast.UnaryOp(ast.Not() | ast.USub(), operand):
                yield self._change(node, "leave a sign or not out", b"(" + self._text(operand) + b")")
            case ast.IfExp(test):
                yield from self._negated(test)
            case ast.comprehension(ifs=tests):
                for test in tests:
                    yield from self._negated(test)
            case ast.Call(ast.Name(name) as function, [first, *_]):
                if name in EXCHANGED:
                    yield self._change(function, "exchange a function", EXCHANGED[name].encode())
                if name in DROPPED:
                    argument = self._text(first)
                    # What is sorted may be an iterator without end of its own: a list of it stays what it was.
                    kept = b"list(" + argument + b")" if name == "sorted" else b"(" + argument + b")"
                    yield self._change(node, "leave a function out", kept)
        for child in ast.iter_child_nodes(node):
            yield from self._expression(child)

    def _constant(self, node: ast.Constant) -> Iterator[Mutant]:
        match node.value:
            case bool(value):
                yield self._change(node, "true and false", str(not value).encode())
            case int(value) | float(value):
                yield self._change(node, "number", repr(value + 1).encode())
            case str(value) if PROSE.match(value):
                self.excluded["prose"] += 1
            case str(value):
                yield self._change(node, "string", repr(value + "XX" if value else "XX").encode())


def _strings(node: ast.AST) -> int:
    """How many string literals there are, an f-string being one."""
    if isinstance(node, ast.JoinedStr) or (isinstance(node, ast.Constant) and isinstance(node.value, str)):
        return 1
    return sum(_strings(child) for child in ast.iter_child_nodes(node))


def _is_python(source: bytes) -> bool:
    try:
        ast.parse(source)
    except SyntaxError:
        return False
    return True
