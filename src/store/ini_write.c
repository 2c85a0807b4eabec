/* SPDX-License-Identifier: MIT */
#include "store/ini_write.h"

#include <stdlib.h>
#include <string.h>

#include "base/strbuf.h"
#include "store/ini_escape.h"

struct writer {
    struct bytes *out;
    size_t start; /* where this text starts in `out` */
    const char *line_end;
    bool after_backslash; /* a junk line below the last line would continue it */
    enum status status;
};

/* The last line of a file may have no end. */
static void end_line(struct writer *writer)
{
    const struct bytes *out = writer->out;

    if (out->length > writer->start && out->data[out->length - 1] != '\n')
        bytes_add_text(writer->out, writer->line_end);
}

static bool after_gap(const struct bytes *out, size_t start)
{
    size_t at = out->length;
    size_t newlines = 0;

    while (at > start && ini_is_blank(out->data[at - 1]))
        newlines += out->data[--at] == '\n';
    return newlines >= 2 || at == start;
}

static void add_gap(struct writer *writer)
{
    end_line(writer);
    if (!writer->out->failed && !after_gap(writer->out, writer->start))
        bytes_add_text(writer->out, writer->line_end);
}

void ini_write_gap(struct bytes *out, const char *line_end)
{
    struct writer writer = {.out = out, .line_end = line_end};

    add_gap(&writer);
}

/* Ends a key line with its value and `suffix`, then adds the further parts of a long value. */
static void add_value(struct writer *writer, const struct ini_edit *edit, const char *suffix,
                      const char *line_end)
{
    const size_t length = strlen(edit->value);
    size_t at = edit->spelled ? length : ini_escape(edit->value, length, writer->out);
    int part = 0;

    if (edit->spelled)
        bytes_add_text(writer->out, edit->value);
    if (*suffix && !ini_is_blank(*suffix))
        bytes_add_text(writer->out, " ");
    bytes_add_text(writer->out, suffix);
    bytes_add_text(writer->out, line_end);
    if (at < length && !edit->long_text)
        writer->status = STATUS_TOO_LONG;
    while (at < length && writer->status == STATUS_OK) {
        char memory[96];
        struct strbuf name = STRBUF(memory);

        strbuf_addf(&name, "%s.%d = ", edit->name, ++part);
        bytes_add_text(writer->out, memory);
        at += ini_escape(edit->value + at, length - at, writer->out);
        bytes_add_text(writer->out, line_end);
    }
}

static void add_key(struct writer *writer, const struct ini_edit *edit)
{
    end_line(writer);
    bytes_add_text(writer->out, edit->name);
    bytes_add_text(writer->out, " = ");
    add_value(writer, edit, "", writer->line_end);
}

static void add_section(struct writer *writer, const struct ini_edit *edit)
{
    add_gap(writer);
    bytes_add_text(writer->out, "[");
    bytes_add_text(writer->out, edit->name);
    bytes_add_text(writer->out, "]");
    bytes_add_text(writer->out, writer->line_end);
}

/* Copies the comment after a key's value, with the blanks before it; "" if there is none. */
static void copy_comment(const struct ini_line *line, char ret_comment[INI_LINE_MAX + 1])
{
    const char first = ini_line_rest(line);
    size_t length = 0;

    if (first == ';' || first == '#')
        length = (size_t)line->logical_length - line->rest_at;
    memcpy(ret_comment, line->logical + line->rest_at, length);
    ret_comment[length] = '\0';
}

static void replace_value(struct writer *writer, const struct ini_line *line,
                          const struct ini_edit *edit)
{
    char kept[INI_LINE_MAX + 1];
    const char *comment = kept, *line_end = writer->line_end;

    copy_comment(line, kept);
    if (line->end_length > 0)
        line_end = line->end_length == 2 ? "\r\n" : "\n";
    end_line(writer);
    /* If the two together could be too long, the comment moves above the line. */
    if (line->value_at + strlen(comment) + INI_VALUE_MAX + 4 > INI_LINE_MAX) {
        while (ini_is_blank(*comment))
            comment++;
        bytes_add_text(writer->out, comment);
        if (*comment)
            bytes_add_text(writer->out, line_end);
        bytes_add_text(writer->out, edit->name);
        bytes_add_text(writer->out, " = ");
        comment = "";
    } else {
        bytes_add(writer->out, line->logical, line->value_at);
        if (line->value_at > 1 && line->logical[line->value_at - 1] == '=' &&
            ini_is_blank(line->logical[line->value_at - 2]))
            bytes_add_text(writer->out, " ");
    }
    add_value(writer, edit, comment, line_end);
}

static void copy_line(struct writer *writer, const struct ini_line *line)
{
    end_line(writer);
    /* The lines between them were removed. */
    if (writer->after_backslash && line->kind == INI_JUNK)
        bytes_add_text(writer->out, writer->line_end);
    bytes_add(writer->out, line->bytes, line->length + line->end_length);
    writer->after_backslash = line->final_backslash;
}

static int rank(enum ini_edit_kind kind)
{
    return kind == INI_ADD ? 0 : kind == INI_ADD_SECTION || kind == INI_ADD_BELOW ? 1 : 2;
}

/* Additions in front of a line come before an edit of the line itself. */
static int compare_edits(const void *a, const void *b)
{
    const struct ini_edit *x = a;
    const struct ini_edit *y = b;

    if (x->at != y->at)
        return x->at < y->at ? -1 : 1;
    if (rank(x->kind) != rank(y->kind))
        return rank(x->kind) < rank(y->kind) ? -1 : 1;
    return x->order < y->order ? -1 : x->order > y->order;
}

static void add_edit(struct writer *writer, const struct ini_edit *edit)
{
    writer->after_backslash = false;
    if (edit->kind == INI_ADD_SECTION)
        add_section(writer, edit);
    else
        add_key(writer, edit);
}

/* Writes line i, changed by `edit` unless that is NULL. Returns the index of the next line. */
static size_t write_line(struct writer *writer, const struct ini_text *text, size_t i,
                         const struct ini_edit *edit)
{
    const struct ini_line *line = &text->lines[i];

    if (!edit) {
        copy_line(writer, line);
        return i + 1;
    }
    if (edit->kind == INI_REPLACE) {
        replace_value(writer, line, edit);
        writer->after_backslash = false;
    }
    for (i++; i < text->line_count && text->lines[i].kind == INI_CONTINUATION; i++)
        ;
    return i;
}

enum status ini_write(const struct ini_text *text, struct ini_edit *edits, size_t count,
                      struct bytes *out)
{
    struct writer writer = {.out = out, .start = out->length, .line_end = ini_text_line_end(text)};
    size_t e = 0;

    if (count > 0)
        qsort(edits, count, sizeof edits[0], compare_edits);
    for (size_t i = 0; i < text->line_count;) {
        const struct ini_edit *own = NULL;

        while (e < count && edits[e].at <= i && rank(edits[e].kind) < 2)
            add_edit(&writer, &edits[e++]);
        while (e < count && edits[e].at == i)
            own = &edits[e++];
        i = write_line(&writer, text, i, own);
    }
    for (; e < count; e++)
        if (rank(edits[e].kind) < 2)
            add_edit(&writer, &edits[e]);
    return writer.status != STATUS_OK ? writer.status : bytes_status(out);
}
