#include "ui/window/who_tastes.h"

#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

#include "ui/theme/theme.h"

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
  down->addStretch(1);
}

void WhoTastes::set_tasters(const std::vector<std::pair<QString, QString>>& tasters) {
  while (auto* item = list_->takeAt(0)) {
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
    list_->addWidget(b);
  }
}

void WhoTastes::set_message(const QString& message) {
  message_->setText(message);
  message_->setVisible(!message.isEmpty());
}

}  // namespace likeleaf::ui
