#!/bin/sh
# SPDX-License-Identifier: MIT
# share/start on a machine that has everything: the demo instrument, arguments, the build folder.
set -eu
source_root=${1:?the source tree}
# shellcheck source=tests/scripts/stage.sh
. "$(dirname -- "$0")/stage.sh"
make_stage
demo="$stage/home/.local/share/sillet/parlour.ini"

without_a_terminal_it_builds_and_says_how_to_go_on() {
    complete_machine 'ID=debian'
    perform share/start
    expect_success
    expect_in out "'$tree/build/src/sillet' '$demo'"
    expect_not_in out 'opened <'
}

the_copy_is_private() {
    complete_machine 'ID=debian'
    perform share/start
    expect_in out "$demo"
    expect_equal "$(cat "$demo")" '; demo'
    expect_equal "$(stat -c %a "$demo")" 600
    expect_equal "$(stat -c %a "${demo%/*}")" 700
    expect_equal "$(find "${demo%/*}" -type f | wc -l)" 1
}

a_copy_that_is_there_stays() {
    complete_machine 'ID=debian'
    mkdir -p "${demo%/*}"
    printf 'mine\n' >"$demo"
    perform share/start
    expect_success
    expect_equal "$(cat "$demo")" mine
    expect_not_in out 'yours to change'
}

arguments_go_to_the_program() {
    complete_machine 'ID=debian'
    perform share/start figures 'my file.ini'
    expect_success
    expect_in out 'opened <figures>'
    expect_in out 'opened <my file.ini>'
    [ ! -e "$demo" ] || fail 'a demo copy was made'
}

at_a_terminal_the_copy_opens() {
    command -v script >/dev/null || return 0
    complete_machine 'ID=debian'
    scene='share/start at a terminal'
    status=0
    env -u XDG_DATA_HOME -u CC HOME="$stage/home" SILLET_OS_RELEASE="$stage/os-release" \
        SHELL="$shell" script -qec "PATH='$stage/bin' '$shell' '$tree/share/start'" /dev/null \
        >"$stage/out" 2>"$stage/err" </dev/null || status=$?
    expect_success
    expect_in out "opened <$demo>"
}

at_a_terminal_the_shop_is_made_once_and_opens() {
    command -v script >/dev/null || return 0
    complete_machine 'ID=debian'
    for time in first second; do
        scene="share/start answered s, $time time"
        status=0
        printf 's\n' | env -u XDG_DATA_HOME -u CC HOME="$stage/home" \
            SILLET_OS_RELEASE="$stage/os-release" SHELL="$shell" \
            script -qec "PATH='$stage/bin' '$shell' '$tree/share/start'" /dev/null \
            >"$stage/out" 2>"$stage/err" || status=$?
        expect_success
        expect_in out 'opened <--shelf>'
        expect_in out "opened <$stage/home/.local/share/sillet-demo>"
        [ ! -e "$demo" ] || fail 'a demo copy was made'
        touch "$stage/home/.local/share/sillet-demo/mine"
    done
    [ -e "$stage/home/.local/share/sillet-demo/mine" ] || fail 'the shop was made anew'
}

a_failed_build_shows_the_end_of_its_log() {
    complete_machine 'ID=debian'
    awk 'BEGIN { for (i = 1; i <= 99; i++) print "line " i "." }' >"$stage/build-fails"
    perform share/start
    expect_failure
    expect_in err 'line 99.'
    expect_not_in err 'line 60.'
    expect_in err "$tree/build/start.log"
    expect_in "a tree/build/start.log" 'line 1.'
    [ ! -e "$demo" ] || fail 'a demo copy was made'
}

a_build_folder_is_kept_where_it_is_and_dropped_when_moved() {
    complete_machine 'ID=debian'
    perform share/start
    perform share/start
    expect_equal "$(wc -l <"$stage/meson.log")" 1
    printf '"source": "/elsewhere"\n' >"$tree/build/meson-info/meson-info.json"
    perform share/start
    expect_success
    expect_equal "$(wc -l <"$stage/meson.log")" 2
}

without_a_terminal_it_builds_and_says_how_to_go_on
the_copy_is_private
a_copy_that_is_there_stays
arguments_go_to_the_program
at_a_terminal_the_copy_opens
at_a_terminal_the_shop_is_made_once_and_opens
a_failed_build_shows_the_end_of_its_log
a_build_folder_is_kept_where_it_is_and_dropped_when_moved
end_of_test
