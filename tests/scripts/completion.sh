#!/bin/sh
# SPDX-License-Identifier: MIT
# Completion in bash offers the commands and options that `sillet --help` names and no others,
# profiles, and the names of tunings and sets.
#
#   completion.sh ROOT PROGRAM
set -eu

root=$1
case $2 in
    /*) program=$2 ;;
    *) program=$PWD/$2 ;;
esac
command -v bash >/dev/null || { echo 'no bash: completion was not tried'; exit 77; }
scratch=$(mktemp -d "${TMPDIR:-/tmp}/sillet-completion.XXXXXX")
trap 'rm -rf "$scratch"' EXIT
failures=0

mkdir "$scratch/shop" "$scratch/shop/a folder"
: >"$scratch/shop/two words.ini"
: >"$scratch/shop/parlour.ini"
: >"$scratch/shop/notes.txt"

cat >"$scratch/drive" <<'DRIVE'
# drive COMPLETIONS WORD...: the replies to the last word, one a line
. "$1"
shift
COMP_WORDS=("$@")
COMP_CWORD=$(($# - 1))
_sillet
printf '%s\n' "${COMPREPLY[@]}"
DRIVE

# replies WORD...: sorted
replies() {
    (cd "$scratch/shop" && bash --noprofile --norc "$scratch/drive" \
        "$root/share/completions/sillet" "$program" "$@") | LC_ALL=C sort
}

# expect WANTED WORD...: WANTED is sorted, commas for line ends
expect() {
    wanted=$1
    shift
    got=$(replies "$@" | tr '\n' ',')
    [ "${got%,}" = "$wanted" ] && return 0
    printf 'completion of "%s": got "%s", want "%s"\n' "$*" "${got%,}" "$wanted"
    failures=$((failures + 1))
}

# expect_some NAME WORD...: NAME is among them
expect_some() {
    wanted=$1
    shift
    replies "$@" | grep -qxF -e "$wanted" && return 0
    printf 'completion of "%s" lacks "%s"\n' "$*" "$wanted"
    failures=$((failures + 1))
}

expect 'check' c
expect 'a folder,parlour.ini,two words.ini' figures ''
expect 'parlour.ini' check p
expect 'two words.ini' check parlour.ini two
expect 'a folder' shelf --shelf ''
expect '' shelf --shelf p
expect '' figures --shift ''
expect '' shelf ''
expect '--set,--shift' figures --s
expect '--tuning' figures --more --t
expect_some guitar-dadgad figures --tuning guitar-d
expect_some steel-light figures --set ''
expect '' figures --tuning steel
expect 'a4,letter' sheet --paper ''
expect 'saddle,shim' layout parlour.ini s
expect 'parlour.ini' layout p

# The words that the usage names: what stands behind "sillet", and the options of each command.
"$program" --help >"$scratch/usage"
awk '
    /^ *(usage:)? +sillet [^ ]/ {
        sub(/^ *(usage:)? +sillet /, "")
        command = $1 ~ /^[a-z]/ ? $1 : ""
        gsub(/[,]/, "")
        for (i = 1; i <= NF && ($i ~ /^--/ || (i == 1 && command != "")); i++)
            print "first", $i
        next
    }
    /^ +-/ { print command == "" ? "first" : command, $1 }' "$scratch/usage" | LC_ALL=C sort -u >"$scratch/named"
{
    replies '' | sed '/\.ini$/d; /folder/d; s/^/first /'
    for command in figures sheet shelf layout journal demo; do
        replies "$command" - | sed "s/^/$command /"
    done
} | LC_ALL=C sort >"$scratch/offered"
if ! diff "$scratch/named" "$scratch/offered"; then
    echo 'completion: "<" stands in the usage only, ">" is offered only'
    failures=$((failures + 1))
fi
[ "$(wc -l <"$scratch/named")" -ge 12 ] || { echo 'the usage was not understood'; failures=1; }
[ "$failures" -eq 0 ]
