"""What a test does on the app's screens through the bindings: touches by words, and documents that are saved."""

import liftgate as lg


def control(screen, words):
    """The first control with these words: of a row, among options, or at the foot."""
    for block in screen.blocks:
        if isinstance(block, lg.Block.ROW) and block.control and block.title == words:
            return block.control
        if isinstance(block, lg.Block.CHOICE):
            for option in block.options:
                if option.label == words:
                    return option
    return next(one for one in screen.foot if one.label == words)


def go(pilot, now, *words):
    """From wherever to the board, and on by these controls."""
    while pilot.screen(now).back:
        pilot.tap(pilot.screen(now).back.token, now)
    for one in words:
        pilot.tap(control(pilot.screen(now), one).token, now)


def saved(pilot, now, words):
    """What the control with these words gives, whole."""
    shown = pilot.saving(control(pilot.screen(now), words).token, "document", now)
    out = b""
    while shown.screen.work:
        out += pilot.piece() or b""
        shown = pilot.wrote(lg.Wrote.KEPT, now)
    return out
