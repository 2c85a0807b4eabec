/* SPDX-License-Identifier: MIT */
#include "near.h"

#include <stdlib.h>
#include <string.h>

#include "build_record.h"
#include "sheet/sheet_make.h"
#include "sheet/sheet_page.h"
#include "sheet/sheet_text.h"

/* The number of allocations until one fails; below 0 none does. */
static int allowed = -1;

static bool is_refused(void)
{
    return allowed >= 0 && allowed-- == 0;
}

void *__real_malloc(size_t size);
void *__wrap_malloc(size_t size);
void *__wrap_malloc(size_t size)
{
    return is_refused() ? NULL : __real_malloc(size);
}

void *__real_calloc(size_t count, size_t size);
void *__wrap_calloc(size_t count, size_t size);
void *__wrap_calloc(size_t count, size_t size)
{
    return is_refused() ? NULL : __real_calloc(count, size);
}

void *__real_realloc(void *memory, size_t size);
void *__wrap_realloc(void *memory, size_t size);
void *__wrap_realloc(void *memory, size_t size)
{
    return is_refused() ? NULL : __real_realloc(memory, size);
}

char *__real_strdup(const char *text);
char *__wrap_strdup(const char *text);
char *__wrap_strdup(const char *text)
{
    return is_refused() ? NULL : __real_strdup(text);
}

static struct sheet_ask full_ask(void)
{
    return (struct sheet_ask){.units = shop_units_inch(), .shop = "Quayside Fret Works"};
}

static void make_record(struct record *record)
{
    build_record(record, build_record_full);
    build_record_add(record, "instrument name = Harbour\nvisit.1.work.1 kind = rod\n"
                             "visit.1.pass.1 cents.6.12 = 3\nvisit.1 humidity = 40\n"
                             "visit.1 temperature = 20 C\n");
}

/* Every allocation of a call fails once, or every so many-th; in the end none does. */
#define FAIL_EACH(step, call, undo)                                                                \
    do {                                                                                           \
        enum status status = STATUS_NO_MEMORY;                                                     \
        int failures = 0;                                                                          \
        for (int n = 0; status != STATUS_OK; n += (step)) {                                        \
            allowed = n;                                                                           \
            status = (call);                                                                       \
            allowed = -1;                                                                          \
            if (status == STATUS_OK)                                                               \
                break;                                                                             \
            assert_int_equal(status, STATUS_NO_MEMORY);                                            \
            failures++;                                                                            \
        }                                                                                          \
        assert_true(failures > 3);                                                                 \
        undo;                                                                                      \
    } while (0)

static void a_sheet_is_made_whole_or_not(void **state)
{
    const struct sheet_ask full = full_ask();
    struct record record;
    struct sheet sheet;

    (void)state;
    make_record(&record);
    FAIL_EACH(1, sheet_make(&record, &full, &sheet), sheet_done(&sheet));
    record_done(&record);
}

static void text_and_pages_too(void **state)
{
    const struct sheet_ask full = full_ask();
    struct page_list *list = NULL;
    struct record record;
    struct sheet sheet;
    char *text = NULL;

    (void)state;
    make_record(&record);
    assert_int_equal(sheet_make(&record, &full, &sheet), STATUS_OK);
    FAIL_EACH(1, sheet_write_text(&sheet, true, &text), free(text));
    FAIL_EACH(23, sheet_lay_pages(&sheet, page_a4, &list), page_list_free(list));
    sheet_done(&sheet);
    record_done(&record);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_sheet_is_made_whole_or_not),
        cmocka_unit_test(text_and_pages_too),
    };

    return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
