// The paper sheets' grid on a real session: whole sheets typed by keys alone and by mouse, two entries and what
// differs, locks, and nothing that hints at the key.
#include "ui/paper/paper_screen.h"

#include <gtest/gtest.h>

#include <QAccessible>
#include <QApplication>
#include <QCheckBox>
#include <QComboBox>
#include <QImage>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QToolButton>
#include <QtTest>
#include <iostream>

#include "core/acts/paper_entry.h"
#include "core/session/taster_port.h"
#include "tests/core/store/bench_book.h"
#include "ui/paper/paper_cell.h"
#include "ui/paper/paper_grid.h"
#include "ui/widgets/word_picker.h"
#include "ui/window/main_window.h"
#include "ui/window/qt_dispatcher.h"
#include "ui/window/who_tastes.h"

namespace likeleaf::test {
namespace {

/// A sealed trial, and R.'s paper sheets on the screen.
struct Desk {
  Folder folder;
  World world;
  Style style;
  std::unique_ptr<Session> session;
  ui::PaperScreen* screen = nullptr;
  int presses = 0;

  explicit Desk(const Plan& plan = FerryPier().trial_14(), const Style& how = {}) : style(how) {
    session = new_bench(folder / "bench.leafbook", world);
    session->new_trial(plan).value();
    const auto sealed = session->seal();
    if (!sealed) throw std::runtime_error(words_of(sealed.error()));
    sit_down();
  }
  ~Desk() { delete screen; }
  void sit_down() {
    delete screen;
    screen = new ui::PaperScreen(session->taster(FerryPier().r).value(), style);
    screen->resize(1280, 736);
    screen->show();
    EXPECT_TRUE(QTest::qWaitForWindowActive(screen));
  }
  void press(int key, Qt::KeyboardModifiers with = Qt::NoModifier) {
    ++presses;
    auto* to = QApplication::focusWidget();
    QTest::keyClick(to ? to : screen, static_cast<Qt::Key>(key), with);
    QApplication::processEvents();
  }
  void type(const char* text) {
    for (const char* c = text; *c; ++c) {
      ++presses;
      QTest::keyClick(QApplication::focusWidget(), *c);
    }
  }
  /// One box and on to the next.
  void box(const char* text) {
    type(text);
    press(Qt::Key_Return);
  }
  template <class T>
  T* child(const QString& name) {
    auto* found = screen->findChild<T*>(name);
    if (!found) throw std::runtime_error("no " + name.toStdString());
    return found;
  }
  ui::PaperCell* cell(const QString& name) { return child<ui::PaperCell>(QStringLiteral("cell_") + name); }
  QString said(const char* label) { return child<QLabel>(QLatin1String(label))->text(); }
  void click(const QString& name) {
    auto* button = child<QPushButton>(name);
    ASSERT_TRUE(button->isVisible()) << name.toStdString();
    QTest::mouseClick(button, Qt::LeftButton);
    QApplication::processEvents();
  }
  void click_cell(const QString& name) {
    QTest::mouseClick(cell(name), Qt::LeftButton);
    QApplication::processEvents();
  }
  [[nodiscard]] std::vector<BlindServing> flight() const { return session->taster(FerryPier().r).value()->flight(); }
  [[nodiscard]] Sheet sheet(std::size_t place) const {
    const auto trial = session->trial();
    const auto found = trial->sheets.find(flight().at(place).id);
    return found == trial->sheets.end() ? Sheet{} : *found->second;
  }
  [[nodiscard]] QString side_first(std::size_t place) const {
    return flight().at(place).first == Side::left ? QStringLiteral("left") : QStringLiteral("right");
  }
  [[nodiscard]] QString side_second(std::size_t place) const {
    return flight().at(place).first == Side::left ? QStringLiteral("right") : QStringLiteral("left");
  }
  /// To the first box of the left cup of the warm-up pair, whichever is sipped first.
  void to_left() { cell("0_left_bitterness")->setFocus(); }
  [[nodiscard]] QString focused() const {
    return QApplication::focusWidget() ? QApplication::focusWidget()->objectName() : QString();
  }
  /// Types a whole column of marks from where the focus is: every score the same, the finish in seconds.
  void column(const char* score, const char* seconds) {
    for (const auto& attribute : session->trial()->sealed->attributes)
      for (std::size_t i = 0; i < mark_fields(attribute).size(); ++i)
        box(attribute.scale == Scale::seconds ? seconds : score);
  }
  void answers(const char* answer) {
    for (const auto& attribute : session->trial()->sealed->attributes)
      if (attribute.direct) box(answer);
  }
  void fill(IdOf<Serving> serving, EnteredBy by) {
    session->run(StartSheet{serving, by}).value();
    session->run(PutMark{serving, Side::left, "body", *Score::from_halves(4)}).value();
    fill_sheet(*session, serving);
  }
};

std::string mark_in(const CupMarks& cup, const std::string& field) {
  const auto found = cup.marks.find(field);
  return found == cup.marks.end() ? "" : mark_text(found->second);
}

TEST(PaperScreen, a_whole_sheet_is_typed_twice_and_locked_by_keyboard_alone) {
  Desk d;
  const QString one = d.side_first(0), two = d.side_second(0);
  ASSERT_EQ(d.focused(), "cell_0_" + one + "_bitterness") << "the cup sipped first, in scoring order";
  d.presses = 0;
  d.column("6.", "41");
  ASSERT_EQ(d.focused(), "cell_0_" + one + "_words");
  d.type("hay");
  EXPECT_EQ(d.focused(), "words_line") << "words are typed with the picker";
  d.press(Qt::Key_Return);
  d.type("pier rope 2");
  d.press(Qt::Key_Return);
  d.press(Qt::Key_Return);
  ASSERT_EQ(d.focused(), "cell_0_" + one + "_fault");
  d.box("");
  ASSERT_EQ(d.focused(), "cell_0_" + two + "_bitterness");
  d.column("4", "<3");
  d.box("");
  d.box("smoke");
  ASSERT_EQ(d.focused(), "cell_0_answer_bitterness");
  d.answers("l");
  d.box("r");
  d.box("soft, a little flat");
  std::cout << "key presses for one sheet from paper, all boxes, words, fault and note: " << d.presses << '\n';
  ASSERT_EQ(d.focused(), "cell_1_" + d.side_first(1) + "_bitterness") << "Enter leads on to the next pair";
  const Sheet first = d.sheet(0);
  EXPECT_EQ(first.entered_by, EnteredBy::paper);
  const Side near = d.flight().at(0).first, far = other(near);
  EXPECT_EQ(mark_in(first.cup(near), "bitterness"), "6.5");
  EXPECT_EQ(mark_in(first.cup(far), "aroma_register.top"), "4");
  EXPECT_EQ(mark_in(first.cup(near), "finish_length"), "41");
  EXPECT_EQ(mark_in(first.cup(far), "finish_length"), "under 3");
  EXPECT_EQ(d.cell("0_" + two + "_finish_length")->text(), "<3");
  EXPECT_EQ(d.cell("0_" + two + "_finish_length")->toolTip(), "under 3");
  EXPECT_EQ(first.directs.size(), 6U);
  EXPECT_EQ(first.directs.at("body"), Direct::left_more);
  EXPECT_EQ(first.cup(near).words, (std::vector<WordMark>{{"hay", {}}, {"pier rope", 2}}));
  EXPECT_TRUE(first.cup(far).fault);
  EXPECT_EQ(first.cup(far).fault_note, "smoke");
  EXPECT_FALSE(first.cup(near).fault);
  EXPECT_EQ(first.sipped_first, Side::right);
  EXPECT_EQ(first.note, "soft, a little flat");
  const int fields = paper_progress(d.session->trial()->sealed->attributes, first).fields;
  EXPECT_EQ(d.said("progress_0"), QStringLiteral("%1 of %1, second 0").arg(fields));

  // The second entry: reached by Tab alone, blank, and the same flow.
  d.child<QPushButton>("mode_second")->setFocus(Qt::TabFocusReason);
  d.press(Qt::Key_Return);
  ASSERT_EQ(d.focused(), "cell_0_" + one + "_bitterness");
  EXPECT_EQ(d.cell("0_" + one + "_bitterness")->text(), "") << "the second typist does not see the first entry";
  EXPECT_EQ(d.cell("0_answer_body")->text(), "");
  d.column("6.5", "41");
  d.column("4", "2");
  d.answers("L");
  EXPECT_EQ(d.focused(), "cell_1_" + d.side_first(1) + "_bitterness") << "words and notes are typed once";
  EXPECT_EQ(d.said("progress_0"), QStringLiteral("%1 of %1, second %1").arg(fields));
  d.child<QPushButton>("lock_0")->setFocus(Qt::TabFocusReason);
  d.press(Qt::Key_Return);
  const Sheet locked = d.sheet(0);
  ASSERT_TRUE(locked.locked) << d.said("paper_message").toStdString();
  ASSERT_EQ(d.focused(), "cell_0_pair_saw") << "the two questions follow the lock";
  d.box("y");
  EXPECT_FALSE(d.sheet(0).guess) << "kept when both are answered";
  d.box("=");
  EXPECT_EQ(d.sheet(0).guess, (Guess{true, std::nullopt}));
  EXPECT_EQ(d.cell("0_pair_way")->text(), "no idea");
  EXPECT_FALSE(d.cell("0_pair_way")->isEnabled()) << "a guess stands";
}

TEST(PaperScreen, what_differs_is_named_with_both_values_and_settled_by_choosing_or_typing) {
  Desk d;
  d.to_left();
  for (const auto* typed : {"7", "5", "6", "6"}) d.box(typed);
  d.cell("0_answer_bitterness")->setFocus();
  d.box("l");
  d.click("mode_second");
  d.to_left();
  for (const auto* typed : {"1", "5", "9", "2"}) d.box(typed);
  d.cell("0_answer_bitterness")->setFocus();
  d.box("r");
  EXPECT_EQ(d.child<QPushButton>("mode_compare")->text(), "Compare (4 differ)");
  const auto id = d.flight().at(0).id;
  d.click("lock_0");
  EXPECT_FALSE(d.sheet(0).locked);
  EXPECT_TRUE(d.said("paper_message").contains("first 7, second 1")) << d.said("paper_message").toStdString();
  d.click("lock_0");
  EXPECT_FALSE(d.sheet(0).locked) << "asking twice does not help";
  d.click("mode_compare");
  EXPECT_TRUE(d.said("compare_title").contains("differ in 4 fields"));
  const auto& attributes = d.session->trial()->sealed->attributes;
  const auto field = [&](std::size_t i) { return QString::fromStdString(attributes[i].id); };
  EXPECT_EQ(d.child<QPushButton>("choose_first_0_left_" + field(0))->text(), "first: 7");
  EXPECT_EQ(d.child<QPushButton>("choose_second_0_left_" + field(0))->text(), "second: 1");
  d.click("choose_first_0_left_" + field(0));
  d.click("choose_second_0_left_" + field(2));
  auto* again = d.child<QLineEdit>("retype_0_left_" + field(3));
  again->setFocus();
  d.box("7.3");
  EXPECT_TRUE(d.child<QLabel>("said_0_left_" + field(3))->text().contains("half steps"));
  EXPECT_EQ(mark_in(d.sheet(0).left, attributes[3].id), "6") << "the old value is kept";
  d.child<QLineEdit>("retype_0_left_" + field(3))->clear();
  d.child<QLineEdit>("retype_0_left_" + field(3))->setFocus();
  d.box("8");
  d.click("choose_second_0_answer_bitterness");
  EXPECT_TRUE(d.said("compare_title").contains("agree")) << d.said("compare_title").toStdString();
  const Sheet sheet = d.sheet(0);
  EXPECT_EQ(mark_in(sheet.left, attributes[0].id), "7");
  EXPECT_EQ(mark_in(sheet.left, attributes[2].id), "9");
  EXPECT_EQ(mark_in(sheet.left, attributes[3].id), "8");
  EXPECT_EQ(sheet.directs.at("bitterness"), Direct::right_more);
  EXPECT_EQ(sheet.second.left.at(attributes[3].id), sheet.left.marks.at(attributes[3].id));
  EXPECT_TRUE(d.session->can_undo({Scope::Kind::sheet, id.text()}));
  d.click("paper_undo");
  EXPECT_TRUE(d.said("compare_title").contains("differ in 1 field:")) << d.said("compare_title").toStdString();
  EXPECT_EQ(d.sheet(0).directs.at("bitterness"), Direct::left_more) << "settling is one step back";
  EXPECT_EQ(d.sheet(0).second.directs.at("bitterness"), Direct::right_more);
}

TEST(PaperScreen, a_sheet_entered_once_is_locked_only_after_that_was_said) {
  Desk d;
  d.to_left();
  d.box("7");
  d.click("lock_0");
  EXPECT_FALSE(d.sheet(0).locked);
  EXPECT_TRUE(d.said("paper_message").contains("entered once")) << d.said("paper_message").toStdString();
  EXPECT_TRUE(d.said("paper_message").contains("blank on")) << d.said("paper_message").toStdString();
  EXPECT_EQ(d.child<QPushButton>("lock_0")->text(), "Lock, entered once");
  d.cell("0_left_body")->setFocus();
  d.box("3");
  EXPECT_EQ(d.child<QPushButton>("lock_0")->text(), "Lock") << "what was named is out of date";
  d.click("lock_0");
  EXPECT_FALSE(d.sheet(0).locked);
  d.click("lock_0");
  EXPECT_TRUE(d.sheet(0).locked);
  EXPECT_TRUE(d.child<QPushButton>("lock_0")->text().startsWith("locked "));
  EXPECT_FALSE(d.cell("0_left_body")->isEnabled());
  EXPECT_EQ(d.cell("0_left_body")->text(), "3") << "a locked sheet can still be read";
}

TEST(PaperScreen, lock_all_of_this_sitting_names_what_is_blank_and_leaves_a_sheet_of_the_screen_alone) {
  Desk d;
  const auto flight = d.flight();
  d.fill(flight.at(1).id, EnteredBy::paper);
  d.session->run(PutMark{flight.at(2).id, Side::left, "body", *Score::from_halves(4)}).value();
  d.screen->refresh();
  EXPECT_EQ(d.said("progress_2"), "tasted on screen");
  EXPECT_FALSE(d.cell("2_left_bitterness")->isEnabled());
  EXPECT_FALSE(d.child<QPushButton>("lock_2")->isEnabled());
  d.click("lock_all");
  EXPECT_TRUE(d.said("paper_message").contains("Warm-up pair: nothing is entered."));
  EXPECT_TRUE(d.said("paper_message").contains("Pair 1: no direct answer on")) << d.said("paper_message").toStdString();
  EXPECT_FALSE(d.sheet(1).locked);
  EXPECT_EQ(d.child<QPushButton>("lock_all")->text(), "Lock, entered once");
  d.click("lock_all");
  ASSERT_EQ(d.focused(), "cell_0_pair_saw");
  d.box("n");
  d.box("r");
  EXPECT_EQ(d.sheet(0).guess, (Guess{false, Side::right}));
  EXPECT_EQ(d.focused(), "cell_1_pair_saw") << "on to the questions of the next pair";
  for (const std::size_t i : {0U, 1U, 3U, 4U}) EXPECT_TRUE(d.sheet(i).locked) << i;
  EXPECT_FALSE(d.sheet(2).locked);
  EXPECT_EQ(d.sheet(0).entered_by, EnteredBy::paper);
  EXPECT_FALSE(d.child<QPushButton>("lock_all")->isEnabled());
}

TEST(PaperScreen, bad_input_is_a_sentence_at_the_box_and_the_old_value_stays) {
  Desk d;
  d.to_left();
  d.type("7");
  d.press(Qt::Key_Tab);
  d.press(Qt::Key_Backtab);
  const QString pasted(5000, QChar('9'));
  for (const QString& bad : {QStringLiteral("7.3"), QStringLiteral("11"), QStringLiteral("-1"), QStringLiteral("seven"),
                             QStringLiteral("\U0001F375"), QStringLiteral("שבע"), QStringLiteral("7\t8"), pasted}) {
    auto* cell = d.cell("0_left_bitterness");
    cell->setFocus();
    cell->clear();
    cell->insert(bad);
    d.press(Qt::Key_Return);
    EXPECT_EQ(d.focused(), "cell_0_left_bitterness") << bad.toStdString();
    EXPECT_EQ(cell->text(), "7") << bad.toStdString();
    EXPECT_TRUE(d.child<QLabel>("cell_message")->isVisible()) << bad.toStdString();
    EXPECT_TRUE(d.said("cell_message").contains("half steps")) << d.said("cell_message").toStdString();
    EXPECT_EQ(cell->accessibleDescription(), d.said("cell_message"));
    EXPECT_EQ(mark_in(d.sheet(0).left, "bitterness"), "7");
  }
  d.box("8");
  EXPECT_FALSE(d.child<QLabel>("cell_message")->isVisible());
  EXPECT_EQ(mark_in(d.sheet(0).left, "bitterness"), "8");
  d.cell("0_answer_body")->setFocus();
  d.box("7");
  EXPECT_TRUE(d.said("cell_message").contains("L left more"));
  d.cell("0_pair_first")->setFocus();
  d.box("both");
  EXPECT_TRUE(d.said("cell_message").contains("L or R"));
  d.cell("0_pair_note")->setFocus();
  d.cell("0_pair_note")->insert(QString(200'000, QChar('a')));
  d.press(Qt::Key_Return);
  EXPECT_TRUE(d.child<QLabel>("cell_message")->isVisible() || d.sheet(0).note.size() <= 65'536U);
}

TEST(PaperScreen, a_comma_is_a_half_too_and_is_shown_as_the_reader_writes_it) {
  Style comma;
  comma.decimal_mark = ',';
  Desk d(FerryPier().trial_14(), comma);
  d.to_left();
  d.box("7,5");
  d.box("3,");
  d.box("c");
  d.box("2");
  EXPECT_EQ(d.cell("0_left_astringency")->toolTip(), "") << "a score of 2 is not a finish under 3";
  EXPECT_EQ(d.cell("0_left_bitterness")->text(), "7,5");
  EXPECT_EQ(mark_in(d.sheet(0).left, "bitterness"), "7.5");
  EXPECT_EQ(mark_in(d.sheet(0).left, "body"), "3.5");
  EXPECT_EQ(std::get<NoScore>(d.sheet(0).left.marks.at("sweetness")), NoScore::could_not_judge);
  EXPECT_EQ(d.cell("0_left_sweetness")->text(), "C");
  EXPECT_EQ(QAccessible::queryAccessibleInterface(d.cell("0_left_sweetness"))->text(QAccessible::Description),
            "could not judge");
}

TEST(PaperScreen, by_mouse_alone_one_chooses_sitting_entry_day_box_words_undo_and_lock) {
  Desk d;
  QTest::mouseClick(d.child<QCheckBox>("paper_cold"), Qt::LeftButton, Qt::NoModifier, QPoint(10, 10));
  EXPECT_TRUE(d.session->trial()->days.at(0).cold);
  d.click_cell("1_right_body");
  EXPECT_EQ(d.focused(), "cell_1_right_body");
  d.type("6");
  d.click_cell("1_right_savoury");  // leaving a box by the mouse keeps it
  EXPECT_EQ(mark_in(d.sheet(1).right, "body"), "6");
  d.click("paper_undo");
  EXPECT_EQ(mark_in(d.sheet(1).right, "body"), "");
  d.click_cell("1_left_words");
  auto* picker = d.child<ui::WordPicker>("words_picker");
  EXPECT_TRUE(picker->isVisible());
  d.type("mal");
  ASSERT_TRUE(picker->offers()->isVisible());
  QTest::mouseClick(picker->offers()->viewport(), Qt::LeftButton, Qt::NoModifier,
                    picker->offers()->visualItemRect(picker->offers()->item(0)).center());
  EXPECT_EQ(d.sheet(1).left.words.size(), 1U);
  d.click_cell("1_left_body");
  EXPECT_FALSE(picker->isVisible());
  d.click("lock_1");
  d.click("lock_1");
  EXPECT_TRUE(d.sheet(1).locked);
  d.child<QComboBox>("sitting")->setCurrentIndex(1);
  EXPECT_EQ(d.cell("0_left_bitterness")->accessibleName(),
            QStringLiteral("Bitterness, cup %1, left").arg(QString::fromStdString(d.flight().at(5).left.text())));
  bool left = false;
  QObject::connect(d.screen, &ui::PaperScreen::leave_wanted, d.screen, [&] { left = true; });
  d.click("paper_leave");
  EXPECT_TRUE(left);
}

TEST(PaperScreen, opened_again_in_the_middle_it_goes_on_where_it_was_and_half_a_box_is_not_lost) {
  Desk d;
  d.to_left();
  d.box("6");
  d.box("5");
  d.type("7");  // still in the box when the screen goes
  d.sit_down();
  EXPECT_EQ(d.cell("0_left_bitterness")->text(), "6");
  EXPECT_EQ(mark_in(d.sheet(0).left, "sweetness"), "7");
  EXPECT_EQ(d.focused(), d.side_first(0) == "left" ? "cell_0_left_astringency" : "cell_0_right_bitterness")
      << "the first blank box";
  d.click("mode_second");
  d.to_left();
  d.box("6");
  d.sit_down();
  EXPECT_EQ(d.said("progress_0"), "3 of 26, second 1");
  done(d.session->flush());
  const auto before = d.session->trial();
  delete std::exchange(d.screen, nullptr);
  d.session.reset();
  d.session = Session::open(d.folder / "bench.leafbook", OpenWay::write, d.world.services()).value();
  ASSERT_TRUE(d.session->take(before->id()).has_value());
  d.sit_down();
  EXPECT_EQ(d.cell("0_left_sweetness")->text(), "7");
  d.click("mode_second");
  EXPECT_EQ(d.cell("0_left_bitterness")->text(), "6");
  EXPECT_EQ(d.cell("0_left_body")->text(), "");
  EXPECT_EQ(first_difference(*before, *d.session->trial()), "");
}

TEST(PaperScreen, attribute_by_attribute_the_boxes_follow_the_printed_sheet_too) {
  Plan plan = FerryPier().trial_14();
  plan.sip = SipProtocol::attribute_by_attribute;
  plan.attributes.resize(3);
  Desk d(plan);
  const QString one = d.side_first(0), two = d.side_second(0);
  ASSERT_EQ(d.focused(), "cell_0_" + one + "_bitterness");
  d.box("6");
  EXPECT_EQ(d.focused(), "cell_0_" + two + "_bitterness");
  d.box("4");
  EXPECT_EQ(d.focused(), "cell_0_" + one + "_body");
}

TEST(PaperScreen, arrows_go_to_the_other_cup_and_page_down_to_the_next_sitting) {
  Desk d;
  d.to_left();
  d.type("6");
  d.press(Qt::Key_Right);
  EXPECT_EQ(d.focused(), "cell_0_right_bitterness");
  EXPECT_EQ(mark_in(d.sheet(0).left, "bitterness"), "6");
  d.press(Qt::Key_Right);
  EXPECT_EQ(d.focused(), "cell_1_left_bitterness");
  d.press(Qt::Key_Down);
  d.press(Qt::Key_Up);
  d.press(Qt::Key_Left);
  EXPECT_EQ(d.focused(), "cell_0_right_bitterness");
  d.type("9");
  d.press(Qt::Key_Escape);
  EXPECT_EQ(d.cell("0_right_bitterness")->text(), "");
  d.press(Qt::Key_Left);
  d.press(Qt::Key_Z, Qt::ControlModifier);
  EXPECT_EQ(mark_in(d.sheet(0).left, "bitterness"), "") << "undo goes back in the sheet of the box in hand";
  d.press(Qt::Key_PageDown);
  EXPECT_EQ(d.child<QComboBox>("sitting")->currentIndex(), 1);
  EXPECT_EQ(d.focused(),
            "cell_0_" + (d.flight().at(5).first == Side::left ? QString("left") : QString("right")) + "_bitterness");
}

TEST(PaperScreen, every_control_has_a_name_and_a_box_tells_its_value) {
  Desk d;
  d.to_left();
  d.box("6.5");
  auto* access = QAccessible::queryAccessibleInterface(d.cell("0_left_bitterness"));
  EXPECT_EQ(access->role(), QAccessible::EditableText);
  EXPECT_EQ(access->text(QAccessible::Value), "6.5");
  for (auto* w : d.screen->findChildren<QWidget*>()) {
    if (w->focusPolicy() == Qt::NoFocus || !w->isVisible() || w->objectName().startsWith("qt_") ||
        w->inherits("QLabel"))
      continue;
    EXPECT_FALSE(QAccessible::queryAccessibleInterface(w)->text(QAccessible::Name).isEmpty())
        << w->metaObject()->className() << ' ' << w->objectName().toStdString();
  }
  auto* grid = d.screen->findChild<ui::PaperGrid*>();
  EXPECT_LE(grid->widget()->width(), 1280) << "five pairs stand side by side";
  EXPECT_LE(grid->widget()->minimumSizeHint().height(), grid->viewport()->height()) << "without scrolling";
}

TEST(PaperScreen, a_self_blinded_taster_is_told_to_type_by_code) {
  Desk panel;
  EXPECT_EQ(panel.screen->findChild<QLabel*>("paper_self_blinded"), nullptr);
  const FerryPier pier;
  Folder folder;
  World world;
  const auto session = new_bench(folder / "solo.leafbook", world);
  session->new_trial(pier.trial_16()).value();
  if (const auto sealed = session->seal(); !sealed) throw std::runtime_error(words_of(sealed.error()));
  ui::PaperScreen screen(session->taster(pier.m).value(), Style{});
  auto* told = screen.findChild<QLabel*>("paper_self_blinded");
  ASSERT_NE(told, nullptr);
  EXPECT_TRUE(told->text().contains("code"));
}

TEST(PaperScreen, who_tastes_offers_paper_beside_every_taster) {
  ui::WhoTastes who;
  who.set_tasters({{"R.", "0 of 15 sheets locked"}, {"K.", ""}});
  who.set_tasters({{"R.", "1 of 15 sheets locked"}, {"K.", ""}});
  who.show();
  QApplication::processEvents();
  EXPECT_EQ(who.findChildren<QPushButton*>().size(), 5) << "taster and paper, twice, and the score sheets to print";
  int asked = -1;
  QObject::connect(&who, &ui::WhoTastes::paper_wanted, &who, [&](int index) { asked = index; });
  QTest::mouseClick(who.findChild<QPushButton*>("paper_1"), Qt::LeftButton);
  EXPECT_EQ(asked, 1);
}

TEST(PaperScreen, is_reached_from_taste_keeps_what_is_typed_when_the_look_changes_and_goes_back_by_leave) {
  const Folder folder;
  {
    World world;
    auto session = new_bench(folder / "bench.leafbook", world);
    session->new_trial(FerryPier().trial_14()).value();
    if (const auto sealed = session->seal(); !sealed) throw std::runtime_error(words_of(sealed.error()));
  }
  SystemClock clock;
  SystemEntropy entropy;
  ui::QtDispatcher dispatcher;
  ui::MainWindow window(Services{clock, entropy, dispatcher}, ui::Look{});
  window.show();
  ASSERT_TRUE(QTest::qWaitForWindowActive(&window));
  window.open_book(folder / "bench.leafbook");
  const auto click = [&](const char* name) {
    auto* button = window.findChild<QAbstractButton*>(QLatin1String(name));
    ASSERT_TRUE(button && button->isVisible() && button->isEnabled()) << name;
    QTest::mouseClick(button, Qt::LeftButton);
    QApplication::processEvents();
  };
  click("take");
  click("place_taste");
  click("paper_0");
  ASSERT_NE(window.findChild<ui::PaperScreen*>(), nullptr);
  EXPECT_EQ(window.findChild<QLabel*>("title")->text(), "") << "the question is not at a taster's screen";
  auto* box = qobject_cast<ui::PaperCell*>(QApplication::focusWidget());
  ASSERT_NE(box, nullptr) << "typing can begin at once";
  const QString name = box->objectName();
  QTest::keyClicks(box, "7");
  ui::Look look;
  look.style.decimal_mark = ',';
  window.set_look(look);
  QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);  // what the window was made of before
  QApplication::processEvents();
  ASSERT_NE(window.findChild<ui::PaperScreen*>(), nullptr) << "the same sheets in the other look";
  EXPECT_EQ(window.findChild<ui::PaperCell*>(name)->text(), "7");
  click("paper_leave");
  QApplication::processEvents();
  EXPECT_TRUE(window.findChild<QPushButton*>("paper_0")->isVisible());
  EXPECT_TRUE(window.findChild<QLabel*>("who_message")->text().isEmpty());
}

struct Seen {
  QImage pixels;
  QStringList words;
  bool operator==(const Seen&) const = default;
};

Seen look(Desk& d) {
  QApplication::processEvents();
  Seen seen{d.screen->grab().toImage(), {d.screen->windowTitle()}};
  for (auto* w : d.screen->findChildren<QWidget*>()) {
    auto* access = QAccessible::queryAccessibleInterface(w);
    seen.words << w->objectName() << w->toolTip() << w->statusTip() << w->windowTitle();
    if (access)
      seen.words << access->text(QAccessible::Name) << access->text(QAccessible::Description)
                 << access->text(QAccessible::Value);
  }
  return seen;
}

std::vector<Seen> all_screens(Desk& d) {
  std::vector<Seen> all{look(d)};
  const auto after = [&](auto act) {
    act();
    all.push_back(look(d));
  };
  d.to_left();
  after([&] { d.box("6"); });
  after([&] { d.box("7.3"); });
  after([&] { d.click("mode_second"); });
  d.to_left();
  after([&] { d.box("5"); });
  after([&] { d.click("mode_compare"); });
  after([&] { d.click("choose_first_0_left_bitterness"); });
  after([&] { d.click("mode_first"); });
  after([&] { d.click("lock_all"); });
  after([&] { d.click("lock_all"); });
  after([&] { d.box("y"); });
  after([&] { d.press(Qt::Key_PageDown); });
  return all;
}

TEST(PaperScreen, two_trials_alike_but_for_the_levels_in_the_key_look_the_same) {
  const auto plan = [](const char* first, const char* second) {
    Plan p = FerryPier().trial_14();
    p.lever = Lever{LeverKind::other, "the way it is done", {Level{first, {}, {}, true}, Level{second, {}, {}, false}}};
    p.rule.reset();
    return p;
  };
  {
    // Qt draws glyphs with other edges before they are in its cache: a third desk fills it first.
    Desk before(plan("hot", "cool"));
    all_screens(before);
    before.screen->hide();
  }
  Desk one(plan("hot", "cool")), two(plan("cool", "hot"));
  const auto trial_one = one.session->trial(), trial_two = two.session->trial();
  ASSERT_EQ(trial_one->servings, trial_two->servings);
  for (std::size_t i = 0; i < trial_one->key->brews.size(); ++i) {
    const auto held = [i](const Trial& t) { return t.draft.lever.levels.at(t.key->brews[i].level).label; };
    ASSERT_NE(held(*trial_one), held(*trial_two));
  }
  two.screen->hide();
  one.sit_down();
  const auto seen_one = all_screens(one);
  one.screen->hide();
  two.sit_down();
  const auto seen_two = all_screens(two);
  ASSERT_EQ(seen_one.size(), seen_two.size());
  for (std::size_t i = 0; i < seen_one.size(); ++i) {
    EXPECT_EQ(seen_one[i].words, seen_two[i].words) << "screen " << i;
    EXPECT_TRUE(seen_one[i].pixels == seen_two[i].pixels) << "screen " << i;
  }
}

}  // namespace
}  // namespace likeleaf::test
