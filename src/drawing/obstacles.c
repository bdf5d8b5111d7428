#include "drawing/obstacles.h"

#include <glib.h>

/* The sheet is covered with square cells; what lies beyond them belongs to the outermost. */
#define CELL 8.0  /* mm */
#define CELLS 112 /* either way: 896 mm, more than any sheet */

struct Obstacles {
    GArray *all;    /* Obstacle */
    GArray *seen;   /* guint: the question that last met each */
    GArray **cells; /* of guint, NULL where there was nothing yet */
    guint question;
};

Obstacles *obstacles_new(void)
{
    Obstacles *obstacles = g_new0(Obstacles, 1);
    obstacles->all = g_array_new(FALSE, FALSE, sizeof(Obstacle));
    obstacles->seen = g_array_new(FALSE, TRUE, sizeof(guint));
    obstacles->cells = g_new0(GArray *, CELLS * CELLS);
    return obstacles;
}

void obstacles_free(Obstacles *obstacles)
{
    for (int i = 0; i < CELLS * CELLS; i++) {
        if (obstacles->cells[i])
            g_array_unref(obstacles->cells[i]);
    }
    g_free(obstacles->cells);
    g_array_unref(obstacles->all);
    g_array_unref(obstacles->seen);
    g_free(obstacles);
}

static int cell_at(double mm)
{
    double cell = floor(mm / CELL);
    return (int)fmin(fmax(cell, 0), CELLS - 1);
}

void obstacles_add(Obstacles *obstacles, Obstacle obstacle)
{
    guint index = obstacles->all->len, unseen = 0;
    g_array_append_val(obstacles->all, obstacle);
    g_array_append_val(obstacles->seen, unseen);
    for (int y = cell_at(obstacle.box.y0); y <= cell_at(obstacle.box.y1); y++) {
        for (int x = cell_at(obstacle.box.x0); x <= cell_at(obstacle.box.x1); x++) {
            GArray **cell = &obstacles->cells[y * CELLS + x];
            if (!*cell)
                *cell = g_array_new(FALSE, FALSE, sizeof(guint));
            g_array_append_val(*cell, index);
        }
    }
}

size_t obstacles_count(const Obstacles *obstacles)
{
    return obstacles->all->len;
}

void obstacles_keep(Obstacles *obstacles, size_t count)
{
    if (count >= obstacles->all->len)
        return;
    g_array_set_size(obstacles->all, (guint)count);
    g_array_set_size(obstacles->seen, (guint)count);
    for (int i = 0; i < CELLS * CELLS; i++) {
        GArray *cell = obstacles->cells[i];
        /* A cell's numbers rise, so the later ones are at its end. */
        while (cell && cell->len > 0 && g_array_index(cell, guint, cell->len - 1) >= count)
            g_array_set_size(cell, cell->len - 1);
    }
}

static bool visit_cell(Obstacles *obstacles, const GArray *cell, Box box, ObstacleVisit visit,
                       void *user)
{
    for (guint i = 0; i < cell->len; i++) {
        guint index = g_array_index(cell, guint, i);
        guint *seen = &g_array_index(obstacles->seen, guint, index);
        if (*seen == obstacles->question)
            continue;
        *seen = obstacles->question;
        const Obstacle *obstacle = &g_array_index(obstacles->all, Obstacle, index);
        if (box_meets(obstacle->box, box) && !visit(obstacle, user))
            return false;
    }
    return true;
}

bool obstacles_near(Obstacles *obstacles, Box box, ObstacleVisit visit, void *user)
{
    obstacles->question++;
    for (int y = cell_at(box.y0); y <= cell_at(box.y1); y++) {
        for (int x = cell_at(box.x0); x <= cell_at(box.x1); x++) {
            const GArray *cell = obstacles->cells[y * CELLS + x];
            if (cell && !visit_cell(obstacles, cell, box, visit, user))
                return false;
        }
    }
    return true;
}
