/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <ctype.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <time.h>

#include "many_shop.h"
#include "shop_book.h"
#include "terminal.h"
#include "tree.h"

/*
 * What a shop asks its shelf, asked with keys on the made-up shop, of 40 instruments and of 1000:
 * each question in fewer than ten keystrokes. What the screen answers is what the profiles say,
 * read by shop_book.c, or what is true by the shop's maker. It is always the same day there, and
 * one to come, so that no file of the test is too young for the shelf's cache.
 */

#define LAST_DAY   "2040-11-20"
#define TODAY      "2040-11-27"
#define A_YEAR_AGO "2039-11-27"

enum { SHOP = 40, KEYSTROKES_MOST = 9, LINE_LENGTH = 400, FIRST_ROW = 3, ROWS = 24 };

static const char *program;

static struct stage {
    struct tree *tree;
    char home[300], shelf[SHOP + 1][340]; /* by how many times the shop is on file */
    char truth[340];
    char clock[340]; /* the program's, as seconds from ours */
    int times;       /* of the shelf that is open */
    struct book book;
    struct terminal *terminal;
    int keys; /* pressed for the question in hand */
} stage;

static void run(const char *words, char *out, size_t size)
{
    char command[1400];

    snprintf(command, sizeof command,
             "env -u XDG_DATA_HOME -u XDG_CACHE_HOME -u XDG_CONFIG_HOME HOME='%s' TZ=UTC "
             "TEST_CLOCK='%s' '%s' %s",
             stage.home, stage.clock, program, words);
    FILE *pipe = popen(command, "r");
    assert_non_null(pipe);
    const size_t length = fread(out, 1, size - 1, pipe);
    out[length] = '\0';
    assert_int_equal(WEXITSTATUS(pclose(pipe)), 0);
}

static const char *shelf_of(int times)
{
    return stage.shelf[times];
}

static void make_shelf(int times)
{
    char words[1000], said[400];

    snprintf(stage.shelf[times], sizeof stage.shelf[times], "%s/shelf-%d", stage.tree->folder,
             times);
    if (times == 1) {
        snprintf(words, sizeof words, "demo --until " LAST_DAY " --truth '%s' '%s'", stage.truth,
                 shelf_of(1));
        run(words, said, sizeof said);
    } else {
        assert_int_equal(many_shop_make(shelf_of(1), shelf_of(times), times), SHOP * times);
    }
}

/* Noon of a day as a profile has it. */
static struct tm noon_of(const char *day)
{
    struct tm at = {.tm_hour = 12};

    assert_int_equal(sscanf(day, "%d-%d-%d", &at.tm_year, &at.tm_mon, &at.tm_mday), 3);
    at.tm_year -= 1900;
    at.tm_mon--;
    (void)mktime(&at);
    return at;
}

static void set_clock(void)
{
    struct tm noon = noon_of(TODAY);
    char offset[40];

    snprintf(offset, sizeof offset, "%lld\n", (long long)(mktime(&noon) - time(NULL)));
    tree_write_text(stage.clock, offset);
}

static int open_stage(void **state)
{
    void *tree = NULL;

    (void)state;
    if (tree_setup(&tree) != 0)
        return -1;
    stage.tree = tree;
    snprintf(stage.home, sizeof stage.home, "%s/home", stage.tree->folder);
    snprintf(stage.truth, sizeof stage.truth, "%s/truth.csv", stage.tree->folder);
    snprintf(stage.clock, sizeof stage.clock, "%s/clock", stage.tree->folder);
    setenv("TZ", "UTC", 1);
    set_clock();
    return mkdir(stage.home, 0700);
}

static int close_stage(void **state)
{
    void *tree = stage.tree;

    (void)state;
    return tree_teardown(&tree);
}

static int close_shelf(void **state)
{
    (void)state;
    terminal_stop(stage.terminal);
    book_done(&stage.book);
    stage.terminal = NULL;
    return 0;
}

static const char *clock_of(void)
{
    static char text[360];

    snprintf(text, sizeof text, "TEST_CLOCK=%s", stage.clock);
    return text;
}

