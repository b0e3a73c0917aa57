// The course of a sitting: rests, breaks, the end, a pair that is taken away, what the disk refuses, and the order of
// Tab and the accessible tree on every page.
#include <gtest/gtest.h>

#include <QAccessible>
#include <QCheckBox>
#include <QLineEdit>

#include "tests/faults/full_disk.h"
#include "tests/ui/taste_eyes.h"
#include "tests/ui/taste_table.h"
#include "ui/taste/attribute_row.h"
#include "ui/widgets/tap_timer.h"
#include "ui/widgets/word_picker.h"

namespace likeleaf::test {
namespace {

QString left_or_right(const BlindServing& serving) {
  return serving.first == Side::left ? QStringLiteral("left_") : QStringLiteral("right_");
}

QString text_of(Table& t, const char* label) {
  return t.child<QLabel>(label)->text();
}

/// Walks a pair with blanks to its lock, with the guess after it.
void lock_blank(Table& t) {
  auto* page = t.child<ui::PairPage>("pair_page");
  const auto serving = page->serving();
  while (page->isVisible() && page->serving().id == serving.id) t.press(Qt::Key_Return);
  if (serving.place == 0) return;
  t.press(Qt::Key_N);
  t.press(Qt::Key_Down);
  t.press(Qt::Key_Return);
}

/// Rest over, the next pair stands on the table.
void rest(Table& t) {
  t.world.clock.advance(seconds(61));
  t.press(Qt::Key_Return);
}

TEST(TasteCourse, a_value_is_soft_until_it_is_kept_and_marked_with_a_retry_when_the_disk_refuses) {
  Table t;
  t.press(Qt::Key_Return);
  t.settle();
  const auto warm = t.flight().at(0);
  auto* scale = t.child<ScoreScale>(left_or_right(warm) + "bitterness");
  const auto ink = [&] { return scale->grab().toImage(); };
  const auto wal = t.folder / "bench.leafbook-wal";
  {
    const FullDisk full(std::filesystem::file_size(wal));
    t.press("6");
    const QImage soft = ink();
    EXPECT_FALSE(t.session->flush());
    t.world.dispatcher.pump();
    EXPECT_EQ(scale->halves(), 12) << "it stays on screen";
    EXPECT_NE(ink(), soft) << "marked";
    EXPECT_EQ(scale->accessibleDescription(), "not kept yet");
    EXPECT_TRUE(text_of(t, "taste_kept").startsWith("not kept: "));
    EXPECT_FALSE(text_of(t, "taste_kept").contains("bench.leafbook"));
    EXPECT_TRUE(t.child<QPushButton>("retry")->isVisible());
    const QImage marked = ink();
    t.click("retry");
    EXPECT_FALSE(t.session->flush());
    t.world.dispatcher.pump();
    EXPECT_EQ(ink(), marked);
  }
  t.click("retry");
  t.settle();
  EXPECT_TRUE(text_of(t, "taste_kept").startsWith("kept "));
  EXPECT_FALSE(t.child<QPushButton>("retry")->isVisible());
  EXPECT_EQ(scale->accessibleDescription(), "");
  const QImage kept = ink();
  t.press("7");
  t.press("6");
  EXPECT_NE(ink(), kept) << "soft ink until the notice";
  t.settle();
  EXPECT_EQ(ink(), kept);
}

TEST(TasteCourse, a_fault_has_a_note_of_its_own_at_its_cup) {
  Table t;
  t.press(Qt::Key_Return);
  const auto warm = t.flight().at(0);
  const QString side = warm.first == Side::left ? "left" : "right";
  EXPECT_FALSE(t.child<QLineEdit>("fault_note_" + side)->isVisible());
  t.press("f");
  EXPECT_TRUE(t.sheet(warm).cup(warm.first).fault);
  t.press("soap");
  t.press(Qt::Key_Return);
  EXPECT_EQ(t.sheet(warm).cup(warm.first).fault_note, "soap");
  EXPECT_EQ(t.step(), ui::TasteStep::first_cup) << "Enter in the note keeps it and walks nowhere";
  t.click("fault_" + side);
  EXPECT_EQ(t.sheet(warm).cup(warm.first).fault_note, "") << "no note stays without its fault";
}

TEST(TasteCourse, an_answer_that_is_no_score_is_given_by_key_and_by_mouse_also_to_the_finish) {
  Table t;
  t.press(Qt::Key_Return);
  const auto warm = t.flight().at(0);
  const auto mark = [&](const char* field) { return std::get<NoScore>(t.sheet(warm).cup(warm.first).marks.at(field)); };
  t.press("c");
  EXPECT_EQ(mark("bitterness"), NoScore::could_not_judge);
  t.click("unscored_2");
  EXPECT_EQ(mark("bitterness"), NoScore::spoilt);
  t.child<ui::TapTimer>(warm.first == Side::left ? "timer_left" : "timer_right")->button()->setFocus();
  t.press("n");
  EXPECT_EQ(mark("finish_length"), NoScore::not_tasted);
}

TEST(TasteCourse, a_finish_is_typed_cut_off_started_over_and_refused_at_its_field) {
  Table t;
  t.press(Qt::Key_Return);
  const auto warm = t.flight().at(0);
  auto* timer = t.child<ui::TapTimer>(warm.first == Side::left ? "timer_left" : "timer_right");
  const auto finish = [&] { return std::get<FinishTime>(t.sheet(warm).cup(warm.first).marks.at("finish_length")); };
  timer->button()->setFocus();
  t.press("2");
  t.press(Qt::Key_Return);
  EXPECT_TRUE(finish().under());
  timer->line()->selectAll();
  t.press("130");
  t.press(Qt::Key_Return);
  EXPECT_TRUE(finish().over());
  timer->line()->selectAll();
  t.press("soon");
  t.press(Qt::Key_Return);
  EXPECT_TRUE(finish().over()) << "the old value is kept";
  EXPECT_TRUE(timer->message().contains("soon"));
  EXPECT_TRUE(text_of(t, "message").isEmpty()) << "said at the field and nowhere else";
  QTest::mouseClick(timer->again(), Qt::LeftButton);
  EXPECT_FALSE(t.sheet(warm).cup(warm.first).marks.contains("finish_length"));
  t.child<ScoreScale>(left_or_right(warm) + "body")->setFocus();
  t.press(Qt::Key_Space);
  t.world.clock.advance(seconds(7));
  QTest::mouseClick(timer->again(), Qt::LeftButton);
  EXPECT_FALSE(timer->running()) << "a false start";
  t.press(Qt::Key_Space);
  t.world.clock.advance(seconds(8));
  t.press(Qt::Key_Space);
  EXPECT_EQ(finish().seconds(), 8);
  t.press(Qt::Key_Space);
  t.press(Qt::Key_Space);
  EXPECT_EQ(finish().seconds(), 8) << "the first full sip only";
}

TEST(TasteCourse, the_lock_names_each_blank_and_each_contradiction_once) {
  Table t;
  come_to_first_pair(t);
  const auto serving = t.flight().at(1);
  t.press("8");
  for (int i = 0; i < 2; ++i) t.press(Qt::Key_Return);
  t.press("2");
  t.press(Qt::Key_Return);
  t.press(serving.first == Side::left ? Qt::Key_Right : Qt::Key_Left);
  t.press(Qt::Key_Return);
  const QString named = text_of(t, "message");
  EXPECT_TRUE(named.contains("different ways: bitterness")) << named.toStdString();
  EXPECT_TRUE(named.contains("aroma.")) << named.toStdString();
  EXPECT_TRUE(named.contains("No answer which cup has more: body")) << named.toStdString();
  EXPECT_EQ(t.child<QPushButton>("onward")->text(), "Lock as it is");
  EXPECT_FALSE(t.sheet(serving).locked);
  // Another contradiction made since is named, the first is not named again.
  auto* body_one = t.child<ScoreScale>(left_or_right(serving) + "body");
  QTest::mouseClick(body_one, Qt::LeftButton, Qt::NoModifier, body_one->place_of(16));
  auto* body_two = t.child<ScoreScale>(QString(serving.first == Side::left ? "right_" : "left_") + "body");
  QTest::mouseClick(body_two, Qt::LeftButton, Qt::NoModifier, body_two->place_of(2));
  t.click(serving.first == Side::left ? "answer_body_1" : "answer_body_0");
  t.click("onward");
  EXPECT_EQ(text_of(t, "message"), "Your answer and your scores point different ways: body. Both may stay.");
  t.click("onward");
  EXPECT_TRUE(t.sheet(serving).locked);
}

TEST(TasteCourse, a_rest_runs_on_under_enter_and_ends_early_by_its_own_button_only) {
  Table t;
  t.press(Qt::Key_Return);
  lock_blank(t);
  ASSERT_EQ(text_of(t, "pause_title"), "Rest");
  t.press(Qt::Key_Return);
  EXPECT_EQ(text_of(t, "pause_title"), "Rest");
  EXPECT_TRUE(t.child<QLabel>("pause_title")->isVisible());
  EXPECT_FALSE(t.child<QPushButton>("next")->isVisible());
  t.press(Qt::Key_Tab);
  while (QApplication::focusWidget()->objectName() != "rest_early") t.press(Qt::Key_Tab);
  t.press(Qt::Key_Return);
  EXPECT_EQ(text_of(t, "place"), "pair 1 of 4");
}

TEST(TasteCourse, a_pair_taken_off_the_table_is_told_in_plain_words_and_its_other_cups_come_last) {
  Table t;
  come_to_first_pair(t);
  const auto gone = t.flight().at(1);
  t.press("6");
  t.session->run(VoidPair{gone.pair, "H.", "a fly in the kestrel cup"}).value();
  QApplication::processEvents();
  EXPECT_EQ(text_of(t, "pause_title"), "This pair is off the table");
  EXPECT_FALSE(text_of(t, "pause_words").contains("fly")) << "the reason may say what the cup held";
  t.press(Qt::Key_Return);
  const auto* page = t.child<ui::PairPage>("pair_page");
  ASSERT_TRUE(page->isVisible());
  EXPECT_FALSE(page->serving().instead_of) << "the others of the sitting first";
  for (int i = 0; i < 3; ++i) {
    EXPECT_EQ(page->serving().sitting, 1);
    lock_blank(t);
    rest(t);
  }
  EXPECT_TRUE(page->serving().instead_of);
  EXPECT_EQ(page->serving().sitting, 1);
}

TEST(TasteCourse, sittings_end_with_a_break_and_the_flight_with_thanks_and_locked_sheets_can_be_looked_at) {
  Table t;
  come_to_first_pair(t);
  const auto first = t.flight().at(1);
  t.press("6");
  bool done = false;
  QObject::connect(t.screen, &ui::TasteScreen::flight_done, [&] { done = true; });
  for (int i = 0; i < 4; ++i) {
    lock_blank(t);
    if (i < 3) rest(t);
  }
  ASSERT_EQ(text_of(t, "pause_title"), "Sitting 1 is done");
  EXPECT_EQ(t.child<QPushButton>("next")->text(), "Begin sitting 2");
  t.click("look_1");
  const auto* page = t.child<ui::PairPage>("pair_page");
  ASSERT_TRUE(page->isVisible());
  EXPECT_EQ(page->serving().id, first.id);
  auto* scale = t.child<ScoreScale>(left_or_right(first) + "bitterness");
  EXPECT_EQ(scale->halves(), 12);
  QTest::mouseClick(scale, Qt::LeftButton, Qt::NoModifier, scale->place_of(3));
  t.press("3");
  t.press(Qt::Key_Left);
  EXPECT_EQ(scale->halves(), 12) << "to look at, not to change";
  EXPECT_FALSE(t.child<QPushButton>("undo")->isVisible());
  t.press(Qt::Key_Return);
  ASSERT_EQ(text_of(t, "pause_title"), "Sitting 1 is done");
  t.press(Qt::Key_Return);
  EXPECT_TRUE(t.child<QCheckBox>("cold")->isVisible()) << "a new sitting asks how one is";
  t.press(Qt::Key_Return);
  for (int guard = 0; guard < 40 && !done; ++guard) {
    if (page->isVisible())
      lock_blank(t);
    else
      rest(t);
  }
  EXPECT_TRUE(done);
  EXPECT_EQ(text_of(t, "pause_title"), "That was the last pair");
  bool leaves = false;
  QObject::connect(t.screen, &ui::TasteScreen::leave_wanted, [&] { leaves = true; });
  t.press(Qt::Key_Return);
  EXPECT_TRUE(leaves);
}

TEST(TasteCourse, attribute_by_attribute_walks_both_cups_under_each_name_and_times_both) {
  Plan plan = FerryPier().trial_14();
  plan.sip = SipProtocol::attribute_by_attribute;
  std::erase_if(plan.attributes, [](const PlanAttribute& a) {
    return a.attribute != "bitterness" && a.attribute != "body" && a.attribute != "finish_length";
  });
  plan.rule.reset();
  Table t(plan);
  t.press(Qt::Key_Return);
  const auto warm = t.flight().at(0);
  ASSERT_EQ(t.step(), ui::TasteStep::both_cups);
  EXPECT_TRUE(t.child<ui::TapTimer>("timer_left")->isVisible());
  EXPECT_TRUE(t.child<ui::TapTimer>("timer_right")->isVisible());
  for (const char* score : {"6", "4", "5", "5"}) {
    t.press(score);
    t.press(Qt::Key_Tab);
  }
  t.child<ScoreScale>(left_or_right(warm) + "body")->setFocus();
  EXPECT_EQ(halves_of(t.sheet(warm).cup(warm.first), "bitterness"), 12);
  EXPECT_EQ(halves_of(t.sheet(warm).cup(other(warm.first)), "bitterness"), 8);
  EXPECT_EQ(halves_of(t.sheet(warm).cup(other(warm.first)), "body"), 10);
  t.press(Qt::Key_Space);
  EXPECT_TRUE(t.child<ui::TapTimer>(warm.first == Side::left ? "timer_left" : "timer_right")->running())
      << "the cup in hand";
  t.press(Qt::Key_Tab);
  t.world.clock.advance(seconds(12));
  t.press(Qt::Key_Space);
  EXPECT_EQ(std::get<FinishTime>(t.sheet(warm).cup(warm.first).marks.at("finish_length")).seconds(), 12)
      << "the timer that runs is the one that stops";
  t.press(Qt::Key_Return);
  EXPECT_EQ(t.step(), ui::TasteStep::compare);
}

TEST(TasteCourse, allergens_and_the_usual_cautions_stand_before_the_first_sip) {
  Table t;
  EXPECT_TRUE(text_of(t, "day_cautions").contains("Your own cup and spoon only"));
}

TEST(TasteCourse, undo_takes_back_one_entry_of_this_sheet_and_says_which) {
  Table t;
  t.press(Qt::Key_Return);
  const auto warm = t.flight().at(0);
  t.press("6");
  t.press(Qt::Key_Tab);
  t.press("4");
  t.press(Qt::Key_Z, Qt::ControlModifier);
  EXPECT_EQ(halves_of(t.sheet(warm).cup(warm.first), "body"), -1);
  EXPECT_TRUE(text_of(t, "message").contains("body, cup ")) << text_of(t, "message").toStdString();
  t.click("undo");
  EXPECT_EQ(halves_of(t.sheet(warm).cup(warm.first), "bitterness"), -1);
  EXPECT_FALSE(t.child<QPushButton>("undo")->isVisible());
}

TEST(TasteCourse, the_decimal_mark_is_the_locales_and_both_are_taken) {
  Table t(FerryPier().trial_14(), Style{TemperatureUnit::celsius, ','});
  t.press(Qt::Key_Return);
  const auto warm = t.flight().at(0);
  t.press("7.");
  EXPECT_EQ(t.child<ScoreScale>(left_or_right(warm) + "bitterness")->shown(), "7,5");
  t.press(Qt::Key_Backspace);
  t.press("4,5");
  EXPECT_EQ(t.child<ScoreScale>(left_or_right(warm) + "bitterness")->shown(), "4,5");
}

TEST(TasteCourse, wheel_steps_by_halves_and_every_target_is_large_enough_for_a_finger) {
  Table t;
  t.press(Qt::Key_Return);
  const auto warm = t.flight().at(0);
  auto* scale = t.child<ScoreScale>(left_or_right(warm) + "sweetness");
  const auto turn = [&](int by) {
    QWheelEvent event(scale->rect().center(), scale->mapToGlobal(scale->rect().center()), {}, {0, by}, Qt::NoButton,
                      Qt::NoModifier, Qt::NoScrollPhase, false);
    QApplication::sendEvent(scale, &event);
  };
  turn(120);
  turn(120);
  turn(120);
  turn(-120);
  EXPECT_EQ(scale->halves(), 2);
  EXPECT_TRUE(scale->hasFocus());
  for (auto* button : t.screen->findChildren<QPushButton*>())
    if (button->isVisible()) {
      EXPECT_GE(button->height(), 36) << button->objectName().toStdString();
    }
  for (auto* one : t.screen->findChildren<ScoreScale*>()) EXPECT_GE(one->height(), 32);
  EXPECT_LE(t.screen->minimumSizeHint().height(), 800);
}

/// Names in the order of Tab from where the focus is, once round.
QStringList tab_walk(Table& t) {
  QStringList out;
  auto* begin = QApplication::focusWidget();
  do {
    out << QApplication::focusWidget()->objectName();
    t.press(Qt::Key_Tab);
  } while (QApplication::focusWidget() != begin && out.size() < 60);
  return out;
}

TEST(TasteCourse, tab_walks_a_cup_in_the_order_of_tasting) {
  Table t;
  t.press(Qt::Key_Return);
  const auto warm = t.flight().at(0);
  const QString side = left_or_right(warm), name = side.chopped(1), far = name == "left" ? "right" : "left";
  QStringList expected;
  for (const auto& id : six) expected << side + QString::fromStdString(id);
  expected << "tap";
  for (const char* band : {"top", "middle", "base"}) expected << side + "aroma_register." + band;
  expected << "word_typed"
           << "pair_note"
           << "finish_typed";
  if (name == "left")
    expected << "fault_left"
             << "sipped_right";
  if (name == "right")
    expected << "sipped_left"
             << "fault_right";
  expected << "unscored_0"
           << "unscored_1"
           << "unscored_2"
           << "onward";
  QStringList walked = tab_walk(t);
  walked.removeAll("leave_table");
  EXPECT_EQ(walked, expected) << walked.join(' ').toStdString();
}

TEST(TasteCourse, every_control_of_every_page_has_a_name_a_role_and_a_value_to_hear) {
  Table t;
  int seen = 0;
  const auto listen = [&](const char* page) {
    t.settle();
    for (auto* w : t.screen->findChildren<QWidget*>()) {
      if (w->focusPolicy() == Qt::NoFocus || !w->isVisible() || w->objectName().startsWith("qt_") ||
          w->inherits("QLabel"))
        continue;
      auto* access = QAccessible::queryAccessibleInterface(w);
      ++seen;
      EXPECT_FALSE(access->text(QAccessible::Name).isEmpty())
          << page << ": " << w->metaObject()->className() << ' ' << w->objectName().toStdString();
      EXPECT_NE(access->role(), QAccessible::NoRole) << page << ": " << w->objectName().toStdString();
      if (qobject_cast<ScoreScale*>(w) || qobject_cast<ui::AttributeRow*>(w)) {
        EXPECT_FALSE(access->text(QAccessible::Value).isEmpty()) << page << ": " << w->objectName().toStdString();
      }
      if (auto* button = qobject_cast<QPushButton*>(w)) {
        EXPECT_EQ(access->role(), button->isCheckable() ? QAccessible::CheckBox : QAccessible::Button)
            << page << ": " << w->objectName().toStdString();
      }
    }
  };
  listen("day");
  t.press(Qt::Key_Return);
  listen("first cup");
  t.press("f");
  listen("fault");
  t.press(Qt::Key_PageDown);
  listen("rinse");
  t.press(Qt::Key_Return);
  t.press(Qt::Key_Return);
  listen("compare");
  t.press(Qt::Key_Down);
  EXPECT_EQ(
      QAccessible::queryAccessibleInterface(t.child<ui::AttributeRow>("row_bitterness"))->text(QAccessible::Value),
      "can’t tell");
  t.press(Qt::Key_Return);
  t.press(Qt::Key_Return);
  listen("rest");
  rest(t);
  lock_blank(t);
  t.click("look_0");
  listen("locked sheet");
  EXPECT_GT(seen, 60);
}

}  // namespace
}  // namespace likeleaf::test
