/* SPDX-License-Identifier: MIT */
#include "commands/printer.h"

#include "base/num.h"
#include "base/strbuf.h"
#include "commands/csv.h"

void printer_begin(struct printer *printer, const char *name, int first, int second)
{
    struct strbuf heading = STRBUF(printer->heading);

    strbuf_add(&heading, name);
    if (first > 0)
        strbuf_addf(&heading, ".%d", first);
    if (second > 0)
        strbuf_addf(&heading, ".%d", second);
    printer->pending = true;
}

void printer_text(struct printer *printer, const char *key, const char *text)
{
    if (printer->pending)
        fprintf(printer->out, "%s[%s]\n", printer->any ? "\n" : "", printer->heading);
    printer->pending = false;
    printer->any = true;
    fprintf(printer->out, "%s = %s\n", key, text);
}

void printer_number(struct printer *printer, const char *key, double value)
{
    char memory[32];
    struct strbuf text = STRBUF(memory);

    num_format(value, &text);
    printer_text(printer, key, memory);
}

void printer_entered(struct printer *printer, const char *key, struct maybe value)
{
    if (value.given)
        printer_number(printer, key, value.value);
}

void printer_number_at(struct printer *printer, const char *name, int at, const char *unit,
                       double value)
{
    char memory[64];
    struct strbuf key = STRBUF(memory);

    strbuf_addf(&key, "%s.%d%s", name, at, unit);
    printer_number(printer, memory, value);
}

void printer_frets(struct printer *printer, const char *key, uint64_t frets)
{
    char memory[160];
    struct strbuf text = STRBUF(memory);

    for (int n = 0; n <= FRETS_MAX; n++)
        if (frets >> n & 1)
            strbuf_addf(&text, "%s%d", text.length > 0 ? " " : "", n);
    if (text.length > 0)
        printer_text(printer, key, memory);
}

void printer_file(struct printer *printer, const char *path)
{
    char memory[4096];
    struct strbuf text = STRBUF(memory);

    csv_add_safe(path, &text);
    printer_begin(printer, "file", 0, 0);
    printer_text(printer, "name", memory);
}

void printer_findings(struct printer *printer, const struct findings *findings)
{
    if (findings->count > 0 && printer->any)
        fputc('\n', printer->out);
    for (int i = 0; i < findings->count; i++) {
        char memory[200];
        struct strbuf words = STRBUF(memory);

        finding_words(&findings->list[i], &words);
        fprintf(printer->out, "; %s: %s\n", finding_name(findings->list[i].id), memory);
        printer->any = true;
    }
}
