#pragma once
// Trials as the program makes them: a plan dealt by the real deal, sealed, tasted and unmasked, everything invented.
#include <memory>
#include <random>
#include <string>

#include "core/acts/trial_import.h"
#include "core/acts/unmask.h"
#include "core/base/entropy.h"
#include "core/codec/builtin.h"
#include "core/codec/seal.h"
#include "core/codec/trial_document.h"
#include "core/design/deal.h"

namespace likeleaf::exchange::testing {

enum class Upto { draft, sealed, tasted, unmasked };

inline const Moment noon{1772456400000, 60, 0};

struct Made {
  Trial trial;
  Registers book;
  std::vector<Attribute> attributes;
};

inline Registers make_book(Entropy& ids, int lots) {
  Registers book;
  for (int i = 0; i < lots; ++i) {
    Lot lot;
    lot.id = IdOf<Lot>::make(ids);
    lot.code = "L-" + std::to_string(10 + i);
    lot.name = i == 0 ? "=pan-fired, \"spring\"" : "rolled";
    lot.stock = grams(2000);
    book.lots.push_back(lot);
  }
  for (const char* alias : {"K.", "M.", "O."}) book.assessors.push_back({IdOf<Assessor>::make(ids), alias, ""});
  Water water;
  water.id = IdOf<Water>::make(ids);
  water.name = "house soft";
  book.waters.push_back(water);
  return book;
}

inline Plan make_plan(const Registers& book, Entropy& ids, int brew_pairs) {
  Plan plan;
  plan.id = IdOf<Trial>::make(ids);
  plan.number = 14;
  plan.house = "Ferry pier counter";
  plan.question = "What does cooler water do?";
  Level now, cool;
  now.value = 88000;
  now.present_way = true;
  cool.value = 68000;
  plan.lever.levels = {now, cool};
  Constant water;
  water.kind = ConstantKind::water;
  water.text = "house soft";
  water.record = book.waters[0].id.text();
  Constant leaf;
  leaf.kind = ConstantKind::leaf_dose;
  leaf.target = 4000;
  leaf.tolerance = 50;
  Constant mass;
  mass.kind = ConstantKind::water_mass;
  mass.target = 200000;
  mass.tolerance = 2000;
  Constant steep;
  steep.kind = ConstantKind::steep_time;
  steep.target = 45000;
  steep.tolerance = 2000;
  plan.constants = {water, leaf, mass, steep};
  for (std::size_t i = 0; i + 1 < book.lots.size(); ++i) plan.lots.push_back(book.lots[i].id);
  plan.warm_up_lot = book.lots.back().id;
  plan.attributes = {{"bitterness", true, 2, Expectation::more},
                     {"finish_length", false, 1250, Expectation::none},
                     {"aroma_register", false, 2, Expectation::none}};
  plan.assessors = {{book.assessors[0].id, Role::taster},
                    {book.assessors[1].id, Role::taster},
                    {book.assessors[2].id, Role::preparer}};
  plan.brew_pairs = brew_pairs;
  Control blank;
  blank.lot = plan.lots[0];
  plan.controls = {blank};
  return plan;
}

inline Mark any_mark(const Attribute& attribute, std::mt19937_64& random) {
  const auto dice = random() % 12;
  if (dice == 0) return NoScore::could_not_judge;
  if (attribute.scale == Scale::seconds) return FinishTime::from_seconds(static_cast<int>(random() % 130));
  return *Score::from_halves(static_cast<int>(random() % 21));
}

inline void taste(Trial& trial, std::mt19937_64& random) {
  for (const auto& serving : trial.servings) {
    Sheet sheet;
    sheet.serving = serving.id;
    for (const Side side : {Side::left, Side::right}) {
      for (const auto& attribute : trial.sealed->attributes)
        for (const auto& field : mark_fields(attribute))
          if (random() % 10 != 0) sheet.cup(side).marks.emplace(field, any_mark(attribute, random));
      if (random() % 3 == 0) sheet.cup(side).words.push_back({"toasted nut", 2});
    }
    if (random() % 2 == 0) sheet.directs["bitterness"] = random() % 2 == 0 ? Direct::left_more : Direct::cannot_tell;
    sheet.note = random() % 4 == 0 ? "=1+1 \xE2\x80\x9Cgreen\xE2\x80\x9D" : "";
    if (random() % 3 == 0) {  // typed in from paper, twice
      sheet.entered_by = EnteredBy::paper;
      sheet.second = {sheet.left.marks, sheet.right.marks, sheet.directs};
    }
    sheet.started = noon;
    sheet.locked = noon;
    sheet.digest = sheet_digest(sheet);
    trial.sheets[serving.id] = std::make_shared<const Sheet>(sheet);
  }
}

inline void brew(Trial& trial) {
  for (const auto& planned : trial.key->brews) {
    Brew made;
    made.id = planned.id;
    made.number = planned.number;
    made.lot = planned.lot;
    made.level = planned.level;
    made.set = planned.set;
    made.sitting = planned.sitting;
    made.portion = planned.portion;
    made.leaf = Mass(4010);
    made.infusions = {{Temperature(88000), Mass(200500), seconds(45)}};
    Stamp stamp;
    stamp.at = noon;
    stamp.at.boot_ms = 77;
    made.stamps = {stamp};
    made.note = "-steady";
    trial.brews[made.id] = std::make_shared<const Brew>(made);
  }
  ServedPair served;
  served.pair = trial.servings[0].pair;
  served.left = Temperature(42000);
  trial.served[served.pair] = served;
}

inline Made make_trial(Upto upto, std::uint64_t number = 1, int lots = 2, int brew_pairs = 2) {
  FixedEntropy ids(number);
  std::mt19937_64 random(number);
  Made made;
  made.book = make_book(ids, lots + 1);
  made.attributes = builtin_attributes();
  made.trial.draft = make_plan(made.book, ids, brew_pairs);
  made.trial.created = noon;
  if (upto == Upto::draft) return made;
  std::array<std::uint8_t, 32> seed{}, salt{};
  ids.fill(seed);
  ids.fill(salt);
  auto dealt = design::deal(made.trial.draft, seed, salt, ids);
  if (!dealt)
    throw std::runtime_error("deal: " + dealt.error().field + " " + dealt.error().value + " " + dealt.error().allowed);
  auto sealed = std::make_shared<SealedPlan>();
  sealed->plan = made.trial.draft;
  sealed->registers = registers_of(made.trial.draft, made.book);
  sealed->attributes = attributes_of(made.trial.draft, made.attributes);
  sealed->sealed = noon;
  take_digests(*sealed, dealt->key);
  made.trial.sealed = sealed;
  made.trial.key = std::make_shared<const Key>(dealt->key);
  made.trial.servings = dealt->servings;
  brew(made.trial);
  if (upto == Upto::sealed) return made;
  taste(made.trial, random);
  if (upto == Upto::tasted) return made;
  Amendment of_brew;
  of_brew.target = Amendment::Target::brew;
  of_brew.brew = made.trial.brews.begin()->first;
  of_brew.field = "leaf";
  of_brew.at = noon;
  made.trial.amendments = {of_brew};
  const auto record = unmask(made.trial, "H.", noon);
  if (!record) throw std::runtime_error("unmask: " + record.error().value);
  made.trial.unmasked = *record;
  return made;
}

}  // namespace likeleaf::exchange::testing
