// The prints on paper and the screen that gives them: read back by pdftotext, compared byte by byte, pressed by keys
// and by the mouse.
#include <gtest/gtest.h>

#include <QAccessible>
#include <QApplication>
#include <QComboBox>
#include <QFile>
#include <QFileInfo>
#include <QLabel>
#include <QPrinter>
#include <QProcess>
#include <QPushButton>
#include <QStandardPaths>
#include <QTemporaryDir>
#include <QtTest>
#include <map>

#include "tests/core/store/bench_book.h"
#include "ui/prints/prints_screen.h"
#include "ui/render/prints.h"

namespace likeleaf::test {
namespace {

using ui::Paper;
using ui::PrintsScreen;

QString run_tool(const char* tool, const QByteArray& pdf, const QStringList& options) {
  QTemporaryDir folder;
  QFile file(folder.filePath(QStringLiteral("print.pdf")));
  file.open(QIODevice::WriteOnly);
  file.write(pdf);
  file.close();
  QProcess p;
  p.start(QString::fromLatin1(tool), options.isEmpty() ? QStringList{file.fileName()}
                                                       : options + QStringList{file.fileName(), QStringLiteral("-")});
  p.waitForFinished(60'000);
  return QString::fromUtf8(p.readAllStandardOutput());
}
bool reads_pdfs() {
  return !QStandardPaths::findExecutable(QStringLiteral("pdftotext")).isEmpty() &&
         !QStandardPaths::findExecutable(QStringLiteral("pdfinfo")).isEmpty();
}
QString text_of(const QByteArray& pdf) {
  return run_tool("pdftotext", pdf, {QStringLiteral("-layout")}).replace(QChar::Nbsp, QLatin1Char(' '));
}
QString size_of(const QByteArray& pdf) {
  for (const auto& line : run_tool("pdfinfo", pdf, {}).split(QLatin1Char('\n')))
    if (line.startsWith(QStringLiteral("Page size:"))) return line.mid(10).trimmed();
  return {};
}
int pages_of(const QByteArray& pdf) {
  return static_cast<int>(text_of(pdf).count(QLatin1Char('\f')));
}

/// A sealed trial and the screen on it.
struct Desk {
  explicit Desk(const Plan& plan = FerryPier().trial_14(), PrintsScreen::Side side = PrintsScreen::Side::bench) {
    session = new_bench(folder / "bench.leafbook", world);
    session->new_trial(plan).value();
    session->seal().value();
    screen = std::make_unique<PrintsScreen>(*session, style);
    screen->resize(1280, 736);
    screen->set_path_prompt([this](const QString& suggested, const QString&) {
      offered = suggested;
      return QString::fromStdString((folder / "out.pdf").string());
    });
    screen->show_side(side, 1);
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
  QByteArray saved() const {
    click("prints_save");
    QFile file(QString::fromStdString((folder / "out.pdf").string()));
    EXPECT_TRUE(file.open(QIODevice::ReadOnly));
    return file.readAll();
  }
  [[nodiscard]] qsizetype pages() const { return screen->findChildren<QLabel*>(QStringLiteral("page")).size(); }
  Folder folder;
  World world;
  Style style;
  mutable QString offered;
  std::unique_ptr<Session> session;
  std::unique_ptr<PrintsScreen> screen;
};

TEST(Prints, carry_every_code_as_text_on_both_papers) {
  if (!reads_pdfs()) GTEST_SKIP() << "no poppler tools here";
  const Desk d;
  const auto trial = d.session->trial();
  std::map<QString, int> cups;
  for (const auto* s : live_servings(*trial))
    for (const auto code : {s->left, s->right}) ++cups[QString::fromStdString(code.text())];
  const auto table = report::table_plan(*trial);
  for (const auto paper : {Paper::a4, Paper::letter}) {
    const QByteArray labels = ui::print_pdf(report::cup_labels(table, {}), paper);
    EXPECT_TRUE(size_of(labels).contains(paper == Paper::a4 ? QStringLiteral("A4") : QStringLiteral("letter")));
    EXPECT_EQ(pages_of(labels), 3) << "forty cups of a sitting on one page";
    const QString words = text_of(labels);
    for (const auto& [code, n] : cups) EXPECT_EQ(words.count(code), n) << code.toStdString();
    const QString trays = text_of(ui::print_pdf(report::tray_map(table, {}), paper));
    for (const auto& [code, n] : cups) EXPECT_EQ(trays.count(code), n) << code.toStdString();
  }
}

TEST(Prints, keep_a_sheet_of_eight_attributes_on_one_page_of_either_paper) {
  if (!reads_pdfs()) GTEST_SKIP() << "no poppler tools here";
  for (const auto& plan : {FerryPier().trial_14(), FerryPier().trial_16()}) {
    const Desk d(plan, PrintsScreen::Side::tasters);
    for (const char* paper : {"prints_a4", "prints_letter"}) {
      d.click(paper);
      const QByteArray pdf = d.saved();
      const auto pairs = std::ranges::count_if(d.session->trial()->servings, [&](const BlindServing& s) {
        return s.sitting == 1 && s.assessor == tasters(plan).front();
      });
      EXPECT_EQ(pages_of(pdf), pairs + 2) << paper;
      const QString words = text_of(pdf);
      for (const char* needed : {"Bitterness", "Finish structure", "Finish length", "Top", "Middle", "Base",
                                 "Words for", "fault in this cup", "can’t tell", "could not", "spoilt", "Note",
                                 "Could you see a", "Which cup was the", "caffeine"})
        EXPECT_TRUE(words.contains(QString::fromUtf8(needed))) << needed;
    }
  }
}

TEST(Prints, for_tasters_are_the_same_bytes_when_the_levels_are_swapped) {
  const auto plan = [](const char* first, const char* second) {
    Plan p = FerryPier().trial_14();
    p.lever = Lever{LeverKind::other, "the way it is done", {Level{first, {}, {}, true}, Level{second, {}, {}, false}}};
    p.rule.reset();
    return p;
  };
  Plan lots = plan("hot", "cool");
  std::swap(lots.lots[0], lots.lots[2]);
  std::swap(lots.controls[0].kind, lots.controls[1].kind);
  const Desk one(plan("hot", "cool")), two(plan("cool", "hot")), three(lots);
  for (const auto* other : {&two, &three}) {
    ASSERT_EQ(one.session->trial()->servings, other->session->trial()->servings);
    for (const auto side : {PrintsScreen::Side::bench, PrintsScreen::Side::tasters})
      for (const char* kind : {"print_labels", "print_trays"}) {
        std::vector<QByteArray> bytes;
        std::vector<QString> seen;
        for (const Desk* d : {&one, other}) {
          d->screen->show_side(side, 2);
          if (side == PrintsScreen::Side::bench) d->click(kind);
          bytes.push_back(d->saved());
          QString all = d->offered;
          for (auto* w : d->screen->findChildren<QWidget*>())
            if (auto* access = QAccessible::queryAccessibleInterface(w); access && w->isVisible())
              all += access->text(QAccessible::Name) + access->text(QAccessible::Description) + w->toolTip();
          seen.push_back(all.replace(QString::fromStdString(d->folder.path().string()), QString()));
        }
        EXPECT_FALSE(bytes[0].isEmpty());
        EXPECT_TRUE(bytes[0] == bytes[1]) << kind;
        EXPECT_EQ(seen[0], seen[1]) << kind;
      }
  }
}

TEST(PrintsScreen, the_preparers_sheet_opens_the_key_on_purpose_is_logged_and_closes_with_the_view) {
  Desk d;
  d.click("print_preparer");
  EXPECT_TRUE(d.session->trial()->openings.empty()) << "looking at the choice opens nothing";
  EXPECT_EQ(d.pages(), 0);
  EXPECT_FALSE(d.child<QPushButton>("prints_save")->isVisible());
  d.click("prints_open_key");
  ASSERT_EQ(d.session->trial()->openings.size(), 1U);
  EXPECT_EQ(d.session->trial()->openings[0].preparer, FerryPier().o);
  EXPECT_FALSE(d.session->trial()->openings[0].closed);
  EXPECT_GT(d.pages(), 0);
  const QByteArray pdf = d.saved();
  EXPECT_EQ(d.offered, "trial-14-preparer-holds-the-key-sitting-1.pdf");
  if (reads_pdfs()) {
    const QString words = text_of(pdf);
    EXPECT_EQ(words.count(QStringLiteral("Holds the key: keep from tasters")), pages_of(pdf)) << "on every page";
    EXPECT_TRUE(words.contains(QString::fromUtf8("68 °C")));
    EXPECT_TRUE(words.contains(QStringLiteral("boiling")));
  }
  d.click("print_trays");
  EXPECT_FALSE(d.screen->key_open());
  EXPECT_TRUE(d.session->trial()->openings[0].closed);
  d.click("print_preparer");
  d.click("prints_open_key");
  d.screen->hide();
  EXPECT_FALSE(d.screen->key_open());
  ASSERT_EQ(d.session->trial()->openings.size(), 2U);
  EXPECT_TRUE(d.session->trial()->openings[1].closed);
  d.screen->show();
  EXPECT_EQ(d.pages(), 0) << "what was shown with the key is gone";
}

TEST(PrintsScreen, score_sheets_are_for_one_taster_or_all_and_say_no_more) {
  Desk d(FerryPier().trial_14(), PrintsScreen::Side::tasters);
  for (const char* other : {"print_labels", "print_trays", "print_preparer", "print_slips"})
    EXPECT_FALSE(d.child<QPushButton>(other)->isVisible()) << other;
  auto* who = d.child<QComboBox>("prints_taster");
  ASSERT_EQ(who->count(), 5);
  EXPECT_EQ(d.pages(), 7) << "cover, five pairs, questions";
  d.saved();
  EXPECT_EQ(d.offered, "score-sheets-R-sitting-1.pdf");
  who->setFocus();
  for (int i = 0; i < 4; ++i) QTest::keyClick(who, Qt::Key_Down);
  const QByteArray all = d.saved();
  EXPECT_EQ(d.offered, "score-sheets-all-sitting-1.pdf");
  if (reads_pdfs()) {
    EXPECT_EQ(pages_of(all), 28);
  }
  EXPECT_EQ(d.pages(), 12) << "the first dozen are shown, the rest is counted";
}

TEST(PrintsScreen, paper_is_kept_for_the_next_time) {
  {
    Desk d;
    d.click("prints_letter");
  }
  Desk again;
  EXPECT_TRUE(again.child<QPushButton>("prints_letter")->isChecked());
  if (reads_pdfs()) {
    EXPECT_TRUE(size_of(again.saved()).contains(QStringLiteral("letter")));
  }
}

TEST(Paper, is_at_first_the_usual_one_of_the_locale) {
  EXPECT_EQ(ui::usual_paper(QLocale(QLocale::English, QLocale::UnitedStates)), Paper::letter);
  EXPECT_EQ(ui::usual_paper(QLocale(QLocale::Spanish, QLocale::Mexico)), Paper::letter);
  EXPECT_EQ(ui::usual_paper(QLocale(QLocale::English, QLocale::UnitedKingdom)), Paper::a4);
  EXPECT_EQ(ui::usual_paper(QLocale(QLocale::Japanese, QLocale::Japan)), Paper::a4);
}

TEST(PrintsScreen, a_taster_alone_gets_stickers_and_slips_that_are_not_shown) {
  Desk d(FerryPier().trial_16());
  EXPECT_FALSE(d.child<QPushButton>("print_preparer")->isVisible());
  EXPECT_EQ(d.child<QPushButton>("print_labels")->text(), "Stickers under the cups");
  d.click("print_slips");
  EXPECT_EQ(d.pages(), 0);
  const QByteArray pdf = d.saved();
  EXPECT_EQ(d.offered, "portion-slips-sitting-1.pdf");
  EXPECT_TRUE(d.session->trial()->openings.empty());
  if (!reads_pdfs()) return;
  const QString words = text_of(pdf);
  EXPECT_TRUE(words.contains(QString::fromUtf8("5 g")));
  EXPECT_TRUE(words.contains(QStringLiteral("sticker")));
}

TEST(PrintsScreen, a_pair_taken_out_offers_its_new_labels_alone) {
  Desk d;
  for (const auto* s : live_servings(*d.session->trial()))
    if (s->sitting == 1 && s->place == 2) {
      d.session->run(VoidPair{s->pair, "H.", "spilt"}).value();
      break;
    }
  auto* which = d.child<QComboBox>("prints_sitting");
  EXPECT_EQ(which->itemText(which->count() - 1), "pairs brewed again");
  which->setCurrentIndex(which->count() - 1);
  const QByteArray pdf = d.saved();
  EXPECT_EQ(d.offered, "cup-labels-again.pdf");
  if (!reads_pdfs()) return;
  const auto& spare = d.session->trial()->key->spares.at(0);
  EXPECT_EQ(text_of(pdf).count(QString::fromStdString(spare.code_one.text())), 4);
}

TEST(PrintsScreen, a_printer_gets_the_same_pages_and_turning_back_prints_nothing) {
  Desk d;
  bool asked = false;
  d.screen->set_printer_prompt([&](Paper) {
    asked = true;
    return std::shared_ptr<QPrinter>();
  });
  d.click("prints_print");
  EXPECT_TRUE(asked);
  EXPECT_TRUE(d.child<QLabel>("prints_said")->text().isEmpty());
  const QString file = QString::fromStdString((d.folder / "printed.pdf").string());
  d.screen->set_printer_prompt([&](Paper) {
    auto printer = std::make_shared<QPrinter>(QPrinter::HighResolution);
    printer->setOutputFormat(QPrinter::PdfFormat);
    printer->setOutputFileName(file);
    return printer;
  });
  d.click("prints_print");
  EXPECT_EQ(d.child<QLabel>("prints_said")->text(), "Sent to the printer.");
  QFile printed(file);
  ASSERT_TRUE(printed.open(QIODevice::ReadOnly));
  if (!reads_pdfs()) return;
  const QByteArray bytes = printed.readAll();
  EXPECT_EQ(text_of(bytes), text_of(d.saved()));
  EXPECT_EQ(size_of(bytes), size_of(d.saved()));
}

TEST(PrintsScreen, fits_under_the_head_of_the_smallest_window_whatever_is_shown) {
  Desk d;
  PrintsScreen untouched(*d.session, d.style);
  EXPECT_LE(untouched.minimumSizeHint().height(), 736);
  for (const char* kind : {"print_labels", "print_trays", "print_preparer"}) {
    d.click(kind);
    EXPECT_LE(d.screen->minimumSizeHint().height(), 736) << kind;
    EXPECT_LE(d.screen->minimumSizeHint().width(), 1280) << kind;
  }
  d.click("prints_open_key");
  EXPECT_LE(d.screen->minimumSizeHint().height(), 736);
  d.screen->show_side(PrintsScreen::Side::tasters, 1);
  EXPECT_LE(d.screen->minimumSizeHint().height(), 736);
}

TEST(PrintsScreen, every_control_has_a_name_and_escape_leaves) {
  Desk d;
  for (auto* w : d.screen->findChildren<QWidget*>()) {
    if (w->focusPolicy() == Qt::NoFocus || !w->isVisible() || w->objectName().startsWith("qt_") ||
        w->inherits("QLabel"))
      continue;
    EXPECT_FALSE(QAccessible::queryAccessibleInterface(w)->text(QAccessible::Name).isEmpty())
        << w->metaObject()->className() << ' ' << w->objectName().toStdString();
  }
  QSignalSpy left(d.screen.get(), &PrintsScreen::leave_wanted);
  QTest::keyClick(d.child<QPushButton>("prints_save"), Qt::Key_Escape);
  EXPECT_EQ(left.count(), 1);
}

}  // namespace
}  // namespace likeleaf::test
