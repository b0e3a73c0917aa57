// The taster's screen on a real session: a whole pair by keys alone and by mouse alone, and nothing that hints at the
// key.
#include "ui/taste/taste_screen.h"

#include <gtest/gtest.h>

#include <QAccessible>
#include <QApplication>
#include <QCheckBox>
#include <QImage>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QtTest>
#include <iostream>

#include "core/session/taster_port.h"
#include "tests/core/store/bench_book.h"
#include "ui/taste/attribute_row.h"
#include "ui/taste/pair_page.h"
#include "ui/widgets/score_scale.h"
#include "ui/widgets/tap_timer.h"
#include "ui/widgets/word_picker.h"

namespace likeleaf::test {
namespace {

using ui::ScoreScale;

/// A sealed trial of six direct attributes, finish and aroma, and R.'s screen on it.
struct Table {
  Folder folder;
  World world;
  std::unique_ptr<Session> session;
  ui::TasteScreen* screen = nullptr;
  int presses = 0;

  explicit Table(const Plan& plan = FerryPier().trial_14()) {
    session = new_bench(folder / "bench.leafbook", world);
    session->new_trial(plan).value();
    const auto sealed = session->seal();
    if (!sealed) throw std::runtime_error(words_of(sealed.error()));
    sit_down();
  }
  ~Table() { delete screen; }
  void sit_down() {
    delete screen;
    screen = new ui::TasteScreen(session->taster(FerryPier().r).value(), world.clock, Style{});
    screen->resize(1280, 736);
    screen->show();
    EXPECT_TRUE(QTest::qWaitForWindowActive(screen));
  }
  /// One key press where the focus is.
  void press(int key, Qt::KeyboardModifiers with = Qt::NoModifier) {
    ++presses;
    auto* to = QApplication::focusWidget();
    QTest::keyClick(to ? to : screen, static_cast<Qt::Key>(key), with);
  }
  void press(const char* text) {
    for (const char* c = text; *c; ++c) {
      ++presses;
      QTest::keyClick(QApplication::focusWidget(), *c);
    }
  }
  template <class T>
  T* child(const QString& name) {
    auto* found = screen->findChild<T*>(name);
    if (!found) throw std::runtime_error("no " + name.toStdString());
    return found;
  }
  void click(const QString& name) {
    auto* button = child<QPushButton>(name);
    ASSERT_TRUE(button->isVisible()) << name.toStdString();
    QTest::mouseClick(button, Qt::LeftButton);
    QApplication::processEvents();
  }
  [[nodiscard]] std::vector<BlindServing> flight() const { return session->taster(FerryPier().r).value()->flight(); }
  [[nodiscard]] Sheet sheet(const BlindServing& serving) const {
    const auto trial = session->trial();
    const auto found = trial->sheets.find(serving.id);
    return found == trial->sheets.end() ? Sheet{} : *found->second;
  }
  [[nodiscard]] ui::TasteStep step() { return screen->findChild<ui::PairPage*>()->step(); }
};

const std::vector<std::string> six = {"bitterness", "body", "sweetness", "astringency", "savoury", "finish_structure"};

int halves_of(const CupMarks& cup, const std::string& field) {
  const auto found = cup.marks.find(field);
  if (found == cup.marks.end()) return -1;
  const auto* score = std::get_if<Score>(&found->second);
  return score ? score->halves() : -2;
}

/// Day and warm-up behind us: the first counted pair stands on the table.
void come_to_first_pair(Table& t) {
  t.press(Qt::Key_Return);  // the day
  ASSERT_EQ(t.child<QLabel>("place")->text(), "warm-up pair");
  for (int i = 0; i < 3; ++i) t.press(Qt::Key_Return);
  t.press(Qt::Key_Return);  // blanks are named
  t.press(Qt::Key_Return);  // locked as it is
  ASSERT_EQ(t.child<QLabel>("pause_title")->text(), "Rest");
  t.world.clock.advance(seconds(61));
  t.press(Qt::Key_Return);
  ASSERT_EQ(t.child<QLabel>("place")->text(), "pair 1 of 4");
}

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

TEST(TasteScreen, a_whole_pair_by_mouse_alone) {
  Table t;
  QTest::mouseClick(t.child<QCheckBox>("cold"), Qt::LeftButton, Qt::NoModifier, QPoint(10, 18));
  t.click("begin");
  EXPECT_TRUE(t.session->trial()->days.at(0).cold);
  for (int i = 0; i < 5; ++i) t.click("onward");  // the warm-up, left blank: named once, then locked
  t.click("next");
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
  EXPECT_TRUE(t.child<QLabel>("message")->text().contains("half steps"));
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
  t.press(Qt::Key_Return);
  EXPECT_EQ(scale->shown(), "–");
  EXPECT_FALSE(access->valueInterface()->currentValue().isValid());
  t.press(Qt::Key_Return);
  EXPECT_EQ(scale->shown(), "6");
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
  for (auto* w : t.screen->findChildren<QWidget*>()) {
    if (w->focusPolicy() == Qt::NoFocus || !w->isVisible() || w->objectName().startsWith("qt_") ||
        w->inherits("QLabel") || w->inherits("likeleaf::ui::PairPage"))
      continue;
    EXPECT_FALSE(QAccessible::queryAccessibleInterface(w)->text(QAccessible::Name).isEmpty())
        << w->metaObject()->className() << ' ' << w->objectName().toStdString();
  }
}

/// Everything a taster meets on one screen: pixels, and what a screen reader, a title or a tooltip would say.
struct Seen {
  QImage pixels;
  QStringList words;
  bool operator==(const Seen&) const = default;
};

Seen look(Table& t) {
  QApplication::processEvents();
  Seen seen{t.screen->grab().toImage(), {t.screen->windowTitle()}};
  for (auto* w : t.screen->findChildren<QWidget*>()) {
    auto* access = QAccessible::queryAccessibleInterface(w);
    seen.words << w->objectName() << w->toolTip() << w->statusTip() << w->windowTitle();
    if (access)
      seen.words << access->text(QAccessible::Name) << access->text(QAccessible::Description)
                 << access->text(QAccessible::Value);
  }
  return seen;
}

std::vector<Seen> first_screens(Table& t) {
  std::vector<Seen> all{look(t)};
  const auto go_on = [&](int key) {
    t.press(key);
    all.push_back(look(t));
  };
  for (int i = 0; i < 6; ++i) go_on(Qt::Key_Return);
  t.world.clock.advance(seconds(61));
  for (const auto key : {Qt::Key_Return, Qt::Key_6, Qt::Key_Tab, Qt::Key_4, Qt::Key_Return, Qt::Key_Return, Qt::Key_5,
                         Qt::Key_Return, Qt::Key_Left, Qt::Key_Return, Qt::Key_Return, Qt::Key_Y})
    go_on(key);
  return all;
}

TEST(TasteScreen, two_trials_alike_but_for_the_levels_in_the_key_look_the_same) {
  // The draw is the same, and what it calls the first level is the other one: every cup holds the other level.
  const auto plan = [](const char* first, const char* second) {
    Plan p = FerryPier().trial_14();
    p.lever = Lever{LeverKind::other, "the way it is done", {Level{first, {}, {}, true}, Level{second, {}, {}, false}}};
    p.rule.reset();
    return p;
  };
  {
    // Qt draws large glyphs with other edges before they are in its cache: a third table fills it first.
    Table before(plan("hot", "cool"));
    before.sit_down();
    first_screens(before);
    before.screen->hide();
  }
  Table one(plan("hot", "cool")), two(plan("cool", "hot"));
  const auto trial_one = one.session->trial(), trial_two = two.session->trial();
  ASSERT_EQ(trial_one->servings, trial_two->servings);
  ASSERT_EQ(trial_one->key->brews.size(), trial_two->key->brews.size());
  for (std::size_t i = 0; i < trial_one->key->brews.size(); ++i) {
    const auto held = [i](const Trial& t) { return t.draft.lever.levels.at(t.key->brews[i].level).label; };
    ASSERT_EQ(trial_one->key->brews[i].id, trial_two->key->brews[i].id);
    ASSERT_NE(held(*trial_one), held(*trial_two));
  }
  one.sit_down();
  const auto seen_one = first_screens(one);
  one.screen->hide();
  two.sit_down();
  const auto seen_two = first_screens(two);
  ASSERT_EQ(seen_one.size(), seen_two.size());
  for (std::size_t i = 0; i < seen_one.size(); ++i) {
    EXPECT_EQ(seen_one[i].words, seen_two[i].words) << "screen " << i;
    EXPECT_TRUE(seen_one[i].pixels == seen_two[i].pixels) << "screen " << i;
  }
}

}  // namespace
}  // namespace likeleaf::test
