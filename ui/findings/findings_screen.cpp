#include "ui/findings/findings_screen.h"

#include <QButtonGroup>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QProgressBar>
#include <QScrollArea>
#include <QVBoxLayout>
#include <algorithm>
#include <utility>

#include "core/report/views.h"
#include "core/wording/errors.h"
#include "core/wording/sentences.h"
#include "ui/charts/figure_view.h"
#include "ui/findings/adopt_form.h"
#include "ui/findings/follow_up.h"
#include "ui/findings/open_sheets_text.h"
#include "ui/widgets/blank_line.h"
#include "ui/widgets/paper_parts.h"
#include "ui/widgets/verdict_mark.h"

namespace likeleaf::ui {
namespace {

QString text(const std::string& s) {
  return QString::fromStdString(s);
}

constexpr int show_progress_after_ms = 300;

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
  View leaf{QStringLiteral("By leaf"), QStringLiteral("by-leaf"), {}, {}},
      taster{QStringLiteral("By taster"), QStringLiteral("by-taster"), {}, {}};
  for (const auto contrast : f.contrasts) {
    if (auto plot = report::interval_plot(f, plan, contrast, style))
      overview.figures.push_back(report::described(
          std::move(*plot), "Lines: ranges at the level at which each was decided, also noted ones at 95\u00A0%."));
    append(leaf.figures, report::parts_figures(f, plan, contrast, report::PartsBy::leaf, style));
    append(taster.figures, report::parts_figures(f, plan, contrast, report::PartsBy::taster, style));
  }
  for (const auto contrast : f.contrasts)
    if (auto plot = report::ratio_plot(f, plan, contrast, style))
      overview.figures.push_back(report::described(std::move(*plot), "Finish length as a ratio of times."));
  std::vector<View> all{
      std::move(overview),
      std::move(leaf),
      std::move(taster),
      {QStringLiteral("Paired scores"),
       QStringLiteral("paired"),
       report::figures_of<report::PairedPlot>(answer.document),
       {}},
      {QStringLiteral("Aroma"), QStringLiteral("aroma"), report::figures_of<report::RegisterPlot>(answer.document), {}},
      {QStringLiteral("Words"), QStringLiteral("words"), {}, report::words_tables(f, plan, style)},
      {QStringLiteral("All numbers"), QStringLiteral("numbers"), {}, report::tables_of(answer.document)}};
  std::erase_if(all, [](const View& v) { return v.figures.empty() && v.tables.empty(); });
  return all;
}

void verdict_row(QVBoxLayout* into, const evidence::AttributeFinding& f, const wording::FindingText& said,
                 QWidget* page) {
  const Tokens& t = tokens();
  const bool noted = f.word == evidence::Word::noted;
  auto* row = new QHBoxLayout;
  row->setSpacing(12);
  row->addWidget(new VerdictMark(f.word, page), 0, Qt::AlignTop);
  auto* words = new QVBoxLayout;
  words->setSpacing(1);
  auto* title =
      label(text(said.title), face(15, noted ? Weight::regular : Weight::semi_bold), noted ? t.soft_ink : t.ink, page);
  title->setObjectName(noted ? QStringLiteral("noted_title") : QStringLiteral("verdict_title"));
  words->addWidget(title);
  auto* sentence = label(text(said.sentence), face(15), noted ? t.soft_ink : t.ink, page);
  sentence->setObjectName(noted ? QStringLiteral("noted_sentence") : QStringLiteral("verdict_sentence"));
  words->addWidget(sentence);
  row->addLayout(words, 1);
  into->addLayout(row);
}

}  // namespace

FindingsScreen::FindingsScreen(Session& session, const Style& style, QWidget* parent)
    : QWidget(parent), session_(session), style_(style) {
  setObjectName(QStringLiteral("findings_screen"));
  setAccessibleName(QStringLiteral("Findings"));
  auto* whole = new QVBoxLayout(this);
  whole->setContentsMargins(0, 0, 0, 0);
  scroll_ = new QScrollArea(this);
  scroll_->setWidgetResizable(true);
  scroll_->setFrameShape(QFrame::NoFrame);
  scroll_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  scroll_->setFocusPolicy(Qt::NoFocus);
  whole->addWidget(scroll_);
  slow_.setSingleShot(true);
  slow_.setInterval(show_progress_after_ms);
  connect(&slow_, &QTimer::timeout, this, [this] {
    if (work_.busy()) show_working();
  });
  work_.on_progress = [this](double share) {
    if (progress_) progress_->setValue(static_cast<int>(share * 100));
  };
  work_.on_done = [this](const AnswerResult& result) {
    slow_.stop();
    if (!result) {
      show_trouble(text(wording::sentence(result.error())));
      return;
    }
    answer_ = *result;
    show_answer();
  };
  changes_ = session_.on_change([this](const Notice& notice) { hear(notice); });
  refresh();
}

