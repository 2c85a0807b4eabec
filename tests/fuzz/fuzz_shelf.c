/* SPDX-License-Identifier: MIT */
#include "fuzz.h"

#include <stdlib.h>
#include <string.h>

#include "fuzz_events.h"
#include "shelf/shelf_earlier.h"
#include "shelf/shelf_list.h"
#include "shelf/shelf_together.h"
#include "shelf/shelf_view.h"
#include "sound.h"
#include "store/shelf/shelf_change.h"

/*
 * Keys on the shelf. Input: the number of instruments, their texts (a length and that many bytes,
 * shared by all), then events; when the list asks for a new scan it gets one, and between events
 * single items change as they do while files are read. Earlier states and two versions that differ
 * in these texts are given to it when it asks for them. The list stays in a usable state, what it
 * asks for can be done, and its screen sends no control characters.
 */
enum { TEXTS = 8 };

static const struct shelf_start presets[] = {
    {.title = "Steel-string"}, {.title = "Classical"}, {.title = "Bass"}};

struct instruments {
    char *texts[TEXTS];
    size_t count;
    struct record version[2]; /* of one instrument */
    struct record_join *join;
    struct join_difference differences[TEXTS];
};

/* Notes, a number, a visit that one has alone. */
static void make_version(const struct instruments *all, int side, struct record *ret_record)
{
    const struct reading_key keys[] = {
        reading_key_one(FIELD_NOTE), reading_key_visit(FIELD_VISIT_NOTE, 1),
        reading_key_pass(FIELD_RELIEF, 1, 1), reading_key_visit(FIELD_VISIT_NOTE, 2 + side)};

    record_init(ret_record);
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++)
        FUZZ_CHECK(record_put(ret_record, &keys[i], all->texts[(i + (size_t)side) % TEXTS], true,
                              NULL) != STATUS_NO_MEMORY);
}

static void begin_join(struct instruments *all)
{
    all->join = calloc(1, sizeof *all->join);
    FUZZ_CHECK(all->join != NULL);
    for (int side = 0; side < 2; side++)
        make_version(all, side, &all->version[side]);
    FUZZ_CHECK(record_join_begin(all->join, &all->version[0], &all->version[1], NULL) == STATUS_OK);
}

static void end_join(struct instruments *all)
{
    record_join_done(all->join);
    free(all->join);
    for (int side = 0; side < 2; side++)
        record_done(&all->version[side]);
}

/* What the list asked for. */
static void give_versions(struct shelf_list *list, struct instruments *all,
                          enum shelf_action action)
{
    static const struct shelf_earlier earlier[] = {{.when = "2026-11-25 13:06", .beside = true},
                                                   {.when = "2026-11-24 10:00"}};

    if (action == SHELF_DO_EARLIER)
        shelf_earlier_take(list, earlier, 2);
    if (action == SHELF_DO_TOGETHER) {
        struct shelf_together together = {.join = all->join,
                                          .differences = all->differences,
                                          .right = all->texts[1],
                                          .since = ""};

        together.count = record_join_list(all->join, all->differences, TEXTS);
        FUZZ_CHECK(together.count <= TEXTS);
        shelf_together_take(list, &together);
    }
}

static struct shelf_item item_of(const struct instruments *all, size_t n)
{
    char *const *texts = all->texts;

    return (struct shelf_item){.file = texts[n % TEXTS],
                               .card = {.name = texts[(n + 1) % TEXTS],
                                        .kind = texts[(n + 2) % TEXTS],
                                        .owner = texts[(n + n / TEXTS) % TEXTS],
                                        .maker = texts[(n + 4) % TEXTS],
                                        .serial = texts[(n + 5) % TEXTS],
                                        .visit = texts[(n + 6) % TEXTS],
                                        .moves_open = n % 2 == 0},
                               .facts = shelf_facts_blank(),
                               .trouble = n % 3 ? "" : "damaged",
                               .marks = (unsigned)n % 64,
                               .written_s = (int64_t)(n % 5)};
}

