/* Tolerance grades and limit deviations against ISO 286. */
#include "published.h"
#include "trade/fit.h"

#include <glib.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdlib.h>

#include <cmocka.h>

#define GRADES "ISO 286-1, table of standard tolerances"
#define LIMITS "ISO 286-2, table of limit deviations"

static void tolerance_grades(void **state)
{
    static const struct {
        int nominal, grade;
        const char *tolerance;
    } rows[] = {{2, 6, "6"},    {2, 7, "10"},    {2, 8, "14"},  {5, 6, "8"},   {5, 7, "12"},
                {5, 8, "18"},   {5, 9, "30"},    {8, 5, "6"},   {8, 6, "9"},   {8, 7, "15"},
                {8, 8, "22"},   {8, 9, "36"},    {8, 10, "58"}, {8, 11, "90"}, {12, 6, "11"},
                {12, 7, "18"},  {12, 8, "27"},   {12, 9, "43"}, {20, 6, "13"}, {20, 7, "21"},
                {20, 8, "33"},  {20, 11, "130"}, {40, 6, "16"}, {40, 7, "25"}, {40, 8, "39"},
                {40, 12, "250"}};
    for (size_t i = 0; i < G_N_ELEMENTS(rows); i++) {
        char figure[64];
        Length tolerance = 0;
        assert_true(fit_grade_tolerance(rows[i].nominal * LENGTH_MM, rows[i].grade, &tolerance));
        g_snprintf(figure, sizeof figure, "IT%d at %d mm", rows[i].grade, rows[i].nominal);
        published_length(figure, tolerance, rows[i].tolerance, "um", GRADES, FROM_MEMORY);
    }
}

typedef struct Row {
    const char *class;
    int nominal;
    const char *upper, *lower; /* um */
} Row;

static void check(const Row *row)
{
    char figure[64];
    SizeLimits limits;
    Error error = {0};
    Length nominal = row->nominal * LENGTH_MM;
    if (!fit_class_limits(nominal, row->class, &limits, &error))
        fail_msg("%s at %d mm: %s", row->class, row->nominal, error.message);
    g_snprintf(figure, sizeof figure, "%s at %d mm, upper", row->class, row->nominal);
    published_length(figure, limits.greatest - nominal, row->upper, "um", LIMITS, FROM_MEMORY);
    g_snprintf(figure, sizeof figure, "%s at %d mm, lower", row->class, row->nominal);
    published_length(figure, limits.least - nominal, row->lower, "um", LIMITS, FROM_MEMORY);
}

static void shafts(void **state)
{
    static const Row rows[] = {
        {"d9", 8, "-40", "-76"},   {"e8", 8, "-25", "-47"},  {"f7", 8, "-13", "-28"},
        {"f7", 5, "-10", "-22"},   {"f7", 20, "-20", "-41"}, {"f9", 8, "-13", "-49"},
        {"g6", 8, "-5", "-14"},    {"g6", 5, "-4", "-12"},   {"g6", 12, "-6", "-17"},
        {"g6", 20, "-7", "-20"},   {"g6", 40, "-9", "-25"},  {"h6", 8, "0", "-9"},
        {"h7", 12, "0", "-18"},    {"h11", 8, "0", "-90"},   {"j6", 8, "7", "-2"},
        {"j6", 20, "9", "-4"},     {"k6", 2, "6", "0"},      {"k6", 5, "9", "1"},
        {"k6", 8, "10", "1"},      {"k6", 12, "12", "1"},    {"k6", 20, "15", "2"},
        {"k6", 40, "18", "2"},     {"m6", 2, "8", "2"},      {"m6", 5, "12", "4"},
        {"m6", 8, "15", "6"},      {"m6", 12, "18", "7"},    {"m6", 20, "21", "8"},
        {"m6", 40, "25", "9"},     {"n6", 5, "16", "8"},     {"n6", 8, "19", "10"},
        {"n6", 20, "28", "15"},    {"p6", 5, "20", "12"},    {"p6", 8, "24", "15"},
        {"p6", 12, "29", "18"},    {"p6", 20, "35", "22"},   {"p6", 40, "42", "26"},
        {"r6", 8, "28", "19"},     {"r6", 40, "50", "34"},   {"s6", 5, "27", "19"},
        {"s6", 8, "32", "23"},     {"s6", 20, "48", "35"},   {"u6", 8, "37", "28"},
        {"u6", 20, "54", "41"},    {"u6", 25, "61", "48"},   {"u6", 35, "76", "60"},
        {"c11", 8, "-80", "-170"}, {"x6", 8, "43", "34"},    {"z6", 8, "51", "42"},
    };
    for (size_t i = 0; i < G_N_ELEMENTS(rows); i++)
        check(&rows[i]);
}

