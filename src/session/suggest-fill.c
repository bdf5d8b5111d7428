/* As many stations of a part as fit: first-fit on a lattice, by several orders, and a plain grid.
 */
#include "session/movement.h"

#include "geometry/words.h"
#include "session/new-things.h"
#include "session/selection.h"
#include "session/suggest-private.h"
#include "session/trial.h"

#include <math.h>
#include <string.h>

#define PLACES_MOST 4000 /* of one lattice: beyond that its step grows */
#define GRID_MOST 60     /* rows or columns of a plain grid */

typedef struct Fill {
    const Session *session;
    const FillAsk *ask;
    Search search;
    char *text; /* the station to be copied, or NULL */
    Session *best;
    uint32_t best_count;
} Fill;

/* One station that is not on the plate yet, turned as asked. */
typedef struct Ghost {
    Movement movement;
    Box box; /* of the part with all that is cut and stands for it, where it was made */
} Ghost;

/* --- the ghost -----------------------------------------------------------------------------------
 */

static bool fill_ghost(const Fill *fill, Session *trial, Edit *edit)
{
    if (fill->text)
        return selection_paste(trial, fill->text, strlen(fill->text), 0, 0, edit, NULL, NULL);
    return new_station(trial, fill->ask->face, (Place){0, 0}, fill->ask->part, edit) != ID_NONE;
}

static Box box_of_tried(const Session *trial, const Edit *edit, FeatureId face)
{
    Box box = BOX_EMPTY;
    for (uint32_t i = 0; i < edit->count; i++) {
        const Feature *feature = placed_find(session_shown(trial), edit->changes[i].id);
        if (feature && feature->face == face)
            box = box_union(box, feature->box);
    }
    return box;
}

static bool ghost_begin(const Fill *fill, Session *trial, Angle turned, Ghost *ghost)
{
    Edit edit = EDIT_EMPTY;
    if (!fill_ghost(fill, trial, &edit)) {
        edit_clear(&edit);
        return false;
    }
    movement_begin_new(&edit, &ghost->movement);
    movement_turn(&ghost->movement, (Place){0, 0}, turned);
    /* From here on that is where it starts. */
    Edit now = ghost->movement.edit;
    ghost->movement.edit = EDIT_EMPTY;
    movement_clear(&ghost->movement);
    movement_begin_new(&now, &ghost->movement);
    session_try(trial, &ghost->movement.edit);
    ghost->box = box_of_tried(trial, &ghost->movement.edit, fill->ask->face);
    session_stop_trying(trial);
    return !box_is_empty(ghost->box);
}

/* Whether it brings no new stop with the lower left corner of its box there. */
static bool fits_at(Session *trial, Ghost *ghost, double x, double y)
{
    uint32_t before = suggest_stops(trial);
    movement_shift(&ghost->movement, length_from_mm(x - ghost->box.x0),
                   length_from_mm(y - ghost->box.y0));
    session_try(trial, &ghost->movement.edit);
    uint32_t after = suggest_stops(trial);
    session_stop_trying(trial);
    return after <= before;
}

/* --- first fit -----------------------------------------------------------------------------------
 */

typedef struct Order {
    Angle turned;
    bool columns; /* goes up each column before the next */
    bool half;    /* tries each place half round too */
} Order;

typedef struct Lattice {
    double x0, y0, step;
    int across, up;
} Lattice;

static Lattice lattice_of(const Fill *fill, const Session *trial)
{
    const Frame *frame = placed_frame(session_placed(trial), fill->ask->face);
    Box box = frame ? shape_box(&frame->extent) : (Box){0, 0, 0, 0};
    double width = box.x1 - box.x0, height = box.y1 - box.y0;
    double step = fmax(length_to_mm(fill->ask->step), sqrt(width * height / PLACES_MOST));
    return (Lattice){box.x0, box.y0, step, (int)(width / step) + 1, (int)(height / step) + 1};
}

/* Puts the ghost down where it was tried last, and makes the next one. */
static bool put_down(const Fill *fill, Session *trial, Angle turned, Ghost *ghost)
{
    bool done = session_do(trial, &ghost->movement.edit, NULL);
    movement_clear(&ghost->movement);
    return ghost_begin(fill, trial, turned, ghost) && done;
}

static bool beyond(const Ghost *ghost, const Lattice *lattice, double x, double y)
{
    return x + ghost->box.x1 - ghost->box.x0 > lattice->x0 + lattice->step * lattice->across ||
           y + ghost->box.y1 - ghost->box.y0 > lattice->y0 + lattice->step * lattice->up;
}

