#include "ui/window/who_tastes.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

#include "ui/theme/theme.h"
#include "ui/widgets/paper_parts.h"
#include "ui/widgets/quiet.h"

namespace likeleaf::ui {

WhoTastes::WhoTastes(QWidget* parent) : QWidget(parent) {
  auto* around = new QHBoxLayout(this);
  around->setContentsMargins(28, 56, 28, 28);
  auto* column = new QWidget(this);
  column->setMaximumWidth(760);
  around->addStretch(1);
  around->addWidget(column, 8);
  around->addStretch(1);
  auto* down = new QVBoxLayout(column);
  down->setContentsMargins(0, 0, 0, 0);
  down->setSpacing(12);
  down->addWidget(plain_label(QStringLiteral("Who tastes?"), face(22, Weight::semi_bold), tokens().ink, column));
  down->addWidget(plain_label(QStringLiteral("Choose yourself. From here on nothing is on screen but your own pairs."),
                              face(15), tokens().soft_ink, column));
  message_ = plain_label({}, face(15), tokens().caution, column);
  message_->setObjectName(QStringLiteral("who_message"));
  message_->hide();
  down->addWidget(message_);
  down->addSpacing(8);
  list_ = new QVBoxLayout;
  list_->setSpacing(12);
  down->addLayout(list_);
  down->addSpacing(16);
  auto* sheets = outlined_button(QStringLiteral("Print score &sheets…"), QStringLiteral("print_score_sheets"), column);
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
    const auto& [alias, line] = tasters[i];
    auto* b = new QuietButton({}, QuietButton::Look::outlined, this);
    b->setObjectName(QStringLiteral("taster_%1").arg(i));
    b->setAccessibleName(line.isEmpty() ? alias : alias + QStringLiteral(", ") + line);
    b->setMinimumHeight(64);
    auto* across = new QHBoxLayout(b);
    across->setContentsMargins(20, 0, 20, 0);
    auto* name = plain_label(alias, face(19, Weight::semi_bold), tokens().ink, b);
    auto* how_far = plain_label(line, face(15), tokens().soft_ink, b);
    how_far->setAlignment(Qt::AlignRight | Qt::AlignVCenter);
    // The whole of the button is the button.
    for (auto* label : {name, how_far}) label->setAttribute(Qt::WA_TransparentForMouseEvents);
    across->addWidget(name, 1);
    across->addWidget(how_far, 1);
    connect(b, &QPushButton::clicked, this, [this, i] { emit chosen(static_cast<int>(i)); });
    auto* paper = new QuietButton(QStringLiteral("type in paper sheets"), QuietButton::Look::bare, this);
    paper->setObjectName(QStringLiteral("paper_%1").arg(i));
    paper->setAccessibleName(QStringLiteral("Type in paper sheets of %1").arg(tasters[i].first));
    paper->setMinimumHeight(52);
    connect(paper, &QPushButton::clicked, this, [this, i] { emit paper_wanted(static_cast<int>(i)); });
    auto* row = new QHBoxLayout;
    row->setSpacing(12);
    row->addWidget(b, 1);
    row->addWidget(paper);
    list_->addLayout(row);
    setTabOrder(paper, sheets_);
    if (i == 0) b->setFocus();
  }
}

void WhoTastes::set_message(const QString& message) {
  message_->setText(message);
  message_->setVisible(!message.isEmpty());
}

}  // namespace likeleaf::ui
