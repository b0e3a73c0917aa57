#pragma once
// A small sealed trial, put together by hand: one lot, 88 °C against 68 °C, a warm-up pair, one brew pair and one
// blank, two tasters, one spare. Everything in it is invented.
#include <memory>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "core/acts/command.h"
#include "core/base/entropy.h"
#include "core/codec/seal.h"
#include "core/domain/attribute.h"

namespace likeleaf::testing {

template <class T>
T value_of(Result<T> result) {
  if (!result)
    throw std::runtime_error(result.error().field + ": " + result.error().value + " / " + result.error().allowed);
  return std::move(*result);
}

struct SmallTrial {
  FixedEntropy entropy{7};
  Moment noon{1'772'452'800'000, 60, 5'000};
  IdOf<Assessor> head = IdOf<Assessor>::make(entropy), preparer = IdOf<Assessor>::make(entropy),
                 kay = IdOf<Assessor>::make(entropy), arr = IdOf<Assessor>::make(entropy);
  IdOf<Lot> lot = IdOf<Lot>::make(entropy), warm_lot = IdOf<Lot>::make(entropy);
  IdOf<Pair> warm = IdOf<Pair>::make(entropy), contrast = IdOf<Pair>::make(entropy), blank = IdOf<Pair>::make(entropy);
  std::shared_ptr<const Trial> planned, sealed;

  SmallTrial() {
    auto trial = std::make_shared<Trial>();
    trial->draft = plan();
    trial->created = noon;
    planned = trial;
    sealed = run(planned, seal_command());
  }

  static Attribute attribute(const char* id, Scale scale, bool direct) {
    return {id, id, "", scale, "what is judged", "none", "very", "more", "less", 2, direct};
  }
  Plan plan() {
    Plan plan;
    plan.id = IdOf<Trial>::make(entropy);
    plan.number = 14;
    plan.question = "Does cooler water make it less bitter?";
    plan.lever.levels = {{"", 68'000, {}, false}, {"", 88'000, {}, true}};
    plan.lots = {lot};
    plan.warm_up_lot = warm_lot;
    plan.attributes = {{"bitterness", true, 2, Expectation::less},
                       {"finish_length", false, 1250, Expectation::none},
                       {"aroma_register", false, 2, Expectation::none}};
    plan.assessors = {{head, Role::head}, {preparer, Role::preparer}, {kay, Role::taster}, {arr, Role::taster}};
    plan.brew_pairs = 1;
    plan.controls = {{ControlKind::blank, lot, 1, 1, Permille(120)}};
    plan.notes = "as typed";
    return plan;
  }
  Key key() {
    Key key;
    key.seed.fill(0xA5);
    key.salt.fill(0x3C);
    key.generator = "draw-1";
    const auto brew = [&](int number, IdOf<Lot> of, std::size_t level, int set, int portion) {
      key.brews.push_back({IdOf<Brew>::make(entropy), number, of, level, set, 1, portion});
      return KeyCup{key.brews.back().id, Permille(0)};
    };
    const auto code = [](int n) { return *BlindCode::from(n); };
    const KeyCup w1 = brew(1, warm_lot, 1, 0, 1), w2 = brew(2, warm_lot, 1, 0, 2);
    const KeyCup b = brew(3, lot, 1, 1, 1), a = brew(4, lot, 0, 1, 2);  // b is poured first
    const KeyCup k1 = brew(5, lot, 1, 0, 3), k2 = brew(6, lot, 1, 0, 4);
    key.pairs = {{warm, PairKind::warm_up, warm_lot, 0, 1, 1, 1, code(111), code(222), w1, w2, {}},
                 {contrast, PairKind::contrast, lot, 1, 0, 1, 1, code(386), code(417), a, b, {}},
                 {blank, PairKind::blank, lot, 0, 1, 1, 1, code(503), code(694), k1, k2, {}}};
    for (const auto& [one, two] : {std::pair(731, 812), std::pair(905, 146)})
      key.spares.push_back(
          {IdOf<Pair>::make(entropy), code(one), code(two), IdOf<Brew>::make(entropy), IdOf<Brew>::make(entropy)});
    return key;
  }
  ApplySeal seal_command() {
    auto sealed_plan = std::make_shared<SealedPlan>();
    sealed_plan->plan = planned->draft;
    sealed_plan->registers.assessors = {{head, "H.", ""}, {preparer, "O.", ""}, {kay, "K.", ""}, {arr, "R.", ""}};
    sealed_plan->attributes = {attribute("bitterness", Scale::intensity, true),
                               attribute("finish_length", Scale::seconds, false),
                               attribute("aroma_register", Scale::register_bands, false)};
    sealed_plan->sealed = noon;
    auto key_made = std::make_shared<Key>(key());
    take_digests(*sealed_plan, *key_made);
    std::vector<BlindServing> servings;
    for (const auto& [person, b_left] : {std::pair(kay, true), std::pair(arr, false)}) {
      int place = 0;
      for (const auto& pair : key_made->pairs) {
        const auto id = IdOf<Serving>::make(entropy);
        servings.push_back({id,
                            person,
                            pair.id,
                            1,
                            place++,
                            2,
                            b_left ? pair.code_b : pair.code_a,
                            b_left ? pair.code_a : pair.code_b,
                            Side::left,
                            {}});
      }
    }
    return {sealed_plan, key_made, servings};
  }

  [[nodiscard]] Moment at(std::int64_t later_seconds) const {
    return {noon.utc_ms + later_seconds * 1000, noon.offset_minutes, noon.boot_ms + later_seconds * 1000};
  }
  std::shared_ptr<const Trial> run(const std::shared_ptr<const Trial>& trial, const Command& command) const {
    return value_of(apply(trial, command, noon)).next;
  }
  /// The serving of a pair for K. (or R.).
  static IdOf<Serving> serving(const Trial& trial, IdOf<Pair> pair, IdOf<Assessor> person) {
    for (const auto& one : trial.servings)
      if (one.pair == pair && one.assessor == person) return one.id;
    throw std::runtime_error("no such serving");
  }
  [[nodiscard]] IdOf<Serving> kays() const { return serving(*sealed, contrast, kay); }
  std::shared_ptr<const Trial> all_locked(std::shared_ptr<const Trial> trial) const {
    for (const auto* open : open_sheets(*trial)) trial = run(trial, LockSheet{open->id});
    return trial;
  }
};

}  // namespace likeleaf::testing
