#!/usr/bin/env python3
"""Runs the program as scripts do: answers, exit codes, files. Speaks TAP."""
import csv
import json
import os
import shutil
import sys
import xml.etree.ElementTree as ET

sys.dont_write_bytecode = True
from program import case, example, main, refused, run  # noqa: E402

GOOD = example("grafting-blades.plate")
BAD = example("bad.plate")
BLADE = example("grafting-blade.svg")
BLADE_PART = example("grafting-blade.platepart")


@case
def check_good(folder):
    answer = json.loads(run("check", GOOD, "--json").stdout)
    assert answer["counts"]["stop"] == 0
    assert set(answer["counts"]) >= {"stop", "caution", "note"}


@case
def check_bad(folder):
    answer = json.loads(run("check", BAD, "--json", code=1).stdout)
    assert answer["counts"]["stop"] >= 10
    for finding in answer["findings"]:
        for key in ("rule", "level", "face", "operation", "at", "features", "value", "limit",
                    "message", "remedy"):
            assert key in finding, (key, finding)
    wanted = {"outside-plate", "edge-distance", "web", "overlap", "floor", "breaks-through",
              "datum-lost", "keep-clear", "parts-overlap", "part-overhang", "locator-fit",
              "two-locators", "comes-loose", "loads-wrong", "plate-reverses"}
    rules = {finding["rule"] for finding in answer["findings"]}
    assert wanted <= rules, wanted - rules


@case
def check_is_always_english_and_mm_in_json(folder):
    plain = run("check", BAD, "--json", code=1).stdout
    other = run("check", BAD, "--json", code=1,
                env={"LC_ALL": "de_DE.UTF-8", "LANGUAGE": "de", "TZ": "Asia/Tokyo"}).stdout
    assert plain == other


@case
def check_in_inches(folder):
    # 0.4375 in of counterbore: 1.2 and 1.5 diameters are 0.5250 and 0.6563 in.
    text = run("check", BAD, code=1).stdout
    assert " in of metal to the edge" in text
    assert text.splitlines()[-1].endswith("note")


