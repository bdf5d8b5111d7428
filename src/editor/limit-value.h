/* limit-value.h: a rule's limit on a plate: read, changed and put back. */
#pragma once

#include "checks/rule.h"
#include "editor/document.h"

/* The limit in force on the plate, in what its kind says. */
double limit_value(const Settings *settings, const Rule *rule, const RuleLimit *limit);
/* True where the plate has a value of its own. */
gboolean limit_is_changed(const Settings *settings, const Rule *rule, const RuleLimit *limit);
/* A value as it is typed and shown; free with g_free. */
char *limit_text(const RuleLimit *limit, double value, Unit unit, gboolean with_unit);
/* Reads what was typed. `taken_as` has TYPED_TAKEN_AS bytes. */
gboolean limit_read(const RuleLimit *limit, const char *text, Unit unit, int64_t *value,
                    char *taken_as, Error *error);
/* One step of undo each. `value` is in millionths. */
gboolean limit_change(PinDocument *document, const Rule *rule, const RuleLimit *limit,
                      int64_t value);
gboolean limit_put_back(PinDocument *document, const Rule *rule, const RuleLimit *limit);
