/* SPDX-License-Identifier: MIT */
#include "commands/more.h"

static void print_difference(struct printer *printer, const char *key, struct maybe before,
                             struct maybe after)
{
    if (before.given && after.given)
        printer_number(printer, key, after.value - before.value);
}

static void print_total(const struct survey_what_if *what_if, const struct what_if_change *change,
                        struct printer *printer)
{
    printer_begin(printer, "what-if", 0, 0);
    if (change->has_set) {
        printer_text(printer, "set", change->set.name);
        printer_text(printer, "set_source", change->set.string[change->set.strings - 1].source);
    }
    printer_entered(printer, "total_before_n", what_if->total_before_n);
    printer_entered(printer, "total_after_n", what_if->total_after_n);
    print_difference(printer, "total_change_n", what_if->total_before_n, what_if->total_after_n);
    printer_entered(printer, "relief_predicted_before_mm", what_if->relief_predicted_before_mm);
    printer_entered(printer, "relief_predicted_after_mm", what_if->relief_predicted_after_mm);
    printer_entered(printer, "relief_expected_mm", what_if->pull.relief_mm);
    printer_entered(printer, "relief_expected_u_mm", what_if->pull.relief_u_mm);
}

static void print_note(const struct record *record, const struct survey_what_if *what_if,
                       int string, struct printer *printer)
{
    char memory[16];
    struct strbuf note = STRBUF(memory);

    if (survey_what_if_add_note(record, what_if, string, &note))
        printer_text(printer, "note", memory);
}

static void print_string(const struct what_if_answer *answer, struct printer *printer)
{
    printer_entered(printer, "tension_before_n", answer->before_n);
    printer_entered(printer, "tension_after_n", answer->after_n);
    print_difference(printer, "tension_change_n", answer->before_n, answer->after_n);
    printer_entered(printer, "share_of_total", answer->share_of_total);
    printer_entered(printer, "stress_share", answer->stress_share);
}

enum status more_print_what_if(const struct record *record, const struct derived *derived,
                               const struct what_if_change *change, struct printer *printer)
{
    struct findings findings = {.count = 0};
    struct survey_what_if what_if;
    const enum status status = survey_what_if(record, derived, change, &what_if, &findings);

    if (status != STATUS_OK)
        return status;
    printer_findings(printer, &findings);
    print_total(&what_if, change, printer);
    for (int s = 1; s <= what_if.strings; s++) {
        printer_begin(printer, "what-if", s, 0);
        print_note(record, &what_if, s, printer);
        if (change->has_set)
            printer_number(printer, "gauge_mm", change->set.string[s - 1].build.gauge_mm);
        print_string(&what_if.string[s], printer);
    }
    return STATUS_OK;
}