static uint32_t fill_in_order(Fill *fill, Session *trial, const Order *order)
{
    Ghost ghosts[2];
    int kinds = order->half ? 2 : 1;
    uint32_t count = 0;
    Lattice lattice = lattice_of(fill, trial);
    int inner = order->columns ? lattice.up : lattice.across;
    int all = lattice.up * lattice.across;
    for (int k = 0; k < kinds; k++)
        if (!ghost_begin(fill, trial, order->turned + k * 180 * ANGLE_DEGREE, &ghosts[k]))
            return 0;
    for (int i = 0; i < all; i++) {
        double along = lattice.step * (i % inner), across = lattice.step * (double)(i / inner);
        double x = lattice.x0 + (order->columns ? across : along);
        double y = lattice.y0 + (order->columns ? along : across);
        if (!suggest_go_on(&fill->search, (double)i / all, MAX(count, fill->best_count)))
            break;
        for (int k = 0; k < kinds; k++) {
            if (beyond(&ghosts[k], &lattice, x, y) || !fits_at(trial, &ghosts[k], x, y))
                continue;
            if (!put_down(fill, trial, order->turned + k * 180 * ANGLE_DEGREE, &ghosts[k]))
                break;
            count++;
        }
    }
    for (int k = 0; k < kinds; k++)
        movement_clear(&ghosts[k].movement);
    return count;
}

/* --- a plain grid --------------------------------------------------------------------------------
 */

/* Whole rows and columns, evenly spread over the face; 0 where one of its places brings a stop. */
static uint32_t fill_in_grid(Fill *fill, Session *trial, Angle turned, int columns, int rows)
{
    Ghost ghost;
    uint32_t count = 0;
    const Frame *frame = placed_frame(session_placed(trial), fill->ask->face);
    Box face = shape_box(&frame->extent);
    if (!ghost_begin(fill, trial, turned, &ghost))
        return 0;
    for (int i = 0; i < columns * rows; i++) {
        double cell_x = (face.x1 - face.x0) / columns, cell_y = (face.y1 - face.y0) / rows;
        double width = ghost.box.x1 - ghost.box.x0, height = ghost.box.y1 - ghost.box.y0;
        double x = face.x0 + cell_x * (i % columns) + (cell_x - width) / 2;
        double y = face.y0 + cell_y * (double)(i / columns) + (cell_y - height) / 2;
        if (width > cell_x || height > cell_y || !fits_at(trial, &ghost, x, y) ||
            !put_down(fill, trial, turned, &ghost))
            break;
        count++;
    }
    movement_clear(&ghost.movement);
    return count == (uint32_t)(columns * rows) ? count : 0;
}

static void keep_better(Fill *fill, Session *trial, uint32_t count)
{
    if (count <= fill->best_count) {
        session_free(trial);
        return;
    }
    session_free(fill->best);
    fill->best = trial;
    fill->best_count = count;
}

/* Every grid that would hold more than what is found already. */
static void fill_in_grids(Fill *fill, Angle turned)
{
    Session *first = trial_new(fill->session);
    const Frame *frame = placed_frame(session_placed(first), fill->ask->face);
    Box face = shape_box(&frame->extent);
    Ghost ghost;
    bool begun = ghost_begin(fill, first, turned, &ghost);
    int most_columns = begun ? (int)((face.x1 - face.x0) / (ghost.box.x1 - ghost.box.x0)) : 0;
    int most_rows = begun ? (int)((face.y1 - face.y0) / (ghost.box.y1 - ghost.box.y0)) : 0;
    if (begun)
        movement_clear(&ghost.movement);
    session_free(first);
    for (int columns = 1; columns <= MIN(most_columns, GRID_MOST); columns++)
        for (int rows = 1; rows <= MIN(most_rows, GRID_MOST); rows++) {
            if ((uint32_t)(columns * rows) <= fill->best_count)
                continue;
            if (!suggest_go_on(&fill->search, (double)columns / (most_columns + 1),
                               fill->best_count))
                return;
            Session *trial = trial_new(fill->session);
            keep_better(fill, trial, fill_in_grid(fill, trial, turned, columns, rows));
        }
}

/* --- the search ----------------------------------------------------------------------------------
 */

static void search(Fill *fill)
{
    enum { ORDERS = 8, GRIDS = 2, ALL = ORDERS + GRIDS };
    for (int i = 0; i < ALL && !fill->search.stopped; i++) {
        Angle turned = (i & 1) ? 90 * ANGLE_DEGREE : 0;
        Order order = {turned, (i & 2) != 0, (i & 4) != 0};
        fill->search.from = (double)i / ALL;
        fill->search.to = (double)(i + 1) / ALL;
        if (i >= ORDERS) {
            fill_in_grids(fill, turned);
            continue;
        }
        Session *trial = trial_new(fill->session);
        keep_better(fill, trial, fill_in_order(fill, trial, &order));
    }
}

Session *suggest_fill(const Session *session, const FillAsk *ask, SuggestGoOn go_on, void *data,
                      uint32_t *added, Error *error)
{
    Fill fill = {session, ask, {go_on, data, 0, 1, false}, NULL, NULL, 0};
    if (ask->step <= 0 || !plate_find_kind(session_plate(session), ask->part, RECORD_PART)) {
        error_set(error, ERROR_MISSING, NULL, "choose the part that the stations are for");
        return NULL;
    }
    if (ask->like)
        fill.text = selection_copy(session, &ask->like, 1);
    search(&fill);
    g_free(fill.text);
    *added = fill.best_count;
    if (!fill.best)
        error_set(error, ERROR_MISSING, NULL,
                  fill.search.stopped
                      ? N_("the search was stopped before it had found a place")
                      : N_("no place was found where one more station brings no stop"));
    return fill.best;
}
