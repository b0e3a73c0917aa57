// Nothing in the project speaks of one machine: no path that exists only there, no host that it fetched something from.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>

#include "sources.h"

namespace likeleaf::gates {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::SizeIs;

// Each is written in two parts, so that this file passes its own gate.
const std::vector<std::string> machine_paths{
    "/wo"
    "rk/",
    "/ro"
    "ot/",
    "/ho"
    "me/",
    "/tmp/"
    "draft",
    "/var/"
    "tmp/",
    "/Us"
    "ers/",
    "C:\\"
    "Users"};
const std::vector<std::string> registry_hosts{
    "deb."
    "debian.org",
    "security."
    "debian.org",
    "snapshot."
    "debian.org",
    "ftp."
    "debian.org",
    "archive."
    "ubuntu.com",
    "pypi."
    "org",
    "python"
    "hosted.org",
    "registry."
    "npmjs",
    "crates"
    ".io",
    "proxy."
    "golang.org",
    "repo."
    "maven",
    "repo1."
    "maven",
    "conan."
    "io",
    "ghcr"
    ".io",
    "docker"
    ".io",
    "quay"
    ".io",
    "arti"
    "factory",
    "nexus"
    "-repo"};

/// Whether a line holds a path from its very beginning; "$build" before it makes it another path.
bool begins_path(std::string_view line, std::string_view path) {
  for (std::size_t at = line.find(path); at != std::string_view::npos; at = line.find(path, at + 1)) {
    const char before = at == 0 ? ' ' : line[at - 1];
    if (std::isalnum(static_cast<unsigned char>(before)) == 0 &&
        std::string_view("_.-~})]*").find(before) == std::string_view::npos)
      return true;
  }
  return false;
}

/// A web address that names a number, a port or this very machine in place of a public host.
bool has_private_address(std::string_view line) {
  for (std::size_t at = line.find("://"); at != std::string_view::npos; at = line.find("://", at + 3)) {
    const std::string_view rest = line.substr(at + 3);
    const std::string_view host = rest.substr(0, rest.find_first_of("/ \t\"'<>)]}"));
    if (host.starts_with("localhost")) return true;
    if (!host.empty() && std::isdigit(static_cast<unsigned char>(host.front())) != 0) return true;
    const auto port = host.find(':');
    if (port != std::string_view::npos && port + 1 < host.size() &&
        std::isdigit(static_cast<unsigned char>(host[port + 1])) != 0)
      return true;
  }
  return false;
}

Offences text_offences(const Sources& texts) {
  Offences offences;
  for (const auto& [path, text] : texts) {
    int number = 0;
    for (std::size_t at = 0; at < text.size();) {
      const auto end = std::min(text.find('\n', at), text.size());
      const std::string_view line = std::string_view(text).substr(at, end - at);
      at = end + 1;
      ++number;
      const auto holds = [&](const std::string& part) { return line.find(part) != std::string_view::npos; };
      const std::string where = path + ":" + std::to_string(number);
      if (std::ranges::any_of(machine_paths, [&](const auto& machine) { return begins_path(line, machine); }) ||
          holds(LIKELEAF_SOURCE_DIR "/"))
        offences.push_back(where + ": a path of one machine");
      if (std::ranges::any_of(registry_hosts, holds)) offences.push_back(where + ": a registry's host");
      if (has_private_address(line)) offences.push_back(where + ": an address of one machine");
    }
  }
  return offences;
}

TEST(Texts, SpeakOfNoOneMachine) {
  const Sources texts = tracked_texts();
  EXPECT_TRUE(texts.contains("tests/gates/text_test.cpp")) << "this gate looks in the wrong place";
  const Offences offences = text_offences(texts);
  EXPECT_TRUE(offences.empty()) << joined(offences);
}

TEST(Texts, APathOrHostOfOneMachineIsSeen) {
  EXPECT_THAT(text_offences({{"a.md",
                              "first\nsee /wo"
                              "rk/x\n"},
                             {"b.sh",
                              "https://pypi."
                              "org/simple"}}),
              ElementsAre("a.md:2: a path of one machine", "b.sh:1: a registry's host"));
  for (const auto* bad : {"cd /ho"
                          "me/k/x",
                          "/ro"
                          "ot/.config",
                          "http:/"
                          "/10.0.0.1/apt",
                          "http:/"
                          "/mirror:8080/x",
                          "http:/"
                          "/localhost/"})
    EXPECT_THAT(text_offences({{"a.txt", bad}}), SizeIs(1)) << bad;
}

TEST(Texts, PublicAddressesAndRelativePathsAreNot) {
  EXPECT_THAT(
      text_offences({{"a.md",
                      "https://www.gnu.org/licenses/ http://www.w3.org/2000/svg ~/.local/share ../out/x $build/ho"
                      "me/x"}}),
      IsEmpty());
}

}  // namespace
}  // namespace likeleaf::gates
