#!/bin/sh
# SPDX-License-Identifier: MIT
# What a shop asks its shelf, on the made-up shop: answers against what its profiles say.
#
#   shelf_questions.sh ROOT SILLET
set -eu
export LC_ALL=C.UTF-8

sillet=$(realpath "$2")
scratch=$(mktemp -d "${TMPDIR:-/tmp}/sillet-questions.XXXXXX")
trap 'rm -rf "$scratch"' EXIT
export HOME="$scratch/home"
unset XDG_CONFIG_HOME XDG_DATA_HOME XDG_CACHE_HOME
mkdir -p "$HOME"
cd "$scratch"
"$sillet" demo shop >said

fail() {
    echo "shelf_questions: $*" >&2
    exit 1
}

# ask CODE ARGUMENT...: into out and said, with that exit code.
ask() {
    wanted=$1
    shift
    code=0
    "$sillet" shelf --shelf shop "$@" >out 2>said || code=$?
    [ $code -eq "$wanted" ] || fail "exit $code for '$*': $(cat said)"
}

# In the house: every profile whose last visit has no day handed over, by the day promised.
for file in shop/*.ini; do
    awk -v file="${file#shop/}" '
        /^\[visit\.[0-9]*\]/ { promised = handed = "" }
        /^promised = / { promised = $3 }
        /^handed_over = / { handed = $3 }
        END { if (!handed) print promised, file }' "$file"
done | sort >wanted
ask 0 --house --csv
tr -d '\r' <out | awk -F, 'NR == 1 { for (i = 1; i <= NF; i++) at[$i] = i; next }
    { print $(at["promised"]), $(at["file"]) }' >got
sort got >sorted
diff wanted sorted || fail 'not what is in the house'
cut -d' ' -f1 got | sort -c || fail 'not by the day promised'
[ "$(wc -l <got)" -ge 5 ] || fail 'too few in the house'
# With how to reach each owner, so that nobody has to open a file to call.
first=$(awk 'NR == 1 { print $NF }' got)
contact=$(sed -n 's/^contact = //p' "shop/$first" | tr -d '"')
[ -n "$contact" ] || fail "no contact in $first"
grep "^$first," out | grep -qF "$contact" || fail "no contact: $(cat out)"
ask 0 --due
head -n 1 out | grep -q ' contact *$' || fail "$(cat out)"
ask 0 --house
grep -q 'left to do' out || fail "$(cat out)"

# The least saddle first.
ask 0 --saddle --csv
tr -d '\r' <out | awk -F, 'NR > 1 { print $NF, $9 }' >low
[ -s low ] || fail 'no low saddle'
cut -d' ' -f1 low | sort -n -c || fail 'not the least saddle first'

# Usual values of a kind: the median of what the profiles want.
ask 0 --usual bass --csv
grep -q '^bass,relief,' out || fail "$(cat out)"
! grep -q '^electric' out || fail 'kinds that were not asked for'
median=$(for file in shop/*.ini; do
    awk '/^kind = bass/ { bass = 1 } /^\[/ { targets = $0 == "[targets]" }
        targets && /^action_bass = / { split($3, part, "/"); mm = part[1] / 64 * 25.4 }
        END { if (bass) printf "%.3f\n", mm }' "$file"
done | sort -n | awk '{ at[NR] = $1 } END {
    printf "%.3f\n", NR % 2 ? at[(NR + 1) / 2] : (at[NR / 2] + at[NR / 2 + 1]) / 2 }')
said=$(tr -d '\r' <out | awk -F, '$2 == "bass action" { print $3 }')
awk -v a="$median" -v b="$said" 'BEGIN { exit !(a - b < 0.002 && b - a < 0.002) }' ||
    fail "bass action $said, and by the profiles $median"

# As left by an earlier month: the last visit begun by then, the last relief that it read, the first
# string as it was by then.
year=$(($(date +%Y) - 1))
for file in shop/*.ini; do
    awk -v file="${file#shop/}" -v last="$year-06-30" '
        /^\[/ {
            part = $0
            if (match($0, /^\[visit\.[0-9]+/)) visit = substr($0, 8, RLENGTH - 7) + 0
            else visit = 0
        }
        part ~ /^\[visit\.[0-9]+\]$/ && /^date = / { late = $3 > last; if (!late) { day = $3; relief = "" } }
        part ~ /^\[visit\.[0-9]+\.pass\.[0-9]+\]$/ && /^relief = / && !late { relief = $3 * 25.4 }
        part ~ /string\.1\]$/ && /^gauge = / && !(visit && late) { gauge = $3 }
        END { if (day) printf "%s %s %.3f %s\n", file, day, relief, gauge }' "$file"
done | sort >wanted
ask 0 --when "$year-06" --csv
tr -d '\r' <out | sed 's/"[^"]*mm"/mm/g' | awk -F, 'NR > 1 {
    count = split($18, gauge, " "); print $1, $9, $12, gauge[count - 1] }' | sort >got
diff wanted got || fail "not as it was left by $year-06"
[ "$(wc -l <got)" -gt 10 ] || fail 'too few were here'
ask 2 --when soon
ask 2 --left --when 2024
ask 0 --left slipway
grep -q 'E2 A2 D3 G3 B3 E4' out || fail "$(cat out)"

# A quarter turn, and how right we were: kinds and moves add up.
ask 0 --turns
grep -q '^steel-string  *-\.00[1-6] in' out || fail "$(cat out)"
ask 0 --proof --csv
tr -d '\r' <out | awk -F, '
    NR == 1 { next }
    $4 > $3 || ($3 >= 100 && !($5 >= 60 && $5 <= 100)) { print "odd: " $0; bad = 1 }
    $1 == "all" && $2 == "all" { all = $3; inside = $4 }
    $1 == "all" && $2 != "all" { moves += $3 }
    $1 != "all" && $2 == "all" { kinds += $3; kinds_inside += $4 }
    END {
        if (!(all > 500 && all == moves && all == kinds && inside == kinds_inside)) {
            print all, moves, kinds, inside, kinds_inside; bad = 1
        }
        exit bad
    }' || fail 'the proof does not add up'

# From the cache it is the same.
sleep 3 # a file that was just written is not believed to stay as it is
for question in --house --due --left --saddle --rods --usual --turns --proof; do
    rm -rf "$HOME/.cache"
    ask 0 "$question" --csv
    cp out fresh
    [ -n "$(ls "$HOME/.cache/sillet")" ] || fail 'no cache was kept'
    ask 0 "$question" --csv
    cmp -s fresh out || fail "$question is another answer from the cache"
done

# A search that finds nothing says where it looked; one question at a time.
ask 0 nowhere-at-all
grep -q 'maker, serial, kind, tuning, ticket or year' said || fail "$(cat said)"
ask 2 --house --due
ask 2 --nonsense
