#pragma once
// Findings for machines: JSON, numbers with 12 significant digits, C locale; neither seed nor salt.
#include <string>

#include "core/findings/findings.h"

namespace likeleaf::exchange {

/// Keys are documented in resources/findings.schema.json. Absent values are left out, never null or NaN.
std::string findings_json(const evidence::Findings& findings, const Unmasked& unmasked);

}  // namespace likeleaf::exchange
