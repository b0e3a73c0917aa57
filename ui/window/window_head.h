#pragma once
#include <QWidget>

#include "ui/window/look.h"

class QAction;
class QLabel;
class QToolButton;

namespace likeleaf::ui {

class StageBar;

/// The head of the window: the trial at the left, the way through it, the book and "kept hh:mm:ss" at the right, and
/// how one likes to see it all.
class WindowHead final : public QWidget {
  Q_OBJECT
 public:
  explicit WindowHead(const Look& look, QWidget* parent = nullptr);
  [[nodiscard]] StageBar* bar() const { return bar_; }
  void show_trial(const QString& title, const QString& subtitle);
  void show_book(const QString& name);
  /// "kept 13:21:40", or that something is not; empty when nothing was typed yet.
  void show_kept(const QString& words);

 signals:
  void look_wanted(const likeleaf::ui::Look& look);

 private:
  QToolButton* make_view(const Look& look);

  StageBar* bar_;
  QLabel *title_, *subtitle_, *book_, *kept_;
};

}  // namespace likeleaf::ui
