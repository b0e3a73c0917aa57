#pragma once
// The house's registers: lots of leaf, waters, vessels, assessors. Values; every change is a new value with the same
// id.
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/base/id.h"
#include "core/base/quantity.h"

namespace likeleaf {

/// Classes of ISO 20715 (white, green, yellow, oolong, black, dark), and scented and other.
enum class LeafType { white, green, yellow, oolong, black, dark, scented, other };
enum class LeafForm { whole, broken, ground, rolled, pressed };

struct Lot {
  IdOf<Lot> id;
  std::string code;  ///< neutral house code, unique in the book: "L-07"
  std::string name;
  LeafType type = LeafType::other;
  LeafForm form = LeafForm::whole;
  std::string cultivar, origin, harvest;
  std::optional<Permille> moisture;
  Mass stock;             ///< what is left on the shelf
  std::string allergens;  ///< what a flavoured leaf carries; shown as a caution to everyone who tastes it
  std::string notes;
  bool operator==(const Lot&) const = default;
};

struct Water {
  IdOf<Water> id;
  std::string name;
  std::optional<std::int64_t> hardness_mg_l;    ///< mg/l as CaCO3
  std::optional<std::int64_t> alkalinity_mg_l;  ///< mg/l as CaCO3
  std::optional<std::int64_t> tds_mg_l;
  std::optional<std::int64_t> ph_hundredths;
  std::string notes;
  bool operator==(const Water&) const = default;
};

struct Vessel {
  IdOf<Vessel> id;
  std::string name, material;
  Mass mass;
  Volume volume;
  std::string notes;
  bool operator==(const Vessel&) const = default;
};

struct Assessor {
  IdOf<Assessor> id;
  std::string alias;  ///< initials or alias, unique in the book: "K."
  std::string notes;
  bool operator==(const Assessor&) const = default;
};

/// Everything that plans and sheets refer to by id.
struct Registers {
  std::vector<Lot> lots;
  std::vector<Water> waters;
  std::vector<Vessel> vessels;
  std::vector<Assessor> assessors;
  bool operator==(const Registers&) const = default;
};

template <class Record>
const Record* find_record(const std::vector<Record>& records, IdOf<Record> id) {
  for (const auto& r : records)
    if (r.id == id) return &r;
  return nullptr;
}

/// A taster's alias; the id where these registers do not hold them.
inline std::string alias_of(const Registers& registers, IdOf<Assessor> id) {
  const Assessor* assessor = find_record(registers.assessors, id);
  return assessor != nullptr ? assessor->alias : id.text();
}

}  // namespace likeleaf
