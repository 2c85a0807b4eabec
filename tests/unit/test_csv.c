/* SPDX-License-Identifier: MIT */
#include "near.h"

#include "cli/csv.h"

static void expect(const char *text, const char *field)
{
    char memory[100];
    struct strbuf out = STRBUF(memory);

    csv_add_text(text, &out);
    assert_string_equal(memory, field);
}

/* RFC 4180, 2: fields with quotes, commas or line breaks are quoted, quotes in them doubled. */
static void fields_are_quoted_where_they_have_to_be(void **state)
{
    (void)state;
    expect("", "");
    expect("Parlour No. 3", "Parlour No. 3");
    expect("a,b", "\"a,b\"");
    expect("12\" board", "\"12\"\" board\"");
    expect("a\nb", "\"a\nb\"");
    expect("\"", "\"\"\"\"");
}

/* Common practice, no published source: what a spreadsheet would compute gets an apostrophe. */
static void no_field_is_a_formula(void **state)
{
    (void)state;
    expect("=1+1", "'=1+1");
    expect("+44 1", "'+44 1");
    expect("-3", "'-3");
    expect("@SUM(A1)", "'@SUM(A1)");
    expect("=HYPERLINK(\"x\",\"y\")", "\"'=HYPERLINK(\"\"x\"\",\"\"y\"\")\"");
    expect("\tx", "'\tx");
    expect("a=b", "a=b");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(fields_are_quoted_where_they_have_to_be),
        cmocka_unit_test(no_field_is_a_formula),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
