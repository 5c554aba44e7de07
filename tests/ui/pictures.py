#!/usr/bin/python3
"""Pictures of every page, one TAP line each rule: pictures.py FROSTRUN MAKE_BOOK BOOK_JSON. Needs a display.

A PNG says its width and height in bytes 16 to 24 (PNG specification, IHDR, first chunk)."""
import pathlib
import struct
import subprocess
import sys
import tempfile

frostrun, make_book, source = sys.argv[1:4]
SCENES = ("tonight", "sugarbush", "tapping-plan", "round", "season-calendar", "season-month", "season-log",
          "season-store", "season-forecast", "kit-container", "kit-cooker", "kit-pan", "kit-prices", "kit-station", "kit-household", "set-up")
DIALOGS = ("weather-service", "night-and-day")  # each has its own size, whatever the window has
SCHEMES, SIZES = ("light", "dark"), ((1280, 800), (800, 600))


def ask(folder, book):
    return subprocess.run([frostrun, "--application-id", "org.frostrun.Pictures", "--now", "2026-03-19T18:30",
                           "--pictures", folder, book], capture_output=True, text=True)


def case(number, name, good, seen=""):
    if not good:
        print("".join(f"# {line}\n" for line in str(seen).splitlines()), end="")
    print(f"{'ok' if good else 'not ok'} {number} - {name}")


print("1..5")
with tempfile.TemporaryDirectory() as folder:
    book = pathlib.Path(folder, "demo.frostrun")
    subprocess.run([make_book, source, book, "2026-03-19T18:30:00-04:00"], check=True)
    done = ask(folder, book)
    made = {p.name: p.read_bytes() for p in pathlib.Path(folder).glob("*.png")}
    wanted = {f"{p}-{w}x{h}-{c}.png": (w, h) for p in SCENES for c in SCHEMES for w, h in SIZES}
    over = {f"{p}-{w}x{h}-{c}.png" for p in DIALOGS for c in SCHEMES for w, h in SIZES}
    case(1, "every page, light and dark, in two sizes", done.returncode == 0 and set(made) == set(wanted) | over,
         done.stderr + " ".join(sorted(set(made) ^ (set(wanted) | over))))
    off = [n for n in wanted if n in made and struct.unpack(">II", made[n][16:24]) != wanted[n]]
    case(2, "each has the size it says", made and not off, off)
    case(3, "no two are the same", len({made[n] for n in wanted if n in made}) == len(wanted)
         and len({made[n] for n in over if n in made}) >= len(DIALOGS) * len(SCHEMES), len(set(made.values())))
    refused = ask(pathlib.Path(folder, "missing"), book)
    case(4, "a folder that is not there is an error", refused.returncode == 1 and refused.stderr, refused.returncode)
    case(5, "a book that is not there to open is an error", ask(folder, folder).returncode == 1)
