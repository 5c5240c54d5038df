"""A plan text changed in one place."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from seamwright.errors import InputError
from seamwright.io.desk.edit import add_row, remove_row, replace_row, replace_section
from seamwright.io.plan import builtin_house, builtin_house_names
from seamwright.io.yaml_text import read_yaml

HOUSES = [builtin_house(name) for name in builtin_house_names()]
WORDS = st.text("ab:#'\"{}[]-, é", min_size=1, max_size=12).filter(lambda t: t.strip() == t)


def rows(text: str, section: str) -> list[object]:
    """Return the rows of a section as read."""
    tree = read_yaml(text.encode(), what="plan").tree
    assert isinstance(tree, dict)
    held = tree.get(section)
    return list(held) if isinstance(held, list) else []


@settings(derandomize=True, max_examples=40, deadline=None)
@given(text=st.sampled_from(HOUSES), words=st.lists(WORDS, min_size=1, max_size=3))
def test_rows_added_and_removed_leave_every_other_letter(text: str, words: list[str]) -> None:
    """Whatever the words, they read back as given, and taking them out gives the text as it was."""
    before = rows(text, "overrides")
    changed = text
    for word in words:
        changed = add_row(changed, "overrides", {"joint": "A.1-A.2", "reason": word})
    assert rows(changed, "overrides")[len(before) :] == [
        {"joint": "A.1-A.2", "reason": word} for word in words
    ]
    for line in text.splitlines():
        assert line in changed
    if before:
        for _ in words:
            changed = remove_row(changed, "overrides", len(before))
        assert changed == text


def test_a_row_is_replaced_where_it_stands() -> None:
    """Comments around it and the rows beside it stay."""
    text = "a: 1\nrows:  # first\n  - {x: 1}\n  # between\n  - x: 2\n    y: 3\n# after\nb: 2\n"
    changed = replace_row(text, "rows", 1, {"x": "4"})
    assert changed == text.replace("  - x: 2\n    y: 3\n", '  - {x: "4"}\n')
    assert remove_row(text, "rows", 0) == text.replace("  - {x: 1}\n", "")


def test_rows_in_braces_get_lines_of_their_own() -> None:
    """A list on one line is opened up before a row is added."""
    text = "rows: [{x: 1}, {x: 2}]\nb: 2\n"
    assert add_row(text, "rows", {"x": "a"}) == "rows:\n  - {x: 1}\n  - {x: 2}\n  - {x: a}\nb: 2\n"


def test_the_last_row_leaves_an_empty_list() -> None:
    """And a row added to an empty list opens it again."""
    text = "rows:\n- {x: 1}\nb: 2\n"
    empty = remove_row(text, "rows", 0)
    assert empty == "rows: []\nb: 2\n"
    assert rows(add_row(empty, "rows", {"x": "a"}), "rows") == [{"x": "a"}]


def test_a_section_is_replaced_whole() -> None:
    """Its own lines go, comments that follow stay; a new one comes at the end."""
    text = "a:\n  b: 1\n  c: 2  # here\n\n# of d\nd: 3\n"
    assert replace_section(text, "a", "a: 5\n") == "a: 5\n\n# of d\nd: 3\n"
    assert replace_section(text, "e", "e: 5\n") == f"{text}\ne: 5\n"


@pytest.mark.parametrize("text", ["{a: 1, b: 2}\n", "- a\n", "a: [\n"])
def test_a_plan_without_lines_of_its_own_is_told(text: str) -> None:
    """Braces around everything leave no line to change."""
    with pytest.raises(InputError, match="written all in braces"):
        add_row(text, "rows", {"x": "1"})