static void holes(void **state)
{
    static const Row rows[] = {
        {"D10", 8, "98", "40"},   {"E9", 8, "61", "25"},    {"F7", 8, "28", "13"},
        {"F8", 8, "35", "13"},    {"F8", 20, "53", "20"},   {"G7", 2, "12", "2"},
        {"G7", 5, "16", "4"},     {"G7", 8, "20", "5"},     {"G7", 12, "24", "6"},
        {"G7", 20, "28", "7"},    {"G7", 40, "34", "9"},    {"H6", 8, "9", "0"},
        {"H7", 2, "10", "0"},     {"H7", 5, "12", "0"},     {"H7", 8, "15", "0"},
        {"H7", 12, "18", "0"},    {"H7", 20, "21", "0"},    {"H7", 40, "25", "0"},
        {"H8", 8, "22", "0"},     {"H9", 8, "36", "0"},     {"J7", 8, "8", "-7"},
        {"J7", 20, "12", "-9"},   {"JS9", 8, "18", "-18"},  {"K6", 5, "2", "-6"},
        {"K6", 8, "2", "-7"},     {"K7", 2, "0", "-10"},    {"K7", 5, "3", "-9"},
        {"K7", 8, "5", "-10"},    {"K7", 12, "6", "-12"},   {"K7", 20, "6", "-15"},
        {"K7", 40, "7", "-18"},   {"M7", 2, "-2", "-12"},   {"M7", 5, "0", "-12"},
        {"M7", 8, "0", "-15"},    {"M7", 20, "0", "-21"},   {"N7", 2, "-4", "-14"},
        {"N7", 5, "-4", "-16"},   {"N7", 8, "-4", "-19"},   {"N7", 12, "-5", "-23"},
        {"N7", 20, "-7", "-28"},  {"N7", 40, "-8", "-33"},  {"N9", 8, "0", "-36"},
        {"P7", 2, "-6", "-16"},   {"P7", 5, "-8", "-20"},   {"P7", 8, "-9", "-24"},
        {"P7", 12, "-11", "-29"}, {"P7", 20, "-14", "-35"}, {"P7", 40, "-17", "-42"},
        {"P9", 8, "-15", "-51"},  {"R7", 8, "-13", "-28"},  {"R7", 20, "-20", "-41"},
        {"S7", 8, "-17", "-32"},  {"S7", 20, "-27", "-48"}, {"S7", 40, "-34", "-59"},
        {"N6", 8, "-7", "-16"},   {"P6", 8, "-12", "-21"},
    };
    for (size_t i = 0; i < G_N_ELEMENTS(rows); i++)
        check(&rows[i]);
}

/* The clearances that handbooks give for preferred fits, ISO 286-2 annex. */
static void fits(void **state)
{
    static const struct {
        const char *fit, *greatest, *least;
    } rows[] = {{"10H7/g6", "29", "5"},      {"10H7/h6", "24", "0"},   {"8H8/f7", "50", "13"},
                {"20H7/k6", "19", "-15"},    {"20H7/p6", "-1", "-35"}, {"8H7/s6", "-8", "-32"},
                {"25H11/c11", "370", "110"}, {"12H9/d9", "136", "50"}};
    for (size_t i = 0; i < G_N_ELEMENTS(rows); i++) {
        Fit fit;
        char figure[64];
        assert_true(fit_read(rows[i].fit, &fit, NULL));
        g_snprintf(figure, sizeof figure, "%s, greatest clearance", rows[i].fit);
        published_length(figure, fit.clearance_greatest, rows[i].greatest, "um",
                         "ISO 286-2, preferred fits", FROM_MEMORY);
        g_snprintf(figure, sizeof figure, "%s, least clearance", rows[i].fit);
        published_length(figure, fit.clearance_least, rows[i].least, "um",
                         "ISO 286-2, preferred fits", FROM_MEMORY);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(tolerance_grades),
        cmocka_unit_test(shafts),
        cmocka_unit_test(holes),
        cmocka_unit_test(fits),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
