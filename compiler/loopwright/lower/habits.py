"""How makers write what the notation writes in one way: one table of data, read by ``mending``.

A line of the table is what was written and what is meant. Plain words stand for themselves; the
rest are regular expressions, in which

    NUMBER   a number, in a pattern of several sizes with one in brackets for each further one
    OFTEN    the same, but that one alone in brackets that ends the line is the row's count
    ENDING   is at the end of the line, before a count, a remark or a comment

and in what is meant ``\\1`` is the first group, ``<end>`` is `around` or `across`, ``<st>`` the
stitch named last in the line (or the plain one), and ``<height>`` the stitch as high as the chain
before it. A habit is tried only on a line that cannot be read, and only taken where the line can
be read further for it; the first that helps is taken. It is ``certain`` where nothing else can be
meant. All of it is common practice, with no source.
"""

from __future__ import annotations

from loopwright.frozen import NamedTuple


class Habit(NamedTuple):
    """What was written, what is meant by it; ``why`` is said in place of "the notation writes".
    ``hint`` is the mend in words where it is not just to write the other."""

    written: str
    meant: str
    why: str = ""
    hint: str = ""
    certain: bool = True


def guess(written: str, meant: str, why: str = "", hint: str = "") -> Habit:
    """A habit by which something else could be meant."""
    return Habit(written, meant, why, hint, certain=False)


ROUND_REPEAT = "A repeat stands in square brackets; round ones hold what goes into one place."
WHICH = "`inc` and `dec` do not say which stitch."
EVERY_OTHER = "A repeat says what is worked and what is passed over."
STARS = "A repeat stands in square brackets."
NO_STOP = "The notation has no full stops."
NAMED = r"A \1 has a name, by which the rest of the pattern refers to it."
A_YARN = NAMED.replace(r"\1", "yarn")
QUOTED = "What a yarn is called in the shop stands in quotation marks."
ONE_WORD = "A name is one word; a hyphen may join two."
JOINED = "The notation writes `join` for the slip stitch that closes a round."
ANY_PLACE = (
    "Where a round begins has to be said; where all of them are alike, it begins at the next."
)
COLON = "A colon stands after the label."
REMARK = "A remark stands at the end of the row, after its count; no item comes after it."
QUOTED_PATH = "A path with a space or a bracket in it stands in quotation marks."
SIZES = "The first size stands before the bracket, and the others in it."
COUNT = "The count of a row stands after `=`, with what is counted."

# fmt: off
SIGNS = (
    Habit(r'[“”„"]([^“”„"\n]*)[“”„]|“([^“”„"\n]*)"', r'"\1\2"', "Quotation marks are the plain ones here."),
    Habit("[–—−‐‑]", "-", "The dash is the plain one here."),
    Habit("[\u00a0\u2000-\u200a\u202f\u3000]", " ", "A space stands here that only looks like the plain one.", "Type a plain space."),
    Habit("[\u200b-\u200f\u2060\ufeff]", "", "A sign that cannot be seen stands here."),
    Habit("÷", "/"),
)
"""Signs of a word processor."""

LABELS = (
    Habit(r"^rnds(?=\s*\d)", "rounds"),
    Habit(r"^rnd(?=\s*\d)", "round"),
    Habit(r"^rds?(?=\s*\d)", "round"),
    Habit(r"^(\d+)(?:st|nd|rd|th) (row|round)\b", r"\2 \1"),
    Habit(r"^(\d+)(?:st|nd|rd|th) rnd\b", r"round \1"),
    Habit(r"^size(?=\s*:)", "sizes"),
    Habit(r"^foundation (row|round|rnd)(?=\s*:)", r"setup <row>"),
    Habit(r"^rep (?=(?:last )?(?:\d+ )?(?:rows?|rounds?|rnds?)\b)", "repeat "),
    guess(r"^r(\d+)(?=\s*[:.)-])", r"<row> \1", "A row's label is `row` or `round` and its number.", r"Write `row \1` or `round \1` for it."),
)
"""Labels; the line is in small letters as far as its colon."""

NAMES = (
    guess(r'^yarn\s*:\s*"([^"\n]*?)((?-i:\b[a-z]+))"', r'yarn \2: "\1\2"', A_YARN, r"Give the yarn a name, as in `yarn \2: ...`, and write `yarn \2` on the line of a part."),
    guess(r'^yarn\s*:\s*(?=")', "yarn wool: ", A_YARN, "Give the yarn a name, as in `yarn wool: ...`, and write `yarn wool` on the line of a part."),
    guess(r'^yarn\s*:\s*([^",:\n]*?)((?-i:\b[a-z]+))(?=\s*(?:[,#\n]|\Z))', r'yarn \2: "\1\2"', A_YARN, r'Give the yarn a name, and set the words in quotation marks, as in `yarn \2: "\1\2"`.'),
    guess(r'^yarn\s*:\s*([^",:\n]*[^",:\s])', r'yarn wool: "\1"', A_YARN, r'Give the yarn a name, and set the words in quotation marks, as in `yarn wool: "\1"`.'),
    Habit(r'^(yarn [\w-]+)\s*:\s*([^",:\n]*[^",:\s])', r'\1: "\2"', QUOTED),
    guess(r"^(hook|gauge|tension|measure|count|stitch)\s*:", r"\1 main:", NAMED, r"Give it a name, as in `\1 main: ...`."),
    guess(r"^part\s*:", "part main:", "A part has a name.", "Give it a name, as in `part main: ...`."),
    guess(r"^(part|yarn|hook|gauge|tension|measure|count|stitch) (\w+) (\w+) (\w+)(?=\s*:)", r"\1 \2-\3-\4", ONE_WORD, r"Write `\1 \2-\3-\4:`, and the same wherever the name stands."),
    guess(r"^(part|yarn|hook|gauge|tension|measure|count|stitch) (\w+) (\w+)(?=\s*:)", r"\1 \2-\3", ONE_WORD, r"Write `\1 \2-\3:`, and the same wherever the name stands."),
    Habit(r"^(part|yarn|hook|gauge|tension|measure|count|stitch) ([\w-]+)\s+(?![:\w-]+\s*:)", r"\1 \2: ", COLON),
    Habit(r"^(start|sizes|seam|gather|stripes|kit|pace|allowance)\s+(?!:)", r"\1: ", COLON),
    Habit(r"^(note|finish|pattern|terms|about|designer|skill|version|licence|notions|caution|changes|notation)\s+(?!:)", r"\1: ", COLON),
)
"""Lines that give a name."""

