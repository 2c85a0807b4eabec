#!/bin/sh
# SPDX-License-Identifier: MIT
# figures, sheet, layout and check take any number of files: a bad one does not stop the others, and
# the exit code is that of the worst.
#
#   many_files.sh ROOT SILLET
set -eu
export LC_ALL=C.UTF-8

root=$1
case $2 in
    /*) sillet=$2 ;;
    *) sillet=$PWD/$2 ;;
esac
scratch=$(mktemp -d "${TMPDIR:-/tmp}/sillet-many.XXXXXX")
trap 'rm -rf "$scratch"' EXIT
export HOME="$scratch/home"
unset XDG_CONFIG_HOME XDG_DATA_HOME
mkdir "$HOME" "$scratch/out"
cd "$scratch"
cp "$root/profiles/parlour.ini" "$root/profiles/bass.ini" .
echo 'no profile' >broken.ini

fail() {
    echo "many_files: $*" >&2
    exit 1
}

# gives CODE COMMAND...: what it prints is in `said`.
gives() {
    wanted=$1
    shift
    code=0
    "$@" >said 2>blame || code=$?
    [ $code -eq "$wanted" ] || fail "exit $code, not $wanted: $*"
}

files='parlour.ini broken.ini gone.ini bass.ini'

# The figures of each file are those that it has alone, in a section [file].
# shellcheck disable=SC2086 # the files' names hold no blanks
gives 3 "$sillet" figures $files
for name in parlour bass; do
    "$sillet" figures "$name.ini" >alone
    awk -v name="name = $name.ini" '
        $0 == name { inside = 1; getline; next }
        $0 == "[file]" { inside = 0 }
        inside' said | sed '${/^$/d;}' | cmp - alone || fail "figures of $name.ini"
done
[ "$(grep -c '^\[file\]' said)" -eq 2 ] || fail 'a section for a file that is none'
grep -q '^sillet: gone.ini: ' blame || fail 'gone.ini is not named'
grep -q '^sillet: broken.ini:' blame || fail 'broken.ini is not named'

# The table has the lines that each file has alone, with its name in front.
# shellcheck disable=SC2086
gives 3 "$sillet" figures --all-visits $files
for name in parlour bass; do
    "$sillet" figures --all-visits "$name.ini" | sed 1d >alone
    sed -n "s/^$name.ini,//p" said | cmp - alone || fail "all visits of $name.ini"
done
[ "$(head -n 1 said | cut -d, -f1)" = file ] || fail 'no heading for the files'

# shellcheck disable=SC2086
gives 3 "$sillet" sheet $files
tr '\f' '\n' <said | grep -c . >together
{ "$sillet" sheet parlour.ini; "$sillet" sheet bass.ini; } | grep -c . | cmp - together ||
    fail 'the sheets'

# shellcheck disable=SC2086
gives 3 "$sillet" sheet -o 'out/%-sheet.txt' $files
[ "$(ls out)" = 'bass-sheet.txt
parlour-sheet.txt' ] || fail "written: $(ls out)"
"$sillet" sheet bass.ini | cmp - out/bass-sheet.txt || fail 'the sheet on file'
gives 2 "$sillet" sheet -o out/all.txt parlour.ini bass.ini
[ ! -e out/all.txt ] || fail 'several sheets in one file'

# Nothing is written if one of the names is that of a profile.
ln bass.ini out/taken.txt
ln parlour.ini out/parlour-taken.txt
gives 2 "$sillet" sheet -o 'out/%-taken.txt' bass.ini parlour.ini
cmp parlour.ini "$root/profiles/parlour.ini" || fail 'a profile was written over'
[ ! -e out/bass-taken.txt ] || fail 'written beside a refusal'

gives 3 "$sillet" check broken.ini parlour.ini
grep -q '^sillet: broken.ini:' blame || fail 'check does not name broken.ini'
gives 0 "$sillet" check parlour.ini bass.ini

# A word that could be a template's name is taken for one.
gives 2 "$sillet" layout -o 'out/%.svg' parlour.ini nothing
grep -q "no template 'nothing'" blame || fail 'a template that is none'
