"""Every control of every page has a name a screen reader can say: not empty, and not the name of a widget type.

Walks the program's accessible tree over AT-SPI. GTK 4.8 marks only the window as showing, so hidden pages are walked too.
Arguments: the program, the loader of the demo's book, the demo's JSON. Needs a display and a session bus; tests/headless
gives both.
"""
import os
import subprocess
import sys
import tempfile
import time

import pyatspi

program, loader, demo = sys.argv[1:4]
CONTROLS = {"push button", "toggle button", "check box", "radio button", "combo box", "text", "entry", "list item",
            "slider", "spin button", "page tab", "menu item"}
TYPE_PREFIXES = ("Gtk", "Adw", "Fr")


def wait(what, function, seconds=30):
    end = time.time() + seconds
    while time.time() < end:
        try:
            result = function()
            if result:
                return result
        except Exception:  # the tree moves while it is read
            pass
        time.sleep(0.05)
    print("Bail out! timeout: " + what)
    raise SystemExit(1)


def walk(node, path=()):
    yield node, path
    for i in range(node.childCount):
        child = node.getChildAtIndex(i)
        if child is not None:
            yield from walk(child, path + (node,))


def text_of(node):
    try:
        text = node.queryText()
        return text.getText(0, text.characterCount)
    except NotImplementedError:
        return ""


def is_bad(name):
    bare = name.replace("_", "").strip()
    is_type = bare.startswith(TYPE_PREFIXES) and bare.isalpha() and any(c.isupper() for c in bare[2:])
    return not bare or is_type


def unnamed(window):
    found, count = [], 0
    for node, path in walk(window):
        if node.getRoleName() not in CONTROLS:
            continue
        count += 1
        if not is_bad(node.name or "") or any(p.name == "AdwToastWidget" for p in path):
            continue  # libadwaita 1.2 gives its toast's close button a picture and no name
        # A control without a name of its own is named by the words in it.
        labels = [text_of(n) or n.name for n, _ in walk(node) if n.getRoleName() == "label"]
        if not any(label and not is_bad(label) for label in labels):
            found.append("%s %r in %s" % (node.getRoleName(), node.name,
                                          " > ".join(p.name or p.getRoleName() for p in path[-4:])))
    return count, found


def button(window, name):
    """The button called so; one with a mnemonic says its label twice."""
    for node, _ in walk(window):
        if node.getRoleName() == "push button":
            bare = node.name.replace("_", "").strip()
            if bare in (name, name + " " + name):
                return node
    return None


def frames(app):
    return [app.getChildAtIndex(i) for i in range(app.childCount)]


def push(window, name):
    wait("button " + name, lambda: button(window, name)).queryAction().doAction(0)


def open_morning(app, window):
    push(window, "Write It Down…")
    return wait("the morning after", lambda: next((f for f in frames(app) if f.name == "The Morning After"), None))


def press_keys(*keys):
    for key in keys:
        time.sleep(0.3)
        subprocess.run(["xdotool", "key", key], check=True)


def shows(window, label):
    return any(text_of(n) == label for n, _ in walk(window))


def report(number, title, window, least):
    count, found = unnamed(window)
    for line in found:
        print("# " + line)
    print("%s %d %s, %d controls" % ("ok" if not found and count >= least else "not ok", number, title, count), flush=True)


def sugarbush(number, app, window):
    """The page with a tree's panel, its ground, and its dialogs, each opened by its key."""
    press_keys("ctrl+2", "ctrl+f", "Down", "Return")
    wait("the tree's panel", lambda: shows(window, "The Trunk, Unrolled"))
    report(number, "the sugarbush and a tree's panel", window, 60)
    press_keys("ctrl+g")
    wait("the ground", lambda: shows(window, "Tie to the Earth"))
    report(number + 1, "the ground of the sugarbush", window, 40)
    for n, (key, title, least) in enumerate([("ctrl+shift+n", "By Tape and Compass", 9), ("ctrl+i", "Import Trees", 3),
                                             ("ctrl+e", "Export Trees", 5)], number + 2):
        press_keys(key)
        dialog = wait(title, lambda: next((f for f in frames(app) if f.name == title), None))
        report(n, title, dialog, least)
        press_keys("Escape")
        wait(title + " closed", lambda: all(f.name != title for f in frames(app)))


def season(number, app, window):
    """The season's views, each opened by its key, and the checklist."""
    press_keys("ctrl+3")
    wait("the calendar", lambda: shows(window, "Season of 2026"))
    report(number, "the calendar of the season and a day's panel", window, 40)
    push(window, "Checklist…")
    dialog = wait("the checklist", lambda: next((f for f in frames(app) if f.name == "Checklist of the Kit"), None))
    report(number + 1, "the checklist of the kit", dialog, 10)
    press_keys("Escape")
    wait("the checklist closed", lambda: all(f.name != "Checklist of the Kit" for f in frames(app)))
    press_keys("ctrl+Page_Down")
    wait("the log", lambda: shows(window, "This Round"))
    report(number + 2, "the log of the season", window, 60)
    press_keys("ctrl+Page_Down")
    wait("the store", lambda: shows(window, "Containers"))
    report(number + 3, "the store of the season", window, 40)


def pages(number, app, window):
    sugarbush(number, app, window)
    season(number + 5, app, window)


def run(number, title, book, label, least, now="2026-03-19T18:30", open_dialog=None, press=None,
        then=None):
    environment = dict(os.environ, GTK_A11Y="atspi", G_DEBUG="fatal-criticals")
    process = subprocess.Popen([program, "--application-id=org.frostrun.Test%d" % number, "--now=" + now, book],
                               env=environment, stdout=sys.stderr)
    try:
        app = wait("program", lambda: next((a for a in pyatspi.Registry.getDesktop(0)
                                             if a is not None and a.get_process_id() == process.pid), None))
        window = wait("window", lambda: app.childCount and app.getChildAtIndex(0))
        wait(label, lambda: any(label in (n.name, text_of(n)) for n, _ in walk(window)))
        if open_dialog is not None:
            window = open_dialog(app, window)
        report(number, title, window, least)
        if press is not None:
            push(window, press)
            wait(press, lambda: any(text_of(n).startswith("Kept:") for n, _ in walk(window)))
        if then is not None:
            then(number + 1, app, window)
    finally:
        process.terminate()
        process.wait()


print("1..12")
with tempfile.TemporaryDirectory() as folder:
    run(1, "set-up of a new book", os.path.join(folder, "new.frostrun"), "Where do you boil?", 20)
    path = os.path.join(folder, "demo.frostrun")
    subprocess.run([loader, demo, path, "2026-03-19T18:30:00-04:00"], check=True, stdout=sys.stderr)
    run(2, "window on a book", path, "Kit and prices", 30, press="Keep Night", then=pages)
    run(12, "the morning after a night just kept", path, "Kit and prices", 7, now="2026-03-20T09:00",
        open_dialog=open_morning)
