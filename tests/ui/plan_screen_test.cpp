// The plan screen in real widgets: from an empty book to a sealed trial, by keys alone and by clicks alone.
#include <gtest/gtest.h>

#include <QAccessible>
#include <QApplication>
#include <QCheckBox>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTemporaryDir>
#include <QtTest>

#include "core/base/entropy.h"
#include "ui/plan/plan_screen.h"
#include "ui/widgets/blank_line.h"

namespace likeleaf::test {
namespace {

struct PlanDesk {
  QTemporaryDir dir;
  HandClock clock{Moment{1'772'000'000'000, 60, 1'000}};
  SystemEntropy entropy;
  HandDispatcher dispatcher;
  Style style;
  std::unique_ptr<Session> session;
  std::unique_ptr<ui::PlanScreen> screen;

  PlanDesk() {
    auto made = Session::create(std::filesystem::path(dir.filePath("house.leafbook").toStdString()),
                                Services{clock, entropy, dispatcher});
    EXPECT_TRUE(made.has_value());
    session = std::move(*made);
    screen = std::make_unique<ui::PlanScreen>(*session, style);
    screen->resize(1280, 736);
    screen->show();
    EXPECT_TRUE(QTest::qWaitForWindowActive(screen.get()));
  }
  template <class T>
  T* child(const char* name) {
    auto* found = screen->findChild<T*>(QString::fromLatin1(name));
    EXPECT_NE(found, nullptr) << name;
    return found;
  }
  [[nodiscard]] const Plan& plan() const { return session->trial()->draft; }

  // Keys go to whatever has the focus, as they would in the house.
  void key(Qt::Key k, Qt::KeyboardModifiers held = Qt::NoModifier) {
    QTest::keyClick(screen->focusWidget() ? screen->focusWidget() : screen.get(), k, held);
  }
  void type(const char* text) { QTest::keyClicks(screen->focusWidget(), QString::fromLatin1(text)); }
  void tab_to(const char* name) {
    const QString wanted = QString::fromLatin1(name);
    for (int i = 0; i < 400; ++i) {
      if (screen->focusWidget() && screen->focusWidget()->objectName() == wanted) return;
      key(Qt::Key_Tab);
    }
    FAIL() << "Tab never reaches " << name;
  }
  void click(const char* name) {
    auto* w = child<QWidget>(name);
    ASSERT_NE(w, nullptr);
    ASSERT_TRUE(w->isVisible() && w->isEnabled()) << name;
    QTest::mouseClick(w, Qt::LeftButton, Qt::NoModifier, QPoint(10, w->height() / 2));
  }
  void begin() { click("begin"); }
  void write(const char* name, const QString& text) {
    auto* line = child<QLineEdit>(name);
    ASSERT_NE(line, nullptr);
    line->setFocus();
    line->selectAll();
    QInputMethodEvent typed;
    typed.setCommitString(text);
    QCoreApplication::sendEvent(line, &typed);
    QTest::keyClick(line, Qt::Key_Return);
  }
};

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
  ASSERT_EQ(d.screen->focusWidget()->objectName(), "lot.0.code");
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

TEST(PlanScreen, what_blocks_is_said_and_the_seal_waits_for_it) {
  PlanDesk d;
  d.begin();
  EXPECT_FALSE(d.child<QPushButton>("seal")->isEnabled());
  EXPECT_NE(d.screen->findChild<QLabel*>("block"), nullptr);
}

TEST(PlanScreen, a_refused_entry_is_a_sentence_at_the_field_and_the_old_value_stays) {
  PlanDesk d;
  d.begin();
  d.write("level.0", "88");
  for (const auto& bad : {QStringLiteral("hot"), QStringLiteral("1e9"), QString(3000, QLatin1Char('7')),
                          QString::fromUtf8("🍵"), QString::fromUtf8("שמונים")}) {
    d.write("level.0", bad);
    auto* blank = qobject_cast<ui::BlankLine*>(d.child<QLineEdit>("level.0")->parentWidget());
    EXPECT_FALSE(blank->message().isEmpty()) << bad.left(20).toStdString();
    EXPECT_EQ(d.plan().lever.levels[0].value, 88'000);
    EXPECT_EQ(blank->value(), QString::fromUtf8("88\u00A0°C"));
  }
  d.write("level.0", "90");
  EXPECT_TRUE(qobject_cast<ui::BlankLine*>(d.child<QLineEdit>("level.0")->parentWidget())->message().isEmpty());
  EXPECT_EQ(d.plan().lever.levels[0].value, 90'000);
}

TEST(PlanScreen, a_code_that_is_taken_is_refused_at_the_lot) {
  PlanDesk d;
  d.begin();
  d.click("lot.add");
  d.click("lot.add");
  d.write("lot.1.code", "L-01");
  EXPECT_EQ(d.session->registers().lots[1].code, "L-02");
  EXPECT_FALSE(qobject_cast<ui::BlankLine*>(d.child<QLineEdit>("lot.1.code")->parentWidget())->message().isEmpty());
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
  const Plan& p = d.plan();
  EXPECT_EQ(std::ranges::find(p.attributes, "body", &PlanAttribute::attribute)->margin, 3);
  EXPECT_EQ(std::ranges::find(p.attributes, "finish_length", &PlanAttribute::attribute)->margin, 1300);
  EXPECT_EQ(p.constants[0].target, 4000);
  EXPECT_EQ(p.constants[0].tolerance, 50);
  EXPECT_EQ(p.constants.size(), 7u);
  ASSERT_TRUE(p.rule);
  EXPECT_EQ(p.rule->action, "go cooler");
}

TEST(PlanScreen, after_the_seal_nothing_can_be_changed_and_the_day_is_said) {
  PlanDesk d;
  d.begin();
  d.write("question", "Cooler?");
  d.write("level.0", "88");
  d.write("level.1", "68");
  d.click("lot.add");
  d.click("attribute.body");
  d.click("person.add");
  ASSERT_TRUE(d.session->seal().has_value());
  EXPECT_TRUE(d.child<QLabel>("sealed")->text().startsWith("Sealed "));
  EXPECT_TRUE(d.screen->findChildren<QComboBox*>().isEmpty());
  EXPECT_TRUE(d.screen->findChildren<QCheckBox*>().isEmpty());
  for (auto* line : d.screen->findChildren<QLineEdit*>())
    EXPECT_TRUE(line->isReadOnly()) << line->objectName().toStdString();
  for (auto* button : d.screen->findChildren<QPushButton*>())
    EXPECT_FALSE(button->isVisible()) << button->objectName().toStdString();
}

TEST(PlanScreen, every_control_has_a_name_for_a_screen_reader_and_an_object_name) {
  PlanDesk d;
  d.begin();
  d.click("lot.add");
  d.click("person.add");
  d.click("rule.add");
  d.click("control.add");
  for (auto* w : d.screen->findChildren<QWidget*>()) {
    if ((w->focusPolicy() & Qt::TabFocus) == 0 || w->focusProxy() || !w->isVisible() ||
        w->objectName().startsWith("qt_"))
      continue;
    EXPECT_FALSE(w->objectName().isEmpty()) << w->metaObject()->className();
    EXPECT_FALSE(QAccessible::queryAccessibleInterface(w)->text(QAccessible::Name).isEmpty())
        << w->objectName().toStdString();
  }
}

}  // namespace
}  // namespace likeleaf::test
