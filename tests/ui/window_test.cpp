// The window as a whole: books, what is kept and what is not, closing, how one likes to see it. A fresh window each.
#include <gtest/gtest.h>

#include <QAction>
#include <QApplication>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QProcess>
#include <QPushButton>
#include <QSettings>
#include <QToolButton>
#include <QtTest>
#include <filesystem>

#include "core/base/clock.h"
#include "program.h"
#include "tests/core/store/bench_book.h"
#include "ui/theme/theme.h"
#include "ui/window/main_window.h"
#include "ui/window/qt_dispatcher.h"

namespace likeleaf::test {
namespace {

namespace fs = std::filesystem;

struct Desk {
  SystemClock clock;
  SystemEntropy entropy;
  ui::QtDispatcher dispatcher;
  ui::MainWindow window{Services{clock, entropy, dispatcher}, ui::Look{}};
  Desk() {
    window.show();
    EXPECT_TRUE(QTest::qWaitForWindowActive(&window));
  }
  template <class T>
  T* child(const char* name) {
    auto* found = window.findChild<T*>(QString::fromLatin1(name));
    if (!found) throw std::runtime_error(std::string("no ") + name);
    return found;
  }
  void click(const char* button) {
    auto* b = child<QAbstractButton>(button);
    ASSERT_TRUE(b->isVisible() && b->isEnabled()) << button;
    QTest::mouseClick(b, Qt::LeftButton);
    QApplication::processEvents();
  }
  /// Opens the book, begins a trial in it, and types without Enter.
  void type_question(const fs::path& book, const char* words) {
    window.open_book(book);
    click("new_trial");
    child<QLineEdit>("question")->setFocus();
    QTest::keyClicks(child<QLineEdit>("question"), QString::fromLatin1(words));
  }
  QLabel* not_kept() { return child<QLabel>("not_kept"); }
};

std::string question_in(const fs::path& book) {
  World world;
  auto session = Session::open(book, OpenWay::read_only, world.services());
  if (!session) return words_of(session.error());
  const auto rows = (*session)->ledger();
  return rows.empty() ? "no trial" : rows.front().question;
}

fs::path new_book(const Folder& folder, const char* name = "bench.leafbook") {
  World world;
  new_bench(folder / name, world);
  return folder / name;
}

TEST(Window, from_its_start_to_the_samples_report_takes_at_most_three_clicks) {
  const QTemporaryDir home;
  qputenv("XDG_DATA_HOME", home.path().toUtf8());
  Desk d;
  int clicks = 0;
  for (const char* button : {"sample", "to_report"}) {
    // The answer beside the list, with its way to the report, is worked out off the window's thread.
    const auto there = [&] {
      const auto* b = d.window.findChild<QAbstractButton*>(QLatin1String(button));
      return b && b->isVisible() && b->isEnabled();
    };
    ASSERT_TRUE(QTest::qWaitFor(there)) << button;
    d.click(button);
    ++clicks;
  }
  EXPECT_TRUE(d.child<QWidget>("report_screen")->isVisible());
  EXPECT_TRUE(d.child<QLabel>("title")->text().contains("88")) << d.child<QLabel>("title")->text().toStdString();
  EXPECT_LE(clicks, 3);
  RecordProperty("clicks", clicks);
}

TEST(Window, a_new_book_is_made_by_mouse_and_opened_by_keyboard) {
  const Folder folder;
  const QString wanted = QString::fromStdString((folder / "pier").string());
  Desk d;
  ui::BookPrompts prompts;
  prompts.new_book = [&](QWidget*, const QString&) { return wanted; };
  prompts.open_book = [&](QWidget*, const QString&) { return wanted + QStringLiteral(".leafbook"); };
  d.window.set_prompts(prompts);
  d.click("new_book");
  EXPECT_TRUE(fs::exists(folder / "pier.leafbook"));
  EXPECT_EQ(d.child<QLabel>("book")->text(), "pier.leafbook");
  EXPECT_TRUE(d.child<QLabel>("empty")->isVisible()) << "a book without trials says what to do";
  auto* open = d.child<QPushButton>("open");
  open->setFocus();
  QTest::keyClick(open, Qt::Key_Return);
  EXPECT_EQ(d.child<QLabel>("book")->text(), "pier.leafbook");
  EXPECT_FALSE(d.child<QLabel>("note")->isVisible()) << "its own book is not open elsewhere";
}

TEST(Window, a_bundle_is_imported_and_twice_changes_nothing) {
  const Folder folder;
  {
    World world;
    Session::create(folder / "empty.leafbook", world.services()).value();
  }
  Desk d;
  d.window.open_book(folder / "empty.leafbook");
  ui::BookPrompts prompts;
  prompts.bundle = [](QWidget*, const QString&) {
    return QStringLiteral(LIKELEAF_SOURCE_DIR "/sample_sessions/trial-14.json");
  };
  d.window.set_prompts(prompts);
  d.click("import");
  EXPECT_EQ(d.child<QListWidget>("trials")->count(), 1);
  d.click("import");
  EXPECT_EQ(d.child<QListWidget>("trials")->count(), 1);
  EXPECT_TRUE(d.child<QLabel>("note")->text().contains("there already"));
}

TEST(Window, a_book_given_at_the_start_is_opened_once_the_first_frame_stands) {
  const SampleFolder s;
  Desk d;
  d.window.open_book_soon(s.book().toStdString());
  EXPECT_TRUE(d.child<QLabel>("note")->text().contains("Opening"));
  d.window.update();
  ASSERT_TRUE(QTest::qWaitFor([&] { return d.child<QListWidget>("trials")->count() == 3; }));
  EXPECT_FALSE(d.child<QLabel>("note")->isVisible());
}

TEST(Window, filters_narrow_the_list_and_say_how_many_of_how_many) {
  const SampleFolder s;
  Desk d;
  d.window.open_book(s.book().toStdString());
  auto* list = d.child<QListWidget>("trials");
  auto* changes = d.child<QComboBox>("changes_filter");
  auto* leaf = d.child<QComboBox>("leaf_filter");
  ASSERT_GE(leaf->findText("L-12"), 0);
  leaf->setCurrentIndex(leaf->findText("L-12"));
  EXPECT_EQ(list->count(), 2);
  EXPECT_EQ(d.child<QLabel>("count")->text(), "2 of 3");
  changes->setCurrentIndex(changes->findText("water temperature"));
  EXPECT_EQ(list->count(), 1);
  d.child<QComboBox>("stage")->setCurrentIndex(1);
  EXPECT_EQ(list->count(), 0);
  EXPECT_FALSE(d.child<QPushButton>("take")->isEnabled());
}

TEST(Window, the_trial_that_one_came_from_is_still_chosen_on_the_way_back) {
  const SampleFolder s;
  Desk d;
  d.window.open_book(s.book().toStdString());
  d.child<QListWidget>("trials")->setCurrentRow(2);
  d.click("take");
  EXPECT_TRUE(d.child<QWidget>("findings_screen")->isVisible());
  d.click("place_trials");
  EXPECT_EQ(d.child<QListWidget>("trials")->currentRow(), 2);
}

TEST(Window, closing_in_the_middle_of_a_word_keeps_the_word_and_asks_nothing) {
  const Folder folder;
  const auto book = new_book(folder);
  {
    Desk d;
    d.type_question(book, "Cooler water?");
    EXPECT_TRUE(d.window.close());
    EXPECT_FALSE(d.window.isVisible());
  }
  EXPECT_EQ(question_in(book), "Cooler water?");
}

TEST(Window, a_folder_pulled_away_while_typing_is_told_and_what_was_typed_waits_for_it) {
  const Folder folder;
  fs::create_directory(folder / "in");
  const auto book = new_book(folder, "in/bench.leafbook");
  Desk d;
  d.type_question(book, "Cooler?");
  fs::rename(folder / "in", folder / "away");
  QTest::keyClick(d.child<QLineEdit>("question"), Qt::Key_Return);
  ASSERT_TRUE(QTest::qWaitFor([&] { return d.not_kept()->isVisible(); }));
  EXPECT_TRUE(d.not_kept()->text().contains("renamed, moved or taken away"));
  EXPECT_EQ(d.child<QLabel>("kept")->text(), "not kept");
  EXPECT_EQ(d.child<QLineEdit>("question")->text(), "Cooler?");
  d.click("retry");
  ASSERT_TRUE(QTest::qWaitFor([&] { return d.not_kept()->isVisible(); })) << "it is still away";
  fs::rename(folder / "away", folder / "in");
  d.click("retry");
  ASSERT_TRUE(QTest::qWaitFor([&] { return !d.not_kept()->isVisible(); }));
  EXPECT_TRUE(d.child<QLabel>("kept")->text().startsWith("kept "));
  d.window.close();
}

TEST(Window, closing_while_the_folder_is_away_holds_once_and_loses_nothing) {
  const Folder folder;
  fs::create_directory(folder / "in");
  const auto book = new_book(folder, "in/bench.leafbook");
  {
    Desk d;
    d.type_question(book, "Cooler?");
    fs::rename(folder / "in", folder / "away");
    EXPECT_FALSE(d.window.close()) << "what is not kept holds the window open";
    EXPECT_TRUE(d.not_kept()->isVisible());
    d.click("close_anyway");
    EXPECT_FALSE(d.window.isVisible());
  }
  EXPECT_EQ(question_in(folder / "away/bench.leafbook"), "Cooler?")
      << "the last thing is written into the book wherever it lies";
}

TEST(Window, a_second_program_on_the_book_is_refused_with_the_holder_and_the_first_goes_on) {
  const Folder folder;
  const auto book = new_book(folder);
  {
    Desk d;
    d.type_question(book, "Cool");
    const Ran second = run({"check", QString::fromStdString(book.string())});
    EXPECT_EQ(second.code, 3);
    EXPECT_TRUE(second.err.contains(QStringLiteral("open elsewhere")) &&
                second.err.contains(QStringLiteral("process %1").arg(QCoreApplication::applicationPid())))
        << second.err.toStdString();
    QTest::keyClicks(d.child<QLineEdit>("question"), "er?");
    EXPECT_TRUE(d.window.close());
  }
  EXPECT_EQ(question_in(book), "Cooler?");
}

TEST(Window, a_left_over_journal_is_named_on_start) {
  const Folder folder;
  const auto book = new_book(folder);
  fs::create_directory(folder / "crashed");
  {
    World world;
    auto session = Session::open(book, OpenWay::write, world.services()).value();
    session->new_trial(FerryPier().trial_14()).value();
    done(session->flush());
    for (const char* ending : {"", "-wal"})
      fs::copy_file(book.string() + ending, (folder / "crashed/bench.leafbook").string() + ending);
  }
  Desk d;
  d.window.open_book(folder / "crashed/bench.leafbook");
  EXPECT_TRUE(d.child<QLabel>("note")->isVisible());
  EXPECT_TRUE(d.child<QLabel>("note")->text().contains("not closed properly"))
      << d.child<QLabel>("note")->text().toStdString();
  EXPECT_EQ(d.child<QListWidget>("trials")->count(), 1);
}

TEST(Window, unit_and_colours_are_chosen_in_the_window_and_are_told_to_whoever_keeps_them) {
  const SampleFolder s;
  Desk d;
  ui::Look told;
  QObject::connect(&d.window, &ui::MainWindow::look_changed, [&](const ui::Look& look) { told = look; });
  d.window.open_book(s.book().toStdString());
  d.child<QListWidget>("trials")->setCurrentRow(2);
  const auto answer_has = [&](const char* words) {
    return QTest::qWaitFor(
        [&] {
          const auto* label = d.window.findChild<QLabel*>(QStringLiteral("headline"));
          return label && label->text().contains(QString::fromUtf8(words));
        },
        60'000);
  };
  EXPECT_TRUE(answer_has("88\u00A0°C"));
  const QColor paper = QApplication::palette().color(QPalette::Window);
  d.child<QAction>("view_fahrenheit")->trigger();
  ASSERT_TRUE(QTest::qWaitFor([&] { return told.style.temperature == TemperatureUnit::fahrenheit; }));
  d.child<QListWidget>("trials")->setCurrentRow(2);
  EXPECT_TRUE(answer_has("190.4\u00A0°F"));
  d.child<QAction>("view_dark")->trigger();
  ASSERT_TRUE(QTest::qWaitFor([&] { return told.dark; }));
  EXPECT_EQ(told.style.temperature, TemperatureUnit::fahrenheit) << "one choice leaves the other alone";
  EXPECT_NE(QApplication::palette().color(QPalette::Window), paper);
  ui::apply_theme(*qApp, false);
}

TEST(Window, the_look_is_kept_in_the_settings_and_nonsense_there_is_ignored) {
  const QTemporaryDir folder;
  const QString file = folder.filePath(QStringLiteral("likeleaf.ini"));
  {
    QSettings settings(file, QSettings::IniFormat);
    ui::keep_look(settings, {{TemperatureUnit::fahrenheit, '.'}, true});
  }
  QSettings settings(file, QSettings::IniFormat);
  const ui::Look look = ui::kept_look(settings, {{TemperatureUnit::celsius, ','}, false});
  EXPECT_EQ(look.style.temperature, TemperatureUnit::fahrenheit);
  EXPECT_EQ(look.style.decimal_mark, ',') << "the decimal mark is the locale's";
  EXPECT_TRUE(look.dark);
  settings.setValue("look/temperature", "warm");
  settings.setValue("look/colours", 7);
  EXPECT_FALSE(ui::kept_look(settings, {}).dark);
  EXPECT_EQ(ui::kept_look(settings, {}).style.temperature, TemperatureUnit::celsius);
}

/// A window on a freshly sealed trial, at Brew with the key open.
struct Brewing {
  Folder folder;
  fs::path book;
  std::unique_ptr<Desk> desk;
  Brewing() : book(folder / "bench.leafbook") {
    World world;
    auto session = new_bench(book, world);
    session->new_trial(FerryPier().trial_15()).value();
    session->new_trial(FerryPier().trial_14()).value();
    session->seal().value();
    session.reset();
    desk = std::make_unique<Desk>();
    desk->window.open_book(book);
    desk->click("take");
    desk->click("ask_key");
    desk->click("open_key");
    EXPECT_TRUE(desk->child<QPushButton>("stamp")->isVisible());
  }
  /// How often the key was opened and closed again, as the book has it once the window is gone.
  std::pair<std::size_t, std::size_t> openings() {
    desk.reset();
    World world;
    auto session = Session::open(book, OpenWay::read_only, world.services()).value();
    const auto rows = session->ledger();
    const auto sealed = std::ranges::find_if(rows, [](const auto& row) { return row.sealed.has_value(); });
    const auto trial = session->read(sealed->id).value();
    const auto closed = std::ranges::count_if(trial->openings, [](const auto& one) { return one.closed.has_value(); });
    return {trial->openings.size(), static_cast<std::size_t>(closed)};
  }
};

using Count = std::pair<std::size_t, std::size_t>;

TEST(Window, going_to_another_place_closes_the_key_and_that_is_logged) {
  Brewing b;
  b.desk->click("place_taste");
  b.desk->click("place_brew");
  EXPECT_FALSE(b.desk->child<QPushButton>("stamp")->isVisible());
  EXPECT_EQ(b.openings(), (Count{1, 1}));
}

TEST(Window, taking_another_trial_closes_the_key_and_that_is_logged) {
  Brewing b;
  b.desk->click("place_trials");
  b.desk->child<QListWidget>("trials")->setCurrentRow(1);
  b.desk->click("take");
  EXPECT_EQ(b.openings(), (Count{1, 1}));
}

TEST(Window, closing_it_closes_the_key_and_that_is_logged) {
  Brewing b;
  EXPECT_TRUE(b.desk->window.close());
  EXPECT_EQ(b.openings(), (Count{1, 1}));
}

TEST(Window, another_look_closes_the_key_and_that_is_logged) {
  Brewing b;
  b.desk->window.set_look({{TemperatureUnit::fahrenheit, '.'}, false});
  EXPECT_FALSE(b.desk->child<QPushButton>("stamp")->isVisible());
  EXPECT_EQ(b.openings(), (Count{1, 1}));
}

TEST(Window, in_taste_title_head_and_bar_say_nothing_of_the_trial) {
  Brewing b;
  b.desk->click("place_taste");
  b.desk->click("taster_0");
  EXPECT_EQ(b.desk->window.windowTitle(), "Likeleaf");
  for (const char* name : {"title", "subtitle", "book"}) EXPECT_EQ(b.desk->child<QLabel>(name)->text(), "") << name;
  for (auto* place : b.desk->window.findChildren<QToolButton*>()) {
    if (!place->objectName().startsWith("place_")) continue;
    EXPECT_FALSE(place->accessibleName().contains(',')) << place->accessibleName().toStdString();
  }
}

}  // namespace
}  // namespace likeleaf::test
