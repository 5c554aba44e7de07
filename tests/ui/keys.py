"""What the tests by keyboard share: waiting, reading the window over AT-SPI as a screen reader does, real key presses
from xdotool."""
import re
import subprocess
import time

import pyatspi


def wait(function, seconds=30):
    end = time.time() + seconds
    while True:
        try:
            result = function()
        except Exception:  # the tree moves while it is read
            result = None
        if result or time.time() > end:
            return result
        time.sleep(0.05)


def walk(node):
    yield node
    for i in range(node.childCount):
        child = node.getChildAtIndex(i)
        if child is not None:
            yield from walk(child)


def plain(text):
    return re.sub(r"\s+", " ", text).strip()


def focused(node):
    return node.getState().contains(pyatspi.STATE_FOCUSED)


def key(*keys):
    subprocess.run(["xdotool", "key", "--clearmodifiers", *keys], check=True)


def tab_to(node, most, back=False):
    for _ in range(most):
        key("shift+Tab" if back else "Tab")
        if wait(lambda: focused(node), 0.3):
            return True
    return False


def program_window(pid):
    """The first window of a process."""
    app = wait(lambda: next(a for a in pyatspi.Registry.getDesktop(0) if a is not None and a.get_process_id() == pid))
    return wait(lambda: app.childCount and app.getChildAtIndex(0))


def give_keyboard():
    """To the newest window shown, as a window manager would; there is none. Its number."""
    shown = wait(lambda: subprocess.run(["xdotool", "search", "--onlyvisible", "--class", "frostrun"],
                                        capture_output=True, text=True).stdout.split())
    if not shown or subprocess.run(["timeout", "20", "xdotool", "windowfocus", "--sync", shown[-1]]).returncode != 0:
        return None
    return shown[-1]
