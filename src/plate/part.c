#include "plate/part.h"

static const Field ring_fields[] = {
    {.key = "nodes", FIELD_VERTICES, offsetof(PartRing, nodes), .needed = true},
};
static const Schema ring_schema = {"ring", sizeof(PartRing), ring_fields,
                                   G_N_ELEMENTS(ring_fields)};

static const Field hole_fields[] = {
    {.key = "name", FIELD_TEXT, offsetof(PartHole, name)},
    {.key = "at", FIELD_PLACE, offsetof(PartHole, at), .needed = true},
    {.key = "diameter",
     FIELD_LENGTH,
     offsetof(PartHole, diameter),
     .least = LENGTH_UM,
     .greatest = LENGTH_GREATEST,
     .needed = true},
    {.key = "upper", FIELD_LENGTH, offsetof(PartHole, upper)},
    {.key = "lower", FIELD_LENGTH, offsetof(PartHole, lower)},
    {.key = "position_tolerance",
     FIELD_LENGTH,
     offsetof(PartHole, position_tolerance),
     .greatest = LENGTH_GREATEST},
    {.key = "", FIELD_UNKNOWN, offsetof(PartHole, unknown)},
};
static const Schema hole_schema = {"part's hole", sizeof(PartHole), hole_fields,
                                   G_N_ELEMENTS(hole_fields)};

static const Field bevel_fields[] = {
    {.key = "angle", FIELD_ANGLE, offsetof(Bevel, angle)},
    {.key = "edge_thickness",
     FIELD_LENGTH,
     offsetof(Bevel, edge_thickness),
     .greatest = LENGTH_GREATEST},
    {.key = "both_sides", FIELD_BOOL, offsetof(Bevel, both_sides)},
    {.key = "from", FIELD_PLACE, offsetof(Bevel, from)},
    {.key = "to", FIELD_PLACE, offsetof(Bevel, to)},
};
static const Schema bevel_schema = {"bevel", sizeof(Bevel), bevel_fields,
                                    G_N_ELEMENTS(bevel_fields)};

static const Field blank_fields[] = {
    {.key = "at", FIELD_PLACE, offsetof(Blank, at)},
    {.key = "length", FIELD_LENGTH, offsetof(Blank, length), .greatest = LENGTH_GREATEST},
    {.key = "width", FIELD_LENGTH, offsetof(Blank, width), .greatest = LENGTH_GREATEST},
    {.key = "thickness", FIELD_LENGTH, offsetof(Blank, thickness), .greatest = LENGTH_GREATEST},
};
static const Schema blank_schema = {"blank", sizeof(Blank), blank_fields,
                                    G_N_ELEMENTS(blank_fields)};

static const Field part_fields[] = {
    {.key = "name", FIELD_TEXT, offsetof(Part, name), .needed = true},
    {.key = "number", FIELD_TEXT, offsetof(Part, number)},
    {.key = "material", FIELD_TEXT, offsetof(Part, material)},
    {.key = "thickness", FIELD_LENGTH, offsetof(Part, thickness), .greatest = LENGTH_GREATEST},
    {.key = "thickness_tolerance",
     FIELD_LENGTH,
     offsetof(Part, thickness_tolerance),
     .greatest = LENGTH_GREATEST},
    {.key = "growth", FIELD_NUMBER, offsetof(Part, growth), .least = -5000000, .greatest = 5000000},
    {.key = "rings", FIELD_LIST, offsetof(Part, rings), .of = &ring_schema, .needed = true},
    {.key = "holes", FIELD_LIST, offsetof(Part, holes), .of = &hole_schema},
    {.key = "bevel", FIELD_GROUP, offsetof(Part, bevel), .of = &bevel_schema},
    {.key = "blank", FIELD_GROUP, offsetof(Part, blank), .of = &blank_schema},
    {.key = "", FIELD_UNKNOWN, offsetof(Part, unknown)},
};
const Schema part_schema = {"part", sizeof(Part), part_fields, G_N_ELEMENTS(part_fields)};

Outline *part_outline(const Part *part, Error *error)
{
    size_t total = 0;
    for (uint32_t r = 0; r < part->rings.count; r++)
        total += LIST_AT(&part->rings, PartRing, r)->nodes.count;
    Vertex *vertices = g_new(Vertex, total + 1);
    size_t *starts = g_new(size_t, part->rings.count + 1);
    size_t next = 0;
    for (uint32_t r = 0; r < part->rings.count; r++) {
        const List *nodes = &LIST_AT(&part->rings, PartRing, r)->nodes;
        starts[r] = next;
        for (uint32_t i = 0; i < nodes->count; i++) {
            const OutlineNode *node = LIST_AT(nodes, OutlineNode, i);
            vertices[next++] =
                (Vertex){length_to_mm(node->x), length_to_mm(node->y), length_to_mm(node->sagitta)};
        }
    }
    starts[part->rings.count] = next;
    Outline *outline = outline_new(vertices, starts, part->rings.count, error);
    g_free(vertices);
    g_free(starts);
    return outline;
}
