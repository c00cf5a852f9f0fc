"""Who comes in: every request without the token, or from elsewhere, is refused; a page loads what is ours."""

import re
import subprocess
import sys
from collections.abc import Iterator
from html.parser import HTMLParser
from pathlib import Path

import aiohttp
import pytest
from serving import QUILT, UPGRADE, Answer, Server, ask

import boltend.serve
from boltend.commands.serve import announce
from boltend.serve.gate import Gate

PAGE, SOCKET = "/", "/ws?width=80&height=24"
STATIC = ("/page/page.css", "/terminal/js/textual.js", "/page/fonts/DejaVuSansMono.ttf", "/page/icon.svg")
EVERYTHING = (PAGE, SOCKET, *STATIC, "/download/0123", "/favicon.ico", "/nothing", "/page/")


@pytest.fixture(scope="module")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    """One for all: a request that is refused starts no shell."""
    folder = tmp_path_factory.mktemp("gate")
    (folder / "quilt.toml").write_text(QUILT, encoding="utf-8")
    server = Server(folder, "quilt.toml")
    yield server
    assert server.mine() == set(), "a request that was refused started a shell"
    server.close()


def get(server: Server, target: str, *lines: str) -> Answer:
    """As a browser asks, with an upgrade where it is one; all that tells who asks is in `lines`."""
    return ask(server, target, *lines, headers=UPGRADE if target.startswith("/ws") else None)


# What must not come in, whatever is asked for. {h}: the right Host; {c}: the right cookie; {p}: the port.
REFUSED = {
    "no token": ("Host: {h}", "Origin: http://{h}"),
    "wrong token": ("Host: {h}", "Origin: http://{h}", "Cookie: boltend-{p}=" + "A" * 43),
    "empty token": ("Host: {h}", "Origin: http://{h}", "Cookie: boltend-{p}="),
    "token of another name": ("Host: {h}", "Origin: http://{h}", "Cookie: boltend={t}"),
    "foreign Origin": ("Host: {h}", "Origin: http://evil.example", "Cookie: {c}"),
    "Origin null": ("Host: {h}", "Origin: null", "Cookie: {c}"),
    "Origin empty": ("Host: {h}", "Origin:", "Cookie: {c}"),
    "Origin of another port": ("Host: {h}", "Origin: http://127.0.0.1:1", "Cookie: {c}"),
    "Origin without a port": ("Host: {h}", "Origin: http://127.0.0.1", "Cookie: {c}"),
    "Origin of another scheme": ("Host: {h}", "Origin: https://{h}", "Cookie: {c}"),
    "Origin that begins alike": ("Host: {h}", "Origin: http://{h}.evil.example", "Cookie: {c}"),
    "Origin said twice": ("Host: {h}", "Origin: http://{h}", "Origin: http://evil.example", "Cookie: {c}"),
    "Origin of our other name": ("Host: {h}", "Origin: http://localhost:{p}", "Cookie: {c}"),
    "foreign Host": ("Host: evil.example:{p}", "Origin: http://evil.example:{p}", "Cookie: {c}"),
    "foreign Host, our Origin": ("Host: evil.example:{p}", "Origin: http://{h}", "Cookie: {c}"),
    "Host of another port": ("Host: 127.0.0.1:1", "Origin: http://127.0.0.1:1", "Cookie: {c}"),
    "Host without a port": ("Host: 127.0.0.1", "Origin: http://127.0.0.1", "Cookie: {c}"),
    "Host with a dot": ("Host: localhost.:{p}", "Origin: http://localhost.:{p}", "Cookie: {c}"),
    "Host with a person": ("Host: {h}@evil.example", "Origin: http://{h}", "Cookie: {c}"),
}


