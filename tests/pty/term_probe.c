/* SPDX-License-Identifier: MIT */

/*
 * The smallest program on src/term, for tests: shows every event as text. Control keys
 * make it do things (see `commands`); all others are only shown.
 */
#include <locale.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/strbuf.h"
#include "base/utf8.h"
#include "term/term.h"

enum { LOG_BYTES = 4096, LOG_ROW = 2, EXIT_REFUSED = 3, EXIT_HANGUP = 5 };

enum page {
    PAGE_LOG,
    PAGE_TEXT,
    PAGE_ROLES,
    PAGE_OVERSIZE,
    PAGE_UNDERSIZE,
    PAGE_ONE_CELL,
    PAGE_CHANCE,
};

struct probe {
    enum page page;
    unsigned keys, resizes, resumes, ticks;
    uint32_t hash; /* FNV-1a over all keys: tells a lost key and a wrong order */
    uint32_t last;
    char log[LOG_BYTES];
    struct strbuf text;
    bool quit;
};

static const char *key_name(uint32_t key)
{
    static const char *const names[] = {
        "ENTER", "BACKSPACE", "DELETE", "ESCAPE",      "TAB",       "BACKTAB",   "UP",     "DOWN",
        "LEFT",  "RIGHT",     "HOME",   "END",         "PAGE_UP",   "PAGE_DOWN", "INSERT", "F1",
        "F2",    "F3",        "F4",     "F5",          "F6",        "F7",        "F8",     "F9",
        "F10",   "F11",       "F12",    "PASTE_BEGIN", "PASTE_END", "UNKNOWN"};
    return key >= SILLET_KEY_ENTER && key <= SILLET_KEY_UNKNOWN ? names[key - SILLET_KEY_ENTER]
                                                                : "NONE";
}

static void spell_key(uint32_t key, char *out, size_t size)
{
    if (key > 0x20 && key < 0x7F) {
        snprintf(out, size, "%c", (int)key);
    } else if (key == ' ') {
        snprintf(out, size, "SPACE");
    } else if (key < 0x20) {
        snprintf(out, size, "^%c", (int)(key + 0x40));
    } else if (key < SILLET_KEY_ENTER) {
        snprintf(out, size, "U+%04X", (unsigned)key);
    } else {
        snprintf(out, size, "%s", key_name(key));
    }
}

/* Deeper than any stack; the frame is used after the call, so that none is reused. */
static int overflow(volatile char *above, unsigned depth)
{
    volatile char big[4096];
    big[0] = (char)(above[0] + 1);
    return depth == 0 ? 0 : overflow(big, depth - 1) + big[0];
}

static void crash(struct probe *probe)
{
    /* Not NULL: a sanitizer would end the program before the signal does. */
    volatile int *volatile nowhere = (volatile int *)16;
    (void)probe;
    *nowhere = 1;
}

static void give_up(struct probe *probe)
{
    (void)probe;
    abort();
}

static void run_out_of_stack(struct probe *probe)
{
    char first = 0;
    probe->keys += (unsigned)overflow(&first, 1U << 30);
}

static void clear_log(struct probe *probe)
{
    strbuf_clear(&probe->text);
    probe->page = PAGE_LOG;
}

static void next_page(struct probe *probe)
{
    probe->page = (enum page)((probe->page + 1) % (PAGE_CHANCE + 1));
}

static void suspend(struct probe *probe)
{
    (void)probe;
    term_suspend();
}

static void repaint(struct probe *probe)
{
    (void)probe;
    term_repaint();
}

static void quit(struct probe *probe)
{
    probe->quit = true;
}

static const struct {
    char letter;
    void (*run)(struct probe *probe);
} commands[] = {
    {'a', give_up},   {'d', crash},   {'o', run_out_of_stack}, {'x', clear_log},
    {'f', next_page}, {'z', suspend}, {'r', repaint},          {'q', quit},
};

static bool run_command(struct probe *probe, uint32_t key)
{
    for (size_t i = 0; i < sizeof commands / sizeof commands[0]; i++) {
        if (SILLET_KEY_CTRL(commands[i].letter) == key) {
            commands[i].run(probe);
            return true;
        }
    }
    return false;
}

