/* SPDX-License-Identifier: MIT */
#include "commands/figures_command.h"

#include <stdbool.h>

#include "commands/more.h"
#include "commands/visits_csv.h"
#include "commands/with_record.h"

static void print_figure(struct printer *printer, const struct figures *figures, enum figure_id id,
                         int string, bool uncertainty)
{
    const struct figure *figure = &figures->at[id][string];
    char memory[64];
    struct strbuf key = STRBUF(memory);

    if (figure->known == KNOWN_ABSENT)
        return;
    figure_key(id, uncertainty, &key);
    printer_number(printer, memory,
                   (uncertainty ? figure->u : figure->value) * figure_info(id)->factor);
}

static void print_section(struct printer *printer, const struct figures *figures,
                          enum figure_section section, int string)
{
    for (int pass = 0; pass < 2; pass++)
        for (int id = 0; id < FIGURE_COUNT_; id++) {
            const struct figure_info *info = figure_info((enum figure_id)id);

            if (info->section == section && (pass == 0 || info->printed_u))
                print_figure(printer, figures, (enum figure_id)id, string, pass == 1);
        }
}

static void print_pitch(struct printer *printer, const struct derived *derived, int string)
{
    const struct fret_pitch *pitch = &derived->pitch[string];

    printer_begin(printer, "pitch", string, 0);
    for (int n = 1; n <= derived->setup.board.frets; n++)
        if (pitch->cents[n].given)
            printer_number_at(printer, "fret", n, "", pitch->cents[n].value);
    for (int n = 1; n <= derived->setup.board.frets; n++)
        if (pitch->cents[n].given)
            printer_number_at(printer, "fret", n, "_u", pitch->cents_u[n]);
}

static void print_clearance(struct printer *printer, const struct derived *derived, int string)
{
    const struct fret_clearance *clearance = &derived->clearance[string];

    printer_begin(printer, "clearance", string, 0);
    for (int n = 0; n < derived->setup.board.frets; n++)
        if (clearance->headroom_mm[n].given)
            printer_number_at(printer, "fret", n, "", clearance->headroom_mm[n].value);
    for (int n = 0; n < derived->setup.board.frets; n++)
        if (clearance->headroom_mm[n].given)
            printer_number_at(printer, "at", n, "", clearance->at[n]);
}

static void print_string(struct printer *printer, const struct derived *derived, int string)
{
    print_pitch(printer, derived, string);
    print_clearance(printer, derived, string);
    printer_begin(printer, figure_section_name(FIGURE_SECTION_STRING), string, 0);
    print_section(printer, &derived->figures, FIGURE_SECTION_STRING, string);
}

/* NULL if the state is not known. */
static const char *state_name(const struct move *move)
{
    static const char *const names[] = {
        [MOVE_UNKNOWN] = NULL, [MOVE_GOOD] = "good", [MOVE_WAITS] = "waits", [MOVE_DUE] = "due"};

    return move_is_done(move) ? "done" : names[move->state];
}

/* The amounts of one move, where due. */
static void print_amounts(struct printer *printer, enum move_kind kind,
                          const struct move_set *moves)
{
    const struct move *move = &moves->move[kind];
    static const char *const keys[] = {
#define MOVE(id, own_, name_, owner_name_, figure_, key_) [MOVE_##id] = key_,
#include "model/reading/move_table.h"
#undef MOVE
    };

    for (int s = 1; s <= STRINGS_MAX; s++)
        if (move->string[s].due)
            printer_number_at(printer, keys[kind], s, "_mm", move->string[s].value);
    for (int n = 1; kind == MOVE_FRETS && n <= FRETS_MAX; n++)
        if (moves->frets.fret[n].due)
            printer_number_at(printer, keys[kind], n, "_mm", moves->frets.fret[n].value);
    if (move->amount.due)
        printer_number(printer, keys[kind],
                       move->amount.value * figure_info(move_figure(kind))->factor);
}

static void print_given(struct printer *printer, const char *key, const struct maybe *number)
{
    if (number->given)
        printer_number(printer, key, number->value);
}

static void print_believed(struct printer *printer, const char *name, int string,
                           const struct believed *believed)
{
    if (!believed->mm.given)
        return;
    printer_number_at(printer, name, string, "_mm", believed->mm.value);
    printer_number_at(printer, name, string, "_u_mm", believed->u);
}

/* What all passes of the visit say, and which readings do not fit them. */
static void print_belief(struct printer *printer, const struct move_set *moves)
{
    static const char *const names[BELIEF_ROWS_] = {[BELIEF_RELIEF] = "questioned_relief",
                                                    [BELIEF_GAP] = "questioned_gap",
                                                    [BELIEF_ACTION] = "questioned_action"};

    if (moves->relief.mm.given) {
        printer_number(printer, "believed_relief_mm", moves->relief.mm.value);
        printer_number(printer, "believed_relief_u_mm", moves->relief.u);
    }
    for (int s = 1; s <= STRINGS_MAX; s++)
        print_believed(printer, "believed_gap", s, &moves->gap[s]);
    for (int s = 1; s <= STRINGS_MAX; s++)
        print_believed(printer, "believed_action", s, &moves->action[s]);
    for (int row = 0; row < BELIEF_ROWS_; row++)
        for (int s = 0; s <= STRINGS_MAX; s++)
            if (moves->questioned[row][s] && s == 0)
                printer_number(printer, names[row], 1);
            else if (moves->questioned[row][s])
                printer_number_at(printer, names[row], s, "", 1);
}

