"""What can be wrong with the writing itself: one function a code, its own words.

These are found while names, terms and numbers are resolved, before any row is worked.
"""

from __future__ import annotations

from loopwright.diagnostics import ADVICE, Diagnostic, Edit, Related, rule
from loopwright.source import Span
from loopwright.trade.terms import Terms, other

WRITING = "writing"
SAME_MEANING = ("miss", "tension")


@rule("not-understood", WRITING)
def not_understood(
    span: Span,
    found: str,
    could_be: str,
    hints: tuple[str, ...] = (),
    edits: tuple[Edit, ...] = (),
) -> Diagnostic:
    """A line is written in a way that the notation does not have.

    What cannot be read cannot be checked, and a maker would have to guess as well. The message
    names what stands there and what could stand there in its place.

    Breaks:
        pattern: Tideline Swatch
        terms: UK
        part swatch: flat
        start: ch 11
        row 1: dc in 2nd ch from hook, dc in each ch accross = 10 sts
    Keeps:
        pattern: Tideline Swatch
        terms: UK
        part swatch: flat
        start: ch 11
        row 1: dc in 2nd ch from hook, dc in each ch across = 10 sts
    """
    what = f"`{found}` cannot stand here." if found else "The line stops too soon."
    if found == "this":
        what = "This cannot stand here."
    text = f"{what} {could_be}".strip()
    return Diagnostic("not-understood", "error", span, text, hints, edits=edits)


def written_otherwise(span: Span, text: str, hint: str, edits: tuple[Edit, ...]) -> Diagnostic:
    """What makers write otherwise than the notation does."""
    return Diagnostic("not-understood", "error", span, text, (hint,), edits=edits)


def square_brackets(terms: Terms) -> str:
    """How a repeat is written, with stitches of the pattern's own terms."""
    tall = terms.short["long"]
    return f"Write a repeat in square brackets: `[3 {tall}, fp{tall}] 7 times` or `[...] around`."


@rule("unknown-name", WRITING)
def unknown_name(span: Span, what: str, name: str, near: str | None, known: str) -> Diagnostic:
    """A name is used that no line of the pattern gives.

    A count, yarn, hook, gauge or part must have its own line before anything can refer to it;
    otherwise the maker meets a word that means nothing.

    Breaks:
        pattern: Tideline Swatch
        terms: UK
        count body: 10
        part swatch: flat
        start: ch {bodie + 1}
        row 1: dc in 2nd ch from hook, dc in each ch across = body sts
    Keeps:
        pattern: Tideline Swatch
        terms: UK
        count body: 10
        part swatch: flat
        start: ch {body + 1}
        row 1: dc in 2nd ch from hook, dc in each ch across = body sts
    """
    hints = [f"Did you mean `{near}`?"] if near else [known] if known else []
    text = f"There is no {what} called `{name}` in this pattern."
    edits = (Edit(span, near),) if near else ()
    return Diagnostic("unknown-name", "error", span, text, tuple(hints), edits=edits)


@rule("cannot-use", WRITING)
def cannot_use(span: Span, file: str, why: str, hint: str) -> Diagnostic:
    """A `use` line names a file that cannot be used.

    Yarns, hooks, gauges and stitches of the house are written once, in a file of the same
    repository, and `use` brings them into a pattern. The file is named by its path from the
    pattern's own folder; it is there, it lies inside the repository, it does not use the pattern
    in turn, and what it says is right itself.

    Breaks:
        pattern: Tideline Swatch
        terms: UK
        use: ../shared/no-such-file.crochet
        part swatch: flat, yarn slate
        start: ch 11
        row 1: dc in 2nd ch from hook, dc in each ch across = 10 sts
    Keeps:
        pattern: Tideline Swatch
        terms: UK
        yarn slate: "DK wool"
        part swatch: flat, yarn slate
        start: ch 11
        row 1: dc in 2nd ch from hook, dc in each ch across = 10 sts
    """
    path = "Write the path from this file's own folder, as in `use: ../shared/house.crochet`."
    return Diagnostic(
        "cannot-use", "error", span, f"`{file}` cannot be used: {why}.", (hint or path,)
    )


