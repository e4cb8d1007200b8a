"""Text in markup is written as the standard library writes it."""

from __future__ import annotations

from html import escape as standard

from hypothesis import given
from hypothesis import strategies as st

from loopwright.render.markup import escape


@given(st.text(st.one_of(st.sampled_from("&<>\"';#x27"), st.characters())))
def test_it_is_what_the_standard_library_writes(text: str) -> None:
    assert escape(text) == standard(text)


def test_by_hand() -> None:
    assert escape("A & B < C > \"D\" 'E'") == "A &amp; B &lt; C &gt; &quot;D&quot; &#x27;E&#x27;"
