#!/usr/bin/python3
"""The evening by keyboard alone, one TAP line each step: keyboard.py FROSTRUN MAKE_BOOK BOOK_JSON CLI.

Real key presses come from xdotool; what they did is read over AT-SPI, as a screen reader reads it, and from the book's
file. The sentence on the page is held against the command line's. Needs a display and a session bus, which
tests/headless gives."""
import os
import pathlib
import sqlite3
import subprocess
import sys
import tempfile
import time

import pyatspi

from keys import focused, give_keyboard, key, plain, program_window, tab_to, wait, walk

frostrun, make_book, source, cli = sys.argv[1:5]
NOW = "2026-03-19T18:30"
MAX_TABS = 80
number = 0


def case(name, good, seen=""):
    global number
    number += 1
    if not good:
        print("".join(f"# {line}\n" for line in str(seen).splitlines()), end="")
    print(f"{'ok' if good else 'not ok'} {number} - {name}", flush=True)
    if not good:
        print("Bail out! the next steps stand on this one", flush=True)
        raise SystemExit(1)


def texts():
    found = []
    for node in walk(window):
        found.append(node.name or "")
        try:
            text = node.queryText()
            found.append(text.getText(0, text.characterCount))
        except NotImplementedError:
            pass
    return [plain(t) for t in found]


def dialog(name):
    app = window.parent
    return next((w for w in (app.getChildAtIndex(i) for i in range(app.childCount)) if plain(w.name or "") == name), None)


def over(name):
    """The dialog of that name is there, and has the keyboard."""
    wait(lambda: dialog(name), 10)
    time.sleep(0.5)
    give_keyboard()
    time.sleep(0.3)


def back_from(name):
    wait(lambda: dialog(name) is None, 10)
    time.sleep(0.5)
    give_keyboard()
    time.sleep(0.3)


def said(name):
    return [plain(n.name or "") for n in walk(dialog(name))] if dialog(name) else []


def entry(title):
    return next(n for n in walk(window) if n.name == title and n.getRoleName() in ("text", "entry"))


def focus():
    return next((n.getRoleName() for n in walk(window) if focused(n)), None)


def selected(name):
    return any(n.getState().contains(pyatspi.STATE_SELECTED) for n in walk(window)
               if n.getRoleName() == "list item" and any(plain(m.name or "") == name for m in walk(n)))


def rows(query):
    with sqlite3.connect(f"file:{book}?mode=ro", uri=True) as connection:
        return connection.execute(query).fetchone()[0]


def nights():
    return rows("SELECT count(*) FROM night")


def diary():
    return rows("SELECT count(*) FROM diary")


def put_away():
    return rows("SELECT count(*) FROM tree WHERE archived")


def sentence(*options):
    out = subprocess.run([cli, "tonight", "--book", book, "--now", NOW, *options], capture_output=True, text=True)
    return plain(out.stdout.splitlines()[2])


print("1..22")
with tempfile.TemporaryDirectory() as folder:
    book = str(pathlib.Path(folder, "demo.frostrun"))
    subprocess.run([make_book, source, book, NOW + ":00-04:00"], check=True)
    first, other = sentence(), sentence("--sap", "17")
    nights_before, diary_before = nights(), diary()
    environment = dict(os.environ, GTK_A11Y="atspi", G_DEBUG="fatal-criticals")
    process = subprocess.Popen([frostrun, "--application-id", "org.frostrun.Keyboard", "--now", NOW, book],
                               env=environment, stdout=sys.stderr)
    try:
        window = program_window(process.pid)
        case("the page says what the command line says", wait(lambda: first in texts()), first)
        case("the window takes the keyboard", give_keyboard())
        amount = wait(lambda: entry("Amount"))
        case("Tab comes to the amount", amount and tab_to(amount, MAX_TABS))
        subprocess.run(["xdotool", "type", "--delay", "40", "17"], check=True)
        case("typing 17 gives the plan for 17 L", first != other and wait(lambda: other in texts()), other)
        key("Tab")
        case("Tab leaves the entry, the plan stays",
             wait(lambda: not focused(amount)) and wait(lambda: other in texts()), other)
        case("nothing is written yet", (nights(), diary()) == (nights_before, diary_before), (nights(), diary()))
        key("ctrl+4")
        case("Ctrl+4 shows the kit", wait(lambda: selected("Kit and prices")))
        key("ctrl+2")
        case("Ctrl+2 shows the sugarbush", wait(lambda: selected("Sugarbush")))
        key("ctrl+f", "Down")
        wait(lambda: focus() == "list item")
        key("Tab")
        case("Tab leaves the list of trees at once", wait(lambda: focus() not in (None, "list item")), focus())
        key("shift+Tab")
        case("Shift+Tab comes back to it", wait(lambda: focus() == "list item"), focus())
        key("shift+Tab")
        case("and leaves it before the first row", wait(lambda: focus() not in (None, "list item")), focus())
        key("ctrl+f")
        subprocess.run(["xdotool", "type", "--delay", "40", "gate"], check=True)
        case("Ctrl+F finds a tree by its name", wait(lambda: "1 of 31" in texts()), texts())
        key("Down", "space")
        case("its row says what the tree is",
             wait(lambda: any(t.startswith("Gate. Sugar maple, 61 cm thick, healthy.") for t in texts())), texts())
        key("Delete")
        case("Delete puts it away, for it has a history", wait(lambda: put_away() == 1), put_away())
        key("ctrl+z")
        case("Ctrl+Z takes the tree out again", wait(lambda: put_away() == 0), put_away())
        key("ctrl+1")
        case("Ctrl+1 comes back", wait(lambda: selected("Tonight")) and wait(lambda: other in texts()), other)
        key("alt+k")
        case("Alt+K keeps the night in one step",
             wait(lambda: (nights(), diary()) == (nights_before + 1, diary_before + 3)), (nights(), diary()))
        key("ctrl+z")
        case("Ctrl+Z takes it back", wait(lambda: (nights(), diary()) == (nights_before, diary_before + 4))
             and wait(lambda: other in texts()), (nights(), diary()))
        station_days = rows("SELECT count(*) FROM station_day")
        key("ctrl+3")
        wait(lambda: selected("Season"))
        key("ctrl+d")
        over("Night and Day")
        key("minus", "7", "Return", "3", "Return")
        case("Ctrl+D writes a night and a day down, with Enter alone",
             wait(lambda: rows("SELECT count(*) FROM day WHERE low_c = -7 AND high_c = 3") == 1))
        back_from("Night and Day")
        key("ctrl+z")
        case("Ctrl+Z takes both back", wait(lambda: rows("SELECT count(*) FROM day WHERE low_c = -7 AND high_c = 3") == 0))
        table = pathlib.Path(folder, "ridge.csv")
        table.write_text("date,tmin_c,tmax_c\n2026-03-01,-6,4\n2026-03-02,-8,1\n")
        key("ctrl+shift+o")
        over("Import Weather")
        subprocess.run(["xdotool", "type", "--delay", "40", str(table)], check=True)
        time.sleep(1)
        key("Return")
        wait(lambda: any("2 days" in t for t in said("Import Weather")), 10)
        over("Import Weather")
        key("Return")
        case("Ctrl+Shift+O, the file's name and Enter bring weather in",
             wait(lambda: rows("SELECT count(*) FROM station_day") == station_days + 2), said("Import Weather"))
        back_from("Import Weather")
        key("ctrl+z")
        case("Ctrl+Z takes it back", wait(lambda: rows("SELECT count(*) FROM station_day") == station_days))
    finally:
        process.terminate()
        process.wait()
