#include "core/report/prints.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "core/acts/bench_sitting.h"
#include "core/base/number_text.h"
#include "core/domain/asked.h"
#include "core/planning/needs.h"
#include "core/wording/amount_text.h"
#include "core/wording/cautions.h"
#include "core/wording/lever_text.h"
#include "core/wording/plan_text.h"

namespace likeleaf::report {
namespace {

constexpr const char* times_sign = "\u00D7";
constexpr UsualTimes usual;  // nothing is stamped yet; only to lay out the clock
constexpr Temperature cool_water = celsius(20);

std::string lot_code(const Trial& trial, IdOf<Lot> id) {
  const Lot* lot = find_record(trial.sealed->registers.lots, id);
  return lot ? lot->code : "?";
}

/// One pair that is still served, with what its codes hold.
struct KeyedPair {
  TablePair table;
  KeyPair key;
};

std::vector<KeyedPair> pairs_on_the_table(const Trial& trial, const PrintScope& scope) {
  auto servings = live_servings(trial);
  std::erase_if(servings, [&](const BlindServing* s) { return !scope.holds(*s); });
  std::vector<KeyedPair> out;
  for (const auto& pair : pairs_of(servings))
    if (auto key = resolve_pair(trial, pair.id)) out.push_back({pair, *key});
  return out;
}

/// A cup that a brew fills.
struct Filling {
  BlindCode code;
  int cups = 1;
  Permille dilution{0};
};

/// A brew in the order of brewing, with the cups it fills. A yardstick's second brew fills none by the key: its liquor
/// is pooled with the brew before it.
struct BrewRow {
  const Brew* brew = nullptr;
  std::vector<Filling> into;
  const Brew* pooled_with = nullptr;
};

const Brew* brew_of(const Trial& trial, IdOf<Brew> id) {
  const auto found = trial.brews.find(id);
  return found == trial.brews.end() ? nullptr : found->second.get();
}

/// The brew beside a yardstick's that no pair names; nothing where it was brewed again as one pot.
const Brew* jug_mate(const Trial& trial, const Brew& first, const std::set<IdOf<Brew>>& named) {
  const Brew* found = nullptr;
  for (const auto& [id, brew] : trial.brews)
    if (!named.contains(id) && brew->number > first.number && brew->lot == first.lot && brew->level == first.level &&
        brew->sitting == first.sitting && brew->set == first.set && (!found || brew->number < found->number))
      found = brew.get();
  return found;
}

std::vector<BrewRow> brew_rows(const Trial& trial, const std::vector<KeyedPair>& pairs) {
  std::set<IdOf<Brew>> named;
  for (const auto& serving : trial.servings)
    if (const auto pair = resolve_pair(trial, serving.pair)) named.insert({pair->cup_a.brew, pair->cup_b.brew});
  std::map<int, BrewRow> rows;
  const auto row = [&](const Brew& brew) -> BrewRow& {
    BrewRow& r = rows[brew.number];
    r.brew = &brew;
    return r;
  };
  for (const auto& pair : pairs) {
    const Brew* a = brew_of(trial, pair.key.cup_a.brew);
    const Brew* b = brew_of(trial, pair.key.cup_b.brew);
    if (a) row(*a).into.push_back({pair.key.code_a, pair.table.cups, pair.key.cup_a.dilution});
    if (b) row(*b).into.push_back({pair.key.code_b, pair.table.cups, pair.key.cup_b.dilution});
    if (pair.key.kind != PairKind::yardstick || !a) continue;
    if (const Brew* mate = jug_mate(trial, *a, named)) {
      row(*a).pooled_with = mate;
      row(*mate).pooled_with = a;
    }
  }
  std::vector<BrewRow> out;
  for (auto& [number, r] : rows) out.push_back(std::move(r));
  return out;
}

std::string infusion_text(Mass water, std::optional<Temperature> pour, const Style& style) {
  std::string out = mass_text(water, style);
  if (!pour) return out;
  out += " at " + temperature_text(*pour, style);
  if (const auto mix = water_mix(water, *pour, cool_water); mix && mix->cool.count() > 0)
    out += fmt::format("\n{1}{0}boiling{0}+{0}{2}{0}cool", no_break_space, mass_text(mix->boiling, style),
                       mass_text(mix->cool, style));
  return out;
}

struct Recipe {
  std::vector<std::string> water, steep;  ///< one line an infusion
};

Recipe recipe_of(const Plan& plan, std::size_t level, const Style& style) {
  Recipe out;
  if (const auto schedule = schedule_of(plan, level); !schedule.empty()) {
    int number = 0;
    for (const auto& one : schedule) {
      ++number;
      out.water.push_back(fmt::format("{}. {}", number, infusion_text(one.water, one.pour, style)));
      out.steep.push_back(fmt::format("{}. {}", number, duration_text(one.steep, style)));
    }
    return out;
  }
  const auto pour = asked(plan, ConstantKind::water_temperature, level, 1);
  const auto water = planned_water(plan, level);
  if (water)
    out.water.push_back(infusion_text(*water, pour ? std::optional(Temperature(pour->value)) : std::nullopt, style));
  else if (pour)
    out.water.push_back("at " + temperature_text(Temperature(pour->value), style));
  if (const auto steep = asked(plan, ConstantKind::steep_time, level, 1))
    out.steep.push_back(duration_text(Duration(steep->value), style));
  return out;
}

std::string joined(const std::vector<std::string>& parts, const char* between) {
  std::string out;
  for (const auto& part : parts) out += (out.empty() ? "" : between) + part;
  return out;
}

std::string cup_text(const Plan& plan, const Filling& into, const Style& style) {
  if (into.dilution.count() == 0) return volume_text(plan.cup, style);
  const Volume added(plan.cup.count() * into.dilution.count() / 1000);
  return fmt::format("{} + {} water", volume_text(plan.cup - added, style), volume_text(added, style));
}

std::string fillings_text(const Plan& plan, const BrewRow& row, const Style& style) {
  std::string out;
  for (const auto& into : row.into)
    out += fmt::format("{}{} {}{}{}\n{}", out.empty() ? "" : "\n", into.code.text(), times_sign, no_break_space,
                       into.cups, cup_text(plan, into, style));
  if (row.pooled_with) out = fmt::format("jug with {}{}{}", row.pooled_with->number, out.empty() ? "" : ":\n", out);
  return out;
}

const char* kind_name(PairKind kind) {
  switch (kind) {
    case PairKind::contrast:
      return "brew pair";
    case PairKind::blank:
      return "blank";
    case PairKind::yardstick:
      return "yardstick";
    case PairKind::repeat:
      return "repeat serving";
    case PairKind::warm_up:
      break;
  }
  return "warm-up";
}

std::string clock(Duration d) {
  const std::int64_t s = d.count() / 1000;
  return fmt::format("{}:{:02}", s / 60, s % 60);
}

std::string portions_text(std::vector<int> portions) {
  std::ranges::sort(portions);
  std::string out;
  for (std::size_t i = 0; i < portions.size();) {
    std::size_t end = i;
    while (end + 1 < portions.size() && portions[end + 1] == portions[end] + 1) ++end;
    out += (out.empty() ? "" : ", ") + std::to_string(portions[i]);
    if (end > i) out += (end == i + 1 ? ", " : "–") + std::to_string(portions[end]);
    i = end + 1;
  }
  return out;
}

Table weighing(const Trial& trial, const std::vector<BrewRow>& rows, const Style& style) {
  const Plan& plan = trial.sealed->plan;
  Table t;
  t.caption = "Mix and divide each lot first, weigh and number its portions, then sort them to the brews.";
  t.columns = {"Leaf", "Portions", "Each", "Number", "Together"};
  t.numeric = {false, false, true, true, true};
  t.bench = true;
  std::map<std::pair<std::string, Mass>, std::vector<int>> portions;
  for (const auto& row : rows)
    portions[{lot_code(trial, row.brew->lot), planned_leaf(plan, row.brew->level).value_or(Mass{})}].push_back(
        row.brew->portion);
  for (const auto& [what, numbers] : portions)
    t.rows.push_back({what.first, portions_text(numbers), mass_text(what.second, style), std::to_string(numbers.size()),
                      mass_text(what.second * static_cast<std::int64_t>(numbers.size()), style)});
  return t;
}

Table brewing(const Trial& trial, const std::vector<BrewRow>& rows, const Style& style) {
  const Plan& plan = trial.sealed->plan;
  Table t;
  t.columns = {"Brew", "Pour at", "Leaf", "Level", "Water", "Steep", "Into cups", "Real °C", "Real s"};
  t.numeric = {true, true, false, false, false, false, false, false, false};
  if (style.temperature == TemperatureUnit::fahrenheit) t.columns[7] = "Real °F";
  t.bench = true;
  Duration at;
  for (const auto& row : rows) {
    const Brew& brew = *row.brew;
    const auto leaf = planned_leaf(plan, brew.level);
    const Recipe recipe = recipe_of(plan, brew.level, style);
    t.rows.push_back({std::to_string(brew.number), clock(at),
                      fmt::format("{}{}\nportion{}{}", lot_code(trial, brew.lot),
                                  leaf ? ", " + mass_text(*leaf, style) : "", no_break_space, brew.portion),
                      level_text(plan.lever, brew.level, style), joined(recipe.water, "\n"), joined(recipe.steep, "\n"),
                      fillings_text(plan, row, style), "", ""});
    at = at + time_in_hand(plan, brew.level, usual);
  }
  return t;
}

std::string brew_number(const Trial& trial, IdOf<Brew> id) {
  const Brew* brew = brew_of(trial, id);
  return brew ? std::to_string(brew->number) : "?";
}

Table serving(const Trial& trial, const std::vector<KeyedPair>& pairs, const Style& style) {
  const Plan& plan = trial.sealed->plan;
  Table t;
  t.columns = {"Serve", "What it is", "Code, from brew", "Code, from brew", "Served at", "First sip"};
  t.numeric = {false, false, false, false, false, false};
  t.bench = true;
  for (const auto& pair : pairs) {
    std::string what = fmt::format("{}, {}", kind_name(pair.key.kind), lot_code(trial, pair.key.lot));
    if (pair.key.set > 0) what += fmt::format(" no.{}{}", no_break_space, pair.key.set);
    const auto side = [&](BlindCode code, const KeyCup& cup, std::size_t level) {
      std::string out = fmt::format("{} ← brew{}{}, {}", code.text(), no_break_space, brew_number(trial, cup.brew),
                                    level_text(plan.lever, level, style));
      if (cup.dilution.count() > 0) out += "\n" + cup_text(plan, {code, pair.table.cups, cup.dilution}, style);
      return out;
    };
    std::string place = pair.table.place == 0 ? "warm-up" : fmt::format("pair{}{}", no_break_space, pair.table.place);
    if (pair.table.again) place += " again";
    t.rows.push_back({place, what, side(pair.key.code_a, pair.key.cup_a, pair.key.level_a),
                      side(pair.key.code_b, pair.key.cup_b, pair.key.level_b), "", ""});
  }
  return t;
}

/// What stays the same for every brew, a line each.
std::vector<std::string> held(const Plan& plan, const Style& style) {
  std::vector<std::string> out;
  for (const auto& c : plan.constants) {
    std::string line = c.kind == ConstantKind::other && !c.name.empty() ? c.name : constant_name(c.kind);
    if (c.target) line += " " + wording::held_text(c.kind, *c.target, c.tolerance, style);
    if (!c.text.empty()) line += ": " + c.text;
    out.push_back(std::move(line));
  }
  return out;
}

std::vector<std::string> bench_cautions(const Trial& trial, const Style& style) {
  std::vector<std::string> out;
  for (const auto step : {wording::Step::pour, wording::Step::chill, wording::Step::serve, wording::Step::hold})
    for (auto& one : wording::cautions(step, trial.sealed->plan, {}, style)) out.push_back(std::move(one));
  for (const auto& lot : trial.sealed->registers.lots)
    if (!lot.allergens.empty())
      out.push_back(
          fmt::format("{} carries {}: keep its vessels apart, ask before anyone tastes.", lot.code, lot.allergens));
  return out;
}

/// Brews that cannot fill their cups, in words; by what a gram of leaf usually keeps.
std::vector<std::string> short_brews(const Trial& trial, const std::vector<BrewRow>& rows, const Style& style) {
  std::vector<std::string> out;
  const Plan& plan = trial.sealed->plan;
  for (const auto& row : rows) {
    std::int64_t wanted = 0;
    for (const auto& into : row.into) wanted += plan.cup.count() * into.cups * (1000 - into.dilution.count()) / 1000;
    auto gives = liquor_of_a_brew(plan, row.brew->level);
    if (gives && row.pooled_with) *gives = *gives * 2;
    if (gives && wanted > gives->count())
      out.push_back(fmt::format("Brew {} has to fill {} and gives about {}.", row.brew->number,
                                volume_text(Volume(wanted), style), volume_text(*gives, style)));
  }
  return out;
}

void add(Document& document, Block block) {
  document.blocks.push_back(std::move(block));
}

void add_sitting(Document& document, const Trial& trial, const PrintScope& scope, int sitting, const Style& style) {
  const Plan& plan = trial.sealed->plan;
  const auto pairs = pairs_on_the_table(trial, {sitting, scope.again});
  const auto rows = brew_rows(trial, pairs);
  if (pairs.empty()) return;
  int cups = 0;
  for (const auto& pair : pairs) cups += 2 * pair.table.cups;
  std::int64_t water = 0;
  for (const auto& row : rows) water += planned_water(plan, row.brew->level).value_or(Mass{}).count();
  if (!document.blocks.empty()) add(document, PageBreak{});
  add(document, Heading{fmt::format("Sitting{}{}{}", no_break_space, sitting, scope.again ? ", brewed again" : ""), 1});
  add(document,
      Paragraph{fmt::format("{} brews, {} pairs, {} cups of {}, {} of water for brewing.", rows.size(), pairs.size(),
                            cups, volume_text(plan.cup, style), volume_text(Volume(water), style)),
                Paragraph::Tone::lead});
  add(document, Heading{"Weigh", 2});
  add(document, weighing(trial, rows, style));
  add(document, Heading{"Brew in this order", 2});
  add(document, brewing(trial, rows, style));
  add(document,
      Paragraph{fmt::format("Pour times: when pour, drain and pause take about {}, {} and {}. Steep: from mid-pour to "
                            "mid-drain. Mixed water: boiling taken as {}, cool as {}; trust the thermometer.",
                            duration_text(usual.pour, style), duration_text(usual.drain, style),
                            duration_text(usual.between, style), temperature_text(celsius(100), style),
                            temperature_text(cool_water, style)),
                Paragraph::Tone::soft});
  for (const auto& one : short_brews(trial, rows, style)) add(document, Paragraph{one, Paragraph::Tone::caution});
  add(document, Heading{"Pour and serve", 2});
  add(document, serving(trial, pairs, style));
  add(document,
      Paragraph{fmt::format("{} into each cup. Which cup stands left for whom is on the tray map, which holds no key.",
                            volume_text(plan.cup, style)),
                Paragraph::Tone::soft});
}

void add_general(Document& document, const Trial& trial, const Key& key, const Style& style) {
  const Plan& plan = trial.sealed->plan;
  add(document, PageBreak{});
  add(document, Heading{"The same for every brew", 1});
  add(document, Steps{held(plan, style)});
  if (plan.reference_pair && !plan.reference_pair->lot.empty())
    add(document, Paragraph{fmt::format("Before the first sitting: {} more brews of {} for the open reference pair.",
                                        brews_of_a_reference_pair, lot_code(trial, plan.reference_pair->lot)),
                            Paragraph::Tone::plain});
  add(document, Heading{"Take care", 2});
  for (const auto& one : bench_cautions(trial, style)) add(document, Paragraph{one, Paragraph::Tone::caution});
  std::size_t next = 0;
  for (const auto& v : trial.voids)
    if (v.spare) next = std::max(next, *v.spare + 1);
  Table spares;
  spares.caption =
      "A pair that is spilt or tainted is taken out on the Brew screen with its reason, and brewed again under the "
      "next "
      "of these:";
  spares.columns = {"Spare", "Codes"};
  spares.numeric = {true, false};
  for (std::size_t i = next; i < key.spares.size(); ++i)
    spares.rows.push_back(
        {std::to_string(i + 1), key.spares[i].code_one.text() + " and " + key.spares[i].code_two.text()});
  if (spares.rows.empty()) return;
  add(document, Heading{"Spare codes", 2});
  add(document, std::move(spares));
}

std::vector<int> sittings_in(const Trial& trial, const PrintScope& scope) {
  std::set<int> found;
  for (const auto* s : live_servings(trial))
    if (scope.holds(*s)) found.insert(s->sitting);
  return {found.begin(), found.end()};
}

PortionSlip slip_of(const Trial& trial, const BrewRow& row, const Style& style) {
  const Plan& plan = trial.sealed->plan;
  const Brew& brew = *row.brew;
  PortionSlip slip;
  slip.brew = fmt::format("brew {}", brew.number);
  slip.portion = fmt::format("sitting {}, portion {}", brew.sitting, brew.portion);
  const auto leaf = planned_leaf(plan, brew.level);
  slip.inside.push_back(lot_code(trial, brew.lot) + (leaf ? ", " + mass_text(*leaf, style) : ""));
  if (!is_numeric(plan.lever.kind)) slip.inside.push_back(level_text(plan.lever, brew.level, style));
  const Recipe recipe = recipe_of(plan, brew.level, style);
  if (!recipe.water.empty()) slip.inside.push_back(joined(recipe.water, "\n"));
  if (!recipe.steep.empty()) slip.inside.push_back("steep " + joined(recipe.steep, "; "));
  if (row.pooled_with) slip.inside.push_back(fmt::format("into a jug with brew {}", row.pooled_with->number));
  for (const auto& into : row.into)
    slip.inside.push_back(fmt::format("sticker {} under the cup, {}", into.code.text(), cup_text(plan, into, style)));
  return slip;
}

}  // namespace

TablePlan table_plan(const Trial& trial) {
  TablePlan out;
  if (!trial.sealed) return out;
  const Plan& plan = trial.sealed->plan;
  for (const auto& id : tasters(plan)) {
    const Assessor* person = find_record(trial.sealed->registers.assessors, id);
    out.tasters.push_back({id, person ? person->alias : "?"});
  }
  for (const auto* serving : live_servings(trial)) out.servings.push_back(*serving);
  out.self_blinded = plan.blinding == Blinding::self;
  return out;
}

Document preparer_sheet(const Trial& trial, const PreparerPass& pass, const PrintScope& scope, const Style& style) {
  const Key& key = KeyVault::open(trial, pass);
  const Plan& plan = trial.sealed->plan;
  Document document;
  document.meta.title = fmt::format("Trial {}: preparer’s sheet, holds the key", plan.number);
  document.meta.house = plan.house;
  document.meta.label = fmt::format("trial {} · {}", plan.number, wording::changes_text(plan.lever, style));
  document.meta.mark = "Preparer’s sheet. Holds the key: keep from tasters.";
  document.meta.foot = "holds the key, keep from tasters";
  document.meta.program = "Likeleaf";
  for (const int sitting : sittings_in(trial, scope)) add_sitting(document, trial, scope, sitting, style);
  add_general(document, trial, key, style);
  return document;
}

Result<PortionSlips> portion_slips(const Trial& trial, const PrintScope& scope, const Style& style) {
  if (!trial.sealed || !trial.key)
    return fail(ErrorKind::not_allowed, "slips", "not sealed", "a sealed trial: portions are drawn at the seal");
  if (trial.sealed->plan.blinding != Blinding::self)
    return fail(ErrorKind::not_allowed, "slips", "somebody else prepares", "the preparer’s sheet");
  PortionSlips out;
  out.title = "Portion slips";
  out.hint =
      "Cut along the lines. Do not read yet: fold the hatched flap of each slip up over its recipe and tape it. Open "
      "one when its brew is "
      "next. Where leaf or dose changes, weigh by the slips a day ahead into closed tins and brew by number.";
  for (const auto& row : brew_rows(trial, pairs_on_the_table(trial, scope)))
    out.slips.push_back(slip_of(trial, row, style));
  return out;
}

std::optional<WaterMix> water_mix(Mass mass, Temperature wanted, Temperature cool) {
  const std::int64_t span = (celsius(100) - cool).count(), up = (wanted - cool).count();
  if (span <= 0 || up < 0 || up > span || mass.count() < 0) return std::nullopt;
  // To whole grams: the scale of a counter shows no more, and the thermometer has the last word.
  const std::int64_t boiling = (mass.count() * up / span + 500) / 1000 * 1000;
  const Mass hot(std::min(boiling, mass.count()));
  return WaterMix{hot, mass - hot};
}

std::string preparer_sheet_file(const Trial& trial, const PrintScope& scope) {
  return fmt::format("trial-{}-preparer-holds-the-key{}", trial.draft.number, scope_ending(scope));
}

std::string portion_slips_file(const PrintScope& scope) {
  return "portion-slips" + scope_ending(scope);
}

}  // namespace likeleaf::report
