/* SPDX-License-Identifier: MIT */
#include "run/sheet_keep.h"

#include "commands/report.h"
#include "commands/sheet_file.h"
#include "run/beside.h"

/* A paper: what is made, and what it is called as PDF and as text. */
struct kept_paper {
    enum sheet_paper_kind kind;
    struct beside_kind drawn, plain;
    const char *before; /* what is said first; NULL: nothing */
};

static const struct kept_paper *paper_of(enum app_paper paper)
{
    static const char drawn[] = "/Creator (sillet)";
    static const struct kept_paper papers[] = {
        [PAPER_SHEET] = {SHEET_FOR_OWNER,
                         {"sheets", ".pdf", drawn, "sheet"},
                         {"sheets", ".txt", "Set-up sheet", "sheet"},
                         NULL},
        [PAPER_HANDED_OVER] = {SHEET_FOR_OWNER,
                               {"sheets", ".pdf", drawn, "sheet"},
                               {"sheets", ".txt", "Set-up sheet", "sheet"},
                               "Handed over today. "},
        [PAPER_ESTIMATE] = {SHEET_ESTIMATE,
                            {"sheets", "-estimate.pdf", drawn, "estimate"},
                            {"sheets", "-estimate.txt", "Estimate", "estimate"},
                            NULL},
        [PAPER_CARD] = {SHEET_CARD,
                        {"sheets", "-card.pdf", drawn, "card"},
                        {"sheets", "-card.txt", "Bench card", "card"},
                        NULL},
        [PAPER_LABEL] = {SHEET_LABEL,
                         {"sheets", "-label.pdf", drawn, "label"},
                         {"sheets", "-label.txt", "", "label"},
                         NULL},
    };

    return &papers[paper];
}

static enum status make(const struct app *app, const struct kept_paper *paper, bool utf8,
                        struct bytes *bytes, struct strbuf *words)
{
    const struct sheet_document document = {.record = &app->record,
                                            .visit = app->visit,
                                            .units = &app->units,
                                            .format = sheet_file_can_draw() ? SHEET_FORMAT_PDF
                                                                            : SHEET_FORMAT_TEXT,
                                            .kind = paper->kind,
                                            .label = LABEL_MEDIUM,
                                            .utf8 = utf8};
    const enum status status = sheet_file_make(&document, bytes);

    if (status == STATUS_OK)
        return status;
    strbuf_addf(words, "No %s: ", paper->drawn.what);
    if (status == STATUS_NOT_FOUND && paper->kind == SHEET_LABEL && !sheet_file_can_draw())
        strbuf_add(words, "this sillet is without cairo, which draws it");
    else if (status == STATUS_NOT_FOUND)
        strbuf_add(words, "nothing of this visit is on file yet");
    else
        report_words(status, 0, words);
    strbuf_add_char(words, '.');
    return status;
}

enum status sheet_keep(const struct app *app, enum app_paper asked, const char *profile_path,
                       bool utf8, struct strbuf *words)
{
    const struct kept_paper *paper = paper_of(asked);
    const struct beside beside = {.kind = sheet_file_can_draw() ? &paper->drawn : &paper->plain,
                                  .profile_path = profile_path,
                                  .record = &app->record,
                                  .visit = app->visit,
                                  .today = app->today};
    struct bytes bytes;

    strbuf_add(words, paper->before ? paper->before : "");
    bytes_init(&bytes);
    enum status status = make(app, paper, utf8, &bytes, words);
    if (status == STATUS_OK) {
        char memory[APP_MESSAGE_MAX];
        struct strbuf said = STRBUF(memory);

        status = beside_put(&beside, &bytes, &said);
        if (status == STATUS_OK)
            strbuf_addf(words, "The %s is in ", paper->drawn.what);
        strbuf_add(words, memory);
        strbuf_add(words, status == STATUS_OK ? "." : "");
    }
    bytes_done(&bytes);
    return status;
}
