/* What the details offer below the figures of some kinds of things. */
#include "editor/details-private.h"

#include "editor/intl.h"
#include "editor/speech.h"
#include "session/nest-offers.h"
#include "session/new-things.h"
#include "session/selection.h"

static const Record *shown(PinDetails *details, RecordKind kind)
{
    const Record *record = details_record(details);
    return record && record->kind == kind ? record : NULL;
}

static void on_show_selection(PinDetails *details)
{
    pin_details_show_record(details, ID_NONE);
}

static void on_take_away(PinDetails *details)
{
    FeatureId id = details->shown;
    Edit edit = EDIT_EMPTY;
    Error error;
    if (selection_delete(pin_document_session(details->document), &id, 1, &edit, &error)) {
        pin_document_do(details->document, &edit);
        return;
    }
    edit_clear(&edit);
    pin_document_refuse(details->document, &error);
}

static void add_way_back(PinDetails *details)
{
    if (details->asked != ID_NONE)
        details_add_button(details, _("Back to the selection"), G_CALLBACK(on_show_selection));
}

static void add_command(PinDetails *details, const char *text, const char *action, GVariant *target)
{
    GtkWidget *button = gtk_button_new_with_label(text);
    if (target)
        gtk_actionable_set_action_target_value(GTK_ACTIONABLE(button), target);
    gtk_actionable_set_action_name(GTK_ACTIONABLE(button), action);
    gtk_box_append(details->rows, button);
}

/* --- stations and parts ----------------------------------------------------------------------- */

static void on_show_part(PinDetails *details)
{
    const Record *record = shown(details, RECORD_STATION);
    if (record)
        pin_details_show_record(details, record->station.part);
}

static void on_add_nest(PinDetails *details)
{
    const Record *record = shown(details, RECORD_STATION);
    if (!record)
        return;
    Session *session = pin_document_session(details->document);
    Unit unit = pin_document_unit(details->document);
    Length clearance = unit == UNIT_INCH ? LENGTH_INCH / 100 : LENGTH_MM / 4;
    Length depth = unit == UNIT_INCH ? LENGTH_INCH / 32 : LENGTH_MM;
    Edit edit = EDIT_EMPTY;
    new_nest(session, record->station.face, record->id, clearance, depth, &edit);
    pin_document_do(details->document, &edit);
}

static void add_part_size(PinDetails *details, const Record *record)
{
    const Outline *outline =
        placed_outline(session_placed(pin_document_session(details->document)), record->id);
    if (!outline)
        return;
    Box box = outline_box(outline);
    char length[LENGTH_PEOPLE_TEXT], width[LENGTH_PEOPLE_TEXT];
    pin_length_text(length_from_mm(box.x1 - box.x0), pin_document_unit(details->document), length);
    pin_length_text_with_unit(length_from_mm(box.y1 - box.y0), pin_document_unit(details->document),
                              width);
    char *text = g_strdup_printf(_("Outline %s × %s"), length, width);
    GtkWidget *label = gtk_label_new(text);
    gtk_label_set_xalign(GTK_LABEL(label), 0);
    gtk_box_append(details->rows, label);
    g_free(text);
}

/* --- the base --------------------------------------------------------------------------------- */

static FeatureId first_base(PinDetails *details)
{
    return placed_base(session_placed(pin_document_session(details->document)));
}

static void on_show_base(PinDetails *details)
{
    pin_details_show_record(details, first_base(details));
}

static void on_add_base(PinDetails *details)
{
    Session *session = pin_document_session(details->document);
    Record *base = record_new(session_new_id(session), RECORD_BASE);
    base->base.name = g_strdup(_("Base"));
    FeatureId id = base->id;
    if (pin_document_change(details->document, _("Add a base"), base))
        pin_details_show_record(details, id);
}

static void add_base(PinDetails *details)
{
    details_add_heading(details, _("Base"));
    if (first_base(details) != ID_NONE)
        details_add_button(details, _("Figures of the base"), G_CALLBACK(on_show_base));
    else
        details_add_button(details, _("Add a base"), G_CALLBACK(on_add_base));
    add_command(details, _("Take it from another plate…"), "win.take-base", NULL);
}

/* --- nests and inclined faces ----------------------------------------------------------------- */

static void add_nest_offers(PinDetails *details, const Record *record)
{
    Session *session = pin_document_session(details->document);
    for (guint offer = 0; offer < NEST_OFFERS; offer++)
        if (nest_offered(session, record->id, (NestOffer)offer)) {
            char *text = g_strdup_printf(_("Add: %s"), nest_offer_name((NestOffer)offer));
            add_command(details, text, "win.nest-offer", g_variant_new("(uu)", record->id, offer));
            g_free(text);
        }
}

static void add_bevel_commands(PinDetails *details, const Record *record)
{
    if (record->station.face == ID_TOP)
        return;
    add_command(details, _("Line the bevel up"), "win.line-up-bevel", NULL);
    add_command(details, _("Add the other side's station"), "win.mirror-station", NULL);
    add_command(details, _("Add a support relief"), "win.support-relief", NULL);
}

static void add_face_commands(PinDetails *details, const Record *record)
{
    if (record->face.reference_hole == ID_NONE)
        add_command(details, _("Add a reference hole"), "win.reference-hole", NULL);
    add_command(details, _("Add both stations for a bevel"), "win.bevel-pair", NULL);
}

void details_add_extras(PinDetails *details, const Record *record)
{
    switch (record->kind) {
    case RECORD_SETTINGS:
        add_base(details);
        break;
    case RECORD_STATION:
        details_add_button(details, _("Figures of the part"), G_CALLBACK(on_show_part));
        details_add_button(details, _("Add a nest"), G_CALLBACK(on_add_nest));
        add_bevel_commands(details, record);
        break;
    case RECORD_PART:
        add_part_size(details, record);
        break;
    case RECORD_BASE:
        details_add_button(details, _("Take the base away"), G_CALLBACK(on_take_away));
        break;
    case RECORD_FACE:
        if (record->face.kind != FACE_INCLINED)
            break;
        add_face_commands(details, record);
        details_add_button(details, _("Take the face away"), G_CALLBACK(on_take_away));
        break;
    case RECORD_RECESS:
        add_nest_offers(details, record);
        break;
    case RECORD_OPERATION:
        details_add_button(details, _("Take the operation away"), G_CALLBACK(on_take_away));
        break;
    default:
        break;
    }
    add_way_back(details);
}

void details_add_extras_shape(PinDetails *details, GString *shape, const Record *record)
{
    Session *session = pin_document_session(details->document);
    if (record->kind == RECORD_STATION)
        g_string_append_c(shape, record->station.face == ID_TOP ? 't' : 'i');
    if (record->kind == RECORD_FACE)
        g_string_append_c(shape, record->face.reference_hole == ID_NONE ? 'n' : 'r');
    for (guint offer = 0; record->kind == RECORD_RECESS && offer < NEST_OFFERS; offer++)
        g_string_append_c(shape, nest_offered(session, record->id, (NestOffer)offer) ? '1' : '0');
}
