#pragma once
#include <QString>
#include <vector>

#include "core/base/style.h"
#include "core/findings/attribute_finding.h"

namespace likeleaf::ui {

struct Answer;

/// What the start screen shows beside a trial: its findings in sentences.
struct TrialAnswer {
  struct Line {
    evidence::Word word = evidence::Word::noted;
    QString title, sentence;
  };
  QString headline, scope, rule;
  std::vector<Line> lines;
  QString empty;         ///< said instead, when there is nothing to show yet
  bool waiting = false;  ///< it is being worked out
};

TrialAnswer said(const Answer& answer, const Style& style);

}  // namespace likeleaf::ui
