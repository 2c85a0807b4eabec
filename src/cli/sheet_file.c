/* SPDX-License-Identifier: MIT */
#include "cli/sheet_file.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "cli/shop_settings.h"
#include "sheet/sheet_make.h"
#include "sheet/sheet_text.h"
#include "store/safefile.h"

static const char *said(const char *text)
{
    return text[0] ? text : NULL;
}

static enum status make_sheet(const struct sheet_document *document,
                              const struct shop_letterhead *letterhead, struct sheet *ret_sheet)
{
    const struct sheet_ask ask = {.visit = document->visit,
                                  .units = *document->units,
                                  .shop = said(letterhead->name),
                                  .address = said(letterhead->address),
                                  .contact = said(letterhead->contact)};

    return sheet_make(document->record, &ask, ret_sheet);
}

static enum status add_text(const struct sheet *sheet, bool utf8, struct bytes *bytes)
{
    char *text;
    const enum status status = sheet_write_text(sheet, utf8, &text);

    if (status != STATUS_OK)
        return status;
    bytes_add_text(bytes, text);
    free(text);
    return bytes_status(bytes);
}

enum status sheet_file_make(const struct sheet_document *document, struct bytes *ret_bytes)
{
    const struct shop_letterhead letterhead = shop_settings_letterhead();
    struct sheet sheet;
    enum status status = make_sheet(document, &letterhead, &sheet);

    if (status != STATUS_OK)
        return status;
    status = add_text(&sheet, document->utf8, ret_bytes);
    sheet_done(&sheet);
    return status;
}

enum status sheet_file_write(const char *path, const struct bytes *bytes)
{
    struct safefile file;
    const enum status status = safefile_begin(path, SAFEFILE_REPLACE, &file);

    if (status != STATUS_OK)
        return status;
    safefile_write(&file, bytes->data, bytes->length);
    return safefile_commit(&file);
}
