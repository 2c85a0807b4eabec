/* SPDX-License-Identifier: MIT */
#include <locale.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>

#include "commands/check_command.h"
#include "commands/demo_command.h"
#include "commands/figures_command.h"
#include "commands/journal_command.h"
#include "commands/layout_command.h"
#include "commands/option.h"
#include "commands/sheet_command.h"
#include "commands/shelf_command.h"
#include "run/session.h"
#include "run/shelf_session.h"

static enum exit_code refuse_usage(void)
{
    option_print_usage(stderr);
    return EXIT_USAGE;
}

static enum exit_code printed(void)
{
    return fflush(stdout) == 0 && !ferror(stdout) ? EXIT_GOOD : EXIT_CANNOT;
}

static enum exit_code run_figures(int count, char **words)
{
    struct figures_options options;

    if (!figures_options_read(count, words, &options))
        return EXIT_USAGE;
    const enum exit_code code = figures_command(&options);
    file_words_done(&options.files);
    return code;
}

static enum exit_code run_sheet(int count, char **words)
{
    struct sheet_options options;

    if (!sheet_options_read(count, words, &options))
        return EXIT_USAGE;
    const enum exit_code code = sheet_command(&options);
    file_words_done(&options.files);
    return code;
}

/* Runs the command that words[0] names; false if it names none. */
static bool run_command(int count, char **words, enum exit_code *ret_code)
{
    switch (option_find_line(words[0])) {
    case LINE_FIGURES:
        *ret_code = run_figures(count - 1, words + 1);
        return true;
    case LINE_SHEET:
        *ret_code = run_sheet(count - 1, words + 1);
        return true;
    case LINE_LAYOUT:
        *ret_code = layout_command(count - 1, words + 1);
        return true;
    case LINE_CHECK:
        *ret_code = count >= 2 ? check_command(words + 1, count - 1) : refuse_usage();
        return true;
    case LINE_SHELF:
        *ret_code = shelf_command(count - 1, words + 1);
        return true;
    case LINE_JOURNAL:
        *ret_code = journal_command(count - 1, words + 1);
        return true;
    case LINE_DEMO:
        *ret_code = demo_command(count - 1, words + 1);
        return true;
    default:
        return false;
    }
}

/* `words` does not include the program's name. */
static enum exit_code run(int count, char **words)
{
    enum exit_code code;

    if (count == 0)
        return shelf_session_command(NULL);
    if (strcmp(words[0], "--help") == 0) {
        option_print_usage(stdout);
        return printed();
    }
    if (strcmp(words[0], "--version") == 0) {
        puts("sillet " SILLET_VERSION);
        return printed();
    }
    if (strcmp(words[0], "--shelf") == 0)
        return count == 2 ? shelf_session_command(words[1]) : refuse_usage();
    if (run_command(count, words, &code))
        return code;
    const bool plain = strcmp(words[0], "--") == 0;
    if (count != 1 + plain || (!plain && words[0][0] == '-' && words[0][1] != '\0'))
        return refuse_usage();
    return session_command(words[plain]);
}

int main(int count, char **words)
{
    /* Only the character set follows the locale; numbers always have a point. */
    (void)setlocale(LC_CTYPE, "");
    /* At a file size limit a write must fail, not end the program. */
    (void)signal(SIGXFSZ, SIG_IGN);
    return (int)run(count > 0 ? count - 1 : 0, words + 1);
}
