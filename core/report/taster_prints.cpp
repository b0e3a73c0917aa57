#include "core/report/taster_prints.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

#include "core/base/number_text.h"
#include "core/wording/cautions.h"

namespace likeleaf::report {
namespace {

std::string pair_name(const BlindServing& serving) {
  std::string name = serving.place == 0 ? "warm-up" : fmt::format("pair{}{}", no_break_space, serving.place);
  return serving.instead_of ? name + " again" : name;
}

/// The two codes by number: their order then says nothing of sides.
std::pair<BlindCode, BlindCode> by_number(const BlindServing& serving) {
  return std::minmax(serving.left, serving.right);
}

std::size_t seat(const TablePlan& table, IdOf<Assessor> id) {
  return static_cast<std::size_t>(std::ranges::find(table.tasters, id, &TablePlan::Taster::id) - table.tasters.begin());
}

std::vector<BlindServing> in_order(const std::vector<BlindServing>& servings, const PrintScope& scope) {
  std::vector<BlindServing> out;
  std::ranges::copy_if(servings, std::back_inserter(out), [&](const BlindServing& s) { return scope.holds(s); });
  std::ranges::stable_sort(out, {}, [](const BlindServing& s) { return std::tuple(s.sitting, s.place, by_number(s)); });
  return out;
}

/// Cautions that follow from the step alone: a plan would bring its water and its lots with it.
std::vector<std::string> plain_cautions(wording::Step step) {
  return wording::cautions(step, Plan{}, {}, Style{});
}

/// Letters and digits that every file system takes.
std::string file_word(const std::string& alias) {
  std::string out;
  for (const char c : alias) {
    const bool plain = (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z');
    if (plain)
      out += c;
    else if (!out.empty() && out.back() != '-')
      out += '-';
  }
  while (!out.empty() && out.back() == '-') out.pop_back();
  return out.empty() ? "taster" : out.substr(0, 40);
}

std::string name_of(const Attribute& attribute) {
  return attribute.house_word.empty() ? attribute.name : attribute.name + ", " + attribute.house_word;
}

ScaleLine line_of(const Attribute& attribute, const std::string& cup, bool defined) {
  return {cup, name_of(attribute), defined ? attribute.definition : "", attribute.low, attribute.high, attribute.scale};
}

/// The cups of one sheet in the order they are sipped, as the sheet calls them.
struct SheetCups {
  std::string first, second, first_title, second_title;
};

SheetCups cups_of(const SheetPlan& plan, const BlindServing& serving) {
  const bool left = serving.first == Side::left;
  const std::string near = left ? "left" : "right", far = left ? "right" : "left";
  if (plan.self_blinded) return {near, far, "First: the cup on the " + near, "Then: the cup on the " + far};
  const std::string one = (left ? serving.left : serving.right).text();
  const std::string two = (left ? serving.right : serving.left).text();
  return {one, two, fmt::format("First: cup {}, {}", one, near), fmt::format("Then: cup {}, {}", two, far)};
}

void cup_by_cup(const SheetPlan& plan, const SheetCups& cups, PairSheet& sheet) {
  SheetPart one{cups.first_title, "a full sip for each round; the finish counts from the first", false, false, {}, {}};
  SheetPart two{cups.second_title,
                "spit or swallow, rinse, wait until nothing is left of the first",
                plan.hide_first_cup,
                false,
                {},
                {}};
  for (const auto& attribute : plan.attributes) {
    one.lines.push_back(line_of(attribute, cups.first, true));
    two.lines.push_back(line_of(attribute, cups.second, plan.hide_first_cup));
  }
  one.words_of = {cups.first};
  two.words_of = {cups.second};
  if (plan.hide_first_cup) one.hint += "; then turn this page over until both cups are scored";
  sheet.parts = {std::move(one), std::move(two)};
}

void attribute_by_attribute(const SheetPlan& plan, const SheetCups& cups, PairSheet& sheet) {
  SheetPart part{fmt::format("Attribute by attribute: {}, then {}", cups.first, cups.second),
                 "one sip of each for every line pair",
                 false,
                 true,
                 {},
                 {cups.first, cups.second}};
  for (const auto& attribute : plan.attributes) {
    part.lines.push_back(line_of(attribute, cups.first, true));
    part.lines.push_back(line_of(attribute, cups.second, false));
  }
  sheet.parts = {std::move(part)};
}

PairSheet pair_sheet(const SheetPlan& plan, const BlindServing& serving) {
  PairSheet sheet;
  sheet.taster = plan.alias;
  sheet.sitting = serving.sitting;
  sheet.pair = serving.place == 0 ? "warm-up, not counted" : fmt::format("pair {} of {}", serving.place, serving.of);
  if (serving.instead_of) sheet.pair += ", served again";
  if (!plan.self_blinded) {
    sheet.left = serving.left.text();
    sheet.right = serving.right.text();
  } else {
    const auto [low, high] = by_number(serving);
    sheet.codes_hint = fmt::format(
        "Last of all answer this pair’s line on the end page, then turn the cups over and write {} and {} into the "
        "circles above, as the cups stood. Marks and answers are entered by these codes.",
        low.text(), high.text());
  }
  sheet.first = serving.first;
  const SheetCups cups = cups_of(plan, serving);
  if (plan.attribute_by_attribute)
    attribute_by_attribute(plan, cups, sheet);
  else
    cup_by_cup(plan, cups, sheet);
  sheet.compare = "Now sip one against the other";
  sheet.compare_hint = "which cup has more of it; not worked out from the numbers above";
  for (const auto& attribute : plan.attributes)
    if (attribute.direct) sheet.directs.push_back({name_of(attribute)});
  return sheet;
}

SittingCover cover(const SheetPlan& plan, int sitting, int pairs) {
  SittingCover out;
  out.taster = plan.alias;
  out.sitting = sitting;
  out.pairs = pairs;
  out.day = {"I have a cold or a blocked nose", "I ate strong or spicy food within the hour",
             "I swallow (otherwise: I spit)"};
  out.steps = {
      "One sheet a pair, in this order. Taste the cup that the sheet names first; look at no other sheet meanwhile.",
      "Cross the scale where the cup stands, 0 to 10, half steps allowed, and write the number in the box. Write what "
      "you taste now, not what you expect.",
      "Finish: from the spit or swallow of the first full sip until taste and feel have gone, in whole seconds.",
      "No number? Tick why: could not judge, not tasted, spoilt. A blank is never read as a zero.",
      "Then sip one against the other and tick which has more. Last, answer the pair’s line on the page at the end.",
      "Between pairs rinse, and rest for a minute or more."};
  if (plan.self_blinded)
    out.steps.insert(out.steps.begin(),
                     "Stickers are under the cups. Turn the tray without looking until you no longer know which cup is "
                     "which, then set the two before you. Better: somebody else sets them down.");
  for (const auto& attribute : plan.attributes)
    out.words.emplace_back(name_of(attribute),
                           fmt::format("{}. 0: {}. 10: {}.", attribute.definition, attribute.low, attribute.high));
  for (std::size_t i = 0; i < plan.attributes.size(); ++i) {
    const auto& attribute = plan.attributes[i];
    if (attribute.scale == Scale::seconds) out.words[i].second = attribute.definition + ".";
    if (attribute.scale == Scale::register_bands) out.words[i].second = attribute.definition + ", 0 to 10.";
  }
  out.cautions = plain_cautions(wording::Step::taste);
  if (!plan.allergens.empty()) {
    std::string all;
    for (const auto& one : plan.allergens) all += (all.empty() ? "" : ", ") + one;
    out.cautions.push_back(fmt::format("On this table there is: {}. Ask before you taste.", all));
  }
  return out;
}

GuessSheet guess_sheet(const SheetPlan& plan, int sitting, const std::vector<BlindServing>& servings) {
  GuessSheet out{plan.alias,
                 sitting,
                 "After each pair, once its sheet is full, answer its line here. Then change nothing on the sheet.",
                 "Could you see a difference between the cups?",
                 "Did you think you knew which was which? Which cup was the house’s way as now?",
                 {}};
  for (const auto& serving : servings)
    out.rows.push_back({pair_name(serving), plan.self_blinded ? "left" : serving.left.text() + ", left",
                        plan.self_blinded ? "right" : serving.right.text() + ", right"});
  return out;
}

}  // namespace

std::string scope_ending(const PrintScope& scope) {
  std::string out;
  if (scope.sitting) out += fmt::format("-sitting-{}", *scope.sitting);
  return scope.again ? out + "-again" : out;
}

CupLabels cup_labels(const TablePlan& table, const PrintScope& scope) {
  CupLabels out;
  out.under_the_cup = table.self_blinded;
  out.title = table.self_blinded ? "Stickers under the cups" : "Cup labels";
  out.hint = table.self_blinded ? "One under each cup, before it is filled, as its slip says."
                                : "One on each cup, before it is filled. Cut along the lines.";
  std::map<int, std::vector<std::tuple<int, BlindCode, std::size_t, CupLabel>>> sittings;
  for (const auto& serving : in_order(table.servings, scope)) {
    const std::size_t who = seat(table, serving.assessor);
    const std::string alias = who < table.tasters.size() ? table.tasters[who].alias : "";
    const std::string whose = table.self_blinded ? pair_name(serving)
                                                 : fmt::format("{} · sitting{}{} · {}", alias, no_break_space,
                                                               serving.sitting, pair_name(serving));
    for (const auto code : {serving.left, serving.right})
      sittings[serving.sitting].emplace_back(serving.place, code, who, CupLabel{code.text(), whose});
  }
  for (auto& [sitting, labels] : sittings) {
    std::ranges::sort(labels, {},
                      [](const auto& l) { return std::tuple(std::get<0>(l), std::get<1>(l), std::get<2>(l)); });
    std::vector<CupLabel> sheet;
    for (auto& l : labels) sheet.push_back(std::move(std::get<3>(l)));
    out.sittings.push_back(std::move(sheet));
  }
  return out;
}

TrayMap tray_map(const TablePlan& table, const PrintScope& scope) {
  TrayMap out;
  out.title = "Tray map";
  out.sides_free = table.self_blinded;
  out.hints = table.self_blinded
                  ? std::vector<std::string>{"Which of the two cups stands left is left to the turn of the tray."}
                  : std::vector<std::string>{
                        "Seen from the taster’s chair. Set both cups of a pair down together, the one marked 1 is "
                        "sipped first.",
                        "Codes alone are on this sheet. Whoever serves says nothing and asks nothing."};
  out.cautions = plain_cautions(wording::Step::serve);
  for (auto& one : plain_cautions(wording::Step::hold)) out.cautions.push_back(std::move(one));
  const auto servings = in_order(table.servings, scope);
  std::set<int> numbers;
  for (const auto& serving : servings) numbers.insert(serving.sitting);
  for (const int number : numbers) {
    TraySitting sitting{number, {}, {}};
    std::set<std::size_t> seats;
    for (const auto& s : servings)
      if (s.sitting == number) seats.insert(seat(table, s.assessor));
    for (const auto i : seats) sitting.tasters.push_back(i < table.tasters.size() ? table.tasters[i].alias : "");
    std::map<int, TrayRow> rows;
    for (const auto& s : servings) {
      if (s.sitting != number) continue;
      TrayRow& row = rows[s.place];
      row.cups.resize(seats.size());
      if (row.moment.empty() || s.instead_of) row.moment = pair_name(s);
      const auto column = static_cast<std::size_t>(std::distance(seats.begin(), seats.find(seat(table, s.assessor))));
      const auto [low, high] = by_number(s);
      row.cups[column] = table.self_blinded ? TrayCups{low.text(), high.text(), Side::left}
                                            : TrayCups{s.left.text(), s.right.text(), s.first};
    }
    for (auto& [place, row] : rows) sitting.rows.push_back(std::move(row));
    out.sittings.push_back(std::move(sitting));
  }
  return out;
}

ScoreSheets score_sheets(const std::vector<SheetPlan>& tasters, const PrintScope& scope) {
  ScoreSheets out;
  out.title = tasters.size() == 1 ? "Score sheets, " + tasters.front().alias : "Score sheets";
  for (const auto& plan : tasters) {
    std::map<int, std::vector<BlindServing>> sittings;
    for (const auto& serving : in_order(plan.flight, scope)) sittings[serving.sitting].push_back(serving);
    for (const auto& [sitting, servings] : sittings) {
      // Whoever tastes a pair again has read the cover already.
      if (!scope.again) out.pages.emplace_back(cover(plan, sitting, static_cast<int>(servings.size())));
      for (const auto& serving : servings) out.pages.emplace_back(pair_sheet(plan, serving));
      out.pages.emplace_back(guess_sheet(plan, sitting, servings));
    }
  }
  return out;
}

std::string labels_file(const TablePlan& table, const PrintScope& scope) {
  return (table.self_blinded ? "cup-stickers" : "cup-labels") + scope_ending(scope);
}

std::string tray_map_file(const PrintScope& scope) {
  return "tray-map" + scope_ending(scope);
}

std::string score_sheets_file(const std::string& alias, const PrintScope& scope) {
  return (alias.empty() ? "score-sheets-all" : "score-sheets-" + file_word(alias)) + scope_ending(scope);
}

}  // namespace likeleaf::report
