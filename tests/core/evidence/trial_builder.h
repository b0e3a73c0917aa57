#pragma once
// A small trial made by hand and unmasked: lots × brew pairs × assessors, every sheet locked, sides balanced.
#include <gtest/gtest.h>

#include <map>
#include <memory>
#include <string>
#include <tuple>
#include <vector>

#include "core/acts/unmask.h"
#include "core/base/entropy.h"
#include "core/codec/builtin.h"
#include "core/domain/attribute.h"

namespace likeleaf::test {

inline Attribute scale_of(const std::string& id) {
  const auto* known = find_attribute(builtin_attributes(), id);
  if (known) return *known;
  Attribute own;
  own.id = own.name = id;
  return own;
}

class TrialBuilder {
 public:
  /// Water at 80 °C (level 0, the present way) against 90 °C; more levels go up by 10 °C.
  TrialBuilder(int lots, int brew_pairs, int assessors, int levels = 2) {
    plan.id = fresh<Trial>();
    plan.question = "Does hotter water change it?";
    for (int l = 0; l < levels; ++l) {
      Level level;
      level.value = 80'000 + 10'000 * l;
      level.present_way = l == 0;
      plan.lever.levels.push_back(level);
    }
    for (int l = 0; l < lots; ++l) {
      Lot lot;
      lot.id = fresh<Lot>();
      lot.code = "L-" + std::to_string(l + 1);
      registers.lots.push_back(lot);
      plan.lots.push_back(lot.id);
    }
    for (int k = 0; k < assessors; ++k) {
      Assessor assessor;
      assessor.id = fresh<Assessor>();
      assessor.alias = "T" + std::to_string(k + 1);
      registers.assessors.push_back(assessor);
      plan.assessors.push_back({assessor.id, Role::taster});
    }
    plan.brew_pairs = brew_pairs;
    for (const auto& contrast : contrasts(plan.lever))
      for (int l = 0; l < lots; ++l)
        for (int s = 1; s <= brew_pairs; ++s) add_contrast(l, s, contrast);
  }

  Plan plan;
  Registers registers;
  std::vector<std::string> direct_for;  ///< attributes asked at the comparing sip

  void attribute(const std::string& id, bool deciding, std::int64_t margin = 2,
                 Expectation expected = Expectation::none) {
    plan.attributes.push_back({id, deciding, margin, expected});
  }

  /// One sheet of a contrast pair: lot from 0, brew pair from 1, assessor from 0.
  struct At {
    int lot = 0, set = 1, assessor = 0;
    Contrast contrast{0, 1};
    auto operator<=>(const At&) const = default;
  };
  Sheet& sheet(const At& at) { return sheets_.at(serving_of_.at(at)); }
  IdOf<Serving> serving(const At& at) const { return serving_of_.at(at); }
  Side side_b(IdOf<Serving> serving) const { return side_b_.at(serving); }
  IdOf<Pair> pair(int lot, int set, Contrast contrast = {0, 1}) const { return pair_of_.at({lot, set, 0, contrast}); }

  void mark(IdOf<Serving> serving, const std::string& field, Mark a, Mark b) {
    auto& s = sheets_.at(serving);
    s.cup(side_b_.at(serving)).marks.insert_or_assign(field, b);
    s.cup(other(side_b_.at(serving))).marks.insert_or_assign(field, a);
  }
  /// Half points.
  void score(const At& at, const std::string& field, int a, int b) {
    mark(serving(at), field, *Score::from_halves(a), *Score::from_halves(b));
  }
  void seconds(const At& at, int a, int b) {
    mark(serving(at), "finish_length", FinishTime::from_seconds(a), FinishTime::from_seconds(b));
  }
  /// −1: b is less, 1: b is more, 0: can't tell.
  void direct(const At& at, const std::string& attribute, int b_is) {
    const Side b = side_b(serving(at)), more = b_is > 0 ? b : other(b);
    sheet(at).directs[attribute] = b_is == 0            ? Direct::cannot_tell
                                   : more == Side::left ? Direct::left_more
                                                        : Direct::right_more;
  }
  void exclude(const At& at, bool before) {
    exclusions_.push_back({serving(at), "H.", "a cold", Moment{before ? 500 : 2000, 0, 0}});
  }
  /// Every sheet: what(at) gives {a, b} in half points.
  template <class What>
  void fill(const std::string& field, What what) {
    for (const auto& [at, id] : serving_of_) {
      const auto [a, b] = what(at);
      score(at, field, a, b);
    }
  }
  template <class What>
  void each(What what) {
    for (const auto& [at, id] : serving_of_) what(at);
  }

  /// A control pair for every assessor; its servings in the order of the assessors.
  std::vector<IdOf<Serving>> control(PairKind kind, int lot, std::size_t level, Permille dilution = Permille(0)) {
    KeyPair pair = blank_pair(kind, lot, 0, {level, level});
    pair.cup_b.dilution = dilution;
    if (kind == PairKind::yardstick) pair.cup_b.brew = pair.cup_a.brew;
    key_.pairs.back() = pair;
    return serve(pair, 0);
  }
  /// The same brew pair again, sides swapped.
  std::vector<IdOf<Serving>> repeat(int lot, int set, Contrast contrast = {0, 1}) {
    KeyPair twin = key_.pairs.at(place_.at({lot, set, 0, contrast}));
    KeyPair pair = twin;
    pair.id = fresh<Pair>();
    pair.kind = PairKind::repeat;
    pair.set = 0;
    pair.repeat_of = twin.id;
    pair.code_a = next_code();
    pair.code_b = next_code();
    key_.pairs.push_back(pair);
    return serve(pair, set + 1);
  }

