#!/usr/bin/env python3
"""Reads every #include under src/ against the list of layers; speaks TAP."""
import os
import re
import sys

LAYERS = ["geometry", "trade", "plate", "placed", "checks", "refit", "shopplan", "drawing",
          "exchange", "session", "command", "editor"]
# What geometry may use of the outside: C and the mathematics library, and GEOS in region.c alone.
C_HEADERS = {"assert", "complex", "ctype", "errno", "fenv", "float", "inttypes", "limits", "locale",
             "math", "setjmp", "stdalign", "stdarg", "stdatomic", "stdbool", "stddef", "stdint",
             "stdio", "stdlib", "string", "tgmath", "time"}
INCLUDE = re.compile(r'^\s*#\s*include\s*([<"])([^>"]+)[>"]', re.M)


def includes(path):
    with open(path, encoding="utf-8") as file:
        return INCLUDE.findall(file.read())


def wrong_in(folder, path):
    for kind, name in includes(path):
        top = name.split("/")[0]
        if kind == '"':
            if top not in LAYERS or "/" not in name:
                yield f'"{name}" does not name its folder'
            elif LAYERS.index(top) > LAYERS.index(folder):
                yield f'"{name}" lies above {folder}'
            elif {top, folder} == {"command", "editor"}:
                yield "command and editor don't use each other"
        elif top in ("gtk", "gdk", "gsk") and folder != "editor":
            yield f"<{name}> belongs in editor alone"
        elif folder == "geometry" and name not in {h + ".h" for h in C_HEADERS}:
            if not (name == "geos_c.h" and os.path.basename(path) == "region.c"):
                yield f"<{name}> does not belong in geometry"


def main():
    source = os.path.join(sys.argv[1], "src")
    files = sorted(os.path.join(where, name) for where, _, names in os.walk(source)
                   for name in names if name.endswith((".c", ".h")))
    print(f"1..{len(files)}")
    failed = 0
    for number, path in enumerate(files, 1):
        parts = os.path.relpath(path, source).split(os.sep)
        wrong = [] if len(parts) == 1 else list(wrong_in(parts[0], path))
        if len(parts) > 1 and parts[0] not in LAYERS:
            wrong = ["its folder is no layer"]
        failed += bool(wrong)
        print(f"{'not ok' if wrong else 'ok'} {number} - {os.path.relpath(path, source)}")
        for line in wrong:
            print(f"# {line}")
    return failed > 0


sys.exit(main())