/* Until all of it is read, the title says how much is not. */
static void begin(int times, int rows, int columns)
{
    if (!stage.shelf[times][0])
        make_shelf(times);
    const char *const argv[] = {program, "--shelf", shelf_of(times), NULL};
    const char *const env[] = {clock_of(), NULL};
    const struct terminal_setup setup = {
        .argv = argv, .home = stage.home, .env = env, .rows = rows, .columns = columns};
    char title[60];

    terminal_stop(stage.terminal);
    book_done(&stage.book);
    stage.times = times;
    stage.keys = 0;
    book_read(shelf_of(times), &stage.book);
    assert_int_equal(stage.book.count, SHOP * times);
    stage.terminal = terminal_start(&setup);
    snprintf(title, sizeof title, "%d instruments on file ", SHOP * times);
    terminal_expect(stage.terminal, title);
}

/* --- asking --- */

static void type(const char *keys)
{
    terminal_type(stage.terminal, keys);
    stage.keys += (int)strlen(keys);
}

static void press(enum terminal_key key)
{
    terminal_key(stage.terminal, key);
    stage.keys++;
}

/* The question is answered: by as few keys as it takes a shop to ask at all. */
static void answered(void)
{
    terminal_check(stage.terminal, stage.keys > 0 && stage.keys <= KEYSTROKES_MOST);
    stage.keys = 0;
}

static void back(void)
{
    char title[60];

    snprintf(title, sizeof title, "%d instruments on file ", SHOP * stage.times);
    /* What is shown in the list's place, what is typed, the question; then it says how to quit. */
    for (int i = 0; i < 4 && terminal_find(stage.terminal, "To quit:", NULL) < 0; i++) {
        terminal_key(stage.terminal, TERMINAL_ESCAPE);
        terminal_settle(stage.terminal);
    }
    terminal_expect(stage.terminal, "To quit:");
    terminal_expect(stage.terminal, title);
    stage.keys = 0;
}

static int expect_count(int count, const char *what)
{
    char title[120];

    snprintf(title, sizeof title, "%d of %d instruments %s", count, SHOP * stage.times, what);
    terminal_expect(stage.terminal, title);
    return count;
}

/* The count that the title says. */
static int count_said(const char *what)
{
    int count;
    char title[120];

    snprintf(title, sizeof title, " of %d instruments %s", SHOP * stage.times, what);
    terminal_expect(stage.terminal, title);
    assert_int_equal(sscanf(terminal_row(stage.terminal, 0), " %d of", &count), 1);
    return count;
}

static const char *row(int i)
{
    return terminal_row(stage.terminal, FIRST_ROW + i);
}

/* Whether a row has that name, whole or cut where its column ends. */
static bool is_in(const char *text, const char *name)
{
    enum { CUT_LEAST = 15 };
    const size_t length = strlen(name);

    for (size_t part = CUT_LEAST; part < length; part++) {
        char cut[BOOK_TEXT + 4];

        snprintf(cut, sizeof cut, "%.*s\xE2\x80\xA6", (int)part, name);
        if (strstr(text, cut))
            return true;
    }
    return strstr(text, name) != NULL;
}

/* The instrument that a row of a list shows: the longest name that it has. Those that are cut to
 * the same name are copies of one. */
static const struct book_item *item_in(const char *text)
{
    const struct book_item *found = NULL;

    for (size_t i = 0; i < stage.book.count; i++) {
        const struct book_item *item = &stage.book.items[i];

        if (is_in(text, item->name) && (!found || strlen(item->name) > strlen(found->name)))
            found = item;
    }
    terminal_check(stage.terminal, found != NULL);
    return found;
}

static int count_items(bool (*is)(const struct book_item *item))
{
    int count = 0;

    for (size_t i = 0; i < stage.book.count; i++)
        count += is(&stage.book.items[i]);
    return count;
}

/* --- in the house --- */

static const char *promised(const struct book_item *item)
{
    return item->visit[item->visits - 1].promised;
}

/* By the day promised; one that is past is said to be late. */
static void ask_house(void)
{
    type("*i");
    const int count = expect_count(count_items(book_in_house), "in the house");
    answered();
    terminal_check(stage.terminal, count >= 5);
    for (int i = 0; i < count && i < ROWS - 7; i++) {
        char text[LINE_LENGTH];

        snprintf(text, sizeof text, "%s", row(i));
        const char *day = promised(item_in(text));
        terminal_check(stage.terminal, strstr(text, day) != NULL);
        terminal_check(stage.terminal, (strstr(text, " late") != NULL) == (strcmp(day, TODAY) < 0));
        terminal_check(stage.terminal, i == 0 || strncmp(row(i - 1) + 1, day, 10) <= 0);
    }
    back();
}

/* --- due --- */

