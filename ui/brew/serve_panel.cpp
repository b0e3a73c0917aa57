#include "ui/brew/serve_panel.h"

#include <QComboBox>
#include <QGridLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QStringList>

#include "core/acts/bench_sitting.h"
#include "core/base/number_text.h"
#include "core/wording/brew_text.h"
#include "core/wording/cautions.h"
#include "ui/brew/brew_parts.h"
#include "ui/theme/theme.h"
#include "ui/widgets/blank_line.h"

namespace likeleaf::ui {

using namespace brewing;

ServePanel::ServePanel(Session& session, const Clock& clock, const Style& style, QWidget* parent)
    : QWidget(parent), session_(session), clock_(clock), style_(style) {
  const Tokens& t = tokens();
  auto* grid = new QGridLayout(this);
  grid->setContentsMargins(0, 0, 0, 0);
  grid->setHorizontalSpacing(18);
  grid->setVerticalSpacing(2);
  pair_ = choice(QStringLiteral("Pair to serve"), "serve_pair", this);
  now_ = button(QStringLiteral("Serve &now"), "serve_now", this);
  left_ = new BlankLine(QStringLiteral("Left cup at first sip"), {}, this);
  left_->line()->setObjectName(QStringLiteral("first_sip_left"));
  right_ = new BlankLine(QStringLiteral("Right cup at first sip"), {}, this);
  right_->line()->setObjectName(QStringLiteral("first_sip_right"));
  when_ = label({}, face(15), t.ink, this);
  when_->setObjectName(QStringLiteral("served_at"));
  caution_ = label({}, face(15), t.caution, this);
  refused_ = label({}, face(15), t.caution, this);
  refused_->setObjectName(QStringLiteral("serve_message"));
  refused_->hide();
  for (auto* blank : {left_, right_}) blank->say_in(refused_);
  const auto head = [&](int column, const QString& words) {
    grid->addWidget(label(words, face(15), t.soft_ink, this), 0, column);
  };
  head(0, QStringLiteral("serve"));
  head(2, QStringLiteral("left cup, first sip"));
  head(3, QStringLiteral("right cup, first sip"));
  int column = 0;
  for (QWidget* w : std::initializer_list<QWidget*>{pair_, now_, left_, right_, when_})
    grid->addWidget(w, 1, column++, Qt::AlignBottom);
  now_->setMinimumHeight(40);
  grid->addWidget(refused_, 2, 0, 1, 5);
  grid->addWidget(caution_, 3, 0, 1, 5);
  for (const int wide : {2, 3}) grid->setColumnStretch(wide, 2);
  grid->setColumnStretch(4, 3);
  connect(pair_, &QComboBox::currentIndexChanged, this, [this] {
    left_->set_message({});
    right_->set_message({});
    show_values();
  });
  connect(now_, &QPushButton::clicked, this, &ServePanel::serve_now);
  connect(left_, &BlankLine::typed, this, [this](const QString& typed) { put(true, typed); });
  connect(right_, &BlankLine::typed, this, [this](const QString& typed) { put(false, typed); });
}

std::optional<ServedPair> ServePanel::served() const {
  const auto trial = session_.trial();
  const auto pair = chosen_pair(pair_);
  if (!trial || !pair) return std::nullopt;
  const auto found = trial->served.find(*pair);
  if (found != trial->served.end()) return found->second;
  ServedPair fresh;
  fresh.pair = *pair;
  return fresh;
}

void ServePanel::refresh(int sitting, bool keyed) {
  keyed_ = keyed;
  const auto trial = session_.trial();
  if (!trial || !trial->sealed) return;
  fill_pairs(pair_, *trial, sitting);
  const auto cautions =
      wording::cautions(wording::Step::serve, trial->sealed->plan, trial->sealed->registers.lots, style_);
  const auto hold = wording::cautions(wording::Step::hold, trial->sealed->plan, trial->sealed->registers.lots, style_);
  QStringList words;
  for (const auto* list : {&cautions, &hold})
    for (const auto& one : *list) words << text(one);
  caution_->setText(words.join(QLatin1Char(' ')));
  show_values();
}

void ServePanel::show_values() {
  const auto now = served();
  if (!now) return;
  left_->set_value(now->left ? text(temperature_text(*now->left, style_)) : QString());
  right_->set_value(now->right ? text(temperature_text(*now->right, style_)) : QString());
  // A slip of the hand is taken back where it was made.
  now_->setText(now->served ? QStringLiteral("Take it &back") : QStringLiteral("Serve &now"));
  const auto trial = session_.trial();
  now_->setEnabled(!trial->unmasked && !session_.read_only());
  when_->setText(pair_->currentText() +
                 (now->served ? QStringLiteral(" served ") + text(clock_text(*now->served))
                              : QStringLiteral(" not served yet") +
                                    text(wording::not_ready_text(brews_not_ready(*trial, now->pair), keyed_))));
}

void ServePanel::serve_now() {
  auto next = served();
  if (!next) return;
  const bool taken_back = next->served.has_value();
  if (taken_back)
    next->served.reset();
  else
    next->served = clock_.now();
  const auto kept = session_.run(PutServed{*next});
  show_values();
  refused_->setText(kept ? QString() : said(kept.error()));
  refused_->setVisible(!kept);
  if (kept && !taken_back) left_->line()->setFocus();
}

void ServePanel::put(bool left, const QString& typed) {
  auto next = served();
  if (!next) return;
  auto& into = left ? next->left : next->right;
  BlankLine* blank = left ? left_ : right_;
  std::optional<Error> wrong;
  if (typed.trimmed().isEmpty()) {
    into.reset();
  } else if (const auto read =
                 parse_temperature(typed.trimmed().toStdString(), style_, left ? "left cup" : "right cup");
             read) {
    into = *read;
  } else {
    wrong = read.error();
  }
  if (!wrong)
    if (const auto kept = session_.run(PutServed{*next}); !kept) wrong = kept.error();
  const auto stands = served();
  const auto& value = left ? stands->left : stands->right;
  blank->set_value(value ? text(temperature_text(*value, style_)) : QString(), true);
  blank->set_message(wrong ? said(*wrong) : QString());
}

}  // namespace likeleaf::ui
