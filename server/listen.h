// SPDX-License-Identifier: MIT
#pragma once

#include <functional>
#include <string>

#include "server/site.h"

namespace railwright::server {

// Hands out the site on 127.0.0.1 until the process ends; `ready` is called once with the port. `port` 0: any free one. Only requests that name the loopback
// host are answered (a page elsewhere cannot reach in by renaming itself). Error: `serve.port` (taken or not allowed).
Result<void> listen(const Site& site, int port, const std::function<void(int)>& ready);

// True for the names under which this machine calls itself, with or without a port.
bool is_loopback_host(std::string_view host);

}  // namespace railwright::server
