"""Mutation sites of one Python source: each a small change that a test should notice.

A site is known by its file, the function around it, the kind of change, the source text that is changed and
its ordinal among equals, and not by its line: what is written about it stays true when lines move.

Left alone are docstrings, annotations, decorators, declarations (`given`, `found`, `Table`, `Start` …), what
is raised or asserted, f-strings, a choice between two texts for people, and what is given as `picture=`:
words and drawings, not arithmetic.
"""

import ast
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import Any

MODULE = "<module>"
"""Stands for the function of what stands in none."""
LONGEST = 100
"""Characters of source text that a site tells; equals are told apart by their ordinal."""

_OPERATORS: dict[type, type] = {
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.Div,
    ast.Div: ast.Mult,
    ast.FloorDiv: ast.Mult,
    ast.Mod: ast.FloorDiv,
    ast.Pow: ast.Mult,
}
_COMPARISONS: dict[type, tuple[type, ...]] = {
    ast.Lt: (ast.LtE, ast.GtE),
    ast.LtE: (ast.Lt, ast.Gt),
    ast.Gt: (ast.GtE, ast.LtE),
    ast.GtE: (ast.Gt, ast.Lt),
    ast.Eq: (ast.NotEq,),
    ast.NotEq: (ast.Eq,),
    ast.Is: (ast.IsNot,),
    ast.IsNot: (ast.Is,),
    ast.In: (ast.NotIn,),
    ast.NotIn: (ast.In,),
}
_SIGNS: dict[type, str] = {
    ast.Add: "+", ast.Sub: "-", ast.Mult: "*", ast.Div: "/", ast.FloorDiv: "//", ast.Mod: "%", ast.Pow: "**",
    ast.Lt: "<", ast.LtE: "<=", ast.Gt: ">", ast.GtE: ">=", ast.Eq: "==", ast.NotEq: "!=",
    ast.Is: "is", ast.IsNot: "is not", ast.In: "in", ast.NotIn: "not in", ast.And: "and", ast.Or: "or",
}  # fmt: skip
_PLUGIN = "__import__('boltend.plugin', fromlist=['plugin'])."
_MATH = "__import__('math')."
CALLS = {
    "min": "max",
    "max": "min",
    "any": "all",
    "all": "any",
    "ceil_div": _PLUGIN + "floor_div",
    "floor_div": _PLUGIN + "ceil_div",
    "up": _PLUGIN + "down",
    "down": _PLUGIN + "up",
    "nearest": _PLUGIN + "up",
    "ceil": _MATH + "floor",
    "floor": _MATH + "ceil",
}
"""A call by name, and what is called in its stead, whether the module imports it or not."""
BARE = ("abs", "cut_up", "buy_up")
"""Calls of a function or method that give way to their one argument: no sign lost, nothing rounded up."""

_DECLARES = ("given", "found", "field", "Table", "Start", "TypeVar", "NewType", "dataclass")
_WHERE_TEXT_IS = (ast.List, ast.ListComp, ast.JoinedStr, ast.Dict, ast.Tuple)


@dataclass(frozen=True, slots=True)
class Site:
    """One change: `line` and `outer` (the outermost function or method) are beside its identity."""

    file: str
    function: str
    kind: str
    text: str
    ordinal: int
    line: int = field(compare=False)
    outer: str = field(compare=False)

    @property
    def said(self) -> str:
        """In one line."""
        return f"{self.file}:{self.line} {self.function}: {self.kind}: {self.text} [{self.ordinal}]"


@dataclass(frozen=True, slots=True)
class _Change:
    kind: str
    said: ast.AST
    holder: Any
    name: str
    index: int | None
    new: Any
    function: tuple[str, ...]
    outer: str

    def make(self) -> None:
        if self.index is None:
            setattr(self.holder, self.name, self.new)
        else:
            getattr(self.holder, self.name)[self.index] = self.new


def sites(source: str, file: str) -> list[Site]:
    """All sites of a source, in its order."""
    return [site for site, _ in _placed(source, file, ast.parse(source))]


