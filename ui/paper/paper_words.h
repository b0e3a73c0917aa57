#pragma once
// What a lock of a paper sheet names first, and how its fields are called.
#include <QString>

#include "core/domain/attribute.h"
#include "core/domain/sheet.h"

namespace likeleaf::ui {

/// "Body", "Body · point" with a house word, "Aroma register: top notes".
QString field_name(const Attribute& attribute, const std::string& field);
/// "pair 2", "warm-up pair".
QString pair_name(const BlindServing& serving);
/// Blank boxes by cup, answers not given, contradictions and what was entered once; empty when there is
/// nothing to name. What differs between the entries is not here: it forbids the lock.
QString paper_lock_words(const LockReview& review, const BlindServing& serving, const Sheet& sheet,
                         const std::vector<Attribute>& attributes);
/// "Body, cup 417: first 7, second 1."
QString mismatch_words(const std::vector<Mismatch>& mismatches, char decimal_mark);

}  // namespace likeleaf::ui
