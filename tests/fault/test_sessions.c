/* SPDX-License-Identifier: MIT */

/*
 * Whole sessions of the real program in which one system call fails, or succeeds but reports
 * failure, or kills: whatever the screen showed as kept is on disk afterwards, in a file
 * that opens. Arguments: the program linked with faults, the folder of test data, the first seed,
 * and the number of seeds.
 */
#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <setjmp.h>
#include <signal.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cmocka.h>

#include "seeded.h"
#include "session_faults.h"
#include "store/profile/generations.h"
#include "store/profile/profile.h"
#include "terminal.h"
#include "tree.h"

enum { STEPS_MAX = 10, LINES_MAX = 8, PATH_SIZE = 1024 };

#define CTRL_C "\x03"

static const char *program, *data_folder;

/* --- what is done --- */

struct stage {
    struct tree *tree;
    char profile[PATH_SIZE], home[PATH_SIZE], page_path[PATH_SIZE];
    struct session_faults *page;
    struct terminal *terminal;
    int keys;                     /* sent so far */
    const char *kept[LINES_MAX];  /* lines that have to be somewhere */
    const char *taken[LINES_MAX]; /* lines that were typed, shown as kept or not */
    int kept_count, taken_count;
};

/* Keys of one byte each; what they enter, as a line of the file; what happens before them. */
struct step {
    const char *keys, *line;
    void (*before)(struct stage *stage);
};

struct script {
    const char *name;
    bool from_shelf;
    void (*prepare)(struct stage *stage);
    struct step steps[STEPS_MAX];
};

static void must_stay(struct stage *stage, const char *line)
{
    assert_true(stage->kept_count < LINES_MAX);
    stage->kept[stage->kept_count++] = line;
}

static char *path_of(struct stage *stage, const char *name, char path[PATH_SIZE])
{
    snprintf(path, PATH_SIZE, "%s/shelf/%s", stage->tree->folder, name);
    return path;
}

/* A profile that can be told by its note, which no script changes; written by the store itself. */
static void write_profile(const char *path, const char *note)
{
    char source[PATH_SIZE];
    const struct reading_key key = reading_key_one(FIELD_NOTE);
    struct profile *from, *to;
    struct record record;

    snprintf(source, sizeof source, "%s/worked-example.ini", data_folder);
    assert_int_equal(profile_open(source, PROFILE_TO_READ, NULL, &from), STATUS_OK);
    assert_int_equal(record_copy(profile_record(from), &record), STATUS_OK);
    profile_close(from);
    assert_int_equal(record_put(&record, &key, note, false, NULL), STATUS_OK);
    assert_int_equal(profile_create(path, &to), STATUS_OK);
    assert_int_equal(profile_save(to, &record), STATUS_OK);
    profile_close(to);
    record_done(&record);
}

static void prepare_one(struct stage *stage)
{
    char path[PATH_SIZE];

    write_profile(path_of(stage, "a.ini", path), "first");
    must_stay(stage, "note = first");
}

static void prepare_earlier(struct stage *stage)
{
    char path[PATH_SIZE];
    struct bytes bytes;
    size_t length;

    write_profile(path_of(stage, "a.ini", path), "earlier");
    bytes_init(&bytes);
    char *text = tree_read(path, &length);
    bytes_add(&bytes, text, length);
    free(text);
    assert_int_equal(generations_keep(path, &bytes, NULL), STATUS_OK);
    bytes_done(&bytes);
    assert_int_equal(unlink(path), 0);
    prepare_one(stage);
    must_stay(stage, "note = earlier");
}

static void prepare_versions(struct stage *stage)
{
    char path[PATH_SIZE];

    prepare_one(stage);
    write_profile(path_of(stage, "a.ini.conflict", path), "version");
    must_stay(stage, "note = version");
}

static void take_folder_away(struct stage *stage)
{
    char away[PATH_SIZE], shelf[PATH_SIZE];

    snprintf(shelf, sizeof shelf, "%s/shelf", stage->tree->folder);
    snprintf(away, sizeof away, "%s/away", stage->tree->folder);
    assert_int_equal(rename(shelf, away), 0);
    assert_int_equal(mkdir(shelf, 0700), 0); /* what is under a mount can often be written */
}

