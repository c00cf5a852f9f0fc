"""Walk through `boltend serve` in a real browser, headless, and look at what it asks for: no test.

    python tests/walks/in_browser.py [FOLDER]

It needs chromium, chromedriver and the package selenium, which no test installs. Pictures of the screen go
into FOLDER (default: a new one, which is named at the end). Each line printed is what was seen; the exit code
is the number of walks that failed.
"""

import contextlib
import http.server
import os
import shutil
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Iterator
from pathlib import Path

from browser_walk import PATIENCE, Walk
from selenium import webdriver
from selenium.webdriver.common.keys import Keys

FLAGS = (
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)

QUILT = """boltend = 1
# Kept.
[[tab]]
name = "Blocks"
calculator = "straight_set"
[tab.given]
block_height = "12 in"
across = 4
down = 5

[[tab]]
name = "Edge"
calculator = "binding"
"""

SCREEN = """
const box = document.querySelector('.xterm-screen').getBoundingClientRect();
return [box.width, box.height, window.innerWidth, window.innerHeight,
        [...document.fonts].map((face) => face.family + ' ' + face.weight + ' ' + face.status)];
"""


def type_link_save(walk: Walk) -> None:
    """A value, a link from another tab, saved; the file says both, and all that was asked for is ours."""
    walk.size(1280, 800)
    walk.open()
    assert walk.browser.current_url == f"http://{walk.host}/", "the token stayed in the address"
    assert walk.browser.title == "quilt.toml – Boltend"
    width, height, _, _, fonts = walk.browser.execute_script(SCREEN)
    print(f"  the terminal is {width:g} × {height:g} px; fonts: {fonts}")
    assert "Roboto Mono 400 loaded" in fonts or "Roboto Mono normal loaded" in fonts
    walk.picture("1-opened")
    walk.keys("12 1/2")
    walk.picture("2-typed")
    walk.keys(Keys.F6)
    walk.keys(Keys.F4)
    walk.picture("3-link-offered")
    walk.keys(Keys.ENTER)
    walk.picture("4-linked")
    walk.chord(Keys.CONTROL, "s")
    walk.wait(lambda: "block_width" in walk.given(), "the saved file")
    assert walk.given()["block_width"] == "12 1/2"
    links = [value for value in walk.given(1).values() if isinstance(value, dict)]
    assert [link["from"] for link in links] == ["Blocks"], links
    assert "# Kept." in walk.quilt.read_text(encoding="utf-8")
    asked = walk.asked()
    foreign = [url for url in asked if url.split("/")[2] != walk.host]
    print(
        f"  {len(asked)} requests, {len(foreign)} of them to elsewhere:", *dict.fromkeys(asked), sep="\n    "
    )
    assert foreign == []
    wrong = [line["message"] for line in walk.browser.get_log("browser") if line["level"] == "SEVERE"]
    assert wrong == [], wrong


def loaded_anew(walk: Walk) -> None:
    """Work that was not saved is offered when the page is loaded anew; taken, it is there."""
    walk.size(1280, 800)
    walk.open()
    walk.keys("13")
    walk.browser.refresh()
    walk.wait(lambda: "-first-byte" in walk.classes(), "the page again")
    time.sleep(3)
    walk.picture("5-loaded-anew")
    walk.keys(Keys.ENTER)
    walk.picture("6-taken-over")
    walk.chord(Keys.CONTROL, "s")
    walk.wait(lambda: walk.given().get("block_width") == "13", "the work that was not saved")


def kept_keys(walk: Walk) -> None:
    """Keys that browsers use reach the shell (the headless browser has no menus that take them)."""
    walk.size(1280, 800)
    walk.open()
    walk.keys("13")
    walk.chord(Keys.CONTROL, "f")
    walk.picture("7-find")
    walk.keys(Keys.ESCAPE, Keys.F5)
    walk.picture("8-to-cut")
    walk.keys(Keys.F1)
    walk.picture("9-help")
    walk.keys(Keys.ESCAPE, Keys.ESCAPE)
    walk.chord(Keys.ALT, "m")
    walk.picture("10-map")
    assert walk.browser.current_url == f"http://{walk.host}/", "a key led away"
    walk.keys(Keys.ESCAPE)
    walk.chord(Keys.CONTROL, "s")
    walk.chord(Keys.CONTROL, "q")
    walk.wait(lambda: "-closed" in walk.classes(), "the end of the shell")
    left = [key for key in keys_of_actions() if not walk.browser.execute_script(PRESS, *pressed(key))]
    print(f"  keys that the page leaves to the browser: {', '.join(left) or 'none'}")
    assert left == []


