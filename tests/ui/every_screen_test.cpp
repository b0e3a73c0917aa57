// Every screen of the window in every stage, walked over as a person without a mouse, without sharp eyes or with a
// screen reader would: names, roles, values, the way of Tab, what fits, what can be read, and no word from Qt.
#include <gtest/gtest.h>

#include <QAccessible>
#include <QButtonGroup>
#include <QCheckBox>
#include <QClipboard>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QListView>
#include <QPlainTextEdit>
#include <QRadioButton>
#include <QScrollArea>
#include <QTableView>
#include <QTextEdit>
#include <QToolButton>
#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "bench_window.h"
#include "ui/theme/theme.h"

namespace likeleaf::test {
namespace {

std::string known_as(const QWidget* w) {
  std::string out = w->metaObject()->className();
  out += " “" + w->objectName().toStdString() + "”";
  if (const auto* l = qobject_cast<const QLabel*>(w)) out += " “" + l->text().left(60).toStdString() + "”";
  if (const auto* b = qobject_cast<const QAbstractButton*>(w)) out += " “" + b->text().left(40).toStdString() + "”";
  for (const QWidget* up = w->parentWidget(); up; up = up->parentWidget())
    if (!up->objectName().isEmpty() && !up->objectName().startsWith("qt_")) {
      out += " in " + up->objectName().toStdString();
      break;
    }
  return out;
}

/// Part of another widget's inside: the line of a combo box, the buttons of a spin box, the viewport of a list.
bool inside_another(const QWidget* w) {
  const QWidget* up = w->parentWidget();
  return w->objectName().startsWith("qt_") ||
         (up && (qobject_cast<const QComboBox*>(up) || up->inherits("QAbstractSpinBox"))) ||
         (up && up->inherits("QLineEdit")) || w->inherits("QScrollBar") || w->inherits("QHeaderView");
}

std::vector<QWidget*> seen(QWidget& window) {
  std::vector<QWidget*> out;
  for (auto* w : window.findChildren<QWidget*>())
    if (w->isVisible() && w->window() == &window) out.push_back(w);
  return out;
}

std::vector<QWidget*> controls(QWidget& window) {
  std::vector<QWidget*> out;
  for (auto* w : seen(window))
    if (w->isEnabled() && (w->focusPolicy() & Qt::TabFocus) && !inside_another(w) && !w->focusProxy()) out.push_back(w);
  return out;
}

/// Scrolling areas take the keyboard only to be scrolled.
bool only_scrolls(const QWidget* w) {
  return w->inherits("QScrollArea");
}

class EveryScreen : public ::testing::TestWithParam<View> {
 protected:
  void SetUp() override {
    GetParam().go(bench_);
    QApplication::processEvents();
  }
  ui::MainWindow& window() { return bench_.window(); }
  BenchWindow bench_;
};

TEST_P(EveryScreen, says_what_every_control_is_and_holds) {
  static const std::set<QAccessible::Role> sensible{
      QAccessible::Button,   QAccessible::CheckBox,      QAccessible::RadioButton, QAccessible::EditableText,
      QAccessible::ComboBox, QAccessible::List,          QAccessible::Slider,      QAccessible::SpinBox,
      QAccessible::Table,    QAccessible::Tree,          QAccessible::Link,        QAccessible::ButtonMenu,
      QAccessible::Graphic,  QAccessible::Chart,         QAccessible::PageTab,     QAccessible::Clock,
      QAccessible::Document, QAccessible::ButtonDropDown};
  for (auto* w : controls(window())) {
    auto* face = QAccessible::queryAccessibleInterface(w);
    ASSERT_NE(face, nullptr) << known_as(w);
    EXPECT_FALSE(face->text(QAccessible::Name).trimmed().isEmpty()) << known_as(w) << " has no name";
    if (only_scrolls(w)) continue;
    EXPECT_TRUE(sensible.contains(face->role())) << known_as(w) << " has role " << face->role();
    if (auto* choice = qobject_cast<QComboBox*>(w)) {
      EXPECT_EQ(face->text(QAccessible::Value), choice->currentText()) << known_as(w);
    }
    if (qobject_cast<QCheckBox*>(w) || qobject_cast<QRadioButton*>(w)) {
      EXPECT_TRUE(face->state().checkable) << known_as(w);
    }
    if (face->role() == QAccessible::EditableText) {
      EXPECT_TRUE(face->textInterface() || face->valueInterface()) << known_as(w);
    }
    if (face->role() == QAccessible::Slider || face->role() == QAccessible::SpinBox) {
      EXPECT_NE(face->valueInterface(), nullptr) << known_as(w);
    }
  }
}

/// Where a widget stands in the window.
QRect place(const QWidget* w) {
  return {w->mapTo(w->window(), QPoint(0, 0)), w->size()};
}

/// Reading goes down, or to the right; into the next column it may go up. Never up in a column or left in a row.
bool goes_on(const QRect& from, const QRect& to) {
  const int overlap = std::min(from.bottom(), to.bottom()) - std::max(from.top(), to.top());
  const bool one_row = overlap * 2 > std::min(from.height(), to.height());
  if (one_row) return to.left() >= from.left() || from.contains(to) || to.contains(from);
  return to.top() >= from.top() || to.left() > from.left() + 40;
}

/// Screens whose order is not that of reading, with the reason.
const std::map<std::string, std::string>& goes_its_own_way() {
  static const std::map<std::string, std::string> known{
      {"paper_sheets", "a sheet is typed as it was written: the cup sipped first, the other, then the answers"},
      {"paper_alone", "as paper_sheets"},
      {"taste_pair",
       "a sheet is walked in the order of tasting; what is seldom wanted, a fault or a typed finish, comes last"},
      {"taste_alone", "as taste_pair"}};
  return known;
}

TEST_P(EveryScreen, tab_reaches_every_control_in_the_order_of_reading_and_returns) {
  const auto all = controls(window());
  ASSERT_FALSE(all.empty());
  all.front()->setFocus(Qt::TabFocusReason);
  QWidget* first = QApplication::focusWidget();
  ASSERT_NE(first, nullptr);
  std::vector<QWidget*> way{first};
  int turns = 0;
  std::set<std::string> jumps;
  for (int i = 0; i < 600; ++i) {
    QWidget* from = QApplication::focusWidget();
    QTest::keyClick(from, Qt::Key_Tab);
    QWidget* to = QApplication::focusWidget();
    if (to == first) break;
    way.push_back(to);
    // Once a round it starts again at the top.
    if (!goes_on(place(from), place(to)) && (++turns > 1 || place(to).top() > 80))
      jumps.insert("Tab jumps back from " + known_as(from) + " to " + known_as(to));
  }
  EXPECT_TRUE(QApplication::focusWidget() == first)
      << "Tab does not come back to where it began, but is at " << known_as(QApplication::focusWidget());
  for (auto* w : all) {
    // Of a group in which one is chosen Tab reaches that one; the arrows reach the rest.
    if (auto* one = qobject_cast<QAbstractButton*>(w); one && one->isCheckable() && !one->isChecked())
      if (one->autoExclusive() || (one->group() && one->group()->exclusive())) continue;
    EXPECT_TRUE(std::ranges::find(way, w) != way.end()) << "Tab does not reach " << known_as(w);
  }
  if (!goes_its_own_way().contains(GetParam().name))
    for (const auto& jump : jumps) ADD_FAILURE() << jump;
}

/// In a scrolled page, what is below the edge is not cut off.
bool in_scrolled_page(const QWidget* w) {
  for (const QWidget* up = w->parentWidget(); up; up = up->parentWidget())
    if (up->inherits("QAbstractScrollArea")) return true;
  return false;
}

QString plain(QString text) {
  text.replace("&&", "\x01").remove('&').replace('\x01', '&');
  return text;
}

/// Labels that are known to be cut, with the reason; each goes from here when it is mended.
bool known_to_be_cut(const QWidget* w) {
  static const std::map<QString, std::string> known{
      {QStringLiteral("serving_way"), "the longest serving way of a sealed plan takes two lines in a row of one"}};
  return known.contains(w->objectName());
}

void expect_fits(QWidget* w, QWidget& window) {
  const QFontMetrics metrics(w->font());
  if (!in_scrolled_page(w)) {
    EXPECT_TRUE(window.rect().adjusted(-1, -1, 1, 1).contains(place(w))) << known_as(w) << " stands outside";
  }
  if (auto* l = qobject_cast<QLabel*>(w)) {
    if (l->text().isEmpty() || l->textFormat() == Qt::RichText || l->property("elides").toBool() || known_to_be_cut(l))
      return;
    const QRect room = l->contentsRect();
    const int flags = (l->wordWrap() ? Qt::TextWordWrap : 0) | static_cast<int>(l->alignment());
    const QRect needed = metrics.boundingRect(QRect(0, 0, room.width(), 100'000), flags, l->text());
    EXPECT_LE(needed.width(), room.width() + 2) << known_as(w);
    EXPECT_LE(needed.height(), room.height() + 4) << known_as(w);
  } else if (auto* b = qobject_cast<QAbstractButton*>(w)) {
    if (b->text().isEmpty()) return;
    if (b->hasHeightForWidth()) {  // its sentence wraps
      EXPECT_LE(b->heightForWidth(b->width()), b->height() + 2) << known_as(w);
      return;
    }
    EXPECT_LE(metrics.horizontalAdvance(plain(b->text())), w->width() - 4) << known_as(w);
    EXPECT_LE(metrics.height(), w->height() + 2) << known_as(w);
  } else if (auto* choice = qobject_cast<QComboBox*>(w)) {
    EXPECT_LE(metrics.horizontalAdvance(choice->currentText()), w->width() - 20)
        << known_as(w) << choice->currentText().toStdString();
  } else if (auto* line = qobject_cast<QLineEdit*>(w)) {
    EXPECT_LE(metrics.horizontalAdvance(line->placeholderText()), w->width())
        << known_as(w) << line->placeholderText().toStdString();
    EXPECT_LE(metrics.height(), w->height() + 1) << known_as(w);
  }
}

TEST_P(EveryScreen, fits_into_1280_by_800_with_every_text_whole) {
  EXPECT_EQ(window().size(), QSize(1280, 800)) << "the window was pushed wider or higher";
  for (auto* w : seen(window())) expect_fits(w, window());
  for (auto* area : window().findChildren<QScrollArea*>())
    if (area->isVisible() && area->widget()) {
      EXPECT_LE(area->widget()->width(), area->viewport()->width()) << known_as(area) << " is cut off at the right";
    }
}

bool shows_text(const QWidget* w) {
  if (const auto* l = qobject_cast<const QLabel*>(w)) return !l->text().isEmpty();
  if (const auto* b = qobject_cast<const QAbstractButton*>(w)) return !b->text().isEmpty();
  return qobject_cast<const QLineEdit*>(w) || qobject_cast<const QComboBox*>(w) ||
         qobject_cast<const QAbstractItemView*>(w) || qobject_cast<const QTextEdit*>(w) ||
         qobject_cast<const QPlainTextEdit*>(w);
}

TEST_P(EveryScreen, has_no_text_under_13_px) {
  for (auto* w : seen(window()))
    if (shows_text(w)) {
      EXPECT_GE(QFontInfo(w->font()).pixelSize(), 13) << known_as(w);
    }
}

/// Contrast of two opaque colours, WCAG 2.1.
double contrast(const QColor& a, const QColor& b) {
  const auto luminance = [](const QColor& c) {
    const auto linear = [](double v) { return v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4); };
    return 0.2126 * linear(c.redF()) + 0.7152 * linear(c.greenF()) + 0.0722 * linear(c.blueF());
  };
  const double x = luminance(a), y = luminance(b);
  return (std::max(x, y) + 0.05) / (std::min(x, y) + 0.05);
}

QColor over(const QColor& above, const QColor& below) {
  const double share = above.alphaF();
  return QColor::fromRgbF(static_cast<float>(above.redF() * share + below.redF() * (1 - share)),
                          static_cast<float>(above.greenF() * share + below.greenF() * (1 - share)),
                          static_cast<float>(above.blueF() * share + below.blueF() * (1 - share)));
}

constexpr double aa = 4.5;

TEST_P(EveryScreen, can_be_read_in_light_and_dark) {
  for (const bool dark : {false, true}) {
    window().set_look({{}, dark});
    QApplication::processEvents();
    const ui::Tokens& t = ui::tokens();
    for (auto* w : seen(window())) {
      if (!w->isEnabled()) continue;
      // A label stands on paper or on a sheet; it has to be read on either.
      if (const auto* l = qobject_cast<const QLabel*>(w); l && !l->text().isEmpty())
        for (const QColor& ground : {t.paper, t.sheet}) {
          EXPECT_GE(contrast(over(l->palette().color(QPalette::WindowText), ground), ground), aa)
              << known_as(w) << (dark ? " dark" : " light");
        }
      if (const auto* line = qobject_cast<const QLineEdit*>(w))
        for (const QColor& ground : {t.paper, t.sheet}) {
          EXPECT_GE(contrast(over(line->palette().color(QPalette::Text), ground), ground), aa) << known_as(w);
          if (!line->placeholderText().isEmpty()) {
            EXPECT_GE(contrast(over(line->palette().color(QPalette::PlaceholderText), ground), ground), aa)
                << known_as(w) << " placeholder" << (dark ? " dark" : " light");
          }
        }
    }
  }
  ui::apply_theme(*qApp, false);
}

TEST_P(EveryScreen, lets_qt_say_nothing) {
  const Listening listening;
  BenchWindow again;
  GetParam().go(again);
  for (int i = 0; i < 30; ++i) QTest::keyClick(QApplication::focusWidget(), Qt::Key_Tab);
  again.window().grab();
  again.window().resize(1400, 900);
  QApplication::processEvents();
  for (const auto& line : Listening::heard()) ADD_FAILURE() << line;
}

std::vector<QPointer<QWidget>> lines_to_write_in(QWidget& window) {
  std::vector<QPointer<QWidget>> out;
  for (auto* w : seen(window)) {
    if (!w->isEnabled() || w->focusPolicy() == Qt::NoFocus) continue;
    const auto* line = qobject_cast<QLineEdit*>(w);
    const auto* text = qobject_cast<QPlainTextEdit*>(w);
    if ((line && !line->isReadOnly()) || (text && !text->isReadOnly())) out.emplace_back(w);
  }
  return out;
}

QString text_of(const QWidget* w) {
  if (const auto* line = qobject_cast<const QLineEdit*>(w)) return line->text();
  if (const auto* text = qobject_cast<const QPlainTextEdit*>(w)) return text->toPlainText();
  return {};
}

/// All that is said in words on the window: a refusal has to change it.
QString everything_said(QWidget& window) {
  QString out;
  for (auto* w : seen(window)) {
    if (const auto* l = qobject_cast<const QLabel*>(w)) out += l->text() + '\n';
    if (qobject_cast<QLineEdit*>(w)) out += w->accessibleDescription() + '\n';
  }
  return out;
}

struct Bad {
  const char* what;
  QString text;
};

std::vector<Bad> bad_inputs() {
  return {{"nothing", {}},
          {"10 000 letters", QString(10'000, 'x')},
          {"letters", QStringLiteral("abc")},
          {"a number too large", QStringLiteral("99999999999")},
          {"a pasted paragraph", QStringLiteral("First line of it,\nthe second\r\n\tand = a third.\n")},
          {"emoji", QString::fromUtf8("🍵🫖 88 °C 👩🏽‍🔬")},
          {"right to left", QString::fromUtf8("شاي أخضر \u202E12\u202C תה")}};
}

/// What stands as a value after it was written: control characters become spaces, ends are trimmed, long is cut.
bool taken(const QString& stands, const QString& written) {
  const QString s = stands.simplified(), w = written.simplified();
  return s == w || (!s.isEmpty() && w.startsWith(s)) || QString(w).remove(' ').startsWith(QString(s).remove(' '));
}

TEST_P(EveryScreen, takes_bad_input_with_a_sentence_or_keeps_it_and_never_a_dialog) {
  int dialogs = 0;
  QTimer closer;
  closer.setInterval(20);
  QObject::connect(&closer, &QTimer::timeout, [&] {
    if (auto* dialog = QApplication::activeModalWidget()) {
      ++dialogs;
      dialog->close();
    }
  });
  closer.start();
  const std::size_t count = lines_to_write_in(window()).size();
  for (std::size_t i = 0; i < count; ++i) {
    for (const auto& bad : bad_inputs()) {
      const auto lines = lines_to_write_in(window());
      if (i >= lines.size()) break;
      QPointer<QWidget> w = lines[i];
      const std::string who = known_as(w) + " given " + bad.what;
      const QString before = text_of(w), said = everything_said(window());
      w->setFocus();
      QApplication::clipboard()->setText(bad.text);
      QTest::keyClick(w, Qt::Key_A, Qt::ControlModifier);
      if (w) QTest::keyClick(w, Qt::Key_Backspace);
      if (w && !bad.text.isEmpty()) QTest::keyClick(w, Qt::Key_V, Qt::ControlModifier);
      if (w && qobject_cast<QLineEdit*>(w)) QTest::keyClick(w, Qt::Key_Return);
      if (w) w->clearFocus();
      QApplication::processEvents();
      EXPECT_TRUE(window().isVisible());
      EXPECT_EQ(dialogs, 0) << who << " opened a dialog";
      if (!w) continue;  // the section was laid out anew with what was taken
      const QString after = text_of(w);
      if (!taken(after, bad.text) && after == before && !bad.text.isEmpty()) {
        EXPECT_TRUE(everything_said(window()) != said || !w->accessibleDescription().isEmpty())
            << who << " was refused without a word";
      }
    }
  }
  EXPECT_EQ(window().size(), QSize(1280, 800)) << "a sentence pushed the window out of its size";
}

INSTANTIATE_TEST_SUITE_P(Bench, EveryScreen, ::testing::ValuesIn(every_view()),
                         [](const auto& view) { return view.param.name; });

TEST(Colours, of_text_reach_AA_on_every_ground_in_light_and_dark) {
  for (const ui::Tokens* t : {&ui::light_tokens(), &ui::dark_tokens()}) {
    const std::string theme = t == &ui::light_tokens() ? "light " : "dark ";
    for (const auto& [name, text] : {std::pair{"ink", t->ink},
                                     {"soft ink", t->soft_ink},
                                     {"action", t->action},
                                     {"caution", t->caution},
                                     {"first level", t->level_a_text},
                                     {"second level", t->level_b_text}})
      for (const auto& [ground_name, ground] : {std::pair{"paper", t->paper}, {"sheet", t->sheet}, {"band", t->band}}) {
        EXPECT_GE(contrast(text, ground), aa) << theme << name << " on " << ground_name;
      }
    EXPECT_GE(contrast(t->on_action, t->action), aa) << theme;
    for (const auto& mark : {t->level_a, t->level_b, t->action, t->caution})
      for (const auto& ground : {t->paper, t->sheet}) EXPECT_GE(contrast(mark, ground), 3.0) << theme << "marks";
  }
}

}  // namespace
}  // namespace likeleaf::test