  [[nodiscard]] std::shared_ptr<Trial> trial() const {
    auto sealed = std::make_shared<SealedPlan>();
    sealed->plan = plan;
    sealed->registers = registers;
    for (const auto& planned : plan.attributes) {
      sealed->attributes.push_back(scale_of(planned.attribute));
      for (const auto& direct : direct_for)
        if (direct == planned.attribute) sealed->attributes.back().direct = true;
    }
    auto result = std::make_shared<Trial>();
    result->draft = plan;
    result->sealed = sealed;
    result->key = std::make_shared<const Key>(key_);
    result->servings = servings_;
    for (const auto& [id, sheet] : sheets_) {
      auto locked = sheet;
      locked.locked = Moment{100, 0, 0};
      result->sheets[id] = std::make_shared<const Sheet>(locked);
    }
    result->brews = brews_;
    result->exclusions = exclusions_;
    result->unmasked = UnmaskRecord{};
    result->unmasked->at = Moment{1000, 0, 0};
    return result;
  }
  [[nodiscard]] Unmasked unmasked() const {
    auto joined = open_unmasked(trial());
    if (!joined) throw std::runtime_error(joined.error().field + ": " + joined.error().value);
    return *joined;
  }
  /// The brew at level b of a brew pair, to be changed before trial() is called.
  Brew& brew(int lot, int set, bool b) {
    const auto& pair = key_.pairs.at(place_.at({lot, set, 0, {0, 1}}));
    auto copy = std::make_shared<Brew>(*brews_.at(b ? pair.cup_b.brew : pair.cup_a.brew));
    brews_[copy->id] = copy;
    return *copy;
  }

 private:
  template <class Record>
  IdOf<Record> fresh() {
    return IdOf<Record>::make(entropy_);
  }
  BlindCode next_code() { return *BlindCode::from(next_code_++); }

  IdOf<Brew> new_brew(int lot, int set, std::size_t level) {
    auto brew = std::make_shared<Brew>();
    brew->id = fresh<Brew>();
    brew->number = static_cast<int>(brews_.size()) + 1;
    brew->lot = plan.lots.at(static_cast<std::size_t>(lot));
    brew->level = level;
    brew->set = set;
    brews_[brew->id] = brew;
    return brew->id;
  }
  KeyPair blank_pair(PairKind kind, int lot, int set, Contrast levels) {
    KeyPair pair{.id = fresh<Pair>(),
                 .kind = kind,
                 .lot = plan.lots.at(static_cast<std::size_t>(lot)),
                 .set = set,
                 .level_a = levels.a,
                 .level_b = levels.b,
                 .sitting = 1,
                 .code_a = next_code(),
                 .code_b = next_code(),
                 .cup_a = {new_brew(lot, set, levels.a), Permille(0)},
                 .cup_b = {new_brew(lot, set, levels.b), Permille(0)},
                 .repeat_of = std::nullopt};
    key_.pairs.push_back(pair);
    return pair;
  }
  void add_contrast(int lot, int set, Contrast contrast) {
    const KeyPair pair = blank_pair(PairKind::contrast, lot, set, contrast);
    place_[{lot, set, 0, contrast}] = key_.pairs.size() - 1;
    pair_of_[{lot, set, 0, contrast}] = pair.id;
    const auto servings = serve(pair, set);
    for (std::size_t k = 0; k < servings.size(); ++k)
      serving_of_[{lot, set, static_cast<int>(k), contrast}] = servings[k];
  }
  /// Left is sipped first; b stands left for every second assessor.
  std::vector<IdOf<Serving>> serve(const KeyPair& pair, int shift) {
    std::vector<IdOf<Serving>> result;
    for (std::size_t k = 0; k < plan.assessors.size(); ++k) {
      const bool b_left = (static_cast<int>(k) + shift) % 2 == 0;
      const BlindServing serving{fresh<Serving>(),
                                 plan.assessors[k].id,
                                 pair.id,
                                 1,
                                 static_cast<int>(key_.pairs.size()),
                                 1,
                                 b_left ? pair.code_b : pair.code_a,
                                 b_left ? pair.code_a : pair.code_b,
                                 Side::left,
                                 std::nullopt};
      servings_.push_back(serving);
      side_b_[serving.id] = b_left ? Side::left : Side::right;
      sheets_[serving.id].serving = serving.id;
      result.push_back(serving.id);
    }
    return result;
  }

  FixedEntropy entropy_{20261};
  int next_code_ = 100;
  Key key_;
  std::vector<BlindServing> servings_;
  std::map<IdOf<Serving>, Side> side_b_;
  std::map<IdOf<Serving>, Sheet> sheets_;
  std::map<At, IdOf<Serving>> serving_of_;
  std::map<At, IdOf<Pair>> pair_of_;
  std::map<At, std::size_t> place_;
  std::map<IdOf<Brew>, std::shared_ptr<const Brew>> brews_;
  std::vector<Exclusion> exclusions_;
};

}  // namespace likeleaf::test
