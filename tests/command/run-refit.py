#!/usr/bin/env python3
"""An old plate and a new part, as scripts ask for it: refit, rack, measured. Speaks TAP."""
import json
import math
import os
import shutil
import subprocess
import sys

sys.dont_write_bytecode = True
from program import case, example, main, refused, run  # noqa: E402

OLD = example("grafting-blades.plate")
NEW = example("budding-blade.platepart")
INCH = 25.4


def words_of(pdf):
    return subprocess.run(["pdftotext", "-layout", pdf, "-"], capture_output=True, text=True,
                          check=True).stdout


def sheets_of(pdf):
    about = subprocess.run(["pdfinfo", pdf], capture_output=True, text=True, check=True).stdout
    return int(next(line.split()[1] for line in about.splitlines() if line.startswith("Pages:")))


# --- refit -----------------------------------------------------------------------------------

@case
def the_example_takes_the_new_blade_with_one_more_hole(folder):
    answer = json.loads(run("refit", OLD, NEW, "--json").stdout)
    assert answer["verdict"] == "one-hole" and answer["part"] == "Budding blade"
    best = answer["answers"][0]
    assert best["verdict"] == "one-hole" and best["new_holes"] == 1 and best["way"] == "holes"
    assert [use["hole"] for use in best["uses"]].count(None) == 1
    assert best["displaced"] == ["1"]
    for key in ("face", "at", "rotation", "turned_over", "uses", "always", "rms", "alike",
                "findings", "before", "reason"):
        assert key in best, key
    for other in answer["answers"][1:]:
        assert other["verdict"] in ("one-hole", "more-holes", "no")
        assert (other["reason"] is not None) == (other["verdict"] == "no")


@case
def the_new_hole_lies_where_the_part_has_it(folder):
    best = json.loads(run("refit", OLD, NEW, "--json").stdout)["answers"][0]
    with open(NEW, encoding="utf-8") as file:
        holes = json.load(file)["holes"]
    turn = math.radians(best["rotation"])
    for use in best["uses"]:
        x, y = holes[use["part_hole"] - 1]["at"]
        y = -y if best["turned_over"] else y
        at = (best["at"][0] + x * math.cos(turn) - y * math.sin(turn),
              best["at"][1] + x * math.sin(turn) + y * math.cos(turn))
        off = math.dist(at, use["at"])
        assert off <= (use["play"] if use["hole"] else 1e-5) + 1e-5, (use, at)


@case
def a_part_that_does_not_fit_is_a_no(folder):
    answer = json.loads(run("refit", example("spacers.plate"), NEW, "--json", code=1).stdout)
    assert answer["verdict"] == "no" and answer["answers"][0]["reason"]
    assert "0 fit" in run("refit", example("spacers.plate"), NEW, code=1).stdout


@case
def the_answer_is_printed_on_one_sheet(folder):
    pdf, svg = os.path.join(folder, "answer.pdf"), os.path.join(folder, "answer.svg")
    run("refit", OLD, NEW, "--to", pdf)
    assert sheets_of(pdf) == 1
    words = words_of(pdf)
    for wanted in ("Budding blade on this plate: fits with one more hole", "Answer 1 of", "MAKE",
                   "C1", "D1", "CAUTION"):
        assert wanted in words, wanted
    best = json.loads(run("refit", OLD, NEW, "--json").stdout)["answers"][0]
    new = next(use for use in best["uses"] if use["hole"] is None)
    for figure in new["at"]:
        assert f"{figure / INCH:.3f}".lstrip("0") in words, figure
    run("refit", OLD, NEW, "--to", svg, "--answer", "2")
    with open(svg, encoding="utf-8") as file:
        assert "Answer 2 of" in file.read()


@case
def a_print_that_no_answer_is_for_is_refused(folder):
    pdf = os.path.join(folder, "answer.pdf")
    refused("refit", OLD, NEW, "--to", pdf, "--answer", "999", says="--answer")
    refused("refit", OLD, NEW, "--to", pdf, "--answer", "0", says="--answer")
    refused("refit", OLD, NEW, "--answer", "1", says="--to")
    refused("refit", OLD, NEW, "--to", os.path.join(folder, "a.plate"), says=".pdf")
    refused("refit", OLD, NEW, "--to", pdf, "--sheet", "a9", says="a9")
    assert not os.path.exists(pdf)


