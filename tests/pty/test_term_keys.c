/* SPDX-License-Identifier: MIT */

/* Keys: what the terminal sends, and the key that arrives. */
#include <setjmp.h>
#include <signal.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>
#include <sys/wait.h>

#include <cmocka.h>

#include "probe.h"

static void check_keypad(const char *term)
{
    struct terminal *terminal = probe_start(term);
    for (const char *key = "0123456789*+,-./=\r"; *key != '\0'; key++) {
        terminal_keypad(terminal, *key);
    }
    probe_expect_log(terminal, "0 1 2 3 4 5 6 7 8 9 * + , - . / = ENTER");
    for (const char *key = "0123456789*+-./\r"; *key != '\0'; key++) {
        terminal_feed(terminal, key, 1); /* NumLock on */
    }
    probe_expect_log(terminal, "0 1 2 3 4 5 6 7 8 9 * + - . / ENTER");
}

static void test_keypad(void **state)
{
    (void)state;
    for (int i = 0; i < PROBE_TERMS; i++) {
        if (!probe_skips(probe_terms[i])) {
            check_keypad(probe_terms[i]);
        }
    }
}

static void check_named_keys(const char *term)
{
    struct terminal *terminal = probe_start(term);
    for (int key = 0; key < TERMINAL_ESCAPE; key++) {
        terminal_key(terminal, (enum terminal_key)key);
    }
    terminal_key(terminal, TERMINAL_TAB);
    probe_expect_log(terminal,
                     "UP DOWN LEFT RIGHT HOME END PAGE_UP PAGE_DOWN DELETE BACKSPACE BACKTAB "
                     "ENTER TAB");
    /* the keypad with NumLock off, and the other spelling of the arrows */
    terminal_type(terminal, "\033OA\033[B\033OH\033[F\033[1~\033[4~\033[5~\033[6~\033[3~");
    probe_expect_log(terminal, "UP DOWN HOME END HOME END PAGE_UP PAGE_DOWN DELETE");
}

static void test_named_keys(void **state)
{
    (void)state;
    for (int i = 0; i < PROBE_TERMS; i++) {
        if (!probe_skips(probe_terms[i])) {
            check_named_keys(probe_terms[i]);
        }
    }
}

/* Function keys in every spelling, whatever TERM says, and the keys of the pad beside them. */
static void test_function_keys(void **state)
{
    (void)state;
    for (int i = 0; i < PROBE_TERMS; i++) {
        if (probe_skips(probe_terms[i]))
            continue;
        struct terminal *terminal = probe_start(probe_terms[i]);

        terminal_type(terminal, "\033OP\033OQ\033OR\033OS");
        terminal_type(terminal, "\033[11~\033[12~\033[13~\033[14~\033[15~\033[17~\033[18~");
        terminal_type(terminal, "\033[19~\033[20~\033[21~\033[23~\033[24~");
        terminal_type(terminal, "\033[[A\033[[B\033[[C\033[[D\033[[E");
        probe_expect_log(terminal, "F1 F2 F3 F4 F1 F2 F3 F4 F5 F6 F7 F8 F9 F10 F11 F12 "
                                   "F1 F2 F3 F4 F5");
        terminal_type(terminal, "\033[2~\033[E\033OE\033[G");
        probe_expect_log(terminal, "INSERT SPACE SPACE SPACE");
    }
}

/* A key nobody knows is one unknown key, never a reading or a command. */
static void test_unknown_sequences(void **state)
{
    (void)state;
    struct terminal *terminal = probe_start("vt100");
    terminal_type(terminal, "\033[1;5A\033[25~\033[202~\033[<0;12;34M\033[1;2P\033[[Fz");
    probe_expect_log(terminal, "UNKNOWN UNKNOWN UNKNOWN UNKNOWN UNKNOWN UNKNOWN z");
    terminal = probe_start("xterm-256color");
    terminal_type(terminal, "\033[1;5A\033[34~\033[I\033[9~\033OTz");
    probe_expect_log(terminal, "UNKNOWN UNKNOWN UNKNOWN UNKNOWN UNKNOWN z");
}

