// The rules between the records of an imported trial (check_import of bundle_read.h). Each finding names the record and
// where it stands; the first one refuses the whole import.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <set>

#include "core/base/number_text.h"
#include "core/codec/seal.h"
#include "core/domain/limits.h"
#include "core/exchange/bundle_read.h"

namespace likeleaf::exchange {
namespace {

std::string at(const char* list, std::size_t index) {
  return fmt::format("/{}/{}", list, index);
}

/// The two codes of a pair, in order, however they stand on the table.
using Codes = std::array<int, 2>;
Codes codes_of(BlindCode one, BlindCode two) {
  return {std::min(one.number(), two.number()), std::max(one.number(), two.number())};
}
std::string codes_text(const Codes& codes) {
  return fmt::format("{} and {}", codes[0], codes[1]);
}

class Check {
 public:
  explicit Check(const TrialImport& import) : import_(import), trial_(import.trial) {
    for (const auto& lot : import.registers.lots) lots_.insert(lot.id);
    for (const auto& assessor : import.registers.assessors) assessors_.insert(assessor.id);
    for (const auto& serving : trial_.servings) servings_.insert(serving.id);
  }

  Result<void> run() {
    limits();
    registers();
    plan(trial_.draft, trial_.sealed ? "/sealed/plan" : "/draft/plan");
    if (trial_.sealed) {
      sealed();
      servings();
      sheets();
      happenings();
      if (trial_.key) key();
      if (trial_.key) brews();
      digests();
      unmasked();
    }
    if (error_) return tl::unexpected(*error_);
    return {};
  }

 private:
  void refuse(ErrorKind kind, std::string field, const std::string& value, std::string allowed, std::string where) {
    if (!error_) error_ = Error{kind, std::move(field), shown_value(value), std::move(allowed), std::move(where)};
  }
  template <class T>
  void once(std::set<T>& seen, const T& value, const char* field, const std::string& shown, const std::string& where) {
    if (!seen.insert(value).second) refuse(ErrorKind::duplicate, field, shown, "each once", where);
  }
  void known_lot(IdOf<Lot> lot, const std::string& where) {
    if (lots_.count(lot) == 0) refuse(ErrorKind::not_found, "lot", lot.text(), "a lot of this bundle", where);
  }
  void known_assessor(IdOf<Assessor> assessor, const std::string& where) {
    if (assessors_.count(assessor) == 0)
      refuse(ErrorKind::not_found, "assessor", assessor.text(), "an assessor of this bundle", where);
  }
  void known_attribute(const std::string& id, const std::string& where) {
    if (find_attribute(import_.attributes, id) == nullptr)
      refuse(ErrorKind::not_found, "attribute", id, "an attribute of this bundle", where);
  }
  [[nodiscard]] std::size_t level_count() const { return trial_.draft.lever.levels.size(); }
  void known_level(std::size_t level, const std::string& where) {
    if (level >= level_count())
      refuse(ErrorKind::not_found, "level", fmt::format("{}", level), fmt::format("0 to {}", level_count() - 1), where);
  }

  template <class Records, class Name>
  void unique_records(const Records& records, const char* list, const char* field, Name name) {
    std::set<std::string> ids, names;
    const std::string base = trial_.sealed ? "/sealed/registers/" : "/draft/registers/";
    for (std::size_t i = 0; i < records.size(); ++i) {
      const std::string where = fmt::format("{}{}/{}", base, list, i);
      once(ids, records[i].id.text(), "id", records[i].id.text(), where);
      once(names, name(records[i]), field, name(records[i]), where);
    }
  }
  void registers() {
    if (trial_.id().empty()) refuse(ErrorKind::missing, "id", {}, "the trial's id", "/");
    unique_records(import_.registers.lots, "lots", "lot code", [](const Lot& lot) { return lot.code; });
    unique_records(import_.registers.waters, "waters", "water", [](const Water& water) { return water.id.text(); });
    unique_records(import_.registers.vessels, "vessels", "vessel",
                   [](const Vessel& vessel) { return vessel.id.text(); });
    unique_records(import_.registers.assessors, "assessors", "assessor", [](const Assessor& who) { return who.alias; });
    std::set<std::string> ids;
    for (std::size_t i = 0; i < import_.attributes.size(); ++i)
      once(ids, import_.attributes[i].id, "attribute", import_.attributes[i].id,
           (trial_.sealed ? "/sealed" : "/draft") + at("attributes", i));
  }

