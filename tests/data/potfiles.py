"""Every file that speaks to people is listed in po/POTFILES, sorted, and everything listed is there: a file left out would
quietly stay English in every language."""
import pathlib
import re
import sys

root = pathlib.Path(sys.argv[1])
SPEAKS = re.compile(r'(?<![\w.])(?:[NCQ]?_|ngettext|g_dngettext|g_dpgettext2)\s*\(\s*(?:"|[A-Z])|translatable="(?:yes|true)"')
lines = [line for line in (root / "po/POTFILES").read_text().splitlines() if line and not line.startswith("#")]
results = []
for path in sorted(p for kind in ("*.c", "*.h", "*.ui") for p in (root / "src").rglob(kind)):
    if SPEAKS.search(path.read_text()):
        name = str(path.relative_to(root))
        results.append((name, None if name in lines else "is missing in po/POTFILES"))
for name in lines:
    if not (root / name).exists():
        results.append((name, "is listed in po/POTFILES but does not exist"))
results.append(("sorted", None if lines == sorted(lines) else "po/POTFILES is not sorted"))

print(f"1..{len(results)}")
for number, (name, problem) in enumerate(results, 1):
    print(f"{'not ' if problem else ''}ok {number} - {name}")
    if problem:
        print(f"# {name} {problem}")
