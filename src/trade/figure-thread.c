#include "trade/figure-build.h"

static void put_limits(Figure *figure, const ThreadLimits *limits)
{
    figure_put_text(figure, "external_class", limits->external_class);
    figure_put_length(figure, "allowance", limits->allowance);
    figure_put_length(figure, "external_major_greatest", limits->external_major_greatest);
    figure_put_length(figure, "external_major_least", limits->external_major_least);
    figure_put_length(figure, "external_pitch_greatest", limits->external_pitch_greatest);
    figure_put_length(figure, "external_pitch_least", limits->external_pitch_least);
    figure_put_text(figure, "internal_class", limits->internal_class);
    figure_put_length(figure, "internal_pitch_greatest", limits->internal_pitch_greatest);
    figure_put_length(figure, "internal_pitch_least", limits->internal_pitch_least);
    figure_put_length(figure, "internal_minor_greatest", limits->internal_minor_greatest);
    figure_put_length(figure, "internal_minor_least", limits->internal_minor_least);
}

bool figure_of_thread(const FigureRequest *request, Figure *figure, Error *error)
{
    const Thread *thread = request_thread(request, error);
    ThreadLimits limits;
    if (!thread || !thread_limits(thread, &limits, error))
        return false;
    figure_put_length(figure, "major", thread->major);
    figure_put_mm(figure, "pitch", thread_pitch(thread));
    if (!thread_is_metric(thread))
        figure_put_number(figure, "threads_per_inch", FIGURE_NUMBER, thread->threads_per_inch);
    figure_put_number(figure, "tensile_area", FIGURE_AREA, thread_tensile_area(thread));
    Length diameter;
    if (thread->tap_drill && drill_or_length(thread->tap_drill, UNIT_MM, &diameter, NULL)) {
        figure_put_length(figure, "tap_drill", diameter);
        figure_put_text(figure, "tap_drill_name", thread->tap_drill);
        figure_put_number(figure, "per_cent_thread", FIGURE_NUMBER,
                          thread_per_cent(thread, length_to_mm(diameter)));
    }
    put_limits(figure, &limits);
    figure->formula =
        thread_is_metric(thread)
            ? N_("d2 = d - 0.64952 P; D1 = d - 1.08253 P; area 0.7854 (d - 0.9382 P)^2; "
                 "per cent (d - hole) / (1.299 P)")
            : N_("E = D - 0.64952 P; K = D - 1.08253 P; tolerance 0.0015 D^1/3 + 0.0015 "
                 "D^1/2 + 0.015 P^2/3, 2B 1.3 times, allowance 0.3 times; area 0.7854 "
                 "(D - 0.9743/n)^2; per cent (D - hole) n / 0.01299");
    figure->source = thread_is_metric(thread) ? N_("ISO 965-1, ISO 898-1; tap drill ISO 2306")
                                              : N_("ASME B1.1; tap drill common practice");
    return true;
}
