// Findings and Report in real widgets on a sample book; a fresh book and screen each.
#include <gtest/gtest.h>

#include <QAccessible>
#include <QApplication>
#include <QBuffer>
#include <QCheckBox>
#include <QClipboard>
#include <QComboBox>
#include <QFile>
#include <QFileInfo>
#include <QImage>
#include <QLabel>
#include <QLineEdit>
#include <QMimeData>
#include <QPdfWriter>
#include <QPushButton>
#include <QScrollArea>
#include <QScrollBar>
#include <QSignalSpy>
#include <QTableWidget>
#include <QTemporaryDir>
#include <QtTest>
#include <algorithm>
#include <semaphore>

#include "core/base/embedded.h"
#include "core/evidence/find.h"
#include "core/exchange/bundle_read.h"
#include "ui/charts/figure_view.h"
#include "ui/findings/findings_screen.h"
#include "ui/findings/sheet_lines.h"
#include "ui/report/page_preview.h"
#include "ui/report/report_screen.h"
#include "ui/widgets/verdict_mark.h"
#include "ui/window/qt_dispatcher.h"

namespace likeleaf::test {
namespace {

// A book with the sample's trial 14 on the bench.
struct Bench {
  QTemporaryDir folder;
  SystemClock clock;
  SystemEntropy entropy;
  ui::QtDispatcher dispatcher;
  std::unique_ptr<Session> session;

