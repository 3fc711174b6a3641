"""The formula language of banks: exact arithmetic over an allow-list, checked when the bank is read.

A formula is parsed by Python's own parser, checked node by node against a short list, and rebuilt from the
nodes that passed, so what is compiled holds nothing but arithmetic, comparisons, known names and known functions.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Mapping
from fractions import Fraction

from courseware.banks.figures import whole_as_int
from courseware.banks.formulas import Formula, FormulaFault, Function, Kind, Value, kind_of, over, power
from courseware.text_files.did_you_mean import near

MOST_CHARACTERS = 300
MOST_NODES = 120
MOST_DEPTH = 30
LONGEST_WORD = 60

_NUMBER = re.compile(r"[0-9]{1,15}(\.[0-9]{1,15})?\Z", re.ASCII)
_ARITHMETIC: tuple[type[ast.operator], ...] = (
    ast.Add,
    ast.Sub,
    ast.Mult,
    ast.Div,
    ast.FloorDiv,
    ast.Mod,
    ast.Pow,
)
_COMPARISONS: tuple[type[ast.cmpop], ...] = (ast.Eq, ast.NotEq, ast.Lt, ast.LtE, ast.Gt, ast.GtE)
_HINTS = {"×": "use * to multiply", "÷": "use / to divide", "−": "use - to subtract", "–": "use - to subtract",
          "²": "use ** 2", "³": "use ** 3", "½": "write 0.5", "^": "use ** for a power", "#": "no comments",
          "\\": "no backslashes", "[": "no lists", "{": "no braces", "=": "use == to compare"}  # fmt: skip


def compile_formula(
    text: str, kinds: Mapping[str, Kind], constants: Mapping[str, Value], functions: Mapping[str, Function]
) -> Formula:
    """`text` checked and compiled. `kinds` names what a variant brings; raises `FormulaFault`."""
    tree = _parse(text)
    checker = _Checker(text.strip(), kinds, constants, functions)
    body, kind = checker.build(tree.body, 0)
    expression = ast.fix_missing_locations(ast.Expression(body=body))
    # Capitals: no given and no part can be named like these and stand in their way.
    fixed: dict[str, object] = {"__builtins__": {}, "OVER": over, "POWER": power}
    fixed |= checker.literals | dict(constants) | {name: function.call for name, function in functions.items()}
    return Formula(
        text=text.strip(),
        kind=kind,
        names=frozenset(checker.used),
        code=compile(expression, "<formula>", "eval"),
        fixed=fixed,
    )


def _parse(text: str) -> ast.Expression:
    text = text.strip()
    if not text:
        raise FormulaFault("the formula is empty", "expected a formula such as `bricks * module + joint`")
    if len(text) > MOST_CHARACTERS:
        raise FormulaFault(f"the formula has {len(text)} characters", f"at most {MOST_CHARACTERS} are allowed")
    for character in text:
        if character in "×÷−–²³½^#\\[{" or not (character.isascii() and character.isprintable()):
            hint = _HINTS.get(character, "only plain letters, figures and + - * / ( ) are allowed")
            raise FormulaFault(f"the character `{character}` cannot stand in a formula", hint)
    if re.search(r"(?<![\w.])0[0-9]", text, re.ASCII):
        raise FormulaFault("a number starts with a needless 0", "expected plain decimal figures such as 10 or 0.5")
    try:
        return ast.parse(text, mode="eval")
    except (SyntaxError, RecursionError, MemoryError, ValueError):
        if re.search(r"[\w)] x [\w(]", text, re.ASCII):
            raise FormulaFault(f"`{text[:60]}` does not read as a formula", "for times write *, not x") from None
        hint = _HINTS["="] if re.search(r"(?<![=<>!])=(?!=)", text) and "(" not in text else "check brackets and signs"
        raise FormulaFault(f"`{text[:60]}` does not read as a formula", hint) from None


class _Checker:
    """Walks a parsed formula once, building its allowed twin and inferring kinds."""

    def __init__(
        self,
        text: str,
        kinds: Mapping[str, Kind],
        constants: Mapping[str, Value],
        functions: Mapping[str, Function],
    ) -> None:
        self.text, self.kinds, self.constants, self.functions = text, kinds, constants, functions
        self.used: set[str] = set()
        self.literals: dict[str, object] = {}
        self.nodes = 0

    def build(self, node: ast.expr, depth: int) -> tuple[ast.expr, Kind]:
        self.nodes += 1
        if self.nodes > MOST_NODES or depth > MOST_DEPTH:
            raise FormulaFault("the formula is too involved", "split it into earlier lines or parts")
        match node:
            case ast.Constant():
                return self._constant(node)
            case ast.Name(id=name):
                return self._name(name)
            case ast.BinOp(left=left, op=op, right=right) if isinstance(op, _ARITHMETIC):
                sides = self._want(left, "number", depth), self._want(right, "number", depth)
                return _binary(op, *sides), "number"
            case ast.UnaryOp(op=ast.USub() | ast.UAdd() as op, operand=operand):
                return ast.UnaryOp(op=op, operand=self._want(operand, "number", depth)), "number"
            case ast.UnaryOp(op=ast.Not() as op, operand=operand):
                return ast.UnaryOp(op=op, operand=self._want(operand, "truth", depth)), "truth"
            case ast.BoolOp(op=op, values=values):
                return ast.BoolOp(op=op, values=[self._want(value, "truth", depth) for value in values]), "truth"
            case ast.Compare(left=left, ops=ops, comparators=others) if all(isinstance(o, _COMPARISONS) for o in ops):
                return self._compare(left, ops, others, depth), "truth"
            case ast.IfExp(test=test, body=yes, orelse=no):
                return self._choose(test, yes, no, depth)
            case ast.Call(func=ast.Name(id=name), args=args, keywords=keywords):
                return self._call(name, args, keywords, depth)
        shown = (ast.get_source_segment(self.text, node) or self.text)[:40]
        raise FormulaFault(
            f"`{shown}` is not allowed in a formula",
            "expected numbers, names, + - * / // % **, comparisons, and/or/not, `a if test else b`, known functions",
        )

    def _want(self, node: ast.expr, kind: Kind, depth: int) -> ast.expr:
        built, found = self.build(node, depth + 1)
        if found != kind:
            shown = (ast.get_source_segment(self.text, node) or self.text)[:40]
            raise FormulaFault(f"`{shown}` is a {found}", f"expected a {kind} here")
        return built

    def _constant(self, node: ast.Constant) -> tuple[ast.expr, Kind]:
        value = node.value
        if isinstance(value, bool):
            return ast.Constant(value), "truth"
        if isinstance(value, str):
            if len(value) > LONGEST_WORD:
                raise FormulaFault(f"a word of {len(value)} characters", f"expected at most {LONGEST_WORD}")
            return ast.Constant(value), "word"
        shown = ast.get_source_segment(self.text, node) or ""
        if not _NUMBER.match(shown):
            raise FormulaFault(
                f"`{shown[:40]}` is not a plain number",
                "expected figures such as 225 or 0.05, at most 15 digits",
            )
        exact = whole_as_int(Fraction(shown))
        if isinstance(exact, int):
            return ast.Constant(exact), "number"
        name = f"N{len(self.literals)}"
        self.literals[name] = exact
        return ast.Name(id=name, ctx=ast.Load()), "number"

    def _name(self, name: str) -> tuple[ast.expr, Kind]:
        built = ast.Name(id=name, ctx=ast.Load())
        if name in self.kinds:
            self.used.add(name)
            return built, self.kinds[name]
        if name in self.constants:
            return built, kind_of(self.constants[name])
        if name in self.functions:
            raise FormulaFault(f"`{name}` is a function", f"expected brackets after it, as {name}(…)")
        known = sorted({*self.kinds, *self.constants})
        raise FormulaFault(f"`{name}` is not known here", near(name, known, "a word needs quotes; expected one of"))

    def _compare(self, left: ast.expr, ops: list[ast.cmpop], others: list[ast.expr], depth: int) -> ast.expr:
        first, kind = self.build(left, depth + 1)
        if kind != "number" and not all(isinstance(op, ast.Eq | ast.NotEq) for op in ops):
            raise FormulaFault(f"a {kind} cannot be larger or smaller", "expected == or != between words")
        return ast.Compare(left=first, ops=ops, comparators=[self._want(other, kind, depth) for other in others])

    def _choose(self, test: ast.expr, yes: ast.expr, no: ast.expr, depth: int) -> tuple[ast.expr, Kind]:
        tested = self._want(test, "truth", depth)
        body, kind = self.build(yes, depth + 1)
        return ast.IfExp(test=tested, body=body, orelse=self._want(no, kind, depth)), kind

    def _call(self, name: str, args: list[ast.expr], keywords: list[ast.keyword], depth: int) -> tuple[ast.expr, Kind]:
        function = self.functions.get(name)
        if function is None:
            raise FormulaFault(f"there is no function `{name}`", near(name, sorted(self.functions), "expected one of"))
        given = self._arguments(name, function, args, keywords)
        built = [self._want(node, kind, depth) for node, kind in given]
        call = ast.Call(func=ast.Name(id=name, ctx=ast.Load()), args=built[: len(args)], keywords=[])
        call.keywords = [ast.keyword(arg=k.arg, value=v) for k, v in zip(keywords, built[len(args) :], strict=True)]
        return call, function.result

    def _arguments(
        self, name: str, function: Function, args: list[ast.expr], keywords: list[ast.keyword]
    ) -> list[tuple[ast.expr, Kind]]:
        takes = function.parameters
        shape = f"expected {name}({', '.join(p for p, _ in takes)}{', …' if function.repeats else ''})"
        if function.repeats:
            if keywords or len(args) < function.needed:
                raise FormulaFault(f"`{name}` is given {len(args)} figures", shape)
            return [(node, takes[0][1]) for node in args]
        order = [p for p, _ in takes]
        named = {k.arg for k in keywords}
        nameable = set(order[max(len(args), function.needed) :])
        if len(args) > len(order) or not named <= nameable or len(named) < len(keywords):
            raise FormulaFault(f"`{name}` is not called as it should be", shape)
        if missing := order[len(args) : function.needed]:
            raise FormulaFault(f"`{name}` lacks {', '.join(missing)}", shape)
        kinds = dict(takes)
        return [
            *zip(args, (k for _, k in takes), strict=False),
            *((k.value, kinds[str(k.arg)]) for k in keywords),
        ]


def _binary(op: ast.operator, left: ast.expr, right: ast.expr) -> ast.expr:
    special = "OVER" if isinstance(op, ast.Div) else "POWER" if isinstance(op, ast.Pow) else None
    if special is None:
        return ast.BinOp(left=left, op=op, right=right)
    return ast.Call(func=ast.Name(id=special, ctx=ast.Load()), args=[left, right], keywords=[])
