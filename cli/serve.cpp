// SPDX-License-Identifier: MIT
#include "cli/serve.h"

#include <cstdio>
#include <cstdlib>

#include "cli/console.h"
#include "server/listen.h"

namespace railwright::cli {
namespace {

constexpr char kHelp[] =
    "Serves the page to the browser of this machine, on 127.0.0.1 only, until you stop it with Ctrl-C.\n\n"
    "usage: railwright serve [--folder DIR] [--port N]\n\n"
    "  --folder DIR   the built page, page/dist unless you say otherwise\n"
    "  --port N       1 to 65535; 8711 unless you say otherwise, 0 for any that is free\n\n"
    "example: railwright serve --port 8080\n";
constexpr int kUsualPort = 8711;
constexpr int kLargestPort = 65535;

Result<int> port_of(const Arguments& arguments) {
  const std::string text = arguments.get("--port");
  if (text.empty()) return kUsualPort;
  char* end = nullptr;
  const long port = std::strtol(text.c_str(), &end, 10);
  if (*end != '\0' || port < 0 || port > kLargestPort) return fail("serve.port", text);
  return static_cast<int>(port);
}

Result<void> serve(const Arguments& arguments) {
  const auto port = port_of(arguments);
  if (!port) return tl::unexpected(port.error());
  const std::string folder = arguments.has("--folder") ? arguments.get("--folder") : "page/dist";
  const auto site = server::Site::read(folder);
  if (!site) return tl::unexpected(site.error());
  return server::listen(*site, *port, [](int bound) {
    std::printf("http://127.0.0.1:%d/\n", bound);
    std::fflush(stdout);
  });
}

}  // namespace

int run_serve(int argc, char** argv) {
  const auto arguments = parse_arguments(argc, argv, {"--folder", "--port"}, {"--help"});
  if (!arguments) return complain(arguments.error());
  if (arguments->has("--help")) {
    std::fputs(kHelp, stdout);
    return kSound;
  }
  if (!arguments->positional.empty()) return complain({"command.option", arguments->positional[0], {{"word", arguments->positional[0]}}});
  const auto served = serve(*arguments);
  return served ? kSound : complain(served.error());
}

}  // namespace railwright::cli
