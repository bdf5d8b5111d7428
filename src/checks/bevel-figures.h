/* bevel-figures.h: the trade's bevel figures for a part. Apart from the model's own headers, which
 * have a Bevel of their own. Lengths in mm, angles in degrees. */
#pragma once

/* How high a bevel is on stock of the nominal thickness, and how much higher on thicker stock. */
double blade_bevel_height(double thickness, double edge, double angle, int sides);
double blade_height_for_thicker(double thicker, double angle);
/* The edge's thickness where the outline lies `beyond` mm outside the line of the edge. */
double blade_edge_beyond(double edge, double angle, int sides, double beyond);
