#include "editor/arrange-actions.h"

#include "editor/arrange-form.h"
#include "editor/intl.h"
#include "editor/layout-guide.h"
#include "session/arrange.h"
#include "session/repeat.h"
#include "session/selection.h"

#include <string.h>

static Session *session_of(PinWindow *window)
{
    return pin_document_session(window->document);
}

static void finish(PinWindow *window, bool filled, Edit *edit, const Error *error)
{
    if (filled) {
        pin_document_do(window->document, edit);
        return;
    }
    edit_clear(edit);
    pin_document_refuse(window->document, error);
}

/* --- without a figure ----------------------------------------------------------------------------
 */

static void on_align(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    static const char *const names[] = {"left", "centre-x", "right", "front", "centre-y", "back"};
    PinWindow *window = data;
    const char *asked = g_variant_get_string(parameter, NULL);
    guint count;
    const FeatureId *ids = pin_document_selection(window->document, &count);
    for (guint i = 0; i < G_N_ELEMENTS(names); i++) {
        Edit edit = EDIT_EMPTY;
        Error error;
        if (g_str_equal(asked, names[i]))
            finish(window,
                   arrange_align(session_of(window), ids, count, (Alignment)i, &edit, &error),
                   &edit, &error);
    }
}

static void on_space(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    PinWindow *window = data;
    guint count;
    const FeatureId *ids = pin_document_selection(window->document, &count);
    Edit edit = EDIT_EMPTY;
    Error error;
    bool along_y = g_str_equal(g_variant_get_string(parameter, NULL), "y");
    finish(window, arrange_space(session_of(window), ids, count, along_y, &edit, &error), &edit,
           &error);
}

static void on_lock(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    PinWindow *window = data;
    guint count;
    const FeatureId *ids = pin_document_selection(window->document, &count);
    Edit edit = EDIT_EMPTY;
    Error error;
    finish(window, arrange_lock(session_of(window), ids, count, &edit, &error), &edit, &error);
}

/* --- with typed figures --------------------------------------------------------------------------
 */

static bool make_grid(Session *session, const FeatureId *ids, guint count, const FormValue *values,
                      Edit *edit, GArray *fresh, Error *error)
{
    RepeatGrid grid = {values[0].count, values[2].count, values[1].length, values[3].length};
    return repeat_grid(session, ids, count, &grid, edit, fresh, error);
}

/* Typed places are from the datum; on an inclined face from its own origin. */
static Place from_datum(Session *session, const FeatureId *ids, guint count, Length x, Length y)
{
    const Feature *feature = count ? placed_find(session_placed(session), ids[0]) : NULL;
    Place datum = {0, 0};
    if (!feature || feature->face == ID_TOP)
        datum = plate_datum(session_plate(session));
    return (Place){datum.x + x, datum.y + y};
}

static bool make_round(Session *session, const FeatureId *ids, guint count, const FormValue *values,
                       Edit *edit, GArray *fresh, Error *error)
{
    RepeatRound round = {values[0].count,
                         from_datum(session, ids, count, values[1].length, values[2].length),
                         values[3].angle, values[4].choice == 0};
    return repeat_round(session, ids, count, &round, edit, fresh, error);
}

static bool make_turn(Session *session, const FeatureId *ids, guint count, const FormValue *values,
                      Edit *edit, GArray *fresh, Error *error)
{
    return arrange_turn(session, ids, count, (TurnAbout)values[1].choice, values[0].angle, edit,
                        error);
}

static bool make_move(Session *session, const FeatureId *ids, guint count, const FormValue *values,
                      Edit *edit, GArray *fresh, Error *error)
{
    return selection_move(session, ids, count, values[0].length, values[1].length, edit, error);
}

static const char *const turned_choices[] = {N_("with its place"), N_("not turned"), NULL};
static const char *const about_choices[] = {N_("each its own centre"), N_("the middle of all"),
                                            N_("the datum"), NULL};

