/* title-block.h: who, what and how of a sheet, by ISO 7200. */
#pragma once

#include "drawing/drawing.h"

/* Every text may be NULL or empty; its cell is left empty then. */
typedef struct TitleBlock {
    const char *owner;    /* legal owner */
    const char *title;    /* what is drawn */
    const char *kind;     /* document kind: "Fixture plate", "Hole table" */
    const char *number;   /* identification number */
    const char *revision; /* revision index */
    const char *date;     /* date of issue, as given */
    const char *creator;  /* who drew it */
    const char *approver; /* who let it go */
    const char *material;
    const char *scale;     /* "1:2" */
    const char *unit;      /* "mm" or "inch" */
    const char *tolerance; /* general tolerances: "ISO 2768-m" */
    int sheet, sheet_count;
    bool first_angle; /* projection sign; third angle otherwise */
} TitleBlock;

/* ISO 7200 has 180 mm, which is what an A4 sheet has within its frame; Letter has a little more. */
#define TITLE_BLOCK_WIDTH 180.0

/* The height it takes at `width` mm; long texts are broken into lines. */
double title_block_height(const Drawing *drawing, const TitleBlock *block, double width);

/* Draws it with its lower right corner at `corner` and returns its box. */
Box title_block_draw(Drawing *drawing, const TitleBlock *block, Point corner, double width);
