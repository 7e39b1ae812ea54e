#!/usr/bin/env bash
# Proves the way in on a bare Debian 12: Python 3.11 and git, and nothing else.
#
# Run by hand, as root, on a Debian machine with debootstrap:
#     tests/bare_debian.sh             the demo, twice, then the tests
#     tests/bare_debian.sh WORD ...    `python3 builder/start.py WORD ...` instead
# Takes the last commit, not the files of the work tree. The new root is a temporary folder
# that is removed at the end; KEEP=1 leaves it there and prints its path. The machine's own
# settings for apt, pip, certificates, names and proxies are carried into the root.
set -euo pipefail

if [ "$(id -u)" -ne 0 ]; then
    echo "tests/bare_debian.sh makes a Debian root, which only root may do." >&2
    exit 2
fi
if ! command -v debootstrap >/dev/null; then
    echo "debootstrap is missing: apt-get install debootstrap" >&2
    exit 2
fi

checkout="$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)"
root="$(mktemp -d "${TMPDIR:-/tmp}/bare-debian-XXXXXX")"
chmod 755 "$root"

clear_away() {
    umount "$root/proc" "$root/dev/pts" "$root/dev" 2>/dev/null || true
    if [ -n "${KEEP:-}" ]; then
        echo "The root is left in $root"
    elif grep -q " $root/" /proc/self/mounts; then
        echo "Something is still mounted in $root, so it is left there." >&2
    else
        rm -rf "$root"
    fi
}
trap clear_away EXIT

carry() {
    local path
    for path in "$@"; do
        if [ -e "$path" ]; then
            mkdir -p "$root$(dirname "$path")"
            cp -rL --remove-destination "$path" "$root$(dirname "$path")/"
        fi
    done
}

echo "== A bare Debian 12 in $root"
mirror="$(apt-get indextargets --format '$(CODENAME) $(REPO_URI)' 'Created-By: Packages' |
    awk '$1 == "bookworm" { print $2; exit }')"
debootstrap --variant=minbase --include=python3,ca-certificates,git bookworm "$root" \
    ${mirror:+"$mirror"} >"$root.log" 2>&1 || { tail -n 20 "$root.log" >&2; exit 1; }
rm -f "$root.log" "$root/etc/apt/sources.list"
carry /etc/hosts /etc/resolv.conf /etc/ssl/certs /etc/pip.conf /etc/xdg/pip /root/.config/pip \
    /etc/apt/sources.list /etc/apt/sources.list.d/debian.sources \
    /etc/apt/apt.conf.d /etc/apt/auth.conf.d
# Folders of packages that only the outer machine has.
find "$root/etc" "$root/root/.config" -name pip.conf -exec \
    sed -i -E '/^(find-links|(extra-)?index-url) *= *(file:|\/)/d' {} + 2>/dev/null || true
mount -t proc proc "$root/proc"
mount --bind /dev "$root/dev"
mkdir -p "$root/dev/pts"
mount --bind /dev/pts "$root/dev/pts" || true
git clone --quiet --no-hardlinks "file://$checkout" "$root/root/tempoleaf"

carried=(HOME=/root PATH=/usr/sbin:/usr/bin:/sbin:/bin TERM="${TERM:-dumb}")
while IFS= read -r setting; do
    carried+=("$setting")
done < <(env | grep -v '^PIP_FIND_LINKS=' |
    grep -E '^(PIP_[A-Z_]+|[A-Za-z]*_?(proxy|PROXY)|SSL_CERT_(FILE|DIR)|REQUESTS_CA_BUNDLE)=' || true)

inside() {
    chroot "$root" env -i "${carried[@]}" bash -c 'cd /root/tempoleaf && exec "$@"' inside "$@"
}

start() {
    local began=$SECONDS code=0
    echo "== python3 builder/start.py $*"
    inside python3 builder/start.py "$@" || code=$?
    echo "== exit code $code after $((SECONDS - began)) s"
    return "$code"
}

inside python3 --version
inside python3 -c 'import ensurepip' 2>/dev/null && { echo "venv is there: not bare" >&2; exit 1; }
if [ "$#" -gt 0 ]; then
    start "$@"
else
    start demo
    start demo
    inside test -s site/index.html
    inside .venv/bin/tempoleaf doctor
    start test
fi