@case
def what_is_no_plate_or_part_is_refused(folder):
    refused("refit", OLD, says="refit P.plate N.platepart")
    refused("refit", OLD, OLD, says="grafting-blades.plate")
    refused("refit", NEW, NEW, says="budding-blade.platepart")
    refused("refit", os.path.join(folder, "none.plate"), NEW, says="none.plate")


@case
def the_part_of_a_station_is_replaced(folder):
    pdf = os.path.join(folder, "replaced.pdf")
    done = run("refit", OLD, NEW, "--station", "2", "--to", pdf, code=1)
    assert "in the place of the part of station 2" in done.stdout
    before = [line.strip() for line in done.stdout.splitlines() if line.startswith("   before:")]
    after = [line.strip() for line in done.stdout.splitlines() if line.startswith("   after :")]
    assert before and len(before) == len(after)
    words = words_of(pdf)
    assert sheets_of(pdf) == 1 and "Before" in words and "After" in words
    best = json.loads(run("refit", OLD, NEW, "--station", "2", "--json", code=1).stdout)
    assert best["answers"][0]["before"] and best["answers"][0]["findings"]
    refused("refit", OLD, NEW, "--station", "99", says="no such station")


# --- rack ------------------------------------------------------------------------------------

def fill_rack(folder):
    rack = os.path.join(folder, "rack")
    os.mkdir(rack)
    for name in ("grafting-blades.plate", "spacers.plate"):
        shutil.copy(example(name), rack)
    with open(os.path.join(rack, "broken.plate"), "w", encoding="utf-8") as file:
        file.write('{"format": "pinplate-plate", "version": 1, ')
    with open(os.path.join(rack, "notes.txt"), "w", encoding="utf-8") as file:
        file.write("not a plate")
    return rack, {"XDG_CACHE_HOME": os.path.join(folder, "cache")}


@case
def a_rack_says_which_plates_take_it_and_names_the_broken_one(folder):
    rack, env = fill_rack(folder)
    first = json.loads(run("rack", rack, NEW, "--json", env=env).stdout)
    assert [row["file"] for row in first["plates"]] == \
        ["grafting-blades.plate", "spacers.plate", "broken.plate"]
    assert [row["verdict"] for row in first["plates"]] == ["one-hole", "no", "broken"]
    assert first["indexed"] == 3
    for row in first["plates"]:
        assert row["says"], row
        assert set(row) >= {"file", "verdict", "new_holes", "positions", "opened", "says"}
    again = json.loads(run("rack", rack, NEW, "--json", env=env).stdout)
    assert again["indexed"] == 0 and again["plates"] == first["plates"]
    plain = json.loads(run("rack", rack, NEW, "--json", "--no-index", env=env).stdout)
    assert [row["verdict"] for row in plain["plates"]] == ["one-hole", "no", "broken"]


@case
def a_rack_with_nothing_that_fits_is_a_no(folder):
    rack, env = fill_rack(folder)
    os.remove(os.path.join(rack, "grafting-blades.plate"))
    text = run("rack", rack, NEW, code=1, env=env).stdout
    assert "broken.plate: can't be read" in text and "0 fit" in text
    refused("rack", os.path.join(folder, "nowhere"), NEW, says="nowhere")
    refused("rack", rack, OLD, says="grafting-blades.plate")
    refused("rack", rack, NEW, "--unit", "ell", says="--unit")


# --- measured --------------------------------------------------------------------------------

def drawn_holes():
    """Labels, places from the plate's corner and last diameters of the holes in the top."""
    with open(OLD, encoding="utf-8") as file:
        plate = json.load(file)
    top = next(face["id"] for face in plate["faces"] if face["name"] == "top")
    stations = {station["id"]: station["at"] for station in plate["stations"]}
    found = []
    for hole in plate["holes"]:
        if hole["face"] != top:
            continue
        shift = stations.get(hole.get("station"), [0, 0])
        found.append((hole["label"], hole["at"][0] + shift[0], hole["at"][1] + shift[1],
                      hole["steps"][-1]["diameter"]))
    return found


def write_table(path, rows, heading="label,x_mm,y_mm,diameter_mm"):
    with open(path, "w", encoding="utf-8") as file:
        file.write("\n".join([heading] + [",".join(str(cell) for cell in row) for row in rows]))
        file.write("\n")