def used_is_faulty(span: Span, file: str, fault: Diagnostic) -> Diagnostic:
    """A file that is used and has something wrong with it."""
    text = f"`{file}` cannot be used as it stands: there is something wrong with it."
    here = Related(fault.span, f"{fault.code}: {fault.text.rstrip('.')}")
    # Where that is a file further on, the slip itself is there.
    related = fault.related if fault.code == "cannot-use" and fault.related else (here,)
    hint = f"Put `{file}` right first."
    return Diagnostic("cannot-use", "error", span, text, (hint,), related=related)


def of_other_sizes(span: Span, what: str, name: str, file: str) -> Diagnostic:
    """Something used that has a value for each of other sizes."""
    text = (
        f"The {what} `{name}` of `{file}` has a number for each size there, and this pattern has"
        " other sizes."
    )
    hint = f"Name the sizes alike in both, or give the {what} a line and a name of its own here."
    return Diagnostic("cannot-use", "error", span, text, (hint,))


@rule("unknown-stitch", WRITING)
def unknown_stitch(
    span: Span, word: str, terms: Terms, near: tuple[str, ...], *, sure: bool
) -> Diagnostic:
    """A word stands where a stitch should, and is none.

    Neither the terms of the pattern nor its own `stitch` lines have the word, so a maker would
    not know what to make.

    Breaks:
        pattern: Tideline Swatch
        terms: UK
        part swatch: flat
        start: ch 11
        row 1: dcc in 2nd ch from hook, dc in each ch across = 10 sts
    Keeps:
        pattern: Tideline Swatch
        terms: UK
        part swatch: flat
        start: ch 11
        row 1: dc in 2nd ch from hook, dc in each ch across = 10 sts
    """
    own = f"stitch {word}: (3 {terms.short['long']}, ch 1, 3 {terms.short['long']}) in next st"
    hints = (f"Did you mean {' or '.join(f'`{one}`' for one in near)}?",) if near else ()
    if not sure:
        hints = (*hints, f"A stitch of your own needs a line such as `{own}`.")
    text = f"`{word}` is not a stitch in {terms.name} terms, nor one of this pattern's own."
    edits = (Edit(span, near[0]),) if near else ()
    return Diagnostic("unknown-stitch", "error", span, text, hints, edits=edits)


def how_many_evenly(span: Span, terms: Terms) -> Diagnostic:
    """Stitches that are to be spread, without a number."""
    plain = terms.short["plain"]
    text = "`evenly` does not say how many are to be spread."
    hint = f"Write the number first, as in `24 {plain} evenly`."
    return Diagnostic("unknown-stitch", "error", span, text, (hint,))


def no_place(span: Span, word: str, terms: Terms) -> Diagnostic:
    """A word that a place is called by, where the stitch or space that is there should be named."""
    text = f"`{word}` does not say what stands there: it is no stitch in {terms.name} terms, nor one of this pattern's own."
    hints = (
        "Name what is there, as in `in next st` or `in next ch-2 sp`.",
        f"To find a place again by name, write `mark {word}` after its stitch in the row below, and `in marked {word}` here.",
    )
    return Diagnostic("unknown-stitch", "error", span, text, hints)


def not_defined(span: Span, word: str, terms: Terms, *, counted: bool) -> Diagnostic:
    """A stitch of the designer's own that is counted, or worked into, and has no line of its own."""
    single = word.removesuffix("s")
    none = ", so none can be counted" if counted else ""
    text = f"No stitch of the name `{single}` is defined in this pattern{none}."
    own = f"stitch {single}: 5 {terms.short['long']} in next st"
    hints = (
        f"Give it a line such as `{own}`, and write `{single}` where it is worked.",
        f"Or count what it is made of, as in `= 15 {terms.short['long']}`." if counted else "",
    )
    return Diagnostic("unknown-stitch", "error", span, text, tuple(filter(None, hints)))


def which_stitch(span: Span, word: str, terms: Terms) -> Diagnostic:
    """A word that means any stitch, where one should be made."""
    hint = f"Name the stitch, as in `{terms.short['plain']}`."
    text = f"`{word}` does not say which stitch."
    return Diagnostic("unknown-stitch", "error", span, text, (hint,))


