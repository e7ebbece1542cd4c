// SPDX-License-Identifier: MIT
#include "server/listen.h"

#include <httplib.h>

namespace railwright::server {
namespace {

constexpr char kLoopback[] = "127.0.0.1";

void send(const Reply& reply, httplib::Response& response) {
  response.status = reply.status;
  if (reply.status == 404) return response.set_content("Not found", "text/plain; charset=utf-8");
  response.set_header("ETag", reply.etag);
  response.set_header("Cache-Control", reply.cache);
  response.set_header("Vary", "Accept-Encoding");
  if (reply.status == 304) return;
  if (!reply.encoding.empty()) response.set_header("Content-Encoding", reply.encoding);
  // As a provider, the library does not compress the bytes a second time.
  const std::string_view body = reply.body;
  response.set_content_provider(body.size(), reply.type, [body](std::size_t offset, std::size_t length, httplib::DataSink& sink) {
    sink.write(body.data() + offset, length);
    return true;
  });
}

}  // namespace

bool is_loopback_host(std::string_view host) {
  const std::size_t colon = host.rfind(':');
  const bool port = colon != std::string_view::npos && host.find(']', colon) == std::string_view::npos;
  const std::string_view name = port ? host.substr(0, colon) : host;
  return name == "127.0.0.1" || name == "localhost" || name == "[::1]";
}

Result<void> listen(const Site& site, int port, const std::function<void(int)>& ready) {
  httplib::Server server;
  httplib::Headers headers;
  for (const auto& [name, value] : safe_headers()) headers.emplace(name, value);
  server.set_default_headers(headers);
  server.set_payload_max_length(0);
  server.Get(".*", [&site](const httplib::Request& request, httplib::Response& response) {
    if (!is_loopback_host(request.get_header_value("Host"))) {
      response.status = 403;
      return response.set_content("Only this machine is served", "text/plain; charset=utf-8");
    }
    send(site.get(request.path, request.get_header_value("Accept-Encoding"), request.get_header_value("If-None-Match")), response);
  });
  const int bound = port == 0 ? server.bind_to_any_port(kLoopback) : (server.bind_to_port(kLoopback, port) ? port : -1);
  if (bound < 0) return fail("serve.port", std::to_string(port));
  ready(bound);
  server.listen_after_bind();
  return {};
}

}  // namespace railwright::server
