#include "ui/widgets/word_picker.h"

#include <QCoreApplication>
#include <QEvent>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QVBoxLayout>
#include <algorithm>

#include "core/base/limits.h"
#include "core/domain/lexicon.h"
#include "ui/theme/theme.h"
#include "ui/widgets/quiet.h"

namespace likeleaf::ui {
namespace {

constexpr std::size_t most_offers = 5;

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
  line_->setObjectName(QStringLiteral("word_typed"));
  line_->setMaxLength(static_cast<int>(name_length));
  line_->installEventFilter(this);
  offers_ = new QListWidget(this);
  offers_->setObjectName(QStringLiteral("offers"));
  offers_->setAccessibleName(QStringLiteral("Words that fit"));
  offers_->setFocusPolicy(Qt::NoFocus);
  offers_->setFrameShape(QFrame::NoFrame);
  offers_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  offers_->setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  offers_->setStyleSheet(
      QStringLiteral("QListWidget{background:%1;border:1px solid %2;border-radius:4px}"
                     "QListWidget::item{padding:8px 10px;color:%3}"
                     "QListWidget::item:selected{background:%4;color:%3}")
          .arg(tokens().sheet.name(), tokens().soft_ink.name(), tokens().ink.name(), tokens().band.name()));
  offers_->hide();
  message_ = plain_label({}, face(15), tokens().caution, this);
  message_->hide();
  down->addWidget(chosen_);
  down->addWidget(line_);
  down->addWidget(message_);
  down->addStretch(1);
  connect(line_, &QLineEdit::textEdited, this, &WordPicker::offer);
  connect(offers_, &QListWidget::itemClicked, this, [this](QListWidgetItem* item) { add(item->text()); });
  connect(chosen_, &QLabel::linkActivated, this,
          [this](const QString& link) { take_away(static_cast<std::size_t>(link.toInt())); });
}

void WordPicker::take_away(std::size_t at) {
  if (at >= words_.size() || !open_) return;
  auto words = words_;
  words.erase(words.begin() + static_cast<std::ptrdiff_t>(at));
  emit words_wanted(words);
}

void WordPicker::set_open(bool open) {
  open_ = open;
  line_->setEnabled(open);
  if (!open) offers_->hide();
}

void WordPicker::set_message(const QString& message) {
  message_->setText(message);
  message_->setVisible(!message.isEmpty());
  line_->setAccessibleDescription(message);
}

void WordPicker::place_offers() {
  // Over what lies below: a list that pushed the sheet about would move what the hand is going for.
  if (offers_->parentWidget() != window()) offers_->setParent(window());
  int wide = line_->width();
  for (int i = 0; i < offers_->count(); ++i) wide = std::max(wide, offers_->sizeHintForColumn(0) + 24);
  offers_->resize(wide, offers_->sizeHintForRow(0) * offers_->count() + 4);
  const QPoint under = line_->mapTo(window(), QPoint(0, line_->height() + 2));
  offers_->move(std::min(under.x(), window()->width() - wide - 8),
                std::min(under.y(), window()->height() - offers_->height()));
  offers_->show();
  offers_->raise();
}

WordPicker::~WordPicker() {
  delete offers_;
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

void WordPicker::set_words(const std::vector<WordMark>& words, Keep keep) {
  if (words != words_) set_message({});
  words_ = words;
  keep_ = keep;
  show_words();
}

void WordPicker::set_veiled(bool veiled) {
  veiled_ = veiled;
  show_words();
}

void WordPicker::show_words() {
  const Tokens& t = tokens();
  const QColor ink = keep_ == Keep::kept ? t.ink : keep_ == Keep::waiting ? t.soft_ink : t.caution;
  QStringList parts, said;
  for (std::size_t i = 0; i < words_.size() && !veiled_; ++i) {
    said << shown(words_[i]);
    parts << QStringLiteral("<a href=\"%1\" style=\"color:%2;text-decoration:none\">%3</a>")
                 .arg(i)
                 .arg(ink.name(), shown(words_[i]).toHtmlEscaped());
  }
  if (!parts.isEmpty() && keep_ == Keep::failed) parts.front().prepend(QStringLiteral("! "));
  chosen_->setText(parts.join(QStringLiteral(" · ")));
  chosen_->setAccessibleName(said.join(QStringLiteral(", ")));
  chosen_->setToolTip(parts.isEmpty() || !open_ ? QString() : QStringLiteral("Click on a word to take it away"));
  chosen_->setVisible(!parts.isEmpty());
}

void WordPicker::offer() {
  offers_->clear();
  for (const AromaWord* word : find_words(lexicon_, line_->text().trimmed().toStdString(), most_offers)) {
    auto* item = new QListWidgetItem(QString::fromStdString(word->word), offers_);
    item->setToolTip(QString::fromStdString(word->definition));
  }
  if (offers_->count() > 0 && isVisible())
    place_offers();
  else
    offers_->hide();
}

void WordPicker::add(const QString& typed) {
  const auto mark = parse_word(lexicon_, typed.simplified().toStdString());
  if (!mark) return;
  auto words = words_;
  const auto there = std::ranges::find(words, mark->word, &WordMark::word);
  if (there == words.end())
    words.push_back(*mark);
  else
    there->strength = mark->strength;
  line_->clear();
  offer();
  emit words_wanted(words);
}

bool WordPicker::eventFilter(QObject* watched, QEvent* event) {
  if (watched != line_) return QWidget::eventFilter(watched, event);
  if (event->type() == QEvent::FocusIn) emit focused();
  if (event->type() == QEvent::Hide) offers_->hide();
  if (event->type() == QEvent::FocusOut) {
    // What was typed is not lost when one tabs on.
    add(line_->text());
    offers_->hide();
    return false;
  }
  if (event->type() != QEvent::KeyPress) return false;
  const int key = static_cast<QKeyEvent*>(event)->key();
  if (key == Qt::Key_Return || key == Qt::Key_Enter) {
    if (line_->text().trimmed().isEmpty()) {
      // Nothing more to add: on with the page around, though never to its lock.
      QKeyEvent onward(QEvent::KeyPress, Qt::Key_PageDown, Qt::NoModifier);
      QCoreApplication::sendEvent(parentWidget(), &onward);
      return true;
    }
    add(offers_->isVisible() && offers_->currentItem() ? offers_->currentItem()->text() : line_->text());
    return true;
  }
  if (key == Qt::Key_Tab && offers_->isVisible()) {
    add(offers_->item(std::max(0, offers_->currentRow()))->text());
    return true;
  }
  if ((key == Qt::Key_Down || key == Qt::Key_Up) && offers_->isVisible()) {
    offers_->setCurrentRow(
        std::clamp(offers_->currentRow() + (key == Qt::Key_Down ? 1 : -1), -1, offers_->count() - 1));
    return true;
  }
  if (key == Qt::Key_Backspace && line_->text().isEmpty() && !words_.empty()) {
    take_away(words_.size() - 1);
    return true;
  }
  if (key == Qt::Key_Escape && offers_->isVisible()) {
    offers_->hide();
    return true;
  }
  return false;
}

}  // namespace likeleaf::ui