OF_YARNS = (
    Habit(r"(\d[\d.]*) ?(g|grams?|oz)\s*(?:,|/|:|is|are|per)\s*(\d[\d.]*) ?(m|met(?:re|er)s?|yds?|yards?)\b", r"\1 \2 = \3 \4", "What a ball weighs and how long it is are one fact."),
    Habit(r"(\d[\d.]*) ?(m|met(?:re|er)s?|yds?|yards?)\s*(?:,|/|:|=|is|are|per|to)\s*(\d[\d.]*) ?(g|grams?|oz)\b", r"\3 \4 = \1 \2", "What a ball weighs and how long it is are one fact."),
)
"""What is in a ball of yarn."""

OF_SIZES = (
    Habit(r"^sizes?\s*:\s*([^,(/\n#]*[^,(/\s#])\s*[,/]\s*([^(/\n#]*[^(/\s#])ENDING", r"sizes: \1 (\2)", SIZES),
    Habit(r"^sizes?\s*:\s*([^,(/\n#]*[^,(/\s#])\s*/\s*(\w+)\s*/\s*(\w+)ENDING", r"sizes: \1 (\2, \3)", SIZES),
    Habit(r"^sizes?\s*:\s*(\w+)\s*/\s*(\w+)\s*/\s*(\w+)\s*/\s*(\w+)ENDING", r"sizes: \1 (\2, \3, \4)", SIZES),
    guess(r"^(sizes?\s*:\s*(?:.*?[\s(])??\w+)/(\w+)", r"\1-\2", "The name of a size has no stroke; a hyphen may join two.", "Write a hyphen for the stroke, and the same wherever the size is named."),
    guess(r"(?<![\w.])(\d+) ?[-/] ?(\d+)(?= ?(?:m|mos?|mths?|months?|y|yrs?|years?)\b)", r"\1 to \2", "The name of a size has no sign between two numbers.", r"Write `\1 to \2`, and the same wherever the size is named."),
    Habit(r"(\d+) ?\[(\d+(?:\s*,\s*\d+)*)\]", r"\1 (\2)", "The numbers of the further sizes stand in round brackets."),
)
"""The sizes, and numbers for each of them."""

OF_USES = (
    Habit(r"^use\s+(?!:)", "use: ", COLON),
    Habit(r'(?<=use:)\s*((?:(?!\.crochet\b)[^"#\n])*\.crochet)(?=\s*(?:#|\Z))', r' "\1"', QUOTED_PATH),
)
"""A file that is used. What a path is made of is no slip of a word processor's."""

OF_PARTS = (
    Habit(r"(?:worked )?(?:flat )?(?:back and forth )?in (?:flat )?rows", "flat"),
    Habit(r"(?:worked )?back and forth|worked flat", "flat"),
    Habit(r"(?:worked )?in (?:joined|closed) (?:rounds|rnds)|worked in (?:rounds|rnds)|in rnds", "in rounds"),
    Habit(r"(?:worked )?in (?:a )?(?:continuous )?spirals?(?: (?:rounds|rnds))?|in continuous (?:rounds|rnds)|as a spiral", "in a spiral"),
    guess(r"(?:worked )?in the round", "in rounds", hint="Write `in rounds` where each round is joined, `in a spiral` where it is not."),
)
"""How a part is worked."""

OF_STRANDS = (
    Habit(r"\byarn ([\w-]+) (?:held )?doubled?\b", r"yarn \1 + \1", "Strands that are held together are joined by a plus."),
    Habit(r"\byarn (?:2|two) strands (?:of )?([\w-]+)(?: held)?(?: together)?", r"yarn \1 + \1", "Strands that are held together are joined by a plus."),
    Habit(r"\byarn ([\w-]+) (?:and|&) ([\w-]+)(?: held)? together\b", r"yarn \1 + \2", "Strands that are held together are joined by a plus."),
)
"""Two strands of yarn."""

OF_STARTS = (
    Habit(r"(?:make a |with a |a )?magic (?:circle|loop)|(?:make a |with a |a )magic ring|\bmr\b|\bmc\b", "magic ring"),
    Habit(r"(?:foundation )?chain (?:of )?(\d+)|make (\d+) ch(?:ain)?s?\b|\bch ?(\d+) ?(?:ch|sts)\b", r"ch \1\2\3"),
    Habit(r"(?<![\w-])(NUMBER) (?:chains?|chs?)(?=\s*(?:,|\Z|#|\n|then))", r"ch \1"),
    Habit(r"\bch-?(\d+)", r"ch \1"),
    Habit(r",? turn\b", "", "The work is not turned before the first row."),
    Habit(r", join\s*ENDING", ", join into ring"),
    Habit(r"(?:,| and)? ?(?:join(?:ed)?|close)(?: (?:with|by|using) (?:an? )?(?:sl ?st|ss|slip ?st(?:itch)?))\s*ENDING", ", join into ring"),
    Habit(r"(?:,| and)? ?(?:join(?:ed)?|sl st|slip stitch|ss|close)\b[^,#\n]*\b(?:ring|circle|loop|round|first ch(?:ain)?|1st ch(?:ain)?)\b[^,#\n]*", ", join into ring"),
)
"""Where a part begins."""

