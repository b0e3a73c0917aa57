#pragma once
#include <QString>
#include <vector>

#include "core/base/style.h"
#include "core/session/session.h"

namespace likeleaf::ui {

/// What the start screen shows beside a trial: its findings in sentences.
struct TrialAnswer {
  struct Line {
    int word = 4;  ///< evidence::Word as a number
    QString title, sentence;
  };
  QString headline, scope, rule;
  std::vector<Line> lines;
  QString empty;  ///< said instead, when there is nothing to show yet
};

/// Reads the trial from the session's book and works out what it found; what stands in the way is said instead.
TrialAnswer answer_for(const Session& session, const store::LedgerRow& row, const Style& style);

}  // namespace likeleaf::ui
