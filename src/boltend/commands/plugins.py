"""`boltend plugins [--off NAME | --on NAME]`: what is installed, in what state, and the switch."""

import argparse

from boltend.commands.exits import BadCall, Exit
from boltend.core.flow.nodes import near
from boltend.core.host import ConfigError, Plugins, load_plugins, switch_off, switch_on, switched_off
from boltend.core.report.json import dump
from boltend.core.report.plugin_words import plugin_lines, plugins_json
from boltend.core.values import visible


def add(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Declare the command."""
    parser = commands.add_parser(
        "plugins",
        help="list the plugins, or switch one off or on",
        description="List the plugins that are installed: from which distribution, in what state (on, in "
        "part, off, refused, broken), with their calculators, and with the traceback of what broke. "
        "With --off NAME or --on NAME: switch one. Tabs of one that is off stay in their projects as they "
        "are.",
        epilog="Exit codes: 0 done; 1 a plugin is refused, broken, or there in part only; "
        "2 no such plugin, or the config file cannot be read or written.",
    )
    turn = parser.add_mutually_exclusive_group()
    turn.add_argument("--off", metavar="NAME", help="switch a plugin off, by its name as it is listed")
    turn.add_argument("--on", metavar="NAME", help="switch it on again")
    parser.add_argument(
        "--as", dest="form", choices=("text", "json"), default="text", help="the form (default: text)"
    )
    parser.add_argument("--json", dest="form", action="store_const", const="json", help="as --as json")
    parser.set_defaults(do=plugins)


def plugins(said: argparse.Namespace) -> Exit:
    """List them, or switch one."""
    found = load_plugins()
    turn, name = ("off", said.off) if said.off is not None else ("on", said.on)
    if name is not None:
        try:
            _switch(turn, name, found)
        except ConfigError as error:
            raise BadCall(str(error)) from None
        return Exit.DONE
    if said.form == "json":
        print(dump(plugins_json(found)), end="")
    else:
        print("\n".join(visible(line) for line in plugin_lines(found)))
    whole = all(each.standing in ("on", "off") for each in found) and not found.problems
    return Exit.DONE if whole else Exit.CANNOT


def _switch(turn: str, name: str, found: Plugins) -> None:
    off = switched_off()
    each = found.named(name)
    if each is None and not (turn == "on" and name in off):  # one that is no longer installed may go on
        raise BadCall(f"there is no plugin {name!r}. {near(name, [p.name for p in found])}")
    if turn == "on":
        print(visible(f"{name} is on." if switch_on(name) else f"{name} was on already."))
        return
    if name in off:
        print(visible(f"{name} was off already."))
        return
    brought = [spec.name for spec in each.calculators] if each else []
    switch_off(name, brought)
    tabs = (
        f" Tabs that use {', '.join(brought)} stay as they are, and cannot be worked out." if brought else ""
    )
    print(visible(f"{name} is off.{tabs} `boltend plugins --on {name}` switches it on."))
