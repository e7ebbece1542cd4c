#!/bin/sh
# SPDX-License-Identifier: MIT
# Installs what Railwright needs on Debian 12. Safe to run again: when everything is there it does nothing and asks nobody.
set -eu

packages="build-essential dpkg-dev cmake ninja-build ccache git ca-certificates pkg-config python3
  nlohmann-json3-dev libexpected-dev libfast-float-dev libfmt-dev googletest libbenchmark-dev coinor-libclp-dev
  libcpp-httplib-dev libssl-dev zlib1g-dev libbrotli-dev libsqlite3-dev
  librsvg2-dev libcairo2-dev fonts-inter fonts-dejavu poppler-utils
  emscripten clang-format clang-tidy universal-ctags"

installed() {
  [ "$(dpkg-query -W -f '${db:Status-Status}' "$1" 2>/dev/null)" = installed ]
}

missing=
for package in $packages; do
  installed "$package" || missing="$missing $package"
done
# Node and the browser often come from elsewhere than Debian; what counts is the command.
for command in node:nodejs npm:npm chromium:chromium; do
  command -v "${command%%:*}" >/dev/null 2>&1 || missing="$missing ${command#*:}"
done
[ -n "$missing" ] || exit 0

if [ "$(id -u)" = 0 ]; then
  as_root=
elif command -v sudo >/dev/null 2>&1; then
  as_root=sudo
else
  echo "setup: missing packages:$missing" >&2
  echo "setup: run this as root, or install sudo first." >&2
  exit 1
fi

echo "Installing:$missing"
$as_root env DEBIAN_FRONTEND=noninteractive apt-get -qq update
# shellcheck disable=SC2086 # the list is meant to be split
$as_root env DEBIAN_FRONTEND=noninteractive apt-get -qq -y --no-install-recommends install $missing </dev/null >/dev/null
