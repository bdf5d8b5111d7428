/* The rows of the details where something is chosen or checked. */
#include "editor/details-private.h"

#include "editor/access.h"
#include "editor/intl.h"
#include "editor/layout-feature.h"

#include <stddef.h>
#include <string.h>

/* --- changing --------------------------------------------------------------------------------- */

static const Settings *settings_of(PinDetails *details)
{
    return plate_settings(pin_document_plate(details->document));
}

/* A datum that is a hole needs one: the first there is, until another is chosen. */
static void give_datum_hole(PinDetails *details, Settings *settings)
{
    const Plate *plate = pin_document_plate(details->document);
    if (settings->datum.kind != DATUM_HOLE || settings->datum.hole != ID_NONE)
        return;
    for (uint32_t i = 0; i < plate_count(plate); i++)
        if (plate_at(plate, i)->kind == RECORD_HOLE) {
            settings->datum.hole = plate_at(plate, i)->id;
            return;
        }
}

/* What stands on a station lies on its face: all of it goes to the other face in one step. */
static void take_along(PinDetails *details, const Record *station, Edit *edit)
{
    const Plate *plate = pin_document_plate(details->document);
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *record = plate_at(plate, i);
        if (record_station(record) != station->id ||
            (record->kind != RECORD_HOLE && record->kind != RECORD_RECESS))
            continue;
        Record *after = record_copy(record, record->id);
        if (record->kind == RECORD_HOLE)
            after->hole.face = station->station.face;
        else
            after->recess.face = station->station.face;
        edit_add(edit, record_ref((Record *)record), after);
    }
}

/* Takes `after` over. */
static void carry_out(Bound *bound, const Record *record, Record *after)
{
    PinDetails *details = bound->details;
    Edit edit = EDIT_EMPTY;
    edit_set_name(&edit, _("Change"));
    edit_add(&edit, record_ref((Record *)record), after);
    if (record->kind == RECORD_STATION && !bound->spot.list &&
        bound->spot.field->offset == offsetof(Station, face))
        take_along(details, after, &edit);
    if (!pin_document_do(details->document, &edit))
        details_update(details);
}

static void on_chosen(GtkDropDown *drop_down, GParamSpec *property, Bound *bound)
{
    PinDetails *details = bound->details;
    const Record *record = details_record(details);
    guint chosen = gtk_drop_down_get_selected(drop_down);
    if (!record || details->filling || chosen == GTK_INVALID_LIST_POSITION ||
        !detail_body(record, &bound->spot))
        return;
    Record *after = record_copy(record, record->id);
    if (!bound->records)
        *detail_choice(after, &bound->spot) = (int)chosen;
    else if (chosen < bound->records->len)
        *detail_record(after, &bound->spot) = g_array_index(bound->records, FeatureId, chosen);
    if (after->kind == RECORD_SETTINGS)
        give_datum_hole(details, &after->settings);
    carry_out(bound, record, after);
}

/* What is blind needs a depth to begin with. */
static void give_depth(PinDetails *details, Bound *bound, Record *after)
{
    Length thickness = settings_of(details)->stock.thickness;
    if (after->kind == RECORD_HOLE && bound->spot.list) {
        Step *step = LIST_AT(&after->hole.steps, Step, bound->spot.index);
        if (!step->through && step->depth <= 0)
            step->depth = thickness / 2;
    }
    if (after->kind == RECORD_RECESS && !after->recess.through && after->recess.depth <= 0)
        after->recess.depth = thickness / 4;
}

static void on_checked(GtkCheckButton *check, Bound *bound)
{
    PinDetails *details = bound->details;
    const Record *record = details_record(details);
    if (!record || details->filling || !detail_body(record, &bound->spot))
        return;
    Record *after = record_copy(record, record->id);
    *detail_bool(after, &bound->spot) = gtk_check_button_get_active(check);
    give_depth(details, bound, after);
    carry_out(bound, record, after);
}

