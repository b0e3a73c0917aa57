#pragma once
// A book in a folder of its own, with the counter's registers, for tests of store and session.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <memory>
#include <set>
#include <string>

#include "core/session/session.h"
#include "tests/core/domain/ferry_pier.h"

namespace likeleaf::test {

/// A folder that goes with the test.
class Folder {
 public:
  Folder() {
    std::string name = (std::filesystem::temp_directory_path() / "likeleaf-test-XXXXXX").string();
    if (mkdtemp(name.data()) == nullptr) throw std::runtime_error("no folder for the test");
    path_ = name;
  }
  ~Folder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  [[nodiscard]] std::filesystem::path operator/(const char* name) const { return path_ / name; }
  [[nodiscard]] const std::filesystem::path& path() const { return path_; }
  [[nodiscard]] std::set<std::string> names() const {
    std::set<std::string> found;
    for (const auto& entry : std::filesystem::directory_iterator(path_)) found.insert(entry.path().filename().string());
    return found;
  }

 private:
  std::filesystem::path path_;
};

/// What a session needs, standing still.
struct World {
  HandClock clock{Moment{1'772'454'730'000, 60, 0}};
  FixedEntropy entropy{42};
  HandDispatcher dispatcher;
  [[nodiscard]] Services services() { return {clock, entropy, dispatcher}; }
};

inline std::string words_of(const Error& e) {
  return e.field + " | " + e.value + " | " + e.allowed + " | " + e.where;
}

/// For results without a value.
inline void done(const Result<void>& result) {
  if (!result) throw std::runtime_error(words_of(result.error()));
}

inline Attribute named_attribute(const char* id) {
  Attribute attribute;
  attribute.id = id;
  attribute.name = id;
  return attribute;
}

#define ASSERT_OK(result)                                                  \
  do {                                                                     \
    const auto& checked_ = (result);                                       \
    ASSERT_TRUE(checked_) << ::likeleaf::test::words_of(checked_.error()); \
  } while (false)

/// A session on a new book in which the counter's registers are.
inline std::unique_ptr<Session> new_bench(const std::filesystem::path& path, World& world,
                                          const store::Seams& seams = {}) {
  auto session = Session::create(path, world.services(), seams);
  if (!session) throw std::runtime_error(words_of(session.error()));
  const FerryPier pier;
  for (const auto& lot : pier.registers.lots) (*session)->put(lot).value();
  for (const auto& water : pier.registers.waters) (*session)->put(water).value();
  for (const auto& vessel : pier.registers.vessels) (*session)->put(vessel).value();
  for (const auto& person : pier.registers.assessors) (*session)->put(person).value();
  return std::move(*session);
}

/// The steep-time trial of two tasters: 8 contrast pairs and warm-ups, sealed.
inline IdOf<Trial> sealed_trial(Session& session) {
  const auto id = session.new_trial(FerryPier().trial_15()).value();
  const auto sealed = session.seal();
  if (!sealed) throw std::runtime_error(words_of(sealed.error()));
  return id;
}

/// Fills in every field of one sheet.
inline void fill_sheet(Session& session, IdOf<Serving> serving, int halves = 10) {
  session.run(StartSheet{serving}).value();
  for (const auto& attribute : session.trial()->sealed->attributes)
    for (const auto& field : mark_fields(attribute))
      for (const Side side : {Side::left, Side::right}) {
        const Mark mark = attribute.scale == Scale::seconds ? Mark(FinishTime::from_seconds(40 + halves))
                                                            : Mark(*Score::from_halves(halves));
        session.run(PutMark{serving, side, field, mark}).value();
      }
}

inline void lock_everything(Session& session) {
  const auto trial = session.trial();
  for (const auto* serving : open_sheets(*trial)) {
    fill_sheet(session, serving->id);
    const auto locked = session.run(LockSheet{serving->id, true});
    if (!locked) throw std::runtime_error(words_of(locked.error()));
  }
}

/// The first part in which two trials differ; "" when they are the same.
inline std::string first_difference(const Trial& x, const Trial& y) {
  const auto parts_differ = [](const auto& a, const auto& b) {
    return !std::ranges::equal(
        a, b, [](const auto& p, const auto& q) { return p.first == q.first && *p.second == *q.second; });
  };
  const auto differ = [](const auto& a, const auto& b) {
    return (a == nullptr) != (b == nullptr) || (a && !(*a == *b));
  };
  if (!(x.draft == y.draft)) return "draft";
  if (x.created != y.created) return "created";
  if (differ(x.sealed, y.sealed)) return "sealed";
  if (differ(x.key, y.key)) return "key";
  if (x.servings != y.servings) return "servings";
  if (parts_differ(x.sheets, y.sheets)) return "sheets";
  if (x.days != y.days) return "days";
  if (parts_differ(x.brews, y.brews)) return "brews";
  if (x.served != y.served) return "served";
  if (x.weighed != y.weighed) return "weighed";
  if (x.voids != y.voids) return "voids";
  if (x.amendments != y.amendments) return "amendments";
  if (x.exclusions != y.exclusions) return "exclusions";
  if (x.openings != y.openings) return "openings";
  if (x.unmasked != y.unmasked) return "unmasked";
  return x.rule == y.rule ? "" : "rule";
}

}  // namespace likeleaf::test