static void bring_folder_again(struct stage *stage)
{
    char away[PATH_SIZE], shelf[PATH_SIZE];

    snprintf(shelf, sizeof shelf, "%s/shelf", stage->tree->folder);
    snprintf(away, sizeof away, "%s/away", stage->tree->folder);
    /* Done already, or something was filed in the one that lay below. */
    if (rename(away, shelf) != 0)
        assert_true(errno == ENOENT || errno == ENOTEMPTY);
}

static void change_behind_its_back(struct stage *stage)
{
    char path[PATH_SIZE], other[PATH_SIZE];

    write_profile(path_of(stage, "other", other), "theirs");
    assert_int_equal(rename(other, path_of(stage, "a.ini", path)), 0);
    /* What was in the file is gone by that hand, and has to be kept anew. */
    stage->taken_count = 0;
    for (int i = 0; i < stage->kept_count; i++)
        if (strncmp(stage->kept[i], "note", 4) != 0)
            stage->taken[stage->taken_count++] = stage->kept[i];
    stage->kept_count = 0;
    must_stay(stage, "note = theirs");
}

#define RELIEF                                                                                     \
    {                                                                                              \
        ".0245\r", "relief = .0245 in", NULL                                                       \
    }
#define GAP                                                                                        \
    {                                                                                              \
        "37.5\r", "nut_gap.6 = 37.5 th", NULL                                                      \
    }

static const struct script scripts[] = {
    {"bench", false, prepare_one, {RELIEF, GAP, {"36.5\r", "nut_gap.5 = 36.5 th", NULL}}},
    {"shelf and bench", true, prepare_one, {{"\r", NULL, NULL}, RELIEF, GAP}},
    {"new", true, prepare_one, {{"*n\r", NULL, NULL}, {"Harp\r", NULL, NULL}, RELIEF, GAP}},
    {"copy", true, prepare_one, {{"*f", NULL, NULL}, {"\r", NULL, NULL}, RELIEF, GAP}},
    {"archive", true, prepare_one, {{"*g", NULL, NULL}, {"\r", NULL, NULL}}},
    {"archive with a version", true, prepare_versions, {{"*g", NULL, NULL}, {"\r", NULL, NULL}}},
    {"bring back", true, prepare_earlier, {{"*e", NULL, NULL}, {"b", NULL, NULL}}},
    {"bring back and go on",
     true,
     prepare_earlier,
     {{"*e", NULL, NULL}, {"b", NULL, NULL}, {"\r", NULL, NULL}, RELIEF}},
    {"folder away", false, prepare_one, {{".0245\r", "relief = .0245 in", take_folder_away}, GAP}},
    {"folder away and back",
     false,
     prepare_one,
     {{".0245\r", "relief = .0245 in", take_folder_away},
      {"37.5\r", "nut_gap.6 = 37.5 th", bring_folder_again}}},
    {"changed by another hand",
     false,
     prepare_one,
     {RELIEF, {"37.5\r", "nut_gap.6 = 37.5 th", change_behind_its_back}}},
    {"put away", true, prepare_versions, {{"*e", NULL, NULL}, {"p", NULL, NULL}}},
    {"bring a version back", true, prepare_versions, {{"*e", NULL, NULL}, {"b", NULL, NULL}}},
    {"put together",
     true,
     prepare_versions,
     {{"*e", NULL, NULL}, {"/", NULL, NULL}, {"6\r", NULL, NULL}}},
    {"put together, both notes",
     true,
     prepare_versions,
     {{"*e", NULL, NULL}, {"/", NULL, NULL}, {"5\r", NULL, NULL}}},
    {"sheet", false, prepare_one, {RELIEF, {"c", NULL, NULL}, GAP}},
};

enum { SCRIPTS = sizeof scripts / sizeof scripts[0] };

/* --- a session --- */

static bool has_ended(struct stage *stage)
{
    int status;

    return terminal_ended(stage->terminal, -1, &status);
}

