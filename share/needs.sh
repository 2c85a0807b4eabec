# SPDX-License-Identifier: MIT
# shellcheck shell=sh disable=SC2034,SC2154 # the sourcing scripts set and read these
# What sillet needs to build and test: how to check for it, describe it and install it.
# Sourced by share/start and tests/run, which set $log, the file that takes the long output.
# A need is named by its Debian package.

build_needs='gcc libc6-dev ninja-build meson pkg-config libncurses-dev libiniparser-dev
libcairo2-dev'
test_needs='libcmocka-dev libvterm-dev libgsl-dev poppler-utils'
own_copy='run this in a copy of the tree that is yours'

say() {
    printf '%s\n' "$*"
}

die() {
    printf 'sillet: %s\n' "$*" >&2
    exit 1
}

# open_log: creates $log, or empties it; dies if it cannot.
open_log() {
    mkdir -p "${log%/*}" 2>/dev/null || die "cannot make ${log%/*}: $own_copy"
    (: >"$log") 2>/dev/null || die "cannot write $log: $own_copy"
}

# step WORDS COMMAND...: says WORDS, runs COMMAND into $log, shows the end of $log if it fails.
step() {
    say "$1"
    printf '\n== %s\n' "$1" >>"$log"
    shift
    "$@" >>"$log" 2>&1 </dev/null && return 0
    printf 'sillet: that failed; the last lines of %s:\n' "$log" >&2
    tail -n 30 "$log" >&2
    return 1
}

# c_links HEADER FLAG...: whether a program that includes HEADER compiles and links.
# shellcheck disable=SC2086 # CC may hold more than one word
c_links() {
    header=$1
    shift
    printf '#include <%s>\nint main(void) { return 0; }\n' "$header" |
        ${CC:-cc} -x c - -o /dev/null "$@"
}

# clang_fuzzes: whether clang has libFuzzer and the sanitizers.
clang_fuzzes() {
    printf '%s\n' 'int LLVMFuzzerTestOneInput(const unsigned char *, unsigned long);' \
        'int LLVMFuzzerTestOneInput(const unsigned char *d, unsigned long n) { return !d && n; }' |
        clang -x c - -o /dev/null -fsanitize=fuzzer,address,undefined
}

meson_is_new_enough() {
    case $(meson --version) in
        '' | 0.*) return 1 ;;
    esac
}

# shellcheck disable=SC2086 # CC may hold more than one word
need_is_met() {
    case $1 in
        gcc) ${CC:-cc} --version ;;
        libc6-dev) c_links stdio.h ;;
        ninja-build) command -v ninja || command -v ninja-build || command -v samu ;;
        meson) meson_is_new_enough ;;
        pkg-config) pkg-config --version ;;
        libncurses-dev) pkg-config --exists ncursesw ;;
        libiniparser-dev) c_links iniparser/iniparser.h -liniparser ;;
        libcairo2-dev) pkg-config --exists 'cairo >= 1.16' ;;
        libcmocka-dev) pkg-config --exists cmocka ;;
        libvterm-dev) pkg-config --exists vterm ;;
        libgsl-dev) pkg-config --exists gsl ;;
        libclang-rt-dev) clang_fuzzes ;;
        poppler-utils) pdftotext -v && pdfinfo -v ;;
        *) command -v "$1" ;;
    esac >/dev/null 2>&1 </dev/null
}

# need_words NEED: describes it for systems without Debian's package names.
need_words() {
    case $1 in
        gcc) say "a C11 compiler (${CC:-cc})" ;;
        libc6-dev) say "the C library's headers" ;;
        ninja-build) say 'ninja' ;;
        meson) say 'meson 1.0 or newer' ;;
        libncurses-dev) say 'ncursesw with its headers' ;;
        libiniparser-dev) say 'iniparser with its headers (iniparser/iniparser.h)' ;;
        libcairo2-dev) say 'cairo 1.16 or newer with its headers, for PDF and SVG' ;;
        libcmocka-dev) say 'cmocka with its headers' ;;
        libvterm-dev) say 'libvterm with its headers' ;;
        libgsl-dev) say 'the GNU Scientific Library with its headers' ;;
        libclang-rt-dev) say "clang's libFuzzer and sanitizers (compiler-rt)" ;;
        poppler-utils) say 'pdftotext and pdfinfo (poppler)' ;;
        *) say "$1" ;;
    esac
}

unmet_needs() {
    for need in "$@"; do
        need_is_met "$need" || printf ' %s' "$need"
    done
}

say_unmet() {
    for need in "$@"; do
        printf '  %s\n' "$(need_words "$need")"
    done >&2
}

# SILLET_OS_RELEASE lets a test pretend to be another system.
on_debian_family() {
    os_release=${SILLET_OS_RELEASE:-/etc/os-release}
    [ -r "$os_release" ] || return 1
    # shellcheck disable=SC1090
    family=$(. "$os_release" && printf ' %s %s ' "${ID:-}" "${ID_LIKE:-}")
    case $family in
        *' debian '* | *' ubuntu '*) command -v apt-get >/dev/null ;;
        *) return 1 ;;
    esac
}

as_root() {
    # A root shell started from a user's shell may lack the folders dpkg needs in PATH.
    set -- env DEBIAN_FRONTEND=noninteractive PATH="$PATH:/usr/sbin:/sbin" "$@"
    if [ "$(id -u)" -eq 0 ]; then
        "$@"
    elif [ -n "${CI:-}" ]; then
        sudo -n "$@"
    else
        sudo "$@"
    fi
}

apt_get() {
    as_root apt-get -o DPkg::Lock::Timeout=120 "$@"
}

apt_install() {
    if [ "$(id -u)" -ne 0 ] && ! command -v sudo >/dev/null; then
        printf 'sillet: something is missing, and only root can install it. As root, run:\n' >&2
        printf '  apt-get update && apt-get install %s\n' "$*" >&2
        return 1
    fi
    # The old package lists may be good enough, so a failed update does not count.
    if [ -z "${apt_lists_are_fresh:-}" ]; then
        say 'Fetching the package lists'
        apt_get update >>"$log" 2>&1 </dev/null || :
        apt_lists_are_fresh=yes
    fi
    step "Installing $*" apt_get install -y --no-install-recommends "$@" && return 0
    printf 'sillet: could not install what is missing. By hand, as root:\n' >&2
    printf '  apt-get update && apt-get install %s\n' "$*" >&2
    return 1
}

# meet_needs NEED...: installs what is missing if it can. Lists what is still missing and fails.
# shellcheck disable=SC2046,SC2086 # needs hold no blanks
meet_needs() {
    unmet=$(unmet_needs "$@")
    [ -n "$unmet" ] || return 0
    if on_debian_family; then
        apt_install $unmet || return 1
        unmet=$(unmet_needs "$@")
        [ -n "$unmet" ] || return 0
        printf 'sillet: installed, but this is still missing:\n' >&2
    else
        printf 'sillet: packages install by themselves only on Debian and its relatives.\n' >&2
        printf 'Please install these, then run the same command again:\n' >&2
    fi
    say_unmet $unmet
    return 1
}
