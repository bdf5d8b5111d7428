/* finding-item.h: a finding as a row of the list. A row lives as long as its finding's key does, so
 * that the list stays calm while figures run. */
#pragma once

#include "editor/document.h"

#define PIN_TYPE_FINDING_ITEM (pin_finding_item_get_type())
G_DECLARE_FINAL_TYPE(PinFindingItem, pin_finding_item, PIN, FINDING_ITEM, GObject)

/* Signal "changed": its number, figures or sentence are others now. */

PinFindingItem *pin_finding_item_new(const Finding *finding);
const Finding *pin_finding_item_finding(PinFindingItem *item);
/* Its place in the list, from 1, as its sign on the layout shows it. */
guint pin_finding_item_number(PinFindingItem *item);
const char *pin_finding_item_message(PinFindingItem *item);
const char *pin_finding_item_remedy(PinFindingItem *item);
/* Why the maker lets it stand, and since when; empty for one that counts. */
const char *pin_finding_item_reason(PinFindingItem *item);
/* Brings it in step with the same finding's figures of now. `accepted` is what the plate holds of
 * it, or NULL. */
void pin_finding_item_update(PinFindingItem *item, const Finding *finding, guint number,
                             const Placed *placed, Unit unit, const AcceptedFinding *accepted);
