"""What else a person calls an action: the menu finds it by these words, too. From memory, common speech."""

_SAID = {
    "help": "keys, shortcuts, how do I, manual, what can I do, how to write a length",
    "map": "overview, links, connections, what hangs on what, order, diagram",
    "ladders": (
        "compare, comparison, sizes, several sizes, what if, table, prices, options, "
        "what it costs as a crib throw twin queen king"
    ),
    "ladder": (
        "compare, comparison, sizes, several sizes, what if, table, prices, options, "
        "what it costs as a crib throw twin queen king, try values, new ladder"
    ),
    "to_cut": "cutting plan, cuts, strips, pieces, layout, how to cut",
    "to_buy": (
        "cost, costs, price, prices, total, money, how much, how much fabric, how much does it cost, "
        "yardage, yards, shop, buy, order, bill"
    ),
    "why": "how come, explain, reason, which tab asks for it, too much, joins",
    "fabrics": "price, prices, cost, cloth, colour, color, colours, stock, stash, in hand, bolt",
    "settings": "options, preferences, units, inches, centimetres, metric, currency, rounding",
    "rename_tab": "name, call it, title",
    "use_rung": "use, take this value, apply, choose",
    "edit_ladder": "change the ladder, rename the ladder, values",
    "remove_ladder": "delete, throw away",
    "link": "connect, take from, bring, use the result",
    "go_to_source": "where from, jump, follow",
    "unlink": "disconnect, free, cut the link",
    "results": "result, answer, answers, scroll",
    "cautions": "warnings, take care, what to watch, what may go wrong, hints",
    "next_tab": "forward, other tab",
    "previous_tab": "last tab, tab before, other tab",
    "add_tab": "new, new tab, another question, insert, calculator",
    "duplicate_tab": "copy, copy the tab, same again, clone",
    "move_left": "order, sort the tabs",
    "move_right": "order, sort the tabs",
    "remove_tab": "delete, close, throw away, get rid of",
    "aside": "leave out, ignore, exclude, do not buy, try out",
    "done": "finished, sewn, ready, tick off, leave out",
    "note": "notes, remark, comment, remember, write down",
    "drop_unknown": "clean up, delete",
    "add_row": "new row, another border, another fabric, insert a row",
    "remove_row": "delete, delete the row",
    "row_up": "order, sort the rows",
    "row_down": "order, sort the rows",
    "find": "search, look for, where is",
    "find_next": "search again, again, next",
    "look": "colours, colors, theme, dark mode, black and white, contrast",
    "both_systems": "metric, centimetres, cm, convert, conversion, units, inches",
    "undo": "take back, go back, mistake, revert, oops",
    "redo": "again, repeat, forward",
    "start": "home, begin, new, new project, example, examples, recent, close",
    "open": "load, file, another project, recent",
    "empty_project": "new, blank, new project, file",
    "printed": "yardage, pattern, is the pattern right, check the pattern, compare",
    "save": "keep, store, file, write",
    "save_as": "copy, copy the project, another name, rename the file, file",
    "name_project": "rename the project, title, call it",
    "problems": "problem, problems, errors, error, troubles, mistakes, warnings, check, fault, help",
    "plugins": "extensions, add-ons, calculators, switch off, version",
    "copy": "clipboard, share, mail, email, send, paste, message",
    "copy_tab": "clipboard, whole tab, sheet, share, mail, email, send, paste, message",
    "export": "print, printer, paper, pdf, html, share, mail, email, send, hand over, file",
    "customer": (
        "client, quote, quotation, offer, estimate, invoice, bill, cost, price, print, paper, pdf, "
        "share, mail, email, send, hand over"
    ),
    "picture": "picture of this tab, drawing, draw, see it, show it, preview, diagram, image, zoom",
    "whole_quilt": "the quilt, what it looks like, drawing, draw, preview, diagram, image, all together",
    "work_anew": "refresh, recalculate, calculate, update, go on",
    "stop": "cancel, abort, enough, close, go back",
    "leave": "exit, close, end, bye",
    "back": (
        "back, backwards, reverse, goal, budget, how wide, how wide must it be, how many, how large, "
        "what must it be, fit, reach a size, to a size, solve"
    ),
}
"""By the action's name, with a comma between. What its own words say already does not stand here."""

OTHER_WORDS = {name: tuple(said.split(", ")) for name, said in _SAID.items()}

OF_LABELS: dict[str, str] = {
    "width": "how wide",
    "height": "how high how tall",
    "length": "how long",
    "price": "cost",
    "blocks": "how many",
}
"""How a person asks for a given or a found whose label has this word."""


def asked_as(label: str) -> str:
    """What else a given or a found is asked for by, from the words of its label."""
    words = label.casefold().split()
    return " ".join(said for word, said in OF_LABELS.items() if word in words)
