#!/bin/sh
# SPDX-License-Identifier: MIT
# What later visits file changes no earlier one: of every profile, each visit's sheet and its figures
# stay the same byte for byte while visits are added that restring it, tune it down, set other
# targets, refill the rod's slot, move saddles and measure all again.
#
#   visits_stay.sh ROOT SILLET
set -eu
export LC_ALL=C.UTF-8

root=$1
sillet=$2
scratch=$(mktemp -d "${TMPDIR:-/tmp}/sillet-visits.XXXXXX")
trap 'rm -rf "$scratch"' EXIT
export HOME="$scratch/home"
unset XDG_CONFIG_HOME XDG_DATA_HOME
mkdir "$HOME"

fail() {
    echo "visits_stay: $*" >&2
    exit 1
}

# last_visit FILE
last_visit() {
    sed -n 's/^\[visit\.\([0-9]*\)\].*/\1/p' "$1" | sort -n | tail -n 1
}

# show FILE VISIT: all that is said about a visit.
show() {
    "$sillet" sheet --visit "$2" "$1"
    "$sillet" sheet --estimate --visit "$2" "$1"
    code=0
    "$sillet" figures --all-visits "$1" >"$scratch/csv" || code=$?
    [ $code -le 1 ] || fail "$1: figures gives $code"
    sed -n "/^$2,/p" "$scratch/csv"
}

# keep FILE FOLDER: what is said about each of its visits.
keep() {
    mkdir -p "$2"
    for v in $(seq "$(last_visit "$1")"); do
        show "$1" "$v" >"$2/$v" 2>"$scratch/said" || fail "$1, visit $v: $(cat "$scratch/said")"
        [ -s "$2/$v" ] || fail "$1, visit $v: nothing is said"
    done
}

# readings VISIT RELIEF TURN: two passes, with the rod turned between them.
readings() {
    printf '\n[visit.%s.pass.1]\ntime = 10:00\nrelief = %s\n' "$1" "$2"
    for s in 1 2 3 4; do
        printf 'nut_gap.%s = .02%s in\naction.%s = 7/64 in\ncents.%s.12 = %s\n' \
            "$s" "$s" "$s" "$s" "$s"
    done
    printf 'exposure_bass = 3 mm\nexposure_treble = 3 mm\nbuzz.2 = 3\n'
    printf '\n[visit.%s.pass.2]\ntime = 11:00\nrod_turn = %s\nrelief = .003 in\n' "$1" "$3"
    printf '\n[visit.%s.work.1]\nkind = rod\ntime = 10:30\n' "$1"
}

# restrung VISIT: another set a tone lower, with other saddles.
restrung() {
    printf '\n[visit.%s]\ndate = 2027-0%s-02\nhumidity = 30\ntemperature = 25 C\n' "$1" "$1"
    for s in 1 2 3 4; do
        printf '\n[visit.%s.string.%s]\nnote = D%s\ngauge = .04%s in\nbuild = plain\ncore = absent\n' \
            "$1" "$s" "$((5 - s))" "$s"
        printf 'mass = absent\nweigh_mass = absent\nlabel_tension = absent\nsetback = %s mm\n' "$s"
    done
    readings "$1" '.014 in' '1/4 turn'
}

# rebuilt VISIT: targets, neck, board and gauges of its own.
rebuilt() {
    printf '\n[visit.%s]\ndate = 2027-0%s-03\nhumidity = 60\ntemperature = 20 C\n' "$1" "$1"
    printf '\n[visit.%s.targets]\nrelief = .002 in\naction_bass = 3/64 in\naction_treble = 3/64 in\n' "$1"
    printf 'nut_gap_bass = absent\nrelief_tolerance = .0001 in\ntouch = hard\ncents_tolerance = 1\n'
    printf '\n[visit.%s.neck]\nrod = two-way\nspline_modulus = 12 GPa\nrecut_width = 6 mm\n' "$1"
    printf 'recut_depth = 9 mm\nshaft_first = 14 mm\n'
    printf '\n[visit.%s.board]\nthickness = 4 mm\nrelief_fret = 6\naction_fret = 10\ncrown_height = 0.8 mm\n' "$1"
    printf '\n[visit.%s.bridge]\nexposure_min = 4 mm\nkind = post\nthread = 0.8 mm\n' "$1"
    printf '\n[visit.%s.nut]\nkind = zero-fret\n' "$1"
    printf '\n[visit.%s.model]\na4 = 432\nrule_step = 0.5 mm\npress_depth = 0.4 mm\n' "$1"
    printf '\n[visit.%s.instrument]\nowner = somebody else\n' "$1"
    readings "$1" '.001 in' '-1/2 turn'
}

# add FILE WHAT: one more visit; prints its number.
add() {
    next=$(($(last_visit "$1") + 1))
    sed -i -e '/^\[end\]/,$d' -e '/^\[visit\.[0-9]*\]$/!s/^format = 1/format = 2/' "$1"
    "$2" "$next" >>"$1"
    echo "$next"
}

# sound FILE: nothing that was added is refused or unknown.
sound() {
    "$sillet" check "$1" >"$scratch/said" 2>&1 || fail "$1: $(cat "$scratch/said")"
    ! grep -E 'visit\.|not used|no visit|format' "$scratch/said" || fail "$1 has sections in doubt"
}

compared=0
for profile in "$root"/profiles/*.ini "$root"/tests/data/*.ini; do
    name=$(basename "$profile" .ini)
    file=$scratch/$name.ini
    cp "$profile" "$file"
    before=$(last_visit "$file")
    [ -n "$before" ] || continue
    keep "$file" "$scratch/$name.0"
    step=0
    for what in restrung rebuilt restrung; do
        last=$(last_visit "$file")
        add "$file" $what >/dev/null
        step=$((step + 1))
        sound "$file"
        keep "$file" "$scratch/$name.$step"
        for v in $(seq "$last"); do
            diff "$scratch/$name.$((step - 1))/$v" "$scratch/$name.$step/$v" >"$scratch/said" ||
                fail "$name, visit $v, once it was $what: $(head -n 20 "$scratch/said")"
            compared=$((compared + 1))
        done
        # The visit itself is not like the one before it.
        ! cmp -s "$scratch/$name.$step/$last" "$scratch/$name.$step/$((last + 1))" ||
            fail "$name: $what shows nothing"
    done
    # A correction of all visits is seen in all: the comparison can fail.
    sed -i 's/^name = .*/name = corrected/' "$file"
    grep -q '^name = corrected' "$file" || continue
    keep "$file" "$scratch/$name.corrected"
    ! cmp -s "$scratch/$name.3/1" "$scratch/$name.corrected/1" || fail "$name: the name is not seen"
done
[ $compared -ge 18 ] || fail "only $compared visits were compared"
echo "$compared visits stayed as they were"
