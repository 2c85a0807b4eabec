/* SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>

#include "near.h"
#include "shelf/shelf_list.h"
#include "store/shelf/shelf.h"
#include "tree.h"

/*
 * A shelf of many instruments: the time until its names are listed, until every card has been read
 * (cold), the same with a cache (warm), and for a typed letter. Prints a table; no
 * time is a failure.
 *
 *     bench_shelf PROFILE [COUNT]
 */
static double now_ms(void)
{
    struct timespec t;

    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec * 1e3 + (double)t.tv_nsec * 1e-6;
}

/* Copies of one profile. */
static void fill(const struct tree *tree, const char *profile, int count)
{
    size_t length;
    char *bytes = tree_read(profile, &length);

    assert_non_null(bytes);
    assert_int_equal(mkdir(tree_path(tree, "shelf"), 0700), 0);
    for (int i = 0; i < count; i++) {
        char name[40];

        snprintf(name, sizeof name, "shelf/instrument-%06d.ini", i);
        tree_write(tree_path(tree, name), bytes, length);
    }
    free(bytes);
}

/* A file touched this very moment is not kept in the cache. */
static void wait_until_settled(void)
{
    const struct timespec pause = {.tv_sec = 4};

    nanosleep(&pause, NULL);
}

static struct shelf *measure_open(const struct tree *tree, const char *what)
{
    struct shelf *shelf;
    const double start = now_ms();

    assert_int_equal(shelf_open(tree_path(tree, "shelf"), &shelf), STATUS_OK);
    printf("%-34s %9.1f ms, %zu listed, %zu to read\n", what, now_ms() - start,
           shelf_entries(shelf)->count, shelf_unread(shelf));
    return shelf;
}

static void measure_reading(struct shelf *shelf)
{
    const double start = now_ms();
    size_t count = 0;

    while (shelf_read_next(shelf))
        count++;
    const double took = now_ms() - start;
    printf("%-34s %9.1f ms, %.3f ms each\n", "every card read", took,
           count ? took / (double)count : 0);
}

static void measure_scan(struct shelf *shelf)
{
    const double start = now_ms();

    assert_int_equal(shelf_scan(shelf), STATUS_OK);
    printf("%-34s %9.1f ms\n", "listed again while it runs", now_ms() - start);
}

static void measure_cache(struct shelf *shelf)
{
    const double start = now_ms();

    shelf_keep_cache(shelf);
    printf("%-34s %9.1f ms\n", "cache written", now_ms() - start);
}

static void measure_list(const struct shelf *shelf)
{
    const struct shelf_entries *entries = shelf_entries(shelf);
    struct shelf_list list;
    double start = now_ms();

    shelf_list_init(&list, "", NULL, 0);
    struct shelf_item *items = shelf_list_room(&list, entries->count);
    assert_non_null(items);
    for (size_t i = 0; i < entries->count; i++)
        items[i] = (struct shelf_item){.file = entries->items[i].file,
                                       .card = entries->items[i].card,
                                       .trouble = "",
                                       .written_s = entries->items[i].stamp.written_s};
    shelf_list_take(&list);
    printf("%-34s %9.1f ms\n", "sorted for the screen", now_ms() - start);
    const struct event event = {.type = EVENT_KEY, .key = 'q'};
    start = now_ms();
    shelf_list_handle(&list, &event);
    printf("%-34s %9.1f ms, %zu found\n", "a typed letter", now_ms() - start, list.found_count);
    shelf_list_done(&list);
}

static void run(const struct tree *tree, const char *profile, int count)
{
    printf("%d profiles\n", count);
    fill(tree, profile, count);
    wait_until_settled();
    struct shelf *shelf = measure_open(tree, "cold: names");
    measure_reading(shelf);
    measure_cache(shelf);
    shelf_close(shelf);
    shelf = measure_open(tree, "warm: names and cards");
    measure_scan(shelf);
    measure_list(shelf);
    shelf_close(shelf);
}

int main(int argc, char **argv)
{
    void *tree = NULL;

    if (argc < 2 || tree_setup(&tree) != 0)
        return 2;
    setenv("XDG_CACHE_HOME", tree_path(tree, "cache"), 1);
    run(tree, argv[1], argc > 2 ? atoi(argv[2]) : 10000);
    return tree_teardown(&tree) ? 1 : 0;
}
