/* SPDX-License-Identifier: MIT */
#include "golden.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "near.h"

enum { ROW_MAX = 4 * FRAME_COLUMNS_MAX };

static void path_of(const char *name, char *path, size_t size)
{
    assert_true(snprintf(path, size, "%s/%s.frame", SILLET_FRAMES, name) < (int)size);
}

static void write_roles(const struct frame *frame, int row, FILE *out)
{
    char roles[ROW_MAX];
    size_t length = frame_row_roles(frame, row, roles, sizeof roles);

    while (length > 0 && roles[length - 1] == ' ')
        length--;
    fprintf(out, "|%.*s\n", (int)length, roles);
}

static char *spell(const struct frame *frame)
{
    char *text = NULL;
    size_t size;
    FILE *out = open_memstream(&text, &size);

    assert_non_null(out);
    fprintf(out, "%dx%d, cursor in row %d, column %d\n", frame->columns, frame->rows,
            frame->cursor_row, frame->cursor_column);
    for (int row = 0; row < frame->rows; row++) {
        char line[ROW_MAX];

        frame_row_text(frame, row, line, sizeof line);
        fprintf(out, "|%s\n", line);
    }
    fputs("roles\n", out);
    for (int row = 0; row < frame->rows; row++)
        write_roles(frame, row, out);
    assert_int_equal(fclose(out), 0);
    return text;
}

static char *read_kept(const char *name)
{
    char path[4096], *text = NULL;
    size_t size;

    path_of(name, path, sizeof path);
    FILE *file = fopen(path, "r");
    if (!file)
        fail_msg("%s: %s; GENERATE=1 writes it", path, strerror(errno));
    FILE *out = open_memstream(&text, &size);
    for (int c = getc(file); c != EOF; c = getc(file))
        putc(c, out);
    fclose(file);
    fclose(out);
    return text;
}

static void write_kept(const char *name, const char *text)
{
    char path[4096];

    path_of(name, path, sizeof path);
    FILE *file = fopen(path, "w");
    if (!file)
        fail_msg("%s: %s", path, strerror(errno));
    fputs(text, file);
    assert_int_equal(fclose(file), 0);
}

/* The next line of a text, past its end an empty one. */
static const char *take_line(const char **text, size_t *ret_length)
{
    const char *line = *text;

    *ret_length = strcspn(line, "\n");
    *text = line + *ret_length + (line[*ret_length] == '\n');
    return line;
}

static void print_difference(const char *kept, const char *now)
{
    for (int number = 1; *kept || *now; number++) {
        size_t kept_length, now_length;
        const char *kept_line = take_line(&kept, &kept_length);
        const char *now_line = take_line(&now, &now_length);

        if (kept_length == now_length && memcmp(kept_line, now_line, now_length) == 0)
            continue;
        print_error("%3d - %.*s\n", number, (int)kept_length, kept_line);
        print_error("%3d + %.*s\n", number, (int)now_length, now_line);
    }
}

void golden_check(const struct frame *frame, const char *name)
{
    const char *generate = getenv("GENERATE");
    char *now = spell(frame);

    if (generate && strcmp(generate, "1") == 0) {
        write_kept(name, now);
    } else {
        char *kept = read_kept(name);
        const int differs = strcmp(kept, now);

        if (differs)
            print_difference(kept, now);
        free(kept);
        if (differs) {
            free(now);
            fail_msg("%s.frame is another screen; GENERATE=1 accepts the new one", name);
        }
    }
    free(now);
}
