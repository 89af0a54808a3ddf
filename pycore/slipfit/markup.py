"""Markup as data: a tree of lists that Python writes once and both the page builder and the
browser turn into elements.

A tree is text, or `[tag, attributes, child, child, …]`. The site builder serialises it with
`to_html`; the page's script builds the same elements from the JSON. Text is only ever text.
"""

from __future__ import annotations

from html import escape
from typing import Any

Tree = str | list[Any]

VOID = frozenset({"br", "hr", "img", "input", "path", "circle", "line", "rect", "polyline"})
TAGS = frozenset(
    "a aside b br button caption circle dd defs desc details dialog div dl dt em fieldset "
    "figcaption figure footer form g h2 h3 h4 header hr i input label legend li line ol option "
    "output p path pattern polygon polyline rect section select small span strong sub summary sup "
    "svg table tbody td text th thead time title tr tspan ul".split()
)


def el(tag: str, /, *children: Tree | None, **attributes: object) -> list[Any]:
    """One element; `class_` and `data_x` become `class` and `data-x`; None is left out."""
    if tag not in TAGS:
        raise AssertionError(f"markup: tag '{tag}' is not in the allowed list")
    kept: dict[str, str] = {}
    for key, value in attributes.items():
        if value is None or value is False:
            continue
        name = key.rstrip("_").replace("_", "-")
        kept[name] = (
            "" if value is True else f"{value:g}" if isinstance(value, float) else str(value)
        )
    return [tag, kept, *(child for child in children if child is not None)]


def to_html(tree: Tree) -> str:
    """HTML text of a tree, everything escaped."""
    if isinstance(tree, str):
        return escape(tree, quote=False)
    tag, attributes, *children = tree
    written = "".join(f' {name}="{escape(value)}"' for name, value in attributes.items())
    if tag in VOID and not children:
        return f"<{tag}{written}/>"
    return f"<{tag}{written}>{''.join(to_html(child) for child in children)}</{tag}>"


def plain_text(tree: Tree) -> str:
    """The words of a tree, without its elements."""
    if isinstance(tree, str):
        return tree
    return "".join(plain_text(child) for child in tree[2:])