OF_GAUGES = (
    Habit(r"\s*(?:x|×|by|,|&)\s*(?=\d[\d.]* (?:rows?|rounds?)\b)", " and "),
    Habit(r"\s*(?:=|over|per)\s*(?=\d[\d.]* ?(?:cm|in|mm)\b)", " to "),
    Habit(r"(?:=|to|over|per) (\d[\d.]*) ?(?:\"|”|″)", r"to \1 in"),
    Habit(r"\b(cm|in|mm) (?:square|squared|sq)\b", r"\1"),
    Habit("stitches", "sts"),
)
"""A gauge."""

OF_MEASURES = (
    guess(r"^(measure [\w-]+\s*:\s*\d[\d.]*(?:\s?\([\d., ]+\))?)ENDING", r"\1 cm", "A length has its unit.", r"Write `cm` after it, or `in` for inches."),
    guess(r"^(measure [\w-]+\s*:\s*\d[\d.]*(?:\s?\([\d., ]+\))?) ?(?:\"|”|″)", r"\1 in"),
)
"""A measure."""

OF_COUNTS = (
    Habit(r"\bmultiples?(?: of)?(?= \d)", "multiple of"),
    Habit(r"(\bmultiple of \d+) ?(?:\+|and)(?= ?\d)", r"\1 plus"),
    Habit("[×x](?= ?[\\da-z{(])", "*"),
    Habit(r",? round(?= (?:up|down)\b)", ", rounded"),
)
"""A count."""

OF_LABELS_OF_ROWS = (
    guess(r'^([^"#]*[^\s",:#])\s*,?\s*("[^"\n]*")\s*,?\s*(?![\])=,;])([^"=#]*[^\s"=#,;])(\s*=[^"#]*[^\s"#])?', r"\1, \3\4 \2", REMARK, r"Write it there: `... \3\4 \2`."),
    guess(r'^([^"#]*[^\s",:#])\s*,?\s*("[^"\n]*")\s*,?\s*(?=[\])])([^"=#]*[^\s"=#,;])(\s*=[^"#]*[^\s"#])?', r"\1\3\4 \2", REMARK, r"Write it there: `... \3\4 \2`."),
    guess(r'^([^":#]*:)\s*("[^"\n]*")\s*,?\s*([^"=#]*[^\s"=#,;])(\s*=[^"#]*[^\s"#])?', r"\1 \3\4 \2", REMARK, r"Write it there: `... \3\4 \2`."),
    Habit(r"(?-i:\bWith) ([\w-]+)", r"with \1", "Words of the notation are written in small letters."),
    guess(r"\b(?:work(?:ing)? )?(?:in front of|behind) (?:the )?(?:sts?|stitch(?:es)?)\b[^,;.\"=#\n]*,?\s*", "", "On which side of other stitches the hook passes makes no difference to what is counted.", "Take it out, and say it in a remark in quotation marks at the end of the row."),
    guess(r"(?:change|switch|changing) to (?:yarn |colou?r )?(\w+)(?=\s*[,.;=]|ENDING)", r"with \1"),
    Habit(r"\b(\w+) (in(?:to)? \d+(?:st|nd|rd|th) ch(?:ain)? from (?:the )?hook),? and (?:in(?:to)? )?(?:each|every)\b", r"\1 \2, \1 in each"),
    Habit(r"^(next|setup|repeat|repeat last) (?:rnd|rd)(s?)\b", r"\1 round\2"),
    Habit(r"^((?:repeat )?)(?:row|round)(s?) (\d+) ?(?:to|through|thru) ?(\d+)", r"\1<row>s \3-\4"),
    Habit(r"^repeat (?:row|round)s? (\d+) ?(?:and|&|,) ?(\d+)", r"repeat <row>s \1-\2"),
    Habit(r"^((?:next|setup) (?:row|round)|(?:row|round)s? \d+(?:-\d+)?)\s*:\s*[(\[]?\s*(?:for )?(?:sizes? )?(\w+(?:, ?\w+)*) only\s*[)\]]?\s*[:,]?\s*", r"\1 (\2 only): ", "The sizes that a row is for stand before the colon."),
    Habit(r"^((?:repeat )?(?:rows?|rounds?) \d+(?:-\d+)?(?: \([^)\n]*\))?|repeat last(?: \d+)? (?:rows?|rounds?)|(?:next|setup) (?:row|round))(?:\s*[.)=]|\s+-(?!\d))?\s+(?![:(])", r"\1: ", COLON),
)
"""The label of a row, as far as its colon."""