static bool was_left_over_a_year_ago(const struct book_item *item)
{
    return !book_in_house(item) &&
           strcmp(item->visit[item->visits - 1].handed_over, A_YEAR_AGO) < 0;
}

static bool is_not_here(const struct book_item *item)
{
    return !book_in_house(item);
}

/* A year is the longest that anything goes without a check; the sooner it is due the higher it
 * stands; nothing in the house is due. */
static void ask_due(void)
{
    type("*d");
    const int count = count_said("due for a check");
    answered();
    terminal_check(stage.terminal, count >= count_items(was_left_over_a_year_ago));
    terminal_check(stage.terminal, count <= count_items(is_not_here));
    terminal_check(stage.terminal, count > 0 && count % stage.times == 0);
    for (int i = 0; i < count && i < ROWS - 7; i++) {
        char text[LINE_LENGTH];

        snprintf(text, sizeof text, "%s", row(i));
        terminal_check(stage.terminal, !book_in_house(item_in(text)));
        terminal_check(stage.terminal, i == 0 || strncmp(row(i - 1) + 1, text + 1, 10) <= 0);
    }
    back();
}

/* --- saddle, rods --- */

static double over_least_mm(const struct book_item *item)
{
    const double low =
        item->exposure_mm[0] < item->exposure_mm[1] ? item->exposure_mm[0] : item->exposure_mm[1];

    return low < 0 ? 99 : low - item->exposure_min_mm;
}

/* The saddles that the shop's maker made low are answers, and stand in their order. */
static void ask_saddle(void)
{
    static const char *const low[] = {"big ferry", "our no. 8", "ropewalk"};
    double last_mm = -99;

    for (size_t i = 0; i < sizeof low / sizeof low[0]; i++) {
        terminal_type(stage.terminal, low[i]);
        type("*s");
        terminal_check(stage.terminal, count_said("with little saddle left") >= stage.times);
        back();
    }
    type("*s");
    const int count = count_said("with little saddle left");
    answered();
    for (int i = 0; i < count && i < ROWS - 7; i++) {
        char text[LINE_LENGTH];

        snprintf(text, sizeof text, "%s", row(i));
        const double mm = over_least_mm(item_in(text));
        terminal_check(stage.terminal, mm >= last_mm - 1e-6);
        last_mm = mm;
    }
    back();
}

static void ask_rods(void)
{
    type("*r");
    const int count = count_said("with nothing left in the rod");
    answered();
    /* Two were made so; one of them is never turned, so that nobody can know. */
    terminal_check(stage.terminal, count == stage.times || count == 2 * stage.times);
    for (int i = 0; i < count && i < ROWS - 7; i++)
        terminal_check(stage.terminal, strstr(row(i), "Copper Lamp") || strstr(row(i), "Old Lock"));
    back();
}

/* --- as it was left --- */

/* What stands after a label of the pane, in mm. */
static double shown_mm(const char *label)
{
    const int at = terminal_find(stage.terminal, label, NULL);

    terminal_check(stage.terminal, at >= 0);
    const char *text = strstr(terminal_row(stage.terminal, at), label);
    return strtod(text + strcspn(text, ".0123456789"), NULL) * 25.4;
}

/* In the house for its last visit: last left by the one before it, and once more before that. */
static void ask_earlier(void)
{
    const struct book_item *item = book_find(&stage.book, "Parlour No. 9");

    assert_non_null(item);
    assert_true(item->visits >= 3 && book_in_house(item));
    const struct book_visit *last = &item->visit[item->visits - 2], *before = last - 1;

    type("p-009");
    (void)expect_count(stage.times, "found");
    press(TERMINAL_RIGHT);
    terminal_expect(stage.terminal, last->date);
    terminal_expect(stage.terminal, "E2 A2 D3 G3 B3 E4");
    terminal_check(stage.terminal, fabs(shown_mm("relief") - last->relief_mm) < 1e-3);
    press(TERMINAL_LEFT);
    terminal_expect(stage.terminal, before->date);
    answered();
    terminal_check(stage.terminal, fabs(shown_mm("relief") - before->relief_mm) < 1e-3);
    for (int i = 0; i < BOOK_VISITS_MAX; i++)
        press(TERMINAL_LEFT);
    terminal_expect(stage.terminal, "in visit 1 of ");
    terminal_expect(stage.terminal, item->visit[0].date);
    back();
}

/* --- all together --- */

static int compare(const void *a, const void *b)
{
    const double x = *(const double *)a, y = *(const double *)b;

    return (x > y) - (x < y);
}

