#pragma once
#include <QPointer>
#include <memory>

#include "core/base/style.h"
#include "ui/findings/findings_work.h"
#include "ui/widgets/paper_parts.h"
#include "ui/widgets/path_prompt.h"

class QScrollArea;

namespace likeleaf::ui {

/// The charts first, tables one click behind: overview, finish, by leaf, by taster, pairs, aroma, words, all numbers;
/// only what this trial has is offered.
class ChartCard final : public Card {
  Q_OBJECT
 public:
  /// Begins with the view of that number, the first where there is none.
  ChartCard(std::shared_ptr<const Answer> answer, const Style& style, PathPrompt prompt, int view,
            QWidget* parent = nullptr);

 signals:
  void view_chosen(int view);

 private:
  void show_view(int view);

  std::shared_ptr<const Answer> answer_;
  Style style_;
  PathPrompt prompt_;
  QScrollArea* area_;
};

}  // namespace likeleaf::ui