def filled(server: Server, lines: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(line.format(h=server.host, c=server.cookie, p=server.port, t=server.token) for line in lines)


@pytest.mark.parametrize("target", EVERYTHING)
@pytest.mark.parametrize("why", REFUSED)
def test_refused(server: Server, target: str, why: str) -> None:
    answer = get(server, target, *filled(server, REFUSED[why]))
    assert answer.status == 403
    assert server.token.encode() not in answer.body
    assert "set-cookie" not in answer.headers


@pytest.mark.parametrize("target", EVERYTHING)
def test_two_hosts_or_none_are_refused(server: Server, target: str) -> None:
    """A web server may also say 400 (RFC 9112, section 3.2), before we see it."""
    our, foreign = f"Host: {server.host}", "Host: evil.example"
    rest = (f"Origin: http://{server.host}", f"Cookie: {server.cookie}")
    for hosts in ((), (our, foreign), (foreign, our), (our, our)):
        assert get(server, target, *hosts, *rest).status in (400, 403), hosts


@pytest.mark.parametrize("target", EVERYTHING)
def test_a_target_with_anything_before_its_path_is_refused(server: Server, target: str) -> None:
    lines = filled(server, ("Host: {h}", "Origin: http://{h}", "Cookie: {c}"))
    for before in (f"http://{server.host}", "http://evil.example", "//evil.example", "//"):
        assert ask(server, before + target, *lines, headers=UPGRADE).status in (400, 403, 404), before
        assert ask(server, before + target, *lines, headers=UPGRADE).status == 403 or before == "//"


def test_a_websocket_without_an_origin_is_refused(server: Server) -> None:
    lines = filled(server, ("Host: {h}", "Cookie: {c}"))
    for target in (SOCKET, "/ws", "/%77s", "//ws"):
        assert ask(server, target, *lines, headers=UPGRADE).status == 403, target


def test_the_token_in_the_address_opens_the_page_only(server: Server) -> None:
    lines = filled(server, ("Host: {h}", "Origin: http://{h}"))
    for target in ("/ws", "/page/page.css", "/download/0"):
        said = f"{target}?token={server.token}"
        assert ask(server, said, *lines, headers=UPGRADE if target == "/ws" else None).status == 403
    for wrong in ("", "x", server.token[:-1], server.token + "x", "%C2%BD", "%FF"):
        assert ask(server, f"/?token={wrong}", *lines).status == 403


def test_the_right_token_and_nobody_else_gets_the_cookie(server: Server) -> None:
    answer = ask(server, f"/?token={server.token}", f"Host: {server.host}")
    assert answer.status == 303
    assert answer.headers["location"] == ["/"]
    (cookie,) = answer.headers["set-cookie"]
    name, *said = (part.strip() for part in cookie.split(";"))
    assert name == server.cookie
    assert {word.lower() for word in said} == {"httponly", "samesite=strict", "path=/"}
    # From a link elsewhere a redirect would go without the cookie, which is Strict: our own page leads on.
    linked = ask(server, f"/?token={server.token}", f"Host: {server.host}", "Sec-Fetch-Site: cross-site")
    assert linked.status == 200
    assert linked.headers["set-cookie"] == [cookie]
    assert b'http-equiv="refresh" content="0;url=/"' in linked.body
    for foreign in (
        ("Host: evil.example",),
        (f"Host: {server.host}", "Origin: http://evil.example"),
        (f"Host: {server.host}", "Origin: null"),
    ):
        refused = ask(server, f"/?token={server.token}", *foreign)
        assert refused.status == 403
        assert "set-cookie" not in refused.headers


def test_with_the_cookie_all_is_there(server: Server) -> None:
    for host in (server.host, f"localhost:{server.port}"):
        lines = (f"Host: {host}", f"Cookie: {server.cookie}")
        assert ask(server, PAGE, *lines).status == 200
        for target in STATIC:
            assert ask(server, target, *lines, f"Origin: http://{host}").status == 200, target
        assert ask(server, "/download/0123", *lines).status == 404
        # No list of a folder's files, and nothing above it.
        for target in ("/page/", "/page/../server.py", "/page/%2e%2e/server.py", "/page/..%2fserver.py"):
            assert ask(server, target, *lines).status in (403, 404), target


@pytest.mark.parametrize("target", [*EVERYTHING, "/?token={t}"])
@pytest.mark.parametrize("known", [True, False])
def test_every_answer_bears_the_headers(server: Server, target: str, known: bool) -> None:
    lines = (f"Host: {server.host}", *([f"Cookie: {server.cookie}"] if known else []))
    headers = ask(server, target.format(t=server.token), *lines).headers
    assert headers["cache-control"] == ["no-store"]
    assert headers["x-frame-options"] == ["DENY"]
    assert headers["x-content-type-options"] == ["nosniff"]
    assert headers["referrer-policy"] == ["no-referrer"]
    assert headers["cross-origin-opener-policy"] == ["same-origin"]
    assert headers["cross-origin-resource-policy"] == ["same-origin"]
    assert headers["server"] == ["boltend"]
    assert "access-control-allow-origin" not in headers
    (policy,) = headers["content-security-policy"]
    rules = dict(rule.strip().split(" ", 1) for rule in policy.split(";"))
    assert rules["default-src"] == "'none'"
    assert rules["script-src"] == rules["font-src"] == rules["img-src"] == "'self'"
    assert rules["connect-src"] == f"'self' ws://{server.host}"
    assert rules["frame-ancestors"] == rules["base-uri"] == rules["form-action"] == "'none'"


class Loads(HTMLParser):
    """Everything that a page makes a browser load."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[str] = []
        self.inline = 0
        self.title = False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        said = dict(attrs)
        self.found += [value for key, value in attrs if key in ("src", "href", "action") and value]
        self.inline += tag == "style" or (tag == "script" and "src" not in said)
        self.inline += sum(key.startswith("on") or key == "style" for key in said)
        self.title |= tag == "title"


def test_nothing_is_loaded_from_elsewhere(server: Server) -> None:
    lines = (f"Host: {server.host}", f"Cookie: {server.cookie}")
    page = ask(server, PAGE, *lines).body.decode()
    loads = Loads()
    loads.feed(page)
    assert loads.title
    assert loads.inline == 0, "a script or style in the page itself, which the policy forbids"
    assert {"/page/icon.svg", "/page/page.js", "/terminal/js/textual.js"} <= set(loads.found)
    seen, left = {PAGE}, list(loads.found)
    texts = [page.replace(f"ws://{server.host}/ws", "")]
    while left:
        target = left.pop()
        assert re.match(r"/(?!/)", target), f"{target} is not ours"
        answer = ask(server, target, *lines)
        assert answer.status == 200, target
        seen.add(target)
        if target.endswith((".css", ".js")):
            text = re.sub(r"/\*.*?\*/", "", answer.body.decode(), flags=re.DOTALL)
            texts.append(text)
            if target.endswith(".css"):
                left += [found for found in re.findall(r"url\(\"?([^\")]+)", text) if found not in seen]
                assert "@import" not in text
    assert len(texts) == 5
    assert {target for target in seen if "/fonts/" in target}, "the fonts were not found in the styles"
    found = [re.findall(r"(?:https?|wss?)://[^\s'\"`)]*", text) for text in texts]
    assert found == [[]] * 5


def test_the_fonts_bear_their_licence_and_the_signs_of_the_shell() -> None:
    fonts = Path(boltend.serve.__file__).parent / "page" / "fonts"
    assert "DejaVu" in (fonts / "LICENSE-DejaVu.txt").read_text(encoding="utf-8")
    for name in ("DejaVuSansMono.ttf", "DejaVuSansMono-Bold.ttf"):
        assert set("Aé½¼¾⅛⅜⅝⅞⅓⅔′″×≈→←↑↓–“”…·‹›✓┏━┯┃░▒▓█▀▄▌▐═╱") - signs((fonts / name).read_bytes()) == set()
    assert "⠶" in signs((fonts / "DejaVuSans-braille.ttf").read_bytes())


def signs(font: bytes) -> set[str]:
    """What a TrueType font has, by its table "cmap", format 4 (OpenType 1.9, chapter cmap)."""

    def short(at: int) -> int:
        return int.from_bytes(font[at : at + 2])

    def long(at: int) -> int:
        return int.from_bytes(font[at : at + 4])

    tables = {font[at : at + 4]: long(at + 8) for at in range(12, 12 + 16 * short(4), 16)}
    cmap = tables[b"cmap"]
    subtables = [cmap + long(cmap + 8 + 8 * index) for index in range(short(cmap + 2))]
    at = next(place for place in subtables if short(place) == 4)
    twice = short(at + 6)
    ends, starts, offsets = at + 14, at + 16 + twice, at + 16 + 3 * twice
    found: set[str] = set()
    for step in range(0, twice, 2):
        shift = short(at + 16 + 2 * twice + step)
        for code in range(short(starts + step), short(ends + step) + 1):
            place = short(offsets + step)
            glyph = code if place == 0 else short(offsets + step + place + 2 * (code - short(starts + step)))
            if code != 0xFFFF and (place == 0 or glyph) and (glyph + shift) % 65536:
                found.add(chr(code))
    return found


async def test_a_client_of_another_make_sees_the_same(server: Server) -> None:
    """aiohttp's client, beside the raw lines: the whole way from the printed address to the page."""
    async with aiohttp.ClientSession(cookie_jar=aiohttp.CookieJar(unsafe=True)) as session:
        async with session.get(f"http://{server.host}/") as page:
            assert page.status == 403
            assert "Open the address that boltend serve printed" in await page.text()
        async with session.get(server.url) as page:
            assert page.status == 200
            assert str(page.url) == f"http://{server.host}/"
            assert "quilt.toml – Boltend" in await page.text()
        for origin in ("http://evil.example", None):
            with pytest.raises(aiohttp.WSServerHandshakeError) as refused:
                await session.ws_connect(
                    f"ws://{server.host}/ws", headers={"Origin": origin} if origin else {}
                )
            assert refused.value.status == 403


def test_only_ways_in_that_exist(server: Server) -> None:
    for method in ("POST", "PUT", "DELETE", "OPTIONS"):
        command = f"{method} / HTTP/1.1\r\nHost: {server.host}\r\nCookie: {server.cookie}\r\nX: "
        assert ask_raw(server, command) in (b"403", b"405"), method


def ask_raw(server: Server, lines: str) -> bytes:
    import socket

    with socket.create_connection(("127.0.0.1", server.port), timeout=30) as line:
        line.sendall(f"{lines}\r\n\r\n".encode())
        return line.makefile("rb").readline().split()[1]


# The gate alone, and the command ------------------------------------------------------------------


def test_names_and_ports_as_browsers_write_them() -> None:
    assert Gate(["127.0.0.1", "localhost"], 8700).hosts == ("127.0.0.1:8700", "localhost:8700")
    assert Gate(["::1"], 8700).hosts == ("[::1]:8700",)
    assert Gate(["Sewing-Room"], 80).hosts == ("sewing-room",)
    gate = Gate(["sewing-room"], 80)
    assert gate.url == f"http://sewing-room/?token={gate.token}"
    assert not gate.refusal("/", ["Sewing-Room"], ["http://sewing-room"])
    assert gate.refusal("*", ["sewing-room"], [])
    assert len({Gate(["::1"], 1).token for _ in range(50)}) == 50
    assert len(gate.token) >= 43  # 256 bits
    assert not gate.knows(None)
    assert not gate.knows("½")
    assert not gate.knows("\udcff")  # a byte that is no UTF-8, as it comes out of a header
    assert gate.knows(gate.token)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--host", "0.0.0.0"], "Name the one that browsers use"),
        (["--host", "::", "--beyond-this-computer"], "is every address of this computer"),
        (["--host", ""], "is every address of this computer"),
        (["--host", "192.0.2.1"], "lets other computers in"),
        (["--host", "no-such-name.invalid"], "there is no such address"),
        (["--host", "192.0.2.1", "--beyond-this-computer"], "Nothing can listen at 192.0.2.1"),
        (["--port", "65536"], "is no port"),
        (["--port", "-1"], "port"),
        (["broken.toml"], "broken.toml:1:6: this is not TOML"),
    ],
)
def test_calls_that_cannot_be(tmp_path: Path, words: list[str], said: str) -> None:
    """192.0.2.1 is an address for documentation: no computer has it (RFC 5737)."""
    (tmp_path / "broken.toml").write_text("this is none", encoding="utf-8")
    done = call(tmp_path, "serve", *words)
    assert done.returncode == 2
    assert said in " ".join(done.stderr.split())
    assert done.stdout == ""


