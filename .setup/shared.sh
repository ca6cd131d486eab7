# Copyright 2026 The swarfbook authors
# SPDX-License-Identifier: Apache-2.0
# Shared by tests/run and demo-images/run; sourced, with the project's folder as the current one.

say() { printf '%-11s %s\n' "$1" "$2"; }

# run_quietly LOG COMMAND...: the output goes to LOG; shown, at its end, only when it fails.
run_quietly() {
    local log=$1
    shift
    mkdir -p "$(dirname "$log")"
    if ! "$@" >"$log" 2>&1; then
        printf '\n%s failed; the end of %s:\n' "$1" "$log" >&2
        grep -nE 'error|FAILED' "$log" | head -n 20 >&2 || true
        tail -n 40 "$log" >&2
        return 1
    fi
}

# missing_packages LIST...: names of the packages in these lists that are not installed.
missing_packages() {
    local name
    for name in $(cat "$@" | sed 's/#.*//'); do
        [ "$(dpkg-query -W -f='${db:Status-Status}' "$name" 2>/dev/null)" = installed ] ||
            printf '%s ' "$name"
    done
}

# install_missing LIST...: brings in with apt what is missing; asks for sudo only when not root.
install_missing() {
    if ! command -v dpkg-query >/dev/null; then
        say packages "this is no Debian: what is needed stands in $*"
        return 0
    fi
    local missing as_root=()
    missing=$(missing_packages "$@")
    if [ -z "$missing" ]; then
        say packages "all there"
        return 0
    fi
    say packages "installing: $missing"
    [ "$(id -u)" = 0 ] || as_root=(sudo)
    run_quietly build/apt.log "${as_root[@]}" apt-get update
    # shellcheck disable=SC2086 # a list of words
    run_quietly build/apt.log "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive \
        apt-get install -y --no-install-recommends $missing </dev/null
}

# build NAME CACHE-FILE: configures and builds build/NAME, saying how long it took.
build() {
    local name=$1 cache=$2 start=$SECONDS
    say build "build/$name (a first build takes some minutes; build/$name.log)"
    run_quietly "build/$name.log" cmake -G Ninja -C "$cache" -B "build/$name" -S . || return 1
    run_quietly "build/$name.log" ninja -C "build/$name" || return 1
    say "" "done in $((SECONDS - start)) s"
}

# source_state: one word that changes whenever anything does that a build or a test depends on.
source_state() {
    {
        find CMakeLists.txt README.md .cmake .github .packaging .setup src models calibration demo-images tests \
            -type f ! -path '*/__pycache__/*' -print0 | sort -z | xargs -0 sha256sum
        [ ! -d ../shared ] || find ../shared -type f -printf '%p %s %T@\n' | sort
        dpkg-query -W -f='${Package} ${Version}\n' 2>/dev/null || true
    } | sha256sum | cut -d' ' -f1
}

# Objects are kept between builds and between checkouts in other folders.
export CCACHE_BASEDIR=$PWD CCACHE_NOHASHDIR=1 CCACHE_SLOPPINESS=pch_defines,time_macros
