#include "ui/brew/prepare_page.h"

#include <QCheckBox>
#include <QComboBox>
#include <QFrame>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QSignalBlocker>
#include <QStringList>
#include <QVBoxLayout>
#include <algorithm>

#include "core/acts/bench_sitting.h"
#include "core/domain/asked.h"
#include "core/wording/brew_text.h"
#include "ui/brew/brew_parts.h"
#include "ui/theme/theme.h"
#include "ui/widgets/quiet.h"

namespace likeleaf::ui {

using namespace brewing;

PreparePage::PreparePage(Session& session, const Style& style, QWidget* parent)
    : QWidget(parent), session_(session), style_(style) {
  const Tokens& t = tokens();
  auto* across = new QHBoxLayout(this);
  across->setContentsMargins(0, 0, 0, 0);
  across->setSpacing(28);

  auto* left = card(this);
  auto* down = new QVBoxLayout(left);
  down->setContentsMargins(24, 20, 24, 20);
  down->setSpacing(10);
  down->addWidget(label(QStringLiteral("First weigh every portion"), face(22, Weight::semi_bold), t.ink, left));
  down->addWidget(label(QStringLiteral("Mix and divide each lot, weigh and number its portions, tick it. Portions meet "
                                       "their level only afterwards, so nobody can weigh one level better."),
                        face(15), t.soft_ink, left));
  lots_ = new QVBoxLayout;
  lots_->setSpacing(8);
  down->addLayout(lots_);
  down->addStretch(1);
  across->addWidget(left, 1);

  auto* right = card(this);
  auto* beside = new QVBoxLayout(right);
  beside->setContentsMargins(24, 20, 24, 20);
  beside->setSpacing(10);
  beside->addWidget(label(QStringLiteral("Then brew in this order"), face(22, Weight::semi_bold), t.ink, right));
  places_ = label({}, face(15), t.ink, right);
  places_->setObjectName(QStringLiteral("places"));
  beside->addWidget(places_);
  beside->addStretch(1);
  message_ = label({}, face(15), t.caution, right);
  message_->setObjectName(QStringLiteral("prepare_message"));
  message_->hide();
  beside->addWidget(message_);
  ask_ = button(QStringLiteral("Open the &key…"), "ask_key", right);
  beside->addWidget(ask_, 0, Qt::AlignLeft);
  plain_ = button(QStringLiteral("&Brew without the key"), "without_key", right);
  beside->addWidget(plain_, 0, Qt::AlignLeft);

  asking_ = new QWidget(right);
  auto* deliberate = new QVBoxLayout(asking_);
  deliberate->setContentsMargins(0, 0, 0, 0);
  deliberate->setSpacing(10);
  deliberate->addWidget(label(QStringLiteral("The key is about to open. Tasters look away."),
                              face(18, Weight::semi_bold), t.caution, asking_));
  deliberate->addWidget(
      label(QStringLiteral("It is noted who opened it and when, and it closes with this view. Who prepares?"), face(15),
            t.soft_ink, asking_));
  auto* row = new QHBoxLayout;
  who_ = choice(QStringLiteral("Preparer"), "preparer", asking_);
  open_ = button(QStringLiteral("&Open it now"), "open_key", asking_, true);
  not_yet_ = button(QStringLiteral("&Not yet"), "not_yet", asking_);
  row->addWidget(who_);
  row->addWidget(open_);
  row->addWidget(not_yet_);
  row->addStretch(1);
  deliberate->addLayout(row);
  asking_->hide();
  beside->addWidget(asking_);
  across->addWidget(right, 1);

  connect(ask_, &QPushButton::clicked, this, [this] { ask(true); });
  connect(not_yet_, &QPushButton::clicked, this, [this] { ask(false); });
  connect(open_, &QPushButton::clicked, this, [this] { emit key_wanted(who_->currentData().toString()); });
  connect(plain_, &QPushButton::clicked, this, &PreparePage::without_key_wanted);
}

void PreparePage::ask(bool asking) {
  say({});
  asking_->setVisible(asking);
  ask_->setVisible(!asking);
  (asking ? static_cast<QWidget*>(who_) : ask_)->setFocus();
}

void PreparePage::say(const QString& sentence) {
  message_->setText(sentence);
  message_->setVisible(!sentence.isEmpty());
}

void PreparePage::fill_lots(const Trial& trial) {
  const Plan& plan = trial.sealed->plan;
  const auto wanted = portions_to_weigh(trial);
  const bool same =
      std::ranges::equal(wanted, ticks_, {}, &LotPortions::lot, [](const auto& tick) { return tick.first; });
  if (!same) {
    for (const auto& [id, box] : ticks_) delete box;
    ticks_.clear();
    for (const LotPortions& portions : wanted) {
      auto* box = new QCheckBox(this);
      box->setMinimumHeight(36);
      box->setFont(face(18));
      lots_->addWidget(box);
      ticks_.emplace_back(portions.lot, box);
      connect(box, &QCheckBox::toggled, this, [this, lot = portions.lot](bool on) {
        const auto kept = session_.run(TickWeighed{lot, on});
        say(kept ? QString() : said(kept.error()));
        if (!kept && session_.trial()) fill_lots(*session_.trial());
      });
    }
  }
  // Made after the buttons, but read before them.
  if (!same && !ticks_.empty()) {
    for (std::size_t i = 1; i < ticks_.size(); ++i) setTabOrder(ticks_[i - 1].second, ticks_[i].second);
    QWidget* before = ticks_.back().second;
    for (QWidget* button : std::initializer_list<QWidget*>{ask_, plain_, who_, open_, not_yet_}) {
      setTabOrder(before, button);
      before = button;
    }
  }
  const auto leaf = leaf_of_every_brew(plan);
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    const auto& [id, box] = ticks_[i];
    const Lot* lot = find_record(trial.sealed->registers.lots, id);
    const std::string code = lot ? lot->code : "lot";
    const QSignalBlocker quiet(box);
    const QString line = text(wording::portions_text(code, wanted[i].portions, leaf, style_));
    box->setText(button_text(line));
    box->setObjectName(QStringLiteral("weighed_") + text(code));
    box->setAccessibleName(QStringLiteral("%1 weighed and numbered").arg(line));
    box->setChecked(std::ranges::find(trial.weighed, id) != trial.weighed.end());
    box->setEnabled(!trial.unmasked && !session_.read_only());
  }
}

