// The plan screen in real widgets: from an empty book to a sealed trial, by keys alone and by clicks alone.
#include <gtest/gtest.h>

#include <QAccessible>
#include <algorithm>

#include "core/base/number_text.h"
#include "core/planning/needs.h"
#include "tests/ui/plan_desk.h"
#include "ui/taste/taste_screen.h"
#include "ui/widgets/blank_text.h"

namespace likeleaf::test {
namespace {

TEST(PlanScreen, an_empty_book_becomes_a_sealed_two_temperature_trial_by_keyboard_alone) {
  PlanDesk d;
  d.tab_to("begin");
  d.key(Qt::Key_Space);
  ASSERT_TRUE(d.session->trial());
  d.tab_to("question");
  d.type("Is 88 C too hot for these leaves?");
  d.tab_to("level.0");
  d.type("88");
  d.tab_to("level.1");
  d.type("68");
  d.tab_to("lot.add");
  d.key(Qt::Key_Space);
  ASSERT_EQ(d.at(), "lot.0.code");
  d.type("L-07");
  d.tab_to("lot.0.stock");
  d.type("50");
  d.tab_to("attribute.bitterness");
  d.key(Qt::Key_Space);
  for (const char* who : {"R.", "K."}) {
    d.tab_to("person.add");
    d.key(Qt::Key_Space);
    d.type(who);
  }
  d.tab_to("seal");
  d.key(Qt::Key_Space);
  const auto trial = d.session->trial();
  ASSERT_TRUE(trial->sealed) << d.child<QLabel>("seal.refusal")->text().toStdString();
  EXPECT_EQ(trial->sealed->plan.lever.levels[0].value, 88'000);
  EXPECT_EQ(trial->sealed->plan.lever.levels[1].value, 68'000);
  ASSERT_EQ(trial->sealed->registers.lots.size(), 1u);
  EXPECT_EQ(trial->sealed->registers.lots[0].code, "L-07");
  EXPECT_EQ(trial->sealed->registers.lots[0].stock, grams(50));
  EXPECT_EQ(tasters(trial->sealed->plan).size(), 2u);
  EXPECT_FALSE(trial->servings.empty());
}

TEST(PlanScreen, an_empty_book_becomes_a_sealed_two_temperature_trial_by_mouse_alone) {
  PlanDesk d;
  d.begin();
  for (int i = 0; i < 9; ++i) d.click("level.0.more");
  for (int i = 0; i < 13; ++i) d.click("level.1.less");
  d.click("question.suggest");
  d.click("lot.add");
  d.click("attribute.bitterness");
  d.click("person.add");
  d.click("person.add");
  d.click("seal");
  const auto trial = d.session->trial();
  ASSERT_TRUE(trial->sealed) << d.child<QLabel>("seal.refusal")->text().toStdString();
  EXPECT_EQ(trial->sealed->plan.lever.levels[0].value, 88'000);
  EXPECT_EQ(trial->sealed->plan.lever.levels[1].value, 68'000);
  EXPECT_FALSE(trial->sealed->plan.question.empty());
}

/// The counter's fourteenth trial, written by somebody who has only a keyboard.
void write_trial_14(PlanDesk& d) {
  d.tab_to("begin");
  d.key(Qt::Key_Space);
  d.type("Is 88 C too hot for these leaves?");
  d.enter("level.0", "88");
  d.enter("level.1", "68");
  d.pick("constant.3.record", "a new water");
  ASSERT_EQ(d.at(), "constant.3.record.name");
  d.type("house soft water");
  d.enter("constant.3.record.hardness", "40");
  d.pick("constant.4.record", "a new vessel");
  d.type("glass 250 ml");
  d.enter("constant.4.record.volume", "250");
  d.pick("constant.add", "longest hold");
  d.enter("constant.10", "10 min");
  for (const auto& [code, stock] : {std::pair{"L-07", "50"}, {"L-12", "120"}, {"L-18", "40"}, {"L-21", "200"}}) {
    d.tab_to("lot.add");
    d.key(Qt::Key_Space);
    d.type(code);
    const QByteArray field = QByteArray("lot.") + QByteArray::number(d.lots_made++) + ".stock";
    d.enter(field.constData(), stock);
  }
  d.tab_to("lot.3");  // the warm-up's leaf stays outside the trial
  d.key(Qt::Key_Space);
  d.enter("sittings", "3");
  d.pick("warm_up", "L-21");
  for (const char* id : {"body", "sweetness", "bitterness"}) {
    d.tab_to((QByteArray("attribute.") + id).constData());
    d.key(Qt::Key_Space);
  }
  d.pick("attribute.bitterness.expected", "more");
  d.pick("attribute.body.expected", "the same");
  d.tab_to("rule.add");
  d.key(Qt::Key_Space);
  d.pick("clause.0.attribute", "bitterness");
  d.tab_to("rule.add");
  d.key(Qt::Key_Space);
  d.pick("clause.1.attribute", "body");
  d.pick("clause.1.way", "holds");
  d.enter("rule.action", "L-12 goes to 68 C at the counter");
  d.tab_to("rule.lot.1");
  d.key(Qt::Key_Space);
  int person = 0;
  for (const auto& [who, role] :
       {std::pair{"H.", "plans"}, {"O.", "prepares,"}, {"R.", ""}, {"K.", ""}, {"M.", ""}, {"T.", ""}}) {
    d.tab_to("person.add");
    d.key(Qt::Key_Space);
    d.type(who);
    const QByteArray field = "person." + QByteArray::number(person++) + ".role";
    if (*role) d.pick(field.constData(), role);
  }
  const auto control = [&](int at, const char* kind, const char* lot, const char* level) {
    d.tab_to("control.add");
    d.key(Qt::Key_Space);
    const QByteArray object = "control." + QByteArray::number(at);
    d.pick((object + ".kind").constData(), kind);
    d.pick((object + ".lot").constData(), lot);
    d.pick((object + ".level").constData(), level);
  };
  control(0, "blank", "L-18", "88");
  control(1, "yardstick", "L-12", "88");
  control(2, "blank", "L-07", "68");
  d.pick("reference", "L-21");
  d.enter("reference.words", "body: how thick, not how strong");
  d.enter("exclusion_rule", "a spoilt cup");
  d.enter("house", "Ferry pier counter");
  d.tab_to("seal");
  d.key(Qt::Key_Space);
}

TEST(PlanScreen, trial_14_is_planned_from_an_empty_book_and_sealed_by_key_events_alone) {
  PlanDesk d;
  write_trial_14(d);
  const auto trial = d.session->trial();
  ASSERT_TRUE(trial->sealed) << d.child<QLabel>("seal.refusal")->text().toStdString() << d.blocks().toStdString();
  const Plan& p = trial->sealed->plan;
  const auto& lots = trial->sealed->registers.lots;
  EXPECT_EQ(p.house, "Ferry pier counter");
  EXPECT_EQ(p.lots.size(), 3u);
  EXPECT_EQ(find_record(lots, p.warm_up_lot)->code, "L-21");
  EXPECT_EQ(trial->sealed->registers.waters.at(0).hardness_mg_l, 40);
  EXPECT_EQ(trial->sealed->registers.vessels.at(0).name, "glass 250 ml");
  EXPECT_EQ(find_constant(p, ConstantKind::longest_hold)->target, 600'000);
  EXPECT_EQ(std::ranges::count_if(p.attributes, &PlanAttribute::deciding), 3);
  ASSERT_TRUE(p.rule);
  ASSERT_EQ(p.rule->clauses.size(), 2u);
  EXPECT_EQ(p.rule->clauses[0].attribute, "bitterness");
  EXPECT_EQ(p.rule->clauses[1].way, RuleClause::Way::holds);
  EXPECT_EQ(find_record(lots, p.rule->leaves.at(0))->code, "L-12");
  EXPECT_EQ(tasters(p).size(), 4u);
  EXPECT_EQ(find_record(trial->sealed->registers.assessors, preparer(p))->alias, "O.");
  ASSERT_EQ(p.controls.size(), 3u);
  EXPECT_EQ(p.controls[1].kind, ControlKind::yardstick);
  EXPECT_EQ(p.controls[2].level, 1u);
  EXPECT_EQ(p.controls[2].sitting, 3);
  ASSERT_TRUE(p.reference_pair);
  EXPECT_EQ(p.reference_pair->words, "body: how thick, not how strong");
  const Needs need = needs(p, d.session->registers());
  EXPECT_EQ(need.brews, 30);
  EXPECT_EQ(need.tasted_pairs, 36);
  EXPECT_EQ(need.sheets, 60);
  EXPECT_EQ(need.most_cups_in_a_sitting, 40);
}

TEST(PlanScreen, what_blocks_is_said_beside_the_seal_and_at_the_field_and_a_press_leads_there) {
  PlanDesk d;
  d.begin();
  EXPECT_FALSE(d.child<QPushButton>("seal")->isEnabled());
  EXPECT_TRUE(d.child<QLabel>("sealed")->text().contains("stand in the way"));
  const auto blocks = d.screen->findChildren<QPushButton*>("block");
  ASSERT_FALSE(blocks.isEmpty());
  for (auto* block : blocks)
    if (block->text().startsWith("Lots")) QTest::mouseClick(block, Qt::LeftButton);
  EXPECT_EQ(d.at(), "lot.add");
}

TEST(PlanScreen, equal_levels_short_stock_and_a_plan_that_cannot_decide_are_said_at_their_fields) {
  PlanDesk d;
  d.begin();
  d.write("level.0", "88");
  d.write("level.1", "88");
  d.click("lot.add");
  d.write("lot.0.stock", "3");
  d.click("person.add");
  EXPECT_TRUE(d.says("there twice")) << d.all_words().toStdString();
  EXPECT_TRUE(d.blank("lot.0.stock")->findChild<QLabel*>()->text().contains("are needed"));
  EXPECT_TRUE(d.says("cannot decide: no attribute is named to decide"));
  d.click("attribute.body");
  d.write("brew_pairs", "2");
  EXPECT_TRUE(d.blank("brew_pairs")->findChild<QLabel*>()->text().contains("cannot decide"));
  EXPECT_TRUE(d.child<QLabel>("decides")->text().contains("cannot decide"));
}

TEST(PlanScreen, arrows_letters_and_the_wheel_over_a_closed_choice_change_nothing) {
  PlanDesk d;
  d.begin();
  auto* lever = d.child<QComboBox>("lever");
  lever->setFocus();
  const Plan before = d.plan();
  for (const auto k : {Qt::Key_PageDown, Qt::Key_End, Qt::Key_S, Qt::Key_Right}) d.key(k);
  QWheelEvent wheel(QPointF(5, 5), lever->mapToGlobal(QPointF(5, 5)), {}, {0, -120}, Qt::NoButton, Qt::NoModifier,
                    Qt::NoScrollPhase, false);
  QCoreApplication::sendEvent(lever, &wheel);
  EXPECT_EQ(d.plan(), before);
  d.key(Qt::Key_Down);  // opens the list
  ASSERT_TRUE(lever->view()->isVisible());
  QTest::keyClick(lever->view(), Qt::Key_Down);
  QTest::keyClick(lever->view(), Qt::Key_Escape);
  EXPECT_FALSE(lever->view()->isVisible());
  EXPECT_EQ(d.plan(), before);
}

TEST(PlanScreen, another_lever_takes_what_was_held_as_its_present_level) {
  PlanDesk d;
  d.begin();
  d.pick("lever", "steep time");
  EXPECT_EQ(d.child<QLineEdit>("level.0")->text(), QString::fromUtf8("45\u00A0s"));
  EXPECT_EQ(d.screen->findChild<QLineEdit*>("constant.2"), nullptr) << "what changes is not held as well";
  EXPECT_NE(d.screen->findChild<QLineEdit*>("constant.2.tolerance"), nullptr);
}

TEST(PlanScreen, a_schedule_of_infusions_is_written_row_by_row) {
  PlanDesk d;
  d.begin();
  d.pick("lever", "brew schedule");
  d.write("level.0", "as now");
  d.click("level.0.infusion.add");
  d.click("level.1.infusion.add");
  d.write("level.1.infusion.0.pour", "60");
  d.write("level.1.infusion.0.steep", "1:00");
  d.write("level.1.infusion.0.water", "60 g");
  d.click("level.1.infusion.add");
  ASSERT_EQ(d.at(), "level.1.infusion.1.pour");
  d.write("level.1.infusion.1.pour", "90");
  const auto& levels = d.plan().lever.levels;
  ASSERT_EQ(levels[1].schedule.size(), 2u);
  EXPECT_EQ(levels[1].schedule[0], (InfusionPlan{celsius(60), seconds(60), grams(60)}));
  EXPECT_EQ(levels[1].schedule[1].pour, celsius(90));
  EXPECT_TRUE(d.says("More than one variable changes"));
  d.click("level.1.infusion.0.remove");
  EXPECT_EQ(d.plan().lever.levels[1].schedule.size(), 1u);
  EXPECT_EQ(d.plan().lever.levels[0].schedule.size(), 1u);
}

TEST(PlanScreen, waters_of_the_register_are_levels_with_their_facts) {
  PlanDesk d;
  d.begin();
  d.pick("lever", "water", Qt::MatchExactly);
  d.pick("level.1.record", "a new water");
  ASSERT_EQ(d.at(), "level.1.record.name");
  d.write("level.1.record.name", "spring");
  d.write("level.1.record.ph", "7,4");
  EXPECT_EQ(d.session->registers().waters.at(0).ph_hundredths, 740);
  EXPECT_EQ(d.plan().lever.levels[1].record, d.session->registers().waters.at(0).id.text());
}

TEST(PlanScreen, a_word_of_the_house_stands_beside_the_standard_one_and_its_own_attribute_is_described) {
  PlanDesk d;
  d.begin();
  d.click("attribute.astringency.facts");
  d.write("attribute.astringency.word", "brisk");
  EXPECT_EQ(d.child<QCheckBox>("attribute.astringency")->text(), QString::fromUtf8("Astringency · brisk"));
  d.click("attribute.own.add");
  ASSERT_EQ(d.at(), "attribute.own_1.name");
  d.write("attribute.own_1.name", "Mint");
  d.write("attribute.own_1.definition", "cool, as of mint leaf");
  d.write("attribute.own_1.margin", "1,5");
  const auto* own = find_attribute(d.session->attributes(), "own_1");
  ASSERT_NE(own, nullptr);
  EXPECT_EQ(own->name, "Mint");
  EXPECT_EQ(d.plan().attributes.back().margin, 3);
}

TEST(PlanScreen, undo_and_redo_by_keys_follow_the_plan) {
  PlanDesk d;
  d.begin();
  d.write("level.0", "88");
  d.write("level.0", "90");
  d.key(Qt::Key_Z, Qt::ControlModifier);
  EXPECT_EQ(d.plan().lever.levels[0].value, 88'000);
  d.key(Qt::Key_Z, Qt::ControlModifier | Qt::ShiftModifier);
  EXPECT_EQ(d.plan().lever.levels[0].value, 90'000);
  EXPECT_EQ(d.child<QLineEdit>("level.0")->text(), QString::fromUtf8("90\u00A0°C"));
}

TEST(PlanScreen, margins_constants_and_the_rule_reach_the_plan) {
  PlanDesk d;
  d.begin();
  d.write("attribute.body.margin", "1.5");
  d.write("attribute.finish_length.margin", "1.3");
  d.write("constant.0", "4");
  d.write("constant.0.tolerance", "0.05");
  d.click("constant.7.remove");
  d.click("rule.add");
  d.write("rule.action", "go cooler");
  d.write("alpha", "10 %");
  d.pick("engine", "the exact test only");
  d.pick("swallow", "swallowed");
  const Plan& p = d.plan();
  EXPECT_EQ(std::ranges::find(p.attributes, "body", &PlanAttribute::attribute)->margin, 3);
  EXPECT_EQ(std::ranges::find(p.attributes, "finish_length", &PlanAttribute::attribute)->margin, 1300);
  EXPECT_EQ(p.constants[0].target, 4000);
  EXPECT_EQ(p.constants[0].tolerance, 50);
  EXPECT_EQ(p.constants.size(), 9u);
  ASSERT_TRUE(p.rule);
  EXPECT_EQ(p.rule->action, "go cooler");
  EXPECT_EQ(p.alpha_permille, 100);
  EXPECT_EQ(p.engine, EnginePolicy::exact_only);
  EXPECT_TRUE(p.swallow);
}

TEST(PlanScreen, a_control_may_stand_in_any_sitting_that_there_is) {
  PlanDesk d;
  d.begin();
  d.click("lot.add");
  d.write("brew_pairs", "20");
  d.write("sittings", "20");
  d.click("control.add");
  d.pick("control.0.kind", "yardstick");
  d.write("control.0.dilution", "15 %");
  d.pick("control.0.sitting", "sitting 18");
  EXPECT_EQ(d.plan().controls.at(0).sitting, 18);
  EXPECT_EQ(d.plan().controls.at(0).dilution, Permille(150));
}

TEST(PlanScreen, after_the_seal_nothing_can_be_changed_and_the_day_is_said) {
  PlanDesk d;
  d.seal_small();
  EXPECT_TRUE(d.child<QLabel>("sealed")->text().startsWith("Sealed "));
  EXPECT_TRUE(d.screen->findChildren<QComboBox*>().isEmpty());
  EXPECT_TRUE(d.screen->findChildren<QCheckBox*>().isEmpty());
  for (auto* line : d.screen->findChildren<QLineEdit*>())
    EXPECT_TRUE(line->isReadOnly()) << line->objectName().toStdString();
  for (auto* button : d.screen->findChildren<QPushButton*>())
    EXPECT_FALSE(button->isVisible() && !button->objectName().endsWith(".facts")) << button->objectName().toStdString();
}

TEST(PlanScreen, a_sealed_plan_shows_the_leaf_as_it_was_sealed) {
  PlanDesk d;
  d.seal_small();
  Lot renamed = d.session->registers().lots.at(0);
  renamed.code = "L-99";
  ASSERT_TRUE(d.session->put(renamed).has_value());
  EXPECT_TRUE(d.says("L-01"));
  EXPECT_FALSE(d.says("L-99"));
}

TEST(PlanScreen, words_agreed_on_the_day_are_kept_after_the_seal_until_a_sheet_is_begun) {
  PlanDesk d;
  d.seal_small();
  d.write("reference.words", "body: how thick");
  ASSERT_EQ(d.session->trial()->amendments.size(), 1u);
  EXPECT_EQ(d.session->trial()->amendments[0].new_value, "body: how thick");
  EXPECT_EQ(d.child<QTextEdit>("reference.words")->toPlainText(), "body: how thick");
  ASSERT_TRUE(d.session->run(StartSheet{d.session->trial()->servings.front().id}).has_value());
  EXPECT_TRUE(d.child<QTextEdit>("reference.words")->isReadOnly());
}

TEST(PlanScreen, words_agreed_stand_where_a_taster_begins) {
  PlanDesk d;
  d.seal_small();
  d.write("reference.words", "body: how thick");
  auto port = d.session->taster(tasters(d.session->trial()->sealed->plan).front());
  ASSERT_TRUE(port.has_value());
  ui::TasteScreen taste(std::move(*port), d.clock, d.style);
  auto* agreed = taste.findChild<QLabel*>("agreed_words");
  ASSERT_NE(agreed, nullptr);
  EXPECT_TRUE(agreed->text().contains("body: how thick"));
}

TEST(PlanScreen, a_click_on_a_button_takes_what_is_being_written_first) {
  PlanDesk d;
  d.begin();
  d.child<QLineEdit>("question")->setFocus();
  d.type("Cooler?");
  d.click("level.add");
  EXPECT_EQ(d.plan().question, "Cooler?");
  EXPECT_EQ(d.plan().lever.levels.size(), 3u);
}

TEST(PlanScreen, tab_walks_down_the_page_column_by_column_and_ends_at_the_seal) {
  PlanDesk d;
  d.begin();
  d.click("lot.add");
  d.click("person.add");
  d.click("rule.add");
  d.click("control.add");
  d.write("question", "Cooler?");
  d.write("level.0", "88");
  d.write("level.1", "68");
  d.click("attribute.body");
  auto* question = d.child<QLineEdit>("question");
  question->setFocus();
  QStringList order;
  int column = 0, before = -1;
  for (int i = 0; i < 300; ++i) {
    auto* now = d.screen->focusWidget();
    const QPoint there = now->mapTo(d.screen.get(), QPoint(0, 0));
    const int its_column = there.x() > 860 ? 2 : there.x() > 415 ? 1 : 0;
    EXPECT_GE(its_column, column) << now->objectName().toStdString();
    const int down = now->mapToGlobal(QPoint(0, 0)).y() - d.child<QWidget>("page")->mapToGlobal(QPoint(0, 0)).y();
    if (its_column == column && its_column < 2) {
      EXPECT_GE(down, before - 12) << now->objectName().toStdString();
    }
    column = its_column;
    before = down;
    order << now->objectName();
    if (now->objectName() == "seal") break;
    d.key(Qt::Key_Tab);
  }
  EXPECT_EQ(order.back(), "seal");
  QStringList twice;
  for (const auto& name : order)
    if (order.count(name) > 1 && name != "caution" && name != "block") twice << name;
  EXPECT_TRUE(twice.isEmpty()) << twice.join(" ").toStdString();
  d.key(Qt::Key_Tab);
  EXPECT_EQ(d.at(), "question") << "and round again";
  d.key(Qt::Key_Backtab, Qt::ShiftModifier);
  EXPECT_EQ(d.at(), "seal");
  for (const char* name : {"level.1", "constant.0", "lot.0.code", "warm_up", "attribute.body", "clause.0.by",
                           "person.0", "control.0.kind", "reference.words", "alpha", "notes"})
    EXPECT_TRUE(order.contains(QLatin1String(name))) << name;
}

TEST(PlanScreen, every_control_has_a_name_a_role_and_a_value_for_a_screen_reader_and_an_object_name) {
  PlanDesk d;
  d.begin();
  d.click("lot.add");
  d.click("person.add");
  d.click("rule.add");
  d.click("control.add");
  d.write("level.0", "88");
  int seen = 0;
  for (auto* w : d.screen->findChildren<QWidget*>()) {
    if ((w->focusPolicy() & Qt::TabFocus) == 0 || w->focusProxy() || !w->isVisible() ||
        w->objectName().startsWith("qt_"))
      continue;
    ++seen;
    auto* told = QAccessible::queryAccessibleInterface(w);
    EXPECT_FALSE(w->objectName().isEmpty()) << w->metaObject()->className();
    EXPECT_FALSE(told->text(QAccessible::Name).isEmpty()) << w->objectName().toStdString();
    const auto role = told->role();
    EXPECT_TRUE(role == QAccessible::EditableText || role == QAccessible::ComboBox || role == QAccessible::CheckBox ||
                role == QAccessible::Button)
        << w->objectName().toStdString() << " " << role;
  }
  EXPECT_GT(seen, 60);
  EXPECT_EQ(QAccessible::queryAccessibleInterface(d.child<QLineEdit>("level.0"))->text(QAccessible::Value),
            QString::fromUtf8("88\u00A0°C"));
  EXPECT_EQ(QAccessible::queryAccessibleInterface(d.child<QComboBox>("lever"))->text(QAccessible::Value),
            "water temperature");
  EXPECT_TRUE(QAccessible::queryAccessibleInterface(d.child<QCheckBox>("level.0.now"))->state().checked);
}

TEST(PlanScreen, asks_no_tab_order_across_windows) {
  static QStringList warnings;
  warnings.clear();
  const auto before = qInstallMessageHandler([](QtMsgType type, const QMessageLogContext&, const QString& said) {
    if (type == QtWarningMsg && said.contains("setTabOrder")) warnings << said;
  });
  {
    PlanDesk d;
    d.begin();
    d.click("lot.add");
    d.pick("lever", "vessel");
  }
  qInstallMessageHandler(before);
  EXPECT_TRUE(warnings.isEmpty()) << warnings.join("\n").toStdString();
}

}  // namespace
}  // namespace likeleaf::test
