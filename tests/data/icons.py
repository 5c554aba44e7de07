"""Every drawing under data/icons is well-formed, has the size its kind asks for, and is in the resource list.

Symbolic icons are 16 px in one colour, which GTK replaces by the text's (freedesktop.org icon theme specification for the
folders; GTK documentation for symbolic recolouring)."""
import pathlib
import re
import sys
import xml.etree.ElementTree as tree

root = pathlib.Path(sys.argv[1])
icons = sorted((root / "data/icons").rglob("*.svg"))
listed = {(root / "data" / f.text.strip()).resolve() for f in tree.parse(root / "data/icons.gresource.xml").iter("file")}
results = []


def check(name, problem):
    results.append((name, problem))


for icon in icons:
    name = icon.name
    text = icon.read_text()
    svg = tree.fromstring(text)
    size = "16" if name.endswith("-symbolic.svg") else "128"
    problem = None
    if (svg.get("width"), svg.get("height"), svg.get("viewBox")) != (size, size, f"0 0 {size} {size}"):
        problem = f"is not {size} × {size}"
    if name.endswith("-symbolic.svg") and set(re.findall(r"#[0-9a-fA-F]{3,8}\b", text)) != {"#222222"}:
        problem = "has more than the one colour"
    if icon.resolve() not in listed:
        problem = "is missing in icons.gresource.xml"
    check(f"{name}", problem)
check("every listed icon exists", None if listed <= {i.resolve() for i in icons} else "one does not")
check("there are icons", None if len(icons) >= 6 else "too few")

print(f"1..{len(results)}")
for number, (name, problem) in enumerate(results, 1):
    print(f"{'not ' if problem else ''}ok {number} - {name}")
    if problem:
        print(f"# {name} {problem}")
