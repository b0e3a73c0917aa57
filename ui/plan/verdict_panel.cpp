#include "ui/plan/verdict_panel.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QScrollArea>
#include <QScrollBar>
#include <QVBoxLayout>

#include "core/base/number_text.h"
#include "core/domain/engine_rule.h"
#include "core/domain/needs.h"
#include "core/wording/errors.h"

namespace likeleaf::ui {
namespace {

void need_row(const QString& name, const QString& value, QVBoxLayout* down, QWidget* parent) {
  auto* across = new QHBoxLayout;
  auto* n = words(name, face(15), tokens().soft_ink, parent);
  auto* v = words(value, face(15, Weight::semi_bold), tokens().ink, parent);
  v->setAlignment(Qt::AlignRight | Qt::AlignTop);
  across->addWidget(n, 1, Qt::AlignTop);
  across->addWidget(v, 3);
  down->addLayout(across);
}

QString leaf_text(const LotNeed& need, const Registers& registers, const Style& style) {
  const auto* lot = find_record(registers.lots, need.lot);
  const QString mass = qt(mass_text(need.leaf + need.open_reference_leaf, style));
  return QStringLiteral("%1 of %2%3")
      .arg(mass, lot ? qt(lot->code) : QStringLiteral("?"),
           need.stock ? QStringLiteral(" (%1 there)").arg(qt(mass_text(*need.stock, style))) : QString());
}

void fill_needs(const Plan& plan, const Registers& registers, const Style& style, QVBoxLayout* down, QWidget* parent) {
  const Needs need = needs(plan, registers);
  QStringList leaves;
  for (const auto& lot : need.lots)
    if (lot.leaf.count() + lot.open_reference_leaf.count() > 0) leaves << leaf_text(lot, registers, style);
  if (!leaves.isEmpty()) need_row(QStringLiteral("leaf"), leaves.join(QLatin1Char('\n')), down, parent);
  need_row(QStringLiteral("water"), qt(volume_text(need.water, style)), down, parent);
  need_row(QStringLiteral("brews"),
           QStringLiteral("%1, at most %2 a sitting%3")
               .arg(need.brews)
               .arg(need.most_brews_in_a_sitting)
               .arg(need.open_reference_brews > 0 ? QStringLiteral(", and %1 open").arg(need.open_reference_brews)
                                                  : QString()),
           down, parent);
  need_row(
      QStringLiteral("cups"),
      QStringLiteral("%1 a sitting, %2 each").arg(need.most_cups_in_a_sitting).arg(qt(volume_text(need.cup, style))),
      down, parent);
  need_row(QStringLiteral("each taster"),
           QStringLiteral("%1 × %2 min").arg(need.sittings).arg(need.sitting_for_taster.count() / 60'000), down,
           parent);
}

}  // namespace

VerdictPanel::VerdictPanel(PlanEditor& editor, QWidget* parent) : QWidget(parent), editor_(editor) {
  const Tokens& t = tokens();
  setAutoFillBackground(true);
  QPalette sheet = palette();
  sheet.setColor(QPalette::Window, t.sheet);
  setPalette(sheet);
  auto* down = new QVBoxLayout(this);
  down->setContentsMargins(18, 14, 18, 14);
  scroll_ = new QScrollArea(this);
  scroll_->setObjectName(QStringLiteral("plan.verdict"));
  scroll_->setAccessibleName(QStringLiteral("What the plan can decide, needs, and what stands in the way"));
  scroll_->setFrameShape(QFrame::NoFrame);
  scroll_->setWidgetResizable(true);
  scroll_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  scroll_->viewport()->setAutoFillBackground(false);
  down->addWidget(scroll_, 1);
  refusal_ = words({}, face(15), t.caution, this);
  refusal_->setObjectName(QStringLiteral("seal.refusal"));
  refusal_->hide();
  down->addWidget(refusal_);
  auto* across = new QHBoxLayout;
  across->setSpacing(12);
  seal_ = new QPushButton(QStringLiteral("&Seal the plan"), this);
  seal_->setObjectName(QStringLiteral("seal"));
  seal_->setAccessibleName(QStringLiteral("Seal the plan"));
  seal_->setFont(face(15, Weight::semi_bold));
  seal_->setMinimumSize(134, 44);
  seal_->setStyleSheet(
      QStringLiteral(
          "QPushButton { background: %1; color: %2; border: 2px solid %1; border-radius: 6px; padding: 0 12px; }"
          "QPushButton:focus { border-color: %3; } QPushButton:disabled { background: %4; border-color: %4; color: %5; "
          "}")
          .arg(t.action.name(), t.on_action.name(), t.ink.name(), t.band.name(), t.soft_ink.name()));
  beside_ = words({}, face(15), t.soft_ink, this);
  beside_->setObjectName(QStringLiteral("sealed"));
  across->addWidget(seal_);
  across->addWidget(beside_, 1);
  down->addLayout(across);
  connect(seal_, &QPushButton::clicked, this, [this] {
    const auto done = editor_.session().seal();
    refusal_->setText(done ? QString() : qt(wording::sentence(done.error())));
    refusal_->setVisible(!done);
  });
}

void VerdictPanel::refresh(const Trial& trial) {
  const int at = scroll_->verticalScrollBar()->value();
  auto* page = new QWidget;
  auto* down = new QVBoxLayout(page);
  down->setContentsMargins(0, 0, 0, 0);
  down->setSpacing(6);
  bool blocked = false;
  fill(trial, down, blocked);
  down->addStretch(1);
  page->setAutoFillBackground(false);
  scroll_->setWidget(page);
  scroll_->verticalScrollBar()->setValue(at);
  seal_->setVisible(!editor_.locked());
  seal_->setEnabled(!blocked);
  if (trial.sealed) {
    beside_->setText(QStringLiteral("Sealed %1, %2. Only a reasoned amendment changes it now.")
                         .arg(qt(date_text(trial.sealed->sealed)), qt(clock_text(trial.sealed->sealed))));
    refusal_->hide();
  } else if (editor_.locked()) {
    beside_->setText(QStringLiteral("This book is open for reading only."));
  } else {
    beside_->setText(blocked ? QStringLiteral("first clear what stands in the way")
                             : QStringLiteral("codes are drawn; after that only a reasoned amendment changes it"));
  }
}

void VerdictPanel::fill(const Trial& trial, QVBoxLayout* down, bool& blocked) {
  const Tokens& t = tokens();
  const Plan& plan = trial.draft;
  const auto& registers = trial.sealed ? trial.sealed->registers : editor_.session().registers();
  auto* page = down->parentWidget();
  const auto head = [&](const QString& s) { down->addWidget(words(s, face(16, Weight::semi_bold), t.ink, page)); };
  const auto forecast = engine_forecast(plan);
  head(QStringLiteral("What it can decide"));
  auto* decides =
      words(qt(forecast.sentence), face(15), forecast.kind == EngineForecast::Kind::describe ? t.caution : t.ink, page);
  decides->setObjectName(QStringLiteral("decides"));
  down->addWidget(decides);
  down->addSpacing(8);
  head(QStringLiteral("What it needs"));
  fill_needs(plan, registers, editor_.style(), down, page);
  down->addSpacing(8);
  const OneVariable one = one_variable(plan);
  head(one.holds ? QStringLiteral("One variable changes.") : QStringLiteral("More than one variable changes."));
  for (const auto& problem : one.problems) down->addWidget(words(qt(problem), face(15), t.caution, page));
  if (trial.sealed) return;
  down->addSpacing(8);
  const auto notes = check(plan, editor_.session().registers(), editor_.session().attributes());
  for (const auto weight : {PlanNote::Weight::blocks, PlanNote::Weight::caution}) {
    bool first = true;
    for (const auto& note : notes) {
      // One variable and what it can say stand above already.
      if (note.weight != weight || note.error.field == "one variable" || note.error.field == "what it can say")
        continue;
      if (first)
        head(weight == PlanNote::Weight::blocks ? QStringLiteral("What stands in the way")
                                                : QStringLiteral("Worth a second look"));
      first = false;
      blocked = blocked || weight == PlanNote::Weight::blocks;
      auto* l = words(QStringLiteral("– ") + qt(wording::sentence(note.error)), face(15),
                      weight == PlanNote::Weight::blocks ? t.ink : t.caution, page);
      l->setObjectName(weight == PlanNote::Weight::blocks ? QStringLiteral("block") : QStringLiteral("caution"));
      down->addWidget(l);
    }
  }
}

}  // namespace likeleaf::ui
