// Two trials alike but for what only the key knows are the same to a taster, byte for byte: every page of a whole
// flight, what a screen reader would say, titles, tooltips, notices, what is logged and kept in the settings.
#include <gtest/gtest.h>

#include <QLabel>
#include <QPainter>
#include <QSettings>
#include <algorithm>
#include <functional>

#include "core/domain/key.h"
#include "tests/ui/taste_eyes.h"
#include "tests/ui/taste_table.h"
#include "ui/start/start_screen.h"
#include "ui/widgets/tap_timer.h"
#include "ui/widgets/word_picker.h"
#include "ui/window/main_window.h"

namespace likeleaf::test {
namespace {

const QStringList canaries{"L-07",       "L-12",           "L-18",          "L-21",       "L-25",       "kestrelgate",
                           "zandmark",   "Ferry pier",     "take the edge", "counter",    "blank pair", "yardstick",
                           "warmer way", "bench.leafbook", "house soft",    "small glass"};

/// Nine brew pairs and three controls in three sittings; levels by words that nothing else says.
Plan base() {
  Plan p = FerryPier().trial_14();
  p.lever =
      Lever{LeverKind::other, "the warmer way", {Level{"kestrelgate", {}, {}, true}, Level{"zandmark", {}, {}, false}}};
  p.rule.reset();
  return p;
}

Plan levels_swapped(Plan p) {
  std::swap(p.lever.levels[0].label, p.lever.levels[1].label);
  return p;
}
Plan kinds_swapped(Plan p) {
  p.controls[0].kind = ControlKind::repeat;
  p.controls[1].kind = ControlKind::blank;
  p.controls[2].kind = ControlKind::yardstick;
  return p;
}
Plan lots_swapped(Plan p) {
  std::swap(p.lots[0], p.lots[2]);
  std::swap(p.controls[0].lot, p.controls[2].lot);
  p.warm_up_lot = FerryPier().l25;
  return p;
}
Plan brewed_in_another_order(Plan p) {
  std::swap(p.lever.levels[0].present_way, p.lever.levels[1].present_way);
  return p;
}

/// A test-only widget that looks into the key: what it shows must be found.
class Leak final : public QWidget {
 public:
  enum class Way { pixels, name, tooltip, title, log, settings };
  Leak(Table& t, Way way) : QWidget(t.screen), way_(way) {
    const auto trial = t.session->trial();
    const auto& pair = trial->key->pairs.front();
    hot_ = trial->draft.lever.levels.at(pair.level_a).label == "kestrelgate";
    word_ = QString::fromStdString(trial->draft.lever.levels.at(pair.level_a).label);
    setGeometry(2, 2, 1, 1);
    if (way == Way::name) setAccessibleName(word_);
    if (way == Way::tooltip) setToolTip(word_);
    if (way == Way::title) t.screen->setWindowTitle(word_);
    if (way == Way::log) qWarning("%s", qUtf8Printable(word_));
    if (way == Way::settings) QSettings("likeleaf-test", "likeleaf-test").setValue("way", word_);
    show();
  }

 protected:
  void paintEvent(QPaintEvent*) override {
    if (way_ == Way::pixels) QPainter(this).fillRect(rect(), hot_ ? QColor(120, 120, 120) : QColor(121, 121, 121));
  }

 private:
  Way way_;
  bool hot_ = false;
  QString word_;
};

/// A taster's way through a whole flight, looked at after every act.
class Taster {
 public:
  explicit Taster(Table& table) : t_(table) {}
  std::vector<Seen> day_and_warm_up() {
    see();
    first_pair();
    warm_up_to_rest();
    return std::move(pages_);
  }
  std::vector<Seen> whole_flight() {
    see();
    first_pair();
    warm_up_to_rest();
    thorough_pair();
    voided_pair();
    while (!t_.child<QLabel>("pause_title")->text().startsWith("That was")) {
      if (!at_pair()) {
        go_on();
        continue;
      }
      plain_pair();
    }
    see();
    click("look_0");
    return std::move(pages_);
  }

