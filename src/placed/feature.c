#include "placed/feature.h"

/* All slices of a feature have one core, so the cores' nearest points are worked out once, by the
 * widest shapes, and each pair of slices differs from it by its growths alone. */
void feature_gap(const Feature *a, const Feature *b, Gap *gap)
{
    Gap widest;
    double least = INFINITY, grown_a = 0, grown_b = 0;
    shape_gap(&a->shape, &b->shape, &widest);
    double cores = widest.distance + a->shape.growth + b->shape.growth;
    for (int i = 0; i < a->slice_count; i++) {
        for (int k = 0; k < b->slice_count; k++) {
            const Slice *one = &a->slices[i], *other = &b->slices[k];
            if (one->bottom >= other->top || other->bottom >= one->top)
                continue;
            if (cores - one->growth - other->growth < least) {
                least = cores - one->growth - other->growth;
                grown_a = one->growth;
                grown_b = other->growth;
            }
        }
    }
    *gap = widest;
    gap->distance = least;
    /* The points move from the widest border back to the slices' own. */
    double dx = widest.on_b.x - widest.on_a.x, dy = widest.on_b.y - widest.on_a.y;
    double length = sqrt(dx * dx + dy * dy);
    if (isfinite(least) && length > 0) {
        double sign = widest.distance < 0 ? -1 : 1;
        double back_a = (a->shape.growth - grown_a) * sign / length;
        double back_b = (b->shape.growth - grown_b) * sign / length;
        gap->on_a = (Point){widest.on_a.x - dx * back_a, widest.on_a.y - dy * back_a};
        gap->on_b = (Point){widest.on_b.x + dx * back_b, widest.on_b.y + dy * back_b};
    }
}