  /// Before anything is compared or counted: all of it can be kept in a book and read back.
  void limits() {
    const std::string base = trial_.sealed ? "/sealed" : "/draft";
    const auto held = [&](const Result<void>& good) {
      if (!good && !error_) error_ = good.error();
    };
    held(within_limits(import_.registers, base + "/registers"));
    for (std::size_t i = 0; i < import_.attributes.size(); ++i)
      held(within_limits(import_.attributes[i], base + at("attributes", i)));
    held(within_limits(trial_.draft, trial_.sealed ? PlanState::sealed : PlanState::draft, base + "/plan"));
    if (trial_.sealed) held(within_limits_after_seal(trial_));
  }

  /// A draft may be empty or wrong, but what it refers to must be there.
  void plan(const Plan& plan, const std::string& base) {
    for (std::size_t i = 0; i < plan.lots.size(); ++i) known_lot(plan.lots[i], base + at("lots", i));
    if (!plan.warm_up_lot.empty()) known_lot(plan.warm_up_lot, base + "/warm_up_lot");
    for (std::size_t i = 0; i < plan.controls.size(); ++i) known_lot(plan.controls[i].lot, base + at("controls", i));
    for (std::size_t i = 0; i < plan.assessors.size(); ++i)
      known_assessor(plan.assessors[i].id, base + at("assessors", i));
    for (std::size_t i = 0; i < plan.attributes.size(); ++i)
      known_attribute(plan.attributes[i].attribute, base + at("attributes", i));
    if (plan.reference_pair) known_lot(plan.reference_pair->lot, base + "/reference_pair");
    if (plan.rule) rule(*plan.rule, base + "/rule");
    for (std::size_t i = 0; i < plan.constants.size(); ++i)
      known_record(constant_name(plan.constants[i].kind), plan.constants[i].record, base + at("constants", i));
    for (std::size_t i = 0; i < plan.lever.levels.size(); ++i)
      known_record("level", plan.lever.levels[i].record, base + "/lever" + at("levels", i));
  }
  void rule(const IfThenRule& rule, const std::string& where) {
    for (std::size_t i = 0; i < rule.leaves.size(); ++i) known_lot(rule.leaves[i], where + at("leaves", i));
    for (std::size_t i = 0; i < rule.clauses.size(); ++i)
      known_attribute(rule.clauses[i].attribute, where + at("clauses", i));
  }
  void known_record(const std::string& field, const std::string& id, const std::string& where) {
    if (id.empty()) return;
    const auto is_it = [&](const auto& record) { return record.id.text() == id; };
    const auto& book = import_.registers;
    if (std::none_of(book.waters.begin(), book.waters.end(), is_it) &&
        std::none_of(book.vessels.begin(), book.vessels.end(), is_it))
      refuse(ErrorKind::not_found, field, id, "a water or vessel of this bundle", where);
  }

  void sealed() {
    const auto& plan = trial_.sealed->plan;
    if (!(plan == trial_.draft)) refuse(ErrorKind::conflict, "plan", {}, "the plan as sealed", "/sealed/plan");
    if (level_count() < 2)
      refuse(ErrorKind::bad_value, "levels", fmt::format("{}", level_count()), "two or more",
             "/sealed/plan/lever/levels");
    if (plan.lots.empty()) refuse(ErrorKind::missing, "lots", {}, "one or more", "/sealed/plan/lots");
    for (std::size_t i = 0; i < plan.controls.size(); ++i)
      known_level(plan.controls[i].level, "/sealed/plan" + at("controls", i));
    if (plan.rule) known_level(plan.rule->to_level, "/sealed/plan/rule/to_level");
    const auto tasters = std::count_if(plan.assessors.begin(), plan.assessors.end(),
                                       [](const PlanAssessor& a) { return a.role == Role::taster; });
    if (tasters == 0) refuse(ErrorKind::missing, "assessors", {}, "one or more who taste", "/sealed/plan/assessors");
  }

