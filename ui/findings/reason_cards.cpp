#include "ui/findings/reason_cards.h"

#include <QGridLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QVBoxLayout>
#include <algorithm>

#include "ui/widgets/paper_parts.h"
#include "ui/widgets/qt_text.h"

namespace likeleaf::ui {
namespace {

constexpr int across = 4;

}  // namespace

ReasonCards::ReasonCards(const std::vector<wording::Reason>& reasons, QWidget* parent) : QWidget(parent) {
  auto* down = new QVBoxLayout(this);
  down->setContentsMargins(0, 0, 0, 0);
  down->setSpacing(4);
  auto* head = new QHBoxLayout;
  head->setSpacing(20);
  auto* title = label(QStringLiteral("Why believe it"), face(15, Weight::semi_bold), tokens().ink, this);
  title->setWordWrap(false);
  head->addWidget(title);
  down->addLayout(head);
  auto* cards = new QWidget(this);
  grid_ = new QGridLayout(cards);
  grid_->setContentsMargins(0, 0, 0, 0);
  grid_->setSpacing(12);
  for (int i = 0; i < across; ++i) grid_->setColumnStretch(i, 1);
  down->addWidget(cards);
  // Every caution is in sight; what is left of the row goes to the others in their own order.
  auto room = std::max<std::ptrdiff_t>(across, std::ranges::count_if(reasons, &wording::Reason::amber)) -
              std::ranges::count_if(reasons, &wording::Reason::amber);
  std::vector<wording::Reason> behind;
  for (const auto& reason : reasons) {
    const bool shown = reason.amber || room > 0;
    if (shown && !reason.amber) --room;
    shown ? add(reason) : behind.push_back(reason);
  }
  if (behind.empty()) {
    head->addStretch(1);
    return;
  }
  QStringList names;
  for (const auto& reason : behind) names << text(reason.title);
  auto* more =
      quiet_button(QStringLiteral("also: ") + names.join(QStringLiteral(", ")), QStringLiteral("more_reasons"), this);
  more->setAccessibleName(QStringLiteral("Show the other reasons: ") + names.join(QStringLiteral(", ")));
  head->addWidget(more);
  head->addStretch(1);
  connect(more, &QPushButton::clicked, this, [this, more, behind = std::move(behind)] {
    more->hide();
    for (const auto& reason : behind) add(reason);
  });
}

void ReasonCards::add(const wording::Reason& reason) {
  const Tokens& t = tokens();
  auto* card = new Card(grid_->parentWidget());
  card->setObjectName(reason.amber ? QStringLiteral("reason_caution") : QStringLiteral("reason"));
  card->setAccessibleName(text(reason.title));
  card->setAccessibleDescription(text(reason.text));
  auto* down = new QVBoxLayout(card);
  down->setContentsMargins(14, 8, 14, 8);
  down->setSpacing(1);
  // Amber is never the only sign.
  const QString title = reason.amber ? QStringLiteral("Caution: ") + text(reason.title) : text(reason.title);
  down->addWidget(label(title, face(15, Weight::semi_bold), reason.amber ? t.caution : t.ink, card));
  down->addWidget(label(text(reason.text), face(15), t.soft_ink, card));
  down->addStretch(1);
  grid_->addWidget(card, at_ / across, at_ % across);
  ++at_;
}

}  // namespace likeleaf::ui