FindingsScreen::~FindingsScreen() {
  changes_ = Subscription();
}

void FindingsScreen::hear(const Notice& notice) {
  const auto trial = session_.trial();
  const bool answered = trial && trial->unmasked && trial->id() == answered_;
  if (answered && notice.part == Part::rule) {
    fill_rule();
    return;
  }
  switch (notice.part) {
    case Part::plan:
    case Part::seal:
    case Part::sheet:
    case Part::voids:
    case Part::exclusions:
    case Part::amendments:
    case Part::unmask:
    case Part::rule:
      refresh();
      break;
    case Part::day:
    case Part::weighed:
    case Part::brew:
    case Part::served:
    case Part::key_log:
    case Part::registers:
      break;
  }
}

void FindingsScreen::refresh() {
  work_.stop();
  slow_.stop();
  const auto trial = session_.trial();
  if (!trial || trial->id() != answered_) {
    answer_.reset();
    view_ = 0;
  }
  answered_ = trial ? trial->id() : IdOf<Trial>();
  if (!trial || stage(*trial) == Stage::plan)
    show_draft();
  else if (stage(*trial) == Stage::brew_and_taste)
    show_open_sheets();
  else if (stage(*trial) == Stage::all_locked)
    show_key();
  else
    compute();
}

QVBoxLayout* FindingsScreen::new_page() {
  // The old page may be the sender of what is being heard, so it goes once the event is over.
  if (auto* old = scroll_->takeWidget()) old->deleteLater();
  auto* page = new QWidget;
  auto* down = new QVBoxLayout(page);
  down->setContentsMargins(28, 18, 28, 22);
  down->setSpacing(10);
  scroll_->setWidget(page);
  return down;
}

void FindingsScreen::show_draft() {
  const Tokens& t = tokens();
  auto* down = new_page();
  auto* page = down->parentWidget();
  down->addWidget(label(QStringLiteral("Nothing is tasted yet"), face(22, Weight::semi_bold), t.ink, page));
  auto* said = label(session_.trial() ? QStringLiteral("This trial is still a draft. What it finds is shown here once "
                                                       "it is sealed, tasted, and its key opened.")
                                      : QStringLiteral("No trial is on the bench. Take one from the start page."),
                     face(15), t.soft_ink, page);
  said->setObjectName(QStringLiteral("closed_said"));
  down->addWidget(said);
  down->addStretch(1);
}

void FindingsScreen::show_open_sheets() {
  const Tokens& t = tokens();
  const auto trial = session_.trial();
  const auto all = live_servings(*trial).size(), open = open_sheets(*trial).size();
  auto* down = new_page();
  auto* page = down->parentWidget();
  down->addWidget(
      label(QStringLiteral("The key stays closed while a sheet is open"), face(22, Weight::semi_bold), t.ink, page));
  auto* count =
      label(QStringLiteral("%1 of %2 sheets locked. Open:").arg(all - open).arg(all), face(15), t.soft_ink, page);
  count->setObjectName(QStringLiteral("closed_said"));
  down->addWidget(count);
  auto* names = label(open_sheets_lines(*trial).join(QLatin1Char('\n')), face(15), t.ink, page);
  names->setObjectName(QStringLiteral("open_sheets"));
  down->addWidget(names);
  down->addStretch(1);
}

void FindingsScreen::show_key() {
  const Tokens& t = tokens();
  const auto trial = session_.trial();
  auto* down = new_page();
  auto* page = down->parentWidget();
  down->addWidget(label(QStringLiteral("All %1 sheets are locked").arg(live_servings(*trial).size()),
                        face(22, Weight::semi_bold), t.ink, page));
  auto* said = label(
      QStringLiteral(
          "Opening the key is done once. It is checked against its seal, and noted with the name of who opened it. "
          "From then on a change to a sheet is an amendment, with its reason."),
      face(15), t.soft_ink, page);
  said->setObjectName(QStringLiteral("closed_said"));
  said->setMaximumWidth(700);
  down->addWidget(said);
  down->addSpacing(10);
  auto* who = new BlankLine(QStringLiteral("Who opens the key"), QStringLiteral("who opens it: initials"), page);
  who->line()->setObjectName(QStringLiteral("unmask_who"));
  who->setMaximumWidth(320);
  down->addWidget(who);
  down->addSpacing(10);
  auto* open = filled_button(QStringLiteral("Open the key"), QStringLiteral("open_key"), page);
  down->addWidget(open, 0, Qt::AlignLeft);
  down->addStretch(1);
  connect(open, &QPushButton::clicked, this, [this, who] {
    const auto done = session_.unmask(who->value().trimmed().toStdString());
    if (done) return;  // the notice has shown what follows
    who->set_message(text(wording::sentence(done.error())));
    who->line()->setFocus();
  });
}