static gboolean has_member(const List *list, FeatureId id)
{
    for (uint32_t i = 0; i < list->count; i++)
        if (*LIST_AT(list, FeatureId, i) == id)
            return TRUE;
    return FALSE;
}

/* Members stand in rising order, so that the same set is the same file. */
static void set_member(List *list, FeatureId id, gboolean member)
{
    uint32_t at = 0;
    while (at < list->count && *LIST_AT(list, FeatureId, at) < id)
        at++;
    gboolean there = at < list->count && *LIST_AT(list, FeatureId, at) == id;
    if (member && !there) {
        list_append(list, FeatureId);
        FeatureId *items = list->items;
        memmove(&items[at + 1], &items[at], (list->count - 1 - at) * sizeof *items);
        items[at] = id;
    } else if (!member && there) {
        FeatureId *items = list->items;
        memmove(&items[at], &items[at + 1], (list->count - 1 - at) * sizeof *items);
        list->count--;
    }
}

static int compare_ids(gconstpointer a, gconstpointer b)
{
    FeatureId first = *(const FeatureId *)a, second = *(const FeatureId *)b;
    return (first > second) - (first < second);
}

static void on_member(GtkCheckButton *check, Bound *bound)
{
    PinDetails *details = bound->details;
    const Record *record = details_record(details);
    if (!record || details->filling || !detail_body(record, &bound->spot))
        return;
    Record *after = record_copy(record, record->id);
    List *list = detail_records(after, &bound->spot);
    if (list->count > 1)
        qsort(list->items, list->count, sizeof(FeatureId), compare_ids);
    set_member(list, bound->member, gtk_check_button_get_active(check));
    carry_out(bound, record, after);
}

/* --- rows ------------------------------------------------------------------------------------- */

static GtkWidget *add_drop_down(PinDetails *details, DetailSpot spot, GtkStringList *words)
{
    GtkWidget *drop_down = gtk_drop_down_new(G_LIST_MODEL(words), NULL);
    gtk_box_append(details->rows, details_named(_(spot.field->name), drop_down));
    access_choice(GTK_DROP_DOWN(drop_down), _(spot.field->name));
    return drop_down;
}

void details_add_choice(PinDetails *details, DetailSpot spot)
{
    GtkStringList *words = gtk_string_list_new(NULL);
    for (int i = 0; spot.field->choices[i]; i++)
        gtk_string_list_append(words, _(spot.field->choices[i]));
    GtkWidget *drop_down = add_drop_down(details, spot, words);
    g_signal_connect(drop_down, "notify::selected", G_CALLBACK(on_chosen),
                     details_bind(details, spot, drop_down));
}

void details_add_part_hole(PinDetails *details, DetailSpot spot)
{
    const Plate *plate = pin_document_plate(details->document);
    const Record *record = details_record(details);
    const Record *station = plate_find_kind(plate, record->fitting.station, RECORD_STATION);
    const Record *part =
        station ? plate_find_kind(plate, station->station.part, RECORD_PART) : NULL;
    GtkStringList *words = gtk_string_list_new(NULL);
    gtk_string_list_append(words, _("no hole"));
    for (uint32_t i = 0; part && i < part->part.holes.count; i++) {
        const char *name = LIST_AT(&part->part.holes, PartHole, i)->name;
        char *text = name ? g_strdup_printf(_("hole %u, %s"), i + 1, name)
                          : g_strdup_printf(_("hole %u"), i + 1);
        gtk_string_list_append(words, text);
        g_free(text);
    }
    GtkWidget *drop_down = add_drop_down(details, spot, words);
    g_signal_connect(drop_down, "notify::selected", G_CALLBACK(on_chosen),
                     details_bind(details, spot, drop_down));
}