void PreparePage::refresh(int sitting) {
  const auto trial = session_.trial();
  if (!trial || !trial->sealed) return;
  fill_lots(*trial);
  const Plan& plan = trial->sealed->plan;
  // Number, place in the order and how far it is; no lot and no level, since tasters may stand here.
  QStringList lines;
  int place = 0;
  for (const auto* brew : brews_of_sitting(*trial, sitting)) {
    lines << QStringLiteral("%1.  brew %2, %3").arg(++place).arg(brew->number).arg(text(wording::phase_text(*brew)));
  }
  places_->setText(lines.isEmpty() ? QStringLiteral("This sitting has no brews.") : lines.join(QLatin1Char('\n')));
  std::vector<Entry> people;
  for (const auto& person : plan.assessors)
    if (person.role == Role::preparer) {
      const Assessor* one = find_record(trial->sealed->registers.assessors, person.id);
      people.push_back({one ? text(one->alias) : QStringLiteral("preparer"), text(person.id.text())});
    }
  fill(who_, people);
  const bool closed_for_good = trial->unmasked.has_value() || session_.read_only();
  const bool self = plan.blinding == Blinding::self;
  asking_->setVisible(false);
  ask_->setVisible(!closed_for_good && !self && !people.empty());
  plain_->setVisible(!closed_for_good && self);
  if (trial->unmasked)
    say(QStringLiteral("This trial is unmasked. What was brewed changes only by an amendment with a reason."));
  else if (session_.read_only())
    say(QStringLiteral("This book is open for reading only."));
}

}  // namespace likeleaf::ui
