// The first thing that a newcomer sees: the top level holds these and dot files, nothing else.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

#include "sources.h"

namespace likeleaf::gates {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

const std::set<std::string> top_level{
    "CMakeLists.txt", "CMakePresets.json", "README.md", "DEVELOPERS.md", "LICENSE", "app", "core", "ui", "resources",
    "tests",          "sample_sessions"};

Offences top_level_offences(const std::vector<std::string>& paths) {
  std::set<std::string> found;
  for (const auto& path : paths) found.insert(path.substr(0, path.find('/')));
  Offences offences;
  for (const auto& name : found)
    if (!top_level.contains(name) && !name.starts_with('.')) offences.push_back(name + ": has no place at the top");
  for (const auto& name : top_level)
    if (!found.contains(name)) offences.push_back(name + ": is gone from the top");
  return offences;
}

std::vector<std::string> files_below_the_top() {
  std::vector<std::string> paths;
  for (const auto& name : top_level) paths.push_back(name.find('.') == std::string::npos ? name + "/x" : name);
  return paths;
}

TEST(TopLevel, HoldsWhatANewcomerLooksForAndNothingElse) {
  const Offences offences = top_level_offences(tracked_paths());
  EXPECT_TRUE(offences.empty()) << joined(offences);
}

TEST(TopLevel, OneMoreOrOneLessIsSeen) {
  auto paths = files_below_the_top();
  paths.push_back(".gitignore");
  EXPECT_THAT(top_level_offences(paths), IsEmpty());
  paths.push_back("cmake/areas.cmake");
  EXPECT_THAT(top_level_offences(paths), ElementsAre("cmake: has no place at the top"));
  paths.pop_back();
  std::erase(paths, "ui/x");
  EXPECT_THAT(top_level_offences(paths), ElementsAre("ui: is gone from the top"));
}

}  // namespace
}  // namespace likeleaf::gates
