#include "drawing/tilt-table.h"

#include "drawing/figure.h"

static const Record *reference_of(const DrawingSource *source, FeatureId face)
{
    const Record *record = placed_record(source->placed, face);
    bool inclined = record && record->kind == RECORD_FACE && record->face.kind == FACE_INCLINED;
    const Record *hole =
        inclined ? placed_record(source->placed, record->face.reference_hole) : NULL;
    return hole && hole->kind == RECORD_HOLE ? hole : NULL;
}

bool tilt_from_reference(const DrawingSource *source, FeatureId face, Point at, Point *from,
                         double *height)
{
    const Record *hole = reference_of(source, face);
    const Feature *feature = hole ? placed_find(source->placed, hole->id) : NULL;
    const Frame *frame = placed_frame(source->placed, face);
    const Frame *own = feature ? placed_frame(source->placed, feature->face) : NULL;
    if (!frame || !own)
        return false;
    double above;
    Space mouth = frame_to_space(own, feature_at(feature), 0);
    Point reference = frame_from_space(frame, mouth, &above);
    *from = point_minus(at, reference);
    *height = -above;
    return true;
}

static void take_length(TableText *text, FigureStyle style, double mm)
{
    char figure[FIGURE_TEXT];
    table_text_add(text, figure_stack(figure_length(style, length_from_mm(mm), figure)));
}

static char *lead_words(const DrawingSource *source, FeatureId face, FigureStyle style,
                        double height)
{
    char angle[FIGURE_TEXT], figure[FIGURE_TEXT], name[NAME_TEXT];
    figure_length(style, length_from_mm(fabs(height)), figure);
    figure_angle(placed_record(source->placed, face)->face.angle, angle);
    shopplan_name(reference_of(source, face), name);
    return g_strdup_printf("Tilted by %s the face lies level, %s %s %s the middle of the mouth of "
                           "%s, which X and Y of the machine count from.",
                           angle, figure, style.unit == PLATE_INCH ? "in" : "mm",
                           height >= 0 ? "above" : "below", name);
}

void tilt_table_draw(Flow *flow, const DrawingSource *source, const HoleTable *table,
                     FeatureId face)
{
    static const TableColumn columns[] = {{"Mark", TEXT_START, 0, 36, false},
                                          {"X in the face", TEXT_END, 0, 0, false},
                                          {"Y in the face", TEXT_END, 0, 0, false},
                                          {"X at the machine", TEXT_END, 0, 0, false},
                                          {"Y at the machine", TEXT_END, 0, 0, false}};
    FigureStyle style = flow->style;
    Point from;
    double height;
    if (!tilt_from_reference(source, face, (Point){0, 0}, &from, &height))
        return;
    TableText text;
    table_text_start(&text, columns, G_N_ELEMENTS(columns));
    for (size_t i = 0; i < table->count; i++) {
        const HoleRow *row = &table->rows[i];
        if (row->face != face || (row->kind != FEATURE_HOLE && row->kind != FEATURE_RECESS))
            continue;
        tilt_from_reference(source, face, row->at, &from, &height);
        table_text_add(&text, row->label);
        table_text_take(&text, figure_stack(g_strdup(row->x)));
        table_text_take(&text, figure_stack(g_strdup(row->y)));
        take_length(&text, style, from.x);
        take_length(&text, style, from.y);
    }
    if (table_text_rows(&text) > 0) {
        char *lead = lead_words(source, face, style, height);
        flow_heading(flow, "At the tilt");
        flow_lead(flow, lead);
        g_free(lead);
    }
    flow_table(flow, &text, 0, false);
    table_text_end(&text);
}
