// How the sheet of now is shown, walked by Tab, and reached by keys.
#include <QApplication>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTimer>
#include <algorithm>

#include "ui/taste/attribute_row.h"
#include "ui/taste/cups_strip.h"
#include "ui/taste/pair_cards.h"
#include "ui/taste/pair_foot.h"
#include "ui/taste/pair_page.h"
#include "ui/widgets/qt_text.h"
#include "ui/widgets/quiet.h"
#include "ui/widgets/tap_timer.h"
#include "ui/widgets/word_picker.h"

namespace likeleaf::ui {
namespace {

std::optional<Mark> mark_in(const CupMarks& cup, const std::string& field) {
  const auto found = cup.marks.find(field);
  return found == cup.marks.end() ? std::nullopt : std::optional(found->second);
}

bool unanswered(const AttributeRow* row) {
  return row->attribute().direct && !row->answer();
}

}  // namespace

void PairPage::refresh() {
  if (!shown_) return;
  sheet_ = port_.sheet(serving_.id);
  for (const Side side : {Side::left, Side::right}) show_cup(side);
  show_rows();
  FinishCard::Look looks[2];
  for (const Side side : {Side::left, Side::right}) {
    auto& look = looks[side == Side::left ? 0 : 1];
    look.code = code(side);
    if (!finish_.empty() && !veiled(side)) look.mark = mark_in(sheet_.cup(side), finish_);
    look.keep = keeping_.of(mark_place(side, finish_));
    look.timed = open(side) && step_ != TasteStep::compare;
  }
  const bool comparing = step_ == TasteStep::compare;
  finish_card_->set_look(looks[0], looks[1], step_ == TasteStep::both_cups, comparing || step_ == TasteStep::rinse);
  finish_card_->set_hint(
      comparing ? QStringLiteral("first sip only; tasting again does not change it")
      : step_ == TasteStep::first_cup || step_ == TasteStep::second_cup
          ? QStringLiteral("press when the first full sip is swallowed or spat, again when all has gone")
          : QString());
  words_card_->set_note(sheet_.note, keeping_.of(note_place), !read_only_);
  show_foot();
}

void PairPage::show_cup(Side side) {
  const CupMarks& marks = sheet_.cup(side);
  const bool open_now = open(side), comparing = step_ == TasteStep::compare, veil = veiled(side);
  const QString name = QStringLiteral("cup ") + code(side);
  const auto show_scale = [&](ScoreScale* scale, const QString& what, const std::string& field) {
    scale->set_name(what + QStringLiteral(", ") + name);
    scale->set_open(open_now, !comparing);
    scale->set_veiled(veil);
    scale->set_mark(mark_in(marks, field));
    scale->set_keep(keeping_.of(mark_place(side, field)));
  };
  for (auto* row : rows_) show_scale(row->scale(side), text(row->attribute().name), row->attribute().id);
  if (!aroma_.empty())
    for (const auto& band : aroma_card_->bands())
      show_scale(side == Side::left ? band.left : band.right, QStringLiteral("Aroma ") + band.name.toLower(),
                 band.field);
  CupsStrip::Look look;
  look.code = code(side);
  look.in_hand = open_now || read_only_;
  look.asks_fault = open_now || (read_only_ && marks.fault);
  look.asks_first = step_ == TasteStep::first_cup && side != first();
  look.fault = marks.fault;
  look.fault_note = text(marks.fault_note);
  look.keep = keeping_.of(fault_place(side));
  cups_->set_cup(side, look);
  cups_->fault(side)->setEnabled(!read_only_);
  cups_->fault_note(side)->setReadOnly(read_only_);
  auto* words = words_card_->words(side);
  words->set_name(QStringLiteral("Aroma words, ") + name);
  words->set_open(open_now);
  words->set_veiled(veil);
  words->set_words(marks.words, keeping_.of(words_place(side)));
}

void PairPage::show_rows() {
  for (auto* row : rows_) {
    const std::string& id = row->attribute().id;
    row->set_comparing(step_ == TasteStep::compare);
    row->set_read_only(read_only_);
    const auto found = sheet_.directs.find(id);
    row->set_answer(found == sheet_.directs.end() ? std::nullopt : std::optional(found->second),
                    keeping_.of(answer_place(id)));
  }
}

void PairPage::show_foot() {
  const bool comparing = step_ == TasteStep::compare;
  foot_->set_unscored(marking_ && !field_.empty() && open(side_));
  foot_->set_undo(!read_only_ && port_.can_undo(serving_.id));
  const auto all = steps();
  const auto at = static_cast<std::size_t>(step_index());
  if (read_only_)
    foot_->set_onward(QStringLiteral("Back"));
  else if (at + 1 < all.size())
    foot_->set_onward(all[at + 1] == TasteStep::rinse     ? QStringLiteral("Rinse")
                      : all[at + 1] == TasteStep::compare ? QStringLiteral("On to compare")
                                                          : QStringLiteral("On to ") + step_name(all[at + 1]));
  else
    foot_->set_onward(message_box_->isHidden() || message_title_->isHidden() ? QStringLiteral("Lock this pair")
                                                                             : QStringLiteral("Lock as it is"));
  if (comparing || step_ == TasteStep::rinse) writing_words_ = false;
  show_keys();
  show_todo();
}

void PairPage::show_keys() {
  const auto key = [](const char* cap, const char* word) {
    return std::pair(QString::fromUtf8(cap), QString::fromUtf8(word));
  };
  KeyHints::Hints hints;
  if (read_only_)
    hints = {key("Enter", "back")};
  else if (step_ == TasteStep::rinse)
    hints = {key("Enter", "on"), key("PgUp", "back")};
  else if (writing_words_)
    hints = {key("Enter", "add"), key("Tab", "first offered"), key("1 2 3", "strength"), key("⌫", "last one away")};
  else if (step_ == TasteStep::compare && !marking_)
    hints = {key("←", "left more"), key("↓", "can’t tell"), key("→", "right more"), key("Enter", "lock")};
  else {
    hints = {key("0–9", "score"), std::pair(QString(QLatin1Char(style_.decimal_mark)), QStringLiteral("half")),
             key("Tab", "next")};
    if (!finish_.empty() && step_ != TasteStep::compare) hints.push_back(key("Space", "finish"));
  }
  foot_->set_keys(hints);
}

void PairPage::show_todo() {
  if (read_only_) return foot_->set_todo(QStringLiteral("locked; nothing here changes any more"));
  if (step_ == TasteStep::rinse) {
    const auto left = port_.setup().rest_ms - elapsed(rinse_from_, clock_.now()).count();
    return foot_->set_todo(
        left > 0 ? QStringLiteral("rinse with water, then %1 · %2").arg(code(other(first())), left_text(left))
                 : QStringLiteral("rested; on to %1").arg(code(other(first()))));
  }
  if (step_ == TasteStep::compare) {
    const auto open_answers = std::ranges::count_if(rows_, unanswered);
    return foot_->set_todo(open_answers == 0   ? QStringLiteral("all answered")
                           : open_answers == 1 ? QStringLiteral("1 answer to go")
                                               : QStringLiteral("%1 answers to go").arg(open_answers));
  }
  QStringList open_fields;
  for (const auto& attribute : port_.setup().attributes) {
    const auto fields = mark_fields(attribute);
    const auto blank = [&](Side side) {
      return open(side) &&
             std::ranges::any_of(fields, [&](const auto& f) { return !sheet_.cup(side).marks.contains(f); });
    };
    if (blank(Side::left) || blank(Side::right))
      open_fields << (attribute.scale == Scale::seconds          ? QStringLiteral("finish")
                      : attribute.scale == Scale::register_bands ? QStringLiteral("aroma")
                                                                 : text(attribute.name).toLower());
  }
  const auto many = open_fields.size();
  foot_->set_todo(many == 0  ? QStringLiteral("all filled in")
                  : many > 3 ? QStringLiteral("%1 to do").arg(many)
                             : QStringLiteral("to do: ") + open_fields.join(QStringLiteral(", ")));
}

void PairPage::set_current(Side side, const std::string& field, bool marking) {
  side_ = side;
  field_ = field;
  marking_ = marking;
  writing_words_ = false;
  for (auto* row : rows_) row->set_current(row->attribute().id == field && step_ != TasteStep::rinse);
  foot_->set_unscored(marking_ && !field_.empty() && open(side_));
  show_keys();
}

void PairPage::order_tabs() {
  std::vector<QWidget*> order;
  const std::vector<Side> sides = step_ == TasteStep::both_cups || step_ == TasteStep::compare
                                      ? std::vector{first(), other(first())}
                                      : std::vector{now()};
  for (auto* row : rows_) {
    order.push_back(row);
    for (const Side side : sides) order.push_back(row->scale(side));
  }
  for (const Side side : sides) order.push_back(finish_card_->timer(side)->button());
  for (const auto& band : aroma_card_->bands())
    for (const Side side : sides) order.push_back(side == Side::left ? band.left : band.right);
  for (const Side side : sides) order.push_back(words_card_->words(side)->line());
  order.push_back(words_card_->note());
  // Seldom wanted: once the finish is timed, Tab goes from the scores straight to the aroma.
  for (const Side side : sides)
    for (QWidget* one :
         std::initializer_list<QWidget*>{finish_card_->timer(side)->again(), finish_card_->timer(side)->line()})
      order.push_back(one);
  for (const Side side : {Side::left, Side::right}) {
    order.push_back(cups_->fault(side));
    order.push_back(cups_->fault_note(side));
    order.push_back(cups_->sipped(side));
  }
  order.push_back(foot_->undo());
  order.insert(order.end(), foot_->unscored().begin(), foot_->unscored().end());
  order.push_back(foot_->onward());
  for (std::size_t i = 1; i < order.size(); ++i) setTabOrder(order[i - 1], order[i]);
}

void PairPage::focus_first() {
  if (step_ == TasteStep::rinse || rows_.empty() || read_only_) {
    set_current(first(), {}, false);
    foot_->onward()->setFocus();
    return;
  }
  // The first thing that is still blank; when there is none, the first.
  AttributeRow* to = rows_.front();
  if (step_ == TasteStep::compare) {
    const auto direct = std::ranges::find_if(rows_, unanswered);
    if (direct != rows_.end()) to = *direct;
    set_current(first(), to->attribute().id, false);
    if (to->attribute().direct)
      to->setFocus();
    else
      foot_->onward()->setFocus();
    return;
  }
  const auto blank = std::ranges::find_if(rows_, [this](const AttributeRow* r) {
    const auto empty = [&](Side side) { return open(side) && !r->scale(side)->mark(); };
    return empty(Side::left) || empty(Side::right);
  });
  if (blank != rows_.end()) to = *blank;
  const Side side = step_ == TasteStep::both_cups && to->scale(now())->mark() && !to->scale(other(now()))->mark()
                        ? other(now())
                        : now();
  set_current(side, to->attribute().id, true);
  to->scale(side)->setFocus();
}

bool PairPage::taps() const {
  if (read_only_ || finish_.empty()) return false;
  // A finish that outlasts the scoring is stopped wherever one is by then.
  const bool runs = finish_card_->timer(Side::left)->running() || finish_card_->timer(Side::right)->running();
  return runs || (step_ != TasteStep::rinse && step_ != TasteStep::compare);
}

void PairPage::keyPressEvent(QKeyEvent* event) {
  const bool editing = qobject_cast<QLineEdit*>(QApplication::focusWidget()) != nullptr;
  const bool plain = !(event->modifiers() & (Qt::ControlModifier | Qt::AltModifier | Qt::MetaModifier));
  switch (event->key()) {
    case Qt::Key_Space:
      if (!editing && !event->isAutoRepeat() && taps()) {
        finish_card_->timer(tapped())->tap();
        refresh();
      }
      return;
    case Qt::Key_Return:
    case Qt::Key_Enter:
      if (!editing && !event->isAutoRepeat()) forward();
      return;
    case Qt::Key_PageUp:
      return back();
    case Qt::Key_PageDown:
      if (step_ != TasteStep::compare) forward();
      return;
    case Qt::Key_F:
      if (!editing && plain && step_ != TasteStep::compare && open(side_)) cups_->fault(side_)->click();
      return;
    // A scale takes these itself; here they are for the finish, whose field is a button.
    case Qt::Key_C:
      if (!editing && plain) unscored(NoScore::could_not_judge);
      return;
    case Qt::Key_N:
      if (!editing && plain) unscored(NoScore::not_tasted);
      return;
    case Qt::Key_S:
      if (!editing && plain) unscored(NoScore::spoilt);
      return;
    default:
      QWidget::keyPressEvent(event);
  }
}

}  // namespace likeleaf::ui
