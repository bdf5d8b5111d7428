/* A screw in its plate, as deep as each way of reckoning asks. */
#include "editor/figure-picture-private.h"

#include "trade/thread.h"

void picture_of_engagement(const FigurePicture *picture)
{
    static const struct {
        const char *name, *words;
    } lengths[] = {{"engagement_by_rule", N_("by rule")},
                   {"engagement_screw_thread", N_("screw")},
                   {"engagement_plate_thread", N_("plate")},
                   {"length", N_("as it is")}};
    const Thread *thread = thread_find(picture_words(picture, "thread"), NULL);
    double major = thread ? length_to_mm(thread->major) : 1, deepest = 0;
    for (gsize i = 0; i < G_N_ELEMENTS(lengths); i++)
        deepest = fmax(deepest, picture_number(picture, lengths[i].name, 0));
    double engaged = picture_number(picture, "length", deepest);
    double top = picture->height - 16, x = 30;
    double scale = fmin((top - 7) / deepest, 18 / major), half = major / 2 * scale;
    double end = top - engaged * scale, bottom = top - deepest * scale - 4;
    double flank = thread ? thread_pitch(thread) * 0.54 * scale : 0;
    Point metal[] = {{x - 24, top},   {x - half, top}, {x - half, end},  {x + half, end},
                     {x + half, top}, {x + 24, top},   {x + 24, bottom}, {x - 24, bottom}};
    picture_cut(picture, metal, G_N_ELEMENTS(metal));
    picture_box(picture, ROLE_FITTING, (Box){x - half, end, x + half, top + 10});
    drawing_about(picture->drawing, ROLE_FITTING, 0);
    for (int side = -1; side <= 1; side += 2)
        drawing_line(picture->drawing, LINE_THREAD, (Point){x + side * (half - flank), top + 10},
                     (Point){x + side * (half - flank), end});
    drawing_about(picture->drawing, ROLE_CENTRE_MARK, 0);
    drawing_line(picture->drawing, LINE_CENTRE, (Point){x, top + 13}, (Point){x, bottom - 2});
    double line = x + 32;
    for (gsize i = 0; i < G_N_ELEMENTS(lengths); i++) {
        double mm = picture_number(picture, lengths[i].name, 0);
        if (mm <= 0)
            continue;
        char text[PICTURE_WORDS], length[PICTURE_WORDS];
        picture_depth(picture, line, top, top - mm * scale);
        picture_note(picture, (Point){line - 2, top + 8}, TEXT_START, _(lengths[i].words));
        g_snprintf(text, sizeof text, "%s", picture_length(picture, mm, length));
        picture_note(picture, (Point){line - 2, top + 3}, TEXT_START, text);
        line += fmax(24, (picture->width - x - 32) / 4);
    }
    drawing_line(picture->drawing, LINE_DIMENSION, (Point){x + 24, top},
                 (Point){picture->width - 4, top});
}