/* What is pasted comes between marks, which every terminal is asked for. */
static void test_paste_is_marked(void **state)
{
    (void)state;
    for (int i = 0; i < PROBE_TERMS; i++) {
        if (probe_skips(probe_terms[i])) {
            continue;
        }
        struct terminal *terminal = probe_start(probe_terms[i]);
        terminal_expect(terminal, "keys=0 ");
        terminal_check(terminal, strstr(terminal_output(terminal), "\033[?2004h") != NULL);
        terminal_type(terminal, "1\033[200~24\r23\033[201~2");
        probe_expect_log(terminal, "1 PASTE_BEGIN 2 4 ENTER 2 3 PASTE_END 2");
    }
}

/* A line end of two bytes is one Enter; two line ends are two. */
static void test_line_ends(void **state)
{
    (void)state;
    struct terminal *terminal = probe_start("xterm-256color");
    terminal_type(terminal, "1\r\n2\r3\n4\r\r5\n\n6\r\n\r\n7");
    probe_expect_log(terminal, "1 ENTER 2 ENTER 3 ENTER 4 ENTER ENTER 5 ENTER ENTER 6 ENTER "
                               "ENTER 7");
}

static void test_escape_alone(void **state)
{
    (void)state;
    for (int i = 0; i < PROBE_TERMS; i++) {
        if (probe_skips(probe_terms[i])) {
            continue;
        }
        struct terminal *terminal = probe_start(probe_terms[i]);
        double before = probe_now_s();
        terminal_key(terminal, TERMINAL_ESCAPE);
        probe_expect_log(terminal, "ESCAPE");
        terminal_check(terminal, probe_now_s() - before < 0.5); /* curses would wait a second */
        terminal_type(terminal, "\033\033");
        probe_expect_log(terminal, "ESCAPE ESCAPE");
        terminal_type(terminal, "\0335"); /* Alt and 5 */
        probe_expect_log(terminal, "ESCAPE 5");
        terminal_type(terminal, "\033O");
        probe_expect_log(terminal, "ESCAPE O");
    }
}

static void test_escape_delay_of_the_user(void **state)
{
    (void)state;
    const char *const env[] = {"ESCDELAY=400", NULL};
    struct terminal *terminal = probe_start_with((struct terminal_setup){.env = env});
    terminal_expect(terminal, "keys=0 ");
    double before = probe_now_s();
    terminal_key(terminal, TERMINAL_ESCAPE);
    probe_expect_log(terminal, "ESCAPE");
    terminal_check(terminal, probe_now_s() - before > 0.3);
}

/* Sends the halves of something apart, with a signal between them that breaks off waits. */
static void type_apart(struct terminal *terminal, const char *first, const char *second)
{
    terminal_type(terminal, first);
    terminal_pump(terminal, 20); /* nothing comes: only the time passes */
    terminal_signal(terminal, SIGWINCH);
    terminal_pump(terminal, 20);
    terminal_type(terminal, second);
}

/* As a slow line brings it. The long ESCDELAY keeps a busy machine from mattering. */
static void test_split_sequence(void **state)
{
    (void)state;
    const char *const env[] = {"ESCDELAY=2000", NULL};
    struct terminal *terminal = probe_start_with((struct terminal_setup){.env = env});
    terminal_expect(terminal, "keys=0 ");
    type_apart(terminal, "\033", "OA1");
    probe_expect_log(terminal, "UP 1");
    type_apart(terminal, "\033O", "k2");
    probe_expect_log(terminal, "+ 2");
    type_apart(terminal, "\xE2\x99",
               "\xAD"
               "3");
    probe_expect_log(terminal, "U+266D 3");
}