/* Until it has taken all keys and waits for more, or has ended. */
static void wait_until_idle(struct stage *stage)
{
    for (int i = 0; i < TERMINAL_DEADLINE_MS; i++) {
        if (*(volatile int *)&stage->page->keys == stage->keys || has_ended(stage)) {
            (void)terminal_pump(stage->terminal, 0);
            return;
        }
        (void)terminal_pump(stage->terminal, 1);
    }
    terminal_fail_at(stage->terminal, "it does not come to rest", __FILE__, __LINE__);
}

static void send(struct stage *stage, const char *keys)
{
    if (has_ended(stage))
        return;
    stage->keys += (int)strlen(keys);
    terminal_type(stage->terminal, keys);
    wait_until_idle(stage);
}

static bool sees(struct stage *stage, const char *words)
{
    return terminal_find(stage->terminal, words, NULL) >= 0;
}

/* What was typed is kept once the screen says so: in its file, or aside. */
static void note_kept(struct stage *stage)
{
    if (!sees(stage, "readings are kept aside") &&
        (!sees(stage, "kept ") || sees(stage, "NOT KEPT") || sees(stage, "were kept aside")))
        return;
    for (int i = 0; i < stage->taken_count; i++)
        must_stay(stage, stage->taken[i]);
    stage->taken_count = 0;
}

/* A reading that the screen shows in its cell, without the unit. */
static void note_taken(struct stage *stage, const struct step *step)
{
    char typed[16];
    const int length = (int)strlen(step->keys) - 1;

    snprintf(typed, sizeof typed, "%.*s", length, step->keys);
    /* Where it was refused, it still stands in the entry line. */
    if (!sees(stage, typed) || !sees(stage, "[Bench]") || sees(stage, "was not taken"))
        return;
    stage->taken[stage->taken_count++] = step->line;
}

static void start(struct stage *stage, const struct script *script)
{
    char variable[PATH_SIZE + 16], shelf[PATH_SIZE];

    snprintf(variable, sizeof variable, "SILLET_FAULTS=%s", stage->page_path);
    snprintf(shelf, sizeof shelf, "%s/shelf", stage->tree->folder);
    const char *const env[] = {variable, NULL};
    const char *const of_shelf[] = {program, "--shelf", shelf, NULL};
    const char *const of_file[] = {program, stage->profile, NULL};

    stage->page->keys = -1;
    stage->terminal = terminal_start(&(struct terminal_setup){
        .argv = script->from_shelf ? of_shelf : of_file, .env = env, .home = stage->home});
    wait_until_idle(stage);
}

static void play(struct stage *stage, const struct script *script)
{
    start(stage, script);
    for (int i = 0; i < STEPS_MAX && script->steps[i].keys && !has_ended(stage); i++) {
        const struct step *step = &script->steps[i];

        if (step->before)
            step->before(stage);
        send(stage, step->keys);
        if (has_ended(stage))
            break; /* what it shows is of before the last keys */
        if (step->line)
            note_taken(stage, step);
        note_kept(stage);
    }
    /* It leaves a place, closes what is open, or asks once more. */
    for (int i = 0; i < 8 && !has_ended(stage); i++)
        send(stage, CTRL_C);
}

/* --- what has to be so afterwards --- */

static void check_end(struct stage *stage, bool killed)
{
    const int status = terminal_expect_end(stage->terminal);

    if (killed && WIFSIGNALED(status) && WTERMSIG(status) == SIGKILL)
        return;
    terminal_check(stage->terminal, WIFEXITED(status));
    terminal_check(stage->terminal, WEXITSTATUS(status) == 0 || WEXITSTATUS(status) == 3);
    terminal_check(stage->terminal, terminal_modes_restored(stage->terminal));
    terminal_check(stage->terminal, !terminal_on_alternate_screen(stage->terminal));
}

static bool opens(const char *path)
{
    struct profile *profile = NULL;
    const bool good = profile_open(path, PROFILE_TO_READ, NULL, &profile) == STATUS_OK;

    profile_close(profile);
    return good;
}

static bool file_has(const char *path, const char *line)
{
    char wanted[80], *bytes = tree_read(path, NULL);

    snprintf(wanted, sizeof wanted, "\n%s\n", line);
    const bool has = bytes && strstr(bytes, wanted) && opens(path);
    free(bytes);
    return has;
}