OF_REPEATS = (
    Habit(r"\*\s*([^*;]*[^*;,.\s])\s*\*\s*[;,.]?\s*\b(?:rep|repeat) (?:from )?\* to \*(?: (?:to end|to the end|across|(?:a)?round))?(?: of (?:row|round|rnd))?(?! to| \d)", r"[\1] <end>", STARS),
    Habit(r"\*\s*([^*;]*[^*;,.\s])\s*\*\s*[;,.]?\s*\b(?:rep|repeat) (?:from )?\* to \* (NUMBER times|to last )", r"[\1] \2", STARS),
    Habit(r"\*\s*([^*;]*[^*;,.\s])\s*[;,.]?\s*,?\s*\b(?:rep|repeat) (?:from )?\*(?: to \*)? (?:to end|to the end|(?:a)?round|across)(?! to (?:the )?last|,? end)(?: of (?:row|round|rnd))?", r"[\1] <end>", STARS),
    Habit(r"\*\s*([^*;]*[^*;,.\s])\s*[;,.]?\s*,?\s*\b(?:rep|repeat) (?:from )?\*(?: to \*)?(?: across| around)? to (?=last )", r"[\1] to ", STARS),
    Habit(r"\*\s*([^*;]*[^*;,.\s])\s*\*\s*[;,.]?\s*(?:rep(?:eat)? )?(?:(?:to|until) (?:the )?end(?: of (?:the )?(?:row|round|rnd))?|across|around)(?! to\b)", r"[\1] <end>", STARS),
    Habit(r"\*\s*([^*;]*[^*;,.\s])\s*\*\s*[;,.]?\s*(?:rep|repeat) (?:between|from) (?:the )?(?:\*s?|stars|asterisks)(?: (?:and|to) \*)?(?: (?:to (?:the )?end(?: of (?:the )?(?:row|round|rnd))?|across|around))?", r"[\1] <end>", STARS),
    Habit(r"\*\s*([^*;]*[^*;,.\s])\s*\*\s*[;,.]?\s*(?:rep(?:eat)? )?(NUMBER times)(?! more)", r"[\1] \2", STARS),
    Habit(r"\(((?:[^()]|\([^()]*\))*)\) ?(?:[x×*] ?)?(NUMBER)(?: times)? (?=in(?:to)? (?:the )?(?:next|same|first|last|ring)\b)", r"([\1] \2 times) ", "A repeat stands in square brackets, and round ones hold what goes into one place."),
    Habit(r"\(((?:[^()]|\([^()]*\))*)\)(?=\s*(?:rep(?:eat)? )?(?:around|across|to (?:last|end|the)|NUMBER times|twice|[x×*] ?\d))", r"[\1]", ROUND_REPEAT),
    Habit(r"(?<=\]) ?[,;]? ?(?:rep(?:eat(?:ed)?)?)(?= (?:around|across|to |\d|twice))", ""),
    Habit(r"(?<=[\])]) ?[x×*] ?(OFTEN)(?: times)?", r" \1 times"),
    Habit(r"(?<=[\])]) ?(NUMBER) ?[x×](?!\w)", r" \1 times"),
    Habit(r"(?<=[\])]) ?twice", " 2 times"),
    Habit(r"(?<=[\])]) all (?:the way )?(around|across)", r" \1"),
)
"""Repeats of items."""

OF_REPEATED_ROWS = (
    Habit(r"(NUMBER) times more", r"\1 more times"),
    Habit(r"(NUMBER) more repeats", r"\1 more times"),
    Habit(r"until (?:it|work|piece|(?:the )?\w+) (?:measures|is) (?:approx\.? |about )?", "until "),
    Habit(r"(\d ?(?:cm|mm|in|inches|yd)) (?:from|long|high|deep|wide|in (?:length|all|total))\b[^=\"#\n]*", r"\1"),
)
"""How often rows are repeated."""

OF_JOINS = (
    guess(r"\b(?:join|attach|rejoin) (?:the |new )*(?:yarn|colou?r)(?: with (?:an? )?(?:sl ?st|ss|slip ?st(?:itch)?))? (?:in|into|to|at) any (ch-\d+ (?:sp|space)|st|stitch)\b", r"move to next \1", ANY_PLACE),
    guess(r"\b(?:join|attach|rejoin) (?:yarn )?(\w+)(?: with (?:an? )?(?:sl ?st|ss|slip ?st(?:itch)?))? (?:in|into|to|at) any (ch-\d+ (?:sp|space)|st|stitch)\b", r"with \1, move to next \2", ANY_PLACE),
    guess(r"\b(?:join|attach|rejoin) (?:the |new )*(?:yarn \w+|\w+)(?: with (?:an? )?(?:sl ?st|ss|slip ?st(?:itch)?))? (?:in|into|to|at) any corner\b", "move to next ch-2 sp", ANY_PLACE, "Write which space or stitch that is, as in `move to next ch-2 sp`, and `with` and the yarn's name before it."),
    guess(r"\b(?:sl ?st|ss|slip ?st(?:itch)?) (?:in|into|to|over to|across to) (?=(?:the )?(?:next|first) ch-\d+ (?:sp|space)\b)", "move to "),
    Habit(r"\b(?:sl ?st|ss|slip ?st(?:itch)?)\bREST\bto (?:join|close)\bREST", "join", JOINED),
    Habit(r"\bjoin(?: (?:the )?(?:round|rnd|work))?(?: (?:with|using|by) (?:an? )?(?:sl ?st|ss|slip ?st(?:itch)?))(?: (?:in|into|to|on|at) REST)?", "join", JOINED),
    Habit(r"\bjoin (?:(?:the )?(?:round|rnd)|(?:in|into|to|on|at) (?:the )?(?:first|1st|top|beg\w*|start)\bREST)", "join", JOINED),
    Habit(r"\b(?:sl ?st|ss|slip ?st(?:itch)?) (?:to|into|in) (?:the )?(?:first|1st|top|\d(?:nd|rd|th) ch)\bREST(?=\s*(?:[\"#=]|[(\[]\s*\d|\Z))", "join", JOINED),
)
"""How a round is closed."""

