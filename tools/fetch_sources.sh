#!/bin/sh
# SPDX-License-Identifier: MIT
# Usage: tools/fetch_sources.sh PACKAGE...
#
# Unpacks the Debian source of each package into build/third_party/src/PACKAGE, once; later calls do nothing.
# The source list is derived from the machine's own Debian package list, with deb-src put in place of deb, and kept,
# like apt's state, in build/third_party/apt: the system's lists stay as they are and no address stands in this tree.
set -eu
root=$(cd "$(dirname "$0")/.." && pwd)
store=$root/build/third_party
apt_dir=$store/apt
mkdir -p "$store/src"

# Two build folders may be configured at the same moment.
exec 9>"$store/lock"
flock 9

missing=
for package in "$@"; do
  [ -e "$store/src/$package/.unpacked" ] || missing="$missing $package"
done
[ -n "$missing" ] || exit 0

derive_source_list() {
  mkdir -p "$apt_dir/sources.d" "$apt_dir/lists/partial" "$apt_dir/archives/partial" "$apt_dir/download"
  rm -f "$apt_dir"/sources.d/*
  if [ -e /etc/apt/sources.list.d/debian.sources ]; then
    sed 's/^Types:.*/Types: deb-src/' /etc/apt/sources.list.d/debian.sources >"$apt_dir/sources.d/debian.sources"
  fi
  if grep -qs '^deb ' /etc/apt/sources.list; then
    sed -n 's/^deb /deb-src /p' /etc/apt/sources.list >"$apt_dir/sources.d/debian.list"
  fi
  if [ -z "$(ls "$apt_dir/sources.d")" ]; then
    echo "fetch_sources: no Debian package list found (looked for sources.list.d/debian.sources and sources.list" \
      "in /etc/apt). Add one, or put the unpacked sources of$missing into build/third_party/src." >&2
    exit 1
  fi
}

private_apt() {
  apt-get -qq -o Dir::Etc::SourceList=/dev/null -o Dir::Etc::SourceParts="$apt_dir/sources.d" \
    -o Dir::State::Lists="$apt_dir/lists" -o Dir::Cache::Archives="$apt_dir/archives" \
    -o Dir::Cache::pkgcache= -o Dir::Cache::srcpkgcache= -o APT::Sandbox::User="$(id -un)" \
    -o Acquire::Retries=3 "$@"
}

# The folder carries its mark only when the unpacking is complete, so that an interrupted run is done again.
unpack() {
  rm -rf "$apt_dir/download/$1" "$store/src/$1"
  mkdir -p "$apt_dir/download/$1"
  (cd "$apt_dir/download/$1" && private_apt --download-only source "$1" && dpkg-source --no-check -x ./*.dsc tree >/dev/null)
  mv "$apt_dir/download/$1/tree" "$store/src/$1"
  touch "$store/src/$1/.unpacked"
}

derive_source_list
private_apt update
for package in $missing; do
  unpack "$package"
done