static void print_moves(struct printer *printer, const struct move_set *moves)
{
    const struct move *move = moves->move;

    printer_begin(printer, "moves", 0, 0);
    printer_text(printer, "verdict", move_verdict_name(move_set_verdict(moves)));
    for (int kind = 0; kind < MOVE_COUNT_; kind++) {
        const char *state = state_name(&move[kind]);

        if (state)
            printer_text(printer, work_mark_name((enum move_kind)kind), state);
    }
    for (int kind = 0; kind < MOVE_COUNT_; kind++) {
        print_amounts(printer, (enum move_kind)kind, moves);
        if (kind == MOVE_ROD)
            print_given(printer, "rod_turns", &move[kind].turns);
        if (kind == MOVE_SLOTS)
            print_given(printer, "nut_raise_mm", &move[kind].raise);
    }
    print_given(printer, "straightedge_mm", &move[MOVE_RESET].straightedge);
    print_given(printer, "lean_mm", &move[MOVE_RESET].lean);
    for (int s = 1; s <= STRINGS_MAX; s++)
        if (move[MOVE_RESET].saddle_then[s].given)
            printer_number_at(printer, "saddle_after_reset", s, "_mm",
                              move[MOVE_RESET].saddle_then[s].value);
    print_belief(printer, moves);
}

void figures_print(const struct derived *derived, struct printer *printer)
{
    const char *verdict = reset_verdict_name(move_set_reset(&derived->moves));

    printer_findings(printer, &derived->findings);
    for (int section = 0; section < FIGURE_SECTION_COUNT_; section++) {
        if (section == FIGURE_SECTION_STRING) {
            for (int s = 1; s <= derived->setup.board.strings; s++)
                print_string(printer, derived, s);
            continue;
        }
        printer_begin(printer, figure_section_name((enum figure_section)section), 0, 0);
        if (section == FIGURE_SECTION_RESET && verdict)
            printer_text(printer, "verdict", verdict);
        print_section(printer, &derived->figures, (enum figure_section)section, 0);
    }
    print_moves(printer, &derived->moves);
}

/* Whether the what-if is for as many strings as the instrument has; if not, says so. Without a
 * board it passes, and the findings say what is missing. */
static bool refuse(const char *what, int strings, int has)
{
    char memory[32];
    struct strbuf count = STRBUF(memory);

    strbuf_add_count(&count, (size_t)strings, "string", "strings");
    fprintf(stderr, "sillet: the %s is for %s, the instrument has %d\n", what, memory, has);
    return false;
}

static bool fits(const struct figures_options *options, const struct derived *derived)
{
    const struct what_if_change *change = &options->change;
    const int strings = derived->setup.board.strings;

    if (!derived->setup.has_board)
        return true;
    if (change->has_notes && change->notes.strings != strings)
        return refuse("tuning", change->notes.strings, strings);
    return !change->has_set || change->set.strings == strings ||
           refuse("set", change->set.strings, strings);
}

static enum exit_code finish(bool fault)
{
    return report_printed(fault ? EXIT_FINDINGS : EXIT_GOOD);
}

/* The figures of all files, one file after another. */
struct task {
    const struct figures_options *options;
    struct printer printer;
    const char *path; /* of the file in hand; NULL if it is the only one */
    bool headed;      /* the line of headings is written */
};

static enum exit_code print_all_visits(struct task *task, const struct record *record)
{
    bool fault = false;

    if (!task->headed)
        visits_csv_print_headings(task->path != NULL, stdout);
    task->headed = true;
    visits_csv_print(task->path, record, stdout, &fault);
    return finish(fault);
}

static enum exit_code print_record(struct task *task, const struct record *record)
{
    const struct figures_options *options = task->options;
    const struct place current = place_current(record);
    struct derived derived;

    derive_current(record, &derived);
    derive_predicted_u(current, &derived);
    if (!fits(options, &derived))
        return EXIT_USAGE;
    if (task->path)
        printer_file(&task->printer, task->path);
    figures_print(&derived, &task->printer);
    if (options->more)
        more_print(&current.record, &derived, &task->printer);
    if (options->what_if)
        (void)more_print_what_if(&current.record, &derived, &options->change, &task->printer);
    return finish(findings_have_fault(&derived.findings));
}

static enum exit_code print(const void *given, const struct record *record)
{
    struct task *const *task = given;

    return (*task)->options->all_visits ? print_all_visits(*task, record)
                                        : print_record(*task, record);
}

static enum exit_code print_one(void *given, int i)
{
    struct task *task = given;
    const struct file_words *files = &task->options->files;

    task->path = files->count > 1 ? files->paths[i] : NULL;
    return with_record(files->paths[i], PROBLEM_ERROR, print, &task);
}

enum exit_code figures_command(const struct figures_options *options)
{
    struct task task = {.options = options, .printer = {.out = stdout}};

    return file_words_each(&options->files, print_one, &task);
}
