#include "ui/brew/cooling_card.h"

#include <QLabel>
#include <QStringList>
#include <QVBoxLayout>

#include "core/wording/brew_text.h"
#include "ui/brew/brew_parts.h"
#include "ui/theme/theme.h"

namespace likeleaf::ui {

using namespace brewing;

namespace {

constexpr std::size_t most_lines = 4;

}  // namespace

CoolingCard::CoolingCard(const Style& style, QWidget* parent) : QFrame(parent), style_(style) {
  dress_as_card(this);
  const Tokens& t = tokens();
  auto* down = new QVBoxLayout(this);
  down->setContentsMargins(18, 14, 18, 12);
  down->setSpacing(6);
  down->addWidget(label(QStringLiteral("cooling, type a reading"), face(15), t.soft_ink, this));
  lines_ = label({}, face(15, Weight::medium), t.ink, this);
  lines_->setObjectName(QStringLiteral("cooling"));
  foot_ = label({}, face(15), t.soft_ink, this);
  down->addWidget(lines_);
  down->addWidget(foot_);
  down->addStretch(1);
}

void CoolingCard::show_cooling(const Plan& plan, const std::vector<const Brew*>& brews, const Moment& now) {
  const auto cooling = cooling_brews(plan, brews);
  QStringList lines;
  for (std::size_t i = cooling.size() - std::min(most_lines, cooling.size()); i < cooling.size(); ++i)
    lines << text(wording::cooling_text(cooling[i], now, style_));
  lines_->setText(lines.isEmpty() ? QStringLiteral("nothing is cooling yet") : lines.join(QLatin1Char('\n')));
  foot_->setText(text(wording::first_sip_text(plan, style_)));
}

}  // namespace likeleaf::ui
