// The start window, driven by keys and clicks in real widgets; a fresh window each.
#include <gtest/gtest.h>

#include <QAccessible>
#include <QFile>
#include <QImage>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QSet>
#include <QXmlStreamReader>
#include <QtTest>
#include <functional>

#include "core/base/clock.h"
#include "program.h"
#include "ui/charts/charts.h"
#include "ui/render/pdf.h"
#include "ui/widgets/verdict_mark.h"
#include "ui/window/main_window.h"
#include "ui/window/qt_dispatcher.h"
#include "ui/window/stage_bar.h"

namespace likeleaf::test {
namespace {

/// The answer of a trial is worked out beside the window.
bool waited_for_headline(QWidget& window, const std::function<bool(const QString&)>& fits) {
  return QTest::qWaitFor(
      [&] {
        const auto* label = window.findChild<QLabel*>(QStringLiteral("headline"));
        return label && fits(label->text());
      },
      60'000);
}

struct Desk {
  SystemClock clock;
  SystemEntropy entropy;
  ui::QtDispatcher dispatcher;
  ui::MainWindow window{Services{clock, entropy, dispatcher}, Style{}};
  template <class T>
  T* child(const char* name) {
    auto* found = window.findChild<T*>(QString::fromLatin1(name));
    EXPECT_NE(found, nullptr) << name;
    return found;
  }
};

TEST(StartWindow, empty_state_teaches_and_offers_the_sample) {
  Desk d;
  d.window.show();
  ASSERT_TRUE(QTest::qWaitForWindowExposed(&d.window));
  EXPECT_TRUE(d.child<QLabel>("empty")->isVisible());
  EXPECT_TRUE(d.child<QPushButton>("sample")->isEnabled());
  EXPECT_FALSE(d.child<QPushButton>("import")->isEnabled());
}

TEST(StartWindow, lists_trials_searches_them_and_shows_what_they_found) {
  const SampleFolder s;
  Desk d;
  d.window.show();
  d.window.open_book(s.book().toStdString());
  auto* list = d.child<QListWidget>("trials");
  ASSERT_EQ(list->count(), 3);
  QTest::keyClicks(d.child<QLineEdit>("search"), "too hot");
  ASSERT_EQ(list->count(), 1);
  const auto said = QString::fromUtf8("More bitter at 88\u00A0°C. Body holds. Sweetness is open.");
  EXPECT_TRUE(waited_for_headline(d.window, [&](const QString& text) { return text == said; }));
  d.child<QLineEdit>("search")->clear();
  QTest::mouseClick(list->viewport(), Qt::LeftButton, Qt::NoModifier, list->visualItemRect(list->item(0)).center());
  EXPECT_TRUE(waited_for_headline(d.window, [&](const QString& text) { return text != said; }));
}

TEST(StartWindow, names_a_trial_as_its_findings_and_the_head_do_in_the_readers_unit) {
  const SampleFolder s;
  const QString said = QString::fromUtf8("steep time 30\u00A0s, 45\u00A0s (now), 60\u00A0s");
  EXPECT_EQ(run({"findings", s.book(), "--trial", "15"}).out.split('\n').value(1), said);
  Desk d;
  d.window.show();
  d.window.open_book(s.book().toStdString());
  auto* list = d.child<QListWidget>("trials");
  const auto row_of = [&](const QString& trial) {
    for (int row = 0; row < list->count(); ++row)
      if (list->item(row)->text().contains(trial)) return row;
    return -1;
  };
  ASSERT_GE(row_of("trial 15"), 0);
  EXPECT_TRUE(list->item(row_of("trial 15"))->text().contains(said + QString::fromUtf8(" · ")));
  list->setCurrentRow(row_of("trial 15"));
  d.child<QPushButton>("take")->click();
  bool in_head = false;
  for (const auto* label : d.window.findChildren<QLabel*>())
    in_head = in_head || label->text() == QString::fromUtf8("trial 15 · ") + said;
  EXPECT_TRUE(in_head);
  d.window.set_look({{TemperatureUnit::fahrenheit, ','}, false});
  QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);  // the screens before
  emit d.window.findChild<ui::StageBar*>()->chosen(ui::StageBar::Place::trials);
  list = d.child<QListWidget>("trials");
  ASSERT_GE(row_of("trial 14"), 0);
  EXPECT_TRUE(list->item(row_of("trial 14"))
                  ->text()
                  .contains(QString::fromUtf8("water temperature 190,4\u00A0°F (now) against 154,4\u00A0°F")))
      << list->item(row_of("trial 14"))->text().toStdString();
}

TEST(StartWindow, a_trial_that_came_or_changed_stands_in_the_list_on_return) {
  const SampleFolder s;
  Desk d;
  d.window.show();
  d.window.open_book(s.book().toStdString());
  auto* list = d.child<QListWidget>("trials");
  const auto back = [&] { emit d.window.findChild<ui::StageBar*>()->chosen(ui::StageBar::Place::trials); };
  d.child<QPushButton>("new_trial")->click();
  back();
  ASSERT_EQ(list->count(), 4);
  EXPECT_TRUE(list->item(0)->text().startsWith("A new trial"));
  d.child<QPushButton>("take")->click();
  back();
  EXPECT_EQ(list->count(), 4) << "and a look at it changes nothing";
}

TEST(StartWindow, says_in_words_what_cannot_be_opened_and_keeps_the_book_it_has) {
  const SampleFolder s;
  QFile text(s.file("list.leafbook"));
  ASSERT_TRUE(text.open(QIODevice::WriteOnly));
  text.write("eggs, milk\n");
  text.close();
  Desk d;
  d.window.show();
  d.window.open_book(s.book().toStdString());
  d.window.open_book(s.file("list.leafbook").toStdString());
  EXPECT_TRUE(d.child<QLabel>("note")->isVisible());
  EXPECT_TRUE(d.child<QLabel>("note")->text().contains("list.leafbook"));
  EXPECT_EQ(d.child<QListWidget>("trials")->count(), 3);
}

TEST(StartWindow, a_book_open_elsewhere_is_not_touched_and_its_holder_named) {
  const SampleFolder s;
  Desk first, second;
  first.window.open_book(s.book().toStdString());
  second.window.show();
  second.window.open_book(s.book().toStdString());
  const QString note = second.child<QLabel>("note")->text();
  EXPECT_TRUE(note.contains("open elsewhere") && note.contains("process")) << note.toStdString();
  EXPECT_EQ(second.child<QListWidget>("trials")->count(), 0);
  EXPECT_EQ(first.child<QListWidget>("trials")->count(), 3);
}

TEST(StartWindow, every_control_has_a_name_for_a_screen_reader) {
  Desk d;
  d.window.show();
  for (auto* w : d.window.findChildren<QWidget*>()) {
    if (w->focusPolicy() == Qt::NoFocus || !w->isVisible() || w->objectName().startsWith("qt_") ||
        qobject_cast<QLabel*>(w))
      continue;
    auto* face = QAccessible::queryAccessibleInterface(w);
    ASSERT_NE(face, nullptr);
    if (w->inherits("QScrollArea")) continue;
    EXPECT_FALSE(face->text(QAccessible::Name).isEmpty())
        << w->metaObject()->className() << ' ' << w->objectName().toStdString();
  }
}

TEST(VerdictMark, its_word_is_its_accessible_name) {
  EXPECT_EQ(ui::VerdictMark(evidence::Word::held).accessibleName(), "Held");
  EXPECT_EQ(ui::VerdictMark(evidence::Word::depends).accessibleName(), "Depends");
}

report::Figure figure() {
  report::IntervalPlot plot;
  plot.title = "88 °C minus 68 °C";
  for (const auto word : {evidence::Word::moved, evidence::Word::held, evidence::Word::depends, evidence::Word::open,
                          evidence::Word::noted})
    plot.rows.push_back({"row " + std::to_string(static_cast<int>(word)), word, word != evidence::Word::noted, 0.5,
                         evidence::Interval{-0.4, 1.4, 0.95}, 1, "said"});
  plot.axis = {-2, 2, {{-1, "−1"}, {0, "0"}, {1, "+1"}}, "more at 68 °C", "more at 88 °C", "margin ±1"};
  return {plot, "caption", "alt"};
}

TEST(Charts, svg_keeps_text_as_text_and_leaves_no_picture_inside) {
  const QByteArray svg = ui::figure_svg(figure(), 680, ui::light_tokens());
  EXPECT_TRUE(svg.startsWith("<svg"));
  EXPECT_TRUE(svg.contains("more at 88 °C"));
  EXPECT_TRUE(svg.contains("−1"));
  EXPECT_FALSE(svg.contains("<image"));
}

TEST(Charts, svg_is_whole_and_makes_no_element_of_a_name) {
  const auto elements = [](const QByteArray& svg) {
    QSet<QString> names;  // how many runs a text is cut into is the painter's own affair
    QXmlStreamReader xml(svg);
    while (!xml.atEnd())
      if (xml.readNext() == QXmlStreamReader::StartElement) names << xml.name().toString();
    EXPECT_FALSE(xml.hasError()) << xml.errorString().toStdString() << "\n" << svg.toStdString();
    return names;
  };
  const auto named = [](const std::string& name) {
    auto made = figure();
    auto& plot = std::get<report::IntervalPlot>(made.data);
    plot.title = plot.rows.front().label = plot.axis.low_end = plot.axis.ticks.front().label = name;
    return ui::figure_svg(made, 680, ui::light_tokens());
  };
  const QSet<QString> plain = elements(named("Round"));
  for (const char* name : {"<script>alert(1)</script>", "Round & full", "\"'", "]]>", "</title><a>", "&amp;", "<!--",
                           "a\x1B\x01z", "\xEF\xBF\xBF"})
    EXPECT_EQ(elements(named(name)), plain) << name;
}

TEST(Charts, png_follows_the_scale) {
  const QImage one = QImage::fromData(ui::figure_png(figure(), 680, 1, ui::light_tokens()));
  const QImage two = QImage::fromData(ui::figure_png(figure(), 680, 2, ui::dark_tokens()));
  EXPECT_EQ(one.width(), 680);
  EXPECT_EQ(two.width(), 1360);
  EXPECT_NE(one.pixelColor(2, 2), two.pixelColor(2, 2)) << "the dark theme has its own paper";
}

TEST(Pdf, long_tables_go_on_over_pages_with_their_head) {
  report::Document doc;
  doc.meta = {"Title", "House", "label", "foot", "Likeleaf"};
  report::Table t{"Many rows", {"A", "B"}, {false, true}, {}};
  for (int i = 0; i < 200; ++i) t.rows.push_back({"row " + std::to_string(i), std::to_string(i)});
  doc.blocks.emplace_back(t);
  const QByteArray a4 = ui::pdf_bytes(doc, ui::Paper::a4), letter = ui::pdf_bytes(doc, ui::Paper::letter);
  EXPECT_TRUE(a4.startsWith("%PDF"));
  EXPECT_GT(a4.count("/Type /Page\n") + a4.count("/Type /Page "), 2);
  EXPECT_NE(a4.size(), letter.size());
}

}  // namespace
}  // namespace likeleaf::test
