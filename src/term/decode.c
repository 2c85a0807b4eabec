/* SPDX-License-Identifier: MIT */
#include "term/decode.h"

#include <curses.h>
#include <poll.h>
#include <unistd.h>

#include "session/event.h"
#include "base/utf8.h"

/* Codes of our own, above those of curses, for pad keys that stand for a plain character. */
enum {
    PAD_BASE = 0x4000,
    PAD_ENTER = PAD_BASE + '\r',
    PASTE_BEGIN = PAD_BASE + 0x100,
    PASTE_END,
    NO_BYTE = -1
};

/* How long the rest of a UTF-8 character may lag behind its first byte. Waiting costs nothing:
 * no key sends a first byte alone. */
enum { LAG_MS = 250 };

enum { HELD_MAX = 8, SEQUENCE_MAX = 32 };

/* Codes that were read ahead and given back, oldest first. */
static struct {
    int bytes[HELD_MAX];
    int count;
} held;

/* The number pad in application mode. Most terminfo entries leave it out or assign it to
 * function keys. */
static const struct {
    char final; /* of the sequence ESC O final */
    char plain;
} pad_keys[] = {
    {'p', '0'}, {'q', '1'}, {'r', '2'}, {'s', '3'}, {'t', '4'},  {'u', '5'},
    {'v', '6'}, {'w', '7'}, {'x', '8'}, {'y', '9'}, {'j', '*'},  {'k', '+'},
    {'l', ','}, {'m', '-'}, {'n', '.'}, {'o', '/'}, {'M', '\r'}, {'X', '='},
};

/* All spellings of the cursor and function keys, whatever TERM says, so that a terminal that is
 * not quite what its TERM names still works. The pad's 5 with Num Lock off is a blank. */
static const struct {
    const char *bytes;
    int code;
} usual_keys[] = {
    /* clang-format off */
    {"\033[A", KEY_UP},      {"\033OA", KEY_UP},      {"\033[B", KEY_DOWN},    {"\033OB", KEY_DOWN},
    {"\033[C", KEY_RIGHT},   {"\033OC", KEY_RIGHT},   {"\033[D", KEY_LEFT},    {"\033OD", KEY_LEFT},
    {"\033[H", KEY_HOME},    {"\033OH", KEY_HOME},    {"\033[1~", KEY_HOME},   {"\033[7~", KEY_HOME},
    {"\033[F", KEY_END},     {"\033OF", KEY_END},     {"\033[4~", KEY_END},    {"\033[8~", KEY_END},
    {"\033[2~", KEY_IC},     {"\033[3~", KEY_DC},     {"\033[5~", KEY_PPAGE},  {"\033[6~", KEY_NPAGE},
    {"\033[Z", KEY_BTAB},    {"\033[E", KEY_B2},      {"\033OE", KEY_B2},      {"\033[G", KEY_B2},
    /* F1 to F4 as PF keys and by number; F1 to F5 as on the Linux console */
    {"\033OP", KEY_F(1)},    {"\033OQ", KEY_F(2)},    {"\033OR", KEY_F(3)},    {"\033OS", KEY_F(4)},
    {"\033[11~", KEY_F(1)},  {"\033[12~", KEY_F(2)},  {"\033[13~", KEY_F(3)},  {"\033[14~", KEY_F(4)},
    {"\033[[A", KEY_F(1)},   {"\033[[B", KEY_F(2)},   {"\033[[C", KEY_F(3)},   {"\033[[D", KEY_F(4)},
    {"\033[[E", KEY_F(5)},   {"\033[15~", KEY_F(5)},  {"\033[17~", KEY_F(6)},  {"\033[18~", KEY_F(7)},
    {"\033[19~", KEY_F(8)},  {"\033[20~", KEY_F(9)},  {"\033[21~", KEY_F(10)}, {"\033[23~", KEY_F(11)},
    {"\033[24~", KEY_F(12)}, {"\033[200~", PASTE_BEGIN}, {"\033[201~", PASTE_END},
    /* clang-format on */
};

/* Keys are read through a pad: reading from a window paints it first, and frames are none of its
 * business. NULL: without memory, through the screen. */
static WINDOW *window;

void decode_open(void)
{
    held.count = 0;
    window = newpad(1, 1);
    if (window == NULL) {
        window = stdscr;
    }
    keypad(window, TRUE);
    nodelay(window, TRUE);
    for (size_t i = 0; i < sizeof pad_keys / sizeof pad_keys[0]; i++) {
        char bytes[] = {'\033', 'O', pad_keys[i].final, '\0'};
        define_key(bytes, PAD_BASE + pad_keys[i].plain);
    }
    for (size_t i = 0; i < sizeof usual_keys / sizeof usual_keys[0]; i++) {
        define_key(usual_keys[i].bytes, usual_keys[i].code);
    }
}

/* A byte or curses code that has arrived; NO_BYTE when there is none. */
static int take(void)
{
    if (held.count > 0) {
        int byte = held.bytes[0];
        held.count--;
        for (int i = 0; i < held.count; i++) {
            held.bytes[i] = held.bytes[i + 1];
        }
        return byte;
    }
    int code;
    do {
        code = wgetch(window);
    } while (code == KEY_RESIZE); /* after a suspension; term.c checks the size */
    return code == ERR ? NO_BYTE : code;
}

/* The same, but waits a moment for a byte that must follow. */
static int take_soon(void)
{
    int code = take();
    if (code != NO_BYTE) {
        return code;
    }
    struct pollfd input = {.fd = STDIN_FILENO, .events = POLLIN};
    return poll(&input, 1, LAG_MS) > 0 ? take() : NO_BYTE;
}