static double median_of(double *values, size_t count)
{
    qsort(values, count, sizeof *values, compare);
    return count % 2 ? values[count / 2] : (values[count / 2 - 1] + values[count / 2]) / 2;
}

static void ask_usual(void)
{
    double *values = calloc(stage.book.count, sizeof *values);
    size_t count = 0;
    char wanted[40], number[12];

    for (size_t i = 0; i < stage.book.count; i++)
        if (strcmp(stage.book.items[i].kind, "steel-string") == 0 &&
            stage.book.items[i].target_relief_mm >= 0)
            values[count++] = stage.book.items[i].target_relief_mm;
    snprintf(wanted, sizeof wanted, "%.3f in", median_of(values, count) / 25.4);
    snprintf(number, sizeof number, " %zu ", count);
    free(values);
    type("*v");
    terminal_expect(stage.terminal, "What do we usually set?");
    answered();
    const int at = terminal_find(stage.terminal, "steel-string ", NULL);
    terminal_check(stage.terminal, at >= 0);
    terminal_check(stage.terminal, strstr(terminal_row(stage.terminal, at), wanted + 1) != NULL);
    terminal_check(stage.terminal, strstr(terminal_row(stage.terminal, at), number) != NULL);
    back();
}

/* What a turn truly does to the necks of a kind, by the shop's maker; their median, in mm. */
static double true_turn_mm(const char *kind)
{
    double values[SHOP];
    size_t count = 0;
    char line[LINE_LENGTH], file[BOOK_TEXT];
    FILE *truths = fopen(stage.truth, "r");
    struct book book;

    assert_non_null(truths);
    book_read(shelf_of(1), &book);
    while (fgets(line, sizeof line, truths)) {
        const char *rod = strstr(line, ",rod_per_turn,");

        if (!rod)
            continue;
        snprintf(file, sizeof file, "%.*s", (int)strcspn(line, ","), line);
        for (size_t i = 0; i < book.count; i++)
            if (strcmp(book.items[i].file, file) == 0 && strcmp(book.items[i].kind, kind) == 0)
                values[count++] = strtod(rod + strcspn(rod, "-"), NULL);
    }
    fclose(truths);
    book_done(&book);
    assert_true(count >= 3);
    return median_of(values, count);
}

/* "electric      -.004 in        .001          6": the truth is within what it may give or take,
 * and half of its last digit. */
static void ask_turns(void)
{
    static const char *const kinds[] = {"steel-string", "electric", "bass"};

    type("*.3");
    terminal_expect(stage.terminal, "What does a quarter turn do?");
    answered();
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++) {
        const int at = terminal_find(stage.terminal, kinds[i], NULL);
        double in = 0, u_in = 0;
        int necks = 0;

        terminal_check(stage.terminal, at >= 0);
        const char *text = terminal_row(stage.terminal, at) + 1 + strlen(kinds[i]);
        terminal_check(stage.terminal, sscanf(text, " %lf in %lf %d", &in, &u_in, &necks) == 3);
        terminal_check(stage.terminal,
                       fabs(in * 25.4 * 4 - true_turn_mm(kinds[i])) < (u_in + 0.0005) * 25.4 * 4);
        /* More than these are not counted. */
        terminal_check(stage.terminal,
                       necks == 256 || (necks >= 3 * stage.times && necks % stage.times == 0));
    }
    back();
}

/* A shop so many times over was right as often: the share and the factor are the same. */
static void ask_proof(void)
{
    static double share, factor;
    static int checked;
    double share_now = 0, factor_now = 0;
    int checked_now = 0, inside = 0;

    type("*.4");
    terminal_expect(stage.terminal, "How right were we?");
    answered();
    const int at = terminal_find(stage.terminal, " all ", NULL);
    terminal_check(stage.terminal, at >= 0);
    terminal_check(stage.terminal,
                   sscanf(terminal_row(stage.terminal, at), " all all %d %d %lf %lf", &checked_now,
                          &inside, &share_now, &factor_now) == 4);
    terminal_check(stage.terminal, fabs(share_now - 100.0 * inside / checked_now) < 0.051);
    terminal_check(stage.terminal, share_now > 90 && share_now < 99);
    if (stage.times == 1) {
        checked = checked_now;
        share = share_now;
        factor = factor_now;
    }
    assert_int_equal(checked_now, checked * stage.times);
    assert_near(share_now, share, 1e-9);
    assert_near(factor_now, factor, 1e-9);
    back();
}

