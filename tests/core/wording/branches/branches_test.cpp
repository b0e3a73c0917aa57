// No branch of core/wording is left that no page of the book reaches. core/wording is compiled here with gcov's
// counters; the pages are read, and what was never run is named.
//
// What counts: every line with code is run, and every branch that gcov sees is taken. Not counted are the branches of a
// `switch` line: the compiler makes one more for a value that no enumerator has (what stands in each case is a line of
// its own). Exceptions are off in this copy, so that no branch is there for them.
#include <gtest/gtest.h>
#include <stdlib.h>

#include <algorithm>
#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <map>
#include <nlohmann/json.hpp>
#include <sstream>
#include <stdexcept>

#include "tests/core/wording/book.h"

extern "C" void __gcov_reset(void);
extern "C" void __gcov_dump(void);

namespace likeleaf::book {
namespace {

namespace fs = std::filesystem;
const fs::path root = LIKELEAF_SOURCE_DIR;

struct Counts {
  long long runs = 0;
  std::vector<long long> branches;
};
/// By file ("core/wording/errors.cpp") and line.
using Coverage = std::map<std::string, std::map<int, Counts>>;

/// A folder of this test that goes with it; the counters are written below it, not beside the objects.
class CounterFolder {
 public:
  CounterFolder() {
    std::string name = (fs::temp_directory_path() / "likeleaf-gcov-XXXXXX").string();
    path_ = mkdtemp(name.data());
    setenv("GCOV_PREFIX", path_.c_str(), 1);
  }
  ~CounterFolder() {
    unsetenv("GCOV_PREFIX");
    std::error_code ignored;
    fs::remove_all(path_, ignored);
  }
  CounterFolder(const CounterFolder&) = delete;
  CounterFolder& operator=(const CounterFolder&) = delete;
  [[nodiscard]] const fs::path& path() const { return path_; }

 private:
  fs::path path_;
};

std::string output_of(const std::string& command) {
  std::string out;
  std::array<char, 65536> part{};
  FILE* pipe = popen(command.c_str(), "r");
  while (const auto got = pipe ? std::fread(part.data(), 1, part.size(), pipe) : 0) out.append(part.data(), got);
  if (pipe) pclose(pipe);
  return out;
}

/// gcov's own counts of one object, from its .gcda; the .gcno that the compiler wrote is put beside it.
void add_counts(const fs::path& folder, const fs::path& counters, Coverage& coverage) {
  fs::path notes = fs::path("/") / counters.lexically_relative(folder);
  notes.replace_extension(".gcno");
  fs::copy_file(notes, counters.parent_path() / notes.filename(), fs::copy_options::overwrite_existing);
  std::istringstream said(output_of("cd '" + counters.parent_path().string() +
                                    "' && '" LIKELEAF_GCOV "' -b --json-format --stdout '" +
                                    counters.filename().string() + "' 2>&1"));
  for (std::string line; std::getline(said, line);) {
    const auto document = nlohmann::json::parse(line, nullptr, false);
    if (document.is_discarded()) throw std::runtime_error("gcov: " + line);
    for (const auto& file : document.at("files")) {
      const fs::path from = document.at("current_working_directory").get<std::string>();
      const fs::path absolute = (from / file.at("file").get<std::string>()).lexically_normal();
      const std::string path = absolute.lexically_relative(root).generic_string();
      if (!path.starts_with("core/wording/")) continue;
      for (const auto& one : file.at("lines")) {
        Counts& counts = coverage[path][one.at("line_number").get<int>()];
        counts.runs += one.at("count").get<long long>();
        const auto& branches = one.at("branches");
        counts.branches.resize(std::max(counts.branches.size(), branches.size()));
        for (std::size_t i = 0; i < branches.size(); ++i)
          counts.branches[i] += branches[i].at("count").get<long long>();
      }
    }
  }
}

Coverage coverage_of(const std::vector<NamedPage>& pages) {
  const CounterFolder folder;
  __gcov_reset();
  for (const auto& page : pages) page.page();
  __gcov_dump();
  Coverage coverage;
  std::vector<fs::path> counters;
  for (const auto& entry : fs::recursive_directory_iterator(folder.path()))
    if (entry.path().extension() == ".gcda") counters.push_back(entry.path());
  for (const auto& one : counters) add_counts(folder.path(), one, coverage);
  __gcov_reset();
  return coverage;
}

/// "core/wording/errors.cpp:31: …" for each line and branch that was never reached.
std::vector<std::string> unreached(const Coverage& coverage) {
  std::vector<std::string> out;
  for (const auto& [path, lines] : coverage) {
    std::ifstream source(root / path);
    std::vector<std::string> text(1);
    for (std::string line; std::getline(source, line);) text.push_back(line);
    for (const auto& [number, counts] : lines) {
      const std::string& line = text.at(static_cast<std::size_t>(number));
      const std::string where = path + ":" + std::to_string(number) + ": ";
      const auto never = std::count(counts.branches.begin(), counts.branches.end(), 0);
      if (counts.runs == 0)
        out.push_back(where + "never run: " + line);
      else if (never > 0 && line.find("switch (") == std::string::npos)
        out.push_back(where + std::to_string(never) + " of " + std::to_string(counts.branches.size()) +
                      " branches never taken: " + line);
    }
  }
  return out;
}

/// What was counted last goes too, or it would be written beside the objects when the program ends.
const struct NoCountersAtTheEnd {
  ~NoCountersAtTheEnd() {
    const CounterFolder folder;
    __gcov_dump();
  }
} no_counters_at_the_end;

TEST(BookOfSentences, reaches_every_branch_of_the_wording) {
  const Coverage coverage = coverage_of(book());
  for (const auto& entry : fs::directory_iterator(root / "core/wording")) {
    if (entry.path().extension() != ".cpp") continue;
    EXPECT_TRUE(coverage.contains(entry.path().lexically_relative(root).generic_string())) << entry.path();
  }
  for (const auto& place : unreached(coverage)) ADD_FAILURE() << place;
}

TEST(BookOfSentences, a_page_that_is_left_out_is_missed) {
  const auto missed = unreached(coverage_of({{"cautions", cautions_page}}));
  const auto names = [&](std::string_view file) {
    return std::any_of(missed.begin(), missed.end(), [&](const auto& place) { return place.starts_with(file); });
  };
  EXPECT_TRUE(names("core/wording/errors.cpp:"));
  EXPECT_FALSE(names("core/wording/cautions.cpp:"));
}

}  // namespace
}  // namespace likeleaf::book
