#include "session/new-plate.h"

#include "session/limit-preset.h"

/* --- stock and datum -----------------------------------------------------------------------------
 */

static void replace_text(char **text, const char *with)
{
    g_free(*text);
    *text = with && *with ? g_strdup(with) : NULL;
}

static Record *settings_for(const Plate *plate, const NewPlate *answers)
{
    Record *record = record_copy(plate_find(plate, ID_SETTINGS), ID_SETTINGS);
    Settings *settings = &record->settings;
    replace_text(&settings->name, answers->name);
    replace_text(&settings->shop, answers->shop);
    replace_text(&settings->stock.material, answers->material);
    settings->stock.metal = answers->metal;
    settings->projection = answers->projection;
    settings->standard = answers->unit == PLATE_INCH ? SHEET_STANDARD_ASME : SHEET_STANDARD_ISO;
    settings->datum = answers->datum;
    limit_preset_add((LimitPreset)answers->limits, settings);
    return record;
}

static bool on_stock(const NewPlate *answers, Place at)
{
    return at.x >= 0 && at.y >= 0 && at.x <= answers->length && at.y <= answers->width;
}

/* --- the base ------------------------------------------------------------------------------------
 */

static void add_seat(Base *base, int kind, Place at, Length diameter, Length depth)
{
    BaseSeat *seat = list_append(&base->seats, BaseSeat);
    *seat = (BaseSeat){.kind = kind, .at = at, .diameter = diameter, .depth = depth};
}

/* The pull-downs' places: opposite corners first, so that two of them pull evenly. */
static int pull_down_places(const NewPlate *answers, Place places[4])
{
    Length near = answers->pull_down_inset;
    Length far_x = answers->length - near, far_y = answers->width - near;
    places[0] = (Place){near, near};
    places[1] = (Place){far_x, far_y};
    places[2] = (Place){far_x, near};
    places[3] = (Place){near, far_y};
    return answers->pull_downs;
}

static Record *keep_clear_round(Plate *plate, const NewPlate *answers, Place at)
{
    Record *record = record_new(plate_new_id(plate), RECORD_KEEP_CLEAR);
    KeepClear *keep_clear = &record->keep_clear;
    keep_clear->face = ID_TOP;
    keep_clear->name = g_strdup(answers->clear_name);
    keep_clear->at = at;
    keep_clear->length = keep_clear->width = answers->clear_diameter;
    keep_clear->corner_radius = answers->clear_diameter / 2;
    keep_clear->height = answers->clear_height;
    keep_clear->depth = answers->thickness;
    return record;
}

static bool add_pins_base(Plate *plate, const NewPlate *answers, Edit *edit, Error *error)
{
    Place places[4];
    int pull_downs = pull_down_places(answers, places);
    bool inside = on_stock(answers, answers->round_pin) && on_stock(answers, answers->relieved_pin);
    for (int i = 0; i < pull_downs; i++)
        inside = inside && on_stock(answers, places[i]) && answers->pull_down_inset > 0;
    if (!inside)
        return error_set(error, ERROR_TYPED, "base",
                         "a pin or pull-down of the base lies outside the stock");
    if (answers->round_pin.x == answers->relieved_pin.x &&
        answers->round_pin.y == answers->relieved_pin.y)
        return error_set(error, ERROR_TYPED, "base",
                         "the two pins of the base stand in one place; they must be apart");
    Record *record = record_new(plate_new_id(plate), RECORD_BASE);
    record->base.name = g_strdup(answers->base_name);
    add_seat(&record->base, BASE_ROUND_PIN, answers->round_pin, answers->round_diameter,
             answers->pin_depth);
    add_seat(&record->base, BASE_RELIEVED_PIN, answers->relieved_pin, answers->relieved_diameter,
             answers->pin_depth);
    for (int i = 0; i < pull_downs; i++)
        add_seat(&record->base, BASE_PULL_DOWN, places[i], answers->pull_down_diameter, 0);
    edit_add(edit, NULL, record);
    for (int i = 0; i < pull_downs && answers->clear_diameter > 0; i++)
        edit_add(edit, NULL, keep_clear_round(plate, answers, places[i]));
    return true;
}

FeatureId plate_first_base(const Plate *plate)
{
    for (uint32_t i = 0; i < plate_count(plate); i++)
        if (plate_at(plate, i)->kind == RECORD_BASE)
            return plate_at(plate, i)->id;
    return ID_NONE;
}

/* The base is a record that many plates share; what it keeps clear comes with it. */
/* A large base takes small plates too, but no plate locates on a pin beside it. */
static bool pins_are_on_stock(const NewPlate *answers, const Base *base)
{
    for (uint32_t i = 0; i < base->seats.count; i++) {
        const BaseSeat *seat = LIST_AT(&base->seats, BaseSeat, i);
        bool pin = seat->kind == BASE_ROUND_PIN || seat->kind == BASE_RELIEVED_PIN;
        if (pin && !on_stock(answers, seat->at))
            return false;
    }
    return true;
}

static bool add_kept_base(Plate *plate, const NewPlate *answers, Edit *edit, Error *error)
{
    const Plate *kept = answers->kept;
    const Record *base = kept ? plate_find(kept, plate_first_base(kept)) : NULL;
    if (!base)
        return error_set(error, ERROR_MISSING, "base",
                         "choose a plate that carries a base, or go on without one");
    if (!pins_are_on_stock(answers, &base->base))
        return error_set(error, ERROR_TYPED, "base", "a pin of the base lies outside the stock");
    edit_add(edit, NULL, record_copy(base, plate_new_id(plate)));
    for (uint32_t i = 0; i < plate_count(kept); i++) {
        const Record *record = plate_at(kept, i);
        if (record->kind == RECORD_KEEP_CLEAR && record->keep_clear.face == ID_TOP)
            edit_add(edit, NULL, record_copy(record, plate_new_id(plate)));
    }
    return true;
}

static bool add_base(Plate *plate, const NewPlate *answers, Edit *edit, Error *error)
{
    switch (answers->base) {
    case NEW_BASE_PINS:
        return add_pins_base(plate, answers, edit, error);
    case NEW_BASE_KEPT:
        return add_kept_base(plate, answers, edit, error);
    default:
        return true;
    }
}

/* --- the plate -----------------------------------------------------------------------------------
 */

Plate *new_plate_make(const NewPlate *answers, Error *error)
{
    if (answers->length <= 0 || answers->width <= 0 || answers->thickness <= 0) {
        error_set(error, ERROR_TYPED, "stock", "a plate's size is more than 0");
        return NULL;
    }
    if (answers->datum.kind == DATUM_POINT && !on_stock(answers, answers->datum.at)) {
        error_set(error, ERROR_TYPED, "datum", "the datum's point lies outside the stock");
        return NULL;
    }
    Plate *plate =
        plate_new(answers->length, answers->width, answers->thickness, (PlateUnit)answers->unit);
    Edit edit = EDIT_EMPTY;
    Error refused;
    edit_add(&edit, record_ref(plate_find(plate, ID_SETTINGS)), settings_for(plate, answers));
    if (!add_base(plate, answers, &edit, error)) {
        g_clear_pointer(&plate, plate_free);
    } else if (!plate_apply(plate, &edit, NULL, NULL, &refused)) {
        error_set(error, refused.kind, "stock", "%s", refused.message);
        g_clear_pointer(&plate, plate_free);
    }
    edit_clear(&edit);
    return plate;
}
