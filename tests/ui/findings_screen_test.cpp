// Findings and Report in real widgets on a sample book; a fresh book and screen each.
#include <gtest/gtest.h>

#include <QAccessible>
#include <QApplication>
#include <QBuffer>
#include <QClipboard>
#include <QFile>
#include <QFileInfo>
#include <QImage>
#include <QLabel>
#include <QLineEdit>
#include <QMimeData>
#include <QPdfWriter>
#include <QPushButton>
#include <QScrollArea>
#include <QTableWidget>
#include <QTemporaryDir>
#include <QtTest>
#include <semaphore>

#include "core/base/embedded.h"
#include "core/exchange/bundle_read.h"
#include "ui/charts/figure_view.h"
#include "ui/findings/findings_screen.h"
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

  explicit Bench(const char* bundle = "trial-14.json") {
    auto made = Session::create(folder.filePath("pier.leafbook").toStdString(), {clock, entropy, dispatcher});
    EXPECT_TRUE(made.has_value());
    session = std::move(*made);
    QFile file(QStringLiteral(LIKELEAF_SOURCE_DIR "/sample_sessions/") + QLatin1String(bundle));
    EXPECT_TRUE(file.open(QIODevice::ReadOnly));
    const auto read = exchange::read_bundle(file.readAll().toStdString(), bundle);
    EXPECT_TRUE(read.has_value());
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
  for (const char* view : {"view_overview", "view_by-leaf", "view_by-taster", "view_paired", "view_aroma"}) {
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
  QTest::keyClicks(line, typed);
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

TEST(FindingsScreen, a_rule_can_be_left) {
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

TEST(FindingsScreen, every_control_has_a_name) {
  Screen s;
  click(s.findings, "adopt");
  for (auto* w : s.findings.findChildren<QWidget*>()) {
    if (w->focusPolicy() == Qt::NoFocus || !w->isVisible() || w->objectName().startsWith("qt_") ||
        qobject_cast<QLabel*>(w))
      continue;
    auto* face = QAccessible::queryAccessibleInterface(w);
    EXPECT_FALSE(face->text(QAccessible::Name).isEmpty())
        << w->metaObject()->className() << ' ' << w->objectName().toStdString();
  }
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
  click(screen, "save_pdf");
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
  const QSize a4 = pages[0]->pixmap().size();
  click(screen, "paper_letter");
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
