#include "ui/taste/pair_cards.h"

#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QVBoxLayout>

#include "ui/theme/theme.h"
#include "ui/widgets/quiet.h"
#include "ui/widgets/score_scale.h"
#include "ui/widgets/tap_timer.h"
#include "ui/widgets/word_picker.h"

namespace likeleaf::ui {
namespace {

QVBoxLayout* dress(QFrame* frame, const QString& title) {
  frame->setObjectName(QStringLiteral("card"));
  frame->setStyleSheet(QStringLiteral("QFrame#card{background:%1;border:1px solid %2;border-radius:8px}")
                           .arg(tokens().sheet.name(), tokens().line.name()));
  auto* down = new QVBoxLayout(frame);
  down->setContentsMargins(16, 10, 16, 10);
  down->setSpacing(4);
  down->addWidget(plain_label(title, face(15, Weight::semi_bold), tokens().ink, frame));
  return down;
}

constexpr std::array sides{Side::left, Side::right};

}  // namespace

FinishCard::FinishCard(const Clock& clock, QWidget* parent) : QFrame(parent) {
  auto* down = dress(this, QStringLiteral("Finish length"));
  auto* values = new QHBoxLayout;
  values->setSpacing(24);
  for (std::size_t i = 0; i < 2; ++i) {
    timers_[i] = new TapTimer(clock, this);
    timers_[i]->setObjectName(sides[i] == Side::left ? QStringLiteral("timer_left") : QStringLiteral("timer_right"));
    down->addWidget(timers_[i]);
    given_[i] = plain_label({}, face(19, Weight::medium), tokens().ink, this);
    given_[i]->setWordWrap(false);
    values->addWidget(given_[i]);
  }
  values->addStretch(1);
  down->addLayout(values);
  hint_ = plain_label({}, face(15), tokens().soft_ink, this);
  down->addWidget(hint_);
  down->addStretch(1);
}

void FinishCard::set_look(const Look& left, const Look& right, bool both, bool given) {
  for (std::size_t i = 0; i < 2; ++i) {
    const Look& look = i == 0 ? left : right;
    timers_[i]->set_name(QStringLiteral("Finish length, cup ") + look.code, both ? look.code : QString());
    timers_[i]->set_mark(look.mark, look.keep);
    timers_[i]->setVisible(look.timed || timers_[i]->running());
    given_[i]->setText(QStringLiteral("%1  %2").arg(
        look.code, look.mark
                       ? (look.keep == Keep::failed ? QStringLiteral("! ") : QString()) + TapTimer::text_of(*look.mark)
                       : QStringLiteral("–")));
    soften(given_[i], look.keep);
    given_[i]->setVisible(given && !timers_[i]->running());
  }
}

void FinishCard::set_hint(const QString& hint) {
  hint_->setText(hint);
  hint_->setVisible(!hint.isEmpty());
}

AromaCard::AromaCard(const std::string& attribute, char decimal_mark, QWidget* parent) : QFrame(parent) {
  auto* down = dress(this, QStringLiteral("Aroma, where it sits"));
  down->setSpacing(1);
  for (const auto& [part, shown] :
       {std::pair("top", "Top"), std::pair("middle", "Middle"), std::pair("base", "Base")}) {
    const std::string field = attribute + "." + part;
    auto* line = new QHBoxLayout;
    Band band{field, QString::fromLatin1(shown), new ScoreScale(Side::left, this), new ScoreScale(Side::right, this)};
    auto* name = plain_label(band.name, face(15), tokens().ink, this);
    name->setAlignment(Qt::AlignCenter);
    name->setFixedWidth(66);
    for (auto* scale : {band.left, band.right}) {
      scale->set_size(ScoreScale::Size::band);
      scale->set_decimal_mark(decimal_mark);
      scale->setObjectName((scale == band.left ? QStringLiteral("left_") : QStringLiteral("right_")) +
                           QString::fromStdString(field));
    }
    line->addWidget(band.left, 1);
    line->addWidget(name);
    line->addWidget(band.right, 1);
    down->addLayout(line);
    bands_.push_back(band);
  }
  message_ = plain_label({}, face(15), tokens().caution, this);
  message_->setObjectName(QStringLiteral("message_aroma"));
  message_->hide();
  down->addWidget(message_);
  down->addStretch(1);
}

void AromaCard::set_message(const QString& message) {
  message_->setText(message);
  message_->setVisible(!message.isEmpty());
}

WordsCard::WordsCard(const std::vector<AromaWord>& lexicon, QWidget* parent) : QFrame(parent) {
  auto* down = dress(this, QStringLiteral("Words"));
  auto* two = new QHBoxLayout;
  two->setSpacing(14);
  for (std::size_t i = 0; i < 2; ++i) {
    words_[i] = new WordPicker(lexicon, this);
    words_[i]->setObjectName(sides[i] == Side::left ? QStringLiteral("words_left") : QStringLiteral("words_right"));
    two->addWidget(words_[i], 1, Qt::AlignBottom);
  }
  down->addLayout(two);
  down->addSpacing(6);
  note_ = underlined_edit(QStringLiteral("note on this pair"), this);
  note_->setObjectName(QStringLiteral("pair_note"));
  note_->setAccessibleName(QStringLiteral("Note on this pair"));
  note_->setMaxLength(2000);
  note_->installEventFilter(this);
  connect(note_, &QLineEdit::editingFinished, this, &WordsCard::keep_note);
  down->addWidget(note_);
  message_ = plain_label({}, face(15), tokens().caution, this);
  message_->setObjectName(QStringLiteral("message_note"));
  message_->hide();
  down->addWidget(message_);
  down->addStretch(1);
}

void WordsCard::keep_note() {
  if (note_->text().toStdString() != kept_note_) emit note_wanted(note_->text().toStdString());
}

void WordsCard::set_note(const std::string& note, Keep keep, bool open) {
  if (note != kept_note_) set_message({});
  kept_note_ = note;
  if (!note_->hasFocus()) note_->setText(QString::fromStdString(note));
  note_->setReadOnly(!open);
  soften(note_, keep);
}

void WordsCard::set_message(const QString& message) {
  message_->setText(message);
  message_->setVisible(!message.isEmpty());
}

bool WordsCard::eventFilter(QObject* watched, QEvent* event) {
  // Enter in a note that was changed keeps it; in one that was not it walks on.
  if (watched == note_ && event->type() == QEvent::KeyPress && !note_->isReadOnly()) {
    const int key = static_cast<QKeyEvent*>(event)->key();
    if ((key == Qt::Key_Return || key == Qt::Key_Enter) && note_->text().toStdString() != kept_note_) {
      keep_note();
      return true;
    }
  }
  return QFrame::eventFilter(watched, event);
}

}  // namespace likeleaf::ui
