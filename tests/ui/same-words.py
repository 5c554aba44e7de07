#!/usr/bin/python3
"""Window, paper and command line say the same, one TAP line each: same-words.py CLI DUMP MAKE_BOOK BOOK_JSON.

DUMP prints the window's labels and writes the page as PDF; pdftotext reads that back. The command line's answer is cut
into its sentences and figures; each has to stand in the window. Paper leaves out what is for choosing (other hours, the
propane) and each cooker's own lines; the rest has to stand there too."""
import pathlib
import re
import subprocess
import sys
import tempfile

cli, dump, make_book, source = sys.argv[1:5]
NOW = "2026-03-19T18:30"
NOT_ON_PAPER = ("The same sap costs", "Cookers")


def plain(text):
    return re.sub(r"\s+", " ", text).strip()


def pieces(answer):
    """(heading, part) of everything the command line says."""
    heading = ""
    for line in answer.splitlines():
        if not line.startswith(" "):
            if line and not line.endswith(".") and line[0].isupper() and heading is not None and len(line) < 24:
                heading = line
            if line:
                yield heading, plain(line)
            continue
        for part in re.split(r"\s{2,}", re.sub(r"^\s+(!!|ok|!)\s", "", line).strip()):
            # A note stands in brackets; a label before a number is set off by blanks.
            yield heading, plain(re.sub(r"^\((.*)\)$", r"\1", part))


def case(number, name, missing):
    for heading, part in missing:
        print(f"# not there: {heading}: {part}")
    print(f"{'not ok' if missing else 'ok'} {number} - {name}")


print("1..3")
with tempfile.TemporaryDirectory() as folder:
    book, page = pathlib.Path(folder, "demo.frostrun"), pathlib.Path(folder, "page.pdf")
    subprocess.run([make_book, source, book, NOW + ":00-04:00"], check=True)
    answer = subprocess.run([cli, "tonight", "--book", book, "--now", NOW], capture_output=True, text=True, check=True)
    said = list(pieces(answer.stdout))
    shown = plain(subprocess.run([dump, book, NOW, page], capture_output=True, text=True, check=True).stdout)
    printed = plain(subprocess.run(["pdftotext", page, "-"], capture_output=True, text=True, check=True).stdout)
    headings = {"Feed", "Cautions", "What stays", *NOT_ON_PAPER}
    case(1, "the command line says something of every kind", [] if len(said) > 30 else said)
    said = [(h, p) for h, p in said if p not in headings]
    case(2, "the window says it too", [(h, p) for h, p in said if p not in shown])
    case(3, "and so does the page for the shed", [(h, p) for h, p in said if h not in NOT_ON_PAPER and p not in printed])
