#include "ui/report/report_screen.h"

#include <QButtonGroup>
#include <QElapsedTimer>
#include <QHBoxLayout>
#include <QLabel>
#include <QProgressBar>
#include <QScrollArea>
#include <QVBoxLayout>

#include "core/base/number_text.h"
#include "core/report/document_json.h"
#include "core/wording/errors.h"
#include "ui/charts/charts.h"
#include "ui/report/page_preview.h"
#include "ui/widgets/paper_parts.h"
#include "ui/widgets/qt_text.h"

namespace likeleaf::ui {
namespace {

QString day_and_time(const Moment& at) {
  return text(date_text(at) + ", " + clock_text(at).substr(0, 5));
}

}  // namespace

ReportScreen::ReportScreen(Session& session, const Style& style, std::shared_ptr<FindingsShelf> shelf, QWidget* parent)
    : QWidget(parent), session_(session), style_(style), work_(std::move(shelf)) {
  setObjectName(QStringLiteral("report_screen"));
  setAccessibleName(QStringLiteral("Report"));
  const Tokens& t = tokens();
  auto* across = new QHBoxLayout(this);
  across->setContentsMargins(28, 18, 28, 0);
  across->setSpacing(28);
  auto* beside = new QWidget(this);
  beside->setFixedWidth(350);  // whatever is said there, the pages do not move
  auto* left = new QVBoxLayout(beside);
  left->setContentsMargins(0, 0, 0, 0);
  left->setSpacing(12);
  left->addWidget(label(QStringLiteral("The report for staff"), face(22, Weight::semi_bold), t.ink, this));
  as_made_ = label({}, face(15), t.caution, this);
  as_made_->setObjectName(QStringLiteral("as_made"));
  left->addWidget(as_made_);
  today_ = outlined_button(QStringLiteral("Back to the report of today"), QStringLiteral("report_today"), this);
  connect(today_, &QPushButton::clicked, this, &ReportScreen::show_today);
  left->addWidget(today_, 0, Qt::AlignLeft);
  left->addWidget(make_acts());
  said_ = label({}, face(15), t.soft_ink, this);
  said_->setObjectName(QStringLiteral("report_said"));
  left->addWidget(said_);
  left->addWidget(make_progress());
  made_list_ = new QWidget(this);
  made_list_->setObjectName(QStringLiteral("made_list"));
  new QVBoxLayout(made_list_);
  left->addWidget(made_list_);
  left->addStretch(1);
  across->addWidget(beside);
  preview_ = new PagePreview(this);
  preview_->setObjectName(QStringLiteral("preview"));
  preview_->setAccessibleName(QStringLiteral("Preview of the report"));
  across->addWidget(preview_, 1);
  connect(preview_, &PagePreview::progressed, this, [this](int painted, int of) {
    if (pdf_) return;
    if (preview_->working())
      show_progress(of == 0 ? QStringLiteral("Counting the pages")
                            : QStringLiteral("Painting page %1 of %2").arg(painted + 1).arg(of),
                    of == 0 ? 0 : static_cast<double>(painted) / of);
    else
      hide_progress();
  });
  saving_.setInterval(0);
  connect(&saving_, &QTimer::timeout, this, &ReportScreen::save_step);
  work_.on_progress = [this](double share) { show_progress(QStringLiteral("Working it out"), share); };
  work_.on_done = [this](const AnswerResult& result) {
    hide_progress();
    if (!result) {
      show_closed(text(wording::sentence(result.error())));
      return;
    }
    answer_ = *result;
    if (!made_) show_today();
  };
  changes_ = session_.on_change([this](const Notice& notice) { hear(notice); });
  refresh();
}

ReportScreen::~ReportScreen() {
  changes_ = Subscription();
}

QWidget* ReportScreen::make_acts() {
  acts_ = new QWidget(this);
  auto* acts = new QVBoxLayout(acts_);
  acts->setContentsMargins(0, 0, 0, 0);
  acts->setSpacing(12);
  acts->addWidget(label(QStringLiteral("The first page is the answer, then every number; the last sheet is to taste it "
                                       "yourself, its answer overleaf."),
                        face(15), tokens().soft_ink, acts_));
  auto* papers = new QHBoxLayout;
  auto* group = new QButtonGroup(acts_);
  int id = 0;
  for (const Paper paper : {Paper::a4, Paper::letter}) {
    auto* choice = outlined_button(paper_name(paper),
                                   id == 0 ? QStringLiteral("paper_a4") : QStringLiteral("paper_letter"), acts_);
    choice->setAccessibleName(QStringLiteral("Paper: ") + choice->text());
    choice->setCheckable(true);
    choice->setChecked(paper == paper_);
    group->addButton(choice, id++);
    papers->addWidget(choice);
  }
  papers->addStretch(1);
  acts->addLayout(papers);
  connect(group, &QButtonGroup::idClicked, this, [this](int chosen) {
    paper_ = chosen == 0 ? Paper::a4 : Paper::letter;
    choose_paper(paper_);
    show_pages();
  });
  auto* pdf = filled_button(QStringLiteral("Save PDF…"), QStringLiteral("save_pdf"), acts_);
  auto* html = outlined_button(QStringLiteral("Save HTML…"), QStringLiteral("save_html"), acts_);
  connect(pdf, &QPushButton::clicked, this, [this] { save(QStringLiteral("pdf")); });
  connect(html, &QPushButton::clicked, this, [this] { save(QStringLiteral("html")); });
  acts->addWidget(pdf, 0, Qt::AlignLeft);
  acts->addWidget(html, 0, Qt::AlignLeft);
  return acts_;
}

QWidget* ReportScreen::make_progress() {
  progress_ = new QWidget(this);
  auto* down = new QVBoxLayout(progress_);
  down->setContentsMargins(0, 0, 0, 0);
  down->setSpacing(8);
  progress_said_ = label({}, face(15), tokens().soft_ink, progress_);
  progress_said_->setObjectName(QStringLiteral("progress_said"));
  down->addWidget(progress_said_);
  bar_ = new QProgressBar(progress_);
  bar_->setObjectName(QStringLiteral("report_progress"));
  bar_->setAccessibleName(QStringLiteral("Share of the work done"));
  bar_->setRange(0, 100);
  down->addWidget(bar_);
  auto* stop = outlined_button(QStringLiteral("Stop"), QStringLiteral("report_stop"), progress_);
  connect(stop, &QPushButton::clicked, this, &ReportScreen::stop);
  down->addWidget(stop, 0, Qt::AlignLeft);
  progress_->hide();
  return progress_;
}

void ReportScreen::hear(const Notice& notice) {
  switch (notice.part) {
    case Part::unmask:
    case Part::rule:
    case Part::exclusions:
    case Part::amendments:
    case Part::seal:
    case Part::plan:
      refresh();
      break;
    case Part::reports:
      list_made();
      break;
    default:
      break;
  }
}

void ReportScreen::say(const QString& sentence, bool caution) {
  QPalette p = said_->palette();
  p.setColor(QPalette::WindowText, caution ? tokens().caution : tokens().soft_ink);
  said_->setPalette(p);
  said_->setText(sentence);
}

void ReportScreen::show_closed(const QString& sentence) {
  answer_.reset();
  shown_.reset();
  made_.reset();
  acts_->hide();
  as_made_->hide();
  today_->hide();
  preview_->show_document(nullptr, paper_);
  say(sentence);
}

void ReportScreen::refresh() {
  work_.stop();
  hide_progress();
  const auto trial = session_.trial();
  list_made();
  if (!trial || stage(*trial) != Stage::unmasked) {
    show_closed(
        QStringLiteral("The report is made from what was found, once every sheet is locked and the key is open."));
    return;
  }
  auto unmasked = session_.unmasked();
  if (!unmasked) {
    show_closed(text(wording::sentence(unmasked.error())));
    return;
  }
  if (!answer_ || answer_->unmasked.trial().id() != trial->id()) show_closed(QStringLiteral("Working it out."));
  work_.start(std::move(*unmasked), style_);
}

void ReportScreen::showEvent(QShowEvent* event) {
  QWidget::showEvent(event);
  if (stale_) show_pages();
}

void ReportScreen::show_today() {
  if (!answer_) return;
  made_.reset();
  as_made_->hide();
  today_->hide();
  shown_ = std::shared_ptr<const report::Document>(answer_, &answer_->document);
  say({});
  acts_->show();
  stale_ = true;
  if (isVisible()) show_pages();
}

void ReportScreen::show_pages() {
  if (!shown_) return;
  stale_ = false;
  preview_->show_document(shown_, paper_);
}

void ReportScreen::show_progress(const QString& what, double share) {
  progress_said_->setText(what);
  bar_->setValue(static_cast<int>(share * 100));
  progress_->show();
}

void ReportScreen::hide_progress() {
  progress_->hide();
}

void ReportScreen::stop() {
  const bool was_saving = pdf_ != nullptr;
  pdf_.reset();
  saving_.stop();
  if (was_saving) {
    say(QStringLiteral("Stopped. Nothing was written."));
  } else if (work_.busy()) {
    work_.stop();
    say(QStringLiteral("Stopped. Choose Report above to work it out again."));
  } else {
    preview_->stop();
    say(QStringLiteral("Stopped. Choose a paper to paint the pages again."));
  }
  hide_progress();
  acts_->setEnabled(true);
}

void ReportScreen::list_made() {
  auto* down = static_cast<QVBoxLayout*>(made_list_->layout());
  while (auto* item = down->takeAt(0)) {
    // The entry pressed just now may be the sender of what is being heard.
    if (auto* w = item->widget()) w->hide(), w->setObjectName({}), w->deleteLater();
    delete item;
  }
  down->setContentsMargins(0, 12, 0, 0);
  down->setSpacing(2);
  const auto trial = session_.trial();
  const auto made = trial ? session_.reports(trial->id()) : Result<std::vector<MadeReport>>();
  made_list_->setVisible(made && !made->empty());
  if (!made || made->empty()) return;
  down->addWidget(label(QStringLiteral("Made before"), face(15, Weight::semi_bold), tokens().ink, made_list_));
  int at = 1;
  for (const auto& report : *made) {
    auto* entry = quiet_button(
        QStringLiteral("%1\n%2 · %3").arg(day_and_time(report.made), text(report.form), text(report.program)),
        QStringLiteral("made_%1").arg(at++), made_list_);
    entry->setAccessibleName(QStringLiteral("Report as made: ") +
                             QString(entry->text()).replace(QLatin1Char('\n'), QStringLiteral(" · ")));
    entry->setStyleSheet(entry->styleSheet() + QStringLiteral("QPushButton { text-align: left; }"));
    entry->setAccessibleDescription(text(report.title));
    connect(entry, &QPushButton::clicked, this, [this, id = report.id] { show_made(id); });
    down->addWidget(entry, 0, Qt::AlignLeft);
  }
}

void ReportScreen::show_made(IdOf<MadeReport> id) {
  auto report = session_.report(id);
  if (!report) {
    say(text(wording::sentence(report.error())), true);
    return;
  }
  auto document = report::read_document(report->document);
  if (!document) {
    say(text(wording::sentence(document.error())), true);
    return;
  }
  shown_ = std::make_shared<const report::Document>(std::move(*document));
  made_ = std::move(*report);
  as_made_->setText(
      QStringLiteral("This is the report as it was made on %1 with %2. It does not follow what was changed since.")
          .arg(day_and_time(made_->made), text(made_->program)));
  as_made_->show();
  today_->setVisible(answer_ != nullptr);
  acts_->show();
  say({});
  show_pages();
}

void ReportScreen::save(const QString& ending) {
  const auto trial = session_.trial();
  if (!shown_ || !trial || pdf_) return;
  const QString day = made_ ? QLatin1Char('-') + text(iso_text(made_->made).substr(0, 10)) : QString();
  const QString suggested = QStringLiteral("trial-%1-report%2.%3").arg(trial->draft.number).arg(day, ending);
  const QString path = prompt_(suggested, QStringLiteral("%1 (*.%2)").arg(ending.toUpper(), ending));
  if (path.isEmpty()) return;
  path_ = path;
  ending_ = ending;
  if (ending == QLatin1String("pdf")) {
    pdf_ = std::make_unique<PageMaker>(shown_, paper_, PageMaker::Out::pdf);
    acts_->setEnabled(false);
    saving_.start();
    return;
  }
  write(QByteArray::fromStdString(report::to_html(
      *shown_, [](const report::Figure& figure) { return figure_svg(figure, 680, light_tokens()).toStdString(); })));
}

void ReportScreen::save_step() {
  QElapsedTimer slice;
  slice.start();
  bool more = true;
  while (more && slice.elapsed() < painting_slice_ms) more = pdf_->step();
  show_progress(QStringLiteral("Making the PDF"), pdf_->share());
  if (more) return;
  saving_.stop();
  const QByteArray bytes = pdf_->take_pdf();
  pdf_.reset();
  hide_progress();
  acts_->setEnabled(true);
  write(bytes);
}

void ReportScreen::write(const QByteArray& bytes) {
  bool done = false;
  const QString sentence = save_said(path_, bytes, &done);
  say(sentence, !done);
  if (!done) return;
  keep();
  emit saved(path_);
}

// What was handed out is kept; a report of before is kept already, and a book that is only read keeps nothing.
void ReportScreen::keep() {
  if (made_ || session_.read_only()) return;
  const auto kept = session_.keep_report({{},
                                          answer_->unmasked.trial().id(),
                                          {},
                                          shown_->meta.program,
                                          shown_->meta.title,
                                          ending_.toUpper().toStdString(),
                                          report::document_text(*shown_)});
  if (!kept) say(said_->text() + QLatin1Char('\n') + text(wording::sentence(kept.error())), true);
}

}  // namespace likeleaf::ui
