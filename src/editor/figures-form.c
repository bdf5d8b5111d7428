#include "editor/figures-form.h"

#include "editor/intl.h"

#define NEEDED(k, o, n, i, m)                                                        \
    {                                                                                \
        .kind = FORM_##k, .option = o, .name = n, .inch = i, .mm = m, .needed = TRUE \
    }
#define GIVEN(k, o, n, i, m)                                         \
    {                                                                \
        .kind = FORM_##k, .option = o, .name = n, .inch = i, .mm = m \
    }
#define EITHER(k, o, n, i, m, other)                                                   \
    {                                                                                  \
        .kind = FORM_##k, .option = o, .name = n, .inch = i, .mm = m, .instead = other \
    }
#define BLANK(k, o, n)                           \
    {                                            \
        .kind = FORM_##k, .option = o, .name = n \
    }
#define HEADING(n)                      \
    {                                   \
        .kind = FORM_HEADING, .name = n \
    }
#define CHOICE(o, n, w)                                                                     \
    {                                                                                       \
        .kind = FORM_CHOICE, .option = o, .name = n, .words = w##_words, .names = w##_names \
    }
#define END                  \
    {                        \
        .kind = FORM_HEADING \
    }

static const FormField thread_fields[] = {
    NEEDED(THREAD, NULL, N_("Thread"), "1/4-20", "M6"),
    END,
};

static const char *const series_words[] = {"", "number", "letter", "fraction", "metric", NULL};
static const char *const series_names[] = {N_("all"),       N_("numbers"), N_("letters"),
                                           N_("fractions"), N_("metric"),  NULL};

static const FormField drill_fields[] = {
    NEEDED(DRILL, NULL, N_("Drill or diameter"), "#7", "5.1"),
    CHOICE("series", N_("Out of"), series),
    END,
};

static const char *const tap_words[] = {"plug", "bottoming", "spiral-flute", NULL};
static const char *const tap_names[] = {N_("plug"), N_("bottoming"), N_("spiral flute"), NULL};

static const FormField tap_fields[] = {
    NEEDED(THREAD, NULL, N_("Thread"), "1/4-20", "M6"),
    BLANK(FLAG, "form", N_("Forming tap")),
    HEADING(N_("The hole: one of them, or neither")),
    EITHER(HOLE, "drill", N_("Drill"), NULL, NULL, "per-cent"),
    EITHER(NUMBER, "per-cent", N_("Per cent of thread"), NULL, NULL, "drill"),
    HEADING(N_("A blind hole")),
    GIVEN(LENGTH, "depth", N_("Depth of full thread"), "0.5", "12"),
    CHOICE("kind", N_("Tap"), tap),
    END,
};

static const FormField engagement_fields[] = {
    NEEDED(THREAD, NULL, N_("Thread"), "1/4-20", "M6"),
    GIVEN(MATERIAL, "plate", N_("Plate"), "6061-T6", "6061-T6"),
    BLANK(NUMBER, "strength", N_("Strength, N/mm²")),
    BLANK(LENGTH, "length", N_("Engagement there is")),
    END,
};

static const FormField fit_fields[] = {
    NEEDED(FIT, NULL, N_("Fit, or nominal size"), "0.25in H7/g6", "10H7/g6"),
    HEADING(N_("Limits, with a nominal size")),
    BLANK(TEXT, "hole", N_("Hole, least:greatest")),
    BLANK(TEXT, "shaft", N_("Shaft, least:greatest")),
    END,
};

static const char *const side_words[] = {"2", "1", NULL};
static const char *const side_names[] = {N_("both"), N_("one"), NULL};

static const FormField bevel_fields[] = {
    NEEDED(LENGTH, "thickness", N_("Thickness"), "0.125", "3.2"),
    NEEDED(LENGTH, "edge", N_("Edge"), "0.02", "0.5"),
    EITHER(ANGLE, "angle", N_("Angle of a side"), "7.5", "7.5", "height"),
    EITHER(LENGTH, "height", N_("Height instead"), NULL, NULL, "angle"),
    CHOICE("sides", N_("Sides"), side),
    GIVEN(LENGTH, "width", N_("Width of the blade"), "1", "25"),
    HEADING(N_("Where the plunge line falls")),
    BLANK(LENGTH, "cutter", N_("Cutter")),
    BLANK(LENGTH, "corner", N_("Its corners' radius")),
    HEADING(N_("A ball cutter's paths")),
    BLANK(LENGTH, "ball", N_("Ball cutter")),
    BLANK(LENGTH, "cusp", N_("Cusp")),
    HEADING(N_("What changes it")),
    BLANK(LENGTH, "thicker", N_("Stock thicker by")),
    BLANK(LENGTH, "beyond", N_("Outline further out by")),
    END,
};

static const char *const set_words[] = {"", "inch", "metric", NULL};
static const char *const set_names[] = {N_("by the bar's unit"), N_("inch, 81 pieces"),
                                        N_("metric, 47 pieces"), NULL};

static const FormField sine_fields[] = {
    NEEDED(LENGTH, "length", N_("Between the rollers"), "5in", "100"),
    NEEDED(ANGLE, "angle", N_("Angle"), "7.5", "7.5"),
    CHOICE("set", N_("Blocks"), set),
    END,
};

