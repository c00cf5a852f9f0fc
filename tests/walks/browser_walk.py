"""A shell behind a page in a real browser, as a walk uses it."""

import json
import subprocess
import time
import tomllib
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from selenium.webdriver.common.action_chains import ActionChains

PATIENCE = 20.0
"""Seconds that something may take to come."""


@dataclass
class Walk:
    """A server, a browser, and the folder in which both keep what is theirs."""

    folder: Path
    pictures: Path
    server: "subprocess.Popen[str]"
    url: str
    browser: Any

    @property
    def quilt(self) -> Path:
        return self.folder / "quilt.toml"

    def given(self, tab: int = 0) -> dict[str, Any]:
        """What the file says of a tab now."""
        return dict(tomllib.loads(self.quilt.read_text(encoding="utf-8"))["tab"][tab].get("given", {}))

    def size(self, width: int, height: int) -> None:
        told = {"width": width, "height": height, "deviceScaleFactor": 1, "mobile": False}
        self.browser.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", told)
        time.sleep(1)

    def open(self) -> None:
        self.browser.get(self.url)
        self.wait(lambda: "-first-byte" in self.classes(), "the first paint")
        time.sleep(3)

    def classes(self) -> str:
        return str(self.browser.execute_script("return document.body?.className ?? ''"))

    def wait(self, condition: Callable[[], object], what: str) -> None:
        until = time.monotonic() + PATIENCE
        while not condition():
            if time.monotonic() > until:
                raise AssertionError(f"{what} never came")
            time.sleep(0.1)

    def keys(self, *keys: str) -> None:
        """Type texts and press keys, as a person."""
        for key in keys:
            ActionChains(self.browser).send_keys(key).perform()
            time.sleep(0.4)

    def chord(self, held: str, key: str) -> None:
        ActionChains(self.browser).key_down(held).send_keys(key).key_up(held).perform()
        time.sleep(0.6)

    def picture(self, name: str) -> None:
        self.browser.save_screenshot(str(self.pictures / f"{name}.png"))

    def asked(self) -> list[str]:
        """Every address that the browser was made to ask for since the last call, WebSockets too."""
        found = []
        for entry in self.browser.get_log("performance"):
            message = json.loads(entry["message"])["message"]
            said = message["params"]
            if message["method"] == "Network.requestWillBeSent":
                found.append(said["request"]["url"])
            elif message["method"] == "Network.webSocketCreated":
                found.append(said["url"])
        return [url for url in found if not url.startswith(("chrome:", "data:", "about:", "blob:"))]

    @property
    def host(self) -> str:
        return self.url.split("/")[2]
