#include "session/drag.h"

#include "session/mirror.h"
#include "session/movement.h"

struct Drag {
    Session *session;
    Movement movement;
    MirrorTwins twins; /* the stations of the blades' other sides, which go along */
    GArray *ids;       /* FeatureId, rising */
    Place hold;        /* a ghost's, on the face */
};

static void gather_ids(Drag *drag)
{
    drag->ids = g_array_new(FALSE, FALSE, sizeof(FeatureId));
    /* What stands on a held thing moves too: the overlay knows it all. */
    session_try(drag->session, &drag->movement.edit);
    uint32_t count;
    const FeatureId *touched = placed_touched(session_shown(drag->session), &count);
    g_array_append_vals(drag->ids, touched, count);
}

Drag *drag_begin(Session *session, const FeatureId *ids, uint32_t count, Error *error)
{
    Movement movement;
    if (!movement_begin(session, ids, count, &movement, error))
        return NULL;
    if (movement.count == 0) {
        movement_clear(&movement);
        error_set(error, ERROR_MISSING, NULL, "there is nothing here that can be moved");
        return NULL;
    }
    Drag *drag = g_new0(Drag, 1);
    drag->session = session;
    drag->movement = movement;
    drag->twins = mirror_begin(session_plate(session), &drag->movement.edit);
    edit_set_name(&drag->movement.edit, "Move");
    gather_ids(drag);
    return drag;
}

Drag *drag_begin_ghost(Session *session, Edit *ghost, Place hold)
{
    Drag *drag = g_new0(Drag, 1);
    drag->session = session;
    drag->hold = hold;
    movement_begin_new(ghost, &drag->movement);
    gather_ids(drag);
    return drag;
}

void drag_move(Drag *drag, Length dx, Length dy)
{
    movement_shift(&drag->movement, dx, dy);
    mirror_follow(&drag->twins);
    session_try(drag->session, &drag->movement.edit);
}

void drag_turn(Drag *drag, Place about, Angle by)
{
    movement_turn(&drag->movement, about, by);
    mirror_follow(&drag->twins);
    session_try(drag->session, &drag->movement.edit);
}

void drag_move_to(Drag *drag, Place to)
{
    drag_move(drag, to.x - drag->hold.x, to.y - drag->hold.y);
}

const Edit *drag_edit(const Drag *drag)
{
    return &drag->movement.edit;
}

const FeatureId *drag_ids(const Drag *drag, uint32_t *count)
{
    *count = drag->ids->len;
    return (const FeatureId *)(void *)drag->ids->data;
}

static void drag_free(Drag *drag)
{
    session_stop_trying(drag->session);
    mirror_end(&drag->twins);
    movement_clear(&drag->movement);
    g_array_unref(drag->ids);
    g_free(drag);
}

bool drag_drop(Drag *drag, Error *error)
{
    bool done = session_do(drag->session, &drag->movement.edit, error);
    if (!done)
        session_give_back_ids(drag->session, &drag->movement.edit);
    drag_free(drag);
    return done;
}

void drag_cancel(Drag *drag)
{
    session_give_back_ids(drag->session, &drag->movement.edit);
    drag_free(drag);
}
