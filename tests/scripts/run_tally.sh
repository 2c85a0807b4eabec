#!/bin/sh
# SPDX-License-Identifier: MIT
# tests/run: its tally and exit status for runs that pass, fail, skip, break or find no test,
# and what it installs.
set -eu
source_root=${1:?the source tree}
# shellcheck source=tests/scripts/stage.sh
. "$(dirname -- "$0")/stage.sh"
make_stage

# summary OK EXPECTED-FAIL FAIL UNEXPECTED-PASS SKIPPED TIMEOUT: as meson 1.0.1 ends its log.
summary() {
    printf '%-20s%-4s\n' 'Ok:' "$1" 'Expected Fail:' "$2" 'Fail:' "$3" 'Unexpected Pass:' "$4" \
        'Skipped:' "$5" 'Timeout:' "$6" >"$stage/summary"
}

expect_tally() {
    expect_equal "$(tail -n 1 "$stage/out")" "$1"
}

all_runs_are_summed() {
    complete_machine 'ID=debian'
    summary 20 1 0 0 0 0
    perform tests/run
    expect_success
    expect_tally '63 passed, 0 failed'
}

skipped_tests_are_named() {
    complete_machine 'ID=debian'
    summary 20 0 0 0 3 0
    perform tests/run unit
    expect_success
    expect_tally '20 passed, 0 failed, 3 skipped'
}

every_kind_of_failure_counts() {
    complete_machine 'ID=debian'
    summary 20 0 1 2 0 4
    printf '7\n' >"$stage/test-status"
    perform tests/run unit
    expect_failure
    expect_tally '20 passed, 7 failed'
}

no_test_is_a_failure() {
    complete_machine 'ID=debian'
    perform tests/run unit
    expect_failure
    expect_tally '0 passed, 1 failed'
}

a_run_that_breaks_is_a_failure() {
    complete_machine 'ID=debian'
    summary 20 0 0 0 0 0
    printf '1\n' >"$stage/test-status"
    perform tests/run unit
    expect_failure
    expect_tally '20 passed, 1 failed'
}

a_build_that_breaks_is_a_failure_each_time() {
    complete_machine 'ID=debian'
    printf 'an error\n' >"$stage/build-fails"
    perform tests/run
    expect_failure
    expect_in err 'an error'
    expect_tally '0 passed, 4 failed'
}

without_clang_a_person_gets_a_note_and_ci_a_failure() {
    complete_machine 'ID=debian'
    rm "$stage/bin/clang"
    touch "$stage/apt-fails"
    summary 20 0 0 0 0 0
    perform tests/run
    expect_success
    expect_in out 'clang: not here'
    expect_tally '60 passed, 0 failed'
    ci=true
    perform tests/run
    ci=
    expect_failure
    expect_tally '60 passed, 1 failed'
}

package_lists_are_fetched_once() {
    complete_machine 'ID=debian'
    rm "$stage/has/iniparser" "$stage/bin/clang"
    summary 20 0 0 0 0 0
    perform tests/run
    expect_success
    expect_equal "$(grep -c ' update$' "$stage/apt.log")" 1
    expect_equal "$(grep -c ' install ' "$stage/apt.log")" 2
}

an_unknown_word_is_refused() {
    complete_machine 'ID=debian'
    perform tests/run everythin
    expect_failure
    expect_in err everythin
    expect_no_file meson.log
}

all_runs_are_summed
skipped_tests_are_named
every_kind_of_failure_counts
no_test_is_a_failure
a_run_that_breaks_is_a_failure
a_build_that_breaks_is_a_failure_each_time
without_clang_a_person_gets_a_note_and_ci_a_failure
package_lists_are_fetched_once
an_unknown_word_is_refused
end_of_test
