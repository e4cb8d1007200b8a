"""Lines that makers write otherwise, read as they are meant.

    row 2: Ch 1, dc in every st to end.  ->  row 2: ch 1, dc in each st across

A habit of the table (``habits``) is taken where the line can be read further for it, and then the
next, until the line can be read or nothing helps any more. What is found is one message: the
first slip, and one change of the text for all of them.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache

from loopwright.diagnostics import Diagnostic, Edit
from loopwright.frozen import NamedTuple
from loopwright.lower import faults, habits
from loopwright.lower.context import Context
from loopwright.lower.habits import Habit
from loopwright.source import Span
from loopwright.syntax import lines as syntax
from loopwright.syntax.parser import parse
from loopwright.syntax.tree import Misread
from loopwright.trade.stitches import BASICS
from loopwright.trade.terms import TERMS, Terms, other, stitch_of

LONGEST = 1000
"""Characters of a line that is looked through; a longer one is not what a habit makes unreadable."""

MOST_STEPS = 16
"""Slips of one line that are looked for."""

LONGEST_SHOWN = 100
"""Characters of a line that is shown whole in a hint."""

NUMBER = r"(?:\d+(?:\s?\(\d+(?:\s*,\s*\d+)MORE\))?|\{[^{}]*\})"
ONE_NUMBER = r"(?:\d+|\{[^{}]*\})"
ENDING = r'(?=\s*(?:["#=]|\Z))'
OFTEN = rf"(?:\d+(?=\s?\(\d+\)\.?{ENDING})|NUMBER)"
REST = r'(?:(?!\s[-–—]\s|\s\d+ (?:sts?|stitches|[a-z]{2,4})\b)[^,=.;"#\n()])*'
"""The rest of an item, but for a count that follows it without a comma."""
_PLAIN = re.compile(r"[a-z]+(?: [a-z]+)*")
_WORD = re.compile(r"[a-z][a-z0-9]*")
_LABEL = re.compile(r"\s*([A-Za-z]+)")


class Slip(NamedTuple):
    """One habit found in a line: the stretch, what stands there and what is meant by it."""

    habit: Habit
    start: int
    end: int
    old: str
    new: str
    text: str
    hint: str

    def mend(self, text: str) -> str:
        """The text with the slip mended."""
        return text[: self.start] + self.new + text[self.end :]

    def before(self, at: int) -> int:
        """The place in the line as written of a place in the line as mended."""
        if at <= self.start:
            return at
        if at >= self.start + len(self.new):
            return at - len(self.new) + len(self.old)
        return min(at, self.end)


class Mended(NamedTuple):
    """A line with its slips mended: each of them, in a text in which those before it are mended,
    and the line as it is meant. ``whole`` where it can be read then; ``certain`` where nothing
    else can be meant by any of them."""

    slips: tuple[Slip, ...]
    text: str
    whole: bool
    certain: bool


class _Reading(NamedTuple):
    """How far a text can be read: to ``at``, or, where it is ``whole``, to its end."""

    at: int
    end: int
    whole: bool = False


def mended(ctx: Context, line: syntax.Line) -> Mended | None:
    """A line that could not be read, as it was probably meant; None where no habit helps."""
    if line.start in ctx.mended:
        known = ctx.mended[line.start]
        assert known is None or isinstance(known, Mended)
        return known
    if line.misread is None or line.misread.reason not in ("", "label", "capital"):
        return None
    if len(line.text) > LONGEST:
        return None
    found = ctx.mended[line.start] = _mended(ctx, line.text)
    return found


def _mended(ctx: Context, text: str) -> Mended | None:
    label = _LABEL.match(text)
    if label is not None and label[1].lower() in syntax.LABELS:
        text = text[: label.start(1)] + label[1].lower() + text[label.end(1) :]
    slips: list[Slip] = []
    written = text
    far = reading(text)
    while not far.whole and len(slips) < MOST_STEPS:
        step = _step(ctx, text, far)
        if step is None:
            break
        slip, text, far = step
        slips.append(slip)
    if not slips:
        return None
    if far.whole:
        more, text = _names(ctx, text)
        slips.extend(more)
    certain = all(one.habit.certain for one in slips) and not _either(ctx, written)
    return Mended(tuple(slips), text, far.whole, certain)


def _names(ctx: Context, text: str) -> tuple[list[Slip], str]:
    """A line that can be read, with the names of stitches in it as the notation writes them."""
    slips: list[Slip] = []
    for habit in (*_spoken(ctx.terms.name), *habits.SMALL):
        for match in list(places_of(ctx, habit, text, _items_end(text)))[::-1]:
            slip = slip_at(ctx, habit, match, text)
            better = slip.mend(text)
            small = habit in habits.SMALL
            if small and slip.new != "st" and stitch_of(slip.new, ctx.terms) is None:
                continue
            if slip.new != slip.old and habit.certain and reading(better).whole:
                slips.append(slip)
                text = better
    return slips, text


def _items_end(text: str) -> int:
    """Where the items of a line end, and a remark or a comment begins."""
    return min(text.find(sign) % (len(text) + 1) for sign in '"#')


def _step(ctx: Context, text: str, far: _Reading) -> tuple[Slip, str, _Reading] | None:
    """The first habit for which the text can be read further, with the text and its reading."""
    for habit in habits_of(rule_of(text), ctx.terms.name):
        for match in places_of(ctx, habit, text, far.end):
            if ctx.tries <= 0:
                return None
            slip = slip_at(ctx, habit, match, text)
            if slip.new == slip.old:
                continue
            ctx.tries -= 1
            better = slip.mend(text)
            got = reading(better)
            if got.whole or got.at > _moved(far.at, slip):
                return slip, better, got
    return None


def _moved(at: int, slip: Slip) -> int:
    """The place up to which no progress has been made: where reading stopped before, or the end of
    what stands there now in its place."""
    if slip.end <= at:
        return at + len(slip.new) - len(slip.old)
    return min(at, slip.start + len(slip.new) - 1)


def rule_of(text: str) -> str:
    """The rule that reads a line with this text; empty for free text and an unknown label."""
    label = _LABEL.match(text)
    return syntax.START_RULES.get(label[1], "") if label is not None else ""


def reading(text: str) -> _Reading:
    """How far a line with this text can be read."""
    rule = rule_of(text)
    if rule:
        tree = parse(rule, text)
        if not isinstance(tree, Misread):
            return _Reading(len(text), len(text), True)
        return _Reading(tree.start, tree.end)
    label = _LABEL.match(text)
    if label is None or label[1] not in syntax.LABELS:
        return _Reading(0, 1)
    free = text[label.end() :].lstrip().startswith(":")
    return _Reading(len(text), len(text), True) if free else _Reading(label.end(), label.end() + 1)


@cache
def habits_of(rule: str, terms: str) -> tuple[Habit, ...]:
    """The habits that are tried on a line of a rule, in the order they are tried."""
    if not rule:
        return (*habits.LABELS, *habits.NAMES)
    if rule == "sizes_line":
        return habits.OF_SIZES
    if rule == "use_line":
        return (*habits.SIGNS[:1], *habits.OF_USES)
    own = habits.BY_RULE.get(rule, habits.NAMES)
    spoken = _spoken(terms) if rule in habits.WITH_STITCHES else ()
    return (*habits.SIGNS, *habits.OF_SIZES, *spoken, *own, *habits.SMALL)


def _spoken(terms: str) -> tuple[Habit, ...]:
    """The stitches' names in full, of these terms and then of the other ones, and plurals."""
    own = TERMS[terms]
    names = {short: Habit(rf"\b{short}s\b", short) for short in own.short.values()}
    for one in (own, other(own)):
        for basic, full in one.full.items():
            # A treble is one with and without `crochet` after it, whichever the terms print.
            name = full.removesuffix(" crochet") if "treble" in full else full
            written = rf"\b{name}(?: crochet)?s?\b" if "treble" in full else rf"\b{name}s?\b"
            names.setdefault(name, Habit(written, one.short[basic], certain=one is own))
    return tuple(names[name] for name in sorted(names, key=len, reverse=True))


