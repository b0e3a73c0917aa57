#pragma once
#include <QWidget>
#include <functional>
#include <utility>
#include <vector>

#include "core/base/result.h"
#include "core/domain/trial.h"

class QCheckBox;
class QLabel;
class QPushButton;

namespace likeleaf::ui {

class BlankLine;
class WhoAndWhy;

/// Sentence, leaves, from when, who, review date of a rule that the house takes over.
class AdoptForm final : public QWidget {
  Q_OBJECT
 public:
  /// Starts from the rule that stands, else from the one written before tasting.
  explicit AdoptForm(const Trial& trial, QWidget* parent = nullptr);
  /// What is written in it now.
  [[nodiscard]] AdoptedRule rule() const;
  /// Says at the field what is wrong with it; true when nothing is.
  bool complete();
  /// A refusal of the book, at the blank that it is about.
  void refuse(const Error& error);

 signals:
  void adopted();
  void left();

 private:
  BlankLine* sentence_;
  BlankLine* from_when_;
  BlankLine* who_;
  BlankLine* review_;
  std::vector<std::pair<IdOf<Lot>, QCheckBox*>> leaves_;
  QLabel* leaves_said_;
};

/// The other decision: the rule is not taken over, with who and why.
class LeaveForm final : public QWidget {
  Q_OBJECT
 public:
  explicit LeaveForm(const Trial& trial, QWidget* parent = nullptr);
  [[nodiscard]] AdoptedRule rule() const;
  bool complete();
  void refuse(const Error& error);

 signals:
  void decided();
  void left();

 private:
  AdoptedRule start_;
  WhoAndWhy* reason_;
};

}  // namespace likeleaf::ui
