#include "ui/brew/void_panel.h"

#include <QComboBox>
#include <QGridLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QStringList>
#include <set>

#include "core/acts/bench_sitting.h"
#include "core/wording/brew_text.h"
#include "ui/brew/brew_parts.h"
#include "ui/theme/theme.h"
#include "ui/widgets/blank_line.h"

namespace likeleaf::ui {

using namespace brewing;

VoidPanel::VoidPanel(Session& session, QWidget* parent) : QWidget(parent), session_(session) {
  const Tokens& t = tokens();
  auto* grid = new QGridLayout(this);
  grid->setContentsMargins(0, 0, 0, 0);
  grid->setHorizontalSpacing(18);
  grid->setVerticalSpacing(2);
  pair_ = choice(QStringLiteral("Pair to take out"), "void_pair", this);
  who_ = choice(QStringLiteral("Who takes it out"), "void_who", this);
  why_ = new BlankLine(QStringLiteral("Why this pair is taken out"), QStringLiteral("spilt, tainted, wrong portion …"),
                       this);
  why_->line()->setObjectName(QStringLiteral("void_why"));
  take_ = button(QStringLiteral("Take it &out, brew again"), "void_now", this);
  list_ = label({}, face(15), t.ink, this);
  list_->setObjectName(QStringLiteral("voids"));
  const auto head = [&](int column, const QString& words) {
    grid->addWidget(label(words, face(15), t.soft_ink, this), 0, column);
  };
  head(0, QStringLiteral("take out"));
  head(1, QStringLiteral("who"));
  head(2, QStringLiteral("why"));
  auto* refused = label({}, face(15), t.caution, this);
  refused->setObjectName(QStringLiteral("void_message"));
  refused->hide();
  why_->say_in(refused);
  int column = 0;
  for (QWidget* w : std::initializer_list<QWidget*>{pair_, who_, why_, take_})
    grid->addWidget(w, 1, column++, Qt::AlignBottom);
  take_->setMinimumHeight(40);
  grid->addWidget(refused, 2, 0, 1, 4);
  grid->addWidget(list_, 3, 0, 1, 4);
  grid->setColumnStretch(2, 1);
  connect(take_, &QPushButton::clicked, this, &VoidPanel::take_out);
}

void VoidPanel::begin() {
  pair_->setFocus();
}

void VoidPanel::refresh(int sitting, IdOf<Assessor> who) {
  const auto trial = session_.trial();
  if (!trial || !trial->sealed) return;
  fill_pairs(pair_, *trial, sitting);
  std::vector<Entry> people;
  std::set<IdOf<Assessor>> seen;
  for (const auto& person : trial->sealed->plan.assessors) {
    const Assessor* one = find_record(trial->sealed->registers.assessors, person.id);
    if (!one || !seen.insert(person.id).second) continue;
    const Entry entry{text(one->alias), text(one->alias)};
    people.insert(person.id == who ? people.begin() : people.end(), entry);
  }
  fill(who_, people);
  QStringList lines;
  for (const auto& one : taken_out(*trial, sitting)) lines << text(wording::taken_out_text(one));
  list_->setText(lines.isEmpty() ? QStringLiteral("No pair of this sitting was taken out.")
                                 : lines.join(QLatin1Char('\n')));
}

void VoidPanel::take_out() {
  const auto pair = chosen_pair(pair_);
  if (!pair) return;
  const auto kept = session_.run(
      VoidPair{*pair, who_->currentData().toString().toStdString(), why_->value().trimmed().toStdString()});
  why_->set_message(kept ? QString() : said(kept.error()));
  if (kept) why_->set_value({}, true);
}

}  // namespace likeleaf::ui