def measure(folder, off=None, turn=0.03):
    """A table of the plate, turned and shifted, with one hole off in X by `off` mm."""
    path = os.path.join(folder, "table.csv")
    rows = []
    for label, x, y, diameter in drawn_holes():
        x += off if off and label == "D1" else 0
        rows.append((label, f"{40 + x * math.cos(turn) - y * math.sin(turn):.6f}",
                     f"{-7 + x * math.sin(turn) + y * math.cos(turn):.6f}", diameter))
    write_table(path, rows)
    return path


@case
def a_plate_measured_as_drawn_is_fine(folder):
    answer = json.loads(run("measured", OLD, measure(folder), "--json").stdout)
    assert answer["matched"] == len(drawn_holes()) and answer["out_of_tolerance"] == 0
    assert answer["missing"] == [] and answer["outliers"] == 0
    for point in answer["points"]:
        assert point["label"] == point["hole"]
        assert max(map(abs, point["squares"])) < 1e-5 and point["squares_used"] < 0.01


@case
def zones_are_those_of_the_drawing(folder):
    # Shoulder screws stand in C and A holes are reamed: 0.001 in; the others 0.1 mm.
    answer = json.loads(run("measured", OLD, measure(folder), "--json").stdout)
    zones = {point["hole"]: point["tolerance"] for point in answer["points"]}
    with open(OLD, encoding="utf-8") as file:
        plate = json.load(file)
    locating = {fitting["hole"] for fitting in plate["fittings"]
                if fitting["kind"] in ("shoulder-screw", "dowel", "relieved-pin")}
    for hole in plate["holes"]:
        if hole["label"] not in zones:
            continue
        close = hole["id"] in locating or \
            any(step["kind"] in ("ream", "bore") for step in hole["steps"])
        wanted = hole.get("position_tolerance", 0.0254 if close else 0.1)
        assert abs(zones[hole["label"]] - wanted) < 1e-9, (hole["label"], zones)


@case
def a_hole_that_is_off_is_named(folder):
    # 0.15 mm off uses 300 % of a zone of 0.1 mm when the others lie where they are drawn.
    table = measure(folder, off=0.15)
    answer = json.loads(run("measured", OLD, table, "--json", code=1).stdout)
    assert answer["out_of_tolerance"] == 1 and answer["outliers"] == 1
    point = next(point for point in answer["points"] if point["outlier"])
    assert point["hole"] == "D1" and abs(point["squares_used"] - 3) < 1e-3
    assert abs(math.hypot(*point["squares"]) - 0.15) < 1e-5
    text = run("measured", OLD, table, code=1).stdout
    assert "OUT OF TOLERANCE" in text and "left out of the fits" in text


@case
def deviations_are_printed(folder):
    table, pdf = measure(folder, off=0.15), os.path.join(folder, "measured.pdf")
    run("measured", OLD, table, "--to", pdf, code=1)
    words = words_of(pdf)
    for wanted in ("times their size", "Outliers, left out of the fits: D1.", "300 / 300",
                   "Out of tolerance: D1."):
        assert wanted in words, (wanted, words)
    svg = os.path.join(folder, "measured.svg")
    run("measured", OLD, table, "--to", svg, "--sheet", "a3", code=1)
    assert os.path.getsize(svg) > 10000
    refused("measured", OLD, table, "--to", os.path.join(folder, "a.plate"), says=".pdf")
    refused("measured", OLD, table, "--sheet", "a3", says="--to")


@case
def a_table_becomes_a_plate_of_made_holes(folder):
    table, plate = measure(folder, turn=0), os.path.join(folder, "found.plate")
    run("measured", table, "--to", plate, "--thickness", "12.7")
    with open(plate, encoding="utf-8") as file:
        made = json.load(file)
    assert len(made["holes"]) == len(drawn_holes())
    assert all(hole["made"] for hole in made["holes"])
    run("measured", plate, table, "--json")
    refused("measured", table, "--to", plate, says="--thickness")


@case
def tables_that_say_nothing_are_refused(folder):
    table = os.path.join(folder, "bad.csv")
    write_table(table, [("A1", 1, 1, 1)])
    refused("measured", OLD, table, says="two points")
    write_table(table, [("A1", "about 1", 1, 1), ("A2", 2, 2, 1)])
    refused("measured", OLD, table, says="line 2")
    write_table(table, [(f"P{i}", 90 * i * i, 7 * i, 1) for i in range(1, 9)])
    refused("measured", OLD, table, says="no holes of this plate")
    refused("measured", OLD, os.path.join(folder, "none.csv"), says="none.csv")
    refused("measured", OLD, measure(folder), "--face", "under", says="under")


sys.exit(main())