OF_CHAINS = (
    Habit(r"(?<![\w-])(NUMBER) ch(?:s|ains?)?(?=,?\s*\(?\s*(?:this )?counts? as\b)", r"ch \1"),
    Habit(r"(\bch NUMBER),?\s*\(\s*(?:this )?counts? as (?:the |a |an |one |1 )?(?:first )?([a-z]\w*)(?: (?:st|stitch))?\s*(?:,|\+|&|and|plus) *(?:an? |one |1 )?ch[ -]?(\d+)(?: sp(?:ace)?)?(?: here[^()]*)?\s*\)", r"\1 as (\2, ch \3)"),
    Habit(r"(\bch NUMBER),?\s*\(\s*(?:this )?counts? as (?:the |a |an |one |1 )?(?:first )?([a-z]\w*)(?: (?:st|stitch))?\s*(?:,|\+|&|and|plus) *(\d+) ?(?:chs?|chains?)(?: sp(?:ace)?)?(?: here[^()]*)?\s*\)", r"\1 as (\2, ch \3)"),
    Habit(r"(\bch NUMBER),?\s*\(\s*(?:this )?counts? as (?:the |a |an |one |1 )?(?:first )?([a-z]\w*)(?: (?:st|stitch))?\s*(?:,|\+|&|and|plus) *(?:an? |one )(?:ch|chain)(?: sp(?:ace)?)?(?: here[^()]*)?\s*\)", r"\1 as (\2, ch 1)"),
    Habit(r"(\bch NUMBER),?\s*(?:this )?counts? as (?:the |a |an |one |1 )?(?:first )?([a-z]\w*)(?: (?:st|stitch))?\s*(?:\+|&|and|plus) *(?:an? |one |1 )?ch[ -]?(\d+)(?: sp(?:ace)?)?(?=\s*(?:[,.;=]|ENDING))", r"\1 as (\2, ch \3)"),
    Habit(r"(\bch NUMBER),?\s*(?:this )?counts? as (?:the |a |an |one |1 )?(?:first )?([a-z]\w*)(?: (?:st|stitch))?\s*(?:\+|&|and|plus) *(\d+) ?(?:chs?|chains?)(?: sp(?:ace)?)?(?=\s*(?:[,.;=]|ENDING))", r"\1 as (\2, ch \3)"),
    Habit(r"(\bch NUMBER),?\s*(?:this )?counts? as (?:the |a |an |one |1 )?(?:first )?([a-z]\w*)(?: (?:st|stitch))?\s*(?:\+|&|and|plus) *(?:an? |one )(?:ch|chain)(?: sp(?:ace)?)?(?=\s*(?:[,.;=]|ENDING))", r"\1 as (\2, ch 1)"),
    guess(r"(\bch NUMBER),?\s*\(?\s*(?:this )?counts? as (?:the |a |an |one |1 )?(?:first )?(?:st|stitch)\b(?:(?:(?!\bch)[^(),])*\))?", r"\1 as <height>"),
    Habit(r"(\bch NUMBER),?\s*\(\s*(?:this )?counts? as (?:the |a |an |one |1 )?(?:first )?([a-z]\w*)(?:(?!\d ?ch|\bch)[^(),])*\)", r"\1 as \2"),
    Habit(r"(\bch NUMBER),?\s*(?:this )?counts? as (?:the |a |an |one |1 )?(?:first )?([a-z]\w*)(?: (?:st|stitch))?(?=\s*(?:[,.;=]|ENDING))", r"\1 as \2"),
    Habit(r"(\bch NUMBER),?\s*\(\s*(?:does|do|will) not count[^()]*\)", r"\1", "Chains first in a row do not count unless they are said to."),
    Habit(r"(?<![\w-])ch-?(\d+)(?=\s*[,)\]=.;]|ENDING)", r"ch \1"),
    Habit(r"(?<![\w-])(NUMBER) (?:ch|chs|chains?)(?=\s*[,)\]=.;]|ENDING)", r"ch \1"),
)
"""Chains."""