static const FormField cusp_fields[] = {
    NEEDED(LENGTH, "cutter", N_("Ball cutter"), "3/16", "6"),
    EITHER(LENGTH, "step", N_("Step"), "0.02", "0.5", "cusp"),
    EITHER(LENGTH, "cusp", N_("Cusp instead"), NULL, NULL, "step"),
    END,
};

static const FormField location_fields[] = {
    NEEDED(LENGTH, "distance", N_("Between the locators"), "2.5", "60"),
    NEEDED(LENGTH, "clearance", N_("First locator's play"), "0.001", "0.025"),
    BLANK(LENGTH, "clearance-2", N_("Second locator's play")),
    BLANK(FLAG, "relieved", N_("Second one relieved")),
    HEADING(N_("Zones that hold the axes")),
    GIVEN(LENGTH, "position", N_("Locators in the plate"), "0.001", "0.02"),
    BLANK(LENGTH, "part-position", N_("Holes in the part")),
    HEADING(N_("At a place of the part")),
    GIVEN(LENGTH, "along", N_("Along, from the first"), "3.5", "90"),
    GIVEN(LENGTH, "across", N_("Across"), "0.5", "12"),
    HEADING(N_("The plate on its base")),
    BLANK(LENGTH, "repeat", N_("Repeats within")),
    BLANK(ANGLE, "repeat-turn", N_("Turns within")),
    BLANK(LENGTH, "height", N_("Height over face")),
    BLANK(ANGLE, "squareness", N_("Out of square")),
    HEADING(N_("Temperature")),
    BLANK(NUMBER, "temperature", N_("Difference, °C")),
    BLANK(MATERIAL, "part", N_("Part")),
    BLANK(MATERIAL, "plate", N_("Plate")),
    END,
};

static const FormField holding_fields[] = {
    NEEDED(MATERIAL, "material", N_("Part"), "440C annealed", "440C annealed"),
    NEEDED(LENGTH, "cutter", N_("Cutter"), "0.25", "6"),
    NEEDED(LENGTH, "width", N_("Width of cut"), "0.05", "1"),
    NEEDED(LENGTH, "depth", N_("Depth of cut"), "0.125", "3"),
    NEEDED(LENGTH, "feed", N_("Feed a tooth"), "0.001", "0.03"),
    GIVEN(NUMBER, "teeth", N_("Teeth"), "4", "4"),
    HEADING(N_("What holds")),
    BLANK(NUMBER, "force", N_("Clamps' force, N")),
    GIVEN(TEXT, "screw", N_("Screw"), "10-32", "M5"),
    GIVEN(NUMBER, "screws", N_("Screws"), "2", "2"),
    GIVEN(NUMBER, "torque", N_("Torque, Nm"), "4", "4"),
    GIVEN(NUMBER, "friction", N_("Friction"), "0.1", "0.1"),
    GIVEN(NUMBER, "factor", N_("Factor of safety"), "2.5", "2.5"),
    HEADING(N_("A thin edge that stands out")),
    BLANK(LENGTH, "overhang", N_("Stands out by")),
    BLANK(LENGTH, "edge", N_("Thickness")),
    BLANK(LENGTH, "strip", N_("Strip's width")),
    END,
};

static const FormField batch_fields[] = {
    NEEDED(NUMBER, "load", N_("Loading, min"), "4", "4"),
    NEEDED(TEXT, "cut", N_("Cutting, min each"), "6, 9", "6, 9"),
    NEEDED(NUMBER, "swap", N_("Changing plates, min"), "0.5", "0.5"),
    GIVEN(NUMBER, "plates", N_("Plates"), "2", "2"),
    GIVEN(NUMBER, "parts", N_("Parts on a plate"), "4", "4"),
    GIVEN(NUMBER, "shift", N_("Shift, hours"), "8", "8"),
    END,
};

static const FigureForm forms[] = {
    {"thread", N_("Thread"), N_("Section of the thread in its nut"), thread_fields, "tap_drill"},
    {"drill", N_("Drill"), N_("The drill's hole, and its neighbours by size"), drill_fields,
     "diameter"},
    {"tap", N_("Tap"), N_("Section of the tapped hole, and how full its thread is"), tap_fields,
     "tap_drill"},
    {"engagement", N_("Engagement"), N_("Section of the screw in its plate"), engagement_fields,
     "engagement_by_strength"},
    {"fit", N_("Fit"), N_("The zones of hole and shaft about the nominal size"), fit_fields,
     "clearance_least"},
    {"bevel", N_("Bevel"), N_("Section of the blade, and the blade on the inclined face"),
     bevel_fields, "height"},
    {"sine", N_("Sine bar"), N_("The sine bar on its stack of blocks"), sine_fields, "blocks"},
    {"cusp", N_("Cusp"), N_("The ball cutter's paths and the cusps between them"), cusp_fields,
     "cusp"},
    {"location-error", N_("Location error"), N_("The part on its two locators, with their play"),
     location_fields, "shift_greatest"},
    {"holding", N_("Holding"), N_("The cut from the front, and the forces side by side"),
     holding_fields, "factor_reached"},
    {"batch", N_("Batch"), N_("Bar chart of the shift"), batch_fields, "parts_a_shift"},
};

const FigureForm *figure_form(gsize index)
{
    return index < G_N_ELEMENTS(forms) ? &forms[index] : NULL;
}