/* In any file below, of whatever name, but for what was written only in part. */
static bool is_somewhere(const char *folder, const char *line)
{
    bool found = false;
    const struct dirent *entry;
    DIR *names = opendir(folder);

    while (names && !found && (entry = readdir(names)) != NULL) {
        char path[PATH_SIZE + 256];
        struct stat facts;

        if (strcmp(entry->d_name, ".") == 0 || strcmp(entry->d_name, "..") == 0 ||
            strstr(entry->d_name, ".tmp"))
            continue;
        snprintf(path, sizeof path, "%s/%s", folder, entry->d_name);
        if (lstat(path, &facts) != 0)
            continue;
        found = S_ISDIR(facts.st_mode) ? is_somewhere(path, line)
                                       : S_ISREG(facts.st_mode) && file_has(path, line);
    }
    if (names)
        closedir(names);
    return found;
}

/* What the shelf lists opens, and can be worked on at once. */
static void check_profiles(const struct stage *stage)
{
    char shelf[PATH_SIZE], path[PATH_SIZE + 256];
    const struct dirent *entry;

    snprintf(shelf, sizeof shelf, "%s/shelf", stage->tree->folder);
    DIR *names = opendir(shelf);
    assert_non_null(names);
    while ((entry = readdir(names)) != NULL) {
        const size_t length = strlen(entry->d_name);
        struct profile *profile;

        if (length < 4 || strcmp(entry->d_name + length - 4, ".ini") != 0)
            continue;
        snprintf(path, sizeof path, "%s/%s", shelf, entry->d_name);
        assert_int_equal(profile_open(path, PROFILE_TO_EDIT, NULL, &profile), STATUS_OK);
        assert_int_equal(profile_editable(profile), STATUS_OK);
        profile_close(profile);
    }
    closedir(names);
}

static void check_kept(const struct stage *stage)
{
    for (int i = 0; i < stage->kept_count; i++)
        if (!is_somewhere(stage->tree->folder, stage->kept[i])) {
            terminal_print(stage->terminal);
            fail_msg("\"%s\" was kept, and is nowhere", stage->kept[i]);
        }
}

/* --- one of them --- */

static void open_stage(struct stage *stage)
{
    void *tree = NULL;

    *stage = (struct stage){.tree = NULL};
    assert_int_equal(tree_setup(&tree), 0);
    stage->tree = tree;
    snprintf(stage->home, sizeof stage->home, "%s/home", stage->tree->folder);
    snprintf(stage->profile, sizeof stage->profile, "%s/shelf/a.ini", stage->tree->folder);
    snprintf(stage->page_path, sizeof stage->page_path, "%s/page", stage->tree->folder);
    assert_int_equal(mkdir(stage->home, 0700), 0);
    assert_int_equal(mkdir(tree_path(stage->tree, "shelf"), 0700), 0);
    assert_int_equal(mkdir(tree_path(stage->tree, "home/.config"), 0700), 0);
    assert_int_equal(mkdir(tree_path(stage->tree, "home/.config/sillet"), 0700), 0);
    tree_write_text(tree_path(stage->tree, "home/.config/sillet/shop.ini"),
                    "[shop]\nunits = inch\n");
    const int fd = open(stage->page_path, O_RDWR | O_CREAT | O_CLOEXEC, 0600);
    assert_int_equal(ftruncate(fd, sizeof *stage->page), 0);
    stage->page = mmap(NULL, sizeof *stage->page, PROT_READ | PROT_WRITE, MAP_SHARED, fd, 0);
    assert_true(stage->page != MAP_FAILED);
    close(fd);
}

static struct stage stage;

static int close_stage(void **state)
{
    void *tree = stage.tree;

    (void)state;
    terminal_stop(stage.terminal);
    if (stage.page)
        munmap(stage.page, sizeof *stage.page);
    stage = (struct stage){.tree = NULL};
    return tree ? tree_teardown(&tree) : 0;
}

