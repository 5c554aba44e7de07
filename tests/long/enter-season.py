#!/usr/bin/python3
"""A whole season typed into the window by keyboard, timed by row: enter-season.py FROSTRUN MAKE_BOOK BOOK_JSON [DAYS].

    sh tests/headless tests/long/enter-season.py build/src/ui/frostrun build/demo/make-book demo/book.json

25 invented trees with one tap each, 40 days before the held clock, an amount a tree and day and a sweetness every fifth: real key
presses from xdotool, nothing else. The time of a row is from its Enter to its record in the book's file, as seen from outside; of a day
from its first key to its last record. What is in the file in the end is held against what was typed. Prints TAP and the times."""
import json
import pathlib
import random
import sqlite3
import subprocess
import sys
import tempfile
import time

import os

frostrun, make_book, source = sys.argv[1:4]
DAYS = int(sys.argv[4]) if len(sys.argv) > 4 else 40
TREES = 25
NOW = "2026-04-10T20:00"
random.seed(25)
number = 0


def case(name, good, seen=""):
    global number
    number += 1
    if not good:
        print(f"# {seen}")
    print(f"{'ok' if good else 'not ok'} {number} - {name}", flush=True)


def uid():
    return f"{random.getrandbits(128):032x}"


def book_json(path):
    demo = json.loads(pathlib.Path(source).read_text())
    trees = [{"id": i + 1, "uid": uid(), "name": f"Tree {i + 1:02}", "species": "sugar"} for i in range(TREES)]
    taps = [{"id": i + 1, "uid": uid(), "tree": i + 1, "season": 2026, "set_on": "2026-02-20"} for i in range(TREES)]
    path.write_text(json.dumps({"household": demo["household"], "tree": trees, "tap": taps}))


def key(*keys):
    subprocess.run(["xdotool", "key", "--clearmodifiers", *keys], check=True)


def type_text(text):
    subprocess.run(["xdotool", "type", "--delay", "6", text], check=True)


def count(book):
    with sqlite3.connect(f"file:{book}?mode=ro", uri=True) as connection:
        return connection.execute("SELECT count(*), coalesce(sum(reading_brix IS NOT NULL), 0) FROM gathering").fetchone()


def wait(function, seconds=20):
    end = time.time() + seconds
    while time.time() < end:
        value = function()
        if value:
            return value
        time.sleep(0.004)
    return None


def pace():
    """Trees give alike with a little of their own, so that the program has nothing to ask."""
    return [random.uniform(0.9, 1.1) for _ in range(TREES)]


print("1..5")
with tempfile.TemporaryDirectory() as folder:
    table, book = pathlib.Path(folder, "book.json"), str(pathlib.Path(folder, "season.frostrun"))
    book_json(table)
    subprocess.run([make_book, table, book, NOW + ":00-04:00"], check=True)
    environment = dict(os.environ, G_DEBUG="fatal-criticals")
    process = subprocess.Popen([frostrun, "--application-id", "org.frostrun.Enter", "--now", NOW, book], env=environment,
                               stdout=sys.stderr)
    rows, days, typed, kept = [], [], [], True
    try:
        shown = wait(lambda: subprocess.run(["xdotool", "search", "--onlyvisible", "--class", "frostrun"], capture_output=True,
                                            text=True).stdout.split(), 30)
        case("the window is there", bool(shown))
        subprocess.run(["timeout", "20", "xdotool", "windowfocus", "--sync", shown[-1]], check=True)
        time.sleep(2)
        key("ctrl+3")
        time.sleep(1)
        key("ctrl+n")
        time.sleep(1)
        for _ in range(DAYS - 1):
            key("alt+Left")
            time.sleep(0.15)
        own, n, sweet = pace(), 0, 0
        for day in range(DAYS):
            run = random.uniform(1.0, 3.0)
            began = time.time()
            for tree in range(TREES):
                amount = f"{run * own[tree]:.2f}"
                brix = f"{random.uniform(2.0, 2.3):.1f}" if tree % 5 == 0 else None
                type_text(amount)
                if brix is not None:
                    key("Tab")
                    type_text(brix)
                    sweet += 1
                start = time.time()
                key("Return")
                n += 1
                typed.append((amount, brix))
                if wait(lambda: count(book) == (n, sweet)) is None:
                    kept = False
                    print(f"# day {day + 1}, tree {tree + 1}: {amount} {brix} was not kept: {count(book)}, wanted {(n, sweet)}")
                    break
                rows.append(time.time() - start)
            if not kept:
                break
            days.append(time.time() - began)
            key("alt+Right")
            time.sleep(0.3)
        case(f"{n} rows on {len(days)} days by keyboard, each kept as it was left", kept and n == DAYS * TREES, n)
        with sqlite3.connect(f"file:{book}?mode=ro", uri=True) as connection:
            found = connection.execute("SELECT volume_l, reading_brix, tree FROM gathering ORDER BY id").fetchall()
        wanted = [(float(a), float(b) if b else None) for a, b in typed]
        case("the file holds what was typed, in the order it was typed", [(v, r) for v, r, _ in found] == wanted)
        rows.sort()
        print(f"# a row, from Enter to the file: median {1e3 * rows[len(rows) // 2]:.0f} ms, worst in a hundred "
              f"{1e3 * rows[int(len(rows) * 0.99)]:.0f} ms, worst {1e3 * rows[-1]:.0f} ms")
        print(f"# a day of {TREES} trees, keys and waiting for each row: {min(days):.1f} to {max(days):.1f} s")
        case("a row waits under a quarter of a second, 99 in 100", rows[int(len(rows) * 0.99)] < 0.25)
        key("ctrl+1")
        time.sleep(1)
        case("the window still runs", process.poll() is None)
    finally:
        process.terminate()
        process.wait()
