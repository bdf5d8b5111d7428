#include "refit/measured.h"

#include "placed/hole-tolerance.h"

#include <stdlib.h>
#include <string.h>

/* A point is left out of the fits when it is this many times further off than the middle one of
 * all, and out of its tolerance: with errors of a normal distribution alike in X and Y one point in
 * sixty thousand is (exp(-16 ln 2), the distribution of their length). */
#define OUTLIER_TIMES 4
/* With fewer points than this none can be told to be wrong. */
#define OUTLIER_POINTS 5

static void point_clear(void *point)
{
    g_free(((MeasuredPoint *)point)->label);
}

void measured_table_init(MeasuredTable *table)
{
    table->points = g_array_new(FALSE, FALSE, sizeof(MeasuredPoint));
    g_array_set_clear_func(table->points, point_clear);
}

void measured_table_clear(MeasuredTable *table)
{
    g_clear_pointer(&table->points, g_array_unref);
}

void measured_table_add(MeasuredTable *table, const char *label, Place at, Length diameter,
                        long line)
{
    MeasuredPoint point = {label && *label ? g_strdup(label) : NULL, at, diameter, line};
    g_array_append_val(table->points, point);
}

void measured_clear(Measured *measured)
{
    g_clear_pointer(&measured->rows, g_array_unref);
    g_clear_pointer(&measured->missing, g_array_unref);
}

/* --- the drawn holes ------------------------------------------------------------------------ */

typedef struct Gathering {
    const Placed *placed;
    FeatureId face;
    GArray *holes; /* DrawnHole */
} Gathering;

static bool gather(const Feature *feature, void *data)
{
    Gathering *gathering = data;
    if (feature->kind == FEATURE_HOLE && feature->face == gathering->face) {
        DrawnHole hole = {feature->id, feature_at(feature),
                          &placed_record(gathering->placed, feature->id)->hole};
        g_array_append_val(gathering->holes, hole);
    }
    return true;
}

static gint compare_by_id(gconstpointer a, gconstpointer b)
{
    FeatureId one = ((const DrawnHole *)a)->id, other = ((const DrawnHole *)b)->id;
    return (one > other) - (one < other);
}

static GArray *holes_of(const Placed *placed, FeatureId face)
{
    Gathering gathering = {placed, face, g_array_new(FALSE, FALSE, sizeof(DrawnHole))};
    placed_each(placed, gather, &gathering);
    g_array_sort(gathering.holes, compare_by_id);
    return gathering.holes;
}

/* --- fitting -------------------------------------------------------------------------------- */

typedef struct Comparison {
    const MeasuredTable *table;
    const Placed *placed;
    const GArray *holes;
    const MeasuredOptions *options;
    const int *matches;
    Measured *measured;
    Point *from, *to;  /* of the pairs that count */
    double *deviation; /* of the pairs that count, sorted */
} Comparison;

static const MeasuredPoint *point_of(const Comparison *comparison, const MeasuredRow *row)
{
    return &g_array_index(comparison->table->points, MeasuredPoint, row->point);
}

static Point measured_at(const Comparison *comparison, const MeasuredRow *row)
{
    Place at = point_of(comparison, row)->at;
    return (Point){length_to_mm(at.x), length_to_mm(at.y)};
}

static size_t gather_pairs(const Comparison *comparison)
{
    size_t count = 0;
    const GArray *rows = comparison->measured->rows;
    for (guint i = 0; i < rows->len; i++) {
        const MeasuredRow *row = &g_array_index(rows, MeasuredRow, i);
        if (!row->hole || row->outlier)
            continue;
        comparison->from[count] = measured_at(comparison, row);
        comparison->to[count++] = row->drawn;
    }
    return count;
}

static int compare_doubles(const void *a, const void *b)
{
    double one = *(const double *)a, other = *(const double *)b;
    return (one > other) - (one < other);
}

static double middle_deviation(const Comparison *comparison, Pose pose, size_t count)
{
    for (size_t i = 0; i < count; i++)
        comparison->deviation[i] =
            point_distance(pose_point(pose, comparison->from[i]), comparison->to[i]);
    qsort(comparison->deviation, count, sizeof(double), compare_doubles);
    return count ? comparison->deviation[count / 2] : 0;
}

static MeasuredRow *worst_row(const Comparison *comparison, Pose pose, double *deviation)
{
    MeasuredRow *worst = NULL;
    GArray *rows = comparison->measured->rows;
    *deviation = -1;
    for (guint i = 0; i < rows->len; i++) {
        MeasuredRow *row = &g_array_index(rows, MeasuredRow, i);
        double here = point_distance(pose_point(pose, measured_at(comparison, row)), row->drawn);
        if (row->hole && !row->outlier && here > *deviation) {
            *deviation = here;
            worst = row;
        }
    }
    return worst;
}

/* Leaves the worst point out and fits again, until none is far from the others; never more than a
 * quarter of them. */