void FindingsScreen::compute() {
  auto unmasked = session_.unmasked();
  if (!unmasked) {
    show_trouble(text(wording::sentence(unmasked.error())));
    return;
  }
  if (answer_)
    show_answer();  // what stood stays while it is worked out anew
  else
    new_page()->addStretch(1);
  slow_.start();
  work_.start(std::move(*unmasked), style_);
}

void FindingsScreen::show_working() {
  const Tokens& t = tokens();
  auto* down = new_page();
  auto* page = down->parentWidget();
  down->addWidget(label(QStringLiteral("Working it out"), face(22, Weight::semi_bold), t.ink, page));
  progress_ = new QProgressBar(page);
  progress_->setObjectName(QStringLiteral("progress"));
  progress_->setAccessibleName(QStringLiteral("Share of the work done"));
  progress_->setRange(0, 100);
  progress_->setMaximumWidth(420);
  down->addWidget(progress_);
  auto* stop = outlined_button(QStringLiteral("Stop"), QStringLiteral("stop"), page);
  down->addWidget(stop, 0, Qt::AlignLeft);
  down->addStretch(1);
  connect(stop, &QPushButton::clicked, this, [this] {
    work_.stop();
    show_trouble(QStringLiteral("Stopped. Nothing was changed."));
  });
}

void FindingsScreen::show_trouble(const QString& sentence) {
  const Tokens& t = tokens();
  auto* down = new_page();
  auto* page = down->parentWidget();
  down->addWidget(label(QStringLiteral("No findings to show"), face(22, Weight::semi_bold), t.ink, page));
  auto* said = label(sentence, face(15), t.caution, page);
  said->setObjectName(QStringLiteral("trouble"));
  down->addWidget(said);
  auto* again = outlined_button(QStringLiteral("Work it out again"), QStringLiteral("again"), page);
  down->addWidget(again, 0, Qt::AlignLeft);
  down->addStretch(1);
  connect(again, &QPushButton::clicked, this, &FindingsScreen::refresh);
}

void FindingsScreen::show_answer() {
  auto* down = new_page();
  auto* page = down->parentWidget();
  auto* across = new QHBoxLayout;
  across->setSpacing(28);
  across->addWidget(answer_column(), 9, Qt::AlignTop);
  across->addWidget(chart_card(), 11, Qt::AlignTop);
  down->addLayout(across);
  down->addSpacing(6);
  down->addWidget(label(QStringLiteral("Why believe it"), face(15, Weight::semi_bold), tokens().ink, page));
  down->addWidget(reason_cards());
  down->addSpacing(4);
  down->addWidget(actions());
  down->addStretch(1);
}

QWidget* FindingsScreen::answer_column() {
  const Tokens& t = tokens();
  const auto& f = answer_->findings;
  const SealedPlan& plan = answer_->unmasked.plan();
  auto* column = new QWidget(this);
  auto* down = new QVBoxLayout(column);
  down->setContentsMargins(0, 0, 0, 0);
  down->setSpacing(10);
  auto* headline = label(text(wording::headline(f, plan, style_)), face(22, Weight::semi_bold), t.ink, column);
  headline->setObjectName(QStringLiteral("headline"));
  down->addWidget(headline);
  auto* scope = label(text(wording::scope_sentence(f, plan, style_)), face(15), t.soft_ink, column);
  scope->setObjectName(QStringLiteral("scope"));
  down->addWidget(scope);
  const bool several = f.contrasts.size() > 1;
  const auto rows = [&](bool noted) {
    for (const auto& a : f.attributes)
      if ((a.word == evidence::Word::noted) == noted)
        verdict_row(down, a, wording::finding_text(a, plan, style_, several), column);
  };
  rows(false);
  rule_block_ = new SideRule(column);
  down->addWidget(rule_block_);
  fill_rule();
  const bool any_noted =
      std::ranges::any_of(f.attributes, [](const auto& a) { return a.word == evidence::Word::noted; });
  if (any_noted) down->addWidget(label(QStringLiteral("Also noted, not decided"), face(15), t.soft_ink, column));
  rows(true);
  return column;
}

