#include "session/inclined.h"

#include "session/edited.h"
#include "session/new-things.h"
#include "session/quiet-place.h"

#include <math.h>

#define STEEPEST (45 * ANGLE_DEGREE)
#define SIDES 4
#define HALF_A_NANOMETRE 5e-7

static const char *const side_names[SIDES] = {"front", "right", "back", "left"};

/* --- the face ------------------------------------------------------------------------------- */

/* The face falls away to the left of the way from one end to the other. */
static void put_break_line(Face *face, const Stock *stock, FallsTo side, Length run)
{
    Length far_x = stock->length, far_y = stock->width;
    switch (side) {
    case FALLS_TO_FRONT:
        face->from = (Place){far_x, run};
        face->to = (Place){0, run};
        break;
    case FALLS_TO_RIGHT:
        face->from = (Place){far_x - run, far_y};
        face->to = (Place){far_x - run, 0};
        break;
    case FALLS_TO_BACK:
        face->from = (Place){0, far_y - run};
        face->to = (Place){far_x, far_y - run};
        break;
    case FALLS_TO_LEFT:
        face->from = (Place){run, 0};
        face->to = (Place){run, far_y};
        break;
    }
}

static bool name_is_used(const Plate *plate, const Edit *edit, const char *name)
{
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *record = plate_at(plate, i);
        if (record->kind == RECORD_FACE && g_strcmp0(record->face.name, name) == 0)
            return true;
    }
    for (uint32_t i = 0; i < edit->count; i++) {
        const Record *record = edit->changes[i].after;
        if (record && record->kind == RECORD_FACE && g_strcmp0(record->face.name, name) == 0)
            return true;
    }
    return false;
}

static char *unused_name(const Plate *plate, const Edit *edit, const char *name)
{
    char *unused = g_strdup(name);
    for (int number = 2; name_is_used(plate, edit, unused); number++) {
        g_free(unused);
        unused = g_strdup_printf("%s %d", name, number);
    }
    return unused;
}

static bool face_fits(const Stock *stock, FallsTo side, Length run, Angle angle, Error *error)
{
    bool across = side == FALLS_TO_FRONT || side == FALLS_TO_BACK;
    double fall = length_to_mm(run) * tan(angle_to_degrees(angle) * M_PI / 180);
    if (angle <= 0 || angle > STEEPEST)
        return error_set(error, ERROR_LIMIT, "angle",
                         "an inclined face lies at more than 0 and at most 45 degrees to the top");
    if (run <= 0 || run >= (across ? stock->width : stock->length))
        return error_set(error, ERROR_LIMIT, "run",
                         "the break line lies on the top: the face is less wide than the stock");
    if (fall > length_to_mm(stock->thickness) - HALF_A_NANOMETRE)
        return error_set(error, ERROR_LIMIT, "run",
                         "the face would fall %.2f mm, but the stock is only %.2f mm thick; make "
                         "it narrower or less steep",
                         fall, length_to_mm(stock->thickness));
    return true;
}

FeatureId new_inclined_face(Session *session, const char *name, FallsTo side, Length run,
                            Angle angle, Edit *edit, Error *error)
{
    const Plate *plate = session_plate(session);
    const Stock *stock = &plate_settings(plate)->stock;
    if (!face_fits(stock, side, run, angle, error))
        return ID_NONE;
    double cosine, sine;
    angle_cos_sin(angle, &cosine, &sine);
    Record *record = record_new(session_new_id(session), RECORD_FACE);
    record->face.kind = FACE_INCLINED;
    record->face.name = unused_name(plate, edit, name ? name : side_names[side]);
    record->face.angle = angle;
    record->face.extent = length_from_mm(length_to_mm(run) / cosine);
    put_break_line(&record->face, stock, side, run);
    edit_set_name(edit, "New inclined face");
    return new_thing(session, record, edit);
}

