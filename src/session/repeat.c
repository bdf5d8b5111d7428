#include "session/repeat.h"

#include "session/arrange.h"
#include "session/selection.h"

#include <string.h>

static bool may_repeat(uint32_t count, int64_t places, Error *error)
{
    if (count == 0)
        return error_set(error, ERROR_MISSING, NULL, "select what is to be repeated");
    if (places < 2)
        return error_set(error, ERROR_TYPED, NULL, "one place is there already: ask for 2 or more");
    if (places > REPEAT_MOST)
        return error_set(error, ERROR_LIMIT, NULL, "no more than %d places are made at once",
                         REPEAT_MOST);
    return true;
}

bool repeat_grid(Session *session, const FeatureId *ids, uint32_t count, const RepeatGrid *grid,
                 Edit *edit, GArray *copies, Error *error)
{
    if (!may_repeat(count, (int64_t)grid->columns * grid->rows, error))
        return false;
    if ((grid->columns > 1 && grid->pitch_x == 0) || (grid->rows > 1 && grid->pitch_y == 0))
        return error_set(error, ERROR_TYPED, NULL,
                         "with a pitch of 0 the copies would lie on each other");
    char *text = selection_copy(session, ids, count);
    bool good = true;
    for (int row = 0; good && row < grid->rows; row++)
        for (int column = 0; good && column < grid->columns; column++)
            if (row || column)
                good = selection_paste(session, text, strlen(text), column * grid->pitch_x,
                                       row * grid->pitch_y, edit, copies, error);
    g_free(text);
    edit_set_name(edit, "Repeat");
    return good;
}

/* --- round a centre ------------------------------------------------------------------------------
 */

/* Turns what was pasted since `first` about the centre. */
static void turn_pasted(Edit *edit, uint32_t first, const RepeatRound *round, Angle by)
{
    double cosine, sine;
    angle_cos_sin(by, &cosine, &sine);
    for (uint32_t i = first; i < edit->count; i++) {
        Record *record = edit->changes[i].after;
        Place *place = record_place(record);
        Angle *rotation = record_rotation(record);
        if (!place || record_station(record))
            continue;
        double x = (double)(place->x - round->about.x), y = (double)(place->y - round->about.y);
        *place = (Place){round->about.x + (Length)llround(x * cosine - y * sine),
                         round->about.y + (Length)llround(x * sine + y * cosine)};
        if (rotation)
            *rotation = angle_normalized(*rotation + by);
    }
}

/* Without being turned, a thing's middle goes round and not its place: a part's place is its own
 * origin. */
static void keep_upright(Edit *edit, uint32_t first, Place middle, const RepeatRound *round,
                         Angle by)
{
    double cosine, sine;
    angle_cos_sin(by, &cosine, &sine);
    double x = (double)(middle.x - round->about.x), y = (double)(middle.y - round->about.y);
    Length dx = (Length)llround(x * cosine - y * sine - x);
    Length dy = (Length)llround(x * sine + y * cosine - y);
    for (uint32_t i = first; i < edit->count; i++) {
        Record *record = edit->changes[i].after;
        Place *place = record_place(record);
        if (!place || record_station(record))
            continue;
        place->x += dx;
        place->y += dy;
    }
}

bool repeat_round(Session *session, const FeatureId *ids, uint32_t count, const RepeatRound *round,
                  Edit *edit, GArray *copies, Error *error)
{
    if (!may_repeat(count, round->places, error))
        return false;
    bool whole = round->over == ANGLE_TURN || round->over == -ANGLE_TURN;
    int steps = whole ? round->places : round->places - 1;
    if (round->over == 0)
        return error_set(error, ERROR_TYPED, NULL,
                         "over an angle of 0 the copies would lie on each other");
    char *text = selection_copy(session, ids, count);
    Place middle = round->about;
    arrange_middle(session, ids, count, &middle);
    bool good = true;
    for (int i = 1; good && i < round->places; i++) {
        uint32_t first = edit->count;
        /* Of whole angles the exact part; a third of a turn has none. */
        Angle by = (Angle)llround((double)round->over * i / steps);
        good = selection_paste(session, text, strlen(text), 0, 0, edit, copies, error);
        if (good && round->turned)
            turn_pasted(edit, first, round, by);
        else if (good)
            keep_upright(edit, first, middle, round, by);
    }
    g_free(text);
    edit_set_name(edit, "Repeat");
    return good;
}
