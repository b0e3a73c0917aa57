// What the prints hold: every code of every live serving once and in order, nothing of the key on what tasters see, all
// of it on the preparer's sheet.
#include "core/report/prints.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <set>
#include <string>

#include "core/base/number_text.h"
#include "core/session/taster_port.h"
#include "tests/core/domain/brews.h"
#include "tests/core/store/bench_book.h"

namespace likeleaf::report {
namespace {

using test::done;
using test::FerryPier;
using test::Folder;
using test::new_bench;
using test::World;
using ::testing::HasSubstr;
using ::testing::Not;

/// A sealed trial, and its open side as the ports of its tasters give it.
struct Bench {
  explicit Bench(const Plan& plan) {
    session = new_bench(folder / "bench.leafbook", world);
    session->new_trial(plan).value();
    session->seal().value();
  }
  [[nodiscard]] std::vector<SheetPlan> sheet_plans() const {
    std::vector<SheetPlan> out;
    for (const auto& id : tasters(trial()->draft)) {
      const auto port = session->taster(id).value();
      const auto& setup = port->setup();
      out.push_back({setup.alias, setup.attributes, setup.attribute_by_attribute, setup.hide_first_cup,
                     trial()->draft.blinding == Blinding::self, setup.allergens, port->flight()});
    }
    return out;
  }
  [[nodiscard]] std::shared_ptr<const Trial> trial() const { return session->trial(); }
  [[nodiscard]] TablePlan table() const { return table_plan(*trial()); }
  void void_first_pair_of(int sitting) {
    for (const auto* s : live_servings(*trial()))
      if (s->sitting == sitting && s->place == 1) {
        session->run(VoidPair{s->pair, "H.", "spilt"}).value();
        return;
      }
  }
  Folder folder;
  World world;
  std::unique_ptr<Session> session;
};

std::string text_of(const CupLabels& print) {
  std::string out = print.title + "\n" + print.hint + "\n";
  for (const auto& sitting : print.sittings)
    for (const auto& label : sitting) out += label.code + " " + label.whose + "\n";
  return out;
}

std::string text_of(const TrayMap& print) {
  std::string out = print.title + "\n";
  for (const auto& hint : print.hints) out += hint + "\n";
  for (const auto& caution : print.cautions) out += caution + "\n";
  for (const auto& sitting : print.sittings) {
    for (const auto& taster : sitting.tasters) out += taster + " ";
    for (const auto& row : sitting.rows) {
      out += "\n" + row.moment;
      for (const auto& cups : row.cups)
        if (cups) out += " " + cups->left + "/" + cups->right + (cups->first == Side::left ? "<" : ">");
    }
    out += "\n";
  }
  return out;
}

std::string text_of(const SittingCover& cover) {
  std::string out = cover.taster + " " + std::to_string(cover.sitting) + " " + std::to_string(cover.pairs) + "\n";
  for (const auto* list : {&cover.steps, &cover.day, &cover.cautions})
    for (const auto& line : *list) out += line + "\n";
  for (const auto& [name, judged] : cover.words) out += name + ": " + judged + "\n";
  return out;
}
std::string text_of(const PairSheet& sheet) {
  std::string out = sheet.taster + " " + std::to_string(sheet.sitting) + " " + sheet.pair + " " + sheet.left + "|" +
                    sheet.right + (sheet.first == Side::left ? "<" : ">") + "\n";
  for (const auto& part : sheet.parts) {
    out += part.title + " " + part.hint + (part.own_page ? " own page" : "") + "\n";
    for (const auto& line : part.lines)
      out += line.cup + " " + line.name + " " + line.definition + " " + line.low + " " + line.high + "\n";
    for (const auto& cup : part.words_of) out += "words " + cup + "\n";
  }
  for (const auto& direct : sheet.directs) out += direct.attribute + "\n";
  return out + sheet.codes_hint + "\n";
}
std::string text_of(const GuessSheet& sheet) {
  std::string out = sheet.taster + sheet.hint + sheet.saw + sheet.which + "\n";
  for (const auto& row : sheet.rows) out += row.pair + " " + row.left + " " + row.right + "\n";
  return out;
}
std::string text_of(const ScoreSheets& print) {
  std::string out = print.title + "\n";
  for (const auto& page : print.pages) out += std::visit([](const auto& p) { return text_of(p); }, page);
  return out;
}

/// Everything that may lie on a table where tasters sit, with its file names.
std::string open_prints(const Bench& bench) {
  std::string out;
  for (const PrintScope& scope : {PrintScope{}, PrintScope{2, false}, PrintScope{std::nullopt, true}}) {
    out += labels_file(bench.table(), scope) + "\n" + text_of(cup_labels(bench.table(), scope));
    out += tray_map_file(scope) + "\n" + text_of(tray_map(bench.table(), scope));
    out += score_sheets_file("", scope) + "\n" + text_of(score_sheets(bench.sheet_plans(), scope));
    for (const auto& plan : bench.sheet_plans())
      out += score_sheets_file(plan.alias, scope) + "\n" + text_of(score_sheets({plan}, scope));
  }
  return out;
}

std::map<std::string, int> cups_by_code(const Trial& trial) {
  std::map<std::string, int> out;
  for (const auto* s : live_servings(trial)) ++out[s->left.text()], ++out[s->right.text()];
  return out;
}

TEST(CupLabels, AreOneForEachCupOfEachLiveServing) {
  const Bench bench(FerryPier().trial_14());
  std::map<std::string, int> printed;
  for (const auto& sitting : cup_labels(bench.table(), {}).sittings)
    for (const auto& label : sitting) ++printed[label.code];
  EXPECT_EQ(printed, cups_by_code(*bench.trial()));
  EXPECT_EQ(cup_labels(bench.table(), {}).sittings.size(), 3U);
  EXPECT_EQ(cup_labels(bench.table(), {2, false}).sittings.at(0).size(), 40U);
}

TEST(CupLabels, StandInServingOrderWithTheCodesOfAPairByNumber) {
  const Bench bench(FerryPier().trial_14());
  const auto labels = cup_labels(bench.table(), {1, false}).sittings.at(0);
  for (std::size_t i = 0; i + 8 <= labels.size(); i += 8) {
    EXPECT_LT(labels[i].code, labels[i + 4].code) << "eight cups a pair, the smaller code first";
    for (std::size_t k = 0; k < 4; ++k) {
      EXPECT_EQ(labels[i + k].code, labels[i].code);
      EXPECT_EQ(labels[i + k].whose, labels[i + 4 + k].whose);
    }
    const auto place = i / 8;
    EXPECT_THAT(labels[i].whose, HasSubstr(place == 0 ? std::string("warm-up")
                                                      : std::string("pair") + no_break_space + std::to_string(place)));
  }
}

TEST(Prints, OfAVoidedPairGoAndThoseOfItsSpareCome) {
  Bench bench(FerryPier().trial_14());
  const auto before = bench.trial();
  EXPECT_TRUE(cup_labels(bench.table(), {std::nullopt, true}).sittings.empty());
  bench.void_first_pair_of(2);
  const auto trial = bench.trial();
  const auto& spare = trial->key->spares.at(0);
  const auto out = [&] {
    for (const auto& s : before->servings)
      if (s.sitting == 2 && s.place == 1) return std::pair(s.left.text(), s.right.text());
    return std::pair<std::string, std::string>();
  }();
  const std::string all = text_of(cup_labels(bench.table(), {})) + text_of(tray_map(bench.table(), {})) +
                          text_of(score_sheets(bench.sheet_plans(), {}));
  EXPECT_THAT(all, Not(HasSubstr(out.first)));
  EXPECT_THAT(all, Not(HasSubstr(out.second)));
  EXPECT_THAT(all, HasSubstr(spare.code_one.text()));
  const auto again = cup_labels(bench.table(), {std::nullopt, true});
  ASSERT_EQ(again.sittings.size(), 1U);
  EXPECT_EQ(again.sittings[0].size(), 8U);
  const auto sheets = score_sheets(bench.sheet_plans(), {std::nullopt, true});
  EXPECT_EQ(sheets.pages.size(), 8U) << "a sheet and a page of questions for each of four tasters";
  EXPECT_THAT(text_of(sheets), HasSubstr("served again"));
}

TEST(TrayMap, SaysForEveryTasterWhatStandsWhereAndWhatIsSippedFirst) {
  const Bench bench(FerryPier().trial_14());
  const auto map = tray_map(bench.table(), {});
  ASSERT_EQ(map.sittings.size(), 3U);
  const auto trial = bench.trial();
  std::size_t seen = 0;
  for (const auto& sitting : map.sittings) {
    EXPECT_EQ(sitting.tasters, (std::vector<std::string>{"R.", "K.", "M.", "T."}));
    for (std::size_t row = 0; row < sitting.rows.size(); ++row)
      for (std::size_t column = 0; column < sitting.tasters.size(); ++column) {
        const auto who = bench.table().tasters[column].id;
        const auto found = std::ranges::find_if(trial->servings, [&](const BlindServing& s) {
          return s.assessor == who && s.sitting == sitting.sitting && s.place == static_cast<int>(row);
        });
        ASSERT_NE(found, trial->servings.end());
        const auto& cups = sitting.rows[row].cups[column];
        ASSERT_TRUE(cups);
        EXPECT_EQ(cups->left, found->left.text());
        EXPECT_EQ(cups->right, found->right.text());
        EXPECT_EQ(cups->first, found->first);
        ++seen;
      }
  }
  EXPECT_EQ(seen, live_servings(*trial).size());
}

TEST(ScoreSheets, ComeInServingOrderWithEveryAttributeOfBothCupsAndTheQuestionsLast) {
  const Bench bench(FerryPier().trial_14());
  const auto plan = bench.sheet_plans().at(1);
  const auto print = score_sheets({plan}, {});
  std::vector<std::string> kinds;
  std::vector<std::pair<std::string, std::string>> codes;
  for (const auto& page : print.pages) {
    if (std::holds_alternative<SittingCover>(page)) kinds.push_back("cover");
    if (const auto* guesses = std::get_if<GuessSheet>(&page)) {
      kinds.push_back("questions");
      EXPECT_EQ(guesses->rows.size(), 5U);
    }
    const auto* sheet = std::get_if<PairSheet>(&page);
    if (!sheet) continue;
    kinds.push_back("sheet");
    codes.emplace_back(sheet->left, sheet->right);
    EXPECT_EQ(sheet->taster, "K.");
    ASSERT_EQ(sheet->parts.size(), 2U);
    for (const auto& part : sheet->parts) {
      ASSERT_EQ(part.lines.size(), plan.attributes.size());
      for (std::size_t i = 0; i < part.lines.size(); ++i) EXPECT_EQ(part.lines[i].name, plan.attributes[i].name);
      EXPECT_EQ(part.words_of.size(), 1U);
    }
    EXPECT_EQ(sheet->directs.size(), 6U);
  }
  std::vector<std::string> expected_kinds;
  for (int sitting = 0; sitting < 3; ++sitting)
    for (const char* kind : {"cover", "sheet", "sheet", "sheet", "sheet", "sheet", "questions"})
      expected_kinds.emplace_back(kind);
  EXPECT_EQ(kinds, expected_kinds);
  std::vector<std::pair<std::string, std::string>> expected;
  for (const auto& s : plan.flight) expected.emplace_back(s.left.text(), s.right.text());
  EXPECT_EQ(codes, expected);
}

TEST(ScoreSheets, HideTheFirstCupOrAlternateTheCupsWhereThePlanSaysSo) {
  const Bench bench(FerryPier().trial_14());
  SheetPlan hidden = bench.sheet_plans().at(0), alternating = hidden;
  hidden.hide_first_cup = true;
  alternating.attribute_by_attribute = true;
  const auto one = score_sheets({hidden}, {1, false});
  EXPECT_TRUE(std::get<PairSheet>(one.pages.at(1)).parts.at(1).own_page);
  const auto two = score_sheets({alternating}, {1, false});
  const auto& parts = std::get<PairSheet>(two.pages.at(1)).parts;
  ASSERT_EQ(parts.size(), 1U);
  EXPECT_EQ(parts[0].lines.at(0).name, parts[0].lines.at(1).name);
  EXPECT_NE(parts[0].lines.at(0).cup, parts[0].lines.at(1).cup);
}

TEST(PrintsForTasters, HoldNoLevelLotQuestionHouseOrTrial) {
  Plan plan = FerryPier().trial_14();
  plan.question = "A QUESTION THAT SAYS IT ALL";
  plan.notes = "CANARY NOTE";
  Bench bench(plan);
  bench.void_first_pair_of(1);
  const std::string all = open_prints(bench);
  for (const char* word : {"88", "68", "°C", "L-07", "L-12", "L-18", "L-21", "pier", "QUESTION", "CANARY", "trial",
                           "warmer", "temperature", "blank pair", "yardstick", "contrast"}) {
    // Codes are digits too: one that holds 88 or 68 is no level.
    std::string without_codes = all;
    for (const auto& [code, n] : cups_by_code(*bench.trial()))
      for (auto at = without_codes.find(code); at != std::string::npos; at = without_codes.find(code))
        without_codes.replace(at, 3, "###");
    EXPECT_THAT(without_codes, Not(HasSubstr(word)));
  }
}

TEST(PrintsForTasters, NameWhatIsOnTheTableByAllergenNeverByCup) {
  FerryPier pier;
  World world;
  Folder folder;
  auto session = new_bench(folder / "b.leafbook", world);
  Lot lot = *find_record(session->registers().lots, pier.l12);
  lot.allergens = "almond";
  session->put(lot).value();
  session->new_trial(pier.trial_14()).value();
  session->seal().value();
  const auto port = session->taster(pier.r).value();
  SheetPlan plan;
  plan.alias = "R.";
  plan.attributes = port->setup().attributes;
  plan.allergens = port->setup().allergens;
  plan.flight = port->flight();
  const auto print = score_sheets({plan}, {});
  EXPECT_THAT(text_of(std::get<SittingCover>(print.pages.at(0))), HasSubstr("On this table there is: almond."));
  for (const auto& page : print.pages)
    if (const auto* sheet = std::get_if<PairSheet>(&page)) {
      EXPECT_THAT(text_of(*sheet), Not(HasSubstr("almond")));
    }
}

// ---- non-interference -----------------------------------------------------------------------------------------------

void expect_same_open_prints(const Plan& one, const Plan& two) {
  Bench a(one), b(two);
  ASSERT_NE(*a.trial()->key, *b.trial()->key);
  ASSERT_EQ(a.trial()->servings, b.trial()->servings);
  EXPECT_EQ(open_prints(a), open_prints(b));
  a.void_first_pair_of(2);
  b.void_first_pair_of(2);
  EXPECT_EQ(open_prints(a), open_prints(b));
}

Plan by_words(const char* first, const char* second) {
  Plan p = FerryPier().trial_14();
  p.lever = Lever{LeverKind::other, "the way it is done", {Level{first, {}, {}, true}, Level{second, {}, {}, false}}};
  p.rule.reset();
  return p;
}

TEST(PrintsForTasters, AreTheSameWhenTheLevelsAreSwapped) {
  Bench a(by_words("hot", "cool")), b(by_words("cool", "hot"));
  ASSERT_EQ(a.trial()->servings, b.trial()->servings);
  EXPECT_EQ(open_prints(a), open_prints(b));
  Plan turned = FerryPier().trial_14();
  std::reverse(turned.lever.levels.begin(), turned.lever.levels.end());
  turned.rule.reset();
  Plan straight = FerryPier().trial_14();
  straight.rule.reset();
  expect_same_open_prints(straight, turned);
}

TEST(PrintsForTasters, AreTheSameWhenKindsOfPairAreSwapped) {
  Plan other = FerryPier().trial_14();
  std::swap(other.controls[0].kind, other.controls[1].kind);
  expect_same_open_prints(FerryPier().trial_14(), other);
}

TEST(PrintsForTasters, AreTheSameWhenLotsAreSwapped) {
  Plan other = FerryPier().trial_14();
  std::swap(other.lots[0], other.lots[2]);
  expect_same_open_prints(FerryPier().trial_14(), other);
}

TEST(PrintsForTasters, AreTheSameWhenAnotherLevelIsPouredFirst) {
  Plan one = by_words("hot", "cool"), two = one;
  std::swap(two.lever.levels[0].present_way, two.lever.levels[1].present_way);
  expect_same_open_prints(one, two);
}

// ---- the preparer's sheet -------------------------------------------------------------------------------------------

TEST(PreparerSheet, HoldsTheLevelTheWaterTheSteepAndTheCupsOfEveryBrewInOrder) {
  const Bench bench(FerryPier().trial_14());
  const auto trial = bench.trial();
  const auto pass = KeyVault::reveal(*trial, FerryPier().o).value();
  const auto sheet = preparer_sheet(*trial, pass, {}, Style{});
  EXPECT_THAT(sheet.meta.mark, HasSubstr("Holds the key: keep from tasters"));
  std::vector<std::vector<std::string>> rows;
  for (const auto& block : sheet.blocks)
    if (const auto* table = std::get_if<Table>(&block); table && table->columns.at(0) == "Brew")
      rows.insert(rows.end(), table->rows.begin(), table->rows.end());
  ASSERT_EQ(rows.size(), 30U);
  const Key& key = KeyVault::open(*trial, pass);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const auto& brew = key.brews.at(i);
    EXPECT_EQ(rows[i][0], std::to_string(brew.number));
    const std::string level = level_text(trial->draft.lever, brew.level, Style{});
    EXPECT_EQ(rows[i][3], level);
    EXPECT_THAT(rows[i][4], HasSubstr("at " + level));
    EXPECT_THAT(rows[i][2], HasSubstr("portion" + std::string(no_break_space) + std::to_string(brew.portion)));
    EXPECT_THAT(rows[i][2], HasSubstr(mass_text(grams(4), Style{})));
    EXPECT_EQ(rows[i][5], duration_text(seconds(45), Style{}));
    for (const auto& pair : key.pairs) {
      if (pair.cup_a.brew == brew.id) {
        EXPECT_THAT(rows[i][6], HasSubstr(pair.code_a.text()));
      }
      if (pair.cup_b.brew == brew.id) {
        EXPECT_THAT(rows[i][6], HasSubstr(pair.code_b.text()));
      }
    }
  }
  const std::string all = to_text(sheet);
  EXPECT_THAT(all, HasSubstr("scalds"));
  EXPECT_THAT(all, HasSubstr("ice"));
  EXPECT_THAT(all, HasSubstr("Spare codes"));
}

TEST(PreparerSheet, NumbersTheInfusionsOfAScheduleAndLaysOutTheClockByAllOfThem) {
  const Bench bench(test::two_infusions());
  const auto trial = bench.trial();
  const auto pass = KeyVault::reveal(*trial, FerryPier().o).value();
  std::vector<std::vector<std::string>> rows;
  for (const auto& block : preparer_sheet(*trial, pass, {1, false}, Style{}).blocks)
    if (const auto* table = std::get_if<Table>(&block); table && table->columns.at(0) == "Brew") rows = table->rows;
  ASSERT_GE(rows.size(), 4U);
  // The two warm-ups are brewed the present way, 60 and 30 s.
  EXPECT_EQ(rows[0][1], "0:00");
  EXPECT_EQ(rows[0][3], "twice");
  EXPECT_EQ(rows[0][4],
            "1. 100\u00A0g at 60\u00A0°C\n50\u00A0g\u00A0boiling\u00A0+\u00A0"
            "50\u00A0g\u00A0cool\n"
            "2. 150\u00A0g at 90\u00A0°C\n131\u00A0g\u00A0boiling\u00A0+\u00A0"
            "19\u00A0g\u00A0cool");
  EXPECT_EQ(rows[0][5], "1. 60\u00A0s\n2. 30\u00A0s");
  EXPECT_EQ(rows[1][1], "2:33") << "both steeps, half of two pours and drains, and a pause";
  const auto once = std::ranges::find(rows, "once", [](const auto& row) { return row[3]; });
  ASSERT_NE(once, rows.end());
  EXPECT_EQ((*once)[5], "45\u00A0s");
}

TEST(PreparerSheet, PoolsTheYardsticksTwoBrewsAndMeasuresTheWaterOfItsWeakerCup) {
  const Bench bench(FerryPier().trial_14());
  const auto trial = bench.trial();
  const auto pass = KeyVault::reveal(*trial, FerryPier().o).value();
  const std::string all = to_text(preparer_sheet(*trial, pass, {2, false}, Style{}));
  const auto& key = KeyVault::open(*trial, pass);
  const auto yardstick = std::ranges::find(key.pairs, PairKind::yardstick, &KeyPair::kind);
  ASSERT_NE(yardstick, key.pairs.end());
  const auto brew = std::ranges::find(key.brews, yardstick->cup_a.brew, &PlannedBrew::id);
  EXPECT_THAT(all, HasSubstr("jug with " + std::to_string(brew->number)));
  EXPECT_THAT(all, HasSubstr("jug with " + std::to_string(brew->number + 1)));
  // 12 % of 40 ml.
  EXPECT_THAT(all, HasSubstr(volume_text(Volume(35'200), Style{}) + " + " + volume_text(Volume(4'800), Style{})));
}

TEST(PreparerSheet, SpeaksTheReadersUnits) {
  const Bench bench(FerryPier().trial_14());
  const auto trial = bench.trial();
  const auto pass = KeyVault::reveal(*trial, FerryPier().o).value();
  const std::string all = to_text(preparer_sheet(*trial, pass, {}, Style{TemperatureUnit::fahrenheit, ','}));
  EXPECT_THAT(all, HasSubstr("190,4\u00A0°F"));
  EXPECT_THAT(all, Not(HasSubstr("°C")));
}

TEST(PreparerSheet, AfterAVoidHasTheNewBrewsUnderTheSpareAndItsFileNameSaysWhatItIs) {
  Bench bench(FerryPier().trial_14());
  bench.void_first_pair_of(1);
  const auto trial = bench.trial();
  const auto pass = KeyVault::reveal(*trial, FerryPier().o).value();
  const std::string again = to_text(preparer_sheet(*trial, pass, {std::nullopt, true}, Style{}));
  EXPECT_THAT(again, HasSubstr(trial->key->spares.at(0).code_one.text()));
  EXPECT_THAT(again, HasSubstr("31"));
  EXPECT_EQ(preparer_sheet_file(*trial, {1, false}), "trial-14-preparer-holds-the-key-sitting-1");
}

TEST(WaterMix, IsBalancedByHeatAndRefusesWhatNoMixGives) {
  const auto mix = water_mix(grams(200), celsius(68), celsius(20));
  ASSERT_TRUE(mix);
  EXPECT_EQ(mix->boiling, grams(120));
  EXPECT_EQ(mix->cool, grams(80));
  EXPECT_EQ(water_mix(grams(200), celsius(100), celsius(20))->cool, grams(0));
  EXPECT_FALSE(water_mix(grams(200), celsius(15), celsius(20)));
  EXPECT_FALSE(water_mix(grams(200), celsius(101), celsius(20)));
}

// ---- a taster alone -------------------------------------------------------------------------------------------------

TEST(PrintsOfASelfBlindedTrial, LeaveSidesToTheTrayAndCodesForAfterwards) {
  const Bench bench(FerryPier().trial_16());
  EXPECT_TRUE(cup_labels(bench.table(), {}).under_the_cup);
  EXPECT_TRUE(tray_map(bench.table(), {}).sides_free);
  const auto print = score_sheets(bench.sheet_plans(), {});
  for (const auto& page : print.pages) {
    const auto* sheet = std::get_if<PairSheet>(&page);
    if (!sheet) continue;
    EXPECT_TRUE(sheet->left.empty() && sheet->right.empty());
    EXPECT_THAT(sheet->codes_hint, HasSubstr("turn the cups over"));
    for (const auto& part : sheet->parts)
      for (const auto& line : part.lines) EXPECT_TRUE(line.cup == "left" || line.cup == "right");
  }
}

TEST(PortionSlips, HoldOneBrewEachWithItsDoseAndSticker) {
  const Bench bench(FerryPier().trial_16());
  const auto trial = bench.trial();
  const auto slips = portion_slips(*trial, {}, Style{}).value();
  ASSERT_EQ(slips.slips.size(), trial->brews.size());
  for (std::size_t i = 0; i < slips.slips.size(); ++i) {
    const auto& brew = trial->key->brews.at(i);
    EXPECT_EQ(slips.slips[i].brew, "brew " + std::to_string(brew.number));
    const std::string outside = slips.slips[i].brew + slips.slips[i].portion;
    std::string inside;
    for (const auto& line : slips.slips[i].inside) inside += line + "\n";
    const std::string dose = mass_text(grams(brew.level == 0 ? 3 : 5), Style{});
    EXPECT_THAT(inside, HasSubstr(dose));
    EXPECT_THAT(outside, Not(HasSubstr(dose)));
    for (const auto& pair : trial->key->pairs)
      if (pair.cup_a.brew == brew.id) {
        EXPECT_THAT(inside, HasSubstr("sticker " + pair.code_a.text()));
      }
  }
}

TEST(PortionSlips, AreRefusedWhereSomebodyElsePreparesAndTheSheetWhereTheTasterDoes) {
  const Bench panel(FerryPier().trial_14()), alone(FerryPier().trial_16());
  EXPECT_FALSE(portion_slips(*panel.trial(), {}, Style{}));
  EXPECT_FALSE(KeyVault::reveal(*alone.trial(), FerryPier().m));
}

TEST(FileNames, TakeOfAnAliasWhatEveryFileSystemTakes) {
  EXPECT_EQ(score_sheets_file("R.", {}), "score-sheets-R");
  EXPECT_EQ(score_sheets_file("../é a", {2, false}), "score-sheets-a-sitting-2");
  EXPECT_EQ(score_sheets_file("…", {}), "score-sheets-taster");
  EXPECT_EQ(score_sheets_file("", {std::nullopt, true}), "score-sheets-all-again");
}

}  // namespace
}  // namespace likeleaf::report
