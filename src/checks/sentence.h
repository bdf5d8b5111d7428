/* sentence.h: findings in words. All sentences about findings are made here. */
#pragma once

#include "checks/finding.h"
#include "trade/speech.h"

#define SENTENCE_TEXT 400

/* What a feature is called: its kind and its label, or its number where it has none: "hole A3". */
void feature_name(const Placed *placed, FeatureId id, char *text, size_t size);

/* What is wrong, with the figures in `unit`; no full stop. `text` has SENTENCE_TEXT bytes. */
void finding_message(const Finding *finding, const Placed *placed, Unit unit, char *text);
/* What would mend it; empty where nothing is sure. */
void finding_remedy(const Finding *finding, const Placed *placed, Unit unit, char *text);

/* The same as it is said on the screen. */
void feature_name_said(const Placed *placed, FeatureId id, const Speech *speech, char *text,
                       size_t size);
void finding_message_said(const Finding *finding, const Placed *placed, Unit unit,
                          const Speech *speech, char *text);
void finding_remedy_said(const Finding *finding, const Placed *placed, Unit unit,
                         const Speech *speech, char *text);

/* "stop", "caution", "note". */
const char *finding_level_name(FindingLevel level);

/* The finding as JSON: always English and mm. The caller owns it. */
json_object *finding_json(const Finding *finding, const Placed *placed);
