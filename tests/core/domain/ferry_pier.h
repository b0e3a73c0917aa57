#pragma once
// The demo counter on its ferry pier: registers, and the plans of its trials 14, 15 and 16. All of it is invented.
#include <string>

#include "core/base/entropy.h"
#include "core/domain/plan.h"
#include "core/domain/register.h"

namespace likeleaf::test {

template <class Record>
IdOf<Record> id_of(std::uint64_t n) {
  FixedEntropy entropy(n);
  return IdOf<Record>::make(entropy);
}

struct FerryPier {
  IdOf<Lot> l07 = id_of<Lot>(7), l12 = id_of<Lot>(12), l18 = id_of<Lot>(18), l21 = id_of<Lot>(21), l25 = id_of<Lot>(25);
  IdOf<Assessor> h = id_of<Assessor>(101), o = id_of<Assessor>(102), r = id_of<Assessor>(103), k = id_of<Assessor>(104),
                 m = id_of<Assessor>(105), t = id_of<Assessor>(106);
  IdOf<Water> soft = id_of<Water>(201);
  IdOf<Vessel> glass = id_of<Vessel>(301);
  Registers registers;

  FerryPier() {
    const auto lot = [&](IdOf<Lot> id, const char* code, std::int64_t stock, LeafType type) {
      Lot l;
      l.id = id;
      l.code = code;
      l.type = type;
      l.stock = grams(stock);
      registers.lots.push_back(l);
    };
    lot(l07, "L-07", 50, LeafType::green);
    lot(l12, "L-12", 120, LeafType::oolong);
    lot(l18, "L-18", 40, LeafType::yellow);
    lot(l21, "L-21", 200, LeafType::black);
    lot(l25, "L-25", 90, LeafType::dark);
    const auto person = [&](IdOf<Assessor> id, const char* alias) { registers.assessors.push_back({id, alias, {}}); };
    person(h, "H.");
    person(o, "O.");
    person(r, "R.");
    person(k, "K.");
    person(m, "M.");
    person(t, "T.");
    registers.waters.push_back({soft, "house soft", {}, {}, {}, {}, {}});
    registers.vessels.push_back({glass, "small glass", "glass", grams(180), millilitres(300), {}});
  }

  static Constant number(ConstantKind kind, std::int64_t target, std::int64_t tolerance) {
    return Constant{kind, {}, target, tolerance, {}, {}};
  }
  static Constant text(ConstantKind kind, std::string words, std::string record = {}) {
    return Constant{kind, {}, {}, {}, std::move(words), std::move(record)};
  }
  static Level level(std::int64_t value, bool present_way = false) { return Level{{}, value, {}, present_way}; }

  /// Constants that every trial of the counter shares; what changes is left out by each.
  [[nodiscard]] std::vector<Constant> held() const {
    return {number(ConstantKind::leaf_dose, 4000, 50),
            number(ConstantKind::water_mass, 200'000, 2000),
            text(ConstantKind::water, "house soft, boiled and cooled", soft.text()),
            text(ConstantKind::vessel, "preheated glass", glass.text()),
            text(ConstantKind::chill, "both into ice with lids, then the bath"),
            number(ConstantKind::tasting_temperature, 42'000, 1500),
            number(ConstantKind::longest_hold, 600'000, 0),
            text(ConstantKind::eyes, "opaque cups")};
  }

  /// Water at 88 °C, as now, against 68 °C; three leaves, three brew pairs each, four tasters.
  [[nodiscard]] Plan trial_14() const {
    Plan plan;
    plan.id = id_of<Trial>(14);
    plan.number = 14;
    plan.house = "Ferry pier counter";
    plan.question = "Does cooler water take the edge off and leave the body?";
    plan.lever = Lever{LeverKind::water_temperature, {}, {level(88'000, true), level(68'000)}};
    plan.constants = held();
    plan.constants.push_back(number(ConstantKind::steep_time, 45'000, 3000));
    plan.lots = {l07, l12, l18};
    plan.warm_up_lot = l21;
    for (const char* id : {"bitterness", "body", "sweetness"})
      plan.attributes.push_back({id, true, 2, Expectation::none});
    for (const char* id : {"astringency", "savoury", "finish_structure"})
      plan.attributes.push_back({id, false, 2, Expectation::none});
    plan.attributes.push_back({"finish_length", false, 1250, Expectation::none});
    plan.attributes.push_back({"aroma_register", false, 2, Expectation::none});
    plan.assessors = {{h, Role::head},   {o, Role::preparer}, {r, Role::taster},
                      {k, Role::taster}, {m, Role::taster},   {t, Role::taster}};
    plan.brew_pairs = 3;
    plan.controls = {{ControlKind::blank, l18, 0, 1, Permille(120)},
                     {ControlKind::yardstick, l12, 0, 2, Permille(120)},
                     {ControlKind::blank, l07, 1, 3, Permille(120)}};
    plan.rule = IfThenRule{{{"bitterness", RuleClause::Way::falls, 2}, {"body", RuleClause::Way::holds, 2}},
                           1,
                           {l12},
                           "L-12 goes to 68 °C at the counter"};
    plan.reference_pair = ReferenceWords{l21, "body: how thick, not how strong", true};
    return plan;
  }

  /// Steep 30, 45 and 60 s at 85 °C; one leaf, four brew sets, two tasters.
  [[nodiscard]] Plan trial_15() const {
    Plan plan = trial_14();
    plan.id = id_of<Trial>(15);
    plan.number = 15;
    plan.lever = Lever{LeverKind::steep_time, {}, {level(30'000), level(45'000, true), level(60'000)}};
    plan.constants = held();
    plan.constants.push_back(number(ConstantKind::water_temperature, 85'000, 2000));
    plan.lots = {l25};
    plan.assessors = {{h, Role::head}, {o, Role::preparer}, {r, Role::taster}, {k, Role::taster}};
    plan.brew_pairs = 4;
    plan.controls.clear();
    plan.rule.reset();
    plan.reference_pair.reset();
    return plan;
  }

  /// M. alone, self-blinded: 3 g against 5 g, one leaf, six brew pairs on two days, two blanks.
  [[nodiscard]] Plan trial_16() const {
    Plan plan = trial_14();
    plan.id = id_of<Trial>(16);
    plan.number = 16;
    plan.lever = Lever{LeverKind::leaf_dose, {}, {level(3000, true), level(5000)}};
    plan.constants = held();
    plan.constants.erase(plan.constants.begin());
    plan.constants.push_back(number(ConstantKind::water_temperature, 85'000, 2000));
    plan.constants.push_back(number(ConstantKind::steep_time, 45'000, 3000));
    plan.lots = {l12};
    plan.assessors = {{m, Role::taster}, {m, Role::preparer}};
    plan.blinding = Blinding::self;
    plan.brew_pairs = 6;
    plan.controls = {{ControlKind::blank, l12, 0, 1, Permille(120)}, {ControlKind::blank, l12, 0, 2, Permille(120)}};
    plan.rule.reset();
    plan.reference_pair.reset();
    return plan;
  }
};

}  // namespace likeleaf::test
