#include "ui/findings/chart_card.h"

#include <QButtonGroup>
#include <QHBoxLayout>
#include <QScrollArea>
#include <QVBoxLayout>
#include <algorithm>
#include <utility>

#include "core/report/views.h"
#include "ui/charts/figure_view.h"

namespace likeleaf::ui {
namespace {

/// What the chart card can show; only what this trial has is offered.
struct View {
  QString name, object;
  std::vector<report::Figure> figures;
  std::vector<report::Table> tables;
};

void append(std::vector<report::Figure>& to, std::vector<report::Figure> more) {
  for (auto& figure : more) to.push_back(std::move(figure));
}

std::vector<View> views_of(const Answer& answer, const Style& style) {
  const auto& f = answer.findings;
  const SealedPlan& plan = answer.unmasked.plan();
  View overview{QStringLiteral("Overview"), QStringLiteral("overview"), {}, {}};
  View finish{QStringLiteral("Finish"), QStringLiteral("finish"), {}, {}};
  View leaf{QStringLiteral("By leaf"), QStringLiteral("by-leaf"), {}, {}},
      taster{QStringLiteral("By taster"), QStringLiteral("by-taster"), {}, {}};
  for (const auto contrast : f.contrasts) {
    if (auto plot = report::interval_plot(f, plan, contrast, style))
      overview.figures.push_back(report::described(std::move(*plot), report::drawn_levels(f, contrast, false, style)));
    append(leaf.figures, report::parts_figures(f, plan, contrast, report::PartsBy::leaf, style));
    append(taster.figures, report::parts_figures(f, plan, contrast, report::PartsBy::taster, style));
  }
  for (const auto contrast : f.contrasts)
    if (auto plot = report::ratio_plot(f, plan, contrast, style))
      finish.figures.push_back(report::described(
          std::move(*plot), "Finish length as a ratio of times. " + report::drawn_levels(f, contrast, true, style)));
  std::vector<View> all{
      std::move(overview),
      std::move(finish),
      std::move(leaf),
      std::move(taster),
      {QStringLiteral("Pairs"), QStringLiteral("paired"), report::figures_of<report::PairedPlot>(answer.document), {}},
      {QStringLiteral("Aroma"), QStringLiteral("aroma"), report::figures_of<report::RegisterPlot>(answer.document), {}},
      {QStringLiteral("Words"), QStringLiteral("words"), {}, report::words_tables(f, plan, style)},
      {QStringLiteral("Table"), QStringLiteral("numbers"), {}, report::tables_of(answer.document)}};
  std::erase_if(all, [](const View& v) { return v.figures.empty() && v.tables.empty(); });
  return all;
}

}  // namespace

ChartCard::ChartCard(std::shared_ptr<const Answer> answer, const Style& style, PathPrompt prompt, int view,
                     QWidget* parent)
    : Card(parent), answer_(std::move(answer)), style_(style), prompt_(std::move(prompt)) {
  setObjectName(QStringLiteral("chart_card"));
  setMinimumHeight(442);
  auto* down = new QVBoxLayout(this);
  down->setContentsMargins(16, 10, 16, 8);
  down->setSpacing(4);
  auto* tabs = new QHBoxLayout;
  tabs->setSpacing(16);
  auto* group = new QButtonGroup(this);
  const auto views = views_of(*answer_, style_);
  view = std::clamp(view, 0, static_cast<int>(views.size()) - 1);
  for (int i = 0; i < static_cast<int>(views.size()); ++i) {
    const auto& one = views[static_cast<std::size_t>(i)];
    auto* tab = quiet_button(one.name, QStringLiteral("view_") + one.object, this);
    tab->setCheckable(true);
    tab->setChecked(i == view);
    tab->setAccessibleName(QStringLiteral("Show: ") + one.name);
    group->addButton(tab, i);
    tabs->addWidget(tab);
  }
  tabs->addStretch(1);
  down->addLayout(tabs);
  area_ = new QScrollArea(this);
  area_->setWidgetResizable(true);
  area_->setFrameShape(QFrame::NoFrame);
  area_->setFocusPolicy(Qt::NoFocus);
  area_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  QPalette sheet = area_->palette();
  sheet.setColor(QPalette::Window, tokens().sheet);
  area_->setPalette(sheet);
  // As tall as the answer beside it, whatever view it shows; what is longer scrolls inside.
  area_->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Ignored);
  down->addWidget(area_, 1);
  connect(group, &QButtonGroup::idClicked, this, &ChartCard::show_view);
  show_view(view);
}

void ChartCard::show_view(int index) {
  const auto views = views_of(*answer_, style_);
  if (index < 0 || index >= static_cast<int>(views.size())) return;
  const auto& view = views[static_cast<std::size_t>(index)];
  auto* page = new QWidget;
  auto* down = new QVBoxLayout(page);
  down->setContentsMargins(0, 0, 0, 0);
  down->setSpacing(14);
  const auto stem = [&](std::size_t i, std::size_t of) {
    QString out = QStringLiteral("trial-%1-%2").arg(answer_->unmasked.plan().plan.number).arg(view.object);
    return of > 1 ? out + QStringLiteral("-%1").arg(i + 1) : out;
  };
  for (std::size_t i = 0; i < view.figures.size(); ++i)
    down->addWidget(new FigureView(view.figures[i], stem(i, view.figures.size()), prompt_, page), 1);
  for (std::size_t i = 0; i < view.tables.size(); ++i)
    down->addWidget(new TableView(view.tables[i], stem(i, view.tables.size()), prompt_, page));
  if (view.figures.empty()) down->addStretch(1);
  area_->setWidget(page);
  emit view_chosen(index);
}

}  // namespace likeleaf::ui
