"""What the page itself says at the hook: its buttons, questions and short remarks.

Names in braces are filled in by the page: ``{row}`` is a row's number.
"""

from __future__ import annotations

from loopwright.render.prose.voice import Voice


def hook_words(voice: Voice) -> dict[str, str]:
    """Every phrase of the working mode, by the name that the page knows it by."""
    return {**_about_the_place(voice), **_to_press(voice), **_about_keys(voice)}


def _about_the_place(voice: Voice) -> dict[str, str]:
    say = voice.say
    return {
        "before": say("Before the first row"),
        "size": say("Your size"),
        "terms": say("Your terms"),
        "uk": say("{name} terms", name="UK"),
        "us": say("{name} terms", name="US"),
        "once": say("This is asked once. It can be changed at any time, and your place is kept."),
        "far": say("How much of this is done"),
        "finished": say("Finished"),
        "all_done": say("Every row is ticked off."),
        "chart": say("Chart"),
        "like": say(
            "The chart shows this row as row {row}, which is worked the same.", row="{row}"
        ),
        "undrawn": say("The chart does not show this row."),
        "unkept": say(
            "This browser does not keep your place. Leave this page open, or write down the row "
            "you are on."
        ),
        "changed": say(
            "The pattern has changed since you were last here. See whether this is still your row."
        ),
        "uncounted": say("This pattern has more rows than this page could tick off one by one."),
    }


def _to_press(voice: Voice) -> dict[str, str]:
    say = voice.say
    return {
        "way_in": say("Work from it, row by row"),
        "choose": say("Size and terms"),
        "close": say("The whole pattern"),
        "begin": say("Begin"),
        "done": say("Done"),
        "back": say("Back"),
        "enough": say("Long enough: go on to what comes next"),
        "counter": say("Stitch counter"),
        "tap": say("tap for each stitch"),
        "less": say("One stitch less"),
        "none": say("Count from nought again"),
        "to": say("Go to another row"),
        "part": say("Part"),
        "which": say("Which one"),
        "row": say("Row or round"),
        "go": say("Go there"),
    }


def _about_keys(voice: Voice) -> dict[str, str]:
    say = voice.say
    return {
        "key_title": say("Keys"),
        "key_done": say("tick the row off"),
        "key_back": say("back to the row before"),
        "space": say("Space"),
        "key_count": say("count a stitch, when the counter has the focus"),
        "key_less": say("one stitch less, when the counter has the focus"),
        "key_tab": say("to the next button"),
    }
