#include "ui/findings/sheet_forms.h"

#include <QComboBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QStackedWidget>
#include <QVBoxLayout>
#include <algorithm>

#include "core/wording/errors.h"
#include "ui/widgets/blank_line.h"
#include "ui/widgets/paper_parts.h"

namespace likeleaf::ui {
namespace {

QString said(const Error& error) {
  return QString::fromStdString(wording::sentence(error));
}

std::string plain(const BlankLine* line) {
  return line->value().trimmed().toStdString();
}

/// False, and a sentence under the blank, when nothing is written in it; the first such blank gets the focus.
bool filled(BlankLine* line, Field field, const char* allowed, bool first) {
  const bool empty = line->value().trimmed().isEmpty();
  line->set_message(empty ? said({ErrorKind::missing, {}, {}, allowed, {}, field}) : QString());
  if (empty && first) line->line()->setFocus();
  return !empty;
}

QHBoxLayout* act_row(QPushButton* yes, QPushButton* no) {
  auto* row = new QHBoxLayout;
  row->setSpacing(14);
  row->addWidget(yes);
  row->addWidget(no);
  row->addStretch(1);
  return row;
}

BlankLine* named_blank(QVBoxLayout* down, const QString& name, const QString& object, const QString& hint,
                       QWidget* parent) {
  down->addWidget(label(name, face(15), tokens().soft_ink, parent));
  auto* line = new BlankLine(name, hint, parent);
  line->line()->setObjectName(object);
  down->addWidget(line);
  return line;
}

}  // namespace

WhoAndWhy::WhoAndWhy(const QString& stem, const QString& why_hint, QWidget* parent) : QWidget(parent) {
  auto* down = new QVBoxLayout(this);
  down->setContentsMargins(0, 0, 0, 0);
  down->setSpacing(4);
  why_ = named_blank(down, QStringLiteral("Why"), stem + QStringLiteral("_why"), why_hint, this);
  who_ = named_blank(down, QStringLiteral("Who"), stem + QStringLiteral("_who"), QStringLiteral("initials"), this);
}

std::string WhoAndWhy::who() const {
  return plain(who_);
}
std::string WhoAndWhy::why() const {
  return plain(why_);
}

bool WhoAndWhy::complete() {
  const bool why = filled(why_, Field::reason, "a few words", true);
  const bool who = filled(who_, Field::who, "initials", why);
  return why && who;
}

void WhoAndWhy::say(const Error& error) {
  why_->set_message(said(error));
}

bool WhoAndWhy::refuse(const Error& error) {
  auto* at = error.at == Field::who ? who_ : error.at == Field::reason ? why_ : nullptr;
  if (at) at->set_message(said(error));
  return at != nullptr;
}

AmendForm::AmendForm(const Trial& trial, IdOf<Serving> serving, const Style& style, int at, QWidget* parent)
    : QWidget(parent), lines_(mark_lines(trial, serving, style)) {
  auto* down = new QVBoxLayout(this);
  down->setContentsMargins(0, 0, 0, 0);
  down->setSpacing(4);
  down->addWidget(label(QStringLiteral("Which mark"), face(15), tokens().soft_ink, this));
  which_ = new QComboBox(this);
  which_->setObjectName(QStringLiteral("amend_which"));
  which_->setAccessibleName(QStringLiteral("Which mark"));
  which_->setFont(face(15));
  which_->setMinimumHeight(34);
  for (const auto& line : lines_) which_->addItem(line.name + QStringLiteral(": ") + line.now);
  down->addWidget(which_);
  now_ = label({}, face(15), tokens().soft_ink, this);
  now_->setObjectName(QStringLiteral("amend_now"));
  down->addWidget(now_);
  down->addWidget(label(QStringLiteral("New value"), face(15), tokens().soft_ink, this));
  value_ = new QStackedWidget(this);
  mark_ = new BlankLine(QStringLiteral("New value"), {}, value_);
  mark_->line()->setObjectName(QStringLiteral("amend_value"));
  direct_ = new QComboBox(value_);
  direct_->setObjectName(QStringLiteral("amend_answer"));
  direct_->setAccessibleName(QStringLiteral("New answer"));
  direct_->setFont(face(15));
  direct_->setMinimumHeight(34);
  const auto found = std::ranges::find(trial.servings, serving, &BlindServing::id);
  if (found != trial.servings.end())
    for (const char* answer : {"left_more", "right_more", "cannot_tell", ""})
      direct_->addItem(value_words(*found, true, answer, style), QString::fromLatin1(answer));
  value_->addWidget(mark_);
  value_->addWidget(direct_);
  down->addWidget(value_);
  reason_ =
      new WhoAndWhy(QStringLiteral("amend"), QStringLiteral("typed 8 for 6; said so before the key was opened"), this);
  down->addWidget(reason_);
  auto* yes = outlined_button(QStringLiteral("Change it"), QStringLiteral("amend_yes"), this);
  auto* no = quiet_button(QStringLiteral("Turn back"), QStringLiteral("amend_no"), this);
  down->addLayout(act_row(yes, no));
  connect(which_, &QComboBox::currentIndexChanged, this, &AmendForm::show_line);
  connect(yes, &QPushButton::clicked, this, &AmendForm::wanted);
  connect(no, &QPushButton::clicked, this, &AmendForm::left);
  which_->setCurrentIndex(std::max(0, at));
  show_line(which_->currentIndex());
}

const MarkLine& AmendForm::line() const {
  return lines_[static_cast<std::size_t>(std::clamp(which_->currentIndex(), 0, static_cast<int>(lines_.size()) - 1))];
}

void AmendForm::show_line(int) {
  if (lines_.empty()) return;
  const auto& one = line();
  now_->setText(one.was.isEmpty() ? QStringLiteral("now: ") + one.now
                                  : QStringLiteral("now: %1 (at first: %2)").arg(one.now, one.was));
  mark_->line()->setPlaceholderText(one.seconds ? QStringLiteral("seconds, under 3, over 120, or blank")
                                                : QStringLiteral("0 to 10 by halves, could not judge, or blank"));
  mark_->set_message({});
  value_->setCurrentIndex(one.direct ? 1 : 0);
}

Amendment AmendForm::amendment() const {
  Amendment out = line().target;
  const std::string typed = plain(mark_);
  out.new_value = line().direct ? direct_->currentData().toString().toStdString() : typed == "blank" ? "" : typed;
  out.who = reason_->who();
  out.why = reason_->why();
  return out;
}

bool AmendForm::complete() {
  if (lines_.empty()) return false;
  const bool value =
      line().direct || filled(mark_, Field::new_value, "a mark as on the sheet, or “blank” to take it away", true);
  return reason_->complete() && value;
}

void AmendForm::refuse(const Error& error) {
  mark_->set_message({});
  if (reason_->refuse(error)) return;
  mark_->set_message(said(error));
  mark_->line()->setFocus();
  mark_->line()->selectAll();
}

void AmendForm::say_same() {
  mark_->set_message(QStringLiteral("That is what stands already."));
  now_->setText(QStringLiteral("That is what stands already: ") + line().now);
}

ExcludeForm::ExcludeForm(bool unmasked, QWidget* parent) : QWidget(parent) {
  auto* down = new QVBoxLayout(this);
  down->setContentsMargins(0, 0, 0, 0);
  down->setSpacing(4);
  down->addWidget(label(unmasked ? QStringLiteral("The key is open: what decides was fixed then. Excluding this sheet "
                                                  "changes a sensitivity line only. It stays in the book, greyed, and "
                                                  "cannot be taken back in.")
                                 : QStringLiteral("The sheet stays in the book, greyed, with its reason; it will not "
                                                  "decide, and cannot be taken back in."),
                        face(15), tokens().ink, this));
  reason_ = new WhoAndWhy(QStringLiteral("exclude"), QStringLiteral("had a cold"), this);
  down->addWidget(reason_);
  said_ = label({}, face(15), tokens().caution, this);
  said_->setObjectName(QStringLiteral("exclude_said"));
  said_->hide();
  down->addWidget(said_);
  auto* yes = outlined_button(QStringLiteral("Exclude the sheet"), QStringLiteral("exclude_yes"), this);
  auto* no = quiet_button(QStringLiteral("Turn back"), QStringLiteral("exclude_no"), this);
  down->addLayout(act_row(yes, no));
  connect(yes, &QPushButton::clicked, this, &ExcludeForm::wanted);
  connect(no, &QPushButton::clicked, this, &ExcludeForm::left);
}

std::string ExcludeForm::who() const {
  return reason_->who();
}
std::string ExcludeForm::why() const {
  return reason_->why();
}
bool ExcludeForm::complete() {
  return reason_->complete();
}
void ExcludeForm::refuse(const Error& error) {
  if (reason_->refuse(error)) return;
  said_->setText(said(error));
  said_->show();
}

}  // namespace likeleaf::ui