static void give(struct shelf_list *list, const struct instruments *all, size_t shift)
{
    struct shelf_item *items = shelf_list_room(list, all->count);

    FUZZ_CHECK(items != NULL || all->count == 0);
    for (size_t i = 0; i < all->count; i++)
        items[i] = item_of(all, i + shift);
    shelf_list_take(list);
}

/* As while the files are read: some items become others, and now and then all take their places. */
static void read_on(struct shelf_list *list, const struct instruments *all, size_t step)
{
    if (all->count > 0 && step % 3 == 0) {
        const size_t at = step % all->count;
        const struct shelf_item item = item_of(all, at + step);

        shelf_list_put(list, at, &item);
    }
    if (step % 7 == 0)
        shelf_list_freshen(list);
    FUZZ_SOUND(sound_shelf(list));
}

static void check_effects(const struct shelf_list *list, const struct shelf_effects *effects)
{
    char memory[300];
    struct strbuf name = STRBUF(memory);

    switch (effects->action) {
    case SHELF_DO_NOTHING:
    case SHELF_DO_JOURNAL:
        break;
    case SHELF_DO_OPEN:
    case SHELF_DO_VISIT:
        FUZZ_CHECK(shelf_list_item(list) != NULL);
        break;
    case SHELF_DO_NEW:
        FUZZ_CHECK(list->preset >= 0 && list->preset < list->starts.built_in_count);
        break;
    case SHELF_DO_COPY:
    case SHELF_DO_ARCHIVE:
    case SHELF_DO_EARLIER:
        FUZZ_CHECK(memchr(list->target, '\0', sizeof list->target) != NULL);
        break;
    case SHELF_DO_LOOK:
    case SHELF_DO_BRING_BACK:
        FUZZ_CHECK(list->earlier_at < list->earlier_count);
        break;
    case SHELF_DO_PUT_AWAY:
    case SHELF_DO_TOGETHER:
        FUZZ_CHECK(list->earlier_at < list->earlier_count);
        FUZZ_CHECK(list->earlier[list->earlier_at].beside);
        break;
    case SHELF_DO_JOIN:
        FUZZ_CHECK(join_count_open(list->together.differences, list->together.count) == 0);
        break;
    }
    /* Whatever the name, the file made of it stays in its folder. */
    profile_name_make(list->name.text, &name);
    FUZZ_CHECK(name.length > 0 && !strchr(memory, '/') && memory[0] != '.');
}

static void show(struct shelf_list *list, const struct fuzz_screen *screen)
{
    struct frame frame;

    FUZZ_CHECK(frame_init(&frame, screen->rows, screen->columns) == STATUS_OK);
    list->rows = shelf_view_rows(screen->rows);
    shelf_list_scroll(list);
    shelf_view_compose(list, screen->utf8, &frame);
    FUZZ_SOUND(sound_frame(&frame, screen->utf8));
    frame_done(&frame);
}

static void play(struct shelf_list *list, struct fuzz_bytes *bytes, struct instruments *all)
{
    struct fuzz_screen screen = {24, 80, true};

    show(list, &screen);
    while (bytes->left > 0) {
        const struct event event = fuzz_event(bytes, &screen);
        const struct shelf_effects effects = shelf_list_handle(list, &event);

        FUZZ_SOUND(sound_shelf(list));
        check_effects(list, &effects);
        if (effects.rescan || effects.action != SHELF_DO_NOTHING) {
            all->count = fuzz_byte(bytes);
            give(list, all, fuzz_byte(bytes));
            FUZZ_SOUND(sound_shelf(list));
        }
        give_versions(list, all, effects.action);
        read_on(list, all, bytes->left);
        show(list, &screen);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct fuzz_bytes bytes = {data, size};
    struct instruments all = {.count = fuzz_byte(&bytes)};
    struct shelf_list list;

    for (int i = 0; i < TEXTS; i++)
        all.texts[i] = fuzz_text(&bytes, fuzz_byte(&bytes));
    shelf_list_init(&list, all.texts[0], presets, sizeof presets / sizeof presets[0]);
    give(&list, &all, 0);
    begin_join(&all);
    play(&list, &bytes, &all);
    shelf_list_done(&list);
    end_join(&all);
    for (int i = 0; i < TEXTS; i++)
        free(all.texts[i]);
    return 0;
}