  explicit Bench(const char* bundle = "trial-14.json", bool undecided = false) {
    auto made = Session::create(folder.filePath("pier.leafbook").toStdString(), {clock, entropy, dispatcher});
    EXPECT_TRUE(made.has_value());
    session = std::move(*made);
    QFile file(QStringLiteral(LIKELEAF_SOURCE_DIR "/sample_sessions/") + QLatin1String(bundle));
    EXPECT_TRUE(file.open(QIODevice::ReadOnly));
    auto read = exchange::read_bundle(file.readAll().toStdString(), bundle);
    EXPECT_TRUE(read.has_value());
    if (undecided) read->trial.rule.reset();
    const auto imported = session->import_trial(*read);
    EXPECT_TRUE(imported.has_value());
    EXPECT_TRUE(session->take(imported->trial).has_value());
  }
  [[nodiscard]] QString file(const QString& name) const { return folder.filePath(name); }
  [[nodiscard]] QByteArray bytes(const QString& name) const {
    QFile f(file(name));
    return f.open(QIODevice::ReadOnly) ? f.readAll() : QByteArray();
  }
  /// Answers every save dialog with the suggested name in this book's folder.
  [[nodiscard]] ui::PathPrompt prompt() const {
    return [this](const QString& suggested, const QString&) { return file(suggested); };
  }
};

template <class T>
T* child(QWidget& in, const char* name) {
  for (auto* w : in.findChildren<T*>(QString::fromLatin1(name)))
    if (w->isVisibleTo(&in)) return w;
  return nullptr;
}

bool shown(QWidget& screen, const char* name) {
  return QTest::qWaitFor([&] { return child<QWidget>(screen, name) != nullptr; }, 60'000);
}

void click(QWidget& in, const char* name) {
  auto* b = child<QPushButton>(in, name);
  ASSERT_NE(b, nullptr) << name;
  QTest::mouseClick(b, Qt::LeftButton);
}

QStringList texts(QWidget& in, const char* name) {
  QStringList out;
  for (auto* l : in.findChildren<QLabel*>(QString::fromLatin1(name)))
    if (l->isVisibleTo(&in)) out << l->text();
  return out;
}

struct Screen {
  Bench bench;
  ui::FindingsScreen findings{*bench.session, Style{}};
  Screen() {
    findings.set_path_prompt(bench.prompt());
    findings.resize(1280, 736);
    findings.show();
    EXPECT_TRUE(shown(findings, "headline"));
  }
};

TEST(FindingsScreen, answer_comes_first_in_sentences_with_words_and_marks) {
  Screen s;
  EXPECT_EQ(child<QLabel>(s.findings, "headline")->text(),
            QString::fromUtf8("More bitter at 88\u00A0°C. Body holds. Sweetness is open."));
  const QStringList titles = texts(s.findings, "verdict_title");
  ASSERT_EQ(titles.size(), 3);
  EXPECT_EQ(titles[0], "Bitterness: Moved, enough to matter");
  EXPECT_TRUE(titles[1].startsWith("Body: Held"));
  EXPECT_TRUE(titles[2].startsWith("Sweetness: Open"));
  EXPECT_GE(texts(s.findings, "noted_title").size(), 4);
  EXPECT_TRUE(child<QLabel>(s.findings, "rule_outcome")->text().startsWith("Met."));
  EXPECT_NE(child<QWidget>(s.findings, "reason_caution"), nullptr) << "the drift of the sample";
  QStringList marks;
  for (auto* m : s.findings.findChildren<ui::VerdictMark*>()) marks << m->accessibleName();
  EXPECT_EQ(marks.mid(0, 3), (QStringList{"Moved", "Held", "Open"}));
}

TEST(FindingsScreen, all_numbers_hold_every_attribute_of_the_plan) {
  Screen s;
  click(s.findings, "view_numbers");
  auto* grid = child<QTableWidget>(s.findings, "numbers");
  ASSERT_NE(grid, nullptr);
  const auto& attributes = s.bench.session->trial()->sealed->attributes;
  ASSERT_EQ(grid->rowCount(), static_cast<int>(attributes.size()));
  QStringList names;
  for (int r = 0; r < grid->rowCount(); ++r) {
    names << grid->item(r, 0)->text();
    for (int c = 0; c < grid->columnCount(); ++c) EXPECT_FALSE(grid->item(r, c)->text().isEmpty()) << r << ", " << c;
  }
  for (const auto& a : attributes) EXPECT_TRUE(names.contains(QString::fromStdString(a.name))) << a.name;
  click(s.findings, "save_table");
  EXPECT_TRUE(s.bench.bytes("trial-14-numbers-1.csv").contains("Bitterness"));
}

TEST(FindingsScreen, every_view_shows_something_with_words_for_a_screen_reader) {
  Screen s;
  for (const char* view :
       {"view_overview", "view_finish", "view_by-leaf", "view_by-taster", "view_paired", "view_aroma"}) {
    click(s.findings, view);
    auto* canvas = child<QWidget>(s.findings, "canvas");
    ASSERT_NE(canvas, nullptr) << view;
    EXPECT_FALSE(canvas->accessibleName().isEmpty()) << view;
    EXPECT_FALSE(canvas->accessibleDescription().isEmpty()) << view;
  }
  click(s.findings, "view_by-leaf");
  EXPECT_TRUE(child<QWidget>(s.findings, "canvas")->accessibleDescription().contains("Bitterness, L-12"));
  click(s.findings, "view_by-taster");
  EXPECT_TRUE(child<QWidget>(s.findings, "canvas")->accessibleDescription().contains("Bitterness, K."));
  click(s.findings, "view_words");
  EXPECT_GT(child<QTableWidget>(s.findings, "numbers")->rowCount(), 0);
}

TEST(FindingsScreen, a_chart_is_saved_in_three_forms_and_copied) {
  Screen s;
  for (const char* form : {"save_svg", "save_png", "save_csv"}) click(s.findings, form);
  const auto stem = child<ui::FigureView>(s.findings, "figure") ? QStringLiteral("trial-14-overview") : QString();
  const QString at = QFileInfo::exists(s.bench.file(stem + ".svg")) ? stem : stem + "-1";
  EXPECT_TRUE(s.bench.bytes(at + ".svg").startsWith("<svg"));
  EXPECT_FALSE(QImage::fromData(s.bench.bytes(at + ".png"), "PNG").isNull());
  EXPECT_TRUE(s.bench.bytes(at + ".csv").startsWith("attribute,"));
  EXPECT_TRUE(s.bench.bytes(at + ".csv").contains("Bitterness"));
  click(s.findings, "copy_figure");
  const auto* mime = QApplication::clipboard()->mimeData();
  EXPECT_TRUE(mime->hasImage());
  EXPECT_TRUE(mime->text().contains("Bitterness"));
}

TEST(FindingsScreen, where_a_chart_cannot_be_written_it_says_so) {
  Screen s;
  s.findings.set_path_prompt([&](const QString&, const QString&) { return s.bench.file("no/such/folder.svg"); });
  click(s.findings, "view_overview");
  click(s.findings, "save_svg");
  EXPECT_TRUE(child<QLabel>(s.findings, "figure_said")->text().contains("folder.svg"));
  EXPECT_FALSE(QFileInfo::exists(s.bench.file("no")));
}

void type_into(QWidget& screen, const char* name, const QString& typed) {
  auto* line = child<QLineEdit>(screen, name);
  ASSERT_NE(line, nullptr) << name;
  line->setFocus();
  line->selectAll();
  const bool keys = std::ranges::all_of(typed, [](QChar c) { return c.unicode() < 128; }) && typed.size() < 200;
  if (keys) {
    QTest::keyClicks(line, typed);
    return;
  }
  QApplication::clipboard()->setText(typed);
  QTest::keyClick(line, Qt::Key_V, Qt::ControlModifier);
}

TEST(FindingsScreen, an_adopted_rule_is_kept_in_the_book) {
  Screen s;
  click(s.findings, "adopt");
  type_into(s.findings, "adopt_from", "5 March");
  type_into(s.findings, "adopt_who", "H.");
  child<QLineEdit>(s.findings, "adopt_review")->clear();
  click(s.findings, "adopt_yes");
  ASSERT_TRUE(child<QPushButton>(s.findings, "adopt_yes")) << "the review date is asked for first";
  type_into(s.findings, "adopt_review", "spring harvest");
  click(s.findings, "adopt_yes");
  ASSERT_TRUE(s.bench.session->flush().has_value());
  const auto kept = s.bench.session->read(s.bench.session->trial()->id());
  ASSERT_TRUE(kept.has_value() && (*kept)->rule.has_value());
  EXPECT_EQ((*kept)->rule->from_when, "5 March");
  EXPECT_EQ((*kept)->rule->who, "H.");
  EXPECT_EQ((*kept)->rule->review, "spring harvest");
  EXPECT_FALSE((*kept)->rule->counter_checked);
  EXPECT_FALSE((*kept)->rule->leaves.empty());
  ASSERT_NE(child<QLabel>(s.findings, "adopted"), nullptr);
  EXPECT_TRUE(child<QLabel>(s.findings, "adopted")->text().contains("to be checked at the counter"));
  click(s.findings, "counter_checked");
  EXPECT_TRUE(s.bench.session->trial()->rule->counter_checked);
}

TEST(FindingsScreen, a_rule_that_is_left_is_kept_with_who_and_why) {
  Bench other("trial-14.json", true);
  ui::FindingsScreen screen(*other.session, Style{});
  screen.resize(1280, 736);
  screen.show();
  ASSERT_TRUE(shown(screen, "headline"));
  click(screen, "leave_rule");
  click(screen, "leave_yes");
  EXPECT_FALSE(other.session->trial()->rule.has_value()) << "who and why are asked for";
  type_into(screen, "leave_why", QString::fromUtf8("the counter likes it bitter \u2615 \u05d0\u05d1"));
  type_into(screen, "leave_who", "H.");
  click(screen, "leave_yes");
  ASSERT_TRUE(other.session->trial()->rule.has_value());
  EXPECT_TRUE(other.session->trial()->rule->left);
  EXPECT_EQ(other.session->trial()->rule->who, "H.");
  EXPECT_TRUE(child<QLabel>(screen, "adopted")->text().startsWith("Not taken over. H., "));
  EXPECT_FALSE(other.session->ledger().front().adopted);
  EXPECT_EQ(child<QPushButton>(screen, "adopt")->text(), "Adopt it after all");
}

TEST(FindingsScreen, adopting_without_a_leaf_is_refused_at_the_leaves) {
  Screen s;
  click(s.findings, "adopt");
  for (auto* box : s.findings.findChildren<QCheckBox*>()) box->setChecked(false);
  click(s.findings, "adopt_yes");
  EXPECT_TRUE(child<QLabel>(s.findings, "adopt_leaves_said")->text().contains("one leaf or more"));
  EXPECT_EQ(s.bench.session->trial()->rule->leaves.size(), 1u);
}

TEST(FindingsScreen, the_rest_of_the_reasons_is_one_press_behind) {
  Screen s;
  const auto cards = [&] {
    int seen = 0;
    for (auto* w : s.findings.findChildren<QWidget*>())
      seen += w->isVisibleTo(&s.findings) && w->objectName().startsWith("reason") ? 1 : 0;
    return seen;
  };
  const int before = cards();
  EXPECT_EQ(before, 4);
  EXPECT_TRUE(child<QPushButton>(s.findings, "more_reasons")->text().contains("Seal"));
  click(s.findings, "more_reasons");
  EXPECT_TRUE(QTest::qWaitFor([&] { return cards() == 8; }, 5'000));
  EXPECT_EQ(child<QPushButton>(s.findings, "more_reasons"), nullptr);
}

TEST(FindingsScreen, answer_chart_reasons_and_actions_fit_one_window) {
  Screen s;
  auto* act = child<QPushButton>(s.findings, "make_report");
  QCoreApplication::processEvents();
  EXPECT_LE(act->mapTo(&s.findings, QPoint(0, act->height())).y(), s.findings.height());
}

TEST(SheetsPage, a_mark_is_amended_with_who_and_why_and_the_old_value_stays) {
  Screen s;
  click(s.findings, "sheets");
  auto* list = child<QTableWidget>(s.findings, "sheets_list");
  ASSERT_NE(list, nullptr);
  EXPECT_EQ(list->rowCount(), 60);
  list->setCurrentCell(2, 0);
  const auto amendments = s.bench.session->trial()->amendments.size();
  click(s.findings, "amend");
  auto* which = child<QComboBox>(s.findings, "amend_which");
  const QString first = which->itemText(0);
  ASSERT_TRUE(first.contains(", cup "));
  click(s.findings, "amend_yes");
  EXPECT_EQ(s.bench.session->trial()->amendments.size(), amendments) << "value, reason and name are asked for";
  for (const QString& bad : {QString("7.3"), QString("eleven"), QString("11"), QString(1500, 'x'),
                             QString::fromUtf8("\u05e9\u05dc\u05d5\u05dd"), QString::fromUtf8("\u2615")}) {
    type_into(s.findings, "amend_value", bad);
    type_into(s.findings, "amend_why", "a slip of the key");
    type_into(s.findings, "amend_who", "T.");
    click(s.findings, "amend_yes");
    EXPECT_EQ(s.bench.session->trial()->amendments.size(), amendments) << bad.toStdString();
    EXPECT_FALSE(child<QLineEdit>(s.findings, "amend_value")->accessibleDescription().isEmpty()) << bad.toStdString();
    EXPECT_EQ(child<QLineEdit>(s.findings, "amend_value")->text(), bad) << "what was typed stays to be mended";
  }
  const bool nine = first.endsWith(": 9");
  type_into(s.findings, "amend_value", nine ? "8,5" : "9");
  QTest::keyClick(child<QLineEdit>(s.findings, "amend_value"), Qt::Key_Return);
  click(s.findings, "amend_yes");
  ASSERT_EQ(s.bench.session->trial()->amendments.size(), amendments + 1);
  const auto& kept = s.bench.session->trial()->amendments.back();
  EXPECT_EQ(kept.new_value, nine ? "8.5" : "9");
  EXPECT_FALSE(kept.old_value.empty());
  EXPECT_EQ(kept.who, "T.");
  EXPECT_EQ(kept.why, "a slip of the key");
  const QString change = child<QLabel>(s.findings, "sheet_change")->text();
  EXPECT_TRUE(change.contains("became")) << change.toStdString();
  EXPECT_TRUE(change.contains("a slip of the key"));
  EXPECT_TRUE(list->item(2, 3)->text().contains("1 changed"));
  EXPECT_EQ(child<QTableWidget>(s.findings, "sheet_marks")->item(0, 2)->text(), QString::fromStdString(kept.old_value));
  click(s.findings, "sheets_back");
  EXPECT_TRUE(shown(s.findings, "headline"));
}

TEST(SheetsPage, a_sheet_excluded_after_the_key_was_opened_changes_a_sensitivity_line_only) {
  Screen s;
  const QString before = texts(s.findings, "verdict_sentence").join('|');
  click(s.findings, "sheets");
  auto* list = child<QTableWidget>(s.findings, "sheets_list");
  // One that counts: a sheet on a contrast pair.
  const auto unmasked = s.bench.session->unmasked();
  ASSERT_TRUE(unmasked.has_value());
  const auto lines = ui::sheet_lines(*s.bench.session->trial());
  int row = 0;
  for (int i = 0; i < static_cast<int>(lines.size()); ++i)
    for (const auto& p : unmasked->pairings())
      if (p.serving == lines[static_cast<std::size_t>(i)].serving && p.kind == PairKind::contrast) row = i;
  list->setCurrentCell(row, 0);
  click(s.findings, "exclude");
  click(s.findings, "exclude_yes");
  EXPECT_TRUE(s.bench.session->trial()->exclusions.empty()) << "why and who are asked for";
  type_into(s.findings, "exclude_why", "tasted with a cold");
  type_into(s.findings, "exclude_who", "H.");
  click(s.findings, "exclude_yes");
  ASSERT_EQ(s.bench.session->trial()->exclusions.size(), 1u);
  EXPECT_TRUE(list->item(row, 3)->text().startsWith("excluded"));
  EXPECT_TRUE(list->item(row, 0)->font().strikeOut());
  EXPECT_TRUE(child<QLabel>(s.findings, "sheet_excluded")->text().contains("tasted with a cold"));
  EXPECT_EQ(child<QPushButton>(s.findings, "exclude"), nullptr);
  click(s.findings, "sheets_back");
  ASSERT_TRUE(QTest::qWaitFor(
      [&] {
        for (auto* card : s.findings.findChildren<QWidget*>("reason_caution"))
          if (card->accessibleDescription().contains(
                  "sheet excluded after it: the answer stands as it was; without it: "))
            return true;
        return false;
      },
      60'000));
  EXPECT_TRUE(QTest::qWaitFor([&] { return texts(s.findings, "verdict_sentence").join('|') == before; }, 5'000));
}

TEST(SheetsPage, while_others_taste_marks_are_shown_only_when_asked_for) {
  Bench bench;
  Plan plan = bench.session->trial()->sealed->plan;
  plan.id = {};
  ASSERT_TRUE(bench.session->new_trial(plan).has_value());
  ASSERT_TRUE(bench.session->seal().has_value());
  const auto serving = live_servings(*bench.session->trial()).front()->id;
  ASSERT_TRUE(bench.session->run(StartSheet{serving}).has_value());
  ASSERT_TRUE(bench.session->run(PutMark{serving, Side::left, "body", Mark(*Score::from_halves(9))}).has_value());
  ASSERT_TRUE(bench.session->run(LockSheet{serving}).has_value());
  ui::FindingsScreen screen(*bench.session, Style{TemperatureUnit::celsius, ','});
  screen.resize(1280, 736);
  screen.show();
  click(screen, "sheets");
  auto* list = child<QTableWidget>(screen, "sheets_list");
  int locked = -1;
  for (int row = 0; row < list->rowCount(); ++row)
    if (list->item(row, 3)->text() == "locked") locked = row;
  ASSERT_GE(locked, 0);
  list->setCurrentCell(locked, 0);
  EXPECT_EQ(child<QTableWidget>(screen, "sheet_marks"), nullptr);
  EXPECT_EQ(child<QPushButton>(screen, "amend"), nullptr);
  click(screen, "show_marks");
  auto* marks = child<QTableWidget>(screen, "sheet_marks");
  ASSERT_NE(marks, nullptr);
  QStringList values;
  for (int row = 0; row < marks->rowCount(); ++row) values << marks->item(row, 1)->text();
  EXPECT_TRUE(values.contains("4,5")) << values.join(' ').toStdString();
  EXPECT_NE(child<QPushButton>(screen, "amend"), nullptr);
  // Excluding one that is open: it does not decide.
  click(screen, "exclude");
  type_into(screen, "exclude_why", "spilt on the way");
  type_into(screen, "exclude_who", "H.");
  click(screen, "exclude_yes");
  EXPECT_TRUE(child<QLabel>(screen, "sheet_excluded")->text().contains("it does not decide"));
}

TEST(FindingsScreen, a_form_can_be_turned_back_from) {
  Screen s;
  const auto before = s.bench.session->trial()->rule;
  click(s.findings, "adopt");
  type_into(s.findings, "adopt_from", "never");
  click(s.findings, "adopt_no");
  EXPECT_EQ(s.bench.session->trial()->rule, before);
  EXPECT_NE(child<QPushButton>(s.findings, "adopt"), nullptr);
}

TEST(FindingsScreen, plans_the_next_trial_and_the_level_between) {
  Screen s;
  std::vector<Plan> wanted;
  int reports = 0;
  QObject::connect(&s.findings, &ui::FindingsScreen::follow_up_wanted, [&](const Plan& p) { wanted.push_back(p); });
  QObject::connect(&s.findings, &ui::FindingsScreen::report_wanted, [&] { ++reports; });
  EXPECT_EQ(child<QPushButton>(s.findings, "plan_between")->text(), QString::fromUtf8("Plan 78\u00A0°C between"));
  click(s.findings, "plan_next");
  click(s.findings, "plan_between");
  click(s.findings, "make_report");
  EXPECT_EQ(reports, 1);
  ASSERT_EQ(wanted.size(), 2u);
  const Plan& old = s.bench.session->trial()->sealed->plan;
  for (const auto& plan : wanted) {
    EXPECT_EQ(plan.follows, old.id);
    EXPECT_EQ(plan.lots, old.lots);
    EXPECT_TRUE(plan.id.empty());
  }
  ASSERT_EQ(wanted[1].lever.levels.size(), 2u);
  EXPECT_TRUE(wanted[1].lever.levels[0].present_way);
  EXPECT_EQ(wanted[1].lever.levels[1].value, 78'000);
  ASSERT_TRUE(s.bench.session->new_trial(wanted[1]).has_value()) << "the book takes it as a draft";
}

TEST(FindingsScreen, while_sheets_are_open_it_names_them_and_offers_no_key) {
  Bench bench;
  Plan plan = bench.session->trial()->sealed->plan;
  plan.id = {};
  ASSERT_TRUE(bench.session->new_trial(plan).has_value());
  const auto sealed = bench.session->seal();
  ASSERT_TRUE(sealed.has_value());
  ui::FindingsScreen screen(*bench.session, Style{});
  screen.resize(1280, 736);
  screen.show();
  ASSERT_NE(child<QLabel>(screen, "open_sheets"), nullptr);
  EXPECT_TRUE(child<QLabel>(screen, "closed_said")->text().startsWith("0 of 60 sheets locked"));
  const QString names = child<QLabel>(screen, "open_sheets")->text();
  for (const char* who : {"R.", "K.", "M.", "T."})
    EXPECT_TRUE(names.contains(QString(who) + ": sitting 1, ")) << names.toStdString();
  EXPECT_TRUE(names.contains("warm-up"));
  EXPECT_EQ(child<QPushButton>(screen, "open_key"), nullptr);
  // Lock everything: the screen follows by itself, names who opens the key, and opens it once.
  const auto servings = bench.session->trial()->servings;
  for (const auto& serving : servings) {
    (void)bench.session->run(StartSheet{serving.id});
    ASSERT_TRUE(bench.session->run(LockSheet{serving.id}).has_value());
  }
  ASSERT_TRUE(shown(screen, "open_key"));
  click(screen, "open_key");
  EXPECT_FALSE(bench.session->trial()->unmasked.has_value()) << "who opens it is asked for";
  type_into(screen, "unmask_who", "H.");
  click(screen, "open_key");
  ASSERT_TRUE(bench.session->trial()->unmasked.has_value());
  EXPECT_EQ(bench.session->trial()->unmasked->who, "H.");
  EXPECT_TRUE(
      QTest::qWaitFor([&] { return child<QWidget>(screen, "headline") || child<QWidget>(screen, "trouble"); }, 60'000));
}

TEST(FindingsScreen, long_work_shows_its_progress_and_can_be_stopped_and_a_stale_answer_is_dropped) {
  Bench bench;
  std::binary_semaphore first(0);
  std::atomic<int> runs = 0;
  std::atomic<bool> told = false;
  ui::FindingsScreen screen(*bench.session, Style{});
  screen.set_finder([&](const Unmasked& unmasked, std::stop_token stop, const Progress& progress) {
    if (++runs > 1) return evidence::find(unmasked);
    progress(0.4);
    first.acquire();
    told = stop.stop_requested();
    return Result<evidence::Findings>(fail(ErrorKind::internal, "an answer nobody waits for"));
  });
  screen.show();
  screen.refresh();
  ASSERT_TRUE(shown(screen, "progress"));
  click(screen, "stop");
  ASSERT_TRUE(shown(screen, "trouble"));
  EXPECT_TRUE(child<QLabel>(screen, "trouble")->text().startsWith("Stopped"));
  click(screen, "again");
  first.release();
  ASSERT_TRUE(shown(screen, "headline"));
  EXPECT_TRUE(told);
  QTest::qWait(20);
  EXPECT_EQ(child<QLabel>(screen, "trouble"), nullptr);
}

int painted(QWidget& screen) {
  int pages = 0;
  for (auto* page : screen.findChildren<QLabel*>("page")) pages += page->pixmap().isNull() ? 0 : 1;
  return pages;
}

/// The report screen on a sample trial, its first pages painted.
struct Paged {
  Bench bench;
  ui::ReportScreen screen{*bench.session, Style{}};
  Paged() {
    screen.set_path_prompt(bench.prompt());
    screen.resize(1280, 736);
    screen.show();
    EXPECT_TRUE(QTest::qWaitFor([&] { return painted(screen) > 0; }, 60'000));
  }
  void save(const char* button) {
    const QSignalSpy saved(&screen, &ui::ReportScreen::saved);
    click(screen, button);
    EXPECT_TRUE(QTest::qWaitFor([&] { return saved.count() == 1; }, 60'000));
  }
};

void expect_names(QWidget& screen) {
  for (auto* w : screen.findChildren<QWidget*>()) {
    if (w->focusPolicy() == Qt::NoFocus || !w->isVisible() || w->objectName().startsWith("qt_") ||
        qobject_cast<QLabel*>(w))
      continue;
    auto* face = QAccessible::queryAccessibleInterface(w);
    EXPECT_FALSE(face->text(QAccessible::Name).isEmpty())
        << w->metaObject()->className() << ' ' << w->objectName().toStdString();
    EXPECT_NE(face->role(), QAccessible::NoRole) << w->objectName().toStdString();
  }
}

TEST(FindingsScreen, every_control_has_a_name) {
  Screen s;
  click(s.findings, "adopt");
  expect_names(s.findings);
  click(s.findings, "view_numbers");
  expect_names(s.findings);
  click(s.findings, "sheets");
  click(s.findings, "amend");
  expect_names(s.findings);
  click(s.findings, "exclude");
  expect_names(s.findings);
  Paged p;
  p.save("save_html");
  ASSERT_TRUE(shown(p.screen, "made_1"));
  expect_names(p.screen);
}

/// Object names in the order in which Tab walks from one control, until `last`.
QStringList walked(QWidget& screen, const char* first, const char* last) {
  QStringList names;
  auto* at = child<QWidget>(screen, first);
  if (!at) return names;
  at->setFocus();
  for (int i = 0; i < 60; ++i) {
    auto* now = QApplication::focusWidget();
    if (!now) break;
    names << now->objectName();
    if (now->objectName() == QLatin1String(last)) break;
    QTest::keyClick(now, Qt::Key_Tab);
  }
  return names;
}

TEST(FindingsScreen, tab_walks_down_the_answer_and_through_each_form) {
  Screen s;
  QApplication::setActiveWindow(&s.findings);
  QStringList order = walked(s.findings, "adopt", "sheets");
  QStringList wanted{"adopt",        "counter_checked", "view_overview", "copy_figure",  "save_csv",
                     "more_reasons", "make_report",     "plan_next",     "plan_between", "sheets"};
  qsizetype at = -1;
  for (const auto& name : wanted) {
    const auto found = order.indexOf(name);
    EXPECT_GT(found, at) << name.toStdString() << " in " << order.join(' ').toStdString();
    at = found;
  }
  click(s.findings, "adopt");
  order = walked(s.findings, "adopt_sentence", "adopt_no");
  EXPECT_EQ(order.filter("adopt_").size(), order.size()) << order.join(' ').toStdString();
  EXPECT_LT(order.indexOf("adopt_from"), order.indexOf("adopt_who"));
  EXPECT_LT(order.indexOf("adopt_who"), order.indexOf("adopt_review"));
  EXPECT_LT(order.indexOf("adopt_review"), order.indexOf("adopt_yes"));
  click(s.findings, "sheets");
  click(s.findings, "amend");
  EXPECT_EQ(walked(s.findings, "amend_which", "amend_no"),
            (QStringList{"amend_which", "amend_value", "amend_why", "amend_who", "amend_yes", "amend_no"}));
}

TEST(ReportScreen, paints_the_pages_that_are_looked_at_and_the_others_on_scrolling) {
  Paged p;
  auto* preview = child<ui::PagePreview>(p.screen, "preview");
  ASSERT_TRUE(QTest::qWaitFor([&] { return !preview->working(); }, 60'000));
  const auto pages = p.screen.findChildren<QLabel*>("page").size();
  EXPECT_GE(painted(p.screen), 2);
  EXPECT_LT(painted(p.screen), pages) << "the end of the annex has not been looked at";
  EXPECT_EQ(child<QWidget>(p.screen, "report_progress"), nullptr) << "nothing waits";
  preview->verticalScrollBar()->setValue(preview->verticalScrollBar()->maximum());
  EXPECT_TRUE(QTest::qWaitFor([&] { return painted(p.screen) == pages; }, 60'000));
}

TEST(ReportScreen, making_the_pdf_can_be_stopped_and_nothing_is_written) {
  Paged p;
  click(p.screen, "save_pdf");
  ASSERT_TRUE(shown(p.screen, "report_stop"));
  EXPECT_FALSE(child<QPushButton>(p.screen, "save_pdf")->isEnabled());
  click(p.screen, "report_stop");
  EXPECT_TRUE(child<QLabel>(p.screen, "report_said")->text().startsWith("Stopped"));
  EXPECT_TRUE(child<QPushButton>(p.screen, "save_pdf")->isEnabled());
  QTest::qWait(50);
  EXPECT_FALSE(QFileInfo::exists(p.bench.file("trial-14-report.pdf")));
  EXPECT_TRUE(p.bench.session->reports(p.bench.session->trial()->id())->empty());
}

TEST(ReportScreen, a_report_that_was_saved_opens_later_as_it_was) {
  Paged p;
  EXPECT_EQ(child<QPushButton>(p.screen, "made_1"), nullptr);
  p.save("save_pdf");
  p.save("save_html");
  ASSERT_TRUE(shown(p.screen, "made_1"));
  EXPECT_EQ(child<QPushButton>(p.screen, "made_2"), nullptr) << "the same report in another form is not another report";
  EXPECT_TRUE(child<QPushButton>(p.screen, "made_1")->text().contains("Likeleaf"));
  // The house changes its mind: the report of today follows, the one of before does not.
  AdoptedRule rule = *p.bench.session->trial()->rule;
  rule.review = "with the autumn harvest";
  ASSERT_TRUE(p.bench.session->run(AdoptRule{rule}).has_value());
  const auto says = [&](const char* words) {
    return QString::fromStdString(report::to_text(*p.screen.document())).contains(words);
  };
  ASSERT_TRUE(QTest::qWaitFor([&] { return says("autumn harvest"); }, 60'000));
  click(p.screen, "made_1");
  EXPECT_TRUE(says("spring harvest"));
  EXPECT_TRUE(child<QLabel>(p.screen, "as_made")->text().contains("as it was made on"));
  click(p.screen, "report_today");
  EXPECT_TRUE(says("autumn harvest"));
  EXPECT_EQ(child<QLabel>(p.screen, "as_made"), nullptr);
  p.save("save_pdf");
  EXPECT_TRUE(shown(p.screen, "made_2"));
}

TEST(ReportScreen, where_it_cannot_be_written_it_says_so_and_keeps_no_report) {
  Paged p;
  p.screen.set_path_prompt([&](const QString&, const QString&) { return p.bench.file("no/such/report.html"); });
  click(p.screen, "save_html");
  EXPECT_TRUE(child<QLabel>(p.screen, "report_said")->text().contains("report.html"));
  EXPECT_TRUE(p.bench.session->reports(p.bench.session->trial()->id())->empty());
}

TEST(ReportScreen, preview_and_both_files_say_the_headline) {
  Bench bench;
  ui::ReportScreen screen(*bench.session, Style{});
  screen.set_path_prompt(bench.prompt());
  screen.resize(1280, 736);
  screen.show();
  ASSERT_TRUE(shown(screen, "page"));
  const auto pages = screen.findChildren<QLabel*>("page");
  EXPECT_GT(pages.size(), 3);
  EXPECT_TRUE(pages[0]->accessibleDescription().contains(QString::fromUtf8("More bitter at 88\u00A0°C")));
  const QSignalSpy saved(&screen, &ui::ReportScreen::saved);
  click(screen, "save_pdf");
  ASSERT_TRUE(QTest::qWaitFor([&] { return saved.count() == 1; }, 60'000));
  click(screen, "save_html");
  const QByteArray pdf = bench.bytes("trial-14-report.pdf");
  EXPECT_TRUE(pdf.startsWith("%PDF"));
  EXPECT_TRUE(bench.bytes("trial-14-report.html").contains("More bitter at 88\u00A0°C"));
  EXPECT_EQ(screen.document()->meta.title, "Trial 14: More bitter at 88\u00A0°C. Body holds. Sweetness is open.");
  QProcess reader;
  reader.start("pdftotext", {bench.file("trial-14-report.pdf"), "-"});
  if (reader.waitForStarted()) {
    reader.waitForFinished();
    EXPECT_TRUE(QString::fromUtf8(reader.readAllStandardOutput()).contains("More bitter at 88"));
  }
  ASSERT_TRUE(QTest::qWaitFor([&] { return painted(screen) > 0; }, 60'000));
  const QSize a4 = screen.findChild<QLabel*>("page")->pixmap().size();
  click(screen, "paper_letter");
  ASSERT_TRUE(QTest::qWaitFor([&] { return painted(screen) > 0; }, 60'000));
  const QSize letter = screen.findChild<QLabel*>("page")->pixmap().size();
  EXPECT_LT(letter.height(), a4.height());
  EXPECT_GT(letter.width(), a4.width());
}

TEST(ReportScreen, before_the_key_is_open_it_offers_nothing_to_save) {
  Bench bench;
  Plan plan = bench.session->trial()->sealed->plan;
  plan.id = {};
  ASSERT_TRUE(bench.session->new_trial(plan).has_value());
  ui::ReportScreen screen(*bench.session, Style{});
  screen.show();
  EXPECT_EQ(child<QPushButton>(screen, "save_pdf"), nullptr);
  EXPECT_TRUE(child<QLabel>(screen, "report_said")->text().contains("key"));
}

TEST(PageImages, are_as_many_as_the_pages_of_the_pdf) {
  report::Document doc;
  doc.meta = {"Title", "House", "label", "foot", "Likeleaf"};
  report::Table t{"Many rows", {"A", "B"}, {false, true}, {}};
  for (int i = 0; i < 120; ++i) t.rows.push_back({"row " + std::to_string(i), std::to_string(i)});
  doc.blocks.emplace_back(t);
  const auto images = ui::page_images(doc, ui::Paper::a4, 1);
  const QByteArray pdf = ui::pdf_bytes(doc, ui::Paper::a4);
  EXPECT_EQ(static_cast<int>(images.size()), pdf.count("/Type /Page\n") + pdf.count("/Type /Page "));
  for (const auto& image : images) {
    int ink = 0;
    for (int y = 0; y < image.height(); ++y)
      for (int x = 0; x < image.width(); ++x) ink += qGray(image.pixel(x, y)) < 100;
    EXPECT_GT(ink, 100);
  }
}

}  // namespace
}  // namespace likeleaf::test
