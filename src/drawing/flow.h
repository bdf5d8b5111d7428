/* flow.h: headings, paragraphs, tables and pictures set one below the other, over as many sheets as
 * they take. */
#pragma once

#include "drawing/figure.h"
#include "drawing/furniture.h"
#include "drawing/table-text.h"

typedef struct Flow {
    Drawing *drawing;
    Furniture furniture;
    FigureStyle style; /* of the figures in its tables */
    char scale_text[FURNITURE_SCALE_TEXT];
    const char *name;     /* of its sheets, as a PDF's outline has them; borrowed */
    Box body;             /* of the sheet begun last */
    double top;           /* what is left of it lies below this */
    bool whole;           /* the next table is not parted over sheets where one holds it */
    char *heading, *lead; /* owned: to be set above what comes next */
} Flow;

/* Figures are in the plate's unit alone until `style` is changed, with flow_set_both_units.
 * Sheets are numbered after those that the drawing has, "of `total`". The texts of `kind`, for the
 * title block, and `name` are borrowed. No sheet is begun yet. */
void flow_start(Flow *flow, Drawing *drawing, const DrawingSource *source, SheetSize sheet,
                const char *kind, const char *name, int total);

/* Figures and the title block in both units. */
void flow_set_both_units(Flow *flow);

/* Begins a new sheet. Whatever has no room on a sheet begins one by itself. */
void flow_new_sheet(Flow *flow);
/* Takes `height` mm of the width of the body, on a new sheet where there is less left; no more than
 * a whole one. */
Box flow_room(Flow *flow, double height);
/* What is left of the sheet, mm; 0 before the first. */
double flow_left(const Flow *flow);
/* Some room between what stands there and what comes. */
void flow_gap(Flow *flow, double height);

/* A heading, and a paragraph that leads up to what follows it: both stay on one sheet with the
 * paragraph, picture or beginning of a table that is set next. */
void flow_heading(Flow *flow, const char *text);
void flow_lead(Flow *flow, const char *text);
void flow_paragraph(Flow *flow, const char *text);
/* Puts the next table on one sheet where it has room on one. */
void flow_keep_whole(Flow *flow);
/* Goes on over sheets where it must, with its headings above each piece. Where the table is wider
 * than the body the column `stretched` is broken into lines, and where it is narrower that column
 * is widened if `full`. Nothing for a table of no rows. */
void flow_table(Flow *flow, TableText *text, size_t stretched, bool full);