OF_PLACES = (
    Habit(r"\bsecond(?= ch(?:ain)? from)", "2nd"),
    Habit(r"\bthird(?= ch(?:ain)? from)", "3rd"),
    Habit(r"\bfourth(?= ch(?:ain)? from)", "4th"),
    Habit(r"\bfifth(?= ch(?:ain)? from)", "5th"),
    Habit(r"(?<=[:,\[(] )((?!(?:ch|sl|ss|slst|skip|miss|sk|move|turn|with|leave|join|rep|repeat)\b|\w+tog\b)[a-z]\w*(?: blo| flo)?)(?: (?:across|around))? to (?:the )?(?=(?:last|next)\b)", r"\1 in each st to "),
    Habit(r"\b([a-z]+)(\d+)tog over (?:the )?(?:next )?\2 (?:sts|stitches)\b", r"\1\2tog", "A decrease says itself how many stitches it closes."),
    Habit(r"\bin (?:the )?first (NUMBER) (?:sts|stitches)\b", r"in next \1 sts"),
    Habit(r"\b(?:now )?(?:(?:work(?:ing)?|continu(?:e|ing)) )?(?:along|on|in|into|down|up)? ?(?:the )?(?:other|opposite|second) side of (?:the )?(?:(?:starting|start|foundation|beg\w*|base) )?(?:ch|chain)s?\b", "other side"),
    guess(r"(?<=[\w\]]) round(?=\s*(?:[,.;(]|=)|ENDING)", " around"),
    guess(r"\bwork(?:ing)? (?:in|into|through|thru) (?:the )?(?:back loops?(?: only)?|blo),? ((?:NUMBER )?\w+)", r"\1 blo", "The loop stands after the stitch that is worked into it.", r"Write `\1 blo`, and `blo` after each other stitch that it goes for."),
    guess(r"\bwork(?:ing)? (?:in|into|through|thru) (?:the )?(?:front loops?(?: only)?|flo),? ((?:NUMBER )?\w+)", r"\1 flo", "The loop stands after the stitch that is worked into it.", r"Write `\1 flo`, and `flo` after each other stitch that it goes for."),
    Habit(r"\bin(?:to)? (?:the )?m\.?[rc]\b\.?", "in ring"),
    guess(r"((?:NUMBER )?\w+(?: (?:blo|flo))?) in(?:to)? (?:each|every) (?:other|second|2nd|alternate) (?:\w+)(?: (?:across|around))?", r"[\1, skip 1 st] <end>", EVERY_OTHER),
    guess(r"((?:NUMBER )?\w+(?: (?:blo|flo))?) in(?:to)? (?:each|every) (?:third|3rd) (?:\w+)(?: (?:across|around))?", r"[\1, skip 2 sts] <end>", EVERY_OTHER),
    Habit(r"\bin(?:to)? (?:the )?(?:top|\d+(?:st|nd|rd|th) ch(?:ain)?) of (?:the )?(?:turning|beg\w*|start\w*|first|t)[ -]ch(?:ain)?[ -](\d+)", r"in top of ch-\1"),
    guess(r"\bin(?:to)? (?:the )?(?:top|\d+(?:st|nd|rd|th) ch(?:ain)?) of (?:the )?(?:(?:turning|beg\w*|start\w*|t)[ -]ch(?:ain)?|t-?ch)\b", "in last st", "Which chain is meant has to be said.", "Write `in last st` where the chain counts as a stitch, or name it, as in `in top of ch-3`."),
    guess(r"\b\d+(?:st|nd|rd|th) ch(?:ain)? of (?:the )?(ch-\d+)(?=\s*(?:,? (?:and )?turn|,? join)?\.?ENDING)", r"top of \1", "Last in a row that is the top of the chain that counts."),
    guess(r"\bin(?:to)? (?:the )?(?:(?:turning|beg\w*)[ -]ch(?:ain)?|t-?ch)\b(?! ?-?\d)", "in last st", "Which chain is meant has to be said.", "Write `in last st` where the chain counts as a stitch, or name it, as in `in top of ch-3`."),
    guess(r"\b(\d+(?:st|nd|rd|th)) ch of (?:the )?(ch-\d+)(?: (?:sp|space|loop|lp|arch))?(?=\s*[,)\]=.;]|ENDING)", r"\1 ch of next \2 sp", "Which of them is meant has to be said."),
    Habit(r"\b(in|around) (?:the )?(ch-\d+) (?:sp|space|loop|lp|arch)\b", r"\1 next \2 sp"),
    Habit(r"\bto (?:the )?(ch-\d+) (?:sp|space|loop|lp|arch)\b", r"to next \1 sp"),
    Habit(r"\b(ch-\d+) (?:loop|lp|arch)\b", r"\1 sp"),
    Habit(r"\b(ch-\d+) (?:loops|lps|arches)\b", r"\1 sps"),
    Habit(r"\b(?:in|into|inside) (?:the )?(?:cent(?:re|er) of (?:the )?)?(?:magic )?(?:ring|circle|loop)\b", "in ring"),
    Habit(r"\beach of (?:the )?first (NUMBER)\b", r"each of next \1"),
    Habit(r"\bin all (?:sts|stitches)(?=\s*[,(\[)\]=.;]|ENDING)", "in each st <end>"),
    Habit(r"\bin all (?=(?:sts?|ch|dc|sc|htr|hdc|tr)\b)", "in each "),
    Habit(r"\bevery(?! other)", "each"),
    Habit("ea", "each"),
    Habit(r"\binto\b", "in"),
    Habit(r"\b(in|of|to|around) the (?=\w)", r"\1 "),
    Habit(r"\bnext (NUMBER)(?=\s*[,)\]=.;]|ENDING)", r"next \1 sts"),
    Habit(r"(?:\bto|\buntil|\btill) (?:the )?(?:end|ends)(?: of (?:the |this )?(?:row|round|rnd))?\b", "<end>"),
    Habit(r"\b(across|around) (?:to end|(?:the |this )?(?:row|round|rnd))\b", r"\1"),
    Habit(r"\b(?:in|into|through|thru) (?:the )?(?:back loops?(?: only)?|blo) (?:of )?(?=each|next|same|first|last)", "blo in "),
    Habit(r"\b(?:in|into|through|thru) (?:the )?(?:front loops?(?: only)?|flo) (?:of )?(?=each|next|same|first|last)", "flo in "),
    Habit(r"\b(?:in|into|through|thru|of) (?:the )?(?:back loops?(?: only)?|blo)\b", "blo"),
    Habit(r"\b(?:in|into|through|thru|of) (?:the )?(?:front loops?(?: only)?|flo)\b", "flo"),
    guess(r"\b(\w+) blo (around|across)\b", r"\1 blo in each st \2"),
    guess(r"\b(\w+) flo (around|across)\b", r"\1 flo in each st \2"),
    Habit(r"\bsame (?:st|stitch|place|sp|space) as (?:the )?(?:join(?:ing)?|(?:joining |last )?(?:sl ?st|ss|slip ?st(?:itch)?))(?: (?:sl ?st|ss|slip ?st(?:itch)?))?\b", "same st"),
    Habit(r"\b(blo|flo) (?!in\b|across\b|around\b)(\w+)", r"\2 \1"),
    guess(r"\b(\w+) (around|across)\s*\.?\s*\((NUMBER)\)\.?ENDING", r"\1 in each st \2 = \3 sts"),
    Habit(r"\b(\w+tog) (around|across)\b", r"[\1] \2"),
    guess(r"\b(?!(?:evenly|rep|repeat)\b)(\w+) (around|across)\b", r"\1 in each st \2"),
    Habit(r"\bevenly(?: spaced)? (?:around|across)\b", "evenly", "What is worked evenly goes over the whole row."),
    Habit(r"\bmissed (?=sts?\b)", "skipped "),
)
"""Where a stitch goes."""

