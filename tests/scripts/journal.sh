#!/bin/sh
# SPDX-License-Identifier: MIT
# The journal of a day and of a month over all instruments of a folder, as text and as CSV.
#
#   journal.sh ROOT SILLET
set -eu
export LC_ALL=C.UTF-8

root=$1
sillet=$2
scratch=$(mktemp -d "${TMPDIR:-/tmp}/sillet-journal.XXXXXX")
trap 'rm -rf "$scratch"' EXIT
export HOME="$scratch/home"
unset XDG_CONFIG_HOME XDG_DATA_HOME XDG_CACHE_HOME
mkdir -p "$HOME" "$scratch/shelf"
cp "$root"/profiles/*.ini "$scratch/shelf"

fail() {
    echo "journal: $*" >&2
    exit 1
}

# journal CODE ARGUMENT...: into $scratch/out and $scratch/said, with that exit code.
journal() {
    wanted=$1
    shift
    code=0
    "$sillet" journal --shelf "$scratch/shelf" "$@" >"$scratch/out" 2>"$scratch/said" || code=$?
    [ $code -eq "$wanted" ] || fail "exit $code for '$*': $(cat "$scratch/said")"
}

has() {
    grep -qF -- "$1" "$scratch/out" || fail "no '$1' in: $(cat "$scratch/out")"
}

# A day, in the order of its times; nothing of other days.
journal 0 2026-01-19
has 'Monday, 19 January 2026'
has '10:30  Parlour No. 3: rod, tightened 1/4 turn'
has '12:25  Parlour No. 3: measured, as left'
[ "$(grep -c January "$scratch/out")" -eq 1 ] || fail 'more than a day'
sed -n 's/^  \([0-9][0-9]:[0-9][0-9]\) .*/\1/p' "$scratch/out" >"$scratch/times"
sort -c "$scratch/times" || fail 'not in order'
grep -q 'Long Pier' "$scratch/out" && fail 'an instrument of another day'

# Typed as people type it, and one that is none.
cp "$scratch/out" "$scratch/first"
journal 0 19.1.2026
cmp -s "$scratch/first" "$scratch/out" || fail 'another day'
journal 2 soon
grep -q 'as 2026-11' "$scratch/said" || fail "$(cat "$scratch/said")"
journal 2 2026-01-19 2026-01-20

# A month has its days; the other month has none of them.
journal 0 2026-05
has 'Harbour Bolt-on'
journal 0 2026-06
[ -s "$scratch/out" ] && fail 'something in a month without anything'

# Work of today is found by a day that is not said.
printf '[profile]\nformat = 1\n[instrument]\nname = "Cur%%1B[2Jlew"\n[board]\nscale = 25 in\n[visit.1]\ndate = %s\n[visit.1.work.1]\nkind = saddle\namount = "=1+1"\ntime = 00:07\n' \
    "$(date +%Y-%m-%d)" >"$scratch/shelf/today.ini"
journal 0
has '00:07'
has ': saddle, =1+1'
grep -q "$(printf '\033')" "$scratch/out" && fail 'an escape reached the terminal'
journal 0 --csv
has "'=1+1"
[ "$(head -n 1 "$scratch/out")" = "$(printf 'date,time,file,name,owner,what,words,amount,note\r')" ] ||
    fail "$(head -n 1 "$scratch/out")"

# One bad file does not hide the others.
printf '\000' >"$scratch/shelf/bad.ini"
journal 1 2026-01-19
cmp -s "$scratch/first" "$scratch/out" || fail 'a bad file changed the rest'
grep -q bad.ini "$scratch/said" || fail 'nothing about the bad file'

# A month of the made-up shop is what its profiles say: who came in, who was handed over, what was
# measured and done; as text and as CSV, and a day of it.
"$sillet" demo "$scratch/demo" --until 2026-11-20 >"$scratch/said"
month() {
    sed -n "s/^$1 = $2//p" "$scratch"/demo/*.ini | wc -l
}
for month in 2026-10 2025-03 2024-06; do
    "$sillet" journal --shelf "$scratch/demo" $month --csv >"$scratch/out" 2>"$scratch/said"
    "$sillet" journal --shelf "$scratch/demo" $month >"$scratch/text" 2>>"$scratch/said"
    [ ! -s "$scratch/said" ] || fail "$(cat "$scratch/said")"
    tr -d '\r' <"$scratch/out" >"$scratch/lines"
    here=$(month date $month)
    [ "$here" -gt 0 ] || fail "nobody came in $month"
    [ "$(grep -c ',came in,' "$scratch/lines")" -eq "$here" ] || fail "came in, $month"
    [ "$(grep -c ',handed over,' "$scratch/lines")" -eq "$(month handed_over $month)" ] ||
        fail "handed over, $month"
    # Passes and work have the time of their visit's day, which no visit of the demo outlasts.
    awk -v month=$month '
        /^\[/ { part = $0 }
        part ~ /^\[visit\.[0-9]+\]$/ && /^date = / { then = index($3, month) == 1 }
        then && part ~ /pass\.[0-9]+\]$/ && /^time = / { measured++ }
        then && /^\[visit\.[0-9]+\.work\.[0-9]+\]$/ { work++ }
        END { print measured + 0, work + 0 }' "$scratch"/demo/*.ini >"$scratch/wanted"
    echo "$(grep -c ',measured,' "$scratch/lines") $(grep -c ',work,' "$scratch/lines")" |
        diff "$scratch/wanted" - || fail "measured and done, $month"
    [ "$(sed 1d "$scratch/lines" | wc -l)" -eq "$(grep -c '^  ' "$scratch/text")" ] ||
        fail "text and CSV differ, $month"
    day=$(sed -n 's/^\([0-9-]*\),.*,came in,.*/\1/p' "$scratch/lines" | head -n 1)
    "$sillet" journal --shelf "$scratch/demo" "$day" --csv | tr -d '\r' | sed 1d >"$scratch/out"
    grep "^$day" "$scratch/lines" | diff - "$scratch/out" || fail "a day of $month"
done
echo good