/* --- the journal --- */

static const char *last_day(void)
{
    const char *last = "";

    for (size_t i = 0; i < stage.book.count; i++) {
        const struct book_item *item = &stage.book.items[i];

        for (int v = 0; v < item->visits; v++) {
            if (strcmp(item->visit[v].date, last) > 0)
                last = item->visit[v].date;
            if (strcmp(item->visit[v].handed_over, last) > 0)
                last = item->visit[v].handed_over;
        }
    }
    return last;
}

static void ask_journal(void)
{
    const char *last = last_day();
    const struct tm day = noon_of(last);
    char title[60], came[BOOK_TEXT + 20] = "";

    size_t length = strftime(title, sizeof title, "%A, ", &day);
    length += (size_t)snprintf(title + length, sizeof title - length, "%d", day.tm_mday);
    strftime(title + length, sizeof title - length, " %B %Y", &day);
    type("*j");
    terminal_expect(stage.terminal, "done on ");
    terminal_expect(stage.terminal, "Nothing was done then.");
    press(TERMINAL_LEFT);
    terminal_expect(stage.terminal, title);
    answered();
    for (size_t i = 0; i < stage.book.count && !came[0]; i++) {
        const struct book_item *item = &stage.book.items[i];

        if (strcmp(item->visit[item->visits - 1].date, last) == 0 &&
            !strpbrk(item->name, "123456789"))
            snprintf(came, sizeof came, "%s: came in", item->name);
    }
    if (came[0] && stage.times == 1)
        terminal_expect(stage.terminal, came);
    press(TERMINAL_ENTER);
    strftime(title, sizeof title, "done in %B %Y", &day);
    terminal_expect(stage.terminal, title);
    answered();
    back();
}

/* --- one by words --- */

static bool holds(const char *text, const char *word)
{
    const size_t length = strlen(word);

    for (; *text; text++) {
        size_t i = 0;

        while (i < length && tolower((unsigned char)text[i]) == word[i])
            i++;
        if (i == length)
            return true;
    }
    return false;
}

static int count_with(const char *first, const char *second)
{
    int count = 0;

    for (size_t i = 0; i < stage.book.count; i++) {
        const struct book_item *item = &stage.book.items[i];
        char all[6 * BOOK_TEXT];

        snprintf(all, sizeof all, "%s\n%s\n%s\n%s\n%s", item->name, item->owner, item->maker,
                 item->serial, item->kind);
        count += holds(all, first) && holds(all, second);
    }
    return count;
}

static void ask_words(void)
{
    type("una c");
    (void)expect_count(count_with("una", "c"), "found");
    answered();
    back();
    type("QFW-P");
    (void)expect_count(count_with("qfw-p", ""), "found");
    answered();
    back();
    type("kitti");
    (void)expect_count(count_with("kitti", ""), "found");
    answered();
    back();
    type("zzz");
    (void)expect_count(0, "found");
    answered();
    terminal_expect(stage.terminal, "No instrument matches what is typed.");
    terminal_expect(stage.terminal, "name, owner, maker, serial, kind, tuning, ticket");
    back();
}

/* Within a question too, it is said among which nothing matches; then one key lists all. */
static void ask_for_all_again(void)
{
    char title[60];

    snprintf(title, sizeof title, "%d instruments on file ", SHOP * stage.times);
    type("*3zzz");
    terminal_expect(stage.terminal, "No instrument due for a check matches what is typed.");
    type("*1");
    terminal_expect(stage.terminal, title);
    type("*3");
    terminal_expect(stage.terminal, "due for a check");
    type("*1");
    terminal_expect(stage.terminal, title);
    back();
}

static void ask_all(int times)
{
    begin(times, ROWS, 80);
    ask_house();
    ask_due();
    ask_saddle();
    ask_rods();
    ask_earlier();
    ask_usual();
    ask_turns();
    ask_proof();
    ask_journal();
    ask_words();
    ask_for_all_again();
}

static void forty_instruments_answer_in_a_few_keys(void **state)
{
    (void)state;
    ask_all(1);
}

static void a_thousand_answer_as_well(void **state)
{
    (void)state;
    ask_all(1000 / SHOP);
}

/* --- beside it --- */