  void servings() {
    if (trial_.servings.empty()) refuse(ErrorKind::missing, "servings", {}, "one or more", "/servings");
    std::set<IdOf<Serving>> ids;
    std::set<std::pair<IdOf<Assessor>, IdOf<Pair>>> given;
    for (std::size_t i = 0; i < trial_.servings.size(); ++i) {
      const auto& serving = trial_.servings[i];
      const std::string where = at("servings", i);
      once(ids, serving.id, "serving", serving.id.text(), where);
      once(given, {serving.assessor, serving.pair}, "pair served twice to one assessor", serving.pair.text(), where);
      known_assessor(serving.assessor, where);
      serving_codes(serving, where);
    }
    for (std::size_t i = 0; i < trial_.servings.size(); ++i)
      if (const auto& instead = trial_.servings[i].instead_of; instead && pair_codes_.count(*instead) == 0)
        refuse(ErrorKind::not_found, "pair", instead->text(), "a pair of this bundle",
               at("servings", i) + "/instead_of");
  }
  /// One code stands for one liquor of one pair, for all assessors alike.
  void serving_codes(const BlindServing& serving, const std::string& where) {
    const Codes codes = codes_of(serving.left, serving.right);
    if (codes[0] == codes[1]) refuse(ErrorKind::duplicate, "code", serving.left.text(), "each code once", where);
    const auto [known, fresh] = pair_codes_.emplace(serving.pair, codes);
    if (known->second != codes)
      refuse(ErrorKind::conflict, "codes of a pair", codes_text(codes),
             codes_text(known->second) + ", as in the pair's other servings", where);
    if (!fresh) return;
    for (const int code : codes)
      if (!served_codes_.insert(code).second)
        refuse(ErrorKind::duplicate, "code", fmt::format("{}", code), "each code in one pair", where);
  }

  void sheets() {
    std::size_t i = 0;
    for (const auto& [id, sheet] : trial_.sheets) {
      sheet_of(id, *sheet, at("sheets", i));
      ++i;
    }
  }
  [[nodiscard]] bool served(IdOf<Serving> id) const { return servings_.count(id) != 0; }
  void sheet_of(IdOf<Serving> id, const Sheet& sheet, const std::string& where) {
    if (!served(id)) return refuse(ErrorKind::not_found, "serving", id.text(), "a serving of this bundle", where);
    for (const Side side : {Side::left, Side::right})
      for (const auto& [field, mark] : sheet.cup(side).marks)
        mark_of(field, mark, fmt::format("{}/{}/marks/{}", where, side == Side::left ? "left" : "right", field));
    for (const auto& [attribute, answer] : sheet.directs) known_attribute(attribute, where + "/directs/" + attribute);
    second_of(sheet, where);
    if (!sheet.locked && !sheet.digest.empty())
      refuse(ErrorKind::not_allowed, "digest", sheet.digest.hex(), "only on a locked sheet", where + "/digest");
  }
  void second_of(const Sheet& sheet, const std::string& where) {
    if (!sheet.second.empty() && sheet.entered_by != EnteredBy::paper)
      refuse(ErrorKind::not_allowed, "second entry", "", "only on a sheet typed in from paper", where + "/second");
    for (const Side side : {Side::left, Side::right})
      for (const auto& [field, mark] : sheet.second.cup(side))
        mark_of(field, mark, fmt::format("{}/second/{}/{}", where, side == Side::left ? "left" : "right", field));
    for (const auto& [attribute, answer] : sheet.second.directs)
      known_attribute(attribute, where + "/second/directs/" + attribute);
  }
  void mark_of(const std::string& field, const Mark& mark, const std::string& where) {
    const auto* attribute = find_attribute(import_.attributes, attribute_of_field(field));
    const auto fields = attribute != nullptr ? mark_fields(*attribute) : std::vector<std::string>{};
    if (std::find(fields.begin(), fields.end(), field) == fields.end())
      return refuse(ErrorKind::not_found, "field of a sheet", field, "a field of this bundle's attributes", where);
    if (std::holds_alternative<NoScore>(mark)) return;
    if (std::holds_alternative<FinishTime>(mark) != (attribute->scale == Scale::seconds))
      refuse(ErrorKind::bad_value, attribute->name, mark_text(mark),
             attribute->scale == Scale::seconds ? "whole seconds" : "0 to 10 in half steps", where);
  }

