#pragma once
#include <QObject>
#include <QTimer>
#include <functional>
#include <memory>
#include <optional>

#include "core/session/session.h"
#include "ui/findings/findings_work.h"
#include "ui/start/trial_answer.h"

namespace likeleaf::ui {

/// The answer of the trial that is looked at, worked out away from the window's thread and known until forgotten: the
/// list asks for it again at every letter of a search.
class TrialAnswers final : public QObject {
  Q_OBJECT
 public:
  explicit TrialAnswers(std::shared_ptr<FindingsShelf> shelf, QObject* parent = nullptr);
  /// What is known now; while it waits, on_ready is heard when there is more to say. What stands in the way is said.
  TrialAnswer answer_for(const Session& session, const store::LedgerRow& row, const Style& style);
  void set_finder(Finder finder) { work_.set_finder(std::move(finder)); }
  /// The book may have changed.
  void forget();

  std::function<void()> on_ready;

 private:
  TrialAnswer begin(const Session& session, IdOf<Trial> id, const Style& style);

  FindingsWork work_;
  QTimer slow_;
  std::optional<IdOf<Trial>> of_;
  Style style_;
  TrialAnswer known_;
};

}  // namespace likeleaf::ui
