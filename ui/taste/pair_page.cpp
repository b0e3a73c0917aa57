#include "ui/taste/pair_page.h"

#include <QApplication>
#include <QFrame>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QShortcut>
#include <QTimer>
#include <algorithm>

#include "core/wording/errors.h"
#include "ui/taste/attribute_row.h"
#include "ui/taste/cup_mark.h"
#include "ui/taste/lock_words.h"
#include "ui/theme/theme.h"
#include "ui/widgets/quiet.h"
#include "ui/widgets/tap_timer.h"
#include "ui/widgets/word_picker.h"

namespace likeleaf::ui {
namespace {

QString text(const std::string& s) {
  return QString::fromStdString(s);
}

QFrame* card(const QString& title, QWidget* parent) {
  auto* frame = new QFrame(parent);
  frame->setObjectName(QStringLiteral("card"));
  frame->setStyleSheet(QStringLiteral("QFrame#card{background:%1;border:1px solid %2;border-radius:8px}")
                           .arg(tokens().sheet.name(), tokens().line.name()));
  auto* down = new QVBoxLayout(frame);
  down->setContentsMargins(16, 12, 16, 12);
  down->setSpacing(6);
  down->addWidget(plain_label(title, face(15, Weight::semi_bold), tokens().ink, frame));
  return frame;
}

std::optional<Mark> mark_in(const CupMarks& cup, const std::string& field) {
  const auto found = cup.marks.find(field);
  return found == cup.marks.end() ? std::nullopt : std::optional(found->second);
}

}  // namespace

PairPage::PairPage(TasterPort& port, const Clock& clock, const Style& style, QWidget* parent)
    : QWidget(parent), port_(port), clock_(clock), style_(style) {
  setFocusPolicy(Qt::ClickFocus);
  auto* down = new QVBoxLayout(this);
  down->setContentsMargins(0, 10, 0, 0);
  down->setSpacing(0);
  down->addWidget(make_head());
  down->addSpacing(8);
  for (const auto& attribute : port_.setup().attributes) {
    if (attribute.scale == Scale::seconds) finish_ = attribute.id;
    if (attribute.scale == Scale::register_bands) aroma_ = attribute.id;
    if (attribute.scale != Scale::intensity) continue;
    auto* row = new AttributeRow(attribute, style_.decimal_mark, this);
    for (const Side side : {Side::left, Side::right}) wire(row->scale(side), side, attribute.id);
    connect(row, &AttributeRow::answer_wanted, this, [this, row](std::optional<Direct> given) { answer(row, given); });
    connect(row, &AttributeRow::focused, this, [this, row] {
      if (step_ == TasteStep::compare) set_current(first(), row->attribute().id);
    });
    rows_.push_back(row);
    down->addWidget(row);
  }
  down->addSpacing(14);
  down->addWidget(make_cards());
  down->addStretch(1);
  message_ = plain_label({}, face(15), tokens().caution, this);
  message_->setObjectName(QStringLiteral("message"));
  message_->setContentsMargins(28, 4, 28, 6);
  down->addWidget(message_);
  down->addWidget(make_foot());
  tick_ = new QTimer(this);
  tick_->setInterval(500);
  connect(tick_, &QTimer::timeout, this, &PairPage::show_todo);
}

QWidget* PairPage::make_head() {
  const Tokens& t = tokens();
  auto* head = new QWidget(this);
  auto* grid = new QGridLayout(head);
  grid->setContentsMargins(28, 0, 28, 0);
  who_ = plain_label({}, face(15, Weight::medium), t.ink, head);
  who_->setObjectName(QStringLiteral("who"));
  auto* middle = new QHBoxLayout;
  middle->setSpacing(14);
  strip_ = new QWidget(head);
  strip_->setLayout(new QHBoxLayout);
  strip_->layout()->setContentsMargins(0, 0, 0, 0);
  strip_->layout()->setSpacing(0);
  for (const Side side : {Side::left, Side::right}) {
    Cup& c = cup(side);
    const QString name = side == Side::left ? QStringLiteral("left") : QStringLiteral("right");
    c.mark = new CupMark(head);
    c.fault = new QuietButton(QStringLiteral("fault in this cup"), QuietButton::Look::bare, head);
    c.fault->setCheckable(true);
    c.fault->setObjectName(QStringLiteral("fault_") + name);
    connect(c.fault, &QPushButton::clicked, this,
            [this, side](bool on) { take(port_.fault(serving_.id, side, on, sheet_.cup(side).fault_note)); });
    c.sipped = new QuietButton(QStringLiteral("I sipped this one first"), QuietButton::Look::bare, head);
    c.sipped->setObjectName(QStringLiteral("sipped_") + name);
    for (auto* button : {c.fault, c.sipped}) {
      // The cups must not move when a button beside them goes.
      QSizePolicy stays = button->sizePolicy();
      stays.setRetainSizeWhenHidden(true);
      button->setSizePolicy(stays);
    }
    connect(c.sipped, &QPushButton::clicked, this, [this, side] {
      take(port_.sipped_first(serving_.id, side == serving_.first ? std::nullopt : std::optional(side)));
      go(TasteStep::first_cup);
    });
  }
  auto* at_left = new QVBoxLayout;
  at_left->addWidget(left_.fault);
  at_left->addWidget(left_.sipped);
  auto* at_right = new QVBoxLayout;
  at_right->addWidget(right_.fault);
  at_right->addWidget(right_.sipped);
  middle->addLayout(at_left);
  middle->addWidget(left_.mark);
  middle->addWidget(strip_);
  middle->addWidget(right_.mark);
  middle->addLayout(at_right);
  auto* places = new QHBoxLayout;
  places->setSpacing(12);
  auto* dashes = new Dashes(head);
  dashes_ = dashes;
  place_ = plain_label({}, face(15), t.soft_ink, head);
  place_->setObjectName(QStringLiteral("place"));
  place_->setWordWrap(false);
  places->addStretch(1);
  places->addWidget(dashes_);
  places->addWidget(place_);
  grid->addWidget(who_, 0, 0);
  grid->addLayout(middle, 0, 1, Qt::AlignCenter);
  grid->addLayout(places, 0, 2);
  grid->setColumnStretch(0, 1);
  grid->setColumnStretch(2, 1);
  grid->setColumnMinimumWidth(0, 190);
  grid->setColumnMinimumWidth(2, 190);
  return head;
}

QWidget* PairPage::make_cards() {
  const Tokens& t = tokens();
  auto* cards = new QWidget(this);
  auto* across = new QHBoxLayout(cards);
  across->setContentsMargins(28, 0, 28, 0);
  across->setSpacing(16);
  auto* finish = card(QStringLiteral("Finish length"), cards);
  auto* values = new QHBoxLayout;
  for (const Side side : {Side::left, Side::right}) {
    Cup& c = cup(side);
    c.timer = new TapTimer(clock_, finish);
    c.timer->setObjectName(side == Side::left ? QStringLiteral("timer_left") : QStringLiteral("timer_right"));
    c.finish = plain_label({}, face(19, Weight::medium), t.ink, finish);
    connect(c.timer, &TapTimer::mark_wanted, this,
            [this, side](std::optional<Mark> mark) { put(side, finish_, mark); });
    connect(c.timer, &TapTimer::refused, this, [this](const Error& e) { say(text(wording::sentence(e))); });
    finish->layout()->addWidget(c.timer);
    values->addWidget(c.finish);
  }
  static_cast<QVBoxLayout*>(finish->layout())->addLayout(values);
  finish_hint_ = plain_label({}, face(15), t.soft_ink, finish);
  finish->layout()->addWidget(finish_hint_);
  static_cast<QVBoxLayout*>(finish->layout())->addStretch(1);
  finish->setVisible(!finish_.empty());
  across->addWidget(finish, 368);

  auto* aroma = card(QStringLiteral("Aroma, where it sits"), cards);
  for (const auto& [part, shown] :
       {std::pair("top", "Top"), std::pair("middle", "Middle"), std::pair("base", "Base")}) {
    if (aroma_.empty()) break;
    const std::string field = aroma_ + "." + part;
    auto* line = new QHBoxLayout;
    Band band{field, new ScoreScale(Side::left, aroma), new ScoreScale(Side::right, aroma)};
    auto* name = plain_label(QString::fromLatin1(shown), face(15), t.ink, aroma);
    name->setAlignment(Qt::AlignCenter);
    name->setFixedWidth(66);
    for (auto* scale : {band.left, band.right}) {
      scale->set_size(ScoreScale::Size::band);
      scale->set_decimal_mark(style_.decimal_mark);
      scale->setObjectName((scale == band.left ? QStringLiteral("left_") : QStringLiteral("right_")) + text(field));
    }
    line->addWidget(band.left, 1);
    line->addWidget(name);
    line->addWidget(band.right, 1);
    static_cast<QVBoxLayout*>(aroma->layout())->addLayout(line);
    wire(band.left, Side::left, field);
    wire(band.right, Side::right, field);
    bands_.push_back(band);
  }
  static_cast<QVBoxLayout*>(aroma->layout())->addStretch(1);
  aroma->setVisible(!aroma_.empty());
  across->addWidget(aroma, 386);

  auto* words = card(QStringLiteral("Words"), cards);
  auto* two = new QHBoxLayout;
  two->setSpacing(14);
  for (const Side side : {Side::left, Side::right}) {
    Cup& c = cup(side);
    c.words = new WordPicker(port_.setup().lexicon, words);
    c.words->setObjectName(side == Side::left ? QStringLiteral("words_left") : QStringLiteral("words_right"));
    connect(c.words, &WordPicker::words_wanted, this,
            [this, side](const std::vector<WordMark>& wanted) { take(port_.words(serving_.id, side, wanted)); });
    two->addWidget(c.words, 1);
  }
  static_cast<QVBoxLayout*>(words->layout())->addLayout(two);
  note_ = underlined_edit(QStringLiteral("note on this pair"), words);
  note_->setObjectName(QStringLiteral("pair_note"));
  note_->setAccessibleName(QStringLiteral("Note on this pair"));
  connect(note_, &QLineEdit::editingFinished, this, [this] {
    if (note_->text().toStdString() != sheet_.note) take(port_.note(serving_.id, note_->text().toStdString()));
  });
  words->layout()->addWidget(note_);
  across->addWidget(words, 438);
  return cards;
}

QWidget* PairPage::make_foot() {
  const Tokens& t = tokens();
  auto* foot = new QFrame(this);
  foot->setObjectName(QStringLiteral("foot"));
  foot->setStyleSheet(QStringLiteral("QFrame#foot{border-top:1px solid %1}").arg(t.line.name()));
  auto* across = new QHBoxLayout(foot);
  across->setContentsMargins(28, 7, 28, 7);
  across->setSpacing(8);
  keys_ = plain_label({}, face(15), t.soft_ink, foot);
  keys_->setWordWrap(false);
  todo_ = plain_label({}, face(15), t.soft_ink, foot);
  todo_->setObjectName(QStringLiteral("todo"));
  todo_->setAlignment(Qt::AlignRight | Qt::AlignVCenter);
  across->addWidget(keys_);
  across->addWidget(todo_, 1);
  undo_ = new QuietButton(QStringLiteral("undo"), QuietButton::Look::bare, foot);
  undo_->setObjectName(QStringLiteral("undo"));
  connect(undo_, &QPushButton::clicked, this, [this] { take(port_.undo(serving_.id)); });
  auto* again = new QShortcut(QKeySequence::Undo, this);
  connect(again, &QShortcut::activated, undo_, &QPushButton::click);
  across->addWidget(undo_);
  for (const NoScore answer : {NoScore::could_not_judge, NoScore::not_tasted, NoScore::spoilt}) {
    auto* button = new QuietButton(text(mark_text(answer)), QuietButton::Look::bare, foot);
    button->setObjectName(QStringLiteral("unscored_%1").arg(static_cast<int>(answer)));
    connect(button, &QPushButton::clicked, this, [this, answer] { unscored(answer); });
    across->addWidget(button);
    unscored_.push_back(button);
  }
  onward_ = new QuietButton({}, QuietButton::Look::filled, foot);
  onward_->setObjectName(QStringLiteral("onward"));
  connect(onward_, &QPushButton::clicked, this, &PairPage::forward);
  across->addWidget(onward_);
  return foot;
}

void PairPage::wire(ScoreScale* scale, Side side, const std::string& field) {
  connect(scale, &ScoreScale::focused, this, [this, side, field] { set_current(side, field); });
  connect(scale, &ScoreScale::mark_wanted, this,
          [this, side, field](std::optional<Mark> mark) { put(side, field, mark); });
  connect(scale, &ScoreScale::refused, this, [this, scale](const QString& typed) {
    const auto read =
        parse_mark(Scale::intensity, typed.toStdString(), scale->accessibleName().toLower().toStdString());
    if (!read) say(text(wording::sentence(read.error())));
  });
}

Side PairPage::first() const {
  return sheet_.sipped_first.value_or(serving_.first);
}
Side PairPage::now() const {
  return step_ == TasteStep::second_cup ? other(first()) : first();
}
bool PairPage::open(Side side) const {
  if (step_ == TasteStep::rinse) return false;
  return step_ == TasteStep::both_cups || step_ == TasteStep::compare || side == now();
}
QString PairPage::code(Side side) const {
  return text((side == Side::left ? serving_.left : serving_.right).text());
}

std::vector<TasteStep> PairPage::steps() const {
  if (port_.setup().attribute_by_attribute) return {TasteStep::both_cups, TasteStep::compare};
  return {TasteStep::first_cup, TasteStep::rinse, TasteStep::second_cup, TasteStep::compare};
}

QString PairPage::step_name(TasteStep step) const {
  switch (step) {
    case TasteStep::first_cup:
      return code(first());
    case TasteStep::rinse:
      return QStringLiteral("rinse");
    case TasteStep::second_cup:
      return code(other(first()));
    case TasteStep::both_cups:
      return QStringLiteral("both cups");
    case TasteStep::compare:
      break;
  }
  return QStringLiteral("compare");
}

TasteStep PairPage::resumed() const {
  const CupMarks& second = sheet_.cup(other(first()));
  if (!sheet_.directs.empty()) return TasteStep::compare;
  if (port_.setup().attribute_by_attribute) return TasteStep::both_cups;
  return second.marks.empty() && second.words.empty() ? TasteStep::first_cup : TasteStep::second_cup;
}

void PairPage::show_pair(const BlindServing& serving) {
  const bool another = !shown_ || !(serving.id == serving_.id);
  serving_ = serving;
  shown_ = true;
  if (!another) return refresh();
  reviewed_ = false;
  left_.timer->reset();
  right_.timer->reset();
  message_->clear();
  sheet_ = port_.sheet(serving_.id);
  if (!sheet_.started)
    if (const auto started = port_.start(serving_.id, EnteredBy::screen); !started)
      say(text(wording::sentence(started.error())));
  sheet_ = port_.sheet(serving_.id);
  go(resumed());
}

void PairPage::go(TasteStep step) {
  step_ = step;
  if (step == TasteStep::rinse) {
    rinse_from_ = clock_.now();
    tick_->start();
  } else {
    tick_->stop();
  }
  show_steps();
  refresh();
  order_tabs();
  focus_first();
}

void PairPage::show_steps() {
  qDeleteAll(step_buttons_);
  step_buttons_.clear();
  for (const TasteStep step : steps()) {
    auto* button = new QuietButton(step_name(step), QuietButton::Look::bare, strip_);
    button->setFocusPolicy(Qt::NoFocus);  // Page Up and Enter walk the steps by keyboard
    button->setObjectName(QStringLiteral("step_%1").arg(static_cast<int>(step)));
    if (step == step_) {
      button->setFont(face(15, Weight::bold));
      button->setStyleSheet(
          QStringLiteral(
              "QPushButton{background:transparent;color:%1;border:0;border-bottom:2px solid %2;padding:4px 8px}")
              .arg(tokens().ink.name(), tokens().action.name()));
      button->setAccessibleDescription(QStringLiteral("now"));
    }
    connect(button, &QPushButton::clicked, this,
            [this, step] { QTimer::singleShot(0, this, [this, step] { go(step); }); });
    strip_->layout()->addWidget(button);
    step_buttons_.push_back(button);
  }
}

void PairPage::refresh() {
  if (!shown_) return;
  sheet_ = port_.sheet(serving_.id);
  const bool comparing = step_ == TasteStep::compare;
  who_->setText(QStringLiteral("%1\nsitting %2 of %3")
                    .arg(text(port_.setup().alias))
                    .arg(serving_.sitting)
                    .arg(std::max(serving_.sitting, port_.setup().sittings)));
  place_->setText(serving_.place == 0 ? QStringLiteral("warm-up pair")
                                      : QStringLiteral("pair %1 of %2").arg(serving_.place).arg(serving_.of));
  static_cast<Dashes*>(dashes_)->set(serving_.place, serving_.of);
  for (const Side side : {Side::left, Side::right}) {
    Cup& c = cup(side);
    const CupMarks& marks = sheet_.cup(side);
    const bool open_now = open(side);
    // An option of the plan: the second cup is scored without the first cup's scores in sight.
    const bool veiled = port_.setup().hide_first_cup && side == first() &&
                        (step_ == TasteStep::second_cup || step_ == TasteStep::rinse);
    const QString name = QStringLiteral("cup ") + code(side);
    const auto show_scale = [&](ScoreScale* scale, const QString& what, const std::string& field) {
      scale->set_name(what + QStringLiteral(", ") + name);
      scale->set_open(open_now, !comparing);
      scale->set_veiled(veiled);
      scale->set_mark(mark_in(marks, field));
    };
    for (auto* row : rows_) show_scale(row->scale(side), text(row->attribute().name), row->attribute().id);
    for (const auto& band : bands_)
      show_scale(side == Side::left ? band.left : band.right,
                 QStringLiteral("Aroma ") + text(band.field.substr(aroma_.size() + 1)), band.field);
    c.mark->set(
        code(side),
        QStringLiteral("%1, %2").arg(name, side == Side::left ? QStringLiteral("left") : QStringLiteral("right")),
        open_now);
    c.fault->setVisible(open_now);
    c.fault->setChecked(marks.fault);
    c.fault->setText(marks.fault ? QStringLiteral("✓ fault in this cup") : QStringLiteral("fault in this cup"));
    c.fault->setAccessibleName(QStringLiteral("fault in ") + name);
    c.sipped->setVisible(step_ == TasteStep::first_cup && side != first());
    c.sipped->setAccessibleName(QStringLiteral("I sipped %1 first").arg(name));
    c.timer->setVisible(open_now && !comparing && side == (step_ == TasteStep::both_cups ? side_ : now()));
    c.timer->set_name(QStringLiteral("Finish length, ") + name);
    c.timer->set_mark(finish_.empty() ? std::nullopt : mark_in(marks, finish_));
    const auto time = finish_.empty() ? std::nullopt : mark_in(marks, finish_);
    c.finish->setText(QStringLiteral("%1  %2").arg(code(side), time ? TapTimer::text_of(*time) : QStringLiteral("–")));
    c.finish->setVisible(comparing);
    c.words->set_name(QStringLiteral("Aroma words, ") + name);
    c.words->setEnabled(open_now);
    c.words->set_veiled(veiled);
    c.words->set_words(marks.words);
  }
  for (auto* row : rows_) {
    row->set_comparing(comparing);
    const auto found = sheet_.directs.find(row->attribute().id);
    row->set_answer(found == sheet_.directs.end() ? std::nullopt : std::optional(found->second));
  }
  finish_hint_->setText(
      comparing ? QStringLiteral("first sip only; tasting again does not change it")
                : QStringLiteral("press when the first full sip is swallowed or spat, again when all has gone"));
  if (!note_->hasFocus()) note_->setText(text(sheet_.note));
  for (auto* button : unscored_) button->setVisible(!comparing && step_ != TasteStep::rinse);
  undo_->setVisible(port_.can_undo(serving_.id));
  const auto all = steps();
  const auto at = std::ranges::find(all, step_);
  const bool last = at == all.end() || at + 1 == all.end();
  onward_->setText(last ? (reviewed_ ? QStringLiteral("Lock as it is") : QStringLiteral("Lock this pair"))
                   : step_ == TasteStep::first_cup   ? QStringLiteral("Rinse")
                   : *(at + 1) == TasteStep::compare ? QStringLiteral("On to compare")
                                                     : QStringLiteral("On to ") + step_name(*(at + 1)));
  keys_->setText(comparing ? QStringLiteral("← left more  ↓ can’t tell  → right more  Enter lock")
                 : step_ == TasteStep::rinse ? QStringLiteral("Enter on  PgUp back")
                                             : QStringLiteral("0–9 score  . half  Tab next  Space finish  Enter on"));
  show_todo();
}

void PairPage::show_todo() {
  if (step_ == TasteStep::rinse) {
    const auto left = port_.setup().rest_ms - elapsed(rinse_from_, clock_.now()).count();
    todo_->setText(left > 0
                       ? QStringLiteral("rinse with water, then %1 · %2").arg(code(other(first())), left_text(left))
                       : QStringLiteral("rested; on to %1").arg(code(other(first()))));
    return;
  }
  if (step_ == TasteStep::compare) {
    const auto open_answers =
        std::ranges::count_if(rows_, [](const AttributeRow* r) { return r->attribute().direct && !r->answer(); });
    todo_->setText(open_answers ? QStringLiteral("%1 answers to go").arg(open_answers)
                                : QStringLiteral("all answered"));
    return;
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
  todo_->setText(many == 0  ? QStringLiteral("all filled in")
                 : many > 3 ? QStringLiteral("%1 to do").arg(many)
                            : QStringLiteral("to do: ") + open_fields.join(QStringLiteral(", ")));
}

void PairPage::set_current(Side side, const std::string& field) {
  side_ = side;
  field_ = field;
  for (auto* row : rows_) row->set_current(row->attribute().id == field && step_ != TasteStep::rinse);
  if (step_ == TasteStep::both_cups)
    for (const Side one : {Side::left, Side::right}) cup(one).timer->setVisible(one == side_);
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
  for (const Side side : sides) {
    order.push_back(cup(side).timer->button());
    order.push_back(cup(side).timer->line());
  }
  for (const auto& band : bands_)
    for (const Side side : sides) order.push_back(side == Side::left ? band.left : band.right);
  for (const Side side : sides) order.push_back(cup(side).words->line());
  order.push_back(note_);
  for (const Side side : {Side::left, Side::right}) {
    order.push_back(cup(side).fault);
    order.push_back(cup(side).sipped);
  }
  order.push_back(undo_);
  order.insert(order.end(), unscored_.begin(), unscored_.end());
  order.push_back(onward_);
  for (std::size_t i = 1; i < order.size(); ++i) setTabOrder(order[i - 1], order[i]);
}

void PairPage::focus_first() {
  if (step_ == TasteStep::rinse || rows_.empty()) {
    for (auto* row : rows_) row->set_current(false);
    onward_->setFocus();
    return;
  }
  // The first thing that is still blank; when there is none, the first.
  AttributeRow* to = rows_.front();
  if (step_ == TasteStep::compare) {
    const auto direct =
        std::ranges::find_if(rows_, [](const AttributeRow* r) { return r->attribute().direct && !r->answer(); });
    if (direct != rows_.end()) to = *direct;
    set_current(first(), to->attribute().id);
    if (to->attribute().direct)
      to->setFocus();
    else
      onward_->setFocus();
    return;
  }
  const auto blank = std::ranges::find_if(rows_, [this](const AttributeRow* r) { return !r->scale(now())->mark(); });
  if (blank != rows_.end()) to = *blank;
  set_current(now(), to->attribute().id);
  to->scale(now())->setFocus();
}

void PairPage::say(const QString& sentence) {
  message_->setText(sentence);
}

void PairPage::take(const Result<std::uint64_t>& result) {
  say(result ? QString() : text(wording::sentence(result.error())));
  refresh();
}

void PairPage::put(Side side, const std::string& field, std::optional<Mark> mark) {
  take(port_.put(serving_.id, side, field, mark));
}

void PairPage::answer(AttributeRow* row, std::optional<Direct> given) {
  take(port_.answer(serving_.id, row->attribute().id, given));
  if (!given || row->answer() != given) return;
  const auto at = std::ranges::find(rows_, row);
  const auto next =
      std::find_if(at, rows_.end(), [](const AttributeRow* r) { return r->attribute().direct && !r->answer(); });
  if (next != rows_.end()) (*next)->setFocus();
}

void PairPage::unscored(NoScore answer) {
  if (!field_.empty() && open(side_)) put(side_, field_, Mark(answer));
}

void PairPage::forward() {
  const auto all = steps();
  const auto at = std::ranges::find(all, step_);
  if (at == all.end() || at + 1 == all.end())
    lock();
  else
    go(*(at + 1));
}

void PairPage::back() {
  const auto all = steps();
  const auto at = std::ranges::find(all, step_);
  if (at != all.begin() && at != all.end()) go(*(at - 1));
}

void PairPage::lock() {
  const QString named = lock_words(port_.review(serving_.id), port_.setup().attributes);
  if (!reviewed_ && !named.isEmpty()) {
    reviewed_ = true;
    refresh();
    say(named);
    return;
  }
  const auto done = port_.lock(serving_.id);
  take(done);
  if (done) emit locked();
}

void PairPage::keyPressEvent(QKeyEvent* event) {
  const bool editing = qobject_cast<QLineEdit*>(QApplication::focusWidget()) != nullptr;
  switch (event->key()) {
    case Qt::Key_Space:
      if (!editing && !finish_.empty() && step_ != TasteStep::rinse && step_ != TasteStep::compare &&
          !event->isAutoRepeat())
        cup(step_ == TasteStep::both_cups ? side_ : now()).timer->tap();
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
    default:
      QWidget::keyPressEvent(event);
  }
}

}  // namespace likeleaf::ui