def mutant(source: str, site: Site) -> ast.Module:
    """The source with the one change made. Raises KeyError where it has no such site."""
    tree = ast.parse(source)
    for found, change in _placed(source, site.file, tree):
        if found == site:
            change.make()
            return ast.fix_missing_locations(tree)
    raise KeyError(site.said)


def _placed(source: str, file: str, tree: ast.Module) -> Iterator[tuple[Site, _Change]]:
    seen: Counter[tuple[str, str, str]] = Counter()
    lines = source.splitlines(keepends=True)
    for change in list(_Walk().within(tree)):
        text = " ".join(_text(lines, change.said).split())
        text = text if len(text) <= LONGEST else text[: LONGEST - 1] + "…"
        function = ".".join(change.function) or MODULE
        key = (function, change.kind, text)
        seen[key] += 1
        yield Site(file, *key, seen[key], change.said.lineno, change.outer or MODULE), change  # type: ignore[attr-defined]  # a node of the source has its line


def _text(lines: Sequence[str], node: Any) -> str:
    """The source text of a node; columns are counted in bytes of UTF-8."""
    part = [line.encode() for line in lines[node.lineno - 1 : node.end_lineno]]
    part[-1] = part[-1][: node.end_col_offset]
    part[0] = part[0][node.col_offset :]
    return b"".join(part).decode()


class _Walk:
    """Goes through a tree and yields the changes; it never makes one."""

    def __init__(self) -> None:
        self.function: list[str] = []
        self.outer: str = ""
        self.around: list[ast.AST] = []

    def within(self, node: ast.AST) -> Iterator[_Change]:
        """The changes below a node, in the order of the source."""
        for name, value in ast.iter_fields(node):
            if name in ("annotation", "returns", "decorator_list", "type_comment", "type_params"):
                continue
            if isinstance(value, list):
                for index, each in enumerate(value):
                    if isinstance(each, ast.AST):
                        yield from self.at(each, node, name, index)
            elif isinstance(value, ast.AST):
                yield from self.at(value, node, name, None)

    def at(self, node: ast.AST, holder: ast.AST, name: str, index: int | None) -> Iterator[_Change]:
        """The changes of one node and of what is below it."""
        if _is_words(node):
            return
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef):
            before = self.outer
            self.function.append(node.name)
            if not any(isinstance(each, ast.FunctionDef) for each in self.around):
                self.outer = ".".join(self.function)
            self.around.append(node)
            yield from self.within(node)
            self.around.pop()
            self.function.pop()
            self.outer = before
            return
        for kind, said, place, new in self.changes(node, holder):
            where = place or (holder, name, index)
            yield _Change(kind, said, *where, new, tuple(self.function), self.outer)
        self.around.append(node)
        yield from self.within(node)
        self.around.pop()

    def changes(self, node: ast.AST, holder: ast.AST) -> Iterator[tuple[str, ast.AST, Any, Any]]:
        """Kind, node whose text is told, (holder, field, index) or None for the node, and what is new."""
        if isinstance(node, ast.BinOp | ast.AugAssign) and type(node.op) in _OPERATORS and not _joins(node):
            new = _OPERATORS[type(node.op)]
            yield f"{_SIGNS[type(node.op)]} to {_SIGNS[new]}", node, (node, "op", None), new()
        elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub | ast.Not):
            word = "not" if isinstance(node.op, ast.Not) else "minus"
            yield f"{word} dropped", node, None, node.operand
        elif isinstance(node, ast.Compare):
            for at, op in enumerate(node.ops):
                for new in _COMPARISONS[type(op)]:
                    kind = f"{_SIGNS[type(op)]} to {_SIGNS[new]}"
                    yield kind, node, (node, "ops", at), new()
        elif isinstance(node, ast.BoolOp):
            is_and = isinstance(node.op, ast.And)
            kind = "and to or" if is_and else "or to and"
            yield kind, node, (node, "op", None), ast.Or() if is_and else ast.And()
        elif isinstance(node, ast.Constant):
            yield from self.constant(node, holder)
        elif isinstance(node, ast.Call):
            yield from _call(node)
        yield from _tests(node)

    def constant(self, node: ast.Constant, holder: ast.AST) -> Iterator[tuple[str, ast.AST, Any, Any]]:
        """A whole number one more and one less, true and false; the text is that of the expression around."""
        value = node.value
        if isinstance(holder, ast.keyword) and holder.arg in ("strict", "default_factory"):
            return
        wide = [each for each in self.around if isinstance(each, ast.expr | ast.stmt)]
        if isinstance(wide[-1], ast.UnaryOp) and isinstance(self.around[-2], ast.Slice):
            return  # [::-1]: its sign is a site
        said = next(each for each in reversed(wide) if not isinstance(each, ast.UnaryOp))
        if isinstance(said, ast.FunctionDef | ast.ClassDef):
            said = node
        if isinstance(value, bool):
            yield f"{value} to {not value}", said, None, ast.Constant(not value)
        elif isinstance(value, int):
            for new in (value + 1, value - 1):
                yield f"{value} to {new}", said, None, ast.Constant(new)


