#include "ui/paper/paper_grid.h"

#include <QAccessible>
#include <QFrame>
#include <QGridLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QScrollBar>
#include <QVBoxLayout>
#include <algorithm>

#include "core/acts/paper_entry.h"
#include "core/wording/errors.h"
#include "ui/paper/paper_cell.h"
#include "ui/paper/paper_words.h"
#include "ui/theme/theme.h"
#include "ui/widgets/qt_text.h"
#include "ui/widgets/quiet.h"
#include "ui/widgets/word_picker.h"

namespace likeleaf::ui {
namespace {

constexpr int name_width = 232, half_width = 62, gap = 14;
/// Rows of the layout over the first box: the pair, its codes, how far it is.
constexpr int head_rows = 3;

QString side_name(Side side) {
  return side == Side::left ? QStringLiteral("left") : QStringLiteral("right");
}

BlindCode code(const BlindServing& serving, Side side) {
  return side == Side::left ? serving.left : serving.right;
}

/// Colours of letters are the palette's: a style sheet would thin out the hint in an empty box.
QString style_of_cells() {
  const Tokens& t = tokens();
  return QStringLiteral(
             "QLineEdit{background:%1;border:1px solid %2;border-radius:3px;padding:0 5px}"
             "QLineEdit:focus{border:2px solid %3;padding:0 4px}"
             "QLineEdit:disabled{background:transparent}")
      .arg(t.sheet.name(), t.line.name(), t.action.name());
}

}  // namespace

PaperGrid::PaperGrid(TasterPort& port, const Style& style, QWidget* parent)
    : QScrollArea(parent), port_(port), style_(style) {
  setFrameShape(QFrame::NoFrame);
  setWidgetResizable(true);
  setFocusPolicy(Qt::NoFocus);
  setAccessibleName(QStringLiteral("Paper sheets of this sitting"));
  viewport()->setAutoFillBackground(false);
}

std::vector<PaperGrid::Line> PaperGrid::lines() const {
  std::vector<Line> out;
  const auto& attributes = port_.setup().attributes;
  for (const auto& attribute : attributes) {
    auto fields = mark_fields(attribute);
    std::ranges::reverse(fields);  // top notes over base notes, as on the sheet
    for (const auto& field : fields) out.push_back({Row::mark, &attribute, field, field_name(attribute, field), false});
  }
  bool first = true;
  for (const auto& attribute : attributes)
    if (attribute.direct) {
      out.push_back({Row::answer, &attribute, attribute.id,
                     QStringLiteral("%1: more in").arg(field_name(attribute, attribute.id)), first});
      first = false;
    }
  out.push_back({Row::words, nullptr, "words", QStringLiteral("Aroma words"), true});
  out.push_back({Row::fault, nullptr, "fault", QStringLiteral("Fault in the cup"), false});
  out.push_back({Row::first, nullptr, "first", QStringLiteral("Sipped first"), false});
  out.push_back({Row::note, nullptr, "note", QStringLiteral("Note"), false});
  out.push_back({Row::saw, nullptr, "saw", QStringLiteral("Saw a difference"), true});
  out.push_back({Row::way, nullptr, "way", QStringLiteral("House’s way as now"), false});
  return out;
}

void PaperGrid::show_pairs(const std::vector<BlindServing>& pairs, PaperEntry entry) {
  const bool same = sheet_ != nullptr && pairs == pairs_;
  if (!same || entry != entry_) commit();
  entry_ = entry;
  if (!same) {
    pairs_ = pairs;
    build();
  }
  refresh();
}

void PaperGrid::build() {
  cells_.clear();
  heads_.clear();
  guesses_.clear();
  in_hand_.reset();
  words_cell_.reset();
  sheet_ = new QWidget;
  sheet_->setObjectName(QStringLiteral("paper_sheets"));
  sheet_->setStyleSheet(style_of_cells());
  auto* grid = new QGridLayout(sheet_);
  grid->setContentsMargins(28, 3, 28, 4);
  grid->setHorizontalSpacing(4);
  grid->setVerticalSpacing(1);
  const auto rows = lines();
  grid->setColumnMinimumWidth(0, name_width);
  for (std::size_t pair = 0; pair < pairs_.size(); ++pair) {
    const int column = 1 + 3 * static_cast<int>(pair);
    grid->setColumnMinimumWidth(column, gap);
    for (const int half : {column + 1, column + 2}) {
      grid->setColumnMinimumWidth(half, half_width);
      grid->setColumnStretch(half, 1);
    }
    heads_.push_back({});
    make_head(grid, pair, column + 1);
    int at = head_rows;
    for (const auto& line : rows) {
      if (line.new_group) grid->setRowMinimumHeight(at++, 4);
      const bool per_cup = line.row == Row::mark || line.row == Row::words || line.row == Row::fault;
      if (per_cup)
        for (const Side side : {Side::left, Side::right})
          make_cell(grid, at, column + (side == Side::left ? 1 : 2), 1, pair, line, side);
      else
        make_cell(grid, at, column + 1, 2, pair, line, std::nullopt);
      ++at;
    }
    auto* lock = new QuietButton(QStringLiteral("Lock"), QuietButton::Look::outlined, sheet_);
    lock->setObjectName(QStringLiteral("lock_%1").arg(pair));
    lock->setAccessibleName(QStringLiteral("Lock %1").arg(pair_name(pairs_[pair])));
    connect(lock, &QPushButton::clicked, this, [this, pair] { emit lock_wanted(static_cast<int>(pair)); });
    lock->setStyleSheet(lock->styleSheet() + QStringLiteral("QPushButton{padding:2px 8px}"));
    heads_[pair].lock = lock;
    grid->setRowMinimumHeight(at++, 3);
    grid->addWidget(lock, at, column + 1, 1, 2);
  }
  int at = head_rows;
  for (const auto& line : rows) {
    if (line.new_group) ++at;
    auto* name = plain_label(line.name, face(15), tokens().ink, sheet_);
    name->setWordWrap(false);
    grid->addWidget(name, at++, 0);
  }
  grid->setRowStretch(at + 3, 1);
  said_ = new QLabel(sheet_);
  said_->setObjectName(QStringLiteral("cell_message"));
  said_->setFont(face(15));
  said_->setTextFormat(Qt::PlainText);
  said_->setWordWrap(true);
  said_->setStyleSheet(
      QStringLiteral("QLabel{background:%1;color:%2;border:1px solid %2;border-radius:4px;padding:4px}")
          .arg(tokens().sheet.name(), tokens().caution.name()));
  said_->hide();
  words_box_ = new QFrame(sheet_);
  words_box_->setObjectName(QStringLiteral("words_box"));
  words_box_->setStyleSheet(QStringLiteral("QFrame#words_box{background:%1;border:2px solid %2;border-radius:6px}")
                                .arg(tokens().sheet.name(), tokens().action.name()));
  auto* down = new QVBoxLayout(words_box_);
  down->setContentsMargins(10, 8, 10, 8);
  down->setSizeConstraint(QLayout::SetFixedSize);  // grows and shrinks with what is offered
  words_title_ = plain_label({}, face(15, Weight::semi_bold), tokens().ink, words_box_);
  words_ = new WordPicker(port_.setup().lexicon, words_box_);
  words_->setObjectName(QStringLiteral("words_picker"));
  words_->setFixedWidth(260);
  words_->line()->setObjectName(QStringLiteral("words_line"));
  words_->line()->installEventFilter(this);
  down->addWidget(words_title_);
  down->addWidget(words_);
  connect(words_, &WordPicker::words_wanted, this, [this](const std::vector<WordMark>& words) {
    if (!words_cell_) return;
    const Cell& cell = cells_[*words_cell_];
    QString why = ready(pairs_[cell.pair]);
    if (why.isEmpty()) why = put(port_.words(pairs_[cell.pair].id, *cell.side, words));
    words_->set_words(port_.sheet(pairs_[cell.pair].id).cup(*cell.side).words);
    if (!why.isEmpty()) say_at(cell.edit, why);
    emit changed();
  });
  words_box_->hide();
  setWidget(sheet_);
  sheet_->setAutoFillBackground(false);
}

void PaperGrid::make_head(QGridLayout* grid, std::size_t pair, int column) {
  const Tokens& t = tokens();
  const BlindServing& serving = pairs_[pair];
  Head& head = heads_[pair];
  QString title = pair_name(serving);
  title[0] = title[0].toUpper();
  head.title = plain_label(title, face(15, Weight::semi_bold), t.ink, sheet_);
  head.title->setObjectName(QStringLiteral("pair_%1").arg(pair));
  head.title->setWordWrap(false);
  grid->addWidget(head.title, 0, column, 1, 2);
  for (const Side side : {Side::left, Side::right}) {
    auto* label = plain_label(text(code(serving, side).text()), face(17, Weight::semi_bold), t.ink, sheet_);
    label->setAccessibleName(QStringLiteral("cup %1, %2").arg(text(code(serving, side).text()), side_name(side)));
    label->setWordWrap(false);
    grid->addWidget(label, 1, column + (side == Side::left ? 0 : 1));
  }
  head.progress = plain_label({}, face(13), t.soft_ink, sheet_);
  head.progress->setObjectName(QStringLiteral("progress_%1").arg(pair));
  head.progress->setWordWrap(false);
  grid->addWidget(head.progress, 2, column, 1, 2);
}

void PaperGrid::make_cell(QGridLayout* grid, int at, int column, int span, std::size_t pair, const Line& line,
                          std::optional<Side> side) {
  const BlindServing& serving = pairs_[pair];
  const std::size_t index = cells_.size();
  auto* edit = new PaperCell([this, index](const QString& typed) { return take(index, typed); }, sheet_);
  const QString where = side                      ? side_name(*side)
                        : line.row == Row::answer ? QStringLiteral("answer")
                                                  : QStringLiteral("pair");
  edit->setObjectName(QStringLiteral("cell_%1_%2_%3").arg(pair).arg(where, text(line.field)));
  edit->setAccessibleName(
      side ? QStringLiteral("%1, cup %2, %3").arg(line.name, text(code(serving, *side).text()), side_name(*side))
           : QStringLiteral("%1, %2").arg(line.name, pair_name(serving)));
  if (line.row == Row::first) edit->setPlaceholderText(QStringLiteral("as planned: %1").arg(side_name(serving.first)));
  cells_.push_back({edit, pair, line.row, side, line.attribute, line.field});
  grid->addWidget(edit, at, column, 1, span);
  connect(edit, &PaperCell::focused, this, [this, index] {
    const Cell& cell = cells_[index];
    in_hand_ = cell.pair;
    ensureWidgetVisible(cell.edit, 20, 60);
    emit hint_changed(hint(cell));
  });
  connect(edit, &PaperCell::refused, this, [this, edit](const QString& sentence) { say_at(edit, sentence); });
  connect(edit, &PaperCell::accepted, this, [this] {
    say_at(nullptr, {});
    emit changed();
  });
  connect(edit, &PaperCell::sideways, this, [this, index](int step) { sideways(index, step); });
  connect(edit, &PaperCell::undo_wanted, this, &PaperGrid::undo_wanted);
  connect(edit, &QLineEdit::textEdited, this, [this, index] {
    say_at(nullptr, {});
    if (cells_[index].row == Row::words) open_words(index);
  });
  if (line.row == Row::words) connect(edit, &PaperCell::pressed, this, [this, index] { open_words(index); });
}

/// The boxes of one pair in the order of the printed sheet: cup by cup, the one sipped first before the other, or
/// attribute by attribute; then the comparing sip, what both share, and the two questions.
std::vector<std::size_t> PaperGrid::flow(std::size_t pair) const {
  std::vector<std::size_t> order;
  const auto add = [&](std::optional<Side> side, auto wanted) {
    for (std::size_t i = 0; i < cells_.size(); ++i)
      if (cells_[i].pair == pair && cells_[i].side == side && wanted(cells_[i])) order.push_back(i);
  };
  const Side first = pairs_[pair].first;
  if (port_.setup().attribute_by_attribute) {
    for (const auto& line : lines())
      for (const Side side : {first, other(first)})
        add(side, [&](const Cell& cell) { return cell.row == line.row && cell.field == line.field; });
  } else {
    for (const Side side : {first, other(first)}) add(side, [](const Cell&) { return true; });
  }
  add(std::nullopt, [](const Cell&) { return true; });
  return order;
}

std::vector<QWidget*> PaperGrid::controls() const {
  std::vector<QWidget*> order;
  for (std::size_t pair = 0; pair < pairs_.size(); ++pair)
    for (const auto i : flow(pair)) order.push_back(cells_[i].edit);
  for (const auto& head : heads_) order.push_back(head.lock);
  return order;
}

QString PaperGrid::put(const Result<std::uint64_t>& done) {
  return done ? QString() : text(wording::sentence(done.error()));
}

/// A sheet is started as a paper sheet by its first entry.
QString PaperGrid::ready(const BlindServing& serving) {
  const Sheet sheet = port_.sheet(serving.id);
  if (sheet.started && sheet.entered_by == EnteredBy::paper) return {};
  return put(port_.start(serving.id, EnteredBy::paper));
}

QString PaperGrid::take(std::size_t index, const QString& typed) {
  const Cell& cell = cells_[index];
  const BlindServing& serving = pairs_[cell.pair];
  const std::string said = typed.toStdString();
  if (cell.row == Row::words) return {};
  const auto write = [&](auto act) {
    QString why = ready(serving);
    if (why.isEmpty()) why = put(act());
    return why;
  };
  QString why;
  switch (cell.row) {
    case Row::mark:
      why = take_mark(cell, said);
      break;
    case Row::answer:
      why = take_answer(cell, said);
      break;
    case Row::fault: {
      const QString note = typed.simplified();
      const bool cross = note.compare(QStringLiteral("x"), Qt::CaseInsensitive) == 0 || note == QStringLiteral("fault");
      why = write([&] {
        return port_.fault(serving.id, *cell.side, !note.isEmpty(), cross ? std::string() : note.toStdString());
      });
      break;
    }
    case Row::first: {
      const auto side = parse_paper_side(said, "sipped first");
      why = side ? write([&] { return port_.sipped_first(serving.id, *side); }) : text(wording::sentence(side.error()));
      break;
    }
    case Row::note:
      why = write([&] { return port_.note(serving.id, said); });
      break;
    case Row::saw:
    case Row::way:
      why = take_guess(cell, said);
      break;
    case Row::words:
      break;
  }
  if (why.isEmpty()) refresh();
  return why;
}

QString PaperGrid::take_mark(const Cell& cell, const std::string& typed) {
  const BlindServing& serving = pairs_[cell.pair];
  const std::string name =
      field_name(*cell.attribute, cell.field).toStdString() + ", cup " + code(serving, *cell.side).text();
  const auto mark = parse_paper_mark(cell.attribute->scale, typed, name);
  if (!mark) return text(wording::sentence(mark.error()));
  if (entry_ == PaperEntry::second) return put(port_.second(serving.id, *cell.side, cell.field, *mark));
  if (const QString why = ready(serving); !why.isEmpty()) return why;
  return put(port_.put(serving.id, *cell.side, cell.field, *mark));
}

QString PaperGrid::take_answer(const Cell& cell, const std::string& typed) {
  const BlindServing& serving = pairs_[cell.pair];
  const auto answer = parse_paper_answer(typed, cell.attribute->name + ", comparing sip");
  if (!answer) return text(wording::sentence(answer.error()));
  if (entry_ == PaperEntry::second) return put(port_.second_answer(serving.id, cell.field, *answer));
  if (const QString why = ready(serving); !why.isEmpty()) return why;
  return put(port_.answer(serving.id, cell.field, *answer));
}

/// A guess stands once it is kept, so it is kept when both questions are answered.
QString PaperGrid::take_guess(const Cell& cell, const std::string& typed) {
  const BlindServing& serving = pairs_[cell.pair];
  PendingGuess& pending = guesses_[serving.id];
  if (cell.row == Row::saw) {
    const auto saw = parse_paper_yes(typed, "saw a difference");
    if (!saw) return text(wording::sentence(saw.error()));
    pending.saw = *saw;
  } else {
    const auto way = parse_paper_guess(typed, "house’s way as now");
    if (!way) return text(wording::sentence(way.error()));
    pending.way = *way;
  }
  if (!pending.saw || !pending.way) return {};
  const QString why = put(port_.guess(serving.id, Guess{*pending.saw, *pending.way}));
  if (why.isEmpty()) guesses_.erase(serving.id);
  return why;
}

QString PaperGrid::shown(const Cell& cell, const Sheet& sheet) const {
  const bool second = entry_ == PaperEntry::second;
  switch (cell.row) {
    case Row::mark: {
      const auto& marks = second ? sheet.second.cup(*cell.side) : sheet.cup(*cell.side).marks;
      const auto mark = marks.find(cell.field);
      return mark == marks.end() ? QString() : text(box_text(mark->second, style_.decimal_mark));
    }
    case Row::answer: {
      const auto& answers = second ? sheet.second.directs : sheet.directs;
      const auto answer = answers.find(cell.field);
      return answer == answers.end() ? QString() : text(answer_text(answer->second));
    }
    case Row::words: {
      QStringList words;
      for (const auto& word : sheet.cup(*cell.side).words) {
        const auto known = std::ranges::find(port_.setup().lexicon, word.word, &AromaWord::id);
        words << text(known == port_.setup().lexicon.end() ? word.word : known->word) +
                     (word.strength ? QStringLiteral(" %1").arg(*word.strength) : QString());
      }
      return words.join(QStringLiteral(", "));
    }
    case Row::fault: {
      const CupMarks& cup = sheet.cup(*cell.side);
      return !cup.fault ? QString() : cup.fault_note.empty() ? QStringLiteral("fault") : text(cup.fault_note);
    }
    case Row::first:
      return sheet.sipped_first ? side_name(*sheet.sipped_first) : QString();
    case Row::note:
      return text(sheet.note);
    case Row::saw:
    case Row::way:
      break;
  }
  const auto pending = guesses_.find(sheet.serving);
  std::optional<bool> saw;
  std::optional<std::optional<Side>> way;
  if (sheet.guess) {
    saw = sheet.guess->saw_difference;
    way = sheet.guess->present_way;
  } else if (pending != guesses_.end()) {
    saw = pending->second.saw;
    way = pending->second.way;
  }
  if (cell.row == Row::saw) return !saw ? QString() : *saw ? QStringLiteral("yes") : QStringLiteral("no");
  return !way ? QString() : *way ? side_name(**way) : QStringLiteral("no idea");
}

QString PaperGrid::in_words(const Cell& cell, const Sheet& sheet) const {
  if (cell.row != Row::mark) return {};
  const auto& marks = entry_ == PaperEntry::second ? sheet.second.cup(*cell.side) : sheet.cup(*cell.side).marks;
  const auto mark = marks.find(cell.field);
  if (mark == marks.end()) return {};
  const QString words = text(mark_text(mark->second, style_.decimal_mark));
  return words == shown(cell, sheet) ? QString() : words;
}

bool PaperGrid::usable(const Cell& cell, const Sheet& sheet) const {
  if (cell.row == Row::saw || cell.row == Row::way) return sheet.locked && !sheet.guess;
  if (sheet.locked || (sheet.entered_by == EnteredBy::screen && written_on(sheet))) return false;
  return entry_ == PaperEntry::first || cell.row == Row::mark || cell.row == Row::answer;
}

QString PaperGrid::hint(const Cell& cell) const {
  const auto legend = [&]() -> QString {
    switch (cell.row) {
      case Row::mark:
        return cell.attribute->scale == Scale::seconds
                   ? QStringLiteral("whole seconds, <3, >120 · ") + text(paper_legend_marks)
                   : QStringLiteral("0 to 10, then . or , for a half · ") + text(paper_legend_marks);
      case Row::answer:
        return text(paper_legend_answers);
      case Row::words:
        return QStringLiteral("type a word; Enter takes it, Enter again goes on; Backspace takes the last away");
      case Row::fault:
        return QStringLiteral("X, or what it was");
      case Row::first:
        return QStringLiteral("L or R where the taster did otherwise than planned");
      case Row::note:
        return QStringLiteral("as written");
      case Row::saw:
        return QStringLiteral("Y or N; both questions are kept together and then stand");
      case Row::way:
        return QStringLiteral("which cup was the house’s way as now? L, R, or = no idea");
    }
    return {};
  }();
  return QStringLiteral("%1 — %2").arg(cell.edit->accessibleName(), legend);
}

void PaperGrid::refresh() {
  for (std::size_t pair = 0; pair < pairs_.size(); ++pair) {
    const Sheet sheet = port_.sheet(pairs_[pair].id);
    for (const auto& cell : cells_) {
      if (cell.pair != pair) continue;
      const QString now = shown(cell, sheet);
      cell.edit->set_kept(now);
      // What the box abbreviates or cuts off is there in words, to the pointer and to a screen reader.
      const QString words = in_words(cell, sheet);
      cell.edit->setToolTip(tip_text(!words.isEmpty() ? words : now.size() > 8 ? now : QString()));
      cell.edit->setEnabled(usable(cell, sheet));
    }
    show_head(pair, sheet);
  }
}

void PaperGrid::show_head(std::size_t pair, const Sheet& sheet) {
  const Head& head = heads_[pair];
  const PaperProgress progress = paper_progress(port_.setup().attributes, sheet);
  const bool on_screen = sheet.entered_by == EnteredBy::screen && written_on(sheet);
  head.progress->setText(
      on_screen ? QStringLiteral("tasted on screen")
                : QStringLiteral("%1 of %2, second %3").arg(progress.first).arg(progress.fields).arg(progress.second));
  head.progress->setAccessibleName(on_screen ? head.progress->text()
                                             : QStringLiteral("%1: %2 of %3 fields, second entry %4 of %3")
                                                   .arg(pair_name(pairs_[pair]))
                                                   .arg(progress.first)
                                                   .arg(progress.fields)
                                                   .arg(progress.second));
  head.lock->setEnabled(!sheet.locked && !on_screen);
  head.lock->setText(sheet.locked ? QStringLiteral("locked ") + text(clock_text(*sheet.locked))
                                  : QStringLiteral("Lock"));
}

void PaperGrid::set_lock_text(std::size_t pair, const QString& words) {
  if (pair >= heads_.size()) return;
  heads_[pair].lock->setText(words);
  // What was said beside the buttons may have taken room from the boxes.
  QMetaObject::invokeMethod(
      this,
      [this, pair] {
        if (pair < heads_.size()) ensureWidgetVisible(heads_[pair].lock, 20, 4);
      },
      Qt::QueuedConnection);
}

void PaperGrid::commit() {
  if (words_cell_) close_words(false);
  for (const auto& cell : cells_) cell.edit->commit();
}

void PaperGrid::focus_first() {
  PaperCell *blank = nullptr, *any = nullptr;
  for (std::size_t pair = 0; pair < pairs_.size(); ++pair)
    for (const auto i : flow(pair)) {
      const Cell& cell = cells_[i];
      if (!cell.edit->isEnabled()) continue;
      if (any == nullptr) any = cell.edit;
      const bool asked = cell.row == Row::mark || cell.row == Row::answer || cell.row == Row::saw;
      if (blank == nullptr && asked && cell.edit->text().isEmpty()) blank = cell.edit;
    }
  if (auto* to = blank ? blank : any) to->setFocus();
}

void PaperGrid::focus_cell(const QString& object_name) {
  for (const auto& cell : cells_)
    if (cell.edit->objectName() == object_name && cell.edit->isEnabled()) return cell.edit->setFocus();
}

/// The box of the same row in the next cup (or pair) that can be typed in.
void PaperGrid::sideways(std::size_t index, int step) {
  const Cell& from = cells_[index];
  std::vector<std::size_t> row;
  for (std::size_t i = 0; i < cells_.size(); ++i)
    if (cells_[i].row == from.row && cells_[i].field == from.field && (cells_[i].edit->isEnabled() || i == index))
      row.push_back(i);
  const auto at = std::ranges::find(row, index) - row.begin() + step;
  if (at >= 0 && at < static_cast<std::ptrdiff_t>(row.size()))
    cells_[row[static_cast<std::size_t>(at)]].edit->setFocus();
}

void PaperGrid::say_at(PaperCell* cell, const QString& sentence) {
  for (const auto& one : cells_)
    if (!one.edit->accessibleDescription().isEmpty()) one.edit->setAccessibleDescription({});
  said_->setVisible(cell != nullptr);
  said_->setText(sentence);
  if (cell == nullptr) return;
  cell->setAccessibleDescription(sentence);
  said_->setFixedWidth(std::min(360, sheet_->width() - 40));
  said_->adjustSize();
  const QRect at = cell->geometry();
  const int y =
      at.bottom() + 3 + said_->height() <= sheet_->height() ? at.bottom() + 3 : at.top() - 3 - said_->height();
  said_->move(std::clamp(at.left(), 8, std::max(8, sheet_->width() - said_->width() - 8)), y);
  said_->raise();
  QAccessibleEvent told(said_, QAccessible::Alert);
  QAccessible::updateAccessibility(&told);
}

void PaperGrid::open_words(std::size_t index) {
  const Cell& cell = cells_[index];
  if (!cell.edit->isEnabled() || words_cell_ == index) return;
  const QString typed = cell.edit->text() == cell.edit->kept() ? QString() : cell.edit->text();
  cell.edit->setText(cell.edit->kept());
  words_cell_ = index;
  const BlindServing& serving = pairs_[cell.pair];
  const QString name = QStringLiteral("Aroma words, cup %1").arg(text(code(serving, *cell.side).text()));
  words_title_->setText(name);
  words_->set_name(name);
  words_->set_words(port_.sheet(serving.id).cup(*cell.side).words);
  // Over the boxes beside it: offers need room under the line.
  constexpr int room = 230;
  const QRect at = cell.edit->geometry();
  const int y = std::min(at.top(), std::max(0, sheet_->height() - room));
  words_box_->move(std::clamp(at.left(), 8, std::max(8, sheet_->width() - 288)), y);
  words_box_->show();
  words_box_->raise();
  words_->line()->setFocus();
  words_->line()->setText(typed);
}

void PaperGrid::close_words(bool go_on) {
  if (!words_cell_) return;
  PaperCell* edit = cells_[*words_cell_].edit;
  // Leaving the line adds what was typed in it, while the picker still knows whose it is.
  words_->line()->clearFocus();
  words_cell_.reset();
  words_box_->hide();
  refresh();
  if (!go_on) return;
  edit->setFocus();
  QKeyEvent enter(QEvent::KeyPress, Qt::Key_Return, Qt::NoModifier);
  QCoreApplication::sendEvent(edit, &enter);
}

void PaperGrid::keyPressEvent(QKeyEvent* event) {
  event->ignore();
}

bool PaperGrid::eventFilter(QObject* watched, QEvent* event) {
  if (words_ == nullptr || watched != words_->line() || !words_cell_) return QScrollArea::eventFilter(watched, event);
  if (event->type() == QEvent::KeyPress) {
    const int key = static_cast<QKeyEvent*>(event)->key();
    const bool empty = words_->line()->text().trimmed().isEmpty();
    const bool enter = key == Qt::Key_Return || key == Qt::Key_Enter;
    if ((enter && empty) || key == Qt::Key_Tab) {
      close_words(true);
      return true;
    }
    if (key == Qt::Key_Escape) {
      words_->line()->clear();
      PaperCell* edit = cells_[*words_cell_].edit;
      close_words(false);
      edit->setFocus();
      return true;
    }
  }
  if (event->type() == QEvent::FocusOut && static_cast<QFocusEvent*>(event)->reason() != Qt::ActiveWindowFocusReason)
    QMetaObject::invokeMethod(
        this,
        [this] {
          if (words_cell_ && !words_->line()->hasFocus()) close_words(false);
        },
        Qt::QueuedConnection);
  return QScrollArea::eventFilter(watched, event);
}

}  // namespace likeleaf::ui
