#pragma once
// The report for staff: headline, what we did, the rule, a picture, how we brewed, what we do not know; taste it
// yourself with its answer overleaf; then the annex with all numbers.
#include <string>

#include "core/base/style.h"
#include "core/report/document.h"

namespace likeleaf::report {

struct ReportSettings {
  Style style;
  std::string program = "Likeleaf";
};

Document staff_report(const evidence::Findings& findings, const Unmasked& unmasked, const ReportSettings& settings);

/// The findings as plain lines for the command line: headline, scope, a sentence an attribute, rule, reasons, numbers.
std::string findings_text(const evidence::Findings& findings, const Unmasked& unmasked, const Style& style);

}  // namespace likeleaf::report
