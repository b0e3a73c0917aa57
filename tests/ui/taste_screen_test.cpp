// The taster's screen on a real session: a whole pair by keys alone and by mouse alone, and what can go wrong with one.
#include "ui/taste/taste_screen.h"

#include <gtest/gtest.h>

#include <QAccessible>
#include <QApplication>
#include <QCheckBox>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QtTest>
#include <iostream>

#include "tests/ui/taste_eyes.h"
#include "tests/ui/taste_table.h"
#include "ui/taste/attribute_row.h"
#include "ui/taste/pair_page.h"
#include "ui/widgets/score_scale.h"
#include "ui/widgets/tap_timer.h"
#include "ui/widgets/word_picker.h"

namespace likeleaf::test {
namespace {

TEST(TasteScreen, a_whole_pair_by_keyboard_alone_in_forty_presses_or_fewer) {
  Table t;
  come_to_first_pair(t);
  const auto serving = t.flight().at(1);
  t.presses = 0;
  const auto cup = [&](const char* scores) {
    t.press(Qt::Key_Space);
    t.world.clock.advance(seconds(41));
    t.press(Qt::Key_Space);
    for (int i = 0; i < 6; ++i) {
      if (i) t.press(Qt::Key_Tab);
      const char one[2] = {scores[i], 0};
      t.press(one);
    }
  };
  cup("645738");
  t.press(Qt::Key_Return);
  EXPECT_EQ(t.step(), ui::TasteStep::rinse);
  t.press(Qt::Key_Return);
  cup("445737");
  t.press(Qt::Key_Return);
  ASSERT_EQ(t.step(), ui::TasteStep::compare);
  for (const auto key : {serving.first == Side::left ? Qt::Key_Left : Qt::Key_Right, Qt::Key_Down, Qt::Key_Down,
                         Qt::Key_Down, Qt::Key_Down, Qt::Key_Down})
    t.press(key);
  t.press(Qt::Key_Return);  // the aroma is blank: named once
  EXPECT_TRUE(t.child<QLabel>("message")->text().contains("aroma"));
  EXPECT_FALSE(t.sheet(serving).locked);
  t.press(Qt::Key_Return);
  const int pair = t.presses;
  RecordProperty("key_presses_of_one_pair", pair);
  std::cout << "key presses for one pair, taps, answers, review and lock included: " << pair << '\n';
  EXPECT_LE(pair, 40);
  const Sheet sheet = t.sheet(serving);
  ASSERT_TRUE(sheet.locked);
  const int first[] = {12, 8, 10, 14, 6, 16}, second[] = {8, 8, 10, 14, 6, 14};
  for (std::size_t i = 0; i < six.size(); ++i) {
    EXPECT_EQ(halves_of(sheet.cup(serving.first), six[i]), first[i]) << six[i];
    EXPECT_EQ(halves_of(sheet.cup(other(serving.first)), six[i]), second[i]) << six[i];
  }
  EXPECT_EQ(std::get<FinishTime>(sheet.left.marks.at("finish_length")).seconds(), 41);
  EXPECT_EQ(std::get<FinishTime>(sheet.right.marks.at("finish_length")).seconds(), 41);
  ASSERT_EQ(sheet.directs.size(), 6U);
  EXPECT_EQ(sheet.directs.at("bitterness"), serving.first == Side::left ? Direct::left_more : Direct::right_more);
  EXPECT_EQ(sheet.directs.at("body"), Direct::cannot_tell);
  t.press(Qt::Key_Y);
  t.press(Qt::Key_Right);
  t.press(Qt::Key_Return);
  EXPECT_EQ(t.sheet(serving).guess, (Guess{true, Side::right}));
  EXPECT_EQ(t.child<QLabel>("pause_title")->text(), "Rest");
}

TEST(TasteScreen, the_whole_sheet_by_keyboard_alone_in_sixty_presses_or_fewer) {
  Table t;
  come_to_first_pair(t);
  const auto serving = t.flight().at(1);
  t.presses = 0;
  // Six scores, the finish, three bands.
  const auto cup = [&](const char* scores) {
    t.press(Qt::Key_Space);
    t.world.clock.advance(seconds(20));
    t.press(Qt::Key_Space);
    for (int i = 0; i < 6; ++i) {
      if (i) t.press(Qt::Key_Tab);
      const char one[2] = {scores[i], 0};
      t.press(one);
    }
    for (const char* band : {"3", "4", "6"}) {
      t.press(Qt::Key_Tab);
      t.press(band);
    }
  };
  cup("645738");
  t.press(Qt::Key_Tab);
  for (const char* word : {"mal", "cut"}) {
    t.press(word);
    t.press(Qt::Key_Tab);  // the first offer
  }
  t.press(Qt::Key_Tab);
  t.press("ok");
  t.press(Qt::Key_PageDown);
  t.press(Qt::Key_Return);
  cup("445738");
  t.press(Qt::Key_Return);
  ASSERT_EQ(t.step(), ui::TasteStep::compare);
  for (const auto key : {serving.first == Side::left ? Qt::Key_Left : Qt::Key_Right, Qt::Key_Down, Qt::Key_Down,
                         Qt::Key_Down, Qt::Key_Down, Qt::Key_Down})
    t.press(key);
  t.press(Qt::Key_Return);
  const int whole = t.presses;
  RecordProperty("key_presses_of_the_whole_sheet", whole);
  std::cout << "key presses for the whole sheet, with bands, two words, a note of two letters and lock: " << whole
            << '\n';
  EXPECT_LE(whole, 60);
  const Sheet sheet = t.sheet(serving);
  ASSERT_TRUE(sheet.locked) << "nothing was blank, so nothing was asked";
  for (const Side side : {Side::left, Side::right}) EXPECT_EQ(sheet.cup(side).marks.size(), 10U);
  EXPECT_EQ(halves_of(sheet.cup(serving.first), "aroma_register.top"), 6);
  EXPECT_EQ(sheet.cup(serving.first).words.size(), 2U);
  EXPECT_EQ(sheet.directs.size(), 6U);
  EXPECT_EQ(sheet.note, "ok");
}

TEST(TasteScreen, a_whole_pair_by_mouse_alone) {
  Table t;
  QTest::mouseClick(t.child<QCheckBox>("cold"), Qt::LeftButton, Qt::NoModifier, QPoint(10, 18));
  t.click("begin");
  EXPECT_TRUE(t.session->trial()->days.at(0).cold);
  for (int i = 0; i < 5; ++i) t.click("onward");  // the warm-up, left blank: named once, then locked
  t.click("rest_early");
  const auto serving = t.flight().at(1);
  const auto name = [&](Side side) { return QString::fromLatin1(side == Side::left ? "left_" : "right_"); };
  for (const Side side : {serving.first, other(serving.first)}) {
    auto* timer = t.child<ui::TapTimer>(QStringLiteral("timer_") + name(side).chopped(1));
    QTest::mouseClick(timer->button(), Qt::LeftButton);
    t.world.clock.advance(seconds(130));
    QTest::mouseClick(timer->button(), Qt::LeftButton);
    for (std::size_t i = 0; i < six.size(); ++i) {
      auto* scale = t.child<ScoreScale>(name(side) + QString::fromStdString(six[i]));
      QTest::mouseClick(scale, Qt::LeftButton, Qt::NoModifier, scale->place_of(static_cast<int>(i) * 2 + 1));
    }
    t.click("unscored_0");  // about the scale in hand: the last
    t.click("onward");
    if (side == serving.first) t.click("onward");
  }
  ASSERT_EQ(t.step(), ui::TasteStep::compare);
  for (const auto& attribute : six) t.click(QStringLiteral("answer_%1_1").arg(QString::fromStdString(attribute)));
  t.click("onward");
  t.click("onward");
  const Sheet sheet = t.sheet(serving);
  ASSERT_TRUE(sheet.locked);
  EXPECT_EQ(halves_of(sheet.left, "bitterness"), 1);
  EXPECT_EQ(halves_of(sheet.right, "savoury"), 9);
  EXPECT_EQ(std::get<NoScore>(sheet.left.marks.at("finish_structure")), NoScore::could_not_judge);
  EXPECT_TRUE(std::get<FinishTime>(sheet.right.marks.at("finish_length")).over());
  EXPECT_EQ(sheet.directs.at("savoury"), Direct::right_more);
  t.click("saw_no");
  t.click("guess_none");
  t.click("guess_keep");
  EXPECT_EQ(t.sheet(serving).guess, (Guess{false, std::nullopt}));
}

TEST(TasteScreen, digits_join_to_ten_a_mark_adds_a_half_and_backspace_clears) {
  Table t;
  t.press(Qt::Key_Return);
  const auto warm = t.flight().at(0);
  const auto now = [&] { return halves_of(t.sheet(warm).cup(warm.first), "bitterness"); };
  t.press("1");
  EXPECT_EQ(now(), 2);
  t.press("0");
  EXPECT_EQ(now(), 20);
  t.press("7");
  t.press(",");
  EXPECT_EQ(now(), 15);
  t.press("3");
  EXPECT_EQ(now(), 15) << "7.3 is not on the scale";
  EXPECT_TRUE(t.child<ui::AttributeRow>("row_bitterness")->message().contains("half steps"));
  t.press(Qt::Key_Backspace);
  EXPECT_EQ(now(), -1);
  t.press("1");
  t.press(Qt::Key_Tab);
  t.press(Qt::Key_Backtab);
  t.press("0");
  EXPECT_EQ(now(), 0) << "once the focus has left, 1 and 0 are two scores";
  t.press("n");
  EXPECT_EQ(now(), -2);
  t.press(Qt::Key_Z, Qt::ControlModifier);
  EXPECT_EQ(now(), 0);
  t.press("1");
  t.press("1");
  EXPECT_EQ(now(), 2) << "eleven is not on the scale; the 1 stands";
  EXPECT_TRUE(t.child<ui::AttributeRow>("row_bitterness")->message().contains("11"));
  t.press("4");
  EXPECT_EQ(now(), 8) << "the next digit begins anew";
}

TEST(TasteScreen, words_are_offered_from_the_third_letter_on_and_ones_own_are_taken) {
  Table t;
  t.press(Qt::Key_Return);
  const auto warm = t.flight().at(0);
  auto* picker = t.child<ui::WordPicker>(warm.first == Side::left ? "words_left" : "words_right");
  picker->line()->setFocus();
  t.press("ma");
  EXPECT_FALSE(picker->offers()->isVisible());
  t.press("l");
  EXPECT_TRUE(picker->offers()->isVisible());
  t.press("t 2");
  t.press(Qt::Key_Return);
  t.press("pier rope");
  t.press(Qt::Key_Return);
  EXPECT_EQ(t.step(), ui::TasteStep::first_cup) << "Enter in the line is the word's";
  EXPECT_EQ(t.sheet(warm).cup(warm.first).words, (std::vector<WordMark>{{"malt", 2}, {"pier rope", {}}}));
  EXPECT_FALSE(t.child<ui::TapTimer>(warm.first == Side::left ? "timer_left" : "timer_right")->running())
      << "Space in an editor is a space";
  t.press(Qt::Key_Backspace);
  EXPECT_EQ(t.sheet(warm).cup(warm.first).words.size(), 1U);
}

TEST(TasteScreen, opened_again_it_goes_on_with_the_same_pair_and_its_marks) {
  Table t;
  t.press(Qt::Key_Return);
  const auto warm = t.flight().at(0);
  t.press("6");
  t.sit_down();
  auto* scale = t.child<ScoreScale>(warm.first == Side::left ? "left_bitterness" : "right_bitterness");
  EXPECT_EQ(scale->halves(), 12);
}

TEST(TasteScreen, the_first_cup_is_out_of_sight_and_hearing_until_both_are_in_when_the_plan_says_so) {
  Plan plan = FerryPier().trial_14();
  plan.hide_first_cup = true;
  Table t(plan);
  t.press(Qt::Key_Return);
  const auto warm = t.flight().at(0);
  t.press("6");
  auto* scale = t.child<ScoreScale>(warm.first == Side::left ? "left_bitterness" : "right_bitterness");
  auto* access = QAccessible::queryAccessibleInterface(scale);
  EXPECT_EQ(access->text(QAccessible::Value), "6");
  t.press(Qt::Key_Return);
  ASSERT_EQ(t.step(), ui::TasteStep::rinse);
  EXPECT_EQ(scale->shown(), "–") << "while rinsing too";
  EXPECT_FALSE(access->valueInterface()->currentValue().isValid());
  t.press(Qt::Key_Return);
  EXPECT_EQ(scale->shown(), "–");
  EXPECT_FALSE(access->valueInterface()->currentValue().isValid());
  t.press(Qt::Key_Return);
  EXPECT_EQ(scale->shown(), "6");
}

TEST(TasteScreen, a_first_cup_out_of_sight_leaves_no_trace_of_what_was_found_in_it) {
  Plan plan = FerryPier().trial_14();
  plan.hide_first_cup = true;
  const auto seen = [&](const char* score, const char* word, int finish) {
    Table t(plan);
    t.press(Qt::Key_Return);
    const auto warm = t.flight().at(0);
    const QString side = warm.first == Side::left ? "left" : "right";
    t.child<ScoreScale>(side + "_bitterness")->setFocus();
    t.press(score);
    t.press(Qt::Key_Space);
    t.world.clock.advance(seconds(finish));
    t.press(Qt::Key_Space);
    t.world.clock.advance(seconds(60 - finish));
    t.child<ui::WordPicker>("words_" + side)->line()->setFocus();
    t.press(word);
    t.press(Qt::Key_Return);
    t.press(Qt::Key_Return);
    t.settle();
    EXPECT_EQ(t.step(), ui::TasteStep::rinse);
    const auto rinsing = look(t.screen);
    t.press(Qt::Key_Return);
    t.settle();
    EXPECT_EQ(t.step(), ui::TasteStep::second_cup);
    return std::vector<Seen>{rinsing, look(t.screen)};
  };
  const auto one = seen("6", "malt", 8), other = seen("2", "rose", 19);
  EXPECT_EQ(differences({one, {}}, {other, {}}), std::vector<std::string>{});
}

TEST(TasteScreen, a_scale_is_a_slider_with_a_value_that_can_be_set) {
  Table t;
  t.press(Qt::Key_Return);
  const auto warm = t.flight().at(0);
  auto* scale = t.child<ScoreScale>(warm.first == Side::left ? "left_body" : "right_body");
  auto* access = QAccessible::queryAccessibleInterface(scale);
  EXPECT_EQ(access->role(), QAccessible::Slider);
  EXPECT_EQ(access->text(QAccessible::Name),
            QStringLiteral("Body, cup %1")
                .arg(QString::fromStdString((warm.first == Side::left ? warm.left : warm.right).text())));
  access->valueInterface()->setCurrentValue(7.5);
  EXPECT_EQ(halves_of(t.sheet(warm).cup(warm.first), "body"), 15);
}

}  // namespace
}  // namespace likeleaf::test