static const Form grid_form = {
    N_("Repeat in a row or a grid"),
    N_("The selected things again at a pitch, with all that stands on them. What is there already "
       "counts as one."),
    N_("Repeat"),
    {{N_("Places along X"), FORM_COUNT, "2", "2", NULL},
     {N_("Pitch along X"), FORM_LENGTH, "1", "25", NULL},
     {N_("Places along Y"), FORM_COUNT, "1", "1", NULL},
     {N_("Pitch along Y"), FORM_LENGTH, "1", "25", NULL}},
    4,
    make_grid,
};

static const Form round_form = {
    N_("Repeat round a centre"),
    N_("The selected things again round a point, with all that stands on them. What is there "
       "already counts as one."),
    N_("Repeat"),
    {{N_("Places"), FORM_COUNT, "6", "6", NULL},
     {N_("Centre, X from the datum"), FORM_LENGTH, "0", "0", NULL},
     {N_("Centre, Y from the datum"), FORM_LENGTH, "0", "0", NULL},
     {N_("Over an angle of"), FORM_ANGLE, "360", "360", NULL},
     {N_("Each is turned"), FORM_CHOICE, NULL, NULL, turned_choices}},
    5,
    make_round,
};

static const Form turn_form = {
    N_("Turn by an angle"),
    N_("Counter-clockwise, seen from above; a minus turns the other way."),
    N_("Turn"),
    {{N_("Angle"), FORM_ANGLE, "90", "90", NULL},
     {N_("About"), FORM_CHOICE, NULL, NULL, about_choices}},
    2,
    make_turn,
};

static const Form move_form = {
    N_("Move by a distance"),
    N_("All that is selected goes the same way; a minus goes the other."),
    N_("Move"),
    {{N_("Along X"), FORM_LENGTH, "0", "0", NULL}, {N_("Along Y"), FORM_LENGTH, "0", "0", NULL}},
    2,
    make_move,
};

static void show_form(PinWindow *window, const Form *form)
{
    pin_document_drag_cancel(window->document);
    form_show(GTK_WINDOW(window), window->document, form);
}

static void on_repeat(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    show_form(data, &grid_form);
}

static void on_repeat_round(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    show_form(data, &round_form);
}

static void on_turn(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    show_form(data, &turn_form);
}

static void on_move_by(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    show_form(data, &move_form);
}

/* --- measuring and guides ------------------------------------------------------------------------
 */

static void on_measure(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    PinWindow *window = data;
    pin_layout_measure(window->layout,
                       g_str_equal(g_variant_get_string(parameter, NULL), "centres"));
    window_update_state(window);
}

/* Through the middle of what is selected, else where the pointer is. */
static void on_guide(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    PinWindow *window = data;
    guint count;
    const FeatureId *ids = pin_document_selection(window->document, &count);
    gboolean upright = g_str_equal(g_variant_get_string(parameter, NULL), "upright");
    Place at;
    if (!arrange_middle(session_of(window), ids, count, &at) &&
        !pin_layout_pointer(window->layout, &at))
        at = pin_layout_middle(window->layout);
    pin_layout_add_guide(window->layout, upright, upright ? at.x : at.y);
    window_update_state(window);
}

static void on_clear_guides(GSimpleAction *action, GVariant *parameter, gpointer data)
{
    PinWindow *window = data;
    pin_layout_clear_guides(window->layout);
    window_update_state(window);
}

/* --- what is shown -------------------------------------------------------------------------------
 */

static const struct {
    const char *action;
    FeatureKind kind;
} kinds[] = {
    {"show-holes", FEATURE_HOLE},
    {"show-recesses", FEATURE_RECESS},
    {"show-parts", FEATURE_PART},
    {"show-hardware", FEATURE_FITTING},
    {"show-keep-clears", FEATURE_KEEP_CLEAR},
};

static void on_show(GSimpleAction *action, GVariant *value, gpointer data)
{
    PinWindow *window = data;
    g_simple_action_set_state(action, value);
    for (gsize i = 0; i < G_N_ELEMENTS(kinds); i++)
        if (g_str_equal(g_action_get_name(G_ACTION(action)), kinds[i].action))
            pin_layout_show_kind(window->layout, kinds[i].kind, g_variant_get_boolean(value));
}

