#pragma once
#include <QPointer>
#include <memory>

#include "core/session/session.h"
#include "ui/findings/findings_work.h"
#include "ui/widgets/paper_parts.h"

class QLabel;
class QVBoxLayout;

namespace likeleaf::ui {

/// The rule as it was written before tasting, whether it is met, and what the house decided about it: adopted, left, or
/// nothing yet. Its forms open in its own place.
class RuleBlock final : public SideRule {
  Q_OBJECT
 public:
  RuleBlock(Session& session, const Style& style, std::shared_ptr<const Answer> answer, QWidget* parent = nullptr);
  /// Re-reads what was decided.
  void fill();

 private:
  void add_acts(QVBoxLayout* down, QWidget* inside);
  void put_form(QWidget* form);
  void show_adopt_form();
  void show_leave_form();
  void adopt(AdoptedRule rule);

  Session& session_;
  Style style_;
  std::shared_ptr<const Answer> answer_;
  QPointer<QLabel> said_;
};

}  // namespace likeleaf::ui