 private:
  void see() {
    t_.settle();
    pages_.push_back(look(t_.screen));
  }
  void press(int key, Qt::KeyboardModifiers with = Qt::NoModifier) {
    t_.press(key, with);
    see();
  }
  void type(const char* text) {
    t_.press(text);
    see();
  }
  void click(const char* name) {
    t_.click(name);
    see();
  }
  [[nodiscard]] bool at_pair() {
    auto* page = t_.screen->findChild<ui::PairPage*>();
    return page->isVisible();
  }
  [[nodiscard]] bool compares() { return at_pair() && t_.step() == ui::TasteStep::compare; }
  /// Through day, guess, rest and break with what they ask for.
  void go_on() {
    if (t_.child<QWidget>("guess_keep")->isVisible()) {
      click("saw_yes");
      press(Qt::Key_Down);
      return press(Qt::Key_Return);
    }
    t_.world.clock.advance(seconds(61));
    press(Qt::Key_Return);
  }
  void first_pair() {
    type(" ");  // ticks the cold
    press(Qt::Key_Return);
  }
  void warm_up_to_rest() {
    for (int i = 0; i < 4 && at_pair(); ++i) press(Qt::Key_Return);
    if (at_pair()) press(Qt::Key_Return);
    t_.world.clock.advance(seconds(20));
    press(Qt::Key_Return);  // the rest runs on
    click("rest_early");
  }
  void thorough_pair() {
    type(" ");
    t_.world.clock.advance(seconds(33));
    type(" ");
    for (const char* score : {"6", "7,", "7.3", "1", "0", "n"}) {
      type(score);
      press(Qt::Key_Tab);
    }
    press(Qt::Key_Z, Qt::ControlModifier);
    auto* picker = t_.screen->findChild<ui::WordPicker*>(first() == Side::left ? "words_left" : "words_right");
    picker->line()->setFocus();
    type("mal");
    press(Qt::Key_Tab);
    type("pier rope 2");
    press(Qt::Key_Return);
    click(first() == Side::left ? "fault_left" : "fault_right");
    type("soap");
    press(Qt::Key_Return);
    press(Qt::Key_Tab);
    while (!compares()) press(Qt::Key_PageDown);
    for (const int key : {Qt::Key_Right, Qt::Key_Down, Qt::Key_Left}) press(key);
    press(Qt::Key_Return);
    press(Qt::Key_Return);
    go_on();
    go_on();
  }
  void voided_pair() {
    type("4");
    const auto serving = t_.screen->findChild<ui::PairPage*>()->serving();
    t_.session->run(VoidPair{serving.pair, "H.", "spilt"}).value();
    see();
    press(Qt::Key_Return);
  }
  void plain_pair() {
    const auto serving = t_.screen->findChild<ui::PairPage*>()->serving();
    type("5");
    while (at_pair() && t_.screen->findChild<ui::PairPage*>()->serving().id == serving.id) press(Qt::Key_Return);
  }
  [[nodiscard]] Side first() { return t_.screen->findChild<ui::PairPage*>()->serving().first; }

