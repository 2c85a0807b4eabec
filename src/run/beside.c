/* SPDX-License-Identifier: MIT */
#include "run/beside.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "commands/report.h"
#include "store/file_read.h"
#include "store/paths.h"
#include "store/safefile.h"

/* A long name is cut to this, to leave room for the date. */
enum { NAME_BYTES_MAX = 220 };

static const char *date_of(const struct beside *beside, int visit)
{
    const struct reading_key key = reading_key_visit(FIELD_VISIT_DATE, visit);
    const struct reading *date = record_get(beside->record, &key);

    return date && date->value.state != READING_BAD ? date->text : NULL;
}

static bool is_second_of_day(const struct beside *beside, const char *date)
{
    for (int visit = 1; visit < beside->visit; visit++) {
        const char *other = date_of(beside, visit);

        if (other && strcmp(other, date) == 0)
            return true;
    }
    return false;
}

/* "parlour-2026-07-06.pdf". */
static void add_name(const struct beside *beside, struct strbuf *out)
{
    const char *name = paths_name_of(beside->profile_path);
    const char *dot = strrchr(name, '.');
    const char *date = date_of(beside, beside->visit);
    const size_t length = dot && dot > name ? (size_t)(dot - name) : strlen(name);

    strbuf_add_bytes(out, name, length < NAME_BYTES_MAX ? length : NAME_BYTES_MAX);
    strbuf_addf(out, "-%s", date ? date : beside->today);
    if (date && is_second_of_day(beside, date))
        strbuf_addf(out, "-%d", beside->visit);
    strbuf_add(out, beside->kind->ending);
}

/* The path of the folder beside the profile, made if it is missing. The caller frees it; NULL after
 * a failure. */
static enum status make_folder(const struct beside *beside, const struct share *share,
                               char **ret_folder)
{
    char *around = paths_folder_of(beside->profile_path);
    char *folder = around ? paths_join(around, beside->kind->folder) : NULL;

    free(around);
    if (!folder)
        return STATUS_NO_MEMORY;
    const enum status status = share_make_folder(folder, share);
    if (status != STATUS_OK)
        free(folder);
    else
        *ret_folder = folder;
    return status;
}

static bool has_mark(const struct bytes *bytes, const char *mark)
{
    const size_t length = strlen(mark);

    for (size_t at = 0; at + length <= bytes->length; at++)
        if (memcmp(bytes->data + at, mark, length) == 0)
            return true;
    return false;
}

/* Whether a new one may be written there: there is nothing, or an older one. */
static bool may_replace(const char *path, const char *mark)
{
    struct bytes bytes;
    const enum status status = file_read_own(path, FILE_BYTES_MAX, &bytes);

    if (status != STATUS_OK)
        return status == STATUS_NOT_FOUND;
    const bool own = has_mark(&bytes, mark);
    bytes_done(&bytes);
    return own;
}

static enum status write_document(const struct beside *beside, const char *name,
                                  const struct bytes *bytes)
{
    const struct share share = share_of(beside->profile_path);
    char *folder, *path;
    enum status status = make_folder(beside, &share, &folder);

    if (status != STATUS_OK)
        return status;
    path = paths_join(folder, name);
    if (!path)
        status = STATUS_NO_MEMORY;
    else if (!may_replace(path, beside->kind->mark))
        status = STATUS_CHANGED;
    else
        status = safefile_put(path, SAFEFILE_OWN, &share, bytes->data, bytes->length, NULL);
    const int error = errno;
    free(path);
    free(folder);
    errno = error;
    return status;
}

static void tell_failure(const struct beside_kind *kind, enum status status, int error,
                         const char *name, struct strbuf *words)
{
    strbuf_addf(words, "No %s: ", kind->what);
    if (status == STATUS_CHANGED)
        strbuf_addf(words, "%s/%s was not made by sillet; move it away", kind->folder,
                    shown_string(name).text);
    else if (status == STATUS_NOT_REGULAR)
        strbuf_addf(words, "%s is not a folder here, or is a link; move it away", kind->folder);
    else
        report_words(status, error, words);
    strbuf_add_char(words, '.');
}

enum status beside_put(const struct beside *beside, const struct bytes *bytes, struct strbuf *words)
{
    char memory[512];
    struct strbuf name = STRBUF(memory);

    add_name(beside, &name);
    errno = 0;
    const enum status status =
        name.truncated ? STATUS_TOO_LONG : write_document(beside, memory, bytes);
    if (status != STATUS_OK)
        tell_failure(beside->kind, status, errno, memory, words);
    else
        strbuf_addf(words, "%s/%s", beside->kind->folder, shown_string(memory).text);
    return status;
}
