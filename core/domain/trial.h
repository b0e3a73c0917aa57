#pragma once
// One trial with all that happened to it: an immutable snapshot of shared parts. A change copies one part.
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "core/base/clock.h"
#include "core/base/digest.h"
#include "core/domain/brew.h"
#include "core/domain/key.h"
#include "core/domain/plan.h"
#include "core/domain/serving.h"
#include "core/domain/sheet.h"

namespace likeleaf {

/// The plan as sealed, with the records it refers to as they were then: renaming a lot later changes no old report.
struct SealedPlan {
  Plan plan;
  Registers registers;                ///< only what the plan refers to
  std::vector<Attribute> attributes;  ///< resolved, in the plan's order
  Moment sealed;
  Digest plan_digest;         ///< of `text`: unsalted
  Digest key_digest;          ///< of the key's text: salted
  bool paper_import = false;  ///< a finished paper trial read from two tables: nothing was sealed beforehand
  std::string text{};         ///< all this but the digests, as it was written at the seal (core/codec/seal.h)
  bool operator==(const SealedPlan&) const = default;
};

struct Amendment {
  enum class Target { sheet_mark, sheet_direct, brew, plan_note } target = Target::sheet_mark;
  IdOf<Serving> serving;             ///< for sheets
  std::optional<Side> side;          ///< for sheet_mark
  IdOf<Brew> brew;                   ///< for brew
  std::string field;                 ///< sheet field, attribute id, or "steep", "leaf", …
  std::string old_value, new_value;  ///< machine text
  std::string who, why;
  Moment at;
  bool operator==(const Amendment&) const = default;
};

struct Void {
  IdOf<Pair> pair;
  std::string who, why;
  Moment at;
  std::optional<std::size_t> spare;  ///< index of the spare that it is brewed again under
  bool operator==(const Void&) const = default;
};

/// A sheet that stays, greyed, with its reason. Before unmask it defines the set that decides.
struct Exclusion {
  IdOf<Serving> serving;
  std::string who, why;
  Moment at;
  bool operator==(const Exclusion&) const = default;
};

struct UnmaskRecord {
  Moment at;
  std::string who;
  Digest sheets_digest;                                                 ///< of all locked sheets' digests, combined
  bool plan_intact = false, key_intact = false, sheets_intact = false;  ///< digests recomputed at unmask
  bool operator==(const UnmaskRecord&) const = default;
};

/// What the house decided about the rule: taken over, or left, each with who.
struct AdoptedRule {
  std::string sentence;
  std::vector<IdOf<Lot>> leaves;
  std::string from_when, who, review;
  bool counter_checked = false;
  Moment at;
  bool left = false;  ///< not taken over; `why` says the reason, and there is no day, review or check
  std::string why{};
  bool operator==(const AdoptedRule&) const = default;
};

struct KeyOpening {  ///< the log of the preparer's pass
  IdOf<Assessor> preparer;
  Moment opened;
  std::optional<Moment> closed;
  bool operator==(const KeyOpening&) const = default;
};

struct Trial {
  Plan draft;  ///< the plan while it is planned; equal to sealed->plan afterwards
  Moment created;
  std::shared_ptr<const SealedPlan> sealed;
  std::shared_ptr<const Key> key;  ///< keyed side; handed to nobody but KeyVault and unmask()
  std::vector<BlindServing> servings;
  std::map<IdOf<Serving>, std::shared_ptr<const Sheet>> sheets;
  std::vector<DayState> days;
  std::map<IdOf<Brew>, std::shared_ptr<const Brew>> brews;
  std::map<IdOf<Pair>, ServedPair> served;
  std::vector<IdOf<Lot>> weighed;  ///< lots whose portions are ticked as weighed and numbered
  std::vector<Void> voids;
  std::vector<Amendment> amendments;
  std::vector<Exclusion> exclusions;
  std::vector<KeyOpening> openings;
  std::optional<UnmaskRecord> unmasked;
  std::optional<AdoptedRule> rule;
  [[nodiscard]] IdOf<Trial> id() const { return draft.id; }
};

/// Derived, never stored.
enum class Stage { plan, brew_and_taste, all_locked, unmasked };
Stage stage(const Trial& trial);

/// Servings whose pair is not voided, in sitting and place order.
std::vector<const BlindServing*> live_servings(const Trial& trial);
/// Live servings without a locked sheet.
std::vector<const BlindServing*> open_sheets(const Trial& trial);

}  // namespace likeleaf