/* Gives a code back, to be the next one taken. */
static void give_back(int code)
{
    if (code != NO_BYTE && held.count < HELD_MAX) {
        for (int i = held.count; i > 0; i--) {
            held.bytes[i] = held.bytes[i - 1];
        }
        held.bytes[0] = code;
        held.count++;
    }
}

static int sequence_length(int lead)
{
    if (lead >= 0xC2 && lead <= 0xDF) {
        return 2;
    }
    if (lead >= 0xE0 && lead <= 0xEF) {
        return 3;
    }
    return lead >= 0xF0 && lead <= 0xF4 ? 4 : 1;
}

/* Not get_wch: one bad byte makes it swallow the next hundred keys. */
static uint32_t decode_character(int lead)
{
    char bytes[4] = {(char)lead};
    size_t length = 1;
    size_t wanted = (size_t)sequence_length(lead);
    while (length < wanted) {
        int next = take_soon();
        if (next < 0x80 || next > 0xBF) {
            give_back(next);
            return SILLET_KEY_UNKNOWN;
        }
        bytes[length++] = (char)next;
    }
    uint32_t rune;
    bool valid;
    utf8_decode(bytes, length, &rune, &valid);
    return valid && !utf8_unsafe(rune) ? rune : SILLET_KEY_UNKNOWN;
}

/*
 * Called after an ESC that does not start a key known to curses. Alone it is the Escape key. A
 * control sequence (ECMA-48, 5.4) of an unknown key is consumed whole: its digits and
 * letters must not be mistaken for readings and commands.
 */
static uint32_t decode_escape(void)
{
    int opener = take();
    if (opener != '[' && opener != 'O') {
        give_back(opener);
        return SILLET_KEY_ESCAPE;
    }
    int code = take();
    if (code == NO_BYTE) {
        give_back(opener);
        return SILLET_KEY_ESCAPE;
    }
    for (int i = 0; i < SEQUENCE_MAX && code >= 0x20 && code <= 0x3F; i++) {
        code = take();
    }
    if (code < 0x40 || code > 0x7E) {
        give_back(code);
    } else if (opener == '[' && code == '[') {
        take(); /* function keys of the Linux console: ESC [ [ A */
    }
    return SILLET_KEY_UNKNOWN;
}

/* CR LF, as in text fed to the terminal, is one Enter: a second one would answer the question that
 * the first may raise. */
static uint32_t decode_return(void)
{
    const int next = take();

    if (next != '\n') {
        give_back(next);
    }
    return SILLET_KEY_ENTER;
}

static uint32_t decode_byte(int byte)
{
    switch (byte) {
    case '\r':
        return decode_return();
    case '\n':
        return SILLET_KEY_ENTER;
    case '\b':
    case 0x7F:
        return SILLET_KEY_BACKSPACE;
    case '\t':
        return SILLET_KEY_TAB;
    case '\033':
        return decode_escape();
    case 0:
        return SILLET_KEY_UNKNOWN;
    default:
        return byte < 0x80 ? (uint32_t)byte : decode_character(byte);
    }
}

static uint32_t decode_code(int code)
{
    static const struct {
        int code;
        uint32_t key;
    } named[] = {
        {KEY_ENTER, SILLET_KEY_ENTER},
        {PAD_ENTER, SILLET_KEY_ENTER},
        {PASTE_BEGIN, SILLET_KEY_PASTE_BEGIN},
        {PASTE_END, SILLET_KEY_PASTE_END},
        {KEY_BACKSPACE, SILLET_KEY_BACKSPACE},
        {KEY_DC, SILLET_KEY_DELETE},
        {KEY_BTAB, SILLET_KEY_BACKTAB},
        {KEY_UP, SILLET_KEY_UP},
        {KEY_DOWN, SILLET_KEY_DOWN},
        {KEY_LEFT, SILLET_KEY_LEFT},
        {KEY_RIGHT, SILLET_KEY_RIGHT},
        {KEY_HOME, SILLET_KEY_HOME},
        {KEY_END, SILLET_KEY_END},
        {KEY_PPAGE, SILLET_KEY_PAGE_UP},
        {KEY_NPAGE, SILLET_KEY_PAGE_DOWN},
        {KEY_FIND, SILLET_KEY_HOME},
        {KEY_SELECT, SILLET_KEY_END},
        {KEY_A1, SILLET_KEY_HOME},
        {KEY_A3, SILLET_KEY_PAGE_UP},
        {KEY_C1, SILLET_KEY_END},
        {KEY_C3, SILLET_KEY_PAGE_DOWN},
        {KEY_IC, SILLET_KEY_INSERT},
        {KEY_B2, ' '},
    };
    for (size_t i = 0; i < sizeof named / sizeof named[0]; i++) {
        if (named[i].code == code) {
            return named[i].key;
        }
    }
    if (code >= KEY_F(1) && code <= KEY_F(12)) {
        return SILLET_KEY_F1 + (uint32_t)(code - KEY_F(1));
    }
    return code > PAD_BASE ? (uint32_t)(code - PAD_BASE) : SILLET_KEY_UNKNOWN;
}

bool decode_next(uint32_t *ret_key)
{
    int code = take();
    if (code == NO_BYTE) {
        return false;
    }
    *ret_key = code < 0x100 ? decode_byte(code) : decode_code(code);
    return true;
}
