// Makes the three invented trials of the sample book: make_samples OUT_FOLDER WORK_FOLDER.
//
// A small tea counter on an invented ferry pier. H. plans, O. prepares, R., K., M. and T. taste. Every score is drawn
// from the true effects stated below; nothing was tasted. The deal, the sheets and the unmask go through the program's
// own commands. For trial 14 the scores' number is the first, counting from 1, that gives bitterness Moved and enough
// to matter, body Held and sweetness Open (so it is a picked example and says nothing of how often that happens).
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <limits>
#include <map>
#include <random>
#include <set>

#include "core/acts/command.h"
#include "core/acts/unmask.h"
#include "core/base/clock.h"
#include "core/base/entropy.h"
#include "core/codec/builtin.h"
#include "core/evidence/find.h"
#include "core/exchange/bundle_write.h"
#include "core/session/session.h"
#include "core/wording/errors.h"
#include "core/wording/findings_text.h"

namespace {

using namespace likeleaf;

template <class T>
T must(Result<T> result, const char* what) {
  if (!result) {
    std::cerr << what << ": " << wording::sentence(result.error()) << '\n';
    std::exit(1);
  }
  if constexpr (!std::is_void_v<T>) return std::move(*result);
}

// Normal numbers from mt19937_64 by Box and Muller: the standard distributions differ between platforms.
class Draw {
 public:
  explicit Draw(std::uint64_t seed) : engine_(seed) {}
  double uniform() { return (static_cast<double>(engine_() >> 11) + 0.5) / 9007199254740992.0; }
  double normal(double sd) {
    return sd * std::sqrt(-2 * std::log(uniform())) * std::cos(6.283185307179586 * uniform());
  }

 private:
  std::mt19937_64 engine_;
};

/// True effects in points for the second level against the first; for finish length ln of the ratio.
struct Truth {
  std::map<std::string, double> effect;
  double pot_sd = 0.4, pair_sd = 1.2, first_lean = 0.2;
  double yardstick_body = -1.1;
};

struct Times {
  Moment sealed, unmasked;
  std::vector<Moment> sittings;
};

Moment at(const char* iso) {
  return *parse_iso(iso);
}

Moment later(Moment m, int seconds_on) {
  m.utc_ms += static_cast<std::int64_t>(seconds_on) * 1000;
  return m;
}

class Bench {
 public:
  Bench(std::shared_ptr<const Trial> trial, Times times, Truth truth, std::uint64_t seed, std::string dealer)
      : trial_(std::move(trial)),
        times_(std::move(times)),
        truth_(std::move(truth)),
        draw_(seed),
        who_(std::move(dealer)) {
    for (const auto& a : trial_->sealed->attributes)
      for (const auto& field : mark_fields(a))
        base_[field] = a.scale == Scale::seconds ? std::log(28.0) : 4.6 + draw_.normal(0.5);
  }

  void run(const Command& command, const Moment& now) {
    auto change = must(apply(trial_, command, now), "command");
    trial_ = std::move(change.next);
  }

  [[nodiscard]] std::shared_ptr<const Trial> trial() const { return trial_; }

