#include "tests/bench/book_of_trials.h"

#include <SQLiteCpp/Transaction.h>

#include <algorithm>
#include <array>
#include <stdexcept>
#include <string>

#include "core/acts/command.h"
#include "core/acts/unmask.h"
#include "core/codec/builtin.h"
#include "core/codec/seal.h"
#include "core/codec/trial_document.h"
#include "core/design/deal.h"
#include "core/store/book.h"
#include "core/store/connection.h"
#include "core/store/rows.h"

namespace likeleaf::bench {
namespace {

constexpr std::uint64_t seed_of_registers = 1, seed_of_books = 2;
constexpr int leaves = 4, tasters_each = 12, trials_at_once = 25;

template <class T>
T taken(Result<T> got) {
  if (!got) throw std::runtime_error(got.error().field + ": " + got.error().value);
  return std::move(*got);
}

}  // namespace

TrialMaker::TrialMaker(std::uint64_t seed) : ids_(seed), random_(seed) {
  FixedEntropy ids(seed_of_registers);
  for (int i = 0; i < leaves; ++i) {
    Lot lot;
    lot.id = IdOf<Lot>::make(ids);
    lot.code = "L-" + std::to_string(i + 1);
    lot.name = "Invented leaf " + std::to_string(i + 1);
    registers_.lots.push_back(lot);
  }
  for (int i = 0; i <= tasters_each; ++i) {
    Assessor person;
    person.id = IdOf<Assessor>::make(ids);
    person.alias = i == 0 ? "O." : "T" + std::to_string(i);
    registers_.assessors.push_back(person);
  }
}

Plan TrialMaker::plan(int number) {
  Plan plan;
  plan.id = IdOf<Trial>::make(ids_);
  plan.number = number;
  plan.house = "A made-up house";
  plan.question = "What does trial " + std::to_string(number) + " of many ask of its water, and does the body stay?";
  const std::int64_t hot = 80'000 + 500 * (number % 30);
  plan.lever.levels = {{{}, hot, {}, true, {}}, {{}, hot - 12'000, {}, false, {}}};
  plan.constants = {{ConstantKind::leaf_dose, {}, 4000, 50, {}, {}},
                    {ConstantKind::water_mass, {}, 200'000, 2000, {}, {}},
                    {ConstantKind::steep_time, {}, 45'000, 3000, {}, {}},
                    {ConstantKind::tasting_temperature, {}, 42'000, 1500, {}, {}}};
  for (const auto& lot : registers_.lots) plan.lots.push_back(lot.id);
  plan.warm_up_lot = plan.lots.front();
  for (const auto& attribute : builtin_attributes())
    plan.attributes.push_back({attribute.id, plan.attributes.size() < 2, attribute.margin, Expectation::none});
  for (std::size_t i = 0; i < registers_.assessors.size(); ++i)
    plan.assessors.push_back({registers_.assessors[i].id, i == 0 ? Role::preparer : Role::taster});
  plan.controls = {{ControlKind::blank, plan.lots[0], 0, 1, Permille(120)},
                   {ControlKind::yardstick, plan.lots[1], 0, 2, Permille(120)}};
  plan.pairs_per_sitting = 5;
  return plan;
}

std::shared_ptr<const Trial> TrialMaker::sealed(int number) {
  auto trial = std::make_shared<Trial>();
  trial->draft = plan(number);
  trial->created = now_;
  std::array<std::uint8_t, 32> seed{}, salt{};
  ids_.fill(seed);
  ids_.fill(salt);
  auto deal = taken(design::deal(trial->draft, seed, salt, ids_));
  auto sealed = std::make_shared<SealedPlan>();
  sealed->plan = trial->draft;
  sealed->registers = registers_of(trial->draft, registers_);
  sealed->attributes = attributes_of(trial->draft, builtin_attributes());
  sealed->sealed = now_;
  take_digests(*sealed, deal.key);
  const ApplySeal seal{sealed, std::make_shared<const Key>(std::move(deal.key)), std::move(deal.servings)};
  return taken(apply(trial, seal, now_)).next;
}

std::shared_ptr<const Sheet> TrialMaker::sheet(const Trial& trial, IdOf<Serving> serving) {
  std::normal_distribution<double> luck(10, 1.6);
  auto out = std::make_shared<Sheet>();
  out->serving = serving;
  out->started = now_;
  for (const auto& attribute : trial.sealed->attributes) {
    for (const auto& field : mark_fields(attribute))
      for (const Side side : {Side::left, Side::right}) {
        const int halves = std::clamp(static_cast<int>(luck(random_) + 0.5), 0, 20);
        const Mark mark = attribute.scale == Scale::seconds ? Mark(FinishTime::from_seconds(20 + 3 * halves))
                                                            : Mark(*Score::from_halves(halves));
        out->cup(side).marks.emplace(field, mark);
      }
    if (attribute.direct)
      out->directs.emplace(attribute.id, random_() % 2 == 0 ? Direct::left_more : Direct::right_more);
  }
  out->left.words = {{"hay", 1}};
  out->right.words = {{"honey", 2}};
  out->locked = now_;
  out->digest = sheet_digest(*out);
  return out;
}

void TrialMaker::brew(Trial& trial) {
  for (auto& [id, brew] : trial.brews) {
    auto brewed = std::make_shared<Brew>(*brew);
    brewed->leaf = Mass(4000);
    Moment at = now_;
    for (const auto kind : {StampKind::pour_start, StampKind::pour_end, StampKind::drain_start, StampKind::drain_end,
                            StampKind::chill_start, StampKind::ready}) {
      at.utc_ms += kind == StampKind::drain_start ? 40'000 : 5'000;
      brewed->stamps.push_back({kind, 1, at, std::nullopt});
    }
    brew = std::move(brewed);
  }
}

Trial TrialMaker::finished(int number) {
  Trial trial = *sealed(number);
  brew(trial);
  for (const auto& serving : trial.servings) trial.sheets.emplace(serving.id, sheet(trial, serving.id));
  trial.unmasked = taken(unmask(trial, "O.", now_));
  return trial;
}

Trial TrialMaker::tasting(int number) {
  Trial trial = *sealed(number);
  brew(trial);
  for (std::size_t i = 0; i < trial.servings.size() / 2; ++i) {
    const auto serving = trial.servings[i].id;
    trial.sheets.emplace(serving, sheet(trial, serving));
  }
  return trial;
}

TrialImport TrialMaker::import(int number) {
  TrialImport out;
  out.trial = finished(number);
  out.registers = registers_;
  out.attributes = builtin_attributes();
  out.digest = trial_digest(out.trial, out.registers, out.attributes);
  return out;
}

Result<void> make_book(const std::filesystem::path& path, int trials) {
  SystemEntropy entropy;
  store::Seams seams;
  seams.synchronous = "OFF";  // it can be made again
  auto book = store::Book::create(path, Moment{1'772'454'730'000, 60, 0}, entropy, seams);
  if (!book) return tl::unexpected<Error>(book.error());
  TrialMaker maker(seed_of_books);
  auto& db = (*book)->writing();
  db.exec("PRAGMA cache_size = -1000000");
  for (const auto& lot : maker.registers().lots) store::persist(db, lot);
  for (const auto& person : maker.registers().assessors) store::persist(db, person);
  for (int number = 1; number <= trials;) {
    SQLite::Transaction transaction(db);
    for (int i = 0; i < trials_at_once && number <= trials; ++i, ++number) {
      Trial trial = number == trials - 1 ? maker.tasting(number) : maker.finished(number);
      if (number == trials) {
        Trial draft;
        draft.draft = trial.draft;
        draft.created = trial.created;
        trial = std::move(draft);
      }
      store::persist(db, nullptr, trial);
    }
    transaction.commit();
    db.exec("PRAGMA wal_checkpoint(PASSIVE)");
  }
  return (*book)->close();
}

}  // namespace likeleaf::bench
