#pragma once
// Over every page of a taster: who, where in the sitting, what is kept, and the way out.
#include <QWidget>
#include <vector>

#include "core/session/news.h"

class QLabel;
class QPushButton;

namespace likeleaf::ui {

class Dashes;

class TasteHead final : public QWidget {
  Q_OBJECT
 public:
  explicit TasteHead(QWidget* parent);
  enum class Pair { done, now, to_come };
  void set_who(const QString& alias, const QString& sitting);
  /// A dash a pair, and in words the one of now.
  void set_pairs(const std::vector<Pair>& pairs, const QString& words);
  void hear(const Kept& news);

 signals:
  void retry_wanted();
  void leave_wanted();

 private:
  QLabel *who_, *sitting_, *place_, *kept_;
  Dashes* dashes_;
  QPushButton *retry_, *leave_;
};

}  // namespace likeleaf::ui
