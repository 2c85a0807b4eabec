/* SPDX-License-Identifier: MIT */
#include "run/shop_keep.h"

#include <errno.h>
#include <stdlib.h>

#include "commands/report.h"
#include "commands/shop_settings.h"
#include "model/reading/record_access.h"
#include "model/reading/shop_own.h"
#include "store/shop.h"
#include "store/shop_targets.h"

void shop_keep_units(struct app *app)
{
    char *path = NULL;
    enum status status = shop_path(&path);

    if (status == STATUS_OK)
        status = shop_write(path, &app->units);
    if (status != STATUS_OK)
        app_say(app, TONE_WARNING,
                "The gauges' units hold for now, but the shop's settings cannot be written.");
    free(path);
}

void shop_keep_tell_kinds(struct app *app)
{
    char *path = NULL;

    app->shop_kinds = 0;
    if (shop_path(&path) == STATUS_OK)
        (void)shop_targets_kinds(path, &app->shop_kinds);
    free(path);
}

void shop_keep_tell_prices(struct app *app)
{
    app->prices = shop_settings_prices();
}

void shop_keep_price(struct app *app, int row)
{
    char memory[APP_MESSAGE_MAX];
    struct strbuf words = STRBUF(memory);
    char *path = NULL;
    enum status status = shop_path(&path);

    errno = 0;
    if (status == STATUS_OK)
        status = shop_prices_write(path, &app->prices, row);
    const int error = errno;
    free(path);
    if (status == STATUS_OK)
        return;
    shop_keep_tell_prices(app);
    strbuf_add(&words, "The price stays as it was; shop.ini: ");
    report_words(status, error, &words);
    app_say(app, TONE_WARNING, memory);
}

static enum status change(const struct app *app, enum app_targets what)
{
    char *path = NULL;
    enum status status = shop_path(&path);

    if (status == STATUS_OK)
        status = what == TARGETS_KEEP ? shop_targets_keep(path, &app->record)
                                      : shop_targets_forget(path, &app->record);
    const int error = errno;
    free(path);
    errno = error;
    return status;
}

/* "6 targets, 3 tolerances, 2 gauge steps". */
static void add_kept(const struct record *record, struct strbuf *out)
{
    static const struct {
        const char *one, *many;
    } words[SHOP_OWN_GROUPS_] = {
        [SHOP_OWN_TARGET] = {"target", "targets"},
        [SHOP_OWN_TOLERANCE] = {"tolerance", "tolerances"},
        [SHOP_OWN_STEP] = {"gauge step", "gauge steps"},
    };
    size_t count[SHOP_OWN_GROUPS_] = {0};
    const char *between = "";

    for (int k = 0; shop_own_field(k) != FIELD_COUNT_; k++)
        count[shop_own_group(k)] += shop_own_text(record, shop_own_field(k)) != NULL;
    for (int i = 0; i < SHOP_OWN_GROUPS_; i++)
        if (count[i] > 0) {
            strbuf_add(out, between);
            strbuf_add_count(out, count[i], words[i].one, words[i].many);
            between = ", ";
        }
}

static void add_kind(const struct record *record, struct strbuf *out)
{
    char name[KIND_NAME_SIZE];

    if (record_kind(record, name))
        strbuf_add(out, name);
}

void shop_keep_targets(struct app *app, enum app_targets what)
{
    char memory[APP_MESSAGE_MAX];
    struct strbuf words = STRBUF(memory);

    errno = 0;
    const enum status status = change(app, what);
    const int error = errno;
    shop_keep_tell_kinds(app);
    if (status != STATUS_OK) {
        strbuf_add(&words, "The shop's targets stay as they were; shop.ini: ");
        report_words(status, error, &words);
    } else if (what == TARGETS_KEEP) {
        strbuf_add(&words, "Kept in shop.ini for ");
        add_kind(&app->record, &words);
        strbuf_add(&words, ": ");
        add_kept(&app->record, &words);
    } else {
        strbuf_add(&words, "No targets of the shop's own any more in shop.ini for ");
        add_kind(&app->record, &words);
    }
    app_say(app, status == STATUS_OK ? TONE_NOTE : TONE_WARNING, memory);
}
