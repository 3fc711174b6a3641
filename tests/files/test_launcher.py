"""A launcher for each system, read back as the system reads it."""

from __future__ import annotations

import re
import shlex
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from courseware.files.launcher import desktop_folder, launcher, this_program, write_launcher

WORDS = ("/opt/a b/python", "-m", "courseware.cli", "desk", "/home/zoë/Year 1 $HOME `x` \"50%\" \\ 'it''s'")


def exec_words(text: str) -> list[str]:
    """The words of the key Exec, by the Desktop Entry Specification 1.5.

    "Possible value types": in a string \\s \\n \\t \\r \\\\ stand for one character. "The Exec key": an argument may be
    quoted; in quotes a backslash stands before `"`, `` ` ``, `$` and itself; %% is a percent sign.
    """
    [line] = re.findall(r"^Exec=(.*)$", text, re.M)
    line = re.sub(r"\\(.)", lambda found: {"s": " ", "n": "\n", "t": "\t", "r": "\r"}.get(found[1], found[1]), line)
    words = re.findall(r'"((?:[^"\\]|\\.)*)"', line)
    assert re.sub(r'"((?:[^"\\]|\\.)*)"', "", line).strip() == "", "every argument is quoted"
    return [re.sub(r"\\(.)", r"\1", word).replace("%%", "%") for word in words]


def test_linux_reads_the_words_back() -> None:
    made = launcher(WORDS, "linux")
    text = made.data.decode()
    assert made.name == "Courseware desk.desktop"
    assert text.startswith("[Desktop Entry]\nType=Application\n")
    assert exec_words(text) == list(WORDS)
    assert "\nTerminal=true\n" in text


def test_macos_reads_the_words_back() -> None:
    first, line = launcher(WORDS, "darwin").data.decode().splitlines()
    assert first == "#!/bin/sh"
    assert shlex.split(line) == ["exec", *WORDS]


def test_windows_has_each_word_in_quotes_and_no_percent_sign_that_names_a_variable() -> None:
    """`cmd /?`: in a batch file %% is a percent sign; in quotes & ^ | and spaces are themselves."""
    lines = launcher(("C:\\Python 3\\python.exe", "desk", "C:\\50% & more"), "win32").data.decode().split("\r\n")
    assert '"C:\\Python 3\\python.exe" "desk" "C:\\50%% & more"' in lines
    assert lines[1] == "chcp 65001 >nul", "a path may have any letters"


ODD = ("C:\\", "D:\\Year 1 & 2 (50%)\\", "E:\\a^b !c! ;,=|<>", "F:\\zoë's", "", "a\\\\b", "%PATH%")


def batch_words(line: str) -> list[str]:
    """The words that a program gets of a line in a batch file.

    `cmd /?`: %% is a percent sign, and all else in quotes is itself. "Parsing C command-line arguments" (Microsoft, C
    language reference): before a quote 2n backslashes are n, and the quote ends the word; elsewhere they are themselves.
    """
    assert not re.sub(r"%%", "", line).count("%"), "no variable is named"
    words, place = [], 0
    while place < len(line):
        assert line[place] == '"'
        word, place = "", place + 1
        while True:
            run = re.match(r"\\*", line[place:])[0]
            place += len(run)
            if line[place] == '"':
                assert len(run) % 2 == 0, "the quote would be one of the word's"
                word += "\\" * (len(run) // 2)
                break
            word += run + line[place]
            place += 1
        words.append(word.replace("%%", "%"))
        place += 2  # the quote and the space after it
    return words


def test_windows_reads_odd_words_back_as_does_the_rule_of_the_standard_library() -> None:
    line = launcher(ODD, "win32").data.decode().split("\r\n")[3]
    assert batch_words(line) == list(ODD)
    for word in ODD:  # quoted as `subprocess` does where it finds that needed, which is the same rule
        if " " in word:
            assert subprocess.list2cmdline([word]) == line_of(word)


def line_of(word: str) -> str:
    return launcher((word,), "win32").data.decode().split("\r\n")[3].replace("%%", "%")


@pytest.mark.skipif(shutil.which("bash") is None, reason="bash is not installed")
def test_macos_hands_odd_words_on_as_they_are(tmp_path: Path) -> None:
    """Run by the shell itself; `bash -n` reads it as the shell that Terminal may use."""
    out, odd = tmp_path / "words", (*WORDS[1:], *ODD, "a\nb", "-n", "*", "~", "#x", "$(exit 3)")
    shows = f"import sys; open({str(out)!r}, 'w').write(repr(sys.argv[1:]))"
    path = write_launcher((sys.executable, "-c", shows, *odd), tmp_path, "darwin")
    subprocess.run(["bash", "-n", path], check=True)
    subprocess.run([path], check=True)
    assert out.read_text() == repr(list(odd))


@pytest.mark.skipif(shutil.which("desktop-file-validate") is None, reason="desktop-file-utils is not installed")
def test_linux_finds_no_fault_in_an_entry_with_odd_words(tmp_path: Path) -> None:
    """By the validator of the specification's own publisher, freedesktop.org."""
    path = write_launcher((*WORDS, *ODD), tmp_path, "linux")
    done = subprocess.run(["desktop-file-validate", path], capture_output=True, text=True, check=False)
    assert (done.returncode, done.stdout) == (0, "")


def test_a_launcher_can_be_run(tmp_path: Path) -> None:
    out = tmp_path / "it ran"
    words = (sys.executable, "-c", f"open({str(out)!r}, 'w')")
    path = write_launcher(words, tmp_path, "darwin")
    assert path.stat().st_mode & 0o111
    subprocess.run([path], check=True)
    assert out.exists()


def test_it_starts_this_program() -> None:
    done = subprocess.run([*this_program("desk", "--help")], capture_output=True, text=True, check=True)
    assert done.stdout.startswith("Usage:")


@pytest.mark.parametrize(
    ("there", "said", "expected"),
    [
        (["Desktop"], "", "Desktop"),
        (["Desktop", "Schreibtisch"], 'XDG_DESKTOP_DIR="$HOME/Schreibtisch"\n', "Schreibtisch"),
        (["Desktop"], 'XDG_DESKTOP_DIR="$HOME/gone"\n', "Desktop"),
        ([], "", "."),
    ],
)
def test_the_desktop_is_found_else_home(tmp_path: Path, there: list[str], said: str, expected: str) -> None:
    for name in there:
        (tmp_path / name).mkdir()
    if said:
        (tmp_path / ".config").mkdir()
        (tmp_path / ".config" / "user-dirs.dirs").write_text(said)
    assert desktop_folder({}, tmp_path) == tmp_path / expected
