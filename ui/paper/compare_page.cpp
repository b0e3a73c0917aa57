#include "ui/paper/compare_page.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>
#include <algorithm>

#include "core/acts/paper_entry.h"
#include "core/wording/errors.h"
#include "ui/paper/paper_words.h"
#include "ui/theme/theme.h"
#include "ui/widgets/qt_text.h"
#include "ui/widgets/quiet.h"

namespace likeleaf::ui {
namespace {

QString told(const Result<std::uint64_t>& done) {
  return done ? QString() : text(wording::sentence(done.error()));
}

QString key_of(const Mismatch& mismatch) {
  return QStringLiteral("%1_%2").arg(!mismatch.side                 ? QStringLiteral("answer")
                                     : *mismatch.side == Side::left ? QStringLiteral("left")
                                                                    : QStringLiteral("right"),
                                     text(mismatch.field));
}

template <class T>
std::optional<T> value_in(const Entry& entry) {
  const T* value = std::get_if<T>(&entry);
  return value ? std::optional<T>(*value) : std::nullopt;
}

}  // namespace

ComparePage::ComparePage(TasterPort& port, const Style& style, QWidget* parent)
    : QScrollArea(parent), port_(port), style_(style) {
  setFrameShape(QFrame::NoFrame);
  setWidgetResizable(true);
  setFocusPolicy(Qt::NoFocus);
  setAccessibleName(QStringLiteral("Where the two entries differ"));
}

void ComparePage::show_pairs(const std::vector<BlindServing>& pairs) {
  pairs_ = pairs;
  const Tokens& t = tokens();
  auto* page = new QWidget;
  auto* down = new QVBoxLayout(page);
  down->setContentsMargins(28, 16, 28, 16);
  down->setSpacing(10);
  int differ = 0;
  bool second = false;
  auto* title = plain_label({}, face(17, Weight::semi_bold), t.ink, page);
  title->setObjectName(QStringLiteral("compare_title"));
  down->addWidget(title);
  std::vector<std::pair<BlindServing, LockReview>> reviews;
  for (const auto& serving : pairs_) {
    reviews.emplace_back(serving, port_.review(serving.id));
    second = second || !port_.sheet(serving.id).second.empty();
    for (const auto& mismatch : reviews.back().second.mismatches) {
      ++differ;
      add_mismatch(down, serving, mismatch);
    }
  }
  title->setText(
      differ > 0
          ? QStringLiteral("The two entries differ in %1 %2: look at the paper, then choose one or type it again.")
                .arg(differ)
                .arg(differ == 1 ? QStringLiteral("field") : QStringLiteral("fields"))
      : second ? QStringLiteral("The two entries agree wherever both were made.")
               : QStringLiteral("No second entry yet. Let somebody else type the sheets again under Second entry; "
                                "what differs is then named here."));
  for (const auto& [serving, found] : reviews)
    if (!found.once.empty()) add_once(down, serving, found);
  down->addWidget(plain_label(QStringLiteral("Words, faults, notes and which cup was first are typed once."), face(15),
                              t.soft_ink, page));
  down->addStretch(1);
  setWidget(page);
}

void ComparePage::add_mismatch(QVBoxLayout* down, const BlindServing& serving, const Mismatch& mismatch) {
  const Tokens& t = tokens();
  QWidget* page = down->parentWidget();
  const auto* attribute = find_attribute(port_.setup().attributes, std::string(attribute_of_field(mismatch.field)));
  const QString field = attribute ? field_name(*attribute, mismatch.field) : text(mismatch.field);
  const QString where =
      mismatch.side
          ? QStringLiteral("cup %1").arg(text((*mismatch.side == Side::left ? serving.left : serving.right).text()))
          : QStringLiteral("comparing sip");
  QString name = QStringLiteral("%1: %2, %3").arg(pair_name(serving), field, where);
  name[0] = name[0].toUpper();
  const QString key = key_of(mismatch);
  auto* across = new QHBoxLayout;
  across->setSpacing(12);
  auto* label = plain_label(name, face(15, Weight::medium), t.ink, page);
  label->setFixedWidth(430);
  across->addWidget(label);
  auto* said = plain_label({}, face(15), t.caution, page);
  said->setObjectName(QStringLiteral("said_%1_%2").arg(serving.place).arg(key));
  const auto choose = [&](const QString& which, const Entry& entry) {
    const QString words = QStringLiteral("%1: %2").arg(which, text(entry_text(entry, style_.decimal_mark)));
    auto* button = new QuietButton(words, QuietButton::Look::outlined, page);
    button->setObjectName(QStringLiteral("choose_%1_%2_%3").arg(which).arg(serving.place).arg(key));
    button->setAccessibleName(QStringLiteral("%1, %2").arg(name, words));
    button->setMinimumWidth(170);
    connect(button, &QPushButton::clicked, this, [this, serving, mismatch, entry, said] {
      const QString why = settle(serving, mismatch, entry);
      said->setText(why);
      if (why.isEmpty()) after_settling(serving);
    });
    across->addWidget(button);
  };
  choose(QStringLiteral("first"), mismatch.first);
  choose(QStringLiteral("second"), mismatch.second);
  auto* line = underlined_edit(QStringLiteral("or type it again"), page);
  line->setObjectName(QStringLiteral("retype_%1_%2").arg(serving.place).arg(key));
  line->setAccessibleName(QStringLiteral("%1, type it again").arg(name));
  line->setFixedWidth(150);
  connect(line, &QLineEdit::returnPressed, this, [this, serving, mismatch, line, said] {
    const QString why = retype(serving, mismatch, line->text());
    said->setText(why);
    if (why.isEmpty())
      after_settling(serving);
    else
      line->selectAll();
  });
  across->addWidget(line);
  across->addWidget(said, 1);
  down->addLayout(across);
}

void ComparePage::add_once(QVBoxLayout* down, const BlindServing& serving, const LockReview& review) {
  QStringList labels;
  for (const auto& label : review.once) labels << text(label);
  QString name = pair_name(serving);
  name[0] = name[0].toUpper();
  const auto progress = paper_progress(port_.setup().attributes, port_.sheet(serving.id));
  const QString which = static_cast<int>(labels.size()) == progress.first
                            ? QStringLiteral("all %1 fields").arg(labels.size())
                            : labels.join(QStringLiteral("; "));
  auto* words = plain_label(QStringLiteral("%1, entered once: %2.").arg(name, which), face(15), tokens().ink,
                            down->parentWidget());
  words->setObjectName(QStringLiteral("once_%1").arg(serving.place));
  down->addWidget(words);
}

QString ComparePage::settle(const BlindServing& serving, const Mismatch& mismatch, const Entry& entry) {
  if (!mismatch.side) return told(port_.settle_answer(serving.id, mismatch.field, value_in<Direct>(entry)));
  return told(port_.settle(serving.id, *mismatch.side, mismatch.field, value_in<Mark>(entry)));
}

QString ComparePage::retype(const BlindServing& serving, const Mismatch& mismatch, const QString& typed) {
  if (typed.trimmed().isEmpty()) return QStringLiteral("Type what the paper says, or choose one of the two.");
  if (!mismatch.side) {
    const auto answer = parse_paper_answer(typed.toStdString(), mismatch.label);
    if (!answer) return text(wording::sentence(answer.error()));
    return settle(serving, mismatch, *answer ? Entry(**answer) : Entry());
  }
  const auto* attribute = find_attribute(port_.setup().attributes, attribute_of_field(mismatch.field));
  const auto mark =
      parse_paper_mark(attribute ? attribute->scale : Scale::intensity, typed.toStdString(), mismatch.label);
  if (!mark) return text(wording::sentence(mark.error()));
  return settle(serving, mismatch, *mark ? Entry(**mark) : Entry());
}

/// Not while the button that was pressed is still at work: the page is built anew.
void ComparePage::after_settling(const BlindServing& serving) {
  const auto pair = std::ranges::find(pairs_, serving.id, &BlindServing::id) - pairs_.begin();
  QMetaObject::invokeMethod(
      this,
      [this, pair] {
        show_pairs(pairs_);
        focus_first();
        emit settled(static_cast<int>(pair));
      },
      Qt::QueuedConnection);
}

void ComparePage::focus_first() {
  if (const auto all = controls(); !all.empty()) all.front()->setFocus(Qt::TabFocusReason);
}

std::vector<QWidget*> ComparePage::controls() const {
  std::vector<QWidget*> out;
  if (widget() != nullptr)
    for (auto* child : widget()->findChildren<QWidget*>(QString(), Qt::FindDirectChildrenOnly))
      if (child->focusPolicy() & Qt::TabFocus) out.push_back(child);
  return out;
}

}  // namespace likeleaf::ui
