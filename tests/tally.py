#!/usr/bin/env python3
"""Counts the cases of a test run: TAP lines in meson's log and in any TAP files named after it."""
import json
import os
import re
import sys

RESULT = re.compile(r"^(not )?ok\b(?:\s+\d+)?\s*(?:-\s*)?([^#]*)(#\s*SKIP\b.*)?", re.I)


def count(text):
    passed = failed = skipped = 0
    names = []
    for line in text.splitlines():
        found = RESULT.match(line)
        if not found:
            continue
        if found.group(3):
            skipped += 1
        elif found.group(1):
            failed += 1
            names.append(found.group(2).strip())
        else:
            passed += 1
    return passed, failed, skipped, names


def main():
    passed = failed = skipped = 0
    with open(sys.argv[1], encoding="utf-8") as log:
        for line in log:
            test = json.loads(line)
            p, f, s, names = count(test.get("stdout", ""))
            if test["result"] == "SKIP":
                p, f, s = 0, 0, max(s, 1)
            elif test["result"] not in ("OK", "EXPECTEDFAIL") and f == 0:
                f, names = 1, ["did not end well"]
            elif p + f + s == 0:
                p = 1
            passed, failed, skipped = passed + p, failed + f, skipped + s
            for name in names:
                print(f"failed: {test['name']}: {name}")
    for path in sys.argv[2:]:
        if os.path.exists(path):
            with open(path, encoding="utf-8") as file:
                p, f, s, names = count(file.read())
            passed, failed, skipped = passed + p, failed + f, skipped + s
            for name in names:
                print(f"failed: {os.path.basename(path)}: {name}")
    skips = f", {skipped} skipped" if skipped else ""
    print(f"{passed} passed, {failed} failed{skips}")
    return 1 if failed or not passed else 0


sys.exit(main())