static char *record_words(PinDetails *details, const Record *record)
{
    const char *name = NULL;
    if (record->kind == RECORD_PART)
        name = record->part.name;
    else if (record->kind == RECORD_FACE)
        name = record->face.kind == FACE_TOP ? _("top") : record->face.name;
    else if (record->kind == RECORD_OPERATION)
        name = record->operation.name;
    return name ? g_strdup(name) : feature_words(details->document, record->id);
}

void details_add_record_choice(PinDetails *details, DetailSpot spot)
{
    GtkStringList *words = gtk_string_list_new(NULL);
    GArray *records = g_array_new(FALSE, FALSE, sizeof(FeatureId));
    const Plate *plate = pin_document_plate(details->document);
    FeatureId none = ID_NONE;
    if (spot.field->optional) {
        gtk_string_list_append(words, _("none"));
        g_array_append_val(records, none);
    }
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *record = plate_at(plate, i);
        if (record->kind != spot.field->of)
            continue;
        char *name = record_words(details, record);
        gtk_string_list_append(words, name);
        g_array_append_val(records, record->id);
        g_free(name);
    }
    GtkWidget *drop_down = add_drop_down(details, spot, words);
    Bound *bound = details_bind(details, spot, drop_down);
    bound->records = records;
    g_signal_connect(drop_down, "notify::selected", G_CALLBACK(on_chosen), bound);
}

void details_add_check(PinDetails *details, DetailSpot spot)
{
    GtkWidget *check = gtk_check_button_new_with_label(_(spot.field->name));
    access_check(check);
    gtk_box_append(details->rows, check);
    g_signal_connect(check, "toggled", G_CALLBACK(on_checked), details_bind(details, spot, check));
}

void details_add_record_checks(PinDetails *details, DetailSpot spot)
{
    const Plate *plate = pin_document_plate(details->document);
    guint added = 0;
    for (uint32_t i = 0; i < plate_count(plate); i++) {
        const Record *record = plate_at(plate, i);
        if (record->kind != spot.field->of)
            continue;
        char *name = record_words(details, record);
        GtkWidget *check = gtk_check_button_new_with_label(name);
        access_check(check);
        gtk_box_append(details->rows, check);
        Bound *bound = details_bind(details, spot, check);
        bound->member = record->id;
        g_signal_connect(check, "toggled", G_CALLBACK(on_member), bound);
        g_free(name);
        added++;
    }
    if (added)
        return;
    GtkWidget *label = gtk_label_new(_("There are none on the plate yet."));
    gtk_label_set_xalign(GTK_LABEL(label), 0);
    gtk_widget_add_css_class(label, "dim-label");
    gtk_box_append(details->rows, label);
}

/* --- showing ---------------------------------------------------------------------------------- */

static void fill_record(Bound *bound, const Record *record)
{
    FeatureId id = *detail_record((Record *)record, &bound->spot);
    guint at = GTK_INVALID_LIST_POSITION;
    for (guint i = 0; i < bound->records->len; i++)
        if (g_array_index(bound->records, FeatureId, i) == id)
            at = i;
    gtk_drop_down_set_selected(GTK_DROP_DOWN(bound->widget), at);
}

void details_fill_choice(Bound *bound, const Record *record)
{
    switch (bound->spot.field->kind) {
    case DETAIL_CHOICE:
    case DETAIL_PART_HOLE:
        gtk_drop_down_set_selected(GTK_DROP_DOWN(bound->widget),
                                   (guint)*detail_choice((Record *)record, &bound->spot));
        break;
    case DETAIL_BOOL:
        gtk_check_button_set_active(GTK_CHECK_BUTTON(bound->widget),
                                    *detail_bool((Record *)record, &bound->spot));
        break;
    case DETAIL_RECORDS:
        gtk_check_button_set_active(
            GTK_CHECK_BUTTON(bound->widget),
            has_member(detail_records((Record *)record, &bound->spot), bound->member));
        break;
    default:
        fill_record(bound, record);
    }
}
