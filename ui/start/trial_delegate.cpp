#include "ui/start/trial_delegate.h"

#include <QListView>
#include <QPainter>

#include "ui/theme/theme.h"

namespace likeleaf::ui {
namespace {

constexpr int side = 14, above = 9, between = 2;

QFont font_of(qsizetype line) {
  return line == 0 ? face(15, Weight::semi_bold) : face(15);
}

int height_of(const QString& line, qsizetype which, int width) {
  return QFontMetrics(font_of(which)).boundingRect(QRect(0, 0, width, 1000), Qt::TextWordWrap, line).height();
}

int width_of(const QStyleOptionViewItem& option) {
  const auto* list = qobject_cast<const QListView*>(option.widget);
  return (list ? list->viewport()->width() : option.rect.width()) - 2 * side;
}

}  // namespace

void TrialDelegate::paint(QPainter* p, const QStyleOptionViewItem& option, const QModelIndex& index) const {
  const Tokens& t = tokens();
  const bool chosen = option.state.testFlag(QStyle::State_Selected);
  p->save();
  if (chosen) {
    p->fillRect(option.rect, t.band);
    p->fillRect(QRect(option.rect.topLeft(), QSize(4, option.rect.height())), t.action);
  } else {
    p->fillRect(QRect(option.rect.left() + side, option.rect.bottom(), option.rect.width() - 2 * side, 1), t.line);
  }
  if (option.state.testFlag(QStyle::State_HasFocus)) {
    p->setPen(QPen(t.action, 2));
    p->drawRect(option.rect.adjusted(1, 1, -1, -1));
  }
  const QStringList lines = index.data(Qt::DisplayRole).toString().split(QLatin1Char('\n'));
  const int width = option.rect.width() - 2 * side;
  int y = option.rect.top() + above;
  for (qsizetype i = 0; i < lines.size(); ++i) {
    const int height = height_of(lines[i], i, width);
    p->setFont(font_of(i));
    p->setPen(i == 0 ? t.ink : t.soft_ink);
    p->drawText(QRect(option.rect.left() + side, y, width, height), Qt::TextWordWrap, lines[i]);
    y += height + between;
  }
  p->restore();
}

QSize TrialDelegate::sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const {
  const QStringList lines = index.data(Qt::DisplayRole).toString().split(QLatin1Char('\n'));
  const int width = width_of(option);
  int height = 2 * above - between;
  for (qsizetype i = 0; i < lines.size(); ++i) height += height_of(lines[i], i, width) + between;
  return {width, height};
}

}  // namespace likeleaf::ui