def places_of(ctx: Context, habit: Habit, text: str, end: int) -> Iterator[re.Match[str]]:
    """Where a habit stands in a text, as far as the place where reading stopped."""
    sizes = len(ctx.sizes) if ctx.sizes_known else 0
    for match in _pattern(habit.written, sizes).finditer(text):
        if match.start() > end:
            return
        yield match


@cache
def _pattern(written: str, sizes: int) -> re.Pattern[str]:
    """What a habit looks for in a pattern of so many sizes; nought where that is not known."""
    if _PLAIN.fullmatch(written):
        return re.compile(rf"(?<![\w-]){written}(?![\w-])", re.IGNORECASE)
    more = f"{{{sizes - 2}}}" if sizes > 1 else "*"
    number = ONE_NUMBER if sizes == 1 else NUMBER.replace("MORE", more)
    whole = written.replace("OFTEN", OFTEN).replace("NUMBER", number)
    whole = whole.replace("ENDING", ENDING).replace("REST", REST)
    return re.compile(whole, re.IGNORECASE)


def _either(ctx: Context, text: str) -> bool:
    """Whether a number in brackets at the end may be the row's count or the other size's."""
    of_two = len(ctx.sizes) == 2 or not ctx.sizes_known
    return of_two and re.search(rf"[x×*] ?\d+\s?\(\d+\)\.?{ENDING}", text) is not None


# ----------------------------------------------------------------------- one slip


