#pragma once
// Small pieces of paper that Findings and Report are made of.
#include <QFrame>
#include <QPushButton>
#include <QString>

#include "core/report/document.h"
#include "ui/theme/theme.h"
#include "ui/widgets/path_prompt.h"

class QLabel;

namespace likeleaf::ui {

/// Plain text that wraps and can be selected with the mouse.
QLabel* label(const QString& text, const QFont& font, const QColor& color, QWidget* parent);
/// The one filled button of a screen.
QPushButton* filled_button(const QString& text, const QString& object_name, QWidget* parent);
/// A button with an outline.
QPushButton* outlined_button(const QString& text, const QString& object_name, QWidget* parent);
/// A word that can be pressed.
QPushButton* quiet_button(const QString& text, const QString& object_name, QWidget* parent);

/// A sheet with a thin line around it.
class Card : public QFrame {
  Q_OBJECT
 public:
  explicit Card(QWidget* parent = nullptr);

 protected:
  void paintEvent(QPaintEvent* event) override;
};

/// A green line at the left of what was written before tasting.
class SideRule : public QFrame {
  Q_OBJECT
 public:
  explicit SideRule(QWidget* parent = nullptr);

 protected:
  void paintEvent(QPaintEvent* event) override;
};

/// A report's table with its caption, to copy and to save as CSV.
class TableView final : public QWidget {
  Q_OBJECT
 public:
  TableView(report::Table table, QString file_stem, PathPrompt prompt, QWidget* parent = nullptr);

 private:
  [[nodiscard]] QByteArray csv() const;

  report::Table table_;
};

}  // namespace likeleaf::ui
