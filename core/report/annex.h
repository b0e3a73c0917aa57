#pragma once
// The back of a report: every number, every record, the three digests.
#include <vector>

#include "core/base/style.h"
#include "core/report/document.h"

namespace likeleaf::report {

/// Begins on a page of its own.
void add_annex(const evidence::Findings& findings, const Unmasked& unmasked, const Style& style,
               std::vector<Block>& out);

}  // namespace likeleaf::report