PRESS = """
const [code, held] = arguments;
const holds = (key) => held.includes(key);
const said = {keyCode: code, key: String.fromCharCode(code), bubbles: true, cancelable: true,
              ctrlKey: holds("ctrl"), altKey: holds("alt"), shiftKey: holds("shift")};
return !document.querySelector(".xterm-helper-textarea").dispatchEvent(new KeyboardEvent("keydown", said));
"""
"""Whether the page keeps a key from the browser. The shell has ended: the key goes nowhere."""

CODES = {"pageup": 33, "pagedown": 34, "end": 35, "home": 36, "left": 37, "up": 38, "right": 39, "down": 40}
CODES |= {"insert": 45, "delete": 46, "escape": 27} | {f"f{number}": 111 + number for number in range(1, 13)}


def keys_of_actions() -> list[str]:
    """Every key of the shell's own."""
    code = "from boltend.shell.actions import ACTIONS; print(*(key for one in ACTIONS for key in one.keys))"
    return subprocess.run([python(), "-c", code], capture_output=True, text=True, check=True).stdout.split()


def pressed(key: str) -> tuple[int, list[str]]:
    """A key's code and what is held with it, as `PRESS` takes them."""
    *held, last = key.split("+")
    return CODES.get(last) or ord(last.upper()), held


def copied_and_downloaded(walk: Walk) -> None:
    """What is copied is in the browser's clipboard; the plan comes as a download."""
    where = str(walk.folder / "downloads")
    walk.browser.execute_cdp_cmd("Browser.setDownloadBehavior", {"behavior": "allow", "downloadPath": where})
    walk.browser.execute_cdp_cmd(
        "Browser.grantPermissions", {"permissions": ["clipboardReadWrite", "clipboardSanitizedWrite"]}
    )
    walk.size(1280, 800)
    walk.open()
    walk.keys("13")
    walk.chord(Keys.ALT, "c")
    read = "navigator.clipboard.readText().then(arguments[0], (e) => arguments[0]('no: ' + e))"
    copied = str(walk.browser.execute_async_script(read))
    print(f"  in the clipboard: {copied[:60]!r} …")
    assert "52 in" in copied
    walk.chord(Keys.ALT, "e")
    walk.picture("11-download")
    walk.keys(Keys.ENTER)
    walk.wait(lambda: list(Path(where).glob("quilt*.txt")), "the download")
    (file,) = Path(where).glob("quilt*.txt")
    print(f"  downloaded {file.name}")
    assert "52 in" in file.read_text(encoding="utf-8")
    walk.picture("12-downloaded")
    asked = [url for url in walk.asked() if url.split("/")[2] != walk.host]
    assert asked == [], asked


def small_and_ended(walk: Walk) -> None:
    """800 × 600, a window that changes its size, and the page once the shell has ended."""
    walk.size(800, 600)
    walk.open()
    walk.keys("13")
    walk.picture("13-small")
    walk.keys(Keys.F5)
    walk.picture("14-small-to-cut")
    walk.keys(Keys.ESCAPE)
    walk.size(1000, 700)
    walk.picture("15-made-larger")
    walk.chord(Keys.CONTROL, "s")
    walk.chord(Keys.CONTROL, "q")
    walk.wait(lambda: "-closed" in walk.classes(), "the end of the shell")
    walk.picture("16-ended")
    walk.keys(Keys.ENTER)  # the button has the focus
    walk.wait(lambda: "-closed" not in walk.classes() and "-first-byte" in walk.classes(), "a new shell")


FOREIGN = """<!DOCTYPE html><title>elsewhere</title><pre id="said"></pre><script>
const said = []; const host = "%s";
const note = (what) => (error) => said.push(what + (error && error.type ? ": " + error.type : ""));
const socket = new WebSocket("ws://" + host + "/ws?width=80&height=24");
socket.onopen = note("SOCKET OPEN"); socket.onerror = note("socket refused");
fetch("http://" + host + "/", {credentials: "include"})
  .then(note("PAGE READ"), () => said.push("page refused"));
fetch("http://" + host + "/page/page.css", {credentials: "include", mode: "no-cors"})
  .then((r) => said.push("style " + r.type), () => said.push("style refused"));
const frame = document.createElement("iframe");
frame.src = "http://" + host + "/";
document.body.append(frame);
setTimeout(() => { let seen; try { seen = frame.contentDocument && "FRAME OPEN"; } catch (e) { seen = "x"; }
  said.push("frame " + (seen || "refused"));
  document.getElementById("said").textContent = said.join("; "); }, 3000);
</script>"""


