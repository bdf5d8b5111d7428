#include "placed/placed-solids.h"

/* How high the metal stands where a feature is cut from the top: lower than the top only where all
 * of the feature lies within one inclined face. */
static double metal_top(const Placed *placed, const Feature *feature)
{
    const Box *box = &feature->box;
    const Point corners[] = {
        {box->x0, box->y0}, {box->x1, box->y0}, {box->x1, box->y1}, {box->x0, box->y1}};
    double least = 0;
    for (uint32_t i = 0; i < placed_frame_count(placed); i++) {
        const Frame *frame = placed_frame_at(placed, i);
        double highest = -INFINITY;
        if (frame->face == ID_TOP)
            continue;
        for (int k = 0; k < 4; k++)
            highest = fmax(highest, frame_height_over(frame, corners[k]));
        least = fmin(least, highest);
    }
    return least;
}

static void add_slice(const Feature *feature, const Frame *frame, Slice slice, Solid *solids,
                      int *count)
{
    Shape shape = feature->shape;
    Placement face = frame_placement(frame);
    shape.growth = slice.growth;
    if (slice.bottom < slice.top)
        solids[(*count)++] = solid_of_shape(&shape, &face, slice.bottom, slice.top);
    if (slice.tip < slice.bottom && slice.tip < slice.top) {
        Solid point = solid_of_shape(&shape, &face, slice.tip, slice.bottom);
        point.growth_bottom = 0;
        solids[(*count)++] = point;
    }
}

int placed_solids(const Placed *placed, const Feature *feature, Solid solids[SOLIDS_MOST])
{
    const Frame *frame = placed_frame(placed, feature->face);
    int count = 0;
    if (!frame)
        return 0;
    bool cut_from_top = frame->face == ID_TOP && (feature->kind & FEATURE_CUT);
    double highest = cut_from_top ? metal_top(placed, feature) : INFINITY;
    for (int i = 0; i < feature->slice_count; i++) {
        Slice slice = feature->slices[i];
        slice.top = fmin(slice.top, highest);
        add_slice(feature, frame, slice, solids, &count);
    }
    return count;
}

double placed_metal_below(const Placed *placed, const Feature *feature, bool points)
{
    Solid solids[SOLIDS_MOST];
    Feature flat = *feature;
    double lowest = 0;
    for (int i = 0; !points && i < flat.slice_count; i++)
        flat.slices[i].tip = flat.slices[i].bottom;
    int count = placed_solids(placed, &flat, solids);
    for (int i = 0; i < count; i++)
        lowest = fmin(lowest, solid_box(&solids[i]).least.z);
    return length_to_mm(placed_settings(placed)->stock.thickness) + lowest;
}

bool placed_solids_gap(const Placed *placed, const Feature *a, const Feature *b, double limit,
                       SolidGap *gap)
{
    Solid of_a[SOLIDS_MOST], of_b[SOLIDS_MOST];
    int count_a = placed_solids(placed, a, of_a), count_b = placed_solids(placed, b, of_b);
    bool found = false;
    for (int i = 0; i < count_a; i++) {
        for (int k = 0; k < count_b; k++) {
            SolidGap one;
            double within = found ? fmax(0, gap->distance) : limit;
            if (solid_gap_within(&of_a[i], &of_b[k], within, &one) &&
                (!found || one.distance < gap->distance)) {
                *gap = one;
                found = true;
            }
        }
    }
    return found;
}

Box placed_solids_box(const Placed *placed, const Feature *feature, const Frame *frame)
{
    Solid solids[SOLIDS_MOST + 1];
    Placement face = frame_placement(frame);
    Box box = BOX_EMPTY;
    int count = placed_solids(placed, feature, solids);
    if (count && feature->has_blank) {
        Placement own = frame_placement(placed_frame(placed, feature->face));
        solids[count++] = solid_of_shape(&feature->blank, &own, feature->bottom, feature->top);
    }
    for (int i = 0; i < count; i++) {
        SpaceBox of = solid_box_in(&solids[i], &face);
        box = box_union(box, (Box){of.least.x, of.least.y, of.most.x, of.most.y});
    }
    return box;
}