  void known_pair(IdOf<Pair> pair, const std::string& where) {
    if (pair_codes_.count(pair) == 0) refuse(ErrorKind::not_found, "pair", pair.text(), "a pair of this bundle", where);
  }
  void happenings() {
    for (std::size_t i = 0; i < trial_.days.size(); ++i) known_assessor(trial_.days[i].assessor, at("days", i));
    for (std::size_t i = 0; i < trial_.weighed.size(); ++i) known_lot(trial_.weighed[i], at("weighed", i));
    for (std::size_t i = 0; i < trial_.openings.size(); ++i)
      known_assessor(trial_.openings[i].preparer, at("openings", i));
    for (std::size_t i = 0; i < trial_.exclusions.size(); ++i)
      if (!served(trial_.exclusions[i].serving))
        refuse(ErrorKind::not_found, "serving", trial_.exclusions[i].serving.text(), "a serving of this bundle",
               at("exclusions", i));
    for (std::size_t i = 0; i < trial_.amendments.size(); ++i) amendment(trial_.amendments[i], at("amendments", i));
    std::set<IdOf<Pair>> pairs;
    std::set<std::size_t> spares;
    for (std::size_t i = 0; i < trial_.voids.size(); ++i) {
      const auto& voided = trial_.voids[i];
      known_pair(voided.pair, at("voids", i));
      once(pairs, voided.pair, "voided pair", voided.pair.text(), at("voids", i));
      if (voided.spare) once(spares, *voided.spare, "spare", fmt::format("{}", *voided.spare), at("voids", i));
    }
    if (!trial_.rule) return;
    for (std::size_t i = 0; i < trial_.rule->leaves.size(); ++i)
      known_lot(trial_.rule->leaves[i], "/rule" + at("leaves", i));
  }
  void amendment(const Amendment& amendment, const std::string& where) {
    using Target = Amendment::Target;
    const bool of_sheet = amendment.target == Target::sheet_mark || amendment.target == Target::sheet_direct;
    if (of_sheet && !served(amendment.serving))
      refuse(ErrorKind::not_found, "serving", amendment.serving.text(), "a serving of this bundle", where);
    if (amendment.target == Target::brew && !trial_.unmasked)
      refuse(ErrorKind::not_allowed, "amendment of a brew", {}, "only in the bundle of an unmasked trial", where);
  }

  /// What a pair of the key was sealed with.
  void key_codes(IdOf<Pair> pair, BlindCode one, BlindCode two, const std::string& where) {
    const Codes codes = codes_of(one, two);
    if (!key_pairs_.emplace(pair, codes).second)
      refuse(ErrorKind::duplicate, "pair", pair.text(), "each pair once", where);
    if (codes[0] == codes[1]) refuse(ErrorKind::duplicate, "code", one.text(), "each code once", where);
    for (const int code : codes)
      if (!key_codes_.insert(code).second)
        refuse(ErrorKind::duplicate, "code", fmt::format("{}", code), "each code in one pair", where);
  }
  void key() {
    const auto& key = *trial_.key;
    for (std::size_t i = 0; i < key.brews.size(); ++i) planned_brew(key.brews[i], "/key" + at("brews", i));
    for (std::size_t i = 0; i < key.spares.size(); ++i) {
      const std::string where = "/key" + at("spares", i);
      key_codes(key.spares[i].pair, key.spares[i].code_one, key.spares[i].code_two, where);
      for (const auto brew : {key.spares[i].brew_one, key.spares[i].brew_two})
        once(brew_ids_, brew, "brew", brew.text(), where);
    }
    for (std::size_t i = 0; i < key.pairs.size(); ++i) key_pair(key.pairs[i], "/key" + at("pairs", i));
    for (std::size_t i = 0; i < key.pairs.size(); ++i)
      if (key.pairs[i].repeat_of && key_pairs_.count(*key.pairs[i].repeat_of) == 0)
        refuse(ErrorKind::not_found, "pair", key.pairs[i].repeat_of->text(), "a pair of the key",
               "/key" + at("pairs", i) + "/repeat_of");
    served_pairs_in_key();
    for (std::size_t i = 0; i < trial_.voids.size(); ++i)
      if (trial_.voids[i].spare && *trial_.voids[i].spare >= key.spares.size())
        refuse(ErrorKind::not_found, "spare", fmt::format("{}", *trial_.voids[i].spare),
               fmt::format("one of the key's {} spares", key.spares.size()), at("voids", i) + "/spare");
  }
  void planned_brew(const PlannedBrew& brew, const std::string& where) {
    once(brew_ids_, brew.id, "brew", brew.id.text(), where);
    known_lot(brew.lot, where);
    known_level(brew.level, where);
  }
  void key_pair(const KeyPair& pair, const std::string& where) {
    key_codes(pair.id, pair.code_a, pair.code_b, where);
    known_lot(pair.lot, where);
    known_level(pair.level_a, where);
    known_level(pair.level_b, where);
    for (const auto brew : {pair.cup_a.brew, pair.cup_b.brew})
      if (brew_ids_.count(brew) == 0)
        refuse(ErrorKind::not_found, fmt::format("brew of pair {}", codes_text(codes_of(pair.code_a, pair.code_b))),
               brew.text(), "a brew of the key", where);
  }
  /// Every serving's pair is in the key with those codes, and every pair of the key was served.
  void served_pairs_in_key() {
    for (std::size_t i = 0; i < trial_.servings.size(); ++i) {
      const auto& serving = trial_.servings[i];
      const Codes codes = codes_of(serving.left, serving.right);
      const auto known = key_pairs_.find(serving.pair);
      if (known == key_pairs_.end())
        refuse(ErrorKind::missing, fmt::format("pair {}", codes_text(codes)), serving.pair.text(),
               "every pair that was served, in the key", at("servings", i) + "/pair");
      else if (known->second != codes)
        refuse(ErrorKind::conflict, "codes of a pair", codes_text(codes), codes_text(known->second) + ", as in the key",
               at("servings", i));
    }
    for (std::size_t i = 0; i < trial_.key->pairs.size(); ++i)
      if (const auto id = trial_.key->pairs[i].id; pair_codes_.count(id) == 0)
        refuse(ErrorKind::missing, fmt::format("servings of pair {}", codes_text(key_pairs_[id])), id.text(),
               "every pair of the key, among the servings", "/key" + at("pairs", i));
  }
  void brews() {
    std::size_t i = 0;
    for (const auto& [id, brew] : trial_.brews) {
      const std::string where = at("brews", i++);
      if (brew_ids_.count(id) == 0) refuse(ErrorKind::not_found, "brew", id.text(), "a brew of the key", where);
      known_lot(brew->lot, where);
      known_level(brew->level, where);
    }
    i = 0;
    for (const auto& [pair, served] : trial_.served) known_pair(pair, at("served", i++));
    for (i = 0; i < trial_.amendments.size(); ++i)
      if (trial_.amendments[i].target == Amendment::Target::brew && brew_ids_.count(trial_.amendments[i].brew) == 0)
        refuse(ErrorKind::not_found, "brew", trial_.amendments[i].brew.text(), "a brew of the key",
               at("amendments", i));
  }

