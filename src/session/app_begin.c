/* SPDX-License-Identifier: MIT */
#include "session/app.h"

#include <stdlib.h>

#include "session/app_place.h"

static void free_states(struct app *app)
{
    for (int leaf = 0; leaf < LEAF_COUNT_; leaf++)
        free(app->state[leaf]);
}

static enum status make_states(struct app *app)
{
    for (int leaf = 0; leaf < LEAF_COUNT_; leaf++) {
        const size_t size = app->leaves->row[leaf]->state_size;

        app->state[leaf] = size > 0 ? calloc(1, size) : NULL;
        if (size > 0 && !app->state[leaf]) {
            free_states(app);
            return STATUS_NO_MEMORY;
        }
        if (app->leaves->row[leaf]->is_bench)
            app->leaf = (enum leaf)leaf;
    }
    return STATUS_OK;
}

enum status app_init(struct app *app, const struct leaves *leaves, struct record *record,
                     bool metric, const struct shop_units *units, bool read_only)
{
    *app = (struct app){.leaves = leaves, .metric = metric, .units = *units};
    if (make_states(app) != STATUS_OK)
        return STATUS_NO_MEMORY;
    app->record = *record;
    record_init(record);
    undo_init(&app->undo);
    app->keeping = read_only ? KEEPING_READ_ONLY : KEEPING_AS_FILED;
    app_take_current(app);
    return STATUS_OK;
}

void app_done(struct app *app)
{
    free_states(app);
    undo_done(&app->undo);
    record_done(&app->record);
}