static const Record *inclined_face(const Plate *plate, const Edit *edit, FeatureId id, Error *error)
{
    const Record *record = edited_record(plate, edit, id);
    if (record && record->kind == RECORD_FACE && record->face.kind == FACE_INCLINED)
        return record;
    error_set(error, ERROR_MISSING, NULL,
              "this is done on an inclined face, which has a break "
              "line; choose one, or make one first");
    return NULL;
}

static double face_length(const Face *face)
{
    return hypot(length_to_mm(face->to.x - face->from.x), length_to_mm(face->to.y - face->from.y));
}

/* --- the reference hole --------------------------------------------------------------------- */

/* A pin stands in 1.5 diameters; below that the reamer's lead has room (common practice, no
 * source). */
static void make_reference_steps(Length diameter, bool metric, List *steps)
{
    Length under = metric ? LENGTH_MM / 5 : LENGTH_INCH / 64;
    Length ream = diameter * 3 / 2, drill = ream + diameter / 2;
    *list_append(steps, Step) = (Step){.kind = STEP_DRILL,
                                       .diameter = diameter - under,
                                       .depth = drill,
                                       .point = 118 * ANGLE_DEGREE};
    /* H7 over 3 to 6 mm by ISO 286-1; in inches half a thousandth (common practice). */
    *list_append(steps, Step) = (Step){.kind = STEP_REAM,
                                       .diameter = diameter,
                                       .depth = ream,
                                       .upper = metric ? 12 * LENGTH_UM : LENGTH_INCH / 2000};
}

#define LINES 5
#define ROWS_MOST 12

/* The middle line first, then either side of it; on each line from the break line down. */
static bool find_free_place(Session *session, const Face *face, Record *hole, const Edit *edit)
{
    static const double lines[LINES] = {1 / 2.0, 1 / 16.0, 15 / 16.0, 1 / 4.0, 3 / 4.0};
    Place places[LINES * ROWS_MOST];
    double length = face_length(face), step = length_to_mm(hole_largest_diameter(&hole->hole));
    int rows = (int)fmin(ROWS_MOST, floor(length_to_mm(face->extent) / step - 2.5));
    size_t count = 0;
    for (int line = 0; line < LINES; line++)
        for (int row = 0; row < rows; row++)
            places[count++] = (Place){length_from_mm(-length * lines[line]),
                                      length_from_mm(-step * (row + 1.75))};
    return quiet_place(session, edit, hole, places, count);
}

static Record *reference_record(Session *session, FeatureId face, Length diameter)
{
    bool metric = session_unit(session) == UNIT_MM;
    if (diameter <= 0)
        diameter = metric ? 6 * LENGTH_MM : LENGTH_INCH / 4;
    Record *record = record_new(session_new_id(session), RECORD_HOLE);
    record->hole.face = face;
    record->hole.note = g_strdup("reference");
    make_reference_steps(diameter, metric, &record->hole.steps);
    return record;
}

FeatureId new_reference_hole(Session *session, FeatureId face, const Place *at, Length diameter,
                             Edit *edit, Error *error)
{
    const Plate *plate = session_plate(session);
    const Record *on = inclined_face(plate, edit, face, error);
    if (!on)
        return ID_NONE;
    if (on->face.reference_hole) {
        error_set(error, ERROR_CONFLICT, NULL, "the face has its reference hole already");
        return ID_NONE;
    }
    Record *hole = reference_record(session, face, diameter);
    if (at) {
        hole->hole.at = *at;
    } else if (!find_free_place(session, &on->face, hole, edit)) {
        record_unref(hole);
        error_set(error, ERROR_LIMIT, NULL,
                  "no free place for a reference hole was found on the face; make room, or say "
                  "where it is to be");
        return ID_NONE;
    }
    FeatureId id = new_thing(session, hole, edit);
    edited_change(plate, edit, face)->face.reference_hole = id;
    edit_set_name(edit, "Reference hole");
    return id;
}
