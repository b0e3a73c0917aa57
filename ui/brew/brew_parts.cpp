#include "ui/brew/brew_parts.h"

#include <QComboBox>
#include <QFrame>
#include <QLabel>
#include <QPushButton>
#include <QSignalBlocker>

#include "core/wording/errors.h"
#include "ui/theme/theme.h"

namespace likeleaf::ui::brewing {

QLabel* label(const QString& words, const QFont& font, const QColor& color, QWidget* parent) {
  auto* l = new QLabel(words, parent);
  l->setFont(font);
  l->setWordWrap(true);
  l->setTextFormat(Qt::PlainText);
  QPalette p = l->palette();
  p.setColor(QPalette::WindowText, color);
  l->setPalette(p);
  return l;
}

QPushButton* button(const QString& words, const char* object, QWidget* parent, bool filled) {
  const Tokens& t = tokens();
  auto* b = new QPushButton(words, parent);
  b->setObjectName(QString::fromLatin1(object));
  b->setMinimumHeight(filled ? 54 : 44);
  b->setFont(face(filled ? 18 : 15, Weight::semi_bold));
  b->setAutoDefault(true);
  const QString base = filled ? QStringLiteral("background:%1;color:%2;").arg(t.action.name(), t.on_action.name())
                              : QStringLiteral("background:transparent;color:%1;").arg(t.action.name());
  b->setStyleSheet(
      QStringLiteral("QPushButton{%1border:1px solid %2;border-radius:6px;padding:0 18px;outline:none;}"
                     "QPushButton:focus{border:3px solid %3;padding:0 16px;}"
                     "QPushButton:disabled{background:transparent;color:%4;border-color:%5;}")
          .arg(base, t.action.name(), filled ? t.caution.name() : t.action.name(), t.soft_ink.name(), t.line.name()));
  return b;
}

QComboBox* choice(const QString& name, const char* object, QWidget* parent) {
  auto* c = new QComboBox(parent);
  c->setObjectName(QString::fromLatin1(object));
  c->setAccessibleName(name);
  c->setMinimumHeight(36);
  c->setSizeAdjustPolicy(QComboBox::AdjustToContents);
  return c;
}

QFrame* card(QWidget* parent) {
  const Tokens& t = tokens();
  auto* f = new QFrame(parent);
  f->setObjectName(QStringLiteral("card"));
  f->setStyleSheet(QStringLiteral("QFrame#card{background:%1;border:1px solid %2;border-radius:8px;}")
                       .arg(t.sheet.name(), t.line.name()));
  return f;
}

QString said(const Error& error) {
  return text(wording::sentence(error));
}

void fill(QComboBox* choice, const std::vector<Entry>& entries) {
  std::vector<Entry> now;
  for (int i = 0; i < choice->count(); ++i) now.push_back({choice->itemText(i), choice->itemData(i).toString()});
  if (now == entries) return;
  const QString chosen = choice->currentData().toString();
  const QSignalBlocker quiet(choice);
  choice->clear();
  for (const auto& e : entries) choice->addItem(e.name, e.id);
  const int at = choice->findData(chosen);
  choice->setCurrentIndex(at >= 0 ? at : (entries.empty() ? -1 : 0));
}

}  // namespace likeleaf::ui::brewing