OF_SKIPS = (
    Habit(r"(\bch \d+ as (?:\w+|\([^()]*\))(?:,? turn)?),? (?:skip|miss) (?:the )?first (?:st|stitch)\b", r"\1", "A chain that counts stands in the first stitch, which is then not skipped."),
    Habit(r"\bleave (?:the )?(?:last |next |remaining )?(NUMBER) (?:sts?|stitches)(?= unworked\b)", r"leave \1"),
    Habit(r"\b(skip|miss) (?:next |the next |first |the first )?(NUMBER)(?=\s*[,)\]=.;]|ENDING)", r"\1 \2 sts"),
    guess(r"(\bch \d+ as (?:\w+|\([^()]*\))(?:,? turn)?),? (skip|miss) (?:the )?first (NUMBER) sts?\b", r"\1, \2 \3 sts", "A chain that counts stands in the first stitch; the others are counted from the one after it."),
    Habit(r"\b(skip|miss) (?:the )?((?:ch-\d+ )?(?:sp|space))(?=\s*[,)\]=.;]|ENDING)", r"\1 next \2"),
    Habit(r"\b(skip|miss) (?:the )?first (NUMBER) (sts?|ch)\b", r"\1 \2 \3"),
    Habit(r"\b(skip|miss) (?:the |a |an |one |first |next )*(st|ch)\b", r"\1 1 \2"),
    Habit(r"\bsk\b", "skip"),
)
"""Stitches passed over."""

OF_STITCHES = (
    guess(r"\b(inc|dec)(?:rease)? (NUMBER)(?: (?:sts?|stitches|times))? evenly(?: spaced)?(?: (?:around|across))?", r"\1 \2 <st> evenly", WHICH),
    guess(r"(?<=[:,\[(] )(NUMBER) (inc|dec)(?:reases)? evenly(?: spaced)?(?: (?:around|across))?", r"\2 \1 <st> evenly", WHICH),
    guess(r"\binv(?:isible)?[ -]?dec(?:rease)?\b", "<st> dec", "An invisible decrease is counted like any other."),
    Habit(r"\bch[ -](\d+) picot\b", r"ch-\1 picot"),
    guess(r"(?:(?<=[:,\[(])|(?<=[:,\[(] ))inc(?= in (?:next|each|same|first|last)\b)", "2 <st>", WHICH),
    guess(r"(?:(?<=[:,\[(])|(?<=[:,\[(] ))(inc|dec) ?[x×] ?(OFTEN)", r"\2 <st> \1", WHICH),
    guess(r"(?:(?<=[:,\[(])|(?<=[:,\[(] ))(inc|dec) (around|across)\b", r"[<st> \1] \2", WHICH),
    Habit(r"\b(\w+ (?:inc|dec)) twice\b", r"2 \1"),
    Habit(r"\b(\w+ (?:inc|dec)) (NUMBER) times\b", r"\2 \1"),
    Habit(r"((?:NUMBER )?\b\w+ in (?:next|same) [^,\[\]()]*[^,\[\]()\s]) (NUMBER times)", r"[\1] \2", STARS),
    guess(r"(?:(?<=[:,\[(])|(?<=[:,\[(] ))((?:NUMBER )?)(inc|dec)(?=\s*[,)\]=.;x×]|ENDING)", r"\1<st> \2", WHICH),
    Habit(r"(?<=[:,\[(] )((?!(?:ch|chs|chains?|sts?|stitch|stitches|skip|miss|sk|turn|mark|with|leave|move|inc|dec|row|round|of|to|tog)\b)[a-z]\w*) (NUMBER)(?= in\b|\s*[,)\]=.;]|ENDING)", r"\2 \1"),
    Habit(r"(?<=[:,\[(] )work (?=\w)", ""),
    Habit("stitches", "sts"),
    Habit("stitch", "st"),
    Habit("chains", "ch"),
    Habit("chain", "ch"),
    Habit("chs", "ch"),
    Habit("spaces", "sps"),
    Habit("space", "sp"),
    Habit(r"\bslip st\b|\bslst\b", "sl st"),
    Habit(r"\b(?:one|a)\b", "1"),
    Habit("two", "2"),
    Habit("three", "3"),
    Habit("four", "4"),
    Habit("five", "5"),
    Habit("six", "6"),
)
"""Words that are spelled out."""