def slip_at(ctx: Context, habit: Habit, match: re.Match[str], text: str) -> Slip:
    new = _meant(habit.meant, match, text, ctx.terms, ctx.in_rounds)
    old = match.group()
    if new and not new[-1].isspace():
        new += old[len(old.rstrip()) :]
    shown, meant = old.strip(), new.strip()
    if habit.why:
        why = _meant(habit.why, match, text, ctx.terms)
    elif meant:
        why = f"The notation writes `{meant}` for `{shown}`."
    else:
        why = f"`{shown}` is not needed here."
    hint = _meant(habit.hint, match, text, ctx.terms)
    if not hint:
        hint = f"Write `{meant}`." if meant else f"Take `{shown}` out."
    return Slip(habit, match.start(), match.end(), old, new, why, hint)


def _meant(
    meant: str, match: re.Match[str], text: str, terms: Terms, in_rounds: bool = False
) -> str:
    """What is meant by a habit, where it was found."""
    if meant == "<small>":
        return match.group().lower()
    if "\\" in meant:
        meant = match.expand(re.sub(r"\\(?!\d)", r"\\\\", meant))
    if "<" not in meant:
        return meant
    label = r"\s*(?:repeat |next |setup |last |foundation )*(?:round|rnd)"
    unsaid = in_rounds and re.match(r"\s*r\d", text, re.IGNORECASE)
    word = "round" if unsaid or re.match(label, text, re.IGNORECASE) else "row"
    for name, value in (
        ("<row>", word),
        ("<end>", "around" if word == "round" else "across"),
        ("<st>", _stitch_before(text, match.start(), terms)),
        ("<height>", _as_high(match.group(), terms)),
    ):
        meant = meant.replace(name, value)
    return meant


def _stitch_before(text: str, at: int, terms: Terms) -> str:
    """The stitch named last before a place of a line, or first after it, or the plain one."""
    found = [(one.start(), stitch_of(one.group(), terms)) for one in _WORD.finditer(text)]
    named = [(start, stitch) for start, stitch in found if stitch is not None]
    before = [stitch for start, stitch in named if start < at][-1:]
    after = [stitch for start, stitch in named if start >= at][:1]
    near = [*before, *after]
    return terms.short[near[0].basic if near else "plain"]


def _as_high(text: str, terms: Terms) -> str:
    """The stitch as high as the chain in a text."""
    digits = re.search(r"\d+", text)
    high = int(digits.group()) if digits and len(digits.group()) < 3 else 1
    basic = next((name for name, one in BASICS.items() if one.height == high), "plain")
    return terms.short[basic]


# -------------------------------------------------------------------- the message


def told(line: syntax.Line, found: Mended, at: int = 0) -> Diagnostic:
    """The message for a line that was written otherwise: the first of its slips, or that ``at``
    a place among them."""
    slip = found.slips[at]
    for before in found.slips[:at][::-1]:
        slip = slip._replace(start=before.before(slip.start))
    inner = len(slip.old) - len(slip.old.lstrip())
    start = line.start + slip.start + (inner if slip.old.strip() else 0)
    span = Span(start, start + max(len(slip.old.strip()), 1))
    hint = slip.hint
    if not at and len(found.slips) > 1 and found.whole:
        shown = " ".join(found.text.split())
        hint = (
            f"{slip.hint[:-1]}; the whole line is then `{shown}`."
            if len(shown) <= LONGEST_SHOWN
            else hint
        )
    return faults.written_otherwise(span, slip.text, hint, edits(line, found))


def edits(line: syntax.Line, found: Mended) -> tuple[Edit, ...]:
    """The change of the text from a line as written to the line as meant."""
    old, new = line.text, found.text
    if not found.certain and not found.slips[0].new.strip():
        return ()  # what is taken out here has to stand elsewhere
    if not found.whole:
        slip = found.slips[0]
        span = Span(line.start + slip.start, line.start + slip.end)
        return (Edit(span, slip.new, slip.habit.certain and bool(slip.new.strip())),)
    start = _alike(old, new)
    end = min(_alike(old[::-1], new[::-1]), len(old) - start, len(new) - start)
    span = Span(line.start + start, line.start + len(old) - end)
    return (Edit(span, new[start : len(new) - end], found.certain),)


def _alike(old: str, new: str) -> int:
    """How many characters two texts begin with alike, up to the end of a word."""
    least = min(len(old), len(new))
    alike = next((at for at in range(least) if old[at] != new[at]), least)
    while alike and old[alike - 1].isalnum():
        alike -= 1
    return alike


def read_as_meant(ctx: Context, line: syntax.Line) -> syntax.Line:
    """A line that was written otherwise and can only mean one thing, read so: it is worked like
    any other. Its text stays as it was written."""
    found = mended(ctx, line)
    if found is None or not (found.whole and found.certain):
        return line
    label = _LABEL.match(found.text)
    rule = rule_of(found.text)
    assert label is not None
    if rule:
        tree = parse(rule, found.text)
        assert not isinstance(tree, Misread)
        ctx.moved = found.slips[::-1]
        return line._replace(label=label[1], tree=tree, misread=None)
    colon = found.text.index(":") + 1
    content = found.text[colon:]
    at = line.start + len(line.text) - len(content)
    return line._replace(label=label[1], misread=None, content=content, content_at=at)
