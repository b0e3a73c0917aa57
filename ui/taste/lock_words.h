#pragma once
#include <QString>
#include <vector>

#include "core/domain/attribute.h"
#include "core/domain/sheet.h"

namespace likeleaf::ui {

/// What is still blank, cup by cup, and where direct answer and scores disagree; empty when there is nothing to name.
QString lock_words(const LockReview& review, const std::vector<Attribute>& attributes);

}  // namespace likeleaf::ui