def how_many(span: Span, word: str, written: str, terms: Terms) -> Diagnostic:
    """A cluster, a picot or the like that does not say how many of what it is made of."""
    example = written.format(terms.short["long"])
    text = f"`{word}` does not say how many of what it is made of."
    own = f"or describe it in a line such as `stitch {word}: (3 {terms.short['long']}, ch 1, 3 {terms.short['long']}) in next st`"
    hint = f"Write it as in `{example}`, {own}."
    return Diagnostic("unknown-stitch", "error", span, text, (hint,))


def shell(many: Span, form: Span, stitches: str) -> Diagnostic:
    """A shell with the number of its stitches before it, as a cluster has."""
    span = Span(many.start, form.end)
    text = "A shell is no stitch of its own: its stitches are worked in one place."
    hint = f"Write `{stitches} in next st`, or give the shell a name in a line such as `stitch shell: {stitches} in next st`."
    return Diagnostic("unknown-stitch", "error", span, text, (hint,))


@rule("other-terms", WRITING)
def other_terms(span: Span, word: str, terms: Terms, here: str) -> Diagnostic:
    """A word of the other country's terms stands in the pattern.

    UK and US use the same words for different stitches, so a pattern must keep to one of them:
    a single word of the other sort puts every stitch in doubt.

    Breaks:
        pattern: Tideline Swatch
        terms: UK
        part swatch: flat
        start: ch 11
        row 1: sc in 2nd ch from hook, dc in each ch across = 10 sts
    Keeps:
        pattern: Tideline Swatch
        terms: UK
        part swatch: flat
        start: ch 11
        row 1: dc in 2nd ch from hook, dc in each ch across = 10 sts
    """
    there = other(terms).name
    text = f"`{word}` is a {there} word, and this pattern is in {terms.name} terms."
    whole = f"if the whole pattern is in {there} terms, write `terms: {there}`."
    hint = f"In {terms.name} terms that is `{here}`; or, {whole}" if here else f"I{whole[1:]}"
    # `miss` and `tension` mean the same in both; a stitch may be a slip for another stitch.
    edits = (Edit(span, here, word in SAME_MEANING),) if here else ()
    return Diagnostic("other-terms", "error", span, text, (hint,), edits=edits)


@rule("name-taken", WRITING)
def name_taken(span: Span, what: str, name: str, first: Span | None) -> Diagnostic:
    """A name is given twice, or is a word of the notation.

    Two things under one name leave open which of them a row means.

    Breaks:
        pattern: Tideline Swatch
        terms: UK
        count body: 10
        count body: 12
        part swatch: flat
        start: ch {body + 1}
        row 1: dc in 2nd ch from hook, dc in each ch across = body sts
    Keeps:
        pattern: Tideline Swatch
        terms: UK
        count body: 10
        part swatch: flat
        start: ch {body + 1}
        row 1: dc in 2nd ch from hook, dc in each ch across = body sts
    """
    related = (Related(first, f"`{name}` is given here first"),) if first else ()
    hint = "Choose another name."
    if what == "line":
        text = f"There is a `{name}` line already, and there can be one only."
        hint = "Take one of the two out."
    elif first:
        text = f"There is a {what} called `{name}` already."
    else:
        text = f"`{name}` is a word of the notation, and cannot be the name of a {what}."
    return Diagnostic("name-taken", "error", span, text, (hint,), related=related)


@rule("missing-line", WRITING)
def missing_line(span: Span, text: str, hint: str) -> Diagnostic:
    """A line that the pattern needs is not there.

    Every pattern has a title, its terms and at least one part, and every part says how it starts:
    without the terms no stitch has a meaning, without a start there is nothing to work into. A
    length becomes rows only through a gauge that gives rows.

    Breaks:
        pattern: Tideline Swatch
        part swatch: flat
        start: ch 11
        row 1: ch 1
    Keeps:
        pattern: Tideline Swatch
        terms: UK
        part swatch: flat
        start: ch 11
        row 1: dc in 2nd ch from hook, dc in each ch across = 10 sts
    """
    return Diagnostic("missing-line", "error", span, text, (hint,))