/* Plays a script with that fault; its counts of calls are given back. */
static void run(const struct script *script, const struct session_faults *fault,
                int ret_seen[FAULT_COUNT_])
{
    close_stage(NULL);
    open_stage(&stage);
    script->prepare(&stage);
    *stage.page = *fault;
    play(&stage, script);
    memcpy(ret_seen, stage.page->seen, sizeof stage.page->seen);
    check_end(&stage, fault->way == FAULT_KILL);
    if (script->steps[0].before || script->steps[1].before)
        bring_folder_again(&stage);
    check_kept(&stage);
    check_profiles(&stage);
    if (fault->call == FAULT_NONE && stage.taken_count > 0) {
        terminal_print(stage.terminal);
        fail_msg("%s: \"%s\" was never said to be kept", script->name, stage.taken[0]);
    }
}

/* How many calls of each kind a script makes when nothing fails. */
static int calls[SCRIPTS][FAULT_COUNT_];

static void nothing_fails(void **state)
{
    const struct session_faults none = {.call = FAULT_NONE};

    (void)state;
    for (int i = 0; i < SCRIPTS; i++)
        run(&scripts[i], &none, calls[i]);
}

static struct session_faults draw(struct seeded *seeded, const int made[FAULT_COUNT_])
{
    static const int errors[] = {EIO, ENOSPC, EACCES, ESTALE, EDQUOT, EROFS};
    static const enum fault_way ways[] = {FAULT_ONCE, FAULT_STAYS, FAULT_LIES, FAULT_KILL};
    struct session_faults fault = {.call = FAULT_NONE};

    while (fault.call == FAULT_NONE || made[fault.call] == 0)
        fault.call = (enum fault_call)seeded_whole(seeded, FAULT_OPEN, FAULT_COUNT_ - 1);
    fault.way = ways[seeded_whole(seeded, 0, 3)];
    if (fault.way == FAULT_LIES && !fault_can_lie(fault.call))
        fault.way = FAULT_ONCE;
    /* Those on the way out come after what it has counted. */
    fault.nth = seeded_whole(seeded, 1, made[fault.call] + 2);
    fault.error = errors[seeded_whole(seeded, 0, sizeof errors / sizeof errors[0] - 1)];
    return fault;
}

static void whatever_was_kept_is_on_disk(void **state)
{
    static const char *const ways[] = {"fails", "fails from then on", "is done and says it failed",
                                       "kills"};
    const unsigned long seed = *(const unsigned long *)*state;
    struct seeded seeded = {.state = seed};
    const int which = seeded_whole(&seeded, 0, SCRIPTS - 1);
    int seen[FAULT_COUNT_];

    assert_true(calls[SCRIPTS - 1][FAULT_WRITE] > 0); /* every script went well without a fault */
    const struct session_faults fault = draw(&seeded, calls[which]);
    print_message("seed %lu: %s, %s %d of %d %s, error %d\n", seed, scripts[which].name,
                  fault_name(fault.call), fault.nth, calls[which][fault.call], ways[fault.way],
                  fault.error);
    run(&scripts[which], &fault, seen);
}

static int run_all(unsigned long first, size_t count)
{
    struct CMUnitTest *tests = calloc(count + 1, sizeof *tests);
    unsigned long *seeds = calloc(count, sizeof *seeds);

    if (!tests || !seeds)
        return 1;
    tests[0] = (struct CMUnitTest){"nothing_fails", nothing_fails, NULL, close_stage, NULL};
    for (size_t i = 0; i < count; i++) {
        seeds[i] = first + i;
        tests[i + 1] =
            (struct CMUnitTest){"whatever_was_kept_is_on_disk", whatever_was_kept_is_on_disk, NULL,
                                close_stage, &seeds[i]};
    }
    const int failed = _cmocka_run_group_tests("sessions", tests, count + 1, NULL, NULL);
    free(seeds);
    free(tests);
    return failed ? 1 : 0;
}

int main(int argc, char **argv)
{
    if (argc < 3) {
        fprintf(stderr, "usage: %s SILLET_FAULTS DATA [SEED [COUNT]]\n", argv[0]);
        return 2;
    }
    program = argv[1];
    data_folder = argv[2];
    return run_all(argc > 3 ? strtoul(argv[3], NULL, 10) : 1,
                   argc > 4 ? strtoul(argv[4], NULL, 10) : 1);
}
