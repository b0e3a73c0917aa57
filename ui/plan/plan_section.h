#pragma once
// What every part of the plan screen shares: how an edit goes out, and how a list of rows follows the plan.
#include <QString>
#include <QStringList>
#include <QWidget>
#include <functional>
#include <string>
#include <vector>

#include "core/base/style.h"
#include "core/session/session.h"
#include "ui/theme/theme.h"

class QBoxLayout;
class QCheckBox;
class QComboBox;
class QLabel;
class QPushButton;
class QVBoxLayout;

namespace likeleaf::ui {

class BlankLine;

inline QString qt(const std::string& s) {
  return QString::fromStdString(s);
}

/// Plain text that wraps.
QLabel* words(const QString& s, const QFont& font, const QColor& color, QWidget* parent);

/// Sends edits of the trial's plan to the session; the plan on the bench is the only one there is.
class PlanEditor {
 public:
  PlanEditor(Session& session, const Style& style) : session_(session), style_(style) {}
  [[nodiscard]] Session& session() const { return session_; }
  [[nodiscard]] const Style& style() const { return style_; }
  /// Nothing may be changed: sealed, a book for reading only, or no trial.
  [[nodiscard]] bool locked() const;
  /// Applies a change to a copy of the draft and sends it; the error in words, empty when it was taken.
  QString edit(const std::function<Result<void>(Plan&)>& change) const;
  /// An edit that cannot be wrong by itself.
  QString set(const std::function<void(Plan&)>& change) const;

 private:
  Session& session_;
  const Style& style_;
};

/// A part of the plan. Its rows are made again when signature() changes, and only their values are set otherwise, so
/// that the focus stays where the person is.
class PlanSection : public QWidget {
 public:
  explicit PlanSection(PlanEditor& editor, QWidget* parent);
  /// Returns true when the rows were made again.
  bool refresh(const Plan& plan);

 protected:
  using Read = std::function<QString(const Plan&)>;
  using Write = std::function<Result<void>(Plan&, const QString&)>;
  virtual QString signature(const Plan& plan) const = 0;
  virtual void build(const Plan& plan, QVBoxLayout* down) = 0;

  void bind(std::function<void(const Plan&)> show) { shows_.push_back(std::move(show)); }
  QLabel* heading(const QString& text, QVBoxLayout* down, double pixels = 15);
  QLabel* soft(const QString& text, QBoxLayout* into);
  BlankLine* blank(const QString& name, const QString& object, const Read& read, const Write& write,
                   const QString& placeholder = {});
  /// A blank whose edit does not go through the plan (registers): `write` returns the sentence of a refusal.
  BlankLine* own_blank(const QString& name, const QString& object, const Read& read,
                       const std::function<QString(const QString&)>& write, const QString& placeholder = {});
  /// Small − and + beside a number, for the mouse.
  void steppers(const QString& name, const QString& object, QBoxLayout* into,
                const std::function<void(Plan&, int)>& step);
  /// A choice; a label with the chosen words where nothing may be changed.
  QWidget* choice(const QString& name, const QString& object, const std::function<QStringList(const Plan&)>& items,
                  const std::function<int(const Plan&)>& read, const std::function<void(Plan&, int)>& write);
  QWidget* tick(const QString& name, const QString& object, const std::function<bool(const Plan&)>& read,
                const std::function<void(Plan&, bool)>& write);
  /// A quiet button; nullptr where nothing may be changed.
  QPushButton* act(const QString& text, const QString& name, const QString& object, const std::function<void()>& run);
  /// A refusal with no field of its own.
  void say(const QString& sentence);
  /// Puts the focus into the named widget with its text selected.
  void go_to(const QString& object);

  PlanEditor& editor_;

 private:
  void rebuild(const Plan& plan);

  QVBoxLayout* down_;
  QWidget* body_ = nullptr;
  QLabel* refusal_;
  QString shown_;
  std::vector<std::function<void(const Plan&)>> shows_;
};

}  // namespace likeleaf::ui
