"""The host: loads plugins, keeps every fault of theirs, runs calculators here or in the worker process."""

from boltend.core.host.calls import Call, Fault, Outcome, Runner
from boltend.core.host.config import config_file, keep_in_config, read_config
from boltend.core.host.host import Host
from boltend.core.host.loading import load_plugins
from boltend.core.host.off import ConfigError, config_folder, off_file, switch_off, switch_on, switched_off
from boltend.core.host.plugins import LoadedPlugin, Plugins
from boltend.core.host.settle import Settled, WrongAnswer, settle

__all__ = [
    "Call",
    "ConfigError",
    "Fault",
    "Host",
    "LoadedPlugin",
    "Outcome",
    "Plugins",
    "Runner",
    "Settled",
    "WrongAnswer",
    "config_file",
    "config_folder",
    "keep_in_config",
    "load_plugins",
    "off_file",
    "read_config",
    "settle",
    "switch_off",
    "switch_on",
    "switched_off",
]
