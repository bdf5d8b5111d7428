#include "drawing/furniture.h"

#include "drawing/caution.h"
#include "drawing/scale-bar.h"
#include "drawing/tolerance.h"

#include <glib.h>

#define APART 4.0  /* between the pieces, mm */
#define INSIDE 6.0 /* from the frame to the body, clear of the centring marks */
/* On a lying sheet the caution is no wider than a reader's eye follows. */
#define CAUTION_MOST 190.0
#define SCALE_BAR_MOST 110.0

void furniture_scale_text(double scale, char *text)
{
    char number[G_ASCII_DTOSTR_BUF_SIZE];
    bool larger = scale >= 1;
    g_ascii_formatd(number, sizeof number, "%.4g", larger ? scale : 1 / scale);
    g_snprintf(text, FURNITURE_SCALE_TEXT, larger ? "%s:1" : "1:%s", number);
}

const char *furniture_unit(FigureStyle style)
{
    if (style.both)
        return style.unit == PLATE_INCH ? "inch [mm]" : "mm [inch]";
    return style.unit == PLATE_INCH ? "inch" : "mm";
}

Furniture furniture_of(const DrawingSource *source, SheetSize sheet, double scale, char *scale_text)
{
    const Settings *settings = plate_settings(source->plate);
    const Stock *stock = &settings->stock;
    furniture_scale_text(scale, scale_text);
    bool inches = settings->unit == PLATE_INCH;
    return (Furniture){
        .sheet = sheet,
        .scale = scale,
        .inches = inches,
        .block = {.owner = settings->shop,
                  .title = settings->name,
                  .kind = "Fixture plate",
                  .number = settings->number,
                  .revision = settings->revision,
                  .date = settings->date,
                  .creator = settings->drawn,
                  .material = stock->material                   ? stock->material
                              : stock->metal == METAL_ALUMINIUM ? "Aluminium"
                                                                : "Steel",
                  .scale = scale_text,
                  .unit = furniture_unit(figure_style(settings)),
                  .tolerance = tolerance_general(settings),
                  .sheet = 1,
                  .sheet_count = 1,
                  .first_angle = settings->projection == PROJECTION_FIRST},
    };
}

/* Where everything stands; heights from the frame's lower edge upwards. */
typedef struct Plan {
    Box frame, body;
    Point caution; /* upper left corner */
    double caution_width;
    double block_width;
    Point bar;
} Plan;

static Plan plan_sheet(const Drawing *drawing, const Furniture *furniture)
{
    Plan plan = {.frame = sheet_frame(furniture->sheet)};
    Box frame = plan.frame;
    double width = frame.x1 - frame.x0;
    /* Beside the title block where there is room for it, above it otherwise. */
    double beside = width - TITLE_BLOCK_WIDTH - APART;
    bool above = beside < 100;
    plan.block_width = above ? width : TITLE_BLOCK_WIDTH;
    double block_top = frame.y0 + title_block_height(drawing, &furniture->block, plan.block_width);
    plan.caution_width = above ? width : fmin(beside, CAUTION_MOST);
    double caution_top =
        (above ? block_top : frame.y0) + caution_height(drawing, plan.caution_width);
    plan.caution = (Point){frame.x0, caution_top};
    double top = caution_top;
    if (furniture->scale > 0) {
        plan.bar = (Point){frame.x0 + APART, top + APART + SCALE_BAR_HEIGHT - 1};
        top = plan.bar.y;
    }
    top = fmax(top, block_top);
    plan.body = (Box){frame.x0 + INSIDE, top + APART, frame.x1 - INSIDE, frame.y1 - INSIDE};
    return plan;
}

Box furniture_body(const Drawing *drawing, const Furniture *furniture)
{
    return plan_sheet(drawing, furniture).body;
}

Box furniture_draw(Drawing *drawing, const Furniture *furniture, const char *name)
{
    Plan plan = plan_sheet(drawing, furniture);
    sheet_begin(drawing, furniture->sheet, name);
    title_block_draw(drawing, &furniture->block, (Point){plan.frame.x1, plan.frame.y0},
                     plan.block_width);
    caution_draw(drawing, plan.caution, plan.caution_width);
    if (furniture->scale > 0)
        scale_bar_draw(drawing, plan.bar, SCALE_BAR_MOST, furniture->scale, furniture->inches);
    return plan.body;
}
