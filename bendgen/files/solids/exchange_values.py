"""Values in the text of one instance of an ISO 10303-21 file: numbers, texts, references, lists.

A simple instance `CIRCLE('',#2,5.)` and a complex one `( LENGTH_UNIT() SI_UNIT(.MILLI.,.METRE.) )` are both a mapping
from type name to arguments. A typed argument, `LENGTH_MEASURE(1.0)`, is its value; `$` and `*` are None.

References
----------
[ISO2016] clauses 6 and 10
"""

import math
import re
from collections.abc import Callable

DEEPEST = 16  # lists within lists; a surface's control points take two

_REFERENCE = r"\#[0-9]{1,18}"
_NUMBER = r"[-+]?[0-9]++(?:\.[0-9]*+)?(?:E[-+]?[0-9]++)?"
# Most of a large file are lists of references or of numbers alone, each of which is taken as a whole.
_TOKEN = re.compile(
    rf"""[\s,]*+(?:
    (?P<references>\(\s*+{_REFERENCE}(?:\s*+,\s*+{_REFERENCE})*+\s*+\))
    | (?P<numbers>\(\s*+{_NUMBER}(?:\s*+,\s*+{_NUMBER})*+\s*+\))
    | (?P<reference>{_REFERENCE})
    | (?P<number>{_NUMBER})
    | (?P<text>'(?:[^']|'')*+')
    | (?P<choice>\.[A-Z0-9_]++\.)
    | (?P<binary>"[0-9A-F]*+")
    | (?P<name>!?[A-Z_][A-Z0-9_]*+)
    | (?P<mark>[()$*])
    )""",
    re.VERBOSE | re.IGNORECASE,
)
# And most instances have no list within their list and no text: those are taken apart at the commas.
_PLAIN_VALUE = rf"(?:{_REFERENCE}|''|\.[A-Z0-9_]++\.|[$*]|{_NUMBER})"
_PLAIN = re.compile(
    rf"\s*+(?P<name>[A-Z_][A-Z0-9_]*+)\((?P<values>{_PLAIN_VALUE}(?:,{_PLAIN_VALUE})*+)\)\s*+", re.IGNORECASE
)
_ESCAPE = re.compile(
    r"\\X2\\(?P<two>(?:[0-9A-F]{4})*)\\X0\\|\\X4\\(?P<four>(?:[0-9A-F]{8})*)\\X0\\|\\X\\(?P<one>[0-9A-F]{2})"
    r"|\\S\\(?P<high>.)|\\P[A-I]\\|\\(?P<slash>\\)",
    re.DOTALL,
)


class Reference(int):
    """Number of another instance: `#12`."""

    __slots__ = ()


class Choice(str):
    """A value out of a list that the standard names: `.MILLI.`, also `.T.`; its name without the points."""

    __slots__ = ()


Value = int | float | str | list["Value"] | None
Instance = dict[str, list[Value]]


def parse_instance(text: str) -> Instance:
    """Types and arguments in the text behind `#12 =`; raises ValueError, whose text says what is wrong."""
    if plain := _PLAIN.fullmatch(text):
        return {plain["name"].upper(): [_plain_value(token) for token in plain["values"].split(",")]}
    lists = _OpenLists()
    end = 0
    while found := _TOKEN.match(text, end):
        kind, token = str(found.lastgroup), found[found.lastindex or 0]
        if kind == "mark":
            lists.take_mark(token)
        elif kind == "name":
            lists.name = token.upper()
        elif kind in _LISTS:
            lists.add_list(_LISTS[kind](token[1:-1]))
        else:
            lists.add(_VALUES[kind](token))
        end = found.end()
    if rest := text[end:].strip(", \t\r\n"):
        raise ValueError(f"'{rest[:20]}'")
    return lists.instance()


class _OpenLists:
    """Lists that are open while tokens come in, each with the name that stood before it, if any."""

    def __init__(self) -> None:
        self.name = ""
        self._open: list[tuple[str, list[Value]]] = [("", [])]
        self._outer: Instance = {}

    def take_mark(self, mark: str) -> None:
        """Open or close a list; any other mark stands for no value."""
        if mark == "(":
            self._begin([])
        elif mark == ")":
            self._close()
        else:
            self.add(None)

    def add_list(self, values: list[Value]) -> None:
        """Add a list with all that it holds."""
        self._begin(values)
        self._close()

    def add(self, value: Value) -> None:
        """Add a value to the innermost list."""
        if len(self._open) == 1:
            raise ValueError("a value without a type")
        self._open[-1][1].append(value)

    def _begin(self, values: list[Value]) -> None:
        if len(self._open) > DEEPEST:
            raise ValueError("lists nested too deep")
        self._open.append((self.name, values))
        self.name = ""

    def _close(self) -> None:
        if len(self._open) == 1:
            raise ValueError("a bracket that closes nothing")
        name, values = self._open.pop()
        outermost = len(self._open) == 1
        inside_complex = len(self._open) == 2 and not self._open[1][0] and bool(name)
        if (outermost and name) or inside_complex:
            self._outer[name] = values
        elif not outermost:
            self.add(values[0] if name and len(values) == 1 else values)

    def instance(self) -> Instance:
        """What the tokens made up."""
        if len(self._open) > 1 or not self._outer:
            raise ValueError("brackets that do not close" if len(self._open) > 1 else "no type")
        return self._outer


def _plain_value(token: str) -> Value:
    match token[0]:
        case "#":
            return Reference(token[1:])
        case "'":
            return ""
        case ".":
            return Choice(token[1:-1].upper())
        case "$" | "*":
            return None
        case _:
            return _number(token)


def _number(token: str) -> Value:
    if token.lstrip("+-").isdecimal():
        return int(token) if len(token) <= 18 else float(token[:400])
    value = float(token)
    if not math.isfinite(value):
        raise ValueError(f"{token[:20]}, a number too large")
    return value


def _numbers(tokens: list[str]) -> list[Value]:
    numbers = list(map(float, tokens))
    if math.inf in numbers or -math.inf in numbers:
        return [_number(token.strip()) for token in tokens]
    return [*numbers]


def decoded_text(raw: str) -> str:
    r"""Text between the quotes: `''` is one quote, `\X2\00F3\X0\` is ó; bytes above 127 are read as UTF-8 if they are.

    raw : each character one byte of the file
    """
    if raw.isascii():
        text = raw
    else:
        try:
            text = raw.encode("latin-1").decode("utf-8")
        except UnicodeDecodeError:
            text = raw
    return _ESCAPE.sub(_unescaped, text.replace("''", "'"))


_VALUES: dict[str, Callable[[str], Value]] = {
    "reference": lambda token: Reference(token[1:]),
    "number": _number,
    "text": lambda token: decoded_text(token[1:-1]),
    "choice": lambda token: Choice(token[1:-1].upper()),
    "binary": lambda token: token,
}

_LISTS: dict[str, Callable[[str], list[Value]]] = {
    "references": lambda inside: list(map(Reference, inside.replace("#", " ").split(","))),
    "numbers": lambda inside: _numbers(inside.split(",")),
}


def _unescaped(found: re.Match[str]) -> str:
    if found["slash"]:
        return "\\"
    if found["high"]:
        return chr(ord(found["high"]) % 128 + 128)
    if found["one"]:
        return chr(int(found["one"], 16))
    if found["two"] is not None:
        return bytes.fromhex(found["two"]).decode("utf-16-be", errors="replace")
    if found["four"] is not None:
        return bytes.fromhex(found["four"]).decode("utf-32-be", errors="replace")
    return ""
