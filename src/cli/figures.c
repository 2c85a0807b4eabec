/* SPDX-License-Identifier: MIT */
#include "cli/figures.h"

#include <errno.h>
#include <stdbool.h>

#include "base/num.h"

/* Prints section headings only in front of a first line, so that none stands empty. */
struct printer {
    FILE *out;
    char heading[48];
    bool pending, any;
};

static void begin_section(struct printer *printer, const char *name, int string)
{
    struct strbuf heading = STRBUF(printer->heading);

    strbuf_add(&heading, name);
    if (string > 0)
        strbuf_addf(&heading, ".%d", string);
    printer->pending = true;
}

static void print_line(struct printer *printer, const char *key, const char *value)
{
    if (printer->pending)
        fprintf(printer->out, "%s[%s]\n", printer->any ? "\n" : "", printer->heading);
    printer->pending = false;
    printer->any = true;
    fprintf(printer->out, "%s = %s\n", key, value);
}

static void print_figure(struct printer *printer, const struct figures *figures,
                         enum figure_id id, int string, bool uncertainty)
{
    const struct figure *figure = &figures->at[id][string];
    char key_memory[64], value_memory[32];
    struct strbuf key = STRBUF(key_memory), value = STRBUF(value_memory);

    if (figure->known == KNOWN_ABSENT)
        return;
    figure_key(id, uncertainty, &key);
    num_format((uncertainty ? figure->u : figure->value) * figure_info(id)->factor, &value);
    print_line(printer, key_memory, value_memory);
}

static void print_section(struct printer *printer, const struct figures *figures,
                          enum figure_section section, int string)
{
    for (int pass = 0; pass < 2; pass++)
        for (int id = 0; id < FIGURE_COUNT_; id++) {
            const struct figure_info *info = figure_info((enum figure_id)id);

            if (info->section == section && (pass == 0 || info->printed_u))
                print_figure(printer, figures, (enum figure_id)id, string, pass == 1);
        }
}

static void print_findings(const struct findings *findings, FILE *out)
{
    for (int i = 0; i < findings->count; i++) {
        char memory[200];
        struct strbuf words = STRBUF(memory);

        finding_words(&findings->list[i], &words);
        fprintf(out, "; %s: %s\n", finding_name(findings->list[i].id), memory);
    }
    if (findings->count > 0)
        fputc('\n', out);
}

/* One figure by fret: "fret.7 = ...". */
static void print_fret(struct printer *printer, const char *name, int fret, double value)
{
    char key_memory[32], value_memory[32];
    struct strbuf key = STRBUF(key_memory), text = STRBUF(value_memory);

    strbuf_addf(&key, "%s.%d", name, fret);
    num_format(value, &text);
    print_line(printer, key_memory, value_memory);
}

static void print_pitch(struct printer *printer, const struct derived *derived, int string)
{
    const struct fret_pitch *pitch = &derived->pitch[string];

    begin_section(printer, "pitch", string);
    for (int n = 1; n <= derived->setup.board.frets; n++)
        if (pitch->known[n])
            print_fret(printer, "fret", n, pitch->cents[n]);
}

static void print_clearance(struct printer *printer, const struct derived *derived, int string)
{
    const struct fret_clearance *clearance = &derived->clearance[string];

    begin_section(printer, "clearance", string);
    for (int n = 0; n < derived->setup.board.frets; n++)
        if (clearance->known[n])
            print_fret(printer, "fret", n, clearance->headroom_mm[n]);
    for (int n = 0; n < derived->setup.board.frets; n++)
        if (clearance->known[n])
            print_fret(printer, "at", n, clearance->at[n]);
}

static void print_string(struct printer *printer, const struct derived *derived, int string)
{
    print_pitch(printer, derived, string);
    print_clearance(printer, derived, string);
    begin_section(printer, figure_section_name(FIGURE_SECTION_STRING), string);
    print_section(printer, &derived->figures, FIGURE_SECTION_STRING, string);
}

void figures_print(const struct derived *derived, FILE *out)
{
    struct printer printer = {.out = out};

    print_findings(&derived->findings, out);
    for (int section = 0; section < FIGURE_SECTION_COUNT_; section++) {
        if (section == FIGURE_SECTION_STRING) {
            for (int s = 1; s <= derived->setup.board.strings; s++)
                print_string(&printer, derived, s);
            continue;
        }
        begin_section(&printer, figure_section_name((enum figure_section)section), 0);
        if (section == FIGURE_SECTION_RESET && reset_verdict_name(derived->verdict))
            print_line(&printer, "verdict", reset_verdict_name(derived->verdict));
        print_section(&printer, &derived->figures, (enum figure_section)section, 0);
    }
}

static bool has_fault(const struct findings *findings)
{
    for (int i = 0; i < findings->count; i++)
        if (finding_weight(findings->list[i].id) == WEIGHT_FAULT)
            return true;
    return false;
}

enum exit_code figures_command(const char *path)
{
    struct profile_problems problems;
    struct profile *profile = NULL;
    enum exit_code code = EXIT_CANNOT;

    profile_problems_init(&problems);
    errno = 0;
    const enum status status = profile_open(path, PROFILE_TO_READ, &problems, &profile);
    report_problems(path, &problems, PROBLEM_ERROR, stderr);
    if (status == STATUS_OK) {
        struct derived derived;

        derive_current(profile_record(profile), &derived);
        figures_print(&derived, stdout);
        code = problems.errors > 0 || has_fault(&derived.findings) ? EXIT_FINDINGS : EXIT_GOOD;
        if (fflush(stdout) != 0 || ferror(stdout)) {
            report_failure("standard output", STATUS_IO, errno, stderr);
            code = EXIT_CANNOT;
        }
    } else {
        report_failure(path, status, errno, stderr);
    }
    profile_close(profile);
    profile_problems_done(&problems);
    return code;
}
