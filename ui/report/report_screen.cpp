#include "ui/report/report_screen.h"

#include <QButtonGroup>
#include <QHBoxLayout>
#include <QLabel>
#include <QScrollArea>
#include <QVBoxLayout>

#include "core/wording/errors.h"
#include "ui/charts/charts.h"
#include "ui/widgets/paper_parts.h"

namespace likeleaf::ui {
namespace {

QString text(const std::string& s) {
  return QString::fromStdString(s);
}

constexpr double preview_scale = 0.95;  // an A4 page then stands about 750 pixels wide

}  // namespace

ReportScreen::ReportScreen(Session& session, const Style& style, QWidget* parent)
    : QWidget(parent), session_(session), style_(style) {
  setObjectName(QStringLiteral("report_screen"));
  setAccessibleName(QStringLiteral("Report"));
  const Tokens& t = tokens();
  auto* across = new QHBoxLayout(this);
  across->setContentsMargins(28, 18, 28, 0);
  across->setSpacing(28);
  auto* left = new QVBoxLayout;
  left->setSpacing(12);
  left->addWidget(label(QStringLiteral("The report for staff"), face(22, Weight::semi_bold), t.ink, this));
  acts_ = new QWidget(this);
  auto* acts = new QVBoxLayout(acts_);
  acts->setContentsMargins(0, 0, 0, 0);
  acts->setSpacing(12);
  acts->addWidget(label(
      QStringLiteral(
          "The first page is the answer, the next to taste it yourself with its answer overleaf, then every number."),
      face(15), t.soft_ink, acts_));
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
  left->addWidget(acts_);
  said_ = label({}, face(15), t.soft_ink, this);
  said_->setObjectName(QStringLiteral("report_said"));
  left->addWidget(said_);
  left->addStretch(1);
  across->addLayout(left, 3);
  scroll_ = new QScrollArea(this);
  scroll_->setObjectName(QStringLiteral("preview"));
  scroll_->setAccessibleName(QStringLiteral("Preview of the report"));
  scroll_->setWidgetResizable(true);
  scroll_->setFrameShape(QFrame::NoFrame);
  across->addWidget(scroll_, 8);
  work_.on_done = [this](const AnswerResult& result) {
    if (!result) {
      show_closed(text(wording::sentence(result.error())));
      return;
    }
    answer_ = *result;
    say({});
    acts_->show();
    stale_ = true;
    if (isVisible()) show_pages();
  };
  changes_ = session_.on_change([this](const Notice& notice) {
    switch (notice.part) {
      case Part::unmask:
      case Part::rule:
      case Part::exclusions:
      case Part::amendments:
      case Part::seal:
      case Part::plan:
        refresh();
        break;
      default:
        break;
    }
  });
  refresh();
}

ReportScreen::~ReportScreen() {
  changes_ = Subscription();
}

void ReportScreen::say(const QString& sentence, bool caution) {
  QPalette p = said_->palette();
  p.setColor(QPalette::WindowText, caution ? tokens().caution : tokens().soft_ink);
  said_->setPalette(p);
  said_->setText(sentence);
}

void ReportScreen::show_closed(const QString& sentence) {
  answer_.reset();
  acts_->hide();
  delete scroll_->takeWidget();
  say(sentence);
}

void ReportScreen::refresh() {
  work_.stop();
  const auto trial = session_.trial();
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

void ReportScreen::show_pages() {
  if (!answer_) return;
  stale_ = false;
  const double ratio = devicePixelRatioF();
  const auto images = page_images(answer_->document, paper_, preview_scale * ratio);
  auto* holder = new QWidget;
  auto* down = new QVBoxLayout(holder);
  down->setContentsMargins(0, 0, 12, 20);
  down->setSpacing(16);
  for (std::size_t i = 0; i < images.size(); ++i) {
    auto* page = new QLabel(holder);
    QPixmap picture = QPixmap::fromImage(images[i]);
    picture.setDevicePixelRatio(ratio);
    page->setPixmap(picture);
    page->setFrameShape(QFrame::NoFrame);
    page->setObjectName(QStringLiteral("page"));
    page->setAccessibleName(QStringLiteral("Page %1 of %2").arg(i + 1).arg(images.size()));
    down->addWidget(page, 0, Qt::AlignHCenter);
  }
  if (!images.empty())
    holder->findChild<QLabel*>(QStringLiteral("page"))
        ->setAccessibleDescription(text(report::to_text(answer_->document)));
  down->addStretch(1);
  scroll_->setWidget(holder);
}

void ReportScreen::save(const QString& ending) {
  if (!answer_) return;
  const QString suggested = QStringLiteral("trial-%1-report.%2").arg(answer_->unmasked.plan().plan.number).arg(ending);
  const QString path = prompt_(suggested, QStringLiteral("%1 (*.%2)").arg(ending.toUpper(), ending));
  if (path.isEmpty()) return;
  const QByteArray bytes =
      ending == QLatin1String("pdf")
          ? pdf_bytes(answer_->document, paper_)
          : QByteArray::fromStdString(report::to_html(answer_->document, [](const report::Figure& figure) {
              return figure_svg(figure, 680, light_tokens()).toStdString();
            }));
  bool done = false;
  say(save_said(path, bytes, &done), !done);
  if (done) emit saved(path);
}

}  // namespace likeleaf::ui