static void note_key(struct probe *probe, uint32_t key)
{
    char name[32];
    probe->keys++;
    probe->hash = (probe->hash ^ key) * 16777619U;
    probe->last = key;
    if (probe->page == PAGE_LOG) {
        spell_key(key, name, sizeof name);
        strbuf_addf(&probe->text, "%s ", name);
    }
}

static void compose_log(const struct probe *probe, struct frame *frame)
{
    char line[200];
    struct term_traits traits = term_traits();
    snprintf(line, sizeof line, "%dx%d %s colours=%d", traits.rows, traits.columns,
             traits.utf8 ? "utf8" : "ascii", traits.colours);
    frame_put(frame, 0, 0, frame->columns, ROLE_TITLE, line);
    snprintf(line, sizeof line, "keys=%u hash=%08x resizes=%u resumes=%u. ticks=%u.", probe->keys,
             (unsigned)probe->hash, probe->resizes, probe->resumes, probe->ticks);
    frame_put(frame, 1, 0, frame->columns, ROLE_TEXT, line);
    const char *text = probe->log;
    for (int row = LOG_ROW; row < frame->rows && *text != '\0'; row++) {
        int used = frame_put(frame, row, 0, frame->columns, ROLE_VALUE, text);
        text += utf8_clip(text, used);
        frame->cursor_row = row;
        frame->cursor_column = used < frame->columns ? used : frame->columns - 1;
    }
}

static void compose_text(struct frame *frame)
{
    int last = frame->columns - 1;
    frame_put(frame, 0, 0, frame->columns, ROLE_TEXT, "page text");
    frame_put(frame, 1, 0, frame->columns, ROLE_TEXT, "|e\xCC\x81|\xE6\x97\xA5|\xF0\x9F\x98\x80|");
    frame_put(frame, 2, 0, frame->columns, ROLE_TEXT,
              "|\xC2\xBD\xC2\xB5\xE2\x99\xAD\xCE\xA9|\xE2\x94\x80\xE2\x94\x82|\xE2\xA0\xBF|");
    frame_put(frame, 3, last, 5, ROLE_TEXT, "\xE6\x97\xA5");      /* does not fit */
    frame_put(frame, 4, last - 1, 5, ROLE_TEXT, "\xE6\x97\xA5x"); /* just fits */
    frame_put(frame, 5, 0, 5, ROLE_TEXT, "five");
    frame_put(frame, 6, 0, 20, ROLE_TEXT,
              "bad\xFF"
              "byte\033[31mesc");
    frame_put(frame, frame->rows - 1, 0, frame->columns, ROLE_TEXT, "bottom left");
    frame_put_right(frame, frame->rows - 1, 0, frame->columns, ROLE_TEXT, "corner");
}

static void compose_roles(struct frame *frame)
{
    static const char *const names[] = {
#define ROLE_NAME(name, letter) #name,
        ROLE_LIST(ROLE_NAME)
#undef ROLE_NAME
    };
    for (int role = 0; role < ROLE_COUNT_; role++) {
        frame_put(frame, role, 0, frame->columns, (enum role)role, names[role]);
        frame_put(frame, role, frame->columns - 1, 1, ROLE_TEXT, "#");
    }
}

/* A frame larger than the terminal, cut through a wide character at the right edge. */
static void compose_oversize(struct frame *frame)
{
    frame_put(frame, 0, 0, frame->columns, ROLE_TEXT, "page oversize");
    frame_put(frame, 1, frame->columns - 3, 2, ROLE_TEXT, "\xE6\x97\xA5");
    frame_put(frame, 2, 0, 5, ROLE_TEXT, "two");
    frame_put(frame, frame->rows - 3, 0, 9, ROLE_TEXT, "last row");
    frame->cursor_row = frame->rows - 1;
    frame->cursor_column = frame->columns - 1;
}

static void compose_one_cell(const struct probe *probe, struct frame *frame)
{
    frame_put(frame, 0, 0, frame->columns, ROLE_TEXT, "page cell");
    frame_put_rune(frame, 5, 10, ROLE_TEXT, probe->last);
    frame->cursor_row = 20;
    frame->cursor_column = 30;
}

static int below(uint32_t *seed, int count)
{
    *seed = *seed * 1664525U + 1013904223U;
    return (int)((*seed >> 8) % (uint32_t)count);
}