def a_foreign_page(walk: Walk) -> None:
    """A page from another port of this computer, in the same browser, comes in nowhere, cookie or not."""
    walk.size(1280, 800)
    walk.open()  # now the browser has the cookie
    shells = len(shells_of(walk))
    page = (FOREIGN % walk.host).encode()

    class Elsewhere(http.server.BaseHTTPRequestHandler):
        def do_GET(self) -> None:
            self.send_response(200)
            self.send_header("Content-Type", "text/html")
            self.end_headers()
            self.wfile.write(page)

        def log_message(self, *_: object) -> None:
            pass

    with http.server.ThreadingHTTPServer(("127.0.0.1", 0), Elsewhere) as elsewhere:
        threading.Thread(target=elsewhere.serve_forever, daemon=True).start()
        walk.browser.switch_to.new_window("tab")
        walk.browser.get(f"http://127.0.0.1:{elsewhere.server_port}/")
        said = "return document.getElementById('said').textContent"
        walk.wait(lambda: walk.browser.execute_script(said), "what the foreign page saw")
        seen = walk.browser.execute_script(said)
        walk.picture("17-foreign")
        elsewhere.shutdown()
    print(f"  the foreign page says: {seen}")
    assert "OPEN" not in seen
    assert "READ" not in seen
    assert "socket refused" in seen
    assert len(shells_of(walk)) == shells, "it started a shell"


def a_link_in_a_mail(walk: Walk) -> None:
    """Who clicks on the address in a page from elsewhere (another site) comes in, and the token goes."""
    walk.size(800, 600)
    mail = walk.folder / "mail.html"
    mail.write_text(f'<a id="link" href="{walk.url}">Come in</a>', encoding="utf-8")
    walk.browser.get(mail.as_uri())
    walk.browser.find_element("id", "link").click()
    walk.wait(lambda: "-first-byte" in walk.classes(), "the first paint")
    assert walk.browser.current_url == f"http://{walk.host}/"


def shells_of(walk: Walk) -> list[str]:
    """The shells that the server has started."""
    said = subprocess.run(
        ["ps", "-o", "pid=,args=", "--ppid", str(walk.server.pid)], capture_output=True, text=True
    )
    return [line for line in said.stdout.splitlines() if "boltend.serve.child" in line]


WALKS = (
    type_link_save,
    loaded_anew,
    kept_keys,
    copied_and_downloaded,
    small_and_ended,
    a_foreign_page,
    a_link_in_a_mail,
)


@contextlib.contextmanager
def walking(pictures: Path) -> Iterator[Walk]:
    """A server with a new quilt and a new browser, ended afterwards."""
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as name:
        folder = Path(name)
        (folder / "quilt.toml").write_text(QUILT, encoding="utf-8")
        env = os.environ | {"BOLTEND_STATE": f"{name}/state", "BOLTEND_CONFIG": f"{name}/config"}
        server = subprocess.Popen(
            [python(), "-m", "boltend", "serve", "quilt.toml"],
            stdout=subprocess.PIPE,
            text=True,
            env=env,
            cwd=folder,
        )
        assert server.stdout is not None
        url = next(line.strip() for line in server.stdout if line.strip().startswith("http://"))
        options = webdriver.ChromeOptions()
        for flag in (*FLAGS, f"--user-data-dir={name}/browser"):
            options.add_argument(flag)
        options.set_capability("goog:loggingPrefs", {"performance": "ALL", "browser": "ALL"})
        service = webdriver.ChromeService(shutil.which("chromedriver"))
        browser = webdriver.Chrome(options=options, service=service)
        try:
            walk = Walk(folder, pictures, server, url, browser)
            yield walk
        finally:
            browser.quit()
            server.terminate()
            server.communicate(timeout=PATIENCE)
            assert shells_of(walk) == []


def python() -> str:
    """The Python that Boltend is installed for: `BOLTEND_PYTHON`, or the one that runs this."""
    return os.environ.get("BOLTEND_PYTHON", sys.executable)


def main(words: list[str]) -> int:
    """Walk them all."""
    pictures = Path(words[0] if words else tempfile.mkdtemp(prefix="boltend-walk-"))
    failed = 0
    for one in WALKS:
        with walking(pictures) as walk:
            print(f"{one.__name__}:")
            try:
                one(walk)
                print("  passed")
            except Exception as error:
                failed += 1
                walk.picture(f"failed-{one.__name__}")
                print(f"  FAILED: {type(error).__name__}: {error}")
    print(f"Pictures are in {pictures}")
    return failed


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
