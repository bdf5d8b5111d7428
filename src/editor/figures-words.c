#include "editor/figures-words.h"

#include "editor/intl.h"
#include "editor/speech.h"
#include "trade/size-words.h"

#include <string.h>

typedef enum Shape { PLAIN, PER_CENT, SHARE } Shape;

/* Results that are named otherwise than by their key with blanks, or shown in per cent. */
static const struct {
    const char *key, *name;
    Shape shape;
} names[] = {
    {"allowance", N_("Allowance"), PLAIN},
    {"angle", N_("Angle of a side"), PLAIN},
    {"angle_reached", N_("Angle reached"), PLAIN},
    {"at_or_above", N_("Next above"), PLAIN},
    {"at_or_above_diameter", N_("Above, diameter"), PLAIN},
    {"at_or_below", N_("Next below"), PLAIN},
    {"at_or_below_diameter", N_("Below, diameter"), PLAIN},
    {"block_count", N_("How many blocks"), PLAIN},
    {"blocks", N_("Blocks"), PLAIN},
    {"blocks_height", N_("Blocks' height"), PLAIN},
    {"break_force", N_("Screw breaks at"), PLAIN},
    {"chip_thickness", N_("Chip thickness"), PLAIN},
    {"clamping_force", N_("Clamping force"), PLAIN},
    {"clamping_needed", N_("Clamping needed"), PLAIN},
    {"clearance_greatest", N_("Greatest clearance"), PLAIN},
    {"clearance_least", N_("Least clearance"), PLAIN},
    {"cusp", N_("Cusp"), PLAIN},
    {"cutting_force", N_("Cutting force"), PLAIN},
    {"deflection", N_("Bends by"), PLAIN},
    {"diameter", N_("Diameter"), PLAIN},
    {"drill", N_("Drill"), PLAIN},
    {"drill_depth", N_("Drill depth"), PLAIN},
    {"drill_depth_to_point", N_("To the drill's point"), PLAIN},
    {"edge_beyond", N_("Edge there"), PLAIN},
    {"engagement_by_rule", N_("By rule of thumb"), PLAIN},
    {"engagement_by_strength", N_("Engagement by strength"), PLAIN},
    {"engagement_plate_thread", N_("So the plate holds"), PLAIN},
    {"engagement_screw_thread", N_("So the screw holds"), PLAIN},
    {"external_class", N_("Outer thread"), PLAIN},
    {"external_major_greatest", N_("Major, greatest"), PLAIN},
    {"external_major_least", N_("Major, least"), PLAIN},
    {"external_pitch_greatest", N_("Pitch, greatest"), PLAIN},
    {"external_pitch_least", N_("Pitch, least"), PLAIN},
    {"face_rise", N_("Inclined face rises"), PLAIN},
    {"factor_reached", N_("Factor reached"), PLAIN},
    {"failure_force", N_("Fails at"), PLAIN},
    {"fails_by", N_("How it fails"), PLAIN},
    {"gap_under_edge", N_("Gap under the edge"), PLAIN},
    {"height", N_("Height of the bevel"), PLAIN},
    {"height_change", N_("Bevel taller by"), PLAIN},
    {"hole_greatest", N_("Hole, greatest"), PLAIN},
    {"hole_least", N_("Hole, least"), PLAIN},
    {"holding_force", N_("Holding force"), PLAIN},
    {"holds", N_("Holds"), PLAIN},
    {"included_angle", N_("Included angle"), PLAIN},
    {"internal_class", N_("Inner thread"), PLAIN},
    {"internal_minor_greatest", N_("Minor, greatest"), PLAIN},
    {"internal_minor_least", N_("Minor, least"), PLAIN},
    {"internal_pitch_greatest", N_("Pitch, greatest"), PLAIN},
    {"internal_pitch_least", N_("Pitch, least"), PLAIN},
    {"major", N_("Major diameter"), PLAIN},
    {"maker_busy", N_("Maker busy"), SHARE},
    {"meaning", N_("What it is"), PLAIN},
    {"nearest", N_("Nearest drill"), PLAIN},
    {"nominal", N_("Nominal size"), PLAIN},
    {"parts_a_shift", N_("Parts a shift"), PLAIN},
    {"parts_an_hour", N_("Parts an hour"), PLAIN},
    {"path_spacing", N_("Paths apart"), PLAIN},
    {"per_cent_thread", N_("Per cent of thread"), PER_CENT},
    {"pitch", N_("Pitch"), PLAIN},
    {"plates", N_("Plates needed"), PLAIN},
    {"plunge_offset", N_("Cutter's axis from the line"), PLAIN},
    {"point_118", N_("Point of 118°"), PLAIN},
    {"point_135", N_("Point of 135°"), PLAIN},
    {"residual", N_("Still missing"), PLAIN},
    {"runs_out", N_("Runs out"), PLAIN},
    {"set", N_("Set"), PLAIN},
    {"shaft_greatest", N_("Shaft, greatest"), PLAIN},
    {"shaft_least", N_("Shaft, least"), PLAIN},
    {"share_of_width", N_("Share of the width"), SHARE},
    {"shear_area_plate", N_("Plate's shear area, 1 mm"), PLAIN},
    {"shear_area_screw", N_("Screw's shear area, 1 mm"), PLAIN},
    {"shift_from_part_position", N_("From the part's holes"), PLAIN},
    {"shift_from_plate_position", N_("From the locators"), PLAIN},
    {"shift_from_play", N_("From play"), PLAIN},
    {"shift_from_repeat", N_("From the base"), PLAIN},
    {"shift_from_squareness", N_("From squareness"), PLAIN},
    {"shift_from_temperature", N_("From temperature"), PLAIN},
    {"shift_greatest", N_("Greatest shift"), PLAIN},
    {"shift_rss", N_("Shift, root sum square"), PLAIN},
    {"specific_cutting_force", N_("Specific cutting force"), PLAIN},
    {"spindle_busy", N_("Spindle busy"), SHARE},
    {"stack", N_("Stack"), PLAIN},
    {"step", N_("Step"), PLAIN},
    {"support_angle", N_("Support angle"), PLAIN},
    {"tap_drill", N_("Tap drill"), PLAIN},
    {"tap_drill_name", N_("It is called"), PLAIN},
    {"tensile_area", N_("Tensile area"), PLAIN},
    {"threads_per_inch", N_("Threads an inch"), PLAIN},
    {"turn_greatest", N_("Greatest turn"), PLAIN},
    {"turn_rss", N_("Turn, root sum square"), PLAIN},
    {"waits", N_("What waits"), PLAIN},
};

