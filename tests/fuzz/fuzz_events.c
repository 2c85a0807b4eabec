/* SPDX-License-Identifier: MIT */
#include "fuzz_events.h"

enum { KEYS = SILLET_KEY_UNKNOWN - SILLET_KEY_ENTER + 1 };
enum { ROWS_MAX = 70, COLUMNS_MAX = 250 };

static struct event key(uint32_t number)
{
    return (struct event){.type = EVENT_KEY, .key = number};
}

static uint32_t take_rune(struct fuzz_bytes *bytes)
{
    uint32_t rune = fuzz_byte(bytes);

    rune = rune << 8 | fuzz_byte(bytes);
    return (rune << 8 | fuzz_byte(bytes)) % 0x110000;
}

static struct event resize(struct fuzz_bytes *bytes, struct fuzz_screen *screen)
{
    screen->rows = 1 + fuzz_byte(bytes) % ROWS_MAX;
    screen->columns = 1 + fuzz_byte(bytes) % COLUMNS_MAX;
    return (struct event){.type = EVENT_RESIZE};
}

struct event fuzz_event(struct fuzz_bytes *bytes, struct fuzz_screen *screen)
{
    const uint8_t byte = fuzz_byte(bytes);

    if (byte < 0x80)
        return key(byte);
    if (byte < 0x80 + KEYS * 3)
        return key(SILLET_KEY_ENTER + (uint32_t)(byte - 0x80) % KEYS);
    switch (byte % 8) {
    case 0:
    case 1:
        return resize(bytes, screen);
    case 2:
        screen->utf8 = !screen->utf8;
        return (struct event){.type = EVENT_NONE};
    case 3:
        return (struct event){.type = EVENT_HANGUP};
    case 4:
        return (struct event){.type = EVENT_RESUME};
    default:
        return key(take_rune(bytes));
    }
}
