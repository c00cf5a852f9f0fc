"""`boltend print` on paper, in a process of its own: forms by ending, pictures, kind refusals."""

import os
import subprocess
import sys
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest
from calling import call

EXAMPLE = Path(__file__).parents[2] / "shared/boltend_shared/examples/harbour-steps.toml"


@pytest.mark.parametrize(
    ("name", "begins"), [("p.html", "<!DOCTYPE html>"), ("p.pdf", "%PDF-"), ("p.md", "# Harbour")]
)
def test_the_ending_names_the_form(tmp_path: Path, name: str, begins: str) -> None:
    out = tmp_path / name
    said = call("print", EXAMPLE, "-o", out)
    assert (said.returncode, said.stdout, said.stderr) == (0, "", "")
    assert out.read_bytes().startswith(begins.encode())


def test_html_goes_into_a_pipe() -> None:
    said = call("print", EXAMPLE, "--as", "html", "--working")
    assert (said.returncode, said.stderr) == (0, "")
    assert said.stdout.startswith("<!DOCTYPE html>")
    assert "blocks = 5 across × 6 down = 30" in said.stdout


def test_pdf_goes_into_a_pipe() -> None:
    line = [sys.executable, "-m", "boltend", "print", str(EXAMPLE), "--as", "pdf"]
    said = subprocess.run(line, capture_output=True, check=False, timeout=60, stdin=subprocess.DEVNULL)
    assert (said.returncode, said.stderr) == (0, b"")
    assert said.stdout.startswith(b"%PDF-")
    assert said.stdout.rstrip().endswith(b"%%EOF")


@pytest.mark.skipif(os.name == "nt", reason="there is no pty there")
def test_pdf_is_not_thrown_at_a_terminal() -> None:
    import pty

    reader, writer = pty.openpty()
    line = [sys.executable, "-m", "boltend", "print", str(EXAMPLE), "--as", "pdf"]
    said = subprocess.run(
        line, stdout=writer, stderr=subprocess.PIPE, check=False, timeout=60, stdin=subprocess.DEVNULL
    )
    os.close(writer)
    os.close(reader)
    assert said.returncode == 2
    assert b"--out plan.pdf" in said.stderr


def test_one_picture_and_all_of_them(tmp_path: Path) -> None:
    said = call("print", EXAMPLE, "--as", "svg", "--tab", "Borders")
    assert said.returncode == 0
    ET.fromstring(said.stdout)
    one = tmp_path / "one.svg"
    assert call("print", EXAMPLE, "--tab", "Borders", "--out", one).returncode == 0
    assert one.read_text(encoding="utf-8") == said.stdout
    folder = tmp_path / "pictures"
    assert call("print", EXAMPLE, "--as", "svg", "--out", folder).returncode == 0
    names = sorted(file.name for file in folder.iterdir())
    assert "03-steps.svg" in names
    assert "cut-02-slate.svg" in names
    assert (folder / "05-borders.svg").read_text(encoding="utf-8") == said.stdout


def test_the_customers_page(tmp_path: Path) -> None:
    out = tmp_path / "page.html"
    said = call("print", EXAMPLE, "--sheet", "customer", "--out", out, "--paper", "a4")
    assert (said.returncode, said.stderr) == (0, "")
    text = out.read_text(encoding="utf-8")
    assert "$104.53" in text
    assert "64 1/2 in × 75 in" in text.replace("\N{NO-BREAK SPACE}", " ")
    assert "sleeping infant" in text
    assert "Square its end" not in text


@pytest.mark.parametrize(
    ("words", "why"),
    [
        (["--as", "svg"], "--tab"),
        (["--as", "svg", "--no-pictures", "--out", "x"], "--no-pictures"),
        (["--as", "svg", "--tab", "The top, measured"], "no picture"),
        (["--sheet", "customer"], "--as pdf"),
        (["--sheet", "customer", "--as", "html", "--working"], "no working"),
        (["--paper", "a4"], "html and pdf"),
        (["--out", "/nowhere/at/all/plan.pdf"], "cannot be written"),
        (["--as", "svg", "--out", "pictures.svg"], "name a folder"),
    ],
)
def test_what_does_not_go_together_is_refused(words: list[str], why: str) -> None:
    said = call("print", EXAMPLE, *words)
    assert (said.returncode, said.stdout) == (2, "")
    assert why in said.stderr


def test_pictures_can_be_left_out(tmp_path: Path) -> None:
    out = tmp_path / "p.html"
    assert call("print", EXAMPLE, "--out", out, "--no-pictures").returncode == 0
    assert "<svg" not in out.read_text(encoding="utf-8")


def test_a_bad_project_is_printed_and_says_so(tmp_path: Path) -> None:
    out = tmp_path / "p.pdf"
    said = call("print", EXAMPLE.with_name("mistakes.toml"), "--out", out)
    assert said.returncode == 1
    assert out.read_bytes().startswith(b"%PDF-")


def test_text_does_not_import_what_only_a_pdf_needs() -> None:
    code = (
        "import sys; from boltend.commands.main import main; "
        f"main(['print', {str(EXAMPLE)!r}, '--out', {os.devnull!r}]); "
        "print('reportlab' in sys.modules, 'bidi' in sys.modules, 'PIL' in sys.modules)"
    )
    said = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, timeout=60
    )
    assert said.stdout == "False False False\n"
