#!/bin/sh
# SPDX-License-Identifier: MIT
# If writing the customer's sheet fails, there is a message, the exit code is 3, no partial file
# is left, and an old one is untouched.
#
#   sheet_write.sh ROOT SILLET
set -eu
export LC_ALL=C.UTF-8

root=$1
sillet=$2
profile=$root/profiles/parlour.ini
scratch=$(mktemp -d "${TMPDIR:-/tmp}/sillet-sheet.XXXXXX")
trap 'rm -rf "$scratch"' EXIT
export HOME="$scratch/home"
unset XDG_CONFIG_HOME XDG_DATA_HOME
mkdir "$HOME" "$scratch/out"
echo 'the old sheet' >"$scratch/old"

fail() {
    echo "sheet_write: $*" >&2
    exit 1
}

# refused NAME COMMAND...: exit 3, with words.
refused() {
    what=$1
    shift
    code=0
    "$@" >/dev/null 2>"$scratch/said" || code=$?
    [ $code -eq 3 ] || fail "$what: exit $code"
    grep -q '^sillet: ' "$scratch/said" || fail "$what: nothing is said"
}

to_full_terminal() {
    "$sillet" sheet "$profile" >/dev/full
}

to_closed_terminal() {
    "$sillet" sheet "$profile" >&-
}

# A limit of 512 bytes stands for a disk that fills up on the way.
in_little_room() {
    (
        ulimit -f 1
        exec "$sillet" sheet -o "$scratch/out/sheet.$1" "$profile"
    )
}

# nothing_left NAME: the folder holds the old file, whole, or nothing.
nothing_left() {
    if [ -e "$scratch/out/$1" ]; then
        cmp "$scratch/old" "$scratch/out/$1" || fail "$1: half a file"
        rm "$scratch/out/$1"
    fi
    [ -z "$(ls -A "$scratch/out")" ] || fail "left behind: $(ls -A "$scratch/out")"
}

check_file() {
    refused "a new .$1" in_little_room "$1"
    [ ! -e "$scratch/out/sheet.$1" ] || fail "a file sheet.$1 that did not fit"
    nothing_left "sheet.$1"
    cp "$scratch/old" "$scratch/out/sheet.$1"
    refused "an old .$1" in_little_room "$1"
    [ -e "$scratch/out/sheet.$1" ] || fail "the old sheet.$1 is gone"
    nothing_left "sheet.$1"
}

# own COMMAND FILE: -o onto FILE, the profile itself, is refused by whatever name, and it stays.
own() {
    for output in "$2" "$scratch/./out/../out/${2##*/}" "$scratch/out/soft.$3" "$scratch/out/hard.$3"; do
        code=0
        "$sillet" "$1" -o "$output" "$2" 2>"$scratch/said" || code=$?
        [ $code -eq 2 ] || fail "$1 -o $output: exit $code"
        grep -q 'the profile itself' "$scratch/said" || fail "$1 -o $output: $(cat "$scratch/said")"
        cmp -s "$profile" "$2" || fail "$1 -o $output: the profile is gone"
    done
}

# A profile may be called anything, also as a sheet would be.
check_own() {
    for ending in txt pdf svg; do
        mine=$scratch/out/mine.$ending
        cp "$profile" "$mine"
        ln -s "mine.$ending" "$scratch/out/soft.$ending"
        ln "$mine" "$scratch/out/hard.$ending"
        own sheet "$mine" $ending
        [ $ending = txt ] || ! "$sillet" layout -o "$scratch/out/probe.pdf" "$profile" 2>/dev/null ||
            own layout "$mine" $ending
        rm -f "$mine" "$scratch/out/probe.pdf" "$scratch/out/soft.$ending" \
            "$scratch/out/hard.$ending"
    done
}

# A disk of its own, where the machine lets a test have one.
check_full_disk() {
    unshare -m true 2>/dev/null || return 0
    # shellcheck disable=SC2016 # expanded by the inner shell
    unshare -m sh -eu -c '
        mount -t tmpfs -o size=4k none "$1" 2>/dev/null || exit 0
        head -c 4096 /dev/zero >"$1/fill"
        code=0
        "$2" sheet -o "$1/sheet.txt" "$3" 2>"$4" || code=$?
        [ "$code" -eq 3 ] && [ "$(ls -A "$1")" = fill ] && grep -q "no room\|No space" "$4"
    ' sh "$scratch/out" "$sillet" "$profile" "$scratch/said" ||
        fail "a full disk: $(cat "$scratch/said")"
}

[ -w /dev/full ] || exit 77
refused 'a full device' to_full_terminal
refused 'a closed output' to_closed_terminal
check_file txt
if "$sillet" sheet -o "$scratch/out/probe.pdf" "$profile" 2>/dev/null; then
    rm "$scratch/out/probe.pdf"
    check_file pdf
    check_file svg
fi
check_full_disk
check_own
refused 'no such folder' "$sillet" sheet -o "$scratch/none/sheet.txt" "$profile"
ln -s /dev/full "$scratch/out/device.txt"
refused 'a device' "$sillet" sheet -o "$scratch/out/device.txt" "$profile"
[ -c /dev/full ] || fail 'the device was replaced'
mkdir "$scratch/out/folder.txt"
refused 'a folder' "$sillet" sheet -o "$scratch/out/folder.txt" "$profile"
refused 'no profile' "$sillet" sheet -o "$scratch/out/sheet.txt" "$scratch/none.ini"
rm -r "$scratch/out/folder.txt" "$scratch/out/device.txt"
nothing_left sheet.txt
# And where nothing is in the way, the check sees a file.
"$sillet" sheet -o "$scratch/out/sheet.txt" "$profile"
grep -q 'Parlour No. 3' "$scratch/out/sheet.txt" || fail 'no sheet where there is room'
echo 'good'
