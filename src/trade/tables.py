#!/usr/bin/env python3
"""Turns one JSON table of data/ into a C array, so that the program carries its tables with it.

    tables.py TABLE.json TABLE.c

A table says its columns and their kinds once; the array, and the description of the columns that
rows added by the user are read with, both come from there. Lengths become whole nanometres: a
length that is not a whole number of them stops the build, so nothing is rounded in silence.
"""
import json
import re
import sys
from fractions import Fraction

NANOMETRES = {"mm": 10**6, "in": 25400000, "um": 10**3}
KINDS = {"text": "COLUMN_TEXT", "length": "COLUMN_LENGTH", "number": "COLUMN_NUMBER",
         "count": "COLUMN_COUNT"}


def fail(where, message):
    sys.exit(f"{where}: {message}")


def nanometres(text, where):
    match = re.fullmatch(r"(-?)(?:(\d+) )?(\d+(?:\.\d+)?|\d+/\d+) (mm|in|um)", text)
    if not match:
        fail(where, f"no length: {text!r}; write it as '0.201 in', '13/64 in' or '5.1 mm'")
    size = (Fraction(match[2] or 0) + Fraction(match[3])) * NANOMETRES[match[4]]
    if size.denominator != 1:
        fail(where, f"{text!r} is not a whole number of nanometres")
    return -int(size) if match[1] else int(size)


def quoted(text):
    escaped = "".join(f"\\{c}" if c in '"\\' else c for c in text)
    return f'"{escaped}"'


def camel(name):
    return "".join(word.capitalize() for word in name.split("_"))


def choices(kind):
    return kind.split()[2:]


def value(table, column, kind, cell, where):
    if kind == "text":
        return quoted(cell)
    if kind == "length":
        return f"INT64_C({nanometres(cell, where)})"
    if kind == "number":
        return repr(float(cell))
    if kind == "count":
        return str(int(cell))
    if cell not in choices(kind):
        fail(where, f"{column} is {cell!r}, not {kind}")
    return f"{table}_{cell}".upper()


def column_line(table, name, kind, required):
    listed = "NULL"
    if kind.startswith("one of "):
        listed = quoted(" ".join(choices(kind)))
        macro = "COLUMN_CHOICE"
    else:
        macro = KINDS[kind]
    return (f"    {{{quoted(name)}, {macro}, offsetof({camel(table)}, {name}), "
            f"{'true' if required else 'false'}, {listed}}},")


def main(source, target):
    with open(source, encoding="utf-8") as file:
        data = json.load(file)
    table, rows = data["table"], data["rows"]
    optional = data.get("optional", [])
    columns = dict(data["columns"], source="text")
    for row in rows:
        where = f"{source}: {row.get('name', row)}"
        unknown = set(row) - set(columns)
        missing = set(columns) - set(row) - set(optional)
        if unknown or missing:
            fail(where, f"unknown {sorted(unknown)}, missing {sorted(missing)}")
        row["source"] = data["sources"][row["source"]]
    order = data.get("sorted_by")
    if order:
        rows.sort(key=lambda row: nanometres(row[order], source))
    lines = [f"/* Generated from data/{source.rsplit('/', 1)[-1]}. */",
             f'#include "trade/{table.replace("_", "-")}.h"', '#include "trade/table.h"', "",
             f"static const {camel(table)} rows[] = {{"]
    for row in rows:
        cells = ", ".join(f".{name} = {value(table, name, columns[name], cell, row['name'])}"
                          for name, cell in row.items())
        lines.append(f"    {{{cells}}},")
    lines += ["};", "", "static const Column columns[] = {"]
    lines += [column_line(table, name, kind, name not in optional and name != "source")
              for name, kind in columns.items()]
    sorted_by = f"offsetof({camel(table)}, {order})" if order else "TABLE_UNSORTED"
    lines += ["};", "",
              f"Table {table}_table = {{.name = {quoted(table)}, .rows = rows,",
              f"    .row_count = {len(rows)}, .row_size = sizeof({camel(table)}),",
              f"    .columns = columns, .column_count = {len(columns)},",
              f"    .sorted_by = {sorted_by}}};", ""]
    with open(target, "w", encoding="utf-8") as file:
        file.write("\n".join(lines))


if __name__ == "__main__":
    main(*sys.argv[1:])
