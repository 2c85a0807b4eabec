/* SPDX-License-Identifier: MIT */
#include "run/sheet_keep.h"

#include "commands/report.h"
#include "commands/sheet_file.h"
#include "run/beside.h"

static const struct beside_kind drawn_sheet = {"sheets", ".pdf", "/Creator (sillet)", "sheet"};
static const struct beside_kind text_sheet = {"sheets", ".txt", "Set-up sheet", "sheet"};

static enum status make(const struct app *app, bool utf8, struct bytes *bytes, struct strbuf *words)
{
    const struct sheet_document document = {.record = &app->record,
                                            .visit = app->visit,
                                            .units = &app->units,
                                            .format = sheet_file_can_draw() ? SHEET_FORMAT_PDF
                                                                            : SHEET_FORMAT_TEXT,
                                            .utf8 = utf8};
    const enum status status = sheet_file_make(&document, bytes);

    if (status == STATUS_OK)
        return status;
    strbuf_add(words, "No sheet: ");
    if (status == STATUS_NOT_FOUND)
        strbuf_add(words, "nothing of this visit is on file yet");
    else
        report_words(status, 0, words);
    strbuf_add_char(words, '.');
    return status;
}

enum status sheet_keep(const struct app *app, const char *profile_path, bool utf8,
                       struct strbuf *words)
{
    const struct beside beside = {.kind = sheet_file_can_draw() ? &drawn_sheet : &text_sheet,
                                  .profile_path = profile_path,
                                  .record = &app->record,
                                  .visit = app->visit,
                                  .today = app->today};
    struct bytes bytes;

    bytes_init(&bytes);
    enum status status = make(app, utf8, &bytes, words);
    if (status == STATUS_OK) {
        char memory[APP_MESSAGE_MAX];
        struct strbuf said = STRBUF(memory);

        status = beside_put(&beside, &bytes, &said);
        strbuf_add(words, status == STATUS_OK ? "The sheet is in " : "");
        strbuf_add(words, memory);
        strbuf_add(words, status == STATUS_OK ? " beside the profile." : "");
    }
    bytes_done(&bytes);
    return status;
}
