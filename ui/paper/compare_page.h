#pragma once
// Where two entries of the same paper sheet differ, field by field.
#include <QScrollArea>
#include <vector>

#include "core/base/style.h"
#include "core/session/taster_port.h"

class QVBoxLayout;

namespace likeleaf::ui {

/// Each mismatch with both values: choose one, or type what the paper says. Under them what was entered only once.
class ComparePage final : public QScrollArea {
  Q_OBJECT
 public:
  ComparePage(TasterPort& port, const Style& style, QWidget* parent);
  /// Reads the entries of these pairs again.
  void show_pairs(const std::vector<BlindServing>& pairs);
  void focus_first();
  /// What is chosen and typed with, in the order of Tab.
  [[nodiscard]] std::vector<QWidget*> controls() const;

 signals:
  void settled(int pair);  ///< place in the list that was shown

 private:
  void add_mismatch(QVBoxLayout* down, const BlindServing& serving, const Mismatch& mismatch);
  void add_once(QVBoxLayout* down, const BlindServing& serving, const LockReview& review);
  QString settle(const BlindServing& serving, const Mismatch& mismatch, const Entry& entry);
  QString retype(const BlindServing& serving, const Mismatch& mismatch, const QString& typed);
  void after_settling(const BlindServing& serving);

  TasterPort& port_;
  Style style_;
  std::vector<BlindServing> pairs_;
};

}  // namespace likeleaf::ui
