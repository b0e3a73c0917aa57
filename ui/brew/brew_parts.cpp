#include "ui/brew/brew_parts.h"

#include <QComboBox>
#include <QFrame>
#include <QLabel>
#include <QPushButton>
#include <QSignalBlocker>

#include "core/acts/bench_sitting.h"
#include "core/wording/brew_text.h"
#include "core/wording/errors.h"
#include "ui/theme/theme.h"

namespace likeleaf::ui::brewing {

QLabel* label(const QString& words, const QFont& font, const QColor& color, QWidget* parent) {
  auto* l = new QLabel(words, parent);
  dress_as_label(l, font, color);
  return l;
}

void dress_as_label(QLabel* label, const QFont& font, const QColor& color) {
  label->setFont(font);
  label->setWordWrap(true);
  label->setTextFormat(Qt::PlainText);
  QPalette p = label->palette();
  p.setColor(QPalette::WindowText, color);
  label->setPalette(p);
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
  auto* f = new QFrame(parent);
  dress_as_card(f);
  return f;
}

void dress_as_card(QFrame* frame) {
  const Tokens& t = tokens();
  frame->setObjectName(QStringLiteral("card"));
  frame->setStyleSheet(QStringLiteral("QFrame#card{background:%1;border:1px solid %2;border-radius:8px;}")
                           .arg(t.sheet.name(), t.line.name()));
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

void fill_pairs(QComboBox* choice, const Trial& trial, int sitting) {
  std::vector<Entry> entries;
  for (const auto& pair : pairs_of_sitting(trial, sitting))
    entries.push_back({text(wording::pair_name(pair.place, pair.again)), text(pair.id.text())});
  fill(choice, entries);
}

std::optional<IdOf<Pair>> chosen_pair(const QComboBox* choice) {
  return IdOf<Pair>::parse(choice->currentData().toString().toStdString());
}

}  // namespace likeleaf::ui::brewing