/* Where the screen is wide it stands beside the list, and the same keys go through its visits. */
static void on_a_wide_screen_it_stands_beside_the_list(void **state)
{
    (void)state;
    begin(1, 43, 132);
    const struct book_item *item = book_find(&stage.book, "Parlour No. 9");
    type("p-009");
    terminal_expect(stage.terminal, "1 of 40 instruments found");
    terminal_expect(stage.terminal, item->visit[item->visits - 2].date);
    press(TERMINAL_LEFT);
    terminal_expect(stage.terminal, item->visit[item->visits - 3].date);
    terminal_expect(stage.terminal, ">Parlour No. 9");
    press(TERMINAL_ESCAPE);
    terminal_expect(stage.terminal, item->visit[item->visits - 2].date);
}

static void expect_usual(void)
{
    for (int i = 0; i < 80 && terminal_find(stage.terminal, "relief target, from", NULL) < 0; i++) {
        terminal_key(stage.terminal, TERMINAL_DOWN);
        terminal_settle(stage.terminal);
    }
    terminal_expect(stage.terminal, "relief target, from");
    terminal_expect(stage.terminal, "usual here .0");
}

/* On Intake a target says what is usual for the others of its kind, all of them, whatever the list
 * was narrowed to; and by the folder's cache where it was opened by its file. */
static void a_target_says_what_is_usual(void **state)
{
    char words[500], said[40000], path[400];

    (void)state;
    begin(1, ROWS, 80);
    type("slipway");
    terminal_expect(stage.terminal, "1 of 40 instruments found");
    terminal_key(stage.terminal, TERMINAL_TAB);
    terminal_expect(stage.terminal, "owner");
    expect_usual();
    terminal_stop(stage.terminal);
    snprintf(words, sizeof words, "shelf --shelf '%s'", shelf_of(1));
    run(words, said, sizeof said);
    snprintf(path, sizeof path, "%s/slipway.ini", shelf_of(1));
    const char *const argv[] = {program, path, NULL};
    const char *const env[] = {clock_of(), NULL};
    const struct terminal_setup setup = {.argv = argv, .home = stage.home, .env = env};
    stage.terminal = terminal_start(&setup);
    terminal_expect(stage.terminal, "[Bench]");
    terminal_feed(stage.terminal, "\x1BOP", 3);
    terminal_expect(stage.terminal, "[Intake]");
    expect_usual();
}

/* One that can go back is handed over, and the list goes on with what is still in the house. Who
 * works at one is seen there. */
static void handing_over_leaves_the_list_as_it_is(void **state)
{
    char text[LINE_LENGTH], path[440];

    (void)state;
    begin(1, ROWS, 80);
    const int count = count_items(book_in_house);
    type("*i");
    (void)expect_count(count, "in the house");
    for (int i = 0; i < count && !strstr(row(i), "hand over"); i++) {
        terminal_key(stage.terminal, TERMINAL_DOWN);
        terminal_settle(stage.terminal);
    }
    press(TERMINAL_ENTER);
    terminal_expect(stage.terminal, "[Bench]");
    type("*A");
    terminal_settle(stage.terminal);
    /* It is asked about if not all of it was read. */
    if (terminal_find(stage.terminal, "Enter hands it over", NULL) >= 0)
        press(TERMINAL_ENTER);
    terminal_expect(stage.terminal, "Handed over today");
    press(TERMINAL_ESCAPE);
    (void)expect_count(count - 1, "in the house");
    answered();
    snprintf(text, sizeof text, "%s", row(0));
    snprintf(path, sizeof path, "%s/%s", shelf_of(1), item_in(text)->file);
    const char *const argv[] = {program, path, NULL}, *const env[] = {clock_of(), NULL};
    const struct terminal_setup setup = {.argv = argv, .home = stage.home, .env = env};
    struct terminal *other = terminal_start(&setup);
    terminal_expect(other, "[Bench]");
    terminal_type(stage.terminal, "\x0C");
    terminal_expect(stage.terminal, "in use; ");
    terminal_stop(other);
}

int main(int count, char **words)
{
#define CLOSED(test) cmocka_unit_test_teardown(test, close_shelf)
    const struct CMUnitTest tests[] = {
        CLOSED(forty_instruments_answer_in_a_few_keys),     CLOSED(a_thousand_answer_as_well),
        CLOSED(on_a_wide_screen_it_stands_beside_the_list), CLOSED(a_target_says_what_is_usual),
        CLOSED(handing_over_leaves_the_list_as_it_is),
    };

    if (count != 2)
        return 2;
    program = words[1];
    return cmocka_run_group_tests(tests, open_stage, close_stage);
}
