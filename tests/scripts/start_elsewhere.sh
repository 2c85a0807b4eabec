#!/bin/sh
# SPDX-License-Identifier: MIT
# share/start on machines that lack something: Debian and others, as root and as a user.
set -eu
source_root=${1:?the source tree}
# shellcheck source=tests/scripts/stage.sh
. "$(dirname -- "$0")/stage.sh"
make_stage

on_another_family_it_names_what_is_needed() {
    bare_machine 'ID=harbour' 'ID_LIKE="quay pier"'
    perform share/start
    expect_failure
    for words in 'C11 compiler' 'meson 1.0 or newer' 'pkg-config' 'ninja' 'ncursesw' 'iniparser'; do
        expect_in err "$words"
    done
    expect_no_file apt.log
}

on_another_family_it_names_only_what_is_missing() {
    complete_machine 'ID=harbour'
    rm "$stage/has/iniparser"
    perform share/start
    expect_failure
    expect_in err iniparser
    expect_not_in err compiler
    expect_not_in err ncursesw
}

on_another_family_with_everything_it_goes_on() {
    complete_machine 'ID=harbour'
    perform share/start
    expect_success
    expect_in out "$tree/build/src/sillet"
    expect_no_file apt.log
}

without_os_release_it_installs_nothing() {
    bare_machine
    rm "$stage/os-release"
    perform share/start
    expect_failure
    expect_in err 'C11 compiler'
    expect_no_file apt.log
}

# A name that only contains another's is not of its family.
a_name_like_debian_is_not_debian() {
    bare_machine 'ID=notdebian'
    perform share/start
    expect_failure
    expect_no_file apt.log
}

root_installs_what_is_missing() {
    complete_machine 'ID=debian'
    rm "$stage/has/iniparser" "$stage/has/ncursesw"
    perform share/start
    expect_success
    expect_equal "$(grep -c ' update$' "$stage/apt.log")" 1
    expect_in apt.log 'libncurses-dev libiniparser-dev'
    expect_not_in apt.log gcc
}

a_relative_counts_as_debian() {
    bare_machine 'ID=harbour' 'ID_LIKE="ubuntu debian"'
    perform share/start
    expect_success
    expect_in apt.log 'gcc libc6-dev ninja-build meson pkg-config libncurses-dev libiniparser-dev'
}

with_nothing_missing_apt_is_left_alone() {
    complete_machine 'ID=debian'
    perform share/start
    expect_success
    expect_no_file apt.log
}

a_user_without_sudo_is_told_the_command() {
    complete_machine 'ID=debian'
    rm "$stage/has/iniparser"
    printf '1000\n' >"$stage/uid"
    perform share/start
    expect_failure
    expect_in err 'only root can install it'
    expect_in err 'apt-get update && apt-get install libiniparser-dev'
    expect_no_file apt.log
    expect_not_in out Installing
}

a_user_with_sudo_installs_through_it() {
    bare_machine 'ID=debian'
    printf '1000\n' >"$stage/uid"
    give_sudo
    perform share/start
    expect_success
    expect_in sudo.log 'apt-get'
    expect_in apt.log 'install'
}

an_install_that_fails_is_shown() {
    bare_machine 'ID=debian'
    touch "$stage/apt-fails"
    perform share/start
    expect_failure
    expect_in err 'apt: no such luck'
    expect_in err 'apt-get update && apt-get install gcc'
    expect_no_file "a tree/build/src/sillet"
}

an_old_meson_is_named() {
    complete_machine 'ID=harbour'
    printf '0.63.3\n' >"$stage/has/meson"
    perform share/start
    expect_failure
    expect_in err 'meson 1.0 or newer'
}

on_another_family_it_names_what_is_needed
on_another_family_it_names_only_what_is_missing
on_another_family_with_everything_it_goes_on
without_os_release_it_installs_nothing
a_name_like_debian_is_not_debian
root_installs_what_is_missing
a_relative_counts_as_debian
with_nothing_missing_apt_is_left_alone
a_user_without_sudo_is_told_the_command
a_user_with_sudo_installs_through_it
an_install_that_fails_is_shown
an_old_meson_is_named
end_of_test
