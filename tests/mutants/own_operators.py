"""Five single changes of our own, in the form of cosmic-ray's operators, so that one walk makes all of them."""

from __future__ import annotations

from typing import Any

from cosmic_ray.operators.operator import Example, Operator
from parso.python.tree import Name, String
from parso.tree import NodeOrLeaf

from teardown_app.domain.ledger.kinds.kind import RIGHTS

Place = tuple[tuple[int, int], tuple[int, int]]


def _at(node: NodeOrLeaf) -> Place:
    return node.start_pos, node.end_pos


class CallLeftOut(Operator):
    """A statement that only calls something does nothing: a sync, a note, a removal."""

    def mutation_positions(self, node: Any) -> list[Place]:
        is_call = node.type == "simple_stmt" and node.children[0].type in ("atom_expr", "power")
        return [_at(node.children[0])] if is_call else []

    def mutate(self, node: Any, index: int) -> Any:
        call = node.children[0]
        node.children[0] = Name("pass", call.start_pos, prefix=call.get_first_leaf().prefix)
        return node

    @classmethod
    def examples(cls) -> tuple[Example, ...]:
        return (Example("sync(path)\n", "pass\n"), Example("x = 1\nos.fsync(h)\n", "x = 1\npass\n"))


class RightLowered(Operator):
    """The name of a right becomes *record*."""

    def mutation_positions(self, node: Any) -> list[Place]:
        is_right = isinstance(node, String) and node.value.strip('"') in RIGHTS[1:]
        return [_at(node)] if is_right else []

    def mutate(self, node: Any, index: int) -> Any:
        return String(f'"{RIGHTS[0]}"', node.start_pos, prefix=node.prefix)

    @classmethod
    def examples(cls) -> tuple[Example, ...]:
        return (Example('right = "release"', 'right = "record"'),)


class _OfWords(Operator):
    """A change of a list of texts in brackets."""

    fewest = 2

    def _words(self, node: Any) -> list[int]:
        """Where the texts stand among the children of a list of nothing but texts."""
        if node.type != "testlist_comp":
            return []
        rest = [child for child in node.children if child.type != "operator"]
        if len(rest) < self.fewest or not all(isinstance(child, String) for child in rest):
            return []
        return [n for n, child in enumerate(node.children) if isinstance(child, String)]


class WordLeftOut(_OfWords):
    """One of several texts in brackets is not there."""

    fewest = 3

    def mutation_positions(self, node: Any) -> list[Place]:
        return [_at(node.children[n]) for n in self._words(node)]

    def mutate(self, node: Any, index: int) -> Any:
        n = self._words(node)[index]
        first = n if n + 1 < len(node.children) else n - 1  # with the comma after it, or before the last
        del node.children[first : first + 2]
        return node

    @classmethod
    def examples(cls) -> tuple[Example, ...]:
        return (
            Example('x = ("a", "b", "c")', 'x = ( "b", "c")'),
            Example('x = ("a", "b", "c")', 'x = ("a", "b")', occurrence=2),
        )


class WordsExchanged(_OfWords):
    """Two neighbours in a named list change places: mild and severe, first and second."""

    def _words(self, node: Any) -> list[int]:
        named = node.parent and node.parent.parent and node.parent.parent.type == "expr_stmt"
        return super()._words(node) if named else []

    def mutation_positions(self, node: Any) -> list[Place]:
        return [_at(node.children[n]) for n in self._words(node)[1:]]

    def mutate(self, node: Any, index: int) -> Any:
        words = self._words(node)
        one, other = node.children[words[index]], node.children[words[index + 1]]
        one.value, other.value = other.value, one.value
        return node

    @classmethod
    def examples(cls) -> tuple[Example, ...]:
        return (Example('x = ("mild", "severe")', 'x = ("severe", "mild")'),)


OPPOSITE = {"min": "max", "max": "min", "any": "all", "all": "any"}


class OtherOfTwo(Operator):
    """The greatest for the least, all for any, not in for in."""

    def mutation_positions(self, node: Any) -> list[Place]:
        return [_at(node)] if _is_called(node) or _is_in(node) or _is_not_in(node) else []

    def mutate(self, node: Any, index: int) -> Any:
        word = OPPOSITE.get(getattr(node, "value", "")) or ("in" if _is_not_in(node) else "not in")
        return Name(word, node.start_pos, prefix=node.get_first_leaf().prefix)

    @classmethod
    def examples(cls) -> tuple[Example, ...]:
        return (
            Example("min(x)", "max(x)"),
            Example("a not in b", "a in b"),
            Example("a in b", "a not in b"),
            Example("any(a in b for a in c)", "any(a not in b for a in c)", occurrence=1),
        )


def _is_called(node: Any) -> bool:
    following = node.get_next_leaf() if node.type == "name" else None
    return bool(following and following.value == "(" and node.value in OPPOSITE)


def _is_in(node: Any) -> bool:
    return bool(node.type == "keyword" and node.value == "in" and node.parent.type == "comparison")


def _is_not_in(node: Any) -> bool:
    return bool(node.type == "comp_op" and node.children[0].value == "not")


OWN: dict[str, type[Operator]] = {
    one.__name__: one for one in (CallLeftOut, RightLowered, WordLeftOut, WordsExchanged, OtherOfTwo)
}
