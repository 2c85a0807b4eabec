/* SPDX-License-Identifier: MIT */
#include <locale.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>

#include "cli/check.h"
#include "cli/figures.h"
#include "cli/layout.h"
#include "cli/session.h"
#include "cli/shelf.h"
#include "cli/shelf_session.h"
#include "cli/sheet.h"

static const char usage[] =
    "usage: sillet                  the instruments on file; Enter opens one\n"
    "       sillet --shelf FOLDER   the same, of another folder\n"
    "       sillet FILE             open an instrument's profile at the bench\n"
    "       sillet figures FILE     print every figure as INI; options in front of FILE:\n"
    "         --all-visits          every visit and pass as CSV, for a spreadsheet; alone\n"
    "         --more                and the levelling plan, buzz, layout, wood, rod and passes\n"
    "         --tuning NAME         what if it were tuned so (a wrong NAME lists them all)\n"
    "         --notes \"E2 A2 ...\"   or to these notes, from the bass side to the treble side\n"
    "         --shift N             or N semitones up, -N down\n"
    "         --set NAME            or strung with this set (a wrong NAME lists them all)\n"
    "       sillet sheet FILE       print the customer's sheet; options:\n"
    "         -o NAME               into a file that ends in .pdf, .svg or .txt\n"
    "         --paper PAPER         a4 or letter\n"
    "         --visit N             of an earlier visit\n"
    "       sillet layout FILE [TEMPLATE...]  templates at true scale: board nut saddle heel\n"
    "                               shim tongue; where none is named, all that are of use\n"
    "         -o NAME               into a file that ends in .pdf or .svg; has to be given\n"
    "         --paper PAPER         a4 or letter; else what goes with the shop's units\n"
    "       sillet check FILE...    name every problem of a profile, line by line\n"
    "       sillet shelf [WORDS]    list the instruments on file; options in front of WORDS:\n"
    "         --csv                 as CSV\n"
    "         --shelf FOLDER        of another folder\n"
    "       sillet --help, --version\n"
    "exit:  0 good, 1 findings, 2 usage, 3 cannot read or write\n";

static enum exit_code refuse_usage(void)
{
    fputs(usage, stderr);
    return EXIT_USAGE;
}

static enum exit_code print(const char *text)
{
    if (fputs(text, stdout) < 0 || fflush(stdout) != 0)
        return EXIT_CANNOT;
    return EXIT_GOOD;
}

static enum exit_code run_figures(int count, char **words)
{
    struct figures_options options;

    return figures_options_read(count, words, &options) ? figures_command(&options) : EXIT_USAGE;
}

static enum exit_code run_sheet(int count, char **words)
{
    struct sheet_options options;

    return sheet_options_read(count, words, &options) ? sheet_command(&options) : EXIT_USAGE;
}

static enum exit_code run(int count, char **words)
{
    if (count < 2)
        return shelf_session_command(NULL);
    if (strcmp(words[1], "--shelf") == 0)
        return count == 3 ? shelf_session_command(words[2]) : refuse_usage();
    if (strcmp(words[1], "shelf") == 0)
        return shelf_command(count - 2, words + 2);
    if (strcmp(words[1], "--help") == 0)
        return print(usage);
    if (strcmp(words[1], "--version") == 0)
        return print("sillet " SILLET_VERSION "\n");
    if (strcmp(words[1], "figures") == 0)
        return run_figures(count - 2, words + 2);
    if (strcmp(words[1], "sheet") == 0)
        return run_sheet(count - 2, words + 2);
    if (strcmp(words[1], "check") == 0)
        return count >= 3 ? check_command(words + 2, count - 2) : refuse_usage();
    if (strcmp(words[1], "layout") == 0)
        return layout_command(count - 2, words + 2);
    if (words[1][0] == '-' && words[1][1] != '\0') {
        if (strcmp(words[1], "--") != 0)
            return refuse_usage();
        words++;
        count--;
    }
    return count == 2 ? session_command(words[1]) : refuse_usage();
}

int main(int count, char **words)
{
    /* Only the characters follow the locale; numbers are written with a point everywhere. */
    (void)setlocale(LC_CTYPE, "");
    /* A file size limit shall fail the write, not end the program. */
    (void)signal(SIGXFSZ, SIG_IGN);
    return (int)run(count, words);
}