void FindingsScreen::fill_rule() {
  const auto trial = session_.trial();
  if (!rule_block_ || !answer_ || !trial) return;
  const Tokens& t = tokens();
  // The block is filled anew inside one holder, so that the button pressed just now can outlive its click.
  if (auto* layout = rule_block_->layout()) {
    while (auto* item = layout->takeAt(0)) {
      if (auto* w = item->widget()) w->hide(), w->deleteLater();
      delete item;
    }
  } else {
    auto* fresh = new QVBoxLayout(rule_block_);
    fresh->setContentsMargins(17, 4, 0, 4);
  }
  auto* inside = new QWidget(rule_block_);
  rule_block_->layout()->addWidget(inside);
  auto* down = new QVBoxLayout(inside);
  down->setContentsMargins(0, 0, 0, 0);
  down->setSpacing(6);
  const SealedPlan& plan = answer_->unmasked.plan();
  if (plan.plan.rule && answer_->findings.rule) {
    down->addWidget(label(QStringLiteral("written before tasting"), face(15), t.soft_ink, inside));
    auto* sentence = label(text(wording::rule_sentence(*plan.plan.rule, plan, style_)), face(15), t.ink, inside);
    sentence->setObjectName(QStringLiteral("rule_sentence"));
    down->addWidget(sentence);
    auto* outcome = label(text(wording::rule_outcome(*answer_->findings.rule, plan, style_)),
                          face(15, Weight::semi_bold), t.ink, inside);
    outcome->setObjectName(QStringLiteral("rule_outcome"));
    down->addWidget(outcome);
  } else {
    down->addWidget(label(QStringLiteral("No rule was written before tasting."), face(15), t.soft_ink, inside));
  }
  if (trial->rule) {
    auto* adopted = label(QStringLiteral("House rule from %1: %2 Adopted by %3; %4; look again: %5.")
                              .arg(text(trial->rule->from_when), text(trial->rule->sentence), text(trial->rule->who),
                                   trial->rule->counter_checked ? QStringLiteral("checked at the counter")
                                                                : QStringLiteral("to be checked at the counter"),
                                   text(trial->rule->review)),
                          face(15), t.ink, inside);
    adopted->setObjectName(QStringLiteral("adopted"));
    down->addWidget(adopted);
  }
  auto* acts = new QHBoxLayout;
  acts->setSpacing(10);
  if (!session_.read_only()) {
    auto* form = outlined_button(
        trial->rule ? QStringLiteral("Change it") : QStringLiteral("Adopt, to be checked at the counter"),
        QStringLiteral("adopt"), inside);
    connect(form, &QPushButton::clicked, this, &FindingsScreen::show_adopt_form);
    acts->addWidget(form);
    if (trial->rule && !trial->rule->counter_checked) {
      auto* checked =
          outlined_button(QStringLiteral("Checked at the counter"), QStringLiteral("counter_checked"), inside);
      connect(checked, &QPushButton::clicked, this, [this, rule = *trial->rule]() mutable {
        rule.counter_checked = true;
        adopt(std::move(rule));
      });
      acts->addWidget(checked);
    }
  }
  acts->addStretch(1);
  down->addLayout(acts);
  rule_said_ = label({}, face(15), t.caution, inside);
  rule_said_->setObjectName(QStringLiteral("rule_said"));
  rule_said_->hide();
  down->addWidget(rule_said_);
  inside->show();
}

void FindingsScreen::show_adopt_form() {
  const auto trial = session_.trial();
  if (!rule_block_ || !trial) return;
  auto* layout = rule_block_->layout();
  if (auto* old = layout->takeAt(0)) {
    old->widget()->hide();
    old->widget()->deleteLater();
    delete old;
  }
  auto* form = new AdoptForm(*trial, rule_block_);
  layout->addWidget(form);
  form->show();
  connect(form, &AdoptForm::left, this, &FindingsScreen::fill_rule);
  connect(form, &AdoptForm::adopted, this, [this, form] {
    if (!form->complete()) return;
    AdoptedRule rule = form->rule();
    const auto done = session_.run(AdoptRule{std::move(rule)});
    if (!done)
      form->refuse(text(wording::sentence(done.error())));
    else if (*done == 0)
      fill_rule();  // nothing had changed, so nothing was announced
  });
  if (auto* first = form->findChild<QLineEdit*>(QStringLiteral("adopt_from"))) first->setFocus();
}

void FindingsScreen::adopt(AdoptedRule rule) {
  const auto done = session_.run(AdoptRule{std::move(rule)});
  if (done || !rule_said_) return;
  rule_said_->setText(text(wording::sentence(done.error())));
  rule_said_->show();
}

