/* SPDX-License-Identifier: MIT */
#include "run/sheet_keep.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "commands/report.h"
#include "commands/sheet_file.h"
#include "store/file_read.h"
#include "store/paths.h"
#include "store/safefile.h"

/* A long name is cut to this, to leave room for the date. */
enum { NAME_BYTES_MAX = 220 };

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
    const char *name = paths_name_of(keeping->profile_path);
    const char *dot = strrchr(name, '.');
    const char *date = date_of(keeping, keeping->visit);
    const size_t length = dot && dot > name ? (size_t)(dot - name) : strlen(name);

    strbuf_add_bytes(out, name, length < NAME_BYTES_MAX ? length : NAME_BYTES_MAX);
    strbuf_addf(out, "-%s", date ? date : keeping->today);
    if (date && is_second_of_day(keeping, date))
        strbuf_addf(out, "-%d", keeping->visit);
    strbuf_add(out, ending);
}

/* The path of the folder beside the profile, made if it is missing. The caller frees it; NULL after
 * a failure. */
static enum status make_folder(const struct sheet_keeping *keeping, const struct share *share,
                               char **ret_folder)
{
    char *beside = paths_folder_of(keeping->profile_path);
    char *folder = beside ? paths_join(beside, "sheets") : NULL;

    free(beside);
    if (!folder)
        return STATUS_NO_MEMORY;
    const enum status status = share_make_folder(folder, share);
    if (status != STATUS_OK)
        free(folder);
    else
        *ret_folder = folder;
    return status;
}

/* Recognises a sheet by a mark that the program writes into all of them. */
static bool has_mark(const struct bytes *bytes, bool drawn)
{
    const char *const mark = drawn ? "/Creator (sillet)" : "Set-up sheet";
    const size_t length = strlen(mark);

    for (size_t at = 0; at + length <= bytes->length; at++)
        if (memcmp(bytes->data + at, mark, length) == 0)
            return true;
    return false;
}

/* Whether a new sheet may be written there: there is nothing, or an older sheet. */
static bool is_sheet(const char *path, bool drawn)
{
    struct bytes bytes;
    const enum status status = file_read_own(path, FILE_BYTES_MAX, &bytes);

    if (status != STATUS_OK)
        return status == STATUS_NOT_FOUND;
    const bool sheet = has_mark(&bytes, drawn);
    bytes_done(&bytes);
    return sheet;
}

static enum status write_document(const struct sheet_keeping *keeping, const char *name, bool drawn,
                                  const struct bytes *bytes)
{
    const struct share share = share_of(keeping->profile_path);
    char *folder, *path;
    enum status status = make_folder(keeping, &share, &folder);

    if (status != STATUS_OK)
        return status;
    path = paths_join(folder, name);
    if (!path)
        status = STATUS_NO_MEMORY;
    else if (!is_sheet(path, drawn))
        status = STATUS_CHANGED;
    else
        status = safefile_put(path, SAFEFILE_OWN, &share, bytes->data, bytes->length, NULL);
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
    else if (status == STATUS_CHANGED)
        strbuf_addf(words, "sheets/%s was not made by sillet; move it away",
                    shown_string(name).text);
    else if (status == STATUS_NOT_REGULAR)
        strbuf_add(words, "sheets is not a folder here, or is a link; move it away");
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
        status = name.truncated ? STATUS_TOO_LONG : write_document(keeping, memory, drawn, &bytes);
    tell(status, errno, memory, words);
    bytes_done(&bytes);
    return status;
}
