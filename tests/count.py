#!/usr/bin/python3
"""Reads what `meson test` left in each build folder, shows what failed, and counts.

Every TAP line of a program counts; a program that failed without one (crash, time limit, a leak found at its end), or
that is no TAP program, counts as one. Skipped cases are named and count as neither."""
import json
import pathlib
import re
import sys

CASE = re.compile(r"^(not )?ok\b([^#\n]*)(#\s*(?i:skip|todo))?", re.M)
KEPT_LINES = 60


def read(folder):
    log = pathlib.Path(folder, "meson-logs/testlog.json")
    return [json.loads(line) for line in log.read_text(errors="replace").splitlines()] if log.exists() else []


def count(folder):
    passed = failed = 0
    entries = read(folder)
    for entry in entries:
        cases = CASE.findall(entry.get("stdout") or "")
        bad = [name for no, name, note in cases if no and not note]
        good = [name for no, name, note in cases if not no and not note]
        for _, name, note in cases:
            if note:
                print(f"skipped in {folder}: {entry['name']} {name.strip()}")
        broken = entry["result"] not in ("OK", "SKIP", "EXPECTEDFAIL")
        if entry["result"] == "SKIP" and not cases:
            print(f"skipped in {folder}: {entry['name']}")
        passed += len(good) if cases else entry["result"] == "OK"
        failed += len(bad) or broken
        if bad or broken:
            text = (entry.get("stdout") or "") + (entry.get("stderr") or "")
            lines = [line for line in text.splitlines() if not line.startswith("ok ")]
            print(f"\n=== {folder}: {entry['name']}: {entry['result']}, code {entry.get('returncode')}")
            print("\n".join(lines[-KEPT_LINES:]))
    code = pathlib.Path(folder, "tests.code").read_text().strip()
    if not entries or (code != "0" and not failed):
        print(f"\n=== {folder}: the test runner ended with code {code}")
        print("\n".join(pathlib.Path(folder, "tests.out").read_text(errors="replace").splitlines()[-KEPT_LINES:]))
        failed += 1
    return passed, failed


totals = [count(folder) for folder in sys.argv[1:]]
passed, failed = sum(t[0] for t in totals), sum(t[1] for t in totals)
print(f"{passed} passed, {failed} failed")
sys.exit(failed != 0)
