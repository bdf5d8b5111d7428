/* A tapped hole in section, and how much of a full thread its drill leaves. */
#include "editor/figure-picture-private.h"

#include "editor/speech.h"
#include "trade/size-words.h"
#include "trade/thread.h"

#define TAN_30 0.57735026918962576
#define FULL_THREAD 0.6495 /* of the pitch: half of 1.299 */

typedef struct TappedHole {
    double hole, major, thread, drilled, tip, scale; /* mm of the thing; scale to the sheet */
    double centre, top;
} TappedHole;

static void note_depth(const FigurePicture *picture, Point at, const char *words, double mm)
{
    char text[PICTURE_WORDS], length[PICTURE_WORDS];
    g_snprintf(text, sizeof text, "%s %s", words, picture_length(picture, mm, length));
    picture_note(picture, at, TEXT_START, text);
}

static void draw_blind(const FigurePicture *picture, const TappedHole *t)
{
    double s = t->scale, r = t->hole / 2 * s, b = t->major / 2 * s + 9, x = t->centre;
    double floor_at = t->top - t->drilled * s, tip = t->top - t->tip * s;
    Point metal[] = {{x - b, t->top}, {x - r, t->top},   {x - r, floor_at},
                     {x, tip},        {x + r, floor_at}, {x + r, t->top},
                     {x + b, t->top}, {x + b, tip - 4},  {x - b, tip - 4}};
    picture_cut(picture, metal, G_N_ELEMENTS(metal));
    drawing_about(picture->drawing, ROLE_HOLE, 0);
    drawing_line(picture->drawing, LINE_VISIBLE, (Point){x - r, floor_at},
                 (Point){x + r, floor_at});
    double thread_end = t->top - t->thread * s;
    drawing_about(picture->drawing, ROLE_DIMENSION, 0);
    drawing_line(picture->drawing, LINE_DIMENSION, (Point){x + b + 1, t->top},
                 (Point){x + b + 12, t->top});
    picture_depth(picture, x + b + 9, t->top, thread_end);
    picture_depth(picture, x + b + 3.5, t->top, floor_at);
    double thread_at = fmin((t->top + thread_end) / 2, t->top - 3);
    double drill_at = fmin((thread_end + floor_at) / 2, fmin(thread_end - 3, thread_at - 4));
    note_depth(picture, (Point){x + b + 12, thread_at}, _("thread"), t->thread);
    note_depth(picture, (Point){x + b + 6, drill_at}, _("drill"), t->drilled);
}

static void draw_through(const FigurePicture *picture, const TappedHole *t)
{
    double s = t->scale, r = t->hole / 2 * s, b = t->major / 2 * s + 9, x = t->centre;
    double bottom = t->top - t->tip * s;
    for (int side = -1; side <= 1; side += 2) {
        Point metal[] = {{x + side * b, t->top},
                         {x + side * r, t->top},
                         {x + side * r, bottom},
                         {x + side * b, bottom}};
        picture_cut(picture, metal, 4);
    }
    drawing_about(picture->drawing, ROLE_HOLE, 0);
    drawing_line(picture->drawing, LINE_VISIBLE, (Point){x - r, t->top}, (Point){x + r, t->top});
    drawing_line(picture->drawing, LINE_VISIBLE, (Point){x - r, bottom}, (Point){x + r, bottom});
}

static void draw_hole(const FigurePicture *picture)
{
    double depth = picture_number(picture, "drill_depth", 0);
    TappedHole t = {.hole = picture_number(picture, "tap_drill", 1), .top = picture->height - 10};
    const Thread *thread = thread_find(picture_words(picture, "thread"), NULL);
    t.major = thread ? length_to_mm(thread->major) : t.hole * 1.2;
    t.thread = picture_number(picture, "depth", 0);
    t.drilled = depth;
    t.tip = depth > 0 ? picture_number(picture, "drill_depth_to_point", depth) : 2 * t.major;
    t.scale = fmin(18 / t.major, (t.top - 6) / t.tip);
    t.centre = t.major / 2 * t.scale + 16;
    if (depth > 0)
        draw_blind(picture, &t);
    else
        draw_through(picture, &t);
    double end = t.top - (depth > 0 ? t.thread : t.tip) * t.scale;
    double half = t.major / 2 * t.scale;
    drawing_about(picture->drawing, ROLE_HOLE, 0);
    for (int side = -1; side <= 1; side += 2)
        drawing_line(picture->drawing, LINE_THREAD, (Point){t.centre + side * half, t.top},
                     (Point){t.centre + side * half, end});
    if (depth > 0)
        drawing_line(picture->drawing, LINE_VISIBLE, (Point){t.centre - half, end},
                     (Point){t.centre + half, end});
    drawing_about(picture->drawing, ROLE_CENTRE_MARK, 0);
    drawing_line(picture->drawing, LINE_CENTRE, (Point){t.centre, t.top + 2},
                 (Point){t.centre, t.top - t.tip * t.scale - 2});
    picture_dimension(picture, (Point){t.centre - t.hole / 2 * t.scale, t.top},
                      (Point){t.centre + t.hole / 2 * t.scale, t.top}, false, t.top + 4, NULL,
                      t.hole);
}

/* Ridges of the nut, cut off where the drill has been, within those of a full thread. */
static void draw_ridges(const FigurePicture *picture, double left, double right)
{
    double share = picture_number(picture, "per_cent_thread", 0) / 100;
    double pitch = fmin((right - left) / 2, (picture->height - 26) / FULL_THREAD);
    double root = picture->height - 18, top = root + 7;
    double cut = CLAMP(share, 0, 1.15) * FULL_THREAD * pitch;
    double wide = pitch * 7 / 16, narrow = fmax(wide - cut * TAN_30, 0);
    double sharp = wide - FULL_THREAD * pitch * TAN_30;
    Point metal[12];
    size_t count = 0;
    metal[count++] = (Point){left, top};
    for (int ridge = 0; ridge < 2; ridge++) {
        double x = left + pitch * (ridge + 0.5);
        metal[count++] = (Point){x - wide, root};
        metal[count++] = (Point){x - narrow, root - cut};
        metal[count++] = (Point){x + narrow, root - cut};
        metal[count++] = (Point){x + wide, root};
    }
    metal[count++] = (Point){left + 2 * pitch, top};
    picture_cut(picture, metal, count);
    drawing_about(picture->drawing, ROLE_DIMENSION, 0);
    for (int ridge = 0; ridge < 2; ridge++) {
        double x = left + pitch * (ridge + 0.5), end = root - FULL_THREAD * pitch;
        Vertex full[] = {
            {x - wide, root, 0}, {x - sharp, end, 0}, {x + sharp, end, 0}, {x + wide, root, 0}};
        drawing_path(picture->drawing, LINE_PHANTOM, full, 4, false);
    }
    char text[PICTURE_WORDS];
    g_snprintf(text, sizeof text, _("%.0f %% of a full thread"), share * 100);
    picture_note(picture, (Point){left, picture->height - 5}, TEXT_START, text);
    drawing_about(picture->drawing, ROLE_LABEL, 0);
    drawing_line(picture->drawing, LINE_VISIBLE, (Point){left, root - cut},
                 (Point){left + 2 * pitch, root - cut});
    const char *name = picture_words(picture, "tap_drill_name");
    size_said(name, pin_speech(), text, sizeof text);
    picture_note(picture, (Point){left, 3}, TEXT_START, *name ? text : _("hole"));
}

void picture_of_tap(const FigurePicture *picture)
{
    draw_hole(picture);
    draw_ridges(picture, picture->width * 0.58, picture->width - 12);
}
