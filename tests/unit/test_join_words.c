/* SPDX-License-Identifier: MIT */
/* What differs between two versions, in the words of the shop. */
#include "near.h"

#include <stdlib.h>
#include <string.h>

#include "build_record.h"
#include "words/join_words.h"

static const char common[] = "board scale = 650 mm\nboard strings = 6\nvisit.1 date = 2026-03-02\n"
                             "visit.1.pass.1 time = 10:00\nvisit.1.pass.1 relief = 0.2 mm\n"
                             "visit.1.pass.1 action.6 = 2.5 mm\nvisit.1.work.1 kind = rod\n"
                             "string.1 gauge = 0.3 mm\n";

struct said {
    char where[100], left[100], right[100], why[160];
    size_t shared;
};

static struct strbuf text(char *memory, size_t size)
{
    return strbuf_over(memory, size);
}

/* Of the only difference between common with `left_more` and with `right_more`. */
static struct said say(const char *left_more, const char *right_more, const char *base_lines)
{
    struct record_join *join = calloc(1, sizeof *join);
    struct record left, right, base;
    struct join_difference difference;
    struct said said;
    struct strbuf where = text(said.where, sizeof said.where),
                  why = text(said.why, sizeof said.why);
    struct strbuf on_left = text(said.left, sizeof said.left);
    struct strbuf on_right = text(said.right, sizeof said.right);

    assert_non_null(join);
    build_record(&left, common);
    build_record_add(&left, left_more);
    build_record(&right, common);
    build_record_add(&right, right_more);
    build_record(&base, base_lines ? base_lines : "");
    assert_int_equal(record_join_begin(join, &left, &right, base_lines ? &base : NULL), STATUS_OK);
    assert_int_equal(record_join_list(join, &difference, 1), 1);
    difference.asked = difference.side == JOIN_OPEN;
    join_words_add_where(&where, join, &difference);
    join_words_add_value(&on_left, join, &difference, JOIN_LEFT);
    join_words_add_value(&on_right, join, &difference, JOIN_RIGHT);
    join_words_add_why(&why, join, &difference);
    said.shared = join_words_shared(join, &difference);
    record_join_done(join);
    free(join);
    record_done(&base);
    record_done(&right);
    record_done(&left);
    return said;
}

static void check(const struct said *said, const char *where, const char *left, const char *right,
                  const char *why)
{
    assert_string_equal(said->where, where);
    assert_string_equal(said->left, left);
    assert_string_equal(said->right, right);
    assert_string_equal(said->why, why);
}

#define ACTION(mm) "visit.1.pass.1 action.6 = " mm " mm\n"

static void a_cell_says_where_it_is_and_why(void **state)
{
    struct said said = say(ACTION("2.6"), "", common);

    (void)state;
    check(&said, "visit 1, pass 1, action, string 6", "2.6 mm", "2.5 mm",
          "only the left changed it; it was 2.5 mm");
    said = say(ACTION("2.6"), ACTION("2.7"), common);
    check(&said, "visit 1, pass 1, action, string 6", "2.6 mm", "2.7 mm",
          "both changed it; it was 2.5 mm");
    said = say(ACTION("2.6"), "", NULL);
    check(&said, "visit 1, pass 1, action, string 6", "2.6 mm", "2.5 mm",
          "no earlier state says which is the newer one");
    said = say("instrument owner = Hedda\n", "instrument owner = Tansy\n", common);
    check(&said, "owner", "Hedda", "Tansy", "both entered it");
    said = say("", "visit.1.work.1 amount = 1/4 turn\n", common);
    check(&said, "visit 1, work line 1, amount", "nothing", "1/4 turn", "only the right has it");
}

static void a_change_says_from_when_on(void **state)
{
    const struct said said = say("visit.1.string.1 gauge = 0.28 mm\n", "", common);

    (void)state;
    check(&said, "from visit 1 on, gauge, string 1", "0.28 mm", "nothing", "only the left has it");
}

static void a_whole_thing_says_how_much_it_is(void **state)
{
    struct said said = say("visit.2 date = 2026-04-01\nvisit.2.pass.1 relief = 0.1 mm\n", "", NULL);

    (void)state;
    check(&said, "visit 2, whole", "2026-04-01, 2 entries", "nothing", "only the left has it");
    said = say("", "visit.1.pass.2 label = as left\nvisit.1.pass.2 time = 11:00\n", common);
    check(&said, "visit 1, pass 2, whole", "nothing", "as left, 2 entries",
          "only the right has it");
}

static void texts_are_shown_from_where_they_differ(void **state)
{
    struct said said =
        say("visit.1 note = new nut, bone\n", "visit.1 note = new nut, brass\n", NULL);

    (void)state;
    assert_int_equal(said.shared, strlen("new nut, "));
    said = say("visit.1 note = bone\n", "visit.1 note = brass\n", NULL);
    assert_int_equal(said.shared, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_cell_says_where_it_is_and_why),
        cmocka_unit_test(a_change_says_from_when_on),
        cmocka_unit_test(a_whole_thing_says_how_much_it_is),
        cmocka_unit_test(texts_are_shown_from_where_they_differ),
    };

    return cmocka_run_group_tests_name("join_words", tests, NULL, NULL) ? 1 : 0;
}