  /// Brews as planned, but for the steep given here by brew id. The key is open while its sitting is brewed.
  void brew_all(const std::map<IdOf<Brew>, Duration>& steeps) {
    const Plan& plan = trial_->sealed->plan;
    const IdOf<Assessor> preparing = preparer(plan);
    if (plan.blinding == Blinding::preparer) run(OpenKey{preparing}, times_.sealed);
    const std::vector<IdOf<Brew>> ids = [&] {
      std::vector<std::pair<int, IdOf<Brew>>> order;
      for (const auto& [id, brew] : trial_->brews) order.emplace_back(brew->number, id);
      std::sort(order.begin(), order.end());
      std::vector<IdOf<Brew>> out;
      for (const auto& [n, id] : order) out.push_back(id);
      return out;
    }();
    for (const auto& lot : plan.lots) run(TickWeighed{lot, true}, times_.sealed);
    if (!plan.warm_up_lot.empty()) run(TickWeighed{plan.warm_up_lot, true}, times_.sealed);
    for (const auto& id : ids) {
      const Brew brew = *trial_->brews.at(id);
      const auto target = [&](ConstantKind kind) {
        const auto* c = find_constant(plan, kind);
        return c && c->target ? *c->target : 0;
      };
      const auto level = [&](LeverKind kind, ConstantKind constant) {
        return plan.lever.kind == kind ? *plan.lever.levels[brew.level].value : target(constant);
      };
      PutBrewFacts facts;
      facts.brew = id;
      facts.leaf = Mass(level(LeverKind::leaf_dose, ConstantKind::leaf_dose));
      Infusion infusion;
      infusion.water = Mass(target(ConstantKind::water_mass));
      infusion.pour = Temperature(level(LeverKind::water_temperature, ConstantKind::water_temperature));
      const auto odd = steeps.find(id);
      const Duration steep =
          odd != steeps.end() ? odd->second : Duration(level(LeverKind::steep_time, ConstantKind::steep_time));
      facts.infusions = {infusion};
      const Moment poured = pour_of(brew);
      run(facts, poured);
      stamp(id, poured, static_cast<int>(steep.count() / 1000));
      pot_[id] = draw_.normal(truth_.pot_sd);
    }
    if (plan.blinding == Blinding::preparer) run(CloseKey{preparing}, later(times_.sittings.back(), 3600));
  }

  /// The state of the day of every taster at every sitting: well, nothing strong eaten, spitting.
  void note_days() {
    for (const auto& s : trial_->servings)
      if (noted_.insert({s.assessor, s.sitting}).second) {
        DayState day;
        day.assessor = s.assessor;
        day.sitting = s.sitting;
        day.noted = later(times_.sittings[static_cast<std::size_t>(s.sitting - 1)], 600);
        run(PutDayState{day}, day.noted);
      }
  }

  /// One sheet a serving, in order; the fault and the amendment are called from outside.
  void taste(const BlindServing& serving) {
    const auto pair = resolve_pair(*trial_, serving.pair);
    const Moment now = later(times_.sittings[static_cast<std::size_t>(serving.sitting - 1)], 900 + serving.place * 360);
    const Side side_a = serving.left == pair->code_a ? Side::left : Side::right;
    run(StartSheet{serving.id, EnteredBy::screen}, now);
    std::map<std::string, std::array<double, 2>> felt;
    for (const auto& a : trial_->sealed->attributes) score(a, *pair, serving, side_a, now, felt);
    for (const auto& a : trial_->sealed->attributes)
      if (a.direct) {
        const double gap =
            felt[a.id][side_a == Side::left ? 0 : 1] - felt[a.id][side_a == Side::left ? 1 : 0] + draw_.normal(0.5);
        run(PutDirect{serving.id, a.id,
                      std::fabs(gap) < 0.5 ? Direct::cannot_tell
                      : gap > 0            ? Direct::left_more
                                           : Direct::right_more},
            now);
      }
    for (const Side side : {Side::left, Side::right}) words(*pair, serving.id, side, side == side_a, now);
    run(LockSheet{serving.id}, later(now, 330));
    const bool saw = draw_.uniform() < 0.1;
    Guess guess{saw, std::nullopt};
    if (draw_.uniform() < 0.25) guess.present_way = draw_.uniform() < 0.5 ? Side::left : Side::right;
    run(PutGuess{serving.id, guess}, later(now, 345));
  }

