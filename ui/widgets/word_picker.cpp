#include "ui/widgets/word_picker.h"

#include <QEvent>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QVBoxLayout>
#include <algorithm>

#include "ui/theme/theme.h"
#include "ui/widgets/quiet.h"

namespace likeleaf::ui {
namespace {

constexpr int letters_before_offers = 3;
constexpr int most_offers = 5;

}  // namespace

WordPicker::WordPicker(std::vector<AromaWord> lexicon, QWidget* parent)
    : QWidget(parent), lexicon_(std::move(lexicon)) {
  auto* down = new QVBoxLayout(this);
  down->setContentsMargins(0, 0, 0, 0);
  down->setSpacing(2);
  chosen_ = plain_label({}, face(15), tokens().ink, this);
  chosen_->setObjectName(QStringLiteral("chosen"));
  chosen_->setTextFormat(Qt::RichText);
  chosen_->setTextInteractionFlags(Qt::LinksAccessibleByMouse);
  line_ = underlined_edit(QStringLiteral("type a word"), this);
  line_->setMaxLength(60);
  line_->installEventFilter(this);
  offers_ = new QListWidget(this);
  offers_->setObjectName(QStringLiteral("offers"));
  offers_->setAccessibleName(QStringLiteral("Words that fit"));
  offers_->setFocusPolicy(Qt::NoFocus);
  offers_->setFrameShape(QFrame::NoFrame);
  offers_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  offers_->hide();
  down->addWidget(chosen_);
  down->addWidget(line_);
  down->addWidget(offers_);
  down->addStretch(1);
  connect(line_, &QLineEdit::textEdited, this, &WordPicker::offer);
  connect(offers_, &QListWidget::itemClicked, this, [this](QListWidgetItem* item) { add(item->text()); });
  connect(chosen_, &QLabel::linkActivated, this, [this](const QString& link) {
    const auto at = static_cast<std::size_t>(link.toInt());
    if (at >= words_.size() || !isEnabled()) return;
    auto words = words_;
    words.erase(words.begin() + static_cast<std::ptrdiff_t>(at));
    emit words_wanted(words);
  });
}

void WordPicker::set_name(const QString& name) {
  line_->setAccessibleName(name);
}

QString WordPicker::shown(const WordMark& mark) const {
  const auto known = std::ranges::find(lexicon_, mark.word, &AromaWord::id);
  QString text = QString::fromStdString(known == lexicon_.end() ? mark.word : known->word);
  if (mark.strength) text += QStringLiteral(" %1").arg(*mark.strength);
  return text;
}

void WordPicker::set_words(const std::vector<WordMark>& words) {
  words_ = words;
  show_words();
}

void WordPicker::set_veiled(bool veiled) {
  veiled_ = veiled;
  show_words();
}

void WordPicker::show_words() {
  QStringList parts;
  for (std::size_t i = 0; i < words_.size() && !veiled_; ++i)
    parts << QStringLiteral("<a href=\"%1\" style=\"color:%2;text-decoration:none\">%3</a>")
                 .arg(i)
                 .arg(tokens().ink.name(), shown(words_[i]).toHtmlEscaped());
  chosen_->setText(parts.join(QStringLiteral(" · ")));
  chosen_->setVisible(!parts.isEmpty());
}

void WordPicker::offer() {
  offers_->clear();
  const QString typed = line_->text().trimmed();
  if (typed.size() >= letters_before_offers) {
    // Words that begin with what was typed come before those that only hold it.
    for (const bool begins : {true, false})
      for (const auto& word : lexicon_) {
        const QString text = QString::fromStdString(word.word);
        if (offers_->count() >= most_offers || text.startsWith(typed, Qt::CaseInsensitive) != begins ||
            !text.contains(typed, Qt::CaseInsensitive))
          continue;
        auto* item = new QListWidgetItem(text, offers_);
        item->setToolTip(QString::fromStdString(word.definition));
      }
  }
  offers_->setFixedHeight(offers_->count() ? offers_->sizeHintForRow(0) * offers_->count() + 4 : 0);
  offers_->setVisible(offers_->count() > 0);
}

void WordPicker::add(QString typed) {
  typed = typed.simplified();
  if (typed.isEmpty()) return;
  WordMark mark;
  if (typed.size() > 2 && typed.at(typed.size() - 2) == QLatin1Char(' ') &&
      QStringLiteral("123").contains(typed.back())) {
    mark.strength = typed.back().digitValue();
    typed.chop(2);
  }
  const auto known = std::ranges::find_if(lexicon_, [&](const AromaWord& w) {
    return QString::fromStdString(w.word).compare(typed, Qt::CaseInsensitive) == 0;
  });
  mark.word = known == lexicon_.end() ? typed.toStdString() : known->id;
  auto words = words_;
  const auto there = std::ranges::find(words, mark.word, &WordMark::word);
  if (there == words.end())
    words.push_back(mark);
  else
    there->strength = mark.strength;
  line_->clear();
  offer();
  emit words_wanted(words);
}

bool WordPicker::eventFilter(QObject* watched, QEvent* event) {
  if (watched != line_) return QWidget::eventFilter(watched, event);
  if (event->type() == QEvent::FocusOut) {
    // What was typed is not lost when one tabs on.
    add(line_->text());
    offers_->hide();
    return false;
  }
  if (event->type() != QEvent::KeyPress) return false;
  const int key = static_cast<QKeyEvent*>(event)->key();
  if (key == Qt::Key_Return || key == Qt::Key_Enter) {
    if (line_->text().trimmed().isEmpty()) return false;
    add(offers_->isVisible() && offers_->currentItem() ? offers_->currentItem()->text() : line_->text());
    return true;
  }
  if ((key == Qt::Key_Down || key == Qt::Key_Up) && offers_->isVisible()) {
    offers_->setCurrentRow(
        std::clamp(offers_->currentRow() + (key == Qt::Key_Down ? 1 : -1), -1, offers_->count() - 1));
    return true;
  }
  if (key == Qt::Key_Backspace && line_->text().isEmpty() && !words_.empty()) {
    auto words = words_;
    words.pop_back();
    emit words_wanted(words);
    return true;
  }
  return false;
}

}  // namespace likeleaf::ui