/* Words that results are made of; they come from below the editor untranslated. */
static const char *const words[] = {
    N_("yes"),
    N_("no"),
    N_("will not go"),
    N_("press"),
    N_("slide"),
    N_("loose"),
    N_("the screw breaks"),
    N_("the screw's thread strips"),
    N_("the plate's thread strips"),
    N_("the maker waits for the spindle"),
    N_("the spindle waits for the maker"),
    N_("both wait for plates"),
    N_("more than the overhang: it breaks or folds"),
    /* Their figures get the desktop's decimal sign: a list of them is best parted by ; then. */
    N_("81 blocks: 0.1001 to 0.1009 by 0.0001, 0.101 to 0.149 by 0.001, 0.050 to 0.950 by 0.050, "
       "1, 2, 3 and 4 in"),
    N_("47 blocks: 1.005, 1.01 to 1.09 by 0.01, 1.1 to 1.9 by 0.1, 1 to 24 by 1, 25, 50, 75 and "
       "100 mm"),
};

static gsize find(const char *key)
{
    gsize i = 0;
    while (i < G_N_ELEMENTS(names) && strcmp(names[i].key, key) != 0)
        i++;
    return i;
}

char *figures_name(const FigureValue *value)
{
    gsize i = find(value->name);
    if (i < G_N_ELEMENTS(names))
        return g_strdup(_(names[i].name));
    char *name = g_strdelimit(g_strdup(value->name), "_", ' ');
    name[0] = g_ascii_toupper(name[0]);
    return name;
}

static const char *word_of(const char *text)
{
    for (gsize i = 0; i < G_N_ELEMENTS(words); i++)
        if (!strcmp(words[i], text))
            return _(words[i]);
    return text;
}

/* What is written for terminals has no micrometre sign. */
static void length_or_number(const FigureValue *value, Unit unit, char text[FIGURES_TEXT])
{
    char plain[FIGURES_TEXT];
    figure_value_text(value, unit, plain, sizeof plain);
    char *micrometres = value->kind == FIGURE_LENGTH ? strstr(plain, " um") : NULL;
    if (!micrometres) {
        g_strlcpy(text, plain, FIGURES_TEXT);
        return;
    }
    *micrometres = '\0';
    g_snprintf(text, FIGURES_TEXT, "%s µm%s", plain, micrometres + strlen(" um"));
}

const char *figures_text(const FigureValue *value, Unit unit, char text[FIGURES_TEXT])
{
    gsize i = find(value->name);
    Shape shape = i < G_N_ELEMENTS(names) ? names[i].shape : PLAIN;
    if (value->kind == FIGURE_TEXT) {
        size_said(word_of(value->text), pin_speech(), text, FIGURES_TEXT);
        return text;
    }
    if (value->kind == FIGURE_ANGLE)
        g_snprintf(text, FIGURES_TEXT, "%.5g°", value->number);
    else if (value->kind == FIGURE_AREA)
        g_snprintf(text, FIGURES_TEXT, "%.4g mm²", value->number);
    else if (value->kind == FIGURE_STRESS)
        g_snprintf(text, FIGURES_TEXT, "%.4g N/mm²", value->number);
    else if (value->kind == FIGURE_FORCE)
        g_snprintf(text, FIGURES_TEXT, "%.0f N", value->number);
    else if (shape == PER_CENT || shape == SHARE)
        g_snprintf(text, FIGURES_TEXT, "%.1f %%",
                   shape == SHARE ? 100 * value->number : value->number);
    else
        length_or_number(value, unit, text);
    return pin_figures(text);
}
