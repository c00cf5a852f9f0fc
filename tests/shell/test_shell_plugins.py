"""The plugins in the shell: out of the menu, as the command tells of them."""

from typing import Any

from boltend.core.contract import CalculatorSpec
from boltend.core.host import Fault, LoadedPlugin, Plugins

Shell = Any


def plugins() -> Plugins:
    spec = CalculatorSpec("warp", "How long is the warp?", (), ())
    torn = Fault(
        "it could not be imported: RuntimeError: [/x] broke.", "Traceback (most…\nRuntimeError: [/x] broke"
    )
    return Plugins(
        (
            LoadedPlugin("loom", "loom", "loom-tools", "1.2", False, calculators=(spec,), contract=1),
            LoadedPlugin("shuttle", "shuttle", "loom-tools", "1.2", False, faults=(torn,)),
            LoadedPlugin("wheel", "wheel", "wheels", "3", False, off=True),
        ),
        remembered={"wheel": ("spin",)},
    )


async def test_they_are_told_out_of_the_menu_and_left_again(sewing: Shell) -> None:
    async with sewing() as it:
        it.bench.plugins = plugins()
        await it.press("f9")
        await it.press(*"plugins: which", "enter")
        await it.sees("loom     on       loom-tools 1.2  contract 1", "warp")
        await it.sees("shuttle  broken", "! it could not be imported: RuntimeError: [/x] broke.")
        await it.sees("wheel    off      wheels 3", "spin", "`boltend plugins --on wheel` switches it on.")
        await it.sees("Traceback of shuttle", "boltend plugins")
        await it.press("escape")
        await it.wait(lambda: it.app.screen is it.view)
