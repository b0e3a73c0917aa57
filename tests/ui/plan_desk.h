#pragma once
// A plan screen on a new empty book, and hands: keys go to whatever has the focus, clicks to what can be seen.
#include <gtest/gtest.h>

#include <QAbstractItemView>
#include <QApplication>
#include <QCheckBox>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTemporaryDir>
#include <QTextEdit>
#include <QtTest>
#include <memory>

#include "core/base/entropy.h"
#include "ui/plan/plan_screen.h"
#include "ui/widgets/blank_line.h"

namespace likeleaf::test {

struct PlanDesk {
  QTemporaryDir dir;
  HandClock clock{Moment{1'772'000'000'000, 60, 1'000}};
  SystemEntropy entropy;
  HandDispatcher dispatcher;
  Style style;
  std::unique_ptr<Session> session;
  std::unique_ptr<ui::PlanScreen> screen;
  int lots_made = 0;

  explicit PlanDesk(const Style& with = {}) : style(with) {
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
  [[nodiscard]] std::string at() const {
    return screen->focusWidget() ? screen->focusWidget()->objectName().toStdString() : std::string();
  }

  void key(Qt::Key k, Qt::KeyboardModifiers held = Qt::NoModifier) {
    QTest::keyClick(screen->focusWidget() ? screen->focusWidget() : screen.get(), k, held);
  }
  void type(const char* text) { QTest::keyClicks(screen->focusWidget(), QString::fromLatin1(text)); }
  void tab_to(const char* name) {
    const QString wanted = QString::fromLatin1(name);
    for (int i = 0; i < 600; ++i) {
      if (screen->focusWidget() && screen->focusWidget()->objectName() == wanted) return;
      key(Qt::Key_Tab);
    }
    FAIL() << "Tab never reaches " << name;
  }
  /// Walks to a blank, writes over what is there and is done.
  void enter(const char* name, const char* text) {
    tab_to(name);
    key(Qt::Key_A, Qt::ControlModifier);
    type(text);
    key(Qt::Key_Return);
  }
  /// Opens a choice by keys and takes the first line that begins so.
  void pick(const char* name, const char* begins, Qt::MatchFlags how = Qt::MatchStartsWith) {
    tab_to(name);
    auto* choice = qobject_cast<QComboBox*>(screen->focusWidget());
    ASSERT_NE(choice, nullptr) << name;
    const int wanted = choice->findText(QString::fromLatin1(begins), how | Qt::MatchCaseSensitive);
    ASSERT_GE(wanted, 0) << begins;
    key(Qt::Key_Space);
    auto* list = choice->view();
    ASSERT_TRUE(list->isVisible());
    QTest::keyClick(list, Qt::Key_Home);
    for (int i = 0; i < wanted; ++i) QTest::keyClick(list, Qt::Key_Down);
    QTest::keyClick(list, Qt::Key_Return);
  }
  void click(const char* name) {
    auto* w = child<QWidget>(name);
    ASSERT_NE(w, nullptr);
    ASSERT_TRUE(w->isVisible() && w->isEnabled()) << name;
    QTest::mouseClick(w, Qt::LeftButton, Qt::NoModifier, QPoint(10, w->height() / 2));
  }
  void begin() { click("begin"); }
  /// Pastes over what stands in a blank and presses Enter.
  void write(const char* name, const QString& text) {
    auto* field = child<QWidget>(name);
    ASSERT_NE(field, nullptr);
    field->setFocus();
    if (auto* line = qobject_cast<QLineEdit*>(field)) line->selectAll();
    if (auto* page = qobject_cast<QTextEdit*>(field)) page->selectAll();
    if (text.isEmpty()) {
      QTest::keyClick(field, Qt::Key_Delete);
    } else {
      QInputMethodEvent typed;
      typed.setCommitString(text);
      QCoreApplication::sendEvent(field, &typed);
    }
    QTest::keyClick(field, Qt::Key_Return);
  }
  /// A BlankLine or BlankText by the name of what is written in.
  QWidget* blank(const char* name) { return child<QWidget>(name)->parentWidget(); }

  /// Everything that can be read on the screen now.
  [[nodiscard]] QString all_words() const {
    QStringList out;
    for (auto* l : screen->findChildren<QLabel*>())
      if (l->isVisible()) out << l->text();
    for (auto* l : screen->findChildren<QAbstractButton*>())
      if (l->isVisible()) out << l->text();
    return out.join(QLatin1Char('\n'));
  }
  [[nodiscard]] bool says(const char* words) const { return all_words().contains(QString::fromUtf8(words)); }
  [[nodiscard]] QString blocks() const {
    QStringList out;
    for (auto* b : screen->findChildren<QPushButton*>(QStringLiteral("block"))) out << b->text();
    return out.join(QLatin1Char('\n'));
  }
  /// A trial of one leaf and one taster, sealed.
  void seal_small() {
    begin();
    write("question", "Cooler?");
    write("level.0", "88");
    write("level.1", "68");
    click("lot.add");
    click("attribute.body");
    click("person.add");
    ASSERT_TRUE(session->seal().has_value());
  }
};

}  // namespace likeleaf::test
