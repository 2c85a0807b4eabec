/* SPDX-License-Identifier: MIT */
#include "near.h"

#include "commands/csv.h"

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
    expect("-3", "-3");
    expect("-.5", "-.5");
    expect("+0.25", "+0.25");
    expect("-", "'-");
    expect("-.", "'-.");
    expect("-1-1", "'-1-1");
    expect("-3 mm", "'-3 mm");
    expect(" =1+1", "' =1+1");
    expect("@SUM(A1)", "'@SUM(A1)");
    expect("\uFF1D1+1", "'\uFF1D1+1");
    expect("\uFF0B1\uFF0B1", "'\uFF0B1\uFF0B1");
    expect("\uFF0D1", "'\uFF0D1");
    expect("\uFF20SUM(A1)", "'\uFF20SUM(A1)");
    expect("\uFE661", "'\uFE661");
    expect("\u00A0=1+1", "'\u00A0=1+1");
    expect("\u200B=1+1", "'\u200B=1+1");
    expect(" \u3000\uFEFF\uFF1D1", "' \u3000\uFEFF\uFF1D1");
    expect("a;\u200B=1", "\"a;'\u200B=1\"");
    expect("\u00A0", "\u00A0");
    expect("\u3000a", "\u3000a");
    expect("=HYPERLINK(\"x\",\"y\")", "\"'=HYPERLINK(\"\"x\"\",\"\"y\"\")\"");
    expect("\tx", "\"'\tx\"");
    expect("\rx", "\"'\rx\"");
    expect("a=b", "a=b");
    expect("a-b", "a-b");
    expect("a - b", "a - b");
}

/* Where a comma is a decimal sign, a semicolon or a tab parts the fields, whatever the quotes. */
static void no_part_of_a_field_is_a_formula(void **state)
{
    (void)state;
    expect("a;b", "\"a;b\"");
    expect("a;=1+1", "\"a;'=1+1\"");
    expect("a; @x", "\"a;' @x\"");
    expect("a\t-1+x", "\"a\t'-1+x\"");
    expect("a,+1+x", "\"a,'+1+x\"");
    expect("a\n=x", "\"a\n'=x\"");
    expect("a|=x", "\"a|'=x\"");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(fields_are_quoted_where_they_have_to_be),
        cmocka_unit_test(no_field_is_a_formula),
        cmocka_unit_test(no_part_of_a_field_is_a_formula),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
