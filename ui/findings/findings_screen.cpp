#include "ui/findings/findings_screen.h"

#include <QGridLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QProgressBar>
#include <QScrollArea>
#include <QStackedLayout>
#include <QVBoxLayout>
#include <algorithm>
#include <set>
#include <utility>

#include "core/wording/attribute_text.h"
#include "core/wording/errors.h"
#include "core/wording/findings_text.h"
#include "core/wording/reasons.h"
#include "ui/findings/chart_card.h"
#include "ui/findings/follow_up.h"
#include "ui/findings/open_sheets_text.h"
#include "ui/findings/reason_cards.h"
#include "ui/findings/rule_block.h"
#include "ui/findings/sheets_page.h"
#include "ui/widgets/blank_line.h"
#include "ui/widgets/paper_parts.h"
#include "ui/widgets/qt_text.h"
#include "ui/widgets/verdict_mark.h"

namespace likeleaf::ui {
namespace {

constexpr int show_progress_after_ms = 300;

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

FindingsScreen::FindingsScreen(Session& session, const Style& style, std::shared_ptr<FindingsShelf> shelf,
                               QWidget* parent)
    : QWidget(parent), session_(session), style_(style), work_(std::move(shelf)) {
  setObjectName(QStringLiteral("findings_screen"));
  setAccessibleName(QStringLiteral("Findings"));
  pages_ = new QStackedLayout(this);
  scroll_ = new QScrollArea(this);
  scroll_->setWidgetResizable(true);
  scroll_->setFrameShape(QFrame::NoFrame);
  scroll_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  scroll_->setFocusPolicy(Qt::NoFocus);
  pages_->addWidget(scroll_);
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
    if (rule_block_) rule_block_->fill();
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
    case Part::reports:
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
    hide_sheets();
  }
  answered_ = trial ? trial->id() : IdOf<Trial>();
  if (sheets_) sheets_->refresh();
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
  down->setContentsMargins(28, 14, 28, 14);
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
  down->addSpacing(6);
  auto* sheets = outlined_button(QStringLiteral("The sheets, one by one"), QStringLiteral("sheets"), page);
  connect(sheets, &QPushButton::clicked, this, &FindingsScreen::show_sheets);
  down->addWidget(sheets, 0, Qt::AlignLeft);
  down->addStretch(1);
}

/// The people of the plan, one press each: a name need not be typed.
QLayout* FindingsScreen::initials_for(const SealedPlan& plan, BlankLine* blank, QWidget* page) {
  auto* row = new QHBoxLayout;
  row->setSpacing(12);
  std::set<QString> named;
  for (const auto& one : plan.plan.assessors) {
    const auto* person = find_record(plan.registers.assessors, one.id);
    if (!person || !named.insert(text(person->alias)).second) continue;
    const QString alias = text(person->alias);
    auto* b = quiet_button(alias, QStringLiteral("who_%1").arg(named.size()), page);
    b->setAccessibleName(QStringLiteral("It is %1").arg(alias));
    connect(b, &QPushButton::clicked, blank, [blank, alias] {
      blank->set_value(alias, true);
      blank->set_message({});
    });
    row->addWidget(b);
  }
  row->addStretch(1);
  return row;
}

void FindingsScreen::show_key() {
  const Tokens& t = tokens();
  const auto trial = session_.trial();
  auto* down = new_page();
  auto* page = down->parentWidget();
  const auto locked = live_servings(*trial).size();
  down->addWidget(label(locked == 1   ? QStringLiteral("The one sheet is locked")
                        : locked == 2 ? QStringLiteral("Both sheets are locked")
                                      : QStringLiteral("All %1 sheets are locked").arg(locked),
                        face(22, Weight::semi_bold), t.ink, page));
  auto* said = label(
      QStringLiteral(
          "Opening the key is done once. It is checked against its seal, and noted with the name of who opened it. "
          "A sheet that should not decide has to be excluded before, with its reason."),
      face(15), t.soft_ink, page);
  said->setObjectName(QStringLiteral("closed_said"));
  said->setMaximumWidth(700);
  down->addWidget(said);
  down->addSpacing(10);
  auto* who = new BlankLine(QStringLiteral("Who opens the key"), QStringLiteral("who opens it: initials"), page);
  who->line()->setObjectName(QStringLiteral("unmask_who"));
  who->setMaximumWidth(320);
  down->addWidget(who);
  down->addLayout(initials_for(*trial->sealed, who, page));
  down->addSpacing(10);
  auto* open = filled_button(QStringLiteral("Open the key"), QStringLiteral("open_key"), page);
  auto* sheets = outlined_button(QStringLiteral("The sheets, one by one"), QStringLiteral("sheets"), page);
  connect(sheets, &QPushButton::clicked, this, &FindingsScreen::show_sheets);
  auto* acts = new QHBoxLayout;
  acts->setSpacing(12);
  acts->addWidget(open);
  acts->addWidget(sheets);
  acts->addStretch(1);
  down->addLayout(acts);
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
  down->setSpacing(8);
  auto* across = new QHBoxLayout;
  across->setSpacing(28);
  across->addWidget(answer_column(), 9, Qt::AlignTop);
  auto* card = new ChartCard(
      answer_, style_, [this](const QString& name, const QString& filter) { return prompt_(name, filter); }, view_,
      page);
  connect(card, &ChartCard::view_chosen, this, [this](int view) { view_ = view; });
  across->addWidget(card, 11);
  down->addLayout(across);
  down->addWidget(new ReasonCards(wording::reasons(answer_->findings, answer_->unmasked, style_), page));
  down->addWidget(actions());
  if (auto* noted = also_noted()) down->addWidget(noted);
  down->addStretch(1);
}

QWidget* FindingsScreen::answer_column() {
  const Tokens& t = tokens();
  const auto& f = answer_->findings;
  const SealedPlan& plan = answer_->unmasked.plan();
  auto* column = new QWidget(this);
  auto* down = new QVBoxLayout(column);
  down->setContentsMargins(0, 0, 0, 0);
  down->setSpacing(8);
  auto* headline = label(text(wording::headline(f, plan, style_)), face(22, Weight::semi_bold), t.ink, column);
  headline->setObjectName(QStringLiteral("headline"));
  down->addWidget(headline);
  auto* scope = label(text(wording::scope_sentence(f, plan, style_)), face(15), t.soft_ink, column);
  scope->setObjectName(QStringLiteral("scope"));
  down->addWidget(scope);
  const bool several = f.contrasts.size() > 1;
  for (const auto& a : f.attributes)
    if (a.word != evidence::Word::noted) verdict_row(down, a, wording::finding_text(a, plan, style_, several), column);
  rule_block_ = new RuleBlock(session_, style_, answer_, column);
  down->addWidget(rule_block_);
  return column;
}

// The chart shows them all; here they stand in words, under what one has to decide about.
QWidget* FindingsScreen::also_noted() {
  const auto& f = answer_->findings;
  const bool several = f.contrasts.size() > 1;
  auto* holder = new QWidget(this);
  auto* down = new QVBoxLayout(holder);
  down->setContentsMargins(0, 6, 0, 0);
  down->setSpacing(6);
  down->addWidget(label(QStringLiteral("Also noted, not decided"), face(15, Weight::semi_bold), tokens().ink, holder));
  auto* across = new QHBoxLayout;
  across->setSpacing(28);
  QVBoxLayout* columns[] = {new QVBoxLayout, new QVBoxLayout};
  int at = 0;
  for (const auto& a : f.attributes)
    if (a.word == evidence::Word::noted)
      verdict_row(columns[at++ % 2], a, wording::finding_text(a, answer_->unmasked.plan(), style_, several), holder);
  for (auto* column : columns) {
    column->setSpacing(8);
    column->addStretch(1);
    across->addLayout(column, 1);
  }
  down->addLayout(across);
  if (at > 0) return holder;
  delete holder;
  return nullptr;
}

void FindingsScreen::show_sheets() {
  hide_sheets();
  sheets_ = new SheetsPage(session_, style_, this);
  pages_->addWidget(sheets_);
  pages_->setCurrentWidget(sheets_);
  connect(sheets_, &SheetsPage::left, this, &FindingsScreen::hide_sheets);
  if (auto* list = sheets_->findChild<QWidget*>(QStringLiteral("sheets_list"))) list->setFocus();
}

// Who comes back to Findings finds the answer.
void FindingsScreen::hideEvent(QHideEvent* event) {
  QWidget::hideEvent(event);
  hide_sheets();
}

void FindingsScreen::hide_sheets() {
  if (!sheets_) return;
  pages_->setCurrentWidget(scroll_);
  pages_->removeWidget(sheets_);
  sheets_->hide();
  sheets_->deleteLater();
  sheets_ = nullptr;
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
  auto* sheets = outlined_button(QStringLiteral("Sheets and changes"), QStringLiteral("sheets"), holder);
  connect(sheets, &QPushButton::clicked, this, &FindingsScreen::show_sheets);
  across->addWidget(sheets);
  across->addStretch(1);
  return holder;
}

}  // namespace likeleaf::ui