/* A few texts of any look and width, or nothing, somewhere over what was there. */
static void add_by_chance(uint32_t *seed, struct frame *frame)
{
    static const char *const texts[] = {
        "x",
        "words and numbers 12.5",
        "\xE6\x97\xA5\xE6\x97\xA5 \xE6\x97\xA5",
        "e\xCC\x81\xE2\x94\x80\xE2\xA0\xBF",
        "          ",
        "a         b",
        "                                                                                ",
    };

    for (int i = 1 + below(seed, 6); i > 0; i--) {
        /* The emulator puts a mark of the last column on the next row. */
        const int row = below(seed, frame->rows), column = below(seed, frame->columns - 1);
        const char *text = texts[below(seed, (int)(sizeof texts / sizeof texts[0]))];

        frame_put(frame, row, column, frame->columns, (enum role)below(seed, ROLE_COUNT_), text);
        if (below(seed, 3) == 0) {
            frame_put_right(frame, row, 0, frame->columns, ROLE_OFF, "edge");
        }
    }
}

/* What the keys so far have made: each adds to it. */
static void compose_by_chance(const struct probe *probe, struct frame *frame)
{
    uint32_t seed = 1;

    for (unsigned key = 0; key < probe->keys; key++) {
        add_by_chance(&seed, frame);
    }
    frame_put(frame, 0, 0, frame->columns, ROLE_TEXT, "page chance");
    frame->cursor_row = below(&seed, frame->rows + 1) - 1;
    frame->cursor_column = below(&seed, frame->columns);
}

static void show(const struct probe *probe)
{
    struct frame frame;
    struct term_traits traits = term_traits();
    int extra = probe->page == PAGE_OVERSIZE ? 2 : probe->page == PAGE_UNDERSIZE ? -5 : 0;
    if (frame_init(&frame, traits.rows + extra, traits.columns + extra) != STATUS_OK) {
        return;
    }
    switch (probe->page) {
    case PAGE_LOG:
        compose_log(probe, &frame);
        break;
    case PAGE_TEXT:
        compose_text(&frame);
        break;
    case PAGE_ROLES:
        compose_roles(&frame);
        break;
    case PAGE_OVERSIZE:
        compose_oversize(&frame);
        break;
    case PAGE_UNDERSIZE:
        frame_put(&frame, 0, 0, frame.columns, ROLE_TEXT, "page undersize");
        break;
    case PAGE_ONE_CELL:
        compose_one_cell(probe, &frame);
        break;
    case PAGE_CHANCE:
        compose_by_chance(probe, &frame);
        break;
    }
    term_show(&frame);
    frame_done(&frame);
}

/* Where a test can read it after the terminal is gone. */
static int end_by_hangup(void)
{
    char path[512];
    int number = term_end_signal();
    term_stop();
    snprintf(path, sizeof path, "%s/end", getenv("HOME"));
    FILE *file = fopen(path, "w");
    if (file != NULL) {
        fprintf(file, "signal %d\n", number);
        fclose(file);
    }
    printf("ended, signal %d\n", number);
    return EXIT_HANGUP;
}

static bool handle(struct probe *probe, const struct event *event)
{
    switch (event->type) {
    case EVENT_KEY:
        if (!run_command(probe, event->key)) {
            note_key(probe, event->key);
        }
        break;
    case EVENT_RESIZE:
        probe->resizes++;
        break;
    case EVENT_RESUME:
        probe->resumes++;
        break;
    case EVENT_HANGUP:
        return false;
    case EVENT_NONE:
        probe->ticks++;
        break;
    }
    return true;
}

/* An argument is the longest wait in milliseconds. */
int main(int argc, char **argv)
{
    static struct probe probe = {.hash = 2166136261U};
    const char *reason = NULL;
    int timeout_ms = argc > 1 ? atoi(argv[1]) : -1;
    setlocale(LC_CTYPE, "");
    probe.text = STRBUF(probe.log);
    enum status status = term_start(&reason);
    if (status != STATUS_OK) {
        fprintf(stderr, "refused: %s: %s\n", status_text(status), reason);
        return EXIT_REFUSED;
    }
    while (!probe.quit) {
        show(&probe);
        struct event event = term_wait(timeout_ms);
        if (!handle(&probe, &event)) {
            return end_by_hangup();
        }
    }
    term_stop();
    printf("goodbye\n");
    return 0;
}
