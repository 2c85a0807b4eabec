/* SPDX-License-Identifier: MIT */
#include "cli/sheet_keep.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "cli/report.h"
#include "cli/sheet_file.h"
#include "store/paths.h"
#include "store/safefile.h"

static const char *date_of(const struct sheet_keeping *keeping, int visit)
{
    const struct reading_key key = reading_key_visit(FIELD_VISIT_DATE, visit);
    const struct reading *date = record_get(keeping->record, &key);

    return date && date->value.state != READING_BAD ? date->text : NULL;
}

static bool is_second_of_day(const struct sheet_keeping *keeping, const char *date)
{
    for (int visit = 1; visit < keeping->visit; visit++) {
        const char *other = date_of(keeping, visit);

        if (other && strcmp(other, date) == 0)
            return true;
    }
    return false;
}

/* "parlour-2026-07-06.pdf". */
static void add_name(const struct sheet_keeping *keeping, const char *ending, struct strbuf *out)
{
    const char *slash = strrchr(keeping->profile_path, '/');
    const char *name = slash ? slash + 1 : keeping->profile_path;
    const char *dot = strrchr(name, '.');
    const char *date = date_of(keeping, keeping->visit);

    strbuf_add_bytes(out, name, dot && dot > name ? (size_t)(dot - name) : strlen(name));
    strbuf_addf(out, "-%s", date ? date : keeping->today);
    if (date && is_second_of_day(keeping, date))
        strbuf_addf(out, "-%d", keeping->visit);
    strbuf_add(out, ending);
}

/* The folder beside the profile, made where it is missing; to be freed, NULL after a failure. */
static enum status make_folder(const struct sheet_keeping *keeping, char **ret_folder)
{
    const char *slash = strrchr(keeping->profile_path, '/');
    const size_t length = slash ? (size_t)(slash - keeping->profile_path) + 1 : 0;
    char *folder = malloc(length + sizeof "sheets");

    if (!folder)
        return STATUS_NO_MEMORY;
    memcpy(folder, keeping->profile_path, length);
    memcpy(folder + length, "sheets", sizeof "sheets");
    const enum status status = paths_make_folder(folder);
    if (status != STATUS_OK)
        free(folder);
    else
        *ret_folder = folder;
    return status;
}

static enum status write_document(const struct sheet_keeping *keeping, const char *name,
                                  const struct bytes *bytes)
{
    char *folder, *path;
    enum status status = make_folder(keeping, &folder);

    if (status != STATUS_OK)
        return status;
    path = paths_join(folder, name);
    status =
        path ? safefile_put(path, SAFEFILE_REPLACE, bytes->data, bytes->length) : STATUS_NO_MEMORY;
    const int error = errno;
    free(path);
    free(folder);
    errno = error;
    return status;
}

static void tell(enum status status, int error, const char *name, struct strbuf *words)
{
    if (status == STATUS_OK) {
        strbuf_add(words, "The sheet is in sheets/");
        strbuf_add(words, shown_string(name).text);
        strbuf_add(words, " beside the profile.");
        return;
    }
    strbuf_add(words, "No sheet: ");
    if (status == STATUS_NOT_FOUND && error == 0)
        strbuf_add(words, "nothing of this visit is on file yet");
    else
        report_words(status, error, words);
    strbuf_add_char(words, '.');
}

enum status sheet_keep(const struct sheet_keeping *keeping, struct strbuf *words)
{
    const bool drawn = sheet_file_can_draw();
    const struct sheet_document document = {.record = keeping->record,
                                            .visit = keeping->visit,
                                            .units = keeping->units,
                                            .format = drawn ? SHEET_FORMAT_PDF : SHEET_FORMAT_TEXT,
                                            .utf8 = keeping->utf8};
    char memory[512];
    struct strbuf name = STRBUF(memory);
    struct bytes bytes;

    add_name(keeping, drawn ? ".pdf" : ".txt", &name);
    bytes_init(&bytes);
    enum status status = sheet_file_make(&document, &bytes);
    errno = 0;
    if (status == STATUS_OK)
        status = name.truncated ? STATUS_TOO_LONG : write_document(keeping, memory, &bytes);
    tell(status, errno, memory, words);
    bytes_done(&bytes);
    return status;
}