  void digest(const char* what, const Digest& stored, const Digest& found, const std::string& where) {
    if (stored != found)
      refuse(ErrorKind::damaged, what, found.hex().substr(0, 12) + "…",
             stored.hex().substr(0, 12) + "…, as was noted (something was changed after it was noted)", where);
  }
  /// What the unmask record itself calls broken is the home bench's finding and is carried on as such.
  void digests() {
    if (error_) return;
    const auto& record = trial_.unmasked;
    if (!record || record->plan_intact)
      digest("fingerprint of the plan", trial_.sealed->plan_digest, plan_digest(*trial_.sealed), "/sealed/plan_digest");
    if (record && record->key_intact && trial_.key)
      digest("fingerprint of the key", trial_.sealed->key_digest, key_digest(*trial_.key), "/sealed/key_digest");
    if (record && !record->sheets_intact) return;
    std::size_t i = 0;
    for (const auto& [id, sheet] : trial_.sheets) {
      if (sheet->locked)
        digest("fingerprint of a sheet", sheet->digest, sheet_digest(*sheet), at("sheets", i) + "/digest");
      ++i;
    }
    if (record)
      digest("fingerprint of all sheets", record->sheets_digest, sheets_digest(trial_), "/unmasked/sheets_digest");
  }

  void unmasked() {
    if (!trial_.unmasked) {
      if (trial_.key)
        refuse(ErrorKind::not_allowed, "key", "present", "only in the bundle of an unmasked trial", "/key");
      return;
    }
    if (!trial_.key) refuse(ErrorKind::missing, "key", {}, "the key of an unmasked trial", "/key");
    for (const auto* open : open_sheets(trial_)) {
      refuse(ErrorKind::missing, "locked sheet",
             fmt::format("{}, pair {} of sitting {}", alias_of(import_.registers, open->assessor), open->place,
                         open->sitting),
             "every sheet locked in an unmasked trial", "/sheets");
    }
  }

  const TrialImport& import_;
  const Trial& trial_;
  std::optional<Error> error_;
  std::map<IdOf<Pair>, Codes> pair_codes_, key_pairs_;
  std::set<int> served_codes_, key_codes_;
  // Looked up by the thousand in a large file, so not by walking the lists.
  std::set<IdOf<Lot>> lots_;
  std::set<IdOf<Assessor>> assessors_;
  std::set<IdOf<Serving>> servings_;
  std::set<IdOf<Brew>> brew_ids_;
};

}  // namespace

Result<void> check_import(const TrialImport& import) {
  return Check(import).run();
}

}  // namespace likeleaf::exchange
