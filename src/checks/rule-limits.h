/* rule-limits.h: the limits in force on a plate: the rules' own, with what the plate changes. */
#pragma once

#include "checks/rule.h"

#define RULES_MOST 64

typedef struct Limits {
    double values[RULES_MOST][RULE_LIMITS_MOST];
} Limits;

/* Fills the table. Changed limits of rules or names that nobody knows are passed over. */
void limits_read(Limits *limits, const Settings *settings);
