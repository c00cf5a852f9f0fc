"""Load a plugin through the real door: found by its entry point, described as a stranger, opened here."""

from boltend.core.contract import Calculator
from boltend.core.host import Fault, LoadedPlugin, Plugins, load_plugins
from boltend.core.host.opening import GROUP, open_plugin


def load(name: str) -> dict[str, Calculator]:
    """The calculators of an installed plugin by name: what a person who installs it has in the shell.

    `name` is that of its distribution, of its module, or the plugin's own (on the left in its entry point).

    Raises:
        AssertionError: nothing of that name is installed; it is switched off or refused; or any part of it is
            left out. Says why, with the traceback where there is one.
    """
    plugins = load_plugins()
    meant = [each for each in plugins if _is_meant(each, name)]
    if not meant:
        there = ", ".join(sorted({each.distribution or each.name for each in plugins}))
        raise AssertionError(
            f"no installed distribution brings a plugin {name!r}: none of that name has an entry point in "
            f"the group {GROUP!r}. Install yours, as `pip install -e .`, and once more after its "
            f"pyproject.toml changed. There are {there}."
        )
    found: dict[str, Calculator] = {}
    for plugin in meant:
        _refuse_faulty(plugin, plugins)
        there_too = {spec.name for spec in plugin.calculators}
        opened = open_plugin(plugin.ref, deep=False).calculators
        found |= {each.spec.name: each for each in opened if each.spec.name in there_too}
    return found


def _is_meant(plugin: LoadedPlugin, name: str) -> bool:
    module = plugin.value.partition(":")[0].strip()
    return name in (module, plugin.name) or _normal(name) == _normal(plugin.distribution)


def _normal(name: str) -> str:
    return name.lower().replace("_", "-").replace(".", "-")


def _refuse_faulty(plugin: LoadedPlugin, plugins: Plugins) -> None:
    if plugin.off:
        way_out = f"`boltend plugins --on {plugin.name}` switches it on."
        raise AssertionError(f"{plugin.origin} is switched off here. {way_out}")
    faults: list[Fault] = list(plugin.faults)
    faults += [each for each in plugins.problems if each.why.startswith(f"{plugin.origin}: ")]
    if faults:
        said = "\n".join(f"{fault.why}\n{fault.traceback}".rstrip() for fault in faults)
        raise AssertionError(f"{plugin.origin} is {plugin.standing}: {said}")
