#!/bin/sh
# SPDX-License-Identifier: MIT
# An installation as a distribution makes one (DESTDIR, prefix /usr): files are in place with the right
# modes, the program runs from there, and no file contains the build path. With git, the source archive
# of `meson dist` builds on its own; where the tree holds only what is committed, the archive is the same
# tree, and that build is the one installed.
#
#   install.sh ROOT MESON
set -eu
export LC_ALL=C

root=$1
meson=$2
# As the package's build would: the caller's build shall not lend anything.
unset DESTDIR CFLAGS LDFLAGS CPPFLAGS MESON_BUILD_ROOT MESON_SOURCE_ROOT 2>/dev/null || :
command -v ninja >/dev/null || { echo 'no ninja'; exit 77; }
scratch=$(mktemp -d "${TMPDIR:-/tmp}/sillet-install.XXXXXX")
trap 'rm -rf "$scratch"' EXIT
stage=$scratch/stage
failures=0

fail() {
    printf 'FAILED: %s\n' "$*"
    failures=$((failures + 1))
}

# quietly COMMAND...: its output only when it fails, and then the end
quietly() {
    "$@" >"$scratch/log" 2>&1 && return 0
    tail -n 40 "$scratch/log"
    printf 'FAILED: %s\n' "$*"
    exit 1
}

# set_up SOURCE BUILD
set_up() {
    quietly "$meson" setup --prefix=/usr --buildtype=plain -Dtests=disabled "$2" "$1"
}

# program_works PROGRAM PROFILE: what needs the tables that are built in, away from the source
program_works() {
    (
        cd "$scratch"
        env -i PATH="$PATH" HOME="$scratch/home" "$1" --version | grep -q '^sillet [0-9]'
        env -i PATH="$PATH" HOME="$scratch/home" "$1" check "$2"
        env -i PATH="$PATH" HOME="$scratch/home" "$1" figures --set steel-light \
            --tuning guitar-dadgad "$2" >"$scratch/figures"
        grep -q '^saddle_change_mm = ' "$scratch/figures"
        # the modulus of a wood that the profile only names
        grep -q '^\[neck_beam\]' "$scratch/figures"
        grep -q '^\[what-if' "$scratch/figures"
    ) || fail "$1 does not work on $2"
}

# --- the source archive ---

set_up "$root" "$scratch/build"
staged=$scratch/build
if ! git -C "$root" rev-parse --git-dir >/dev/null 2>&1 || [ ! -e "$root/.git" ]; then
    echo 'no git here: meson dist was not tried'
else
    quietly "$meson" dist -C "$scratch/build" --no-tests --formats=gztar --allow-dirty
    mkdir "$scratch/unpacked"
    tar -xzf "$scratch"/build/meson-dist/sillet-*.tar.gz -C "$scratch/unpacked"
    source=$(echo "$scratch"/unpacked/sillet-*)
    set_up "$source" "$scratch/build-dist"
    quietly "$meson" compile -C "$scratch/build-dist"
    program_works "$scratch/build-dist/src/sillet" "$source/profiles/parlour.ini"
    if [ -z "$(git -C "$root" --no-optional-locks status --porcelain)" ]; then
        (cd "$root" && git ls-files -z | xargs -0 sha256sum) >"$scratch/sums"
        (cd "$source" && sha256sum --quiet -c "$scratch/sums") || fail 'the archive is not the tree'
        staged=$scratch/build-dist
    fi
fi

# --- the stage ---

quietly "$meson" compile -C "$staged"
umask 077 # the modes are to be the files' own
quietly env DESTDIR="$stage" "$meson" install -C "$staged" --no-rebuild
umask 022

find "$stage" ! -type d -printf '%m %P\n' | sort -k 2 >"$scratch/found"
cat >"$scratch/wanted" <<'WANTED'
755 usr/bin/sillet
644 usr/share/bash-completion/completions/sillet
644 usr/share/doc/sillet/LICENSE
644 usr/share/doc/sillet/README.md
644 usr/share/doc/sillet/docs/command-line.md
644 usr/share/doc/sillet/docs/first-steps.md
644 usr/share/doc/sillet/docs/keys.md
644 usr/share/doc/sillet/docs/leaves.md
644 usr/share/doc/sillet/docs/method.md
644 usr/share/doc/sillet/docs/profile-format.md
644 usr/share/doc/sillet/docs/reliability.md
644 usr/share/doc/sillet/docs/sheet.md
644 usr/share/doc/sillet/docs/templates.md
644 usr/share/doc/sillet/docs/walk-through.md
644 usr/share/doc/sillet/examples/bass.ini
644 usr/share/doc/sillet/examples/bolt-on.ini
644 usr/share/doc/sillet/examples/parlour.ini
644 usr/share/man/man1/sillet.1
644 usr/share/man/man5/sillet-profile.5
WANTED
diff "$scratch/wanted" "$scratch/found" || fail 'other files or modes ("<" wanted, ">" found)'

examples=$stage/usr/share/doc/sillet/examples
program_works "$stage/usr/bin/sillet" "$examples/parlour.ini"
cmp "$examples/parlour.ini" "$root/profiles/parlour.ini" || fail 'the example was written to'

# knows FOLDER: the installed files that name it. Debugging information names sources; a package
# strips it.
knows() {
    grep -rlaF -e "$1" "$scratch/stripped" || :
}

cp -R "$stage" "$scratch/stripped"
if command -v strip >/dev/null; then
    strip "$scratch/stripped/usr/bin/sillet"
    for folder in "$root/" "$scratch"; do
        [ -z "$(knows "$folder")" ] || fail "$folder is named in: $(knows "$folder")"
    done
    printf '%s' "$staged" >"$scratch/stripped/planted"
    [ -n "$(knows "$scratch")" ] || fail 'a planted build path was not found'
else
    echo 'no strip: build paths were not looked for'
fi
[ "$failures" -eq 0 ]