def _call(node: ast.Call) -> Iterator[tuple[str, ast.AST, Any, Any]]:
    if isinstance(node.func, ast.Name) and node.func.id in CALLS:
        new = CALLS[node.func.id]
        short = new.rpartition(".")[2]
        yield f"{node.func.id} to {short}", node, (node, "func", None), ast.parse(new, mode="eval").body
    called = getattr(node.func, "id", getattr(node.func, "attr", ""))
    if called in BARE and len(node.args) == 1:
        yield f"{called} dropped", node, None, node.args[0]


def _tests(node: ast.AST) -> Iterator[tuple[str, ast.AST, Any, Any]]:
    """What decides: an if, a loop, a filter, made always true, always false, or turned round."""
    places: list[tuple[ast.expr, tuple[ast.AST, str, int | None]]] = []
    if isinstance(node, ast.If | ast.IfExp | ast.While):
        places = [(node.test, (node, "test", None))]
    elif isinstance(node, ast.comprehension):
        places = [(test, (node, "ifs", at)) for at, test in enumerate(node.ifs)]
    for test, place in places:
        if not isinstance(node, ast.While):  # which would have no end
            yield "test true", test, place, ast.Constant(True)
        yield "test false", test, place, ast.Constant(False)
        turned = isinstance(test, ast.UnaryOp) or (isinstance(test, ast.Compare) and len(test.ops) == 1)
        if not turned:  # those are turned round already, by their own sign
            yield "test turned", test, place, ast.UnaryOp(ast.Not(), test)


def _is_words(node: ast.AST) -> bool:
    """What is left alone: see the module."""
    if isinstance(node, ast.JoinedStr | ast.Raise | ast.Assert | ast.Import | ast.ImportFrom):
        return True
    if isinstance(node, ast.keyword) and node.arg == "picture":
        return True
    if isinstance(node, ast.Call):
        return getattr(node.func, "id", getattr(node.func, "attr", "")) in _DECLARES
    return isinstance(node, ast.IfExp) and _is_text(node.body) and _is_text(node.orelse)


def _is_text(node: ast.AST) -> bool:
    """A text for people: made of parts, or with a space or a sign in it; one word is a name."""
    if isinstance(node, ast.JoinedStr):
        return True
    if isinstance(node, ast.IfExp):
        return _is_text(node.body) and _is_text(node.orelse)
    if not (isinstance(node, ast.Constant) and isinstance(node.value, str)):
        return False
    return not node.value.isidentifier()


def _joins(node: ast.BinOp | ast.AugAssign) -> bool:
    """Whether it joins lists or texts, where no arithmetic is."""
    sides = [node.value] if isinstance(node, ast.AugAssign) else [node.left, node.right]
    for side in sides:
        if isinstance(side, _WHERE_TEXT_IS):
            return True
        if isinstance(side, ast.Constant) and isinstance(side.value, str):
            return True
        if isinstance(side, ast.BinOp) and _joins(side):
            return True
    return False