static void test_control_keys(void **state)
{
    (void)state;
    struct terminal *terminal = probe_start("xterm-256color");
    /* none of them is the line discipline's: stop, start, interrupt, literal */
    terminal_type(terminal, "\x13\x11"); /* Ctrl-Q ends the probe: Ctrl-S did not stop it */
    terminal_expect(terminal, "goodbye");
    int status = terminal_expect_end(terminal);
    terminal_check(terminal, WIFEXITED(status) && WEXITSTATUS(status) == 0);
    terminal = probe_start("xterm-256color");
    terminal_type(terminal, "\x03\x13\x1C\x16\n\r\b\x7F\t");
    probe_expect_log(terminal, "^C ^S ^\\ ^V ENTER ENTER BACKSPACE BACKSPACE TAB");
    terminal_feed(terminal, "\0a", 2);
    probe_expect_log(terminal, "UNKNOWN a");
}

static void check_utf8_input(const char *lang)
{
    struct terminal *terminal = probe_start_with((struct terminal_setup){.lang = lang});
    terminal_expect(terminal, "keys=0 ");
    terminal_type(terminal, "\xC2\xBD\xC3\xA9\xE2\x99\xAD\xE6\x97\xA5\xF0\x9F\x98\x80z");
    probe_expect_log(terminal, "U+00BD U+00E9 U+266D U+65E5 U+1F600 z");
}

static void test_utf8_input(void **state)
{
    (void)state;
    check_utf8_input("C.UTF-8");
    check_utf8_input("C"); /* the terminal speaks UTF-8 all the same */
}

static unsigned words_in(const char *text)
{
    unsigned count = 1;
    for (; *text != '\0'; text++) {
        count += *text == ' ';
    }
    return count;
}

/* Every kind of malformed byte, each followed by plain keys. */
static void test_invalid_bytes_swallow_nothing(void **state)
{
    (void)state;
    static const struct {
        const char *bytes, *log;
    } cases[] = {
        {"\xFF"
         "12",
         "UNKNOWN 1 2"},
        {"\x80"
         "12",
         "UNKNOWN 1 2"},
        {"\xC3"
         "12",
         "UNKNOWN 1 2"}, /* cut short by a key */
        {"\xE2\x99"
         "12",
         "UNKNOWN 1 2"},
        {"\xC0\xAF"
         "12",
         "UNKNOWN UNKNOWN 1 2"}, /* overlong */
        {"\xED\xA0\x80"
         "12",
         "UNKNOWN 1 2"}, /* surrogate */
        {"\xF5"
         "12",
         "UNKNOWN 1 2"},
        {"\xC3\033OA"
         "1",
         "UNKNOWN UP 1"},
        {"\xC3\xC3\xA9"
         "1",
         "UNKNOWN U+00E9 1"},
        {"\xE2\x80\xAE"
         "1",
         "UNKNOWN 1"}, /* right-to-left override */
        {"\xC2\x9B"
         "1",
         "UNKNOWN 1"}, /* C1 control */
    };
    struct terminal *terminal = probe_start("xterm-256color");
    unsigned keys = 0;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        terminal_type(terminal, cases[i].bytes);
        probe_expect_log(terminal, cases[i].log);
        keys += words_in(cases[i].log);
    }
    terminal_type(terminal, "\xFF");
    for (int i = 0; i < 200; i++) { /* get_wch would swallow 143 of them */
        terminal_type(terminal, "7");
    }
    terminal_expect(terminal, "UNKNOWN 7 7 7");
    terminal_type(terminal, "q");
    terminal_expect(terminal, "7 7 q");
    char want[32];
    snprintf(want, sizeof want, "keys=%u ", keys + 1 + 200 + 1);
    terminal_expect(terminal, want);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        PROBE_CASE(test_keypad),          PROBE_CASE(test_named_keys),
        PROBE_CASE(test_function_keys),   PROBE_CASE(test_unknown_sequences),
        PROBE_CASE(test_paste_is_marked), PROBE_CASE(test_line_ends),
        PROBE_CASE(test_escape_alone),    PROBE_CASE(test_escape_delay_of_the_user),
        PROBE_CASE(test_split_sequence),  PROBE_CASE(test_control_keys),
        PROBE_CASE(test_utf8_input),      PROBE_CASE(test_invalid_bytes_swallow_nothing),
    };
    if (!probe_set_up(argc, argv)) {
        return 2;
    }
    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
