#include "ui/taste/pair_page.h"

#include <QFrame>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QScrollArea>
#include <QShortcut>
#include <QTimer>
#include <QVBoxLayout>
#include <algorithm>

#include "core/wording/errors.h"
#include "ui/taste/attribute_row.h"
#include "ui/taste/cups_strip.h"
#include "ui/taste/pair_cards.h"
#include "ui/taste/pair_foot.h"
#include "ui/theme/theme.h"
#include "ui/widgets/qt_text.h"
#include "ui/widgets/quiet.h"
#include "ui/widgets/tap_timer.h"
#include "ui/widgets/word_picker.h"

namespace likeleaf::ui {
namespace {

/// The built-in attributes fit without scrolling; a house with many of its own scrolls. Keys are the sheet's.
class SheetArea final : public QScrollArea {
 public:
  explicit SheetArea(QWidget* parent) : QScrollArea(parent) {
    setWidgetResizable(true);
    setFrameShape(QFrame::NoFrame);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setFocusPolicy(Qt::NoFocus);
  }

 protected:
  void keyPressEvent(QKeyEvent* event) override { event->ignore(); }
};

}  // namespace

PairPage::PairPage(TasterPort& port, const Clock& clock, const Style& style, QWidget* parent)
    : QWidget(parent), port_(port), clock_(clock), style_(style) {
  setFocusPolicy(Qt::ClickFocus);
  setObjectName(QStringLiteral("pair_page"));
  setAccessibleName(QStringLiteral("The pair on the table"));
  auto* all = new QVBoxLayout(this);
  all->setContentsMargins(0, 0, 0, 0);
  all->setSpacing(0);
  auto* area = new SheetArea(this);
  auto* sheet = new QWidget(area);
  auto* down = new QVBoxLayout(sheet);
  down->setContentsMargins(0, 8, 0, 0);
  down->setSpacing(0);
  cups_ = new CupsStrip(sheet);
  down->addWidget(cups_);
  down->addSpacing(6);
  make_rows(down);
  down->addSpacing(12);
  down->addWidget(make_cards());
  down->addSpacing(8);
  down->addWidget(make_message());
  down->addStretch(1);
  area->setWidget(sheet);
  foot_ = new PairFoot(this);
  all->addWidget(area, 1);
  all->addWidget(foot_);
  wire_cards();
  connect(foot_, &PairFoot::undo_wanted, this, &PairPage::undo);
  connect(foot_, &PairFoot::unscored_wanted, this, &PairPage::unscored);
  connect(foot_, &PairFoot::onward_wanted, this, &PairPage::forward);
  auto* again = new QShortcut(QKeySequence::Undo, this);
  connect(again, &QShortcut::activated, this, &PairPage::undo);
  tick_ = new QTimer(this);
  tick_->setInterval(500);
  connect(tick_, &QTimer::timeout, this, &PairPage::show_todo);
}

void PairPage::make_rows(QVBoxLayout* down) {
  for (const auto& attribute : port_.setup().attributes) {
    if (attribute.scale == Scale::seconds) finish_ = attribute.id;
    if (attribute.scale == Scale::register_bands) aroma_ = attribute.id;
    if (attribute.scale != Scale::intensity) continue;
    auto* row = new AttributeRow(attribute, style_.decimal_mark, this);
    for (const Side side : {Side::left, Side::right}) wire(row->scale(side), side, attribute.id);
    connect(row, &AttributeRow::answer_wanted, this, [this, row](std::optional<Direct> given) { answer(row, given); });
    connect(row, &AttributeRow::focused, this, [this, row] {
      if (step_ == TasteStep::compare) set_current(first(), row->attribute().id, !row->hasFocus());
    });
    rows_.push_back(row);
    down->addWidget(row);
  }
}

QWidget* PairPage::make_cards() {
  auto* cards = new QWidget(this);
  auto* across = new QHBoxLayout(cards);
  across->setContentsMargins(28, 0, 28, 0);
  across->setSpacing(16);
  finish_card_ = new FinishCard(clock_, cards);
  finish_card_->setVisible(!finish_.empty());
  aroma_card_ = new AromaCard(aroma_, style_.decimal_mark, cards);
  aroma_card_->setVisible(!aroma_.empty());
  words_card_ = new WordsCard(port_.setup().lexicon, cards);
  across->addWidget(finish_card_, 368);
  across->addWidget(aroma_card_, 386);
  across->addWidget(words_card_, 438);
  return cards;
}

void PairPage::wire_cards() {
  if (!aroma_.empty())
    for (const auto& band : aroma_card_->bands()) {
      wire(band.left, Side::left, band.field);
      wire(band.right, Side::right, band.field);
    }
  for (const Side side : {Side::left, Side::right}) {
    auto* timer = finish_card_->timer(side);
    connect(timer, &TapTimer::mark_wanted, this, [this, side](std::optional<Mark> mark) { put(side, finish_, mark); });
    connect(timer, &TapTimer::refused, this,
            [timer](const Error& e) { timer->set_message(text(wording::sentence(e))); });
    connect(timer, &TapTimer::focused, this, [this, side] { set_current(side, finish_, true); });
    auto* words = words_card_->words(side);
    connect(words, &WordPicker::words_wanted, this, [this, side](const std::vector<WordMark>& wanted) {
      take(words_place(side), port_.words(serving_.id, side, wanted));
    });
    connect(words, &WordPicker::focused, this, [this, side] {
      set_current(side, {}, false);
      writing_words_ = true;
      show_keys();
    });
  }
  connect(words_card_, &WordsCard::note_wanted, this,
          [this](const std::string& note) { take(note_place, port_.note(serving_.id, note)); });
  connect(cups_, &CupsStrip::fault_wanted, this, [this](Side side, bool on, const QString& note) {
    if (read_only_) return;
    take(fault_place(side), port_.fault(serving_.id, side, on, note.toStdString()));
  });
  connect(cups_, &CupsStrip::sipped_first_wanted, this, [this](Side side) {
    take("first", port_.sipped_first(serving_.id, side == serving_.first ? std::nullopt : std::optional(side)));
    go(TasteStep::first_cup);
  });
  connect(cups_, &CupsStrip::step_wanted, this, [this](int step) {
    const auto all = steps();
    if (step < static_cast<int>(all.size())) go(all[static_cast<std::size_t>(step)]);
  });
}

QWidget* PairPage::make_message() {
  const Tokens& t = tokens();
  auto* outer = new QWidget(this);
  auto* around = new QVBoxLayout(outer);
  around->setContentsMargins(28, 0, 28, 0);
  message_box_ = new QFrame(outer);
  message_box_->setObjectName(QStringLiteral("message_box"));
  message_box_->setStyleSheet(QStringLiteral("QFrame#message_box{background:%1;border-left:4px solid %2}")
                                  .arg(t.sheet.name(), t.caution.name()));
  auto* down = new QVBoxLayout(message_box_);
  down->setContentsMargins(14, 6, 14, 6);
  down->setSpacing(1);
  message_title_ = plain_label({}, face(15, Weight::semi_bold), t.ink, message_box_);
  message_ = plain_label({}, face(15), t.caution, message_box_);
  message_->setObjectName(QStringLiteral("message"));
  down->addWidget(message_title_);
  down->addWidget(message_);
  around->addWidget(message_box_);
  message_box_->hide();
  return outer;
}

void PairPage::wire(ScoreScale* scale, Side side, const std::string& field) {
  connect(scale, &ScoreScale::focused, this, [this, side, field] { set_current(side, field, true); });
  connect(scale, &ScoreScale::mark_wanted, this, [this, scale, side, field](std::optional<Mark> mark) {
    // The field that was touched is the field in hand, by mouse and wheel as well.
    if (!scale->hasFocus()) scale->setFocus(Qt::MouseFocusReason);
    put(side, field, mark);
  });
  connect(scale, &ScoreScale::refused, this, [this, scale, side, field](const QString& typed) {
    const auto read =
        parse_mark(Scale::intensity, typed.toStdString(), scale->accessibleName().toLower().toStdString());
    if (!read) refuse(mark_place(side, field), text(wording::sentence(read.error())));
  });
}

// Where one stands ----------------------------------------------------------------------------------------------------

Side PairPage::first() const {
  return sheet_.sipped_first.value_or(serving_.first);
}
Side PairPage::now() const {
  return step_ == TasteStep::second_cup ? other(first()) : first();
}
bool PairPage::open(Side side) const {
  if (step_ == TasteStep::rinse || read_only_) return false;
  return step_ == TasteStep::both_cups || step_ == TasteStep::compare || side == now();
}
bool PairPage::veiled(Side side) const {
  // An option of the plan: the second cup is scored without the first cup's scores in sight.
  return !read_only_ && port_.setup().hide_first_cup && side == first() &&
         (step_ == TasteStep::second_cup || step_ == TasteStep::rinse);
}
Side PairPage::tapped() const {
  // One mouth: a timer that runs is the one that is stopped, whichever cup is in hand by now.
  for (const Side side : {Side::left, Side::right})
    if (finish_card_->timer(side)->running()) return side;
  return step_ == TasteStep::both_cups ? side_ : now();
}
QString PairPage::code(Side side) const {
  return text((side == Side::left ? serving_.left : serving_.right).text());
}

std::vector<TasteStep> PairPage::steps() const {
  if (read_only_) return {TasteStep::compare};
  if (port_.setup().attribute_by_attribute) return {TasteStep::both_cups, TasteStep::compare};
  return {TasteStep::first_cup, TasteStep::rinse, TasteStep::second_cup, TasteStep::compare};
}

int PairPage::step_index() const {
  const auto all = steps();
  return static_cast<int>(std::ranges::find(all, step_) - all.begin());
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
  return read_only_ ? QStringLiteral("locked") : QStringLiteral("compare");
}

TasteStep PairPage::resumed() const {
  const CupMarks& second = sheet_.cup(other(first()));
  if (!sheet_.directs.empty()) return TasteStep::compare;
  if (port_.setup().attribute_by_attribute) return TasteStep::both_cups;
  return second.marks.empty() && second.words.empty() ? TasteStep::first_cup : TasteStep::second_cup;
}

void PairPage::show_pair(const BlindServing& serving) {
  const bool another = !shown_ || read_only_ || !(serving.id == serving_.id);
  serving_ = serving;
  shown_ = true;
  if (!another) return refresh();
  read_only_ = false;
  lock_words_.forget();
  keeping_.forget();
  for (const Side side : {Side::left, Side::right}) finish_card_->timer(side)->reset();
  say({});
  clear_refusals();
  sheet_ = port_.sheet(serving_.id);
  if (!sheet_.started)
    if (const auto started = port_.start(serving_.id, EnteredBy::screen); !started)
      say(text(wording::sentence(started.error())));
  sheet_ = port_.sheet(serving_.id);
  go(resumed());
}

void PairPage::show_locked(const BlindServing& serving) {
  serving_ = serving;
  shown_ = read_only_ = true;
  say({});
  clear_refusals();
  keeping_.forget();
  for (const Side side : {Side::left, Side::right}) finish_card_->timer(side)->reset();
  go(TasteStep::compare);
}

void PairPage::go(TasteStep step) {
  step_ = step;
  if (step == TasteStep::rinse) {
    rinse_from_ = clock_.now();
    tick_->start();
  } else {
    tick_->stop();
  }
  sheet_ = port_.sheet(serving_.id);
  QStringList names;
  for (const TasteStep one : steps()) names << step_name(one);
  cups_->set_steps(names, step_index());
  refresh();
  order_tabs();
  focus_first();
}

void PairPage::hear(const Kept& news) {
  keeping_.hear(news);
  refresh();
}

// Doing ---------------------------------------------------------------------------------------------------------------

bool PairPage::take(const std::string& what, const Result<std::uint64_t>& result) {
  if (result) {
    keeping_.sent(what, *result);
    say({});
    clear_refusals();
  } else {
    refuse(what, text(wording::sentence(result.error())));
  }
  refresh();
  return result.has_value();
}

void PairPage::refuse(const std::string& what, const QString& sentence) {
  for (auto* row : rows_)
    for (const auto& place : {mark_place(Side::left, row->attribute().id), mark_place(Side::right, row->attribute().id),
                              answer_place(row->attribute().id)})
      if (what == place) return row->set_message(sentence);
  if (!aroma_.empty())
    for (const auto& band : aroma_card_->bands())
      if (what == mark_place(Side::left, band.field) || what == mark_place(Side::right, band.field))
        return aroma_card_->set_message(sentence);
  for (const Side side : {Side::left, Side::right}) {
    if (what == mark_place(side, finish_)) return finish_card_->timer(side)->set_message(sentence);
    if (what == words_place(side)) return words_card_->words(side)->set_message(sentence);
    if (what == fault_place(side)) return cups_->set_fault_message(side, sentence);
  }
  if (what == note_place) return words_card_->set_message(sentence);
  say(sentence);
}

void PairPage::clear_refusals() {
  for (auto* row : rows_) row->set_message({});
  aroma_card_->set_message({});
  words_card_->set_message({});
  for (const Side side : {Side::left, Side::right}) {
    finish_card_->timer(side)->set_message({});
    words_card_->words(side)->set_message({});
    cups_->set_fault_message(side, {});
  }
}

void PairPage::say(const QString& sentence, const QString& title) {
  message_title_->setText(title);
  message_title_->setVisible(!title.isEmpty());
  message_->setText(sentence);
  message_box_->setVisible(!sentence.isEmpty());
}

void PairPage::put(Side side, const std::string& field, std::optional<Mark> mark) {
  take(mark_place(side, field), port_.put(serving_.id, side, field, mark));
}

void PairPage::answer(AttributeRow* row, std::optional<Direct> given) {
  const bool taken = take(answer_place(row->attribute().id), port_.answer(serving_.id, row->attribute().id, given));
  if (!taken || !given || row->answer() != given) return;
  const auto at = std::ranges::find(rows_, row);
  const auto next =
      std::find_if(at, rows_.end(), [](const AttributeRow* r) { return r->attribute().direct && !r->answer(); });
  if (next != rows_.end()) (*next)->setFocus();
}

void PairPage::unscored(NoScore answer) {
  if (!field_.empty() && marking_ && open(side_)) put(side_, field_, Mark(answer));
}

void PairPage::undo() {
  if (!port_.can_undo(serving_.id)) return;
  const Sheet before = sheet_;
  const auto done = port_.undo(serving_.id);
  if (!done) return say(text(wording::sentence(done.error())));
  const auto change = change_between(before, port_.sheet(serving_.id), serving_, port_.setup().attributes);
  take(change ? change->what : std::string(), done);
  if (change) say(QStringLiteral("Taken back: %1").arg(change->words));
}

void PairPage::forward() {
  if (read_only_) return emit looked();
  const auto all = steps();
  const auto at = static_cast<std::size_t>(step_index());
  if (at + 1 >= all.size())
    lock();
  else
    go(all[at + 1]);
}

void PairPage::back() {
  if (const int at = step_index(); at > 0) go(steps()[static_cast<std::size_t>(at - 1)]);
}

void PairPage::lock() {
  const LockReview review = port_.review(serving_.id);
  if (lock_words_.has_news(review)) {
    const QString named = lock_words_.name(review, serving_, port_.setup().attributes);
    say(named, QStringLiteral("Before you lock"));
    return refresh();
  }
  const auto done = port_.lock(serving_.id);
  take({}, done);
  if (done) emit locked();
}

}  // namespace likeleaf::ui
