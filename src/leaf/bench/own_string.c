/* SPDX-License-Identifier: MIT */
#include "leaf/bench/own_string.h"

#include "session/refresh.h"

static const struct outfit *outfit_of(const struct app *app)
{
    return &app->now.setup.outfit;
}

/* The string that the cell in hand is about, or begins next; 0 for none. */
static int find_string(const struct app *app)
{
    const struct route_cell *cell = app_cell(app);
    const struct outfit *outfit = outfit_of(app);

    if (!cell || outfit->courses >= outfit->strings || !outfit_makes_alone(cell->key.field))
        return 0;
    const int first = outfit_first(outfit, cell->string);
    if (cell->string != first)
        return cell->string;
    for (int s = first + 1; s < first + outfit->strings / outfit->courses; s++)
        if (!outfit_is_read(outfit, s))
            return s;
    return 0;
}

static bool is_own(const struct app *app, const struct reading *reading, int string)
{
    return reading->key.visit == app->visit && reading->key.string == string &&
           outfit_makes_alone(reading->key.field);
}

/* The last of its readings in the visit; NULL for none. */
static const struct reading *find_own(const struct app *app, int string, size_t *ret_count)
{
    const struct reading *last = NULL;

    *ret_count = 0;
    for (size_t i = 0; i < app->record.count; i++)
        if (is_own(app, &app->record.readings[i], string)) {
            last = &app->record.readings[i];
            ++*ret_count;
        }
    return last;
}

/* The cell in the row of the one in hand. */
static void go_to_string(struct turn *turn, int string)
{
    struct app *app = turn->app;
    struct reading_key key = app_cell(app)->key;

    key.string = (int8_t)string;
    app_refresh(app);
    const int at = route_find(&app->route, &key);
    if (at >= 0)
        turn_go_to(turn, at);
}

static void begin(struct turn *turn, int string)
{
    struct app *app = turn->app;
    char memory[APP_MESSAGE_MAX];
    struct strbuf text = STRBUF(memory);

    app->alone |= 1U << string;
    go_to_string(turn, string);
    strbuf_addf(&text, "String %d is read by itself in this visit, once it has a reading.", string);
    app_say(app, TONE_NOTE, memory);
}

static void end(struct turn *turn, int string)
{
    struct app *app = turn->app;
    char memory[APP_MESSAGE_MAX];
    struct strbuf text = STRBUF(memory);
    const struct reading *own;
    size_t own_count, left;

    (void)find_own(app, string, &own_count);
    if (own_count > 0)
        turn_open_step(turn);
    while ((own = find_own(app, string, &left)) != NULL)
        if (turn_put(turn, own->key, NULL, NULL) != STATUS_OK) {
            turn_warn(turn, "Out of memory: only a part was taken out; undo brings it back.");
            return;
        }
    app->alone &= ~(1U << string);
    go_to_string(turn, outfit_first(outfit_of(app), string));
    if (own_count > 0)
        turn_changed(turn);
    strbuf_addf(&text, "String %d is read with its course again%s", string,
                own_count > 0 ? "; u brings its own readings back." : ".");
    app_say(app, TONE_NOTE, memory);
}

static bool answer(struct turn *turn, uint32_t key)
{
    struct app *app = turn->app;

    app->asked = NULL;
    if (key == SILLET_KEY_ENTER)
        end(turn, find_string(app));
    else
        app_say(app, TONE_NOTE, "Left as it is.");
    return true;
}

static const struct asked whether_out = {
    .take_key = answer, .enter = "takes them out", .escape = "leaves them"};

static void ask_to_end(struct turn *turn, int string)
{
    struct app *app = turn->app;
    char memory[APP_MESSAGE_MAX];
    struct strbuf text = STRBUF(memory);
    size_t count;

    if (!find_own(app, string, &count)) {
        end(turn, string);
        return;
    }
    strbuf_addf(&text, "String %d has ", string);
    strbuf_add_count(&text, count, "reading", "readings");
    strbuf_add(&text, " of its own in this visit. Enter takes them out.");
    app_say(app, TONE_NOTE, memory);
    app->asked = &whether_out;
}

void own_string_toggle(struct turn *turn)
{
    const int string = find_string(turn->app);

    if (!turn_may_change(turn) || !turn_may_go(turn))
        return;
    if (string == 0)
        turn_warn(turn, "This is no course, or all its strings are read by themselves.");
    else if (outfit_is_read(outfit_of(turn->app), string))
        ask_to_end(turn, string);
    else
        begin(turn, string);
}

bool own_string_can(const struct app *app)
{
    return app_may_change(app) && find_string(app) > 0;
}

void own_string_add(const struct app *app, struct strbuf *out)
{
    const int string = find_string(app);

    strbuf_addf(out, "%s: string %d", outfit_is_read(outfit_of(app), string) ? " no longer" : "",
                string);
}