  Table& t_;
  std::vector<Seen> pages_;
};

Walk walk(const Plan& plan, std::optional<Leak::Way> leak = std::nullopt) {
  Overheard overheard;
  Walk out;
  {
    Table t(plan);
    std::optional<Leak> widget;
    if (leak) widget.emplace(t, *leak);
    // A leak shows on every page; the first of them are enough to find it on.
    out.pages = leak ? Taster(t).day_and_warm_up() : Taster(t).whole_flight();
    // Nothing was laid down beside the book but what belongs to it.
    for (const auto& name : t.folder.names()) EXPECT_TRUE(name.starts_with("bench.leafbook")) << name;
    widget.reset();
    t.screen->hide();
  }
  out.beside << overheard.end();
  return out;
}

/// Qt draws large glyphs with other edges before they are in its cache: a first walk fills it.
const Walk& base_walk() {
  static const Walk seen = [] {
    walk(base());
    return walk(base());
  }();
  return seen;
}

void expect_alike(const Plan& other) {
  {
    Table one(base()), two(other);
    const auto a = one.session->trial(), b = two.session->trial();
    ASSERT_EQ(a->servings, b->servings) << "the open side is the same";
    ASSERT_FALSE(*a->key == *b->key && a->draft.lever == b->draft.lever) << "the key is not";
  }
  const Walk& here = base_walk();  // first: it fills the glyph cache
  const auto found = differences(here, walk(other));
  EXPECT_TRUE(found.empty()) << found.size() << " differences, the first: " << (found.empty() ? "" : found.front());
}

TEST(NonInterference, a_whole_flight_is_the_same_when_the_levels_are_swapped_in_the_key) {
  expect_alike(levels_swapped(base()));
}
TEST(NonInterference, a_whole_flight_is_the_same_when_pairs_are_of_other_kinds) {
  expect_alike(kinds_swapped(base()));
}
TEST(NonInterference, a_whole_flight_is_the_same_when_the_lots_are_others) {
  expect_alike(lots_swapped(base()));
}
TEST(NonInterference, a_whole_flight_is_the_same_when_everything_is_brewed_in_another_order) {
  expect_alike(brewed_in_another_order(base()));
  expect_alike(levels_swapped(kinds_swapped(lots_swapped(brewed_in_another_order(base())))));
}

TEST(NonInterference, other_ways_to_sip_are_the_same_too) {
  const auto with = [](Plan p) {
    p.sip = SipProtocol::attribute_by_attribute;
    std::erase_if(p.attributes, [](const PlanAttribute& a) {
      return a.attribute != "bitterness" && a.attribute != "body" && a.attribute != "finish_length";
    });
    return p;
  };
  const auto hidden = [](Plan p) {
    p.hide_first_cup = true;
    return p;
  };
  const auto other = [](Plan p) { return levels_swapped(kinds_swapped(lots_swapped(std::move(p)))); };
  for (const auto& way : std::initializer_list<std::function<Plan(Plan)>>{with, hidden}) {
    walk(way(base()));  // fills the glyph cache
    const Walk one = walk(way(base())), two = walk(way(other(base())));
    EXPECT_EQ(differences(one, two), std::vector<std::string>{});
  }
}

TEST(NonInterference, no_page_of_a_flight_says_a_word_of_the_trial) {
  const Walk& seen = base_walk();
  EXPECT_GT(seen.pages.size(), 100U) << "the whole flight was walked";
  EXPECT_EQ(met(seen, canaries), std::vector<std::string>{});
  EXPECT_EQ(met(seen, {"pair 1 of 4"}).size(), 1U) << "what is on screen is met";
}

TEST(NonInterference, a_leak_of_any_kind_is_found) {
  for (const auto way : {Leak::Way::pixels, Leak::Way::name, Leak::Way::tooltip, Leak::Way::title, Leak::Way::log,
                         Leak::Way::settings}) {
    const Walk one = walk(base(), way);
    EXPECT_FALSE(differences(one, walk(levels_swapped(base()), way)).empty()) << static_cast<int>(way);
    if (way != Leak::Way::pixels) {
      EXPECT_EQ(met(one, canaries), std::vector<std::string>{"kestrelgate"}) << static_cast<int>(way);
    }
  }
}

/// In the window, with its title, head and way through the trial: who tastes, the day, a pair, and back.
Walk walk_in_the_window(const Plan& plan) {
  Overheard overheard;
  Walk out;
  {
    Folder folder;
    World world;
    {
      auto session = new_bench(folder / "bench.leafbook", world);
      session->new_trial(plan).value();
      session->seal().value();
      done(session->flush());
    }
    ui::MainWindow window(world.services(), Style{});
    window.resize(1280, 800);
    window.show();
    EXPECT_TRUE(QTest::qWaitForWindowActive(&window));
    window.open_book(folder / "bench.leafbook");
    emit window.findChild<ui::StartScreen*>()->trial_wanted(14);
    QTest::mouseClick(window.findChild<QWidget*>("place_taste"), Qt::LeftButton);
    // Only what is on screen: the other places are made, but nobody at the table can go there unseen.
    const auto see = [&] {
      QApplication::processEvents();
      done(window.flush());  // what stands in soft ink until it is kept is kept on every walk
      world.dispatcher.pump();
      QApplication::processEvents();
      Seen seen{window.grab().toImage(), {window.windowTitle(), window.windowFilePath()}};
      for (auto* w : window.findChildren<QWidget*>()) {
        if (!w->isVisible()) continue;
        auto* access = QAccessible::queryAccessibleInterface(w);
        seen.words << w->toolTip() << w->statusTip() << access->text(QAccessible::Name)
                   << access->text(QAccessible::Description) << access->text(QAccessible::Value);
      }
      out.pages.push_back(std::move(seen));
    };
    see();
    QTest::mouseClick(window.findChild<QWidget*>("taster_0"), Qt::LeftButton);
    see();
    for (const auto key : {Qt::Key_Return, Qt::Key_6, Qt::Key_Tab, Qt::Key_4, Qt::Key_Return, Qt::Key_Return}) {
      QTest::keyClick(QApplication::focusWidget(), key);
      see();
    }
    QTest::mouseClick(window.findChild<QWidget*>("leave_table"), Qt::LeftButton);
    see();
    window.hide();
  }
  out.beside << overheard.end();
  return out;
}

TEST(NonInterference, the_window_around_the_taster_is_the_same_and_says_nothing_of_the_trial) {
  walk_in_the_window(base());
  const Walk one = walk_in_the_window(base());
  const Walk two = walk_in_the_window(levels_swapped(kinds_swapped(lots_swapped(brewed_in_another_order(base())))));
  const auto found = differences(one, two);
  EXPECT_TRUE(found.empty()) << found.size() << " differences, the first: " << (found.empty() ? "" : found.front());
  EXPECT_EQ(met(one, canaries), std::vector<std::string>{});
}

}  // namespace
}  // namespace likeleaf::test
