#!/usr/bin/python3
"""Reminders as notices of the desktop, one TAP line each: notices.py FROSTRUN MAKE_BOOK BOOK_JSON.

A service of the test's own takes the name that the desktop's has (Desktop Notifications Specification 1.2, method Notify)
and counts what is sent. Needs a display and a session bus, which tests/headless gives."""
import os
import pathlib
import subprocess
import sys
import tempfile
import threading
import time

import gi

gi.require_version("Gio", "2.0")
from gi.repository import Gio, GLib

frostrun, make_book, source = sys.argv[1:4]
NOW = "2026-03-19T18:30"
SERVICE = """<node><interface name="org.freedesktop.Notifications">
<method name="Notify"><arg type="s" direction="in"/><arg type="u" direction="in"/><arg type="s" direction="in"/>
<arg type="s" direction="in"/><arg type="s" direction="in"/><arg type="as" direction="in"/><arg type="a{sv}" direction="in"/>
<arg type="i" direction="in"/><arg type="u" direction="out"/></method>
<method name="CloseNotification"><arg type="u" direction="in"/></method>
<method name="GetCapabilities"><arg type="as" direction="out"/></method>
<method name="GetServerInformation"><arg type="s" direction="out"/><arg type="s" direction="out"/>
<arg type="s" direction="out"/><arg type="s" direction="out"/></method></interface></node>"""
sent = []
number = 0


def case(name, good, seen=""):
    global number
    number += 1
    if not good:
        print("".join(f"# {line}\n" for line in str(seen).splitlines()), end="")
    print(f"{'ok' if good else 'not ok'} {number} - {name}", flush=True)


def called(connection, sender, path, interface, method, parameters, invocation):
    if method == "Notify":
        sent.append(parameters.unpack())
        invocation.return_value(GLib.Variant("(u)", (len(sent),)))
    elif method == "GetCapabilities":
        invocation.return_value(GLib.Variant("(as)", (["body", "actions"],)))
    elif method == "GetServerInformation":
        invocation.return_value(GLib.Variant("(ssss)", ("test", "test", "1", "1.2")))
    else:
        invocation.return_value(None)


def own():
    taken = threading.Event()
    node = Gio.DBusNodeInfo.new_for_xml(SERVICE)

    def serve():
        context = GLib.MainContext()
        context.push_thread_default()
        bus = Gio.bus_get_sync(Gio.BusType.SESSION)
        bus.register_object("/org/freedesktop/Notifications", node.interfaces[0], called, None, None)
        Gio.bus_own_name_on_connection(bus, "org.freedesktop.Notifications", Gio.BusNameOwnerFlags.NONE,
                                       lambda *_: taken.set(), None)
        GLib.MainLoop.new(context, False).run()

    threading.Thread(target=serve, daemon=True).start()
    return taken.wait(20)


def run(config, book, seconds):
    """Starts the program for some seconds, or until no more notices come."""
    environment = dict(os.environ, GTK_A11Y="none", G_DEBUG="fatal-criticals", GSETTINGS_BACKEND="keyfile", XDG_CONFIG_HOME=config)
    process = subprocess.Popen([frostrun, "--application-id", "org.frostrun.Notices", "--now", NOW, book], env=environment,
                               stdout=sys.stderr)
    before, end = len(sent), time.time() + seconds
    while time.time() < end and process.poll() is None:
        if len(sent) > before and time.time() > end - seconds + 8:
            break
        time.sleep(0.1)
    alive = process.poll() is None
    process.terminate()
    process.wait()
    return alive, sent[before:]


print("1..6")
with tempfile.TemporaryDirectory() as folder:
    book = str(pathlib.Path(folder, "demo.frostrun"))
    subprocess.run([make_book, source, book, NOW + ":00-04:00"], check=True)
    case("the service of the test is there", own())
    alive, first = run(str(pathlib.Path(folder, "one")), book, 30)
    case("the program runs", alive)
    case("what is soon to be done is told", first and all(n[3] and n[4] for n in first), first)
    case("nothing twice", len({(n[3], n[4]) for n in first}) == len(first), first)
    alive, again = run(str(pathlib.Path(folder, "one")), book, 10)
    case("started again, it tells nothing that was told", alive and not again, again)
    off = pathlib.Path(folder, "off", "glib-2.0", "settings")
    off.mkdir(parents=True)
    (off / "keyfile").write_text("[org/frostrun/Frostrun]\nnotify-reminders=false\n")
    alive, none = run(str(pathlib.Path(folder, "off")), book, 10)
    case("switched off, it tells nothing", alive and not none, none)
