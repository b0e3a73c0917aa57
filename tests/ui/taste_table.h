#pragma once
// A sealed trial and one taster's screen on it, for the tests of Taste.
#include <gtest/gtest.h>

#include <QApplication>
#include <QLabel>
#include <QPushButton>
#include <QtTest>
#include <string>
#include <vector>

#include "core/session/taster_port.h"
#include "tests/core/store/bench_book.h"
#include "ui/taste/pair_page.h"
#include "ui/taste/taste_screen.h"
#include "ui/widgets/score_scale.h"

namespace likeleaf::test {

using ui::ScoreScale;

/// A sealed trial of six direct attributes, finish and aroma, and R.'s screen on it.
struct Table {
  Folder folder;
  World world;
  std::unique_ptr<Session> session;
  Style style;
  ui::TasteScreen* screen = nullptr;
  int presses = 0;

  explicit Table(const Plan& plan = FerryPier().trial_14(), Style shown = {}) : style(shown) {
    session = new_bench(folder / "bench.leafbook", world);
    session->new_trial(plan).value();
    const auto sealed = session->seal();
    if (!sealed) throw std::runtime_error(words_of(sealed.error()));
    sit_down();
  }
  ~Table() { delete screen; }
  void sit_down() {
    delete screen;
    screen = new ui::TasteScreen(session->taster(FerryPier().r).value(), world.clock, style);
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
    QApplication::processEvents();
    auto* button = child<QPushButton>(name);
    ASSERT_TRUE(button->isVisible()) << name.toStdString();
    QTest::mouseClick(button, Qt::LeftButton);
    QApplication::processEvents();
  }
  /// Everything that was done is on disk, and the screen has heard it.
  void settle() {
    done(session->flush());
    world.dispatcher.pump();
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

inline const std::vector<std::string> six = {"bitterness",  "body",    "sweetness",
                                             "astringency", "savoury", "finish_structure"};

inline int halves_of(const CupMarks& cup, const std::string& field) {
  const auto found = cup.marks.find(field);
  if (found == cup.marks.end()) return -1;
  const auto* score = std::get_if<Score>(&found->second);
  return score ? score->halves() : -2;
}

/// Day and warm-up behind us: the first counted pair stands on the table.
inline void come_to_first_pair(Table& t) {
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

}  // namespace likeleaf::test
