// Who may include whom (DEVELOPERS.md, "The map"): includes go down only, core knows no Qt, the window reaches no
// library of core's, and what a taster sees reaches neither the key nor the brews.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

#include "sources.h"

namespace likeleaf::gates {
namespace {

using ::testing::AnyOf;
using ::testing::Contains;
using ::testing::Each;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

// ---- layers -------------------------------------------------------------------------------------------------------

/// "core/base", "ui", "app": the first folder, in core the first two.
std::string area_of(std::string_view path) {
  const auto first = path.find('/');
  if (path.substr(0, first) != "core") return std::string(path.substr(0, first));
  return std::string(path.substr(0, path.find('/', first + 1)));
}

using Layers = std::map<std::string, std::set<std::string>>;

/// The areas whose headers an area may include, besides its own; written by CMake, which links by the same table.
const Layers& below() {
  static const auto table = [] {
    Layers t;
    std::ifstream rows(LIKELEAF_LAYERS);
    for (std::string row; std::getline(rows, row);) {
      std::istringstream words(row);
      std::string area, other;
      words >> area;
      for (auto& areas = t[area]; words >> other;) areas.insert(other);
    }
    return t;
  }();
  return table;
}

Offences layer_offences(const Sources& sources) {
  Offences offences;
  for (const auto& [path, text] : sources) {
    const std::string area = area_of(path);
    const auto allowed = below().find(area);
    if (allowed == below().end()) {
      offences.push_back(path + ": '" + area + "' is no area of the house");
      continue;
    }
    for (const Include& include : includes_of(text)) {
      const std::string other = area_of(include.name);
      if (!below().contains(other) || other == area || allowed->second.contains(other)) continue;
      offences.push_back(path + ":" + std::to_string(include.line) + ": " + area + " must not include " + include.name);
    }
  }
  return offences;
}

/// What was configured: core always, the others where there is Qt.
std::vector<std::string> built() {
  if (below().contains("ui")) return {"core", "ui", "app"};
  return {"core"};
}

/// Areas that may include another's headers.
std::vector<std::string> users_of(const std::string& area) {
  std::vector<std::string> users;
  for (const auto& [user, used] : below())
    if (used.contains(area)) users.push_back(user);
  return users;
}

TEST(Layers, TheTableGoesDownOnlyAndKnowsItsSpecialRules) {
  ASSERT_TRUE(below().contains("core/base")) << "the table of layers is not where it is looked for";
  for (const auto& [area, used] : below()) {
    EXPECT_FALSE(used.contains(area)) << area;
    for (const auto& other : used) {
      ASSERT_TRUE(below().contains(other)) << area << " uses " << other;
      EXPECT_FALSE(below().at(other).contains(area)) << area << " and " << other << " use each other";
    }
  }
  EXPECT_THAT(below().at("core/base"), IsEmpty());
  EXPECT_THAT(below().at("core/stats"), ElementsAre("core/base"));
  EXPECT_THAT(users_of("core/stats"), ElementsAre("core/evidence"));
  const auto store = users_of("core/store");
  EXPECT_THAT(store, Each(AnyOf("core/session", "app")));
  EXPECT_THAT(store, Contains("core/session"));
}

TEST(Layers, IncludesGoDownOnly) {
  const Sources sources = project_sources(built());
  ASSERT_FALSE(sources.empty());
  const Offences offences = layer_offences(sources);
  EXPECT_TRUE(offences.empty()) << joined(offences);
}

TEST(Layers, AnIncludeThatGoesUpIsSeen) {
  EXPECT_THAT(layer_offences({{"core/stats/x.cpp", "#include \"core/domain/plan.h\"\n"}}),
              ElementsAre("core/stats/x.cpp:1: core/stats must not include core/domain/plan.h"));
  EXPECT_THAT(layer_offences({{"core/base/x.h", "\n# include \"ui/theme/tokens.h\"\n"}}),
              ElementsAre("core/base/x.h:2: core/base must not include ui/theme/tokens.h"));
  for (const auto& [path, text] : Sources{{"ui/x.cpp", "#include \"core/store/book.h\""},
                                          {"core/report/x.cpp", "#include \"core/store/book.h\""},
                                          {"core/exchange/x.cpp", "#include \"core/session/session.h\""},
                                          {"core/evidence/x.cpp", "#include \"core/wording/reasons.h\""},
                                          {"core/report/y.cpp", "#include \"core/evidence/find.h\""},
                                          {"ui/y.cpp", "#include \"app/verbs.h\""},
                                          {"elsewhere/x.cpp", ""}})
    EXPECT_EQ(layer_offences({{path, text}}).size(), 1U) << path;
}

TEST(Layers, AnIncludeThatGoesDownIsNot) {
  if (!below().contains("ui")) GTEST_SKIP() << "configured without the window";
  EXPECT_THAT(
      layer_offences({{"ui/x.cpp", "#include <QWidget>\n#include \"core/session/session.h\"\n#include \"ui/a.h\""},
                      {"core/session/x.cpp", "#include \"core/store/book.h\"\n// #include \"ui/a.h\""},
                      {"core/wording/x.cpp", "#include \"core/findings/findings.h\""},
                      {"core/report/x.cpp", "#include \"core/design/deal.h\"\nauto s = \"\\n#include \\\"ui/a.h\";"},
                      {"app/main.cpp", "#include \"core/store/book.h\"\n#include \"ui/window/main_window.h\""}}),
      IsEmpty());
}

// ---- libraries ----------------------------------------------------------------------------------------------------

bool is_qt(std::string_view header) {
  return header.size() > 1 && header.front() == 'Q' &&
         (std::isupper(static_cast<unsigned char>(header[1])) != 0 || header[1] == 't');
}

bool is_of_core_only(std::string_view header) {
  for (const std::string_view start : {"SQLiteCpp/", "sqlite3", "boost/", "nlohmann/", "CLI/", "openssl/"})
    if (header.starts_with(start)) return true;
  return false;
}

/// Values become JSON in the codec and in what is written for others; everyone else has texts
/// (core/codec/value_text.h).
bool knows_json(std::string_view path) {
  for (const std::string_view area : {"core/codec/", "core/exchange/", "core/report/"})
    if (path.starts_with(area)) return true;
  return false;
}

bool is_forbidden(std::string_view path, std::string_view header) {
  if (!path.starts_with("core/")) return is_of_core_only(header);
  return is_qt(header) || (header.starts_with("nlohmann/") && !knows_json(path));
}

/// Looks through our own headers too: a library that comes in by three of them is no better.
Offences library_offences(const Sources& sources) {
  Offences offences;
  for (const auto& [path, text] : sources) {
    const bool core = path.starts_with("core/");
    if (!core && !path.starts_with("ui/")) continue;
    auto reached = reached_from(sources, path);
    reached.emplace(path, path);
    for (const auto& [seen, by] : reached) {
      for (const Include& include : includes_of(sources.at(seen))) {
        if (!is_forbidden(path, include.name)) continue;
        offences.push_back(path + ": " + area_of(path) + " must not see <" + include.name + ">, included by " +
                           way_to(reached, path, seen));
      }
    }
  }
  return offences;
}

TEST(Libraries, EachIsSeenOnItsOwnSideOnly) {
  const Offences offences = library_offences(project_sources({"core", "ui"}));
  EXPECT_TRUE(offences.empty()) << joined(offences);
}

TEST(Libraries, OneOnTheWrongSideIsSeen) {
  EXPECT_THAT(library_offences({{"core/base/x.h", "#include <QString>\n"}}), ElementsAre(HasSubstr("<QString>")));
  EXPECT_THAT(library_offences({{"core/base/x.h", "#include <QtCore/qstring.h>\n"}}), ElementsAre(HasSubstr("QtCore")));
  EXPECT_THAT(library_offences({{"ui/x.cpp", "#include \"core/base/a.h\"\n"},
                                {"core/base/a.h", "#include \"core/base/b.h\"\n"},
                                {"core/base/b.h", "#include <boost/rational.hpp>\n"}}),
              ElementsAre("ui/x.cpp: ui must not see <boost/rational.hpp>, included by core/base/b.h, by "
                          "core/base/a.h, by ui/x.cpp"));
  EXPECT_THAT(library_offences({{"core/acts/x.cpp", "#include \"core/codec/codec.h\"\n"},
                                {"core/report/x.cpp", "#include \"core/codec/codec.h\"\n"},
                                {"core/codec/codec.h", "#include <nlohmann/json.hpp>\n"}}),
              ElementsAre("core/acts/x.cpp: core/acts must not see <nlohmann/json.hpp>, included by "
                          "core/codec/codec.h, by core/acts/x.cpp"));
  for (const auto* header :
       {"SQLiteCpp/Database.h", "sqlite3.h", "boost/math/distributions.hpp", "nlohmann/json.hpp"})
    EXPECT_EQ(library_offences({{"ui/x.h", std::string("#include <") + header + ">"}}).size(), 1U) << header;
}

TEST(Libraries, OnTheirOwnSideTheyAreFine) {
  EXPECT_THAT(library_offences({{"core/store/x.cpp", "#include <SQLiteCpp/Database.h>\n// #include <QString>\n"},
                                {"ui/x.h", "#include <QWidget>\n#include <string>\n"}}),
              IsEmpty());
}

// ---- blindness ----------------------------------------------------------------------------------------------------

bool is_seen_by_tasters(std::string_view path) {
  return path.starts_with("ui/taste/") || path.starts_with("ui/paper/") || path.starts_with("core/report/taster_") ||
         path.starts_with("core/session/taster_") || path == "core/acts/sheet_commands.h";
}

Offences blindness_offences(const Sources& sources) {
  Offences offences;
  for (const auto& [path, text] : sources) {
    if (!is_seen_by_tasters(path)) continue;
    const auto reached = reached_from(sources, path);
    for (const auto* keyed : {"core/domain/key.h", "core/domain/brew.h"})
      if (reached.contains(keyed)) offences.push_back(path + " reaches " + way_to(reached, path, keyed));
  }
  return offences;
}

TEST(Blindness, WhatTastersSeeReachesNeitherKeyNorBrews) {
  const Sources sources = project_sources({"core", "ui"});
  for (const auto* keyed : {"core/domain/key.h", "core/domain/brew.h"})
    EXPECT_TRUE(sources.contains(keyed)) << keyed << " is gone: this gate looks for the wrong file";
  const Offences offences = blindness_offences(sources);
  EXPECT_TRUE(offences.empty()) << joined(offences);
}

TEST(Blindness, ALeakThroughThreeHeadersIsSeen) {
  Sources sources{{"ui/taste/taste_screen.cpp", "#include \"taste_model.h\"\n"},
                  {"ui/taste/taste_model.h", "#include \"core/domain/trial.h\"\n"},
                  {"core/domain/trial.h", "#include \"core/domain/key.h\"\n"},
                  {"core/domain/key.h", ""},
                  {"core/domain/brew.h", ""},
                  {"core/report/taster_prints.cpp", "#include \"core/domain/brew.h\"\n"},
                  {"core/acts/sheet_commands.h", "#include \"core/domain/trial.h\"\n"},
                  {"core/session/taster_desk.h", "#include \"core/acts/sheet_commands.h\"\n"},
                  {"ui/paper/paper_screen.cpp", "#include \"core/domain/key.h\"\n"}};
  EXPECT_THAT(
      blindness_offences(sources),
      ElementsAre("core/acts/sheet_commands.h reaches core/domain/key.h, by core/domain/trial.h, by "
                  "core/acts/sheet_commands.h",
                  "core/report/taster_prints.cpp reaches core/domain/brew.h, by core/report/taster_prints.cpp",
                  "core/session/taster_desk.h reaches core/domain/key.h, by core/domain/trial.h, by "
                  "core/acts/sheet_commands.h, by core/session/taster_desk.h",
                  "ui/paper/paper_screen.cpp reaches core/domain/key.h, by ui/paper/paper_screen.cpp",
                  "ui/taste/taste_model.h reaches core/domain/key.h, by core/domain/trial.h, by ui/taste/taste_model.h",
                  "ui/taste/taste_screen.cpp reaches core/domain/key.h, by core/domain/trial.h, by "
                  "ui/taste/taste_model.h, by ui/taste/taste_screen.cpp"));
  sources["core/domain/trial.h"] = "";
  sources["core/report/taster_prints.cpp"] = "";
  sources["ui/paper/paper_screen.cpp"] = "";
  EXPECT_THAT(blindness_offences(sources), IsEmpty());
}

// ---- headers that stand alone --------------------------------------------------------------------------------------

/// With x.h first in x.cpp, compiling x.cpp proves that x.h needs nothing before it (CMakeLists.txt takes the others).
Offences own_header_offences(const Sources& sources) {
  Offences offences;
  for (const auto& [path, text] : sources) {
    if (is_header(path)) continue;
    const std::string header = path.substr(0, path.size() - std::string_view(".cpp").size()) + ".h";
    if (!sources.contains(header)) continue;
    const auto includes = includes_of(text);
    const std::string beside = std::filesystem::path(header).filename().string();
    if (includes.empty() || (includes.front().name != header && includes.front().name != beside))
      offences.push_back(path + ": must include " + header + " before anything else");
  }
  return offences;
}

TEST(Headers, EveryFileIncludesItsOwnHeaderFirst) {
  const Offences offences = own_header_offences(project_sources({"core", "ui", "app"}));
  EXPECT_TRUE(offences.empty()) << joined(offences);
}

TEST(Headers, AnOwnHeaderInSecondPlaceIsSeen) {
  Sources sources{{"core/base/x.h", ""}, {"core/base/x.cpp", "#include <string>\n\n#include \"core/base/x.h\"\n"}};
  EXPECT_THAT(own_header_offences(sources), ElementsAre(HasSubstr("core/base/x.cpp")));
  sources["core/base/x.cpp"] = "// x\n#include \"core/base/x.h\"\n\n#include <string>\n";
  EXPECT_THAT(own_header_offences(sources), IsEmpty());
}

// ---- what the compiler really read ---------------------------------------------------------------------------------

struct CompiledFiles {
  Offences offences;
  int core = 0, ui = 0;  ///< object files looked at
};

/// Reads what `ninja -t deps` prints: an object file and its state at the start of a line, then what it was made of.
CompiledFiles compiled_offences(std::string_view deps) {
  CompiledFiles seen;
  std::string object;
  const auto has = [](std::string_view text, std::string_view part) {
    return text.find(part) != std::string_view::npos;
  };
  for (std::size_t at = 0; at < deps.size();) {
    const auto end = std::min(deps.find('\n', at), deps.size());
    const std::string_view line = deps.substr(at, end - at);
    at = end + 1;
    if (line.empty()) continue;
    if (line.front() != ' ') {
      object = has(line, "(VALID)") ? line.substr(0, line.find(':')) : "";
      if (object.starts_with("core/")) ++seen.core;
      if (object.starts_with("ui/")) ++seen.ui;
      continue;
    }
    bool bad = false;
    if (object.starts_with("core/")) bad = has(line, "/qt6/") || has(line, "/QtCore/");
    if (object.starts_with("ui/")) {
      for (const auto* part : {"/SQLiteCpp/", "/sqlite3", "/include/boost/", "/nlohmann/"})
        bad = bad || has(line, part);
    }
    if (has(object, "/taste/") || has(object, "/paper/") || has(object, "/taster_"))
      bad = bad || line.ends_with("/core/domain/key.h") || line.ends_with("/core/domain/brew.h");
    if (bad) seen.offences.push_back(object + " was made of " + std::string(line.substr(line.find_first_not_of(' '))));
  }
  return seen;
}

TEST(CompiledFiles, KeepToTheirSide) {
  const std::string ninja = LIKELEAF_NINJA;
  if (ninja.empty()) GTEST_SKIP() << "built without Ninja: only it can tell what was read";
  const CompiledFiles seen = compiled_offences(output_of("'" + ninja + "' -C '" LIKELEAF_BINARY_DIR "' -t deps"));
  EXPECT_GT(seen.core, 0) << "no compiled file of core was found: this gate looks in the wrong place";
  EXPECT_TRUE(seen.offences.empty()) << joined(seen.offences);
}

TEST(CompiledFiles, OneThatReachedAcrossIsSeen) {
  const CompiledFiles seen = compiled_offences(
      "core/CMakeFiles/likeleaf_base.dir/base/id.cpp.o: #deps 2, deps mtime 1 (VALID)\n"
      "    /src/core/base/id.h\n"
      "    /usr/include/x86_64-linux-gnu/qt6/QtCore/qstring.h\n"
      "\n"
      "core/CMakeFiles/likeleaf_base.dir/base/old.cpp.o: #deps 1, deps mtime 1 (STALE)\n"
      "    /usr/include/x86_64-linux-gnu/qt6/QtCore/qstring.h\n"
      "\n"
      "ui/CMakeFiles/likeleaf_ui.dir/taste/taste_screen.cpp.o: #deps 3, deps mtime 1 (VALID)\n"
      "    /usr/include/x86_64-linux-gnu/qt6/QtCore/qstring.h\n"
      "    /usr/include/nlohmann/json.hpp\n"
      "    /src/core/domain/key.h\n"
      "\n"
      "ui/CMakeFiles/likeleaf_ui.dir/paper/paper_grid.cpp.o: #deps 1, deps mtime 1 (VALID)\n"
      "    /src/core/domain/brew.h\n"
      "\n"
      "core/CMakeFiles/likeleaf_session.dir/session/taster_port.cpp.o: #deps 1, deps mtime 1 (VALID)\n"
      "    /src/core/domain/key.h\n");
  EXPECT_THAT(seen.offences, ElementsAre(HasSubstr("qstring.h"), HasSubstr("json.hpp"), HasSubstr("key.h"),
                                         HasSubstr("brew.h"), HasSubstr("taster_port.cpp.o")));
  EXPECT_EQ(seen.core, 2);
  EXPECT_EQ(seen.ui, 2);
}

}  // namespace
}  // namespace likeleaf::gates
