// The preparer's screen, driven by keys and clicks in real widgets on a clock that stands still.
#include <gtest/gtest.h>

#include <QAccessible>
#include <QApplication>
#include <QCheckBox>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QtTest>

#include "core/acts/bench_sitting.h"
#include "tests/core/store/bench_book.h"
#include "ui/brew/brew_lanes.h"
#include "ui/brew/brew_screen.h"
#include "ui/widgets/blank_line.h"
#include "ui/widgets/clock_face.h"

namespace likeleaf::test {
namespace {

/// A book with trial 14 sealed, and the screen on it.
struct Kitchen {
  explicit Kitchen(const Plan& plan = FerryPier().trial_14()) {
    session = new_bench(folder / "bench.leafbook", world);
    session->new_trial(plan).value();
    session->seal().value();
    world.clock = HandClock(Moment{world.clock.now().utc_ms, 60, 5'000'000});
    screen = std::make_unique<ui::BrewScreen>(*session, world.clock, style);
    screen->resize(1280, 736);
    screen->show();
    EXPECT_TRUE(QTest::qWaitForWindowActive(screen.get()));
  }
  template <class T>
  T* child(const char* name) const {
    auto* found = screen->findChild<T*>(QString::fromLatin1(name));
    if (!found) throw std::runtime_error(std::string("no ") + name);
    return found;
  }
  void click(const char* button) const { QTest::mouseClick(child<QPushButton>(button), Qt::LeftButton); }
  void open() const {
    click("ask_key");
    click("open_key");
  }
  void space() const { QTest::keyClick(QApplication::focusWidget(), Qt::Key_Space); }
  void wait(int s) {
    world.clock.advance(seconds(s));
    screen->tick();
  }
  void type(const char* line, const char* words) const {
    auto* edit = child<QLineEdit>(line);
    edit->setFocus();
    edit->selectAll();
    QTest::keyClick(edit, Qt::Key_Backspace);
    QTest::keyClicks(edit, QString::fromLatin1(words));
    QTest::keyClick(edit, Qt::Key_Return);
  }
  [[nodiscard]] QString words(const char* label) const { return child<QLabel>(label)->text(); }
  [[nodiscard]] std::vector<const Brew*> brews() {
    kept = session->trial();
    return brews_of_sitting(*kept, 1);
  }
  /// The first brew of the sitting, from pour to chill.
  void brew_one(int steep_s) {
    for (const int s : {10, steep_s - 10, 10, 5}) {
      space();
      wait(s);
    }
    space();
  }
  Folder folder;
  World world;
  Style style;
  std::unique_ptr<Session> session;
  std::shared_ptr<const Trial> kept;
  std::unique_ptr<ui::BrewScreen> screen;
};

TEST(BrewScreen, portions_are_ticked_and_the_tick_is_kept) {
  Kitchen k;
  auto* tick = k.child<QCheckBox>("weighed_L-12");
  EXPECT_FALSE(tick->isChecked());
  QTest::keyClick(tick, Qt::Key_Space);
  EXPECT_EQ(k.session->trial()->weighed, std::vector{FerryPier().l12});
  QTest::keyClick(tick, Qt::Key_Space);
  EXPECT_TRUE(k.session->trial()->weighed.empty());
}

TEST(BrewScreen, closed_it_shows_numbers_and_places_and_no_level_and_no_leaf_of_a_brew) {
  Kitchen k;
  const QString places = k.words("places");
  EXPECT_TRUE(places.contains("brew 1"));
  for (auto* l : k.screen->findChildren<QLabel*>()) {
    if (!l->isVisible()) continue;
    EXPECT_FALSE(l->text().contains(QString::fromUtf8("88")) || l->text().contains(QString::fromUtf8("68")))
        << l->text().toStdString();
  }
  EXPECT_FALSE(places.contains("L-"));
  EXPECT_FALSE(k.child<QPushButton>("stamp")->isVisible());
  k.screen->setFocus();
  QTest::keyClick(k.screen.get(), Qt::Key_Space);
  for (const auto* b : k.brews()) EXPECT_TRUE(b->stamps.empty());
}

TEST(BrewScreen, the_reveal_is_deliberate_logged_and_lapses_with_the_view) {
  Kitchen k;
  k.click("ask_key");
  EXPECT_FALSE(k.screen->key_open()) << "asking is not opening";
  k.click("not_yet");
  EXPECT_TRUE(k.session->trial()->openings.empty());
  k.open();
  EXPECT_TRUE(k.screen->key_open());
  ASSERT_EQ(k.session->trial()->openings.size(), 1U);
  EXPECT_EQ(k.session->trial()->openings[0].preparer, FerryPier().o);
  EXPECT_FALSE(k.session->trial()->openings[0].closed);
  EXPECT_TRUE(k.words("recipe").contains(QString::fromUtf8("88\u00A0°C")) ||
              k.words("recipe").contains(QString::fromUtf8("68\u00A0°C")));
  EXPECT_TRUE(k.words("recipe").contains(QString::fromUtf8("200\u00A0g")));
  EXPECT_TRUE(k.words("caution").contains("scalds"));
  k.world.clock.advance(seconds(60));
  k.screen->hide();
  EXPECT_FALSE(k.screen->key_open());
  EXPECT_TRUE(k.session->trial()->openings[0].closed);
  k.screen->show();
  EXPECT_FALSE(k.child<QPushButton>("stamp")->isVisible());
  k.open();
  EXPECT_EQ(k.session->trial()->openings.size(), 2U);
  k.click("close_key");
  EXPECT_TRUE(k.session->trial()->openings[1].closed);
}

TEST(BrewScreen, space_stamps_act_after_act_with_the_clock_and_undo_takes_the_last_one_back) {
  Kitchen k;
  k.open();
  k.space();
  k.wait(11);
  EXPECT_EQ(k.child<ui::ClockFace>("clock")->time(), "0:11");
  EXPECT_EQ(k.words("now_act"), "Pour");
  k.space();
  const auto* brew = k.brews().front();
  ASSERT_EQ(brew->stamps.size(), 2U);
  EXPECT_EQ(brew->stamps[0].kind, StampKind::pour_start);
  EXPECT_EQ(elapsed(brew->stamps[0].at, brew->stamps[1].at), seconds(11));
  EXPECT_EQ(k.words("now_act"), "Steep");
  k.click("undo_stamp");
  EXPECT_TRUE(k.brews().front()->stamps[1].undone);
  EXPECT_EQ(k.words("now_act"), "Pour");
  k.space();  // the keyboard is back at the stamp
  EXPECT_EQ(k.brews().front()->stamps.back().kind, StampKind::pour_end);
  EXPECT_FALSE(k.brews().front()->stamps.back().undone);
}

TEST(BrewScreen, after_the_chill_begins_the_next_brew_is_up_and_a_click_on_a_lane_goes_back) {
  Kitchen k;
  k.open();
  k.brew_one(45);
  EXPECT_EQ(k.brews()[0]->stamps.back().kind, StampKind::chill_start);
  EXPECT_TRUE(k.words("now_brew").contains(QString::number(k.brews()[1]->number)));
  auto* lanes = k.child<ui::BrewLanes>("lanes");
  lanes->setFocus();
  QTest::keyClick(lanes, Qt::Key_Up);
  QTest::keyClick(lanes, Qt::Key_Space);
  EXPECT_EQ(k.brews()[0]->stamps.back().kind, StampKind::ready);
  EXPECT_TRUE(lanes->accessibleDescription().contains("hold"));
}

TEST(BrewScreen, drift_is_said_at_once) {
  Kitchen k;
  k.open();
  // Warm-up brews do not drift; the first counted one does.
  while (k.brews().front()->set == 0 && k.child<QLabel>("now_brew")->text() == QStringLiteral("now · brew 1"))
    k.brew_one(45);
  EXPECT_EQ(k.words("drift"), "");
  const auto brews = k.brews();
  const auto counted = std::ranges::find_if(brews, [](const Brew* b) { return b->set > 0; });
  ASSERT_NE(counted, brews.end());
  auto* which = k.child<QComboBox>("note_brew");
  which->setCurrentIndex(static_cast<int>(counted - brews.begin()));
  k.type("note_leaf", "4.3");
  EXPECT_TRUE(k.words("drift").contains("4.3") && k.words("drift").contains("Drift")) << k.words("drift").toStdString();
  k.type("note_leaf", "4.0");
  EXPECT_EQ(k.words("drift"), "");
  k.type("note_steep", "52");
  EXPECT_TRUE(k.words("drift").contains("52"));
}

TEST(BrewScreen, typed_facts_and_readings_are_kept_and_a_refusal_keeps_the_old_value) {
  Kitchen k;
  k.open();
  k.type("note_leaf", "4,02 g");
  k.type("note_water", "201");
  k.type("note_pour", "87.5");
  k.type("reading", "55");
  const auto* brew = k.brews().front();
  EXPECT_EQ(brew->leaf, Mass(4020));
  ASSERT_EQ(brew->infusions.size(), 1U);
  EXPECT_EQ(brew->infusions[0].water, grams(201));
  EXPECT_EQ(brew->infusions[0].pour, Temperature(87'500));
  ASSERT_EQ(brew->readings.size(), 1U);
  EXPECT_EQ(brew->readings[0].place, "liquor");
  for (const char* bad : {"many", "-3", "999999999999999999999", "4.0.2"}) {
    k.type("note_leaf", bad);
    EXPECT_EQ(k.brews().front()->leaf, Mass(4020)) << bad;
    auto* line = k.child<QLineEdit>("note_leaf");
    EXPECT_FALSE(qobject_cast<ui::BlankLine*>(line->parentWidget())->message().isEmpty()) << bad;
    EXPECT_TRUE(line->text().startsWith("4.02")) << line->text().toStdString();
  }
  k.type("note_leaf", "");
  EXPECT_FALSE(k.brews().front()->leaf);
}

TEST(BrewScreen, a_pair_is_served_now_and_cups_too_far_apart_are_said) {
  Kitchen k;
  k.open();
  k.click("serve");
  auto* pair = k.child<QComboBox>("serve_pair");
  pair->setCurrentIndex(pair->findText("pair 1"));
  const auto when = k.world.clock.now();
  k.click("serve_now");
  k.type("first_sip_left", "42");
  k.type("first_sip_right", "44.5");
  ASSERT_EQ(k.session->trial()->served.size(), 1U);
  const ServedPair served = k.session->trial()->served.begin()->second;
  EXPECT_EQ(served.served, when);
  EXPECT_EQ(served.left, celsius(42));
  EXPECT_EQ(served.right, Temperature(44'500));
  // One is shown with their number; all of them are told.
  EXPECT_TRUE(k.child<QLabel>("drift")->toolTip().contains("apart at first sip")) << k.words("drift").toStdString();
}

TEST(BrewScreen, strength_acidity_chill_and_note_are_typed_and_read_back) {
  Kitchen k;
  k.open();
  k.type("note_tds", "0,42 %");
  k.type("note_ph", "6.1");
  k.type("note_chill", "in air");
  k.type("note_text", "second kettle");
  const auto* brew = k.brews().front();
  EXPECT_EQ(brew->tds_permyriad, 42);
  EXPECT_EQ(brew->ph_hundredths, 610);
  EXPECT_EQ(brew->chill, "in air");
  EXPECT_EQ(brew->note, "second kettle");
  EXPECT_EQ(k.child<QLineEdit>("note_tds")->text(), QString::fromUtf8("0.42\u00A0%"));
  for (const auto& [line, bad] : {std::pair{"note_tds", "101"}, {"note_tds", "weak"}, {"note_ph", "15"}}) {
    k.type(line, bad);
    EXPECT_TRUE(k.child<QLabel>("note_message")->isVisible()) << bad;
    EXPECT_FALSE(k.words("note_message").isEmpty()) << bad;
  }
  EXPECT_EQ(k.brews().front()->tds_permyriad, 42);
  EXPECT_EQ(k.brews().front()->ph_hundredths, 610);
  k.type("note_ph", "");
  EXPECT_FALSE(k.brews().front()->ph_hundredths);
  EXPECT_FALSE(k.child<QLabel>("note_message")->isVisible());
}

TEST(BrewScreen, the_act_of_now_says_what_to_pour_and_when_to_drain) {
  Kitchen k;
  EXPECT_FALSE(k.child<QLabel>("now_recipe")->isVisible()) << "not before the key is open";
  k.open();
  EXPECT_TRUE(k.words("now_recipe").startsWith(QString::fromUtf8("200\u00A0g at ")))
      << k.words("now_recipe").toStdString();
  k.space();
  k.wait(10);
  k.space();
  EXPECT_EQ(k.words("now_recipe"), "drain at 0:36");
  EXPECT_TRUE(k.words("next_brew").startsWith("next, in 0:31")) << k.words("next_brew").toStdString();
  k.wait(40);
  EXPECT_EQ(k.words("now_recipe"), "drain now, 0:09 late");
}

TEST(BrewScreen, a_pair_whose_brews_are_not_ready_is_named_and_a_serving_by_mistake_is_taken_back) {
  Kitchen k;
  k.open();
  k.click("serve");
  auto* pair = k.child<QComboBox>("serve_pair");
  pair->setCurrentIndex(pair->findText("pair 1"));
  EXPECT_TRUE(k.words("served_at").contains("not ready")) << k.words("served_at").toStdString();
  k.click("serve_now");
  EXPECT_TRUE(k.session->trial()->served.begin()->second.served);
  k.click("serve_now");
  EXPECT_FALSE(k.session->trial()->served.begin()->second.served);
}

TEST(BrewScreen, a_void_needs_a_reason_and_is_brewed_again_under_spare_codes) {
  Kitchen k;
  k.open();
  k.click("void");
  auto* pair = k.child<QComboBox>("void_pair");
  pair->setCurrentIndex(pair->findText("pair 2"));
  const auto before = k.brews().size();
  k.click("void_now");
  EXPECT_TRUE(k.session->trial()->voids.empty());
  EXPECT_FALSE(qobject_cast<ui::BlankLine*>(k.child<QLineEdit>("void_why")->parentWidget())->message().isEmpty());
  k.type("void_why", "spilt");
  k.click("void_now");
  ASSERT_EQ(k.session->trial()->voids.size(), 1U);
  EXPECT_EQ(k.session->trial()->voids[0].why, "spilt");
  const auto after = k.brews();
  EXPECT_EQ(after.size(), before) << "two brews out, two in";
  const QString said = k.words("voids");
  EXPECT_TRUE(said.contains("pair 2") && said.contains("spilt") && said.contains("Brewed again") &&
              said.contains(QString::number(after.back()->number)))
      << said.toStdString();
  EXPECT_GE(pair->findText("pair 2 again"), 0);
}

TEST(BrewScreen, a_whole_brew_by_keyboard_alone) {
  Kitchen k;
  const auto focused = [] { return QApplication::focusWidget(); };
  const auto tab_to = [&](const char* name) {
    for (int i = 0; i < 60 && focused()->objectName() != QLatin1String(name); ++i)
      QTest::keyClick(focused(), Qt::Key_Tab);
    ASSERT_EQ(focused()->objectName().toStdString(), name);
  };
  k.child<QComboBox>("sitting")->setFocus();
  tab_to("weighed_L-07");
  k.space();
  tab_to("ask_key");
  QTest::keyClick(focused(), Qt::Key_Return);
  tab_to("open_key");
  QTest::keyClick(focused(), Qt::Key_Return);
  ASSERT_TRUE(k.screen->key_open());
  k.brew_one(45);
  tab_to("reading");
  QTest::keyClicks(focused(), "42");
  QTest::keyClick(focused(), Qt::Key_Return);
  tab_to("lanes");
  QTest::keyClick(focused(), Qt::Key_Up);
  k.space();
  const auto* brew = k.brews().front();
  EXPECT_EQ(brew->stamps.size(), 6U);
  EXPECT_EQ(brew->readings.size(), 1U);
  EXPECT_EQ(contact_time(*brew, 1), seconds(45)) << "mid-pour 5 s, mid-drain 50 s";
}

TEST(BrewScreen, a_draft_and_a_self_blinded_trial_say_what_to_do) {
  Folder folder;
  World world;
  const Style style;
  auto session = new_bench(folder / "b.leafbook", world);
  session->new_trial(FerryPier().trial_16()).value();
  ui::BrewScreen screen(*session, world.clock, style);
  screen.show();
  EXPECT_TRUE(screen.findChild<QLabel*>("brew_empty")->text().contains("Seal"));
  session->seal().value();
  EXPECT_FALSE(screen.findChild<QLabel*>("brew_empty")->isVisible());
  EXPECT_FALSE(screen.findChild<QPushButton*>("ask_key")->isVisible());
  QTest::mouseClick(screen.findChild<QPushButton*>("without_key"), Qt::LeftButton);
  EXPECT_FALSE(screen.key_open());
  QTest::keyClick(screen.findChild<QPushButton*>("stamp"), Qt::Key_Space);
  EXPECT_EQ(brews_of_sitting(*session->trial(), 1).front()->stamps.size(), 1U);
  for (auto* l : screen.findChildren<QLabel*>())
    EXPECT_FALSE(l->isVisible() && (l->text().contains("3\u00A0g") || l->text().contains("5\u00A0g")))
        << l->text().toStdString();
}

TEST(BrewScreen, every_control_has_a_name_for_a_screen_reader) {
  Kitchen k;
  k.open();
  for (auto* w : k.screen->findChildren<QWidget*>()) {
    if (w->focusPolicy() == Qt::NoFocus || !w->isVisible() || qobject_cast<QLabel*>(w) || w->inherits("QScrollArea"))
      continue;
    auto* face = QAccessible::queryAccessibleInterface(w);
    ASSERT_NE(face, nullptr);
    EXPECT_FALSE(face->text(QAccessible::Name).isEmpty())
        << w->metaObject()->className() << ' ' << w->objectName().toStdString();
  }
}

}  // namespace
}  // namespace likeleaf::test