def test_without_the_extra_it_says_what_to_install(tmp_path: Path) -> None:
    code = (
        "import importlib.util as u, sys; find = u.find_spec\n"
        "u.find_spec = lambda name, *rest: None if name == 'textual_serve' else find(name, *rest)\n"
        "from boltend.commands.main import main; sys.exit(main(['serve']))"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, timeout=60, cwd=tmp_path
    )
    assert done.returncode == 2
    assert done.stderr == (
        "boltend serve needs more than plain Boltend. Install it: pip install 'boltend[web]'\n"
    )


def test_no_other_command_loads_a_web_server(tmp_path: Path) -> None:
    code = (
        "import sys; from boltend.commands.main import build_parser; build_parser()\n"
        "print(sorted({m.partition('.')[0] for m in sys.modules} & {'aiohttp', 'textual_serve', 'textual'}))"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, timeout=60, check=True
    )
    assert done.stdout == "[]\n"


def test_beyond_this_computer_says_what_it_means(capsys: pytest.CaptureFixture[str]) -> None:
    announce("http://192.0.2.1:8700/?token=x", beyond=True)
    said = capsys.readouterr().out
    assert "http://192.0.2.1:8700/?token=x" in said
    assert (
        "OTHER COMPUTERS CAN COME IN. Whoever comes by the address sees, changes and saves every file" in said
    )
    assert "Nothing is encrypted" in said
    announce("http://127.0.0.1:8700/?token=x", beyond=False)
    assert "OTHER" not in capsys.readouterr().out


def call(folder: Path, *words: str) -> "subprocess.CompletedProcess[str]":
    return subprocess.run(
        [sys.executable, "-m", "boltend", *words], capture_output=True, text=True, timeout=60, cwd=folder
    )
