# SPDX-License-Identifier: MIT
# shellcheck shell=sh disable=SC2034,SC2154 # the tests set and read these
# A fake machine for the scripts: a small source tree, and stand-ins for the tools.
# Sourced by the tests beside it, which set $source_root. Each tool that the machine has is a file in
# $stage/has: gcc, ninja, meson (holding its version), pkg-config, ncursesw, iniparser, sudo.

stage=$(mktemp -d "${TMPDIR:-/tmp}/sillet-stage.XXXXXX")
trap 'rm -rf "$stage"' EXIT
tree="$stage/a tree"
failures=0

# stand_in NAME: a tool whose script is read from standard input.
stand_in() {
    { printf '#!%s\nstage=%s\n' "$shell" "$stage" && cat; } >"$stage/bin/$1"
    chmod +x "$stage/bin/$1"
}

make_stage() {
    shell=$(command -v sh)
    mkdir -p "$stage/bin" "$stage/has" "$tree/share" "$tree/tests" "$tree/profiles"
    cp "$source_root/share/start" "$source_root/share/needs.sh" "$tree/share/"
    cp "$source_root/tests/run" "$tree/tests/"
    printf '; demo\n' >"$tree/profiles/parlour.ini"
    for tool in awk cat chmod cp dirname env find grep ln mkdir mktemp mv rm sed sh tail touch; do
        ln -s "$(command -v "$tool")" "$stage/bin/$tool"
    done
    stand_in id <<'STAND_IN'
cat "$stage/uid"
STAND_IN
    stand_in cc <<'STAND_IN'
[ -e "$stage/has/gcc" ] || exit 127
case "$*" in *-liniparser*) [ -e "$stage/has/iniparser" ] || exit 1 ;; esac
cat >/dev/null
STAND_IN
    ln -s cc "$stage/bin/gcc"
    stand_in pkg-config <<'STAND_IN'
[ -e "$stage/has/pkg-config" ] || exit 127
case "$*" in '--exists ncursesw') [ -e "$stage/has/ncursesw" ] || exit 1 ;; esac
STAND_IN
    for tool in pdftotext pdfinfo; do
        stand_in "$tool" <<'STAND_IN'
exit 0
STAND_IN
    done
    stand_in apt-get <<'STAND_IN'
printf '%s\n' "$*" >>"$stage/apt.log"
[ ! -e "$stage/apt-fails" ] || { echo 'apt: no such luck'; exit 100; }
case "$*" in *' install '*) touch "$stage/has/gcc" "$stage/has/pkg-config" "$stage/has/ncursesw" \
    "$stage/has/iniparser" && printf '1.0.1\n' >"$stage/has/meson" && ln -sf cc "$stage/bin/ninja" ;;
esac
case "$*" in *' clang'*) ln -sf cc "$stage/bin/clang" ;; esac
STAND_IN
    stand_in meson <<'STAND_IN'
case $1 in
    --version) cat "$stage/has/meson" ;;
    setup)
        while [ $# -gt 2 ]; do shift; done
        mkdir -p "$1/meson-info" "$1/meson-logs"
        printf '"source": "%s"\n' "$2" >"$1/meson-info/meson-info.json"
        : >"$1/build.ninja"
        echo setup >>"$stage/meson.log"
        ;;
    compile)
        [ ! -e "$stage/build-fails" ] || { cat "$stage/build-fails"; exit 1; }
        mkdir -p "$3/src"
        printf '#!/bin/sh\n[ "$1" != demo ] || exec mkdir -p "$2"\nprintf "opened <%%s>\\n" "$@"\n' \
            >"$3/src/sillet"
        chmod +x "$3/src/sillet"
        ;;
    test)
        [ ! -e "$stage/summary" ] || cat "$stage/summary" >"$3/meson-logs/testlog.txt"
        exit "$(cat "$stage/test-status")"
        ;;
esac
STAND_IN
}

# A fresh machine of the given system (the lines of its os-release), with nothing installed.
bare_machine() {
    rm -rf "${stage:?}/has" "${stage:?}/home" "$tree/build" "$tree/build-tests"
    rm -f "$stage"/*.log "$stage/apt-fails" "$stage/build-fails" "$stage/bin/sudo" \
        "$stage/bin/ninja" "$stage/bin/clang" "$stage/summary"
    mkdir -p "$stage/has" "$stage/home"
    printf '0\n' >"$stage/uid"
    printf '0\n' >"$stage/test-status"
    printf '%s\n' "$@" >"$stage/os-release"
}

complete_machine() {
    bare_machine "$@"
    touch "$stage/has/gcc" "$stage/has/pkg-config" "$stage/has/ncursesw" "$stage/has/iniparser"
    printf '1.0.1\n' >"$stage/has/meson"
    ln -sf cc "$stage/bin/ninja"
    ln -sf cc "$stage/bin/clang"
}

give_sudo() {
    stand_in sudo <<'STAND_IN'
printf '%s\n' "$*" >>"$stage/sudo.log"
"$@"
STAND_IN
}

# perform SCRIPT ARGUMENT...: plays it on the stage with CI=$ci, leaving $status, $stage/out and $stage/err.
perform() {
    scene="$*"
    script=$1
    shift
    status=0
    env -u XDG_DATA_HOME -u CC CI="${ci:-}" PATH="$stage/bin" HOME="$stage/home" \
        SILLET_OS_RELEASE="$stage/os-release" "$shell" "$tree/$script" "$@" \
        >"$stage/out" 2>"$stage/err" </dev/null || status=$?
}

fail() {
    failures=$((failures + 1))
    printf 'FAILED (%s): %s\n' "$scene" "$*"
    printf -- '--- status %s, out, err:\n' "$status"
    cat "$stage/out" "$stage/err"
    printf -- '---\n'
}

expect_success() {
    [ "$status" -eq 0 ] || fail "status $status, want 0"
}

expect_failure() {
    [ "$status" -ne 0 ] || fail 'status 0, want another'
}

# expect_in FILE TEXT, expect_not_in FILE TEXT: FILE in the stage, TEXT as it is.
expect_in() {
    grep -qF -e "$2" "$stage/$1" 2>/dev/null || fail "not in $1: $2"
}

expect_not_in() {
    ! grep -qF -e "$2" "$stage/$1" 2>/dev/null || fail "in $1, and should not be: $2"
}

expect_no_file() {
    [ ! -e "$stage/$1" ] || fail "$1 is there, and should not be"
}

expect_equal() {
    [ "$1" = "$2" ] || fail "got '$1', want '$2'"
}

end_of_test() {
    [ "$failures" -eq 0 ] || exit 1
}
