/* SPDX-License-Identifier: MIT */
#include "fuzz.h"

#include <stdlib.h>
#include <string.h>

#include "fuzz_events.h"
#include "leaf/leaves.h"
#include "screen/ui.h"
#include "sound.h"
#include "store/profile/preset.h"
#include "store/profile/profile_edit.h"

/*
 * Keys at an instrument: all leaves, overlays and entries, each followed by the screen at some
 * size. Input: the instrument, its settings, then events (fuzz_events.h). The session stays in
 * a usable state, the screen sends no control characters, the record survives saving and reading,
 * and undo and redo lead back to it.
 */

/* As starting points, and what those do not have. */
static const char *const profiles[] = {
    "[profile]\nformat = 1\n",
    "[board]\nscale = 25.5 in\nstrings = 12\nfrets = 36\njoin_fret = 16\n"
    "[visit.9999.pass.999]\nrelief = .01 in\n",
    "[board]\nscale = 648 mm\nstrings = 1\nfrets = 0\n",
    "[instrument]\nname = \"%1B[2J \xE2\x80\xAEgnol \xE6\x97\xA5\xE6\x9C\xAC e\xCC\x81\xCC\x81\"\n"
    "owner = \"\xFF\xFE\"\nnote = \"a%0Ab\"\n"
    "[board]\nscale = soon\nstrings = 6\nfrets = 22\njoin_fret = 14\n"
    "[visit.1]\ndate = 2020-01-01\n[visit.1.pass.1]\nlabel = \"\xE6\x97\xA5\xE6\x9C\xAC\"\n"
    "relief = -10 mm\n[visit.3.work.2]\nkind = \"%07\"\n",
    "[board]\nscale = 24.9 in\nstrings = 6\nfrets = 19\njoin_fret = 12\nheel_fret = 10\n"
    "[bridge]\nkind = screw\nthread = 0.5 mm\n[neck]\njoin = bolted\nrod = two-way\n"
    "[targets]\nrelief = .006 in\naction_bass = 6/64 in\naction_treble = 4/64 in\n"
    "[visit.1]\ndate = 2026-01-05\n[visit.1.pass.1]\nrelief = .013 in\nnut_gap.1 = .020 in\n"
    "action.6 = 8/64 in\naction.1 = 6/64 in\nexposure_bass = 5 mm\nexposure_treble = 4.5 mm\n"
    "[visit.1.pass.2]\nrod_turn = 1/4\nrelief = .009 in\ncents.1.12 = 4\nbuzz.6 = 0 3 5-7\n"
    "[visit.2]\ndate = 2026-03-02\nhumidity = 30\n[visit.2.pass.1]\nrelief = .02 in\n",
};
enum { PROFILES = sizeof profiles / sizeof profiles[0] };

static const struct app_clock clock_stands = {.date = "2026-03-02", .time = "10:42"};

static void load_text(const char *text, struct profile_content *ret_content)
{
    struct bytes bytes;

    bytes_init(&bytes);
    bytes_add_text(&bytes, text);
    FUZZ_CHECK(profile_load(&bytes, NULL, ret_content) == STATUS_OK);
    bytes_done(&bytes);
}

static void take_profile(struct fuzz_bytes *bytes, struct profile_content *ret_content)
{
    const int index = fuzz_byte(bytes) % (PROFILES + 10);
    const struct preset *preset = index < PROFILES ? NULL : preset_get(index - PROFILES);

    load_text(preset ? preset->text : profiles[index % PROFILES], ret_content);
}

static void show(const struct app *app, struct fuzz_screen *screen)
{
    struct frame frame;

    FUZZ_CHECK(frame_init(&frame, screen->rows, screen->columns) == STATUS_OK);
    ui_compose(app, screen->utf8, &frame);
    FUZZ_SOUND(sound_frame(&frame, screen->utf8));
    frame_done(&frame);
}

/* What the session's own save would write. */
static void check_save(const struct profile_content *content, const struct record *record)
{
    struct profile_content again;
    struct bytes bytes;

    bytes_init(&bytes);
    FUZZ_CHECK(profile_edit(content, record, &bytes) == STATUS_OK);
    FUZZ_CHECK(profile_load(&bytes, NULL, &again) == STATUS_OK);
    bytes_done(&bytes);
    FUZZ_CHECK(again.end == INI_END_GOOD && record_equal(&again.record, record));
    profile_content_done(&again);
}

static void check_session(struct app *app, const struct profile_content *content)
{
    FUZZ_SOUND(sound_record(&app->record));
    FUZZ_SOUND(sound_figures(app));
    check_save(content, &app->record);
    FUZZ_SOUND(sound_undo(app));
    struct undo_step step;
    while (undo_back(&app->undo, &app->record, &step) == STATUS_OK)
        ;
    FUZZ_CHECK(record_equal(&app->record, &content->record));
}

static void play(struct app *app, struct fuzz_bytes *bytes, bool read_only)
{
    struct fuzz_screen screen = {24, 80, true};
    struct record before;

    FUZZ_CHECK(record_copy(&app->record, &before) == STATUS_OK);
    show(app, &screen);
    while (bytes->left > 0) {
        const struct event event = fuzz_event(bytes, &screen);
        const struct app_effects effects = app_handle(app, &event, &clock_stands);

        FUZZ_SOUND(sound_app(app));
        FUZZ_CHECK(!(effects.save && read_only));
        FUZZ_CHECK(effects.save || record_equal(&app->record, &before));
        if (effects.save) {
            record_done(&before);
            FUZZ_CHECK(record_copy(&app->record, &before) == STATUS_OK);
            app_kept(app, fuzz_byte(bytes) < 250 ? STATUS_OK : STATUS_FULL, &clock_stands, NULL);
        }
        show(app, &screen);
    }
    record_done(&before);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct fuzz_bytes bytes = {data, size};
    struct profile_content content;
    struct record record;
    struct app *app = malloc(sizeof *app);

    FUZZ_CHECK(app != NULL);
    take_profile(&bytes, &content);
    const uint8_t how = fuzz_byte(&bytes);
    const bool metric = how & 1, read_only = (how & 14) == 2;
    const struct shop_units units = metric ? shop_units_metric() : shop_units_inch();
    FUZZ_CHECK(record_copy(&content.record, &record) == STATUS_OK);
    if (app_init(app, &leaves_all, &record, metric, &units, read_only) != STATUS_OK)
        abort();
    app->from_shelf = how & 16;
    play(app, &bytes, read_only);
    check_session(app, &content);
    app_done(app);
    free(app);
    profile_content_done(&content);
    return 0;
}
