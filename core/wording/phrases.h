#pragma once
// Pieces that sentences are put together from. Private to core/wording.
#include <string>
#include <string_view>
#include <vector>

#include "core/base/style.h"
#include "core/domain/trial.h"
#include "core/findings/attribute_finding.h"

namespace likeleaf::wording {

/// "1 pair", "3 pairs", with a no-break space.
std::string counted(int n, std::string_view one, std::string_view many);
/// "a, b and c".
std::string listed(const std::vector<std::string>& items);
/// The size of a difference in points: one decimal, or two where one would print a zero that is not one.
std::string points(double value, const Style& style);
/// Whether ratio() prints a one.
bool is_one_shown(double log_value);
/// "1.25" of ln 1.25.
std::string ratio(double log_value, const Style& style);
/// The attribute's name as sealed; its id when the plan does not have it.
std::string name_of(const SealedPlan& plan, const std::string& attribute);

/// Finish length is said as a ratio of times, everything else in points.
bool is_ratio(const evidence::AttributeFinding& finding);
/// "at 88 °C"; among several contrasts "at 88 °C than at 68 °C".
std::string at_b(const evidence::AttributeFinding& finding, const SealedPlan& plan, const Style& style, bool several);
/// "more bitter" or "less bitter", in the attribute's own words.
std::string direction(const evidence::AttributeFinding& finding, double value);
/// "1.1 to 2.7 more", or "1.1 to 2.4 more; 98.3 %" where it was not drawn at 95 %. The interval must be there.
std::string range_text(const evidence::AttributeFinding& finding, const Style& style);
/// "more bitter at 88 °C by 1.9 (1.1 to 2.7 more)".
std::string size_clause(const evidence::AttributeFinding& finding, const SealedPlan& plan, const Style& style,
                        bool several);

}  // namespace likeleaf::wording
