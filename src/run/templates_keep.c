/* SPDX-License-Identifier: MIT */
#include "run/templates_keep.h"

#include "commands/layout_file.h"
#include "commands/report.h"
#include "run/beside.h"

static const struct beside_kind templates = {"templates", ".pdf", "/Creator (sillet)", "templates"};

static enum status refuse(enum status status, const char *missing, struct strbuf *words)
{
    strbuf_add(words, "No templates: ");
    if (status == STATUS_NOT_FOUND)
        strbuf_add(words, "this sillet is without cairo, which draws them");
    else if (status == STATUS_ABSENT && missing[0])
        strbuf_addf(words, "missing for %s", missing);
    else if (status == STATUS_ABSENT)
        strbuf_add(words, "no pass of this visit asks for a neck reset");
    else
        report_words(status, 0, words);
    strbuf_add_char(words, '.');
    return status;
}

static enum status put(const struct app *app, const char *profile_path, const struct bytes *bytes,
                       const char *missing, struct strbuf *words)
{
    const struct beside beside = {.kind = &templates,
                                  .profile_path = profile_path,
                                  .record = &app->record,
                                  .visit = app->visit,
                                  .today = app->today};
    char memory[APP_MESSAGE_MAX];
    struct strbuf said = STRBUF(memory);
    const enum status status = beside_put(&beside, bytes, &said);

    if (status != STATUS_OK)
        strbuf_add(words, memory);
    else if (missing[0])
        strbuf_addf(words, "In %s; missing for %s.", memory, missing);
    else
        strbuf_addf(words, "The templates are in %s.", memory);
    return status;
}

enum status templates_keep(const struct app *app, const char *profile_path, struct strbuf *words)
{
    char memory[APP_MESSAGE_MAX];
    struct strbuf missing = STRBUF(memory);
    struct bytes bytes;

    memory[0] = '\0';
    if (!layout_file_can_draw())
        return refuse(STATUS_NOT_FOUND, "", words);
    bytes_init(&bytes);
    enum status status = layout_file_make_reset(app_place(app), &bytes, &missing);
    status = status == STATUS_OK ? put(app, profile_path, &bytes, memory, words)
                                 : refuse(status, memory, words);
    bytes_done(&bytes);
    return status;
}