  void serve(const IdOf<Pair>& pair, int sitting, int place) {
    if (served_.contains(pair)) return;
    served_.insert(pair);
    const auto warm = [&] { return Temperature(42'000 + std::llround(draw_.normal(0.15) * 10) * 100); };
    run(PutServed{{pair, later(times_.sittings[static_cast<std::size_t>(sitting - 1)], 900 + place * 360), warm(),
                   warm()}},
        later(times_.sittings[static_cast<std::size_t>(sitting - 1)], 900 + place * 360));
  }

 private:
  /// Seven minutes before the brew's first pair is due on the table; the second of two brews a minute later.
  [[nodiscard]] Moment pour_of(const Brew& brew) const {
    int place = std::numeric_limits<int>::max();
    bool second = false;
    for (const auto& s : trial_->servings) {
      const auto pair = resolve_pair(*trial_, s.pair);
      if (!pair || (pair->cup_a.brew != brew.id && pair->cup_b.brew != brew.id) || s.place >= place) continue;
      place = s.place;
      second =
          pair->cup_a.brew != pair->cup_b.brew &&
          brew.number > trial_->brews.at(pair->cup_a.brew == brew.id ? pair->cup_b.brew : pair->cup_a.brew)->number;
    }
    return later(times_.sittings[static_cast<std::size_t>(brew.sitting - 1)],
                 900 + place * 360 - 420 + (second ? 60 : 0));
  }

  /// Eight seconds to pour, four to drain; the steep runs from the middle of the one to the middle of the other.
  void stamp(IdOf<Brew> id, const Moment& poured, int steep) {
    const std::pair<StampKind, int> stamps[] = {{StampKind::pour_start, 0},           {StampKind::pour_end, 8},
                                                {StampKind::drain_start, 2 + steep},  {StampKind::drain_end, 6 + steep},
                                                {StampKind::chill_start, 12 + steep}, {StampKind::ready, 230 + steep}};
    for (const auto& [kind, after] : stamps) run(PutStamp{id, kind, 1}, later(poured, after));
  }

  double cup(const KeyPair& pair, const std::string& id, const std::string& field, bool is_a, bool sipped_first,
             double person, bool finish) {
    const std::size_t level = is_a ? pair.level_a : pair.level_b;
    const auto found = truth_.effect.find(id + (field == id ? "" : field.substr(id.size())));
    const double effect = found == truth_.effect.end() ? 0 : found->second * static_cast<double>(level);
    double value = base_[field] + person + effect + (sipped_first && !finish ? truth_.first_lean : 0);
    const auto pot = pot_.find(is_a ? pair.cup_a.brew : pair.cup_b.brew);
    value += (pot == pot_.end() ? 0 : pot->second) * (finish ? 0.25 : 1) +
             draw_.normal(truth_.pair_sd / std::sqrt(2.0) * (finish ? 0.3 : 1));
    if (pair.kind == PairKind::yardstick && !is_a) value += id == "body" ? truth_.yardstick_body : -0.5;
    return value;
  }

  void score(const Attribute& a, const KeyPair& pair, const BlindServing& serving, Side side_a, const Moment& now,
             std::map<std::string, std::array<double, 2>>& felt) {
    for (const auto& field : mark_fields(a)) {
      const double person = draw_.normal(a.scale == Scale::seconds ? 0.2 : 0.6);
      for (const bool is_a : {true, false}) {
        const Side side = is_a ? side_a : other(side_a);
        const double value = cup(pair, a.id, field, is_a, side == serving.first, person, a.scale == Scale::seconds);
        felt[field][is_a ? 0 : 1] = value;
        if (a.scale == Scale::seconds)
          run(PutMark{serving.id, side, field,
                      Mark(FinishTime::from_seconds(static_cast<int>(std::lround(std::exp(value)))))},
              now);
        else
          run(PutMark{serving.id, side, field,
                      Mark(*Score::from_halves(static_cast<int>(std::clamp(std::lround(value * 2), 0L, 20L))))},
              now);
      }
    }
  }

  void words(const KeyPair& pair, IdOf<Serving> serving, Side side, bool is_a, const Moment& now) {
    const std::size_t level = is_a ? pair.level_a : pair.level_b;
    std::vector<WordMark> marked;
    for (const auto& word : builtin_lexicon()) {
      if (word.fault) continue;
      const double share = word.band == AromaWord::Band::base  ? (level > 0 ? 0.03 : 0.02)
                           : word.band == AromaWord::Band::top ? (level > 0 ? 0.01 : 0.025)
                                                               : 0.015;
      if (marked.size() < 3 && draw_.uniform() < share) marked.push_back({word.id, std::nullopt});
    }
    if (!marked.empty()) run(PutWords{serving, side, marked}, now);
  }

  std::shared_ptr<const Trial> trial_;
  Times times_;
  Truth truth_;
  Draw draw_;
  std::string who_;
  std::map<std::string, double> base_;
  std::map<IdOf<Brew>, double> pot_;
  std::set<IdOf<Pair>> served_;
  std::set<std::pair<IdOf<Assessor>, int>> noted_;
};

struct House {
  Registers registers;
  std::map<std::string, IdOf<Lot>> lot;
  std::map<std::string, IdOf<Assessor>> who;
  IdOf<Water> water;
  IdOf<Vessel> glass;
};

House ferry_pier(Entropy& ids) {
  House h;
  const auto lot = [&](const char* code, const char* name, LeafType type, LeafForm form, int stock) {
    Lot l;
    l.id = IdOf<Lot>::make(ids);
    l.code = code;
    l.name = name;
    l.type = type;
    l.form = form;
    l.stock = grams(stock);
    l.notes = "invented for the sample";
    h.lot[code] = l.id;
    h.registers.lots.push_back(l);
  };
  lot("L-07", "pan-fired green, spring", LeafType::green, LeafForm::whole, 50);
  lot("L-12", "rolled oolong, light roast", LeafType::oolong, LeafForm::rolled, 120);
  lot("L-18", "yellow, small leaf", LeafType::yellow, LeafForm::whole, 40);
  lot("L-21", "broken black", LeafType::black, LeafForm::broken, 200);
  lot("L-25", "dark, aged", LeafType::dark, LeafForm::pressed, 90);
  h.water = IdOf<Water>::make(ids);
  h.registers.waters.push_back(
      {h.water, "house soft water, boiled and cooled", 40, 35, 80, 720, "invented for the sample"});
  h.glass = IdOf<Vessel>::make(ids);
  h.registers.vessels.push_back(
      {h.glass, "glass 250 ml", "borosilicate glass", grams(140), millilitres(250), "invented for the sample"});
  for (const char* alias : {"H.", "O.", "R.", "K.", "M.", "T."}) {
    const auto id = IdOf<Assessor>::make(ids);
    h.who[alias] = id;
    h.registers.assessors.push_back({id, alias, ""});
  }
  return h;
}

Constant number(ConstantKind kind, std::int64_t target, std::int64_t tolerance) {
  Constant c;
  c.kind = kind;
  c.target = target;
  c.tolerance = tolerance;
  return c;
}

Constant words(ConstantKind kind, std::string text, std::string record = {}) {
  Constant c;
  c.kind = kind;
  c.text = std::move(text);
  c.record = std::move(record);
  return c;
}

Level level(std::int64_t value, bool now = false) {
  Level l;
  l.value = value;
  l.present_way = now;
  return l;
}

Plan common_plan(const House& h, Entropy& ids, int number_, std::string question) {
  Plan p;
  p.id = IdOf<Trial>::make(ids);
  p.number = number_;
  p.house = "Ferry pier counter";
  p.question = std::move(question);
  p.constants = {number(ConstantKind::leaf_dose, 4'000, 50),
                 number(ConstantKind::water_mass, 200'000, 2'000),
                 number(ConstantKind::water_temperature, 88'000, 1'000),
                 number(ConstantKind::steep_time, 45'000, 3'000),
                 words(ConstantKind::water, "house soft water, boiled and cooled", h.water.text()),
                 words(ConstantKind::vessel, "a warmed glass of 250 ml", h.glass.text()),
                 words(ConstantKind::strainer, "strained fully"),
                 words(ConstantKind::chill, "into ice with lids, then the lidded bath at 42 °C"),
                 number(ConstantKind::tasting_temperature, 42'000, 1'000),
                 number(ConstantKind::longest_hold, 600'000, 0),
                 words(ConstantKind::eyes, "opaque cups"),
                 words(ConstantKind::rinse, "water and a plain cracker")};
  for (const auto& a : builtin_attributes()) p.attributes.push_back({a.id, false, a.margin, Expectation::none});
  p.exclusion_rule = "A sheet counts unless its cup was spoilt or its taster was called away.";
  return p;
}

void decide(Plan& p, const std::string& attribute, Expectation expected, bool deciding = true) {
  for (auto& a : p.attributes)
    if (a.attribute == attribute) {
      a.deciding = deciding;
      a.expected = expected;
    }
}

void drop_constant(Plan& p, ConstantKind kind) {
  std::erase_if(p.constants, [&](const Constant& c) { return c.kind == kind; });
}

std::shared_ptr<const Trial> sealed(const House& h, const Plan& plan, const std::filesystem::path& work,
                                    HandClock& clock, Entropy& entropy) {
  HandDispatcher dispatcher;
  const Services services{clock, entropy, dispatcher};
  const auto book = work / fmt::format("make-{}.leafbook", plan.number);
  std::filesystem::remove(book);
  auto session = must(Session::create(book, services), "book");
  for (const auto& l : h.registers.lots) must(session->put(l), "lot");
  for (const auto& w : h.registers.waters) must(session->put(w), "water");
  for (const auto& v : h.registers.vessels) must(session->put(v), "vessel");
  for (const auto& a : h.registers.assessors) must(session->put(a), "assessor");
  must(session->new_trial(plan), "trial");
  Plan numbered = session->trial()->draft;
  must(session->seal(), "seal");
  must(session->flush(), "flush");
  return session->trial();
}

void taste_all(Bench& bench, const std::optional<std::pair<IdOf<Pair>, std::string>>& to_void, const Moment& when) {
  std::vector<IdOf<Serving>> order;
  for (const auto* s : live_servings(*bench.trial())) order.push_back(s->id);
  if (to_void) bench.run(VoidPair{to_void->first, "O.", to_void->second}, when);
  order.clear();
  for (const auto* s : live_servings(*bench.trial())) order.push_back(s->id);
  for (const auto& id : order) {
    const auto* serving = [&]() -> const BlindServing* {
      for (const auto* s : live_servings(*bench.trial()))
        if (s->id == id) return s;
      return nullptr;
    }();
    const BlindServing copy = *serving;
    bench.serve(copy.pair, copy.sitting, copy.place);
    bench.taste(copy);
  }
}

void write(const std::filesystem::path& out, const Trial& trial, const Registers& registers) {
  const auto file = out / fmt::format("trial-{}.json", trial.draft.number);
  std::ofstream(file, std::ios::binary) << exchange::bundle_text(trial, registers, builtin_attributes(),
                                                                 "Likeleaf sample script; every score is invented");
  std::cout << file.string() << '\n';
}

// Trial 14: water 88 °C, as now, against 68 °C.
void trial_14(const House& h, const std::filesystem::path& out, const std::filesystem::path& work) {
  FixedEntropy entropy(1414);
  Plan p = common_plan(h, entropy, 14, "Is 88 °C too hot for these leaves?");
  p.lever.kind = LeverKind::water_temperature;
  p.lever.levels = {level(88'000, true), level(68'000)};
  drop_constant(p, ConstantKind::water_temperature);
  p.lots = {h.lot.at("L-07"), h.lot.at("L-12"), h.lot.at("L-18")};
  p.warm_up_lot = h.lot.at("L-21");
  p.assessors = {{h.who.at("H."), Role::head},   {h.who.at("O."), Role::preparer}, {h.who.at("R."), Role::taster},
                 {h.who.at("K."), Role::taster}, {h.who.at("M."), Role::taster},   {h.who.at("T."), Role::taster}};
  p.controls = {{ControlKind::blank, h.lot.at("L-18"), 0, 1, Permille(0)},
                {ControlKind::yardstick, h.lot.at("L-12"), 0, 2, Permille(120)},
                {ControlKind::blank, h.lot.at("L-07"), 1, 3, Permille(0)}};
  p.reference_pair = ReferenceWords{
      h.lot.at("L-21"), "body is how thick it is in the mouth; structure is what stays 20 seconds after", true};
  p.sittings = 3;
  decide(p, "bitterness", Expectation::more);
  decide(p, "body", Expectation::same);
  decide(p, "sweetness", Expectation::same);
  decide(p, "astringency", Expectation::more, false);
  decide(p, "savoury", Expectation::same, false);
  decide(p, "finish_structure", Expectation::more, false);
  decide(p, "finish_length", Expectation::more, false);
  decide(p, "aroma_register", Expectation::less, false);
  IfThenRule rule;
  rule.clauses = {{"bitterness", RuleClause::Way::falls, 2}, {"body", RuleClause::Way::holds, 2}};
  rule.to_level = 1;
  rule.leaves = {h.lot.at("L-12")};
  rule.action = "L-12 goes to 68 °C at the counter";
  p.rule = rule;
  HandClock clock(at("2026-03-02T09:30:00+01:00"));
  const auto start = sealed(h, p, work, clock, entropy);

  // True effects of 88 against 68 °C; level index 0 is 88, so they are stated for index 1 with the other sign.
  Truth truth;
  truth.effect = {{"bitterness", -1.9},
                  {"body", 0},
                  {"sweetness", 0.4},
                  {"astringency", -1.2},
                  {"savoury", 0},
                  {"finish_structure", -0.9},
                  {"finish_length", -std::log(1.25)},
                  {"aroma_register.top", 0.5},
                  {"aroma_register.base", -0.5}};
  const Times times{
      at("2026-03-02T09:30:00+01:00"),
      at("2026-03-03T16:40:00+01:00"),
      {at("2026-03-02T10:00:00+01:00"), at("2026-03-02T13:00:00+01:00"), at("2026-03-03T13:00:00+01:00")}};
  std::map<IdOf<Brew>, Duration> odd;
  IdOf<Pair> spilt;
  for (const auto& [id, brew] : start->brews)
    if (brew->lot == h.lot.at("L-12") && brew->set == 2 && brew->level == 0) odd[id] = seconds(50);
  for (const auto& pair : start->key->pairs)
    if (pair.kind == PairKind::contrast && pair.lot == h.lot.at("L-12") && pair.set == 3) spilt = pair.id;
  for (std::uint64_t number_ = 1;; ++number_) {
    Bench bench(start, times, truth, 140'000 + number_, "O.");
    bench.run(VoidPair{spilt, "O.", "one cup was knocked over before it was served"}, times.sittings[2]);
    bench.brew_all(odd);
    bench.note_days();
    taste_all(bench, std::nullopt, times.sittings[2]);
    // One slip of the pen, found and amended after the lock: the note says what was meant.
    const auto live = live_servings(*bench.trial());
    const BlindServing* slip = nullptr;
    for (const auto* s : live)
      if (s->assessor == h.who.at("T.") && s->sitting == 2 && s->place == 2) slip = s;
    const auto old = std::get<Score>(bench.trial()->sheets.at(slip->id)->left.marks.at("savoury"));
    Amendment amend;
    amend.target = Amendment::Target::sheet_mark;
    amend.serving = slip->id;
    amend.side = Side::left;
    amend.field = "savoury";
    amend.new_value = mark_text(Mark(*Score::from_halves(old.halves() >= 2 ? old.halves() - 1 : old.halves() + 1)));
    amend.who = "T.";
    amend.why = "half a point too high by a slip of the key, said before the key was opened";
    bench.run(Amend{amend}, later(times.unmasked, -1800));
    bench.run(Unmask{"H."}, times.unmasked);
    const auto findings = must(evidence::find(must(open_unmasked(bench.trial()), "unmasked")), "findings");
    std::map<std::string, const evidence::AttributeFinding*> by;
    for (const auto& f : findings.attributes) by[f.attribute.id] = &f;
    const bool fits = by["bitterness"]->word == evidence::Word::moved && by["bitterness"]->enough_to_matter &&
                      by["bitterness"]->estimate > 0 && by["body"]->word == evidence::Word::held &&
                      by["sweetness"]->word == evidence::Word::open && by["sweetness"]->estimate < 0;
    std::cout << number_ << ": " << wording::headline(findings, *bench.trial()->sealed, {}) << (fits ? " *" : "")
              << '\n';
    if (!fits) continue;
    bench.run(AdoptRule{{"L-12 goes to 68 °C at the counter.",
                         {h.lot.at("L-12")},
                         "5 March 2026",
                         "H.",
                         "with the spring harvest",
                         false,
                         at("2026-03-05T09:00:00+01:00")}},
              at("2026-03-05T09:00:00+01:00"));
    write(out, *bench.trial(), h.registers);
    return;
  }
}

// Trial 15: steep 30, 45, 60 s at 85 °C.
void trial_15(const House& h, const std::filesystem::path& out, const std::filesystem::path& work) {
  FixedEntropy entropy(1515);
  Plan p = common_plan(h, entropy, 15, "How long should the aged dark steep?");
  p.lever.kind = LeverKind::steep_time;
  p.lever.levels = {level(30'000), level(45'000, true), level(60'000)};
  drop_constant(p, ConstantKind::steep_time);
  for (auto& c : p.constants)
    if (c.kind == ConstantKind::water_temperature)
      c.target = 85'000;
    else if (c.kind == ConstantKind::longest_hold)
      c.target = 1'200'000;  // the present way's brew is served twice
  p.lots = {h.lot.at("L-25")};
  p.brew_pairs = 4;
  p.assessors = {{h.who.at("H."), Role::head},
                 {h.who.at("O."), Role::preparer},
                 {h.who.at("R."), Role::taster},
                 {h.who.at("K."), Role::taster}};
  decide(p, "bitterness", Expectation::more);
  decide(p, "finish_structure", Expectation::more);
  HandClock clock(at("2026-03-09T09:30:00+01:00"));
  const auto start = sealed(h, p, work, clock, entropy);
  Truth truth;
  truth.effect = {{"bitterness", 0.5}, {"finish_structure", 0.4}};
  Times times{at("2026-03-09T09:30:00+01:00"), at("2026-03-10T17:00:00+01:00"), {}};
  for (int s = 0; s < 8; ++s) times.sittings.push_back(later(at("2026-03-09T10:00:00+01:00"), s * 3600));
  Bench bench(start, times, truth, 150'001, "O.");
  bench.brew_all({});
  bench.note_days();
  taste_all(bench, std::nullopt, times.sealed);
  bench.run(Unmask{"H."}, times.unmasked);
  write(out, *bench.trial(), h.registers);
}

// Trial 16: M. alone, self-blinded, dose 3 g against 5 g.
void trial_16(const House& h, const std::filesystem::path& out, const std::filesystem::path& work) {
  FixedEntropy entropy(1616);
  Plan p = common_plan(h, entropy, 16, "Does more leaf pay?");
  p.lever.kind = LeverKind::leaf_dose;
  p.lever.levels = {level(3'000, true), level(5'000)};
  drop_constant(p, ConstantKind::leaf_dose);
  p.lots = {h.lot.at("L-12")};
  p.brew_pairs = 6;
  p.blinding = Blinding::self;
  p.sittings = 2;
  p.assessors = {{h.who.at("M."), Role::taster}, {h.who.at("M."), Role::preparer}};
  p.controls = {{ControlKind::blank, h.lot.at("L-12"), 0, 1, Permille(0)},
                {ControlKind::blank, h.lot.at("L-12"), 1, 2, Permille(0)}};
  decide(p, "body", Expectation::more);
  decide(p, "bitterness", Expectation::more);
  HandClock clock(at("2026-03-16T09:30:00+01:00"));
  const auto start = sealed(h, p, work, clock, entropy);
  Truth truth;
  truth.effect = {{"body", 1.2}, {"bitterness", 1.0}};
  const Times times{at("2026-03-16T09:30:00+01:00"),
                    at("2026-03-17T17:00:00+01:00"),
                    {at("2026-03-16T10:00:00+01:00"), at("2026-03-17T10:00:00+01:00")}};
  Bench bench(start, times, truth, 160'001, "M.");
  bench.brew_all({});
  bench.note_days();
  taste_all(bench, std::nullopt, times.sealed);
  bench.run(Unmask{"M."}, times.unmasked);
  write(out, *bench.trial(), h.registers);
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 3) {
    std::cerr << "make_samples OUT_FOLDER WORK_FOLDER\n";
    return 2;
  }
  const std::filesystem::path out(argv[1]), work(argv[2]);
  std::filesystem::create_directories(out);
  std::filesystem::create_directories(work);
  FixedEntropy ids(7);
  const House house = ferry_pier(ids);
  trial_14(house, out, work);
  trial_15(house, out, work);
  trial_16(house, out, work);
  return 0;
}