@case
def holes(folder):
    path = os.path.join(folder, "holes.csv")
    run("holes", GOOD, "--to", path)
    with open(path, newline="", encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    with open(GOOD, encoding="utf-8") as file:
        plate = json.load(file)
    assert len(rows) == len(plate["holes"])
    by_label = {row["label"]: row for row in rows}
    for hole in plate["holes"]:
        if hole.get("station"):
            continue
        row = by_label[hole["label"]]
        assert [float(row["x_mm"]), float(row["y_mm"])] == hole["at"]
    # The pivot of the first blade: station at 2.45, 1.65 in, pivot at 0.37, 0.47 in in the blade.
    pivots = [row for row in rows if "8-32" in row["steps_mm"]]
    assert abs(float(pivots[0]["x_mm"]) - (2.45 + 0.37) * 25.4) < 1e-6
    assert abs(float(pivots[0]["y_mm"]) - (1.65 + 0.47) * 25.4) < 1e-6


@case
def outline(folder):
    path = os.path.join(folder, "blade.platepart")
    answer = json.loads(run("outline", BLADE, "--to", path, "--thickness", "0.1in", "--name",
                            "Blade", "--json").stdout)
    # The drawing's edge runs to x = 3.0935 in at the most, its height is 0.8 in.
    assert abs(answer["height"] - 0.8 * 25.4) < 0.001
    assert answer["holes"] == 3
    with open(path, encoding="utf-8") as file:
        part = json.load(file)
    assert part["format"] == "pinplate-part" and part["thickness"] == 2.54
    twice = json.loads(run("outline", BLADE, "--to", path, "--width", "100mm", "--json").stdout)
    assert abs(twice["width"] - 100) < 0.001, twice


@case
def draw(folder):
    for name in ("a.pdf", "a.svg"):
        path, again = os.path.join(folder, name), os.path.join(folder, "again-" + name)
        run("draw", GOOD, "--to", path)
        run("draw", GOOD, "--to", again, env={"LC_ALL": "de_DE.UTF-8", "TZ": "Asia/Tokyo"})
        with open(path, "rb") as one, open(again, "rb") as other:
            first = one.read()
            assert first == other.read(), f"{name} is not the same twice"
        assert first.startswith(b"%PDF" if name == "a.pdf" else b"<?xml")
    short = json.loads(run("draw", GOOD, "--to", os.path.join(folder, "c.pdf"), "--prints",
                           "drawing", "--face", "top", "--json").stdout)
    assert short["sheets"] >= 2
    pages = {}
    for name in ("drawing", "operations", "tools", "template", "findings"):
        path = os.path.join(folder, name + ".pdf")
        pages[name] = json.loads(run("draw", GOOD, "--to", path, "--prints", name,
                                     "--json").stdout)["sheets"]
    assert all(pages.values()), pages
    every = json.loads(run("draw", GOOD, "--to", os.path.join(folder, "e.pdf"), "--prints",
                           ",".join(pages), "--json").stdout)
    assert every["sheets"] == sum(pages.values()), (every, pages)
    cut = json.loads(run("draw", GOOD, "--to", os.path.join(folder, "s.pdf"), "--prints", "drawing",
                         "--section", "0,3in,203mm,3", "--json").stdout)
    assert cut["sheets"] == pages["drawing"] + 1
    cut = json.loads(run("draw", GOOD, "--to", os.path.join(folder, "s.pdf"), "--prints", "drawing",
                         "--section", "0,3in,203mm,3;4,0,4,7", "--json").stdout)
    assert cut["sheets"] == pages["drawing"] + 2
    answer = json.loads(run("draw", BAD, "--to", os.path.join(folder, "b.pdf"), "--sheet", "a3",
                            "--scale", "1:2", "--json").stdout)
    assert answer["sheets"] >= 1


@case
def picture(folder):
    path = os.path.join(folder, "a.png")
    run("picture", GOOD, "--to", path, "--size", "300")
    with open(path, "rb") as file:
        head = file.read(24)
    assert head[:8] == b"\x89PNG\r\n\x1a\n"
    assert int.from_bytes(head[16:20], "big") <= 300
    # A part too, also where the file's name does not say that it is one.
    nameless = os.path.join(folder, "nameless")
    shutil.copy(BLADE_PART, nameless)
    pictures = []
    for part in (BLADE_PART, nameless):
        run("picture", part, "--to", path, "--size", "128")
        with open(path, "rb") as file:
            pictures.append(file.read())
    assert int.from_bytes(pictures[0][16:20], "big") == 128
    assert pictures[0] == pictures[1]
    with open(BLADE_PART, encoding="utf-8") as file:
        part = json.load(file)
    part["rings"] = []
    with open(nameless, "w", encoding="utf-8") as file:
        json.dump(part, file)
    refused("picture", nameless, "--to", path, says="nameless")


@case
def pictures_of_findings(folder):
    path = os.path.join(folder, "web.svg")
    run("picture", BAD, "--finding", "web", "--to", path)
    title = ET.parse(path).getroot().find("{http://www.w3.org/2000/svg}title").text
    assert title == "Thin wall between two recesses", title
    with open(path, encoding="utf-8") as file:
        text = file.read()
    message = [f["message"] for f in json.loads(run("check", BAD, "--json", code=1).stdout)["findings"]
               if f["rule"] == "web"]
    assert "B1" in text and "B2" in text and message
    refused("picture", BAD, "--finding", "nonsense", "--to", path, says="nonsense")
    refused("picture", GOOD, "--finding", "web", "--to", path, says="no finding")
    # One of each rule that the plate has findings of.
    run("picture", BAD, "--findings", folder)
    rules = {f["rule"] for f in json.loads(run("check", BAD, "--json", code=1).stdout)["findings"]}
    assert {name[:-4] for name in os.listdir(folder) if name.endswith(".svg")} == rules
    # The layout and a part as SVG.
    for thing in (GOOD, BLADE_PART):
        run("picture", thing, "--to", path)
        assert ET.parse(path).getroot().tag.endswith("svg")


@case
def figure(folder):
    answer = json.loads(run("figure", "drill", "#7", "--json").stdout)
    assert answer["result"]["diameter"] == 5.1054
    assert answer["formula"] and answer["source"]
    refused("figure", "drill", "#99", says="#")
    refused("figure", "nonsense", says="nonsense")


@case
def rows_of_the_shops_own(folder):
    os.makedirs(os.path.join(folder, "pinplate"))
    with open(os.path.join(folder, "pinplate", "tables.json"), "w", encoding="utf-8") as file:
        file.write('{"drills": [\n{"name": "5.05mm", "diameter": "5.05 mm", "series": "metric", '
                   '"source": "the shop"},\n{"name": "bad"}]}')
    done = run("figure", "drill", "5.05mm", "--json", env={"XDG_DATA_HOME": folder})
    assert json.loads(done.stdout)["result"]["diameter"] == 5.05
    assert "tables.json: line 3" in done.stderr


@case
def refusals(folder):
    missing = os.path.join(folder, "missing.plate")
    assert missing in refused("check", missing, says="can't be opened")
    empty = os.path.join(folder, "empty.plate")
    open(empty, "w", encoding="utf-8").close()
    assert empty in refused("check", empty, says="line 1")
    newer = os.path.join(folder, "newer.plate")
    with open(GOOD, encoding="utf-8") as file:
        plate = json.load(file)
    plate["version"] = 99
    with open(newer, "w", encoding="utf-8") as file:
        json.dump(plate, file)
    refused("check", newer, says="newer")
    plate["version"] = 1
    plate["holes"][3]["at"] = [1, "2"]
    with open(newer, "w", encoding="utf-8") as file:
        json.dump(plate, file)
    refused("check", newer, says="holes[3].at")
    refused("check", says="call it as")
    refused("check", GOOD, "--colour", says="--colour")
    refused("draw", GOOD, says="where to write")
    refused("draw", GOOD, "--to", os.path.join(folder, "a.pdf"), "--face", "side", says="it has: top")
    refused("draw", GOOD, "--to", os.path.join(folder, "a.pdf"), "--prints", "holes",
            says="drawing,holes")
    refused("draw", GOOD, "--to", os.path.join(folder, "a.pdf"), "--prints", "poster",
            says="template")
    refused("draw", GOOD, "--to", os.path.join(folder, "a.pdf"), "--section", "1,2,3",
            says="x0,y0,x1,y1")
    refused("draw", GOOD, "--to", os.path.join(folder, "a.pdf"), "--section", "-9,-9,20,-9",
            says="misses")
    # A slip of the pen writes over no plate, part or drawing.
    refused("outline", BLADE, "--to", BLADE, says="must end in .platepart")
    refused("picture", GOOD, "--to", GOOD, says="must end in .png .svg")
    refused("holes", GOOD, "--to", GOOD, says="must end in .csv")
    refused("draw", GOOD, "--to", os.path.join(folder, "a.doc"), says=".pdf .svg")
    refused("draw", GOOD, "--to", os.path.join(folder, "a.pdf"), "--scale", "0:1", says="scale")
    refused("draw", GOOD, "--to", os.path.join(folder, "a.pdf"), "--sheet", "b9", says="b9")
    refused("draw", GOOD, "--to", os.path.join(folder, "no", "a.pdf"), says="a.pdf")
    refused("outline", GOOD, "--to", os.path.join(folder, "x.platepart"), says="SVG")


CHOICES = {"--unit-word": "G71", "--offset": "G54", "--length-offset": "none", "--moves": "longhand",
           "--feeds": "machine"}


@case
def program(folder):
    path = os.path.join(folder, "plate.nc")
    chosen = [word for choice in CHOICES.items() for word in choice]
    answer = json.loads(run("program", GOOD, "--operation", "On its base: top", "--to", path,
                            *chosen, "--json").stdout)
    with open(GOOD, encoding="utf-8") as file:
        plate = json.load(file)
    number = next(one["id"] for one in plate["operations"] if one["name"] == "On its base: top")
    holes_there = [hole for hole in plate["holes"] if hole.get("operation") == number]
    assert answer["holes"] == len(holes_there)
    assert answer["tool_changes"] >= 1 and answer["safe_height"] > 0
    with open(path, encoding="ascii") as file:
        lines = file.read().splitlines()
    assert lines[0] == "%" and lines[-1] == "%" and lines[-2] == "M30"
    assert "G71" in lines and "G54" in lines
    assert any(line.startswith("(CAUTION:") for line in lines)
    again = os.path.join(folder, "again.nc")
    run("program", GOOD, "--operation", "On its base: top", "--to", again, *chosen,
        env={"LC_ALL": "de_DE.UTF-8"})
    with open(again, encoding="ascii") as file:
        assert file.read().splitlines() == lines


@case
def program_leaves_no_choice_open(folder):
    path = os.path.join(folder, "plate.nc")
    for left_out in CHOICES:
        chosen = [word for choice in CHOICES.items() if choice[0] != left_out for word in choice]
        refused("program", GOOD, "--operation", "On its base: top", "--to", path, *chosen, says=left_out)
        assert not os.path.exists(path)


@case
def program_of_an_operation(folder):
    plate_path, path = os.path.join(folder, "a.plate"), os.path.join(folder, "a.nc")
    with open(GOOD, encoding="utf-8") as file:
        plate = json.load(file)
    first = plate["next_id"]
    plate["next_id"] += 2
    plate["operations"] += [
        {"id": first, "name": "Reamed holes", "kind": "making", "order": 90, "face": 2},
        {"id": first + 1, "name": "Profiles", "kind": "running", "order": 91, "face": 2}]
    reamed = [hole for hole in plate["holes"] if hole["face"] == 2 and not hole.get("station")
              and any(step["kind"] == "ream" for step in hole["steps"])]
    for hole in reamed:
        hole["operation"] = first
    with open(plate_path, "w", encoding="utf-8") as file:
        json.dump(plate, file)
    chosen = [word for choice in CHOICES.items() for word in choice]
    answer = json.loads(run("program", plate_path, "--operation", "reamed holes", "--to", path,
                            *chosen, "--json").stdout)
    assert answer["holes"] == len(reamed) and answer["tools"] == 3, answer
    refused("program", plate_path, "--face", "top", "--to", path, *chosen, says="--operation NAME")
    refused("program", plate_path, "--operation", "Profiles", "--to", path, *chosen,
            says="runs parts")
    refused("program", plate_path, "--operation", "x", "--to", path, *chosen, says="Reamed holes")
    refused("program", plate_path, "--to", path, *chosen, says="say what to drill")


@case
def program_with_feeds(folder):
    path, table = os.path.join(folder, "a.nc"), os.path.join(folder, "feeds.csv")
    chosen = [word for choice in CHOICES.items() if choice[0] != "--feeds" for word in choice]
    with open(table, "w", encoding="utf-8") as file:
        file.write("spot drill,1/4,2000,4\nsaw,1,1,1\n")
    command = ["program", GOOD, "--operation", "On its base: top", "--to", path, *chosen, "--feeds", table]
    line = refused(*command, says="saw")
    assert table in line and "line 2" in line
    with open(table, "w", encoding="utf-8") as file:
        file.write("spot drill,1/4,2000,4\n")
    refused(*command, says="no row for the")
    refused("program", GOOD, "--operation", "On its base: top", "--to", path, *chosen, "--feeds",
            os.path.join(folder, "none.csv"), says="none.csv")


@case
def true_geometry(folder):
    path = os.path.join(folder, "top.svg")
    run("draw", GOOD, "--to", path, "--true-geometry")
    with open(path, encoding="utf-8") as file:
        text = file.read()
    assert 'width="203.2mm" height="177.8mm" viewBox="0 0 203.2 177.8"' in text
    assert '<g id="drill-through">' in text and '<g id="ream-through">' in text
    refused("draw", GOOD, "--to", os.path.join(folder, "top.pdf"), "--true-geometry", says=".svg")
    refused("draw", GOOD, "--to", path, "--true-geometry", "--face", "under", says="under")


@case
def help_and_version(folder):
    assert "pinplate check" in run("--help").stdout
    assert run("--version").stdout.startswith("pinplate ")


sys.exit(main())