static void fit_without_outliers(Comparison *comparison)
{
    Measured *measured = comparison->measured;
    bool over = comparison->options->turned_over;
    for (;;) {
        double deviation;
        size_t count = gather_pairs(comparison);
        rigid_fit_squares(comparison->from, comparison->to, count, over, &measured->squares);
        double middle = middle_deviation(comparison, measured->squares.pose, count);
        MeasuredRow *worst = worst_row(comparison, measured->squares.pose, &deviation);
        if (!worst || count < OUTLIER_POINTS || 4 * measured->outliers >= measured->matched ||
            deviation <= OUTLIER_TIMES * middle || 2 * deviation <= worst->tolerance)
            break;
        worst->outlier = true;
        measured->outliers++;
    }
    size_t count = gather_pairs(comparison);
    rigid_fit_greatest(comparison->from, comparison->to, NULL, count, over, &measured->greatest,
                       NULL);
}

/* --- rows ----------------------------------------------------------------------------------- */

/* The diameter of the zone, as the drawing states it. */
static double zone_of(const Comparison *comparison, const DrawnHole *drawn)
{
    const Record *record = placed_record(comparison->placed, drawn->id);
    const Settings *settings = placed_settings(comparison->placed);
    if (drawn->hole->position_tolerance > 0)
        return length_to_mm(drawn->hole->position_tolerance);
    if (comparison->options->tolerance > 0)
        return comparison->options->tolerance;
    return hole_is_close(comparison->placed, record)
               ? length_to_mm(hole_zone(drawn->hole, (PlateUnit)settings->unit))
               : MEASURED_TOLERANCE;
}

static void add_rows(Comparison *comparison)
{
    for (guint i = 0; i < comparison->table->points->len; i++) {
        MeasuredRow row = {.point = i, .diameter_off = NAN};
        const MeasuredPoint *point = point_of(comparison, &row);
        if (comparison->matches[i] >= 0) {
            const DrawnHole *drawn =
                &g_array_index(comparison->holes, DrawnHole, comparison->matches[i]);
            row.hole = drawn->id;
            row.drawn = drawn->at;
            row.tolerance = zone_of(comparison, drawn);
            row.label_differs = point->label && g_strcmp0(point->label, drawn->hole->label) != 0;
            if (point->diameter > 0)
                row.diameter_off = length_to_mm(
                    point->diameter - measured_nearest_step(drawn->hole, point->diameter));
            comparison->measured->matched++;
        }
        g_array_append_val(comparison->measured->rows, row);
    }
}

static void finish_rows(Comparison *comparison)
{
    Measured *measured = comparison->measured;
    for (guint i = 0; i < measured->rows->len; i++) {
        MeasuredRow *row = &g_array_index(measured->rows, MeasuredRow, i);
        Point at = measured_at(comparison, row);
        if (!row->hole)
            continue;
        row->squares = point_minus(pose_point(measured->squares.pose, at), row->drawn);
        row->greatest = point_minus(pose_point(measured->greatest.pose, at), row->drawn);
        row->squares_used = 2 * point_length(row->squares) / row->tolerance;
        row->greatest_used = 2 * point_length(row->greatest) / row->tolerance;
        /* Within tolerance when some position of the datum has it so. */
        measured->out_of_tolerance += fmin(row->squares_used, row->greatest_used) > 1;
    }
}

static void find_missing(const Comparison *comparison)
{
    for (guint i = 0; i < comparison->holes->len; i++) {
        const DrawnHole *hole = &g_array_index(comparison->holes, DrawnHole, i);
        bool found = false;
        for (guint k = 0; k < comparison->table->points->len && !found; k++)
            found = comparison->matches[k] == (int)i;
        if (!found)
            g_array_append_val(comparison->measured->missing, hole->id);
    }
}

static void compare(Comparison *comparison)
{
    guint count = comparison->table->points->len;
    comparison->from = g_new(Point, count);
    comparison->to = g_new(Point, count);
    comparison->deviation = g_new(double, count);
    add_rows(comparison);
    fit_without_outliers(comparison);
    finish_rows(comparison);
    find_missing(comparison);
    g_free(comparison->from);
    g_free(comparison->to);
    g_free(comparison->deviation);
}

bool measured_compare(const MeasuredTable *table, const Plate *plate, const Placed *placed,
                      const MeasuredOptions *options, Measured *measured, Error *error)
{
    static const MeasuredOptions usual = {0};
    Pose pose;
    if (!options)
        options = &usual;
    *measured = (Measured){.rows = NULL};
    if (table->points->len < 2)
        return error_set(error, ERROR_FORMAT, NULL,
                         "the table has fewer than two points; nothing says how they lie");
    GArray *holes = holes_of(placed, options->face ? options->face : ID_TOP);
    int *matches = g_new(int, table->points->len);
    for (guint i = 0; i < table->points->len; i++)
        matches[i] = -1;
    bool found = measured_match(
        table, (const DrawnHole *)(void *)holes->data, holes->len, options->turned_over,
        options->reach > 0 ? options->reach : MEASURED_REACH, matches, &pose);
    if (found) {
        measured->rows = g_array_new(FALSE, FALSE, sizeof(MeasuredRow));
        measured->missing = g_array_new(FALSE, FALSE, sizeof(FeatureId));
        Comparison comparison = {table,    placed, holes, options, matches,
                                 measured, NULL,   NULL,  NULL};
        compare(&comparison);
    }
    g_free(matches);
    g_array_unref(holes);
    return found || error_set(error, ERROR_CONFLICT, NULL,
                              "most of the measured points lie on no holes of this plate however "
                              "they are laid; check the unit, the face and whether it was "
                              "measured from below");
}
