#include "ui/window/who_tastes.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

#include "ui/theme/theme.h"
#include "ui/widgets/paper_parts.h"

namespace likeleaf::ui {

WhoTastes::WhoTastes(QWidget* parent) : QWidget(parent) {
  auto* down = new QVBoxLayout(this);
  down->setContentsMargins(28, 28, 28, 28);
  down->setSpacing(12);
  auto* title = new QLabel(QStringLiteral("Who tastes?"), this);
  title->setFont(face(22, Weight::semi_bold));
  down->addWidget(title);
  message_ = new QLabel(this);
  message_->setObjectName(QStringLiteral("who_message"));
  message_->setWordWrap(true);
  message_->setFont(face(15));
  down->addWidget(message_);
  list_ = new QVBoxLayout;
  list_->setSpacing(10);
  down->addLayout(list_);
  down->addSpacing(16);
  auto* sheets = outlined_button(QStringLiteral("Print score &sheets…"), QStringLiteral("print_score_sheets"), this);
  sheets_ = sheets;
  connect(sheets, &QPushButton::clicked, this, &WhoTastes::sheets_wanted);
  down->addWidget(sheets, 0, Qt::AlignLeft);
  down->addStretch(1);
}

void WhoTastes::set_tasters(const std::vector<std::pair<QString, QString>>& tasters) {
  while (auto* item = list_->takeAt(0)) {
    if (auto* row = item->layout())
      while (auto* part = row->takeAt(0)) {
        delete part->widget();
        delete part;
      }
    delete item->widget();
    delete item;
  }
  for (std::size_t i = 0; i < tasters.size(); ++i) {
    auto* b = new QPushButton(
        tasters[i].second.isEmpty() ? tasters[i].first : tasters[i].first + QStringLiteral("   ") + tasters[i].second,
        this);
    b->setObjectName(QStringLiteral("taster_%1").arg(i));
    b->setMinimumHeight(52);
    b->setMaximumWidth(520);
    b->setFont(face(18));
    connect(b, &QPushButton::clicked, this, [this, i] { emit chosen(static_cast<int>(i)); });
    auto* paper = new QPushButton(QStringLiteral("Type in paper sheets"), this);
    paper->setObjectName(QStringLiteral("paper_%1").arg(i));
    paper->setAccessibleName(QStringLiteral("Type in paper sheets of %1").arg(tasters[i].first));
    paper->setMinimumHeight(52);
    paper->setFont(face(15));
    connect(paper, &QPushButton::clicked, this, [this, i] { emit paper_wanted(static_cast<int>(i)); });
    auto* row = new QHBoxLayout;
    row->setSpacing(12);
    row->addWidget(b, 1);
    row->addWidget(paper);
    row->addStretch(1);
    list_->addLayout(row);
    setTabOrder(paper, sheets_);
  }
}

void WhoTastes::set_message(const QString& message) {
  message_->setText(message);
  message_->setVisible(!message.isEmpty());
}

}  // namespace likeleaf::ui
