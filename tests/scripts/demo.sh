#!/bin/sh
# SPDX-License-Identifier: MIT
# The made-up shop: whole, clean, the same for the same seed, and read by gauges from what is true.
#
#   demo.sh ROOT SILLET
set -eu
export LC_ALL=C.UTF-8

sillet=$(realpath "$2")
scratch=$(mktemp -d "${TMPDIR:-/tmp}/sillet-demo.XXXXXX")
trap 'rm -rf "$scratch"' EXIT
export HOME="$scratch/home"
unset XDG_CONFIG_HOME XDG_DATA_HOME XDG_CACHE_HOME
mkdir -p "$HOME"
cd "$scratch"

fail() {
    echo "demo: $*" >&2
    exit 1
}

make() {
    "$sillet" demo --until 2026-11-20 "$@" >said || fail "exit $? for $*: $(cat said)"
}

same() {
    diff -r "$1" "$2" >/dev/null
}

# 40 profiles, of which nothing has to be said.
make shop --truth truth.csv
[ "$(find shop -name '*.ini' | wc -l)" -eq 40 ] || fail 'not 40 profiles'
"$sillet" check shop/*.ini >said 2>&1 || fail "findings: $(cat said)"
[ ! -s said ] || fail "check says: $(cat said)"

# The same again; another one for another seed.
make again
same shop again || fail 'another shop for the same seed'
make --seed 2 other
! same shop other || fail 'the same shop for another seed'

# Three years, several visits each, work with amounts, strings that were changed, and a handful still
# in the house with ticket and promised day.
cat shop/*.ini >all
sed -n 's/^date = //p' all | sort >dates
awk '!($0 > "2023-11-19" && $0 <= "2026-11-20")' dates >outside
[ ! -s outside ] || fail "outside the three years: $(cat outside)"
visits=$(wc -l <dates)
[ "$visits" -gt 80 ] || fail "only $visits visits"
[ "$(grep -c '^ticket = ' all)" -eq "$visits" ] || fail 'a visit without ticket'
[ "$(grep -c '^promised = ' all)" -eq "$visits" ] || fail 'a visit without promise'
here=$((visits - $(grep -c '^handed_over = ' all)))
{ [ "$here" -ge 5 ] && [ "$here" -le 10 ]; } || fail "$here in the house"
for text in '^amount = tightened 1/4 turn' '^amount = string [0-9] -\.[0-9]* in' '^kind = restrung' \
    '^label = as left' '^\[visit\.2\.string\.1\]'; do
    grep -q "$text" all || fail "no line '$text'"
done

# Every reading is what is true, as far as its gauge and a hand can tell; and they do differ.
tr -d '\r' <truth.csv | awk -F, '
    NR == 1 { next }
    $4 == "rod_per_turn" { if (!($6 < -0.2 && $6 > -0.45)) { print "rod: " $0; bad = 1 } next }
    {
        step = $4 == "relief" || $4 == "nut_gap" ? 0.0254 : 25.4 / 128
        error = step == 0.0254 ? 0.008 : 0.04
        off = $7 - $6
        if (!(off <= step / 2 + 5 * error && -off <= step / 2 + 5 * error) && $7 > 0) {
            print "off by " off ": " $0; bad = 1
        }
        sum[$4] += off / step; squares[$4] += (off / step) ^ 2; count[$4]++
    }
    END {
        for (what in count) {
            mean = sum[what] / count[what]; spread = sqrt(squares[what] / count[what])
            if (!(count[what] > 100 && mean < 0.1 && mean > -0.1 && spread > 0.25 && spread < 0.5)) {
                print what ": " count[what] " off by " mean " +- " spread " steps"; bad = 1
            }
        }
        exit bad
    }' || fail 'readings that are not what is true'

# What is told of a reading is what the profile holds.
file=$(awk -F, 'NR == 2 { print $1 }' truth.csv)
told=$(awk -F, -v file="$file" '$1 == file && $2 == 1 && $3 == 1 && $4 == "relief" {
    printf "%.3f", $7 / 25.4 }' truth.csv)
grep -q "^relief = ${told#0} in" "shop/$file" || fail "relief $told is not in $file"

# In a shop with metric gauges it is metric.
mkdir -p "$HOME/.config/sillet"
printf '[shop]\nunits = metric\n' >"$HOME/.config/sillet/shop.ini"
make metric
"$sillet" check metric/*.ini >said 2>&1 || fail "findings in mm: $(cat said)"
[ ! -s said ] || fail "check says in mm: $(cat said)"
grep -q '^nut_gap\.1 = 0\.[0-9][05] mm' metric/*.ini || fail 'no reading in mm'
! grep -h '^action\.[0-9]* = ' metric/*.ini | grep -q ' in$' || fail 'a reading in inches'

# Nothing is put beside what somebody else has.
if "$sillet" demo shop >said 2>&1; then fail 'a shop made in a folder with profiles'; fi
grep -q 'new or empty folder' said || fail "$(cat said)"
for words in '' '--seed -1 new' '--until soon new' 'one two'; do
    code=0
    # shellcheck disable=SC2086 # words are split
    "$sillet" demo $words >said 2>&1 || code=$?
    [ "$code" -eq 2 ] || fail "exit $code for '$words'"
done
[ ! -e new ] || fail 'a folder made in spite of wrong words'
