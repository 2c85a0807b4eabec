/* SPDX-License-Identifier: MIT */
#include "leaf/jobs/work_cautions.h"

#include <string.h>

#include "words/caution.h"

static bool is_listed(const struct work_list *list, enum move_kind kind)
{
    const struct move *move = &list->moves[kind];

    return outfit_has_move(&list->derived->setup.outfit, kind) &&
           (move_is_done(move) || move->state == MOVE_DUE || move->state == MOVE_WAITS);
}

static bool applies_to_line(const struct app *app, int k, int line)
{
    for (int column = 0; column <= WORK_NOTE; column++) {
        const struct reading_key key = work_key((enum work_column)column, app->visit, line);
        const char *text = record_text(&app->record, &key);

        for (int kind = 0; column == WORK_KIND && text && kind < MOVE_COUNT_; kind++)
            if (strcmp(text, work_mark_name((enum move_kind)kind)) == 0)
                return false; /* marks a move, and that counts */
        if (text && caution_applies(k, text))
            return true;
    }
    return false;
}

/* A neck that is bolted into a pocket is shimmed, however much of it is known. */
static bool is_shim(const struct work_list *list)
{
    return move_words_is_shim(&list->derived->figures) || list->derived->neck.join == JOIN_POCKET;
}

void work_cautions_add_name(const struct work_list *list, enum move_kind kind, struct strbuf *out)
{
    if (!is_listed(list, kind))
        return;
    strbuf_add(out, kind == MOVE_RESET && is_shim(list) ? "pocket shim, strings slack"
                                                        : work_mark_name(kind));
    strbuf_add_char(out, ' ');
}

bool work_cautions_apply(const struct app *app, const struct work_list *list, int k)
{
    for (int kind = 0; kind < MOVE_COUNT_; kind++) {
        char memory[40];
        struct strbuf name = STRBUF(memory);

        work_cautions_add_name(list, (enum move_kind)kind, &name);
        if (caution_applies(k, memory))
            return true;
    }
    for (int line = record_last_work(&app->record, app->visit); line > 0; line--)
        if (applies_to_line(app, k, line))
            return true;
    return false;
}
