#include "ui/plan/verdict_panel.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPainter>
#include <QScrollArea>
#include <QScrollBar>
#include <QVBoxLayout>
#include <algorithm>

#include "core/base/number_text.h"
#include "core/planning/engine_rule.h"
#include "core/planning/needs.h"
#include "core/planning/one_variable.h"
#include "core/planning/plan_check.h"
#include "core/wording/forecast_text.h"
#include "core/wording/one_variable_text.h"
#include "core/wording/plan_note_text.h"
#include "ui/plan/plan_places.h"
#include "ui/widgets/paper_parts.h"

namespace likeleaf::ui {
namespace {

constexpr int note_indent = 14;

/// Name and value over a hairline.
void need_row(const QString& name, const QString& value, bool short_of, QVBoxLayout* down, QWidget* parent) {
  auto* across = new QHBoxLayout;
  auto* n = words(name, face(15), tokens().soft_ink, parent);
  auto* v = words(value, face(15, Weight::semi_bold), short_of ? tokens().caution : tokens().ink, parent);
  v->setAlignment(Qt::AlignRight | Qt::AlignTop);
  across->addWidget(n, 0, Qt::AlignTop);
  across->addWidget(v, 1);
  auto* line = new QFrame(parent);
  line->setFixedHeight(1);
  QPalette ruled = line->palette();
  ruled.setColor(QPalette::Window, tokens().line);
  line->setAutoFillBackground(true);
  line->setPalette(ruled);
  down->addWidget(line);
  down->addLayout(across);
}

struct LeafText {
  QString text;
  bool short_of = false;
};

/// "32 g of each, 24 g of L-21"; what will not last is said with what is there.
LeafText leaf_text(const Plan& plan, const Needs& need, const Registers& registers, const Style& style) {
  LeafText out;
  QStringList parts;
  const auto total = [](const LotNeed& lot) { return lot.leaf + lot.open_reference_leaf; };
  const auto in_trial = std::min(plan.lots.size(), need.lots.size());
  const bool alike =
      in_trial > 1 && std::all_of(need.lots.begin(), need.lots.begin() + static_cast<std::ptrdiff_t>(in_trial),
                                  [&](const LotNeed& lot) { return total(lot) == total(need.lots[0]); });
  if (alike && total(need.lots[0]).count() > 0)
    parts << QStringLiteral("%1 of each").arg(qt(mass_text(total(need.lots[0]), style)));
  for (std::size_t i = 0; i < need.lots.size(); ++i) {
    const LotNeed& lot = need.lots[i];
    if (total(lot).count() == 0 || (alike && i < in_trial && lot.lasts)) continue;
    const auto* known = find_record(registers.lots, lot.lot);
    const QString code = known ? qt(known->code) : QStringLiteral("?");
    out.short_of = out.short_of || !lot.lasts;
    if (lot.lasts)
      parts << QStringLiteral("%1 of %2").arg(qt(mass_text(total(lot), style)), code);
    else
      parts << QStringLiteral("only %1 of %2 there").arg(qt(mass_text(lot.stock.value_or(Mass()), style)), code);
  }
  out.text = parts.join(QStringLiteral(", "));
  return out;
}

QString minutes_text(const Needs& need) {
  const auto minutes = [](Duration d) { return QString::number(d.count() / 60'000); };
  QString out = QStringLiteral("%1 × %2 min").arg(need.sittings).arg(minutes(need.sitting_for_taster));
  if (need.first_sitting_extra.count() > 0)
    out += QStringLiteral(", the first %1 more").arg(minutes(need.first_sitting_extra));
  return out;
}

void fill_needs(const Plan& plan, const Registers& registers, const Style& style, QVBoxLayout* down, QWidget* parent) {
  const Needs need = needs(plan, registers);
  if (const auto leaf = leaf_text(plan, need, registers, style); !leaf.text.isEmpty())
    need_row(QStringLiteral("leaf"), leaf.text, leaf.short_of, down, parent);
  if (need.brews == 0) {
    down->addWidget(words(QStringLiteral("Counted once there are levels, a leaf and a taster."), face(15),
                          tokens().soft_ink, parent));
    return;
  }
  need_row(QStringLiteral("water"), qt(volume_text(need.water, style)), false, down, parent);
  need_row(QStringLiteral("brews"),
           QStringLiteral("%1, %2 a sitting%3")
               .arg(need.brews)
               .arg(need.most_brews_in_a_sitting)
               .arg(need.open_reference_brews > 0 ? QStringLiteral(", and %1 open").arg(need.open_reference_brews)
                                                  : QString()),
           false, down, parent);
  need_row(
      QStringLiteral("cups"),
      QStringLiteral("%1 a sitting, %2 each").arg(need.most_cups_in_a_sitting).arg(qt(volume_text(need.cup, style))),
      false, down, parent);
  need_row(QStringLiteral("each taster"), minutes_text(need), false, down, parent);
  need_row(QStringLiteral("tasted pairs"), QString::number(need.tasted_pairs), false, down, parent);
}

/// What rides with nothing: "chill path, pour order and liquor age".
QString untied(const OneVariable& one) {
  QStringList names;
  for (const auto& riding : one.riding)
    if (!riding.aligned) names << qt(wording::riding_name(riding.what));
  if (names.isEmpty()) return {};
  const QString last = names.takeLast();
  const QString all = names.isEmpty() ? last : names.join(QStringLiteral(", ")) + QStringLiteral(" and ") + last;
  return QStringLiteral("Not tied to the levels: %1.").arg(all);
}

bool told_above(const PlanNote& note) {
  return note.wrong == Wrong::several_variables || note.wrong == Wrong::cannot_decide;
}

int blocking(const std::vector<PlanNote>& notes) {
  return static_cast<int>(std::ranges::count(notes, PlanNote::Weight::blocks, &PlanNote::weight));
}

}  // namespace

NoteLink::NoteLink(const QString& sentence, const QColor& color, QWidget* parent)
    : QPushButton(sentence, parent), color_(color) {
  setAccessibleName(sentence);
  setFont(face(15));
  setFlat(true);
  setFocusPolicy(Qt::TabFocus);
  setCursor(Qt::PointingHandCursor);
  setAutoDefault(true);
  QSizePolicy policy(QSizePolicy::Expanding, QSizePolicy::Fixed);
  policy.setHeightForWidth(true);
  setSizePolicy(policy);
}

QSize NoteLink::sizeHint() const {
  return {280, heightForWidth(280)};
}

int NoteLink::heightForWidth(int width) const {
  return fontMetrics()
             .boundingRect(QRect(0, 0, std::max(40, width - note_indent), 10'000), Qt::TextWordWrap, text())
             .height() +
         4;
}

void NoteLink::paintEvent(QPaintEvent*) {
  QPainter p(this);
  QFont f = font();
  f.setUnderline(underMouse() || hasFocus());
  p.setFont(f);
  p.setPen(color_);
  p.drawText(QRect(0, 2, note_indent, height()), Qt::AlignTop | Qt::AlignLeft, QStringLiteral("–"));
  p.drawText(rect().adjusted(note_indent, 2, 0, 0), Qt::TextWordWrap | Qt::AlignTop, text());
  if (!hasFocus()) return;
  p.setPen(QPen(tokens().action, 1, Qt::DashLine));
  p.drawRect(rect().adjusted(0, 0, -1, -1));
}

VerdictPanel::VerdictPanel(PlanEditor& editor, QWidget* parent) : QWidget(parent), editor_(editor) {
  const Tokens& t = tokens();
  auto* down = new QVBoxLayout(this);
  down->setContentsMargins(18, 14, 18, 14);
  scroll_ = new QScrollArea(this);
  scroll_->setObjectName(QStringLiteral("plan.verdict"));
  scroll_->setAccessibleName(QStringLiteral("What the plan can decide, needs, and what stands in the way"));
  scroll_->setFrameShape(QFrame::NoFrame);
  scroll_->setWidgetResizable(true);
  scroll_->setFocusPolicy(Qt::NoFocus);
  scroll_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  scroll_->viewport()->setAutoFillBackground(false);
  scroll_->verticalScrollBar()->setStyleSheet(thin_scroll_bar());
  down->addWidget(scroll_, 1);
  refusal_ = words({}, face(15), t.caution, this);
  refusal_->setObjectName(QStringLiteral("seal.refusal"));
  refusal_->hide();
  down->addWidget(refusal_);
  auto* across = new QHBoxLayout;
  across->setSpacing(12);
  seal_ = filled_button(QStringLiteral("&Seal the plan"), QStringLiteral("seal"), this);
  seal_->setAccessibleName(QStringLiteral("Seal the plan"));
  beside_ = words({}, face(15), t.soft_ink, this);
  beside_->setObjectName(QStringLiteral("sealed"));
  across->addWidget(seal_);
  across->addWidget(beside_, 1);
  down->addLayout(across);
  connect(seal_, &QPushButton::clicked, this, [this] {
    const auto done = editor_.session().seal(editor_.style());
    refusal_->setText(PlanEditor::refusal(done));
    refusal_->setVisible(!done);
  });
}

void VerdictPanel::paintEvent(QPaintEvent*) {
  QPainter p(this);
  p.setRenderHint(QPainter::Antialiasing);
  p.setPen(QPen(tokens().line, 1));
  p.setBrush(tokens().sheet);
  p.drawRoundedRect(QRectF(rect()).adjusted(0.5, 0.5, -0.5, -0.5), 8, 8);
}

void VerdictPanel::refresh(const Trial& trial, const std::vector<PlanNote>& notes) {
  const int at = scroll_->verticalScrollBar()->value();
  auto* page = new QWidget;
  auto* down = new QVBoxLayout(page);
  down->setContentsMargins(0, 0, 6, 0);
  down->setSpacing(4);
  fill(trial, notes, down);
  down->addStretch(1);
  // The old page may hold the sentence that was just pressed.
  if (auto* old = scroll_->takeWidget()) {
    for (auto* child : old->findChildren<QWidget*>()) child->setObjectName({});
    old->hide();
    old->deleteLater();
  }
  scroll_->setWidget(page);
  // setWidget fills the page with the window's paper; it lies on a sheet.
  page->setAutoFillBackground(false);
  scroll_->verticalScrollBar()->setValue(at);
  show_seal(trial, notes);
}

void VerdictPanel::show_seal(const Trial& trial, const std::vector<PlanNote>& notes) {
  const int blocks = blocking(notes);
  seal_->setVisible(!editor_.locked());
  seal_->setEnabled(blocks == 0);
  if (trial.sealed) {
    beside_->setText(QStringLiteral("Sealed %1, %2. Only a reasoned amendment changes it now.")
                         .arg(qt(date_text(trial.sealed->sealed)), qt(clock_text(trial.sealed->sealed))));
    refusal_->hide();
  } else if (editor_.locked()) {
    beside_->setText(QStringLiteral("This book is open for reading only."));
  } else if (blocks > 0) {
    beside_->setText(blocks == 1 ? QStringLiteral("one thing stands in the way")
                                 : QStringLiteral("%1 things stand in the way").arg(blocks));
  } else {
    beside_->setText(QStringLiteral("codes are drawn; after that only a reasoned amendment changes it"));
  }
  seal_->setAccessibleDescription(beside_->text());
}

void VerdictPanel::fill(const Trial& trial, const std::vector<PlanNote>& notes, QVBoxLayout* down) {
  const Tokens& t = tokens();
  const Plan& plan = trial.draft;
  auto* page = down->parentWidget();
  const auto head = [&](const QString& s) { down->addWidget(words(s, face(16, Weight::semi_bold), t.ink, page)); };
  const auto forecast = engine_forecast(plan);
  head(QStringLiteral("What it can decide"));
  auto* decides = words(qt(wording::sentence(forecast, editor_.style())), face(15),
                        forecast.kind == EngineForecast::Kind::describe ? t.caution : t.ink, page);
  decides->setObjectName(QStringLiteral("decides"));
  down->addWidget(decides);
  down->addSpacing(8);
  head(QStringLiteral("What it needs"));
  fill_needs(plan, editor_.registers(), editor_.style(), down, page);
  down->addSpacing(8);
  const OneVariable one = one_variable(plan);
  head(one.holds ? QStringLiteral("One variable changes.") : QStringLiteral("More than one variable changes."));
  for (const auto& problem : one.problems)
    down->addWidget(words(qt(wording::problem_text(problem, editor_.style())), face(15), t.caution, page));
  if (const QString rest = untied(one); !rest.isEmpty()) down->addWidget(words(rest, face(15), t.soft_ink, page));
  if (!trial.sealed) fill_notes(trial, notes, down);
}

void VerdictPanel::fill_notes(const Trial& trial, const std::vector<PlanNote>& notes, QVBoxLayout* down) {
  const Tokens& t = tokens();
  auto* page = down->parentWidget();
  const wording::NotedPlan noted{trial.draft, editor_.registers(), editor_.attributes()};
  for (const auto weight : {PlanNote::Weight::blocks, PlanNote::Weight::caution}) {
    const bool blocks = weight == PlanNote::Weight::blocks;
    bool first = true;
    for (const auto& note : notes) {
      if (note.weight != weight || told_above(note)) continue;
      if (first) {
        down->addSpacing(8);
        down->addWidget(words(blocks ? QStringLiteral("What stands in the way") : QStringLiteral("Worth a second look"),
                              face(16, Weight::semi_bold), t.ink, page));
      }
      first = false;
      auto* link = new NoteLink(qt(wording::sentence(note, noted, editor_.style())), blocks ? t.ink : t.caution, page);
      link->setObjectName(blocks ? QStringLiteral("block") : QStringLiteral("caution"));
      connect(link, &QPushButton::clicked, this,
              [this, place = place_of(note, trial.draft, editor_.registers())] { emit wanted(place); });
      down->addWidget(link);
    }
  }
}

}  // namespace likeleaf::ui
