// SPDX-License-Identifier: MIT
#include "server/site.h"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

#include "server/listen.h"

namespace railwright::server {
namespace {

namespace fs = std::filesystem;

class SiteTest : public testing::Test {
 protected:
  void SetUp() override {
    folder_ = fs::path(testing::TempDir()) / ("railwright-site-" + std::string(testing::UnitTest::GetInstance()->current_test_info()->name()));
    fs::remove_all(folder_);
    fs::create_directories(folder_ / "assets");
    write("index.html", "<!doctype html>page");
    write("assets/engine-1a2b.wasm", "wasm bytes");
    write("assets/engine-1a2b.wasm.br", "brotli");
    write("assets/engine-1a2b.wasm.gz", "gzip");
    write("manifest.webmanifest", "{}");
  }
  void TearDown() override { fs::remove_all(folder_); }
  void write(const std::string& name, const std::string& bytes) { std::ofstream(folder_ / name, std::ios::binary) << bytes; }
  Site read() { return Site::read(folder_.string()).value(); }

  fs::path folder_;
};

TEST_F(SiteTest, HandsOutThePageWithItsTypes) {
  const Site site = read();
  EXPECT_EQ(site.count(), 3u);
  EXPECT_EQ(site.get("/", "", "").body, "<!doctype html>page");
  EXPECT_EQ(site.get("/", "", "").type, "text/html; charset=utf-8");
  EXPECT_EQ(site.get("/index.html?x=1", "", "").status, 200);
  EXPECT_EQ(site.get("/assets/engine-1a2b.wasm", "", "").type, "application/wasm");
  EXPECT_EQ(site.get("/manifest.webmanifest", "", "").type, "application/manifest+json");
}

TEST_F(SiteTest, ChoosesTheCompressionThatIsAccepted) {
  const Site site = read();
  const auto encoding = [&](const char* accept) { return site.get("/assets/engine-1a2b.wasm", accept, "").encoding; };
  EXPECT_EQ(encoding("gzip, deflate, br"), "br");
  EXPECT_EQ(encoding("gzip, br;q=0"), "gzip");
  EXPECT_EQ(encoding("gzip;q=0.5, br;q=0.2"), "br");
  EXPECT_EQ(encoding("brotli"), "");
  EXPECT_EQ(encoding(""), "");
  EXPECT_EQ(site.get("/", "br", "").encoding, "");
}

TEST_F(SiteTest, AnswersAKnownTagWithNothing) {
  const Site site = read();
  const Reply first = site.get("/", "", "");
  EXPECT_EQ(site.get("/", "", first.etag).status, 304);
  EXPECT_EQ(site.get("/", "", "W/" + first.etag).status, 304);
  EXPECT_EQ(site.get("/", "", "\"0\"").status, 200);
  EXPECT_EQ(first.cache, "no-cache");
  EXPECT_NE(site.get("/assets/engine-1a2b.wasm", "", "").cache.find("immutable"), std::string::npos);
}

TEST_F(SiteTest, HasNothingOutsideItsFolder) {
  const Site site = read();
  for (const char* path :
       {"/../site_test.cpp", "/assets/../../x", "//etc/passwd", "/assets", "/assets/", "", "index.html", "/%2e%2e/x", "/assets/engine-1a2b.wasm.br"}) {
    EXPECT_EQ(site.get(path, "br", "").status, 404) << path;
  }
}

TEST_F(SiteTest, RefusesAFolderWithoutAPage) {
  fs::remove(folder_ / "index.html");
  EXPECT_EQ(Site::read(folder_.string()).error().code, "serve.no_page");
  EXPECT_EQ(Site::read((folder_ / "nowhere").string()).error().code, "serve.no_page");
}

TEST(Loopback, KnowsThisMachinesNames) {
  for (const char* host : {"127.0.0.1", "127.0.0.1:8711", "localhost", "localhost:80", "[::1]", "[::1]:8711"}) EXPECT_TRUE(is_loopback_host(host)) << host;
  for (const char* host : {"", "example.org", "127.0.0.1.example.org:80", "localhost.example.org", "[::2]:80"}) EXPECT_FALSE(is_loopback_host(host)) << host;
}

TEST(Policy, NamesNoOtherOrigin) {
  const std::string& policy = safe_headers().at("Content-Security-Policy");
  EXPECT_NE(policy.find("default-src 'none'"), std::string::npos);
  EXPECT_EQ(policy.find("http"), std::string::npos);
  EXPECT_EQ(policy.find("'unsafe-eval'"), std::string::npos);
}

}  // namespace
}  // namespace railwright::server