@rule("unused-name", WRITING, ADVICE)
def unused_name(span: Span, what: str, name: str) -> Diagnostic:
    """A name is given and never used.

    Either it is left over, or a row that should use it has a number written out instead, which
    will not follow when the name's value changes.

    Breaks:
        pattern: Tideline Swatch
        terms: UK
        count body: 10
        part swatch: flat
        start: ch 11
        row 1: dc in 2nd ch from hook, dc in each ch across = 10 sts
    Keeps:
        pattern: Tideline Swatch
        terms: UK
        count body: 10
        part swatch: flat
        start: ch {body + 1}
        row 1: dc in 2nd ch from hook, dc in each ch across = body sts
    """
    text = f"The {what} `{name}` is not used anywhere."
    return Diagnostic("unused-name", ADVICE, span, text, ("Use it, or take the line out.",))


@rule("not-in-this-edition", WRITING)
def not_in_this_edition(span: Span, text: str, hint: str) -> Diagnostic:
    """Something that this edition of the notation does not have.

    It is said plainly, so that nobody takes an unchecked row for a checked one.

    Breaks:
        pattern: Tideline Swatch
        terms: UK
        part swatch: flat
        start: ch 11
        row 1: tss in each ch across
    Keeps:
        pattern: Tideline Swatch
        terms: UK
        part swatch: flat
        start: ch 11
        row 1: dc in 2nd ch from hook, dc in each ch across = 10 sts
    """
    return Diagnostic("not-in-this-edition", "error", span, text, (hint,))


@rule("yarn-unused", "materials", ADVICE)
def yarn_unused(span: Span, name: str) -> Diagnostic:
    """A yarn is listed and no part uses it.

    The maker buys what the list says; the kit holds a ball that nothing is made of.

    Breaks:
        pattern: Tideline Swatch
        terms: UK
        yarn slate: "DK wool"
        yarn foam: "DK wool"
        part swatch: flat, yarn slate
        start: ch 11
        row 1: dc in 2nd ch from hook, dc in each ch across = 10 sts
    Keeps:
        pattern: Tideline Swatch
        terms: UK
        yarn slate: "DK wool"
        part swatch: flat, yarn slate
        start: ch 11
        row 1: dc in 2nd ch from hook, dc in each ch across = 10 sts
    """
    text = f"The yarn `{name}` is not used by any part."
    hint = f"Write `yarn {name}` on the part that uses it, or take the line out."
    return Diagnostic("yarn-unused", ADVICE, span, text, (hint,))


@rule("hook-unused", "materials", ADVICE)
def hook_unused(span: Span, name: str) -> Diagnostic:
    """A hook is listed and neither a part nor a gauge uses it.

    The maker lays out a hook and waits to be told when to change to it.

    Breaks:
        pattern: Tideline Swatch
        terms: UK
        hook small: 4 mm
        part swatch: flat
        start: ch 11
        row 1: dc in 2nd ch from hook, dc in each ch across = 10 sts
    Keeps:
        pattern: Tideline Swatch
        terms: UK
        hook small: 4 mm
        part swatch: flat, hook small
        start: ch 11
        row 1: dc in 2nd ch from hook, dc in each ch across = 10 sts
    """
    text = f"The hook `{name}` is not used by any part or gauge."
    hint = f"Write `hook {name}` on the part that uses it, or take the line out."
    return Diagnostic("hook-unused", ADVICE, span, text, (hint,))


@rule("untranslated-term", "text", ADVICE)
def untranslated_term(span: Span, word: str) -> Diagnostic:
    """A stitch word in free text, outside braces.

    The other country's sheet prints free text as it stands, where the same word is another
    stitch. In braces it is translated with the rest.

    Breaks:
        pattern: Tideline Swatch
        terms: UK
        part swatch: flat
        start: ch 11
        row 1: dc in 2nd ch from hook, dc in each ch across = 10 sts
        note: The tr are worked loosely.
    Keeps:
        pattern: Tideline Swatch
        terms: UK
        part swatch: flat
        start: ch 11
        row 1: dc in 2nd ch from hook, dc in each ch across = 10 sts
        note: The {tr} are worked loosely.
    """
    text = f"`{word}` is a stitch, and in free text it is not translated."
    edits = (Edit(span, f"{{{word}}}", safe=True),)
    return Diagnostic(
        "untranslated-term", ADVICE, span, text, (f"Write `{{{word}}}`.",), edits=edits
    )
