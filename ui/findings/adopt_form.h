#pragma once
#include <QWidget>
#include <functional>
#include <utility>
#include <vector>

#include "core/domain/trial.h"

class QCheckBox;
class QPushButton;

namespace likeleaf::ui {

class BlankLine;

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
  /// A refusal of the book, under the sentence.
  void refuse(const QString& sentence);

 signals:
  void adopted();
  void left();

 private:
  BlankLine* sentence_;
  BlankLine* from_when_;
  BlankLine* who_;
  BlankLine* review_;
  std::vector<std::pair<IdOf<Lot>, QCheckBox*>> leaves_;
};

}  // namespace likeleaf::ui
