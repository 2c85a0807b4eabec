/* SPDX-License-Identifier: MIT */
#include "commands/layout_file.h"

#include <stdlib.h>

#include "commands/layout_pages.h"
#include "model/derive/asked.h"

bool layout_file_can_draw(void)
{
    return page_can_write();
}

/* Adds one template, or what it lacks to `missing`. */
static enum status add(struct layout_drawings *drawings, enum template_kind kind,
                       struct place place, const struct derived *derived, struct strbuf *missing)
{
    char memory[800];
    struct strbuf lacks = STRBUF(memory);
    const enum status status = layout_add(drawings, kind, place, derived, &lacks);

    if (status != STATUS_ABSENT)
        return status;
    if (missing->length > 0)
        strbuf_add(missing, "; ");
    strbuf_addf(missing, "%s: ", template_name(kind));
    strbuf_add(missing, memory);
    return STATUS_OK;
}

static enum status add_all(struct layout_drawings *drawings, struct place place,
                           const struct derived *derived, struct strbuf *missing)
{
    enum status status = STATUS_OK;

    for (int k = 0; k < TEMPLATE_COUNT_ && status == STATUS_OK; k++) {
        const enum template_kind kind = (enum template_kind)k;

        if (template_is_of_reset(kind) && template_applies(kind, &place.record, derived))
            status = add(drawings, kind, place, derived, missing);
    }
    return status;
}

enum status layout_file_make_reset(struct place from, struct bytes *ret_bytes,
                                   struct strbuf *missing)
{
    struct layout_drawings drawings = {.count = 0};
    struct page_bytes made = {.data = NULL};
    struct derived derived;
    struct place asked;

    if (!asked_for_reset(from, &asked, &derived))
        return STATUS_ABSENT;
    enum status status = add_all(&drawings, asked, &derived, missing);
    if (status == STATUS_OK && drawings.count == 0)
        status = STATUS_ABSENT;
    if (status == STATUS_OK)
        status =
            layout_make_bytes(&asked.record, &drawings, false, (struct page_size){0, 0}, &made);
    layout_drawings_free(&drawings);
    if (status != STATUS_OK)
        return status;
    bytes_add(ret_bytes, (const char *)made.data, made.length);
    free(made.data);
    return bytes_status(ret_bytes);
}