OF_ROWS = (
    guess(r"(?:change|switch|changing) to (?:yarn |colou?r )?(\w+)(?=\s*[,.;=]|ENDING)", r"with \1"),
    Habit(r"\b(\w+) (in(?:to)? \d+(?:st|nd|rd|th) ch(?:ain)? from (?:the )?hook),? and (?:in(?:to)? )?(?:each|every)\b", r"\1 \2, \1 in each"),
    Habit(r"(?<=:) ?(?:work )?(?:(?:the )?same as|as for|as in|like|rep(?:eat)?) (?:for )?(?:rows|rounds|rnds) (\d+) ?(?:-|to|and|&) ?(\d+)", r" as <row>s \1-\2"),
    Habit(r"(?<=:) ?(?:work )?(?:(?:the )?same as|as for|as in|like|rep(?:eat)?) (?:for )?(?:row|round|rnd) (\d+)", r" as <row> \1"),
    Habit(r"\s*(?:and|&) (?=turn\b|join\b)", ", "),
    Habit(r"\s*[.;]\s*turn\b(?=\s*(?:[.(\[]|ENDING))", ", turn", "Items of a row are separated by commas."),
    Habit(r"\s*\((?:inc|dec)(?:rease)?(?: made)?\)", "", "What a row does is not said twice; a remark stands in quotation marks at its end."),
    guess(r"[,.;]?\s*\b(?:fasten off|cut yarn|weave in)\b[^=\"#\n]*", "", "That is no item of a row.", "Write it on a line of its own, as in `finish: Fasten off.`"),
)
"""The items of a row."""

AT_THE_END = (
    Habit(r"=\s*\(?\s*(NUMBER)\s*\)?ENDING", r"= \1 sts", COUNT),
    Habit(r"(=[^=\"#\n]*?),? \(?(?:not counting|excluding|without) (?:the )?(?:turning|t)[- ]?ch(?:ain)?s?\)?,\s*([^\"#\n]*[^\s\"#.])\.?ENDING", r"\1, \2 not counting turning ch", "What is not counted stands at the end."),
    Habit(r"\(?(?:not counting|excluding|without) (?:the )?(?:turning|t)[- ]?ch(?:ain)?s?\)?\.?ENDING", "not counting turning ch"),
    Habit(r"\s*[.,;:–—-]?\s*[(\[]\s*(\d+)\s*,\s*(\d+(?:\s*,\s*\d+)*) ([a-z][a-z0-9]*)\s*[)\]]\.?ENDING", r" = \1 (\2) \3", COUNT),
    Habit(r"=\s*(NUMBER) (sts?|stitches)\b[^,=\"#\n()]*ENDING", r"= \1 sts", COUNT),
    Habit(r"\s*[.,;:–—-]?\s*[(\[<]\s*=?\s*(NUMBER)\s*[)\]>]\.?ENDING", r" = \1 sts", COUNT),
    Habit(r"\s*[.,;:–—-]?\s*[(\[<]\s*=?\s*(NUMBER (?:sts?|stitches))\b[^,()\[\]=\"#\n]*[)\]>]\.?ENDING", r" = \1", COUNT),
    Habit(r"\s*[.,;:–—-]?\s*[(\[<]\s*=?\s*(NUMBER [a-z][^()\[\]=\"#\n]*?)\s*[)\]>]\.?ENDING", r" = \1", COUNT),
    Habit(r"\s*(?:[.,;:–—]|(?<= )-)?\s+(NUMBER (?:sts?|stitches))(?: (?:in all|in total|total|altogether))?\.?ENDING", r" = \1", COUNT),
    Habit(r"\b(across|around|end|join|times|row|round)((?:,? (?:and )?turn)?)\s*[.;–—-]\s*(NUMBER [a-z][a-z0-9]*)\.?ENDING", r"\1\2 = \3", COUNT),
    Habit(r"\s*\.\s+(NUMBER (?!ch\b)[a-z][a-z0-9]*(?: (?:dec|inc|sps?))?)\.?ENDING", r" = \1", COUNT),
    Habit(r"[.,;]\s*(?=ENDING)(?!\s*\Z)", " ", "A count stands straight after the last item."),
    Habit(r"[.,;]+\s*ENDING", "", NO_STOP),
    guess(r"[.;]\s*(?=\d)", ", ", "Items of a row are separated by commas."),
    Habit(r"[.;]\s*(?=\S)", ", ", "Items of a row are separated by commas."),
)
"""The count, and what stands at the end of a line."""

SMALL = (
    Habit(r"(?-i:(?<![\w\"])[A-Z]\w*)", "<small>", "Words of the notation are written in small letters."),
)
"""Capitals."""
# fmt: on

ROWS = (
    *OF_LABELS_OF_ROWS,
    *OF_REPEATS,
    *OF_JOINS,
    *OF_CHAINS,
    *OF_SKIPS,
    *OF_PLACES,
    *OF_ROWS,
    *OF_STITCHES,
    *AT_THE_END,
)
BY_RULE: dict[str, tuple[Habit, ...]] = {
    "row_line": ROWS,
    "use_line": OF_USES,
    "repeat_line": (*OF_LABELS_OF_ROWS, *OF_REPEATED_ROWS, *AT_THE_END),
    "stitch_line": (*NAMES, *ROWS),
    "part_line": (*NAMES, *OF_PARTS, *OF_STRANDS),
    "start_line": (*NAMES, *OF_STARTS),
    "yarn_line": (*NAMES, *OF_YARNS),
    "count_line": (*NAMES, *OF_COUNTS),
    "measure_line": (*NAMES, *OF_MEASURES),
    "gauge_line": (*NAMES, *OF_GAUGES, *OF_STRANDS),
}
"""What is tried on a line, by the rule that reads it; on any other, the lines that give names."""

WITH_STITCHES = frozenset(("row_line", "repeat_line", "stitch_line", "start_line", "gauge_line"))
"""Lines in which a stitch may stand, its name spelled out."""