/* --- all of them ---------------------------------------------------------------------------------
 */

static const GActionEntry entries[] = {
    {.name = "align", .activate = on_align, .parameter_type = "s"},
    {.name = "space", .activate = on_space, .parameter_type = "s"},
    {.name = "lock", .activate = on_lock},
    {.name = "repeat", .activate = on_repeat},
    {.name = "repeat-round", .activate = on_repeat_round},
    {.name = "turn", .activate = on_turn},
    {.name = "move-by", .activate = on_move_by},
    {.name = "measure", .activate = on_measure, .parameter_type = "s"},
    {.name = "guide", .activate = on_guide, .parameter_type = "s"},
    {.name = "clear-guides", .activate = on_clear_guides},
    {.name = "show-holes", .state = "true", .change_state = on_show},
    {.name = "show-recesses", .state = "true", .change_state = on_show},
    {.name = "show-parts", .state = "true", .change_state = on_show},
    {.name = "show-hardware", .state = "true", .change_state = on_show},
    {.name = "show-keep-clears", .state = "true", .change_state = on_show},
};

/* How many things must be selected for it. */
static const struct {
    const char *action;
    guint least;
} needs[] = {
    {"align", 2}, {"space", 3},   {"lock", 1},    {"repeat", 1}, {"repeat-round", 1},
    {"turn", 1},  {"move-by", 1}, {"measure", 0}, {"guide", 0},  {"clear-guides", 0},
};

void arrange_update_actions(PinWindow *window)
{
    guint count = 0;
    if (window->document)
        pin_document_selection(window->document, &count);
    for (gsize i = 0; i < G_N_ELEMENTS(needs); i++) {
        GAction *action = g_action_map_lookup_action(G_ACTION_MAP(window), needs[i].action);
        g_simple_action_set_enabled(G_SIMPLE_ACTION(action),
                                    window->document && count >= needs[i].least);
    }
}

void arrange_add_actions(PinWindow *window)
{
    g_action_map_add_action_entries(G_ACTION_MAP(window), entries, G_N_ELEMENTS(entries), window);
    arrange_update_actions(window);
}

void arrange_add_keys(GtkWidgetClass *layout)
{
    static const struct {
        guint key;
        GdkModifierType held;
        const char *action, *parameter;
    } keys[] = {
        {GDK_KEY_Left, GDK_CONTROL_MASK, "win.align", "left"},
        {GDK_KEY_Right, GDK_CONTROL_MASK, "win.align", "right"},
        {GDK_KEY_Down, GDK_CONTROL_MASK, "win.align", "front"},
        {GDK_KEY_Up, GDK_CONTROL_MASK, "win.align", "back"},
        {GDK_KEY_c, 0, "win.align", "centre-x"},
        {GDK_KEY_c, GDK_SHIFT_MASK, "win.align", "centre-y"},
        {GDK_KEY_s, 0, "win.space", "x"},
        {GDK_KEY_s, GDK_SHIFT_MASK, "win.space", "y"},
        {GDK_KEY_m, 0, "win.measure", "edges"},
        {GDK_KEY_m, GDK_SHIFT_MASK, "win.measure", "centres"},
        {GDK_KEY_g, 0, "win.guide", "upright"},
        {GDK_KEY_g, GDK_SHIFT_MASK, "win.guide", "level"},
        {GDK_KEY_l, 0, "win.lock", NULL},
        {GDK_KEY_r, 0, "win.repeat", NULL},
        {GDK_KEY_r, GDK_SHIFT_MASK, "win.repeat-round", NULL},
        {GDK_KEY_t, GDK_SHIFT_MASK, "win.turn", NULL},
        {GDK_KEY_m, GDK_CONTROL_MASK, "win.move-by", NULL},
    };
    for (gsize i = 0; i < G_N_ELEMENTS(keys); i++)
        gtk_widget_class_add_binding_action(layout, keys[i].key, keys[i].held, keys[i].action,
                                            keys[i].parameter ? "s" : NULL, keys[i].parameter);
}