QWidget* FindingsScreen::chart_card() {
  auto* card = new Card(this);
  card->setFixedHeight(500);  // beside the verdicts and the rule; what is longer scrolls inside
  auto* down = new QVBoxLayout(card);
  down->setContentsMargins(16, 12, 16, 10);
  down->setSpacing(6);
  auto* tabs = new QHBoxLayout;
  tabs->setSpacing(16);
  auto* group = new QButtonGroup(card);
  const auto views = views_of(*answer_, style_);
  view_ = std::min(view_, static_cast<int>(views.size()) - 1);
  for (int i = 0; i < static_cast<int>(views.size()); ++i) {
    const auto& view = views[static_cast<std::size_t>(i)];
    auto* tab = quiet_button(view.name, QStringLiteral("view_") + view.object, card);
    tab->setCheckable(true);
    tab->setChecked(i == view_);
    tab->setAccessibleName(QStringLiteral("Show: ") + view.name);
    group->addButton(tab, i);
    tabs->addWidget(tab);
  }
  tabs->addStretch(1);
  down->addLayout(tabs);
  chart_area_ = new QScrollArea(card);
  chart_area_->setWidgetResizable(true);
  chart_area_->setFrameShape(QFrame::NoFrame);
  chart_area_->setFocusPolicy(Qt::NoFocus);
  chart_area_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  QPalette sheet = chart_area_->palette();
  sheet.setColor(QPalette::Window, tokens().sheet);
  chart_area_->setPalette(sheet);
  down->addWidget(chart_area_, 1);
  connect(group, &QButtonGroup::idClicked, this, &FindingsScreen::show_view);
  show_view(view_);
  return card;
}

void FindingsScreen::show_view(int index) {
  const auto views = views_of(*answer_, style_);
  if (!chart_area_ || index < 0 || index >= static_cast<int>(views.size())) return;
  view_ = index;
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
  chart_area_->setWidget(page);
}

QWidget* FindingsScreen::reason_cards() {
  const Tokens& t = tokens();
  auto* holder = new QWidget(this);
  auto* grid = new QGridLayout(holder);
  grid->setContentsMargins(0, 0, 0, 0);
  grid->setSpacing(12);
  constexpr int across = 4;
  int at = 0;
  for (const auto& reason : wording::reasons(answer_->findings, answer_->unmasked, style_)) {
    auto* card = new Card(holder);
    card->setObjectName(reason.amber ? QStringLiteral("reason_caution") : QStringLiteral("reason"));
    card->setAccessibleName(text(reason.title));
    card->setAccessibleDescription(text(reason.text));
    auto* down = new QVBoxLayout(card);
    down->setContentsMargins(14, 10, 14, 10);
    down->setSpacing(2);
    // Amber is never the only sign.
    const QString title = reason.amber ? QStringLiteral("Caution: ") + text(reason.title) : text(reason.title);
    down->addWidget(label(title, face(15, Weight::semi_bold), reason.amber ? t.caution : t.ink, card));
    down->addWidget(label(text(reason.text), face(15), t.soft_ink, card));
    down->addStretch(1);
    grid->addWidget(card, at / across, at % across);
    ++at;
  }
  for (int i = 0; i < across; ++i) grid->setColumnStretch(i, 1);
  return holder;
}

QWidget* FindingsScreen::actions() {
  auto* holder = new QWidget(this);
  auto* across = new QHBoxLayout(holder);
  across->setContentsMargins(0, 0, 0, 0);
  across->setSpacing(12);
  auto* report = filled_button(QStringLiteral("Make the staff report"), QStringLiteral("make_report"), holder);
  connect(report, &QPushButton::clicked, this, &FindingsScreen::report_wanted);
  across->addWidget(report);
  if (!session_.read_only()) {
    const SealedPlan& plan = answer_->unmasked.plan();
    auto* next = outlined_button(QStringLiteral("Plan a new trial"), QStringLiteral("plan_next"), holder);
    connect(next, &QPushButton::clicked, this, [this, draft = follow_up(plan)] { emit follow_up_wanted(draft); });
    across->addWidget(next);
    const auto& contrasts = answer_->findings.contrasts;
    if (auto middle = contrasts.empty() ? std::nullopt : between(plan, contrasts.front(), style_)) {
      auto* half = outlined_button(QStringLiteral("Plan %1 between").arg(text(middle->level)),
                                   QStringLiteral("plan_between"), holder);
      connect(half, &QPushButton::clicked, this,
              [this, draft = std::move(middle->plan)] { emit follow_up_wanted(draft); });
      across->addWidget(half);
    }
  }
  across->addStretch(1);
  return holder;
}

}  // namespace likeleaf::ui
