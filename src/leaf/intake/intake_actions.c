/* SPDX-License-Identifier: MIT */
#include "leaf/intake/intake_actions.h"

#include "model/reading/record_access.h"
#include "model/reading/shop_own.h"
#include "words/kind_words.h"

static struct maybe kind_of(const struct app *app)
{
    return record_entered_one(&app->record, FIELD_KIND);
}

bool intake_can_keep_targets(const struct app *app)
{
    return kind_of(app).given && shop_own_count(&app->record) > 0;
}

bool intake_can_forget_targets(const struct app *app)
{
    const struct maybe kind = kind_of(app);

    return kind.given && (app->shop_kinds >> (int)kind.value & 1);
}

void intake_keep_targets(struct turn *turn)
{
    turn->effects.targets = TARGETS_KEEP;
}

void intake_forget_targets(struct turn *turn)
{
    turn->effects.targets = TARGETS_FORGET;
}

void intake_add_kind(const struct app *app, struct strbuf *out)
{
    char memory[64];
    struct strbuf kind = STRBUF(memory);

    kind_words_add(&app->record, &kind);
    if (kind.length > 0)
        strbuf_addf(out, " for %s", memory);
}
